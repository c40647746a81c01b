"""
The ways of writing a thread, a drive, a grade or a length, each a pattern and what makes its parts.

`designation.parse` tries them in this order, the more telling before the more general.
"""

import re
from collections.abc import Callable, Iterator
from itertools import chain
from typing import NamedTuple

from fastkit.notation.other_threads import WAYS, Way


class Part(NamedTuple):
    """
    One thing read in a line.

    `kind` is thread, drive, grade, length (key `13mm`, `7/32in`), system (an alias of a form of
    drive, no size beside it) or word; `text` is what was read, in lower case and with the
    aliases replaced.
    """

    kind: str
    key: str
    text: str


# ISO 261 Table 2: the pitches of the general purpose metric thread [mm]
PITCHES = (
    *(0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.6, 0.7, 0.75, 0.8, 1, 1.25, 1.5, 1.75, 2, 2.5),
    *(3, 3.5, 4, 4.5, 5, 5.5, 6, 8),
)
COARSEST = 0.3  # pitch over diameter; coarser than the coarsest thread of ISO 261, M1x0.25
GAUGE_TPI = 24  # ASME B1.1: from here a whole number before it is a numbered size, not inches
# ISO 898-1 and the classes of its older editions
CLASSES = r"3\.6|4\.[68]|5\.[68]|6\.[689]|8\.8|9\.8|1[024]\.9"
DIGITS = "0123456789"
NUMBER = r"\d{1,3}(?:\.\d{1,3})?"
FRACTION = r"(?:[1-9][- ])?\d{1,2}/(?:2|4|8|16|32|64)"
NO_CLASS = rf"(?!(?:{CLASSES}) ?(?!mm|in))"  # `12.9 hex socket`: a class, no width
INCH = r"(?: ?in(?:ch(?:es)?)?\b\.?)"
LENGTH = rf"(?:(?P<mm>{NUMBER})(?: ?mm|(?! ?mm))|(?P<inch>{FRACTION}|{NUMBER}(?={INCH})){INCH}?)"
SURE_LENGTH = (
    rf"(?:(?P<mm>{NUMBER}) ?mm|(?P<cm>{NUMBER}) ?cm|(?P<inch>{FRACTION}|{NUMBER}(?={INCH})){INCH}?)"
)
SERIES = r"(?P<series>unc|unf|unef|uns|un|coarse|fine)"
# `t30 in alloy`: before another word, `in` is no unit
UNITS = r"(?! ?(?:mm|cm|inch|deg|°|n·?m|nm|ft|lb|%|min)\b)(?! ?in\b(?! [a-z]))"
END = r"(?![\w/]|[.-]\d)"
# a length before one of these is room around the work, not a size of the drive named before it
ROOM = (
    r"(?! (?:above|beside|over|off|away|from|deep|free|clear|clearance|room|swing|to|of|gap|long|"
    r"below|under|behind|left|space|between|engage|engaged|engagement|stick|sticks|proud|high)\b)"
)
HEXALOBULAR = r"(?:system:hexalobular|hexalobular|(?:six|6)[- ]lobe)(?: socket| recess)?"
OUTER = (
    r"(?:system:external-hexalobular|(?:external|outer|outside|female|inverted) "
    rf"{HEXALOBULAR})"
)
CROSS_H = (
    r"(?:system:cross-h|cross[- ](?:recess(?:ed)?[- ])?(?:type[- ])?h|"
    r"cross(?:[- ](?:head|recess))?)"
)
CROSS_Z = r"(?:system:cross-z|cross[- ](?:recess(?:ed)?[- ])?(?:type[- ])?z)"
OTHER_GRADES = (  # ASTM, ISO 8839, stainless nuts
    r"a193-b(?:7|8m?-[12])|a354-bd|a307|a325|a449|a490|a574|cu[1-7]|al[1-6]|ti[12]|pa66|"
    r"nut-(?:[acf][1-8]-0?\d{2,3}|sae-[258])"
)
CU_AL = (*(f"cu{n}" for n in range(1, 8)), *(f"al{n}" for n in range(1, 7)))
SPECIAL = (  # keys of drives that people name by trade words, which the aliases turn into keys
    r"t\d{1,3}-tamper|hex-[\d.]{1,4}mm-tamper|five-lobe-p\d|triple-square-m\d{1,2}|12pt-\d{1,2}mm|"
    r"spanner-\d{1,2}|one-way-\d{1,2}|driving-square-[\d.]{1,4}mm"
)
SQUARE = r"(?:system:square|square)(?: recess| drive| bit)?"
NUMBERED = {"PH": CROSS_H, "PZ": CROSS_Z, "SQ": SQUARE}
HEX = (
    r"(?:system:hex-socket(?: head)?(?: (?:key|bit|bolt|screw|wrench|system:hexagon))?|"
    r"hex(?:agon(?:al)?)? ?(?:socket(?: head)?|keys?|bits?|recess)|"
    r"socket head(?: cap)?|(?:internal|inner) hex(?:agon)?|hex(?!agon| ?-?(?:head|bolt|nut|cap)\b))"
)
OTHER_WRENCHES = r"(?<!impact )(?<!torque )(?<!pipe )"  # that go on no hexagon of their own
FLATS = (
    rf"{OTHER_WRENCHES}"
    r"(?:system:hexagon|(?:outer |external )?hex(?:agon)?(?:[- ](?:head|bolt|nut|cap screw))?|"
    r"(?:six|twelve|6|12)[- ]point(?: socket)?|sockets?|wrench|spanner|"
    r"(?<!sealing )(?<!retaining )(?<!radial )(?<!snap )ring|a/?f|across flats)"
)

