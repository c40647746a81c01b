"""The screen of `extract`: what matters under a vehicle first, in lines that fit."""

from collections.abc import Iterable, Iterator, Sequence
from typing import Any, NamedTuple

from fastkit.answers.extract_answer import NO_WAY, ExtractAnswer, Out, Step
from fastkit.answers.method_texts import COLD, wants_oil
from fastkit.answers.options import NEAR_SIZES
from fastkit.answers.situation_words import MARK, assumed_words, said_words
from fastkit.answers.sizes import marked
from fastkit.answers.wording import (
    ALMOST,
    DEALER,
    ERODED,
    NOWHERE,
    in_sentence,
    measure_sentence,
    method_title,
    own_sentence,
    show_about,
    show_chance,
    show_margin,
    show_minutes,
)
from fastkit.cli.extract_lines import INDENT, wrap
from fastkit.cli.extract_not import grouped, not_here, out_lines
from fastkit.cli.output import bold
from fastkit.notation.entry import drive_words
from fastkit.notation.units import figures

WIDE, NARROW = 80, 50
WIDE_LINES, NARROW_LINES = 30, 46  # a screen at 80 columns, at 50
OUT = ("free", "torn", "insert-out", "done")  # outcomes after which nothing is left to do
LITTLE = 0.1  # a way that frees it more seldom, or eases it less, is not named beside the first
ROUND_CORNERS = "slips round worn corners"  # of a tool that holds on a sound drive only
LINKS = {"held pull": "pull that spares the shank"}


class Told:
    """What the screen has asked for so far: nothing is asked for twice."""

    def __init__(self, answer: ExtractAnswer) -> None:
        self.guards = answer.guards
        self.hot, self.oily = answer.hot, answer.oily
        self.heated = not self.hot.isdisjoint(answer.situation.tried)
        self.asked: set[str] = set()
        self.text = ""
        if answer.plan:
            self.step(answer.plan[0])

    def step(self, step: Step) -> None:
        """Count in a move that is shown with all its steps."""
        self.heated |= step.method in self.hot
        self.asked.update(step.conditions)
        self.text += " ".join((*step.steps, *step.cautions, "")).lower()

    def new(self, method: str, conditions: Iterable[str]) -> list[str]:
        """Return what a method asks for here, and anywhere, that has not been asked for."""
        wanted = dict.fromkeys((*conditions, *self.guards.get(method, ())))
        if self.heated and wants_oil(method, wanted, self.hot, self.oily):
            wanted[COLD] = None
        self.heated |= method in self.hot
        more = [item for item in wanted if item not in self.asked and item not in self.text]
        self.asked.update(more)
        return more

    def only(self, method: str, conditions: Iterable[str]) -> str:
        """Return the same as the end of a sentence."""
        more = self.new(method, conditions)
        return f"; only with {'; '.join(more)}" if more else ""


class Detail(NamedTuple):
    """How much of what may be left out is shown; the least of it cuts nothing that warns."""

    gaps: bool = False
    last: bool = False  # the last resort
    measure: bool = False  # what to measure next
    follow_steps: bool = False  # steps of what comes after a gate
    names: bool = False  # the methods that each neighbour forbids
    reasons: bool = False  # why each neighbour forbids
    near: bool = False  # near fits of the drive
    others: int = 0  # further ways beside the first
    tight: int = 0  # near misses of room
    rules: int = 0  # other things ruled out
    assumed: bool = False  # all assumptions, not only those that change the first move


EVERYTHING = Detail(True, True, True, True, True, True, True, 99, 99, 99, True)
# what is added first while the screen has room for it
UPGRADES: tuple[dict[str, Any], ...] = (
    {"measure": True},
    {"names": True},
    {"last": True},
    {"reasons": True},
    {"others": 1},
    {"tight": 2},
    {"gaps": True},
    {"follow_steps": True},
    {"others": 2},
    {"near": True},
    {"tight": 4},
    {"rules": 1},
    {"assumed": True},
    {"others": 3},
    {"tight": 6},
    {"rules": 2},
)


def limit(columns: int) -> int:
    """Return the lines that a screen of so many columns takes, where what warns takes no more."""
    if columns >= WIDE:
        return WIDE_LINES
    share = (WIDE - max(columns, NARROW)) / (WIDE - NARROW)
    return WIDE_LINES + int(share * (NARROW_LINES - WIDE_LINES))


def screen(answer: ExtractAnswer, columns: int) -> list[str]:
    """Return the first screen: nothing that warns is cut, what is left out is counted."""
    detail, lines = Detail(), least(answer, columns)
    for upgrade in UPGRADES:
        more = detail._replace(**upgrade)
        longer = list(_screen(answer, columns, more))
        if len(longer) <= limit(columns):
            detail, lines = more, longer
    return lines


