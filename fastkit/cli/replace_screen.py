"""How `replace` looks: the first option whole, the others a line each; all of it with `--why`."""

from collections.abc import Iterable, Iterator, Sequence

from fastkit.answers.replace import ReplaceAnswer
from fastkit.answers.replace_ground import Ground
from fastkit.answers.replace_option import Option
from fastkit.cli.output import bold, danger_lines, drawn, fitting, unread_words, wrap
from fastkit.notation.units import figures, show_mm, show_nm

VERDICTS = {
    "reuse": "may go back",
    "measure": "may go back if it passes",
    "renew": "renew it",
}
OUT = 4  # of what is ruled out, shown
OTHERS = (2, 1, 0)  # options beside the first, shown in short: as many as make one screen
MORE = "--why: {}, substitutes, what not, sources"
PLACES = {1: "dry inside", 2: "inside, unheated", 3: "outdoors or wet", 4: "salt"}
REASONS = 2  # for the verdict on the old one, shown


def lines(answer: ReplaceAnswer, columns: int, why: bool) -> list[str]:
    """The answer in lines of at most so many columns; with *why* whatever it holds."""
    if why:
        return list(_lines(answer, columns, True, len(answer.options)))
    return fitting(columns, (_lines(answer, columns, False, others) for others in OTHERS))


def _lines(answer: ReplaceAnswer, columns: int, why: bool, others: int) -> Iterator[str]:
    yield from wrap(f"{answer.thread}: {_understood(answer)}", columns)
    yield from unread_words(answer.not_understood, columns)
    yield from danger_lines(answer.dangers, columns)
    yield ""
    yield from _old(answer, columns)
    for option in answer.options[:1]:
        yield ""
        yield from _whole(option, columns, bool(answer.understood["safety"]))
    yield from _others(answer.options[1:][:others], columns, why)
    if answer.reason:
        yield ""
        yield from _special(answer, columns)
    if answer.ground is not None:
        yield ""
        yield from _ground(answer.ground, columns, why)
    yield from _list("Before it goes in:", answer.prep, columns)
    if why:
        yield from _rest(answer, columns)
    else:
        yield ""
        yield from _assumed(answer, columns)
        kept_back = len(answer.options) - 1 - others
        options = f"{kept_back} more" if kept_back > 0 else "options whole"
        yield from wrap(MORE.format(options), columns)
    for text in (*answer.said, *answer.cautions):
        yield from wrap(text, columns)


def _special(answer: ReplaceAnswer, columns: int) -> Iterator[str]:
    """What is bought and what it minds; or why nothing is, and what is done instead."""
    if answer.line:
        for line in wrap(answer.line, columns, "BUY  "):
            yield bold(line)
        reason = answer.reason or ""
        yield from wrap(f"{reason[:1].upper()}{reason[1:]}: {answer.way}.", columns)
        return
    kind = (answer.understood["kind"] or "screw").replace("own-part", "other").replace("-", " ")
    yield from wrap(f"No {kind} from the shelf: {answer.reason}.", columns)
    yield from wrap(f"Instead: {answer.way}.", columns)


def _others(options: Sequence[Option], columns: int, why: bool) -> Iterator[str]:
    """The options behind the first: with what each trades, or what to ask for and its torque."""
    for option in options:
        if why or option.rank == 2:
            yield ""
        yield from (
            _short(option, columns) if why else wrap(_named(option), columns, f"{option.rank}. ")
        )


def _named(option: Option) -> str:
    have = f"; you have it: {option.in_stock}" if option.in_stock else ""
    torque = "" if option.torque_nm is None else f": {show_nm(option.torque_nm * 1000)}"
    return f"{option.line}{torque}{have}"


def _rest(answer: ReplaceAnswer, columns: int) -> Iterator[str]:
    """What a shop without it gives, what is ruled out and why, what was assumed, sources."""
    yield from _list("If the shop has none:", answer.substitutes, columns)
    out = [f"{row['what']}: {row['because']}" for row in answer.ruled_out[:OUT]]
    yield from _list("Not:", out, columns)
    yield ""
    yield from _assumed(answer, columns)
    yield from wrap(f"sources: {'; '.join(answer.sources)}", columns)


def _assumed(answer: ReplaceAnswer, columns: int) -> Iterator[str]:
    if answer.assumed:
        told = "; ".join(f"{row['what']}: {row['value']}" for row in answer.assumed)
        yield from wrap(f"assumed: {told}", columns)


def _old(answer: ReplaceAnswer, columns: int) -> Iterator[str]:
    """The verdict, its first reasons, and what a used nut must still drag."""
    because = answer.reuse.because
    told = [*because[:REASONS], *(text for text in because[REASONS:] if "N·m" in text)]
    yield from wrap(f"Old one: {VERDICTS[answer.reuse.verdict]}. {' '.join(told)}", columns)


