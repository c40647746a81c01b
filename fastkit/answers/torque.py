"""How tight: the torque window of a fastener, with the table value beside it."""

import sqlite3

from fastkit.answers.critical import critical as what_hangs
from fastkit.answers.refused import Refusal, of_family, refusal
from fastkit.answers.torque_answer import Numbers, TorqueAnswer, document
from fastkit.answers.torque_asked import Asked, beside
from fastkit.answers.torque_bounds import Pair, check, check_pairs
from fastkit.answers.torque_parts import Parts, gather, others_at
from fastkit.answers.torque_sources import used_titles
from fastkit.errors import Misuse
from fastkit.joint.breaking import breaking_torque, ratio_is_listed
from fastkit.joint.choice import STAND_INS
from fastkit.joint.strip import bolt_shear, equal_engagement, strip_loads
from fastkit.joint.window import Joint, Window, table_values, window
from fastkit.notation.units import show_nm
from fastkit.reference import resolve
from fastkit.reference.store import connect

__all__ = ["TorqueAnswer", "document", "torque"]

UTILISATION_PCT = 90.0
WRENCH_ERROR_PCT = 4.0
CLASS_B = "class-b"


def torque(
    thread: str,
    grade: str,
    *,
    friction: str | None = None,
    mu: float | tuple[float, float] | None = None,
    mu_head: float | tuple[float, float] | None = None,
    head: str | None = None,
    into: str | None = None,
    engage_mm: float | None = None,
    clamp_n: float | None = None,
    utilisation_pct: float | None = None,
    wrench_error_pct: float | None = None,
    prevailing_nm: float = 0.0,
    adapter_mm: float | None = None,
    wrench_length_mm: float | None = None,
    adapter_angle_deg: float | None = None,
    drive: str | None = None,
    reused: bool = False,
    set_nm: float | None = None,
    angle_deg: float | None = None,
    grip_mm: float | None = None,
    maker_nm: float | None = None,
    multiplier: Pair | None = None,
    extension_mm: Pair | None = None,
    heat_c: Pair | None = None,
    press_mm: float | None = None,
    locker: str | None = None,
    broken: bool = False,
    why: bool = False,
    critical: str | None = None,
    store: sqlite3.Connection | None = None,
) -> TorqueAnswer:
    """
    Answer how tight a fastener is to be set.

    Args:
        thread: Designation, id or trade name: `M8`, `M8x1`, `3/8-16`.
        grade: Class or grade: `8.8`, `A2-70`, `SAE-5`.
        friction: A friction condition; VDI 2230-1 class B if neither it nor *mu* is given.
        mu: Friction coefficient in thread and under head, one or lowest and highest [-].
        mu_head: The same under the head alone, where it differs from the thread's [-].
        head: hexagon, socket, flange, countersunk, or a standard; hexagon if left out.
        into: Body material or nut class (`nut-8`) that holds the internal thread; None: a nut of
            the matching class.
        engage_mm: Thread engagement [mm]; one diameter if *into* is given alone.
        clamp_n: Clamp that the joint needs [N]; 40 % of the table preload if left out.
        utilisation_pct: Share of yield [%]; 90 if left out.
        wrench_error_pct: What the wrench may be off [%]; 4 if left out.
        prevailing_nm: Prevailing torque of a locking nut or insert [N·m].
        adapter_mm: Length of an adapter on the wrench [mm]; needs *wrench_length_mm*.
        wrench_length_mm: Middle of the grip to the wrench's square [mm].
        adapter_angle_deg: Angle of the adapter off the handle's line [deg]; 0 if left out.
        drive: Drive that must carry the torque; the head's own if left out.
        reused: The fastener has been tightened before.
        set_nm: A setting to be judged [N·m].
        angle_deg: Turning angle from snug [deg]; snug is *set_nm*, else a fifth of the setting.
        grip_mm: Clamped length [mm]; two and a half diameters if left out.
        maker_nm: The maker's own value [N·m].
        multiplier: Ratio of a torque multiplier [-] and its efficiency [%].
        extension_mm: Length and diameter of an extension bar [mm].
        heat_c: Temperature of the body, of the bolt, after tightening at 20 [degC].
        press_mm: Interference of a stud or pin of that diameter in the body [mm]; needs *heat_c*.
        locker: Threadlocker on the thread: low, medium, high.
        broken: Also what gets the rest out once it has broken.
        why: Also walk through the steps.
        critical: What hangs on it, an id of criticals.csv: no window then, but to walk through or
            beside the maker's value.
        store: Compiled reference to use; the package's own if left out.

    Returns:
        The answer; `empty` when no setting does both, all `torque_…` None when none can be given.

    Raises:
        NotHeld: When the data does not hold thread or grade, or not together.
        Misuse: When a designation is not understood or a value is out of its range.
    """
    if mu is not None and friction is not None:
        raise Misuse("friction and mu both given; expected one of them")
    if press_mm is not None and heat_c is None:
        raise Misuse("press needs heat too; expected --heat BODY/BOLT")
    check(
        clamp_n=clamp_n,
        engage_mm=engage_mm,
        utilisation_pct=utilisation_pct,
        wrench_error_pct=wrench_error_pct,
        prevailing_nm=prevailing_nm,
        set_nm=set_nm,
        maker_nm=maker_nm,
        angle_deg=angle_deg,
        grip_mm=grip_mm,
        wrench_length_mm=wrench_length_mm,
        adapter_mm=adapter_mm,
        press_mm=press_mm,
    )
    check_pairs(multiplier, extension_mm, heat_c)
    held = store or connect()
    reckoned = bool(grade) and (why or maker_nm is not None)
    refused = windowless(thread, grade, head, into, held, None if reckoned else critical)
    if refused is not None:
        return _refused(held, thread, grade, into, refused)._replace(critical=critical)
    parts = gather(
        held, thread, grade, friction or CLASS_B, mu, head, into, engage_mm, drive, reused, mu_head
    )
    share = (UTILISATION_PCT if utilisation_pct is None else utilisation_pct) / 100
    error = (WRENCH_ERROR_PCT if wrench_error_pct is None else wrench_error_pct) / 100
    defaults = _defaults(friction, mu, head, clamp_n, utilisation_pct, wrench_error_pct)
    table = _table(parts, share)
    answer = _begun(parts, share, error, table)
    _check_drag(prevailing_nm, answer.breaking_torque_nm, f"{parts.thread.id} {parts.grade.id}")
    joint = _joint(parts, share, error, prevailing_nm, clamp_n, table)
    if joint is None:
        missing = parts.missing or "the class states no yield strength"
        answer = answer._replace(reason=f"no window: {missing}")
    else:
        answer = _fill(answer, joint, parts, held)
    asked = Asked(
        (adapter_mm, wrench_length_mm, adapter_angle_deg),
        set_nm,
        angle_deg,
        grip_mm,
        maker_nm,
        multiplier,
        extension_mm,
        heat_c,
        press_mm,
        locker,
        broken,
        why,
    )
    answer, used = beside(answer, joint, parts, held, asked)
    return answer._replace(
        critical=critical,
        assumed=_assumed(answer, parts, defaults, table),
        sources=(*used_titles(held, parts), *used),
    )


