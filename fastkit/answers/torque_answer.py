"""What the torque question is answered with, and its JSON document."""

from typing import Any, NamedTuple

from fastkit.answers.torque_sources import Used

Numbers = dict[str, Any]
CAUTION = (
    "The vehicle or machine maker's specification governs; these are values for a known fastener "
    "in sound parts. Brakes, steering, lifting and pressure: qualified hands."
)

MAKER_ALONE = "{}. The maker's value alone is set."  # of what a life hangs on


class TorqueAnswer(NamedTuple):
    """
    The window and what it stands on; None where it cannot be given, `reason` then says why.

    Units stand in the names. `torque_nm` is what to set: the highest mark of a wrench's scale
    inside the window. `preload_min_n` is what the lowest setting still gives, `preload_max_n` what
    the highest may give, `preload_n` that of `torque_nm` at the middle friction, `guaranteed_n`
    what `torque_nm` gives at the worst. `limits` come lowest first. `loosening_nm` is what it
    takes to turn it loose again while nothing has rusted or bonded, and `loses_loosening` the part
    that would give way before; `engagement_mm` is the engagement at which the thread in the body
    holds what the shank does. Where something `critical` hangs on it the maker's value alone is
    set: what is reckoned beside that, or to walk through, is no setting.
    """

    thread: str
    grade: str
    head: str | None = None
    head_words: str | None = None
    bearing_diameter_mm: float | None = None
    hole_mm: float | None = None
    torque_min_nm: float | None = None
    torque_nm: float | None = None
    torque_max_nm: float | None = None
    preload_min_n: float | None = None
    preload_n: float | None = None
    preload_max_n: float | None = None
    guaranteed_n: float | None = None
    mu_min: float | None = None
    mu_mid: float | None = None
    mu_max: float | None = None
    mu_head_min: float | None = None
    mu_head_max: float | None = None
    utilisation_pct: float | None = None
    wrench_error_pct: float | None = None
    limited_by: str | None = None
    next_limit: str | None = None
    weakest_part: str | None = None
    limits: tuple[Numbers, ...] = ()
    table_torque_nm: float | None = None
    table_preload_n: float | None = None
    breaking_torque_nm: float | None = None
    breaking_torque_is_estimate: bool | None = None
    nut_factor: float | None = None
    engagement_mm: float | None = None
    loosening_nm: float | None = None
    loses_loosening: str | None = None
    wrench_setting_nm: float | None = None
    multiplier: Numbers | None = None
    extension: Numbers | None = None
    by_hand: Numbers | None = None
    angle: Numbers | None = None
    heat: Numbers | None = None
    locker: Numbers | None = None
    broken: Numbers | None = None
    set: Numbers | None = None
    maker: Numbers | None = None
    empty: bool = False
    reason: str | None = None
    opens_it: tuple[str, ...] = ()
    published: tuple[str, ...] | None = None
    assumed: tuple[Numbers, ...] = ()
    sources: tuple[Used, ...] = ()
    notes: tuple[str, ...] = ()
    why: tuple[str, ...] = ()
    critical: str | None = None


def document(answer: TorqueAnswer) -> Numbers:
    """The answer as the JSON document: plain lists and numbers of six significant digits."""
    plain: Numbers = plainly(answer._asdict())
    plain["sources"] = [plainly(source._asdict()) for source in answer.sources]
    return plain


def plainly(value: Any) -> Any:
    """A value as JSON has it: lists for tuples, numbers of six significant digits."""
    if isinstance(value, float):
        return float(f"{value:.6g}")
    if isinstance(value, dict):
        return {key: plainly(entry) for key, entry in value.items()}
    if isinstance(value, list | tuple):
        return [plainly(entry) for entry in value]
    return value
