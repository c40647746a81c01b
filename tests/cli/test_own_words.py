"""Notes, tools and stock kept in the words of somebody in a hurry, with nothing in quotes."""

import json
import shlex

import pytest
from click.testing import CliRunner

from fastkit.cli import cli


def run(line):
    return CliRunner().invoke(cli, shlex.split(line))


def document(line):
    result = run(f"{line} --json")
    assert 0 == result.exit_code, result.output
    return json.loads(result.stdout)


@pytest.mark.parametrize(
    ("line", "noted"),
    [
        ("soaked it overnight, nothing", ("soak-penetrant", "nothing", "", "")),
        ("left hand drill worked", ("left-hand-drill", "ok", "", "")),
        (
            "left hand drill ok m8 snapped flush rusted",
            ("left-hand-drill", "ok", "snapped-flush", "rusted"),
        ),
        ("hand impact driver did nothing", ("hand-impact-driver", "nothing", "", "")),
        ("six point socket slipped, m8 rounded", ("six-point-socket", "worse", "rounded", "")),
        (
            "m6 snapped below the face, seized, spiral extractor broke",
            ("spiral-extractor", "broke", "snapped-below", "seized"),
        ),
        ("torch got it out, m10 rusted nut, rounded", ("flame-heat", "ok", "rounded", "rusted")),
        ("seat-bit worse, t30 worn", ("seat-bit", "worse", "worn", "")),
        (
            "welding a nut on worked m8 snapped proud, rusted",
            ("weld-nut", "ok", "snapped-proud", "rusted"),
        ),
        ("tried locking pliers, no luck", ("clamp-wrench", "nothing", "", "")),
        ("chisel made it worse", ("chisel-turn", "worse", "", "")),
        (
            "penetrant didn't do anything, m8 hex rusted",
            ("soak-penetrant", "nothing", "", "rusted"),
        ),
        ("stud grip came out, m8 stud snapped proud", ("stud-grip", "ok", "snapped-proud", "")),
    ],
)
def test_an_attempt_in_words(line, noted):
    note = document(f'note "{line}"' if "'" in line else f"note {line}")["noted"]
    bare = CliRunner().invoke(cli, ["note", *line.split(), "--json"])

    assert noted == (note["method"], note["outcome"], note["damage"], note["seized"])
    assert json.loads(bare.stdout)["noted"]["method"] == noted[0]


@pytest.mark.parametrize(
    ("line", "noted"),
    [
        (
            "torque red tractor wheel nuts 120nm manual page 12",
            ("red tractor", "wheel nuts", 120.0, "manual page 12"),
        ),
        (
            "torque pump cover 9 Nm the plate on it",
            ("pump", "cover", 9.0, "the plate on it"),
        ),
        (
            "torque mower blade bolt 40 n·m handbook",
            ("mower", "blade bolt", 40.0, "handbook"),
        ),
        (
            "torque 'garden pump' 'cover bolts' 14 Nm manual",
            ("garden pump", "cover bolts", 14.0, "manual"),
        ),
    ],
)
def test_a_makers_value_in_words(line, noted):
    note = document(f"note {line}")["noted"]

    assert noted == (note["machine"], note["place"], note["torque_nm"], note["read_in"])


@pytest.mark.parametrize(
    ("line", "row"),
    [
        ("m8x20 8.8 12", ("m8x20 8.8", 12, "")),
        ("12 m8x20 8.8 drawer 3", ("m8x20 8.8", 12, "drawer 3")),
        ("m6 washers 50 blue box", ("m6 washers", 50, "blue box")),
        ("20 x M6 nuts", ("M6 nuts", 20, "")),
        ("m10 nut class 8 25", ("m10 nut class 8", 25, "")),
        ("30x 1/4-20 grade 5 bolts", ("1/4-20 grade 5 bolts", 30, "")),
        ("m8x30", ("m8x30", 1, "")),
        ("a dozen m8x30", ("m8x30", 12, "")),
        ("12 m8x20 blue lid", ("m8x20", 12, "blue lid")),
        ("m8x20 8.8 drawer 3", ("m8x20 8.8", 1, "drawer 3")),
        ("'M8x20 8.8' 12 'drawer 3'", ("M8x20 8.8", 12, "drawer 3")),
    ],
)
def test_stock_in_words(line, row):
    (kept,) = document(f"stock add {line}")["changed"]

    assert row == (kept["what"], kept["amount"], kept["place"])


@pytest.mark.parametrize(
    ("line", "row"),
    [
        ("impact driver", ("impact-driver", "")),
        ("stubby screwdriver", ("stubby-driver", "")),
        ("10mm socket", ("ratchet", "10mm")),
        ("3/8 ratchet", ("ratchet", "3/8")),
        ("small angle grinder", ("angle-grinder", "small")),
        ("breaker bar 600mm", ("breaker-bar", "600mm")),
        ("ratchet 3/8 in", ("ratchet", "3/8 in")),
    ],
)
def test_tools_in_words(line, row):
    (kept,) = document(f"tools add {line}")["changed"]

    assert row == (kept["tool"], kept["size"])


@pytest.mark.parametrize(
    ("line", "parts"),
    [
        ("note banana worked", ("'banana'", "method")),
        ("note left hand drill", ("how it went", "ok, nothing, worse, broke")),
        ("note torque pump cover 9 Nm", ("where", "manual, page 12")),
        ("note torque pump cover manual", ("torque", "9 lb-ft")),
        ("tools add banana", ("'banana'", "nearest")),
        ("stock add x a", ("what to add", "12 m8x20")),
        ("stock add m8x20 0", ("'0'", "1 to 1000000")),
    ],
)
def test_what_is_missing_is_told_and_nothing_is_kept(line, parts):
    result = run(line)

    assert (2, 1) == (result.exit_code, result.stderr.count("\n"))
    for part in parts:
        assert part in result.stderr
    assert "no note yet" in run("note list").stdout
