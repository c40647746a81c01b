"""What to do first, here, with this room: the plan for a fastener that will not move."""

import re
import sqlite3
from collections.abc import Collection, Iterable, Iterator, Mapping
from typing import Any, NamedTuple

from fastkit.answers.facts import gather
from fastkit.answers.minded import minded
from fastkit.answers.near import NearAnswer, NearTool, tools_near
from fastkit.answers.opened import afterwards
from fastkit.answers.options import NEAR_SIZES
from fastkit.answers.sizes import Told, teller
from fastkit.answers.understand import Understood, understand
from fastkit.answers.wording import Names, in_sentence, method_title, sentence, thing
from fastkit.errors import Misuse
from fastkit.extraction.chain import LOBES, Chains
from fastkit.extraction.facts import Facts
from fastkit.extraction.gates import PRESSURE, at_hand
from fastkit.extraction.options import is_outer
from fastkit.extraction.plan import line, plan
from fastkit.extraction.resistance import body
from fastkit.extraction.result import (
    Assumption,
    Later,
    Measure,
    Move,
    Plan,
    Reason,
    Turned,
    WeakestLink,
)
from fastkit.extraction.rules import FIRE, HEATS, Never, never
from fastkit.extraction.situation import TUBE_NUT, Situation
from fastkit.extraction.spread import Course, course
from fastkit.notation.entry import entry_id
from fastkit.notation.units import show_mm
from fastkit.reach.fit import Margins, Shortfall
from fastkit.records.hazard import Hazard
from fastkit.records.method import Condition
from fastkit.records.own import OwnTries
from fastkit.records.part import Part
from fastkit.reference.lookup import many, nearest
from fastkit.reference.store import connect, query
from fastkit.shopbook.place import there

GOVERNS = (
    "The maker's specification governs. Brakes, steering, restraint, fuel, pressure: qualified "
    "hands, local rules. Chances are workshop judgement."
)
STANDS = "stands under it before anything else, never a jack alone"
UNDER_IT = f"{STANDS.capitalize()}. {GOVERNS}"
ON_WHEELS = "wheel on the ground, brake on"
THEN_LIFTED = f"{ON_WHEELS.capitalize()}, until it is loose; then lifted, and on stands. {GOVERNS}"

MOVED = "the {0} moved {1} off"
DRAINED = "line off, drained and cleaned of {0}"  # what stands in it is moved nowhere
VITAL = "vital"
OIL = re.compile(r"\b(?:oil|penetrant)\b(?!-free)", re.IGNORECASE)
ON_LOBES, TITLE = "lobed-", "title"  # parts of the texts of methods
OF_A_LINE, OF_A_BODY = "line vented", "sealed body"  # in the conditions of clearances.csv
SEALED = "sealed"  # in conditions.csv, of what is loose: a gas strut, and no hose
RUNS_OUT = ("brake-fluid", "fuel")  # stands in the part itself, or in its line
SUFFERED = ("worn", "stripped", "rounded")
NO_WAY = "no safe way is left here; what is ruled out says what would bring one back"


Texts = Mapping[tuple[str, str], list[str]]  # by method and part


class Step(NamedTuple):
    """One method that is not ruled out, in words; fields as the JSON keys."""

    rank: int
    method: str
    variant: str | None
    verdict: str  # first, next, last-resort
    chance: float
    minutes: float
    expected_minutes: float
    margins: Margins
    weakest_link: WeakestLink | None
    outcomes: Mapping[str, float]
    why: str
    needs: tuple[str, ...]
    after: str | None
    steps: tuple[str, ...]
    cautions: tuple[str, ...]
    if_it_fails: str
    kind: str  # gate, treat, turn, part, room; not in the document
    conditions: tuple[str, ...]  # what a near neighbour asks for; in the document among cautions
    later: tuple[str, ...]  # what `if_it_fails` asks for where it is then done; not in the document
    told: Mapping[str, str]  # the sentences of `why` by their codes; not in the document
    sizes: tuple[Told, ...]  # for this very fastener
    treats: tuple[float, float] | None  # torque before and after it [N·m]; not in the document


class Out(NamedTuple):
    """One method that is ruled out, in words; `reason` is not in the document, its code is."""

    method: str
    reason: Reason
    because: str
    short_by: Shortfall | None
    opens_it: str | None


