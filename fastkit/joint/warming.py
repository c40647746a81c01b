"""How hot a seized fastener gets in its body, how soon, and how far that eases its thread."""

from math import pi
from typing import NamedTuple

from fastkit.mechanics.heat import (
    gap_change,
    lumped_time,
    press_compliance,
    spreading_conductance,
)

# materials-science-9 Table B.8 and B.1, plain carbon steel
STEEL_J_GK, STEEL_G_MM3 = 0.486, 0.00785
ROOM_C = 20.0
# Workshop judgement, common practice with no published source.
CONTACT_W_MM2K = 0.003  # through a dry, rusty joint, per mm² that touches
NEARLY = 0.95  # of the rise that a lasting heat ends at: nobody waits for the rest
WALL_D = 2.0  # outside of the body round a thread, in its diameters


class Lump(NamedTuple):
    """The steel that is heated: volume, what touches the body, across its bearing face."""

    volume_mm3: float
    contact_mm2: float
    across_mm: float


class Heated(NamedTuple):
    """A temperature, and the time after which it is reached [s]."""

    celsius: float
    seconds: float


class Stuff(NamedTuple):
    """One side of a joint: expansion [1/K], temperature rise [K], modulus [MPa]."""

    expansion_per_k: float
    rise_k: float
    modulus_mpa: float


def lump(
    d_mm: float, engaged_mm: float, head_area_mm2: float, head_mm: float, across_mm: float
) -> Lump:
    """
    What is heated: the head, if it is there, and one diameter of shank.

    Args:
        d_mm: Nominal diameter [mm].
        engaged_mm: Engaged length [mm].
        head_area_mm2: Area of the head seen from above; 0 where it is gone [mm^2].
        head_mm: Its height [mm].
        across_mm: Across its bearing face; the diameter where it is gone [mm].

    Returns:
        The lump.
    """
    ring = max(0.0, pi / 4 * (across_mm**2 - (1.1 * d_mm) ** 2))
    return Lump(
        pi / 4 * d_mm**3 + head_area_mm2 * head_mm, pi * d_mm * engaged_mm + ring, across_mm
    )


def heated(piece: Lump, conductivity_w_mk: float, power_w: float, target_c: float) -> Heated:
    """
    How hot so much power makes a lump in its body: as asked, or nearly what it ends at.

    Args:
        piece: The lump.
        conductivity_w_mk: Of the body [W/m/K].
        power_w: That goes in, or is drawn out where the target is below room temperature [W].
        target_c: Temperature wanted [°C].

    Returns:
        Temperature and time.
    """
    contact = CONTACT_W_MM2K * piece.contact_mm2
    spread = spreading_conductance(piece.across_mm, conductivity_w_mk)
    loss = contact * spread / (contact + spread)
    wanted = target_c - ROOM_C
    rise = min(abs(wanted), NEARLY * power_w / loss)
    capacity = piece.volume_mm3 * STEEL_G_MM3 * STEEL_J_GK
    seconds = lumped_time(rise, power_w, loss, capacity)
    return Heated(ROOM_C + (rise if wanted > 0 else -rise), seconds)


def relief(d_mm: float, body: Stuff, screw: Stuff) -> float:
    """
    Pressure between the flanks that unlike growth takes away [MPa]; below zero it grips harder.

    The gap that opens, over the compliance of a press fit of the same diameter in a body of twice
    that.

    Args:
        d_mm: Diameter of the thread [mm].
        body: The body round it.
        screw: The fastener.

    Returns:
        Pressure.
    """
    gap = gap_change(d_mm, body.expansion_per_k, body.rise_k, screw.expansion_per_k, screw.rise_k)
    eased = press_compliance(d_mm, 0.0, WALL_D * d_mm, screw.modulus_mpa, body.modulus_mpa)
    return gap / eased
