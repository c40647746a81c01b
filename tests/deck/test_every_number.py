"""
No number without its reason: each cell names its row, or is worked out here from data and API.

What stands in the first column names the line; `BY_ANOTHER` says which test holds the rest.
"""

import re
from decimal import ROUND_HALF_UP, Decimal

import pytest

from fastkit.answers.extract import extract
from fastkit.answers.near import near
from fastkit.answers.order import tightening_order
from fastkit.answers.torque import torque
from fastkit.deck import cards_emergency
from fastkit.deck.card import Drawing, Figures, Steps, Table
from fastkit.records.compound import CompoundLimit, LockerStrength
from fastkit.records.drilling import DrillOut
from fastkit.records.drive import Drive
from fastkit.records.grade import GradePair, GradeRow, NutRow
from fastkit.records.head import Head
from fastkit.records.method import Method, Variant
from fastkit.records.recess import RecessDim
from fastkit.records.thread import Insert, TapDrill, Thread
from fastkit.records.tube import Tube, TubeNutHex, TubeTorque
from fastkit.records.washer import Washer
from fastkit.reference.lookup import get, many, one

LBFT = 4.4482216152605 * 0.3048  # N·m
KSI = 6.894757293168  # MPa

BY_ANOTHER = {  # card: the test that works out its numbers
    "heat-gap": "test_heat_opens_as_expansion_says",
    "wrench-adapter": "test_adapter_is_the_lever_rule",
    "near-wrenches": "test_near_wrenches_are_the_nearest",
    "units-torque": "test_units_by_their_definitions",
    "units-length": "test_units_by_their_definitions",
    "torque-": "test_torque_cards_say_what_torque_answers",
    "sources": "test_every_entry_and_source_is_held",
    "tube-nuts": "test_tube_nuts_are_their_rows",
}
PROSE = {"look-alikes": (0, 3), "flares": (0, 1)}
"""Columns that hold names of threads or words about them."""


def near_keys(line, store):
    """Nearest fits and their play, as `near` answers."""
    key = line[0] if line[0].startswith("T") else f"hex-{line[0]}mm"
    fits = near(key, store=store).fits[:2]
    said = [line[0]]
    for fit in fits:
        name = fit.id.removeprefix("drive:").removeprefix("hex-")
        said += [re.sub(r"(in|mm)$", r" \1", name), f"{fit.play_mm:+.2f}"]
    return said


def fahrenheit(line, store):
    """Degrees Celsius in Fahrenheit, whole."""
    if not line[-1].endswith("°F"):
        return [None] * len(line)
    return [None, None, f"{round(float(line[1]) * 9 / 5 + 32):d} °F"]


def extractor(line, store):
    """The spiral extractor that goes into the hole."""
    metric = line[0].startswith("M")
    key = one(store, Thread, size=line[0], series="coarse").id if metric else f"{line[0]}-UNC"
    row = one(store, DrillOut, thread=key, purpose="spiral-extractor")
    return [None, None, None, None, f"no. {row.extractor.removeprefix('spiral-')}", None]


def weld_nut(line, store):
    """Wrench of the nut, breaking torque of the stub in both units."""
    thread = one(store, Thread, size=line[0], series="coarse")
    breaks = torque(thread.id, "8.8", store=store).breaking_torque_nm
    return [line[0], line[1], None, f"{breaks:.3g}", f"{breaks / LBFT:.3g}"]


def order(line, store):
    """Numbers round the circle."""
    return [line[0], "-".join(map(str, tightening_order(int(line[0]), "circle").sequence))]


def length(line, store):
    """Washer, nut, two pitches and their sum."""
    thread = one(store, Thread, size=line[0], series="coarse")
    parts = (
        one(store, Washer, standard="ISO 7089", size=line[0]).thickness_mm,
        one(store, Head, standard="ISO 4032", size=line[0]).head_height_mm,
        2 * thread.pitch_mm,
    )
    inch = f"{sum(parts) / 25.4:.3f}".lstrip("0")
    return [line[0], f"{sum(parts):.1f}", inch, " + ".join(f"{p:g}" for p in parts)]


def locker(line, store):
    """Breakaway of an M10 and the temperature it serves to."""
    key = f"threadlocker-{line[0]}"
    s = one(store, LockerStrength, compound=key, bolt="M10")
    limit = one(store, CompoundLimit, compound=key, what="service to")
    low, high = s.breakaway_min_nm, s.breakaway_max_nm
    return [
        line[0],
        f"{low:g}-{high:g}",
        f"{low / LBFT:.0f}-{high / LBFT:.0f}",
        f"{limit.temperature_degc:g}",
    ]


