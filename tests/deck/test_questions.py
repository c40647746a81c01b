"""The questions that the deck must answer, and published numbers that its cards must print."""

import pytest

from fastkit.deck.card import Cell, Figures, Table

QUESTIONS = {
    "start": [
        "index",
        "damage-finder",
        "before-the-first-pull",
        "beside-what",
        "left-hand",
    ],
    "emergency": [
        "recess-worn",
        "recess-stripped",
        "tool-stuck",
        "tool-broken-in",
        "hexagon-rounded",
        "bolt-seized",
        "bolt-galled",
        "bolt-locked",
        "snapped-proud",
        "snapped-flush",
        "snapped-below",
        "turns-along",
        "nut-turns-along",
        "tube-nut-rounded",
    ],
    "loosen": [
        "bond-left",
        "heat-limits",
        "flash-points",
        "heat-gap",
        "near-keys",
        "near-wrenches",
        "drills-extractors",
        "slots",
        "weld-nuts",
    ],
    "torque": [
        "torque-8.8",
        "torque-10.9",
        "torque-12.9",
        "torque-8.8-fine",
        "torque-10.9-fine",
        "torque-12.9-fine",
        "torque-a2-70",
        "torque-a4-80",
        "torque-sae-5",
        "torque-sae-8",
        "torque-small",
        "torque-small-stainless",
        "torque-into-aluminium",
        "set-screws",
        "wrench-adapter",
        "lubricant-and-torque",
        "how-true-is-it",
        "order-circles",
        "order-rectangles",
    ],
    "gauge": [
        "thread-diameter",
        "look-alikes",
        "gauge-pitch",
        "pipe-threads",
        "gauge-hexalobular",
        "gauge-external-hexalobular",
        "gauge-hex-socket",
        "gauge-cross",
        "gauge-square-slot",
        "gauge-rare",
        "gauge-across-flats",
        "across-flats",
        "keys-by-thread",
        "marks-metric",
        "marks-inch",
    ],
    "replace": [
        "length-rule",
        "engagement",
        "galvanic",
        "lockers",
        "reuse",
        "nut-for-bolt",
        "washers",
    ],
    "repair": [
        "drills-metric",
        "drills-inch",
        "form-taps",
        "cut-taps",
        "inserts",
        "tube-nuts",
        "flares",
        "ground-joint",
    ],
    "deck": [
        "job-labels",
        "blank-job",
        "blank-measure",
        "units-torque",
        "units-length",
        "verify-the-print",
    ],
}

PRINTED = [  # card, first words of the row, a number in it, and where it is published
    ("inserts", "M6", "6.3", "DIN 8140-2"),
    ("inserts", "1/4-20", "17/64", "ASME B18.29.1"),
    ("keys-by-thread", "M6", "5", "ISO 4762"),
    ("keys-by-thread", "M8", "6", "ISO 4762"),
    ("keys-by-thread", "M10", "8", "ISO 4762"),
    ("keys-by-thread", "M8", "4", "ISO 4026"),
    ("keys-by-thread", "3/8", "5/16", "ASME B18.3"),
    ("slots", "12 x 2", "48", "ISO 2380-1: b a^2"),
    ("slots", "10 x 1.6", "25.6", "ISO 2380-1: b a^2"),
    ("near-wrenches", "13", "12.7", "ISO 272 and ASME B18.2.1: 1/2 in"),
    ("near-wrenches", "14", "14.29", "ISO 272 and ASME B18.2.1: 9/16 in"),
    ("near-wrenches", "19", "19.05", "ISO 272 and ASME B18.2.1: 3/4 in"),
    ("washers", "M8", "16", "ISO 7089"),
    ("washers", "M8", "8.4", "ISO 7089"),
    ("washers", "M10", "10.5", "ISO 7089"),
    ("pipe-threads", "G1/4", "13.157", "ISO 228-1"),
    ("pipe-threads", "G1/4", "19", "ISO 228-1"),
    ("pipe-threads", "1/4", "18", "ASME B1.20.1"),
    ("engagement", "Grey", "1", "trials with 8.8 bolts"),
    ("nut-for-bolt", "8", "8.8", "ISO 898-2"),
    ("nut-for-bolt", "10", "10.9", "ISO 898-2"),
    ("tube-nuts", "3/16", "3/8-24", "SAE J512"),
    ("tube-nuts", "4.75", "M10x1", "ISO 4038"),
    ("heat-limits", "Zinc", "419", "melting point of zinc"),
    ("heat-limits", "Cadmium", "321", "melting point of cadmium"),
    ("flash-points", "Kerosene", "37", "ICSC 0663"),
    ("wrench-adapter", "50", "0.889", "instruction sheet: 2 in on 16 in, 0.8888"),
    ("units-torque", "10", "7.38", "1 lbf = 4.4482216 N, 1 ft = 0.3048 m"),
    ("units-torque", "100", "73.8", "1 lbf = 4.4482216 N, 1 ft = 0.3048 m"),
    ("units-length", "1/4", "6.35", "1 in = 25.4 mm"),
    ("units-length", "7/16", "11.11", "1 in = 25.4 mm"),
    ("verify-the-print", "along", "85.60", "ISO/IEC 7810"),
    ("look-alikes", "M8x1.25", "7.938", "ASME B1.1: 5/16 in"),
    ("look-alikes", "M6x1", "6.35", "ASME B1.1: 1/4 in"),
    ("form-taps", "M3", "2.78", "tap makers' rule: d - 0.45 P"),
    ("form-taps", "M8", "7.45", "d - 0.0068 P for each of 65 per cent"),
    ("form-taps", "M16", "15.12", "d - 0.0068 P for each of 65 per cent"),
    ("form-taps", "M24", "22.67", "d - 0.0068 P for each of 65 per cent"),
    ("cut-taps", "M8", "6.8", "ISO 2306"),
    ("cut-taps", "1/4-20", "#7", "drill chart, 75 per cent of thread"),
    ("gauge-square-slot", "SQ2", "2.82", "ASME B18.6.3: recess at least .111 in"),
    ("ground-joint", "Alternator", "0.2", "SAE voltage drops"),
    ("length-rule", "M8", "10.9", "ISO 7089 1.6, ISO 4032 6.8, 2 P 2.5"),
    ("verify-the-print", "No rule?", "52.5", "ISO 216: 210 mm, folded twice"),
    ("lubricant-and-torque", "Engine oil", "0.9", "TM 9-6115-604"),
]

