"""The table of limits by class: which classes each thread has, and whose numbers they are."""

import sqlite3

import pytest

from fastkit.records.thread import ClassLimit
from fastkit.reference.lookup import many


def classes(store: sqlite3.Connection, thread: str) -> set[str]:
    return {row.tolerance for row in many(store, ClassLimit, thread=thread)}


@pytest.mark.parametrize(
    ("thread", "said"),
    [
        ("M8x1.25", {"4h", "6e", "6f", "6g", "6h", "8g", "4H", "4H5H", "5H", "6G", "6H", "7H"}),
        ("M1x0.25", {"4h", "6g", "6h", "4H", "4H5H", "5H", "6G", "6H"}),  # ISO 965-1: no e, f, 8, 7
        ("M3x0.35", {"4h", "6f", "6g", "6h", "4H", "4H5H", "5H", "6G", "6H"}),
        ("1/4-20-UNC", {"1A", "2A", "3A", "1B", "2B", "3B"}),
        ("1-12-UNF", {"1A", "2A", "3A", "1B", "2B", "3B"}),
        ("1/4-32-UNEF", {"2A", "3A", "2B", "3B"}),  # ASME B1.1 has class 1 for UNC and UNF only
        ("#10-32-UNF", {"2A", "3A", "2B", "3B"}),  # and from 1/4 in up
        ("1/2-12-BSW", {"close", "medium", "free", "normal"}),
        ("BA-4", {"close", "normal"}),
        ("BA-12", {"normal"}),
        ("plug-M14x1.25", {"6g", "6H"}),
        ("plug-7/8-18", set()),
        ("G1/4", set()),
    ],
)
def test_classes_of_a_thread(store: sqlite3.Connection, thread: str, said: set[str]) -> None:
    assert classes(store, thread) == said


@pytest.mark.parametrize(
    ("thread", "name", "side", "dimension", "low", "high"),
    [  # M30x2 4h and M30x3.5 7H, 1/2-13 3B: as printed, see tests/published/limits_classes.toml
        ("M30x2", "4h", "external", "pitch", 28.595, 28.701),
        ("M30x3.5", "7H", "internal", "minor", 26.211, 26.921),
        ("1/2-13-UNC", "3B", "internal", "minor", 0.4167 * 25.4, 0.4284 * 25.4),
        ("M8x1.25", "6H", "internal", "pitch", 7.188, 7.348),
    ],
)
def test_limits_of_a_class(store, thread, name, side, dimension, low, high):
    (row,) = [
        row
        for row in many(store, ClassLimit, thread=thread)
        if (row.tolerance, row.side, row.dimension) == (name, side, dimension)
    ]
    assert (row.min_mm, row.max_mm) == pytest.approx((low, high), abs=0.0014)


def test_an_external_thread_of_a_class_is_never_over_basic_nor_an_internal_under(
    store: sqlite3.Connection,
) -> None:
    basic = {
        row[0]: row[1:]
        for row in store.execute("SELECT id, nominal_mm, pitch_diameter_mm, minor_mm FROM thread")
    }
    for row in many(store, ClassLimit):
        value = basic[row.thread][("major", "pitch", "minor").index(row.dimension)]
        assert row.min_mm < row.max_mm
        if row.side == "external":
            assert row.max_mm <= value + 0.0006, row
        else:
            assert row.min_mm >= value - 0.0006, row
