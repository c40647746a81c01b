"""Which axis or neighbour each number of a text measures."""

from collections.abc import Collection, Iterable, Sequence
from typing import NamedTuple

from fastkit.extraction.stubs import BELOW

AXIS_FIELD = {
    "above": "above_mm",
    "beside": "beside_mm",
    "swing": "swing_deg",
    "engage": "engage_mm",
    "stub": "stub_mm",
    "wasted": "wasted_pct",
    "side": "side_mm",
    "pocket": "pocket_mm",
}
_UNIT = {"swing": "deg", "wasted": "%"}
BROKE = "broke"  # it snapped, nobody says how deep
NEXT = 2  # words on from its label, at most, that a number may stand which is surely its own


class Amount(NamedTuple):
    """A number, or a length or angle said in words: (values, unit), unit "" where none is said."""

    at: int
    part: int
    values: tuple[float, ...]
    unit: str
    vague: bool
    words: str


class Label(NamedTuple):
    """Words that say what is measured: an axis, `away`, `across`, `deep`, or a neighbour."""

    at: int
    end: int  # the last word
    part: int
    name: str
    vague: bool
    words: str


class Measured(NamedTuple):
    """One field filled by a number."""

    field: str
    value: float | tuple[float, float] | str
    vague: bool
    words: str
    used: tuple[int, ...]  # places of the numbers


class Beside(NamedTuple):
    """A neighbour with its distance."""

    thing: str
    mm: float
    vague: bool
    words: str
    used: tuple[int, ...]


class Found(NamedTuple):
    """Fields and neighbours, each naming the numbers it has used."""

    fields: tuple[Measured, ...]
    near: tuple[Beside, ...]


def assign(
    amounts: Sequence[Amount],
    axes: Sequence[Label],
    things: Sequence[Label],
    distances: Sequence[Amount],
) -> Found:
    """
    Give every amount to what it measures.

    A pair belongs to a side opening or a pocket, an angle to the swing, a length to the neighbour
    or the axis in its own part: the axis after it ("90 mm above"), or the one before it where the
    part begins with the axis ("above 90"). `distances` are words such as "touching".
    """
    fields: list[Measured] = []
    free = list(amounts)
    mm = _told(amounts, things, distances)
    for part in sorted({amount.part for amount in amounts}):
        here = [amount for amount in free if amount.part == part]
        labels = [label for label in axes if label.part == part and label.name != BROKE]
        nears = [thing for thing in things if thing.part == part and thing.at not in mm]
        away = any(one.part == part for one in distances)
        found = [*_pairs(here, labels), *_pocket(here, labels, axes)]
        found += _stub(here, labels, nears, away)
        taken = {at for field in found for at in field.used}
        if any(field.field == AXIS_FIELD["stub"] for field in found):  # it has its number
            labels = [label for label in labels if label.name != "stub"]
        here = [amount for amount in here if amount.at not in taken]
        mm.update(_beside(here, labels, nears, [t for t in things if t.at not in mm]))
        taken |= {amount.at for amount in mm.values()}
        found += _along([amount for amount in here if amount.at not in taken], labels)
        fields += found
    if not any(field.field == AXIS_FIELD["stub"] for field in fields):
        fields += _sunk(free, axes, {at for field in fields for at in field.used})
    for distance in (one for one in distances if one not in mm.values()):
        earlier = [t for t in things if t.at not in mm and t.part <= distance.part]
        later = [t for t in things if t.at not in mm and t.part == distance.part]
        if thing := next(iter([*earlier[::-1], *later]), None):
            mm[thing.at] = distance
    near = [
        Beside(
            thing.name,
            mm[thing.at].values[0] if thing.at in mm else 0.0,
            mm[thing.at].vague if thing.at in mm else True,
            thing.words,
            (mm[thing.at].at,) if thing.at in mm else (),
        )
        for thing in things
    ]
    return Found(tuple(fields), tuple(near))


def _told(
    amounts: Sequence[Amount], things: Sequence[Label], distances: Sequence[Amount]
) -> dict[int, Amount]:
    """
    Return the distances said in words: right behind a neighbour, or in a part without a number.

    "Close to it" gives way to a number where there is one for every neighbour; "touching" does not.
    """
    found: dict[int, Amount] = {}
    for distance in distances:
        here = [thing for thing in things if thing.part == distance.part]
        numbers = sum(amount.part == distance.part for amount in amounts)
        short = numbers < len(here) or not distance.vague
        own = [thing for thing in here if thing.end + 1 == distance.at and short]
        if own or (len(here) == 1 and not numbers):
            at = (own or here)[0].at
            found[at] = min(found.get(at, distance), distance, key=lambda one: one.values)
    return found


def _pairs(here: Iterable[Amount], labels: Sequence[Label]) -> Iterable[Measured]:
    for amount in here:
        named = next((label for label in labels if label.name in ("side", "pocket")), None)
        if named and len(amount.values) == 2 and amount.unit in ("mm", ""):
            pair = (amount.values[0], amount.values[1])
            yield Measured(AXIS_FIELD[named.name], pair, False, amount.words, (amount.at,))


