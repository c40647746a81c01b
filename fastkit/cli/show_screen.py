"""One entry on a terminal: whole where that is one screen, else what is asked for most."""

from collections.abc import Iterable, Iterator, Mapping

from fastkit.answers.show import ShowAnswer, sources
from fastkit.answers.show_rows import Group, Standing, standing_of
from fastkit.answers.show_words import (
    GOVERNED,
    GUARDS,
    MAKER_GOVERNS,
    MARKS,
    PLANNED,
    UNSAID,
    UNSHOWN,
    Row,
    label,
    row_words,
    value_words,
)
from fastkit.cli.output import bold, fitting, short_source, wrap

CHECKED = {
    "formula": "by formula",
    "outside": "compared with a second copy",
    "copied": "copied",
    "memory": "from memory, not yet confirmed",
    "judgement": "workshop practice, judgement",
}
MOST = (12, 8, 6, 4, 3, 2, 1)  # rows of each list, tried in turn until all is one screen
FEW = 4  # rows under which a list of these is left out
LATER = {"vetoes", "bond_effects", "limits_of_other_classes", "serves"}
FIRST = ("pitch_mm", "tpi", "tap_drill_mm", "clearance_medium_mm", "proof_torque_nm", "minutes")

Numbers = Mapping[Standing, int]


def lines(answer: ShowAnswer, columns: int, whole: bool) -> list[str]:
    """
    The screen of an entry.

    What is longer than one screen is shortened, unless *whole*: lists lose their last rows, but
    never one that guards people; a line at the end says what is missing and how to see it.
    """
    numbers = {standing: n for n, (_, standing) in enumerate(sources(answer.groups), 1)}
    if whole:
        return list(_whole(answer, numbers, columns))
    return fitting(columns, _ever_shorter(answer, numbers, columns))


def _ever_shorter(answer: ShowAnswer, numbers: Numbers, columns: int) -> Iterator[Iterable[str]]:
    yield _whole(answer, numbers, columns)
    for most in MOST:
        yield _short(answer, numbers, columns, most)
    yield filter(None, _short(answer, numbers, columns, MOST[-1]))  # no gaps


def _whole(answer: ShowAnswer, numbers: Numbers, columns: int) -> Iterator[str]:
    yield from _head(answer, columns)
    yield from _values(answer, numbers, columns, short=False)
    for group in _lists(answer):
        yield from _rows(group, numbers, columns, len(group.rows))
    if numbers:
        yield ""
        yield bold("sources")
    for standing, n in numbers.items():
        title = answer.titles.get(standing.source, standing.source)
        where = "" if standing.locator == "-" else f"; {standing.locator}"
        yield from wrap(f"{title}{where} ({CHECKED[standing.checked]})", columns, f"[{n}] ")
    yield from _governed(answer, columns)


def _short(answer: ShowAnswer, numbers: Numbers, columns: int, most: int) -> Iterator[str]:
    yield from _head(answer, columns)
    yield from _values(answer, numbers, columns, short=True)
    more = []
    for group in _lists(answer):
        rows = 0 if group.name in LATER and most < FEW else most
        kept = len(group.rows) if group.name in GUARDS else min(rows, len(group.rows))
        if kept:
            yield from _rows(group, numbers, columns, kept)
        if kept < len(group.rows):
            more.append(f"{label(group.name)} +{len(group.rows) - kept}")
    yield ""
    more.append("places in the sources")
    yield from wrap(f"More ({', '.join(more)}): fastkit show {answer.id} --wide", columns)
    yield from wrap(f"sources: {', '.join(_names(answer, numbers))}", columns)
    yield from _governed(answer, columns, gap=False)


def _head(answer: ShowAnswer, columns: int) -> Iterator[str]:
    yield bold("\n".join(wrap(answer.title, columns)))
    yield from wrap(answer.id, columns)


def _lists(answer: ShowAnswer) -> list[Group]:
    return [
        group for group in answer.groups if group.name and group.rows and group.name not in UNSAID
    ]


def _values(answer: ShowAnswer, numbers: Numbers, columns: int, short: bool) -> Iterator[str]:
    """The entry's own values, one a line; lists of sentences under their name."""
    held = [
        (name, value, row)
        for group in answer.groups
        if not group.name
        for row in group.rows
        for name, value in row.items()
        if value is not None and name not in UNSHOWN
    ]
    if short:
        said = f"{answer.title} {answer.id}"
        held = [
            each
            for each in held
            if each[0] not in PLANNED and not (isinstance(each[1], str) and each[1] in said)
        ]
        held.sort(key=lambda each: FIRST.index(each[0]) if each[0] in FIRST else len(FIRST))
    if held:
        yield ""
    wide = min(max((len(label(name)) for name, _, _ in held), default=0), 24) + 2
    for name, value, row in held:
        if isinstance(value, list):
            if value:
                yield ""
                yield bold(label(name))
            for n, text in enumerate(value, 1):
                yield from wrap(text, columns, f"  {n}. ")
        else:
            text = f"{value_words(name, value)}{_mark(row, numbers)}"
            yield from wrap(text, columns, label(name).ljust(wide), " " * wide)


def _rows(group: Group, numbers: Numbers, columns: int, most: int) -> Iterator[str]:
    yield ""
    yield bold(label(group.name))
    for row in group.rows[:most]:
        yield from wrap(f"{row_words(row)}{_mark(row, numbers)}", columns, "  ", "    ")


def _mark(row: Row, numbers: Numbers) -> str:
    """Number of the row's source, and a word where the value is not from a published copy."""
    standing = standing_of(row)
    if standing is None:
        return ""
    return f"  [{numbers[standing]}{MARKS.get(standing.checked, '')}]"


def _names(answer: ShowAnswer, numbers: Numbers) -> Iterator[str]:
    """Each source once, by its short name, with its numbers."""
    named: dict[str, list[str]] = {}
    for standing, n in numbers.items():
        title = answer.titles.get(standing.source, standing.source)
        named.setdefault(short_source(standing.source, title), []).append(str(n))
    for name, places in named.items():
        yield f"{name} [{', '.join(places)}]"


def _governed(answer: ShowAnswer, columns: int, gap: bool = True) -> Iterator[str]:
    if answer.kind in GOVERNED:
        if gap:
            yield ""
        yield from wrap(MAKER_GOVERNS, columns)
