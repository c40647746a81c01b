"""What the planner answers, in codes with numbers; `answers.wording` makes sentences of them."""

from typing import NamedTuple

from fastkit.extraction.situation import Situation
from fastkit.reach.fit import Margins, Shortfall


class Reason(NamedTuple):
    """A code and its values, in the order that the wording of the code takes them."""

    code: str
    values: tuple[str | float, ...] = ()


class WeakestLink(NamedTuple):
    """The link that fails first, and the torque asked of it (10th, 50th, 90th percentile)."""

    part: str
    capacity_nm: float
    required_nm: tuple[float, float, float]


class Later(NamedTuple):
    """A method where it is only named as what comes later: what it asks for, at which damage."""

    method: str
    damage: str
    conditions: tuple[str, ...]  # as a move's
    away: tuple[tuple[str, float], ...]  # as a turn's that is led to


class Move(NamedTuple):
    """One method that is not ruled out."""

    rank: int
    method: str
    variant: str | None
    verdict: str  # first, next, last-resort
    chance: float
    minutes: float
    expected_minutes: float
    margins: Margins
    weakest_link: WeakestLink | None
    outcomes: tuple[tuple[str, float], ...]
    why: tuple[Reason, ...]
    needs: tuple[str, ...]
    after: str | None
    conditions: tuple[str, ...]  # what a neighbour nearer than its shield distance asks for
    if_it_fails: str  # a method, or stop
    later: Later | None  # what that asks for where it is then done


class RuledOut(NamedTuple):
    """One method that cannot be used here, why, and what would bring it back."""

    method: str
    because: Reason
    short_by: Shortfall | None
    opens_it: Reason | None


class Assumption(NamedTuple):
    """A default that was taken because nothing was said."""

    what: str
    value: str | float | bool | None
    changes_first_move: bool


class Measure(NamedTuple):
    """The one measurement that would change the plan most."""

    axis: str  # above_mm, beside_mm, swing_deg, stub_mm
    below: float
    first_becomes: str


class Turned(NamedTuple):
    """What comes once treatments are done or room is made: chance and minutes of it alone."""

    method: str
    chance: float
    minutes: float
    conditions: tuple[str, ...]  # as a move's
    away: tuple[tuple[str, float], ...]  # neighbours that must be moved first, and how far off [mm]


class Plan(NamedTuple):
    """The ranked plan; `chance` is that it ends with the fastener free."""

    situation: Situation
    assumed: tuple[Assumption, ...]
    moves: tuple[Move, ...]
    ruled_out: tuple[RuledOut, ...]
    expected_minutes: float
    chance: float
    stop_when: tuple[Reason, ...]
    leads_to: Turned | None  # what the treatments that come first make way for
    in_room_made: Turned | None  # what follows where the first move makes room
    measure_next: Measure | None
    last: Later | None  # the last move worth making, that `stop_when` names
    opened: tuple[str, ...]  # neighbours whose lines may be opened on the way there