def _pocket(
    here: Sequence[Amount], labels: Sequence[Label], everywhere: Sequence[Label]
) -> Iterable[Measured]:
    """Yield the field of two single numbers that are across and deep, said or in that order."""
    single = _lengths(here)
    names = {label.name for label in labels}
    name = "side" if "side" in names else "pocket"
    if len(single) < 2 or not ({"side", "pocket"} & names or {"across", "deep"} <= names):
        return
    holes = [label for label in labels if label.name == "pocket"]
    inside = [a for a in single if any(hole.at < a.at < hole.end for hole in holes)]
    across = _of(single, labels, "across") or next(iter(inside), None)  # "down a 16 mm hole"
    deep = _of([a for a in single if a != across], labels, "deep")
    across = across or next(a for a in single if a != deep)
    deep = deep or next(a for a in single if a != across)
    if not names & {"side", "pocket"} and any(label.name == "side" for label in everywhere):
        name = "side"
    yield Measured(
        AXIS_FIELD[name],
        (across.values[0], deep.values[0]),
        False,
        f"{across.words} {deep.words}",
        (across.at, deep.at),
    )


def _of(amounts: Sequence[Amount], labels: Sequence[Label], name: str) -> Amount | None:
    """Return the amount nearest to the label, the one before it where two are as near."""
    for label in labels:
        if label.name == name and amounts:
            return min(amounts, key=lambda a: (abs(a.at - label.at), a.at > label.at))
    return None


def _stub(
    here: Sequence[Amount], labels: Sequence[Label], nears: Sequence[Label], away: bool
) -> Iterable[Measured]:
    """
    Yield the height of a stub: the number within its words or the next, at most one word off.

    Unless that stands nearer to a neighbour, which has no other number nor a word (`away`).
    """
    lengths = _lengths(here)
    for label in labels:
        if label.name == "stub" and lengths:
            mine = min(lengths, key=lambda a: (_gap(a, label), a.at))
            theirs = min((_gap(mine, thing) for thing in nears), default=NEXT + 1)
            free = away or len(lengths) > len(nears) or _gap(mine, label) < theirs
            if _gap(mine, label) <= NEXT and free:
                yield Measured(
                    AXIS_FIELD["stub"], mine.values[0], mine.vague, mine.words, (mine.at,)
                )


def _sunk(
    amounts: Iterable[Amount], axes: Sequence[Label], used: Collection[int]
) -> Iterable[Measured]:
    """Yield how deep a stub sits that is told apart from where it broke: `..., 20 mm deep`."""
    parts = {label.part for label in axes if label.name in ("deep", "pocket")}
    free = [a for a in _lengths(amounts) if a.part in parts and a.at not in used]
    if any(label.name in ("stub", BROKE) for label in axes) and len(free) == 1:
        found = free[0]
        yield Measured(AXIS_FIELD["stub"], found.values[0], found.vague, found.words, (found.at,))
        yield Measured("damage", BELOW, found.vague, found.words, ())


def _lengths(here: Iterable[Amount]) -> list[Amount]:
    """Return the single numbers that may be lengths."""
    return [amount for amount in here if len(amount.values) == 1 and amount.unit in ("mm", "")]


def _gap(amount: Amount, label: Label) -> int:
    """Return how many words on a number stands from those of a label; 0 within them."""
    return max(0, label.at - amount.at, amount.at - label.end)


def _beside(
    here: Sequence[Amount],
    labels: Sequence[Label],
    nears: Sequence[Label],
    waiting: Sequence[Label],
) -> dict[int, Amount]:
    """Return the distance of each neighbour of this part, or of the one waiting before it."""
    lengths = _lengths(here)
    if len(lengths) > len(nears):
        # "30 mm above, rubber hose 8 mm off" without its comma: the axis takes its own number
        own = [label for label in labels if label.name in ("above", "beside", "engage")]
        theirs = {
            max((a.at for a in lengths if 0 < label.at - a.at <= 2), default=-1) for label in own
        }
        lengths = [a for a in lengths if a.at not in theirs]
    found: dict[int, Amount] = {}
    for thing in nears:
        if lengths:
            nearest = min(lengths, key=lambda a: (_gap(a, thing), a.at))
            lengths.remove(nearest)
            found[thing.at] = nearest
    if not nears and lengths and all(label.name == "away" for label in labels):
        before = [thing for thing in waiting if thing.part < lengths[0].part]
        if before:
            found[before[-1].at] = lengths[0]
    return found


def _along(here: Sequence[Amount], labels: Sequence[Label]) -> Iterable[Measured]:
    """Yield the single numbers of this part with the axis that each measures."""
    open_axes = [label for label in labels if label.name in AXIS_FIELD]
    plain = [label for label in open_axes if not label.vague]
    first = min((label.at for label in plain), default=None)
    axis_first = first is not None and all(first < amount.at for amount in here)
    for amount in here:
        if len(amount.values) != 1:
            continue
        if amount.unit in ("deg", "%"):
            name = {"deg": "swing", "%": "wasted"}[amount.unit]
            said = next((label for label in open_axes if label.name == name), None)
            if name == "wasted" and said is None:
                continue
        else:
            fitting = [
                label
                for label in open_axes
                if label.name in ("above", "beside", "swing", "engage", "stub")
                and (amount.unit == "" or _UNIT.get(label.name, "mm") == amount.unit)
            ]
            said = _nearest(amount, fitting, axis_first)
            if said is None:
                continue
            name = said.name
        if said:
            open_axes.remove(said)
        vague = amount.vague or bool(said and said.vague)
        yield Measured(AXIS_FIELD[name], amount.values[0], vague, amount.words, (amount.at,))


def _nearest(amount: Amount, fitting: Sequence[Label], axis_first: bool) -> Label | None:
    plain = [label for label in fitting if not label.vague] or list(fitting)
    before = [label for label in plain if label.at < amount.at][::-1]
    after = [label for label in plain if label.at > amount.at]
    return next(iter([*before, *after] if axis_first else [*after, *before]), None)
