"""Ways of loosening: what each does, needs, gives off, and where it must not be used."""

from typing import NamedTuple


class Method(NamedTuple):
    """
    One method slug.

    `kind` says how the planner treats it: `gate` (a move due before any other), `treat`
    (weakens a bond), `turn` (a torque on the fastener), `part` (frees it without turning the
    thread, or with odds that only judgement gives), `room` (changes the access).
    `grip` says what carries the torque: drive, bite (into a damaged drive), flats, slot, weld,
    shank, rim, extractor, drill, far-side; None where the method does not turn.
    """

    TABLE = "method"

    id: str
    title: str
    kind: str
    grip: str | None
    minutes: float  # one attempt, tools laid out
    restores: float  # share of the lost grip of a damaged drive that it wins back, 0..1
    # N·m per mm of head diameter squared that it can hold by itself; None: from the chain
    hold: float | None
    chance: float | None  # part, gate, room: that it does its own job
    spoils: float  # share of the --spoil price that its success costs, 0..1
    leads_to: str | None  # damage state its success leaves where it does not free the fastener
    repeats: int  # times a treatment may be done
    residue: str | None  # flammable or chlorinated residue that it leaves
    opens: str | None  # room moves: in words, what it adds
    source: str
    locator: str
    checked: str


class MethodText(NamedTuple):
    """A step or a caution of a method, in order."""

    TABLE = "method_text"

    method: str
    part: str  # step, caution, vital; lobed-title, -step, -caution: in their place on lobes
    n: int
    told: str | None  # at which neighbours or states of it, between blanks; None: always
    text: str


class MethodHazard(NamedTuple):
    """A hazard that a method gives off."""

    TABLE = "method_hazard"

    method: str
    hazard: str


class VariantHazard(NamedTuple):
    """A hazard that one tool of a method gives off, and its others do not."""

    TABLE = "variant_hazard"

    method: str
    variant: str
    hazard: str
    source: str
    locator: str
    checked: str


class Variant(NamedTuple):
    """
    One tool with which a method may be done, and the room it takes.

    `beside_mm` is measured outward from the head's edge (shank's where the head is gone),
    `swing_deg` in the plane of the handle, 0 where nothing swings; None: no demand on that axis.
    """

    TABLE = "variant"

    id: str  # bit-in-ratchet, short-key …
    method: str
    tool: str
    title: str
    above_mm: float
    beside_mm: float
    swing_deg: float | None  # None: the drive's own symmetry angle plus play
    side_width_mm: float | None  # opening at head level through which it must come
    side_depth_mm: float | None
    # smallest pocket it goes down, measured over the head's diameter
    pocket_diameter_mm: float | None
    torque_nm: float | None  # what arm and tool give; None: no limit of its own
    push: float  # axial push as a share of body weight behind a straight driver, 0..1
    power: str | None  # electric, air
    # recess, flats, hexagon, lobes, captive, fitting, struck: all it serves; None: any
    fits: str | None
    minutes: float  # in addition to the method's
    source: str
    locator: str
    checked: str


class StubGrip(NamedTuple):
    """
    What one tool takes of a snapped shank; what stands here not at all takes none.

    `tool` is a variant, or any. Proud: the shank must stand out by the greater of both lengths.
    Below: it is reached as deep as `length_mm`, less `length_d` diameters.
    """

    TABLE = "stub_grip"

    method: str
    tool: str
    side: str  # proud, below
    length_d: float  # in diameters of the thread
    length_mm: float
    source: str
    locator: str
    checked: str


class BondEffect(NamedTuple):
    """What a treatment leaves of a bond: factor on the bond stress, by kind of seizure."""

    TABLE = "bond_effect"

    method: str
    seizure: str
    factor: float  # first time
    again: float  # each further time
    source: str
    locator: str
    checked: str


class HeatSource(NamedTuple):
    """
    What one way of heating or chilling puts into a fastener or its body.

    At `crust_c` it does to rust, and at `soft_c` to paint and threadlocker, what its bond effects
    say. `power_w` is what goes in, or is drawn out; None: as hot as it is made, whatever the size.
    """

    TABLE = "heat_source"

    method: str
    warms: str  # screw, body, both
    power_w: float | None
    crust_c: float
    soft_c: float
    source: str
    locator: str
    checked: str


class Veto(NamedTuple):
    """
    A named rule: the method is out while every stated condition holds.

    `field` is an option of the situation in underscore form (or `size_mm`, the thread's
    nominal); `op` is `=`, `in` (words split by blanks), `<`, `>`. Rows of one `rule` must all hold.
    """

    TABLE = "veto"

    rule: str
    method: str
    field: str
    op: str
    value: str
    because: str
    opens_it: str | None
    source: str
    locator: str
    checked: str


class ToolVeto(NamedTuple):
    """A rule as `Veto` on one tool of a method alone: its others come under none of it."""

    TABLE = "tool_veto"

    rule: str
    method: str
    variant: str
    field: str
    op: str
    value: str
    because: str
    opens_it: str | None
    source: str
    locator: str
    checked: str


class Condition(NamedTuple):
    """What a method asks for where a field of the situation has one of some values."""

    TABLE = "condition"

    method: str
    field: str
    value: str  # words split by blanks
    condition: str
    source: str
    locator: str
    checked: str


class Renewal(NamedTuple):
    """What is not put back once it is out; the rows of one `rule` must all hold, as a veto's."""

    TABLE = "renewal"

    rule: str
    field: str
    op: str
    value: str
    renew: str
    source: str
    locator: str
    checked: str


class RoomGain(NamedTuple):
    """
    What a room-making move adds to the room on each axis; None: the axis becomes free.

    `distance_mm` is added to the distance of neighbours that can be moved; None: they are gone.
    """

    TABLE = "room_gain"

    method: str
    above_mm: float | None
    beside_mm: float | None
    swing_deg: float | None
    side_mm: float | None
    distance_mm: float | None
    source: str
    locator: str
    checked: str
