"""How the fasteners of a job are tightened: whose torque, in which order and stages."""

import sqlite3
from typing import NamedTuple

from fastkit.answers.job_buy import Renewal
from fastkit.answers.job_rows import Fastener, Job
from fastkit.answers.notes import noted_torque
from fastkit.answers.order import Stage, tightening_order
from fastkit.answers.replace_option import Option
from fastkit.answers.torque import TorqueAnswer, torque
from fastkit.errors import Misuse, NotHeld
from fastkit.notation.units import show_nm, torque_nmm

DRY = ("none", "maker")  # lubricants of a new part that leave the maker's value as it is meant


class Tightening(NamedTuple):
    """
    How one row of fasteners is tightened.

    `torque_nm` is what to set: the maker's value, else that of the window; None where neither is
    known, `why_none` then says why.
    """

    name: str
    left_hand: bool
    sequence: tuple[int, ...]
    numbering: str
    stages: tuple[Stage, ...]
    torque_nm: float | None
    maker_nm: float | None
    maker_said: str  # where the maker's value stands
    window_nm: tuple[float, float] | None
    why_none: str | None
    how: tuple[str, ...]


def tighten(
    row: Fastener,
    job: Job,
    left_hand: bool,
    renewal: Renewal | None,
    store: sqlite3.Connection,
) -> Tightening:
    """
    Return how a row of fasteners is tightened; what is renewed, by the window of the new part.

    Raises:
        Misuse: When shape and number do not fit together.
    """
    maker_nm, said = _maker(row, job)
    new = renewal.option if renewal else None
    window, target, why_none = _window_of(new) if new else _window(row, maker_nm, store)
    final = maker_nm or target
    sequence: tuple[int, ...] = ()
    stages: tuple[Stage, ...] = ()
    numbering = ""
    if row.shape:
        order = tightening_order(row.pieces, row.shape, size=row.size or None, torque_nm=final)
        sequence, numbering, stages = order.sequence, order.numbering, order.stages
    found = Tightening(
        row.name,
        left_hand,
        sequence,
        numbering,
        stages,
        final,
        maker_nm,
        said,
        window,
        None if final else why_none,
        (),
    )
    return found._replace(how=_how(found, row.pieces, new))


def _maker(row: Fastener, job: Job) -> tuple[float | None, str]:
    """Return the maker's torque, from the file or else from the user's own notes."""
    if row.maker:
        return torque_nmm(row.maker) / 1000, "the maker's value, from the job file"
    noted = noted_torque(job.machine, row.name) if job.machine else None
    if noted is None:
        return None, ""
    return noted.torque_nm, f"the maker's value, your note, read in {noted.read_in}"


def _window(
    row: Fastener, maker_nm: float | None, store: sqlite3.Connection
) -> tuple[tuple[float, float] | None, float | None, str]:
    """Return the window, what to set in it, and why there is none."""
    if not row.grade:
        return None, None, f"its class is not told: fastkit torque {row.thread} CLASS"
    try:
        answer: TorqueAnswer = torque(
            row.thread,
            row.grade,
            into=row.into or None,
            engage_mm=row.engage_mm,
            maker_nm=maker_nm,
            store=store,
        )
    except (NotHeld, Misuse) as refusal:
        return None, None, f"no window: {refusal}"
    if answer.torque_nm is None or answer.torque_min_nm is None or answer.torque_max_nm is None:
        return None, None, answer.reason or "no window"
    if answer.empty:
        return None, None, f"the window is empty; {'; '.join(answer.opens_it[:2])}"
    return (answer.torque_min_nm, answer.torque_max_nm), answer.torque_nm, ""


def _window_of(new: Option) -> tuple[tuple[float, float] | None, float | None, str]:
    """Return the window of a new part, what to set in it, and why there is none."""
    if new.torque_nm is None or new.torque_min_nm is None or new.torque_max_nm is None:
        return None, None, new.torque_reason or "no window for the new part"
    return (new.torque_min_nm, new.torque_max_nm), new.torque_nm, ""


def _how(found: Tightening, pieces: int, new: Option | None) -> tuple[str, ...]:
    how = [f"new: {new.lubricant_words}; lock: {new.locking_words}"] if new else []
    if found.sequence:
        how.append(f"order {', '.join(map(str, found.sequence))} ({found.numbering})")
    elif pieces > 2:
        how.append("crosswise or from the middle outward, all lightly before any is tight")
    if found.torque_nm is None:
        return (*how, f"torque: the maker's value; {found.why_none}")
    final = show_nm(1000 * found.torque_nm)
    passes = [f"{stage.torque_nm:.3g}" for stage in found.stages[:-2] if stage.torque_nm]
    if passes:
        final = f"{', '.join(passes)}, then {final}, then once round at that"
    how.append(f"{final}: {found.maker_said or 'from the window'}")
    if found.maker_nm and new and new.lubricant not in DRY:
        how.append("a maker's value meant for dry threads wants them dry")
    if found.window_nm:
        low, high = found.window_nm
        outside = "" if low <= found.torque_nm <= high else "; the maker's value governs"
        how.append(f"window {low:.3g} to {high:.3g} N·m{outside}")
    return tuple(how)
