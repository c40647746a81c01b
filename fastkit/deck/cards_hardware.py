"""Cards on what goes with a bolt: nuts and washers."""

import sqlite3
from collections.abc import Sequence

from fastkit.answers.cards import rows
from fastkit.deck.card import Cell, Text
from fastkit.deck.tables import Faces, head, in_inches, keyed, num, sketch, table, told
from fastkit.records.grade import GradePair, NutRow
from fastkit.records.washer import Washer

WASHERS = ("M4", "M5", "M6", "M8", "M10", "M12", "M16", "M20")
OTHER_NUTS = ("nut-04", "nut-05", "nut-A2-70", "nut-A4-80", "nut-SAE-2", "nut-SAE-5", "nut-SAE-8")
SHOWN_NUTS = ("nut-5", "nut-6", "nut-8", "nut-9", "nut-10", "nut-12")


def nuts(store: sqlite3.Connection) -> Faces:
    """Which nut goes on which bolt."""
    pairs = {p.grade: p for p in rows(store, GradePair)}

    def line(key: str) -> tuple[Cell, ...]:
        proofs = rows(store, NutRow, grade=key)
        return (
            Cell(key.removeprefix("nut-").removeprefix("SAE-"), "big"),
            Cell(pairs[key].mate.removeprefix("SAE-"), "big"),
            num(min(proofs, key=lambda n: n.proof_mpa), "proof_mpa", digits=0)._replace(mark="")
            if proofs
            else Cell(""),
        )

    front, back = [k for k in SHOWN_NUTS if k in pairs], [k for k in OTHER_NUTS if k in pairs]
    proofs = [n for k in (*front, *back) for n in rows(store, NutRow, grade=k)]
    heads = ("nut", "up to bolt", "proof MPa, least")
    return Faces(
        (
            table(heads, (line(k) for k in front)),
            Text(
                "A higher nut goes on any lower bolt, never the reverse: it strips unseen. 6.9 "
                "MPa are 1 ksi."
            ),
        ),
        (
            table(heads, (line(k) for k in back)),
            Text(
                "04, 05: thin nuts, half strength. Last three: SAE. Stainless: same group, or "
                "it galls."
            ),
        ),
        told([f"grade:{k}" for k in (*front, *back)], [pairs[k] for k in (*front, *back)], proofs),
        "Nut for bolt, more",
    )


def washers(store: sqlite3.Connection) -> Faces:
    """Plain and large washers by thread."""
    plain = {w.size: w for w in rows(store, Washer, standard="ISO 7089")}
    large = {w.size: w for w in rows(store, Washer, standard="ISO 7093")}

    def lines(held: dict[str, Washer]) -> list[tuple[Cell, ...]]:
        return [
            (
                head(s),
                num(held[s], "inner_mm", "head"),
                num(held[s], "outer_mm", "big"),
                in_inches(held[s], "outer_mm"),
                num(held[s], "thickness_mm", "head"),
            )
            for s in WASHERS
            if s in held
        ]

    heads = ("thread", "hole", "outside mm", "in", "thick")

    def used(held: dict[str, Washer]) -> Sequence[Washer]:
        return [held[s] for s in WASHERS if s in held]

    return Faces(
        (
            table(heads, lines(plain)),
            Text("Plain, ISO 7089, 200 HV: up to 8.8. For 10.9 and 12.9: 300 HV.", "small"),
        ),
        (
            table(heads, lines(large)),
            Text("Large, ISO 7093: soft bodies, plastic, sheet, slots.", "small"),
        ),
        told(keyed("washer", [*used(plain), *used(large)]), list(used(plain)), list(used(large))),
        "Washers, large",
    )


SKETCHES = (
    sketch("nut-for-bolt", "replace", "Nut for bolt", "Which nut carries this bolt?", nuts),
    sketch("washers", "replace", "Washers", "Which washer for this thread?", washers),
)
