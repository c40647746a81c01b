"""Moves that are due before any other, because every number would be wrong without them."""

from collections.abc import Collection, Mapping, Sequence

from fastkit.extraction.result import Reason, RuledOut
from fastkit.extraction.situation import HEADLESS, TUBE_NUT, TURNING, Situation
from fastkit.extraction.stubs import BELOW
from fastkit.extraction.warmth import LIGHT
from fastkit.records.bench import Bench
from fastkit.records.method import Method, Variant

DRY_OFF, UNLOAD, ISOLATE, OIL_THREAD = "dry-off", "unload", "isolate", "oil-thread"
CLEAN_RECESS = "clean-recess"
PRESSURE = "pressurised"
PRESSURE_NEIGHBOURS = (PRESSURE, "refrigerant")
JACK, JACK_ALONE = ON_JACK = "jack", "jack-alone"  # with, without something to set under it
HOLDS_UP = ("stands", "blocks")  # tools that hold a vehicle or a weight up
SERVE = {  # tools that take off what is due to be taken off
    "on_jack": HOLDS_UP,
    "load_weight": HOLDS_UP,
    "load_spring": ("spring-clamp", "stands"),
    "load_strut": ("spring-clamp",),
}
AT_IT = 10.0  # mm: fuel or refrigerant no further off is what is under pressure there
CHUCK = 13.0  # mm: what the chuck of a hand drill takes
NO_BLOWS = ("plastic", "magnesium", "glass", "ceramic", "carbon")  # as vetoes.csv, of shock-tap
STRUCK = 30.0  # mm: no further off a slipping tool strikes; practice
RECESS_STATES = ("intact", "worn", "stripped")
# neighbours that are made safe first wherever they stand, in this order
MADE_SAFE = ("live", "fluororubber", "airbag", "battery", "hot")
STRUT = "damper-nut"  # the part under a spring that nothing but its clamp holds
HOLDS = ("fuel", "refrigerant")  # have a pressure of their own
WAITED = ("airbag", "battery", "hot")  # and fuel that is opened: safe after a wait alone
# parts of lead or with porcelain in them: no tool is hammered on them, nor round a broken hard one
UNSTRUCK = ("spark-plug", "glow-plug", "battery-clamp", "battery-nut")
LOCKED = "threadlocked"  # how the kinds of seizure begin whose thread is full: no oil gets in
LINE = "line"  # what holds a pressure that nobody named
BODY = "sealed"  # what is shut for good: a strut, a damper


def possible(
    gate: str,
    lack: Collection[str],
    variants: Mapping[str, Sequence[Variant]],
    only: Collection[str] = (),
) -> bool:
    """Say whether a gate can be done with what is at hand; `only` are the tools that serve here."""
    rows = [row for row in variants.get(gate, ()) if not only or row.tool in only]
    return not rows or any(row.tool not in lack for row in rows)


def standing(situation: Situation, variants: Mapping[str, Sequence[Variant]]) -> str:
    """Return what it rests on: a jack alone where nothing can be set under it."""
    on_jack = situation.support == JACK and UNLOAD not in situation.tried
    held = possible(UNLOAD, situation.lack, variants, HOLDS_UP)
    return JACK_ALONE if on_jack and not held else situation.support


def due(
    situation: Situation,
    outer: bool,
    variants: Mapping[str, Sequence[Variant]],
    oil: bool = False,
) -> tuple[tuple[str, Reason], ...]:
    """
    Return the gates due, in order, each with its reason; what has been done is not due again.

    `outer` says that the fastener is driven from outside and so has no recess to clean; a gate
    whose every tool of `variants` is lacking cannot be done. `oil` says that what burns is not
    dried off before all else: a thread turned dry galls, or nothing is to come that would light it.
    """
    return tuple(
        (gate, Reason("due_first", (why,)))
        for gate, why in _asked(situation, outer)
        if _served(gate, why, situation, variants) and not (oil and gate == DRY_OFF)
    )


def _served(
    gate: str, why: str, situation: Situation, variants: Mapping[str, Sequence[Variant]]
) -> bool:
    return possible(gate, situation.lack, variants, SERVE.get(why, ()))


def undone(
    situation: Situation, outer: bool, variants: Mapping[str, Sequence[Variant]]
) -> tuple[RuledOut, ...]:
    """Return the gates that are due and cannot be done, with the tool that they need."""
    return tuple(
        RuledOut(gate, Reason("no_tool", tool), None, Reason("tool", tool))
        for gate, why in _asked(situation, outer)
        if not _served(gate, why, situation, variants)
        for tool in [(variants[gate][0].tool,)]
    )


def held_back(situation: Situation) -> str:
    """Return why what it holds back is due: a strut's spring is one that only its clamp holds."""
    strut = situation.load == "spring" and situation.part == STRUT
    return "load_strut" if strut else f"load_{situation.load}"


