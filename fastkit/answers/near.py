"""Which bits, keys and sockets of any system lie within hundredths of a drive."""

import sqlite3
from collections.abc import Iterable
from typing import Any, NamedTuple

from fastkit.errors import NotHeld
from fastkit.notation.designation import parse
from fastkit.notation.entry import entry_id
from fastkit.notation.units import LENGTH
from fastkit.reach.near import PRESS_MM, beside
from fastkit.records.drive import Drive, DriveTorque
from fastkit.records.method import Method
from fastkit.records.seizure import DriveState
from fastkit.reference.lookup import get, keys, many, nearest, one
from fastkit.reference.resolve import drive
from fastkit.reference.spelling import slip_of
from fastkit.reference.store import connect

# what a bare size measures, by what is said of it
SIDES = {
    **dict.fromkeys(("rounded", "head", "nut", "outside", "over"), True),
    **dict.fromkeys(("stripped", "cammed", "recess", "inside"), False),
}
IDLE = dict.fromkeys(("a", "the", "bolt", "screw", "worn", "out", "off", "badly", "in", "on"))
IDLE |= dict.fromkeys(("gone", "round"))
HEXAGON = {"hex", "hexagon", "hexagonal"}  # with nothing but a size: of a head, where it is rounded


class NearTool(NamedTuple):
    """A tool: its play [mm] (negative: interference), how it goes on, and what it carries."""

    id: str  # entry id
    play_mm: float
    how: str
    proof_torque_nm: float | None  # the weakest published proof torque; None: none is held
    holds_nm: float | None  # in (on) a stripped drive of this size, driven in; judgement


class NearAnswer(NamedTuple):
    """
    The drive asked for and its near fits, the closest first.

    A bare size is a hexagon, and nobody said whether recess or head: then `fits` are for the
    recess and `head` for the outer hexagon of that size.
    """

    size: str  # entry id
    fits: tuple[NearTool, ...]
    head: "NearAnswer | None" = None

    @property
    def empty(self) -> bool:
        """Whether no tool lies near."""
        return not self.fits and (self.head is None or self.head.empty)

    @property
    def ladder(self) -> tuple[NearTool, ...]:
        """The fits from the loosest to the tightest, metric and inch between each other."""
        return tuple(sorted(self.fits, key=lambda fit: -fit.play_mm))

    def document(self) -> dict[str, Any]:
        """Return the JSON document; without a fit it says so."""
        extra: dict[str, Any] = {}
        if self.head is not None:
            extra["head"] = self.head.document()
        if self.empty:
            extra["reason"] = f"no other tool lies near {self.size}"
        return {"size": self.size, "fits": [fit._asdict() for fit in self.fits], **extra}


def read_words(words: Iterable[str]) -> tuple[str, bool | None]:
    """
    Return the drive that a line names, and whether a bare size is that of a head.

    >>> read_words("rounded 13mm bolt head".split()), read_words("t25 stripped".split())
    (('13mm', True), ('t25', False))
    """
    known = SIDES | IDLE
    every = [word for each in " ".join(words).split() if (word := each.strip(","))]
    meant = [slip_of(word.lower(), known) or word for word in every]
    outer = next((SIDES[word] for word in meant if word in SIDES), None)
    left = [word for word in meant if word not in known]
    bare = [word for word in left if word.lower() not in HEXAGON]
    sized = all(word[0].isdigit() or word.lower() in LENGTH for word in bare)
    return " ".join(bare if outer and sized else left), outer


def near(
    size: str, *, outer: bool | None = None, store: sqlite3.Connection | None = None
) -> NearAnswer:
    """
    Return the near fits of a drive.

    Args:
        size: Designation, id or trade name of the drive, or the bare size of a hexagon.
        outer: Whether a bare size is that of a head or of a recess; None: both are asked.
        store: Open reference; the package's own if left out.

    Raises:
        Misuse: When it does not read as a drive.
        NotHeld: When the data does not hold it.
        Broken: When the reference cannot be read.
    """
    store = store or connect()
    recess, *head = _hexagons(store, size, outer) or [drive(store, size)]
    answer = _near(store, recess)
    return answer._replace(head=_near(store, head[0])) if head else answer


def _near(store: sqlite3.Connection, asked: Drive) -> NearAnswer:
    return NearAnswer(entry_id("drive", asked.id), tools_near(store, asked))


def _hexagons(store: sqlite3.Connection, size: str, outer: bool | None) -> list[Drive]:
    """Recess and head of a bare size, those that are held; none where it is no bare size."""
    text = size.strip()
    parts = parse(f"{text}mm" if text.replace(".", "", 1).isdecimal() else text[:400], {})
    if [part.kind for part in parts] != ["length"]:
        return []
    systems = ("hex", "AF") if outer is None else ("AF",) if outer else ("hex",)
    ids = [f"{system}-{parts[0].key}" for system in systems]
    held = [row for row in (one(store, Drive, id=name) for name in ids) if row]
    if not held:
        raise NotHeld(
            f"no hexagon {parts[0].key} in the data", nearest(ids[-1], keys(store, Drive))
        )
    return held


def tools_near(store: sqlite3.Connection, asked: Drive) -> tuple[NearTool, ...]:
    """Return the near fits of a drive in the data, the closest first."""
    proofs: dict[str, float] = {}
    for row in many(store, DriveTorque):
        proofs[row.drive] = min(row.proof_torque_nm, proofs.get(row.drive, float("inf")))
    share = _share(store, asked)
    own = proofs.get(asked.id)

    def held(tool: str, play: float) -> float | None:
        if own is None or play > -PRESS_MM:
            return None  # what is not driven in carries what the worn drive does
        return min(own * share, proofs.get(tool, own))

    return tuple(
        NearTool(
            entry_id("drive", fit.drive),
            round(fit.play_mm, 3),
            fit.how,
            proofs.get(fit.drive),
            held(fit.drive, fit.play_mm),
        )
        for fit in beside(asked, many(store, Drive))
    )


def _share(store: sqlite3.Connection, asked: Drive) -> float:
    """Return what a stripped drive carries again with a tool driven in, of its own."""
    states = {row.system: row.share for row in many(store, DriveState, damage="stripped")}
    left = states.get(asked.system, states["any"])
    way = get(store, Method, "next-size-socket" if asked.external else "oversize-bit")
    return left + (1 - left) * way.restores
