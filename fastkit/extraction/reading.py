"""What reading words comes to: fields, vague readings, what is left; which state is the worse."""

from collections.abc import Mapping
from typing import NamedTuple

# the worst state said is the one the fastener is in
DAMAGE_ORDER = (
    *("intact", "worn", "rounded", "stripped", "spinning", "nut-spinning", "snapped-proud"),
    *("snapped-flush", "snapped-below", "tool-stuck", "extractor-broken"),
)
# the more particular word wins: a rusted bolt that is also "stuck" is a rusted bolt
SEIZED_ORDER = (
    *("none", "seized", "painted", "rusted", "threadlocked-low", "threadlocked-medium"),
    *("threadlocked-high", "galled"),
)

Field = str | float | bool | tuple[object, ...]


class Taken(NamedTuple):
    """A field filled from vague words: shown as an assumption."""

    what: str
    value: Field
    words: str


class Reading(NamedTuple):
    """
    What the words say: fields by the situation's names, vague readings, words left over.

    `system` is a drive system that was named without a size ("cross recess"); `loose` are
    neighbours named as what comes away (a hose, a gas strut), `piped` as a line of pipe, `sealed`
    as what is shut for good; `carried` are those that the thing has on it by its name; `meant` are
    methods that are named and were not tried.
    """

    given: Mapping[str, Field]
    taken: tuple[Taken, ...]
    left: tuple[str, ...]
    system: str | None
    loose: tuple[str, ...] = ()
    carried: tuple[str, ...] = ()
    meant: tuple[str, ...] = ()
    piped: tuple[str, ...] = ()
    sealed: tuple[str, ...] = ()
