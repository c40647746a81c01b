"""The torque command: statuses, keys, one line for every mistake, a screen that fits."""

import json

import pytest
from click.testing import CliRunner

from fastkit.cli import cli

LIMIT_LINES = 40


def run(*args, **env):
    """The command's result."""
    return CliRunner().invoke(cli, ["torque", *args], env=env)


def test_one_screen_says_it():
    """The window, the table value, both systems, the limits, the marks and the caution."""
    result = run("M8", "8.8")

    assert 0 == result.exit_code, result.output
    for word in ("N·m", "lb·ft", "24.", "yield", "assumed", "maker", "VDI 2230-1", "practice"):
        assert word in result.stdout, word
    assert len(result.stdout.splitlines()) <= LIMIT_LINES


@pytest.mark.parametrize("columns", ["24", "50", "80", "200"])
@pytest.mark.parametrize(
    "args", [("M8", "8.8"), ("3/8-16", "SAE-5", "--into", "aluminium", "--maker", "30 lb-ft")]
)
def test_no_line_is_wider_than_the_screen(columns, args):
    """Down to the narrowest, without colour."""
    result = run(*args, COLUMNS=columns)

    assert 0 == result.exit_code, result.output
    assert max(map(len, result.stdout.splitlines())) <= int(columns)
    assert "\x1b" not in result.stdout


def test_the_bar_marks_the_window():
    """Low, target and high stand on one line, in this order, the table value behind them."""
    lines = run("M8", "8.8", COLUMNS="50").stdout.splitlines()
    bar = next(line for line in lines if "[" in line and "]" in line and "T" in line)

    assert bar.index("[") < bar.index("]") < bar.index("T")


def test_plain_has_no_bar_but_all_that_it_shows():
    """Lowest, setting, highest, table, limits and breaking torque as lines of words."""
    text = run("M8", "8.8", "--plain").stdout

    assert "[===" not in text and "..." not in text
    for words in ("lowest: clamps", "highest: overloads", "what tables print", "twists off"):
        assert words in text, words
    assert not [line for line in text.splitlines() if line.startswith(" ")]


@pytest.mark.parametrize("maker", ["120", "140 lb-ft", "60"])
def test_the_makers_value_is_not_outshouted(maker):
    """It governs: the reckoned setting is named as such, nowhere as the one to set."""
    text = run("M14x1.5", "10.9", "--maker", maker).stdout

    assert text.index("It governs") < text.index("Reckoned without it")
    assert "\nSet " not in text and "set this" not in text


def test_a_drag_that_would_twist_the_shank_is_refused():
    """No locknut drags half of what breaks the bolt: one line, with the bound."""
    result = run("M8", "10.9", "--prevailing", "30", "--json")

    assert (2, "") == (result.exit_code, result.stdout)
    assert 1 == len(result.stderr.splitlines())
    assert "19.9 N·m" in result.stderr and "prevailing" in result.stderr
    assert 0 == run("M8", "10.9", "--prevailing", "6").exit_code


def test_each_limit_stands_under_the_bar():
    """On the bar's scale, readable at 50 columns; what shares a cell gets a row of its own."""
    args = ("M8", "8.8", "--into", "aluminium", "--engage", "12", "--head", "socket")
    lines = run(*args, COLUMNS="50").stdout.splitlines()
    at = next(i for i, line in enumerate(lines) if line.startswith(" 0") and "=" in line)
    legend = next(i for i, line in enumerate(lines) if line.startswith(" [ "))
    below = "".join(lines[at + 1 : legend])

    assert all(len(line) <= 50 for line in lines)
    for mark in "yspbd":
        assert mark in below or ">" in below, mark
        assert any(line.startswith(f" {mark} ") for line in lines), mark
    assert "]" in lines[at] and lines[at].index("[") < lines[at].index("]")


