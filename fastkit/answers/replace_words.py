"""What `replace` says: its codes in sentences, lines to buy by, words for locks and pastes."""

from collections.abc import Mapping

from fastkit.hardware.candidates import IRON
from fastkit.hardware.galvanic import Verdict
from fastkit.hardware.reason import Reason
from fastkit.notation.entry import drive_words
from fastkit.notation.units import figures, show_mm, show_nm

SENTENCES: Mapping[str, str] = {
    "cams_out": "a {0} recess lets the tool slip out, and has rusted or will",
    "no_room": "no tool for it fits: {1} short {0}",
    "rusts_there": "does not last in that place",
    "too_hot": "{0} °C is above its {1} °C",
    "not_needed": "only where it is hotter than 300 °C",
    "coat_too_thick": "a galvanised thread goes into its own oversize nut only, not into this hole",
    "too_small_for_coat": "made from {0} mm up",
    "pits_magnesium": "wet magnesium is pitted round it",
    "never_stainless_there": "stainless is never put where brakes, steering, suspension or a load "
    "hang on it: other strength, other friction, and it galls",
    "chlorides_crack": "chlorides crack A2 under load (stress corrosion)",
    "small_anode": "a small anode on a large nobler part: eaten in a season",
    "insulates": "oil, film or top coat keeps the current out",
    "empty_window": "no setting both clamps enough and spares the thread",
    "no_such_nut": "self-locking nuts are not sold with that coat",
    "tool_too_weak": "what fits there gives {0}, it wants {1}",
    "as_old": "as long as the old one: --grip, what it clamps, tells whether that was right",
    "no_grip": "for a length say how thick what it clamps is (--grip)",
    "to_order": "{0} is seldom on a shelf: to order",
    "left_hand": "left-hand thread: tightens anticlockwise, to order; a right-hand one ruins it",
    "against_dry": "takes {0} % of its dry torque",
    "no_lock": "no lock stands that heat and joint",
    "no_length": "no length is made, or goes in under what stands above, for {0} over the thread",
    "shop_has_none": "the shop has none",
    "drive_cams_out": "{0} lets the tool slip out: press hard",
    "weaker": "weaker: {0} % of the old one's load at yield",
    "stronger": "stronger: {0} % of the old one's load at yield",
    "reduced_load": "this head carries {0} % of its class",
    "coat_goes_first": "its coat is eaten in place of the body, small anode on a large part: look "
    "yearly",
    "bit_not_listed": "no {0} among the tools you listed",
    "bit_at_hand": "you have a tool for {0}",
    "bake_after_plating": "{0} electroplated must have been baked against hydrogen: ask, or take "
    "zinc flake",
    "never_electroplate": "{0} is never electroplated or pickled: hydrogen cracks it under load",
    "loses_preload_hot": "above {1} °C {0} loses yield point and preload: tighten again once cold",
    "galls_dry": "stainless galls when dry: paste, slowly, by hand, never an impact tool",
    "watch_for_cracks": "in pool air even A4 is open to stress corrosion: nothing that may fall on "
    "people hangs on it; look for cracks yearly",
    "own_nut": "its nut is tapped oversize for the coat: buy both together",
    "breaks_instead": "overdone, {0} gives way instead",
    "breaks_first": "overdone, {0} gives way first",
    "strips_first": "engages {0} of the {1} wanted: the internal thread strips before the screw "
    "breaks; an insert would cure it",
    "uncommon_length": "{0} is a length to be avoided: not every shop has it",
    "same_clamp": "{0} on the old one clamped about as {1} does on this",
    "less_clamp": "{0} was more than this one takes: it clamps less, {1} at most",
    "add_running": "add the nut's own running torque, measured (new at most {0}, ISO 2320)",
    "isolate": "part it from the {0}: insulating sleeve (its hole about 2 mm larger), washer, zinc "
    "paste on thread and faces, paint over it; again after a day",
    "aluminium_washer": "aluminium washer (5000 or 6000 series) under the head, wider than it, "
    "between it and the {0}; seal the edge",
    "plastic_insert": "plastic carries no machine thread for long: brass insert set in, or a "
    "thread-forming screw for plastics in its own boss",
    "thin_sheet": "{0} of sheet is too thin for a thread: nut on the back, rivet nut, weld nut or "
    "clip nut",
}
PASTES = {
    "none": "nothing on the thread",
    "oil": "a drop of oil on thread and under the head",
    "maker": "as its maker says; where nothing is said clean and dry: oil overloads it at a torque "
    "meant for dry threads",
    "anti-seize-zinc": "zinc paste on thread and under the head",
    "anti-seize-nickel": "nickel anti-seize on thread and under the head",
    "anti-seize-white": "white anti-seize, free of metal, on thread and under the head",
}
PARTS = {
    "shank": "the shank",
    "internal-thread": "the thread in the body",
    "external-thread": "the screw's own thread",
    "drive": "the drive",
}
PAIRED = {
    "fit": "{f} in {b}: {d} V, fit there (limit {l} V)",
    "sacrificial": "{f} in {b}: {d} V over the limit of {l} V; the coat goes first and guards the "
    "{b}",
    "own": "{f} in {b}: the coat goes first and guards the {b}, as it is meant to",
    "unfit": "{f} in {b}: {d} V, limit {l} V: the {w} corrodes",
}
AREAS = {
    "none": "",
    "spread": "small fastener, large part: slow, round the hole",
    "focused": "small fastener, large part: quick, all on the fastener",
}


def sentence(reason: Reason) -> str:
    """
    Return a code with its numbers in words.

    >>> sentence(Reason("weaker", (70.3,)))
    "weaker: 70 % of the old one's load at yield"
    """
    return SENTENCES[reason.code].format(*(_value(reason, at) for at in range(len(reason.values))))


def _value(reason: Reason, at: int) -> str:
    value = reason.values[at]
    if isinstance(value, str):
        if reason.code.startswith("breaks"):
            return PARTS[value]
        return drive_words(value) if reason.code in _DRIVES else value
    if reason.code in _LENGTHS:
        return show_mm(value)
    if reason.code in _TORQUES:
        return show_nm(value * 1000)
    return f"{value:.0f}"


_DRIVES = frozenset(("cams_out", "drive_cams_out", "bit_not_listed", "bit_at_hand"))
_LENGTHS = frozenset(("no_room", "strips_first", "uncommon_length", "thin_sheet", "no_length"))

_TORQUES = frozenset(("same_clamp", "less_clamp", "add_running", "tool_too_weak"))


def pair_words(pair: Verdict, fastener: str) -> str:
    """Return a galvanic verdict, with what the areas do to it in both directions."""
    body = pair.body.replace("-", " ")
    kind = "own" if pair.verdict == "sacrificial" and pair.body in IRON else pair.verdict
    text = PAIRED[kind].format(
        f=fastener,
        b=body,
        d=figures(pair.difference_v, 2),
        l=figures(pair.limit_v, 2),
        w=fastener if pair.corrodes == "fastener" else body,
    )
    areas = AREAS[pair.as_fitted] if kind in {"sacrificial", "unfit"} else ""
    return f"{text}. {areas[0].upper()}{areas[1:]}." if areas else f"{text}."


def drive_in_line(drive: str, system: str) -> str:
    """
    Return a drive as a buyer says it.

    >>> drive_in_line("T30", "hexalobular"), drive_in_line("hex-5mm", "hex-socket")
    ('hexalobular T30', '5 mm hex socket')
    """
    words = drive_words(drive)
    return {"hexalobular": f"hexalobular {words}", "cross-h": f"cross recess {words}"}.get(
        system, words
    )
