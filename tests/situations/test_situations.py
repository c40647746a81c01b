"""
What a good mechanic would do first, held against the planner.

Each `[[situation]]` has free `words` or `options` (the command line's own names), and any of:
`first`, acceptable first moves; `first_three`, methods that must stand among the first three;
`must_not`, methods that must not be offered; `before`, pairs of methods, the first of which must
rank above the second where both are offered; `says` and `says_not`, pairs of a method and words
that its steps or cautions must hold, or must not, where it is offered; `shows` and `shows_not`,
words that the first screen must hold, or must not, at 80 columns and at 50. `basis` says where
the expectation comes from.
"""

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from fastkit.answers.extract import extract
from fastkit.answers.extract_answer import ExtractAnswer
from fastkit.cli.extract_screen import NARROW, WIDE, screen

CASES = [
    case
    for path in sorted(Path(__file__).parent.glob("*.toml"))
    for case in tomllib.loads(path.read_text(encoding="utf-8"))["situation"]
]
PRACTICE = "common practice, no published source"


@cache
def answer_to(name: str) -> ExtractAnswer:
    """The plan for a situation, by its id."""
    case = next(case for case in CASES if case["id"] == name)
    return extract(case.get("words", ""), **case.get("options", {}))


def misses(case: dict[str, Any], answer: ExtractAnswer) -> list[str]:
    """Return what the plan gets wrong, in words."""
    ranked = [move.method for move in answer.plan]
    rank = {name: number for number, name in reversed(list(enumerate(ranked, 1)))}
    wrong = []
    first = ranked[0] if ranked else "nothing"
    if case.get("first") and first not in case["first"]:
        wrong.append(f"first is {first}, not one of {', '.join(case['first'])}")
    wrong += [
        f"{name} ranks {rank.get(name, 'nowhere')}, not among the first three"
        for name in case.get("first_three", ())
        if rank.get(name, 99) > 3
    ]
    wrong += [f"{name} is offered" for name in case.get("must_not", ()) if name in rank]
    wrong += [
        f"{later} ({rank[later]}) ranks above {sooner} ({rank[sooner]})"
        for sooner, later in case.get("before", ())
        if sooner in rank and later in rank and rank[sooner] > rank[later]
    ]
    told = {move.method: " ".join((*move.steps, *move.cautions)).lower() for move in answer.plan}
    wrong += [
        f"{name} does not say {words!r}"
        for name, words in case.get("says", ())
        if words not in told.get(name, words)
    ]
    wrong += [
        f"{name} says {words!r}"
        for name, words in case.get("says_not", ())
        if words in told.get(name, "")
    ]
    return wrong + _unseen(case, answer)


def _unseen(case: dict[str, Any], answer: ExtractAnswer) -> list[str]:
    """Return what the first screen does not show and should, or shows and should not."""
    wrong = []
    for columns in (WIDE, NARROW):
        shown = " ".join(" ".join(screen(answer, columns)).split()).lower()
        wrong += [
            f"{columns} columns do not show {words!r}"
            for words in case.get("shows", ())
            if words not in shown
        ]
        wrong += [
            f"{columns} columns show {words!r}"
            for words in case.get("shows_not", ())
            if words in shown
        ]
    return wrong


def slugs() -> set[str]:
    """Every method in the data."""
    data = Path(__file__).parents[2] / "data" / "methods.toml"
    return {m["id"] for m in tomllib.loads(data.read_text(encoding="utf-8"))["method"]}


@pytest.mark.parametrize("case", CASES, ids=[case["id"] for case in CASES])
def test_plan_is_what_the_bench_would_do(case: dict[str, Any]) -> None:
    """The plan begins as it should, offers nothing barred, and keeps the order."""
    assert misses(case, answer_to(case["id"])) == []


def test_every_method_comes_among_the_first_three_somewhere() -> None:
    """And not because every other tool is lacking: at most two are, and four ways are left."""
    reached: set[str] = set()
    for case in CASES:
        answer = answer_to(case["id"])
        if len(answer.situation.lack) <= 2 and len(answer.plan) >= 4:
            reached |= {move.method for move in answer.plan[:3]}
    assert slugs() - reached == set()


def test_situations_are_well_formed() -> None:
    """Seventy-five or more, each once, each with a reason, a basis and something expected."""
    names = [case["id"] for case in CASES]
    expected = {"first", "first_three", "must_not", "before", "says", "says_not"}
    expected |= {"shows", "shows_not"}
    assert len(names) == len(set(names)) >= 75
    for case in CASES:
        assert set(case) <= {"id", "words", "options", "why", "basis", *expected}
        assert case["why"]
        assert case["basis"] == PRACTICE or "CFR" in case["basis"]
        assert case.get("words") or case.get("options")
        assert any(case.get(key) for key in expected)
    assert sum(case["basis"] != PRACTICE for case in CASES) >= 10


def test_situations_name_known_methods() -> None:
    """A misspelt slug would never be missed otherwise."""
    known = slugs()
    for case in CASES:
        said = {*case.get("first", ()), *case.get("first_three", ()), *case.get("must_not", ())}
        said |= {name for pair in case.get("before", ()) for name in pair}
        said |= {name for key in ("says", "says_not") for name, _ in case.get(key, ())}
        assert said <= known, case["id"]
