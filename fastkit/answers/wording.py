"""
Codes with numbers to sentences, once, in both unit systems, for screen, card and page alike.

Adding a code is one line: its sentence, with the place of each value and how it is shown.
"""

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from fastkit.extraction.learned import PRIOR_ATTEMPTS
from fastkit.extraction.result import Measure, Move, Reason
from fastkit.extraction.sizes import Size
from fastkit.notation.entry import drive_words
from fastkit.notation.units import figures, show_mm, show_nm
from fastkit.reach.fit import Shortfall
from fastkit.records.own import OwnTries

Names = Mapping[str, str]  # entry id -> title

SENTENCES: Mapping[str, str] = {
    # why a method is ruled out
    "too_short_above": "needs {0:mm} above the head, {1:mm} is free",
    "too_narrow_beside": "needs {0:mm} beside the head, {1:mm} is free",
    "swing_too_small": "needs {0:deg} of swing, {1:deg} is free",
    "side_too_small": "needs an opening from the side of {0:mm} by {1:mm}",
    "pocket_too_narrow": "needs a pocket {0:mm} across, this one is {1:mm}",
    "stub_too_short": "wants {0:mm} of stub to grip, {1:mm} stands proud",
    "stub_too_deep": "reaches {0:mm} down its hole, the stub sits {1:mm} deep",
    "neighbour": "{0:thing} {2:at}: keep {1:thing} {3:mm} off; {4}",
    "veto": "{1}",
    "no_tool": "lacks {0:tool}",
    "no_power": "no {0} power",
    "no_heat": "heat is not allowed here",
    "cannot_free": "{0}",
    "too_weak": "too weak: can carry {1:about} (the {0}), "
    "needs about {3:about} ({2:bare} to {4:bare})",
    "preparation_first": "first: {0:method}",
    # what brings it back
    "more_room": "{1:amount} more {0:axis}",
    "longer_tool": "a tool {0:mm} longer",
    "more_distance": "{0:thing} moved to {1:mm} away",
    "method_first": "first: {0:method}",
    "tool": "get {0:tool}",
    "rule": "{0:rule}",
    # why a method stands where it stands
    "fits_with": "{0}{1:margin}",
    "weakest": "needs about {3:about} ({2:bare} to {4:bare}); can carry {1:about} (the {0})",
    "near_fit": "what bites: {0:drive}, {1:mm} over the size, {2}",
    "chance_time": "{0:pct} in {1:min}",
    "time": "{0:min}",
    "own_tries": "your own {0} of {1}",
    "treats": "what it takes falls from about {1:about} to {2:about}",
    "keeps_open": "keeps {0} open",
    "due_first": "due first: {0:due}",
    # when to stop: stands behind the word
    "after_failures": "Last way: {0:method}. That failed too: stop.",
    "after_failures_moved": "Last way: {1:method}, only then {0:method}. That failed too: stop.",
    "nothing_frees": "Nothing left frees it here: stop before it gets worse.",
    "shank_yields": "It turns and the torque falls: the shank is tearing.",
    "heat_limit": "Heat: {0}.",
    "holds_more": (
        "Tried in vain and yet not seized: look what else holds it, a pin, locker, its other end, "
        "a left-hand thread."
    ),
    "cheaper_to_stop": "With {0:min} more to go it is cheaper to hand it on.",
    "cheaper_at_dealer": "With {0:min} more to go: its maker's dealer or a restraint specialist.",
}

