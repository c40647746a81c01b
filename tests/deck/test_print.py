"""The PDF measured: edges, bars, silhouettes, text, fonts, registration."""

import io
from itertools import pairwise
from math import hypot

import pdfplumber
import pikepdf
import pypdfium2
import pytest

from fastkit.deck import pdf, sheet
from fastkit.deck.card import Card, Drawing, Text
from fastkit.deck.drawings import id1_outline, scale_bar, svg
from fastkit.deck.markup import PRODUCER
from fastkit.deck.profiles import hexalobular, regular

MM = 25.4 / 72
WITHIN = 0.1  # mm


def card(*front, back=(), **fields):
    """A card that shows just these blocks."""
    return Card(
        "sample",
        "gauge",
        "Sample",
        "Which?",
        ("drive:T20",),
        ("iso-10664",),
        front,
        back or (Text("back"),),
        number=1,
        **fields,
    )


def boxes(page, colour=None):
    """Rectangles of a page in mm: left, top, right, bottom; `colour` as pdfplumber has it."""
    return [
        (r["x0"] * MM, r["top"] * MM, r["x1"] * MM, r["bottom"] * MM)
        for r in page.rects
        if r["fill"] and (colour is None or r["non_stroking_color"] == colour)
    ]


def ink(data, page=0, dpi=600):
    """Grey values of a page, rows from the top, and mm a pixel."""
    image = pypdfium2.PdfDocument(data)[page].render(scale=dpi / 72).to_pil().convert("L")
    return image, 25.4 / dpi


def extent(image, mm, region):
    """Width and height in mm of what is dark within a region given in mm."""
    dark = image.crop(tuple(round(v / mm) for v in region)).point(lambda v: 255 * (v < 128))
    left, top, right, bottom = dark.getbbox()
    return (right - left) * mm, (bottom - top) * mm


@pytest.mark.parametrize("size", sheet.SIZES)
@pytest.mark.parametrize("paper", sheet.PAPERS)
def test_cut_marks_frame_cards_of_the_right_size(size, paper):
    """On the paper the marks stand a card's width and height apart, and the paper is the paper."""
    data = pdf.pdf_bytes([card()], "0", size=size, paper=paper)
    with pdfplumber.open(io.BytesIO(data)) as document:
        page = document.pages[0]
        thin = [b for b in boxes(page) if min(b[2] - b[0], b[3] - b[1]) < 0.2]
        across = sorted(
            {round((b[0] + b[2]) / 2, 2) for b in thin if b[2] - b[0] < 0.2 and b[3] - b[1] > 3}
        )
        down = sorted(
            {
                round((b[1] + b[3]) / 2, 2)
                for b in thin
                if b[3] - b[1] < 0.2 and b[2] - b[0] > 3 and b[2] < sheet.grid(size, paper).left_mm
            }
        )

    g = sheet.grid(size, paper)
    assert sheet.PAPERS[paper] == pytest.approx((page.width * MM, page.height * MM), abs=WITHIN)
    assert [g.left_mm + k * g.card_mm[0] for k in range(g.columns + 1)] == pytest.approx(
        across, abs=WITHIN
    )
    for k in range(g.rows + 1):
        assert any(abs(y - g.top_mm - k * g.card_mm[1]) < WITHIN for y in down)


def test_margin_bar_is_fifty_millimetres():
    """The bar in the margin measures 50 mm from end to end on the raster too."""
    data = pdf.pdf_bytes([card()], "0")
    image, mm = ink(data)
    width, height = extent(image, mm, (0, 122.9, 9.5, 176))

    assert 50 == pytest.approx(height, abs=WITHIN)
    assert width < 4


@pytest.mark.parametrize("length", [50, 50.8])
def test_bar_on_a_card(length):
    """A bar on a card is as long as it says."""
    data = pdf.pdf_bytes([card(Drawing(scale_bar(length)))], "0")
    image, mm = ink(data)
    g = sheet.grid("sleeve", "a4")
    left, top = g.left_mm + 4.6, g.top_mm + 13.9
    width, _ = extent(image, mm, (left, top, left + 57.5, top + 5))

    assert length == pytest.approx(width, abs=WITHIN)


