"""`fastkit identify`: words typed in a hurry, one screen, one document, one line of refusal."""

import json

import pytest
from click.testing import CliRunner

from fastkit.cli import cli

KEYS = {"readings", "candidates", "tied", "separates", "danger", "assumed", "notes"}


def run(*args, **env):
    return CliRunner().invoke(cli, ["identify", *args], env=env)


HURRIED = [
    ("thread 7.85 x 1.25", "thread:M8x1.25"),
    ("thread 7.85 1.25", "thread:M8x1.25"),
    ("thread 7.85mm x 1.25mm", "thread:M8x1.25"),
    ("thread 7.9 18 tpi", "thread:5/16-18-UNC"),
    ("thread 7.9 tpi 18", "thread:5/16-18-UNC"),
    ("thread tpi 18 7.9", "thread:5/16-18-UNC"),
    ("thread 7.9 18 threads per inch", "thread:5/16-18-UNC"),
    ("thread hole 6.75 x 1.25", "thread:M8x1.25"),
    ("thread nut bore 6.75 pitch 1.25", "thread:M8x1.25"),
    ("thread 9.85 over ten 15", "thread:M10x1.5"),
    ("thread worn bolt 7.62 x 1.25", "thread:M8x1.25"),
    ("thread taper 13.4 18 tpi", "thread:1/4-18-NPT"),
    ("thread 5/16in 18 tpi", "thread:5/16-18-UNC"),
    ("thread crests 5.9 pitch 1", "thread:M6x1"),
    ("drive 5.05 6 lobes", "drive:T27"),
    ("drive 8 12 points", "drive:triple-square-M8"),
    ("drive outside 12.9", "drive:AF-13mm"),
    ("head 13 flats 5.3 high", "head:ISO-4017-M8"),
    ("head 9.9 x 5.95", "head:ISO-4762-M6"),
    ("grade 8.8", "grade:8.8"),
    ("grade 8,8", "grade:8.8"),
    ("grade 10.9", "grade:10.9"),
    ("grade A2-70", "grade:A2-70"),
    ("grade a4 80", "grade:A4-80"),
    ("grade six radial lines", "grade:SAE-8"),
    ("grade 3 lines", "grade:SAE-5"),
    ("grade five lines", "grade:SAE-7"),
    ("grade B7", "grade:A193-B7"),
    ("grade A325", "grade:A325"),
    ("grade 45H", "grade:45H"),
    ("grade nut 8", "grade:nut-8"),
    ("grade nut dot at 12, bar at 10 o'clock", "grade:nut-10"),
]


@pytest.mark.parametrize(("words", "first"), HURRIED)
def test_hurried_words(words, first):
    """What people type with one hand."""
    result = run(*words.split(), "--json")

    assert 0 == result.exit_code, result.output
    document = json.loads(result.stdout)
    assert KEYS == set(document)
    lead = document["candidates"][0]
    assert first in (lead["id"], *lead["also"])


@pytest.mark.parametrize(
    ("words", "status", "said"),
    [
        ("thred 7.85", 2, "nearest: thread"),
        ("thread", 2, "--major"),
        ("thread 7.85 x 9", 2, "too coarse"),
        ("thread 8 x 2.9", 1, "nearest: "),
        ("thread banana 8", 2, "banana"),
        ("thread 8 1.25 7 9", 2, "too many"),
        ("thread --lobes 6", 2, "--lobes"),
        ("thread --major banana", 2, "banana"),
        ("drive --lobes 7", 2, "--lobes"),
        ("drive 190", 1, "nearest: "),
        ("drive", 2, "--across"),
        ("head", 2, "--diameter"),
        ("head 13 --form round", 2, "expected one of"),
        ("grade zzz", 1, "no grade"),
        ("grade 4711", 1, "no grade"),
    ],
)
def test_nonsense(words, status, said):
    """One line that says what was wrong and what is expected."""
    result = run(*words.split())

    assert status == result.exit_code, result.output
    assert "" == result.stdout
    assert 1 == result.stderr.count("\n") and said in result.stderr


def test_a_refusal_is_a_document_too():
    result = run("thread", "8", "x", "2.9", "--json")

    assert 1 == result.exit_code
    document = json.loads(result.stdout)
    assert [] == document["candidates"] and document["reason"] and document["nearest"]


@pytest.mark.parametrize("words", [words for words, _ in HURRIED[::4]])
@pytest.mark.parametrize("columns", [80, 50])
def test_one_screen(words, columns):
    """Within the width, and on one screen of a telephone held upright."""
    lines = run(*words.split(), COLUMNS=str(columns)).stdout.splitlines()

    assert all(len(line) <= columns for line in lines)
    assert len(lines) <= (24 if columns == 80 else 38)
    assert "maker" in lines[-1] or any("maker" in line for line in lines)


def test_known_by_name():
    """A thread already known: what it is mixed up with."""
    result = run("thread", "--is", "1/2-13", "--json")
    pairs = [set(trap["pair"]) for trap in json.loads(result.stdout)["danger"]]
    assert {"thread:1/2-13-UNC", "thread:1/2-12-BSW"} in pairs


@pytest.mark.parametrize("marks", ["8.8", "three lines", "no marks"])
def test_marks_are_read_back_in_plain_words(marks):
    """The last line repeats what was read, nothing of how it was looked up."""
    text = CliRunner().invoke(cli, ["identify", "grade", marks]).stdout

    assert f"Read: marks {marks}." in " ".join(text.split()).replace("3 radial", "three")
