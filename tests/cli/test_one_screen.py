"""One look: what a hurried person asks is on one screen, and it says what it left out."""

import json
import re
import shlex

import pytest
from click.testing import CliRunner

from fastkit.answers.show import show
from fastkit.cli import COMMANDS, cli
from fastkit.reference.store import query

ROWS = {80: 34, 50: 48}  # of a screen, by its columns
# what stands on many sources names them all, a thread made good has its steps; help its options
MORE = {80: 6, 50: 2}
LONGER = ("torque", "repair")
SHOWN = [
    *("thread:M8x1.25", "thread:1/4-20-UNC", "thread:#10-32-UNF", "thread:3/8-16-BSW"),
    *("thread:G1/4", "thread:1/8-27-NPT", "thread:ST4.2", "thread:plug-M14x1.25"),
    *("drive:T20", "drive:PH2", "drive:AF-13mm", "drive:slot-6.5x1.2", "system:hexalobular"),
    *("grade:8.8", "grade:A2-70", "grade:SAE-5", "grade:nut-8", "grade:45H"),
    *("torque:M8x1.25@8.8", "friction:oiled", "material:aluminium", "metal:aluminium"),
    *("pair:aluminium+stainless", "tube:3/16in-inverted", "head:ISO-4762-M6", "insert:M8x1.25"),
    *("method:better-bit", "method:left-hand-drill", "method:flame-heat", "method:weld-nut"),
    *("hazard:flame", "neighbour:rubber", "seizure:rusted", "finish:zinc-plated"),
    *("compound:threadlocker-low", "tool:torch", "ground:aircraft-bond", "source:practice"),
    *("tube:4.75mm-inverted", "tube:6mm-iso", "tube:1/4in-inverted", "neighbour:fuel"),
    *("method:machine-shop", "method:cut-tube-socket", "part:device-screw", "metal:zinc"),
]
ASKED = [
    "find m8",
    "find stripped allen",
    "find fluorescent tube bolt",
    "torque M8 8.8",
    "torque M8 8.8 oiled --head flange",
    "torque M6 8.8 socket head, into aluminium, 9 mm engaged",
    "torque 3/8-16 SAE-5",
    'replace M8 "hex head, 8.8" --into aluminium --grip 20',
    'replace M6 "pan head, PH2, zinc plated, rusted" --into aluminium --grip 12 --place outdoors',
    "repair M6 --into aluminium --depth 15 --hole stripped --wall 3",
    "repair M8 --into cast-iron --depth 20 --hole stripped",
    'extract "m8 rounded, 8 mm beside, rusted"',
    'extract "m6 snapped flush, seized, aluminium"',
    'replace M8 "hex head, 8.8, rusted" --into magnesium --grip 20 --place outdoors,salt',
    'replace M10 "hex head, A2-70" --into steel --grip 30 --place salt',
    "cards --list",
    "cards --list --only torque",
    "near 13mm",
    "order 10 rectangle 5x2",
    "sources",
    "check",
]
# rules about everything in reach of a flame: each guards people, so all are told
LONG = {"hazard:flame": {80: 58, 50: 96}}
# what is asked for by an option of its own, and is built by its steps: well within two screens
GROUNDS = [
    "replace M8 8.8 --ground",
    'replace M6 "ground bolt" --into sheet --depth 0.8',
    'replace M6 "ground screw" --into aluminium --depth 15 --place outdoors',
]
GROUND_ROWS = {80: 58, 50: 77}


def told(words, columns, *more):
    env = {"COLUMNS": str(columns)}
    result = CliRunner().invoke(cli, [*words, *more], env=env, terminal_width=columns)
    assert 0 == result.exit_code, result.output
    return result.stdout.splitlines()


@pytest.mark.parametrize("columns", ROWS)
@pytest.mark.parametrize("line", ASKED)
def test_an_answer_is_one_screen(line, columns):
    more = MORE[columns] if line.startswith(LONGER) else 0
    assert len(told(shlex.split(line), columns)) <= ROWS[columns] + more


