"""
How the trade writes the threads beside metric and Unified: pipe, Whitworth, BA, sheet, spark plug.

Each way of writing is a pattern and what makes the thread's key of its match, or of as much of the
key as was said: `1/4-NPT`, `3/8-BSW`.
"""

import re
from collections.abc import Callable
from typing import NamedTuple

FRACTION = r"(?:[1-9][- ])?\d{1,2}/(?:2|4|8|16|32|64)"
INCH = r"(?: ?in(?:ch(?:es)?)?\b\.?)?"
SIZE = rf"(?P<size>{FRACTION}|\d{{1,2}}){INCH}"
WHOLE_INCH = r"(?P<size>[1-4]) ?in(?:ch(?:es)?)? (?P<series>unc|unf|unef|un)"
NO = r"(?:#|no\.? ?#?|nr\.? ?|number |size |gauge )"
BSP = (
    r"(?:b\.?s\.?p\.?(?P<kind>p|pp|t|tr|m|f|f?p)?|british (?:standard )?pipe|"
    r"gas thread|pipe (?:thread|plug|fitting|tap)s?)"
)
WHITWORTH = r"(?:bsw|b\.s\.w\.?|whit(?:worth)?\.?|british standard whitworth)"
FINE = r"(?:bsf|b\.s\.f\.?|british (?:standard )?fine|whit(?:worth)? fine)"
TAPPER = (
    r"(?:self[- ]?tapp?(?:er|ing|ers)(?:[- ]screws?)?|self[- ]tap(?:[- ]screws?)?|"
    r"sheet[- ]?metal[- ]screws?|tapping[- ]screws?|tek screws?)"
)
PLUG = r"(?:spark(?:ing)?[- ]?plugs?)(?: thread| hole| tap)?"
CONDUIT = r"(?:conduit|(?:cable )?gland)(?: thread)?"
# ISO 1478: the screw numbers that its sizes are those of
NUMBERED = {
    **{"0": "1.5", "1": "1.9", "2": "2.2", "3": "2.6", "4": "2.9", "5": "3.3", "6": "3.5"},
    **{"7": "3.9", "8": "4.2", "10": "4.8", "12": "5.5", "14": "6.3", "16": "8", "20": "9.5"},
}
TAPPING = frozenset(NUMBERED.values())
PLUGS = ("8", "10", "12", "14", "18")
PIPE_WHOLE = 6  # inches; the largest pipe thread that ISO 7 and ISO 228 name
PG = r"(?:7|9|11|13\.5|16|21|29|36|42|48)"
METRIC_CONDUIT = r"(?:12|16|20|25|32|40|50|63)"


class Way(NamedTuple):
    """One way of writing: first letters, what must occur (see `Rule`), pattern, key."""

    starts: str
    needs: tuple[str, ...]
    pattern: str
    key: Callable[[re.Match[str]], str | None]


def inch(text: str) -> str | None:
    """`1 1/4` -> `1-1/4`; None where it is no fraction in its lowest terms."""
    if "/" not in text:
        return text if 0 < int(text) <= PIPE_WHOLE else None
    whole, _, part = text.replace(" ", "-").rpartition("-")
    above, _, below = part.partition("/")
    if not 0 < int(above) < int(below) or int(above) % 2 == 0:
        return None
    return f"{whole}-{part}" if whole else part


def _of_series(series: str) -> Callable[[re.Match[str]], str | None]:
    """Size, threads per inch where they were said, and the series."""

    def key(match: re.Match[str]) -> str | None:
        groups = match.groupdict()
        size, tpi = inch(groups["size"]), groups.get("tpi")
        named = groups.get("series") or series
        if size is None:
            return None
        tpi = tpi and tpi.replace("-1/2", ".5").replace(" 1/2", ".5")
        return f"{size}-{tpi}-{named.upper()}" if tpi else f"{size}-{named.upper()}"

    return key


def _pipe(kind: str | None = None) -> Callable[[re.Match[str]], str | None]:
    """G, R or Rp and the size; *kind* None: by what was said, parallel unless taper."""

    def key(match: re.Match[str]) -> str | None:
        size, said = inch(match["size"]), match.groupdict().get("kind") or ""
        taper = said.startswith("t") or match.groupdict().get("taper")
        named = kind or ("R" if taper else "G")
        return size and f"{named}{size}"

    return key


def _tapping(match: re.Match[str]) -> str | None:
    """ST and the size, from the millimetres or from the screw's number."""
    size = match["size"]
    if "." in size:
        return f"ST{size}" if size in TAPPING else None
    return f"ST{NUMBERED[size]}" if size in NUMBERED else None


def _sized_st(match: re.Match[str]) -> str | None:
    size = f"{float(match['size']):g}"
    return f"ST{size}" if size in TAPPING else None


def _plug(match: re.Match[str]) -> str | None:
    size, pitch = match["size"], match.groupdict().get("pitch")
    if size not in PLUGS:
        return None
    return f"plug-M{size}x{float(pitch):g}" if pitch else f"plug-M{size}"


def _ba(match: re.Match[str]) -> str:
    return f"BA-{int(match['size'])}"