ORDERS = {  # as numbered round the circle, ASME PCC-1
    4: (1, 3, 2, 4),
    8: (1, 5, 3, 7, 2, 6, 4, 8),
}
STROKES = {"SAE-5": 3, "SAE-8": 6}  # radial lines on the head, SAE J429


@pytest.mark.parametrize("family", QUESTIONS)
def test_the_deck_answers_each_question(cards, family):
    """Every question of the family has its card, in this order."""
    ids = [c.id for c in cards if c.family == family]

    assert QUESTIONS[family] == [i for i in ids if i in QUESTIONS[family]]


def lines(card):
    """Every row of every table, and every large figure with its label, as texts."""
    for block in (*card.front, *card.back):
        if isinstance(block, Table):
            for row in block.rows:
                starts = [n for n, c in enumerate(row) if c.look == "head"] or [0]
                for n in {0, *starts}:  # a table may stand beside another
                    yield [c.text for c in row[n:] if isinstance(c, Cell)]
        if isinstance(block, Figures):
            for figure in block.items:
                yield [figure.label, figure.value]


@pytest.mark.parametrize(("id", "row", "number", "published"), PRINTED)
def test_printed_numbers_are_the_published_ones(cards, id, row, number, published):
    """A row of the card that begins so holds the number that the publication prints."""
    card = next((c for c in cards if c.id == id), None)
    assert card, f"no card {id}"
    held = [texts for texts in lines(card) if texts[0].startswith(row)]

    assert held, f"no row {row}"
    words = {w for texts in held for t in texts for w in (t, *t.split())}
    assert number in words, (published, held)


@pytest.mark.parametrize("count", ORDERS)
def test_orders_are_drawn_as_published(cards, count):
    """The circle drawn for so many bolts names them in the published order."""
    card = next(c for c in cards if c.id == "order-circles")
    said = " ".join(t for texts in lines(card) for t in texts)

    assert "-".join(map(str, ORDERS[count])) in said


@pytest.mark.parametrize("grade", STROKES)
def test_head_marks_have_their_strokes(cards, grade):
    """A head is drawn with as many radial lines as the standard asks for."""
    card = next(c for c in cards if c.id == "marks-inch")
    drawing = "".join(b.svg for b in (*card.front, *card.back) if b.kind == "drawing")
    part = drawing.split(f'data-mark="{grade}"')[1].split("</g>")[0]

    assert STROKES[grade] == part.count("<line ")


def test_there_are_enough_cards(cards):
    """Fifty-four at the least, each with its own question."""
    assert len(cards) >= 54
    assert len({c.question + c.title for c in cards}) == len(cards)
