"""What a tool gives off is held against what must not meet it, for every tool in the data."""

import re

import pytest

from fastkit.extraction.gates import NO_BLOWS
from tests.data.test_workshop import BY_ID, rows

# what each powered tool that cuts or grinds gives off, by its method or by itself: sparks where an
# abrasive or a fast blade meets steel, none where a drill or a slow blade cuts
ABRASIVE = re.compile(r"\bdisc\b|\bgrinder\b|\bburr\b|reciprocating")
CUTS = re.compile(r"drill|blade|disc|grinder|burr|saw|oscillating|cutter")
NO_RESIDUE = ("flammable", "chlorinated")
VARIANTS = rows("variants.csv")


def given_off(row: dict[str, str]) -> set[str]:
    """What a tool gives off, by its method and by itself."""
    own = {
        other["hazard"]
        for other in rows("variant_hazards.csv")
        if (other["method"], other["variant"]) == (row["method"], row["id"])
    }
    return own | set(BY_ID[row["method"]].get("hazards", ()))


def barred(row: dict[str, str], field: str, value: str) -> bool:
    """Say whether a rule of one line forbids a tool, or its method, at a value."""
    rules: dict[str, list[dict[str, str]]] = {}
    for veto in rows("vetoes.csv"):
        if row["method"] in veto["method"].split():
            rules.setdefault(veto["rule"], []).append(veto)
    for veto in rows("tool_vetoes.csv"):
        if veto["method"] == row["method"] and row["id"] in veto["variant"].split():
            rules.setdefault(f"tool {veto['rule']}", []).append(veto)
    return any(
        len(them) == 1 and them[0]["field"] == field and value in them[0]["value"].split()
        for them in rules.values()
    )


POWERED = [row for row in VARIANTS if row["power"] and CUTS.search(row["title"])]
IDS = [f"{row['method']}/{row['id']}" for row in POWERED]


@pytest.mark.parametrize("row", POWERED, ids=IDS)
def test_a_powered_tool_that_cuts_has_a_motor_and_chips(row: dict[str, str]) -> None:
    """Brush sparks beside vapour, chips beside what they cut."""
    assert {"motor", "swarf"} <= given_off(row)


@pytest.mark.parametrize("row", POWERED, ids=IDS)
def test_a_powered_abrasive_or_fast_blade_sparks(row: dict[str, str]) -> None:
    """And nothing else of the powered tools that cut does."""
    assert ("sparks" in given_off(row)) == bool(ABRASIVE.search(row["title"]))


@pytest.mark.parametrize("row", VARIANTS, ids=[f"{r['method']}/{r['id']}" for r in VARIANTS])
def test_what_sparks_or_burns_meets_no_residue(row: dict[str, str]) -> None:
    """Dried off what burns; never with what is chlorinated."""
    if given_off(row) & {"flame", "sparks", "heat"}:
        for residue in NO_RESIDUE:
            assert barred(row, "residue", residue), residue


@pytest.mark.parametrize("row", VARIANTS, ids=[f"{r['method']}/{r['id']}" for r in VARIANTS])
def test_what_sparks_meets_no_magnesium_and_no_cadmium(row: dict[str, str]) -> None:
    """Dust of the one burns, fume of the other poisons."""
    if "sparks" in given_off(row):
        assert barred(row, "into", "magnesium")
        assert barred(row, "coating", "cadmium")


def test_no_blows_in_a_body_that_bars_them() -> None:
    """Those in which rules forbid shocking the bond are those in which steps tell of no blow."""
    bodies: set[str] = set()
    for row in rows("vetoes.csv"):
        if row["field"] == "into" and "shock-tap" in row["method"].split():
            bodies |= set(row["value"].split())
    assert bodies == set(NO_BLOWS)


@pytest.mark.parametrize("file", ["variant_hazards.csv", "tool_vetoes.csv"])
def test_lines_on_a_tool_name_one_of_its_method(file: str) -> None:
    """A misspelt tool would give nothing off and come under nothing."""
    known = {(row["method"], row["id"]) for row in VARIANTS}
    named = {(row["method"], name) for row in rows(file) for name in row["variant"].split()}
    assert named <= known
