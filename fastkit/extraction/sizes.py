"""Sizes for the fastener in hand: drills, slots, nuts, heat, sockets, as codes with numbers."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import NamedTuple

from fastkit.extraction.facts import Facts
from fastkit.extraction.resistance import body
from fastkit.extraction.situation import HEADLESS, Situation
from fastkit.extraction.stubs import BELOW
from fastkit.extraction.warmth import SOFTENED, Warmth
from fastkit.joint.warming import ROOM_C
from fastkit.mechanics.heat import gap_change
from fastkit.reach.near import near_fits
from fastkit.records.drilling import DrillOut, DrillShare, SpiralExtractor
from fastkit.records.drive import Drive, DriveTorque
from fastkit.records.head import Head
from fastkit.records.thread import Insert, TapDrill, Thread
from fastkit.records.washer import Washer

# Workshop judgement, common practice with no published source.
DEEP_D = 2.0  # depth of a hole for drill or extractor, in thread diameters
SLOT_DEEP = 1 / 3  # of the head's height; of the diameter where the head is gone or not known
NUT_HOLE = 0.98  # hole of a nut welded over a stub, at least so much of the stub
ROUND_FLATS = 0.85  # two flats on a round head: at most so much of its diameter
OVER_LEAST_MM, OVER_MOST_MM = 0.1, 0.8  # how much smaller a socket driven over a round head is
BAR_MM = 450.0
LONG_BAR_MM, TWO_HANDS_N = 1000.0, 700.0  # a bar with a tube, body weight on it; practice
NEAR_SHOWN = 3
GLOWS_C, TIN_MELTS_C = 550.0, 230.0  # dull red in the shade; tin solder melts
PRACTICE = "practice", "judgement"


class Size(NamedTuple):
    """One size: what it is, mm where it is a length, the values of its sentence, its standing."""

    what: str
    mm: float | None
    values: tuple[str | float, ...]
    source: str
    checked: str


class Stock(NamedTuple):
    """The rows that sizes are read from, beside the facts of the plan; what is not held is None."""

    drills: Mapping[str, DrillOut]  # by purpose
    shares: Mapping[str, DrillShare]
    extractor: SpiralExtractor | None
    tap_drill: TapDrill | None
    insert: Insert | None
    nuts: Sequence[tuple[Thread, Head]]  # coarse threads of the family with a plain nut, ascending
    washers: Sequence[Washer]
    blades: Mapping[str, DriveTorque]  # test torques of slot blades


class Piece(NamedTuple):
    """The fastener and the rows that its sizes come from."""

    situation: Situation
    facts: Facts
    stock: Stock
    shank_nmm: float

    @property
    def headless(self) -> bool:
        """Say whether no head is left."""
        return self.situation.damage in HEADLESS

    @property
    def across(self) -> float | None:
        """Diameter of what stands there: the head's, or the shank's root."""
        if self.headless:
            return self.facts.thread.root_mm
        return self.facts.head.head_diameter_mm if self.facts.head else None


def sizes(method: str, piece: Piece) -> tuple[Size, ...]:
    """Return the sizes of one method, in the order in which they are used."""
    return tuple(size for part in PARTS.get(method, ()) for size in part(method, piece))


def _drilled(purpose: str, what: str, method: str, piece: Piece) -> Iterator[Size]:
    """Yield the largest drill of a purpose and the wall that it leaves."""
    row, share = piece.stock.drills.get(purpose), piece.stock.shares.get(purpose)
    if row and share:
        yield Size(what, row.drill_mm, (row.drill_mm, row.wall_mm), share.source, share.checked)


def _pilot(method: str, piece: Piece) -> Iterator[Size]:
    yield from _drilled("pilot", "pilot", method, piece)


def _left_drill(method: str, piece: Piece) -> Iterator[Size]:
    what = "left_drill" if method == "left-hand-drill" else "right_drill"
    yield from _drilled("left-hand-drill", what, method, piece)


def _off_centre(method: str, piece: Piece) -> Iterator[Size]:
    """Yield the error of centre at which a drill meets the thread, and what then mends it."""
    purpose = "left-hand-drill" if method == "right-hand-drill" else method
    drill = piece.stock.drills.get(purpose)
    if drill:
        off = (piece.facts.thread.minor_mm - drill.drill_mm) / 2
        yield Size("off_centre", off, (round(off, 2),), *PRACTICE)
    yield from _mended(piece)


def _mended(piece: Piece) -> Iterator[Size]:
    """Yield the repair where the thread has gone."""
    if row := piece.stock.insert:
        values = (row.drill_mm, row.tap_major_mm)
        yield Size("insert", row.drill_mm, values, row.source, row.checked)


def _straight(method: str, piece: Piece) -> Iterator[Size]:
    yield from _drilled("straight-extractor", "straight", method, piece)


def _spiral(method: str, piece: Piece) -> Iterator[Size]:
    row, tool = piece.stock.drills.get("spiral-extractor"), piece.stock.extractor
    if row and tool:
        number = tool.id.rpartition("-")[2]
        values = (number, row.drill_mm, row.wall_mm)
        yield Size("spiral", row.drill_mm, values, tool.source, tool.checked)


def _deep(method: str, piece: Piece) -> Iterator[Size]:
    deep = DEEP_D * piece.facts.thread.nominal_mm
    deep = min(deep, piece.situation.engage_mm or deep)
    yield Size("deep", deep, (deep,), *PRACTICE)


def _sleeve(method: str, piece: Piece) -> Iterator[Size]:
    """Yield the sleeve that leads the first drill down to a stub in its hole."""
    pilot = piece.stock.drills.get("pilot")
    if piece.situation.damage == BELOW and pilot:
        outer = piece.facts.thread.minor_mm
        yield Size("sleeve", outer, (outer, pilot.drill_mm), *PRACTICE)


def _slot(method: str, piece: Piece) -> Iterator[Size]:
    """Yield slot and blade: the blade of the standard nearest to a fifth of the thread."""
    across, wanted = (
        piece.across,
        piece.facts.bench.get("slot_blade") * piece.facts.thread.nominal_mm,
    )
    blades = [
        row
        for row in piece.facts.drives
        if row.system == "slot" and (row.across_points_mm or 0) <= (across or 0)
    ]
    if not blades or across is None:
        return
    blade = min(
        blades,
        key=lambda row: (abs((row.across_flats_mm or 0) - wanted), -(row.across_points_mm or 0)),
    )
    thick, head = blade.across_flats_mm or 0.0, piece.facts.head
    high = None if piece.headless or head is None else head.head_height_mm
    deep = SLOT_DEEP * (high or piece.facts.thread.nominal_mm)
    yield Size("slot", thick, (thick,), *PRACTICE)
    yield Size("slot_deep", deep, (round(deep, 1),), *PRACTICE)
    test = piece.stock.blades.get(blade.id)
    values = (blade.size, test.proof_torque_nm if test else 0.0)
    yield Size("blade", thick, values, blade.source, blade.checked)


def _head_off(method: str, piece: Piece) -> Iterator[Size]:
    drill, head = piece.facts.thread.nominal_mm, piece.facts.head
    yield Size("head_drill", drill, (drill,), *PRACTICE)
    if head and head.head_height_mm:
        high = head.head_height_mm
        yield Size("head_deep", high, (high,), head.source, head.checked)


def _drill_out(method: str, piece: Piece) -> Iterator[Size]:
    """Yield the steps, the error of centre at which the last of them meets the thread, the tap."""
    yield from _drilled("left-hand-drill", "step", method, piece)
    yield from _drilled("drill-out", "last_drill", method, piece)
    last = piece.stock.drills.get("drill-out")
    if last:
        off = (piece.facts.thread.minor_mm - last.drill_mm) / 2
        yield Size("off_centre", off, (round(off, 2),), *PRACTICE)
    if tap := piece.stock.tap_drill:
        yield Size("tap_drill", tap.drill_mm, (tap.drill_mm,), tap.source, tap.checked)
    yield from _mended(piece)


def _weld(method: str, piece: Piece) -> Iterator[Size]:
    """Yield the nut: over a proud stub the next whose hole takes it, on a flush one its own."""
    thread = piece.facts.thread
    if piece.situation.damage in ("snapped-flush", "snapped-below"):
        fits = [row for row in piece.stock.washers if row.inner_mm <= thread.root_mm]
        if fits:
            row = max(fits, key=lambda row: row.inner_mm)
            values = (row.size, row.inner_mm)
            yield Size("weld_washer", row.inner_mm, values, row.source, row.checked)
        yield Size("weld_nut", thread.nominal_mm, (thread.size, thread.minor_mm), *PRACTICE)
        return
    for other, head in piece.stock.nuts:
        if other.minor_mm >= NUT_HOLE * thread.nominal_mm:
            values = (other.size, other.minor_mm)
            yield Size("weld_nut", other.nominal_mm, values, head.source, head.checked)
            return


def _heat(method: str, piece: Piece) -> Iterator[Size]:
    """Yield how hot it gets and the least time for head and one diameter of shank."""
    warmth = _warmth(piece)
    celsius, seconds = warmth.got[method]
    if celsius >= GLOWS_C:
        what = "glow"
    elif celsius < TIN_MELTS_C:
        what = "weak"
    elif warmth.gentle and piece.situation.seized not in SOFTENED:
        what = "light" if warmth.light else "beside"
    else:
        what = "heat"
    values = (round(celsius, -1), seconds, warmth.sources[method].power_w or 0.0, what)
    yield Size("heat", None, values, *PRACTICE)


def _grows(method: str, piece: Piece) -> Iterator[Size]:
    warmth = _warmth(piece)
    pair = warmth.grows(method)
    if pair is None:
        return
    host, screw = pair
    gap = gap_change(
        piece.facts.thread.nominal_mm,
        host.expansion_per_k,
        host.rise_k,
        screw.expansion_per_k,
        screw.rise_k,
    )
    if gap > 0 and screw.rise_k > 0:
        yield Size("grows", gap, (screw.rise_k + ROOM_C, gap), *PRACTICE)
    elif gap > 0:
        yield Size("shrinks", gap, (round(-screw.rise_k), gap), *PRACTICE)


def _warmth(piece: Piece) -> Warmth:
    return Warmth(piece.situation, piece.facts, body(piece.situation, piece.facts))


def _flats(method: str, piece: Piece) -> Iterator[Size]:
    """Yield the wrench size to file to: the next smaller, or one that leaves a round head whole."""
    drive, across = piece.facts.drive, piece.across
    outer = drive.across_flats_mm if drive and drive.external and not piece.headless else None
    limit = outer - 0.5 if outer else (across or 0) * ROUND_FLATS
    wrench = _largest(piece, lambda size: size <= limit + 1e-9, metric=True)
    whole = outer or (piece.facts.thread.nominal_mm if piece.headless else across)
    if wrench and whole:
        deep = (whole - wrench) / 2
        yield Size("flats", wrench, (wrench,), *PRACTICE)
        yield Size("flats_deep", deep, (deep,), *PRACTICE)


def _largest(piece: Piece, fits: Callable[[float], bool], metric: bool = False) -> float | None:
    found = (
        row.across_flats_mm
        for row in piece.facts.drives
        if row.system == "hexagon" and row.across_flats_mm and fits(row.across_flats_mm)
        if not metric or row.id.endswith("mm")
    )
    return max(found, default=None)


def _two_nuts(method: str, piece: Piece) -> Iterator[Size]:
    size = piece.facts.thread.size
    for other, head in piece.stock.nuts:
        if other.size == size and head.head_height_mm:
            high = 2 * head.head_height_mm
            yield Size("two_nuts", high, (size, high), head.source, head.checked)


def _near(method: str, piece: Piece) -> Iterator[Size]:
    """Yield what bites in or on the worn drive, by the tightest that still goes on."""
    drive = piece.facts.drive
    if drive is None or (method == "next-size-socket" and not drive.external):
        return
    rows: dict[str, Drive] = {row.id: row for row in piece.facts.drives}
    for fit in near_fits(drive, piece.facts.drives)[:NEAR_SHOWN]:
        row = rows[fit.drive]
        mm = row.across_flats_mm or row.across_points_mm
        yield Size("near", mm, (fit.drive, -fit.play_mm, fit.how), row.source, row.checked)


def _over_head(method: str, piece: Piece) -> Iterator[Size]:
    """Yield the socket that is driven over: the own hexagon's, or over a round head the next."""
    drive, across = piece.facts.drive, piece.across
    if drive and drive.external and not drive.across_flats_mm:
        across = drive.across_points_mm  # lobes: the hexagon next below their points
    elif drive and drive.external:
        if method == "gripping-socket" and drive.across_flats_mm:
            mm = drive.across_flats_mm
            yield Size("biting", mm, (drive.id,), *PRACTICE)
        return
    if across is None:
        return
    mm = _largest(piece, lambda size: OVER_LEAST_MM <= across - size <= OVER_MOST_MM) or 0.0
    ids = [r.id for r in piece.facts.drives if r.system == "hexagon" and r.across_flats_mm == mm]
    if ids:
        yield Size("over_head", mm, (ids[0], across), *PRACTICE)