class ExtractAnswer(NamedTuple):
    """
    The plan in words; `document` makes the JSON of it.

    `said` names the fields that words or options filled, `vague` those of them that only vague
    words did; `shank_nm` is what the shank carries [N·m]; `titles` holds the titles of methods and
    tools by entry id, `variants` those of the tools' variants by method and variant.
    """

    words: str
    situation: Situation
    said: frozenset[str]
    vague: frozenset[str]
    not_understood: tuple[str, ...]
    assumed: tuple[Assumption, ...]
    plan: tuple[Step, ...]
    ruled_out: tuple[Out, ...]
    expected_minutes: float
    chance: float
    stop_when: tuple[str, ...]
    leads_to: Turned | None  # what the treatments that come first make way for
    in_room_made: Turned | None  # what follows where the first move makes room; not in the document
    measure_next: Measure | None
    shank_nm: float
    titles: Names
    variants: Mapping[tuple[str, str], str]
    governs: str
    own: tuple[OwnTries, ...]  # the user's own attempts at this kind of seizure
    own_said: tuple[str, ...]  # what is wrong with the own file
    near: tuple[NearTool, ...]  # near fits of a drive that has suffered, the loosest first
    never: Never  # what no fire may do here
    part: Part | None  # that the fastener is by its name
    last: Later | None  # the last move worth making, that `stop_when` names; not in the document
    guards: Mapping[str, tuple[str, ...]]  # what whoever uses a method minds; not in the document
    dangers: tuple[str, ...]  # what the words tell of; what is meant, was tried, or is planned
    afterwards: tuple[str, ...]  # what is done once a line was opened, what is not put back
    hot: frozenset[str]  # methods that heat it; this and the next not in the document
    oily: frozenset[str]  # those that want oil on it, and do not heat

    def compare(self, *methods: str) -> tuple[Step | Out, ...]:
        """
        Return what the plan holds of each method.

        Raises:
            Misuse: When a method is not in the data.
        """
        found: dict[str, Step | Out] = {row.method: row for row in self.ruled_out}
        found.update((step.method, step) for step in self.plan)
        for method in methods:
            if method not in found:
                raise Misuse(
                    f"--compare {method[:60]!r}: no such method", nearest(method, sorted(found), 1)
                )
        return tuple(found[method] for method in methods)

    def document(self, compared: tuple[Step | Out, ...] | None = None) -> dict[str, Any]:
        """Return the JSON document, with what is compared where something is."""
        extra: dict[str, Any] = {} if self.plan else {"reason": NO_WAY}
        if compared:
            extra["compare"] = [_row_document(row) for row in compared]
        return {
            "situation": situation_document(self.situation),
            "not_understood": list(self.not_understood),
            "assumed": [
                {**item._asdict(), "what": _key(item.what), "value": _plain(item.what, item.value)}
                for item in self.assumed
            ],
            "plan": [_step_document(step) for step in self.plan],
            "ruled_out": [_out_document(out) for out in self.ruled_out],
            "expected_minutes": self.expected_minutes,
            "chance": self.chance,
            "stop_when": list(self.stop_when),
            "leads_to": self.leads_to and _ahead_document(self.leads_to),
            "measure_next": self.measure_next and self.measure_next._asdict(),
            "own": [row._asdict() for row in self.own],
            "near_fits": [fit._asdict() for fit in self.near],
            "part_note": self.part and self.part.note,
            "dangers": list(self.dangers),
            "afterwards": list(self.afterwards),
            **extra,
        }


