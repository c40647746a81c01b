"""Sizes that no word names: `a rounded 17 mm`, `M8 bolt 13 mm`, `8 mm hex`."""

import re
from collections.abc import Collection, Sequence

from fastkit.extraction.tokens import Token
from fastkit.extraction.vocabulary import QUIET
from fastkit.notation.units import length_mm
from fastkit.records.source import FILLERS

# "8 mm hex" without a word more: sizes below have no common nut, sizes above no common key
SMALLEST_FLATS = 7.0
LARGEST_DOUBTFUL_KEY = 8.5
NO_KEYS = ("9mm", "11mm", "13mm", "15mm", "16mm", "18mm", "7/16in", "1/2in", "9/16in")

WRENCHES = tuple(
    (float(mm),)
    for mm in (7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 21, 22, 24, 27, 30, 32, 36)
)

USUAL = {  # of ISO 272, those before it, of JIS and flanged; a test holds them against heads.csv
    **{"M5": (8.0,), "M6": (10.0,), "M8": (12.0, 13.0), "M10": (14.0, 15.0, 16.0, 17.0)},
    **{"M12": (17.0, 18.0, 19.0), "M14": (19.0, 21.0, 22.0), "M16": (22.0, 24.0), "M20": (30.0,)},
}

HEAD = ("head", "heads", "headed", "hex")
ROOM = ("room", "clearance", "space", "height", "gap", "high")  # "20 mm head room" is no size

BESIDE = ("above", "beside", "below", "from", "off", "away", "over", "under", "high", "deep", "to")


def is_length(token: Token) -> bool:
    """Say whether a word is one length in mm."""
    return token.measure is not None and token.measure[1] == "mm" and len(token.measure[0]) == 1


def is_wrench(token: Token) -> bool:
    """Say whether a word is a length in mm that wrenches have: `17 mm`."""
    return token.measure is not None and token.measure[1] == "mm" and token.measure[0] in WRENCHES


def usual(token: Token, thread: str) -> bool:
    """Say whether a word is a hexagon that heads and nuts of a metric thread have: `m8 13mm`."""
    known = USUAL.get(thread.partition("x")[0], ())
    return is_wrench(token) and token.measure is not None and token.measure[0][0] in known


def no_wider(size: str, thread: str) -> bool:
    """Say whether a size is none across the flats of a head: no wider than its metric thread."""
    nominal = re.match(r"M([\d.]+)", thread)
    return nominal is not None and length_mm(size) <= float(nominal[1])


def too_wide(size: str, thread: str) -> bool:
    """Say whether a hexagon is that of no head: more than three times its metric thread across."""
    nominal = re.match(r"M([\d.]+)", thread)
    return nominal is not None and length_mm(size) > 3 * float(nominal[1])


def of_head(tokens: Sequence[Token], norms: Sequence[str], at: int) -> bool:
    """Say whether a number is the size of a head: `17 head`, `head is 17`, `size 17`, `nut 17`."""
    token = tokens[at]
    if not token.measure or token.measure[1] not in ("mm", "") or len(token.measure[0]) > 1:
        return False
    after = norms[at + 1 : at + 3]
    if after and after[0] in HEAD:
        return after[-1] not in ROOM
    before = [word for word in norms[max(0, at - 3) : at] if word not in FILLERS]
    if before[-1:] == ["nut"] and not token.measure[1]:
        return not after or after[0] not in BESIDE
    return before[-1:] == ["size"] or (before[-1:] == ["head"] and norms[at - 1] == "is")


def lone(tokens: Sequence[Token], used: Sequence[bool], after: Collection[int]) -> tuple[int, ...]:
    """
    Return the places of the lengths that measure nothing else.

    Args:
        tokens: The words of the text.
        used: Which of them have been read.
        after: Places that follow the name of a fastener: a length there wins over all others; one
            elsewhere counts only where nothing in its clause is unread.
    """
    found = [
        at
        for at, token in enumerate(tokens)
        if is_length(token)
        and not used[at]
        and [one.norm for one in tokens[at + 1 : at + 2]] != ["square"]
    ]
    named = tuple(at for at in found if at in after)
    unread = {
        token.clause
        for at, token in enumerate(tokens)
        if not used[at] and not token.measure and token.norm not in QUIET
    }
    return named or tuple(at for at in found if tokens[at].clause not in unread)


def hexagon(size: str, socket: bool, outer: bool) -> tuple[str, bool]:
    """
    Return the drive that a bare hexagon size means, and whether it may be the other one.

    Args:
        size: `8mm`, `7/16in`.
        socket: The words speak of a recess.
        outer: The words name a bolt or nut.
    """
    mm = length_mm(size)
    if socket:
        return f"hex-{size}", False
    if outer and mm >= SMALLEST_FLATS:
        return f"AF-{size}", False
    outside = mm > LARGEST_DOUBTFUL_KEY or size in NO_KEYS
    return f"{'AF' if outside else 'hex'}-{size}", mm >= SMALLEST_FLATS and size not in NO_KEYS
