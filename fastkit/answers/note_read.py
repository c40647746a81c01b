"""What was tried and what is put away, told in a hurry: `soaked it, nothing`, `12 m8x20`."""

import re
from collections.abc import Iterable, Sequence

from fastkit.answers import options
from fastkit.answers.notes import DECIDES, OUTCOMES
from fastkit.answers.said import FASTENERS, Line
from fastkit.answers.understand import understand
from fastkit.errors import Misuse
from fastkit.notation.units import quantity
from fastkit.reference.store import connect

# how it went, as people say it; the first that a line holds counts
WENT = tuple(
    (outcome, re.compile(rf"(?<![\w-])(?:{said})(?![\w-])", re.IGNORECASE))
    for outcome, said in (
        ("ok", r"ok|okay|worked|did it|got it(?: out| off)?|came (?:out|off|loose|free)|freed it"),
        ("nothing", r"(?:did|does|would|wo)n'?t \w+(?: anything| it)?|no (?:luck|good|joy|effect)"),
        ("nothing", r"(?:did )?nothing|useless"),
        ("worse", r"(?:made (?:it )?)?worse|slipped|chewed it(?: up)?"),
        ("broke", r"broke(?: off)?|broken"),
        ("broke", r"snapped(?: off)?"),  # last: it is a state as well
    )
)
COUNTED = {"two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "eight": "8"}
COUNTED |= {"ten": "10", "twelve": "12", "dozen": "12", "twenty": "20", "fifty": "50"}
PARTS = 4  # of a maker's value: machine, place, value, where it was read
PUT = {"drawer", "box", "bin", "shelf", "tray", "tin", "jar", "rack"}
PLACE = 2  # words of a place, where nobody put quotes round it


def attempt(line: str) -> tuple[str, str, dict[str, str]]:
    """
    Return method and outcome that a line tells, and damage and seizure as far as they are said.

    Raises:
        Misuse: When it tells no method, or not how it went.
    """
    outcome, rest = _went(line)
    store = connect()
    method, left = options.method_in(store, rest.replace(",", " , ").split())
    told = understand(store, left, {"tried": (method,)})
    state = {name: getattr(told.situation, name) for name in DECIDES if name in told.said}
    return method, outcome, state


def _went(line: str) -> tuple[str, str]:
    """Return how it went, and the line without the words for it."""
    for outcome, said in WENT:
        if found := said.search(line):
            return outcome, f"{line[: found.start()]} {line[found.end() :]}".strip()
    raise Misuse(f"{line[:60]!r}: expected how it went behind it: {', '.join(OUTCOMES)}")


def makers_value(words: Sequence[str]) -> tuple[str, str, str, str]:
    """
    Return machine, place, value and where it was read; the last two words before it are the place.

    Raises:
        Misuse: When there is no torque, or too little before or behind it.
    """
    if len(words) == PARTS and quantity(" ".join(words[2:])) != "torque":
        machine, place, value, read_in = words
        return machine, place, value, read_in
    for at, word in enumerate(words):
        joined = quantity(" ".join(words[at : at + 2])) == "torque"
        if joined or quantity(word) == "torque":
            before, value = words[:at], " ".join(words[at : at + 1 + joined])
            read_in = " ".join(words[at + 1 + joined :])
            break
    else:
        raise Misuse("torque: expected a machine, a place and a torque such as 90 N·m or 9 lb-ft")
    if len(before) == 1:
        before = before[0].split()
    if len(before) < PLACE:
        raise Misuse(f"torque: expected a machine and a place before {value[:40]}")
    if not read_in:
        raise Misuse(f"torque: expected where {value[:40]} was read behind it: manual, page 12")
    at = len(before) - min(PLACE, len(before) - 1)
    return " ".join(before[:at]), " ".join(before[at:]), value, read_in


def stocked(words: Iterable[str]) -> tuple[str, str, str]:
    """
    Return what is put away, how many as typed, and where.

    The number that belongs to no size and no class is how many: `12 m8x20 8.8 drawer 3`.
    """
    every = tuple(words)
    if len(every) == 1 or any(" " in word for word in every):  # as quotes part it
        what, amount, *place = (*every, "1")[: max(2, len(every))]
        return what, amount, " ".join(place)
    line = [COUNTED.get(word.lower(), word) for word in every if word.lower() not in ("a", "x")]
    if not line:
        raise Misuse("add: expected what to add, such as 12 m8x20 8.8 drawer 3")
    line[0] = re.sub(r"^(\d+)x$", r"\1", line[0])
    whole = Line(connect(), line)
    named = [_named(whole, line, at) for at in range(len(line))]
    put = next((at for at, word in enumerate(line) if word.lower() in PUT), len(line))
    counts = (at for at in range(put) if line[at].isdecimal() and not named[at])
    at = next(counts, None)
    if at is None:
        return " ".join(line[:put]), "1", " ".join(line[put:])
    end = at
    if at == 0:  # the place begins where the designations end
        end = max((n for n in range(1, len(line)) if named[n]), default=len(line) - 1) + 1
        while end < len(line) and line[end].lower() in FASTENERS:
            end += 1
    behind = line[end + (at > 0) :]
    return " ".join(line[at == 0 : end]), line[at], " ".join(behind)


def _named(whole: Line, line: list[str], at: int) -> bool:
    """Say whether a word belongs to a thread, a class, a length or a drive that the line names."""
    for count in (4, 3, 2, 1):
        for start in range(max(0, at - count + 1), at + 1):
            run = line[start : start + count]
            if at < start + len(run) and whole.names(run):
                return True
    return False