LEFT_HAND = "Left-hand thread: clockwise loosens it; every direction named here is reversed."
LEFT_HAND_OWN = "Left-hand thread: clockwise loosens it, as this drill turns."
EMPTY: Mapping[str, Any] = {
    "situation": None,
    "not_understood": [],
    "assumed": [],
    "plan": [],
    "ruled_out": [],
    "expected_minutes": None,
    "chance": None,
    "stop_when": [],
    "leads_to": None,
    "measure_next": None,
    "own": [],
    "near_fits": [],
    "part_note": None,
    "dangers": [],
    "afterwards": [],
}


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
    on_wheels = bool(facts.part and facts.part.on_wheels)
    hand = at_hand(found.situation, is_outer(found.situation, facts), on_wheels)
    texts: Texts = texts_of(store, hand)
    titles: Names = titles_of(store)
    if facts.drive and facts.drive.system == LOBES:
        texts, titles = _on_lobes(texts, titles)
    kinds = {row.id: row.kind for row in facts.methods}
    shank = Chains(found.situation, facts, body(found.situation, facts)).shank
    body_known = "into" in understood.said or bool(facts.part and facts.part.body)
    sizes = teller(store, found.situation, facts, shank, body_known)
    asks = many(store, Condition)
    parts = {row.id: row.part for row in facts.neighbours}
    barred = never(found.situation, facts)
    return ExtractAnswer(
        words,
        found.situation,
        understood.said,
        understood.vague,
        understood.not_understood,
        found.assumed,
        tuple(
            _step(
                move,
                kinds[move.method],
                (
                    *asked_of(move.method, found.situation, asks, on_wheels),
                    *_of_form(move.conditions, found.situation),
                ),
                _asked_later(move.later, found.situation, facts.part, parts, asks, on_wheels),
                found.situation.left_hand,
                titles,
                texts,
                sizes(move.method),
            )
            for move in found.moves
        ),
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
        _ahead(found.leads_to, found.situation, facts.part, parts, asks, on_wheels),
        _ahead(found.in_room_made, found.situation, facts.part, parts, asks, on_wheels),
        found.measure_next,
        shank / 1000,
        titles,
        {(row.method, row.id): row.title for row in facts.variants},
        governs(found.situation, on_wheels),
        facts.own,
        own_said,
        _near(store, facts, found.situation),
        barred,
        facts.part,
        _last(found, facts.part, parts, asks, on_wheels),
        guards_of(store, facts, texts),
        (
            *understood.dangers,
            *_meant(understood.meant, found, facts, barred, titles),
            *minded(store, facts, found),
        ),
        afterwards(store, found, facts, facts.part),
        *_hot_and_oily(texts, facts),
    )


def _meant(
    methods: Iterable[str], found: Plan, facts: Facts, barred: Never, titles: Names
) -> Iterator[str]:
    """Yield why what somebody means to do is forbidden here: fire of any kind, or a neighbour."""
    forbidden = {method for _, them in barred.because for method in them}
    if found.situation.no_heat:
        forbidden |= {row.method for row in facts.method_hazards if row.hazard in FIRE}
    for out in found.ruled_out:
        code = out.because.code
        if out.method in methods and (
            code == "neighbour" or (code == "veto" and out.method in forbidden)
        ):
            title = in_sentence(method_title(out.method, titles))
            yield f"no {title} here: {sentence(out.because, titles)}"


def _ahead(
    turned: Turned | None,
    situation: Situation,
    part: Part | None,
    parts: Mapping[str, str],
    asks: Iterable[Condition],
    on_wheels: bool,
) -> Turned | None:
    """Return what comes later with all that it asks for in words: what must move, and the rest."""
    if turned is None:
        return None
    asked = asked_of(turned.method, situation, asks, on_wheels)
    return turned._replace(
        conditions=(
            *_moved(turned.away, situation, part, parts),
            *asked,
            *_of_form(turned.conditions, situation),
        )
    )


def _moved(
    away: Iterable[tuple[str, float]],
    situation: Situation,
    part: Part | None,
    parts: Mapping[str, str],
) -> list[str]:
    """Return what must have been moved, and how far; what stands in the part itself is drained."""
    holds = situation.kind == TUBE_NUT or (part is not None and part.opens)
    inside = [near.thing for near in situation.near if near.mm == 0 and near.thing in RUNS_OUT]
    return [
        DRAINED.format(thing(name))
        if holds and name in inside
        else MOVED.format(parts[name], show_mm(mm))
        for name, mm in away
    ]


def _asked_later(
    later: Later | None,
    situation: Situation,
    part: Part | None,
    parts: Mapping[str, str],
    asks: Iterable[Condition],
    on_wheels: bool,
) -> tuple[str, ...]:
    """Return what a move that comes later asks for, at the damage that it then meets."""
    if later is None:
        return ()
    then = situation._replace(damage=later.damage)
    asked = asked_of(later.method, then, asks, on_wheels)
    told = _of_form(later.conditions, situation)
    return (*_moved(later.away, situation, part, parts), *asked, *told)


