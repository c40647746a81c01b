"""What no fastener could have is refused, naming the option and its bounds."""

from math import isfinite

from fastkit.errors import Misuse

Pair = tuple[float, float]
BOUNDS = {  # option, named with its unit: least, most
    "utilisation_pct": (1.0, 100.0),
    "wrench_error_pct": (0.0, 50.0),
    "prevailing_nm": (0.0, 1e5),
    "engage_mm": (0.1, 1e4),
    "clamp_n": (1.0, 1e8),
    "set_nm": (1e-3, 1e6),
    "maker_nm": (1e-3, 1e6),
    "angle_deg": (0.0, 3600.0),
    "grip_mm": (0.1, 1e4),
    "wrench_length_mm": (1.0, 1e4),
    "adapter_mm": (0.0, 1e4),
    "press_mm": (0.0, 10.0),
    "multiplier_x": (1.0, 1000.0),
    "efficiency_pct": (1.0, 100.0),
    "extension_length_mm": (1.0, 1e4),
    "extension_diameter_mm": (1.0, 200.0),
    "heat_c": (-273.0, 1500.0),
}
UNITS = {
    **{"pct": " %", "nm": " N·m", "mm": " mm", "n": " N", "deg": "°", "c": " °C"},
    "x": "",
}


def check(**values: float | None) -> None:
    """
    Refuse a value out of its bounds; None is not looked at.

    Raises:
        Misuse: Naming option, bounds and value.
    """
    for name, value in values.items():
        low, high = BOUNDS[name]
        if value is not None and not (isfinite(value) and low <= value <= high):
            word, _, unit = name.rpartition("_")
            said = f"{word.replace('_', '-')} must be {low:g} to {high:g}{UNITS[unit]}"
            raise Misuse(f"{said}, got {value:g}")


def check_pairs(multiplier: Pair | None, extension_mm: Pair | None, heat_c: Pair | None) -> None:
    """
    The same for the options that take two values.

    Raises:
        Misuse: Naming option, bounds and value.
    """
    if multiplier is not None:
        check(multiplier_x=multiplier[0], efficiency_pct=multiplier[1])
    if extension_mm is not None:
        check(extension_length_mm=extension_mm[0], extension_diameter_mm=extension_mm[1])
    for degrees in heat_c or ():
        check(heat_c=degrees)
