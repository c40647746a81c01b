"""What attempts leave behind and what its coming out asks for: heated neighbours, parts renewed."""

from collections.abc import Iterable, Iterator

from fastkit.extraction.facts import Facts
from fastkit.extraction.rules import HEATS, all_hold, view
from fastkit.extraction.situation import Near, Situation
from fastkit.records.hazard import Clearance
from fastkit.records.method import Renewal


def given_off(situation: Situation, facts: Facts) -> frozenset[str]:
    """Return the hazards of what was tried."""
    return frozenset(row.hazard for row in facts.method_hazards if row.method in situation.tried)


def done_too_near(situation: Situation, facts: Facts) -> tuple[str, ...]:
    """Return what must be minded of attempts that were made too near a neighbour."""
    return tuple(dict.fromkeys(str(row.done) for _, row in _too_near(situation, facts)))


def was_heated(situation: Situation, facts: Facts) -> tuple[str, ...]:
    """Return the parts beside it that a flame or heat came too near to."""
    parts = {row.id: row.part for row in facts.neighbours}
    hot = (near for near, row in _too_near(situation, facts) if row.hazard in HEATS)
    return tuple(dict.fromkeys(parts[near.thing] for near in hot))


def _too_near(situation: Situation, facts: Facts) -> Iterator[tuple[Near, Clearance]]:
    """Yield each neighbour that an attempt was made too near to, and what it then asks for."""
    gave = given_off(situation, facts)
    rows = [row for row in facts.clearances if row.done and row.hazard in gave]
    for near in situation.near:
        for row in rows:
            # where nothing is forbidden, what asks for a shield has been near enough
            if row.neighbour == near.thing and near.mm < (row.forbid_mm or row.shield_mm):
                yield near, row


def not_put_back(
    rows: Iterable[Renewal], situation: Situation, offered: Iterable[str]
) -> tuple[str, ...]:
    """
    Return what is renewed once it is out, and why: each rule all of whose rows hold.

    `offered` are the methods that it begins with.
    """
    seen = view(situation, 0.0, None, offered=frozenset(offered))
    rules: dict[str, list[Renewal]] = {}
    for row in rows:
        rules.setdefault(row.rule, []).append(row)
    found = (them[0].renew for them in rules.values() if all_hold(them, seen))
    return tuple(dict.fromkeys(found))
