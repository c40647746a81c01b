"""`fastkit replace` on the command line."""

import json

import pytest
from click.testing import CliRunner

from fastkit.cli import cli

TRAILER = [
    *("replace", "M6", "--was", "pan head, zinc plated, PH2, rusted", "--into", "aluminium"),
    *("--grip", "12", "--place", "outdoors, salt", "--torque-known", "6", "--above", "40"),
]
GROUND = ["replace", "M6", "--was", "ground bolt", "--into", "sheet", "--depth", "0.8"]


def run(*words, columns=80):
    return CliRunner().invoke(cli, list(words), env={"COLUMNS": str(columns)})


@pytest.mark.parametrize("columns", [50, 80])
@pytest.mark.parametrize(
    "words", [TRAILER, GROUND, ["replace", "M14x1.5", "--was", "wheel bolt"]], ids=lambda w: w[1]
)
def test_the_screen_keeps_to_its_width(words, columns):
    """No line is wider than the screen, the drawing of the ground joint included."""
    lines = run(*words, columns=columns).stdout.splitlines()

    assert lines
    assert [] == [line for line in lines if len(line) > columns]


def test_what_to_buy_comes_first():
    """The line to buy by stands above everything that explains it."""
    text = run(*TRAILER).stdout

    assert text.index("BUY") < text.index("window") < text.index("assumed")
    assert "M6 × 25 – A4-70" in text


def test_the_ground_joint_is_drawn():
    """Stack in order, drawing, allowed drop and how to check it."""
    text = run(*GROUND, "--place", "salt").stdout

    assert text.index("[ head ]") < text.index("lug, tinned copper") < text.index("M6 on the back")
    assert "####" in text and "^v^v" in text
    assert "0.1 V" in text


def test_the_flag_does_what_the_word_does():
    """`--ground` makes a ground joint of any screw."""
    told = json.loads(run("replace", "M8", "--ground", "--json").stdout)

    assert told["ground"]["drop_max_v"] == 0.1


def test_no_answer_is_status_one_and_still_a_document():
    """What is the maker's part leaves with 1, says why and what instead."""
    result = run("replace", "7/16-20", "--was", "seat belt bolt", "--json")

    assert 1 == result.exit_code
    told = json.loads(result.stdout)
    assert [] == told["options"] and told["reason"] and told["way"]
    assert "renew" == told["reuse"]["verdict"]


def test_a_thread_that_is_not_held_is_status_one():
    """An empty document, with the nearest."""
    result = run("replace", "G1/4", "--json")

    assert 1 == result.exit_code
    assert [] == json.loads(result.stdout)["options"]


@pytest.mark.parametrize(
    "words",
    [
        ["--into", "cheese"],
        ["--grip", "0"],
        ["--grip", "long"],
        ["--lack", "x"],
        ["--swing", "900"],
    ],
)
def test_a_wrong_value_is_status_two(words):
    """One line on standard error, nothing on standard output."""
    result = run("replace", "M8", *words)

    assert 2 == result.exit_code
    assert "" == result.stdout
    assert 1 == result.stderr.count("\n")


def test_hostile_words_are_inert():
    """What steers a terminal is never printed back."""
    result = run("replace", "M8", "--was", "\x1b[31mhexagon 8.8\x07", "--place", "'; DROP --")

    assert "\x1b" not in result.output and "\x07" not in result.output


@pytest.mark.parametrize("was", ["8.8 zinc plated hexagon", "8.8 rusted", "hexagon, came loose"])
def test_a_hot_place_beside_other_words(was):
    """Heat told by a word of place, after words that are no number: refused in one line."""
    result = run("replace", "M8", "--was", was, "--place", "exhaust manifold", "--grip", "12")

    assert 1 == result.exit_code, result.exception
    assert "no class held is for 600 °C" in result.stderr
    assert 1 == len(result.stderr.splitlines())


def test_plain_leaves_the_drawing_out():
    """The stack stands in words; the sketch is gone."""
    text = run(*GROUND, "--place", "salt", "--plain").stdout

    assert "####" not in text and "^v^v" not in text
    assert text.index("nut on the back") < text.index("lug, tinned copper")


MANY = [
    *("replace", "M8x1.25", "--was", "8.8 hex bolt", "--into", "aluminium"),
    *("--grip", "20", "--place", "outdoors"),
]
SMALL = ["replace", "M4", "--was", "countersunk", "--into", "sheet", "--depth", "1.5"]
NUT = ["replace", "M10", "--was", "nut, zinc plated, came loose", "--place", "outdoors"]


@pytest.mark.parametrize("words", [TRAILER, MANY, SMALL, NUT], ids=lambda w: w[1])
def test_it_is_one_screen_with_what_matters_first(words):
    """At most forty lines at 80 columns, and three on a known torque: the rest is kept back."""
    shown = run(*words).stdout.splitlines()

    assert len(shown) <= 40 + 3 * ("--torque-known" in words)
    text = " ".join(" ".join(shown).split())
    assert text.index("BUY") < text.index("assumed")
    assert "2. " in text or " more, substitutes" in text
    assert "specification governs" in text
    assert "--why" in text


def test_why_says_the_rest():
    """Every other option whole, what a shop without it gives, what is not taken and why."""
    short, whole = run(*MANY).stdout, run(*MANY, "--why").stdout

    for part in ("If the shop has none:", "does not last in that place", "sources:", "seldom on"):
        assert part in whole
        assert part not in short
    assert len(whole.splitlines()) > 60


@pytest.mark.parametrize("words", ["m12 caliper bolt 8.8", "m10 steering column pinch bolt"])
def test_what_a_life_hangs_on_is_not_bought_by_this(words):
    """The maker's part is; what stands here only checks what one is handed."""
    told = run("replace", *words.split()).output

    assert "BUY" not in told and "CHECK BY" in told
    assert "maker's part number" in " ".join(told.split())
