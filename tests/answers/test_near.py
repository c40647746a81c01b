"""Tools within hundredths of a drive; expected from printed sizes, worked by hand."""

import json

import pytest
from click.testing import CliRunner

from fastkit.answers.near import near, read_words
from fastkit.cli import cli
from fastkit.errors import FastkitError


@pytest.mark.parametrize(
    ("size", "tool", "play"),
    [
        ("hex-8mm", "drive:hex-5/16in", 0.0625),  # 8 - 7.9375
        ("hex-5mm", "drive:T27", -0.07),  # 5 - 5.07
        ("AF-13mm", "drive:AF-1/2in", -0.30),  # 12.7 - 13
        ("PH2", "drive:PH3", -0.94),  # wings 1.47 and 2.41
        ("E10", "drive:AF-8mm", -0.06),  # corners 9.24 on points 9.30
        ("T30", "drive:hex-5mm", -0.17),  # corners 5.77 in lobes 5.60
    ],
)
def test_play_by_hand(store, size, tool, play):
    """The play of a well-known near fit, to half a hundredth."""
    found = {fit.id: fit for fit in near(size, store=store).fits}

    assert found[tool].play_mm == pytest.approx(play, abs=0.005)


@pytest.mark.parametrize(
    ("size", "tool"), [("hex-8mm", "drive:T45"), ("hex-5mm", "drive:T25"), ("T30", "drive:T40")]
)
def test_what_spins_or_will_not_enter_is_left_out(store, size, tool):
    """Lobes inside the flats turn round; far larger ones do not go in."""
    assert tool not in {fit.id for fit in near(size, store=store).fits}


def test_closest_first_and_never_itself(store):
    """Whatever the drive: ordered by the size of the gap, each with a way on."""
    for (drive,) in store.execute("SELECT id FROM drive").fetchall():
        fits = near(drive, store=store).fits
        gaps = [abs(fit.play_mm) for fit in fits]
        assert gaps == sorted(gaps)
        assert all(fit.how for fit in fits)
        assert f"drive:{drive}" not in {fit.id for fit in fits}


def test_document_names_size_and_fits():
    """The promised keys; exit 1 and a reason where nothing lies near."""
    result = CliRunner().invoke(cli, ["near", "hex-5mm", "--json"])
    document = json.loads(result.stdout)
    assert (0, "drive:hex-5mm") == (result.exit_code, document["size"])
    assert {"id", "play_mm", "how"} <= set(document["fits"][0])

    result = CliRunner().invoke(cli, ["near", "five-lobe-P2", "--json"])
    assert (1, []) == (result.exit_code, json.loads(result.stdout)["fits"])
    assert json.loads(result.stdout)["reason"]


def test_what_is_no_drive_is_refused(store):
    """A word that names no drive."""
    with pytest.raises(FastkitError):
        near("banana", store=store)


@pytest.mark.parametrize(
    ("size", "tool", "play", "how"),
    [
        # twelve points of 8 over flats of 7, inside the corners of 8.08
        ("hex-7mm", "triple-square-M8", -1.0, "hammered"),
        ("hex-5/16in", "triple-square-M8", -0.0625, "tapped"),  # 7.9375 - 8
        ("triple-square-M8", "T45", 0.07, "by hand"),  # 8 - 7.93: six lobes in six of twelve
        ("AF-13mm", "12pt-13mm", 0.0, "sound"),  # two hexagons on one: the same flats
        ("AF-10mm", "E12", -0.447, "hammered"),  # 11.1 - 10 / cos 30
        ("PZ2", "PH2", 0.36, "rocks"),  # wings 1.83 and 1.47
        ("SQ2", "SQ3", -0.52, "hammered"),  # middles of 2.819..2.86 and 3.34..3.378
        ("SQ2", "T15", -0.51, "hammered"),  # lobes of 3.35 between flats and corners of 4.02
        ("hex-7mm", "SQ4", 0.292, "rocks"),  # largest square in a hexagon 0.732 s
    ],
)
def test_more_ladders_by_hand(store, size, tool, play, how):
    """Triple squares, twelve points, outer lobes, cross wings, squares."""
    found = {fit.id: fit for fit in near(size, store=store).fits}[f"drive:{tool}"]

    assert found.play_mm == pytest.approx(play, abs=0.006)
    assert how in found.how


