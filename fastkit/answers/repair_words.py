"""What a repair's codes say, in both unit systems."""

from collections.abc import Mapping

from fastkit.hardware.repair_case import Barred, Case, Facts, Strength
from fastkit.mechanics.strip import RUN_OUT_P
from fastkit.notation.units import figures, show_kn, show_mm

SHOP: Mapping[str, str] = {
    "cracked": (
        "A crack runs on under every repair of the thread: a machine shop finds its ends, welds "
        "or stitches it, or the part is renewed."
    ),
    "none-left": "nothing that a bench can do has room here: a machine shop, or another part",
    "critical": (
        "Nothing that a bench can do here is right for it: the part is renewed, or made good by "
        "those whom its maker names."
    ),
    "weaker": (
        "Nothing here gives back what was there: ask a machine shop (weld, bush, mill square) "
        "before settling for less, or renew the part."
    ),
}
CRITICAL = (
    "On this thread hangs: {0}. Work for qualified hands, and only where the maker allows a "
    "repaired thread; else the part is renewed. Nothing glued, welded at home or weaker is offered."
)
CHASE_OR_CUT = (
    "Chase while the ridges stand: a chaser or an old tap, by hand, oil, back out often. Cut again "
    "only into sound metal: a sharp tap in a worn thread takes off what is left."
)
CAUTIONS = (
    "Brakes, steering, suspension, wheels, restraint, lifting, pressure: qualified hands only, as "
    "the maker allows; the maker's specification governs.",
    "Drills and taps throw chips: eyes covered; keep them out of bores, bearings and cylinders.",
)
BODY_CAUTIONS: Mapping[str, str] = {
    "magnesium": "Magnesium swarf burns hot and water feeds it: sharp tools, slow, no heat, swarf "
    "cleared away, dry sand at hand.",
    "cast-iron": "Cast iron: no blows on a tap or extractor, drill dry.",
}
BECAUSE: Mapping[str, str] = {
    "not_this_hole": "not for a hole that is {0}",
    "not_this_body": "not in this material ({0})",
    "blind": "the far side is blind",
    "must_seal": "no nut and no glue where a {0} must seal",
    "one_size": "no {0} is made a size larger",
    "critical": "never for {0}",
    "port": "a port under pressure takes one only where its maker says so",
    "critical_weaker": "weaker than it was: not for {0}",
    "too_hot": "stands no more than {0:c}",
    "too_short_above": "needs {0:mm} above the hole, {1:mm} is free",
    "no_size": "none is listed here for {0}",
    "hole_too_wide": "its thread wants a hole of at most {0:mm}, this one is {1:mm}",
    "wall_too_thin": "needs {0:mm} of wall beside the old thread, {1:mm} is there",
    "too_shallow": "needs {0:mm} of thread, {1:mm} is there",
}
OPENS: Mapping[str, str] = {
    "above_mm": "{0:mm} more room above, an angle drive with stub drills, or the part on the bench",
    "wall_mm": "{0:mm} more wall, or a smaller repair",
    "depth_mm": "{0:mm} more depth",
    "hole_mm": "no more: take a larger repair",
    "heat": "a cooler place",
}
LIMITED: Mapping[str, str] = {
    "body thread": "thread in the body strips first",
    "screw thread": "thread of the screw strips first",
    "screw": "the screw breaks first",
    "bond line": "the bond lets go first",
    "table": "strength by its maker's table",
    "not computed": "strength not computed",
}


class _Shown:
    """A number in a sentence, in its unit."""

    def __init__(self, value: float | str) -> None:
        self.value = value

    def __format__(self, unit: str) -> str:
        if isinstance(self.value, str):
            return self.value
        if unit == "c":
            return f"{figures(self.value)} °C ({figures(self.value * 9 / 5 + 32)} °F)"
        return show_mm(round(self.value, 2))


def barred_words(barred: Barred) -> str:
    """Why a repair is out."""
    code, values = barred.because
    return BECAUSE[code].format(*map(_Shown, values))


def opens_words(barred: Barred) -> str | None:
    """What would bring it in; None: nothing here."""
    if barred.short_by is None:
        return "a hand behind it" if barred.because[0] == "blind" else None
    return OPENS[barred.short_by.axis].format(_Shown(barred.short_by.amount))


def limited_words(code: str) -> str:
    """Which part gives way first."""
    return LIMITED[code]


def basis(case: Case, facts: Facts, before: Strength) -> tuple[str, ...]:
    """How the strength before was worked out, step by step, with sources."""
    thread, screw, p = facts.thread, facts.screw, facts.thread.pitch_mm
    found = [
        f"Screw: stress area {figures(thread.stress_area_mm2)} mm2 by {screw.tensile_min_mpa:g} "
        f"MPa ({screw.source}) is {show_kn(before.screw_n)}."
    ]
    if before.thread_n is None or before.screw_thread_n is None:
        why = f"no shear strength is held for {facts.material.title.lower()}"
        if facts.shear_mpa is not None:
            why = f"limits of size of {thread.id} are not known here"
        return (*found, f"Threads: not computed, {why}.")
    found += [
        f"Engaged {show_mm(case.engage_mm)}, of which {RUN_OUT_P:g} P = {RUN_OUT_P * p:.2f} mm of "
        "chamfered turns carry nothing (VDI 2230-1).",
        "Shear areas of both threads at the least overlap of 6g in 6H or 2A in 2B "
        "(FED-STD-H28/2B), bent by each other (VDI 2230-1, C2 and C3).",
        f"Body: {facts.shear_mpa:g} MPa in shear, {mark(facts)}: {show_kn(before.thread_n)}; "
        f"thread of the screw: {show_kn(before.screw_thread_n)}.",
        "After: the same with the outer thread of the insert (d + 1.299 P for a wire insert, "
        "ASME B18.29.1), the larger screw, or the bond line.",
    ]
    return tuple(found)


def mark(facts: Facts) -> str:
    """Where the body's shear strength comes from, and how far it is checked."""
    return f"{facts.material.source} [{facts.material.checked}]"
