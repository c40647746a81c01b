"""The situation of a fastener that will not move, as the planner takes it."""

from typing import NamedTuple

TUBE_NUT = "tube-nut"  # a kind
SNAPPED = ("snapped-proud", "snapped-flush", "snapped-below")  # states of damage
HEADLESS = (*SNAPPED, "extractor-broken")
TURNING = ("spinning", "nut-spinning")  # it turns and does not come out


class Near(NamedTuple):
    """Something beside the work and its distance; 0 is touching."""

    thing: str
    mm: float


class Situation(NamedTuple):
    """
    Everything that decides a plan, by the names of the command line's options.

    None on a room axis means free; on thread, grade or drive, not known. `side_mm` (0, 0) means no
    opening from the side at all.
    """

    kind: str = "screw"
    thread: str | None = None  # bare ids: M8x1.25
    grade: str | None = None
    drive: str | None = None
    damage: str = "intact"
    seized: str = "none"
    seized_at: str = "unknown"
    left_hand: bool = False
    coating: str = "unknown"
    load: str = "unknown"
    far_side: str = "unknown"
    residue: str = "none"
    support: str = "unknown"
    recess: str = "clean"
    wasted_pct: float = 0.0
    into: str = "steel"
    engage_mm: float | None = None
    stub_mm: float | None = None  # a snapped shank stands proud so far, or sits so deep
    above_mm: float | None = None
    beside_mm: float | None = None
    swing_deg: float | None = None
    side_mm: tuple[float, float] | None = None
    pocket_mm: tuple[float, float] | None = None
    near: tuple[Near, ...] = ()
    no_heat: bool = False
    power: str | None = None  # None: not named, all at hand; none, electric, air
    have: tuple[str, ...] = ()
    lack: tuple[str, ...] = ()
    can: tuple[tuple[str, float | None], ...] | None = None  # None: not named, all three possible
    tried: tuple[str, ...] = ()
    spoil_min: float = 120.0
    insert: bool = False  # a wire thread insert in the hole
    prevailing: bool = False  # a nut that grips its thread by itself
    loose: tuple[str, ...] = ()  # neighbours that are taken off or tied back by themselves
    rigid: tuple[str, ...] = ()  # neighbours that no one pushes aside: pipes full of something
    piped: tuple[str, ...] = ()  # neighbours named as lines of pipe, with unions or a tap
    sealed: tuple[str, ...] = ()  # neighbours named as shut for good: a gas strut, a damper
    part: str | None = None  # a part that goes by a name of its own: glow-plug

    @property
    def headless(self) -> bool:
        """Whether its head is gone."""
        return self.damage in HEADLESS

    def is_beside(self, thing: str) -> bool:
        """Say whether something stands beside the work, however far off."""
        return any(near.thing == thing for near in self.near)
