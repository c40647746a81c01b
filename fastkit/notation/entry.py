"""Entry ids: a kind and a key with a colon between, as `thread:M8x1.25`."""

import re

KINDS = (
    *("thread", "drive", "grade", "torque", "method", "head", "friction", "material", "hazard"),
    *("neighbour", "seizure", "tool", "system", "source", "tube", "insert", "pair", "finish"),
    *("measured", "metal", "environment", "potential", "nut-factor", "torque-factor", "tightening"),
    *("structural", "embedding", "wrench-class", "prevailing", "nut-torque", "slip", "engagement"),
    *("compound", "ground", "broken", "extractor", "left-hand"),
    *("washer", "hardware", "screw-end", "part"),
)

PROMINENT = (
    *("thread", "drive", "grade", "torque", "head", "method", "friction", "material", "tool"),
)
USUAL = ("8.8", "SAE-5", "A2-70")  # the class that most bolts without a better claim are of

# what people call a kind by, beside the names of its entries
CALLED = {
    kind: tuple(words.split())
    for kind, words in {
        "source": "standard standards norm",
        "pair": "corrode corrodes corrosion electrolysis galvanic rot rust",
        "slip": "grip slide slides slip slips",
        "compound": "treatment",
        "torque": "nm tight tighten tightening torque",
        "broken": "broke broken extractor sheared snapped stump",
        "prevailing": "drag locknut prevailing running stiff",
        "potential": "marine salt sea seawater water",
        "left-hand": "direction reverse undo unscrew way",
        "neighbour": "alongside behind beside damage harm hurt melt near nearby",
        "part": "broken budge come comes corroded jammed loose loosen off remove rounded rusted "
        "rusty seized sheared snapped spinning spins stripped stuck tight undo wont",
        "engagement": "deep depth engagement turns",
    }.items()
}

HEARD_AS = (
    *(("ph", "f"), ("c(?=[eiy])", "s"), ("ck|[cq]", "k"), ("g(?=[ei])", "j"), ("z", "s")),
    ("x", "ks"),
)
VOWELS = "aeiouäöü"
UNHEARD = f"[{VOWELS}hwy]"  # the letters that are left out in a hurry


def entry_id(kind: str, key: str) -> str:
    """Id of the entry of a kind under its key in that kind's table."""
    return f"{kind}:{key}"


def split_id(text: str) -> tuple[str, str] | None:
    """
    Kind and key of an id; None where *text* is not one.

    >>> split_id("thread:M8x1.25")
    ('thread', 'M8x1.25')
    >>> split_id("what: ever")
    """
    kind, colon, key = text.strip().partition(":")
    kind = kind.lower()
    return (kind, key) if colon and kind in KINDS and key and " " not in key else None


def prominence(id_: str) -> tuple[int, int]:
    """
    Rank of an entry among others that fit a question as well, the least first.

    >>> prominence("thread:M8x1.25") < prominence("grade:8.8") < prominence("tool:hammer")
    True
    >>> prominence("torque:M8x1.25@8.8") < prominence("torque:M8x1.25@10.9")
    True
    """
    kind, _, key = id_.partition(":")
    grade = key.partition("@")[2]
    return (
        PROMINENT.index(kind) if kind in PROMINENT else len(PROMINENT),
        USUAL.index(grade) if grade in USUAL else len(USUAL),
    )


def key_start(words: str) -> str:
    """
    First two words of what an entry is found by, which begins with its key.

    >>> key_start("steel+zinc anode on a hull"), key_start("nickel")
    ('steel zinc', 'nickel')
    """
    return " ".join(re.findall(r"[^\W_]+", words.lower())[:2])


def letter_pairs(word: str) -> frozenset[str]:
    """
    Pairs of neighbouring letters of a word, its ends marked; none of what is not letters alone.

    >>> sorted(letter_pairs("nut"))
    ['^n', 'nu', 't$', 'ut']
    >>> letter_pairs("m8")
    frozenset()
    """
    if len(word) < 3 or not word.isalpha():
        return frozenset()
    marked = f"^{word}$"
    return frozenset(marked[at : at + 2] for at in range(len(word) + 1))


def spelt_words(text: str) -> list[str]:
    """The words of letters alone in a text: `['pin', 'spanner']` of "2-pin spanner"."""
    return [word for word in re.findall(r"[^\W_]+", text.lower()) if word.isalpha()]


def sound(word: str) -> str:
    """
    Return a word's consonants as they are heard, doubled ones once; nothing for what is no word.

    >>> sound("lokwasher"), sound("lockwasher"), sound("wshr"), sound("washer")
    ('lksr', 'lksr', 'asr', 'asr')
    >>> sound("oyl"), sound("m8")
    ('al', '')
    """
    if len(word) < 3 or not word.isalpha():
        return ""
    for said, heard in HEARD_AS:
        word = re.sub(said, heard, word)
    return re.sub(r"(.)\1+", r"\1", re.sub(UNHEARD, "a", word[0]) + re.sub(UNHEARD, "", word[1:]))


def drive_words(drive: str) -> str:
    """
    Return a drive's id as people say it.

    >>> drive_words("hex-6mm"), drive_words("AF-9/16in"), drive_words("T30")
    ('6 mm hex socket', '9/16 in hexagon', 'T30')
    """
    system, dash, size = drive.partition("-")
    form = {"hex": "hex socket", "AF": "hexagon", "slot": "slot"}.get(system)
    if not dash or form is None:
        return drive
    for unit in ("mm", "in"):
        if size.endswith(unit):
            size = f"{size.removesuffix(unit)} {unit}"
    return f"{size} {form}"
