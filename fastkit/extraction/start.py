"""The state that a plan starts from, and what the attempts made so far have proved."""

from math import inf
from typing import NamedTuple

from fastkit.extraction.attempts import NOTHING
from fastkit.extraction.chain import median
from fastkit.extraction.facts import Facts
from fastkit.extraction.gates import DRY_OFF
from fastkit.extraction.options import Options
from fastkit.extraction.policy import Policy, State
from fastkit.extraction.resistance import Resistance
from fastkit.extraction.situation import SNAPPED, Situation
from fastkit.records.method import Method, Variant

SNAP_PROVES = 0.7  # of the breaking torque: a jerk, a bend or a crack may have helped; practice
# of what the shank or the drive, hardly pressed, stood, whichever is less: a drive goes round under
# a tool that fits badly, at less than a full pull; practice
ROUND_PROVES = 0.4
GONE_ROUND = ("stripped", "rounded")


class Start(NamedTuple):
    """The first state and the policy over what can follow it."""

    state: State
    policy: Policy


def start(
    situation: Situation,
    facts: Facts,
    options: Options,
    resistance: Resistance,
    most: int,
    rooms: int | None = None,
    like: Policy | None = None,
    narrower: bool = False,
) -> Start:
    """
    Return the first state; each attempt already made is a lower bound on the severity.

    The rest of the arguments is the policy's own.

    A tool that slipped proves R above its slip torque at the treatments then done, no more. A
    shank that snapped in a seized thread proves R above most of its breaking torque, head on; a
    drive that has gone round, somewhat less.
    """
    policy = Policy(options, resistance, situation.spoil_min, most, rooms, like, narrower)
    places = {room.move: number for number, room in enumerate(options.rooms)}
    state = State(situation.damage, policy.treatments.none, situation.residue, 0, 0, NOTHING, False)
    if situation.damage in SNAPPED and situation.seized != "none":
        proved = SNAP_PROVES * options.chains.shank
        bound = _bound(resistance, "intact", 1.0, proved)
        if situation.kind == "stud":
            # its nut held it, under clamp: its root in the body is half as sure to; practice
            by_nut = Resistance(situation._replace(kind="nut"), facts, resistance.count)
            bound = (bound + _bound(by_nut, "intact", 1.0, proved)) // 2
        state = state._replace(bound=min(bound, resistance.count - 1))
    if situation.damage in GONE_ROUND and situation.seized != "none":
        proved = ROUND_PROVES * min(options.chains.shank, options.chains.unpushed)
        state = state._replace(bound=_bound(resistance, "intact", 1.0, proved))
    if situation.damage == "extractor-broken":
        state = state._replace(lost_extractor=True)
    methods = {method.id: method for method in facts.methods}
    for name in situation.tried:
        method = methods[name]
        if method.kind == "treat":
            if name in policy.treatments.index:
                state = state.once_treated(policy.treatments.index[name], method.residue)
            elif method.residue and state.residue == "none":
                state = state._replace(residue=method.residue)
        elif method.kind == "room" and name in places:
            state = state._replace(room=max(state.room, places[name]))
        elif name == DRY_OFF:
            state = state._replace(residue="none")
        elif method.kind == "turn":
            slipped = _gave(options, method, state)
            factor = policy.attempts.left(name, policy.treatments.factor(state.treated))
            bound = _bound(resistance, state.damage, factor, slipped)
            state = state._replace(bound=max(state.bound, bound))
        elif method.kind == "part":
            past = policy.attempts.part(method, state.damage).past
            state = state._replace(parted=state.parted | past)
    return Start(state, policy)


def _gave(options: Options, method: Method, state: State) -> float:
    """
    Return the torque at which an attempt made in vain gave up [N·mm].

    It was made with the strongest tool that fits, held below what the shank stands where a hand
    can; the weakest of all where none fits here.
    """
    least: dict[Variant | None, float] = {}
    for item in options.open(state.damage, state.residue, state.room):
        if item.method.id == method.id:
            least[item.variant] = min(item.capacity, least.get(item.variant, inf))
    if least:
        return max(least.values())
    variants = options.variants(method.id)
    weakest = min(variants, key=lambda item: item.torque_nm or inf, default=None)
    return median(options.chains.of(method, weakest, state.damage))


def _bound(resistance: Resistance, damage: str, factor: float, torque: float) -> int:
    """Return the first slice of severity whose R lies above a torque reached in vain."""
    return resistance.slices.nearest(resistance.quantile(damage, factor, torque))