def test_the_legend_rises():
    """Marks and limits in one list, lowest first, as they stand on the bar."""
    lines = run("M6", "A2-70", "--maker", "12", COLUMNS="100").stdout.splitlines()
    legend = [line for line in lines if line[:1] == " " and line[2:3] == " " and "N·m" in line]
    values = [float(line[3:].partition(" ")[0]) for line in legend]

    assert len(values) >= 8 and values == sorted(values)


def test_angle_and_pull_are_said():
    """Torque to snug, then the angle; past yield is not used again; pull in N and kg."""
    said = run("M8", "8.8", "--set", "8", "--angle", "180", "--grip", "20", COLUMNS="100").stdout

    for word in ("to snug, then 180°", "Past yield", "kg) at the handle", "longer"):
        assert word in said, word


@pytest.mark.parametrize(
    ("args", "said"),
    [
        (("--maker", "8"), "is enough"),
        (("--maker", "16"), "inside the window"),
        (("--maker", "30"), "yield strength is"),
        (("--maker", "500"), "no friction explains it"),
        (("--maker", "33"), "more than twists the shank off"),
        (("--maker", "33"), "lb·in for lb·ft"),
        (("--set", "40"), "may twist the shank off"),
        (("--maker", "30", "--drive", "hex-3mm"), "or more"),
        (("--maker", "400", "--drive", "hex-3mm"), "no friction explains it"),
        (("--set", "80"), "Beyond yield"),
        (("--set", "10"), "% of yield."),
        (("--set", "20", "--angle", "5"), "reached at snug already"),
        (("--set", "5", "--angle", "5"), "from snug, elastic"),
        (("--grip", "30"), "on a grip of 30 mm"),
        (("--mu", "0.1..0.14", "--mu-head", "0.08"), "under the head 0.08"),
        (("--utilisation", "80%"), "Set"),
        (("--multiplier", "5:90"), "5 to 1 at 90 %"),
        (("--multiplier", "4"), "4 to 1 at 100 %"),
        (("--extension", "250x12.7"), "winds up by"),
        (("--extension", "10in x 1/2in"), "takes nothing off the torque"),
        (("--heat", "120"), "the clamp stays"),
        (("--heat", "250F"), "all at 121 °C (250 °F)"),
        (("--heat", "20/-78"), "gap round it opens by 0.009 mm"),
        (("--heat", "20/600"), "goes soft: its class is tempered at 425 °C"),
        (("--heat", "200"), "Beyond 150 °C"),
        (("--into", "aluminium", "--heat", "150/20", "--press", "0.02"), "it has let go"),
        (("--into", "aluminium", "--heat", "20", "--press", "0.02"), "it still holds about"),
        (("--locker", "high"), "lets go between 232 °C (450 °F) and 316 °C"),
        (("--locker", "low"), "hand tools do"),
        (("--broken",), "nut welded on"),
        (("--broken",), "the extractor snaps at"),
    ],
)
def test_what_is_said_of_ones_own_values(args, said):
    """Setting, angle, maker's value and friction under the head, each in its case."""
    assert said in " ".join(run("M8", "8.8", *args, COLUMNS="100").stdout.split())


@pytest.mark.parametrize(("typed", "nearest"), [("8.9", "8.8"), ("9.9", "9.8"), ("11.9", "12.9")])
def test_a_class_that_there_is_not_is_told_with_the_nearest(typed, nearest):
    """A slip of a finger beside the thread is no number of something else."""
    result = CliRunner().invoke(cli, ["torque", "M8", typed])

    assert 2 == result.exit_code
    assert typed in result.stderr and nearest in result.stderr.partition("nearest")[2]


def test_json_holds_the_keys():
    """One document, both preloads and torques, exit 0."""
    result = run("M8", "8.8", "--json")
    said = json.loads(result.stdout)

    assert 0 == result.exit_code
    assert "" == result.stderr
    assert said["torque_min_nm"] < said["torque_max_nm"]
    assert {"what", "value"} <= set(said["assumed"][0])