def windowless(
    thread: str,
    grade: str,
    head: str | None,
    into: str | None,
    store: sqlite3.Connection | None = None,
    critical: str | None = None,
) -> Refusal | None:
    """
    Why what was asked for gets no window, and what applies instead; None where it gets one.

    Raises:
        NotHeld: When the data does not hold the thread.
        Misuse: When the thread is not understood.
    """
    found = refusal(thread, grade, head, into)
    if found is None and critical is not None:
        hung = what_hangs(store or connect(), critical)
        return Refusal(hung.because, hung.instead)
    return found or of_family(resolve.thread(store or connect(), thread).family)


def _check_drag(prevailing_nm: float, breaking_nm: float | None, bolt: str) -> None:
    """No locking nut drags half of what twists its bolt off: such a value is misread."""
    if breaking_nm is not None and prevailing_nm > breaking_nm / 2:
        raise Misuse(
            f"prevailing must be 0 to {show_nm(500 * breaking_nm)} for {bolt}, half of what twists "
            f"it off, got {prevailing_nm:g}"
        )


def _begun(
    parts: Parts, share: float, error: float, table: tuple[float, float] | None
) -> TorqueAnswer:
    """What holds whether or not there is a window."""
    return TorqueAnswer(
        parts.thread.id,
        parts.grade.id,
        parts.head.id if parts.head else None,
        _head_words(parts),
        parts.seat.d_w_mm if parts.seat else None,
        parts.hole.medium_mm if parts.hole else None,
        mu_min=parts.mu[0],
        mu_mid=parts.mu[1],
        mu_max=parts.mu[2],
        mu_head_min=(parts.mu_head or parts.mu)[0],
        mu_head_max=(parts.mu_head or parts.mu)[2],
        utilisation_pct=share * 100,
        wrench_error_pct=error * 100,
        breaking_torque_nm=breaking_torque(parts.thread, parts.strength) / 1000,
        breaking_torque_is_estimate=not ratio_is_listed(parts.strength),
        table_torque_nm=table[0] / 1000 if table else None,
        table_preload_n=table[1] if table else None,
        notes=parts.notes,
    )


