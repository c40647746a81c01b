"""Body materials that a fastener sits in."""

from typing import NamedTuple


class Material(NamedTuple):
    """One body material; what is not known is None."""

    TABLE = "material"

    id: str  # steel, cast-iron, aluminium, magnesium, brass, plastic, sheet
    title: str
    shear_strength_mpa: float | None  # of a thread cut in it
    bearing_limit_mpa: float | None  # limiting pressure under a head
    expansion_per_k: float | None
    modulus_mpa: float | None
    brittle: int  # 1: a blow or a lever may crack it
    source: str
    locator: str
    checked: str


class Conductivity(NamedTuple):
    """How a body carries heat off."""

    TABLE = "conductivity"

    material: str
    conductivity_w_mk: float
    source: str
    locator: str
    checked: str