@pytest.mark.parametrize(
    "args",
    [
        ("M8", "8.8", "--clamp", "20 kN"),  # empty
        ("1/8-27-NPT", "8.8"),  # refused
        ("M8", "45H"),
        ("M20", "9.8"),  # not held
    ],
)
def test_no_answer_is_status_1(args):
    """A line on standard error; the JSON document comes all the same, with its reason."""
    plain, scripted = run(*args), run(*args, "--json")

    assert (1, 1) == (plain.exit_code, scripted.exit_code)
    assert 1 == plain.stderr.count("\n")
    assert json.loads(scripted.stdout)["reason"]


@pytest.mark.parametrize(
    "args",
    [
        (),
        ("M8",),
        ("M8", "8.8", "--mu", "0"),
        ("M8", "8.8", "--mu", "-0.1"),
        ("M8", "8.8", "--mu", "0.2..0.1"),
        ("M8", "8.8", "--mu", "nan"),
        ("M8", "8.8", "--mu", "0.1..x"),
        ("M8", "8.8", "--engage", "0"),
        ("M8", "8.8", "--clamp", "12 furlongs"),
        ("M8", "8.8", "--utilisation", "0"),
        ("M8", "8.8", "--utilisation", "inf"),
        ("M8", "8.8", "--wrench-error", "60"),
        ("M8", "8.8", "--adapter", "50"),
        ("M8", "8.8", "--friction", "slippery"),
        ("M8", "8.8", "--set", "5 Nm Nm"),
        ("M8", "8.8", "--angle", "-5"),
        ("M8", "8.8", "--utilisation", "most"),
        ("M8", "8.8", "--mu", "0.1..0.2..0.3"),
        ("M8", "8.8", "--grip", "0"),
        ("M8", "8.8", "--mu-head", "0.3..0.1"),
        ("M8", "8.8", "--adapter", "400", "--wrench-length", "300", "--adapter-angle", "180"),
        ("M8", "8.8", "--adapter-angle", "30"),
        ("M8", "8.8", "--into", "cheese"),
        ("cheese", "8.8"),
        ("M8", "8.8", "--multiplier", "0.5"),
        ("M8", "8.8", "--multiplier", "5:0"),
        ("M8", "8.8", "--multiplier", "five"),
        ("M8", "8.8", "--multiplier", "5:"),
        ("M8", "8.8", "--extension", "250"),
        ("M8", "8.8", "--extension", "250x0"),
        ("M8", "8.8", "--extension", "x13"),
        ("M8", "8.8", "--heat", "warm"),
        ("M8", "8.8", "--heat", "20/"),
        ("M8", "8.8", "--heat", "-300"),
        ("M8", "8.8", "--heat", "nan"),
        ("M8", "8.8", "--press", "0.02"),
        ("M8", "8.8", "--heat", "20", "--press", "-1"),
        ("M8", "8.8", "--locker", "strong"),
        ("M8", "D2-70", "--heat", "60"),
        ("M8", "cheese"),
    ],
)
def test_misuse_is_status_2(args):
    """One line on standard error, nothing on standard output, with --json too."""
    for words in (args, (*args, "--json")):
        result = run(*words)

        assert 2 == result.exit_code, result.output
        assert "" == result.stdout
        assert 1 == result.stderr.count("\n")


def test_every_option_works_together():
    """All of them at once still make one answer."""
    result = run(
        *("M10", "10.9", "--mu", "0.10..0.14", "--head", "socket", "--into", "steel"),
        *("--engage", "15", "--clamp", "12 kN", "--utilisation", "80", "--wrench-error", "3"),
        *("--prevailing", "2", "--adapter", "50", "--wrench-length", "400"),
        *("--adapter-angle", "45", "--drive", "hex-8mm", "--reused", "--set", "40 N·m"),
        *("--mu-head", "0.08..0.12", "--angle", "30", "--grip", "25"),
        *("--multiplier", "4:95", "--extension", "250x13", "--heat", "80/60", "--press", "0.01"),
        *("--locker", "medium", "--broken", "--maker", "30 lb-ft", "--why"),
    )

    assert 0 == result.exit_code, result.output
    assert "Maker" in result.stdout
