"""
The plans of the phone page for stuck fasteners: made at the corners, packed small, read again.

The form that `pack` gives and the page reads, all of it lists of whole numbers but for `texts`:

    kinds    [{id, title, damages: [number of a class of the first axis]}]: asked first
    axes     [{id, title, outside: {title, says}, classes: [{id, title, corner, options, takes}]}];
             of a damage also `threaded`: its corner names the thread, whatever the size
    taken    what every plan takes for granted, a sentence each; governs: what goes before it all;
             nowhere: what is left where nothing is
    hands_off  {title, rows: [[what, why, instead]]}: what gets no plan at all
    texts    every sentence once; all numbers below but those of methods and lists are of texts
    methods  [slug, title, [steps], [cautions]]
    moves    [method, tool or -1, verdict, chance, minutes, [cautions before the method's own]]
    outs     [method, why, what brings it back or -1]
    lists    [numbers]: of outs, or of texts
    plans    [[moves], further moves that are not shown, if the first fails: method or -1,
             why the first, list of outs, list of texts when to stop, chance, minutes, list of
             texts what has become dangerous where heat was too near already, list of texts what
             is done once a line has been opened]; without moves: no safe way is left
    cells    plan of each mix of classes; their numbers, the first axis weighing most, count up
"""

import sqlite3
from collections.abc import Iterable, Mapping, Sequence
from math import prod
from typing import Any, NamedTuple

from fastkit.answers import options
from fastkit.answers.asks import UNDER_IT, Asks, only_with
from fastkit.answers.extract_answer import NO_WAY
from fastkit.answers.facts import gather
from fastkit.answers.grid_classes import AXES, KINDS, Class, Picks, corner, threaded
from fastkit.answers.grid_once import Once
from fastkit.answers.method_texts import tagged_texts, titles_of, told_at
from fastkit.answers.opened import afterwards
from fastkit.answers.understand import understand, with_movable
from fastkit.answers.wording import (
    ALMOST,
    NOWHERE,
    reasons_of,
    sentence,
    show_chance,
    show_minutes,
    why_words,
)
from fastkit.extraction.aftermath import done_too_near
from fastkit.extraction.facts import Facts
from fastkit.extraction.plan import ranked
from fastkit.extraction.policy import Policy
from fastkit.extraction.result import Move, Plan
from fastkit.extraction.situation import Situation
from fastkit.extraction.solving import solve
from fastkit.records.method import Condition
from fastkit.records.source import HandsOff
from fastkit.reference.lookup import many

# what does not get it out by itself is never told as a share that succeeds
DOES = {"treat": "weakens the bond", "room": "makes room", "gate": "comes before all else"}
NO_PLAN = "No plan is made for these"
MOVES_SHOWN = 6  # from the first that is no gate; the rest is counted
TAKEN = (
    "Class 8.8, of a cross recess 4.8; no cadmium on it; no insert in the hole.",
    "A right-hand thread, engaged one diameter; no nut that grips by itself.",
    "A snapped one stands two diameters proud, or sits half of one below: measure it.",
    "It holds back no spring, weight or pressure; what it is on does not hang on a jack alone.",
    "It sits in no pocket; the far side is not looked at; where it is bonded is not known.",
    "Nothing that burns and nothing chlorinated is on it; the recess is clean; no section is lost.",
    "All tools and power are at hand; things may be moved aside or the part taken to the bench.",
    "A part that is spoilt costs two hours.",
)


class Said(NamedTuple):
    """One move in words; `cautions` are those that this place adds to the method's own."""

    method: str
    tool: str | None
    verdict: str
    chance: str
    minutes: str
    cautions: tuple[str, ...]


class Barred(NamedTuple):
    """One method that is ruled out, in words."""

    method: str
    because: str
    opens_it: str | None


class Cell(NamedTuple):
    """The plan of one mix of classes, in words."""

    moves: tuple[Said, ...]
    more: int
    if_it_fails: str
    why: str
    ruled_out: tuple[Barred, ...]
    stop_when: tuple[str, ...]
    chance: str
    minutes: str
    dangers: tuple[str, ...]  # of what may have been done before, whatever it was
    afterwards: tuple[str, ...]


