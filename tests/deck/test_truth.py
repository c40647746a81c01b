"""Key drawings of the deck measured on paper against geometry worked out here."""

import io
import re
from math import cos, pi, radians

import pdfplumber
import pytest

from fastkit.deck import pdf, sheet
from fastkit.deck.card import Card, Drawing
from fastkit.records.drive import Drive
from fastkit.records.galvanic import AnodicIndex, Environment, Metal
from fastkit.records.ground import GroundNote
from fastkit.records.head import Head
from fastkit.records.recess import RecessDim
from fastkit.records.thread import Thread
from fastkit.reference.lookup import many, one
from tests.deck.test_print import ink

MM = 25.4 / 72
WITHIN = 0.1  # mm
LEFT, TOP = 5.2, 13.8  # of a sleeve-sized card's body
G = sheet.grid("sleeve", "a4")


def only(cards, id, face, which=0):
    """One drawing of a card by itself on a sheet, as PDF."""
    card = next(c for c in cards if c.id == id)
    drawing = [b for b in getattr(card, face) if isinstance(b, Drawing)][which]
    return pdf.pdf_bytes([Card("one", "gauge", "One", "?", (), (), (drawing,), number=1)], "0")


def shapes(data):
    """Filled and stroked outlines of the card's body: width, height in mm, filled or not."""
    with pdfplumber.open(io.BytesIO(data)) as document:
        page = document.pages[0]
        left, top = G.left_mm + LEFT, G.top_mm + TOP
        return [
            ((c["x1"] - c["x0"]) * MM, (c["bottom"] - c["top"]) * MM, bool(c["fill"]))
            for c in (*page.curves, *page.rects)
            if (c["x1"] - c["x0"]) * MM < 54.8
            and left - 0.2 < c["x0"] * MM < left + 55
            and top - 0.2 < c["top"] * MM < top + 67
        ]


def run(image, mm, x, y):
    """Length in mm of the dark run through a point, left to right."""
    row = image.crop((0, round(y / mm), image.width, round(y / mm) + 1)).load()
    at = round(x / mm)
    assert row[at, 0] < 128
    low = high = at
    while row[low - 1, 0] < 128:
        low -= 1
    while row[high + 1, 0] < 128:
        high += 1
    return (high - low + 1) * mm


@pytest.mark.parametrize(("face", "unit"), [("front", "mm"), ("back", "in")])
def test_stairs_are_as_wide_as_the_flats(cards, store, face, unit):
    """Each step of the stairs, on the raster at 600 dpi, is its hexagon across flats."""
    card = next(c for c in cards if c.id == "gauge-across-flats")
    wanted = [
        one(store, Drive, id=e.removeprefix("drive:")).across_flats_mm
        for e in card.entries
        if e.endswith(unit)
    ]
    image, mm = ink(only(cards, card.id, face))
    x = G.left_mm + LEFT + 54.9 / 2
    measured = [run(image, mm, x, G.top_mm + TOP + 3.9 * (k + 0.5)) for k in range(len(wanted))]

    assert 15 == len(wanted)
    assert wanted == pytest.approx(measured, abs=WITHIN)


@pytest.mark.parametrize("face", ["front", "back"])
def test_rings_are_as_wide_inside_as_the_points(cards, store, face):
    """The inner edge of each ring is A of its external hexalobular head."""
    data = only(cards, "gauge-external-hexalobular", face)
    wide = sorted(w for w, _, filled in shapes(data) if not filled)
    card = next(c for c in cards if c.id == "gauge-external-hexalobular")
    points = [one(store, Drive, id=e.removeprefix("drive:")).across_points_mm for e in card.entries]
    wanted = sorted(p for p in points if (p < 12) == (face == "front"))

    assert wanted == pytest.approx([w - 0.5 for w in wide], abs=WITHIN)


