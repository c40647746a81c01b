"""
One thing changed about a fastener changes its plan as a mechanic would.

Each `[[change]]` of changes.toml has the options of a `base`, what is changed (`with`, options, or
`words`), and any of: `gone`, offered in the base and not after; `comes`, the other way round;
`stays`, offered in both; of the plan after the change `first`, `first_three`, `before`, `says`,
`because` (a method ruled out, a word of why), `after` (the method due before all ranks behind it),
`outcome` (a method and an outcome that it may have), `likely` (a method and its least chance); and
of both plans `minutes` (up, down, same: what is expected in all), `cheaper` (expected minutes of
starting with it fall), `longer` (one attempt takes longer), `size_rises`, `size_falls` (a method,
and a size whose number does).
"""

import tomllib
from pathlib import Path
from typing import Any

import pytest

from fastkit.answers.extract import extract
from fastkit.answers.extract_answer import ExtractAnswer, Step

CHANGES = tomllib.loads(Path(__file__).with_name("changes.toml").read_text(encoding="utf-8"))[
    "change"
]
HAIR = 0.01  # minutes: no change


def number(step: Step, what: str) -> float:
    """The number of a size of a step: mm where it is a length, its first value where not."""
    size = next(size for size in step.sizes if size.what == what)
    return size.mm if size.mm is not None else float(size.values[0])


def misses(case: dict[str, Any], base: ExtractAnswer, now: ExtractAnswer) -> list[str]:
    """Return what does not change as expected, in words."""
    was = {step.method: step for step in base.plan}
    found = {step.method: step for step in now.plan}
    wrong = [f"{name} was not offered" for name in case.get("gone", ()) if name not in was]
    wrong += [f"{name} is still offered" for name in case.get("gone", ()) if name in found]
    wrong += [f"{name} was offered already" for name in case.get("comes", ()) if name in was]
    wrong += [f"{name} does not come" for name in case.get("comes", ()) if name not in found]
    wrong += [f"{name} does not stay" for name in case.get("stays", ()) if name not in found]
    return [*wrong, *_after(case, now, found), *_compared(case, base, now, was, found)]


def _after(case: dict[str, Any], now: ExtractAnswer, found: dict[str, Step]) -> list[str]:
    wrong = []
    first = now.plan[0].method if now.plan else "nothing"
    if case.get("first") and first not in case["first"]:
        wrong.append(f"first is {first}")
    for name in case.get("first_three", ()):
        if name not in found or found[name].rank > 3:
            wrong.append(f"{name} is not among the first three")
    for sooner, later in case.get("before", ()):
        if sooner not in found:
            wrong.append(f"{sooner} is not offered")
        elif later in found and found[later].rank < found[sooner].rank:
            wrong.append(f"{later} ranks above {sooner}")
    for name, words in case.get("says", ()):
        told = (*found[name].steps, *found[name].cautions) if name in found else ()
        if words not in " ".join(told).lower():
            wrong.append(f"{name} does not say {words!r}")
    reasons = {out.method: out.because for out in now.ruled_out}
    for name, words in case.get("because", ()):
        if words not in reasons.get(name, ""):
            wrong.append(f"{name} is out because {reasons.get(name)!r}")
    if due := case.get("after"):
        behind = [step for step in now.plan if step.method != due]
        wrong += [f"{step.method} is not after {due}" for step in behind if step.after != due]
    wrong += [
        f"{name} has no outcome {outcome}"
        for name, outcome in case.get("outcome", ())
        if name not in found or outcome not in found[name].outcomes
    ]
    wrong += [
        f"{name} has a chance of {found[name].chance:.2f} only"
        for name, least in case.get("likely", ())
        if found[name].chance < least
    ]
    return wrong


def _compared(
    case: dict[str, Any],
    base: ExtractAnswer,
    now: ExtractAnswer,
    was: dict[str, Step],
    found: dict[str, Step],
) -> list[str]:
    wrong = []
    rise = now.expected_minutes - base.expected_minutes
    moves = "up" if rise > HAIR else "down" if rise < -HAIR else "same"
    if case.get("minutes", moves) != moves:
        wrong.append(f"minutes go {moves}: {base.expected_minutes:.1f}, {now.expected_minutes:.1f}")
    for name in case.get("cheaper", ()):
        if not found[name].expected_minutes < was[name].expected_minutes - HAIR:
            wrong.append(f"{name} does not get cheaper")
    for name in case.get("longer", ()):
        if not found[name].minutes > was[name].minutes + HAIR:
            wrong.append(f"{name} takes {was[name].minutes:.2f}, then {found[name].minutes:.2f}")
    for key, sign in (("size_rises", 1), ("size_falls", -1)):
        for name, what in case.get(key, ()):
            both = [plan.get(name) for plan in (was, found)]
            if not all(step and any(size.what == what for size in step.sizes) for step in both):
                wrong.append(f"{name} does not tell {what} in both")
            elif sign * (number(found[name], what) - number(was[name], what)) <= 0:
                wrong.append(f"{name}: {what} does not change that way")
    return wrong


@pytest.mark.parametrize("case", CHANGES, ids=[case["id"] for case in CHANGES])
def test_plan_changes_as_a_mechanic_expects(case: dict[str, Any]) -> None:
    """What goes, what comes, what is due, what takes longer."""
    base = extract(**case["base"])
    now = extract(case.get("words", ""), **{**case["base"], **case.get("with", {})})

    assert misses(case, base, now) == []


def test_changes_are_well_formed() -> None:
    """Each once, with a reason, one thing changed and something expected."""
    names = [case["id"] for case in CHANGES]
    assert len(names) == len(set(names))
    for case in CHANGES:
        assert case["why"]
        assert bool(case.get("with")) != bool(case.get("words"))
        assert set(case) - {"id", "base", "with", "words", "why"}
