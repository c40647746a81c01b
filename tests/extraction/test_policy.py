"""The policy against a search that prunes nothing."""

from itertools import permutations

import pytest

from fastkit.extraction.attempts import LEAST_CHANCE, NOTHING, breaks, wrings
from fastkit.extraction.options import Options
from fastkit.extraction.policy import Policy, State, _state
from fastkit.extraction.resistance import SLICES, Resistance
from fastkit.extraction.situation import Near, Situation
from fastkit.extraction.solving import solve

CASES = [
    Situation(thread="M8x1.25", grade="8.8", drive="hex-6mm", damage="worn", seized="rusted"),
    Situation(
        thread="M8x1.25",
        grade="8.8",
        drive="hex-6mm",
        damage="stripped",
        seized="seized",
        into="cast-iron",
        above_mm=90.0,
        beside_mm=8.0,
        near=(Near("rubber", 20.0),),
    ),
    Situation(
        kind="bolt", thread="M10x1.5", grade="8.8", drive="AF-17mm", seized="rusted", no_heat=True
    ),
    Situation(
        thread="M6x1", grade="8.8", drive="T30", damage="snapped-flush", seized="threadlocked-high"
    ),
]
IDS = ["worn-socket", "no-room", "bolt", "stub"]


def solver(situation, facts, kind=Policy, severities=SLICES, treatments=2):
    """A policy and the state it starts from."""
    rows = facts(situation)
    resistance = Resistance(situation, rows, severities)
    policy = kind(Options(situation, rows, resistance), resistance, situation.spoil_min, treatments)
    none = policy.treatments.none
    return policy, State(situation.damage, none, situation.residue, 0, 0, NOTHING, False)


def unpruned(policy, state, known):
    """Expected minutes from a state on: every move followed to its end, nothing left out."""
    if state not in known:
        attempts, damage, bound = policy.attempts, state.damage, state.bound
        totals = [policy.stop_minutes]
        moves = []
        for candidate, turn in [] if state.spoilt else policy.turns(state):
            again = turn.first_slip <= bound < turn.count or turn.chances[bound] < LEAST_CHANCE
            again = again or wrings(breaks(turn.short(bound)[4], damage), turn.chances[bound])
            if again or (state.lost_extractor and candidate.method.grip == "extractor"):
                continue
            play = attempts.play(damage, bound, candidate, turn)
            moves.append((candidate.minutes, policy._turned_branches(state, play)))
        for way in policy.search.ways(policy._cell(state)):
            added = sum(share * minutes for _, share, minutes, _ in way.branches)
            moves.append((way.base - added, policy._way_branches(state, way)))
        for minutes, branches in moves:
            totals.append(
                minutes
                + sum(
                    branch.share
                    * (
                        branch.minutes
                        + (unpruned(policy, branch.state, known) if branch.state else 0.0)
                    )
                    for branch in branches
                )
            )
        known[state] = min(totals)
    return known[state]


@pytest.mark.parametrize("situation", CASES, ids=IDS)
def test_nothing_is_lost_by_what_is_not_followed(situation, facts):
    """The search that follows every move to its end finds exactly the same minutes."""
    policy, state = solver(situation, facts, severities=3, treatments=1)

    assert policy.value(state) == pytest.approx(unpruned(policy, state, {}), abs=1e-9)


SPINNING = Situation("nut", "M12x1.75", "8.8", "AF-18mm", "spinning", can=(), spoil_min=600.0)


@pytest.mark.parametrize("beside", [None, 30.0, 15.0])
@pytest.mark.parametrize("far_side", ["blind", "reachable"])
def test_ways_by_judgement_are_tried_in_the_best_of_all_orders(beside, far_side, facts):
    """Lifted, held, split, parted, handed on: every order of them, each at its data's odds."""
    situation = SPINNING._replace(beside_mm=beside, far_side=far_side)
    policy, state = solver(situation, facts)
    found = [row for row in policy.options.open("spinning", "none", 0) if row.method.kind == "part"]
    ways = [row for row in found if row.method.leads_to is None]
    assert len(ways) >= 4

    def takes(order):
        if not order:
            return situation.spoil_min + 60
        (method, _, _, _, _, minutes, _), *rest = order
        then = takes(()) if method.id == "machine-shop" else takes(rest)
        spoils = method.spoils * situation.spoil_min
        return minutes + method.chance * spoils + (1 - method.chance) * then

    orders = [some for number in range(len(ways) + 1) for some in permutations(ways, number)]
    assert policy.value(state) <= min(map(takes, orders)) + 1e-9


def test_what_was_drilled_out_in_vain_is_lifted_no_more(facts):
    """Nothing is left to hold then: only what takes longer than the drill."""
    situation = Situation("bolt", "M8x1.25", "8.8", "AF-13mm", seized="rusted")
    policy, state = solver(situation._replace(tried=("drill-out-retap",)), facts)
    drilled = next(row for row in policy.choices(state) if row.move == "drill-out-retap")
    after = next(row.state for row in drilled.branches if row.name == "failed")

    assert {row.move for row in policy.choices(after)} == {"machine-shop"}


@pytest.mark.parametrize("situation", CASES, ids=IDS)
def test_what_is_kept_is_what_its_choice_is_worth(situation, facts):
    """Every value found on the way is that of the move picked there, followed on."""
    policy, state = solver(situation, facts)
    policy.choices(state)
    kept = [
        (_state(cell.place, bound), value)
        for cell in list(policy.search.cells.values())
        for bound, value in enumerate(cell.values)
        if value is not None
    ]
    assert len(kept) > 20
    for found, value in kept:
        assert policy.best(found).expected == pytest.approx(value, abs=1e-9)


@pytest.mark.parametrize("situation", CASES, ids=IDS)
def test_treatments_not_followed_would_save_little(situation, facts):
    """Following every treatment finds nothing more than 1 % better."""
    policy, state = solver(situation, facts)
    whole, _ = solver(situation, facts)
    whole.treatments.followed = lambda *_: frozenset(whole.treatments.index)

    assert whole.value(state) <= policy.value(state) + 1e-9
    assert policy.value(state) <= whole.value(state) * 1.01


def test_an_attempt_that_failed_bounds_the_severity(facts):
    """A pull that moved nothing rules out what it would have moved; the next is stronger."""
    policy, state = solver(CASES[2], facts)
    pulls = [
        choice
        for choice in policy.choices(state)
        if choice.branches[0].share >= LEAST_CHANCE
        and any(branch.name == "nothing" for branch in choice.branches)
    ]
    assert pulls
    for choice in pulls:
        slipped = [branch.state for branch in choice.branches if branch.name == "nothing"]
        after = max(slipped, key=lambda item: item.bound)
        assert after.bound > state.bound
        if len(slipped) < 2:
            continue  # it can only have gone wrong by mishap: worth another try
        again = [item for item in policy.choices(after) if item.candidate == choice.candidate]
        assert all(item.branches[0].share < 1e-3 for item in again)


def test_what_snaps_below_the_face_is_no_slip(facts):
    """It costs what a snapped shank costs, and only what takes longer than a turn is left then."""
    situation = Situation("bolt", "M4x0.7", "4.8", damage="snapped-below", seized="rusted")
    situation = situation._replace(wasted_pct=40.0)
    solved = solve(situation, facts(situation))
    drilled = next(row for row in solved.roots if row.move == "straight-extractor")
    snapped = [branch for branch in drilled.branches if branch.name == "snapped"]

    assert snapped and all(branch.minutes > 0 for branch in snapped)
    for branch in snapped:
        then = solved.policy.choices(branch.state)
        assert then and not any(row.candidate and row.candidate.chain for row in then)
