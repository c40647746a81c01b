"""find, show, sources and check on the screen and as documents."""

import json
import re

import pytest
from click.testing import CliRunner

from fastkit.cli import cli
from fastkit.reference import store as files
from fastkit.reference.store import query


def run(*args, **env):
    return CliRunner(env=env).invoke(cli, args)


def document(*args):
    result = run(*args, "--json")
    assert "" == result.stderr
    return json.loads(result.stdout)


def test_find_keeps_its_keys():
    said = document("find", "m8", "8.8", "torque")

    assert ["query", "read_as", "hits", "dangers"] == list(said)
    assert "m8 8.8 torque" == said["query"]
    assert ["id", "kind", "title", "score"] == list(said["hits"][0])


def test_nothing_found_is_a_document_and_one():
    result = run("find", "M99", "--json")
    said = json.loads(result.stdout)

    assert 1 == result.exit_code
    assert [] == said["hits"] and said["reason"] and 3 == len(said["nearest"])
    assert "M99" in result.stderr and "nearest: thread:M64" in result.stderr


def test_nothing_found_on_the_screen_is_one_line():
    result = run("find", "M99")

    assert (1, "") == (result.exit_code, result.stdout)
    assert 1 == result.stderr.count("\n")


def test_options_of_find():
    assert 2 == len(document("find", "m8", "--limit", "2")["hits"])
    kinds = {hit["kind"] for hit in document("find", "m8", "--kind", "torque")["hits"]}
    assert {"torque"} == kinds
    assert 2 == run("find", "m8", "--kind", "colour").exit_code
    assert 2 == run("find", "").exit_code


@pytest.mark.parametrize("columns", [24, 40, 50, 80])
@pytest.mark.parametrize(
    "args",
    [
        ["find", "m8 8.8 torque"],
        ["find", "hex bolt m12"],
        ["show", "thread:M8x1.25"],
        ["show", "method:weld-nut"],
        ["show", "torque:M8x1.25@8.8"],
        ["show", "neighbour:fuel"],
        ["sources"],
    ],
)
def test_screens_keep_to_their_width(args, columns):
    result = run(*args, COLUMNS=str(columns))

    assert 0 == result.exit_code
    assert [] == [line for line in result.stdout.splitlines() if len(line) > columns]


def test_no_colour_in_a_pipe():
    assert "\x1b" not in run("show", "thread:M8x1.25", NO_COLOR="").stdout


def test_show_says_where_each_value_stands():
    lines = run("show", "thread:M8x1.25", "--wide").stdout.splitlines()

    assert any("major" in line and "8 mm (0.315 in) [1]" in line for line in lines)
    assert any("tap drill" in line and "[2]" in line for line in lines)
    assert any(line.startswith("[1] ISO general purpose metric screw threads") for line in lines)
    assert "maker's specification governs" in lines[-1]


def test_show_marks_memory_and_practice():
    assert "[1 practice]" in run("show", "method:weld-nut").stdout
    assert "[1 memory]" in run("show", "drive:triple-square-M8").stdout


def test_show_of_what_is_not_held():
    result = run("show", "drive:T21", "--json")
    said = json.loads(result.stdout)

    assert 1 == result.exit_code
    assert said["id"] is None and said["source"] is None
    assert "drive:T20" == said["nearest"][0] and said["reason"] in result.stderr


def test_sources_keep_their_keys():
    first = document("sources")["sources"][0]

    assert {"id", "title", "edition", "rows"} <= first.keys()


def test_sources_are_exported(tmp_path):
    said = document("sources", "--export", str(tmp_path / "out"))
    lines = run("sources", "--export", str(tmp_path / "out"))

    assert sorted(said["exported"]) == sorted(map(str, (tmp_path / "out").iterdir()))
    assert "tables written to" in lines.stdout


def test_an_export_that_cannot_be_written(tmp_path):
    (tmp_path / "file").touch()

    assert 2 == run("sources", "--export", str(tmp_path / "file")).exit_code
    assert 3 == run("sources", "--export", str(tmp_path / "file" / "below")).exit_code


def test_check_keeps_its_keys():
    said = document("check")

    assert said["ok"] is True and [] == said["problems"]
    assert {"version", "data_version", "rows", "checked"} <= said.keys()


def test_check_says_how_far_rows_are_checked():
    said = run("check").stdout

    assert "published facts" in said and "words and errata" in " ".join(said.split())
    assert 10 >= len(said.splitlines()), "can it be trusted, in ten lines"
    assert 80 >= max(map(len, said.splitlines()))
    assert re.search(r"recomputed or compared( +[\d.]+ %){3}", said)
    assert re.search(r"from memory( +[\d.]+ %){3}", said)
    assert "from memory:\n" not in said


def test_check_lists_what_stands_on_memory():
    rows = document("check", "--memory")["memory"]

    assert document("check")["checked"]["memory"] == len(rows)
    assert {"table", "key", "source", "locator"} == rows[0].keys()
    assert f"  {rows[0]['table']}: {rows[0]['key']} (" in run("check", "--memory").stdout
    assert "memory" not in document("check")


def test_check_tells_every_problem_in_a_line(monkeypatch, tmp_path):
    monkeypatch.setattr(files, "BUILT", tmp_path / "reference.db")

    for args in (["check"], ["check", "--json"]):
        result = run(*args)
        assert (3, "") == (result.exit_code, result.stdout)
        assert 1 == result.stderr.count("\n")


def test_find_without_words_is_a_map(store):
    """Every kind with its number of entries and one that can be shown."""
    there = json.loads(CliRunner().invoke(cli, ["find", "--json"]).output)["kinds"]
    lines = CliRunner().invoke(cli, ["find"]).output.splitlines()

    assert sum(row["entries"] for row in there) == len(query(store, "SELECT 1 FROM entry"))
    assert len(lines) == len(there) + 2
    for row in there:
        assert CliRunner().invoke(cli, ["show", row["example"]]).exit_code == 0


def test_find_takes_halves_of_characters():
    """What a shell passes on of bytes that are no text is looked for and not found."""
    assert 1 == run("find", "\udcff\udcfe").exit_code
