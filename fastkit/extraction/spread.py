"""
Minutes as a distribution: sums by convolution, no chance in it, and how long a plan may take.

A spread is the share of each half minute from 0 on. A time between two of them is shared between
both so that the mean is kept.
"""

from collections.abc import Iterable
from typing import NamedTuple

from fastkit.extraction.policy import Choice, State
from fastkit.extraction.solving import Solved, useful_first

STEP_MIN = 0.5
NEGLIGIBLE = 1e-12  # a share that no sum of ours needs
ONE = 1 << 44  # the whole of a spread, as a whole number
SLOT_BYTES = 12  # holds ONE squared, and the rounding of ten thousand shares

Spread = tuple[float, ...]


class Course(NamedTuple):
    """How a plan goes when its best choices are followed to the end."""

    minutes: Spread  # at work, from the first gate to the fastener free or given up
    price: float  # what spoiled and handed-on parts cost besides [min], mean
    freed: float  # share of the ends in which the fastener is out


def exactly(minutes: float) -> Spread:
    """
    Return the spread of a time that is known [min].

    >>> exactly(1.0), exactly(0.25)
    ((0.0, 0.0, 1.0), (0.5, 0.5))
    """
    steps = minutes / STEP_MIN
    whole = int(steps)
    over = steps - whole
    return (*(0.0,) * whole, 1 - over, over) if over else (*(0.0,) * whole, 1.0)


def likely(quick: float, usual: float, slow: float) -> Spread:
    """
    Return the triangular spread of a time between quick and slow, mostly usual [min].

    Raises:
        ValueError: When they are not in that order, or below 0.

    References:
        Triangular distribution, as for three-point estimates in project planning.
    """
    if not 0 <= quick <= usual <= slow:
        raise ValueError(f"quick {quick}, usual {usual}, slow {slow}: must rise from 0")

    def above(at: float) -> float:
        """The integral from `at` up of the share that is still above: gives each step its part."""
        if at <= quick:
            return (quick + usual + slow) / 3 - at
        if at >= slow:
            return 0.0
        if at >= usual:
            return (slow - at) ** 3 / (3 * (slow - quick) * (slow - usual))
        below = (at - quick) ** 3 / (3 * (slow - quick) * (usual - quick))
        return (quick + usual + slow) / 3 - at + below

    # a hat function of one step to either side gives each half minute its share, the mean kept
    last = int(slow / STEP_MIN) + 2
    heights = [above(STEP_MIN * i) for i in range(-1, last + 1)]
    shares = [
        max(0.0, (heights[i - 1] - 2 * heights[i] + heights[i + 1]) / STEP_MIN)
        for i in range(1, last + 1)
    ]
    return _trimmed(shares)


def together(one: Spread, other: Spread) -> Spread:
    """
    Return the spread of both times one after the other: their convolution.

    Each is packed into one whole number whose product holds all the sums, slot by slot (Kronecker
    substitution); a share is rounded to 2^-44 on the way.
    """
    slots = len(one) + len(other) - 1
    product = (_packed(one) * _packed(other)).to_bytes(SLOT_BYTES * slots, "little")
    return _trimmed(
        [
            int.from_bytes(product[at : at + SLOT_BYTES], "little") / ONE**2
            for at in range(0, len(product), SLOT_BYTES)
        ]
    )


def _packed(spread: Spread) -> int:
    slots = (round(share * ONE).to_bytes(SLOT_BYTES, "little") for share in spread)
    return int.from_bytes(b"".join(slots), "little")


def times(one: Spread, n: int) -> Spread:
    """Return the spread of n such times one after the other, n from 0 up."""
    total, doubled = exactly(0.0), one
    while n:
        if n & 1:
            total = together(total, doubled)
        n >>= 1
        if n:
            doubled = together(doubled, doubled)
    return total


def mixed(parts: Iterable[tuple[float, Spread]]) -> Spread:
    """Return the spread that is each of the parts with its share."""
    total: list[float] = []
    for share, spread in parts:
        total += [0.0] * (len(spread) - len(total))
        for i, part in enumerate(spread):
            total[i] += share * part
    return tuple(total)


def mean(spread: Spread) -> float:
    """Return the mean [min]."""
    return STEP_MIN * sum(i * share for i, share in enumerate(spread)) / sum(spread)


def quantile(spread: Spread, share: float) -> float:
    """Return the least time [min] within which at least that share ends."""
    wanted, sum_ = share * sum(spread) - 1e-9, 0.0
    for i, part in enumerate(spread):
        sum_ += part
        if sum_ >= wanted:
            return STEP_MIN * i
    return STEP_MIN * (len(spread) - 1)


def course(solved: Solved) -> Course:
    """Return how long the plan takes, what it costs besides, and how often it frees the part."""
    first = useful_first(solved)
    if first is None:
        return Course(exactly(0.0), solved.policy.stop_minutes, 0.0)
    known: dict[State, Course] = {}

    def follow(choice: Choice) -> Course:
        parts, price, freed = [], 0.0, 0.0
        if choice.move == "stop":
            return Course(exactly(0.0), choice.expected, 0.0)
        for branch in choice.branches:
            if branch.state is None:
                after = Course(exactly(0.0), 0.0, float(branch.name != "failed"))
            else:
                if branch.state not in known:
                    known[branch.state] = follow(solved.policy.best(branch.state))
                after = known[branch.state]
            parts.append((branch.share, after.minutes))
            price += branch.share * (branch.minutes + after.price)
            freed += branch.share * after.freed
        return Course(together(exactly(choice.minutes), mixed(parts)), price, freed)

    return follow(first)


def _trimmed(shares: list[float]) -> Spread:
    """Return the shares without a tail that no one would miss, summing to one."""
    last = len(shares)
    while last > 1 and shares[last - 1] < NEGLIGIBLE:
        last -= 1
    sum_ = sum(shares[:last])
    return tuple(share / sum_ for share in shares[:last])
