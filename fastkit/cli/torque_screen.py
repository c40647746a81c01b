"""The torque answer on a terminal: first what to set, then why not more, then what it stands on."""

from collections.abc import Iterator, Sequence
from typing import Any

from fastkit.answers.torque import TorqueAnswer
from fastkit.answers.torque_answer import CAUTION
from fastkit.answers.torque_limits import LIMITS, WEAKEST
from fastkit.cli import torque_beside as beside
from fastkit.cli.output import bold, fitting, short_source, wrap
from fastkit.cli.torque_bar import bar
from fastkit.notation.units import figures, show_kn, show_mm, show_nm

MARKS = {"memory": " [memory]", "judgement": " [judgement]"}
ASSUMED = {
    "friction": "friction {}",
    "head": "{}",
    "hole": "hole {}",
    "utilisation_pct": "{:g} % of yield",
    "wrench_error_pct": "wrench ±{:g} %",
    "clamp_n": "clamp {}",
    "into": "into {}",
    "engage_mm": "engagement {}",
    "washer": "hard washer {} under the head",
    "seat": "clamped part of {} too",
    "nut": "a sound {}",
    "drive": "drive {}",
}


def lines(answer: TorqueAnswer, columns: int) -> list[str]:
    """The whole screen: the answer, what was assumed, the caution; the sources if there is room."""
    if answer.why:
        return list(_lines(answer, columns, True))
    tries = (_lines(answer, columns, sources) for sources in (True, False))
    return fitting(columns, tries, long=True)


def _lines(answer: TorqueAnswer, columns: int, sources: bool) -> Iterator[str]:
    yield from wrap(_title(answer), columns)
    if answer.broken:
        yield from beside.broken(answer.broken, columns)
    if answer.maker:
        yield from _maker(answer, columns)
    if answer.torque_nm is None:
        reason = answer.reason or ""
        yield from wrap(f"{reason[:1].upper()}{reason[1:]}.", columns)
        for way in answer.published or ():
            yield from wrap(f"Instead: {way}.", columns)
    else:
        yield from _window(answer, columns)
    if answer.breaking_torque_nm is not None:
        word = "about " if answer.breaking_torque_is_estimate else ""
        yield from wrap(f"Twists off at {word}{_both(answer.breaking_torque_nm)}.", columns)
    for note in answer.notes:
        yield from wrap(note, columns)
    if answer.why:
        yield ""
        for number, step in enumerate(answer.why, 1):
            yield from wrap(step, columns, f"{number:2}. ")
        for source in answer.sources:
            locator = "" if source.locator == "-" else f", {source.locator}"
            said = f"{source.used_for}: {source.title}{locator}{MARKS.get(source.checked, '')}"
            yield from wrap(said, columns, "  - ")
    yield ""
    if answer.assumed:
        yield from wrap(f"assumed: {'; '.join(map(_assumption, answer.assumed))}", columns)
    said = "; ".join(_sources(answer)) if sources else "with --why"
    yield from wrap(f"sources: {said}", columns)
    yield from wrap(CAUTION, columns)


def _title(answer: TorqueAnswer) -> str:
    said = ", ".join(filter(None, (answer.thread, answer.grade)))
    if answer.head:
        said += f", {answer.head_words}"
    if answer.mu_min is not None and answer.mu_max is not None:
        said += f", friction {_range(answer.mu_min, answer.mu_max)}"
        under = (answer.mu_head_min, answer.mu_head_max)
        if under != (answer.mu_min, answer.mu_max):
            said += f", under the head {_range(under[0] or 0.0, under[1] or 0.0)}"
    return said


def _range(low: float, high: float) -> str:
    return f"{low:g}" if low == high else f"{low:g} to {high:g}"


def _window(answer: TorqueAnswer, columns: int) -> Iterator[str]:
    """What to set, the scale it lies on, what bounds it, what it clamps, what was asked besides."""
    yield ""
    yield from _nothing_does(answer, columns) if answer.empty else _set(answer, columns)
    yield ""
    if not answer.broken or answer.why:
        yield from bar(answer, columns)
        yield ""
    yield from _bounds(answer, columns)
    if not answer.empty:
        yield from _clamped(answer, columns)
    if answer.locker:
        yield from beside.locker(answer.locker, columns)
    if answer.set:
        yield from _setting(answer.set, columns)
    if answer.angle:
        yield from _angle(answer.angle, columns)
    if answer.heat:
        yield from beside.heat(answer.heat, columns)


def _nothing_does(answer: TorqueAnswer, columns: int) -> Iterator[str]:
    yield from wrap(
        f"No setting does: {_both(answer.torque_min_nm or 0.0)} to clamp enough at the highest "
        f"friction, at most {_both(answer.torque_max_nm or 0.0)} to overload nothing at the "
        "lowest.",
        columns,
    )
    for way in answer.opens_it:
        yield from wrap(f"{way}", columns, "opens it: ", "          ")


def _set(answer: TorqueAnswer, columns: int) -> Iterator[str]:
    told = "Reckoned without it:" if answer.maker else "Set"
    if answer.critical:
        told = "Reckoned, not to set by:"
    for line in wrap(f"{told} {_both(answer.torque_nm or 0.0)}", columns):
        yield bold(line)
    low, high = answer.torque_min_nm or 0.0, answer.torque_max_nm or 0.0
    yield from wrap(f"Window {_both(low)} to {_both(high)}.", columns)


