"""
The plan's minutes and chance against fasteners drawn one by one (twin.py), in every damage state.

The plan takes severity in slices and an attempt's outcomes at whole slices; the twin does not.
What is left between them is that.
"""

from math import sqrt
from statistics import mean, stdev

import pytest

from fastkit.extraction.options import Options
from fastkit.extraction.resistance import Resistance
from fastkit.extraction.situation import Situation
from fastkit.extraction.start import start
from tests.extraction.twin import Run, Twin

RUNS = 2000
SLICES = 0.08  # of the minutes: what slices may cost
M8 = Situation(thread="M8x1.25", grade="8.8", drive="hex-6mm", seized="rusted")
BOLT = M8._replace(kind="bolt", drive="AF-13mm")
CASES = {
    **{
        damage: M8._replace(damage=damage)
        for damage in (
            *("intact", "worn", "stripped", "tool-stuck", "extractor-broken", "snapped-proud"),
            *("snapped-flush", "snapped-below", "spinning"),
        )
    },
    **{damage: BOLT._replace(damage=damage) for damage in ("rounded", "nut-spinning")},
    "bolt": BOLT,
    "soaked-and-struck": M8._replace(
        damage="stripped", seized="seized", tried=("soak-penetrant", "shock-tap")
    ),
    "locked": M8._replace(damage="worn", seized="threadlocked-high"),
    "galled": BOLT._replace(seized="galled", far_side="reachable"),
    "no-room-for-force": M8._replace(
        damage="snapped-proud", seized="seized", lack=("welder", "stud-extractor"), far_side="blind"
    ),
    "into-an-insert": M8._replace(seized="seized", into="aluminium", insert=True),
    "cast-iron-no-flame": BOLT._replace(seized="seized", into="cast-iron", no_heat=True),
}
TREATED: dict[str, float] = {}


@pytest.mark.parametrize("name", CASES)
def test_drawn_fasteners_take_what_the_plan_says(name, facts):
    """Minutes within the slices' share and three standard errors, the chance within 0.02."""
    situation, rows = CASES[name], facts(CASES[name])
    resistance = Resistance(situation, rows)
    state, policy = start(situation, rows, Options(situation, rows, resistance), resistance, 2)
    policy.start(state)
    best, twin = policy.best(state), Twin(situation, rows, policy, 11)
    runs: list[Run] = [twin.run(state) for _ in range(RUNS)]
    minutes = [run.minutes for run in runs]
    error = 3 * stdev(minutes) / sqrt(RUNS)
    TREATED[name] = mean(run.treated > 0 for run in runs)

    assert abs(mean(minutes) - best.expected) <= SLICES * best.expected + error
    assert mean(run.free for run in runs) == pytest.approx(best.chance, abs=0.02)


def test_the_runs_pass_through_treatments():
    """What was drawn above soaks, strikes, heats on the way in several of the cases."""
    if len(TREATED) == len(CASES):  # all of them were drawn in this process
        assert sum(share > 0.1 for share in TREATED.values()) >= 5
