"""What goes back in place of a fastener: reuse or renew, and the options with a line to buy by."""

import re
import sqlite3
from collections.abc import Iterable, Iterator, Mapping
from typing import Any, NamedTuple

from fastkit.answers import replace_read as settle
from fastkit.answers.critical import Hangs, hangs, is_governed, unsaid
from fastkit.answers.dangers import dangers, must_be, without
from fastkit.answers.hands_off import refuse
from fastkit.answers.replace_ground import Ground, ground_joint, ground_torque
from fastkit.answers.replace_option import Option, option
from fastkit.answers.replace_parts import (
    Joint,
    Own,
    Rows,
    body,
    bolt_grades,
    own,
    phrases,
    rows,
)
from fastkit.answers.replace_rest import (
    from_stock,
    nuts,
    prevailing_words,
    substitutes,
)
from fastkit.answers.replace_special import (
    OTHER_THERE,
    STAINLESS_THERE,
    WANTED,
    WAYS,
    bought,
    is_too_hot,
)
from fastkit.answers.replace_words import sentence
from fastkit.answers.said import places
from fastkit.answers.torque_answer import plainly
from fastkit.errors import NotHeld
from fastkit.extraction.vocabulary import one_slip
from fastkit.hardware.candidates import Asked, candidates, diverse, old_head_of
from fastkit.hardware.locking import wants_lock
from fastkit.hardware.old import Old, Read, read
from fastkit.hardware.reason import Reason
from fastkit.hardware.reuse import reuse
from fastkit.hardware.room import height_of
from fastkit.reach.access import Access
from fastkit.records.replacement import ReuseRule
from fastkit.reference import resolve
from fastkit.reference.aliases import first_meant, readable
from fastkit.reference.spelling import heard
from fastkit.reference.store import connect

MOST = 5  # options shown
OF_A_MAKE = 2  # options of one finish and material
TRIED = 14  # candidates looked into for them
# kinds whose way already is the maker's own part; kinds that are bought by a line
OWN_WAYS = frozenset(("own-part", "wheel", "to-yield"))
FROM_THE_SHELF = frozenset(("stud", "set-screw"))
NUT_KINDS = frozenset(("nut", "lock-nut"))
Numbers = dict[str, Any]


class Reuse(NamedTuple):
    """May the old one go back: reuse, measure first, or renew; and why, what decides first."""

    verdict: str
    because: tuple[str, ...]


class ReplaceAnswer(NamedTuple):
    """
    What goes back. `line` is the first option's line to buy by; None where none is offered, and
    `reason` with `way` then says why and what to do instead.
    """

    thread: str
    line: str | None
    understood: Numbers
    assumed: tuple[Numbers, ...]
    not_understood: tuple[str, ...]
    dangers: tuple[str, ...]  # what the words tell of
    reuse: Reuse
    options: tuple[Option, ...]
    ruled_out: tuple[Numbers, ...]
    substitutes: tuple[str, ...]
    prep: tuple[str, ...]
    ground: Ground | None
    reason: str | None
    way: str | None
    cautions: tuple[str, ...]
    sources: tuple[str, ...]
    said: tuple[str, ...]


