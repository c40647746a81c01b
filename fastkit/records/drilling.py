"""What is drilled into a broken bolt, by thread."""

from typing import NamedTuple


class DrillShare(NamedTuple):
    """How large a hole for one purpose may be, as a share of the thread's root diameter."""

    TABLE = "drill_share"

    purpose: str  # left-hand-drill, spiral-extractor
    title: str
    share_max: float
    wall_min_mm: float  # what must stay between the hole and the root
    source: str
    locator: str
    checked: str


class SpiralExtractor(NamedTuple):
    """A numbered spiral extractor: the bolts that it is meant for and its drill."""

    TABLE = "spiral_extractor"

    id: str  # number
    title: str
    bolt_from_mm: float
    bolt_to_mm: float
    drill_mm: float
    source: str
    locator: str
    checked: str


class DrillOut(NamedTuple):
    """Largest drill for one purpose in one thread; that of the extractor where one fits."""

    TABLE = "drill_out"

    thread: str
    purpose: str
    drill_mm: float
    wall_mm: float  # between hole and root
    extractor: str | None  # number, where the purpose is a spiral extractor
