"""Bounds of formula arguments: refused by name, value and bound, never clamped."""

from math import isfinite


def positive(**values: float) -> None:
    """Raise ValueError for the first value that is not finite and > 0."""
    for name, value in values.items():
        if not (isfinite(value) and value > 0):
            raise ValueError(f"{name} must be > 0, got {value!r}")


def not_negative(**values: float) -> None:
    """Raise ValueError for the first value that is not finite and >= 0."""
    for name, value in values.items():
        if not (isfinite(value) and value >= 0):
            raise ValueError(f"{name} must be >= 0, got {value!r}")
