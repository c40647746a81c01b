"""`fastkit repair`: words typed in a hurry, one screen, one document, one line of refusal."""

import json

import pytest
from click.testing import CliRunner

from fastkit.cli import cli

KEYS = {
    *("thread", "situation", "before", "options", "ruled_out", "machine_shop", "chase_or_cut"),
    *("cautions", "assumed", "shear_mpa", "shear_checked", "basis", "not_understood", "dangers"),
}
HURRIED = [
    ("m6 alu stripped 15 deep wall 3", {"into": "aluminium", "hole": "stripped", "wall_mm": 3.0}),
    ("M8 cast iron cracked", {"into": "cast-iron", "hole": "cracked"}),
    ("m6 aluminium hole 6.9 15 deep", {"hole": "oversize", "oversize_mm": 6.9, "depth_mm": 15.0}),
    ("m6 alu hole 6.9 wall 4", {"oversize_mm": 6.9, "wall_mm": 4.0}),
    ("m6 alu 15mm deep 3 mm wall", {"depth_mm": 15.0, "wall_mm": 3.0}),
    ("m6 hole stripped alu 15 deep", {"hole": "stripped", "depth_mm": 15.0}),
    ("brake bracket m10x1.25 alu stripped", {"critical": "brakes", "into": "aluminium"}),
    ("m8 sheet grab rail of a ladder", {"critical": "people", "into": "sheet"}),
    ("m12x1.5 wheel hub steel stripped", {"critical": "wheels"}),
    ("M6 oversize 6.9", {"hole": "oversize", "oversize_mm": 6.9}),
    ("1/4-20 steel rusty", {"into": "steel", "hole": "damaged"}),
    ("m6 sheet blind stripped", {"into": "sheet", "far_side": "blind"}),
    ("m8 mag 20mm deep above 120", {"into": "magnesium", "depth_mm": 20.0, "above_mm": 120.0}),
    ("m5 plastic", {"into": "plastic", "hole": "stripped"}),
    ("m10x1.25 ally edge 12", {"into": "aluminium", "wall_mm": 7.0}),
]


def run(*args, **env):
    return CliRunner().invoke(cli, ["repair", *args], env=env)


@pytest.mark.parametrize(("words", "understood"), HURRIED)
def test_hurried_words(words, understood):
    result = run(*words.split(), "--json")

    assert 0 == result.exit_code, result.output
    document = json.loads(result.stdout)
    assert KEYS == set(document)
    assert understood == {name: document["situation"][name] for name in understood}
    assert [1, *range(2, len(document["options"]) + 1)] == [o["rank"] for o in document["options"]]


@pytest.mark.parametrize(
    ("words", "status", "said"),
    [
        ("", 2, "THREAD"),
        ("banana", 2, "thread"),
        ("M6 alu 15", 2, "of what"),
        ("M6 --hole bent", 2, "stripped"),
        ("M6 --depth -3", 2, "out of range"),
        ("M6 --into chese", 2, "nearest"),
        ("G1/4 --depth banana", 2, "banana"),
        ("1/4-18-NPT", 1, "taper"),
        ("M6x0.1", 1, "M6"),
    ],
)
def test_nonsense(words, status, said):
    result = run(*words.split())

    assert status == result.exit_code, result.output
    assert "" == result.stdout
    assert 1 == result.stderr.count("\n") and said in result.stderr


@pytest.mark.parametrize("words", [words for words, _ in HURRIED])
@pytest.mark.parametrize("columns", [80, 50])
def test_one_screen(words, columns):
    lines = run(*words.split(), COLUMNS=str(columns)).stdout.splitlines()

    assert all(len(line) <= columns for line in lines)
    assert len(lines) <= (42 if columns == 80 else 66)
    assert "qualified hands only" in " ".join(" ".join(lines).split())


def test_why_shows_every_way_with_its_steps():
    short, whole = run("M6").stdout, run("M6", "--why").stdout

    assert len(short) < len(whole)
    assert "opens with" in run("M6", "--wall", "1", "--why").stdout


def test_what_rests_on_memory_says_so():
    """The body's shear strength is marked with its standing, on the screen and in the document."""
    assert "[memory]" in run("M8", "alu").stdout
    document = json.loads(run("M8", "alu", "--json").stdout)
    assert "memory" == document["shear_checked"] and document["shear_mpa"] == 126
    assert any("FED-STD-H28/2B" in step for step in document["basis"])


def test_a_cracked_hole_is_not_chased():
    """Where a crack runs on, nothing is said of chasing; materials are named in plain words."""
    text = CliRunner().invoke(cli, ["repair", "M10", "--into", "cast-iron", "--hole", "cracked"])
    stripped = CliRunner().invoke(cli, ["repair", "M10", "--into", "cast-iron"]).stdout

    assert "Chase while" not in text.stdout and "Chase while" in stripped
    assert "M10x1.5 in cast iron, " in text.stdout


def test_a_spark_plugs_thread_must_be_gas_tight():
    """Common practice; a wire insert by itself seals nothing."""
    result = CliRunner().invoke(cli, ["repair", "plug-M14x1.25", "--into", "aluminium", "--json"])

    assert "gas-tight" in " ".join(json.loads(result.output)["cautions"])
