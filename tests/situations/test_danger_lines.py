"""
Typed lines that tell of danger, and their harmless twins.

A line of `danger_lines.csv` with `says` must be warned of so before its first move, or be refused
with it; one without must be answered and shown no danger. `bars`
names methods that the plan must not hold. Basis: common practice, no published source.
"""

import csv
import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from fastkit.cli import cli

with (Path(__file__).parent / "danger_lines.csv").open(encoding="utf-8") as file:
    LINES = list(csv.DictReader(file))
# what warns before anything is done: the line of dangers, or the move that makes safe
WARNS = re.compile(r"^(?:DANGER |FIRST  MAKE SAFE).*(?:\n  .*)*", re.MULTILINE)


def misses(row):
    """What a line's answer lacks, or shows for nothing."""
    said = row["line"].split() if row["command"] != "extract" else [row["line"]]
    result = CliRunner().invoke(cli, [row["command"], *said])
    told = result.output if result.exit_code else " ".join(WARNS.findall(result.output))
    shown = " ".join(told.split())
    if not row["says"]:
        wrong = [f"leaves with {result.exit_code}: {shown}"] if result.exit_code else []
        return wrong + (["shows a danger"] if "DANGER" in result.output else [])
    wrong = [] if row["says"] in shown.lower() else [f"does not say {row['says']!r}"]
    if row["bars"]:
        document = json.loads(CliRunner().invoke(cli, ["extract", *said, "--json"]).stdout)
        offered = {step["method"] for step in document["plan"]}
        wrong += [f"{name} is offered" for name in row["bars"].split() if name in offered]
    return wrong


@pytest.mark.parametrize("row", LINES, ids=[row["line"] for row in LINES])
def test_danger_is_told_and_its_harmless_twin_is_left_alone(row):
    assert misses(row) == []


def test_both_halves_are_there():
    """Seventy lines that tell of danger or more, fifty twins or more, each once."""
    assert sum(bool(row["says"]) for row in LINES) >= 70
    assert sum(not row["says"] for row in LINES) >= 50
    assert len({(row["command"], row["line"]) for row in LINES}) == len(LINES)
