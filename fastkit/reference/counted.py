"""Numbers as they are said, put in figures: inches and their parts, classes, pitches, hundreds."""

import re
from collections.abc import Callable

from fastkit.notation.rules import CLASSES, COARSEST, PITCHES

COUNTED = {
    word: str(n)
    for n, word in enumerate(
        "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen "
        "sixteen seventeen eighteen nineteen twenty".split(),
        start=1,
    )
}
TENS = {
    word: 10 * n
    for n, word in enumerate(
        "twenty thirty forty fifty sixty seventy eighty ninety".split(), start=2
    )
}
BELOW = {"half": 2, "quarter": 4, "eighth": 8, "sixteenth": 16, "thirty second": 32}
# ASME B1.1: threads per inch of the numbered sizes
GAUGES = {
    **{"0": "80", "1": "64 72", "2": "56 64", "3": "48 56", "4": "40 48", "5": "40 44"},
    **{"6": "32 40", "8": "32 36", "10": "24 32", "12": "24 28 32"},
}
SMALLEST, NEAR = 64, 0.00055  # inches are read in 64ths, where they differ by less than this [in]
MM_IN = 25.4  # [mm]
NO_THREAD = r"(?!1\.[26] ?mm)"  # ISO 261: sizes of threads that lie as near to parts of an inch
MM = r" ?(?:mm|mill?s?|millimet(?:er|re)s?)\b"
ONES = "|".join(COUNTED)
DIGIT = "|".join(list(COUNTED)[:9])
TEENS = "|".join(list(COUNTED)[9:19])
SPOKEN = rf"(?:(?P<tens>{'|'.join(TENS)})(?:[ -](?P<unit>{ONES})\b)?|(?P<ones>{ONES}))"
TWO = rf"(?:(?:{'|'.join(TENS)})(?:[ -](?:{DIGIT})\b)?|{TEENS})"  # a number of two figures
WHOLE = rf"(?P<whole>{ONES}|\d)"
ABOVE = "one|three|five|seven|nine|eleven|thirteen|fifteen"
PART = (
    rf"(?:(?P<above>{ABOVE}) )?(?P<below>half|quarter|eighth|sixteenth|thirty[- ]second)(?:s|th)?\b"
)
NUMBERED = r"m|pg|ba|t|e|a[24]|ph|pz|sq|square|spline|number|no|size|grade|gr|class|type"
GAUGE = (
    r"(?<![\w./#-])(?:(?:no|nr)\.? ?|number |#)?(?<![\d/] )"
    r"(\d{1,2})([ /])(\d\d)(?![\w./-]| ?mm)"
)
SERIES_NEXT = r"(?= ?(?:in|inch|inches)\b|-\d{1,2}(?![\w.])| (?:unc|unf|unef|bsp|bsw|bsf|npt|whit))"
STEP = r"(?:pitch|step|steigung|pas|paso|passo)"
SIZED = r"(?<![\w./-])(?:m ?(?P<size>\d{1,2}(?:\.\d)?)(?: ?mm)?|(?P<mm>\d{1,2}) ?mm)"
BETWEEN = (
    rf"(?: ?x ?|,? (?:fine )?(?:(?:bolt|screw|stud|nut|thread|tap) )?(?:(?:with|of|at) )?(?:an? )?"
    rf"(?:{STEP} )?(?:of )?)"
)


def number(text: str) -> int:
    """Number that is said in words or figures, below a hundred: `forty-eight`, `12`."""
    return sum(TENS.get(word) or int(COUNTED.get(word, word)) for word in re.split("[ -]", text))


def _pointed(match: re.Match[str]) -> str:
    """`1.25` of one point two five."""
    nought = ("zero", "oh", "nought")
    figures = ["0" if w in nought else COUNTED.get(w, w) for w in match["part"].split()]
    whole = "0" if match["whole"] in nought else COUNTED.get(match["whole"], match["whole"])
    return f"{whole}.{''.join(figures)}"


def _class(match: re.Match[str]) -> str:
    """`10.9` of ten nine, where there is such a class."""
    said = f"{COUNTED[match[1]]}.{COUNTED[match[2]]}"
    return said if re.fullmatch(CLASSES, said) else match[0]


def _counted(match: re.Match[str]) -> str:
    return COUNTED[match[1]]


def _in_tens(match: re.Match[str]) -> str:
    """`48` of forty-eight."""
    ones = int(COUNTED.get(match["unit"] or match["ones"] or "", 0))
    return f"{match['before']}{TENS.get(match['tens'] or '', 0) + ones}"