def nut(line, store):
    """The bolt that a nut goes with."""
    found = [k for k in (f"nut-{line[0]}", f"nut-SAE-{line[0]}") if one(store, GradePair, grade=k)]
    mates = [one(store, GradePair, grade=k).mate.removeprefix("SAE-") for k in found]
    return [line[0], line[1] if line[1] in mates else mates, None]


def named_drill(line, store):
    """An inch drill by its trade name; a metric one is a number with its row."""
    if line[0].startswith("M"):
        return [None] * len(line)
    series = next(s for s in ("-UNC", "-UNF", "") if one(store, TapDrill, thread=line[0] + s))
    name = one(store, TapDrill, thread=line[0] + series).drill_name
    return [line[0], name or None, *[None] * (len(line) - 2)]


def named_insert(line, store):
    """An insert's inch drill by its trade name."""
    key = next(k for s in ("", "-UNC", "-UNF") if one(store, Insert, id=(k := line[0] + s)))
    return [
        line[0],
        None if key.startswith("M") else get(store, Insert, key).drill_name,
        None,
        None,
    ]


def slot(line, store):
    """The screws whose slot a blade fills: at least as wide, by less than 0.1 mm."""
    if len(line) > 2:
        return [None] * len(line)
    widths = many(store, RecessDim, standard="ISO 1207", system="slot", dimension="slot_width")
    return [line[0], " ".join(w.size for w in widths if 0 <= w.low_mm - float(line[0]) < 0.1)]


def index(line, store):
    """Numbers of cards are looked at by themselves."""
    return line


WORKED_OUT = {
    "near-keys": near_keys,
    "heat-limits": fahrenheit,
    "flash-points": fahrenheit,
    "drills-extractors": extractor,
    "weld-nuts": weld_nut,
    "slots": slot,
    "order-circles": order,
    "length-rule": length,
    "lockers": locker,
    "nut-for-bolt": nut,
    "drills-metric": named_drill,
    "drills-inch": named_drill,
    "cut-taps": named_drill,
    "inserts": named_insert,
    "index": index,
}


def rows(card):
    """Every line of every table with its cells."""
    for block in (*card.front, *card.back):
        if isinstance(block, Table):
            yield from block.rows


def test_every_cell_with_a_digit_has_its_reason(cards, store):
    """Row and field, or worked out here, or by the test named: no other cell holds a digit."""
    bare = []
    for card in cards:
        known = card.id in WORKED_OUT or any(card.id.startswith(k) for k in BY_ANOTHER)
        for row in rows(card):
            for place, cell in enumerate(row):
                named = place == 0 or place in PROSE.get(card.id, ())
                if re.search(r"\d", cell.text) and not (cell.of or named or known):
                    bare.append((card.id, cell.text))
    assert [] == bare


@pytest.mark.parametrize("id", sorted(set(WORKED_OUT) - {"index"}))
def test_cells_are_what_is_worked_out(cards, store, id):
    """Each line says what API and data say; where nothing is expected the cell has its row."""
    card = next(c for c in cards if c.id == id)
    lines = 0
    for row in rows(card):
        wanted = WORKED_OUT[id]([c.text for c in row], store)
        for place, (text, cell) in enumerate(zip(wanted, row, strict=False)):
            if text is None:
                assert cell.of or place == 0 or not re.search(r"\d", cell.text), cell.text
            else:
                assert text == cell.text, (id, row[0].text)
        lines += 1
    assert lines >= 3


FLARES = {  # as the card of flares draws and calls them
    "bubble": "iso",
    "37° double": "jis",
    "inverted": "inverted",
    "37° single": "flare-37",
}


def test_tube_nuts_are_their_rows(cards, store):
    """Under each flare its tubes: thread, usual wrench and other, span of torques in both units."""
    card = next(c for c in cards if c.id == "tube-nuts")
    seen = []
    for block in (*card.front, *card.back):
        if not isinstance(block, Table):
            continue
        unit, flare = block.heads[0].removeprefix("tube "), ""
        for row in block.rows:
            if len(row) == 1:
                flare = row[0].text.removesuffix(" flare")
                continue
            size, thread, wrench, other, nm, pounds = row
            tube = get(store, Tube, f"{size.text}{unit}-{FLARES[flare]}")
            widths = [h.hexagon.removesuffix(unit) for h in many(store, TubeNutHex, tube=tube.id)]
            torques = many(store, TubeTorque, tube=tube.id)
            ends = sorted(
                {min(t.torque_min_nm for t in torques), max(t.torque_max_nm for t in torques)}
            )
            assert [tube.thread, widths[0]] == [thread.text, wrench.text]
            assert ["or " + width for width in widths[1:]] == [other.text] * bool(other.text)
            assert "-".join(f"{end:g}" for end in ends) == nm.text
            assert "-".join(f"{end / LBFT:.0f}" for end in ends) == pounds.text
            seen.append(tube.id)
    assert len(set(seen)) == len(seen) == 14


