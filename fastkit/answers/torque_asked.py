"""What was asked beside the window, put into the answer: hand and wrench, own values, heat."""

import sqlite3
from typing import Any, NamedTuple

from fastkit.answers.torque_answer import TorqueAnswer
from fastkit.answers.torque_bounds import Pair
from fastkit.answers.torque_more import judged, loosening, makers
from fastkit.answers.torque_parts import Parts
from fastkit.answers.torque_sources import Used
from fastkit.answers.torque_wrench import by_hand, geared, scale_reading, twisted
from fastkit.joint.window import Joint, window


class Asked(NamedTuple):
    """Options that change no window, as the torque question takes them."""

    adapter: tuple[float | None, float | None, float | None]  # adapter, wrench [mm], angle [deg]
    set_nm: float | None
    angle_deg: float | None
    grip_mm: float | None
    maker_nm: float | None
    multiplier: Pair | None
    extension_mm: Pair | None
    heat_c: Pair | None
    press_mm: float | None
    locker: str | None
    broken: bool
    why: bool


def beside(
    answer: TorqueAnswer,
    joint: Joint | None,
    parts: Parts,
    store: sqlite3.Connection,
    asked: Asked,
) -> tuple[TorqueAnswer, tuple[Used, ...]]:
    """
    Add what was asked beside the window; without a joint only what needs none.

    Args:
        answer: The answer so far.
        joint: The joint; None where no window can be computed.
        parts: Its records.
        store: Compiled reference.
        asked: The options.

    Returns:
        The answer, and the sources that were added.

    Raises:
        Misuse: When an option does not fit the others.
    """
    used: tuple[Used, ...] = ()
    if joint is not None:
        answer, used = _of_joint(answer, joint, parts, store, asked)
    if asked.broken:
        from fastkit.answers.torque_broken import broken

        said, more = broken(store, parts)
        answer, used = answer._replace(broken=said), (*used, *more)
    return answer, used


def _of_joint(
    answer: TorqueAnswer, joint: Joint, parts: Parts, store: sqlite3.Connection, asked: Asked
) -> tuple[TorqueAnswer, tuple[Used, ...]]:
    found: dict[str, Any] = {}
    used: tuple[Used, ...] = ()
    setting, bond = answer.torque_nm or 0.0, 0.0
    if asked.locker is not None:
        from fastkit.answers.torque_heat import locked

        found["locker"], bond, used = locked(store, parts, asked.locker)
    if asked.heat_c is not None:
        from fastkit.answers.torque_heat import heated

        found["heat"], more = heated(
            store, joint, parts, asked.heat_c, asked.grip_mm, asked.press_mm
        )
        used = (*used, *more)
    if asked.angle_deg is not None or asked.grip_mm is not None:
        from fastkit.answers.torque_turn import turned

        found["angle"] = turned(joint, parts, setting, asked.angle_deg, asked.set_nm, asked.grip_mm)
    if asked.why:
        from fastkit.answers.torque_steps import steps

        found["why"] = steps(joint, parts, window(joint), bond)
    if asked.set_nm is not None:
        found["set"] = judged(joint, parts, asked.set_nm)
    if asked.maker_nm is not None:
        found["maker"] = makers(joint, parts, asked.maker_nm)
    found |= {**_wrench(setting, asked), **loosening(joint, parts, setting, bond)}
    return answer._replace(**found), used


def _wrench(setting_nm: float, asked: Asked) -> dict[str, Any]:
    """From the fastener back to the hand: gears, then the adapter's lever, then the pull."""
    gears = geared(setting_nm, asked.multiplier)
    at_square = gears["setting_nm"] if gears else setting_nm
    adapter_mm, wrench_mm, angle_deg = asked.adapter
    reading = scale_reading(at_square, adapter_mm, wrench_mm, angle_deg)
    return {
        "multiplier": gears,
        "extension": twisted(setting_nm, asked.extension_mm),
        "wrench_setting_nm": reading,
        "by_hand": by_hand(at_square, adapter_mm, wrench_mm, reading),
    }
