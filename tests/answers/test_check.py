"""An installation that is sound says so; one that is not says what is wrong, all of it."""

import shutil
import sqlite3

import pytest

from fastkit.answers.check import Shares, check, memory_rows, shares
from fastkit.answers.held import held, out_of_date
from fastkit.errors import Broken
from fastkit.reference import store as files
from fastkit.version import VERSION


@pytest.fixture
def copy(database, tmp_path):
    path = tmp_path / "reference.db"
    shutil.copy(database, path)
    return path


def spoil(path, *statements):
    connection = sqlite3.connect(path)
    for statement in statements:
        connection.execute(statement)
    connection.commit()
    connection.close()


def test_a_sound_one(database):
    answer = check(database)

    assert answer.ok and () == answer.problems and VERSION == answer.version
    assert {"formula", "outside", "copied", "memory", "judgement"} == answer.checked.keys()
    assert answer.rows is not None and answer.rows > sum(answer.checked.values())


def test_a_missing_one(tmp_path):
    answer = check(tmp_path / "none.db")

    assert not answer.ok and 1 == len(answer.problems) and answer.rows is None


def test_a_link_that_leads_nowhere(copy):
    spoil(copy, "PRAGMA foreign_keys = OFF", "DELETE FROM source WHERE id = 'iso-261'")

    problems = check(copy).problems

    assert problems and all("names a row that source does not hold" in p for p in problems)


def test_damaged_pages(copy):
    content = bytearray(copy.read_bytes())
    for at in range(len(content) // 2, len(content) // 2 + 40_000, 64):
        content[at : at + 8] = b"\xff" * 8
    copy.write_bytes(content)

    assert not check(copy).ok


def test_lost_tables_and_numbers(copy):
    spoil(copy, "DELETE FROM meta WHERE key = 'rows'")
    assert any("does not say what it holds" in problem for problem in check(copy).problems)

    spoil(copy, "DROP TABLE meta")
    assert not check(copy).ok


def test_another_version_of_the_data(copy):
    spoil(copy, "UPDATE meta SET value = '000000000000' WHERE key = 'data_version'")

    assert any("out of date" in problem for problem in check(copy).problems)


def test_another_layout(copy):
    spoil(copy, "UPDATE meta SET value = '0' WHERE key = 'schema_version'")

    assert any("laid out in version 0; expected 1" in problem for problem in check(copy).problems)


def test_what_is_held(store):
    assert held(store).rows > 1000
    assert 12 == len(held(store).data_version)


def test_nothing_is_held(monkeypatch, tmp_path):
    monkeypatch.setattr(files, "BUILT", tmp_path / "reference.db")

    with pytest.raises(Broken):
        held()
    assert out_of_date() is None


def test_shares_count_every_hand_kept_row_once(store, database):
    found = shares(store=store)

    assert sum(check(database).checked.values()) == (
        found.words + found.judgement + sum(found.published.values())
    )
    assert {"formula", "outside", "copied", "memory"} == found.published.keys()


def test_words_and_errata_are_no_facts(store):
    words = sum(
        store.execute(f"SELECT count(*) FROM {table}").fetchone()[0]
        for table in ("alias", "saying", "phrase", "erratum")
    )

    assert words == shares(store=store).words


def test_a_share_is_of_numbers_of_facts_or_of_all():
    found = Shares(
        words=7,
        published={"formula": 1, "outside": 2, "copied": 4, "memory": 1},
        numbers={"formula": 1, "outside": 2, "copied": 2, "memory": 0},
        judgement=8,
    )

    assert 3 / 5 == found.share_of_numbers("formula", "outside")
    assert 3 / 8 == found.share("formula", "outside")
    assert 3 / 16 == found.share_of_all("formula", "outside")
    assert 0 == Shares(0, {"memory": 0}, {"memory": 0}, 0).share("memory")


def test_numbers_are_some_of_the_facts(store):
    found = shares(store=store)

    assert all(found.numbers[state] <= number for state, number in found.published.items())
    assert found.numbers.keys() == found.published.keys()
    assert 0 < sum(found.numbers.values()) < sum(found.published.values())


def test_each_row_from_memory_is_listed(store, database):
    rows = memory_rows(store=store)

    assert check(database).checked["memory"] == len(rows) == len(set(rows))
    assert all(row.key and row.source and row.locator for row in rows)


def test_the_own_file_is_looked_at_too():
    """A damaged file of the user's is named; a sound one is counted."""
    from fastkit.answers.shelf import add_stock
    from fastkit.shopbook import place

    assert check().own is None
    add_stock("M6x20 hexagon screws", 12)
    found = check()
    assert found.own is not None and found.own.entries == 1
    raw = bytearray(place.file().read_bytes())
    raw[200:] = bytes(len(raw) - 200)
    place.file().write_bytes(raw)

    assert not check().ok
    assert "is damaged" in check().problems[-1]
