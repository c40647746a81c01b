"""What every answer of `identify` is made of: candidates, traps, the reading to take next."""

from typing import Any, NamedTuple

from fastkit.hardware.separate import Separation


class Likely(NamedTuple):
    """A candidate: entry ids, probability, and how far each reading lies from its middle."""

    id: str
    title: str
    probability: float
    also: tuple[str, ...]
    used_for: tuple[str, ...]
    offsets: dict[str, float]
    limits: str | None = None  # where its limits of size come from


class Trap(NamedTuple):
    """Two that are taken for each other: which turns in which, and what comes of it."""

    pair: tuple[str, str]  # what turns in, what it turns into
    also: tuple[str, ...]
    kind: str
    turns: float | None
    overlap_pct: int | None
    note: str | None
    source: str | None


class Identified(NamedTuple):
    """What readings or marks may mean; fields are the keys of the JSON document."""

    readings: dict[str, Any]
    candidates: tuple[Likely, ...]
    tied: tuple[str, ...]
    separates: Separation | None
    danger: tuple[Trap, ...]
    assumed: tuple[dict[str, Any], ...]
    notes: tuple[str, ...] = ()

    def document(self) -> dict[str, Any]:
        """Return the JSON document."""
        apart = self.separates
        return {
            "readings": self.readings,
            "candidates": [one._asdict() for one in self.candidates],
            "tied": list(self.tied),
            "separates": apart and _apart(apart),
            "danger": [trap._asdict() for trap in self.danger],
            "assumed": list(self.assumed),
            "notes": list(self.notes),
        }


def _apart(found: Separation) -> dict[str, Any]:
    """The next reading; the unit stands in the keys of what each candidate would read."""
    unit = f"_{found.unit}" if found.unit else ""
    tells = [{"id": t.id, f"low{unit}": t.low, f"high{unit}": t.high} for t in found.tells]
    return {
        "reading": found.reading,
        "bits": round(found.bits, 3),
        "probability": round(found.probability, 4),
        "tells": tells,
    }
