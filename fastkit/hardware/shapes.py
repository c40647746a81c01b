"""Which drive or head measurements mean: limits of each form, reading error, how common it is."""

from collections.abc import Iterable, Mapping
from math import cos, exp, log, radians
from typing import NamedTuple

from fastkit.hardware.likelihood import bounded
from fastkit.hardware.separate import Measure, Separation, Tell, best_measure
from fastkit.hardware.sizes import Span
from fastkit.mechanics.bearing import IT
from fastkit.records.bench import Bench
from fastkit.records.drive import Drive
from fastkit.records.head import Head

COS30 = cos(radians(30))
INCH_SHARE = 0.4  # inch sizes beside metric ones
RECESS_OVER, RECESS_OVER_SHARE = 0.02, 0.016  # a recess is this much over its key: mm, and share
LOBE_SPREAD, LOBE_SPREAD_SHARE = 0.03, 0.012  # either way about the standard's A and B
FLATS_UNDER_SHARE = 0.03  # an outer hexagon is made under its nominal width by up to this
WING_SPREAD = 0.25
FURTHEST = 3.0
SECOND = 0.15  # share of those who measure over the other of flats and points; judgement
# who counts lobes has seen lobes, not corners; judgement
ROUND = ("hexalobular", "external-hexalobular", "hexalobular-tamper", "five-lobe")
CORNERS_COUNTED = 0.25
LARGER_MM = 1.0  # a forged head beyond the steps of ISO 286-1 held; judgement


class Shape(NamedTuple):
    """A drive or head with the span of each measurement it has [mm]."""

    id: str
    spans: Mapping[str, Span]  # points, flats; diameter, height, flats
    code: Mapping[str, float]  # what the eye counts: lobes, form
    weight: float


class Fit(NamedTuple):
    """A shape with its probability; `offsets`: readings less the middles of its spans."""

    shape: Shape
    probability: float
    admitted: bool
    offsets: dict[str, float]


def drive_shape(drive: Drive, bench: Bench, counted: bool = False) -> Shape | None:
    """
    What one may measure on a drive; None where its form has no size.

    Args:
        drive: The drive.
        bench: How often its system is met.
        counted: Somebody has counted its lobes.
    """
    points, flats, valleys = (
        *(drive.across_points_mm, drive.across_flats_mm),
        *(drive.across_valleys_mm,),
    )
    spans: dict[str, Span] = {}
    if drive.system in ("hex-socket", "hex-socket-tamper") and flats:
        spans = _sunk(flats, flats, COS30)
    elif drive.across_flats_min_mm and drive.system == "square":  # its limits are the recess's own
        most = drive.across_flats_max_mm or drive.across_flats_min_mm
        spans = _sunk(drive.across_flats_min_mm, most, cos(radians(45)))
    elif drive.system in ("hexagon", "twelve-point") and flats:
        low = drive.across_flats_min_mm or flats * (1 - FLATS_UNDER_SHARE)
        tips = points if points and points > flats else low / COS30 * 0.985
        spans = {"flats": Span(low, flats), "points": Span(tips, flats / COS30)}
    elif drive.wing_mm:
        spans = {"points": Span(drive.wing_mm - WING_SPREAD, drive.wing_mm + WING_SPREAD)}
    elif points:
        spans = {"points": _about(points)}
        if valleys:
            spans["flats"] = _about(valleys)
    if not spans:
        return None
    weight = bench.get("met_drive", drive.system) * (INCH_SHARE if drive.id.endswith("in") else 1.0)
    if counted and drive.system not in ROUND:
        weight *= CORNERS_COUNTED
    code = {"lobes": float(lobes_of(drive)), "system": _number(drive.system, bench)}
    return Shape(drive.id, spans, {**code, "external": float(drive.external)}, weight)


def _sunk(least: float, most: float, corner: float) -> dict[str, Span]:
    """Spans of a recess with flats, over its corners by their cosine."""
    high = most + RECESS_OVER + RECESS_OVER_SHARE * most
    return {"flats": Span(least, high), "points": Span(least / corner - 0.1, high / corner)}


def lobes_of(drive: Drive) -> int:
    """Lobes, corners or arms that one counts: as often as it fits in a turn."""
    return round(360 / drive.symmetry_deg)


def _number(system: str, bench: Bench) -> float:
    """A number by which systems differ."""
    known = bench.kinds("met_drive")
    return float(known.index(system)) if system in known else -1.0