def _of_form(conditions: Iterable[str], situation: Situation) -> Iterator[str]:
    """Yield what a neighbour asks for, of a strut without what a line alone can, and the same."""
    sealed = PRESSURE in situation.sealed
    piped = not sealed and PRESSURE in (*situation.piped, *situation.loose)
    for condition in conditions:
        parts = condition.split("; ")
        kept = [
            part
            for part in parts
            if not (sealed and part.startswith(OF_A_LINE))
            and not (piped and part.startswith(OF_A_BODY))
        ]
        if kept:
            yield "; ".join(kept)


def _last(
    found: Plan,
    part: Part | None,
    parts: Mapping[str, str],
    asks: Iterable[Condition],
    on_wheels: bool,
) -> Later | None:
    """Return the last move worth making with all that it asks for."""
    last = found.last
    moved = [row.values[1] for row in found.stop_when if row.code == "after_failures_moved"]
    asked = (
        *(text for move in moved for text in asked_of(str(move), found.situation, asks, on_wheels)),
        *_asked_later(last, found.situation, part, parts, asks, on_wheels),
    )
    return last and last._replace(conditions=asked)


def _hot_and_oily(texts: Texts, facts: Facts) -> tuple[frozenset[str], frozenset[str]]:
    """Return the methods that heat it, and those whose steps want oil on it."""
    hot = frozenset(row.method for row in facts.method_hazards if row.hazard in HEATS)
    oiled = {method for (method, part), told in texts.items() if OIL.search(" ".join(told))}
    gates = {row.id for row in facts.methods if row.kind == "gate"}
    return hot, frozenset(oiled - hot - gates)


def guards_of(store: sqlite3.Connection, facts: Facts, texts: Texts) -> dict[str, tuple[str, ...]]:
    """Return what whoever uses a method minds in any case: of itself, and by what it gives off."""
    guards = {row.id: row.guard for row in many(store, Hazard)}
    vital = {method: told for (method, part), told in texts.items() if part == VITAL}
    found: dict[str, list[str]] = {method: [] for method in vital}
    for row in facts.method_hazards:
        guard, told = guards[row.hazard], found.setdefault(row.method, [])
        if guard and guard not in "; ".join((*told, *vital.get(row.method, ()))):
            told.append(guard)
    return {method: (*told, *vital.get(method, ())) for method, told in found.items()}


def _ahead_document(turned: Turned) -> dict[str, Any]:
    fields = turned._asdict()
    del fields["away"]
    return fields


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


def situation_document(situation: Situation) -> dict[str, Any]:
    """Return a situation under the options' own names, designations as entry ids."""
    return {
        _key(name): _plain(name, value)
        for name, value in situation._asdict().items()
        if name not in ("loose", "rigid", "piped", "sealed")  # which no option says
    }


def _key(field: str) -> str:
    """Return the JSON key of a field: the option's own name."""
    return "spoil" if field == "spoil_min" else field


def _plain(field: str, value: Any) -> Any:
    if field in ("thread", "grade", "drive"):
        return value and entry_id(field, value)
    if field == "near":
        return [near._asdict() for near in value] if isinstance(value, tuple) else value
    if field == "can":
        return value and [{"move": move, "minutes": minutes} for move, minutes in value]
    return list(value) if isinstance(value, tuple) else value


def _step_document(step: Step) -> dict[str, Any]:
    link = step.weakest_link
    fields = step._asdict()
    for inner in ("kind", "conditions", "later", "told", "treats"):
        del fields[inner]
    return {
        **fields,
        "margins": step.margins._asdict(),
        "weakest_link": link and {**link._asdict(), "required_nm": list(link.required_nm)},
        "outcomes": dict(step.outcomes),
        "needs": [entry_id("tool", tool) for tool in step.needs],
        "steps": list(step.steps),
        "cautions": list(step.cautions),
        "sizes": [size.document() for size in step.sizes],
    }


def _row_document(row: Step | Out) -> dict[str, Any]:
    return _step_document(row) if isinstance(row, Step) else _out_document(row)


def _out_document(out: Out) -> dict[str, Any]:
    return {
        "method": out.method,
        "code": out.reason.code,
        "because": out.because,
        "short_by": out.short_by and out.short_by._asdict(),
        "opens_it": out.opens_it,
    }