# sizes, by what they are
SIZES: Mapping[str, str] = {
    "pilot": "pilot {0:mm}",
    "left_drill": "left-hand drill up to {0:mm}, wall left {1:mm}",
    "right_drill": "right-hand drill up to {0:mm}, wall left {1:mm}",
    "spiral": "extractor no. {0} in a {1:mm} hole, wall left {2:mm}",
    "straight": "extractor in a hole up to {0:mm}, wall left {1:mm}",
    "deep": "{0:mm} deep at most",
    "sleeve": "guide sleeve {0:mm} outside, {1:mm} bore",
    "slot": "slot {0:mm} wide",
    "slot_deep": "{0:mm} deep",
    "blade": "blade {0}, tested at {1:about}",
    "head_drill": "drill {0:mm}",
    "head_deep": "as deep as the head is high, {0:mm}",
    "step": "then {0:mm}",
    "last_drill": "{0:mm} leaves the shell to pick out",
    "off_centre": "{0:mm} off centre and it cuts the thread",
    "tap_drill": "tap drill {0:mm}",
    "insert": "if it goes wrong, drill {0:mm} for an insert",
    "weld_washer": "{0} washer, hole {1:mm}",
    "weld_nut": "{0} nut, hole {1:mm}",
    "heat": "{0:celsius}: {3:sign}; at least {1:seconds} with {2:watts} going in",
    "heat_of_light": "aluminium: {0:celsius} at most, no glow",
    "grows": "at {0:celsius} the hole outgrows the screw by {1:micro}",
    "shrinks": "{0:kelvin} colder it shrinks by {1:micro}",
    "flats": "flats to {0:mm}",
    "flats_deep": "{0:mm} off each side",
    "two_nuts": "two {0} nuts need {1:mm} of thread",
    "near": "{0:drive} ({1:mm} tight)",
    "biting": "{0:drive}: its biting socket, the next smaller where more is gone",
    "over_head": "{0:drive} socket over the {1:mm} head",
    "bar_pull": "on a {1:mm} bar no more than {0:force}",
}
SIGNS: Mapping[str, str] = {
    "heat": "tin solder melts on it",
    "glow": "dull red in the shade",
    "iron_glow": "dull red in the shade, in steel or iron only",
    "light": "tin solder melts on it, no higher in this body",
    "beside": "tin solder melts on it, no hotter with that beside it",
    "weak": "a drop of water hisses, no hotter: the body carries it off",
}

DUE: Mapping[str, str] = {
    "load_spring": "a spring is held back",
    "load_strut": "a spring is held back that only its own clamp holds",
    "load_weight": "a weight hangs on it",
    "on_jack": "it rests on a jack alone",
    "load_pressure": "it holds pressure back",
    "beside_pressure": "something under pressure stands beside it",
    "fuel_line": "a fuel line keeps its pressure with the engine off",
    "beside_running": "something still runs",
    "beside_live": "what stands beside it may be live",
    "beside_fluororubber": "burnt fluoro rubber leaves an acid",
    "beside_hot": "it is still hot",
    "beside_battery": "a battery stands beside it",
    "beside_airbag": "an airbag or belt tensioner stands beside it",
    "recess_filled": "the recess is filled",
    "residue_flammable": "what is on it burns",
    "galled_dry": "degreased, a pair that galls welds itself tighter at every degree",
}

AXES: Mapping[str, str] = {
    "above": "above the head",
    "beside": "beside the head",
    "swing": "swing",
    "side": "opening at the side",
    "pocket": "across the pocket",
    "stub": "stub",
    "depth": "reach",
}

MEASURED: Mapping[str, str] = {
    "above_mm": "the height above the head",
    "beside_mm": "the gap beside the head",
    "swing_deg": "the free arc for a handle",
    "side_mm": "the opening at the side",
    "stub_mm": "how far the stub stands proud",
}
THINGS: Mapping[str, str] = {
    "pressurised": "pressurised body",
    "running": "what still runs",
    "hot": "what is hot",
    "live": "live cable",
    "hollow": "closed hollow",
    "implant": "pacemaker",
    "fluororubber": "burnt fluoro rubber",
}
NOWHERE = "stop: machine shop, or a new part"
ERODED = "stop: spark erosion at a machine shop, or a new part"  # a hard tool stuck in it
DEALER = "stop: its maker's dealer or a restraint specialist"  # a live airbag or tensioner
ALMOST = 0.99  # no plan is certain, whatever its sum comes to

FORMS: Mapping[str, str] = {
    "hex": "hex socket",
    "AF": "hexagon",
    "slot": "slot",
    "12pt": "twelve-point",
    "driving": "driving square",
    "triple": "triple square",
}

_PLACE = re.compile(r"\{(\d)(?::(\w+))?\}")


