"""What to do first, here, with this room: the plan for a fastener that will not move."""

import sqlite3
from collections.abc import Iterable, Iterator
from typing import Any

from fastkit.answers.asks import Asks, only_with
from fastkit.answers.extract_answer import ExtractAnswer, Out, Step
from fastkit.answers.facts import gather
from fastkit.answers.method_texts import (
    COLD,
    Texts,
    guards_of,
    hot_and_oily,
    of_tools,
    on_lobes,
    tagged_texts,
    titles_of,
    told_at,
    wants_oil,
)
from fastkit.answers.minded import minded
from fastkit.answers.near import NearAnswer, NearTool, tools_near
from fastkit.answers.opened import afterwards
from fastkit.answers.options import NEAR_SIZES
from fastkit.answers.sizes import Told, teller
from fastkit.answers.understand import Understood, understand
from fastkit.answers.wording import (
    Names,
    in_sentence,
    method_title,
    reasons_of,
    sentence,
    why_words,
)
from fastkit.extraction.chain import LOBES, Chains
from fastkit.extraction.facts import Facts
from fastkit.extraction.plan import line, plan
from fastkit.extraction.resistance import body
from fastkit.extraction.result import Move, Plan, Reason
from fastkit.extraction.rules import FIRE, Never, giving_off, never
from fastkit.extraction.situation import Situation
from fastkit.extraction.spread import Course, course
from fastkit.records.method import Condition
from fastkit.reference.lookup import many
from fastkit.reference.store import connect
from fastkit.shopbook.place import there

SUFFERED = ("worn", "stripped", "rounded")
LEFT_HAND = "Left-hand thread: clockwise loosens it; every direction named here is reversed."
LEFT_HAND_OWN = "Left-hand thread: clockwise loosens it, as this drill turns."


def extract(
    words: str = "", *, store: sqlite3.Connection | None = None, **options: Any
) -> ExtractAnswer:
    """
    Return the plan for a fastener that will not move.

    Args:
        words: What people type of it.
        store: Open reference; the package's own if left out.
        options: The command's options, `_` for `-`, as typed or in mm, degrees, percent and
            minutes; they win over the words.

    Raises:
        Misuse: When an option is not valid, or nothing at all was understood.
        NotHeld: When a designation is well formed but not in the data.
        Broken: When the reference cannot be read.
    """
    store = store or connect()
    understood = understand(store, words, options)
    facts, own_said = _with_own(gather(store, understood.situation), understood.situation)
    found = plan(understood.situation, facts, understood.assumed)
    return _answer(words, store, understood, facts, found, own_said)


def extract_course(
    words: str = "", *, most: int, store: sqlite3.Connection | None = None, **options: Any
) -> tuple[ExtractAnswer, Course]:
    """
    Return the first move, what follows it on failure, and how it goes in the end; no more.

    For many fasteners at once: up to `most` moves, nothing of what was assumed or is ruled out;
    the other arguments and the errors are those of `extract`.
    """
    store = store or connect()
    understood = understand(store, words, options)
    facts, own_said = _with_own(gather(store, understood.situation), understood.situation)
    found, solved = line(understood.situation, facts, most)
    return _answer(words, store, understood, facts, found, own_said), course(solved)