@pytest.mark.parametrize("columns", ROWS)
@pytest.mark.parametrize("line", GROUNDS)
def test_a_ground_joint_takes_two_screens_with_all_that_makes_it(line, columns):
    """Every step, check and never; the drop that is allowed, and whose value it is; its torque."""
    lines = told(shlex.split(line), columns)
    ground = json.loads("".join(told(shlex.split(line), columns, "--json")))["ground"]
    said = " ".join(" ".join(lines).lower().split())

    assert len(lines) <= GROUND_ROWS[columns]
    for text in (*ground["steps"], *ground["check"], *ground["never"]):
        assert " ".join(text.lower().rstrip(".").removeprefix("never ").split()) in said
    for text in (f"{ground['drop_max_v']:g} V", ground["drop_of"], ground["drop_source"]):
        assert text.lower() in said
    assert f"torque {ground['torque_min_nm']:.3g} to {ground['torque_max_nm']:.3g} n·m" in said
    for piece in ground["stack"]:
        assert piece.split(",")[0].lower() in said


@pytest.mark.parametrize("columns", ROWS)
def test_what_is_alike_is_said_once(columns):
    """All that lights vapour stays as far from fuel, for one reason: one row tells of all."""
    said = " ".join(" ".join(told(["show", "neighbour:fuel"], columns)).split())

    assert "flame, sparks, spatter, heat: none within 2 m" in said
    assert 1 == said.count("vapour aired out, blanket")
    assert "within 10.7 m (35.1 ft) only with" in said


@pytest.mark.parametrize("columns", ROWS)
@pytest.mark.parametrize("id_", SHOWN)
def test_an_entry_is_one_screen(id_, columns):
    lines = told(["show", id_], columns)
    whole = told(["show", id_], columns, "--wide")

    assert len(lines) <= LONG.get(id_, ROWS)[columns]
    if lines != whole:
        assert len(lines) < len(whole)
        assert f"fastkit show {id_} --wide" in " ".join(" ".join(lines).split())