Builder = Callable[[re.Match[str]], tuple[Part, ...] | None]


class Rule(NamedTuple):
    """
    One way of writing; *build* makes the parts, or nothing where the match is none after all.

    `starts` (first letters; empty: any) and `needs` (one of them stands in the line, or in its
    runs of letters with a blank before and behind each; empty: none needed) only spare the
    compiling of a pattern that cannot match: most of them never can.
    """

    starts: str
    needs: tuple[str, ...]
    pattern: str
    build: Builder


def _plain_number(text: str) -> str:
    return f"{float(text):g}"


def _metric(match: re.Match[str]) -> tuple[Part, ...] | None:
    size, value = float(match["size"]), match["pitch"]
    if not 0 < size <= 300:
        return None
    key, length = f"M{size:g}", match["length"]
    if value:
        if 0 < float(value) <= COARSEST * size:
            key += f"x{_plain_number(value)}"
        elif "x" in match["joint"] and not length and float(value) > 0:
            length = value
        else:
            return None
    if match["series"]:
        if "x" in key or match["series"] not in {"coarse", "fine"}:
            return None
        key += f"-{match['series']}"
    thread = Part("thread", key, match[0])
    if length:
        return thread, Part("length", f"{_plain_number(length)}mm", match[0])
    return (thread,)


def _metric_graded(match: re.Match[str]) -> tuple[Part, ...]:
    """`M8-8.8`, as bolts are marked on a list."""
    thread = Part("thread", f"M{float(match['size']):g}", match[0])
    return thread, Part("grade", match["grade"], match[0])


def _metric_spaced(match: re.Match[str]) -> tuple[Part, ...] | None:
    """`m12 1.5`, `12x1.5`: only a pitch of the standard's, so that no other number is taken."""
    size, pitch = float(match["size"]), float(match["pitch"])
    if pitch not in PITCHES or pitch > COARSEST * size:
        return None
    return (Part("thread", f"M{size:g}x{pitch:g}", match[0]),)


def _inch(match: re.Match[str]) -> tuple[Part, ...] | None:
    """Size with threads per inch, series, or both; one of them must have been said."""
    groups = match.groupdict()
    size, tpi, series = groups["size"], groups.get("tpi"), groups.get("series")
    if not tpi and not series and not groups.get("mark"):
        return None
    if "/" in size:
        size = _fraction(size)
        if not size:
            return None
    elif groups.get("mark") or (tpi and float(tpi) >= GAUGE_TPI) or int(size) > 4:
        if int(size) > 12:
            return None
        size = f"#{int(size)}"
    elif int(size) == 0 or not tpi:
        return None
    key = size
    if tpi:
        if not 3 <= float(tpi) <= 80:
            return None
        key += f"-{_plain_number(tpi)}"
    if series:
        key += f"-{series if series in {'coarse', 'fine'} else series.upper()}"
    return (Part("thread", key, match[0]),)