@pytest.mark.parametrize(
    ("size", "tool"),
    [
        ("hex-6mm", "triple-square-M8"),  # 8 is past the corners of 6.93
        ("hex-6mm", "triple-square-M6"),  # 6 only touches the flats
        ("AF-13mm", "E14"),  # 12.8 is smaller than the corners of 15.01 by far
        ("SQ2", "T10"),  # 2.8 turns in 2.84
        ("PH2", "SQ2"),
    ],
)
def test_more_that_spins_or_will_not_enter(store, size, tool):
    """Beyond the corners, or inside the flats."""
    assert f"drive:{tool}" not in {fit.id for fit in near(size, store=store).fits}


def test_what_a_near_fit_holds(store):
    """A stripped 5 mm socket has 0.12 left of 30 N·m, driven in 0.55 of the rest is back."""
    found = {fit.id: fit for fit in near("hex-5mm", store=store).fits}

    assert found["drive:T30"].holds_nm == pytest.approx(30 * (0.12 + 0.88 * 0.55), rel=0.01)


def test_a_ladder_in_both_systems(store):
    """From the loosest to the tightest, metric and inch sizes between each other."""
    ladder = near("hex-8mm", store=store).ladder
    plays = [fit.play_mm for fit in ladder]

    assert plays == sorted(plays, reverse=True)
    assert {"drive:hex-5/16in"} <= {fit.id for fit in ladder}


def test_extract_shows_what_is_near():
    """`--have near`: the near sizes are at hand, so the answer says which."""
    run = CliRunner().invoke(cli, ["extract", "5 mm hex socket stripped, M6", "--have", "near"])
    assert run.exit_code == 0, run.output
    assert "NEAR" in run.stdout
    assert "T27" in run.stdout

    words = ["extract", "5 mm hex socket stripped, M6", "--json"]
    document = json.loads(CliRunner().invoke(cli, words).stdout)
    assert "drive:T27" in [fit["id"] for fit in document["near_fits"]]


@pytest.mark.parametrize(
    ("size", "read", "other"),
    [
        ("5mm", "drive:hex-5mm", "drive:AF-5mm"),
        ("7/32in", "drive:hex-7/32in", "drive:AF-7/32in"),
        ("8", "drive:hex-8mm", "drive:AF-8mm"),
    ],
)
def test_a_bare_size_is_both_hexagons(size, read, other, store):
    """Nobody said key or socket: the tools for the recess, and those for the head of that size."""
    both = near(size, store=store)

    assert read == both.size and near(read, store=store).fits == both.fits
    assert other == both.head.size and near(other, store=store).fits == both.head.fits


def test_a_bare_size_of_one_hexagon_only(store):
    """Where the data holds a head alone, that is the one; where neither, it is not held."""
    assert "drive:AF-20mm" == near("20 mm", store=store).size
    assert near("20 mm", store=store).head is None
    result = CliRunner().invoke(cli, ["near", "180mm", "--json"])
    assert 1 == result.exit_code and json.loads(result.stdout)["reason"]


def test_the_screen_of_a_bare_size_names_both():
    """A block for each, and what was meant by it."""
    text = CliRunner().invoke(cli, ["near", "8 mm"]).stdout

    assert text.index("near drive:hex-8mm") < text.index("near drive:AF-8mm")


@pytest.mark.parametrize(
    ("words", "size"),
    [
        ("17mm hex rounded", "AF-17mm"),
        ("rounded off 13 hex", "AF-13mm"),
        ("13mm hex head gone round", "AF-13mm"),
        ("8mm hex stripped", "hex-8mm"),
        ("8 mm hex socket rounded out", "hex-8mm"),
        ("t30 striped", "T30"),
        ("17mm nut roundd", "AF-17mm"),
    ],
)
def test_a_line_typed_in_a_hurry(words, size, store):
    """What is rounded off is a head unless a socket is said; a slip of one letter is none."""
    named, outer = read_words(words.split())

    assert near(named, outer=outer, store=store).size == f"drive:{size}"
