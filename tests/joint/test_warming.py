"""What heat and cold do to a bond: sizes, bodies and kinds of bond against each other."""

import pytest

from fastkit.joint.warming import Lump, Stuff, heated, relief
from fastkit.mechanics.heat import lumped_time, spreading_conductance

BOLT_M8 = Lump(volume_mm3=1178.0, contact_mm2=270.0, across_mm=13.0)
BOLT_M20 = Lump(volume_mm3=16026.0, contact_mm2=1584.0, across_mm=30.0)
STEEL, ALUMINIUM = 51.9, 150.0  # W/m/K


def test_a_disc_on_a_thick_body():
    """Shape factor 2 D: a disc of 10 mm on a body of 50 W/m/K carries off 1 W per kelvin."""
    assert spreading_conductance(10.0, 50.0) == pytest.approx(1.0)


def test_time_of_a_lump_that_loses_heat():
    """Without loss it is C dT/P; half of the final rise takes 0.693 of the time constant."""
    assert lumped_time(230.0, 500.0, 1e-9, 4.5) == pytest.approx(230 * 4.5 / 500)
    assert lumped_time(250.0, 500.0, 1.0, 4.5) == pytest.approx(4.5 * 0.6931, rel=1e-4)


def test_a_small_bolt_glows_in_seconds_a_large_one_does_not():
    """800 W makes an M8 in steel dull red within half a minute; 300 W never an M20."""
    small = heated(BOLT_M8, STEEL, 800.0, 600.0)
    large = heated(BOLT_M20, STEEL, 300.0, 600.0)

    assert small.celsius == 600.0
    assert 2 < small.seconds < 30
    assert large.celsius < 300
    assert large.seconds > 30


def test_a_light_alloy_body_draws_the_heat_off():
    """The same iron on the same screw: cooler or later in aluminium than in steel."""
    iron, light = (heated(BOLT_M8, stuff, 60.0, 250.0) for stuff in (STEEL, ALUMINIUM))

    assert light.celsius < iron.celsius < 250


def test_a_warm_housing_lets_a_steel_screw_go():
    """Aluminium 80 K warmer eases the flanks by 20 to 30 MPa, steel not at all."""
    eased = relief(8.0, Stuff(21.5e-6, 80.0, 71700.0), Stuff(11.7e-6, 80.0, 207000.0))

    assert 20 < eased < 30
    assert relief(8.0, Stuff(11.7e-6, 80.0, 207000.0), Stuff(11.7e-6, 80.0, 207000.0)) == 0.0


def test_a_stainless_screw_in_warm_steel_grips_harder():
    """It grows more than the body: nothing is eased, the pressure rises."""
    assert relief(8.0, Stuff(11.7e-6, 80.0, 207000.0), Stuff(17.2e-6, 80.0, 207000.0)) < 0