def _understood(answer: ReplaceAnswer) -> str:
    said = answer.understood
    old = [said["head"] and f"{said['head']} head", said["grade"], said["finish"], said["drive"]]
    old += [*said["state"], *(f"had {thing}" for thing in said["had"]), *said["safety"]]
    degc = said["temperature_degc"]
    place = PLACES[said["place"]]
    if degc is not None:
        place = place.removesuffix(", unheated")
    where = [f"into {said['into']}", place, *said["flags"]]
    where += [] if degc is None else [f"{degc:g} °C"]
    words = [str(word) for word in (said["kind"], *old) if word]
    words = [
        word if word in {said["drive"], said["grade"]} else word.replace("-", " ") for word in words
    ]
    return f"{', '.join(words)}; {', '.join(where).replace('cast-iron', 'cast iron')}"


def _whole(option: Option, columns: int, safety: bool) -> Iterator[str]:
    mark = f"{option.rank}. {'CHECK BY' if safety else 'BUY'}  "
    for number, text in enumerate((option.line, *option.washers, *_nut(option))):
        for line in wrap(text, columns, mark if not number else "        ", "        "):
            yield bold(line)
    if option.in_stock:
        yield from wrap(f"you have it: {option.in_stock}", columns, "   ")
    again = "" if option.locking == "preload" else f"; next time: {option.again}"
    yield from wrap(f"lock: {option.locking_words}{again}", columns, "   ")
    yield from wrap(f"thread: {option.lubricant_words}", columns, "   ")
    yield from wrap(_torque(option), columns, "   ")
    if option.exact_mm is not None:
        yield from wrap(_length(option), columns, "   ")
    if option.tool:
        yield from wrap(_tool(option), columns, "   ")
    if option.galvanic_words:
        yield from wrap(f"metals: {option.galvanic_words}", columns, "   ")
    for text in option.notes:
        yield from wrap(text, columns, "   + ")
    for text in option.trades:
        yield from wrap(text, columns, "   - ")


def _nut(option: Option) -> tuple[str, ...]:
    return (option.nut_line,) if option.nut_line and option.form != "nut" else ()


def _torque(option: Option) -> str:
    if option.torque_nm is None:
        return f"torque: {option.torque_reason}"
    low, high = option.torque_min_nm or 0.0, option.torque_max_nm or 0.0
    return (
        f"set {show_nm(option.torque_nm * 1000)}; window {figures(low)} to {show_nm(high * 1000)}"
    )


def _length(option: Option) -> str:
    mm, exact = option.length_mm or 0.0, option.exact_mm or 0.0
    text = f"length: {show_mm(mm)}, {figures(exact)} asked"
    if option.needed_mm is None:
        return f"{text}; {figures(option.protrudes_mm or 0.0)} mm out of the nut"
    return (
        f"{text}; engages {figures(option.engaged_mm or 0.0)} of {show_mm(option.needed_mm)} wanted"
    )


def _tool(option: Option) -> str:
    free = [(axis, value) for axis, value in option.margins.items() if value is not None]
    spare = []
    if free:
        from fastkit.answers.wording import show_margin  # brings the planner along

        spare = [show_margin(axis, value) for axis, value in free]
    return f"turned by: {option.tool}" + (f", to spare {', '.join(spare)}" if spare else "")


def _short(option: Option, columns: int) -> Iterator[str]:
    yield from wrap(option.line, columns, f"{option.rank}. ")
    told = [f"you have it: {option.in_stock}"] if option.in_stock else []
    told.append(_torque(option))
    if option.locking != "preload":
        told.append(option.locking_words)
    if option.lubricant != "maker":  # said once, with the first
        told.append(option.lubricant_words)
    if option.insulate:
        told.append("part it from the body as in its notes")
    yield from wrap("; ".join(told), columns, "   ")
    for text in option.trades:
        yield from wrap(text, columns, "   - ")


def _ground(ground: Ground, columns: int, whole: bool) -> Iterator[str]:
    """The joint drawn, or told where nothing is drawn; *whole* does both."""
    sketch = list(drawn(ground.drawing))
    if whole or not sketch:
        yield from wrap("Ground joint, from the far side to the head:", columns)
        for number, piece in enumerate(ground.stack, 1):
            yield from wrap(piece, columns, f"{number:3}. ")
    else:
        yield "Ground joint:"
    yield from sketch
    for text in ground.steps:
        yield from wrap(text, columns, "- ")
    if ground.torque_min_nm is not None and ground.torque_max_nm is not None:
        yield from wrap(
            f"Torque {figures(ground.torque_min_nm)} to {show_nm(ground.torque_max_nm * 1000)}, "
            f"class {ground.torque_class} on a sound thread ({ground.torque_source}).",
            columns,
            "- ",
        )
    metered, *checks = ground.check
    allowed = f"{metered.removesuffix('.')} ({ground.drop_of}; {ground.drop_source})."
    for text in (allowed, *checks):
        yield from wrap(text, columns, "- ")
    nevers = "; ".join(text.removeprefix("never ") for text in ground.never)
    yield from wrap(f"{nevers}.", columns, "- Never: ", "  ")


def _list(title: str, texts: Iterable[str], columns: int) -> Iterator[str]:
    texts = tuple(texts)
    if texts:
        yield ""
        yield title
        for text in texts:
            yield from wrap(text, columns, "- ")