def _fraction(text: str) -> str:
    """An inch fraction as its key, `1-1/4`; empty where it is none below one inch in its part."""
    whole, _, part = text.replace(" ", "-").rpartition("-")
    above, _, below = part.partition("/")
    if not 0 < int(above) < int(below) or int(above) % 2 == 0:
        return ""
    return f"{whole}-{part}" if whole else part


def _sized(system: str, largest_mm: float) -> Builder:
    def build(match: re.Match[str]) -> tuple[Part, ...] | None:
        size = _length(match)
        if not size or _rough_mm(size) > largest_mm:
            return None
        return (Part("drive", f"{system}-{size}", match[0]),)

    return build


def _length(match: re.Match[str]) -> str:
    """Key of the length that was read: `13mm`, `7/32in`; empty where it is none."""
    groups = match.groupdict()
    if groups.get("cm"):
        return f"{10 * float(groups['cm']):g}mm"
    if groups["mm"]:
        return f"{_plain_number(groups['mm'])}mm" if float(groups["mm"]) > 0 else ""
    inch = groups["inch"]
    if len(inch) > 2 and inch.isdigit():  # `din 472 in the gearbox` is no length
        return ""
    size = _fraction(inch) if "/" in inch else _plain_number(inch)
    return f"{size}in" if size and size != "0" else ""


def _rough_mm(size: str) -> float:
    if size.endswith("mm"):
        return float(size[:-2])
    whole, _, part = size[:-2].rpartition("-")
    above, _, below = part.partition("/")
    return 25.4 * (float(whole or 0) + float(above) / float(below or 1))


def _bare_length(match: re.Match[str]) -> tuple[Part, ...] | None:
    size = _length(match)
    return (Part("length", size, match[0]),) if size else None


def _key(kind: str, head: str, low: float = 0, high: float = 999) -> Builder:
    """Builder of a key made of *head* and the number read, where that lies within bounds."""

    def build(match: re.Match[str]) -> tuple[Part, ...] | None:
        number = next(group for group in match.groups() if group)
        if not low <= float(number) <= high:
            return None
        return (Part(kind, f"{head}{_plain_number(number)}", match[0]),)

    return build


def _slot(match: re.Match[str]) -> tuple[Part, ...]:
    size = f"{_plain_number(match[1])}x{_plain_number(match[2])}"
    return (Part("drive", f"slot-{size}", match[0]),)


def _other_grade(match: re.Match[str]) -> tuple[Part, ...]:
    key = match["key"].upper()
    return (Part("grade", key.replace("NUT-", "nut-"), match[0]),)


def _special(match: re.Match[str]) -> tuple[Part, ...]:
    """A key of the rarer drives, as it is written: T27-tamper, triple-square-M8, 12pt-13mm."""
    key = re.sub(r"(?<=-)[mp](?=\d)|^t(?=\d)", lambda m: m[0].upper(), match["key"])
    return (Part("drive", key, match[0]),)


def _grade(match: re.Match[str]) -> tuple[Part, ...]:
    return (Part("grade", match["key"].upper().replace(" ", "-"), match[0]),)


def _system(match: re.Match[str]) -> tuple[Part, ...]:
    return (Part("system", match["key"], match[0]),)


def _other(way: Way) -> Rule:
    def build(match: re.Match[str]) -> tuple[Part, ...] | None:
        key = way.key(match)
        return (Part("thread", key, match[0]),) if key else None

    return Rule(way.starts, way.needs, way.pattern, build)


# what the patterns of several subjects share
GRADE = r"(?:grade:)?(?:(?:property |strength )?(?:class|grade|gr\.?|cl\.?) ?)?"
METRIC = rf"(?:thread:)?m ?(?P<size>{NUMBER})"
NONE = r"(?P<pitch>)(?P<joint>)(?P<length>)"
TPI = r"(?P<tpi>\d{1,2}(?:\.5)?)(?: ?tpi)?"
PARTED = rf"(?:thread:)?(?P<size>{FRACTION}){INCH}?"
WHOLE = rf"(?:thread:)?(?P<size>\d{{1,2}}){INCH}?"
GAUGE = r"(?:thread:)?(?P<mark>#|no\.? ?#?|nr\.? ?|number )(?P<size>\d{1,2})"
INCHES, GAUGES = DIGITS + "t", "#nt"  # first letters
NAMED, JOINTS, PART = (" coarse", " fine", " un"), ("-", "x"), ("/",)