@pytest.mark.parametrize(("face", "series"), [("front", "coarse"), ("back", "UNC")])
def test_steps_are_as_wide_as_the_threads(cards, store, face, series):
    """The black steps measure the major diameters."""
    card = next(c for c in cards if c.id == "thread-diameter")
    wanted = sorted(
        t.nominal_mm
        for e in card.entries
        if (t := one(store, Thread, id=e.removeprefix("thread:"))).series == series
    )
    wide = sorted(w for w, h, _ in shapes(only(cards, card.id, face)) if abs(h - 8.5) < 0.05)

    assert 12 == len(wide)
    assert wanted == pytest.approx(wide, abs=WITHIN)


def test_crosses_span_what_the_standard_says(cards, store):
    """Wings of each cross reach m, the rim of each head is dk (ISO 7045)."""
    found = shapes(only(cards, "gauge-cross", "front"))
    sizes = ("M2", "M3", "M4", "M5", "M6", "M8", "M10")
    spans = [
        one(
            store, RecessDim, standard="ISO 7045", size=s, system="cross-h", dimension="diameter"
        ).value_mm
        for s in sizes
    ]
    rims = [one(store, Head, standard="ISO 7045", size=s).head_diameter_mm for s in sizes]

    assert spans == pytest.approx(sorted(w for w, _, filled in found if filled), abs=WITHIN)
    assert rims == pytest.approx(sorted(w for w, _, filled in found if not filled), abs=WITHIN)


def test_blades_are_as_wide_and_thick_as_they_say(cards):
    """Each bar of the slot gauge is a blade end on: width by thickness (ISO 2380-1)."""
    found = shapes(only(cards, "gauge-square-slot", "back"))
    blades = [(2, 0.4), (3, 0.5), (4, 0.8), (5.5, 1.0), (6.5, 1.2), (8, 1.2), (8, 1.6)]
    blades += [(10, 1.6), (12, 2.0), (14, 2.5)]
    measured = sorted((w, h) for w, h, filled in found if filled)

    assert len(blades) == len(measured)
    for wanted, (wide, thick) in zip(sorted(blades), measured, strict=True):
        assert wanted == pytest.approx((wide, thick), abs=0.05)


def test_squares_are_as_wide_as_the_recess(cards, store):
    """Each black square measures the flats of its recess, at most (ASME B18.6.3)."""
    found = shapes(only(cards, "gauge-square-slot", "front"))
    wanted = [one(store, Drive, id=f"SQ{n}").across_flats_max_mm for n in range(5)]

    assert wanted == pytest.approx(sorted(w for w, _, filled in found if filled), abs=WITHIN)


def test_the_scale_of_metals_is_thirty_millimetres_a_volt(cards, store):
    """Ticks stand apart as the indices do; the gap bars are what an environment stands."""
    card = next(c for c in cards if c.id == "galvanic")
    drawing = next(b.svg for b in card.front if isinstance(b, Drawing))
    at = dict(re.findall(r'data-metal="([a-z0-9-]+)" data-y="([\d.]+)"', drawing))
    indices = {i.id: i.index_v for i in many(store, AnodicIndex)}
    places = {m.id: indices[m.anodic_index] for m in many(store, Metal) if m.id in at}
    base = places["stainless"] * 30 - float(at["stainless"])
    bars = sorted(
        h for w, h, filled in shapes(only(cards, "galvanic", "front")) if filled and 1.5 < w < 2.5
    )

    assert {"aluminium", "steel", "stainless", "brass", "zinc-plated", "magnesium"} <= set(at)
    for metal, index in places.items():
        assert index * 30 - base == pytest.approx(float(at[metal]), abs=0.01), metal
    wanted = sorted(e.limit_v * 30 for e in many(store, Environment))
    assert wanted == pytest.approx(bars, abs=WITHIN)


def test_the_ground_joint_is_stacked_as_the_note_says(cards, store):
    """From the body outward: body, lug, toothed washer, nut, each with its word."""
    card = next(c for c in cards if c.id == "ground-joint")
    drawing = next(b.svg for b in card.front if isinstance(b, Drawing))
    parts = re.findall(r'data-part="([a-z ]+)" data-y="([\d.]+)"', drawing)
    upward = [name for name, y in sorted(parts, key=lambda p: -float(p[1]))]
    note = next(
        n.text for n in many(store, GroundNote, joint="vehicle-ground", topic="stack")
    ).partition(";")[0]

    assert [w.strip().lower() for w in note.split(",")] == upward
    for name in upward:
        assert f">{name}" in drawing