class Planner:
    """Plans at corners; what corners share is fetched once. Nothing of the user's own is read."""

    def __init__(self, store: sqlite3.Connection) -> None:
        self.store, self.titles = store, titles_of(store)
        self._known: dict[tuple[str, str], tuple[Situation, Facts]] = {}
        self._asks = many(store, Condition)
        self._room: dict[tuple[str, ...], dict[str, Any]] = {}
        self._cells: dict[Situation, Cell] = {}
        self._last: Policy | None = None  # the next plan differs little

    def situation(self, picks: Picks) -> tuple[Situation, Facts]:
        """Return the corner of a mix as the planner takes it, and the rows for it."""
        asked = corner(picks)
        key = picks[0], picks[-1]
        if key not in self._known:
            fixed = {name: asked[name] for name in asked if name in ("kind", "damage", "drive")}
            found = understand(self.store, "", {**fixed, "thread": asked["thread"]}).situation
            self._known[key] = found, gather(self.store, found)
        situation, facts = self._known[key]
        if picks[1:-1] not in self._room:
            rest = {name: asked[name] for name in asked if name not in ("kind", "damage", "drive")}
            del rest["thread"]
            self._room[picks[1:-1]] = options.fields(self.store, rest)
        placed = situation._replace(**self._room[picks[1:-1]])
        return with_movable(self.store, placed), facts

    def cell(self, picks: Picks) -> Cell:
        """Return the plan of a mix in words."""
        situation, facts = self.situation(picks)
        if situation not in self._cells:  # where the size changes nothing
            self._cells[situation] = self._planned(situation, facts)
        return self._cells[situation]

    def _planned(self, situation: Situation, facts: Facts) -> Cell:
        like = self._last if self._last and self._last.options.facts is facts else None
        solved = solve(situation, facts, like=like)
        plan, self._last = ranked(solved, facts), solved.policy
        tools = {(row.method, row.id): row.title for row in facts.variants}
        does = {row.id: DOES[row.kind] for row in facts.methods if row.kind in DOES}
        gates = {row.id for row in facts.methods if row.kind == "gate"}
        shown = [*(move for move in plan.moves if move.method in gates)]
        shown += [move for move in plan.moves if move.method not in gates][:MOVES_SHOWN]
        first: Move | None = plan.moves[0] if plan.moves else None
        asks = Asks(situation, facts, self._asks)
        done = situation._replace(tried=tuple(row.id for row in facts.methods))
        return Cell(
            tuple(_said(move, tools, does, only_with(asks.move(move))) for move in shown),
            len(plan.moves) - len(shown),
            first.if_it_fails if first else "stop",
            why_words(reasons_of(first, self.titles)) if first else NO_WAY,
            tuple(_barred(plan, self.titles)),
            tuple(sentence(reason, self.titles) for reason in plan.stop_when),
            show_chance(min(plan.chance, ALMOST)),
            show_minutes(plan.expected_minutes),
            done_too_near(done, facts),
            afterwards(self.store, plan, facts),
        )


def _said(
    move: Move,
    tools: Mapping[tuple[str, str], str],
    does: Mapping[str, str],
    cautions: tuple[str, ...],
) -> Said:
    return Said(
        move.method,
        tools.get((move.method, move.variant or "")),
        move.verdict,
        does.get(move.method) or show_chance(move.chance),
        show_minutes(move.minutes),
        cautions,
    )


def _barred(plan: Plan, titles: Mapping[str, str]) -> Iterable[Barred]:
    for out in plan.ruled_out:
        opens = sentence(out.opens_it, titles) if out.opens_it else None
        yield Barred(out.method, sentence(out.because, titles), opens)


def cell(store: sqlite3.Connection, picks: Picks) -> Cell:
    """Return the plan of one mix of classes, by their ids in the order of the axes."""
    return Planner(store).cell(picks)


class _Packer:
    """Cells to numbers."""

    def __init__(self, store: sqlite3.Connection) -> None:
        self.titles, self.words = titles_of(store), told_at(tagged_texts(store))
        self.texts, self.methods, self.moves = Once(), Once(), Once()
        self.outs, self.lists, self.plans = Once(), Once(), Once()

    def optional(self, text: str | None) -> int:
        return -1 if text is None else self.texts.of(text)

    def several(self, texts: Iterable[str]) -> tuple[int, ...]:
        return tuple(self.texts.of(text) for text in texts)

    def add(self, found: Cell) -> int:
        """Return the number of a cell's plan."""
        moves = tuple(
            self.moves.of(
                (
                    self.methods.of(move.method),
                    self.optional(move.tool),
                    self.texts.of(move.verdict),
                    self.texts.of(move.chance),
                    self.texts.of(move.minutes),
                    self.several(move.cautions),
                )
            )
            for move in found.moves
        )
        outs = tuple(
            self.outs.of(
                (
                    self.methods.of(out.method),
                    self.texts.of(out.because),
                    self.optional(out.opens_it),
                )
            )
            for out in found.ruled_out
        )
        fails = -1 if found.if_it_fails == "stop" else self.methods.of(found.if_it_fails)
        return self.plans.of(
            (
                moves,
                found.more,
                fails,
                self.texts.of(found.why),
                self.lists.of(outs),
                self.lists.of(self.several(found.stop_when)),
                self.texts.of(found.chance),
                self.texts.of(found.minutes),
                self.lists.of(self.several(found.dangers)),
                self.lists.of(self.several(found.afterwards)),
            )
        )

    def method(self, slug: str) -> list[Any]:
        steps, cautions = (self.words.get((slug, part), ()) for part in ("step", "caution"))
        title = self.texts.of(self.titles[f"method:{slug}"])
        return [slug, title, [*self.several(steps)], [*self.several(cautions)]]