def texts_of(
    store: sqlite3.Connection, hand: Collection[str] | None = None
) -> Mapping[tuple[str, str], list[str]]:
    """Return steps and cautions by method and part, in order; those only of what is at hand."""
    found: dict[tuple[str, str], list[tuple[set[str], str]]] = {}
    sql = "SELECT method, part, told, text FROM method_text ORDER BY method, part, n"
    for method, part, told, text in query(store, sql):
        found.setdefault((method, part), []).append((set((told or "").split()), text))
    return {
        key: [text for told, text in texts if hand is None or not told or not told.isdisjoint(hand)]
        or [text for _, text in texts]
        for key, texts in found.items()
    }


def _on_lobes(texts: Texts, titles: Names) -> tuple[Texts, Names]:
    """Return texts and titles with what a head with lobes takes in place of a hexagon's tools."""
    lobed = {
        (method, part.removeprefix(ON_LOBES)): told
        for (method, part), told in texts.items()
        if part.startswith(ON_LOBES)
    }
    named = {f"method:{method}": told[0] for (method, part), told in lobed.items() if part == TITLE}
    return {**texts, **lobed}, {**titles, **named}


def titles_of(store: sqlite3.Connection) -> dict[str, str]:
    """Return the titles of methods, tools and neighbours by entry id."""
    sql = "SELECT id, title FROM entry WHERE kind IN ('method', 'tool', 'neighbour')"
    return {str(entry): str(title) for entry, title in query(store, sql)}


def governs(situation: Situation, on_wheels: bool) -> str:
    """Return what goes before all else: what it rests on, and the maker's specification."""
    if on_wheels:
        return THEN_LIFTED
    return UNDER_IT if situation.support == "unknown" else GOVERNS


def asked_of(
    method: str, situation: Situation, rows: Iterable[Condition], on_wheels: bool = False
) -> tuple[str, ...]:
    """Return what a method asks for here; `on_wheels` as in `gates.at_hand`."""
    asks = [row for row in rows if row.method == method]
    found = _held(asks, situation, on_wheels) if asks else []
    jack = situation.support == "jack" and method != "unload"
    standing = (ON_WHEELS if on_wheels else STANDS,) if jack else ()
    return tuple(dict.fromkeys((*standing, *found)))


def _held(asks: Iterable[Condition], situation: Situation, on_wheels: bool) -> list[str]:
    """Return those conditions of which the situation has a value."""
    near, piped, sealed = {item.thing for item in situation.near}, situation.piped, situation.sealed
    several = {
        "near": near,
        "loose": {SEALED if thing in sealed else thing for thing in situation.loose},
        "piped": near.intersection(piped),
        "sealed": near.intersection(sealed),
        "unnamed": near.difference(piped, sealed),
        "tried": set(situation.tried),
        "hand": at_hand(situation, True, on_wheels),
    }
    return [
        row.condition
        for row in asks
        if set(row.value.split())
        & (several[row.field] if row.field in several else {str(getattr(situation, row.field))})
    ]


def _step(
    move: Move,
    kind: str,
    conditions: tuple[str, ...],
    later: tuple[str, ...],
    left_hand: bool,
    titles: Names,
    texts: Texts,
    sizes: tuple[Told, ...],
) -> Step:
    own = move.method == "right-hand-drill"
    hand = ((LEFT_HAND_OWN if own else LEFT_HAND),) if left_hand else ()
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
        later,
        told,
        sizes,
        next((_pair(reason) for reason in move.why if reason.code == "treats"), None),
    )


def _pair(reason: Reason) -> tuple[float, float]:
    _, before, after = reason.values
    return float(before), float(after)


def reasons_of(move: Move, titles: Names) -> dict[str, str]:
    """Return why a move is offered, a sentence each by its code."""
    return {reason.code: sentence(reason, titles) for reason in move.why}


def why_words(told: Mapping[str, str]) -> str:
    """Return the reasons of a move in one sentence; empty where nothing is to be said."""
    return "; ".join(told.values()) + "." if told else ""


def _unsaid(conditions: Iterable[str], steps: str) -> Iterator[str]:
    """Yield the conditions without those parts that steps or cautions say already."""
    for condition in conditions:
        parts = [part for part in condition.split("; ") if part.lower() not in steps]
        if parts:
            yield "; ".join(parts)


def only_with(conditions: Iterable[str]) -> tuple[str, ...]:
    """Return what a near neighbour asks for, as cautions."""
    return tuple(f"Only with this: {condition}." for condition in conditions)
