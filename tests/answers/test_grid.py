"""The phone page's plans: each cell is what `extract` says at the corner its classes stand for."""

import csv
import json
import shlex
from pathlib import Path

import pytest
from click.testing import CliRunner

from fastkit.answers.grid_classes import AXES
from fastkit.answers.grid_stuck import cell, pack, read
from fastkit.answers.wording import show_chance, show_minutes
from fastkit.cli import cli

CORNERS = Path(__file__).with_name("grid_corners.csv")
ROWS = list(csv.DictReader(CORNERS.read_text("utf-8").splitlines()))
NAMES = ("damage", "seizure", "above", "beside", "near", "size")


def picked(row):
    """The classes of a row, in the order of the axes."""
    return tuple(row[name] for name in NAMES)


def told(asked):
    """What `fastkit extract … --json` prints for options as typed."""
    result = CliRunner().invoke(cli, ["extract", *shlex.split(asked), "--json"])
    assert result.exit_code in (0, 1), result.stderr
    return json.loads(result.stdout)


def test_two_hundred_corners_are_written_down():
    """At least 200, each another mix, every class of every axis among them."""
    assert len({picked(row) for row in ROWS}) == len(ROWS) >= 200
    for axis in AXES:
        assert {row[axis.id] for row in ROWS} == {each.id for each in axis.classes}


# what does not get it out by itself is never told as a share that succeeds
DOES = {"treat": "weakens the bond", "room": "makes room", "gate": "comes before all else"}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: "+".join(picked(row)))
def test_cell_is_what_the_command_says_at_the_corner(row, store):
    """Order, tools, chances, minutes, cautions, what is ruled out and why, when to stop."""
    titles = dict(store.execute("SELECT id, title FROM entry WHERE kind = 'method'"))
    tools = {
        (method, key): title
        for method, key, title in store.execute("SELECT method, id, title FROM variant")
    }
    kinds = dict(store.execute("SELECT id, kind FROM method"))
    document = told(row["asked"])

    found = read(pack(store, {picked(row): cell(store, picked(row))}), picked(row))

    shown = document["plan"][: len(found["moves"])]
    assert [move["method"] for move in found["moves"]] == [step["method"] for step in shown]
    for move, step in zip(found["moves"], shown, strict=True):
        assert move["title"] == titles[f"method:{step['method']}"]
        assert move["tool"] == tools.get((step["method"], step["variant"]), "")
        assert move["verdict"] == step["verdict"]
        doing = DOES.get(kinds[step["method"]], show_chance(step["chance"]))
        assert move["chance"] == doing
        assert move["minutes"] == show_minutes(step["minutes"])
        # the page tells of every circuit, load, recess, stub and metal
        assert set(step["steps"]) <= set(move["steps"])
        assert set(step["cautions"]) <= set(move["cautions"])
    assert found["more"] == len(document["plan"]) - len(shown)
    if shown:
        assert found["why"] == shown[0]["why"]
        assert found["if_it_fails"] == shown[0]["if_it_fails"]
    assert [(out["method"], out["because"], out["opens_it"]) for out in found["ruled_out"]] == [
        (out["method"], out["because"], out["opens_it"] or "") for out in document["ruled_out"]
    ]
    assert found["stop_when"] == document["stop_when"]
    assert found["chance"] == show_chance(min(document["chance"], 0.99))
    assert found["minutes"] == show_minutes(document["expected_minutes"])