def sentence(reason: Reason, names: Names) -> str:
    """
    Return the sentence of a code.

    Args:
        reason: Code and values, in the order that its line in `SENTENCES` takes them.
        names: Titles by entry id, for methods and tools.

    Raises:
        KeyError: When the code has no sentence.
        IndexError: When a value is missing.

    >>> sentence(Reason("swing_too_small", (30.0, 12.0)), {})
    'needs 30° of swing, 12° is free'
    """
    return _filled(SENTENCES[reason.code], reason.values, names)


def reasons_of(move: Move, titles: Names) -> dict[str, str]:
    """Return why a move is offered, a sentence each by its code."""
    return {reason.code: sentence(reason, titles) for reason in move.why}


def why_words(told: Mapping[str, str]) -> str:
    """Return the reasons of a move in one sentence; empty where nothing is to be said."""
    return "; ".join(told.values()) + "." if told else ""


def size_sentence(size: Size) -> str:
    """
    Return a size in words.

    Raises:
        KeyError: When there are no words for it.

    >>> size_sentence(Size("pilot", 2.2, (2.2,), "practice", "judgement"))
    'pilot 2.2 mm (0.087 in)'
    """
    return _filled(SIZES[size.what], size.values, {})


def _filled(text: str, values: Sequence[str | float], names: Names) -> str:
    def put(place: re.Match[str]) -> str:
        value, form = values[int(place.group(1))], place.group(2)
        if form == "amount":
            return _length(value) if values[2] == "mm" else _angle(value)
        if form == "margin":
            return _margin(str(value), values[2])
        return _FORMS[form](value, names) if form else str(value)

    return _PLACE.sub(put, text)


def method_title(method: str, names: Names) -> str:
    """Return a method's title in the data, else its slug in words."""
    return names.get(f"method:{method}", method.replace("-", " "))


def in_sentence(title: str) -> str:
    """Return a title as it stands inside a sentence: small first letter, unless it is a name."""
    return (
        title
        if title[1:2].isupper() or (title[:1] == "T" and title[1:2] == "-")
        else (title[:1].lower() + title[1:])
    )


def show_minutes(minutes: float) -> str:
    """
    Return minutes as people say them.

    >>> show_minutes(4.4), show_minutes(135.0)
    ('4 min', '2 h 15 min')
    """
    whole = max(round(minutes), 1)
    if whole < 120:
        return f"{whole} min"
    hours, rest = divmod(5 * round(minutes / 5), 60)
    return f"{hours} h {rest} min" if rest else f"{hours} h"


def own_sentence(rows: Sequence[OwnTries], titles: Names, every: bool = False) -> str:
    """Return what the user's own attempts come to, and how they are weighed; each where asked."""
    ok, of = sum(row.ok for row in rows), sum(row.of for row in rows)
    said = f"your own {ok} of {of}, each method weighed against {PRIOR_ATTEMPTS:g} of the model's"
    if not every:
        return f"{said}: --why"
    each = (
        f"{method_title(row.method, titles)}, {row.damage}, {row.seizure}: {row.ok} of {row.of}"
        for row in rows
    )
    return f"{said} ({'; '.join(each)})"


def show_chance(share: float) -> str:
    """
    Return a chance in percent, never 0 or 100 of what is neither.

    >>> show_chance(0.4), show_chance(0.997), show_chance(0.002)
    ('40 %', '99 %', '1 %')
    """
    if share in (0.0, 1.0):
        return f"{100 * share:.0f} %"
    return f"{min(max(round(100 * share), 1), 99)} %"


def show_margin(axis: str, margin: float) -> str:
    """
    Return the room left over on an axis of `Margins`.

    >>> show_margin("above_mm", 20.0), show_margin("swing_deg", 15.0)
    ('20 mm (0.79 in) above', '15° swing')
    """
    shown = _angle(margin) if axis.endswith("_deg") else _length(margin)
    return f"{shown} {axis.removesuffix('_mm').removesuffix('_deg')}"


def show_shortfall(short: Shortfall) -> str:
    """
    Return the room that is missing.

    >>> show_shortfall(Shortfall("beside", 2.0, "mm")), show_shortfall(Shortfall("swing", 9, "deg"))
    ('2 mm (0.079 in) short beside', '9° short of swing')
    """
    if short.unit == "deg":
        return f"{_angle(short.amount)} short of swing"
    where = {"side": "at the side", "pocket": "across the pocket"}.get(short.axis, short.axis)
    return f"{_length(short.amount)} short {where}"