def _and_a_half(match: re.Match[str]) -> str:
    """`3.5` of three and a half."""
    return f"{COUNTED.get(match['whole'], match['whole'])}.5"


def _part(match: re.Match[str]) -> str:
    below = match["below"].replace("-", " ")
    return f"{COUNTED.get(match['above'] or 'one')}/{BELOW[below]}"


def _mixed(match: re.Match[str]) -> str:
    """`1-1/4` of one and a quarter, with the threads per inch where they were said."""
    whole = COUNTED.get(match["whole"] or "1", match["whole"] or "1")
    if re.search(r"m ?\d+ ?(?:x|by|,)? ?$", match.string[: match.start()]):
        above, below = _part(match).split("/")
        return f"{int(whole) + int(above) / int(below):g}"
    size = f"{whole}-{_part(match)}"
    return f"{size}-{match['tpi']}" if match["tpi"] else f"{size} in"


def _fraction(match: re.Match[str]) -> str:
    """`3/8` of three eighths, with the threads per inch where they were said."""
    tpi = match["tpi"]
    if not match["above"] and not tpi:
        return match[0]
    return f"{_part(match)}-{number(tpi)}" if tpi else _part(match)


def _gauge(match: re.Match[str]) -> str:
    """`#10-32` of 10 32; a fraction of an inch, as 1/64, stays one."""
    size, sign, tpi = match[1], match[2], match[3]
    fraction = sign == "/" and tpi == "64"
    held = tpi in GAUGES.get(size, "").split() and not fraction
    return f"#{size}-{tpi}" if held else match[0]


def _figures(match: re.Match[str]) -> str:
    """`#10-32` of ten thirty two; else one number, as `316` of three sixteen."""
    first, second = str(number(match[1])), str(number(match[2]))
    return f"#{first}-{second}" if second in GAUGES.get(first, "").split() else first + second


def _alone(match: re.Match[str]) -> str:
    """`45` of forty five."""
    return str(number(match[1]) + number(match[2] or "0"))


def _hundreds(match: re.Match[str]) -> str:
    """`360` of three hundred and sixty, `304` of three oh four."""
    first, oh, rest = match["first"], match["oh"], match["rest"]
    return str(100 * int(COUNTED[first]) + number(oh or rest or "0"))


def _in_parts(match: re.Match[str]) -> str:
    """`1-1/4` of 1.25 before an inch: in parts of an inch where it is just so many of them."""
    said = match[0] if match["mm"] is None else match["mm"]
    value = float(said) / (1.0 if match["mm"] is None else MM_IN)
    parts = round(value * SMALLEST)
    before = match.string[: match.start()]
    if abs(value - parts / SMALLEST) > NEAR or not parts or re.search(r"m ?[\d.]+ ?x? ?$", before):
        return match[0]
    below = SMALLEST
    while below > 1 and parts % 2 == 0:
        parts, below = parts // 2, below // 2
    whole, above = divmod(parts, below)
    size = f"{whole or ''}{'-' if whole and above else ''}{f'{above}/{below}' if above else ''}"
    return size if match["mm"] is None else f"{size} in"


def _pitched(match: re.Match[str]) -> str:
    """`m8x1.25` of 8 mm, 1.25 pitch: only a pitch that the standard has for threads so large."""
    size, pitch = match["size"] or match["mm"], match["pitch"]
    held = float(pitch) in PITCHES and float(pitch) <= COARSEST * float(size)
    return f"m{size}x{pitch}" if held else match[0]


