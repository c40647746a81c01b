"""Every head, class and finish that could go back, weighed; what is barred, with its reason."""

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from fastkit.hardware.galvanic import SACRIFICED, Galvanics, Verdict, verdict
from fastkit.hardware.old import Old, Place
from fastkit.hardware.reason import Reason
from fastkit.hardware.room import Room, longest_that_goes_in, room
from fastkit.joint.choice import strength_at
from fastkit.reach.access import Access
from fastkit.records.drive import Drive
from fastkit.records.grade import GradeLimit, GradeRow
from fastkit.records.head import Head
from fastkit.records.method import Variant
from fastkit.records.replacement import Make, Offer
from fastkit.records.thread import Thread

WEAKER, STRONGER = 0.98, 1.15  # practice: shares of the old strength that are said
MUCH_STRONGER = 1.6
LEAST = 0.65  # practice: weaker than this is no replacement
STEEL_TO_DEGC = 300.0  # ISO 898-1: classes up to 10.9, with loss of yield point and preload
KEEPS_DEGC = 150.0  # ISO 898-1: without loss
# Classes from 10.9 up are brittle where rust gives off hydrogen: only where they were before.
TOP = {
    "12.9": ("12.9", "A574", "10.9"),
    "A574": ("A574", "12.9", "SAE-8", "10.9"),
    "10.9": ("10.9", "SAE-8"),
    "9.8": ("10.9",),
    "SAE-8": ("SAE-8", "10.9"),
}
IRON = frozenset(("steel", "cast-iron"))
NOBLE = frozenset(("brass", "bronze", "copper", "stainless", "nickel", "titanium"))
LEVEL_SEALED = 2
FILMED = frozenset(("black-oxide", "zinc-flake"))  # oil, top coat: poor under a lug
TO_ORDER = 6.0  # cost from which a finish is seldom on a shelf (practice)
OF_A_MAKE = 3  # heads or classes of one make that are looked into
NO_WASHER = ("flange", "countersunk")
COLLARED = ("ISO 7380-2",)
HARD_USE = frozenset(("vibration", "ground", "chlorine"))
GONE = frozenset(("rusted", "drive-gone"))


class Facts(NamedTuple):
    """The rows that candidates are made of, all of one thread size."""

    thread: Thread
    offers: tuple[Offer, ...]
    makes: tuple[Make, ...]
    heads: Mapping[str, Head]  # by standard
    drives: Mapping[str, Drive]
    strengths: Mapping[str, tuple[GradeRow, ...]]
    limits: Mapping[str, GradeLimit]
    variants: tuple[Variant, ...]
    galvanics: Galvanics


class Asked(NamedTuple):
    """What is to be replaced, where, and what has been settled about it."""

    old: Old
    place: Place
    level: int
    grade: str  # of the old part, said or assumed
    body: str
    metals: tuple[str, ...]  # of the body and of what is clamped
    nut: bool
    access: Access
    washer_mm: float
    safety: bool
    lack: tuple[str, ...] = ()
    owned: frozenset[str] = frozenset()  # drives whose bits the user has listed


class Candidate(NamedTuple):
    """One way, with how much stronger it is than the old part and what is said of it."""

    offer: Offer
    make: Make
    grade: str
    row: GradeRow
    head: Head
    drive: Drive
    strength: float
    galvanic: Verdict
    room: Room
    score: float
    said: tuple[Reason, ...]


class Barred(NamedTuple):
    """What is not offered, and why."""

    what: str
    reason: Reason


def carries(row: GradeRow, thread: Thread, factor: float = 1.0) -> float:
    """Load at yield, or proof load where no yield is stated, of a class in a thread [N]."""
    stress = row.yield_min_mpa or row.proof_mpa or 0.6 * row.tensile_min_mpa
    return stress * thread.stress_area_mm2 * factor


def candidates(facts: Facts, asked: Asked) -> tuple[list[Candidate], list[Barred]]:
    """
    Weigh every head, finish and class that is made in this thread.

    Args:
        facts: Rows of this size.
        asked: The old part and its place.

    Returns:
        Candidates, the best first; what is barred, with the reason that bars it.
    """
    barred: list[Barred] = []
    rooms: dict[str, tuple[Head, Drive, Room]] = {}
    old = old_head_of(facts, asked.old)
    for offer in facts.offers:
        found = _head_of(facts, asked, offer, old)
        if isinstance(found, Barred):
            barred.append(found)
        elif found is not None:
            rooms[offer.standard] = found
    best: list[Candidate] = []
    bars = {make.id: _bar(facts, asked, make) for make in facts.makes}
    barred += [Barred(make.words, bar) for make in facts.makes if (bar := bars[make.id])]
    for offer in facts.offers:
        if offer.standard not in rooms:
            continue
        for make in facts.makes:
            if bars[make.id] is None:
                best += _graded(facts, asked, offer, make, *rooms[offer.standard])
    order = [offer.standard for offer in facts.offers]
    best.sort(key=lambda one: (round(one.score, 6), order.index(one.offer.standard), one.make.cost))
    return best, barred


