"""What stands beside the window on a terminal: gears, bar, heat, locker, what is left of it."""

from collections.abc import Iterator
from typing import Any

from fastkit.answers.torque import TorqueAnswer
from fastkit.answers.torque_limits import LIMITS
from fastkit.cli.output import wrap
from fastkit.notation.units import figures, show_kn, show_mm, show_nm

Numbers = dict[str, Any]


def _nm(nm: float) -> str:
    return show_nm(1000 * nm)


def _fine(mm: float) -> str:
    """Hundredths of a millimetre, which a length elsewhere rounds away."""
    return f"{mm:.3f} mm ({mm / 25.4:.4f} in)"


def _degrees(celsius: float) -> str:
    return f"{celsius:.0f} °C ({1.8 * celsius + 32:.0f} °F)"


def wrench(answer: TorqueAnswer, columns: int) -> Iterator[str]:
    """Gears, bar and adapter between wrench and fastener, and the pull at the handle."""
    gears, long, hand = answer.multiplier, answer.extension, answer.by_hand
    if gears:
        yield from wrap(
            f"Behind the multiplier, {gears['ratio']:g} to 1 at {gears['efficiency_pct']:g} %: "
            f"{_nm(gears['setting_nm'])} in for {_nm(answer.torque_nm or 0.0)} out.",
            columns,
        )
    if answer.wrench_setting_nm is not None:
        yield from wrap(
            f"With the adapter the scale reads {_nm(answer.wrench_setting_nm)}.", columns
        )
    if long:
        yield from wrap(
            f"An extension bar of {show_mm(long['length_mm'])} takes nothing off the torque; it "
            f"winds up by {long['twist_deg']:.1f}°: pull on until the wrench says so.",
            columns,
        )
    if hand:
        yield from wrap(
            f"By feel, for the order of size only: {figures(hand['pull_n'])} N "
            f"({figures(hand['pull_kg'])} kg) at the handle, {hand['at_mm']:g} mm out.",
            columns,
        )


def locker(said: Numbers, columns: int) -> Iterator[str]:
    """The bond of a threadlocker, and the heat at which it lets go."""
    low, high = said["lets_go_from_c"], said["lets_go_to_c"]
    heat = ""
    if low is not None and high is not None:
        heat = f"; it lets go between {_degrees(low)} and {_degrees(high)}, turned while hot"
        if low <= 20:
            heat = f"; hand tools do, at the latest at {_degrees(high)}"
    yield from wrap(
        f"{said['strength'].capitalize()}-strength threadlocker holds about "
        f"{_nm(said['bond_nm'])} of that (practice){heat}.",
        columns,
    )


def heat(said: Numbers, columns: int) -> Iterator[str]:
    """What the two temperatures do to clamp, gap, press fit and temper."""
    both = said["body_c"] == said["bolt_c"]
    yield from wrap(
        f"Tightened at 20 °C, then {'all' if both else said['body']} at "
        f"{_degrees(said['body_c'])}"
        + ("" if both else f", the bolt at {_degrees(said['bolt_c'])}")
        + f": the clamp {_change(said['preload_change_n'])}, "
        f"{show_kn(said['preload_left_n'])} left, on a grip of {show_mm(said['grip_mm'])}.",
        columns,
    )
    if said["passes"]:
        passed = ", ".join(LIMITS[name] for name in said["passes"])
        yield from wrap(f"At the top of the window that may pass: {passed}.", columns)
    gap = said["gap_change_mm"]
    word = "opens" if gap > 0 else "closes"
    if abs(gap) >= 0.0005:
        yield from wrap(f"The gap round it {word} by {_fine(abs(gap))}.", columns)
    yield from _pressed(said, columns)
    if said["loses_temper"]:
        yield from wrap(
            f"The bolt goes soft: its class is tempered at {said['temper_c']:g} °C at the least "
            "[memory]. Not used again.",
            columns,
        )
    elif said["use_max_c"] is not None and said["bolt_c"] > said["use_max_c"]:
        yield from wrap(
            f"Beyond {said['use_max_c']:g} °C its class loses strength and clamp in service.",
            columns,
        )


def _change(newton: float) -> str:
    if abs(newton) < 1:
        return "stays"
    return f"{'grows' if newton > 0 else 'falls'} by {show_kn(abs(newton))}"


def _pressed(said: Numbers, columns: int) -> Iterator[str]:
    if said["press_mm"] is None:
        return
    grip = said["press_grip_nm"]
    now = f"it still holds about {_nm(grip)}" if grip > 0 else "it has let go"
    yield from wrap(
        f"A press fit of {_fine(said['press_mm'])} opens with the {said['body']} at "
        f"{_degrees(said['press_opens_c'])}: {now}.",
        columns,
    )


def broken(said: Numbers, columns: int) -> Iterator[str]:
    """What gets the rest out: holes with what shell and extractor carry, slot, weld, jaws."""
    yield ""
    yield from wrap(
        "Broken, no head and no clamp are left to turn against; only what bonds the thread.",
        columns,
    )
    for hole in said["holes"]:
        tool = ""
        if hole["extractor_nm"] is not None:
            tool = f"; the extractor snaps at {_nm(hole['extractor_nm'])}"
            tool += f" ({hole['extractor']})" if hole["extractor"] else ""
        yield from wrap(
            f"{hole['title']}: drill {show_mm(hole['drill_mm'])}, wall "
            f"{show_mm(hole['wall_mm'])}, the shell twists off at {_nm(hole['shank_nm'])}{tool}.",
            columns,
            "- ",
        )
    yield from wrap(
        f"Slot and flat driver {_nm(said['slot_nm'])}, nut welded on {_nm(said['weld_nm'])}, "
        f"locking pliers on the stub {_nm(said['jaw_nm'])} (practice).",
        columns,
        "- ",
    )
