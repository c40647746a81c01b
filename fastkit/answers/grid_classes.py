"""
The classes in which the phone page asks for a stuck fastener, and the worst corner of each.

A page without a network cannot plan: it carries plans made beforehand, one for each mix of
classes. A class answers for the worst that it takes in: the least room, every neighbour of its
kind touching at once, the metal that forbids most, the damage and the bond that take longest.
What no class takes in is sent to the command line.

Why these bounds. Above: 30 mm lets a short bit in a flat ratchet in, 80 mm a bit socket on a
ratchet, 200 mm a drill; still more saves about a minute. Beside: 8 mm lets a low ratchet head turn,
15 mm locking pliers in, 30 mm a pistol drill stand straight. Where little stands free beside,
little comes in from the side and a handle swings less: the three are asked as one. Near: a fuel
line forbids what a rubber hose does not; light metal forbids flame, sparks and blows by itself.
Bearings, airbags and what holds pressure or charge are left to the command line: what they forbid
hangs on their distance. Seizure: rust gives to soaking, glue to heat, galling to neither. Size: up
to M6 an iron heats it and no bar may turn it; above, the other way round. The weakest of a size
class stands for it. Bodies: cast iron is no better than steel, and nothing turns behind a casting.
All of this is workshop judgement upon the rows of the data.
"""

from collections.abc import Iterator, Mapping
from itertools import product
from typing import Any, NamedTuple

from fastkit.extraction.situation import TURNING

OUTSIDE = "Not worked out here: use the command line, fastkit extract."
SMALLER = "Smaller than worked out here: use the command line, fastkit extract."


class Class(NamedTuple):
    """
    One answer to a question.

    `corner` says in words what it is worked out for; `options` are those of `extract` at that
    corner, as typed. `takes` holds what counts as in it, by field of the situation: the values, of
    room the least that must be there; of several classes with room enough the widest counts.
    """

    id: str
    title: str
    corner: str
    options: tuple[str, ...]
    takes: Mapping[str, tuple[Any, ...]]


class Axis(NamedTuple):
    """One question, its classes, and what is said to who finds none: a title and the sentence."""

    id: str
    title: str
    classes: tuple[Class, ...]
    outside: tuple[str, str]


class Kind(NamedTuple):
    """What it looks like, which comes first and leaves a few of the damages."""

    id: str
    title: str
    damages: tuple[str, ...]


HEADED, HEADLESS = ("screw", "bolt"), ("screw", "bolt", "stud")
RECESS = ("hex-socket", "hexalobular")
CROSS = ("cross-h", "cross-z")
HEXAGON = ("hexagon", "external-hexalobular")


def _damage(
    id_: str,
    title: str,
    corner: str,
    kind: str,
    damage: str,
    kinds: tuple[str, ...],
    damages: tuple[str, ...],
    systems: tuple[str, ...] = (),
) -> Class:
    takes: dict[str, tuple[str, ...]] = {"kind": kinds, "damage": damages}
    if systems:
        takes["system"] = systems
    return Class(id_, title, corner, ("--kind", kind, "--damage", damage), takes)