def _answer(
    words: str,
    store: sqlite3.Connection,
    understood: Understood,
    facts: Facts,
    found: Plan,
    own_said: tuple[str, ...],
) -> ExtractAnswer:
    """Put a plan into words."""
    asks = Asks(found.situation, facts, many(store, Condition))
    tagged, titles = tagged_texts(store), titles_of(store)
    hand = asks.hand
    texts = told_at(tagged, hand)
    by_tool = of_tools(tagged, {row.id for row in facts.variants})
    if facts.drive and facts.drive.system == LOBES:
        texts, titles = on_lobes(texts, titles)
    kinds = {row.id: row.kind for row in facts.methods}
    shank = Chains(found.situation, facts, body(found.situation, facts)).shank
    body_known = "into" in understood.said or bool(facts.part and facts.part.body)
    sizes = teller(store, found.situation, facts, shank, body_known)
    barred = never(found.situation, facts)
    hot, oily = hot_and_oily(texts, facts)
    heated = not hot.isdisjoint(found.situation.tried)

    def step(move: Move) -> Step:
        conditions = asks.move(move)
        if heated and wants_oil(move.method, conditions, hot, oily):
            conditions = (*conditions, COLD)
        told = {**texts, **told_at(by_tool, {*hand, move.variant or ""})}
        return _step(move, kinds[move.method], conditions, asks, titles, told, sizes(move.method))

    return ExtractAnswer(
        words,
        found.situation,
        understood.said,
        understood.vague,
        understood.not_understood,
        found.assumed,
        tuple(step(move) for move in found.moves),
        tuple(
            Out(
                out.method,
                out.because,
                sentence(out.because, titles),
                out.short_by,
                sentence(out.opens_it, titles) if out.opens_it else None,
            )
            for out in found.ruled_out
        ),
        found.expected_minutes,
        found.chance,
        tuple(sentence(reason, titles) for reason in found.stop_when),
        asks.ahead(found.leads_to),
        asks.ahead(found.in_room_made),
        found.measure_next,
        shank / 1000,
        titles,
        {(row.method, row.id): row.title for row in facts.variants},
        asks.governs,
        facts.own,
        own_said,
        _near(store, facts, found.situation),
        barred,
        facts.part,
        asks.last(found),
        guards_of(store, facts, texts),
        (
            *understood.dangers,
            *_meant(understood.meant, found, facts, barred, titles),
            *minded(store, facts, found),
        ),
        afterwards(store, found, facts),
        hot,
        oily,
    )


def _meant(
    methods: Iterable[str], found: Plan, facts: Facts, barred: Never, titles: Names
) -> Iterator[str]:
    """Yield why what somebody means to do is forbidden here: fire of any kind, or a neighbour."""
    forbidden = {method for _, them in barred.because for method in them}
    if found.situation.no_heat:
        forbidden |= giving_off(facts, FIRE)
    for out in found.ruled_out:
        code = out.because.code
        if out.method in methods and (
            code == "neighbour" or (code == "veto" and out.method in forbidden)
        ):
            title = in_sentence(method_title(out.method, titles))
            yield f"no {title} here: {sentence(out.because, titles)}"


def _near(store: sqlite3.Connection, facts: Facts, situation: Situation) -> tuple[NearTool, ...]:
    """Return what else fits in or on a drive that has suffered, the loosest first."""
    asked = NEAR_SIZES in situation.have
    if facts.drive is None or not (asked or situation.damage in SUFFERED):
        return ()
    return NearAnswer(facts.drive.id, tools_near(store, facts.drive)).ladder


def _with_own(facts: Facts, situation: Situation) -> tuple[Facts, tuple[str, ...]]:
    """Return the rows with what the own file says, which is opened only where there is one."""
    if not there():
        return facts, ()
    from fastkit.answers.learned import consult, measured

    own = consult(situation.seized)
    variants = measured(facts.variants, own.tools)
    return facts._replace(own=own.tries, variants=variants), own.said


def _step(
    move: Move,
    kind: str,
    conditions: tuple[str, ...],
    asks: Asks,
    titles: Names,
    texts: Texts,
    sizes: tuple[Told, ...],
) -> Step:
    own = move.method == "right-hand-drill"
    hand = ((LEFT_HAND_OWN if own else LEFT_HAND),) if asks.situation.left_hand else ()
    told = reasons_of(move, titles)
    steps = tuple(texts.get((move.method, "step"), ()))
    cautions = texts.get((move.method, "caution"), ())
    return Step(
        move.rank,
        move.method,
        move.variant,
        move.verdict,
        move.chance,
        move.minutes,
        move.expected_minutes,
        move.margins,
        move.weakest_link,
        dict(move.outcomes),
        why_words(told),
        move.needs,
        move.after,
        steps,
        (
            *hand,
            *only_with(_unsaid(conditions, " ".join((*steps, *cautions)).lower())),
            *cautions,
        ),
        move.if_it_fails,
        kind,
        conditions,
        asks.later(move.later),
        told,
        sizes,
        next((_pair(reason) for reason in move.why if reason.code == "treats"), None),
    )


def _pair(reason: Reason) -> tuple[float, float]:
    _, before, after = reason.values
    return float(before), float(after)


def _unsaid(conditions: Iterable[str], steps: str) -> Iterator[str]:
    """Yield the conditions without those parts that steps or cautions say already."""
    for condition in conditions:
        parts = [part for part in condition.split("; ") if part.lower() not in steps]
        if parts:
            yield "; ".join(parts)
