"""
How the trade writes threads, drives and grades.

`parse` reads a line of words into parts. A part's key is the entry's key where the writing is
whole (`M8x1`, `T20`, `8.8`), and as much of it as was said where it is not (`M8`, `M8-fine`,
`1/4-20`, `#8`): which entry is meant is for whoever holds the data to say. Trade names are not
known here; they come in as *aliases*.
"""

import re
from collections.abc import Mapping
from typing import NamedTuple

from fastkit.notation.rules import OTHER_WRENCHES, RULES, Part


class ThreadName(NamedTuple):
    """What a thread's key says: size, then pitch [mm] or threads per inch, then the series."""

    size: str
    pitch: str | None
    series: str | None


NOTHING: Mapping[str, str] = {}
# Series whose sizes are not those of the Unified ones, and how their sizes are told apart
SIZE_OF = {"BSW": "W", "BSF": "W", "NPT": " NPT", "NPTF": " NPT", "AB": " AB"}

FRACTIONS = {
    **dict.fromkeys(("half", "one half"), "1/2"),
    **dict.fromkeys(("quarter", "one quarter"), "1/4"),
    **dict.fromkeys(("three quarter", "three quarters"), "3/4"),
    **{"eighth": "1/8", "sixteenth": "1/16"},
    **{
        f"{word} {unit}{plural}": f"{number}/{below}"
        for unit, below in (("eighth", 8), ("sixteenth", 16))
        for word, number in (("one", 1), ("three", 3), ("five", 5), ("seven", 7), ("nine", 9))
        for plural in ("", "s")
    },
}
# what a spoken fraction is read before
SPOKEN = (
    r"(?=(?: |-)(?:in|inch|unc|unf|unef|coarse|fine|bolts?|socket|wrench|spanner|hex|threads?|"
    r"pipe|nuts?|bsp[pt]?|nptf?|bsw|bsf|whit(?:worth)?|key|drive|washers?|stud|tap|drill|"
    r"cap|button|set|screws?|grade|sae|ratchet|tube|flare|insert|rod|flange|plain|flat|star|lock|"
    r"tooth|clearance|hole|a/?f|open|ring|box|combination)\b)"
)
SINGLE = {"¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}


def parse(text: str, aliases: Mapping[str, str] = NOTHING) -> tuple[Part, ...]:
    """
    Read the designations in a line; what is none comes back as words, in the line's order.

    Args:
        text: Anything.
        aliases: Trade names in lower case, each with the entry that it stands for:
            `thread:…`, `drive:…`, `grade:…` or `system:…`; others are left as words.

    >>> [(part.kind, part.key) for part in parse("m8 8.8 torque")]
    [('thread', 'M8'), ('grade', '8.8'), ('word', 'torque')]
    """
    line = _replace(_plain(text), aliases)
    stands = f"{line} | {' '.join(re.findall('[a-z]+', line))} ".__contains__
    rules = [rule for rule in RULES if not rule.needs or any(map(stands, rule.needs))]
    parts: list[Part] = []
    at = 0
    while at < len(line):
        if line[at] in " ,;:()[]-":
            at += 1
            continue
        for rule in rules:
            if rule.starts and line[at] not in rule.starts:
                continue
            match = re.compile(rule.pattern).match(line, at)
            found = rule.build(match) if match else None
            if match and found:
                parts += found
                at = match.end()
                break
        else:
            word, at = _word(line, at)
            if word:
                parts.append(Part("word", word, word))
    return tuple(parts)


def format(part: Part) -> str:
    """The part as the trade writes it; `parse` reads it back."""
    return part.key


def thread_name(key: str) -> ThreadName:
    """
    The pieces of a thread's key, whole or not.

    >>> thread_name("1-1/4-8-UN")
    ThreadName(size='1-1/4', pitch='8', series='UN')
    >>> thread_name("M8-fine")
    ThreadName(size='M8', pitch=None, series='fine')
    >>> thread_name("3/8-BSW").size
    '3/8W'
    """
    match = re.fullmatch(
        r"((?:plug-)?M[\d.]+|#\d+|(?:\d+-)?\d+/\d+|\d+)(?:x([\d.]+)|-([\d.]+))?(?:-([A-Za-z]+))?",
        key,
    )
    if match is None:
        return ThreadName(key, None, None)
    size = match[1] + SIZE_OF.get(match[4] or "", "")
    return ThreadName(size, match[2] or match[3], match[4])


def _plain(text: str) -> str:
    """Lower case, one blank between words, one sign for each of `x`, `-`, the decimal, the inch."""
    for sign, fraction in SINGLE.items():
        text = text.replace(sign, f" {fraction}")
    text = re.sub(r"[×*✕]", "x", text.lower())
    text = re.sub(r"[‐-―−]", "-", text).replace("⁄", "/")
    text = re.sub(r"(?<=\d)(?: ?(?:\"|″|”|''))", " in ", text)
    text = re.sub(r"(?<=\d),(?=\d)", ".", text)
    text = re.sub(r"\bmetric (?=\d+(?:\.\d+)?(?![\d./]| ?mm))", "m", text)
    return " ".join(text.split())


def _replace(line: str, aliases: Mapping[str, str]) -> str:
    """The line with every alias of a designation replaced by its entry, the longest first."""
    wanted = {
        words: entry
        for words, entry in aliases.items()
        if entry.partition(":")[0] in {"thread", "drive", "grade", "system"}
    }
    for words in sorted(FRACTIONS, key=len, reverse=True):
        if words in line:
            line = re.sub(rf"(?<![\w-]){words}{SPOKEN}", FRACTIONS[words], line)
    for words in sorted(wanted, key=lambda w: (-len(w), w)):
        if words in line:
            entry = wanted[words] if wanted[words].startswith("system:") else f"{wanted[words]} "
            other = OTHER_WRENCHES if entry.startswith("system:") else ""
            found = re.compile(rf"{other}(?<![\w:/.-]){re.escape(words)}(?![\w:/])")
            line = entry.lower().join(found.split(line))
    return line


def _word(line: str, at: int) -> tuple[str, int]:
    match = re.compile(r"[^\s,;()\[\]]*").match(line, at)
    end = match.end() if match and match.end() > at else at + 1
    return line[at:end].strip(".:?!'\"`-"), end
