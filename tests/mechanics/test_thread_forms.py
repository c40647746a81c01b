"""Whitworth, BA and taper pipe threads against printed tables."""

import csv
from pathlib import Path

import pytest

from fastkit.mechanics import thread_forms as forms

with Path(__file__).with_name("thread_forms.csv").open(encoding="utf-8", newline="") as file:
    ROWS = list(csv.DictReader(file))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["thread"])
def test_printed_diameters(row):
    form, _, inch = row["form"].partition("-")
    unit = 25.4 if inch else 1.0
    d, n = float(row["nominal"]) * unit, float(row["pitch_or_tpi"])
    if form == "whitworth":
        basic = forms.whitworth(d, 25.4 / n)
    elif form == "association":
        basic = forms.association(d, n)
    else:
        basic = forms.taper_pipe(d, 25.4 / n, float(row["gauge"]) * unit)
    within = float(row["within"])
    assert float(row["pitch_diameter"]) == pytest.approx(basic.pitch_diameter_mm / unit, abs=within)
    if row["minor"]:
        assert float(row["minor"]) == pytest.approx(basic.minor_mm / unit, abs=within)


@pytest.mark.parametrize(
    "call",
    [
        lambda: forms.whitworth(0.0, 1.0),
        lambda: forms.whitworth(1.0, 1.0),
        lambda: forms.association(1.0, 1.0),
        lambda: forms.taper_pipe(1.0, 1.0, 1.0),
        lambda: forms.of_core(3.0, 3.0),
    ],
)
def test_what_is_no_thread_is_refused(call):
    with pytest.raises(ValueError, match="must be"):
        call()


@pytest.mark.parametrize(
    ("number", "d", "p", "printed"),
    [  # BS 93:1951 as reprinted in Machinery's Handbook, 31st ed., p. 2115: largest normal bolt
        (3, 4.10, 0.73, (None, 3.635, None)),
        (4, 3.60, 0.66, (3.575, 3.180, 2.785)),
        (6, 2.80, 0.53, (None, 2.455, 2.135)),
        (8, 2.20, 0.43, (None, 1.915, 1.655)),
        (9, 1.90, 0.39, (1.875, 1.640, 1.405)),
        (10, 1.70, 0.35, (1.675, None, 1.255)),
    ],
)
def test_largest_normal_bolts_of_ba(number, d, p, printed):
    bolt = forms.association_bolt(d, p)
    for expected, limit in zip(printed, (bolt.major, bolt.pitch, bolt.minor), strict=True):
        if expected is not None:
            assert expected == pytest.approx(limit[1], abs=0.0051)


def test_ba_nut_meets_the_basic_size_and_opens_by_its_tolerance():
    """Nuts: effective + 0.12 p + 0.03, minor + 0.375 p (the same page); no. 0, p = 1."""
    nut = forms.association_nut(6.0, 1.0)
    assert (5.4, 5.55) == tuple(round(x, 3) for x in nut.pitch)
    assert (4.8, 5.175) == tuple(round(x, 3) for x in nut.minor)


def test_small_ba_bolts_have_no_allowance():
    """Numbers 11 to 16: major 0.25 p below the basic size (the same page)."""
    assert (1.5 - 0.25 * 0.31, 1.5) == pytest.approx(forms.association_bolt(1.5, 0.31).major)