def replace(
    thread: str,
    *,
    was: str = "",
    into: str | None = None,
    clamped: str | None = None,
    grip_mm: float | None = None,
    depth_mm: float | None = None,
    place: str = "",
    torque_known_nm: float | None = None,
    above_mm: float | None = None,
    beside_mm: float | None = None,
    swing_deg: float | None = None,
    ground: bool = False,
    lack: tuple[str, ...] | list[str] = (),
    store: sqlite3.Connection | None = None,
) -> ReplaceAnswer:
    """
    Answer what goes back in place of a fastener.

    Args:
        thread: Designation of its thread: `M6`, `M12x1.5`, `3/8-16`.
        was: Words on what came out: head, class, finish, drive, state.
        into: Body material with the internal thread, or `nut`; steel if left out.
        clamped: Material of the part that is clamped; that of the body if left out.
        grip_mm: Thickness of what is clamped [mm]; no length is given without it.
        depth_mm: Depth of full thread in the body, or thickness of the sheet [mm].
        place: Words on where it sits: `outdoors, salt`, `vibrates`, `200 °C`.
        torque_known_nm: Torque known for the old one [N·m].
        above_mm: Free height over the old head [mm].
        beside_mm: Free room beside the old head's edge [mm].
        swing_deg: Free arc for a handle [deg].
        ground: Current goes through the joint.
        lack: What the shop has none of: a head, finish, class or drive; `metric`, `length`.
        store: Compiled reference to use; the package's own if left out.

    Returns:
        The answer; without options where none is safe or none is held.

    Raises:
        NotHeld: When the data does not hold the thread, or has no rule for its family.
        Misuse: When a designation, material or value is not valid.
    """
    settle.check(
        grip_mm=grip_mm,
        depth_mm=depth_mm,
        torque_known_nm=torque_known_nm,
        above_mm=above_mm,
        beside_mm=beside_mm,
        swing_deg=swing_deg,
    )
    held = store or connect()
    old_words, place_words = f"{readable(was)}, {readable(thread)}", readable(place)
    hears = heard(held, f"{old_words}, {place_words}")
    refuse(held, hears)
    found = resolve.thread(held, thread)
    if found.family not in {"M", "UN"}:
        raise NotHeld(
            f"no rule for replacing {found.id}: expected a metric or Unified screw thread",
            ("M8", "3/8-16-UNC"),
        )
    hung, warns = hangs(held, hears), dangers(held, hears)
    old_words, place_words = without(old_words, warns), without(place_words, warns)
    wanted = WANTED.search(old_words) if any(map(is_governed, hung.rows)) else None
    if wanted:
        old_words = WANTED.sub(" ", old_words)
    said = _read(held, old_words, place_words, found.family == "UN", ground, hung)
    mine, tools = own(held)
    known = rows(held, found, tools)
    room = Access(above_mm, beside_mm, swing_deg)
    lacking = settle.lacking(held, lack, found.family == "UN")
    joint, assumed = _joint(
        held, known, said, into, clamped, grip_mm, depth_mm, torque_known_nm, room, lacking, mine
    )
    governed = _governed(hung, said.old, wanted)
    options, ruled_out = ((), ()) if governed else _options(held, known, joint, mine)
    reason, way = governed or _none(options, said, found.size, ruled_out)
    rules, old = reuse(known.rules, said.old), said.old
    line = options[0].line if options else None
    understood = _understood(said, joint, height_of(old_head_of(known.facts, old)))
    if governed and old.grade is None:
        understood["grade"] = None  # assumed for nothing
    if old.kind in WAYS and not governed:
        line = bought(held, known, joint)
    return ReplaceAnswer(
        found.id,
        line,
        understood,
        assumed if options else (),
        tuple(word for word in said.left if word not in places(held)),
        must_be(warns),
        Reuse(
            rules[0].verdict,
            (*_because(rules), *prevailing_words(held, found, old)),
        ),
        options,
        ruled_out,
        substitutes(held, known, joint, options, lacking),
        _prep(old, joint, options),
        ground_joint(held, found, joint, said.place, options) if joint.conducts else None,
        reason,
        way,
        _cautions(old, joint.creeps),
        _sources(options, joint.conducts),
        mine.said,
    )


def _because(rules: tuple[ReuseRule, ...]) -> Iterator[str]:
    """Reasons of the verdict, and what goes with the part; a milder one is not heard beside it."""
    for rule in rules:
        if rule.verdict == rules[0].verdict or rule.cue.startswith("had:"):
            yield rule.because


def _governed(hung: Hangs, old: Old, wanted: re.Match[str] | None) -> tuple[str, str] | None:
    """Why nothing but the maker's part goes back, and the way; None where something else may."""
    if old.kind in OWN_WAYS:
        return None
    for row in hung.rows:
        if row.replaced == "none":
            return row.because, row.instead
    if old.safety and (old.finish == "passivated" or (wanted and wanted[1])):
        return STAINLESS_THERE
    return OTHER_THERE if wanted else None