def _metric_rules() -> Iterator[Rule]:
    yield Rule("mt", ("-",), rf"{METRIC} ?- ?(?P<grade>{CLASSES})", _metric_graded)
    yield Rule(
        "mt",
        JOINTS,
        rf"{METRIC}(?P<joint> ?[x-] ?)(?P<pitch>{NUMBER})(?: ?x ?(?P<length>{NUMBER}))?"
        r"(?P<series>)(?: ?mm)?",
        _metric,
    )
    spaced = rf"{METRIC} (?P<pitch>\d?\.\d+|\d(?= pitch|$)){UNITS}"
    yield Rule("mt", (), spaced, _metric_spaced)
    whole = r"[1-6](?= ?mm| (?:threads?|bolts?|screws?|nuts?|studs?|taps?)\b)"
    bare = rf"(?P<size>\d{{1,2}}) ?[x-] ?(?P<pitch>\d?\.\d+|{whole})(?: ?mm)?"
    yield Rule(DIGITS, JOINTS, bare, _metric_spaced)
    yield Rule("mt", NAMED, rf"{METRIC}[- ](?P<series>coarse|fine){NONE}", _metric)
    yield Rule("cf", NAMED, rf"(?P<series>coarse|fine) {METRIC}{NONE}", _metric)
    yield Rule("mt", (), rf"{METRIC}(?P<series>){NONE}", _metric)


def _inch_rules() -> Iterator[Rule]:
    joined, dash = r"(?: ?[-x] ?)", r"(?: ?-? ?)"
    sizes: tuple[tuple[str, tuple[str, ...], str], ...] = (
        (INCHES, PART, PARTED),
        (GAUGES, (), GAUGE),
        (INCHES, (), WHOLE),
    )
    for starts, needs, size in sizes:
        yield Rule(starts, needs or NAMED, rf"{size}{joined}{TPI}{dash}{SERIES}", _inch)
    yield Rule(INCHES, PART, rf"{PARTED} {TPI}{dash}{SERIES}", _inch)
    yield Rule(INCHES, PART, rf"{PARTED}{dash}{SERIES}", _inch)
    yield Rule(GAUGES, NAMED, rf"{GAUGE}{dash}{SERIES}", _inch)
    yield Rule("ucf", PART, rf"{SERIES} {PARTED}(?:{joined}{TPI})?", _inch)
    yield Rule("ucf", NAMED, rf"{SERIES} {GAUGE}", _inch)
    for starts, needs, size in sizes:
        yield Rule(starts, needs or JOINTS, rf"{size}{joined}{TPI}{UNITS}", _inch)
    yield Rule(INCHES, PART, rf"{PARTED} {TPI}{UNITS}", _inch)


def _named_drive_rules() -> Iterator[Rule]:
    """Drives by the words of their form, the number before or behind."""
    lobes = ("lob",)
    for words, letter, low, high in ((OUTER, "E", 4, 44), (HEXALOBULAR, "T", 1, 100)):
        size = rf"(?:drive:)?(?:{letter.lower()}x?[- ]?)?(\d{{1,3}})"
        pattern = rf"(?:{words} {size}|{size} {words})"
        yield Rule("", lobes, pattern, _key("drive", letter, low, high))
    yield Rule("", lobes, rf"{HEXALOBULAR} e[- ]?(\d{{1,2}})", _key("drive", "E", 4, 44))
    for letters, words in NUMBERED.items():
        size = rf"(?:drive:)?(?:{letters.lower()} ?)?(?:#|no\.? ?|number |size )?(\d){UNITS}"
        build, said = _key("drive", letters, 0, 5), ("cross", "square")
        yield Rule("", said, rf"(?:{words} {size}|{size} {words})", build)
        pattern = rf"(?:drive:)?{letters.lower()} ?#?-?(\d){UNITS}"
        yield Rule("psd", (letters.lower(),), pattern, build)