def measure_sentence(measure: Measure, names: Names, headless: bool = False) -> str:
    """
    Return the measurement that would change the plan most.

    >>> measure_sentence(Measure("above_mm", 55.0, "make-room"), {})
    'the height above the head: below 55 mm (2.17 in) the first move becomes: make room'
    """
    angle = measure.axis.endswith("_deg")
    below = _angle(measure.below) if angle else _length(measure.below)
    becomes = (
        NOWHERE
        if measure.first_becomes == "stop"
        else in_sentence(method_title(measure.first_becomes, names))
    )
    what = MEASURED[measure.axis].replace("head", "shank" if headless else "head")
    return f"{what}: below {below} the first move becomes: {becomes}"


def show_about(nm: float) -> str:
    """
    Return a torque [N·m] to the two digits that it is worth.

    >>> show_about(24.93), show_about(162.4)
    ('25 N·m (18 lb·ft)', '160 N·m (120 lb·ft)')
    """
    shown = show_nm(1000 * float(f"{nm:.2g}"))
    metric, _, rest = shown.partition(" (")
    value, _, unit = rest.rstrip(")").partition(" ")
    return f"{metric} ({float(f'{float(value):.2g}'):g} {unit})"


def show_place(mm: float) -> str:
    """
    Return how far off a neighbour [mm] stands.

    >>> show_place(0.0), show_place(20.0)
    ('touching', 'at 20 mm (0.79 in)')
    """
    return f"at {show_mm(mm)}" if mm else "touching"


def thing(name: str) -> str:
    """Return a neighbour or hazard in words."""
    return THINGS.get(name, name.replace("-", " "))


def kept_off(name: str, rules: Mapping[float, Iterable[str]]) -> str:
    """Return `battery: no cut nearer than 10 mm (0.39 in), sparks or flame 500 mm (19.69 in)`."""
    kept = [(" or ".join(dict.fromkeys(them)), show_mm(mm)) for mm, them in rules.items()]
    (hazards, off), *others = kept
    rest = [f"{more} {further}" for more, further in others]
    return f"{name}: no {', '.join([f'{hazards} nearer than {off}', *rest])}"


def _length(value: Any) -> str:
    return show_mm(float(value))


def _angle(value: Any) -> str:
    return f"{figures(float(value))}°"


def _margin(axis: str, margin: Any) -> str:
    """Return what the tightest axis leaves: `, 12 mm (0.47 in) to spare above`."""
    return f", to spare {show_margin(axis, float(margin))}" if axis else ", free all round"


_FORMS: Mapping[str, Callable[[Any, Names], str]] = {
    "mm": lambda value, _: _length(value),
    "at": lambda value, _: show_place(float(value)),
    "deg": lambda value, _: _angle(value),
    "about": lambda value, _: show_about(float(value)),
    "bare": lambda value, _: figures(float(value), 2),
    "min": lambda value, _: show_minutes(float(value)),
    "pct": lambda value, _: show_chance(float(value)),
    "thing": lambda value, _: thing(str(value)),
    "axis": lambda value, _: AXES[str(value)],
    "drive": lambda value, _: drive_words(str(value)),
    "due": lambda value, _: DUE[str(value)],
    "sign": lambda value, _: SIGNS[str(value)],
    "celsius": lambda value, _: f"{figures(float(value))} °C ({32 + 1.8 * float(value):.0f} °F)",
    "kelvin": lambda value, _: f"{figures(float(value))} °C ({figures(1.8 * float(value))} °F)",
    "seconds": lambda value, _: f"{figures(float(value), 1 if float(value) < 10 else 2)} s",
    "watts": lambda value, _: f"{figures(float(value))} W",
    "micro": lambda value, _: f"{1000 * float(value):.1f} µm ({float(value) / 25.4:.5f} in)",
    "force": lambda value, _: f"{figures(float(value), 2)} N ({float(value) / 4.448:.0f} lbf)",
    "method": lambda value, names: in_sentence(method_title(str(value), names)),
    "rule": lambda value, names: in_sentence(names.get(f"method:{value}", str(value))),
    "tool": lambda value, names: names.get(f"tool:{value}", thing(str(value))),
}
