"""What the phone page warns of: heat too near before, a line opened, what is left to its maker."""

import json
import shlex

import pytest
from click.testing import CliRunner

from fastkit.answers.grid_stuck import NO_PLAN, cell, pack, read
from fastkit.answers.grid_torque import torques
from fastkit.answers.torque import torque
from fastkit.cli import cli
from fastkit.reference.store import query
from tests.answers.test_grid import ROWS, picked

# what may have been done before anyone asks, and harms what stands too near
DONE = ("flame-heat", "iron-heat", "induction-heat", "weld-nut", "warm-host", "cut-slot-disc")
PLACE = ("rusted", "above-80", "beside-15")
WRITTEN = (  # damage, neighbours, what is said of heat too near, what is said of the opened line
    ("tube-nut-rounded", "fuel", ("brake hose bursts later", "tyre may burst"), ("bleed", "pump")),
    ("tube-nut-rounded", "clear", (), ("every joint looked at for leaks",)),
    (
        "snapped-flush",
        "fuel",
        ("brake hose bursts later", "tyre may burst"),
        ("look and smell for a leak", "fill, bleed"),  # room is made beside them
    ),
    ("hexagon-rounded", "soft", ("wiring was in the heat",), ()),
)
GOVERNED = ("brakes", "steering", "wheels", "restraint", "lifting", "towing", "people")


def told(asked):
    """What `fastkit extract … --json` prints for options as typed."""
    result = CliRunner().invoke(cli, ["extract", *shlex.split(asked), "--json"])
    assert result.exit_code in (0, 1), result.stderr
    return json.loads(result.stdout)


def on_page(store, picks):
    """A plan as the page reads it."""
    return read(pack(store, {picks: cell(store, picks)}), picks)


@pytest.mark.parametrize(("damage", "near", "dangers", "afterwards"), WRITTEN)
def test_dangers_and_what_comes_afterwards(store, damage, near, dangers, afterwards):
    found = on_page(store, (damage, *PLACE, near, "M8"))

    for said, expected in ((found["dangers"], dangers), (found["afterwards"], afterwards)):
        assert bool(said) == bool(expected)
        assert all(any(words in one for one in said) for words in expected)


@pytest.mark.parametrize("row", ROWS[::9], ids=lambda row: "+".join(picked(row)))
def test_they_are_those_of_the_command(store, row):
    """Of the command where everything that harms has been tried; nothing else is told."""
    tried = " ".join(f"--tried {method}" for method in DONE)
    found = on_page(store, picked(row))

    assert found["dangers"] == told(f"{row['asked']} {tried}")["dangers"]
    assert found["afterwards"] == told(row["asked"])["afterwards"]


def test_what_a_life_hangs_on_gets_the_maker_s_value_alone(store):
    """All that `torque` refuses a window for, with its reason and what goes instead."""
    hangs = {row["id"]: row for row in torques(store, ["M8x1.25"])["hangs"]}
    plain = {
        key for key, how in query(store, "SELECT id, replaced FROM critical") if how == "plain"
    }

    assert set(GOVERNED) <= set(hangs)
    assert plain and not plain & set(hangs)
    for key, row in hangs.items():
        answer = torque("M8", "8.8", critical=key, store=store)
        assert answer.torque_nm is None
        assert f"no window: {row['because']}" == answer.reason
        assert [row["instead"]] == list(answer.published)


def test_what_no_plan_is_made_for_is_named(store):
    """All that `extract` refuses a plan for, each with why and who does it instead."""
    held = pack(store, {("snapped-flush", *PLACE, "clear", "M8"): _any(store)})["hands_off"]

    assert held["title"] == NO_PLAN
    rows = {(because, instead) for _, because, instead in held["rows"]}
    assert rows == {*query(store, "SELECT because, instead FROM hands_off")}
    assert {"gas bottle", "gas main", "split rim"} <= {name for name, _, _ in held["rows"]}


def _any(store):
    return cell(store, ("snapped-flush", *PLACE, "clear", "M8"))
