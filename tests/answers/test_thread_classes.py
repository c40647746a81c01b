"""Limits of every class in use, so that a reading of a worn or plated thread can be judged."""

import pytest

from fastkit.answers.show import show

# ISO 965-1, tables of tolerances for P = 1.25 and 5.6 to 11.2 mm
M8 = {
    ("4h", "major"): (7.868, 8.0),
    ("4h", "pitch"): (7.113, 7.188),
    ("6h", "major"): (7.788, 8.0),
    ("6h", "pitch"): (7.07, 7.188),
    ("6g", "pitch"): (7.042, 7.16),
    ("4H", "minor"): (6.647, 6.817),
    ("4H", "pitch"): (7.188, 7.288),
    ("7H", "minor"): (6.647, 6.982),
    ("7H", "pitch"): (7.188, 7.388),
}
# ASME B1.1, table of limits of size [in]
QUARTER = {
    ("1A", "major"): (0.2367, 0.2489),
    ("1A", "pitch"): (0.2108, 0.2164),
    ("2A", "pitch"): (0.2127, 0.2164),
    ("3A", "major"): (0.2419, 0.25),
    ("3A", "pitch"): (0.2147, 0.2175),
    ("1B", "pitch"): (0.2175, 0.2248),
    ("2B", "pitch"): (0.2175, 0.2224),
    ("3B", "pitch"): (0.2175, 0.2211),
    ("3B", "minor"): (0.196, 0.2067),
}


def limits(store, key):
    """Class and dimension, to the ends [mm]."""
    said = show(f"thread:{key}", store=store).document
    return {
        (row["class"], row["dimension"]): (row["min_mm"], row["max_mm"])
        for row in (*said["limits"], *said["limits_of_other_classes"])
    }


@pytest.mark.parametrize("key", M8)
def test_metric_classes(store, key):
    """To the last printed digit."""
    assert M8[key] == pytest.approx(limits(store, "M8x1.25")[key], abs=0.00051)


@pytest.mark.parametrize("key", QUARTER)
def test_unified_classes(store, key):
    """To one unit of the last printed digit."""
    found = limits(store, "1/4-20-UNC")[key]

    assert QUARTER[key] == pytest.approx([round(x / 25.4, 4) for x in found], abs=0.000101)
