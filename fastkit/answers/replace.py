"""What goes back in place of a fastener: reuse or renew, and the options with a line to buy by."""

import sqlite3
from math import isfinite
from typing import Any, NamedTuple

from fastkit.answers.replace_ground import Ground, ground_joint, ground_torque
from fastkit.answers.replace_option import Joint, Option, option
from fastkit.answers.replace_parts import (
    METAL_OF,
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
    ring_line,
    substitutes,
    way_of,
)
from fastkit.answers.replace_words import sentence
from fastkit.answers.torque import TorqueAnswer, torque
from fastkit.errors import Misuse, NotHeld
from fastkit.hardware.candidates import Asked, candidates, diverse, old_head_of
from fastkit.hardware.locking import wants_lock
from fastkit.hardware.old import Old, Place, Read, read
from fastkit.hardware.reason import Reason
from fastkit.hardware.reuse import reuse
from fastkit.hardware.room import height_of
from fastkit.joint.choice import strength_at
from fastkit.reach.access import Access
from fastkit.records.finish import Finish
from fastkit.records.material import Material
from fastkit.reference import resolve
from fastkit.reference.aliases import first_meant, readable
from fastkit.reference.lookup import one
from fastkit.reference.store import connect

MOST = 5  # options shown
OF_A_MAKE = 2  # options of one finish and material
TRIED = 14  # candidates looked into for them
LEVEL = 2  # damp, where nobody said
THIN_D = 0.6  # diameters: a sheet thinner than this carries no thread (practice)
# kinds that are the maker's own part or have rules of their own
WAYS = frozenset(("restraint", "to-yield", "wheel", "banjo", "set-screw", "stud", "drain-plug"))
NUT_KINDS = frozenset(("nut", "lock-nut"))
# Class of an old part that nobody read, by form, the stronger of what is usual (practice).
USUAL = {"pan": "4.8", "cheese": "4.8", "countersunk": "4.8", "button": "10.9"}
LADDER = ("4.8", "8.8", "10.9", "12.9")
BOUNDS = {
    "grip_mm": (0.1, 2000.0),
    "depth_mm": (0.1, 2000.0),
    "torque_known_nm": (0.01, 1e5),
    "above_mm": (0.0, 1e4),
    "beside_mm": (0.0, 1e4),
    "swing_deg": (0.0, 360.0),
}
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
        lack: What the shop has none of: `metric`, `stainless`, `length`.
        store: Compiled reference to use; the package's own if left out.

    Returns:
        The answer; without options where none is safe or none is held.

    Raises:
        NotHeld: When the data does not hold the thread, or has no rule for its family.
        Misuse: When a designation, material or value is not valid.
    """
    _check(
        grip_mm=grip_mm,
        depth_mm=depth_mm,
        torque_known_nm=torque_known_nm,
        above_mm=above_mm,
        beside_mm=beside_mm,
        swing_deg=swing_deg,
    )
    held = store or connect()
    found = resolve.thread(held, thread)
    if found.family not in {"M", "UN"}:
        raise NotHeld(
            f"no rule for replacing {found.id}: expected a metric or Unified screw thread",
            ("M8", "3/8-16-UNC"),
        )
    was, place = readable(was), readable(place)
    said = read(
        was,
        place,
        phrases(held),
        bolt_grades(held),
        first_meant(held, f"{was} {place}"),
        found.family == "UN",
    )
    lacking = _lacking(held, lack)
    old, material = said.old, body(held, into)
    plate = body(held, clamped) if clamped else material
    mine, tools = own(held)
    known = rows(held, found, tools)
    conducts = ground or old.kind == "ground" or "ground" in said.place.flags
    if conducts:
        said = said._replace(place=said.place._replace(flags=(*said.place.flags, "ground")))
    thin = _is_thin(material, depth_mm, found.nominal_mm)
    grip = grip_mm
    if thin:
        material, grip = None, None if grip_mm is None else grip_mm + (depth_mm or 0.0)
    assumed: list[Numbers] = []
    grade = _old_grade(held, known, said, torque_known_nm, assumed)
    asked = Asked(
        old,
        said.place,
        _level(said.place, assumed),
        grade,
        material.id if material else "steel",
        _metals(material, plate),
        material is None,
        Access(above_mm, beside_mm, swing_deg),
        _washer_mm(known),
        bool(old.safety),
        lacking,
        mine.drives,
    )
    _more_assumed(assumed, into, clamped, depth_mm, grip_mm, said, asked, torque_known_nm)
    range_ = ground_torque(held, found.size) if conducts else None
    joint = Joint(
        asked,
        material,
        grip,
        depth_mm,
        wants_lock(old, said.place),
        conducts,
        torque_known_nm,
        _before(held, known, asked, torque_known_nm),
        said.place.temperature_degc,
        thin,
        range_,
    )
    options, ruled_out = _options(held, known, joint, mine)
    joint_of_ground = ground_joint(held, found, joint, said.place) if conducts else None
    reason, way = _none(options, said, found.size, ruled_out)
    rules = reuse(known.rules, old)
    return ReplaceAnswer(
        found.id,
        options[0].line if options else None,
        _understood(said, grade, asked, joint, lacking, height_of(old_head_of(known.facts, old))),
        tuple(assumed),
        said.left,
        Reuse(
            rules[0].verdict,
            (*(rule.because for rule in rules), *prevailing_words(held, found, old)),
        ),
        options,
        ruled_out,
        substitutes(held, known, joint, options, lacking),
        _prep(old, joint, options, conducts),
        joint_of_ground,
        reason,
        way if old.kind != "drain-plug" else f"{way}; {ring_line(known)}",
        _cautions(old),
        _sources(options, conducts),
        mine.said,
    )


def document(answer: ReplaceAnswer) -> Numbers:
    """The answer as the JSON document: plain lists and numbers of six significant digits."""
    plain: Numbers = _plain(answer._asdict())
    plain["options"] = [_plain(one._asdict()) for one in answer.options]
    plain["reuse"] = _plain(answer.reuse._asdict())
    plain["ground"] = _plain(answer.ground._asdict()) if answer.ground else None
    return plain


def _plain(value: Any) -> Any:
    if isinstance(value, float):
        return float(f"{value:.6g}")
    if isinstance(value, dict):
        return {key: _plain(entry) for key, entry in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(entry) for entry in value]
    return value


def _check(**values: float | None) -> None:
    for name, value in values.items():
        low, high = BOUNDS[name]
        if value is not None and not (isfinite(value) and low <= value <= high):
            word, _, unit = name.rpartition("_")
            shown = {"mm": "mm", "nm": "N·m", "deg": "°"}[unit]
            word = word.replace("_", "-")
            raise Misuse(f"{word} must be {low:g} to {high:g} {shown}, got {value:g}")


def _lacking(store: sqlite3.Connection, lack: tuple[str, ...] | list[str]) -> tuple[str, ...]:
    held = phrases(store)
    known = {words: value for words, said in held.items() for what, value in said if what == "lack"}
    found = []
    for word in lack:
        plain = " ".join(readable(word).lower().split())
        if plain not in known:
            raise Misuse(
                f"lack: {plain[:40]!r} is not understood; expected one of "
                f"{', '.join(sorted(set(known.values())))}"
            )
        found.append(known[plain])
    return tuple(found)


def _is_thin(material: Material | None, depth_mm: float | None, d: float) -> bool:
    if material is None:
        return False
    return material.id == "sheet" or (depth_mm is not None and depth_mm < THIN_D * d)


def _metals(material: Material | None, plate: Material | None) -> tuple[str, ...]:
    """Metals that the fastener touches: body and clamped part; steel where nobody said."""
    touched = [METAL_OF.get(one_.id) for one_ in (material, plate) if one_ is not None]
    return tuple(dict.fromkeys(metal for metal in touched if metal)) or ("steel",)


def _washer_mm(known: Rows) -> float:
    return next((row.thickness_mm for row in known.washers if row.standard == "ISO 7089"), 0.0)


def _level(place: Place, assumed: list[Numbers]) -> int:
    if place.level is None:
        assumed.append({"what": "place", "value": "damp, not outdoors"})
        return LEVEL
    return place.level


def _old_grade(
    store: sqlite3.Connection,
    known: Rows,
    said: Read,
    torque_nm: float | None,
    assumed: list[Numbers],
) -> str:
    """The class of the old part: said, or what is usual for its form, never below its torque."""
    old, inch = said.old, known.facts.thread.family != "M"
    if old.grade is not None and old.grade in known.facts.strengths:
        return old.grade
    if old.finish == "passivated":
        grade = "A2-70"
    elif inch:
        grade = "A574" if old.form == "socket" else "SAE-5"
    elif old.form == "socket":
        grade = "8.8" if old.finish in {"zinc-plated", "hot-dip"} else "12.9"
    else:
        grade = USUAL.get(old.form or "", "8.8")
    if old.grade is not None:
        raise NotHeld(
            f"{old.grade} is not among the classes that are replaced",
            tuple(sorted(known.facts.strengths))[:6],
        )
    if torque_nm is not None:
        grade = _stands(store, known, grade, _friction(store, old), torque_nm)
    assumed.append({"what": "class of the old one (read its head)", "value": grade})
    return grade


def _stands(
    store: sqlite3.Connection, known: Rows, grade: str, friction: str, torque_nm: float
) -> str:
    """The class, or the next higher that yields at no less than a torque at middle friction."""
    thread = known.facts.thread.id
    for higher in LADDER[LADDER.index(grade) :] if grade in LADDER else ():
        found = torque(thread, higher, friction=friction, set_nm=torque_nm, store=store)
        if found.set is None or found.set["utilisation_pct"][1] <= 100:
            return higher
    return grade


def _friction(store: sqlite3.Connection, old: Old) -> str:
    """The condition in which the old part was tightened: as its finish comes, else oiled."""
    if "locker" in old.had:
        return "threadlocker"
    finish = one(store, Finish, id=old.finish or "")
    return (finish.friction if finish else None) or "class-b"


def _more_assumed(
    assumed: list[Numbers],
    into: str | None,
    clamped: str | None,
    depth_mm: float | None,
    grip_mm: float | None,
    said: Read,
    asked: Asked,
    torque_nm: float | None,
) -> None:
    if into is None:
        assumed.append({"what": "into", "value": asked.body})
    if clamped is None:
        assumed.append({"what": "clamped part", "value": asked.metals[-1]})
    if depth_mm is None and not asked.nut and grip_mm is not None:
        assumed.append({"what": "hole", "value": "deep enough: measure it with a rod"})
    if torque_nm is not None:
        words = {None: "lightly oiled", "zinc-plated": "zinc plated, dry"}
        value = words.get(said.old.finish, f"{said.old.finish}, as it comes".replace("-", " "))
        assumed.append({"what": "the known torque was for a thread", "value": value})
    if said.heat_word is not None:
        degc = said.place.temperature_degc or 0.0
        assumed.append({"what": f"temperature ({said.heat_word})", "value": f"{degc:g} °C"})


def _before(
    store: sqlite3.Connection, known: Rows, asked: Asked, torque_nm: float | None
) -> TorqueAnswer | None:
    """The old part, at its known torque if any: what it clamped, the new one must too."""
    if asked.old.kind in WAYS:
        return None
    friction = _friction(store, asked.old)
    if strength_at(known.facts.strengths[asked.grade], known.facts.thread) is None:
        return None
    return torque(
        known.facts.thread.id, asked.grade, friction=friction, set_nm=torque_nm, store=store
    )


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
    if said.old.kind in WAYS:
        return way_of(said.old.kind)
    if (said.place.temperature_degc or 0.0) > 300:
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


def _understood(
    said: Read,
    grade: str,
    asked: Asked,
    joint: Joint,
    lacking: tuple[str, ...],
    head_mm: float | None,
) -> Numbers:
    old, place = said.old, said.place
    return {
        "kind": old.kind,
        "head": old.form,
        "grade": grade,
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
        "lack": list(lacking),
        "old_head_height_mm": head_mm,
    }


def _prep(old: Old, joint: Joint, options: tuple[Option, ...], conducts: bool) -> tuple[str, ...]:
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
    if first.insulate and not conducts:
        found.append("Paint or seal bare metal round the hole once it is tight.")
    return tuple(found)


def _cautions(old: Old) -> tuple[str, ...]:
    found = []
    if old.safety or old.kind in {"restraint", "wheel", "to-yield"}:
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
