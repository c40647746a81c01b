"""Which question is worth asking: the unknown whose likely answers change the first step most."""

import sqlite3
from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from fastkit.answers import facts as rows
from fastkit.answers import options
from fastkit.answers.understand import Understood, understand
from fastkit.answers.wording import thing
from fastkit.errors import Misuse
from fastkit.extraction.facts import Facts
from fastkit.extraction.situation import Situation
from fastkit.extraction.solving import Solved, coarse_plan, solve, still_first, useful_first
from fastkit.extraction.stubs import BELOW
from fastkit.records.drive import Drive
from fastkit.records.thread import Thread
from fastkit.records.tool import Tool
from fastkit.reference.lookup import get, nearest
from fastkit.reference.store import connect

MOST = 6  # questions; whoever has more to say says it in words
LACKING = 0.2  # that a tool is not at hand; workshop judgement
KEEP = ""
NOTHING, YES, NO = "nothing", "yes", "no"
TOOL = "tool:"  # a question about a tool: its name behind it


class Subject(NamedTuple):
    """What is asked about one option, how likely it is not as assumed, the answers then likely."""

    likely: float
    text: str
    answers: tuple[str, ...]


# In the order in which equals are asked: what can hurt, then what it is, then the room. Shares and
# answers are workshop judgement.
SUBJECTS: Mapping[str, Subject] = {
    "load": Subject(0.4, "What does it still hold back?", ("none", "spring", "weight", "pressure")),
    "near": Subject(
        0.5,
        "What stands beside it, and how far off?",
        (NOTHING, "fuel:100", "rubber:20", "plastic:20", "electronics:20", "battery:100"),
    ),
    "support": Subject(0.4, "What does it rest on?", ("stands", "jack", "bench")),
    "residue": Subject(0.25, "What is on it now?", ("none", "flammable", "chlorinated")),
    "damage": Subject(0.4, "What has happened to it?", ("intact", "worn", "stripped", "spinning")),
    "seized": Subject(
        0.5,
        "What holds it?",
        ("rusted", "seized", "galled", "painted", "threadlocked-medium", "none"),
    ),
    "drive": Subject(0.4, "What turns it?", ()),
    "thread": Subject(0.5, "Which thread?", ("M5", "M6", "M8", "M10", "M12")),
    "into": Subject(0.4, "What does it sit in?", ("steel", "cast-iron", "aluminium", "plastic")),
    "far_side": Subject(0.4, "The other end?", ("reachable", "blind")),
    "left_hand": Subject(0.03, "Is the thread left-handed?", (NO, YES)),
    "recess": Subject(0.3, "Is the recess clean?", ("clean", "filled")),
    "stub": Subject(0.6, "How far does the stub stand proud, mm?", ("2", "6", "12", "25")),
    "above": Subject(0.6, "Free height over the head, mm?", ("20", "45", "90", "200")),
    "beside": Subject(0.5, "Gap beside the head, mm?", ("4", "12", "30")),
    "swing": Subject(0.5, "Free arc for a handle, degrees?", ("10", "30", "90")),
    "side": Subject(0.2, "Opening from the side, width by depth, mm?", ("none", "40x20")),
    "power": Subject(0.3, "Power?", ("electric", "air", "none")),
    "coating": Subject(0.3, "What finish?", ("plain", "zinc", "cadmium", "stainless")),
    "seized_at": Subject(0.3, "Where is it fast?", ("thread", "head", "shank")),
    "wasted": Subject(0.3, "Section lost to rust, percent?", ("0", "30", "60")),
    "can": Subject(0.2, "Can something be moved aside or taken off?", (YES, NO)),
}
UNSAID = ("near", "left_hand")  # not among what is assumed


class Question(NamedTuple):
    """
    One question: the option it fills, its words, answers that may be given, what Enter keeps.

    `telling` are those of the answers that change the first step.
    """

    name: str
    text: str
    answers: tuple[str, ...]
    default: str
    telling: tuple[str, ...] = ()


def next_question(
    store: sqlite3.Connection | None,
    words: str,
    given: Mapping[str, Any],
    asked: frozenset[str],
) -> Question | None:
    """
    Return the question most worth asking; None where no answer would change the first step.

    Each answer that may well be given to each open question is planned for: coarsely to put the
    questions in order, in full before one is asked and before asking ends.

    Raises:
        Misuse: When nothing was understood, or an option is not valid.
        NotHeld: When a designation is well formed but not in the data.
    """
    store = store or connect()
    understood = understand(store, words, given)
    base = rows.gather(store, understood.situation)
    solved = solve(understood.situation, base)
    rough = coarse_plan(understood.situation, base, solved.policy)
    ranked: list[tuple[float, Question, list[tuple[str, Situation, Facts]]]] = []
    for question in _open(store, understood, solved, asked):
        others = list(_otherwise(store, question, understood.situation, base))
        moved = [not still_first(case, held, rough) for _, case, held in others]
        likely = SUBJECTS[question.name].likely if question.name in SUBJECTS else LACKING
        ranked.append((likely * sum(moved) / max(len(moved), 1), question, others))
    first = _first(solved)
    for _, question, others in sorted(ranked, key=lambda row: -row[0]):
        telling = [said for said, case, held in others if _first(solve(case, held)) != first]
        if telling:
            return question._replace(telling=tuple(telling))
    return None


