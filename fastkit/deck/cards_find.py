"""Cards to find the way by: which damage is it, where do threads run left-handed."""

import sqlite3
from collections.abc import Mapping

from fastkit.answers.cards import rows
from fastkit.deck import profiles
from fastkit.deck.card import Caution, Cell, Drawing, Sketch, Step, Steps, Text
from fastkit.deck.cards_emergency import CASES
from fastkit.deck.drawings import NUMERAL_MM, filled, label, outlined, placed, svg
from fastkit.deck.tables import Faces, keyed, practised, sketch, table, told
from fastkit.records.left_hand import LeftHand

ACROSS, CELL_W_MM, CELL_H_MM, PICTURE_MM = 3, 18.2, 13.1, 9.2


def damage_finder(numbers: Mapping[str, int]) -> Faces:
    """
    Pictures of what went wrong, each with the number of its card.

    Args:
        numbers: Number of each card by its id.
    """
    body = ""
    for k, case in enumerate(CASES):
        x, y = k % ACROSS * CELL_W_MM, k // ACROSS * CELL_H_MM
        body += placed(case.picture, x + 0.2, y + 0.2, PICTURE_MM)
        body += label(
            x + CELL_W_MM - 0.9, y + 6.9, str(numbers[case.id]), NUMERAL_MM, "end", bold=True
        )
        body += label(x + 0.2, y + 11.6, case.title, 2.1, "start")
    high = -(-len(CASES) // ACROSS) * CELL_H_MM
    drawn = svg(ACROSS * CELL_W_MM, high, "What went wrong, and the card for it", body)

    def step(n: int, title: str, *said: tuple[str, str]) -> Step:
        return Step(str(n), title, ", ".join(f"{word} {numbers[key]}" for word, key in said))

    return Faces(
        (Drawing(drawn),),
        (
            Steps(
                (
                    step(
                        1,
                        "It turns",
                        ("and stays:", "turns-along"),
                        ("the nut:", "nut-turns-along"),
                        ("ever harder:", "bolt-galled"),
                    ),
                    step(
                        2,
                        "The tool holds, it does not",
                        ("rust:", "bolt-seized"),
                        ("glue:", "bolt-locked"),
                    ),
                    step(
                        3,
                        "The tool slips",
                        ("recess:", "recess-worn"),
                        ("gone:", "recess-stripped"),
                        ("hexagon:", "hexagon-rounded"),
                        ("tube nut:", "tube-nut-rounded"),
                    ),
                    step(
                        4,
                        "Something sits in it",
                        ("a bit:", "tool-stuck"),
                        ("an extractor, a tap:", "tool-broken-in"),
                    ),
                    step(
                        5,
                        "The head is off",
                        ("stands out:", "snapped-proud"),
                        ("level:", "snapped-flush"),
                        ("inside:", "snapped-below"),
                    ),
                )
            ),
            Text(
                "Each card is one stated case (M8, free room). Not on a card, no room, something "
                "beside it: fastkit extract, in your words.",
                "small",
            ),
            Caution("Unload it, isolate it, stands under it: before any of these."),
        ),
        practised(told(["seizure:rusted", "seizure:galled", "broken:M8x1.25"])),
        "In words",
    )


def left_hand(store: sqlite3.Connection) -> Faces:
    """Where a thread tightens anticlockwise."""
    found = rows(store, LeftHand)

    def line(entry: LeftHand) -> tuple[Cell, ...]:
        return Cell(entry.title), Cell(entry.where_not or "")

    heads = ("left-hand thread", "but not")
    return Faces(
        (
            Drawing(_turns(), "Right-hand: loosens anticlockwise. Left-hand: loosens clockwise."),
            table(heads, (line(e) for e in found[:6]), "left-hand"),
        ),
        (
            table(heads, (line(e) for e in found[6:13]), "left-hand"),
            Text(
                "On fuel gas fittings a notch round the nut says left-hand. Look at the "
                "threads: they rise to the left."
            ),
            Caution("Not sure? Turning the wrong way tightens it until it snaps."),
        ),
        told(keyed("left-hand", found), found),
        "Left-hand, more",
    )


def _turns() -> str:
    """Two heads, each with the arrow that loosens it."""
    body = ""
    for x, way, word in ((10.0, -1, "right-hand"), (36.0, 1, "left-hand")):
        body += outlined(profiles.regular(6, 7, (x, 8), 30), 0.35, "#ddd")
        start, end = ((x + way * -6.2, 8), (x + way * 6.2, 8))
        n = profiles.number
        sweep = 1 if way > 0 else 0
        body += (
            f'<path d="M{n(start[0])} 8A6.2 6.2 0 0 {sweep} {n(end[0])} 8" fill="none" '
            'stroke="#000" stroke-width="0.6"/>'
        )
        tip = end[0]
        body += filled(profiles.polygon([(tip - 1.1, 7.8), (tip + 1.1, 7.8), (tip, 10.4)]))
        body += label(x + 8.4, 13.4, word, 2.6, "middle")
    return svg(54, 15, "Right-hand thread loosens anticlockwise, left-hand clockwise", body)


LEFT = sketch(
    "left-hand", "start", "Left-hand threads", "Does this one turn the other way?", left_hand
)
FINDER = ("damage-finder", "start", "Which damage?", "Find the picture: the number is the card.")


def finder(numbers: Mapping[str, int]) -> Sketch:
    """The card that shows the way to the others, by the number of each."""
    return sketch(*FINDER, lambda _: damage_finder(numbers))