def _refused(
    store: sqlite3.Connection, thread: str, grade: str, into: str | None, found: Refusal
) -> TorqueAnswer:
    """The answer without a window: why, and the values or the way that apply instead."""
    from fastkit.answers.torque_published import published

    values, sources = published(store, thread, grade, into, found)
    return TorqueAnswer(
        thread.strip()[:60],
        grade.strip()[:60],
        reason=f"no window: {found.reason}",
        published=values,
        sources=sources,
    )


def _table(parts: Parts, share: float) -> tuple[float, float] | None:
    """Torque and preload as tables print them: default head and hole, middle friction."""
    if parts.default_seat is None or parts.strength.yield_min_mpa is None:
        return None
    strength = parts.strength
    return table_values(
        Joint(
            parts.thread,
            parts.strength.yield_min_mpa,
            strength.tensile_min_mpa,
            parts.default_seat,
            parts.table_mu,
            parts.table_mu,
            parts.table_mu,
            utilisation=share,
        )
    )


def _joint(
    parts: Parts,
    share: float,
    error: float,
    prevailing_nm: float,
    clamp_n: float | None,
    table: tuple[float, float] | None,
) -> Joint | None:
    if parts.seat is None or parts.strength.yield_min_mpa is None:
        return None
    shear = parts.material.shear_strength_mpa if parts.material else None
    strip = None
    if shear and parts.engage_mm:
        try:
            strip = strip_loads(parts.thread, bolt_shear(parts.strength), shear, parts.engage_mm)
        except ValueError as short:
            raise Misuse(str(short)) from short
    cone = parts.seat.cone_half_angle_deg != 90.0
    spread = parts.washer.outer_mm if parts.washer else None
    pressed = parts.material is not None and (spread or cone or _is_flange(parts))
    proof = parts.nut.proof_mpa if parts.nut else None
    return Joint(
        parts.thread,
        parts.strength.yield_min_mpa,
        parts.strength.tensile_min_mpa,
        parts.seat,
        *parts.mu,
        utilisation=share,
        wrench_error=error,
        prevailing_nmm=prevailing_nm * 1000,
        clamp_n=clamp_n,
        table_preload_n=table[1] if table else None,
        strip_n=strip.internal_n if strip else None,
        bolt_strip_n=strip.external_n if strip else None,
        nut_proof_n=proof * parts.thread.stress_area_mm2 if proof else None,
        mu_head=parts.mu_head,
        bearing_mpa=parts.material.bearing_limit_mpa if parts.material and pressed else None,
        spread_mm=spread,
        drive_nmm=parts.drive_torque.proof_torque_nm * 1000 if parts.drive_torque else None,
    )