DAMAGE = Axis(
    "damage",
    "What is wrong with it?",
    (
        _damage(
            "socket-worn",
            "Bit still holds, but it will not move",
            "worn hex socket",
            *("screw", "worn", ("screw",), ("intact", "worn"), RECESS),
        ),
        _damage(
            "socket-stripped",
            "Bit turns in the recess",
            "stripped hex socket",
            *("screw", "stripped", ("screw",), ("intact", "worn", "stripped"), RECESS),
        ),
        _damage(
            "cross-stripped",
            "Cross recess, torn or about to",
            "stripped cross recess type H",
            *("screw", "stripped", ("screw",), ("intact", "worn", "stripped"), CROSS),
        ),
        _damage(
            "hexagon-worn",
            "Wrench still holds, but it will not move",
            "worn hexagon",
            *("bolt", "worn", ("bolt",), ("intact", "worn"), HEXAGON),
        ),
        _damage(
            "hexagon-rounded",
            "Head rounded, wrench slips",
            "rounded hexagon",
            *("bolt", "rounded", ("bolt",), ("intact", "worn", "rounded"), HEXAGON),
        ),
        _damage(
            "nut-rounded",
            "Nut on a stud or bolt, sound or rounded",
            "rounded nut",
            *("nut", "rounded", ("nut",), ("intact", "worn", "rounded"), HEXAGON),
        ),
        _damage(
            "tube-nut-rounded",
            "Tube nut of a line, sound or rounded",
            "rounded tube nut, taken as M10x1 of 11 mm",
            *("tube-nut", "rounded", ("tube-nut",), ("intact", "worn", "rounded"), HEXAGON),
        ),
        _damage(
            "snapped-proud",
            "Snapped, a stub stands out",
            "stud snapped proud",
            *("stud", "snapped-proud", HEADLESS, ("snapped-proud",)),
        ),
        _damage(
            "snapped-flush",
            "Snapped flush with the face",
            "stud snapped flush",
            *("stud", "snapped-flush", HEADLESS, ("snapped-flush",)),
        ),
        _damage(
            "snapped-below",
            "Snapped below the face",
            "stud snapped below the face",
            *("stud", "snapped-below", HEADLESS, ("snapped-below",)),
        ),
        _damage(
            "tool-stuck",
            "Bit or key broken off in the recess",
            "tool stuck in a hex socket",
            *("screw", "tool-stuck", ("screw",), ("tool-stuck",), RECESS),
        ),
        _damage(
            "extractor-broken",
            "Extractor or tap broken off in it",
            "extractor broken off in a stud",
            *("stud", "extractor-broken", HEADLESS, ("extractor-broken",)),
        ),
        _damage(
            "spinning",
            "It turns but does not come out, nothing known behind it",
            "bolt turning in place",
            *("bolt", "spinning", HEADED, ("spinning",), RECESS + HEXAGON),
        ),
        _damage(
            "nut-spinning",
            "The nut, cage or insert behind it turns along",
            "nut turning along with the bolt",
            *("bolt", "nut-spinning", HEADED, ("nut-spinning",), RECESS + HEXAGON),
        ),
    ),
    ("Something else", OUTSIDE),
)
SEIZURE = Axis(
    "seizure",
    "What holds it?",
    (
        Class(
            "rusted",
            "Nothing, or a little rust",
            "rusted, moved within memory",
            ("--seized", "rusted"),
            {"seized": ("none", "rusted")},
        ),
        Class(
            "seized",
            "Rust all through, or under paint",
            "seized by rust all through",
            ("--seized", "seized"),
            {"seized": ("none", "rusted", "painted", "seized")},
        ),
        Class(
            "glued",
            "Threadlocker",
            "high-strength threadlocker",
            ("--seized", "threadlocked-high"),
            {"seized": ("threadlocked-low", "threadlocked-medium", "threadlocked-high")},
        ),
        Class(
            "galled",
            "Metal welded itself: stainless, aluminium, titanium",
            "galled",
            ("--seized", "galled"),
            {"seized": ("galled",)},
        ),
    ),
    ("Something else", OUTSIDE),
)
ABOVE = Axis(
    "above",
    "How much is free above it, along its axis?",
    (
        Class(
            "above-30",
            "Two fingers: 30 mm (1.2 in) or more",
            "30 mm (1.18 in) above",
            ("--above", "30"),
            {"above_mm": (30.0,)},
        ),
        Class(
            "above-80",
            "A palm: 80 mm (3.2 in) or more",
            "80 mm (3.15 in) above",
            ("--above", "80"),
            {"above_mm": (80.0,)},
        ),
        Class(
            "above-200",
            "A hand's length: 200 mm (8 in) or more",
            "200 mm (7.87 in) above",
            ("--above", "200"),
            {"above_mm": (200.0,)},
        ),
    ),
    ("Less than 30 mm (1.2 in)", SMALLER),
)
BESIDE = Axis(
    "beside",
    "How much is free round it, from the head's edge?",
    (
        Class(
            "beside-8",
            "A little finger: 8 mm (5/16 in); a handle swings 30°",
            "8 mm (0.31 in) beside, 30° of swing, no way in from the side",
            ("--beside", "8", "--swing", "30", "--side", "none"),
            {"beside_mm": (8.0,), "swing_deg": (30.0,), "side_mm": (0.0, 0.0)},
        ),
        Class(
            "beside-15",
            "A thumb: 15 mm (5/8 in); a handle swings 60°; pliers get in from the side",
            "15 mm (0.59 in) beside, 60° of swing, 35 x 25 mm (1.4 x 1 in) from the side",
            ("--beside", "15", "--swing", "60", "--side", "35x25"),
            {"beside_mm": (15.0,), "swing_deg": (60.0,), "side_mm": (35.0, 25.0)},
        ),
        Class(
            "beside-30",
            "Two fingers: 30 mm (1.2 in); a handle swings 60°; a hand gets in from the side",
            "30 mm (1.18 in) beside, 60° of swing, 60 x 40 mm (2.4 x 1.6 in) from the side",
            ("--beside", "30", "--swing", "60", "--side", "60x40"),
            {"beside_mm": (30.0,), "swing_deg": (60.0,), "side_mm": (60.0, 40.0)},
        ),
    ),
    ("Less than 8 mm (5/16 in), or hardly any swing", SMALLER),
)
SOFT = ("rubber", "plastic", "paint", "wiring", "electronics")
BURNS = ("fuel", "brake-fluid", "tyre")
IRON, LIGHT = ("steel", "cast-iron"), ("aluminium", "magnesium")