def old_head_of(facts: Facts, old: Old) -> Head | None:
    """The head that the room was measured at: of the old form, else a hexagon."""
    forms = (old.form, "hexagon", "socket", "pan", "countersunk")
    return next(
        (head for form in forms for head in facts.heads.values() if head.form == form), None
    )


def _head_of(
    facts: Facts, asked: Asked, offer: Offer, old: Head | None
) -> tuple[Head, Drive, Room] | Barred | None:
    """Head, drive and tools of a standard; why not; None where it is not made in this size."""
    head = facts.heads.get(offer.standard)
    drive = facts.drives.get(head.drive or "") if head else None
    if head is None or drive is None or old is None:
        return None
    if facts.thread.series in {"fine", "UNF"} and not offer.fine:
        return None
    countersunk = asked.old.form == "countersunk"
    if (offer.form == "countersunk") != countersunk:
        return None
    if offer.cam_out >= 2 and (
        asked.level >= 3 or GONE & set(asked.old.states) or HARD_USE & set(asked.place.flags)
    ):
        return Barred(_named(offer, drive), Reason("cams_out", (drive.id,)))
    if {offer.form, drive.id, drive.system} & set(asked.lack):
        return Barred(_named(offer, drive), Reason("shop_has_none"))
    washer = 0.0 if offer.form in NO_WASHER or offer.standard in COLLARED else asked.washer_mm
    found = room(head, drive, old, washer, asked.access, facts.variants)
    if not found.turns:
        short = found.short[0] if found.short else None
        numbers = (short.axis, short.amount) if short else ("above", 0.0)
        return Barred(_named(offer, drive), Reason("no_room", numbers))
    return head, drive, found


def _named(offer: Offer, drive: Drive) -> str:
    return f"{offer.title}, {drive.id}, {offer.standard}"


def _bar(facts: Facts, asked: Asked, make: Make) -> Reason | None:
    """What keeps a material and finish out of this place altogether."""
    degc, level = asked.place.temperature_degc, asked.level
    hot = degc is not None and degc > STEEL_TO_DEGC
    if "ground" in asked.place.flags:  # sealed once tight, so that plain zinc will do
        level = min(level, LEVEL_SEALED)
        if make.finish in FILMED:
            return Reason("insulates")
    if make.serves < level and not hot and "oil" not in asked.place.flags:
        return Reason("rusts_there")
    if hot and make.id != "b7":
        return Reason("too_hot", (degc or 0.0, make.use_max_degc or STEEL_TO_DEGC))
    if make.use_max_degc is not None and degc is not None and degc > make.use_max_degc:
        return Reason("too_hot", (degc, make.use_max_degc))
    if make.id == "b7" and not hot:
        return Reason("not_needed")
    if not make.tapped and not asked.nut:
        return Reason("coat_too_thick")
    if make.from_mm is not None and facts.thread.nominal_mm < make.from_mm:
        return Reason("too_small_for_coat", (make.from_mm,))
    if "magnesium" in asked.metals and level >= 2 and make.finish in {"passivated", "black-oxide"}:
        return Reason("pits_magnesium")
    if level >= 3 and make.metal in SACRIFICED and NOBLE & set(asked.metals):
        return Reason("small_anode")
    if asked.safety and make.finish == "passivated":
        return Reason("never_stainless_there")
    if "chlorine" in asked.place.flags and make.id == "a2":
        return Reason("chlorides_crack")
    if make.finish in asked.lack:
        return Reason("shop_has_none")
    return None


def _graded(
    facts: Facts, asked: Asked, offer: Offer, make: Make, head: Head, drive: Drive, there: Room
) -> Iterator[Candidate]:
    """One candidate a class that both the standard and the finish are sold in."""
    was = strength_at(facts.strengths[asked.grade], facts.thread)
    before = carries(was, facts.thread, _old_factor(facts, asked)) if was else 0.0
    sold, coated = offer.grades.split(), set(make.grades.split())
    for grade in sold:
        if grade not in coated:
            continue
        row = strength_at(facts.strengths.get(grade, ()), facts.thread)
        if row is None or not _may(facts, asked, grade):
            continue
        now = carries(row, facts.thread, offer.load_factor)
        ratio = now / before if before else 1.0
        if ratio < LEAST or (asked.safety and grade != asked.grade):
            continue
        pair = worst_pair(facts, asked, make)
        score, said = _weighed(facts, asked, offer, make, grade, drive, ratio, pair)
        yield Candidate(
            offer, make, grade, row, head, drive, ratio, pair, there, score, tuple(said)
        )


def worst_pair(facts: Facts, asked: Asked, make: Make) -> Verdict:
    """The worse of the pairs that a finish makes with the body and with what is clamped."""
    pairs = [verdict(facts.galvanics, make.metal, metal, asked.level) for metal in asked.metals]
    harm = ("fit", "sacrificial", "unfit")
    return max(pairs, key=lambda pair: (harm.index(pair.verdict), pair.difference_v))


