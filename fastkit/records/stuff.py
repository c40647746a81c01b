"""Grades of body and bolt material, each property with its own standing."""

from typing import NamedTuple


class Stuff(NamedTuple):
    """One grade of material; what it is known for stands in the tables below."""

    TABLE = "stuff"

    id: str  # s355, en-gjl-250, 6061-t6, pa66-gf30
    title: str
    family: str  # steel, stainless, iron, aluminium, magnesium, copper, titanium, nickel, plastic
    source: str
    locator: str
    checked: str


class PressureLimit(NamedTuple):
    """Pressure under a head or nut that a material bears, by edition of VDI 2230."""

    TABLE = "pressure_limit"

    stuff: str
    edition: str
    tensile_mpa: float  # as printed beside it; the lower end of a printed range
    pressure_mpa: float
    note: str | None
    source: str
    locator: str
    checked: str


class Expansion(NamedTuple):
    """Linear thermal expansion at room temperature."""

    TABLE = "expansion"

    stuff: str
    expansion_per_k: float
    source: str
    locator: str
    checked: str


class Elasticity(NamedTuple):
    """Elastic constants at room temperature."""

    TABLE = "elasticity"

    stuff: str
    modulus_mpa: float
    shear_modulus_mpa: float | None
    poisson: float
    source: str
    locator: str
    checked: str


class ShearStrength(NamedTuple):
    """Tensile strength and the shear strength that its threads have, typical values."""

    TABLE = "shear_strength"

    stuff: str
    tensile_mpa: float
    shear_mpa: float
    source: str
    locator: str
    checked: str


class ShearRatio(NamedTuple):
    """Shear strength over tensile strength of a family of materials."""

    TABLE = "shear_ratio"

    id: str
    title: str
    family: str
    ratio: float
    source: str
    locator: str
    checked: str


class Engagement(NamedTuple):
    """Length of engagement, in diameters, at which the bolt breaks before the thread strips."""

    TABLE = "engagement"

    body: str  # steel-360
    title: str
    tensile_min_mpa: float | None
    bolts: str  # classes of bolt: 8.8, any
    series: str  # coarse, fine
    length_d: float
    source: str
    locator: str
    checked: str


class Boss(NamedTuple):
    """Boss for a 30 degree thread-forming screw, in diameters of the screw."""

    TABLE = "boss"

    stuff: str
    hole_d: float
    outer_d: float
    length_d: float
    source: str
    locator: str
    checked: str
