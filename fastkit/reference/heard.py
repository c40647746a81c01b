"""What was said aloud or typed in a hurry, put as it is written; names are left as they stand."""

import re

from fastkit.reference.counted import FIRST, LAST, ONES, TENS, Rule

PITCH = r"\d?\.\d|[1-6](?![\d.]| ?mm long)"
# what a thread is called by beside its size, and the size, where they stand apart
NAMED = ("unc", "unf", "une", "npt", "bsp", "bsw", "bsf", "whit", "coarse", "fine", "spark plug")
HEXAGONS = ("hex bolt", "hex head bolt", "hex nut", "hexagon bolt", "hexagon nut")
STANDARDS = ("iso", "din", "en", "asme", "ansi", "bs", "jis", "astm", "sae")
# an alloy and its temper
TEMPERED = tuple(f"{figure}{gap}t" for figure in range(10) for gap in ("", " "))
METRIC = ("iso", "din", "en1")  # run on to a size
SERIES = r"(?:unc|unf|unef|nptf?|bsp[pt]?|bsw|bsf|whit(?:worth)?|coarse|fine|spark plug)"
SIZE = (
    r"(?:#\d{1,2}|m ?\d{1,2}|\d{1,2}mm|(?:\d[ -])?\d{1,2}/\d{1,2}(?: ?in(?:ch)?\b)?|"
    r"(?:half|quarter|three quarters?)(?: inch\b)?)(?![\w./-])"
)
INCHES = r"(?<![\w./-])((?:\d[ -])?\d{1,2}/\d{1,2})(?: ?in(?:ch)?)?"
APART = r"((?: (?:(?!(?:x|in|inch|no|not|without)\b)[a-z]+|\d{1,2}\.[89]|(?<=grade )\d)){1,4}?)"
BETWEEN = r"(?:mm|[ x]|by|wide|slot(?:ted)?|screwdriver|blade)+"
FLATS = r"(?:(?:width |size )?across (?:the )?flats|a/?f)"
PLAIN_BOLT = r"(?:^|(?<=\d )|(?<=\d in ))bolts?"  # no form is named before it
LETTERS = {"em": "m", "tee": "t", "ee": "e", "ay": "a"}  # as they are said before a number
# a socket for a bolt is a spanner, where one in a screw is a form of drive
ASKED = "|".join(rf"(?<=\b{word} )" for word in ("a", "size", "the", "what", "which"))
SOCKET = rf"(?:^|{ASKED})sockets?(?= (?:size )?(?:for|to fit|fits|does|do)\b| size\b)"
# ISO 1174-1: the driving squares of tools by their inches, and their size [mm]
SQUARES = {
    "1/4|quarter": "6.3",
    "3/8": "10",
    "1/2|half": "12.5",
    "3/4|three quarters?": "20",
    "1(?= ?in)|one(?= inch)": "25",
}
DRIVEN = (
    r"(?:[ -]?in(?:ch)?)?[ -](?:square |sq )?((?:ratchet|socket) )?driv(?:e|ing)\b(?: square\b)?"
    r"(?! (?:bit|head|recess|screw)\b)"
)
TWELVE = r"(?:12|twelve)[- ](?:point|pt)"
NO_WRENCH = r"(?! (?:socket|ring|spanner|wrench))"
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
    >>> heard("a470 bolt"), heard("58 x 3 metric"), heard("3 inch rp"), heard("M30/3")
    ('a4-70 bolt', 'm58x3 metric', 'rp3', 'm30x3')
    >>> heard("tap drill 10 32"), heard("6/32 screw"), heard("1/4 20")
    ('tap drill #10-32', '#6-32 screw', '1/4 20')
    """
    text = text.lower()
    for needs, pattern, written in RULES:
        if any(map(text.__contains__, needs)):
            text = re.sub(pattern, written, text)
    return text.strip()


def _lettered(match: re.Match[str]) -> str:
    """`m ` of em, `a ` of ay: the letter that a designation begins with."""
    return f"{LETTERS[match[1]]} "


def _undotted(match: re.Match[str]) -> str:
    return match[0].replace(".", "")


def _together(match: re.Match[str]) -> str:
    """Size, series and the words that stood between, where the line has one size only."""
    size, series = (match[1], match[3]) if match[1][0] in "#m0123456789" else (match[3], match[1])
    alone = len(re.findall(SIZE, match.string)) == 1
    return f"{size} {series}{match[2]}" if alone else match[0]


def _blade(match: re.Match[str]) -> str:
    """`slot 3.5x0.6` of a width and a thickness that make a blade."""
    wide, thick = float(match[1]), float(match[2])
    return f"slot {wide:g}x{thick:g}" if 3 <= wide / thick <= 9 else match[0]


RULES: tuple[Rule, ...] = (
    (("/",), r"(?<=\d)/(?=\d{1,2}\.\d|m\d)", " "),
    (tuple(LETTERS), rf"\b({'|'.join(LETTERS)}) (?=\d|(?:{ONES}|{'|'.join(TENS)})\b)", _lettered),
    (("socket",), SOCKET, "spanner"),
    (("across", "af", "a/f"), rf"^(?=.*{PLAIN_BOLT}\b)(.*?)\b{FLATS}\b", r"\1hexagon head"),
    (("head ",), rf"{PLAIN_BOLT} head (?:size|width|dimensions?)\b", "hexagon bolt"),
    (("4 ",), r"(?<![\w./-])4 (?=m ?\d|\d/\d|(?:half|quarter|three|an?|the|my)\b)", "for "),
    (("-",), r"(?<![\w./-])(m|t|e|ph|pz|sq)-(?=\d)", r"\1"),
    (("th",), r"(?<=\d/)(\d{1,2})ths?\b", r"\1"),
    ((".",), r"\b(?:[a-z]\.){2,}", _undotted),
    *FIRST,
    *(
        ((" driv", "-driv"), rf"(?<![\w./-])(?:{inches}){DRIVEN}", rf"\1driving-square-{mm}mm")
        for inches, mm in SQUARES.items()
    ),
    (
        ("point", "12pt", "12-pt", "12 pt"),
        rf"\b(\d{{1,2}}) ?mm {TWELVE}\b{NO_WRENCH}",
        r"12pt-\1mm",
    ),
    (
        ("point", "12pt", "12-pt", "12 pt"),
        rf"\b{TWELVE} (\d{{1,2}}) ?mm\b{NO_WRENCH}",
        r"12pt-\1mm",
    ),
    (("b8",), r"\b(?:a193[- ])?(b8m?)(?:[- ](?:class|cl))?[- ]?([12])\b", r"a193-\1-\2"),
    (
        ("nut",),
        r"\bnuts? (?:for|to (?:suit|match)) (?:an? )?(?:class )?(5|6|8|9|10|12)\.[4689]\b"
        r"(?: (?:bolt|stud|screw)s?)?",
        r"nut-\1",
    ),
    (
        ("american",),
        r"^(?=.*\bamerican\b)(.*)\btaper(?:ed)? pipe(?: threads?)?\b",
        r"\1npt",
    ),
    (("drill bit",), r"\bdrill bit(?= (?:for|size|to)\b)", "drill"),
    (METRIC, r"(?<=\d)(?=(?:iso|din|en) ?\d{3})", " "),
    (METRIC, r"(?<![a-z])((?:iso|din|en) ?\d{3,5})(?=m\d)", r"\1 "),
    (STANDARDS, r"\b(iso|din|en|asme|ansi|bs|jis|astm|sae)(?=\d{2})", r"\1 "),
    (
        ("slot", "screwdriver"),
        rf"(?<![\w./-])(\d\d?(?:\.\d)?){BETWEEN}(\d?\.\d|[12])(?: ?mm)?(?: thick)?(?![\w./])",
        _blade,
    ),
    (("ph", "pz", "sq"), r"\b(ph|pz|sq) (?:no\.? ?|number |nr\.? ?|size |# ?)(\d)\b", r"\1\2"),
    (("ph", "pz", "sq"), r"(?<![\w./-])([0-4]) ?(ph|pz|sq)\b", r"\2\1"),
    (("a2", "a4"), r"\b(a[24])[- ](0\d\d)\b", r"nut-\1-\2"),
    (("50", "70", "80"), r"\b(a[1245])/?(?=[578]0\b)", r"\1-"),
    (TEMPERED, r"\b([1-8]\d{3}) ?(?=t\d)", r"\1-"),
    (
        ("metric",),
        r"^(?=.*\bmetric\b)(?!.*\bm ?\d)(.*?)(?<![\w./-])(\d{1,2}) ?x ?(?=\d?\.?\d+(?![\w./]))",
        r"\1m\2x",
    ),
    (
        ("rp",),
        r"(?<![\w./-])((?:\d[ -])?\d{1,2}/\d{1,2}|\d)(?: ?in(?:ch)?)? rp\b(?! ?\d)",
        r"rp\1",
    ),
    (
        ("star t", "bit t", "screw t"),
        r"\b(?:security|tamper|pin) (?:star|bit|screw) (?=t\d)",
        "tamper ",
    ),
    ((" h",), r"\b(14|22|33|45) h\b", r"\1h"),
    ((" t",), r"(?<![\w./-])(\d{1,3}) t\b", r"t\1"),
    (
        ("bit", "driver", "key"),
        r"\b([a-z]+) (bit|(?:screw)?driver|key) (?:size |no\.? ?|number |nr\.? ?|#)?"
        r"(\d{1,2})(?![\w./-]| ?(?:mm|in|x|\d))",
        r"\1 \3 \2",
    ),
    (("spark",), r"\bplug ((?:\S+ )*)spark\b(?! plug)", r"spark plug \1"),
    (("newton", "pound", "lb", "nm"), TORQUE_UNITS, " torque"),
    (
        ("fine", "coarse"),
        rf"\b(m ?\d{{1,2}}) (?:(?:extra )?fine|coarse)(?: pitch)?(?: ?x ?| )(?={PITCH})",
        r"\1x",
    ),
    *LAST,
    (HEXAGONS, rf"{INCHES} hex(?:agon)? (?:head )?bolts?\b", r"\1 in b18.2.1 bolt"),
    (HEXAGONS, rf"\bhex(?:agon)? (?:head )?bolts? {INCHES}", r"\1 in b18.2.1 bolt"),
    (("hex ",), r"^(?=m ?\d)(.*)\bhex (?=(?:head )?(?:bolt|screw)s?\b)", r"\1hexagon "),
    (HEXAGONS, rf"{INCHES} hex(?:agon)? nuts?\b", r"\1 in b18.2.2 nut"),
    (("pipe",), r"^(?!.*npt)(.*)\btaper(?:ed)? pipe(?: threads?)?\b", r"\1bspt"),
    (("pipe",), r"^(?!.*npt)(.*)\bparallel pipe(?: threads?)?\b", r"\1bspp"),
    (
        ("extractor ",),
        r"\b(?:(?:tapered|spiral|screw|bolt) )*extractor (?:no\.? ?|number |nr\.? ?|size |# ?)"
        r"([1-8])(?![\w./-]| ?mm)",
        r"extractor spiral-\1",
    ),
    (
        ("washer ", "ring ", "clip "),
        r"\b(washer|ring|clip|circlip) (\d{1,3})(?![\w./-]| ?(?:mm|in|x|#))",
        r"\1 \2mm",
    ),
    (("circlip ", "circlips "), r"\bcirclips?\b(.*?)\b(?:bore|hole|housing)\b", r"din 472\1"),
    (NAMED, rf"(?<![\w./-])({SIZE}){APART} ({SERIES})\b", _together),
    (NAMED, rf"\b({SERIES}){APART} ({SIZE})", _together),
)
