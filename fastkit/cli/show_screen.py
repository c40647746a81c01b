"""One entry on a terminal: whole where that is one screen, else what is asked for most."""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from fastkit.answers.show import ShowAnswer, sources
from fastkit.answers.show_rows import Group, Standing, standing_of
from fastkit.answers.show_words import (
    GOVERNED,
    MAKER_GOVERNS,
    MARKS,
    PLANNED,
    Held,
    Row,
    first_rows,
    label,
    lists,
    own_values,
    row_words,
    value_words,
)
from fastkit.cli.output import bold, clean, fitting, short_source, wrap

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
NAMES = {"never_mates": "never"}  # lists of which the names alone are told where room is scarce

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
    merged: dict[str, int] = {}
    by_source = {each: merged.setdefault(_named(answer, each), len(merged) + 1) for each in numbers}
    for most in (1, 0):
        yield filter(None, _short(answer, by_source, columns, most, NAMES))  # no gaps


def _whole(answer: ShowAnswer, numbers: Numbers, columns: int) -> Iterator[str]:
    yield from map(bold, wrap(answer.title, columns))
    yield from wrap(answer.id, columns)
    yield from _values(own_values(answer.groups), numbers, columns)
    for group in lists(answer.groups):
        yield ""
        yield bold(label(group.name))
        for row in group.rows:
            yield from wrap(f"{row_words(row)}{_mark(row, numbers)}", columns, "  ", "    ")
    if numbers:
        yield ""
        yield bold("sources")
    for standing, n in numbers.items():
        title = answer.titles.get(standing.source, standing.source)
        where = "" if standing.locator == "-" else f"; {standing.locator}"
        yield from wrap(f"{title}{where} ({CHECKED[standing.checked]})", columns, f"[{n}] ")
    yield from _governed(answer, columns)


def _short(
    answer: ShowAnswer, numbers: Numbers, columns: int, most: int, named: Mapping[str, str] = {}
) -> Iterator[str]:
    """The first rows of each list; of those in *named* what each row is about alone."""
    yield from _title(answer, columns)
    own = _named_once(answer, own_values(answer.groups))
    yield from _values(own, numbers, columns)
    shown, more = [row for _, _, row in own], []
    for group in lists(answer.groups):
        rows = 0 if group.name in LATER and most < FEW else most
        kept = first_rows(group, rows)
        shown += kept
        if group.name in named:
            yield from _about(group, named[group.name], numbers, columns)
            more.append(f"why {label(group.name)}")
        elif kept:
            yield from _rows(group.name, kept, numbers, columns)
        if len(kept) < len(group.rows):
            more.append(f"{label(group.name)} +{len(group.rows) - len(kept)}")
    yield ""
    more.append("places in the sources")
    yield from wrap(f"More ({', '.join(more)}): fastkit show {answer.id} --wide", columns)
    used = {*map(standing_of, shown)}
    told = {standing: n for standing, n in numbers.items() if standing in used}
    yield from wrap(f"sources: {', '.join(_names(answer, told))}", columns)
    yield from _governed(answer, columns, gap=False)


def _title(answer: ShowAnswer, columns: int) -> Iterator[str]:
    """Title and id, on one line where it takes both."""
    if len(answer.title) + 2 + len(answer.id) <= columns:
        yield f"{bold(clean(answer.title))}  {answer.id}"
        return
    yield from map(bold, wrap(answer.title, columns))
    yield from wrap(answer.id, columns)


def _named_once(answer: ShowAnswer, own: list[Held]) -> list[Held]:
    """Those of use to a person and not in the title already, most asked for first."""
    said = f"{answer.title} {answer.id}"
    kept = [
        each
        for each in own
        if each.name not in PLANNED and not (isinstance(each.value, str) and each.value in said)
    ]
    return sorted(kept, key=lambda h: FIRST.index(h.name) if h.name in FIRST else len(FIRST))


def _values(own: list[Held], numbers: Numbers, columns: int) -> Iterator[str]:
    """The entry's own values, one a line; lists of sentences under their name."""
    if own:
        yield ""
    wide = min(max((len(label(name)) for name, _, _ in own), default=0), 24) + 2
    for name, value, row in own:
        if isinstance(value, list):
            if value:
                yield ""
                yield bold(label(name))
            for n, text in enumerate(value, 1):
                yield from wrap(text, columns, f"  {n}. ")
        else:
            text = f"{value_words(name, value)}{_mark(row, numbers)}"
            yield from wrap(text, columns, label(name).ljust(wide), " " * wide)


def _rows(name: str, rows: Sequence[Row], numbers: Numbers, columns: int) -> Iterator[str]:
    """A list in short: its one row behind its name, a mark that all have said once."""
    yield ""
    if len(rows) == 1:
        text = f"{row_words(rows[0])}{_mark(rows[0], numbers)}"
        yield from wrap(text, columns, f"{label(name)}  ", "  ")
        return
    marks = [_mark(row, numbers) for row in rows]
    once = len({*marks}) == 1
    yield bold(label(name)) + (marks[0] if once else "")
    for row, mark in zip(rows, marks, strict=True):
        yield from wrap(f"{row_words(row)}{'' if once else mark}", columns, "  ", "    ")


def _about(group: Group, column: str, numbers: Numbers, columns: int) -> Iterator[str]:
    """What the rows of a list are about."""
    said = (f"{row[column]}{_mark(row, numbers)}" for row in group.rows)
    yield from wrap("; ".join(said), columns, f"{label(group.name)}  ", "  ")


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
        named.setdefault(_named(answer, standing), []).append(str(n))
    for name, places in named.items():
        yield f"{name} [{', '.join(dict.fromkeys(places))}]"


def _named(answer: ShowAnswer, standing: Standing) -> str:
    """The short name of a source."""
    return short_source(standing.source, answer.titles.get(standing.source, standing.source))


def _governed(answer: ShowAnswer, columns: int, gap: bool = True) -> Iterator[str]:
    if answer.kind in GOVERNED:
        if gap:
            yield ""
        yield from wrap(MAKER_GOVERNS, columns)
