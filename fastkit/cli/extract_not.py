"""What the screen of `extract` says not to do: what forbids it, what has no room, what else."""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from fastkit.answers.extract_answer import ExtractAnswer, Out
from fastkit.answers.wording import (
    in_sentence,
    kept_off,
    method_title,
    show_place,
    show_shortfall,
    thing,
)
from fastkit.cli.extract_lines import INDENT, wrap
from fastkit.notation.units import show_mm

Rules = dict[float, tuple[list[str], list[str]]]  # hazards and methods by how far off [mm]
SHORT_OF_ROOM = (
    *("too_short_above", "too_narrow_beside", "swing_too_small", "side_too_small"),
    "pocket_too_narrow",
)
LACKING = ("no_tool", "no_power", "no_heat")  # what can be got or allowed
ONE_LINE = (*SHORT_OF_ROOM, "neighbour")


def not_here(
    answer: ExtractAnswer, columns: int, *, names: bool, reasons: bool, near_misses: int, rules: int
) -> Iterator[str]:
    """Yield what is ruled out: all that a neighbour forbids, near misses of room, then the rest."""
    forbidden = [out for out in answer.ruled_out if out.reason.code == "neighbour"]
    tight = sorted(
        (out for out in answer.ruled_out if out.short_by and out.reason.code in SHORT_OF_ROOM),
        key=_telling,
    )[:near_misses]
    groups = grouped(answer, (o for o in answer.ruled_out if o.reason.code not in ONE_LINE))
    others = [group for group in groups if group[1].reason.code in LACKING][:rules]
    found = _rules(answer, forbidden, told=reasons)
    if not names:
        short = [
            kept_off(thing(name), {mm: hazards for mm, (hazards, _) in rules.items()})
            for (name, _), rules in found.items()
        ]
        poisons = [why for why, _ in answer.never.because]
        yield from wrap("; ".join((*poisons, *short)), columns, "DON'T  ", INDENT)
    else:
        yield from _dont(answer, found, columns)
    if reasons:
        for titles, out in grouped(answer, forbidden):
            yield from out_lines(titles, out, columns, "DON'T  ")
    if tight:
        told = "; ".join(_short(answer, out) for out in tight)
        yield from wrap(told, columns, "NO ROOM  ", INDENT)
    for titles, out in others:
        yield from out_lines(titles, out, columns, "NOT  ")
    poisoned = {method for _, methods in answer.never.because for method in methods}
    shown = poisoned | {out.method for out in (*forbidden, *tight)}
    more = sum(len(titles) for titles, _ in others)
    if left := sum(out.method not in shown for out in answer.ruled_out) - more:
        yield from wrap(f"{left} more, each with its reason: --why", columns, "NOT  ", INDENT)


def _rules(
    answer: ExtractAnswer, outs: Iterable[Out], *, told: bool
) -> dict[tuple[str, float], Rules]:
    """
    Return how far off each neighbour wants what.

    Fire also where each method of it is out for another reason; where the rest is `told` with its
    reasons, fire alone.
    """
    found: dict[tuple[str, float], Rules] = {}
    known = set()
    for out in outs:
        name, hazard, have, need, _ = out.reason.values
        known.add((name, hazard))
        if not told:
            rules = found.setdefault((str(name), float(have)), {})
            hazards, methods = rules.setdefault(float(need), ([], []))
            hazards.append(thing(str(hazard)))
            methods.append(in_sentence(method_title(out.method, answer.titles)))
    for item, hazard, need in answer.never.near:
        if (item.thing, hazard) not in known:
            rules = found.setdefault((item.thing, item.mm), {})
            rules.setdefault(need, ([], []))[0].append(thing(hazard))
    return found


def _dont(
    answer: ExtractAnswer, found: Mapping[tuple[str, float], Rules], columns: int
) -> Iterator[str]:
    """Yield what heat does here, then each neighbour, with the short names of what that forbids."""
    poisons = [
        f"{why} ({', '.join(in_sentence(method_title(name, answer.titles)) for name in them)})"
        for why, them in answer.never.because
    ]
    yield from wrap("; ".join(poisons), columns, "DON'T  ", INDENT)
    for (name, mm), rules in found.items():
        rest = []
        for need, (hazards, methods) in rules.items():
            kept = f"no {' or '.join(dict.fromkeys(hazards))} nearer than {show_mm(need)}"
            rest.append(f"{kept} ({', '.join(methods)})" if methods else kept)
        place = f"beside {thing(name)} {show_place(mm)}"
        yield from wrap(f"{place}: {'; '.join(rest)}", columns, "DON'T  ", INDENT)


def _short(answer: ExtractAnswer, out: Out) -> str:
    """Return a near miss: `locking pliers: 2 mm (0.079 in) short beside`."""
    assert out.short_by is not None
    shown = show_shortfall(out.short_by)
    return f"{in_sentence(method_title(out.method, answer.titles))}: {shown}"


def out_lines(titles: Sequence[str], out: Out, columns: int, mark: str = INDENT) -> Iterator[str]:
    """Yield methods ruled out for the same reason, and what would bring them back."""
    told = out.reason.code == "neighbour"  # how far off it must be stands in the reason
    opens = f" (opens: {out.opens_it})" if out.opens_it and not told else ""
    first, *others = titles
    names = "; ".join([first, *map(in_sentence, others)])
    yield from wrap(f"{names}: {out.because}{opens}", columns, mark, INDENT)


def grouped(answer: ExtractAnswer, outs: Iterable[Out]) -> list[tuple[list[str], Out]]:
    """Return methods with the same reason together, the most telling reasons first."""
    groups: dict[tuple[str, str | None], tuple[list[str], Out]] = {}
    for out in sorted(outs, key=_telling):
        titles, _ = groups.setdefault((out.because, out.opens_it), ([], out))
        titles.append(method_title(out.method, answer.titles))
    return list(groups.values())


def _telling(out: Out) -> tuple[int, float]:
    """Order: what a neighbour forbids, near misses of room, lacking tools, rules, the rest."""
    if out.reason.code == "neighbour":
        return 0, 0.0
    if out.reason.code in SHORT_OF_ROOM and out.short_by:
        return 1, out.short_by.amount
    if out.reason.code in ("no_tool", "no_power", "no_heat"):
        return 2, 0.0
    if out.reason.code == "veto" and out.opens_it:
        return 3, 0.0
    return 4, 0.0