# what stands in a text to which the rule applies (it spares the compiling of the others), how
# it is said, and how it is written
Rule = tuple[tuple[str, ...], str, str | Callable[[re.Match[str]], str]]
FIRST: tuple[Rule, ...] = (
    (("how ",), r"\bhow (?:thick|wide|high|tall|long|big|large)\b", "how"),
    (("ø", "⌀"), r"[ø⌀] ?(\d+(?:\.\d+)?)(?: ?mm)?(?![\w./])", r"\1 mm"),
    ((" . ",), r"(?<=\d) \. (?=\d)", "."),
    (
        (" point ",),
        rf"\b(?P<whole>{ONES}|zero|oh|nought|\d{{1,2}}) point "
        rf"(?P<part>(?:{DIGIT}|zero|oh|\d)(?: (?:{DIGIT}|zero|oh))*)(?!\w| ?(?:mm|in)\b)",
        _pointed,
    ),
    (
        (" nine", " eight", " six"),
        r"\b(four|five|six|eight|nine|ten|twelve) (nine|eight|six)\b(?! ?(?:in|inch|un[cf]|bs)\b)",
        _class,
    ),
    ((" two ", " four "), r"\ba two (?=fifty|seventy|eighty|[578]0\b|stainless)", "a2 "),
    ((" two ", " four "), r"\ba four (?=fifty|seventy|eighty|[578]0\b|stainless)", "a4 "),
    (("b seven",), r"\bb seven\b", "b7"),
    (("b eight",), r"\bb eight\b", "b8"),
    (("and a half",), rf"\b{WHOLE} and a half(?={MM})", _and_a_half),
    (("1/2",), rf"(?<![\w./-])(\d{{1,2}})[ -]1/2(?={MM})", r"\1.5"),
    (
        (*BELOW, "thirty-second"),
        rf"\b(?:(?:an? )?inch|{WHOLE}(?: inch(?:es)?)?) (?:and|n|&) (?:an? )?{PART}"
        r"(?: inch)?(?: (?P<tpi>\d{1,2})(?![\d./]| ?mm))?",
        _mixed,
    ),
    (
        (" and ", " & ", " n "),
        r"(?<![\w./-])(\d)(?: ?in(?:ch)?)? (?:and|&|n) (?:an? )?(?=\d{1,2}/\d)",
        r"\1-",
    ),
    (
        (*BELOW, "thirty-second"),
        rf"(?<![\w./-]){PART}(?:(?: ?in(?:ch)?)?[ -](?P<tpi>{TWO}|\d\d(?![\w./-]))"
        r"\b(?! ?(?:mm|mil|in\b|inch|point|deg|°)))?",
        _fraction,
    ),
    (
        (*TENS, *COUNTED),
        rf"(?P<before>\b(?:{NUMBERED}) ){SPOKEN}\b(?! (?:{'|'.join(TENS)}))",
        _in_tens,
    ),
    (
        (" hundred", " oh ", " o ", " zero "),
        rf"\b(?P<first>{ONES}) (?:(?:oh|o|zero) (?P<oh>{DIGIT})\b|"
        rf"hundred\b(?: (?:and )?(?P<rest>{TWO}|{DIGIT})\b)?)",
        _hundreds,
    ),
    (
        tuple(TENS) + tuple(TEENS.split("|")),
        rf"\b({TWO}|{DIGIT}) ({TWO})\b(?! ?(?:mm|mil|point|degree))",
        _figures,
    ),
    (
        (*TENS, *TEENS.split("|")[1:]),
        rf"\b({'|'.join(TENS)}|{TEENS[4:]})(?:[ -]({DIGIT}))?\b(?! ?(?:point|hundred))",
        _alone,
    ),
    (("mm", "mil", "inch"), rf"\b({ONES})(?={MM}| inch)", _counted),
    (("extra",), r"^(?!.*\bm ?\d)(.*)\bextra[- ]fine\b", r"\1unef"),
    (("mil",), r"(?<=\d) ?(?:mill?s?|millimet(?:er|re)s?)\b", "mm"),
    (
        (".",),
        rf"(?<![\w./-])(?:\d{{0,2}}\.\d{{1,4}}{SERIES_NEXT}|"
        rf"(?P<mm>{NO_THREAD}\d{{1,2}}\.\d{{1,4}}) ?mm\b)",
        _in_parts,
    ),
    ((" by ", " mal "), r"(?<=\d)( ?mm)? (?:by|mal) (?=\d?\.?\d)", r"\1x"),
)
LAST: tuple[Rule, ...] = (
    (("/",), rf"{SIZED}/(?P<pitch>[1-6])(?![\w./])", _pitched),
    (("pitch", "step"), rf"\b{STEP} (\d?\.\d+)(?: ?mm)? (m ?\d{{1,2}})(?![\w./])", r"\2x\1"),
    (
        ("tpi",),
        r"(?<![\w./#-])((?:\d[- ])?\d{1,2}/\d{1,2}|\d(?= ?in))(?: ?in(?:ch)?)? (\d{1,2}) ?tpi\b",
        r"\1-\2",
    ),
    (
        ("mm", "pitch", "step", "steigung", "pas"),
        rf"{SIZED}{BETWEEN}(?P<pitch>\d?\.\d+|[1-6](?= ?(?:mm )?{STEP}))(?: ?mm)?(?![\w./])"
        rf"(?: {STEP}\b)?",
        _pitched,
    ),
    (
        ("pitch", "step", "steigung", "pas"),
        rf"{SIZED} (?:thread )?(?:with )?(?:an? )?{STEP} (?:of )?"
        r"(?P<pitch>[1-6])(?: ?mm)?(?![\w./])",
        _pitched,
    ),
    (tuple(" ".join(GAUGES.values()).split()), GAUGE, _gauge),
)
