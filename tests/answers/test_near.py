"""Tools within hundredths of a drive; expected from printed sizes, worked by hand."""

import json

import pytest
from click.testing import CliRunner

from fastkit.answers.near import near
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

    result = CliRunner().invoke(cli, ["near", "SQ2", "--json"])
    assert (1, []) == (result.exit_code, json.loads(result.stdout)["fits"])
    assert json.loads(result.stdout)["reason"]


def test_what_is_no_drive_is_refused(store):
    """A word that names no drive."""
    with pytest.raises(FastkitError):
        near("banana", store=store)
