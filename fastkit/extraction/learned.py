"""
What the user's own attempts do to a chance: a beta prior about the model's, updated.

The beta distribution is the conjugate prior of a share of successes: with mean p and the weight of
n attempts, k successes in m further ones make the mean (n p + k) / (n + m).
"""

from collections.abc import Iterable

from fastkit.records.own import OwnTries

PRIOR_ATTEMPTS = 8.0  # what the model's chance weighs, in attempts of one's own; judgement


def seizure_class(seized: str) -> str:
    """Return the class that attempts are counted by: every threadlocker is one."""
    return seized.partition("-")[0]


def weighed(chance: float, tries: OwnTries | None) -> float:
    """
    Return a chance after one's own attempts.

    >>> round(weighed(0.5, OwnTries("better-bit", "worn", "rusted", 7, 9)), 3)
    0.647
    """
    if tries is None:
        return chance
    return (PRIOR_ATTEMPTS * chance + tries.ok) / (PRIOR_ATTEMPTS + tries.of)


def carried(chance: float, before: float, after: float) -> float:
    """
    Return a chance whose odds change as those of another did; 0 and 1 are facts and stay.

    >>> carried(0.5, 0.5, 0.75), carried(0.0, 0.5, 0.75)
    (0.75, 0.0)
    """
    if not (0 < chance < 1 and 0 < before < 1 and 0 < after < 1):
        return chance
    odds = chance / (1 - chance) * after / (1 - after) * (1 - before) / before
    return odds / (1 + odds)


def told(tries: Iterable[OwnTries], method: str, damage: str, seized: str) -> OwnTries | None:
    """Return what was noted of a method in a damage state and seizure class."""
    wanted = method, damage, seizure_class(seized)
    return next((row for row in tries if row[:3] == wanted), None)
