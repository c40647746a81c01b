"""Near fits from the drives' sizes; pairs are common practice, no published source."""

import pytest

from fastkit.reach.near import near_fits
from fastkit.records.drive import Drive


def hexagon(size, system="hex-socket", name=None):
    """A hexagon of the given size across flats."""
    flats = (size, None, None)
    return Drive(
        name or f"{system}-{size}",
        system,
        str(size),
        0,
        60.0,
        *flats,
        None,
        None,
        None,
        None,
        "s",
        "-",
        "copied",
    )


def lobes(size, across):
    """A hexalobular drive by its size and dimension A."""
    return Drive(
        size,
        "hexalobular",
        size,
        0,
        60.0,
        None,
        None,
        None,
        across,
        None,
        None,
        None,
        "s",
        "-",
        "copied",
    )


DRIVES = (
    hexagon(4.0),
    hexagon(5.0),
    hexagon(5.556, name="hex-7/32in"),
    hexagon(6.0),
    hexagon(6.35, name="hex-1/4in"),
    lobes("T25", 4.50),
    lobes("T27", 5.07),
    lobes("T30", 5.60),
    lobes("T40", 6.75),
    lobes("T45", 7.93),
    hexagon(13.0, "hexagon", "AF-13mm"),
    hexagon(12.7, "hexagon", "AF-1/2in"),
    hexagon(12.0, "hexagon", "AF-12mm"),
)


@pytest.mark.parametrize(
    ("worn", "bites", "not_"),
    [
        (DRIVES[1], ["T27", "T30"], ["T25", "T40"]),
        (DRIVES[3], ["T40", "hex-1/4in"], ["T30", "T45"]),
        (DRIVES[10], ["AF-1/2in"], ["AF-12mm", "T45"]),
        (DRIVES[7], ["hex-5mm"][:0], ["hex-6.0"]),
    ],
)
def test_ladder(worn, bites, not_):
    """What is driven into a 5 and a 6 mm socket, over a 13 mm hexagon."""
    found = [fit.drive for fit in near_fits(worn, DRIVES)]

    assert set(bites) <= set(found)
    assert not set(not_) & set(found)


def test_interference_is_negative_and_named():
    """T27 in a 5 mm socket: 0.07 mm over, by hand; T30: 0.60 mm over, hammered."""
    found = {fit.drive: fit for fit in near_fits(DRIVES[1], DRIVES)}

    assert (pytest.approx(-0.07), "by hand") == found["T27"][1:]
    assert (pytest.approx(-0.60), "hammered") == found["T30"][1:]
