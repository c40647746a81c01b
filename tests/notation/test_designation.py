"""How the trade writes threads, drives and grades."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fastkit.notation.designation import format, parse, thread_name
from fastkit.notation.rules import Part

NICKNAMES = {
    "torx": "system:hexalobular",
    "allen": "system:hex-socket",
    "phillips": "system:cross-h",
    "pozi": "system:cross-z",
    "robertson": "system:square",
    "quarter twenty": "thread:1/4-20-UNC",
}


def read(text):
    return [(part.kind, part.key) for part in parse(text, NICKNAMES)]


@pytest.mark.parametrize(
    ("text", "kind", "key"),
    [
        ("m8", "thread", "M8"),
        ("M 8", "thread", "M8"),
        ("M8x1", "thread", "M8x1"),
        ("M8×1.25", "thread", "M8x1.25"),
        ("M8x1.250", "thread", "M8x1.25"),
        ("M8x1,25", "thread", "M8x1.25"),
        ("M8-1.25", "thread", "M8x1.25"),
        ("M8 x 1.25", "thread", "M8x1.25"),
        ("m8 1.25", "thread", "M8x1.25"),
        ("M3.5", "thread", "M3.5"),
        ("m8 fine", "thread", "M8-fine"),
        ("fine m8", "thread", "M8-fine"),
        ("m8 coarse", "thread", "M8-coarse"),
        ("m8 fine thread", "thread", "M8-fine"),
        ("1/4-20", "thread", "1/4-20"),
        ("1/4 - 20", "thread", "1/4-20"),
        ("1/4 20", "thread", "1/4-20"),
        ("1/4x20", "thread", "1/4-20"),
        ("1/4-20 UNC", "thread", "1/4-20-UNC"),
        ("1/4-20UNC", "thread", "1/4-20-UNC"),
        ("1/4-20-unc", "thread", "1/4-20-UNC"),
        ('1/4"-20', "thread", "1/4-20"),
        ("quarter twenty", "thread", "1/4-20-UNC"),
        ("5/16 unc", "thread", "5/16-UNC"),
        ("unf 3/8", "thread", "3/8-UNF"),
        ("3/8 fine", "thread", "3/8-fine"),
        ("1/2 inch coarse thread", "thread", "1/2-coarse"),
        ("10-32", "thread", "#10-32"),
        ("#10-32", "thread", "#10-32"),
        ("no. 10-32", "thread", "#10-32"),
        ("#8", "thread", "#8"),
        ("number 8", "thread", "#8"),
        ("#8 fine", "thread", "#8-fine"),
        ("8-32 unc", "thread", "#8-32-UNC"),
        ("1-8", "thread", "1-8"),
        ("1-1/4-7", "thread", "1-1/4-7"),
        ("1 1/4-7", "thread", "1-1/4-7"),
        ("1-1/4-8-UN", "thread", "1-1/4-8-UN"),
        ("thread:M8x1.25", "thread", "M8x1.25"),
        ("hex 5", "drive", "hex-5mm"),
        ("5 mm hex", "drive", "hex-5mm"),
        ("5mm hex socket", "drive", "hex-5mm"),
        ("5.5 mm hex key", "drive", "hex-5.5mm"),
        ("hex socket 5", "drive", "hex-5mm"),
        ("allen 5", "drive", "hex-5mm"),
        ("5 mm allen key", "drive", "hex-5mm"),
        ("7/32 hex", "drive", "hex-7/32in"),
        ("7/32 inch hex key", "drive", "hex-7/32in"),
        ("hex-7/32in", "drive", "hex-7/32in"),
        ("13 mm socket", "drive", "AF-13mm"),
        ("13mm hexagon", "drive", "AF-13mm"),
        ("13 mm spanner", "drive", "AF-13mm"),
        ("9/16 wrench", "drive", "AF-9/16in"),
        ("AF 13", "drive", "AF-13mm"),
        ("13 AF", "drive", "AF-13mm"),
        ("AF-9/16in", "drive", "AF-9/16in"),
        ("1-1/8 socket", "drive", "AF-1-1/8in"),
        ("T20", "drive", "T20"),
        ("t 20", "drive", "T20"),
        ("torx 20", "drive", "T20"),
        ("torx t20", "drive", "T20"),
        ("t20 torx", "drive", "T20"),
        ("hexalobular 20", "drive", "T20"),
        ("E8", "drive", "E8"),
        ("torx e8", "drive", "E8"),
        ("external torx 8", "drive", "E8"),
        ("ph2", "drive", "PH2"),
        ("ph 2", "drive", "PH2"),
        ("phillips 2", "drive", "PH2"),
        ("phillips #2", "drive", "PH2"),
        ("#2 phillips", "drive", "PH2"),
        ("cross recess h 2", "drive", "PH2"),
        ("pz 2", "drive", "PZ2"),
        ("pozi 2", "drive", "PZ2"),
        ("sq2", "drive", "SQ2"),
        ("square 2", "drive", "SQ2"),
        ("robertson 2", "drive", "SQ2"),
        ("slot 6.5x1.2", "drive", "slot-6.5x1.2"),
        ("8.8", "grade", "8.8"),
        ("class 10.9", "grade", "10.9"),
        ("grade 12.9", "grade", "12.9"),
        ("A2-70", "grade", "A2-70"),
        ("a2 70", "grade", "A2-70"),
        ("A4-80 stainless", "grade", "A4-80"),
        ("SAE 5", "grade", "SAE-5"),
        ("sae-8", "grade", "SAE-8"),
        ("SAE grade 5", "grade", "SAE-5"),
        ("grade 8", "grade", "SAE-8"),
        ("gr5", "grade", "SAE-5"),
        ("gr. 8", "grade", "SAE-8"),
        ("nut-8", "grade", "nut-8"),
        ("grade:A2-70", "grade", "A2-70"),
    ],
)
def test_one_designation(text, kind, key):
    assert (kind, key) == read(text)[0]


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("m8 8.8 torque", [("thread", "M8"), ("grade", "8.8"), ("word", "torque")]),
        (
            "what drill for m6 tap",
            [
                ("word", "what"),
                ("word", "drill"),
                ("word", "for"),
                ("thread", "M6"),
                ("word", "tap"),
            ],
        ),
        ("M8x1.25x30", [("thread", "M8x1.25"), ("length", "30mm")]),
        ("M8x30", [("thread", "M8"), ("length", "30mm")]),
        ("M8 x 30", [("thread", "M8"), ("length", "30mm")]),
        ("90 mm above", [("length", "90mm"), ("word", "above")]),
        ("13 mm", [("length", "13mm")]),
        ("6.5 mm", [("length", "6.5mm")]),
        ("4.8 mm", [("length", "4.8mm")]),
        (
            "rubber hose 20 mm off",
            [("word", "rubber"), ("word", "hose"), ("length", "20mm"), ("word", "off")],
        ),
        (
            "6 mm hex socket rounded out, M8 into cast iron",
            [
                ("drive", "hex-6mm"),
                ("word", "rounded"),
                ("word", "out"),
                ("thread", "M8"),
                ("word", "into"),
                ("word", "cast"),
                ("word", "iron"),
            ],
        ),
        ("", []),
        ("   ,;  ", []),
        ("1/0", [("word", "1/0")]),
        ("M8-8.8", [("thread", "M8"), ("grade", "8.8")]),
        ("M8 1.25 mm above", [("thread", "M8"), ("length", "1.25mm"), ("word", "above")]),
        ("m12 4.6", [("thread", "M12"), ("grade", "4.6")]),
        ("M8x1-coarse", [("thread", "M8x1"), ("word", "coarse")]),
        ("m8 unc", [("thread", "M8"), ("word", "unc")]),
        ("4/8-20", [("word", "4/8-20")]),
        ("3/2 hex", [("word", "3/2"), ("word", "hex")]),
        ("13-32", [("word", "13-32")]),
        ("0-8", [("word", "0-8")]),
        ("1/4-99", [("word", "1/4-99")]),
        ("#40", [("word", "#40")]),
        ("5 cm", [("length", "50mm")]),
        ("0 mm", [("word", "0"), ("word", "mm")]),
        ("hex 200 mm", [("word", "hex"), ("length", "200mm")]),
        (
            "hex socket 30 mm above",
            [("word", "hex"), ("word", "socket"), ("length", "30mm"), ("word", "above")],
        ),
        ("t 200", [("word", "t"), ("word", "200")]),
        ("t20 8 mm beside", [("drive", "T20"), ("length", "8mm"), ("word", "beside")]),
        ("torx, stripped", [("system", "hexalobular"), ("word", "stripped")]),
        ("metric 8 fine", [("thread", "M8-fine")]),
        ("metric 8 mm", [("word", "metric"), ("length", "8mm")]),
        ("5mm allen wrench", [("drive", "hex-5mm")]),
        ("socket 8 mm beside", [("word", "socket"), ("length", "8mm"), ("word", "beside")]),
        ("m0", [("word", "m0")]),
        ("nan", [("word", "nan")]),
    ],
)
def test_combined(text, parts):
    assert parts == read(text)


THREADS = st.one_of(
    st.builds("M{:g}".format, st.sampled_from([1.6, 2, 2.5, 3, 3.5, 4, 5, 6, 8, 10, 12, 16, 36])),
    st.sampled_from(["M8x1", "M8x1.25", "M12x1.5", "M8-fine", "M10-coarse", "M36x3"]),
    st.builds(
        "{}-{}{}".format,
        st.sampled_from(["#4", "#10", "1/4", "5/16", "3/8", "1-1/8"]),
        st.sampled_from([20, 24, 28, 32, 40]),
        st.sampled_from(["", "-UNC", "-UNF"]),
    ),
    st.builds(
        "{}-{}".format, st.sampled_from(["#8", "1/4", "3/4"]), st.sampled_from(["UNC", "fine"])
    ),
)
DRIVES = st.one_of(
    st.builds("T{}".format, st.integers(1, 100)),
    st.builds("E{}".format, st.integers(4, 32)),
    st.builds("{}{}".format, st.sampled_from(["PH", "PZ", "SQ"]), st.integers(0, 4)),
    st.builds(
        "{}-{:g}mm".format,
        st.sampled_from(["hex", "AF"]),
        st.sampled_from([1.5, 2, 5, 5.5, 13, 36]),
    ),
    st.builds(
        "{}-{}in".format,
        st.sampled_from(["hex", "AF"]),
        st.sampled_from(["1/16", "7/32", "1", "1-1/8"]),
    ),
)
GRADES = st.sampled_from(
    ["4.6", "8.8", "10.9", "12.9", "A2-70", "A4-80", "SAE-5", "SAE-8", "nut-8"]
)


@given(
    st.one_of(
        st.builds(Part, st.just("thread"), THREADS, st.just("")),
        st.builds(Part, st.just("drive"), DRIVES, st.just("")),
        st.builds(Part, st.just("grade"), GRADES, st.just("")),
    )
)
def test_what_is_written_is_read_back(part):
    back = parse(format(part))

    assert [(part.kind, part.key)] == [(p.kind, p.key) for p in back]


@given(st.text(max_size=200))
def test_any_text_is_read_without_failing(text):
    """Nothing but tuples comes out, and no visible word is lost."""
    for part in parse(text, NICKNAMES):
        assert part.kind and part.key


@given(st.text(alphabet="mMxX0123456789./-#, tTeEpPhHaA", max_size=40))
def test_near_designations_are_read_without_failing(text):
    first = parse(text)
    again = parse(" ".join(part.text for part in first))

    assert [p.kind for p in first if p.kind == "word"] == [
        p.kind for p in first if p.kind == "word"
    ]
    assert isinstance(again, tuple)


@pytest.mark.parametrize(
    ("key", "pieces"),
    [
        ("M8x1.25", ("M8", "1.25", None)),
        ("M8", ("M8", None, None)),
        ("1/4-20-UNC", ("1/4", "20", "UNC")),
        ("1/4-UNC", ("1/4", None, "UNC")),
        ("1-8-UNC", ("1", "8", "UNC")),
        ("#10-32", ("#10", "32", None)),
        ("G1/4", ("G1/4", None, None)),
    ],
)
def test_a_key_comes_apart(key, pieces):
    assert pieces == thread_name(key)