def _engagement(parts: Parts) -> float | None:
    """Engagement at which the thread in the body holds what the shank does [mm]."""
    shear = parts.material.shear_strength_mpa if parts.material else None
    if shear is None:
        return None
    return equal_engagement(parts.thread, parts.strength.tensile_min_mpa, shear)


def _head_words(parts: Parts) -> str | None:
    """The head's standard; a stand-in for a hexagon that no standard at hand lists is said so."""
    if parts.head is None:
        return None
    by_rule = parts.head.form == "hexagon" and parts.head.standard in STAND_INS
    return "hexagon head, bearing by rule" if by_rule else f"{parts.head.standard} head"


def _is_flange(parts: Parts) -> bool:
    return parts.head is not None and parts.head.form == "flange"


def _fill(
    answer: TorqueAnswer, joint: Joint, parts: Parts, store: sqlite3.Connection
) -> TorqueAnswer:
    found: Window = window(joint)
    names = [limit.name for limit in found.limits]
    answer = answer._replace(
        torque_min_nm=found.torque_min_nmm / 1000,
        torque_nm=found.torque_nmm / 1000,
        torque_max_nm=found.torque_max_nmm / 1000,
        preload_min_n=found.preload_min_n,
        preload_n=found.preload_n,
        preload_max_n=found.preload_max_n,
        guaranteed_n=found.guaranteed_n,
        limited_by=names[0],
        next_limit=names[1] if len(names) > 1 else None,
        weakest_part=found.weakest_part,
        limits=tuple(
            {
                "name": limit.name,
                "setting_nm": limit.torque_nmm / 1000 / (1 + joint.wrench_error),
                "preload_n": limit.preload_n,
            }
            for limit in found.limits
        ),
        nut_factor=found.nut_factor,
        engagement_mm=_engagement(parts),
        empty=found.empty,
    )
    if not found.empty:
        return answer
    from fastkit.answers.torque_steps import opening_words
    from fastkit.joint.opening import openings

    return answer._replace(
        reason="the window is empty: what clamps enough at the highest friction "
        "overloads at the lowest",
        opens_it=tuple(
            opening_words(way, parts) for way in openings(joint, others_at(store, parts))
        ),
    )


def _defaults(
    friction: str | None,
    mu: float | tuple[float, float] | None,
    head: str | None,
    clamp_n: float | None,
    utilisation_pct: float | None,
    wrench_error_pct: float | None,
) -> frozenset[str]:
    given = {
        "friction": friction is not None or mu is not None,
        "head": head is not None,
        "clamp_n": clamp_n is not None,
        "utilisation_pct": utilisation_pct is not None,
        "wrench_error_pct": wrench_error_pct is not None,
    }
    return frozenset(name for name, said in given.items() if not said)


def _assumed(
    answer: TorqueAnswer,
    parts: Parts,
    defaults: frozenset[str],
    table: tuple[float, float] | None,
) -> tuple[Numbers, ...]:
    """What was taken because nothing was said."""
    found: list[Numbers] = []
    if "friction" in defaults and parts.friction is not None:
        found.append({"what": "friction", "value": parts.friction.id})
    if "head" in defaults and parts.head is not None:
        found.append({"what": "head", "value": _head_words(parts)})
    if parts.hole is not None:
        found.append({"what": "hole", "value": f"medium, {parts.hole.medium_mm:.4g} mm"})
    for name, value in (
        ("utilisation_pct", answer.utilisation_pct),
        ("wrench_error_pct", answer.wrench_error_pct),
        ("clamp_n", 0.4 * table[1] if table else None),
    ):
        if name in defaults and value is not None:
            found.append({"what": name, "value": value})
    found += [{"what": what, "value": value} for what, value in parts.assumed]
    return tuple(found)