def _beside(*things: str) -> tuple[str, ...]:
    return tuple(word for thing in things for word in ("--near", thing))


NEAR = Axis(
    "near",
    "What stands beside it, and what does it sit in?",
    (
        Class(
            "clear",
            "Steel or cast iron, nothing near that heat, sparks or blows harm",
            "body of cast iron, nothing near",
            ("--into", "cast-iron"),
            {"near": (), "into": IRON},
        ),
        Class(
            "soft",
            "Steel or cast iron; rubber, plastic, paint, wires or electronics near",
            "body of cast iron; rubber, plastic, paint, wires and electronics touching",
            (*_beside(*SOFT), "--into", "cast-iron"),
            {"near": SOFT, "into": IRON},
        ),
        Class(
            "fuel",
            "Steel or cast iron; fuel, brake fluid or a tyre near, whatever else of these",
            "body of cast iron; fuel, brake fluid and a tyre touching, and all that is soft",
            (*_beside(*SOFT, *BURNS), "--into", "cast-iron"),
            {"near": SOFT + BURNS, "into": IRON},
        ),
        Class(
            "light-metal",
            "Aluminium or magnesium, with nothing or only soft things near",
            "body of magnesium; rubber, plastic, paint, wires and electronics touching",
            (*_beside(*SOFT), "--into", "magnesium"),
            {"near": SOFT, "into": LIGHT},
        ),
    ),
    (
        "A bearing, airbag, battery, pressure, refrigerant or closed hollow; what is running, "
        "hot, live or poison; another body",
        OUTSIDE,
    ),
)
SIZE = Axis(
    "size",
    "How thick is its thread?",
    (
        Class("M4", "M4 to M6 (#8 to #12)", "M4", ("--thread", "M4"), {"size_mm": (4.0, 6.0)}),
        Class(
            "M8", "M8 to M12 (5/16 to 7/16 in)", "M8", ("--thread", "M8"), {"size_mm": (7.9, 12.0)}
        ),
    ),
    ("Thinner than M4, thicker than M12, or 1/4 in", OUTSIDE),
)
AXES = (DAMAGE, SEIZURE, ABOVE, BESIDE, NEAR, SIZE)
KINDS = (
    Kind(
        "recess",
        "A recess: hex socket, hexalobular or cross",
        ("socket-worn", "socket-stripped", "cross-stripped", "tool-stuck", *TURNING),
    ),
    Kind("hexagon", "A hexagon head", ("hexagon-worn", "hexagon-rounded", *TURNING)),
    Kind("nut", "A nut", ("nut-rounded", "tube-nut-rounded")),
    Kind(
        "no-head",
        "No head left, or a stud",
        ("snapped-proud", "snapped-flush", "snapped-below", "extractor-broken"),
    ),
)
# a drive or thread that a size class cannot name by itself
SIZED: Mapping[tuple[str, str], tuple[str, ...]] = {
    ("cross-stripped", "M4"): ("--drive", "PH2"),
    ("cross-stripped", "M8"): ("--drive", "PH4"),
    ("tube-nut-rounded", "M4"): ("--thread", "M10x1", "--drive", "AF-11mm"),
    ("tube-nut-rounded", "M8"): ("--thread", "M10x1", "--drive", "AF-11mm"),
}
Picks = tuple[str, ...]


def every() -> Iterator[Picks]:
    """Yield every mix of classes, by their ids in the order of the axes, the last varying first."""
    yield from product(*([each.id for each in axis.classes] for axis in AXES))


def chosen(picks: Picks) -> tuple[Class, ...]:
    """
    Return the classes of a mix.

    Raises:
        StopIteration: When an id is none of its axis.
    """
    return tuple(
        next(each for each in axis.classes if each.id == pick)
        for axis, pick in zip(AXES, picks, strict=True)
    )


def threaded(damage: str) -> bool:
    """Say whether a class of damage names the thread itself, so that no size class does."""
    return any(key[0] == damage and "--thread" in options for key, options in SIZED.items())


def corner(picks: Picks) -> dict[str, str | list[str]]:
    """Return the options of `extract` at the corner of a mix: by name, `near` as a list."""
    words = [word for each in chosen(picks) for word in each.options]
    words += SIZED.get((picks[0], picks[-1]), ())  # these come last and win
    found: dict[str, str | list[str]] = {"near": []}
    for option, value in zip(words[::2], words[1::2], strict=True):
        name = option.removeprefix("--")
        if name == "near":
            things = found["near"]
            assert isinstance(things, list)
            things.append(value)
        else:
            found[name] = value
    return found
