"""
A job's own cards, to lay beside the work.

`job_cards(answer)` makes them of the answer of `answers.job.job`: labels, apart, what will not
move, what to buy, together, how tight and in which order, what to check.
"""

from collections.abc import Iterable, Sequence
from typing import TypeVar

from fastkit.answers.job import JobAnswer
from fastkit.answers.job_loosen import Loosening
from fastkit.answers.job_tighten import Tightening
from fastkit.answers.order import tightening_order
from fastkit.deck.card import Block, Card, Caution, Cell, Drawing, Step, Steps, Text, clean
from fastkit.deck.order_drawing import order_svg
from fastkit.deck.tables import lbft, table

FACE_MM, LINE_MM, STEP_MM = 64.0, 2.85, 3.4
"""Room on a face for steps, about the height of a line of small text and of a step's title."""

BOX_MM = 30.0
"""Most that one box of cautions takes; two go on a face."""

LETTERS = 42
"""Letters on a line of small text."""

LABELS, ROWS, SIDE_MM = 8, 9, 34.0
T = TypeVar("T")


def job_cards(answer: JobAnswer) -> list[Card]:
    """
    The cards of one job, numbered from 1, as many as its lines, fasteners and parts need.

    Args:
        answer: What `answers.job.job` said of a job file.
    """
    title = clean(answer.job.title, 60)
    faces: list[tuple[str, str, list[tuple[Block, ...]]]] = [
        ("cautions", "Cautions", _cautions(answer.cautions)),
        ("labels", "Labels", _labels(answer)),
        ("apart", "Apart", _steps((t.what, t.how) for t in answer.apart)),
        *((f"loosen-{n}", "Will not move", _plan(p)) for n, p in enumerate(answer.plans, 1)),
        ("buy", "To buy", _bought(answer)),
        ("clean", "Clean", _sentences(answer.clean)),
        ("together", "Together", _steps((t.what, t.how) for t in answer.together)),
        ("torque", "How tight", _torques(answer.tightening)),
        *(
            (f"order-{n}", "In which order", _order(t, answer))
            for n, t in enumerate((t for t in answer.tightening if t.sequence), 1)
        ),
        ("checks", "Check", _sentences(answer.checks)),
    ]
    cards = []
    for id, name, sides in faces:
        for place in range(0, len(sides), 2):
            front, *back = sides[place : place + 2]
            more = f", {place // 2 + 1}" if place else ""
            cards.append(
                Card(
                    f"job-{id}{'-' * bool(place)}{place // 2 + 1 if place else ''}",
                    "deck",
                    f"{name}{more}",
                    title,
                    (),
                    ("practice",),
                    front,
                    back[0] if back else _minutes(answer),
                    "p",
                    back_title=f"{name}, on" if back else "The job",
                )
            )
    return [card._replace(number=n) for n, card in enumerate(cards, 1)]


def _minutes(answer: JobAnswer) -> tuple[Block, ...]:
    """How long it takes, behind a card whose back is free, with room to write."""
    low, middle, high = answer.minutes
    return (
        Text(
            f"{answer.job.machine or 'The job'}: about {middle / 60:.1f} h; one in ten under "
            f"{low / 60:.1f} h, one in ten over {high / 60:.1f} h."
        ),
        Text("Maker's specification first. Notes:"),
    )


def _chunks(items: Sequence[T], size: int) -> list[Sequence[T]]:
    """Pieces of at most so many."""
    return [items[k : k + size] for k in range(0, len(items), size)]


def _packed(items: Iterable[tuple[T, float]], room: float = FACE_MM) -> list[list[T]]:
    """Items by their height on as many faces as they need, in order."""
    faces: list[list[T]] = [[]]
    used = 0.0
    for item, tall in items:
        if faces[-1] and used + tall > room:
            faces.append([])
            used = 0.0
        faces[-1].append(item)
        used += tall
    return faces


