"""How tight the new one is set: the window, the clamp of the old one, the maker's value."""

import sqlite3
from typing import NamedTuple

from fastkit.answers.replace_parts import Joint, Rows
from fastkit.answers.torque import TorqueAnswer, torque
from fastkit.hardware.candidates import Candidate
from fastkit.hardware.reason import Reason
from fastkit.joint.window import settable
from fastkit.mechanics.nut_factor import nut_factor
from fastkit.records.replacement import Lock
from fastkit.records.thread import Thread
from fastkit.records.tightening import PrevailingTorque
from fastkit.reference.lookup import many

ANY_N = 1.0  # a clamp that every setting gives: the ground joint has its own range
UTILISATION_PCT = 90.0
MAKERS = "the maker's value; none is reckoned for what brakes, steers, carries or holds pressure"


class Setting(NamedTuple):
    """Settings [N·m], None where none can be given; what limits, what gives way first."""

    least_nm: float | None
    set_nm: float | None
    most_nm: float | None
    reason: str | None
    limited_by: str | None
    weakest_part: str | None
    said: tuple[Reason, ...]


def setting(
    store: sqlite3.Connection,
    rows: Rows,
    joint: Joint,
    way: Candidate,
    friction: str,
    engaged_mm: float | None,
) -> Setting | Reason:
    """
    Settle how tight: inside the window, with the clamp that the old part gave.

    Returns:
        The setting; the reason where none both clamps and spares the thread.
    """
    answer = _window(store, rows, joint, way, friction, engaged_mm)
    if answer.empty:
        return Reason("empty_window")
    none = Setting(None, None, None, answer.reason, answer.limited_by, answer.weakest_part, ())
    if answer.torque_nm is None or answer.torque_max_nm is None:
        return none
    if joint.asked.safety:
        return none._replace(reason=MAKERS)
    none = none._replace(said=_against_dry(rows, way, answer))
    found = none._replace(
        least_nm=answer.torque_min_nm, set_nm=answer.torque_nm, most_nm=answer.torque_max_nm
    )
    if joint.ground_nm is not None:
        low, high = joint.ground_nm
        most = min(high, answer.torque_max_nm)
        if most < low:
            return Reason("empty_window")
        return found._replace(least_nm=low, set_nm=min(most, answer.torque_nm), most_nm=most)
    return _like_the_old(joint, answer, found)


def _window(
    store: sqlite3.Connection,
    rows: Rows,
    joint: Joint,
    way: Candidate,
    friction: str,
    engaged_mm: float | None,
) -> TorqueAnswer:
    """The window; with the old clamp as its lower edge where that can be kept."""
    before = joint.before
    clamp = before.preload_min_n if before else None
    if before and before.set:
        clamp = before.set["preload_n"][0]
    if joint.ground_nm is not None:
        clamp = ANY_N

    def asked(clamp_n: float | None) -> TorqueAnswer:
        return torque(
            rows.facts.thread.id,
            way.grade,
            friction=friction,
            head=way.offer.standard,
            into=joint.body.id if joint.body else None,
            engage_mm=engaged_mm if joint.body else None,
            clamp_n=clamp_n,
            utilisation_pct=UTILISATION_PCT * way.offer.load_factor,
            drive=way.drive.id,
            store=store,
        )

    found = asked(clamp)
    return asked(None) if found.empty and clamp is not None else found


def _like_the_old(joint: Joint, answer: TorqueAnswer, found: Setting) -> Setting:
    """As much clamp as the known torque gave on the old part, at the middle friction of both."""
    before, known = joint.before, joint.known_nm
    if known is None or before is None or not before.nut_factor or not answer.nut_factor:
        return found
    same = known * answer.nut_factor / before.nut_factor
    least, most = found.least_nm or 0.0, found.most_nm or 0.0
    if same > most:
        less = Reason("less_clamp", (known, found.set_nm or most))
        return found._replace(said=(*found.said, less))
    set_nm = max(settable(same * 1000) / 1000, least)
    like = Reason("same_clamp", (known, set_nm))
    return found._replace(set_nm=set_nm, said=(*found.said, like))


def _against_dry(rows: Rows, way: Candidate, answer: TorqueAnswer) -> tuple[Reason, ...]:
    """What the lubricant or locker makes of the torque, at equal clamp and middle friction."""
    dry = rows.frictions[way.make.friction].mu_mid
    if not answer.nut_factor or answer.mu_mid == dry:
        return ()
    thread, cone = rows.facts.thread, way.head.cone_angle_deg
    width = ((answer.bearing_diameter_mm or 0.0) + (answer.hole_mm or 0.0)) / 2
    factor = nut_factor(
        thread.nominal_mm,
        thread.pitch_mm,
        thread.pitch_diameter_mm,
        width,
        dry,
        dry,
        thread.flank_angle_deg / 2,
        90.0 if cone is None else cone / 2,
    )
    return (Reason("against_dry", (100 * answer.nut_factor / factor,)),)


def running(store: sqlite3.Connection, thread: Thread, lock: Lock) -> float | None:
    """The most that a new self-locking nut may drag [N·m]; None for other locks."""
    if not lock.id.startswith("nut-"):
        return None
    rows = many(store, PrevailingTorque, thread=thread.id)
    row = next((row for row in rows if "8" in row.nut_class.replace(",", " ").split()), None)
    return row.first_on_max_nm if row else None
