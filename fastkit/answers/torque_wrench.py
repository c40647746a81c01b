"""What hand and wrench make of a setting: gears, adapter, pull at the handle, a bar that twists."""

from typing import Any

from fastkit.errors import Misuse
from fastkit.mechanics.wrench import bar_twist, multiplier_setting, pull, weight_of, wrench_setting

Numbers = dict[str, Any]
HANDLE_MM = 300.0  # practice: middle of the hand on a half-inch ratchet


def geared(setting_nm: float, multiplier: tuple[float, float] | None) -> Numbers | None:
    """What to set the wrench to behind a multiplier of a ratio and an efficiency [%]."""
    if multiplier is None:
        return None
    ratio, efficiency = multiplier
    needed = multiplier_setting(setting_nm, ratio, efficiency / 100)
    return {"ratio": ratio, "efficiency_pct": efficiency, "setting_nm": needed}


def twisted(setting_nm: float, bar_mm: tuple[float, float] | None) -> Numbers | None:
    """How far an extension bar, length and diameter [mm], winds up; it takes nothing off."""
    if bar_mm is None:
        return None
    length, diameter = bar_mm
    twist = bar_twist(setting_nm * 1000, length, diameter)
    return {"length_mm": length, "diameter_mm": diameter, "twist_deg": twist}


def scale_reading(
    setting_nm: float, adapter_mm: float | None, wrench_mm: float | None, angle_deg: float | None
) -> float | None:
    """What the wrench's scale must read behind an adapter [N·m]; None without one."""
    if adapter_mm is None:
        if angle_deg is not None:
            raise Misuse("adapter-angle needs adapter too; expected --adapter MM")
        return None
    if wrench_mm is None:
        raise Misuse("adapter needs the wrench's length; expected --wrench-length MM")
    try:
        return wrench_setting(setting_nm, wrench_mm, adapter_mm, angle_deg or 0.0)
    except ValueError as error:
        raise Misuse(str(error)) from error


def by_hand(
    setting_nm: float, adapter_mm: float | None, wrench_mm: float | None, reading_nm: float | None
) -> Numbers:
    """Pull at the handle, so that the order of size is known without a torque wrench."""
    arm = HANDLE_MM if wrench_mm is None else wrench_mm
    at_grip = setting_nm if adapter_mm is None or reading_nm is None else reading_nm
    force = pull(at_grip * 1000, arm)
    return {"at_mm": arm, "pull_n": force, "pull_kg": weight_of(force)}
