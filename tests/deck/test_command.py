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
    """The plain list names number, id, title and question."""
    status, out, _ = run("--list", "--only", "verify")

    assert 0 == status
    assert "verify-the-print" in out and "Is this print true?" in out


def test_nothing_found_is_one_document():
    """Exit 1 still prints the document, with its reason and the nearest."""
    status, out, said = run("--only", "wibble", "--list", "--json")
    document = json.loads(out)

    assert 1 == status
    assert [] == document["cards"] and document["reason"] and document["nearest"]
    assert "nearest" in said


@pytest.mark.parametrize("words", [("--page",), ("--for", "j.toml", "--only", "index")])
def test_later_options_refuse_plainly(words):
    """What is not built yet says so in one line and writes nothing."""
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