def test_the_index_sends_to_the_right_card(cards):
    """Every number of the index stands beside the title of the card of that number."""
    titles = {str(c.number): c.title for c in cards}
    seen = 0
    for row in rows(cards[0]):
        for number, title in zip(row[::2], row[1::2], strict=True):
            if number.text:
                assert titles[number.text].startswith(title.text.rstrip("…"))
                seen += 1
    assert seen >= len(cards) - 8


@pytest.mark.parametrize("case", cards_emergency.CASES, ids=lambda case: case.id)
def test_tools_and_room_are_the_plans(case, cards, store):
    """Each step of a front names the tool of that move; the room drawn is told in inches too."""
    card = next(c for c in cards if c.id == case.id)
    tried: list[str] = []
    for step in next(b for b in card.front if isinstance(b, Steps)).items[:-1]:
        move = extract("", store=store, tried=tuple(tried), **case.options).plan[0]
        variant = one(store, Variant, method=move.method, id=move.variant or "")
        assert variant is None or variant.title[:20] in step.text
        tried.append(move.method)
    drawing = next(b for b in card.front if isinstance(b, Drawing))
    inches = re.findall(r"([\d.]+) in", drawing.caption)
    mm = re.findall(r">(\d+)</text>", drawing.svg)
    assert [f"{int(v) / 25.4:.1f}" for v in mm[:2]] == inches[: len(mm[:2])]


@pytest.mark.parametrize(
    ("id", "field"),
    [
        ("gauge-hexalobular", "across_points_mm"),
        ("gauge-external-hexalobular", "across_points_mm"),
        ("gauge-hex-socket", "across_flats_mm"),
        ("gauge-across-flats", "across_flats_mm"),
    ],
)
def test_figures_in_gauges_are_those_of_the_drives(cards, store, id, field):
    """Beside each silhouette stands the dimension of its row, in mm or in inches."""
    card = next(c for c in cards if c.id == id)
    drawn = " ".join(b.svg for b in (*card.front, *card.back) if isinstance(b, Drawing))
    said = re.findall(r">([^<>]+)</text>", drawn)
    for entry in card.entries:
        drive = get(store, Drive, entry.removeprefix("drive:"))
        if drive.id.endswith("-tamper"):
            continue
        mm = getattr(drive, field)
        hundredth = Decimal(str(mm)).quantize(Decimal("0.01"), ROUND_HALF_UP)
        forms = {f"{mm:g}", str(hundredth), f"{mm / 25.4:.3f}".lstrip("0")}
        assert forms & set(said), drive.id


@pytest.mark.parametrize("id", ["marks-metric", "marks-inch"])
def test_strengths_below_the_marks_are_the_least(cards, store, id):
    """Least tensile strength, of nuts least proof stress, over all sizes, MPa and ksi."""
    card = next(c for c in cards if c.id == id)
    drawn = " ".join(b.svg for b in (*card.front, *card.back) if isinstance(b, Drawing))
    said = re.findall(r">([^<>]+)</text>", drawn)
    for entry in card.entries:
        key = entry.removeprefix("grade:")
        values = [n.proof_mpa for n in many(store, NutRow, grade=key)]
        values = values or [g.tensile_min_mpa for g in many(store, GradeRow, grade=key)]
        assert f"{min(values):.0f}, {min(values) / KSI:.0f} ksi" in said, key


def test_the_first_gates_take_their_minutes(cards, store):
    """Back of the first card: about so many minutes as the method's row."""
    card = next(c for c in cards if c.id == "before-the-first-pull")
    steps = next(b for b in card.back if isinstance(b, Steps)).items
    minutes = [get(store, Method, e.removeprefix("method:")).minutes for e in card.entries]

    assert [f"about {m:g} min" for m in minutes] == [s.text for s in steps]


def test_large_figures_are_worked_out(cards, store):
    """The heat for 0.02 mm on M8; an ID-1 card; a folded sheet; a bar."""
    figures = {
        c.id: [f.value for b in (*c.front, *c.back) if isinstance(b, Figures) for f in b.items]
        for c in cards
    }
    alpha = 11.7e-6  # steel, per K

    assert f"{0.02 / (8 * alpha):.0f}" in figures["heat-gap"]
    assert {"50.0", f"{210 / 4:g}", "85.60", "53.98"} == set(figures["verify-the-print"])
    assert {"heat-gap", "verify-the-print"} == {id for id, held in figures.items() if held}