def _drive_rules() -> Iterator[Rule]:
    """Drives by their keys and by what is measured."""
    yield Rule("dth1fso", ("-",), rf"(?:drive:)?(?P<key>{SPECIAL})", _special)
    yield Rule("td", (), rf"(?:drive:)?tx?[- ]?(\d{{1,3}}){UNITS}", _key("drive", "T", 1, 100))
    yield Rule("ed", (), rf"(?:drive:)?e[- ]?(\d{{1,2}}){UNITS}", _key("drive", "E", 4, 44))
    slot = rf"(?:drive:)?slot(?:ted)?[- ]({NUMBER})(?: ?mm)? ?x ?({NUMBER})(?: ?mm)?"
    yield Rule("sd", ("slot",), slot, _slot)
    flats = ("hex", "point", "socket", "wrench", "spanner", "ring", "af", "a/f", "across")
    of_flats: tuple[tuple[str, tuple[str, ...], Builder], ...] = (
        (HEX, ("hex", "head"), _sized("hex", 50.0)),
        (FLATS, flats, _sized("AF", 120.0)),
    )
    for words, needs, build in of_flats:
        yield Rule(DIGITS + "d", needs, rf"(?:drive:)?{NO_CLASS}{LENGTH}[- ]?{words}", build)
        yield Rule("", needs, rf"(?:drive:)?{words}[- ]?{LENGTH}{END}{ROOM}", build)


def _other_grade_rules() -> Iterator[Rule]:
    """Grades that could be read as something else further on."""
    marks = (*"a193 a354 a307 a325 a449 a490 a574 ti1 ti2 pa66 nut-".split(), *CU_AL)
    yield Rule("gacnpt", marks, rf"(?:grade:)?(?P<key>{OTHER_GRADES}){UNITS}", _other_grade)


def _grade_rules() -> Iterator[Rule]:
    yield Rule(DIGITS + "gcps", (".",), rf"{GRADE}(?P<key>{CLASSES}){UNITS}", _grade)
    stainless = tuple(f"{letter}{number}" for letter in "acdf" for number in range(1, 9))
    whole = rf"{GRADE}(?P<key>[acdf][1-8]l?[- ](?:45|50|60|70|80|100|110))"
    yield Rule("acdfgps", stainless, whole, _grade)
    half = rf"{GRADE}(?P<key>a[24])(?= (?:stainless|steel|bolt|screw|nut|stud|torque|tight)|$)"
    yield Rule("agcps", ("a2", "a4"), half, _grade)
    set_screws = ("14h", "22h", "33h", "45h")
    yield Rule(DIGITS + "gcps", set_screws, rf"{GRADE}(?P<key>(?:14|22|33|45)h)", _grade)
    sae = rf"(?:grade:)?sae[- ]?(?:j ?429 )?(?:grade |gr\.? ?)?([1-8](?:\.[12])?){UNITS}"
    yield Rule("sg", ("sae",), sae, _key("grade", "SAE-"))
    nut = _key("grade", "nut-", 4, 14)
    yield Rule("ng", ("nut",), rf"(?:grade:)?nuts?[- ](?:class )?(\d{{1,2}}){UNITS}", nut)
    yield Rule("cg", ("nut",), r"(?:class|grade) (\d{1,2}) nut", nut)
    number = rf"(?:grade|gr\.?)[- ]?([1-8](?:\.[12])?){UNITS}"
    yield Rule("g", (), number, _key("grade", "SAE-"))


def _bare_rules() -> Iterator[Rule]:
    """What is read only where nothing above was."""
    yield Rule(GAUGES, (), rf"{GAUGE}{UNITS}", _inch)
    yield Rule(DIGITS, (), SURE_LENGTH, _bare_length)
    yield Rule("s", ("system:",), r"system:(?P<key>[a-z-]+)", _system)


RULES = tuple(
    rule._replace(pattern=rule.pattern + END)
    for rule in chain(
        map(_other, WAYS),
        _metric_rules(),
        _inch_rules(),
        _named_drive_rules(),
        _other_grade_rules(),
        _drive_rules(),
        _grade_rules(),
        _bare_rules(),
    )
)