def _bounds(answer: TorqueAnswer, columns: int) -> Iterator[str]:
    if answer.limited_by:
        more = f"; next: {LIMITS[answer.next_limit]}" if answer.next_limit else ""
        yield from wrap(f"Not more: {LIMITS[answer.limited_by]}{more}.", columns)
    if answer.weakest_part:
        yield from wrap(f"Overdone, {WEAKEST[answer.weakest_part]} first.", columns)
    if answer.engagement_mm is not None:
        yield from wrap(
            f"Thread and shank hold alike from an engagement of {show_mm(answer.engagement_mm)}.",
            columns,
        )


def _clamped(answer: TorqueAnswer, columns: int) -> Iterator[str]:
    """What the setting clamps, how it is reached with the wrench, at what it comes loose."""
    if answer.preload_n is not None:
        yield from wrap(
            f"Clamp at that setting: about {show_kn(answer.preload_n)}, at least "
            f"{show_kn(answer.guaranteed_n or 0.0)}, at most {show_kn(answer.preload_max_n or 0)}.",
            columns,
        )
    yield from beside.wrench(answer, columns)
    if answer.loosening_nm is not None:
        loses = answer.loses_loosening
        more = f"; {WEAKEST[loses]} before" if loses else ""
        held = "with its threadlocker" if answer.locker else "while nothing has rusted or bonded"
        yield from wrap(
            f"Loosens again at about {_both(answer.loosening_nm)} {held} (practice){more}.",
            columns,
        )


def _setting(judged: dict[str, Any], columns: int) -> Iterator[str]:
    forces, shares = judged["preload_n"], judged["utilisation_pct"]
    over = " Beyond yield at the lowest friction." if max(shares) > 100 else ""
    if judged["passes"]:
        over += f" It may pass: {', '.join(LIMITS[name] for name in judged['passes'])}."
    if judged["twists_off"]:
        over += " It may twist the shank off."
    yield from wrap(
        f"{_both(judged['torque_nm'])} gives {figures(forces[0] / 1000)} to "
        f"{figures(forces[-1] / 1000)} kN, in the middle {show_kn(forces[1])}: {_of_yield(shares)}."
        f"{over}",
        columns,
    )


def _of_yield(shares: Sequence[float]) -> str:
    """`61 to 74 % of yield`, and one figure where both ends are the same."""
    low, high = (f"{share:.0f}" for share in (shares[0], shares[-1]))
    return f"{low if low == high else f'{low} to {high}'} % of yield"


def _angle(turned: dict[str, Any], columns: int) -> Iterator[str]:
    """What the angle adds, and the one that the window's clamp takes."""
    forces, shares = turned["preload_n"], turned["utilisation_pct"]
    if turned["angle_deg"] is not None:
        yield from wrap(
            f"{_both(turned['snug_nm'])} to snug, then {turned['angle_deg']:g}°: "
            f"{figures(forces[0] / 1000)} to {show_kn(forces[-1])}, {_of_yield(shares)}; "
            f"the bolt is then {show_mm(turned['elongation_mm'])} "
            "longer.",
            columns,
        )
        if any(turned["past_yield"]):
            yield from wrap(
                "Past yield: the bolt keeps part of that length, its next stretch starts from a "
                "harder and shorter reserve, and the same angle may break it. Not used again.",
                columns,
            )
    angle = turned["target_angle_deg"]
    reached = f"about {angle:.0f}° from snug, elastic" if angle >= 1 else "reached at snug already"
    yield from wrap(
        f"The setting's clamp stretches the bolt {show_mm(turned['target_elongation_mm'])}: "
        f"{reached}, on a grip of {show_mm(turned['grip_mm'])}; what settles between the parts "
        "takes more.",
        columns,
    )


def _maker(answer: TorqueAnswer, columns: int) -> Iterator[str]:
    judged = answer.maker or {}
    yield from wrap(f"Maker's value: {_both(judged['torque_nm'])}. It governs.", columns)
    if judged["inside"]:
        said = "It lies inside the window below."
    elif judged["torque_nm"] < (answer.torque_min_nm or 0.0):
        said = "It lies below the window: the maker asks for less clamp than assumed here"
        needed = judged["clamp_needed_n"]
        said += f"; right if {show_kn(needed)} is enough." if needed else "."
    else:
        bound = LIMITS[answer.limited_by or "yield"]
        ways = []
        if judged["friction_needed"]:
            ways.append(f"friction is {judged['friction_needed']:.2g} or more")
        if judged["yield_needed_mpa"]:
            ways.append(f"the bolt's yield strength is {judged['yield_needed_mpa']:.0f} MPa")
        said = "It lies above the window" + (
            f": right if {', or '.join(ways)}."
            if ways
            else f", and no friction explains it; {bound} is the nearest limit."
        )
    if judged["twists_off"]:
        said += (
            " That is more than twists the shank off: another thread or class, or another unit, "
            "such as lb·in for lb·ft?"
        )
    yield from wrap(said, columns)


def _assumption(entry: dict[str, Any]) -> str:
    what, value = entry["what"], entry["value"]
    if what == "clamp_n":
        value = f"{show_kn(value)}, 40 % of the table preload (practice)"
    if what == "engage_mm":
        value = show_mm(value)
    return ASSUMED[what].format(value)


def _sources(answer: TorqueAnswer) -> Iterator[str]:
    """Each source once, by its short name, with what stands on it and how far it is checked."""
    uses: dict[tuple[str, str], list[str]] = {}
    for source in answer.sources:
        mark = MARKS.get(source.checked, "")
        uses.setdefault((short_source(source.id, source.title), mark), []).append(source.used_for)
    for (name, mark), used_for in uses.items():
        yield f"{name}{mark} ({', '.join(dict.fromkeys(used_for))})"


def _both(nm: float) -> str:
    return show_nm(nm * 1000)