def least(answer: ExtractAnswer, columns: int) -> list[str]:
    """Return what a screen never leaves out."""
    return list(_screen(answer, columns, Detail()))


def whole(answer: ExtractAnswer, columns: int) -> list[str]:
    """Return everything: each method with its numbers, each reason, each assumption."""
    lines = [*_understood(answer, columns, EVERYTHING)]
    lines += wrap("; ".join(answer.dangers), columns, "DANGER  ", INDENT)
    lines += _part(answer, columns)
    lines += _near(answer, columns)
    for step in answer.plan:
        lines += ["", *_method(answer, step, columns, f"{step.rank}  ")]
        lines += _steps(step, columns)
        lines += _sizes(answer, step, columns)
        lines += wrap(step.why, columns, INDENT)
        shares = ", ".join(f"{name} {show_chance(share)}" for name, share in step.outcomes.items())
        lines += wrap(f"outcomes: {shares}", columns, INDENT)
        lines += wrap(f"if it fails: {_next_title(answer, step.if_it_fails)}", columns, INDENT)
    lines += ["", bold("RULED OUT")]
    for titles, out in grouped(answer, answer.ruled_out):
        lines += out_lines(titles, out, columns)
    return [*lines, "", *_end(answer, Told(answer), columns, EVERYTHING)]


def understood(answer: ExtractAnswer, columns: int) -> list[str]:
    """Return how the words were read, what was left over, and what is assumed that matters."""
    return list(_understood(answer, columns, Detail()))


def side_by_side(answer: ExtractAnswer, rows: Sequence[Step | Out], columns: int) -> list[str]:
    """Return methods with their numbers, or the reason why one is ruled out."""
    lines = understood(answer, columns)
    for row in rows:
        if isinstance(row, Out):
            lines += out_lines([method_title(row.method, answer.titles)], row, columns, "OUT  ")
        else:
            lines += _method(answer, row, columns, f"{row.rank}  ")
            total = show_minutes(row.expected_minutes)
            lines += wrap(f"starting with it: about {total} in all", columns, INDENT)
    steps = [row for row in rows if isinstance(row, Step)]
    if len(steps) == 2:
        better, worse = sorted(steps, key=lambda step: step.expected_minutes)
        saved = worse.expected_minutes - better.expected_minutes
        title = method_title(better.method, answer.titles)
        lines += wrap(f"{title} first saves about {show_minutes(saved)}.", columns)
    return lines


def _screen(answer: ExtractAnswer, columns: int, detail: Detail) -> Iterator[str]:
    yield from _understood(answer, columns, detail)
    yield from wrap("; ".join(answer.dangers), columns, "DANGER  ", INDENT)
    yield from _part(answer, columns)
    gap = [""] if detail.gaps else []
    asked = Told(answer)
    if not answer.plan:
        yield from wrap(NO_WAY.capitalize() + ".", columns)
    else:
        first, *rest = answer.plan
        yield from gap
        yield from _method(answer, first, columns, "FIRST  ")
        yield from _steps(first, columns)
        yield from _sizes(answer, first, columns)
        yield from gap
        yield from _then(answer, asked, first, rest, columns, detail)
    yield from gap
    if detail.near or NEAR_SIZES in answer.situation.have:
        yield from _near(answer, columns)
    yield from not_here(
        answer,
        columns,
        names=detail.names,
        reasons=detail.reasons,
        near_misses=detail.tight,
        rules=detail.rules,
    )
    yield from _end(answer, asked, columns, detail)


def _understood(answer: ExtractAnswer, columns: int, detail: Detail) -> Iterator[str]:
    """Yield how the words were read, what was left over and what is assumed."""
    told = said_words(answer.situation, answer.said, answer.vague, answer.titles)
    yield from wrap("; ".join(told), columns, "READ AS  ", INDENT)
    if answer.not_understood:
        yield from wrap(", ".join(answer.not_understood), columns, "NOT READ  ", INDENT)
    shown = answer.assumed
    if not detail.assumed:
        shown = tuple(item for item in shown if item.changes_first_move)
    left = len(answer.assumed) - len(shown)
    words = "; ".join(assumed_words(shown, answer.titles, answer.situation.damage))
    tail = f" ({MARK} would change the first move)" if MARK in words else ""
    if tail and not detail.assumed:
        which = "each" if words.count(MARK) > 1 else "it"
        words, tail = words.replace(MARK, ""), f" ({which} would change the first move)"
    more = f"; {left} more: --why" if words else f"{left} that leave the first move as it is: --why"
    if words or left:
        yield from wrap(f"{words}{tail}{more if left else ''}", columns, "ASSUMED  ", INDENT)


def _part(answer: ExtractAnswer, columns: int) -> Iterator[str]:
    """Yield what a mechanic minds of a part that goes by a name of its own."""
    if answer.part:
        yield from wrap(answer.part.note, columns, f"{answer.part.title.upper()}  ", INDENT)


