"""Situations with the rows they rest on, for the planner alone."""

from collections.abc import Callable

import pytest

from fastkit.answers.facts import gather
from fastkit.extraction.facts import Facts
from fastkit.extraction.situation import Situation


@pytest.fixture(scope="session")
def facts(store) -> Callable[[Situation], Facts]:
    """The rows for a situation, fetched once a thread, grade and drive."""
    kept: dict[tuple[object, ...], Facts] = {}

    def fetch(situation: Situation) -> Facts:
        key = situation.thread, situation.grade, situation.drive, situation.kind, situation.lack
        if key not in kept:
            kept[key] = gather(store, situation)
        return kept[key]

    return fetch
