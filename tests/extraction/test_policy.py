"""The policy against following it blindly, and against a search that prunes nothing."""

from random import Random

import pytest

from fastkit.extraction.acts import MISCARRIES
from fastkit.extraction.attempts import LEAST_CHANCE
from fastkit.extraction.options import Options
from fastkit.extraction.policy import Policy, State
from fastkit.extraction.resistance import Resistance
from fastkit.extraction.situation import Near, Situation

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
RUNS = 6000


def solver(situation, facts, kind=Policy, severities=6, treatments=2):
    """A policy and the state it starts from."""
    rows = facts(situation)
    resistance = Resistance(situation, rows, severities)
    policy = kind(Options(situation, rows, resistance), resistance, situation.spoil_min, treatments)
    none = policy.treatments.none
    return policy, State(situation.damage, none, situation.residue, 0, 0, 0.0, False)


def attempt(random, policy, state, choice, depth):
    """Pull once: what gives, from draws of our own; `depth` is the true severity, 0..1."""
    chain = choice.candidate.chain
    factor = policy.treatments.factor(state.treated)
    factor *= policy.attempts.own_effect.get(choice.move, 1.0)
    needed = policy.resistance.at(state.damage, factor)
    count = len(needed) - 1
    needs = needed[count if state.bound == count else int(depth * count)]
    slips = [link.capacity for link in chain if link.gives == "nothing"]
    limit = min(slips, default=float("inf"))
    held = {
        link: link.capacity * random.lognormvariate(0, link.spread)
        for link in chain
        if link.gives != "nothing"
    }
    first = min(held, key=held.get)
    if held[first] <= min(needs, limit):
        return first.gives, held[first], needed
    reach = policy.resistance.quantile(state.damage, factor, limit) if slips else 1.0
    beyond = needed[-1] >= limit if state.bound == count else depth > reach
    if slips and beyond:
        return "nothing", limit, needed
    failed = state.bound < count and random.random() < MISCARRIES
    return ("miscarried" if failed else "free"), limit, needed


def follow(random, policy, state):
    """Minutes and freedom of one run of the policy, severity drawn once."""
    depth, minutes = random.random(), 0.0
    for _ in range(60):
        choice = policy.best(state)
        if choice.move == "stop":
            return minutes + policy.stop_minutes, 0
        minutes += choice.minutes
        gives = ""
        if choice.candidate is None or not choice.candidate.chain:
            (branch,) = random.choices(
                choice.branches, [branch.share for branch in choice.branches]
            )
        else:
            names = {"drive": "worse-drive", "shank": "snapped", "thread": "torn"}
            names["extractor"] = "broken-extractor"
            gives, torque, needed = attempt(random, policy, state, choice, depth)
            name = names.get(gives, "nothing" if gives == "miscarried" else gives)
            alike = [item for item in choice.branches if item.name == name]
            if not alike:  # too rare to have a branch: the likeliest stands for it
                alike = [choice.branches[0]]
            if alike[0].state is not None:  # the bound that the torque reached has proved
                proved = sum(torque >= item for item in needed)
                bounds = [item.state.bound for item in alike]
                known = max([item for item in bounds if item <= proved], default=min(bounds))
                known = {"nothing": max(bounds), "miscarried": min(bounds)}.get(gives, known)
                alike = [item for item in alike if item.state.bound == known]
            (branch,) = random.choices(alike, [item.share for item in alike])
        minutes += branch.minutes
        if branch.state is None:
            return minutes, int(branch.name != "failed")
        state = branch.state
        if (
            branch.name == "nothing" and gives == "miscarried"
        ):  # taken a slice up, as the policy does
            floor = state.bound / policy.resistance.count
            depth = floor + random.random() * (1 - floor)
    raise AssertionError("the policy does not end")


@pytest.mark.parametrize("situation", CASES, ids=IDS)
def test_following_it_takes_what_it_says(situation, facts):
    """Runs with severities and strengths drawn anew: within 12 %, as bounds are whole slices."""
    policy, state = solver(situation, facts)
    random = Random(11)
    runs = [follow(random, policy, state) for _ in range(RUNS)]
    minutes = sum(run[0] for run in runs) / RUNS
    chance = sum(run[1] for run in runs) / RUNS

    assert policy.best(state).expected == pytest.approx(minutes, rel=0.12)
    assert policy.best(state).chance == pytest.approx(chance, abs=0.03)


def unpruned(policy, state, known):
    """Expected minutes from a state on: every move followed to its end, nothing left out."""
    if state not in known:
        attempts, damage, bound = policy.attempts, state.damage, state.bound
        totals = [policy.stop_minutes]
        moves = []
        for candidate, turn in [] if state.spoilt else policy.turns(state):
            again = turn.first_slip <= bound < turn.count or turn.chances[bound] < LEAST_CHANCE
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


@pytest.mark.parametrize("situation", CASES, ids=IDS)
def test_treatments_not_followed_would_save_little(situation, facts):
    """Following every treatment finds nothing more than 1 % better."""
    policy, state = solver(situation, facts, severities=3, treatments=2)
    whole, _ = solver(situation, facts, severities=3, treatments=2)
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
