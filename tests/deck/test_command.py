"""`fastkit cards` as users and scripts see it."""

import json

import pytest
from click.testing import CliRunner

from fastkit.cli import cli


def run(*words):
    """Run the command in process, the way the entry point does, with its exit status."""
    from fastkit.cli.output import refusal_line
    from fastkit.errors import FastkitError

    result = CliRunner().invoke(cli, ["cards", *words])
    if isinstance(result.exception, FastkitError):
        return result.exception.status, result.stdout, refusal_line(result.exception)
    return result.exit_code, result.stdout, result.stderr


def test_list_json_has_id_title_entries():
    """The document that scripts rely on."""
    status, out, _ = run("--list", "--json", "--only", "gauge")
    cards = json.loads(out)["cards"]

    assert 0 == status
    assert {"id", "title", "entries"} == set(cards[0])
    assert "drive:T20" in next(c for c in cards if c["id"] == "gauge-hexalobular")["entries"]


def test_list_is_one_line_a_card_or_more():
    """The wide list names number, id, title and question."""
    status, out, _ = run("--list", "--only", "verify", "--wide")

    assert 0 == status
    assert "verify-the-print" in out and "Is this print true?" in out


def test_nothing_found_is_one_document():
    """Exit 1 still prints the document, with its reason and the nearest."""
    status, out, said = run("--only", "wibble", "--list", "--json")
    document = json.loads(out)

    assert 1 == status
    assert [] == document["cards"] and document["reason"] and document["nearest"]
    assert "nearest" in said


@pytest.mark.parametrize(
    "words", [("--for", "j.toml", "--page"), ("--for", "j.toml", "--only", "index")]
)
def test_options_that_exclude_each_other(words):
    """Said in one line, and nothing is written."""
    status, out, said = run(*words)

    assert (2, "") == (status, out)
    assert words[0] in said


@pytest.mark.parametrize("words", [("--size", "a7"), ("--paper", "a5"), ("--duplex", "both")])
def test_wrong_words_are_misuse(words):
    """An option word that is not one is exit 2 with nothing on standard output."""
    status, out, _ = run(*words)

    assert (2, "") == (status, out)


def test_file_is_written_and_kept(tmp_path):
    """The PDF lands where it was sent, is replaced when ours, and a foreign file stays."""
    target = tmp_path / "deck.pdf"
    words = ("--only", "verify", "--paper", "letter", "--mono", "--out", str(target))
    status, out, said = run(*words, "--json")

    assert 0 == status and target.read_bytes().startswith(b"%PDF-")
    assert str(target) == json.loads(out)["file"]
    assert "drawing" in said
    assert 0 == run(*words)[0]
    target.write_text("my notes")
    assert 2 == run(*words)[0]
    assert "my notes" == target.read_text()
    assert 0 == run(*words, "--force")[0]


def test_missing_folder_is_broken(tmp_path):
    """A file that cannot be written is exit 3."""
    status, out, said = run("--only", "verify", "--out", str(tmp_path / "no" / "deck.pdf"))

    assert (3, "") == (status, out)
    assert "cannot be written" in said


@pytest.fixture
def quick(monkeypatch):
    """What a page holds, without the minutes that working it out takes."""

    def content(store, progress, told):
        progress(0, 40)
        progress(40, 40)
        told("plans cannot be kept")
        return {"version": "0", "data": "0", "stuck": {"texts": ["x"]}, "torque": {"rows": []}}

    monkeypatch.setattr("fastkit.answers.grid.content", content)


def test_page_is_written_and_kept(tmp_path, quick):
    """One file, replaced when ours; a foreign one stays unless forced; progress on one's side."""
    target = tmp_path / "page.html"
    words = ("--page", "--only", "verify", "--out", str(target))
    status, out, said = run(*words, "--json")
    document = json.loads(out)

    assert 0 == status and target.read_text("utf-8").startswith("<!DOCTYPE html>")
    assert (str(target), target.stat().st_size) == (document["file"], document["bytes"])
    assert ["verify-the-print"] == [card["id"] for card in document["cards"]]
    assert "0 of 40 plans" in said and "40 of 40 plans" in said and "cannot be kept" in said
    assert 0 == run(*words)[0]
    for foreign in ("my notes", "<!DOCTYPE html>\n<title>fastkit cards</title>"):
        target.write_text(foreign)
        assert 2 == run(*words)[0]
        assert foreign == target.read_text()
    assert 0 == run(*words, "--force")[0]
    assert [target] == list(tmp_path.iterdir())


def test_page_is_the_same_twice(tmp_path, quick):
    """The same input, the same bytes."""
    first, second = tmp_path / "a.html", tmp_path / "b.html"
    for target in (first, second):
        assert 0 == run("--page", "--only", "torque-8.8", "--out", str(target))[0]

    assert first.read_bytes() == second.read_bytes()


def test_page_has_a_name_of_its_own(tmp_path, quick, monkeypatch):
    """In the folder for decks where there is one, else here."""
    monkeypatch.chdir(tmp_path)
    assert 0 == run("--page", "--only", "verify")[0]
    assert (tmp_path / "fastkit-page.html").is_file()
    (tmp_path / "cards_out").mkdir()
    assert 0 == run("--page", "--only", "verify")[0]
    assert (tmp_path / "cards_out" / "fastkit-page.html").is_file()


def test_page_holds_no_card_of_the_own_file(tmp_path, quick):
    """The maker's values that one keeps make cards of the deck, none of the page."""
    from fastkit.answers.notes import note_torque

    note_torque("zebra", "zebra cover", "23 N·m", "zebra book, page 4")
    target = tmp_path / "page.html"
    assert 0 == run("--page", "--only", "deck", "--out", str(target))[0]

    assert "zebra" in run("--list")[1].lower() or "own" in run("--list")[1].lower()
    assert b"zebra" not in target.read_bytes().lower()