def _method(answer: ExtractAnswer, step: Step, columns: int, mark: str) -> Iterator[str]:
    """Yield a method's title, tool, chance and time, room to spare and its weakest link."""
    title = method_title(step.method, answer.titles)
    yield from map(bold, wrap(title.upper() if mark[0] == "F" else title, columns, mark, INDENT))
    tool = answer.variants.get((step.method, step.variant or ""))
    if tool:
        yield from wrap(f"with {tool}", columns, INDENT)
    yield from wrap(step.told.get("near_fit", ""), columns, INDENT)
    yield from wrap("; ".join(_figures(step)), columns, INDENT)
    yield from wrap(_torque(answer, step), columns, INDENT)


def _figures(step: Step) -> Iterator[str]:
    if step.kind == "gate":
        yield step.told.get("due_first", "due before anything else")
    time = show_minutes(step.minutes)
    yield time if step.kind == "treat" else f"{_chance(step)} in {time}"
    if snaps := _snaps(step):
        yield snaps
    spare = [
        show_margin(axis, margin)
        for axis, margin in step.margins._asdict().items()
        if margin is not None
    ]
    if "own_tries" in step.told:
        yield step.told["own_tries"]
    if spare:
        yield f"to spare {', '.join(spare)}"


def _snaps(step: Step) -> str:
    """Say so where a turn snaps the fastener more likely than it frees it."""
    share = sum(part for name, part in step.outcomes.items() if name.startswith("snapped"))
    turns = step.kind == "turn" and share > step.chance
    return f"more likely it snaps, {show_chance(share)}" if turns else ""


def _chance(step: Step) -> str:
    return show_chance(min(step.chance, ALMOST))


def _torque(answer: ExtractAnswer, step: Step) -> str:
    """Return the weakest link's numbers: `needs about 9 N·m (4 to 19), the recess holds 6`."""
    link = step.weakest_link
    if link is None:
        return f"{step.told['treats']}" if "treats" in step.told else ""
    low, middle, high = link.required_nm
    name = LINKS.get(link.part, link.part)
    if name == "recess" and answer.situation.kind in ("nut", "tube-nut"):
        name = "flats"
    parts = {name: link.capacity_nm}
    parts.setdefault("shank", answer.shank_nm)
    holds = ", ".join(f"the {part} {show_about(nm)}" for part, nm in parts.items())
    spread = f"{figures(low, 2)} to {figures(high, 2)}"
    return f"needs about {show_about(middle)}, {spread} likely; can carry: {holds}"


def _steps(step: Step, columns: int) -> Iterator[str]:
    for number, text in enumerate(step.steps, 1):
        yield from wrap(text, columns, f"  {number} ", "    ")
    for text in step.cautions:
        yield from wrap(text, columns, "  ! ", "    ")


def _sizes(answer: ExtractAnswer, step: Step, columns: int) -> Iterator[str]:
    """Yield the sizes of a move, with the thread that they hold for where nobody said it."""
    if step.sizes:
        thread = answer.situation.thread
        only = "" if "thread" in answer.said else f"if it is {thread}: "
        yield from wrap(f"{only}{marked(step.sizes)}", columns, "  = ", "    ")


def _then(
    answer: ExtractAnswer,
    asked: Told,
    first: Step,
    rest: Sequence[Step],
    columns: int,
    detail: Detail,
) -> Iterator[str]:
    """Yield what follows: the next move on failure, the best others, the last resort."""
    told = {first.method}
    gate = first.kind == "gate"
    for step in rest if gate else ():
        # up to the best method once every gate is done
        if detail.follow_steps or step.kind != "gate":
            yield from _method(answer, step, columns, "THEN  ")
        else:
            yield from wrap(_brief(answer, asked, step), columns, "THEN  ", INDENT)
        if detail.follow_steps:
            yield from _steps(step, columns)
            asked.step(step)
        elif step.kind != "gate":
            more = asked.new(step.method, step.conditions)
            yield from wrap("; ".join(more), columns, "  ! only with ", "    ")
        told.add(step.method)
        if step.kind != "gate":
            break
    # of one that as good as never misses the stop rule says enough
    if not gate and (first.if_it_fails != "stop" or first.chance < ALMOST):
        acts, failure = first.kind in ("turn", "part"), _failure(first)
        snaps = failure == "snapped"
        mark = f"IF IT {'SNAPS' if snaps else 'FAILS'}  " if acts else "THEN  "
        follow = next((step for step in rest if step.method == first.if_it_fails), None)
        title = _next_title(answer, first.if_it_fails)
        if follow is None and first.if_it_fails == first.method:
            title = f"{title}, {'on what is left of it' if snaps else 'once more, afresh'}"
        eased = not acts or failure not in ("nothing", "failed")
        ahead = answer.in_room_made
        if ahead and ahead.method == first.if_it_fails:
            text = title + asked.only(ahead.method, ahead.conditions)
        elif follow:
            text = _brief(answer, asked, follow, eased, first.later)
        else:
            text = title + asked.only(first.if_it_fails, first.later)
        yield from wrap(text, columns, mark, INDENT)
        told.add(first.if_it_fails)
    turned = answer.leads_to
    if turned and turned.method not in told:
        title = in_sentence(method_title(turned.method, answer.titles))
        odds = show_chance(min(turned.chance, ALMOST))
        text = f"{title}: {odds} in {show_minutes(turned.minutes)}"
        text += asked.only(turned.method, turned.conditions)
        yield from wrap(text, columns, "LEADS TO  ", INDENT)
    others = [step for step in rest if step.method not in told and _worth(step)]
    for step in [step for step in others if step.verdict == "next"][: detail.others]:
        yield from wrap(_brief(answer, asked, step), columns, "OR  ", INDENT)
    resorts = [step for step in others if step.verdict == "last-resort"]
    last = [step for step in resorts if step.kind != "room"]  # room alone takes nothing out
    for step in last[: int(detail.last)]:
        yield from wrap(_brief(answer, asked, step), columns, "LAST RESORT  ", INDENT)