def test_id1_outline_is_that_of_the_standard():
    """ISO/IEC 7810 ID-1: 85.60 by 53.98 mm between the middles of the line."""
    data = pdf.pdf_bytes([card(back=(Drawing(id1_outline()),), bare_back=True)], "0")
    image, mm = ink(data, page=1)
    g = sheet.grid("sleeve", "a4")
    left = g.left_mm + 2 * 63.5
    width, height = extent(image, mm, (left + 0.5, g.top_mm + 0.5, left + 63, g.top_mm + 88.4))

    assert 53.98 == pytest.approx(width - 0.15, abs=WITHIN)
    assert 85.60 == pytest.approx(height - 0.15, abs=WITHIN)


@pytest.mark.parametrize(
    ("name", "path", "box"),
    [
        ("T20", hexalobular(3.95, 2.85, (10, 10)), (3.95, 3.95 * 3**0.5 / 2)),
        ("T50", hexalobular(8.95, 6.45, (10, 10)), (8.95, None)),
        ("13 mm", regular(6, 13, (10, 10)), (13 * 2 / 3**0.5, 13)),
        ("6 mm", regular(6, 6, (10, 10)), (6 * 2 / 3**0.5, 6)),
    ],
)
def test_silhouettes_measure_as_the_data(name, path, box):
    """Printed at 600 dpi a silhouette measures what its dimensions say."""
    black = f'<path d="{path}" fill="#000"/>'
    data = pdf.pdf_bytes([card(Drawing(svg(20, 20, name, black)))], "0")
    image, mm = ink(data)
    g = sheet.grid("sleeve", "a4")
    left, top = g.left_mm + 5.2, g.top_mm + 13.9
    width, height = extent(image, mm, (left, top, left + 54, top + 21))

    assert box[0] == pytest.approx(width, abs=WITHIN)
    if box[1]:
        lobes = name == "T20"  # its upper and lower reach are two lobes' sides, not corners
        assert box[1] == pytest.approx(height, abs=0.35 if lobes else WITHIN)


