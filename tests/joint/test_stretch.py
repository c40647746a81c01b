"""How heads and engaged threads give (VDI 2230-1, clause 5.1.1); what a round head bears on."""

from math import pi

import pytest

from fastkit.joint.seat import Seat, seat
from fastkit.joint.stretch import stretch
from fastkit.records.head import Head
from fastkit.reference.lookup import many
from tests.joint.test_window import a_thread

E_STEEL = 205_000.0  # VDI 2230-1, Table A9: tempered steel [MPa]
SEAT = Seat(11.6, 9.0, 90.0, "printed")


def test_a_socket_head_gives_a_tenth_of_a_diameter_less():
    """Head: 0.5 d of a hexagon, 0.4 d of a socket head, both over the shank's own section."""
    d = 8.0
    hexagon, socket = (stretch(a_thread(d), SEAT, 20.0, socket=one).bolt for one in (False, True))

    assert hexagon - socket == pytest.approx(0.1 * d / (E_STEEL * pi * d**2 / 4), rel=0.02)


def test_a_nut_gives_more_than_a_tapped_steel_body():
    """Nut: 0.4 d, tapped body 0.33 d, over the same section and the same steel."""
    d = 8.0
    nut, body = (stretch(a_thread(d), SEAT, 20.0, tapped=one).bolt for one in (False, True))

    assert nut - body == pytest.approx(0.07 * d / (E_STEEL * pi * d**2 / 4), rel=0.02)


def test_the_rule_for_round_heads_is_near_what_standards_print(store):
    """ISO 4762 prints head and bearing face: the rule, where only the head is known, is near."""
    heads = [row for row in many(store, Head, standard="ISO 4762") if row.bearing_diameter_mm]
    off = []
    for row in heads:
        ruled = seat(row._replace(bearing_diameter_mm=None), 0.1)
        assert ruled and ruled.rule == "round-rule" and row.bearing_diameter_mm
        off.append(ruled.d_w_mm / row.bearing_diameter_mm - 1)

    assert len(off) >= 8
    assert abs(sum(off) / len(off)) < 0.02