def _read(
    store: sqlite3.Connection, was: str, place: str, inch: bool, ground: bool, hung: Hangs
) -> Read:
    """What the words say; a ground joint is one of the things that they may."""
    held, grades = phrases(store), bolt_grades(store)

    def reading(old: str, where: str) -> Read:
        return read(old, where, held, grades, first_meant(store, f"{old} {where}"), inch)

    said = reading(was, place)
    meant = _meant(said.left, held) if said.left else {}
    if meant:
        said = reading(*(_mended(text, meant) for text in (was, place)))
    if ground or said.old.kind == "ground":
        flags = dict.fromkeys((*said.place.flags, "ground"))
        said = said._replace(place=said.place._replace(flags=tuple(flags)))
    old = said.old
    safety = (*old.safety, *(row.id for row in hung.rows if is_governed(row)))
    if old.kind == "wheel":  # its own rule says when it may go back
        safety = tuple(name for name in safety if name != "wheels")
    return said._replace(
        old=old._replace(safety=tuple(dict.fromkeys(safety))),
        left=tuple(unsaid(said.left, hung)),
    )


def _meant(left: Iterable[str], held: Iterable[str]) -> dict[str, str]:
    """What words that nothing was made of are slips of, by the phrases that are held."""
    known = frozenset(word for words in held for word in words.split())
    return {word: slip for word in left if (slip := one_slip(word, known))}


def _mended(text: str, meant: Mapping[str, str]) -> str:
    """A text with the words that are meant in place of slips of the keyboard."""
    return re.sub(r"\w+", lambda word: meant.get(word[0].lower(), word[0]), text)


def _joint(
    store: sqlite3.Connection,
    known: Rows,
    said: Read,
    into: str | None,
    clamped: str | None,
    grip_mm: float | None,
    depth_mm: float | None,
    torque_nm: float | None,
    room: Access,
    lacking: tuple[str, ...],
    mine: Own,
) -> tuple[Joint, tuple[Numbers, ...]]:
    """What is asked of every option alike, and what had to be assumed for it."""
    old, material, thread = said.old, body(store, into), known.facts.thread
    clamped = clamped or old.clamped
    plate = body(store, clamped) if clamped else material
    thin = settle.is_thin(material, depth_mm, thread.nominal_mm)
    if thin:
        material = None
        grip_mm = None if grip_mm is None else grip_mm + (depth_mm or 0.0)
    assumed: list[Numbers] = []
    asked = Asked(
        old,
        said.place,
        settle.level(said.place, assumed),
        settle.old_grade(store, known, said, material and material.id, torque_nm, assumed),
        material.id if material else "steel",
        settle.metals(material, plate),
        material is None,
        room,
        settle.washer_mm(known),
        bool(old.safety),
        lacking,
        mine.drives,
    )
    settle.more_assumed(assumed, into, clamped, depth_mm, grip_mm, said, asked, torque_nm)
    conducts = "ground" in said.place.flags
    return Joint(
        asked,
        material,
        grip_mm,
        depth_mm,
        wants_lock(old, said.place),
        conducts,
        torque_nm,
        None if old.kind in WAYS else settle.before(store, known, asked, torque_nm),
        said.place.temperature_degc,
        thin,
        ground_torque(store, thread.size) if conducts else None,
        plate is not None and plate is not material and plate.id == settle.PLASTIC,
    ), tuple(assumed)


def document(answer: ReplaceAnswer) -> Numbers:
    """The answer as the JSON document: plain lists and numbers of six significant digits."""
    plain: Numbers = plainly(answer._asdict())
    plain["options"] = [plainly(one._asdict()) for one in answer.options]
    plain["reuse"] = plainly(answer.reuse._asdict())
    plain["ground"] = plainly(answer.ground._asdict()) if answer.ground else None
    return plain


def _options(
    store: sqlite3.Connection, known: Rows, joint: Joint, mine: Own
) -> tuple[tuple[Option, ...], tuple[Numbers, ...]]:
    old = joint.asked.old
    if old.kind in WAYS:
        return (), ()
    if old.kind in NUT_KINDS:
        return nuts(store, known, joint), ()
    ranked, barred = candidates(known.facts, joint.asked)
    taken: list[Option] = []
    seen: set[tuple[str, str, str | None]] = set()
    out = [{"what": one_.what, "because": sentence(one_.reason)} for one_ in barred]
    for way in diverse(ranked, TRIED):
        key = (way.make.id, way.grade, f"{way.offer.form} {way.drive.id}")
        if key in seen or sum(one_.make == way.make.id for one_ in taken) == OF_A_MAKE:
            continue
        found = option(store, known, joint, way, len(taken) + 1)
        if isinstance(found, Reason):
            out.append({"what": f"{way.offer.standard} {way.grade}", "because": sentence(found)})
        else:
            taken.append(found)
            seen.add(key)
        if len(taken) == MOST:
            break
    unique = list({(row["what"], row["because"]): row for row in out}.values())
    return from_stock(store, taken, mine.stock, known.facts.thread), tuple(unique)


