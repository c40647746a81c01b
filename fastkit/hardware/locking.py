"""One way of locking, and what goes on the thread: never a locker and a paste together."""

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from fastkit.hardware.old import Old, Place
from fastkit.records.replacement import Lock, Make

SHOOK = frozenset(("vibration",))
LOCKED = frozenset(("locker", "spring-washer", "cotter", "wire", "lock-nut"))
SMALL_MM = 6.0  # practice: below it the low strength, so that it opens again
PASTE_FROM_DEGC = 120.0  # practice: oil is gone above it
ZINC_PASTE_TO_DEGC = 204.0  # compound_limits.csv, anti-seize-zinc
LIGHT = frozenset(("aluminium", "magnesium"))


class Thread(NamedTuple):
    """What is put on the thread, and the friction condition that follows."""

    lubricant: str  # none, oil, anti-seize-…, maker
    friction: str


def wants_lock(old: Old, place: Place) -> bool:
    """Whether preload alone will not do: it shakes, came loose, or was locked before."""
    return bool(
        SHOOK & set(place.flags)
        or "came-loose" in old.states
        or LOCKED & set(old.had)
        or old.kind == "lock-nut"
    )


def choose(
    locks: Iterable[Lock],
    wanted: bool,
    joint: str,
    body: str,
    nominal_mm: float,
    degc: float | None,
    flat_seat: bool,
    insulated: bool,
) -> Lock | None:
    """
    Choose one lock.

    Args:
        locks: All that there are, by id.
        wanted: The joint wants one.
        joint: nut or tapped.
        body: Material of the internal thread.
        nominal_mm: Diameter [mm].
        degc: Temperature in service [degC]; None: ordinary.
        flat_seat: The head is flat underneath, so that a washer goes under it.
        insulated: A sleeve and washer part the fastener from the body.

    Returns:
        The lock; None where one is wanted and none fits.
    """
    held: Mapping[str, Lock] = {row.id: row for row in locks}
    if not wanted or body == "plastic":  # there the insert or the formed thread holds
        return held["preload"]
    order = ["nut-nylon", "nut-metal"]
    if joint != "nut":
        usual = "threadlocker-low" if nominal_mm < SMALL_MM else "threadlocker-medium"
        order = [usual, "threadlocker-high-heat"]
    if flat_seat and not insulated:
        order.append("wedge-washers")
    return next((held[name] for name in order if _stands(held[name], degc)), None)


def _stands(lock: Lock, degc: float | None) -> bool:
    if degc is None:
        return True
    return (lock.from_degc is None or lock.from_degc <= degc) and (
        lock.to_degc is None or degc <= lock.to_degc
    )


def on_thread(
    make: Make,
    lock: Lock,
    body: str,
    place: Place,
    conducts: bool = False,
    safety: bool = False,
) -> Thread:
    """
    What is put on thread and head, and the friction that is to be reckoned with.

    Args:
        make: Material and finish of the fastener.
        lock: The lock that was chosen.
        body: Material of the internal thread.
        place: Where it sits.
        conducts: Current goes through the joint: nothing on the thread.
        safety: A life hangs on it: what its maker says, for it belongs to the maker's torque.
    """
    if safety:
        return Thread("maker", make.friction)
    if lock.id.startswith("threadlocker"):
        return Thread("none", "threadlocker")
    if conducts or body == "plastic":  # oil and paste crack stressed plastics
        return Thread("none", make.friction)
    degc = place.temperature_degc or 20.0
    stainless = make.finish == "passivated"
    if stainless or degc > PASTE_FROM_DEGC or make.id == "b7":
        paste = "anti-seize-white" if "food" in place.flags else "anti-seize-nickel"
        if body in LIGHT:
            paste = "anti-seize-zinc" if degc <= ZINC_PASTE_TO_DEGC else "anti-seize-white"
        return Thread(paste, make.greased if stainless else "anti-seize")
    if body in LIGHT and (place.level or 2) >= 3:
        return Thread("anti-seize-zinc", make.greased)
    return Thread("oil", make.greased)
