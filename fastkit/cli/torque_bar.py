"""The torque window drawn to scale in characters, no colour, no wider than the screen."""

from collections.abc import Callable, Iterator

from fastkit.answers.torque import TorqueAnswer
from fastkit.answers.torque_limits import LIMITS
from fastkit.cli.output import PLAIN, asked, drawn, wrap
from fastkit.notation.units import show_nm

LIMIT_MARKS = {
    "yield": "y",
    "thread-strip": "s",
    "bolt-thread-strip": "b",
    "nut-proof": "n",
    "bearing-pressure": "p",
    "drive": "d",
}


def bar(answer: TorqueAnswer, columns: int) -> Iterator[str]:
    """
    The window drawn to scale, each limit under it, and what each mark is.

    No colour, no wider than the screen; what lies beyond the right end is marked `>` and listed.
    In plain mode the list alone, without the marks.
    """
    marks = [
        ("[", answer.torque_min_nm, "lowest: clamps enough at the highest friction"),
        ("]", answer.torque_max_nm, "highest: overloads nothing at the lowest friction"),
        ("T", answer.table_torque_nm, "what tables print: middle friction, no scatter"),
        ("M", answer.maker["torque_nm"] if answer.maker else None, "the maker's value"),
        ("S", answer.set["torque_nm"] if answer.set else None, "the setting asked about"),
        ("X", answer.breaking_torque_nm, "the shank twists off"),
    ]
    shown = [(sign, value, word) for sign, value, word in marks if value is not None]
    top = max(value for _, value, _ in shown) * 1.05
    cells = min(columns, 72) - 4

    def place(value: float) -> int:
        return min(round(value / top * (cells - 1)), cells - 1)

    line = ["."] * cells
    low, high = place(answer.torque_min_nm or 0.0), place(answer.torque_max_nm or 0.0)
    for at in range(low, high + 1):
        line[at] = "="
    for sign, value, _ in reversed(shown):
        line[place(value)] = sign
    if not answer.empty and answer.torque_nm is not None and high - low > 1:
        at = min(max(place(answer.torque_nm), low + 1), high - 1)
        line[at] = "o"
        word = "reckoned without the maker's value" if answer.maker else "set this"
        word = "reckoned, not to set by" if answer.critical else word
        shown.insert(1, ("o", answer.torque_nm, word))
    limits = [
        (LIMIT_MARKS[limit["name"]], limit["setting_nm"], LIMITS[limit["name"]])
        for limit in answer.limits
    ]
    yield from drawn([f" 0{''.join(line)}", *_under(limits, place, top, cells)])
    legend = [*shown, *((sign, value, f"limit: {word}") for sign, value, word in limits)]
    for sign, value, word in sorted(legend, key=lambda mark: mark[1]):
        yield from wrap(
            f"{show_nm(1000 * value)}  {word}", columns, "- " if asked(PLAIN) else f" {sign} "
        )


def _under(
    limits: list[tuple[str, float, str]], place: Callable[[float], int], top: float, cells: int
) -> Iterator[str]:
    """The limits' marks on the bar's own scale; a further row where two fall on one cell."""
    rows: list[list[str]] = []
    for sign, value, _ in limits:
        at, sign = (place(value), sign) if value <= top else (cells - 1, ">")
        row = next((row for row in rows if row[at] in {" ", sign}), None)
        if row is None:
            row = [" "] * cells
            rows.append(row)
        row[at] = sign
    for row in rows:
        yield f"  {''.join(row)}".rstrip()