def test_a_quarter_of_an_a4_edge_is_on_the_verify_card(cards):
    """ISO 216: 210 mm folded twice is 52.5 mm, drawn as a bar beside the other two."""
    card = next(c for c in cards if c.id == "verify-the-print")
    found = [
        max(w for w, _, _ in shapes(only(cards, card.id, "front", n)))
        for n in range(sum(isinstance(b, Drawing) for b in card.front))
    ]

    assert [50.0, 50.8, 52.5] == pytest.approx(sorted(found), abs=WITHIN)


def test_a_triple_square_has_twelve_points_of_ninety_degrees(cards):
    """Rays from the middle: 6 mm out at every 30 degrees, cos 45 / cos 30 of it between."""
    from fastkit.deck.drawings import svg
    from fastkit.deck.profiles import star

    black = f'<path d="{star(12, (10, 10))}" fill="#000"/>'
    data = pdf.pdf_bytes(
        [Card("s", "gauge", "S", "?", (), (), (Drawing(svg(20, 20, "star", black)),), number=1)],
        "0",
    )
    image, mm = ink(data)
    pixels = image.load()
    cx, cy = G.left_mm + LEFT + 54.9 / 2, G.top_mm + TOP + 10
    for k in range(24):
        angle, reach = radians(15 * k), 0
        while (
            pixels[
                round((cx + reach * mm * cos(angle)) / mm),
                round((cy + reach * mm * cos(angle - pi / 2)) / mm),
            ]
            < 128
        ):
            reach += 1
        wanted = 6.0 if k % 2 == 0 else 6.0 * cos(pi / 4) / cos(pi / 4 - pi / 12)
        assert wanted == pytest.approx(reach * mm, abs=WITHIN), 15 * k


def copied(image):
    """What a poor photocopier makes of a page: coarser, softer, then black or white."""
    from PIL import ImageFilter

    small = image.resize((image.width // 2, image.height // 2))
    soft = small.filter(ImageFilter.GaussianBlur(1.2))
    return soft.point(lambda v: 255 * (v > 150)).resize(image.size)


def test_a_copy_of_a_copy_can_be_read(printed):
    """After two generations every tick of the rulers and the letters' ink is still there."""
    image, mm = ink(printed, dpi=400)
    twice = copied(copied(image))
    x = G.left_mm + 1.45
    first, second = (
        sum(
            im.load()[round(x / mm), y] < 128 <= im.load()[round(x / mm), y - 1]
            for y in range(round((G.top_mm + 13) / mm), round((G.top_mm + 84) / mm))
        )
        for im in (image, twice)
    )
    assert first >= 60
    assert second >= 0.95 * first
    box = tuple(round(v / mm) for v in (G.left_mm, G.top_mm, G.left_mm + 190, G.top_mm + 266))
    dark = [sum(im.crop(box).histogram()[:128]) for im in (image, twice)]
    assert 0.75 < dark[1] / dark[0] < 1.6


def test_no_letter_is_too_small(opened):
    """Nothing but the rulers' own figures is set below five points, nothing below 4.4."""
    for page in opened.pages:
        for c in page.chars:
            x = (c["x0"] * MM - G.left_mm) % 63.5
            assert c["size"] >= (4.4 if x < 4 else 4.99), c["text"]


def test_a_back_a_millimetre_off_still_lies_on_its_card(opened):
    """Printers miss by a millimetre: no word of a back but the ruler's stands nearer to a cut."""
    for page in opened.pages[1::2]:
        for c in page.chars:
            x, y = (c["x0"] * MM - G.left_mm) % 63.5, (c["top"] * MM - G.top_mm) % 88.9
            right, low = (c["x1"] * MM - G.left_mm) % 63.5, (c["bottom"] * MM - G.top_mm) % 88.9
            assert 1.0 < y and low < 87.9, c["text"]
            assert (1.0 < x or c["size"] < 5) and right < 62.5, c["text"]
