"""What was said aloud or typed in a hurry, put as it is written; names are left as they stand."""

import re
from collections.abc import Callable

COUNTED = {
    word: str(n)
    for n, word in enumerate(
        "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen "
        "sixteen seventeen eighteen nineteen twenty".split(),
        start=1,
    )
}
TENS = {
    "twenty": 20,
    "thirty": 30,
    "forty": 40,
    "fifty": 50,
    "sixty": 60,
    "seventy": 70,
    "eighty": 80,
}
PARTS_OF_INCH = {"quarter": "1/4", "half": "1/2", "three quarters": "3/4", "three quarter": "3/4"}
# ASME B1.1: threads per inch of the numbered sizes
GAUGES = {
    **{"0": "80", "1": "64 72", "2": "56 64", "3": "48 56", "4": "40 48", "5": "40 44"},
    **{"6": "32 40", "8": "32 36", "10": "24 32", "12": "24 28 32"},
}
GAUGE = (
    r"(?<![\w./#-])(?:(?:no|nr)\.? ?|number |#)?(?<![\d/] )"
    r"(\d{1,2})([ /])(\d\d)(?![\w./-]| ?mm)"
)
PITCH = r"\d?\.\d|[1-6](?![\d.]| ?mm long)"
WHOLE = rf"(?P<whole>{'|'.join(COUNTED)}|\d)"
PART = "|".join(sorted(PARTS_OF_INCH, key=len, reverse=True))
ONES = "|".join(COUNTED)
SPOKEN = rf"(?:(?P<tens>{'|'.join(TENS)})(?:[ -](?P<unit>{ONES})\b)?|(?P<ones>{ONES}))"
MM = r" ?(?:mm|mils?|millimet(?:er|re)s?)\b"
# what a thread is called by beside its size, and the size, where they stand apart
NAMED = ("unc", "unf", "une", "npt", "bsp", "bsw", "bsf", "whit", "coarse", "fine", "spark plug")
HEXAGONS = ("hex bolt", "hex head bolt", "hex nut", "hexagon bolt", "hexagon nut")
STANDARDS = ("iso", "din", "en", "asme", "ansi", "bs", "jis", "astm", "sae")
SERIES = r"(?:unc|unf|unef|nptf?|bsp[pt]?|bsw|bsf|whit(?:worth)?|coarse|fine|spark plug)"
SIZE = (
    r"(?:#\d{1,2}|m ?\d{1,2}|\d{1,2}mm|(?:\d[ -])?\d{1,2}/\d{1,2}(?: ?in(?:ch)?\b)?|"
    r"(?:half|quarter|three quarters?)(?: inch\b)?)(?![\w./-])"
)
INCHES = r"(?<![\w./-])((?:\d[ -])?\d{1,2}/\d{1,2})(?: ?in(?:ch)?)?"
APART = r"((?: (?:(?!(?:x|in|inch)\b)[a-z]+|\d{1,2}\.[89]|(?<=grade )\d)){1,4}?)"
BETWEEN = r"(?:mm|[ x]|by|wide|slot(?:ted)?|screwdriver|blade)+"
TORQUE_UNITS = (
    r" ?(?<![a-z])(?:newton ?met(?:er|re)s?|(?:foot|ft|inch|in)[ -]?(?:pounds?|lbs?)|nm)\b"
)


def heard(text: str) -> str:
    """
    The text in lower case with spoken numbers, inches and units as figures.

    >>> heard("six mil hex key"), heard("inch and a quarter 7"), heard("0 b.a. thread")
    ('6mm hex key', '1-1/4-7', '0 ba thread')
    >>> heard("M12 fine 1.25"), heard("drill 4 m5 tap"), heard("m8 how many foot pounds")
    ('m12x1.25', 'drill for m5 tap', 'm8 how many torque')
    >>> heard("three quarter pipe thread npt"), heard("10 mm x 1.25")
    ('three quarter npt', 'm10x1.25')
    >>> heard("tap drill 10 32"), heard("6/32 screw"), heard("1/4 20")
    ('tap drill #10-32', '#6-32 screw', '1/4 20')
    """
    text = text.lower()
    for needs, pattern, written in RULES:
        if any(map(text.__contains__, needs)):
            text = re.sub(pattern, written, text)
    return text.strip()


def _undotted(match: re.Match[str]) -> str:
    return match[0].replace(".", "")


def _counted(match: re.Match[str]) -> str:
    return COUNTED[match[1]]


def _gauge(match: re.Match[str]) -> str:
    """`#10-32` of 10 32; a fraction of an inch, as 1/64, stays one."""
    size, sign, tpi = match[1], match[2], match[3]
    fraction = sign == "/" and tpi == "64"
    held = tpi in GAUGES.get(size, "").split() and not fraction
    return f"#{size}-{tpi}" if held else match[0]


def _mixed(match: re.Match[str]) -> str:
    """`1-1/4` of one and a quarter, with the threads per inch where they were said."""
    whole = match["whole"] or "1"
    size = f"{COUNTED.get(whole, whole)}-{PARTS_OF_INCH[match['part']]}"
    return f"{size}-{match['tpi']}" if match["tpi"] else f"{size} in"


def _in_tens(match: re.Match[str]) -> str:
    """`48` of forty-eight."""
    ones = int(COUNTED.get(match["unit"] or match["ones"] or "", 0))
    return f"{match['before']}{TENS.get(match['tens'] or '', 0) + ones}"