def _failure(step: Step) -> str:
    """Return the likeliest outcome of a move that leaves the fastener in; none: "failed"."""
    failures = {name: part for name, part in step.outcomes.items() if name not in OUT}
    return max(failures, key=failures.__getitem__, default="failed")


def _worth(step: Step) -> bool:
    """Say whether a way does enough to be named beside the first."""
    if step.kind in ("turn", "part"):
        return step.chance >= LITTLE
    before, after = step.treats or (1.0, 0.0)
    return after <= (1 - LITTLE) * before


def _brief(
    answer: ExtractAnswer,
    asked: Told,
    step: Step,
    eased: bool = False,
    later: Iterable[str] = (),
) -> str:
    """
    Return a method in one sentence; what has been asked for is not said again.

    `eased`: it follows a move that changes things, so that its chance as they stand says nothing;
    `later` is what it asks for then.
    """
    time, treats = show_minutes(step.minutes), step.told.get("treats")
    told = f"{time}; {treats}" if treats else time if eased else f"{_chance(step)} in {time}"
    if (snaps := _snaps(step)) and not eased:
        told += f", {snaps}"
    if "own_tries" in step.told:
        told += f" ({step.told['own_tries']})"
    if "due_first" in step.told:
        told = f"{step.told['due_first']}; {told}"
    only = asked.only(step.method, (*step.conditions, *later))
    return f"{method_title(step.method, answer.titles)}: {told}{only}"


def _next_title(answer: ExtractAnswer, method: str) -> str:
    if method != "stop":
        return method_title(method, answer.titles)
    if answer.situation.is_beside("airbag"):
        return DEALER
    return ERODED if answer.situation.damage == "extractor-broken" else NOWHERE


def _near(answer: ExtractAnswer, columns: int) -> Iterator[str]:
    """Yield what else fits in or on the drive, by play (+) or interference (-)."""
    found = (
        (drive_words(fit.id.partition(":")[2]), fit.play_mm, fit.how.partition(",")[0])
        for fit in answer.near
        if ROUND_CORNERS not in fit.how
    )
    told = "; ".join(f"{drive} {play:+.2f} mm, {how}" for drive, play, how in found)
    yield from wrap(told, columns, "NEAR  ", INDENT)


def _end(answer: ExtractAnswer, asked: Told, columns: int, detail: Detail) -> Iterator[str]:
    """Yield the measurement that would change most, when to stop, and what governs."""
    if answer.measure_next and detail.measure:
        told = measure_sentence(answer.measure_next, answer.titles, answer.situation.headless)
        yield from wrap(told, columns, "MEASURE  ", INDENT)
    chance = show_chance(min(answer.chance, ALMOST))
    total = f"{chance} free in about {show_minutes(answer.expected_minutes)}"
    yield from wrap(total, columns, "IN ALL  ", INDENT)
    stop = " ".join(answer.stop_when)
    if answer.last and (more := asked.new(answer.last.method, answer.last.conditions)):
        title = method_title(answer.last.method, answer.titles)
        stop += f" {title} only with {'; '.join(more)}."
    yield from wrap(stop, columns, "STOP  ", INDENT)
    after = [text[:1].upper() + text[1:] for text in answer.afterwards]
    yield from wrap(". ".join(after), columns, "AFTER  ", INDENT)
    if answer.own:
        said = own_sentence(answer.own, answer.titles, every=detail.assumed)
        yield from wrap(said, columns, "LEARNED  ", INDENT)
    yield from wrap(answer.governs, columns, "CARE  ", INDENT)
