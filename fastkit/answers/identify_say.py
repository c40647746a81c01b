"""What an identification says in words: the next reading, the traps."""

from collections.abc import Iterator, Mapping

from fastkit.answers.identified import Identified, Trap
from fastkit.notation.units import figures, show_mm

HOW: Mapping[str, str] = {
    "major": "over the crests of the bolt",
    "minor": "across the crests of the hole",
    "over-ten": "over ten pitches, crest to the eleventh crest",
    "taper": "whether it grows along its length: two readings, 10 mm apart",
    "flank-angle": "the flanks with a profile gauge held to the light",
    "mating": "nothing a caliper reads; see what it goes with, or turn in a known part by hand",
    "lobes": "count lobes, corners or arms",
    "system": "look: round lobes or flat sides, a pin in the middle",
    "external": "whether the tool goes in or over",
    "form": "the form of the head",
    "points": "over the points",
    "flats": "over the flats",
    "diameter": "over the head",
    "height": "the height of the head",
}
SEEN: Mapping[str, Mapping[float, str]] = {
    "taper": {0.0: "parallel", 1.0: "taper"},
    "external": {0.0: "goes in", 1.0: "goes over"},
}
KINDS: Mapping[str, str] = {
    "jams": "starts, then jams; forced, it strips",
    "strips": "goes in loosely and strips",
    "leaks": "screws together and leaks",
    "angle": "goes on, but carries on its crests only",
    "rounds": "is taken for it and rounds it",
}


TELLS = 4  # as many as a screen bears


def next_reading(answer: Identified) -> tuple[str, str] | None:
    """What to read next, and what each leader would show; None where one is left."""
    apart = answer.separates
    if apart is None:
        return None
    shown = []
    for tell in apart.tells[:TELLS]:
        name = tell.id.partition(":")[2]
        seen = _seen(apart.reading, apart.unit, tell.low, tell.high)
        shown.append(f"{name} {seen}".strip())
    tells = "" if apart.reading in ("mating", "system", "form") else "; ".join(shown)
    return HOW[apart.reading], tells


def _seen(reading: str, unit: str, low: float, high: float) -> str:
    words = SEEN.get(reading, {}).get(low)
    if words:
        return words
    if unit == "mm":
        if high - low < 0.005:
            return f"{low:.2f} mm ({low / 25.4:.4f} in)"
        return f"{low:.2f} to {high:.2f} mm"
    return f"{figures(low)}{'°' if unit == 'deg' else ''}"


def trap_words(trap: Trap) -> str:
    """One trap in a sentence: the note where there is one, and what the limits of size give."""
    first, second = (name.partition(":")[2] for name in trap.pair)
    said = KINDS[trap.kind]
    if trap.kind == "rounds":
        return f"{first} in {second}: {said} ({trap.note})"
    if trap.kind == "jams" and trap.turns is not None:
        said = f"starts, jams {_turns(trap.turns)}; forced, it strips"
    elif trap.kind == "strips" and trap.overlap_pct:
        said += f", {trap.overlap_pct} % of the depth bears"
    return f"{first} in {second}: {said}" + (f" ({trap.note})" if trap.note else "")


def _turns(turns: float) -> str:
    if turns >= SEEMS_RIGHT:
        return "only after a whole nut's length"
    if turns < 1.5:
        return "in the first turn" if turns < 1 else "after a turn"
    return f"after {figures(turns, 2)} turns"


SEEMS_RIGHT = 6.0  # turns that a nut has


def reading_words(answer: Identified) -> Iterator[str]:
    """Each reading as it was understood."""
    for name, value in answer.readings.items():
        if value is None or value is False or name == "how":  # how a mark was matched
            continue
        plain = name.replace("_mm", "").replace("_", " ")
        if name.endswith("_mm"):
            value = f"±{value:g} mm" if name == "caliper_error_mm" else show_mm(value)
        elif value is True:
            value = ""
        yield f"{plain} {value}".strip()


LIMITS: Mapping[str, str] = {
    **dict.fromkeys(("M", "plug"), "ISO 965-1, 6g and 6H, by its formulas"),
    **{"UN": "ASME B1.1, 2A and 2B, by its formulas", "BS": "BS 84, by its formulas"},
    **{"BA": "BS 93, by its formulas", "G": "ISO 228-1, classes A and B, as printed"},
    **{"ST": "ISO 1478, as printed", "R": "ISO 7-1, small end to a few turns past the gauge"},
    "NPT": "ASME B1.20.1, small end to a few turns past the gauge",
}


def limits_words(family: str) -> str:
    """Where a family's limits of size come from."""
    return LIMITS.get(family, "profile with a tenth or so of the pitch either way, judgement")
