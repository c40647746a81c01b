"""Guards of the formulas' arguments: nothing is clamped, what is out of range is refused."""

from math import isfinite


def positive(value: float, name: str) -> float:
    """
    Pass a finite value above zero on, refuse any other.

    Args:
        value: The argument, in its own unit [-].
        name: What the caller calls it.

    Returns:
        The value, unchanged [-].

    Raises:
        ValueError: When *value* is not finite or not above zero; names argument and value.

    References:
        1. Common sense; no published formula.

    >>> positive(2.0, "d_mm")
    2.0
    """
    if not (isfinite(value) and value > 0):
        raise ValueError(f"{name} must be > 0, got {value!r}")
    return value


def within(value: float, name: str, low: float, high: float) -> float:
    """
    Pass a finite value of a closed range on, refuse any other.

    Args:
        value: The argument, in its own unit [-].
        name: What the caller calls it.
        low: Smallest value allowed [-].
        high: Largest value allowed; may be infinite [-].

    Returns:
        The value, unchanged [-].

    Raises:
        ValueError: When *value* is not finite or out of range; names argument, value and bounds.

    References:
        1. Common sense; no published formula.

    >>> within(0.12, "mu_thread", 0.0, 2.0)
    0.12
    """
    if not (isfinite(value) and low <= value <= high):
        raise ValueError(f"{name} must be {low:g} to {high:g}, got {value!r}")
    return value