def _and_a_half(match: re.Match[str]) -> str:
    """`3.5` of three and a half."""
    return f"{COUNTED.get(match['whole'], match['whole'])}.5"


def _together(match: re.Match[str]) -> str:
    """Size, series and the words that stood between, where the line has one size only."""
    size, series = (match[1], match[3]) if match[1][0] in "#m0123456789" else (match[3], match[1])
    alone = len(re.findall(SIZE, match.string)) == 1
    return f"{size} {series}{match[2]}" if alone else match[0]


def _blade(match: re.Match[str]) -> str:
    """`slot 3.5x0.6` of a width and a thickness that make a blade."""
    wide, thick = float(match[1]), float(match[2])
    return f"slot {wide:g}x{thick:g}" if 3 <= wide / thick <= 9 else match[0]


# what stands in a text to which the rule applies (it spares the compiling of the others), how
# it is said, and how it is written
RULES: tuple[tuple[tuple[str, ...], str, str | Callable[[re.Match[str]], str]], ...] = (
    (("/",), r"(?<=\d)/(?=\d{1,2}\.\d|m\d)", " "),
    (("th",), r"(?<=\d/)(\d{1,2})ths?\b", r"\1"),
    ((".",), r"\b(?:[a-z]\.){2,}", _undotted),
    (STANDARDS, r"\b(iso|din|en|asme|ansi|bs|jis|astm|sae)(?=\d{2})", r"\1 "),
    (("and a half",), rf"\b{WHOLE} and a half(?={MM})", _and_a_half),
    (
        (*TENS, *COUNTED),
        rf"(?P<before>\b(?:m|pg|ba|t|e|a[24]|ph|pz|sq|square|spline) ){SPOKEN}\b",
        _in_tens,
    ),
    (tuple(TENS), rf"(?P<before>\b){SPOKEN}(?={MM})", _in_tens),
    (
        ("slot", "screwdriver"),
        rf"(?<![\w./-])(\d\d?(?:\.\d)?){BETWEEN}(\d?\.\d|[12])(?: ?mm)?(?: thick)?(?![\w./])",
        _blade,
    ),
    (("ph", "pz", "sq"), r"\b(ph|pz|sq) (?:no\.? ?|number |nr\.? ?|size |# ?)(\d)\b", r"\1\2"),
    (("ph", "pz", "sq"), r"(?<![\w./-])([0-4]) ?(ph|pz|sq)\b", r"\2\1"),
    (("a2", "a4"), r"\b(a[24])[- ](0\d\d)\b", r"nut-\1-\2"),
    ((" t",), r"(?<![\w./-])(\d{1,3}) t\b", r"t\1"),
    ((" t",), r"\b([1-8]\d{3}) (?=t\d)", r"\1-"),
    (
        ("bit", "driver", "key"),
        r"\b([a-z]+) (bit|(?:screw)?driver|key) (?:size |no\.? ?|number |nr\.? ?|#)?"
        r"(\d{1,2})(?![\w./-]| ?(?:mm|in|x|\d))",
        r"\1 \3 \2",
    ),
    (("spark",), r"\bplug ((?:\S+ )*)spark\b(?! plug)", r"spark plug \1"),
    (("newton", "pound", "lb", "nm"), TORQUE_UNITS, " torque"),
    (
        ("mm", "mil"),
        rf"\b({'|'.join(COUNTED)})(?= ?(?:mm|mils?|millimet(?:er|re)s?)\b)",
        _counted,
    ),
    (("mil",), r"(?<=\d) ?(?:mils?|millimet(?:er|re)s?)\b", "mm"),
    (
        ("quarter", "half"),
        rf"\b(?:(?:an? )?inch|{WHOLE}(?: inch(?:es)?)?) (?:and|n|&) (?:a )?(?P<part>{PART})\b"
        r"(?: inch)?(?: (?P<tpi>\d{1,2})(?![\d./]| ?mm))?",
        _mixed,
    ),
    (
        ("fine", "coarse"),
        rf"\b(m ?\d{{1,2}}) (?:(?:extra )?fine|coarse)(?: pitch)?(?: ?x ?| )(?={PITCH})",
        r"\1x",
    ),
    (("mm",), r"\b(\d{1,2}) ?mm ?x ?(?=\d?\.\d)", r"m\1x"),
    (("pipe",), r"\bpipe(?: threads?)? (?=nptf?\b|bsp[pt]?\b)", ""),
    (tuple(" ".join(GAUGES.values()).split()), GAUGE, _gauge),
    (HEXAGONS, rf"{INCHES} hex(?:agon)? (?:head )?bolts?\b", r"\1 in b18.2.1 bolt"),
    (HEXAGONS, rf"\bhex(?:agon)? (?:head )?bolts? {INCHES}", r"\1 in b18.2.1 bolt"),
    (HEXAGONS, rf"\bhex(?:agon)? nuts? {INCHES}", r"\1 in b18.2.2 nut"),
    (HEXAGONS, rf"{INCHES} hex(?:agon)? nuts?\b", r"\1 in b18.2.2 nut"),
    (("4 m",), r"\b4 (?=m ?\d)", "for "),
    (NAMED, rf"(?<![\w./-])({SIZE}){APART} ({SERIES})\b", _together),
    (NAMED, rf"\b({SERIES}){APART} ({SIZE})", _together),
)
