"""Limits of size of each thread in every class that its standard has, by the formulas."""

from collections.abc import Iterator
from typing import Any

from fastkit.mechanics import thread_forms, tolerance_british
from fastkit.mechanics.tolerance_classes import (
    iso_external_class,
    iso_internal_class,
    unified_external_class,
    unified_internal_class,
)

Cells = dict[str, Any]
Pair = tuple[float, float] | None
Sizes = tuple[str, str, Pair, Pair, Pair]  # class, side, major, pitch, minor
# ISO 965-1, tables 1 to 5: the least pitch [mm] of which the standard has the class
EXTERNAL = {"4h": 0.0, "6e": 0.5, "6f": 0.35, "6g": 0.0, "6h": 0.0, "8g": 0.8}
INTERNAL = {"4H": 0.0, "4H5H": 0.0, "5H": 0.0, "6G": 0.0, "6H": 0.0, "7H": 0.5}
LEAST_ISO_MM = 0.99
ONE_A_FROM_MM = 6.35  # ASME B1.1: class 1 of UNC and UNF from 1/4 in up
ENGAGED_PITCHES = 9.0  # ASME B1.1: of all series but UNC, UNF and 8-UN
LEAST_CLOSE_BA = 0.33  # BS 93: close bolts have at least this pitch [mm]


def class_limits(threads: list[Cells]) -> Iterator[Cells]:
    """A row for each thread, class and dimension."""
    makers = {"M": _metric, "plug": _plug, "UN": _unified, "BS": _whitworth, "BA": _association}
    for row in threads:
        make = makers.get(row["family"])
        if make is None or row.get("pitch_diameter_mm") is None:
            continue
        for name, side, *sizes in make(row):
            for dimension, limits in zip(("major", "pitch", "minor"), sizes, strict=True):
                if limits is not None:
                    yield {
                        **{"thread": row["id"], "tolerance": name, "side": side},
                        "dimension": dimension,
                        **{"min_mm": round(limits[0], 4), "max_mm": round(limits[1], 4)},
                    }


def _metric(row: Cells, only: tuple[str, ...] = ()) -> Iterator[Sizes]:
    d, p = row["nominal_mm"], row["pitch_mm"]
    if d < LEAST_ISO_MM:
        return
    for name, least in EXTERNAL.items():
        if p >= least and (not only or name in only):
            out = iso_external_class(d, p, name)
            yield name, "external", (out.d_min, out.d_max), (out.d2_min, out.d2_max), None
    for name, least in INTERNAL.items():
        if p >= least and (not only or name in only):
            hole = iso_internal_class(d, p, name)
            yield name, "internal", None, (hole.d2_min, hole.d2_max), (hole.d1_min, hole.d1_max)


def _plug(row: Cells) -> Iterator[Sizes]:
    return iter(()) if row["tpi"] else _metric(row, ("6g", "6H"))


def _unified(row: Cells) -> Iterator[Sizes]:
    d, p, series = row["nominal_mm"], row["pitch_mm"], row["series"]
    turns = ENGAGED_PITCHES if series in {"UNEF", "UNS"} else None
    first = series in {"UNC", "UNF"} and d >= ONE_A_FROM_MM - 1e-6
    for name in ("1A", "2A", "3A")[not first :]:
        out = unified_external_class(d, p, name, turns)
        yield name, "external", (out.d_min, out.d_max), (out.d2_min, out.d2_max), None
    for name in ("1B", "2B", "3B")[not first :]:
        hole = unified_internal_class(d, p, name, turns)
        yield name, "internal", None, (hole.d2_min, hole.d2_max), (hole.d1_min, hole.d1_max)


def _whitworth(row: Cells) -> Iterator[Sizes]:
    d, p = row["nominal_mm"], row["pitch_mm"]
    for name in tolerance_british.BOLT_CLASSES:
        yield name, "external", *tolerance_british.whitworth_bolt(d, p, name)
    for name in tolerance_british.NUT_CLASSES:
        yield name, "internal", *tolerance_british.whitworth_nut(d, p, name)


def _association(row: Cells) -> Iterator[Sizes]:
    d, p = row["nominal_mm"], row["pitch_mm"]
    if p > LEAST_CLOSE_BA:
        yield "close", "external", *thread_forms.association_bolt(d, p, close=True)
    yield "normal", "external", *thread_forms.association_bolt(d, p)
    yield "normal", "internal", *thread_forms.association_nut(d, p)
