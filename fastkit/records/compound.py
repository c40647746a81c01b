"""What is put on threads: lockers, sealants, anti-seize, penetrants, cleaners, greases."""

from typing import NamedTuple


class Compound(NamedTuple):
    """One kind of compound, described by what it is or how strong."""

    TABLE = "compound"

    id: str  # threadlocker-medium, anti-seize-copper
    title: str
    sort: str  # threadlocker, sealant, anti-seize, penetrant, cleaner, grease, dry film
    source: str
    locator: str
    checked: str


class LockerStrength(NamedTuple):
    """Torque to break a cured threadlocker loose and to go on turning, on a named bolt."""

    TABLE = "locker_strength"

    compound: str
    bolt: str  # M10, 3/8-16
    breakaway_min_nm: float
    breakaway_max_nm: float
    turning_min_nm: float
    turning_max_nm: float
    source: str
    locator: str
    checked: str


class CompoundLimit(NamedTuple):
    """A temperature of a compound."""

    TABLE = "compound_limit"

    compound: str
    what: str  # service from, service to, lets go from, lets go to
    temperature_degc: float
    source: str
    locator: str
    checked: str


class Flammability(NamedTuple):
    """How easily a liquid burns; per cent of the vapour in air by volume."""

    TABLE = "flammability"

    compound: str
    flash_min_degc: float | None
    flash_max_degc: float | None
    ignition_degc: float | None
    lower_limit_pct: float | None
    upper_limit_pct: float | None
    source: str
    locator: str
    checked: str


class CompoundNote(NamedTuple):
    """A sentence on a compound: cure, gap, what it attacks, what it gives off."""

    TABLE = "compound_note"

    compound: str
    topic: str
    text: str
    source: str
    locator: str
    checked: str