def _type_ab(match: re.Match[str]) -> str:
    return f"#{match['size']}-{match['tpi']}-AB"


def _pg(match: re.Match[str]) -> str:
    return f"PG{match['size']}"


def _conduit(match: re.Match[str]) -> str:
    return f"M{match['size']}x1.5"


def _ways() -> tuple[Way, ...]:
    """The ways of writing, the more telling before the more general."""
    digits, inches = "0123456789", "0123456789t"
    tpi, dash = r"(?:(?: ?[-x] ?| )(?P<tpi>\d{1,2}(?:\.5|[- ]1/2)?)(?: ?tpi)?)?", r"[- ]*"
    pipe_tpi = r"(?:(?: ?[-x] ?| )(?:28|19|14|11)(?: ?tpi)?)?"
    npt = r"(?P<series>nptf?)"
    tap, whit = (r"(?:thread:)?", ("bsw", "b.s.w", "whit"))
    fine = ("bsf", "b.s.f", "fine")
    bsp = ("bsp", "b.s.p", "british", "gas", "pipe")
    pipe = _pipe()
    taper = r"(?P<taper>[- ]+taper(?:ed)?)?"
    screws = ("tap", "metal", "tek")
    ab_tpi = r"(?P<tpi>\d\d)(?: ?tpi| threads per inch)"
    pitch = r"(?: ?x ?(?P<pitch>1(?:\.0|\.25|\.5)?))?"
    metric = r"m? ?(?P<size>\d{1,2})(?: ?mm)?"
    ba, st = r"(?P<size>\d{1,2})", r"(?P<size>\d{1,2}(?:\.\d)?)"
    return (
        Way(inches, bsp, rf"{tap}{SIZE}{pipe_tpi}{dash}{BSP}{taper}", pipe),
        Way("bgp", bsp, rf"{BSP}{taper} {SIZE}", pipe),
        Way("gt", ("g",), rf"{tap}g ?(?P<size>{FRACTION}|[12](?!\d)){INCH}", _pipe("G")),
        Way("rt", ("rp",), rf"{tap}rp ?{SIZE}", _pipe("Rp")),
        Way("rt", ("r",), rf"{tap}rc? ?(?P<size>{FRACTION}|[1-6](?!\d)){INCH}", _pipe("R")),
        Way(digits, (" un",), WHOLE_INCH, _of_series("UNC")),
        Way(inches, ("npt",), rf"{tap}{SIZE}{tpi}{dash}{npt}", _of_series("NPT")),
        Way("n", ("npt",), rf"{npt} {SIZE}", _of_series("NPT")),
        Way(inches, fine, rf"{tap}{SIZE}{tpi}{dash}{FINE}", _of_series("BSF")),
        Way("bw", fine, rf"{FINE} {SIZE}", _of_series("BSF")),
        Way(inches, whit, rf"{tap}{SIZE}{tpi}{dash}{WHITWORTH}", _of_series("BSW")),
        Way("bw", whit, rf"{WHITWORTH} {SIZE}", _of_series("BSW")),
        Way("", ("ba",), rf"{tap}{NO}?{ba} ?-?ba", _ba),
        Way("bt", ("ba",), rf"{tap}ba ?-?{ba}", _ba),
        Way("st", ("st",), rf"{tap}st ?{st}", _sized_st),
        Way("", screws, rf"{NO}?(?P<size>\d{{1,2}})(?:[ -]|x)+{ab_tpi} {TAPPER}", _type_ab),
        Way("", screws, rf"{NO}?(?P<size>\d{{1,2}}) {TAPPER}(?:[ -]|x)+{ab_tpi}", _type_ab),
        Way("st", screws, rf"{TAPPER} {NO}?(?P<size>\d{{1,2}})(?:[ -]|x)+{ab_tpi}", _type_ab),
        Way("", screws, rf"{NO}?{st}(?: ?mm| gauge| g)? {TAPPER}", _tapping),
        Way("st", screws, rf"{TAPPER} {NO}?{st}(?: ?mm)?", _tapping),
        Way(
            "",
            (" ab ",),
            r"(?:#|no\.? ?)?(?P<size>\d{1,2}) ?- ?(?P<tpi>\d\d) ?-? ?(?:type )?ab",
            _type_ab,
        ),
        Way("pt", ("plug",), rf"{tap}plug-m(?P<size>\d+)(?:x(?P<pitch>1(?:\.\d+)?))?", _plug),
        Way(digits + "m", ("plug",), rf"{metric}{pitch} (?:spark(?:ing)?[- ]?)?plugs?", _plug),
        Way("s", ("plug",), rf"{PLUG} {metric}{pitch}", _plug),
        Way("pt", ("pg",), rf"{tap}pg ?-?(?P<size>{PG})(?: {CONDUIT})?", _pg),
        Way(
            digits + "m",
            ("conduit", "gland"),
            rf"m? ?(?P<size>{METRIC_CONDUIT})(?: ?mm)?(?: ?x ?1\.5)? {CONDUIT}",
            _conduit,
        ),
    )


WAYS = _ways()