def test_every_kind_is_among_them(store):
    """Of every kind the entry with the longest story fits, too."""
    kinds = [row[0] for row in query(store, "SELECT DISTINCT kind FROM entry")]
    for kind in kinds:
        ids = [row[0] for row in query(store, f"SELECT id FROM entry WHERE kind = '{kind}'")]
        for id_ in (ids[0], ids[len(ids) // 2], ids[-1]):
            assert len(told(["show", id_], 80)) <= LONG.get(id_, ROWS)[80], id_


@pytest.mark.parametrize("id_", [id_ for id_ in SHOWN if id_.startswith(("method", "tube", "haz"))])
def test_what_guards_people_is_never_left_out(id_, store):
    """Cautions and hazards stand on the short screen whole; so do the steps."""
    said = " ".join(" ".join(told(["show", id_], 80)).split())
    document = show(id_, store=store).document
    guards = [*document.get("steps", ()), *document.get("cautions", ())]
    guards += [hazard["caution"] for hazard in document.get("hazards", ())]
    guards += [row["because"] for row in document.get("clearances", ())]

    for guard in guards:
        text = guard["text"] if isinstance(guard, dict) else guard
        assert " ".join(text.split()) in said


@pytest.mark.parametrize("columns", ROWS)
@pytest.mark.parametrize("id_", SHOWN)
def test_a_number_of_a_source_is_told_beneath(id_, columns):
    """The short screen's sources are those of its rows: none that nothing there points at."""
    rows, _, sources = " ".join(told(["show", id_], columns)).partition("sources:")
    used = set(re.findall(r"\[(\d+)", rows))
    told_of = set(re.findall(r"\d+", " ".join(re.findall(r"\[([\d, ]+)\]", sources))))

    assert not sources or used == told_of


@pytest.mark.parametrize("id_", ["tube:3/16in-inverted", "tube:4.75mm-iso", "tube:6mm-jis"])
def test_what_never_mates_is_named_and_told_whole_by_wide(id_, store):
    short, whole = (
        " ".join(" ".join(told(["show", id_], 80, *w)).split()) for w in ([], ["--wide"])
    )
    rows = show(id_, store=store).document["never_mates"]

    assert rows
    for row in rows:
        assert row["never"] in short
        assert row["never"] in whole and row["because"] in whole


@pytest.mark.parametrize("columns", ROWS)
def test_the_list_of_cards_is_one_look(columns):
    """Each by its number and title, which `--only` knows; ids and questions by `--wide`."""
    short = told(["cards", "--list"], columns)
    whole = " ".join(" ".join(told(["cards", "--list"], 80, "--wide")).split())
    cards = json.loads("".join(told(["cards", "--list", "--json"], columns)))["cards"]

    assert len(cards) > 80 and "fastkit cards --list --wide" in short[-1]
    for number, card in enumerate(cards, 1):
        assert f"{number} {card['title']}" in " ".join(" ".join(short).split())
        assert card["id"] in whole


def test_the_drill_stands_before_what_only_a_gauge_maker_asks():
    lines = told(["show", "thread:M8x1.25"], 80)
    first = [line for line in lines if line.startswith(("tap drill", "flank", "root"))]

    assert first[0].startswith("tap drill") and "6.8 mm" in first[0]


@pytest.mark.parametrize("columns", ROWS)
@pytest.mark.parametrize("name", COMMANDS)
def test_help_is_one_screen_and_names_every_option(name, columns):
    """Options that are not explained are named, and the line that explains them."""
    lines = told([name, "--help"], columns)
    whole = "".join("".join(told([name, "--help"], columns, "--wide")).split())
    short = "".join("".join(lines).split())

    assert len(lines) <= ROWS[columns] + MORE[columns]
    for param in cli.get_command(None, name).params:
        for flag in (*param.opts, *param.secondary_opts):
            if flag.startswith("--"):
                assert flag in short
                assert flag in whole
        text = "".join((getattr(param, "help", None) or "").split())
        assert text in whole
        assert text in short or f"fastkit{name}--help--wide" in short


def test_no_row_of_a_list_repeats_the_name_of_the_last(store):
    """A range is one range, `0.3 to 0.4`; a zero that asks for nothing is not said."""
    said = " ".join(told(["show", "tool:torch"], 80, "--wide"))
    slip = " ".join(told(["show", "slip:steel+steel"], 80))

    assert "swing 0" not in said and "push 0," not in said
    assert "dry, friction 0.1 to 0.23" in slip


def test_a_rule_is_a_sentence():
    """Where a method is out, in words instead of columns; no coordinates of a drawn mark."""
    said = " ".join(" ".join(told(["show", "method:weld-nut"], 80, "--wide")).split())
    grade = " ".join(told(["show", "grade:nut-8"], 80, "--wide"))

    assert "where load is spring or weight: it still holds back a load" in said
    assert "where the size is under 5 mm: too small" in said
    assert " in unload" not in said and "size_mm" not in said
    assert "x1" not in grade


@pytest.mark.parametrize("id_", ["thread:M8x1.25", "drive:PH2", "method:weld-nut"])
def test_what_is_left_out_is_counted(id_, store):
    """Rows shown and rows left out of a list are all its rows."""
    lines = told(["show", id_], 80)
    more = " ".join(" ".join(lines).partition("More (")[2].partition(")")[0].split())
    left_out = dict(part.rsplit(" +", 1) for part in more.split(", ") if " +" in part)
    lists = {g.name.replace("_", " "): g.rows for g in show(id_, store=store).groups if g.name}

    assert left_out
    for name, count in left_out.items():
        heads = [line for line in lines if line.partition("  ")[0] == name]
        assert 0 < int(count) <= len(lists[name])
        assert (int(count) == len(lists[name])) == (not heads)
