"""The phone page's torques: what it prints of a row is what `fastkit torque` prints of it."""

import json
from random import Random

import pytest
from click.testing import CliRunner

from fastkit.answers.grid_torque import read, torques
from fastkit.cli import cli

SPREAD = 240  # rows asked of the command
# of each kind of thread and class something, and what is likeliest to be asked
ALWAYS = (
    *(("M8x1.25", "8.8", name) for name in ("class-b", "oiled", "dry", "zinc-dry", "waxed")),
    *(("M6x1", grade, "class-b") for grade in ("4.8", "8.8", "10.9", "12.9", "A2-70", "A4-80")),
    ("M1.6x0.35", "8.8", "class-b"),
    ("M36x4", "8.8", "class-b"),
    ("M10x1", "10.9", "stainless-dry"),
    ("M27x1", "10.9", "zinc-dry"),  # the wrench gives way before the bolt: no window
    ("M30x1", "4.6", "class-a"),  # a wrench's error alone empties it
    ("1/4-20-UNC", "SAE-5", "oiled"),
    ("1/4-28-UNF", "A2-50", "dry"),
    ("1-8-UNC", "SAE-8", "anti-seize"),
    ("3/8-16-BSW", "A2-50", "stainless-paste"),
    ("3/8-20-BSF", "A193-B7", "greased"),
)


@pytest.fixture(scope="module")
def page(store):
    """The torque part, as a page would hold it."""
    return json.loads(json.dumps(torques(store), allow_nan=False))


def spread(store):
    """Rows of the materialised table, each thread, class and condition among them."""
    rows = store.execute("SELECT thread, grade, friction FROM torque ORDER BY 1, 2, 3").fetchall()
    picked = list(ALWAYS)
    for column in range(3):
        for value in sorted({row[column] for row in rows}):
            if value not in {row[column] for row in picked}:
                picked.append(Random(value).choice([row for row in rows if row[column] == value]))
    rest = [row for row in rows if row not in picked]
    return [*picked, *Random(7).sample(rest, max(SPREAD - len(picked), 0))]


def told(thread, grade, friction):
    """What `fastkit torque` prints on a screen, in one line."""
    result = CliRunner().invoke(cli, ["torque", thread, grade, "--friction", friction])
    assert result.exit_code in (0, 1), result.stderr
    return " ".join(result.stdout.split())


def test_rows_are_those_of_the_command(page, store):
    """Setting, window, clamp, what bounds it and where it twists off, or why there is none."""
    picked = spread(store)
    assert len(picked) >= 200
    for row in picked:
        screen, found = told(*row), read(page, *row)

        assert f"Not more: {found['limit']}" in screen, row
        assert f"Twists off at {found['twists_off']}." in screen, row
        if found["set"]:
            assert f"Set {found['set']} Window {found['low']} to {found['high']}." in screen, row
            assert f"Clamp at that setting: about {found['clamp']}," in screen, row
            assert not found["opens_it"]
        else:
            assert f"No setting does: {found['low']} to clamp enough" in screen, row
            assert f"at most {found['high']} to overload nothing" in screen, row
            assert all(f"opens it: {way}" in screen for way in found["opens_it"]), row
            assert found["opens_it"] and not found["clamp"]
    assert 1 <= sum(not read(page, *row)["set"] for row in picked) < len(picked) / 2


def test_every_row_of_the_table_is_on_the_page(page, store):
    """Each thread, class and condition that the compiled table holds, and no other."""
    rows = set(store.execute("SELECT thread, grade, friction FROM torque"))
    held = {
        (thread["id"], page["classes"][number]["id"], friction["id"])
        for thread in page["threads"]
        for number, _, _ in thread["classes"]
        for friction in page["frictions"]
    }

    assert rows == held


def test_threads_that_get_no_window_say_why(page):
    """Pipe, plug, conduit and self-tapping threads: the reason and the way instead."""
    others = {row["id"]: row for row in page["others"]}

    for thread in ("1/8-27-NPT", "G1/4", "ST4.2", "plug-M14x1.25", "R1/4"):
        result = CliRunner().invoke(cli, ["torque", thread, "8.8", "--json"])
        document = json.loads(result.stdout)
        assert (others[thread]["reason"], others[thread]["instead"]) == (
            document["reason"],
            document["published"],
        )


def test_cautions_stand_on_the_page(page):
    """The maker's specification governs, and what was assumed is said."""
    assert "maker's specification governs" in page["caution"]
    assert page["assumed"]
