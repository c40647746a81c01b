"""What goes back: lengths and heads that are made, finishes, locks, words about old parts."""

from typing import NamedTuple


class InchLength(NamedTuple):
    """A length that inch screws are made in."""

    TABLE = "inch_length"

    id: str  # 1-1/2in
    length_mm: float
    source: str
    locator: str
    checked: str


class Offer(NamedTuple):
    """A standard that shops sell, and the classes it is sold in."""

    TABLE = "offer"

    standard: str  # of the coarse thread
    title: str
    form: str  # hexagon, flange, socket, pan, cheese, button, countersunk
    fine: str | None  # standard of the same head with a fine thread
    grades: str  # separated by blanks
    load_factor: float  # 0.8: of reduced loadability, marked 08.8
    cam_out: float  # how readily the tool slips out: 0 hardly, 2 by design
    partial: int  # 1: with a shank from a length on
    source: str
    locator: str
    checked: str


class Make(NamedTuple):
    """A material with its finish, as it is bought."""

    TABLE = "make"

    id: str
    words: str  # in a line to buy by
    grades: str
    finish: str
    metal: str  # as in a galvanic pair
    friction: str  # condition with nothing added
    greased: str  # condition with its lubricant on thread and head
    serves: int  # 1 dry inside, 2 damp, 3 outdoors, 4 salt
    use_max_degc: float | None
    from_mm: float | None  # smallest diameter it is made in
    tapped: int  # 1: goes into an ordinary tapped hole
    plated: int  # 1: electroplated, with hydrogen to be thought of
    cost: float  # 0 cheapest
    source: str
    locator: str
    checked: str


class Lock(NamedTuple):
    """One way of keeping a fastener from working loose."""

    TABLE = "lock"

    id: str
    title: str
    joint: str  # tapped, nut, any
    from_degc: float | None
    to_degc: float | None
    frees: str  # hand, heat
    again: str  # what to do at the next assembly
    effect: str  # on the torque
    source: str
    locator: str
    checked: str


class PartWord(NamedTuple):
    """Words said of an old part or of its place, and what they mean."""

    TABLE = "part_word"

    words: str
    what: str  # one of the choices in compiler/tables_replacement.py: form, finish, clamped
    value: str
    source: str
    locator: str
    checked: str


class ReuseRule(NamedTuple):
    """May it go back? The first rule whose cue fits decides."""

    TABLE = "reuse_rule"

    id: str
    cue: str  # kind:…, state:…, had:…, safety:*; -: always
    verdict: str  # reuse, measure, renew
    because: str
    source: str
    locator: str
    checked: str
