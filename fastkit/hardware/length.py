"""How long a screw must be: clamped parts, engagement, protrusion, and what is made."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from fastkit.joint.strip import bolt_shear, strip_loads
from fastkit.mechanics.strip import RUN_OUT_P
from fastkit.records.grade import GradeRow
from fastkit.records.length import LengthRange, NominalLength, ThreadLength
from fastkit.records.replacement import InchLength
from fastkit.records.stuff import Engagement
from fastkit.records.thread import Thread

PROTRUDES_P = 2.0  # practice: pitches of full thread beyond a nut
CLEAR_P = 2.0  # practice: pitches left free at the bottom of a hole
# Practice: rules are in round diameters, and the formula takes threads at their worst limits.
WILL_DO = 0.9
FINE = 1.25  # machine-elements-book: fine pitch 25 % more
TOUCH = 1e-6
# material -> rows of engagements.csv, the first that holds the class
RULES = {
    "steel": ("steel-360", "steel-and-iron"),
    "cast-iron": ("grey-iron", "steel-and-iron"),
    "aluminium": ("aluminium-any",),
    "magnesium": ("magnesium-die-cast",),
    "brass": ("copper-alloys",),
    "plastic": ("soft-metals-plastics",),
}
HARDER = {"10.9": ("10.9",), "12.9": ("12.9", "10.9"), "SAE-8": ("10.9",), "A574": ("12.9", "10.9")}


class Need(NamedTuple):
    """
    Engagement that lets the bolt break before the thread strips [mm].

    `rule_mm` by a published rule, `formula_mm` by the strip formulas; either None where not known.
    """

    rule_mm: float | None
    formula_mm: float | None
    rule: Engagement | None

    @property
    def need_mm(self) -> float | None:
        """The longer of the two [mm]."""
        return max((v for v in (self.rule_mm, self.formula_mm) if v is not None), default=None)

    @property
    def least_mm(self) -> float | None:
        """What will do where the next length made is far longer: nine tenths of it [mm]."""
        return None if self.need_mm is None else WILL_DO * self.need_mm


class Chosen(NamedTuple):
    """A length and what comes of it [mm]."""

    length_mm: float
    exact_mm: float  # what would do, before rounding to a length that is made
    engaged_mm: float  # in the body, or the height of the nut
    protrudes_mm: float  # beyond a nut; 0 in a tapped hole
    short: bool  # less engaged than needed, as the hole allows no more
    uncommon: bool  # in brackets in ISO 888


def need(
    thread: Thread,
    strength: GradeRow,
    body: str,
    shear_mpa: float | None,
    rules: Iterable[Engagement],
) -> Need:
    """
    Return the engagement that a class needs in a body.

    Args:
        thread: The thread.
        strength: Strength of the bolt at this size.
        body: Material of the internal thread, an id of the materials.
        shear_mpa: Shear strength of that thread [MPa]; None: not known.
        rules: Published rules.

    Returns:
        By rule and by formula.
    """
    classes = HARDER.get(strength.grade, ("8.8", "4.8 to 6.8"))
    held = list(rules)
    found = next(
        (
            row
            for name in RULES.get(body, ())
            for wanted in (*classes, "any")
            for row in held
            if (row.body, row.bolts, row.series) == (name, wanted, "coarse")
        ),
        None,
    )
    rule = None
    if found is not None:
        finer = thread.series in {"fine", "UNF", "UNEF", "BSF"} and found.length_d < 2
        rule = found.length_d * thread.nominal_mm * (FINE if finer else 1.0)
    return Need(rule, equal_strength(thread, strength, shear_mpa), found)


def equal_strength(thread: Thread, strength: GradeRow, shear_mpa: float | None) -> float | None:
    """
    Engagement at which thread and shank fail together; what the bolt's own thread bears counts.

    Args:
        thread: The thread.
        strength: Strength of the bolt at this size.
        shear_mpa: Shear strength of the internal thread [MPa]; None: not known.

    Returns:
        Engagement [mm], chamfered turns included; None where it cannot be computed.
    """
    if shear_mpa is None:
        return None
    run_out = RUN_OUT_P * thread.pitch_mm
    found = strip_loads(thread, bolt_shear(strength), shear_mpa, run_out + 1.0)
    if found is None:
        return None
    pull = strength.tensile_min_mpa * thread.stress_area_mm2
    # both threads carry in proportion to the length that is not chamfered away
    return run_out + pull / min(found.internal_n, found.external_n)


class MadeLength(NamedTuple):
    """A length that one may buy [mm]; `avoid` where the standard brackets it."""

    length_mm: float
    avoid: bool


def made(
    metric: Iterable[NominalLength],
    inch: Iterable[InchLength],
    ranges: Iterable[LengthRange],
    standard: str,
    size: str,
) -> tuple[MadeLength, ...]:
    """Lengths that a standard is made in at one size; all of its system where no range is held."""
    if not size.startswith("M"):
        return tuple(MadeLength(row.length_mm, False) for row in inch)
    own = next((row for row in ranges if (row.standard, row.size) == (standard, size)), None)
    return tuple(
        MadeLength(row.length_mm, bool(row.avoid))
        for row in metric
        if own is None or own.shortest_mm <= row.length_mm <= own.longest_mm
    )


def tapped(
    lengths: Sequence[MadeLength],
    thread: Thread,
    over_mm: float,
    needed_mm: float,
    least_mm: float,
    depth_mm: float | None,
) -> Chosen | None:
    """
    Choose a length into a tapped hole.

    Args:
        lengths: Lengths that are made.
        thread: The thread.
        over_mm: Clamped parts and washer under the head [mm].
        needed_mm: Engagement wanted [mm].
        least_mm: Engagement that will do where the next length made gives no more [mm].
        depth_mm: Depth of full thread in the hole [mm]; None: not known, taken as enough.

    Returns:
        The shortest common length that engages enough; where the hole is too shallow, the longest
        that does not bottom; None where none engages at all.
    """
    p = thread.pitch_mm
    exact = over_mm + needed_mm
    most = float("inf") if depth_mm is None else over_mm + depth_mm - CLEAR_P * p
    inside = [row for row in lengths if over_mm + p <= row.length_mm <= most + TOUCH]
    enough = [row for row in inside if row.length_mm >= over_mm + least_mm - TOUCH]
    common = [row for row in enough if not row.avoid]
    if common or enough:
        row = min(common or enough, key=lambda one: one.length_mm)
    elif inside:
        row = max(inside, key=lambda one: one.length_mm)
    else:
        return None
    engaged = row.length_mm - over_mm
    return Chosen(row.length_mm, exact, engaged, 0.0, engaged < least_mm - TOUCH, row.avoid)


def through(
    lengths: Sequence[MadeLength], thread: Thread, over_mm: float, nut_mm: float
) -> Chosen | None:
    """
    Choose a length through to a nut: clamped parts, washers, nut and two pitches beyond.

    Args:
        lengths: Lengths that are made.
        thread: The thread.
        over_mm: Clamped parts and washers [mm].
        nut_mm: Height of the nut [mm].

    Returns:
        The shortest common length; None where none is long enough.
    """
    exact = over_mm + nut_mm + PROTRUDES_P * thread.pitch_mm
    enough = [row for row in lengths if row.length_mm >= exact - TOUCH]
    common = [row for row in enough if not row.avoid] or enough
    if not common:
        return None
    row = min(common, key=lambda one: one.length_mm)
    return Chosen(
        row.length_mm,
        exact,
        nut_mm,
        row.length_mm - over_mm - nut_mm,
        False,
        row.avoid,
    )


def threaded_mm(rules: Iterable[ThreadLength], length_mm: float, d_mm: float, form: str) -> float:
    """
    Threaded length of a bolt with shank.

    Args:
        rules: Diameters and more by length, of hexagon and of socket heads.
        length_mm: Nominal length [mm], > 0.
        d_mm: Nominal diameter [mm], > 0.
        form: Form of the head.

    Returns:
        Length of thread b, at most the whole [mm].
    """
    name = "socket" if form == "socket" else "hexagon"
    row = next(
        row
        for row in rules
        if row.rule == name
        and row.over_mm < length_mm
        and (row.to_mm is None or length_mm <= row.to_mm)
    )
    return min(row.diameters * d_mm + row.plus_mm, length_mm)
