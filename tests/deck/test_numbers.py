"""Numbers on paper: taken out of the PDF's text again, and held against data and formulas."""

import re
from functools import cache
from math import cos, radians

import pytest

from fastkit.answers.torque import torque
from fastkit.deck import sheet
from fastkit.deck.card import Figures, Steps, Table
from fastkit.records.drilling import DrillOut
from fastkit.records.drive import Drive
from fastkit.records.head import Head
from fastkit.records.thread import Thread
from fastkit.records.washer import Washer
from fastkit.reference.lookup import many, one

MM = 25.4 / 72
NOT_NAMED_BY_THREAD = {"Drive", "DriveTorque", "CrossTip", "DrivePin"}


@pytest.fixture(scope="session")
def faces(opened, cards):
    """Words of each face as they stand in the PDF, by card id and side."""
    g = sheet.grid("sleeve", "a4")
    found = {}
    each = g.columns * g.rows
    for n, card in enumerate(cards):
        row, column = divmod(n % each, g.columns)
        for back in (False, True):
            page = opened.pages[n // each * 2 + back]
            x = g.columns - 1 - column if back else column
            left, top = g.left_mm + x * g.card_mm[0], g.top_mm + row * g.card_mm[1]
            box = (left, top, left + g.card_mm[0], top + g.card_mm[1])
            inside = page.crop(tuple(v / MM for v in box))
            text = inside.extract_text(x_tolerance=1.2) or ""
            found[card.id, back] = text
    return found


@pytest.fixture(scope="session")
def lines(opened, cards):
    """Letters of each face by their base line, spaces left out, by card id and side."""
    g = sheet.grid("sleeve", "a4")
    found = {}
    for number, page in enumerate(opened.pages):
        for c in page.chars:
            column = int((c["x0"] * MM - g.left_mm) // g.card_mm[0])
            row = int((c["bottom"] * MM - g.top_mm) // g.card_mm[1])
            back = number % 2 == 1
            place = number // 2 * 9 + row * 3 + (2 - column if back else column)
            if 0 <= column < 3 and place < len(cards) and c["text"].strip():
                base = round(c["matrix"][5] * 2)
                face = found.setdefault((cards[place].id, back), {})
                face.setdefault(base, []).append((c["x0"], c["text"]))
    return {
        face: ["".join(text for _, text in sorted(held)) for held in by_base.values()]
        for face, by_base in found.items()
    }


def test_each_row_stands_on_its_own_line_of_the_paper(lines, cards):
    """The numbers of a table's row are read off the PDF on one base line, in their order."""
    lost, checked = [], 0
    for card in cards:
        for back, row, cell in cells(card):
            if cell is not row[0]:
                continue
            numbers = [
                re.escape("".join(c.text.split()[: 1 if c is row[0] else None]))  # names wrap
                for c in row
                if re.search(r"\d", c.text) and len(c.text) < 18 and c.look != "note"
            ]
            if not numbers:
                continue
            pattern = ".*".join(numbers)
            checked += len(numbers)
            if not any(re.search(pattern, line) for line in lines[card.id, back]):
                lost.append((card.id, back, [c.text for c in row]))
    assert [] == lost
    assert checked > 2000


def cells(card):
    """Every cell with the side and the row it stands in."""
    for back in (False, True):
        for block in card.back if back else card.front:
            if isinstance(block, Table):
                for row in block.rows:
                    for cell in row:
                        yield back, row, cell


def test_what_a_card_says_can_be_taken_out_again(faces, cards):
    """Each number in a table, figure or step is found in the text of its face of the PDF."""
    lost = []
    for card in cards:
        wanted = [(back, cell.text) for back, _, cell in cells(card)]
        for back, blocks in ((False, card.front), (True, card.back)):
            for block in blocks:
                if isinstance(block, Figures):
                    wanted += [(back, f.value) for f in block.items]
                if isinstance(block, Steps):
                    wanted += [(back, f"{s.title} {s.text}") for s in block.items]
        for back, text in wanted:
            there = re.sub(r"\s", "", faces[card.id, back])
            for token in text.split():
                if any(c.isdigit() for c in token) and token not in there:
                    lost.append((card.id, back, token))
    assert [] == lost


def test_every_number_is_its_row_and_field(cards, store):
    """What a cell says it prints is in the data now, and is what it prints."""

    @cache
    def held(kind):
        return set(many(store, kind))

    checked = 0
    for card in cards:
        for _, _, cell in cells(card):
            if cell.of is None:
                continue
            row, field, factor = cell.of
            assert row in held(type(row)), (card.id, row)
            whole, part, over = re.match(r"(?:(\d+)-)?(-?[\d.]+)(?:/(\d+))?", cell.text).groups()
            number = float(whole or 0) + float(part) / float(over or 1)
            assert getattr(row, field) * factor == pytest.approx(number, rel=0.03, abs=0.006)
            decimals = 3 if over else len(cell.text.partition(".")[2])
            assert abs(getattr(row, field) * factor - number) <= 0.51 * 10**-decimals
            checked += 1
    assert checked > 400


def test_numbers_stand_in_the_row_of_their_thread(cards):
    """A row that begins with a thread holds numbers of records that name that thread."""
    checked = 0
    for card in cards:
        for _, row, cell in cells(card):
            name = row[0].text
            if cell.of is None or not re.match(r"(M\d|#\d|\d+/\d+-\d)", name):
                continue
            record = cell.of[0]
            if type(record).__name__ in NOT_NAMED_BY_THREAD or cell is not row[1]:
                continue
            words = {str(v) for v in record if isinstance(v, str)}
            keys = {w.removesuffix("-UNC").removesuffix("-UNF") for w in words}
            sizes = {w.partition("x")[0] for w in words}
            assert name in keys | sizes | words, (card.id, name, record)
            checked += 1
    assert checked > 60


def table(cards, id, face="front"):
    """Rows of the first table of a face, as texts."""
    card = next(c for c in cards if c.id == id)
    found = next(b for b in getattr(card, face) if isinstance(b, Table))
    return [[c.text for c in row] for row in found.rows]


def test_heat_opens_as_expansion_says(cards, store):
    """Gap = d (alpha_hole - alpha_pin) dT: aluminium 21.5e-6, steel 11.7e-6 per K."""
    for size, body, nut in table(cards, "heat-gap"):
        d = one(store, Thread, size=size, series="coarse").nominal_mm
        assert d * (21.5e-6 - 11.7e-6) * 100 == pytest.approx(float(body), abs=0.0006)
        assert d * 11.7e-6 * 300 == pytest.approx(float(nut), abs=0.0006)


def test_adapter_is_the_lever_rule(cards):
    """Setting over torque is L / (L + A)."""
    for adapter, *factors in table(cards, "wrench-adapter"):
        for wrench, factor in zip((250, 400, 600), factors, strict=True):
            assert wrench / (wrench + float(adapter)) == pytest.approx(float(factor), abs=6e-4)
    assert cos(radians(45)) == pytest.approx(0.71, abs=0.005)  # as its back says


def test_length_is_washer_nut_and_two_pitches(cards, store):
    """Each sum, by ISO 7089, ISO 4032 and the pitch."""
    for size, add, *_ in table(cards, "length-rule"):
        washer = one(store, Washer, standard="ISO 7089", size=size).thickness_mm
        nut = one(store, Head, standard="ISO 4032", size=size).head_height_mm
        pitch = one(store, Thread, size=size, series="coarse").pitch_mm
        assert washer + nut + 2 * pitch == pytest.approx(float(add), abs=0.051)


def test_drills_are_those_of_the_data(cards, store):
    """Pilot, left-hand, spiral and through drill of each thread, mm in front, inch behind."""
    purposes = ("pilot", "left-hand-drill", "spiral-extractor", None, "drill-out")
    for face, per in (("front", 1.0), ("back", 25.4)):
        for name, *shown in table(cards, "drills-extractors", face):
            key = one(store, Thread, size=name, series="coarse").id if per == 1 else f"{name}-UNC"
            for purpose, text in zip(purposes, shown, strict=True):
                if purpose and text != "none":
                    row = one(store, DrillOut, thread=key, purpose=purpose)
                    assert row.drill_mm == pytest.approx(float(text) * per, abs=0.013)


def test_a_nut_to_weld_goes_over_its_stub(cards, store):
    """Its hole is at least 95 % of the stub, its wrench that of ISO 4032, its break `torque`'s."""
    for stub, nut, wrench, breaks, _ in table(cards, "weld-nuts"):
        thread = one(store, Thread, size=stub, series="coarse")
        over = one(store, Thread, size=nut, series="coarse")
        head = one(store, Head, standard="ISO 4032", size=nut)
        flats = one(store, Drive, id=head.drive).across_flats_mm
        assert over.minor_mm >= 0.95 * thread.nominal_mm
        assert flats == float(wrench)
        answer = torque(thread.id, "8.8", store=store)
        assert answer.breaking_torque_nm == pytest.approx(float(breaks), rel=0.006)


def test_near_wrenches_are_the_nearest(cards, store):
    """No other wrench of the other system lies nearer, and the play is the difference."""
    drives = [d for d in many(store, Drive, system="hexagon") if "." not in d.id or "mm" in d.id]
    for face, own, other in (("front", "mm", "in"), ("back", "in", "mm")):
        for name, nearest, _, play in table(cards, "near-wrenches", face):
            mine = one(store, Drive, id=f"AF-{name}{own}").across_flats_mm
            gaps = {
                d.size.split()[0]: d.across_flats_mm - mine for d in drives if d.id.endswith(other)
            }
            assert min(map(abs, gaps.values())) == pytest.approx(abs(gaps[nearest]))
            assert gaps[nearest] == pytest.approx(float(play.split()[0]), abs=0.006)


def test_units_by_their_definitions(cards):
    """1 lbf = 4.4482216152605 N, 1 in = 25.4 mm: every pair on the cards."""
    lbft = 4.4482216152605 * 0.3048
    for face, factor in (("front", 1 / lbft), ("back", lbft)):
        for row in table(cards, "units-torque", face):
            for a, b in (row[:2], row[2:]):
                assert float(a) * factor == pytest.approx(float(b), rel=0.006)
    for face in ("front", "back"):
        for row in table(cards, "units-length", face):
            for a, b in (row[:2], row[2:]):
                top, _, bottom = a.partition("/")
                assert float(top) / float(bottom or 1) * 25.4 == pytest.approx(float(b), abs=0.0051)