def _old_factor(facts: Facts, asked: Asked) -> float:
    """Loadability of the old head; what is not known is taken as full."""
    return next((o.load_factor for o in facts.offers if o.form == asked.old.form), 1.0)


def _may(facts: Facts, asked: Asked, grade: str) -> bool:
    """Whether a class is offered for what was there, at its temperature."""
    tops = {name for names in TOP.values() for name in names}
    if grade in asked.lack or (grade in tops and grade not in TOP.get(asked.grade, ())):
        return False
    limit, degc = facts.limits.get(grade), asked.place.temperature_degc
    if limit is None or degc is None:
        return True
    most = limit.use_max_c
    if most is not None and most <= KEEPS_DEGC and grade not in {"12.9", "A574"}:
        most = STEEL_TO_DEGC
    return (limit.use_min_c is None or degc >= limit.use_min_c) and (most is None or degc <= most)


def _weighed(
    facts: Facts,
    asked: Asked,
    offer: Offer,
    make: Make,
    grade: str,
    drive: Drive,
    ratio: float,
    pair: Verdict,
) -> tuple[float, list[Reason]]:
    """Score, the lower the better, and what is said: workshop judgement, points of like weight."""
    said: list[Reason] = []
    score = 0.4 * (make.serves - asked.level) + 0.3 * make.cost + 1.5 * offer.cam_out
    if offer.cam_out >= 2:
        said.append(Reason("drive_cams_out", (drive.id,)))
    if ratio < WEAKER:
        score += 4 + 4 * (WEAKER - ratio)
        said.append(Reason("weaker", (ratio * 100,)))
    elif ratio > STRONGER:
        score += 0.3 if ratio < MUCH_STRONGER else 0.8
        said.append(Reason("stronger", (ratio * 100,)))
    if offer.load_factor < 1:
        said.append(Reason("reduced_load", (offer.load_factor * 100,)))
    score += _touching(asked, pair, said)
    if offer.form != asked.old.form:
        score += 0.4 if asked.old.form else 0.0
    if make.finish == asked.old.finish and "rusted" not in asked.old.states:
        score -= 0.6
    if asked.old.finish == "passivated" and make.finish != "passivated":
        score += 1.0
    if asked.owned and drive.id not in asked.owned:
        score += 1.0
        said.append(Reason("bit_not_listed", (drive.id,)))
    elif drive.id in asked.owned:
        said.append(Reason("bit_at_hand", (drive.id,)))
    said += _cautions(facts, asked, make, grade)
    return score, said


def _touching(asked: Asked, pair: Verdict, said: list[Reason]) -> float:
    """What the pair of metals costs."""
    if pair.verdict == "fit":
        return 0.0
    if pair.verdict == "sacrificial" and pair.body in IRON:
        return 0.2  # what lies under the coat is the body's own metal
    if pair.verdict == "sacrificial":
        said.append(Reason("coat_goes_first"))
        return 1.0 if asked.level >= 3 else 0.2
    if pair.corrodes == "fastener":
        return 2.0 if asked.level >= 3 else 1.0
    return 1.0 if asked.level >= 3 else 0.5


def _cautions(facts: Facts, asked: Asked, make: Make, grade: str) -> Iterator[Reason]:
    """Hydrogen, heat, galling, chlorides: said with the option that they belong to."""
    limit, degc = facts.limits.get(grade), asked.place.temperature_degc
    risky = limit is not None and limit.embrittlement != "none"
    if risky and make.plated:
        yield Reason("bake_after_plating", (grade,))
    elif risky and grade in {"12.9", "A574"}:
        yield Reason("never_electroplate", (grade,))
    if degc is not None and degc > KEEPS_DEGC and limit and (limit.use_max_c or 0) <= KEEPS_DEGC:
        yield Reason("loses_preload_hot", (grade, KEEPS_DEGC))
    if make.finish == "passivated":
        yield Reason("galls_dry")
    if "chlorine" in asked.place.flags:
        yield Reason("watch_for_cracks")
    if not make.tapped:
        yield Reason("own_nut")
    if make.cost >= TO_ORDER:
        yield Reason("to_order", (make.words,))


def fits_in(candidate: Candidate, facts: Facts, asked: Asked) -> float | None:
    """Longest screw that can be brought over its hole under what stands above [mm]."""
    old = old_head_of(facts, asked.old)
    return None if old is None else longest_that_goes_in(candidate.head, old, asked.access)


def diverse(ranked: Iterable[Candidate], most: int) -> list[Candidate]:
    """The best few that differ in what one chooses by: at most two heads or classes of a make."""
    taken: list[Candidate] = []
    kinds: dict[str, set[tuple[str, str, str]]] = {}
    for one in ranked:
        seen = kinds.setdefault(one.make.id, set())
        # a bolt with shank stays beside its like threaded to the head: the length decides
        kind = (one.grade, one.offer.form, one.drive.id)
        if (len(seen) < OF_A_MAKE or kind in seen) and len(taken) < most:
            seen.add(kind)
            taken.append(one)
    return taken
