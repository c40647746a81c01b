"""`fastkit job` as a person types it."""

import json

import pytest
from click.testing import CliRunner

from fastkit.cli import cli


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "pump.toml"
    path.write_text(CliRunner().invoke(cli, ["job", "--example"]).output, "utf-8")
    return path


@pytest.mark.parametrize("columns", ["80", "50"])
def test_a_sheet_in_its_width(file, monkeypatch, columns):
    """Headings in the order of the work, no line too long."""
    monkeypatch.setenv("COLUMNS", columns)
    result = CliRunner().invoke(cli, ["job", str(file)])
    lines = result.output.splitlines()

    assert result.exit_code == 0
    assert max(map(len, lines)) <= int(columns)
    heads = [line for line in lines if line in HEADS]
    assert heads == HEADS


HEADS = ["Mind", "Lay out", "Buy", "Photograph", "Apart", "Clean", "Together", "Check before use"]


def test_json_says_the_same(file):
    found = json.loads(CliRunner().invoke(cli, ["job", str(file), "--json"]).output)

    assert found["job"]["title"] == "Garden pump drips at the shaft"
    assert [label["letter"] for label in found["labels"]] == ["A", "B", "C"]
    assert found["minutes"] == sorted(found["minutes"])


def test_as_read_is_a_job_file_that_reads_the_same(file):
    once = CliRunner().invoke(cli, ["job", str(file), "--as-read"]).output
    file.write_text(once, "utf-8")

    assert once == CliRunner().invoke(cli, ["job", str(file), "--as-read"]).output


def test_every_mistake_has_its_line(tmp_path, capsys):
    """Several at once, a line each, status 2, nothing on standard output."""
    path = tmp_path / "bad.toml"
    path.write_text('title = 3\n[[part]]\nnam = "lid"\n', "utf-8")
    with pytest.raises(SystemExit) as left:
        cli(["job", str(path)])
    out, err = capsys.readouterr()

    assert left.value.code == 2
    assert out == ""
    assert [line.partition(":")[0] for line in err.splitlines()] == ["fastkit"] * 3
    assert "line 1, title" in err and "line 3, nam" in err and "nearest: name" in err


@pytest.mark.parametrize("words", [[], ["--example", "x.toml"], ["--example", "--json"]])
def test_neither_or_both_is_refused(words):
    result = CliRunner().invoke(cli, ["job", *words])

    assert result.exit_code == 2
    assert "--example" in result.output


def test_hostile_words_reach_no_terminal_raw(file):
    """What a file says is printed as text."""
    text = file.read_text("utf-8").replace("pump cover", "\\u001b[2J cover")
    file.write_text(text, "utf-8")
    result = CliRunner().invoke(cli, ["job", str(file)])

    assert "\x1b" not in result.output


def test_kept_and_found_again(file):
    """The job is there tomorrow, without its file, and listed among the notes."""
    first = CliRunner().invoke(cli, ["job", str(file), "--save", "the pump"]).output
    file.unlink()

    assert first == CliRunner().invoke(cli, ["job", "--again", "the pump"]).output
    assert "kept jobs: the pump" in CliRunner().invoke(cli, ["note", "list"]).output


def test_a_name_that_nothing_is_kept_under(capsys):
    with pytest.raises(SystemExit) as left:
        cli(["job", "--again", "the lift"])

    assert left.value.code == 1
    assert "no job is kept as 'the lift'" in capsys.readouterr().err