def test_deck_silhouettes_measure_as_the_data(opened, cards, store):
    """Every hexagon key on its card measures the across flats of its row."""
    from fastkit.answers.cards import row
    from fastkit.records.drive import Drive

    place = next(n for n, c in enumerate(cards) if c.id == "gauge-hex-socket")
    page = opened.pages[place // 9 * 2]
    g = sheet.grid("sleeve", "a4")
    x = g.left_mm + place % 9 % 3 * 63.5
    y = g.top_mm + place % 9 // 3 * 88.9
    heights = sorted(
        (c["bottom"] - c["top"]) * MM
        for c in page.curves
        if c["fill"]
        and x < c["x0"] * MM < x + 63.5
        and y + 13 < c["top"] * MM < y + 80
        and 1 < (c["bottom"] - c["top"]) * MM < 15
    )
    wanted = sorted(
        row(store, Drive, id=e.removeprefix("drive:")).across_flats_mm
        for e in cards[place].entries
        if e.endswith("mm")
    )

    assert len(wanted) >= 10
    assert wanted == pytest.approx(heights, abs=WITHIN)


def test_all_text_lies_on_its_card(opened):
    """No letter stands nearer than half a millimetre to a card's edge, on either side."""
    g = sheet.grid("sleeve", "a4")
    for page in opened.pages:
        for c in page.chars:
            x, right = (c["x0"] * MM - g.left_mm) / 63.5, (c["x1"] * MM - g.left_mm) / 63.5
            y, low = (c["top"] * MM - g.top_mm) / 88.9, (c["bottom"] * MM - g.top_mm) / 88.9
            if right < 0:
                continue  # the margin's 50 mm
            assert int(x) == int(right) and int(y) == int(low), c["text"]
            assert x % 1 * 63.5 > 0.5 and y % 1 * 88.9 > 0.5


@pytest.mark.parametrize("duplex", ["long", "short"])
def test_backs_register_on_paper(duplex):
    """The number on a back, turned over, lies on its own card; a bare frame covers its front's."""
    many = [
        card()._replace(id=f"c{n}", number=n, back=(Text(f"behind {n}"),))
        for n in (12, 34, 56, 78, 90, 13)
    ]
    data = pdf.pdf_bytes(many, "0", duplex=duplex)
    g = sheet.grid("sleeve", "a4")
    with pdfplumber.open(io.BytesIO(data)) as document:
        fronts, backs = (numbers(page, g) for page in document.pages)
    turned = {
        ((g.columns - 1 - x, y) if duplex == "long" else (x, g.rows - 1 - y)): digits
        for (x, y), digits in backs.items()
    }

    assert 6 == len(fronts)
    assert fronts == turned


def numbers(page, g):
    """Digits of the large number on each card of a page, by column and row."""
    found = {}
    for c in page.chars:
        if 12 < c["size"] < 13.5 and c["text"].isdigit():
            cell = (
                int((c["x0"] * MM - g.left_mm) // g.card_mm[0]),
                int((c["top"] * MM - g.top_mm) // g.card_mm[1]),
            )
            found.setdefault(cell, set()).add(c["text"])
    return found


def test_fonts_are_ours_and_embedded(printed):
    """Every font of the file is the bundled face with its program inside: same on any machine."""
    with pikepdf.open(io.BytesIO(printed)) as document:
        fonts = [
            o
            for o in document.objects
            if isinstance(o, pikepdf.Dictionary) and o.get("/Type") == "/FontDescriptor"
        ]
        assert fonts
        for font in fonts:
            assert "Hyperlegible" in str(font["/FontName"])
            assert any(key in font for key in ("/FontFile2", "/FontFile3"))


def test_file_is_tagged_and_says_what_it_is(printed):
    """Title, language, tags and keywords are set; nothing runs or links out."""
    with pikepdf.open(io.BytesIO(printed)) as document:
        assert document.Root.MarkInfo.Marked
        assert "en" == str(document.Root.Lang)
        assert str(document.docinfo["/Keywords"]).startswith(PRODUCER)
        assert str(document.docinfo["/Title"])
        for page in document.pages:
            assert "/Annots" not in page
        assert "/OpenAction" not in document.Root and "/Names" not in document.Root


def test_same_input_gives_same_bytes(cards):
    """Two runs over one card agree to the last byte."""
    some = [c for c in cards if c.family == "gauge"][:2]

    assert pdf.pdf_bytes(some, "0") == pdf.pdf_bytes(some, "0")


def test_lobes_reach_a_on_paper():
    """Along its six axes a printed T60 measures A, between them B (ISO 10664: 13.45 and 9.60)."""
    black = f'<path d="{hexalobular(13.45, 9.6, (10, 10))}" fill="#000"/>'
    data = pdf.pdf_bytes([card(Drawing(svg(20, 20, "T60", black)))], "0")
    image, mm = ink(data)
    g = sheet.grid("sleeve", "a4")
    left, top = round((g.left_mm + 5.2) / mm), round((g.top_mm + 13.9) / mm)
    crop = image.crop((left, top, left + round(54.9 / mm), top + round(20.4 / mm)))
    dark = crop.point(lambda v: 255 * (v < 128))
    x0, y0, x1, y1 = dark.getbbox()
    cx, cy = (x0 + x1 - 1) / 2, (y0 + y1 - 1) / 2
    radii = {}
    pixels = dark.load()
    for axis, (ux, uy) in {"A": (1, 0), "B": (3**0.5 / 2, 0.5)}.items():
        reach = 0
        while pixels[round(cx + ux * reach), round(cy + uy * reach)]:
            reach += 1
        radii[axis] = hypot(ux * reach, uy * reach) * mm * 2

    assert 13.45 == pytest.approx(radii["A"], abs=WITHIN)
    assert 9.60 == pytest.approx(radii["B"], abs=WITHIN)


NO_FIGURE = {"index", "left-hand", "look-alikes", "blank-job", "reuse"}
"""Cards without a main figure: names, pairs in twelve rows, verdicts, lines to write on."""


def test_each_front_has_a_figure_for_arms_length(opened, cards):
    """The largest letter or digit below a front's header is at least 14 pt."""
    g = sheet.grid("sleeve", "a4")
    small = []
    for n, made in enumerate(cards):
        row, column = divmod(n % 9, 3)
        x, y = g.left_mm + column * g.card_mm[0], g.top_mm + row * g.card_mm[1]
        sizes = [
            c["size"] if c["upright"] else 0
            for c in opened.pages[n // 9 * 2].chars
            if c["text"].isalnum()
            and x < c["x0"] * MM < x + g.card_mm[0]
            and y + 14 < c["bottom"] * MM < y + g.card_mm[1]
        ]
        if made.id not in NO_FIGURE and not made.id.startswith("sources") and max(sizes) < 13.9:
            small.append((made.id, round(max(sizes), 1)))

    assert [] == small


@pytest.mark.parametrize("off", [(1.0, 0.0), (-0.6, 1.4)])
def test_a_back_printed_off_its_place_shows_at_the_cut_marks(off):
    """Held to the light a shifted back doubles the marks, by as much as it is off."""
    from PIL import Image, ImageChops, ImageOps

    data = pdf.pdf_bytes([card()], "0")
    (front, mm), (back, _) = ink(data), ink(data, page=1)
    through = ImageOps.mirror(back)
    moved = Image.new("L", front.size, 255)
    moved.paste(through, (round(off[0] / mm), round(off[1] / mm)))
    light = ImageChops.darker(front, moved)
    g = sheet.grid("sleeve", "a4")

    def marks_at(image, axis):
        """Middles of the dark runs across the marks at the first cut line."""
        if axis == 0:  # upright marks above the cards, crossed from left to right
            box = (g.left_mm - 4, g.top_mm - 3.2, g.left_mm + 4, g.top_mm - 3.1)
        else:
            box = (g.left_mm - 3.2, g.top_mm - 4, g.left_mm - 3.1, g.top_mm + 4)
        strip = image.crop(tuple(round(v / mm) for v in box))
        long = strip.size[axis]
        line = strip.resize((long, 1) if axis == 0 else (1, long))
        dark = [v < 128 for v in line.tobytes()]
        starts = [k for k in range(1, long) if dark[k] and not dark[k - 1]]
        return [k * mm for k in starts]

    for axis in (0, 1):
        seen = marks_at(light, axis)
        assert 1 == len(marks_at(front, axis))
        if abs(off[axis]) < 0.2:
            assert 1 == len(seen)
        else:
            assert abs(off[axis]) == pytest.approx(max(seen) - min(seen), abs=WITHIN)


def test_reading_order_and_drawings_are_tagged(printed):
    """A structure tree holds headings, tables, paragraphs and figures that say what they show."""
    with pikepdf.open(io.BytesIO(printed)) as document:
        kinds, untold = {}, 0
        todo = [document.Root.StructTreeRoot]
        while todo:
            node = todo.pop()
            kind = str(node.get("/S", ""))
            kinds[kind] = kinds.get(kind, 0) + 1
            untold += kind == "/Figure" and not str(node.get("/Alt", ""))
            kids = node.get("/K", [])
            for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
                if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
                    todo.append(kid)
        assert {"/H2", "/Table", "/TR", "/TH", "/TD", "/P"} <= set(kinds)
        assert kinds.get("/Figure", 0) > 100 and 0 == untold


def test_nothing_in_the_file_runs_or_leads_out(printed):
    """No script, action, link, form or attachment anywhere among the objects."""
    forbidden = {"/JS", "/JavaScript", "/Launch", "/URI", "/AA", "/EmbeddedFile", "/AcroForm"}
    with pikepdf.open(io.BytesIO(printed)) as document:
        for held in document.objects:
            if isinstance(held, pikepdf.Dictionary | pikepdf.Stream):
                assert not forbidden & set(held.keys())
                assert str(held.get("/S", "")) not in forbidden


CARD_MM = {"sleeve": (63.5, 88.9), "3x5": (3 * 25.4, 5 * 25.4)}
PAPER_MM = {"a4": (210.0, 297.0), "letter": (8.5 * 25.4, 11 * 25.4)}  # ISO 216; ANSI/ASME Y14.1


def cuts(page):
    """Middles of the cut marks across and down [mm], off the page's vectors."""
    thin = [b for b in boxes(page) if min(b[2] - b[0], b[3] - b[1]) < 0.2]
    across = {round((b[0] + b[2]) / 2, 2) for b in thin if b[3] - b[1] > 3}
    down = {round((b[1] + b[3]) / 2, 2) for b in thin if b[2] - b[0] > 3}
    return sorted(across), sorted(down)


@pytest.mark.parametrize("size", CARD_MM)
@pytest.mark.parametrize("paper", PAPER_MM)
def test_paper_and_cards_are_as_large_as_the_standards_say(size, paper):
    """Neighbouring cut marks lie a card apart, the sheet is the paper: numbers not of our code."""
    data = pdf.pdf_bytes([card()], "0", size=size, paper=paper)
    with pdfplumber.open(io.BytesIO(data)) as document:
        for page in document.pages:
            across, down = cuts(page)
            steps = [b - a for a, b in pairwise(across) if b - a > 5]
            rises = [b - a for a, b in pairwise(down) if b - a > 5]
            assert PAPER_MM[paper] == pytest.approx((page.width * MM, page.height * MM), abs=WITHIN)
            assert len(steps) >= 2 and len(rises) >= 2
            assert [CARD_MM[size][0]] * len(steps) == pytest.approx(steps, abs=WITHIN)
            assert [CARD_MM[size][1]] * len(rises) == pytest.approx(rises, abs=WITHIN)


@pytest.mark.parametrize("duplex", ["long", "short"])
def test_a_back_lies_on_its_front_to_a_tenth(duplex):
    """Turned over, marks cover marks, and each back's number box lies where its card's does."""
    many = [card()._replace(id=f"c{n}", number=n) for n in range(10, 19)]
    data = pdf.pdf_bytes(many, "0", duplex=duplex)
    with pdfplumber.open(io.BytesIO(data)) as document:
        front, back = document.pages
        wide, high = front.width * MM, front.height * MM
        (a, d), (ba, bd) = cuts(front), cuts(back)
        if duplex == "long":
            ba = sorted(wide - x for x in ba)
        else:
            bd = sorted(high - y for y in bd)
        assert a == pytest.approx(ba, abs=WITHIN) and d == pytest.approx(bd, abs=WITHIN)
        number = [b for b in boxes(front) if 7 < b[2] - b[0] < 8.2 and 7.5 < b[3] - b[1] < 9]
        behind = [b for b in boxes(back) if 7 < b[2] - b[0] < 8.2 and 7.5 < b[3] - b[1] < 9]
        assert 9 == len(number) == len(behind)
        places = sorted(((b[0] - a[0]) % 63.5, (b[1] - d[0]) % 88.9) for b in number)
        first = cuts(back)
        if duplex == "short":  # each face stands on its head
            turned = [(first[0][-1] - b[2], first[1][-1] - b[3]) for b in behind]
        else:
            turned = [(b[0] - first[0][0], b[1] - first[1][0]) for b in behind]
        for x, y in turned:
            assert (x % 63.5, y % 88.9) == pytest.approx(places[0], abs=WITHIN)