def _none(
    options: tuple[Option, ...], said: Read, size: str, ruled_out: tuple[Numbers, ...]
) -> tuple[str | None, str | None]:
    """Why nothing is offered, and the way instead."""
    if options:
        return None, None
    hot = is_too_hot(said.place.temperature_degc)
    if said.old.kind in WAYS and not (hot and said.old.kind in FROM_THE_SHELF):
        return WAYS[said.old.kind]
    if hot:
        return (
            f"no class held is for {said.place.temperature_degc:g} °C",
            "the maker's heat-resistant part (ISO 3506-5 or a nickel alloy), never a guess",
        )
    told = {row["because"] for row in ruled_out}
    if sentence(Reason("empty_window")) in told:
        return (
            "the thread in the body strips before the joint is clamped as the old one was",
            "a wire or solid insert, a deeper thread, a nut on the back (fastkit repair)",
        )
    return (
        f"no head, class and finish held for {size} serves there",
        "the maker's part; or give more room, another place, or another head form",
    )


def _understood(said: Read, joint: Joint, head_mm: float) -> Numbers:
    old, place, asked = said.old, said.place, joint.asked
    return {
        "kind": old.kind,
        "head": old.form,
        "grade": asked.grade,
        "finish": old.finish,
        "drive": old.drive,
        "state": list(old.states),
        "had": list(old.had),
        "safety": list(old.safety),
        "into": "nut" if joint.body is None else joint.body.id,
        "metals": list(asked.metals),
        "place": asked.level,
        "temperature_degc": place.temperature_degc,
        "flags": list(place.flags),
        "circuit": place.circuit,
        "lack": list(asked.lack),
        "old_head_height_mm": head_mm,
    }


def _prep(old: Old, joint: Joint, options: tuple[Option, ...]) -> tuple[str, ...]:
    """What is done to the thread before the new one goes in."""
    if not options:
        return ()
    first = options[0]
    found = ["Run a nut or tap of the same thread through by hand, blow out, wipe dry."]
    if joint.body is not None and not joint.thin_sheet:
        found[0] = "Chase the hole with a bottoming tap by hand, blow out (eyes), wipe dry."
        found.append("No oil left at the bottom of a blind hole: it jams or cracks the body.")
    if first.locking.startswith("threadlocker"):
        found.append("Degrease both threads; primer on stainless, zinc and old aluminium.")
    if "spring-washer" in old.had:
        found.append("Leave the spring washer out: once flat it locks nothing.")
    if first.insulate:
        found.append("Paint or seal bare metal round the hole once it is tight.")
    return tuple(found)


def _cautions(old: Old, creeps: bool) -> tuple[str, ...]:
    found = []
    if creeps:
        found.append(
            "What it clamps is plastic, which creeps and cracks under a head: the torque stands "
            "for one with a metal sleeve in its hole; without a sleeve, the part maker's own."
        )
    if old.safety or old.kind in {"wheel", "to-yield"}:
        found.append(
            "Safety-critical: the maker's part number, torque and procedure; what stands here only "
            "checks what you are handed."
        )
    found.append(
        "The vehicle or machine maker's specification governs. Brakes, steering, lifting and "
        "pressure: qualified hands."
    )
    return tuple(found)


def _sources(options: tuple[Option, ...], conducts: bool) -> tuple[str, ...]:
    found = ["anodic index list (pairs) [memory in part]", "ISO 888 (lengths) [memory in part]"]
    if options:
        found += ["VDI 2230-1 (torque)", "published rules and FED-STD-H28/2B (engagement)"]
    if conducts:
        found.append("ground limits as listed under ground:vehicle-ground")
    return (*found, "common practice [judgement] (choice, locks, reuse)")