def ask(store: sqlite3.Connection, name: str, words: str, given: Mapping[str, Any]) -> Question:
    """
    Return the question about one option.

    Raises:
        KeyError: When nothing is ever asked about it.
    """
    return _question(store, name, understand(store, words, given).situation)


def answered(
    store: sqlite3.Connection | None, question: Question, said: str, given: Mapping[str, Any]
) -> dict[str, Any]:
    """
    Return the options with an answer added; the beginning of a word will do, nothing keeps them.

    Raises:
        Misuse: When the answer is none that the option takes.
    """
    store = store or connect()
    text = said.strip()
    if text == KEEP:
        return dict(given)
    found = [answer for answer in question.answers if answer.startswith(text.lower())]
    text = found[0] if len(found) == 1 or text in found else text
    name, value = _option(question, text)
    if value is None:
        return dict(given)
    options.fields(store, {name: value})
    kept = given.get(name)
    if isinstance(value, tuple) and isinstance(kept, tuple):
        value = (*kept, *value)
    return {**given, name: value}


def _option(question: Question, text: str) -> tuple[str, Any]:
    """Return the option and its value that an answer stands for; None: nothing to be said."""
    name = question.name
    if question.answers in ((YES, NO), (NO, YES)):
        if text not in (YES, NO):
            raise Misuse(f"{text[:60]!r}: expected yes or no", nearest(text, (YES, NO), 1))
        if name.startswith(TOOL):
            return ("have" if text == YES else "lack"), (name.removeprefix(TOOL),)
        if name == "can":
            return name, None if text == YES else ("none",)
        return name, True if text == YES else None
    if name == "near":
        things = tuple(text.replace(",", " ").split())
        return name, None if things in ((), (NOTHING,)) else things
    return name, text


def _open(
    store: sqlite3.Connection, understood: Understood, solved: Solved, asked: frozenset[str]
) -> Iterator[Question]:
    """Yield the questions that are neither answered nor asked, a tool of the first move among."""
    situation = understood.situation
    assumed = {what for what, _ in understood.assumed} - (understood.said - understood.vague)
    for name in SUBJECTS:
        field = options.FIELDS.get(name, name)
        unsaid = name in UNSAID and field not in understood.said
        if name not in asked and (unsaid or field in assumed):
            yield _question(store, name, situation)
    choice = useful_first(solved)
    variant = choice.candidate.variant if choice and choice.candidate else None
    if variant and TOOL + variant.tool not in asked and variant.tool not in situation.have:
        title = get(store, Tool, variant.tool).title
        yield Question(TOOL + variant.tool, f"At hand: {title}?", (YES, NO), YES)


def _question(store: sqlite3.Connection, name: str, situation: Situation) -> Question:
    _, text, answers = SUBJECTS[name]
    field = options.FIELDS.get(name, name)
    value = getattr(situation, field)
    if name == "stub" and situation.damage == BELOW:
        text, answers = "How deep does the stub sit in its hole, mm?", ("2", "6", "20", "50")
    if name == "drive" and situation.thread and not situation.headless:
        answers = tuple(_drives(store, situation))
    if name == "damage" and situation.drive and get(store, Drive, situation.drive).external:
        answers = tuple("rounded" if answer == "stripped" else answer for answer in answers)
    return Question(name, text, answers, _kept(name, value))


def _kept(name: str, value: Any) -> str:
    """Return what Enter keeps, in words."""
    if name in ("above", "beside", "swing", "side"):
        return "free"
    if name == "power":
        return "all" if value is None else str(value)
    if name in ("near", "left_hand", "can"):
        return {"near": NOTHING, "left_hand": NO, "can": YES}[name]
    return thing(str(value)) if value is not None else "unknown"


def _drives(store: sqlite3.Connection, situation: Situation) -> Iterator[str]:
    """Yield the drives that a thread of this size is likeliest to have."""
    assert situation.thread is not None
    size = get(store, Thread, situation.thread).size
    for kind, system in (
        ("bolt", "hexagon"),
        ("screw", "hex-socket"),
        ("screw", "hexalobular"),
        ("screw", "cross-h"),
    ):
        if found := rows.drive_from_size(store, kind, size, system):
            yield found


def _otherwise(
    store: sqlite3.Connection, question: Question, situation: Situation, base: Facts
) -> Iterator[tuple[str, Situation, Facts]]:
    """Yield each answer with the situation and the rows that it makes."""
    for said in question.answers:
        name, value = _option(question, said)
        if value is None:
            continue
        filled = options.fields(store, {name: value})
        if name in ("have", "lack"):
            filled[name] = (*getattr(situation, name), *filled[name])
        other = situation._replace(**filled)
        if other != situation:
            same = (other.thread, other.grade, other.drive) == (
                *(situation.thread, situation.grade, situation.drive),
            )
            yield said, other, base if same else rows.gather(store, other)


def _first(solved: Solved) -> str:
    """Return the first move of a plan: a gate that is due, else the best way."""
    if solved.gates:
        return solved.gates[0][0]
    choice = useful_first(solved)
    return choice.move if choice else "stop"
