"""Where a torque window would be a lie: what is fastened so, why not, and what applies instead."""

import re
from typing import NamedTuple


class Refusal(NamedTuple):
    """Why no window is given, and the way that applies instead (common practice)."""

    reason: str
    way: str


TAPER = Refusal(
    "pipe threads seal on their flanks or on a washer: torque says nothing of clamp or seal",
    "taper: hand tight, then one and a half to three turns more with sealant, less in castings; "
    "parallel: against the seal's own maker's value",
)
TUBE = Refusal(
    "a tube nut seals on the flare: torque is spent on seat and tube, not on clamp",
    "the maker's value for that nut and tube, with a line wrench; seat dry and clean; "
    "then pressure test",
)
SELF_TAPPING = Refusal(
    "a self-tapping screw spends its torque on forming the thread",
    "stop between driving and stripping torque, found by trial in the same sheet or boss",
)
SET_SCREW = Refusal(
    "a set screw has no head to clamp with; its socket gives way first",
    "the proof torque of its class and size (ISO 898-5), or its maker's value",
)
PLUG = Refusal(
    "a spark plug's value depends on its seat and on the head's metal",
    "the engine maker's value, head cold, threads dry and clean; lubricated threads take about a "
    "third less; without a value, by the turn",
)
WHEEL = Refusal(
    "wheel fasteners turn on cones and balls that must match the wheel",
    "the vehicle maker's value, crosswise in stages, seat form matching; checked again after 50 km",
)
TO_YIELD = Refusal(
    "a torque-to-yield fastener is stretched past yield on purpose: torque no longer measures it",
    "the maker's torque and angle, on a new fastener each time",
)
PLASTIC = Refusal(
    "a thread in plastic creeps: no clamp stays, and friction decides when it strips",
    "the maker's value; without it, by hand until seated and no more, or a metal insert",
)
PLASTIC_PLUG = Refusal(
    "a plastic plug, or one in plastic, cracks or strips before any figure for metal is reached",
    "the maker's value; without it, by hand until its seal just takes, no tool, seal new",
)
WOOD = Refusal(
    "a screw in wood is held by fibres that crush: no clamp stays, and it strips by feel",
    "by hand until seated and no more; torn out: the hole plugged and drilled anew",
)
SOFT = {"plastic": PLASTIC, "wood": WOOD}

STRUCTURAL = Refusal(
    "a structural assembly of bolt, nut and washer is tightened by its standard's own method, with "
    "the lubricant it was delivered with",
    "the reference torque in two steps, 75 % and 110 % of it, or snug and then the standard's turn "
    "of the nut; the procedure is checked on assemblies of the same lot; renewed once tightened",
)
SEAL = Refusal(
    "it seals on a washer or a seat: torque is spent on squeezing that, and a hollow shank carries "
    "little",
    "the maker's value, washer new, thread clean; without it, by hand until it seats and a quarter "
    "turn more, less into aluminium",
)
ENGINE = Refusal(
    "bolts of a cylinder head, a connecting rod, a crankshaft or a flywheel follow the maker's "
    "stages, often past yield on purpose",
    "the maker's torque, angle and order, new bolts where it says so; threads clean, oiled only "
    "where it says so",
)
CONDUIT = Refusal(
    "a conduit thread holds a fitting, not a clamp",
    "the fitting's own maker's value; without it, by hand and a quarter turn more",
)

TUBE_NUTS = "tube|pipe|line|union|flare"  # what stands before `nut` where a tube ends in it
THREADS = (
    (re.compile(r"npt|bspt|^(thread:)?(r[cp]?|g) ?\d", re.IGNORECASE), TAPER),
    (
        re.compile(
            rf"^tube\b|flare|({TUBE_NUTS}) nut|brake (pipe|line|tube)|-(inverted|iso|jis)$",
            re.IGNORECASE,
        ),
        TUBE,
    ),
    (re.compile(r"^(thread:)?st ?\d", re.IGNORECASE), SELF_TAPPING),
    (re.compile(r"^(thread:)?plug\b|spark", re.IGNORECASE), PLUG),
    (re.compile(r"\b(set|grub) ?screw", re.IGNORECASE), SET_SCREW),
    (
        re.compile(
            r"\bwheel\b(?! (arch|liner|cover|trim|well))( (nut|bolt|stud)s?)?|lug (nut|bolt)s?",
            re.IGNORECASE,
        ),
        WHEEL,
    ),
    (
        re.compile(
            r"(drain|sump|filler|level) (plug|bolt|screw)|banjo|hollow (bolt|screw)|"
            r"bleed(er)?\b|glow ?plug|(oxygen|lambda|o2|temperature|exhaust|pressure) sensor",
            re.IGNORECASE,
        ),
        SEAL,
    ),
    (
        re.compile(
            r"cylinder.head|con(necting)?.?rod|big.end|main bearing|flywheel|crank(shaft)?\b",
            re.IGNORECASE,
        ),
        ENGINE,
    ),
)
FAMILIES = {
    **dict.fromkeys(("G", "R", "NPT"), TAPER),
    **{"ST": SELF_TAPPING, "plug": PLUG, "PG": CONDUIT},
}
GRADES = (
    (re.compile(r"^(grade:)?\d\dH$", re.IGNORECASE), SET_SCREW),
    (re.compile(r"torque.to.yield|\btty\b|stretch", re.IGNORECASE), TO_YIELD),
    (re.compile(r"\bH[VR]C?\b|structural|14399", re.IGNORECASE), STRUCTURAL),
)


def of_words(line: str) -> dict[str, str]:
    """The words of a line for which no window is given, by what they are said of."""
    found: dict[str, str] = {}
    for name, patterns in (("thread", THREADS), ("grade", GRADES)):
        for pattern, _ in patterns:
            if match := pattern.search(line):
                found.setdefault(name, match[0])
    return found


def of_family(family: str) -> Refusal | None:
    """Why a thread's family gets no window; None where bolts are made in it."""
    return FAMILIES.get(family)


def refusal(thread: str, grade: str, head: str | None, into: str | None) -> Refusal | None:
    """
    Whether what was asked for is of a kind that gets no window.

    Args:
        thread: As typed.
        grade: As typed.
        head: As typed; None: not named.
        into: Body material, as typed; None: not named.

    Returns:
        The refusal; None where a window may be computed.
    """
    for patterns, text in ((THREADS, thread), (GRADES, grade)):
        for pattern, found in patterns:
            if pattern.search(text.strip()):
                soft = SOFT.get((into or "").strip().lower())
                return PLASTIC_PLUG if found is SEAL and soft is PLASTIC else found
    if head and re.search(r"set.?screw|4026|4027|4028|4029", head, re.IGNORECASE):
        return SET_SCREW
    if head and re.search(r"structural|14399", head, re.IGNORECASE):
        return STRUCTURAL
    return SOFT.get((into or "").strip().lower())
