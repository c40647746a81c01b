"""In what order a job comes apart and goes back, with labels, caps and photographs."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from fastkit.answers.job_rows import Fastener, Job, Line, Part
from fastkit.answers.job_tighten import Tightening
from fastkit.records.job import LineKind

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
BY_HAND = "all started by hand, several turns each, before a tool touches one"


class Label(NamedTuple):
    """The letter that both ends of a line carry, and what its open ends want."""

    letter: str
    name: str
    kind: str
    title: str
    cap: str
    photo: str
    caution: str
    afterwards: str


class Task(NamedTuple):
    """One thing done: to what, and how, sentence by sentence."""

    what: str
    kind: str  # line, fastener, part
    how: tuple[str, ...]


class Way(NamedTuple):
    """A job with the order in which it comes apart, its labels and how each fastener is set."""

    job: Job
    order: tuple[Line | Part, ...]
    labels: Mapping[str, Label]  # by the line's name
    tightening: Mapping[str, Tightening]  # by the fastener's


def ordered(job: Job) -> list[Line | Part]:
    """Return lines and parts as they come off: after what they wait for, else as in the file."""
    left: list[Line | Part] = [*job.lines, *job.parts]
    found: list[Line | Part] = []
    done: set[str] = set()
    while left:
        item = next(item for item in left if done.issuperset(item.after))
        left.remove(item)
        found.append(item)
        done.add(item.name)
    return found


def labels(order: Sequence[Line | Part], kinds: Mapping[str, LineKind]) -> tuple[Label, ...]:
    """Return a label for each line, lettered in the order in which they come off."""
    lines = [item for item in order if isinstance(item, Line)]
    found = []
    for number, line in enumerate(lines):
        again, place = divmod(number, len(LETTERS))
        kind = kinds[line.kind]
        found.append(
            Label(
                LETTERS[place] + (str(again + 1) if again else ""),
                line.name,
                kind.id,
                kind.title,
                kind.cap,
                kind.photo,
                kind.caution,
                kind.afterwards,
            )
        )
    return tuple(found)


def photographs(way: Way) -> tuple[str, ...]:
    """Return what to photograph, in the order of the work."""
    found = ["the whole, from two sides, before anything is touched"]
    for item in way.order:
        tag = way.labels.get(item.name)
        if tag:
            found.append(f"{tag.letter}, {tag.name}: {tag.photo}")
        else:
            found.append(f"{item.name}: in place with all that holds it, then the face beneath")
    return tuple(found)


def apart(way: Way) -> tuple[Task, ...]:
    """Return the tasks of taking apart."""
    found = []
    for item in way.order:
        if isinstance(item, Line):
            found.append(_line_off(way.labels[item.name]))
            continue
        for row in _holding(way.job, item):
            found.append(Task(row.name, "fastener", _out(row, way.tightening[row.name])))
        seal = (f"its seal is renewed: {item.seal}",) if item.seal else ()
        found.append(Task(item.name, "part", ("lift it off and lay it as it sat", *seal)))
    return tuple(found)


def together(way: Way) -> tuple[Task, ...]:
    """Return the tasks of putting back, the order of taking apart reversed."""
    found = []
    for item in reversed(way.order):
        if isinstance(item, Line):
            tag = way.labels[item.name]
            cap = ("caps off",) if tag.cap != "-" else ()
            found.append(Task(item.name, "line", (*cap, f"{tag.letter} to {tag.letter}")))
            continue
        seal = (f"with {item.seal}, new",) if item.seal else ()
        found.append(Task(item.name, "part", ("faces clean and dry, set square", *seal)))
        for row in reversed(_holding(way.job, item)):
            found.append(Task(row.name, "fastener", _in(row, way.tightening[row.name])))
    return tuple(found)


def _holding(job: Job, part: Part) -> list[Fastener]:
    return [row for row in job.fasteners if row.holds == part.name]


def _line_off(tag: Label) -> Task:
    cap = (tag.cap,) if tag.cap != "-" else ()
    caution = (tag.caution,) if tag.caution else ()
    return Task(tag.name, "line", (*caution, f"label {tag.letter} on both sides, photograph", *cap))


def _out(row: Fastener, tight: Tightening) -> tuple[str, ...]:
    how = [f"{row.pieces} × {row.thread}" + (f", {row.was}" if row.was else "")]
    if tight.left_hand:
        how.append("left-hand thread: clockwise loosens it")
    if len(tight.sequence) > 2:
        back = ", ".join(map(str, reversed(tight.sequence)))
        how.append(f"an eighth to a quarter turn each in the order {back}, then out")
    if row.stuck:
        how.append(f"{row.stuck} will not move: see the plan")
    each = ", each to its hole where lengths differ" if row.pieces > 1 else ""
    how.append(f"into a bag marked {row.name!r}{each}")
    return tuple(how)


def _in(row: Fastener, tight: Tightening) -> tuple[str, ...]:
    how = ["left-hand thread: anticlockwise tightens"] if tight.left_hand else []
    if row.pieces > 1:
        how.append(BY_HAND)
    return (*how, *tight.how)