def at_hand(
    situation: Situation, outer: bool, on_wheels: bool, nominal_mm: float
) -> frozenset[str]:
    """
    Return the neighbours and states by which steps and cautions are told or left out.

    `outer` says that it is driven from outside, `on_wheels` that it is cracked loose with the
    vehicle on its wheels; `nominal_mm` is its thread.
    """
    found = {near.thing for near in situation.near} | {situation.load}
    own = own_lines(situation)
    found = {f"{thing}-beside" if thing in HOLDS and thing not in own else thing for thing in found}
    if PRESSURE in (*situation.sealed, *situation.piped):
        found.remove(PRESSURE)  # nobody vents a strut, nobody props a line
        found.add(BODY if PRESSURE in situation.sealed else LINE)
    if situation.load == "pressure" and not own:
        found.add(LINE)
    if on_wheels:
        found -= {"spring", "weight"}  # which the wheel on the ground holds
    found.add("on-wheels" if on_wheels else "off-wheels")
    found.add("fitting" if situation.kind == TUBE_NUT else "captive")
    found.add("recess" if situation.damage in RECESS_STATES and not outer else "face")
    found.add("stub" if situation.damage in HEADLESS else "head")
    sunk = situation.damage == BELOW or situation.pocket_mm is not None
    found.add("sunk-stub" if sunk else "open-stub")
    found.add("in-plastic" if situation.into == "plastic" else "in-metal")
    found.add("no-blows" if situation.into in NO_BLOWS else "blows")
    found.add("no-glow" if situation.into in LIGHT else "glows")
    if nominal_mm > CHUCK:
        found.add("wide")
    if situation.wasted_pct:
        found.add("wasted")
    if situation.damage in TURNING:
        found.add("turning")
    if situation.coating == "stainless":
        found.add("stainless")
    if situation.coating == "stainless" or situation.seized == "galled":
        found.add("galls-locked" if situation.seized.startswith(LOCKED) else "galls")
    return frozenset(found if on_wheels else found | {"lifted"})


def touching(situation: Situation) -> frozenset[str]:
    """Return the hoses, looms and pipes where a hand tool that slips meets them; not its own."""
    foreign = {*situation.loose, *situation.rigid}
    return frozenset(
        near.thing for near in situation.near if near.mm <= AT_IT and near.thing in foreign
    )


def is_unstruck(situation: Situation) -> bool:
    """Say whether no tool is hammered on: what is brittle or wedged hard in it splinters."""
    return situation.damage == "tool-stuck" or situation.part in UNSTRUCK


def own_lines(situation: Situation) -> frozenset[str]:
    """Return the fuel or refrigerant that is opened with it; what only stands beside is not."""
    opens = situation.kind == TUBE_NUT or situation.load == "pressure" or situation.part
    at_it = (near.thing for near in situation.near if near.mm <= AT_IT)
    return frozenset(thing for thing in at_it if opens and thing in HOLDS)


def gate_minutes(gate: Method, situation: Situation, bench: Bench) -> float:
    """Return what a gate takes [min]; making safe is a wait as well beside some things."""
    return gate.minutes + (bench.get("safe_wait") if _waited(gate.id, situation) else 0.0)


def _waited(gate: str, situation: Situation) -> bool:
    things = {near.thing for near in situation.near}
    return gate == ISOLATE and (not things.isdisjoint(WAITED) or "fuel" in own_lines(situation))


def _asked(situation: Situation, outer: bool) -> list[tuple[str, str]]:
    """Return what would have to be done first, and why."""
    things = {near.thing for near in situation.near}
    running = "running" in things  # what else is made safe is told with it
    found = [(ISOLATE, "beside_running")] if running else []
    if situation.load in ("spring", "weight"):
        found.append((UNLOAD, held_back(situation)))
    elif situation.support == JACK:
        found.append((UNLOAD, "on_jack"))
    unsafe = None if running else _unsafe(situation, things)
    if unsafe:
        found.append((ISOLATE, unsafe))
    if situation.recess == "filled" and not outer and situation.damage in RECESS_STATES:
        found.append((CLEAN_RECESS, "recess_filled"))
    if situation.residue == "flammable":
        found.append((DRY_OFF, "residue_flammable"))
    if situation.residue == "chlorinated" and situation.seized == "galled":
        found.append((OIL_THREAD, "galled_dry"))
    return [(gate, why) for gate, why in found if gate not in situation.tried]


def _unsafe(situation: Situation, things: Collection[str]) -> str | None:
    """Return why it is made safe first where nothing runs; pressure goes before all else."""
    if situation.load == "pressure":
        return "load_pressure"
    if situation.load != "none" and _pressed_close(situation):
        return "beside_pressure"
    if situation.load != "none" and _fuel_line(situation):
        return "fuel_line"
    return next((f"beside_{thing}" for thing in MADE_SAFE if thing in things), None)


def _pressed_close(situation: Situation) -> bool:
    """Say whether something under pressure stands where a tool that slips strikes it."""
    return any(near.thing in PRESSURE_NEIGHBOURS and near.mm <= STRUCK for near in situation.near)


def _fuel_line(situation: Situation) -> bool:
    """Say whether a tube nut is that of a fuel line."""
    return situation.kind == TUBE_NUT and "fuel" in own_lines(situation)
