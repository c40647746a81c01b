"""Finishes of fasteners: what they measure, stand, weaken and give off."""

from typing import NamedTuple


class Finish(NamedTuple):
    """One finish; its values stand in the tables below."""

    TABLE = "finish"

    id: str  # zinc-plated, hot-dip, zinc-flake
    title: str
    metal: str | None  # as it stands in a galvanic pair
    friction: str | None  # condition for tightening as it comes
    source: str
    locator: str
    checked: str


class FinishThickness(NamedTuple):
    """Thickness of a finish by class or standard."""

    TABLE = "finish_thickness"

    finish: str
    variant: str
    thickness_min_um: float
    thickness_max_um: float | None
    source: str
    locator: str
    checked: str


class CoatingMass(NamedTuple):
    """Mass of a coating and the thickness that it makes: mass over density."""

    TABLE = "coating_mass"

    finish: str
    variant: str
    mass_g_m2: float
    density_g_cm3: float
    thickness_um: float
    source: str
    locator: str
    checked: str


class FinishCorrosion(NamedTuple):
    """Hours of neutral salt spray (ISO 9227) until white and until red rust."""

    TABLE = "finish_corrosion"

    finish: str
    variant: str
    thickness_um: float | None
    white_rust_h: float | None
    red_rust_h: float | None
    source: str
    locator: str
    checked: str


class FinishLimit(NamedTuple):
    """A temperature that matters to a finish."""

    TABLE = "finish_limit"

    finish: str
    what: str  # service, protection falls, melts, cracks stressed steel, fume
    temperature_degc: float
    note: str | None
    source: str
    locator: str
    checked: str


class FinishNote(NamedTuple):
    """A sentence on a finish: hydrogen, fume, where not."""

    TABLE = "finish_note"

    finish: str
    topic: str
    text: str
    source: str
    locator: str
    checked: str