def _about(value: float) -> Span:
    spread = LOBE_SPREAD + LOBE_SPREAD_SHARE * value
    return Span(value - spread, value + spread)


def head_shape(head: Head, drive: Drive | None, form: int, bench: Bench) -> Shape | None:
    """What one may measure on a head or nut, and what one sees on it: form and drive."""
    hexagon = drive is not None and drive.system == "hexagon"
    flats = drive.across_flats_mm if drive and hexagon else None
    spans: dict[str, Span] = {}
    for name, value in (
        ("diameter", head.head_diameter_mm),
        ("height", head.head_height_mm),
        ("flats", flats),
    ):
        if value:
            spans[name] = Span(value - _it14(value), value)
    if not spans:
        return None
    code = {"form": float(form), "system": _number(drive.system if drive else "", bench)}
    return Shape(head.id, spans, code, bench.get("met_head", head.standard))


def _it14(value: float) -> float:
    """What a forged head may be smaller than its largest, ISO 286-1 [mm]."""
    return next((width for top, _, width, *_ in IT if value <= top), LARGER_MM)


def fit(shapes: Iterable[Shape], read: Mapping[str, float], error: float) -> tuple[Fit, ...]:
    """
    Shapes by probability; empty where all lie too far off.

    `across` among the readings may be over points or over flats, whichever the form has.
    """
    scored = []
    for shape in shapes:
        score, off, offsets = log(shape.weight), 0.0, {}
        for name, value in read.items():
            there = _spans(shape, name)
            if not there:
                off = float("inf")
                break
            best = min(there, key=lambda span: _outside(value, span))
            off = max(off, _outside(value, best) / error)
            shares = (1 - SECOND, SECOND) if len(there) > 1 else (1.0,)
            score += log(
                sum(
                    share * bounded(value, span, error)
                    for share, span in zip(shares, there, strict=True)
                )
            )
            offsets[f"{name}_mm"] = round(value - best.middle, 3)
        if off <= FURTHEST:
            scored.append((score, off, shape, offsets))
    if not scored:
        return ()
    top = max(item[0] for item in scored)
    total = sum(exp(item[0] - top) for item in scored)
    found = [
        Fit(shape, exp(score - top) / total, off <= 1 + 1e-9, offsets)
        for score, off, shape, offsets in scored
    ]
    return tuple(sorted(found, key=lambda item: (-item.probability, item.shape.id)))


def _spans(shape: Shape, name: str) -> list[Span]:
    """The spans that a reading may mean: `across` any, first the one that people measure."""
    if name == "across":
        return list(shape.spans.values())
    return [shape.spans[name]] if name in shape.spans else []


def nearest_shapes(
    shapes: Iterable[Shape], read: Mapping[str, float], count: int = 3
) -> tuple[str, ...]:
    """The shapes that the readings miss by least."""
    found = []
    for shape in shapes:
        off = 0.0
        for name, value in read.items():
            off += min((_outside(value, span) for span in _spans(shape, name)), default=1e6)
        found.append((off, -shape.weight, shape.id))
    return tuple(name for *_, name in sorted(found)[:count])


def _outside(value: float, span: Span) -> float:
    return max(span.low - value, value - span.high, 0.0)


def next_measure(
    fits: tuple[Fit, ...], read: Mapping[str, float], given: Iterable[str], error: float
) -> Separation | None:
    """The measurement or count that tells the leading shapes apart best."""
    leaders = [item for item in fits if item.probability >= 0.02 or item.admitted][:6]
    if len(leaders) < 2:
        return None
    shares = [item.probability for item in leaders]
    names = {name for item in leaders for name in item.shape.spans} - set(read)
    offers = [
        Measure(name, "mm", error, [item.shape.spans.get(name) for item in leaders])
        for name in sorted(names)
    ]
    for name in sorted({name for item in leaders for name in item.shape.code} - set(given)):
        codes = [item.shape.code.get(name, 0.0) for item in leaders]
        offers.insert(0, Measure(name, "", 0.1, [Span(code, code) for code in codes]))
    found = best_measure([item.shape.id for item in leaders], shares, offers)
    if found is None:
        tells = tuple(Tell(item.shape.id, 0.0, 0.0) for item in leaders)
        return Separation("mating", "", 0.0, max(shares), tells)
    return found
