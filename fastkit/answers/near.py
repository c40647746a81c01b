"""Which bits, keys and sockets of any system lie within hundredths of a drive."""

import sqlite3
from typing import Any, NamedTuple

from fastkit.notation.entry import entry_id
from fastkit.reach.near import beside
from fastkit.records.drive import Drive, DriveTorque
from fastkit.reference.lookup import many
from fastkit.reference.resolve import drive
from fastkit.reference.store import connect


class NearTool(NamedTuple):
    """A tool: its play [mm] (negative: interference), how it goes on, and what it carries."""

    id: str  # entry id
    play_mm: float
    how: str
    proof_torque_nm: float | None  # the weakest published proof torque; None: none is held


class NearAnswer(NamedTuple):
    """The drive asked for and its near fits, the closest first."""

    size: str  # entry id
    fits: tuple[NearTool, ...]

    def document(self) -> dict[str, Any]:
        """Return the JSON document; without a fit it says so."""
        extra = {} if self.fits else {"reason": f"no other tool lies near {self.size}"}
        return {"size": self.size, "fits": [fit._asdict() for fit in self.fits], **extra}


def near(size: str, *, store: sqlite3.Connection | None = None) -> NearAnswer:
    """
    Return the near fits of a drive.

    Args:
        size: Designation, id or trade name of the drive.
        store: Open reference; the package's own if left out.

    Raises:
        Misuse: When it does not read as a drive.
        NotHeld: When the data does not hold it.
        Broken: When the reference cannot be read.
    """
    store = store or connect()
    asked = drive(store, size)
    proofs: dict[str, float] = {}
    for row in many(store, DriveTorque):
        proofs[row.drive] = min(row.proof_torque_nm, proofs.get(row.drive, float("inf")))
    return NearAnswer(
        entry_id("drive", asked.id),
        tuple(
            NearTool(
                entry_id("drive", fit.drive), round(fit.play_mm, 3), fit.how, proofs.get(fit.drive)
            )
            for fit in beside(asked, many(store, Drive))
        ),
    )