def _lines(words: str, letters: int = LETTERS) -> int:
    """Lines that words take."""
    return -(-len(words) // letters)


def _labels(answer: JobAnswer) -> list[tuple[Block, ...]]:
    """The letter of each line, what it is, how its ends are shut."""
    lines = [
        (Cell(label.letter, "big"), Cell(clean(label.name, 40)), Cell(clean(label.cap, 60)))
        for label in answer.labels
    ]
    return [
        (table(("", "line", "its open ends"), part, "job"),) for part in _chunks(lines, LABELS - 2)
    ]


def _steps(tasks: Iterable[tuple[str, Sequence[str]]]) -> list[tuple[Block, ...]]:
    """Tasks as numbered steps."""
    sized = []
    for n, (what, how) in enumerate(tasks, 1):
        said = clean("; ".join(how), 420)
        step = Step(str(n), clean(what, 40), said)
        sized.append((step, STEP_MM * _lines(step.title, 24) + LINE_MM * _lines(said, 38) + 1))
    return [(Steps(tuple(part)),) for part in _packed(sized) if part]


def _sentences(words: Sequence[str]) -> list[tuple[Block, ...]]:
    """Sentences, each with a box to tick."""
    sized = [(Step("o", clean(w, 200), ""), STEP_MM * _lines(w, 26) + 1) for w in words]
    return [(Steps(tuple(part)),) for part in _packed(sized) if part]


def _cautions(words: Sequence[str]) -> list[tuple[Block, ...]]:
    """Cautions, two boxes of them a face."""
    return [tuple(part) for part in _chunks(_boxes(words), 2)]


def _boxes(words: Sequence[str]) -> list[Caution]:
    """Cautions, as many a box as it takes."""
    sized = [(w[:1].upper() + w[1:], LINE_MM * len(w) / 40) for w in words]
    return [Caution(clean(" ".join(part), 590)) for part in _packed(sized, BOX_MM) if part]


def _plan(plan: Loosening) -> list[tuple[Block, ...]]:
    """What to do with one row that will not move: first, then, stop, and the cautions."""
    chance = "" if plan.chance_first is None else f"{plan.chance_first * 100:.0f} %"
    moves = [
        Step("1", clean(plan.first_said, 50), clean(f"{chance} {plan.variant or ''}", 60)),
        *(Step(str(n), clean(then, 50)) for n, then in enumerate(plan.then[:2], 2)),
    ]
    stop = [Step("STOP", *_halves(clean(s, 200))) for s in plan.stop_when[:2]]
    head = Text(clean(f"{plan.name}: {plan.stuck} will not move", 60), "strong")
    return [(head, Steps((*moves, *stop)), *_boxes(plan.cautions)[:1])]


def _halves(sentence: str) -> tuple[str, str]:
    """A sentence before and after its colon."""
    title, _, text = sentence.partition(": ")
    return title, text


def _bought(answer: JobAnswer) -> list[tuple[Block, ...]]:
    """What to buy: pieces large, what to say at the counter."""
    sized = [
        (
            (Cell(str(b.pieces), "big"), Cell(clean(f"{b.line} ({b.for_})", 200))),
            max(6.0, 3.2 * _lines(f"{b.line} ({b.for_})", 32)),
        )
        for b in answer.buy
    ]
    return [(table(("pieces", "what"), part, "job"),) for part in _packed(sized) if part]


def _torques(rows: Sequence[Tightening]) -> list[tuple[Block, ...]]:
    """What to set for each row, and where the value comes from."""
    lines = []
    for t in rows:
        name = f"{t.name}{', LEFT-HAND' if t.left_hand else ''}"
        value = "maker" if t.torque_nm is None else f"{t.torque_nm:.4g}"
        lines.append(
            (
                Cell(clean(name, 40)),
                Cell(value, "plain" if t.torque_nm is None else "big"),
                Cell("" if t.torque_nm is None else lbft(t.torque_nm), "head"),
                Cell("as told" if t.maker_nm else "window" if t.torque_nm else "", "small"),
            )
        )
    heads = ("fasteners", "N·m", "lb·ft", "from")
    say = Caution("The maker's value goes first, whatever stands here.")
    return [(table(heads, part, "job"), say) for part in _chunks(lines, ROWS)]


def _order(t: Tightening, answer: JobAnswer) -> list[tuple[Block, ...]]:
    """One row's order, drawn, and its passes."""
    row = next(f for f in answer.job.fasteners if f.name == t.name)
    found = tightening_order(row.pieces, row.shape, size=row.size or None)
    passes = [
        (Cell(f"{s.torque_nm:.3g}", "big"), Cell(lbft(s.torque_nm), "head"), Cell(s.what))
        for s in t.stages
        if s.torque_nm
    ]
    return [
        (
            Text(clean(t.name, 40), "strong"),
            Drawing(order_svg(found.points, found.sequence, SIDE_MM, 0.13), clean(t.numbering, 80)),
        ),
        (
            table(("N·m", "lb·ft", "pass"), passes, "job"),
            Text(clean("-".join(map(str, t.sequence)), 300)),
        ),
    ]