def _bar(method: str, piece: Piece) -> Iterator[Size]:
    held = piece.facts.bench.get("held_pull") * piece.shank_nmm
    bar = BAR_MM if held / BAR_MM <= TWO_HANDS_N else LONG_BAR_MM
    yield Size("bar_pull", None, (held / bar, bar), *PRACTICE)


Part = Callable[[str, Piece], Iterator[Size]]
SLOTS: tuple[Part, ...] = (_slot,)
PARTS: Mapping[str, tuple[Part, ...]] = {
    "left-hand-drill": (_sleeve, _pilot, _left_drill, _deep, _off_centre),
    "right-hand-drill": (_sleeve, _pilot, _left_drill, _deep, _off_centre),
    "spiral-extractor": (_sleeve, _pilot, _spiral, _deep, _off_centre),
    "straight-extractor": (_sleeve, _pilot, _straight, _deep, _off_centre),
    "cut-slot-handsaw": SLOTS,
    "cut-slot-blade": SLOTS,
    "cut-slot-oscillating": SLOTS,
    "cut-slot-disc": SLOTS,
    "drill-head-off": (_head_off,),
    "drill-out-retap": (_sleeve, _pilot, _drill_out),
    "weld-nut": (_weld,),
    "induction-heat": (_heat,),
    "flame-heat": (_heat,),
    "iron-heat": (_heat,),
    "warm-host": (_grows,),
    "chill-spray": (_grows,),
    "file-flats": (_flats,),
    "stud-grip": (_two_nuts,),
    "oversize-bit": (_near,),
    "next-size-socket": (_near, _over_head),
    "gripping-socket": (_over_head,),
    "steady-bar": (_bar,),
}