def pack(store: sqlite3.Connection, cells: Mapping[Picks, Cell]) -> dict[str, Any]:
    """
    Return plans in the form that the module's head describes.

    The axes hold just the classes that the cells use; every mix of these must be there.

    Raises:
        KeyError: When a mix is missing.
    """
    used = [{picks[number] for picks in cells} for number in range(len(AXES))]
    kept = [
        [each for each in axis.classes if each.id in ids]
        for axis, ids in zip(AXES, used, strict=True)
    ]
    packer = _Packer(store)
    numbers = [packer.add(cells[picks]) for picks in _mixes(kept)]
    methods = [packer.method(slug) for slug in packer.methods.numbers]
    damages = [each.id for each in kept[0]]
    return {
        "kinds": [
            {"id": kind.id, "title": kind.title, "damages": held}
            for kind in KINDS
            if (held := [damages.index(one) for one in kind.damages if one in damages])
        ],
        "axes": [
            {
                "id": axis.id,
                "title": axis.title,
                "outside": dict(zip(("title", "says"), axis.outside, strict=True)),
                "classes": [_class_document(each) for each in classes],
            }
            for axis, classes in zip(AXES, kept, strict=True)
        ],
        "taken": list(TAKEN),
        "governs": UNDER_IT,
        "nowhere": NOWHERE,
        "hands_off": {
            "title": NO_PLAN,
            "rows": [
                [row.id.replace("-", " "), row.because, row.instead]
                for row in many(store, HandsOff)
            ],
        },
        "texts": packer.texts.all(),
        "methods": methods,
        "moves": packer.moves.all(),
        "outs": packer.outs.all(),
        "lists": packer.lists.all(),
        "plans": packer.plans.all(),
        "cells": numbers,
    }


def _mixes(kept: Sequence[Sequence[Class]]) -> Iterable[Picks]:
    mixes: list[Picks] = [()]
    for classes in kept:
        mixes = [(*mix, each.id) for mix in mixes for each in classes]
    return mixes


def _class_document(each: Class) -> dict[str, Any]:
    return {
        **each._asdict(),
        "options": list(each.options),
        "takes": {field: list(values) for field, values in each.takes.items()},
        **({"threaded": True} if threaded(each.id) else {}),
    }


def read(stuck: Mapping[str, Any], picks: Picks) -> dict[str, Any]:
    """
    Return one plan in words out of what `pack` gave, as the page does.

    Raises:
        StopIteration: When a class is none of its axis.
    """
    sizes = [len(axis["classes"]) for axis in stuck["axes"]]
    at = 0
    for number, (axis, pick) in enumerate(zip(stuck["axes"], picks, strict=True)):
        place = next(n for n, each in enumerate(axis["classes"]) if each["id"] == pick)
        at += place * prod(sizes[number + 1 :])
    plan = stuck["plans"][stuck["cells"][at]]
    moves, more, fails, why, outs, stop, chance, minutes, dangers, after = plan
    texts, methods = stuck["texts"], stuck["methods"]
    return {
        "moves": [_move_document(stuck, stuck["moves"][number]) for number in moves],
        "more": more,
        "if_it_fails": "stop" if fails < 0 else methods[fails][0],
        "why": texts[why],
        "ruled_out": [
            {
                "method": methods[method][0],
                "title": texts[methods[method][1]],
                "because": texts[because],
                "opens_it": texts[opens] if opens >= 0 else "",
            }
            for method, because, opens in (stuck["outs"][number] for number in stuck["lists"][outs])
        ],
        "stop_when": [texts[number] for number in stuck["lists"][stop]],
        "chance": texts[chance],
        "minutes": texts[minutes],
        "dangers": [texts[number] for number in stuck["lists"][dangers]],
        "afterwards": [texts[number] for number in stuck["lists"][after]],
    }


def _move_document(stuck: Mapping[str, Any], move: Sequence[Any]) -> dict[str, Any]:
    method, tool, verdict, chance, minutes, before = move
    texts = stuck["texts"]
    slug, title, steps, cautions = stuck["methods"][method]
    return {
        "method": slug,
        "title": texts[title],
        "tool": texts[tool] if tool >= 0 else "",
        "verdict": texts[verdict],
        "chance": texts[chance],
        "minutes": texts[minutes],
        "steps": [texts[number] for number in steps],
        "cautions": [texts[number] for number in (*before, *cautions)],
    }
