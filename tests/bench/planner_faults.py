"""
Does each invariant of the plan have a test that sees it broken?

Run by hand from the top of the tree: `python -m tests.bench.planner_faults [WORD…]`. Plants one
fault at a time in the planner, in a process of its own, runs the test that is named beside it and
says whether that test fails; with words, only the faults whose names hold one. Each test is also
run without a fault. Exits with the number of faults that nobody saw.
"""

import subprocess
import sys
from collections.abc import Callable
from itertools import count
from typing import Any, NamedTuple

PLANT = "--plant="
INVARIANTS = "tests/extraction/test_plan_invariants.py::"


class Fault(NamedTuple):
    """An invariant, the test that guards it, and what breaks it."""

    name: str
    test: str
    plant: Callable[[], None]


def no_margin_checked() -> None:
    """Every tool fits everywhere."""
    from fastkit.extraction import rooms

    real = rooms.fit
    rooms.fit = lambda envelope, access: real(envelope, access)._replace(short=())


def no_neighbour_checked() -> None:
    """Nothing is ever too near."""
    from fastkit.extraction.rules import Neighbourhood

    Neighbourhood.check = lambda *_: (None, ())


def room_taken_for_want() -> None:
    """A free axis counts as a narrow one."""
    from fastkit.extraction import rooms

    real = rooms.fit
    rooms.fit = lambda envelope, access: real(
        envelope, access._replace(above_mm=access.above_mm or 20.0)
    )


def neighbour_gone_forbids() -> None:
    """Where nothing stands beside it, nothing may be struck, heated or drilled."""
    from fastkit.extraction.result import Reason
    from fastkit.extraction.rules import Bar, Neighbourhood

    real = Neighbourhood.check

    def check(self: Any, method: str, near: Any) -> Any:
        if not near and self.hazards.get(method):
            return Bar(Reason("veto", ("alone", "alone")), None), ()
        return real(self, method, near)

    Neighbourhood.check = check


def worn_holds_more() -> None:
    """A sound drive holds less than a worn one, and cannot be handled as if it were worn."""
    from fastkit.extraction import chain
    from fastkit.extraction.search import Search

    real = chain.drive_state

    def state(damage: str, facts: Any) -> Any:
        row = real(damage, facts)
        return row._replace(share=0.05) if damage == "intact" else row

    def start(self: Any, cell: Any, bound: int) -> None:
        self.value(cell, bound)

    chain.drive_state, Search.start = state, start


def slowest_tool_taken() -> None:
    """Of the tools of a method the one that takes longest."""
    from fastkit.extraction.options import Options

    def slowest(_: Any, found: Any) -> Any:
        return [max(found, key=lambda item: item.minutes)] if found else []

    Options._unbeaten = slowest


def residue_forgotten() -> None:
    """No rule on a residue holds."""
    from fastkit.extraction.rules import Vetoes

    real = Vetoes.settle

    def settle(self: Any, seen: Any) -> Any:
        of_residue = sum(bit for bit, _ in self._conditions["residue"])
        return {
            method: tuple(row for row in rows if not row.state & of_residue)
            for method, rows in real(self, seen).items()
        }

    Vetoes.settle = settle


def chlorine_covered() -> None:
    """What is laid over a chlorinated residue takes its place."""
    from fastkit.extraction import policy, search

    def wetted(residue: str, left: str | None) -> str:
        return left or residue

    search.wetted = policy.wetted = wetted


def failure_forgotten() -> None:
    """What has failed says nothing of what is tried next."""
    from fastkit.extraction.acts import Turn

    real = Turn._from
    Turn._from = lambda self, bound: real(self, 0)


def state_comes_back() -> None:
    """An attempt that moves nothing leaves all as it was, known severity too."""
    from fastkit.extraction.policy import Policy

    real = Policy._turned_branches

    def branches(self: Any, state: Any, play: Any) -> Any:
        return tuple(
            row._replace(state=state) if row.name == "nothing" else row
            for row in real(self, state, play)
        )

    Policy._turned_branches = branches


def outcome_lost() -> None:
    """The last way in which an attempt fails is left out."""
    from fastkit.extraction.acts import Turn

    real = Turn._from

    def lost(self: Any, bound: int) -> Any:
        able, failures = real(self, bound)
        return able, failures[:-1]

    Turn._from = lost


def dice_thrown() -> None:
    """Each asking finds other minutes."""
    from fastkit.extraction.attempts import Attempts

    real, tick = Attempts.play, count(1)

    def play(self: Any, *given: Any) -> Any:
        got = real(self, *given)
        return got._replace(base=got.base + next(tick) % 7)

    Attempts.play = play


def passed_over() -> None:
    """The first method that a rule forbids is not spoken of."""
    from fastkit.extraction import plan

    real = plan._ruled_out
    plan._ruled_out = lambda *given: real(*given)[1:]


def reason_without_words() -> None:
    """A reason is a code, no more."""
    from fastkit.extraction import plan

    real = plan._ruled_out
    plan._ruled_out = lambda *given: tuple(
        row._replace(because=row.because._replace(values=()), short_by=None) for row in real(*given)
    )


def tree_of_another() -> None:
    """The tree draws the second best."""
    from fastkit.extraction import tree

    real = tree.settled

    def last(solved: Any) -> Any:
        found = real(solved)
        return found._replace(useful=found.useful[::-1])

    tree.settled = last


def picked_out_anyway() -> None:
    """The tree cleans a recess that the plan goes round."""
    from fastkit.extraction import tree

    tree.settled = lambda solved: (solved, solved.roots, (), True)


def shorter_ways_past() -> None:
    """What has been tried in vain rules out every way that takes no longer."""
    from fastkit.extraction.attempts import Attempts

    real = Attempts._past
    Attempts._past = lambda self, method, _: real(self, method, True)


def gates_open() -> None:
    """Nothing is due before the first pull."""
    from fastkit.extraction import solving

    solving.due = lambda *_: ()


def bonds_too_weak() -> None:
    """The planner takes bonds and friction at half of what the data say."""
    from fastkit.extraction.resistance import Resistance

    real = Resistance._required
    Resistance._required = lambda *given: real(*given) / 2


def branch_cut() -> None:
    """The search gives up on a move whose failures cost anything."""
    from fastkit.extraction.search import Search

    Search._below = lambda self, total, leasts, best: best


FAULTS = (
    Fault(
        "no negative margin",
        INVARIANTS + "test_what_is_offered_fits_and_is_let_be",
        no_margin_checked,
    ),
    Fault(
        "no forbidding neighbour",
        INVARIANTS + "test_what_is_offered_fits_and_is_let_be",
        no_neighbour_checked,
    ),
    Fault("more room", INVARIANTS + "test_more_room_never_costs_time", room_taken_for_want),
    Fault(
        "fewer neighbours",
        INVARIANTS + "test_a_neighbour_less_never_costs_time",
        neighbour_gone_forbids,
    ),
    Fault("less damage", INVARIANTS + "test_less_damage_never_takes_longer", worn_holds_more),
    Fault("further tool", INVARIANTS + "test_a_further_tool_never_costs_time", slowest_tool_taken),
    Fault("flammable residue", INVARIANTS + "test_nothing_hot_on_a_residue", residue_forgotten),
    Fault(
        "chlorinated residue",
        INVARIANTS + "test_a_chlorinated_residue_is_never_covered_up",
        chlorine_covered,
    ),
    Fault(
        "failure evidence", INVARIANTS + "test_failure_never_helps_a_weaker_tool", failure_forgotten
    ),
    Fault("the plan ends", INVARIANTS + "test_the_plan_ends", state_comes_back),
    Fault("chances sum to one", INVARIANTS + "test_chances_sum_to_one", outcome_lost),
    Fault("same input, same plan", INVARIANTS + "test_same_input_same_plan", dice_thrown),
    Fault("every method answered", INVARIANTS + "test_every_method_is_answered", passed_over),
    Fault(
        "reasons for what is out",
        INVARIANTS + "test_every_method_is_answered",
        reason_without_words,
    ),
    Fault(
        "tree agrees", "tests/extraction/test_tree.py::test_agrees_with_the_plan", tree_of_another
    ),
    Fault(
        "tree agrees at a recess",
        "tests/extraction/test_tree.py::test_agrees_with_the_plan[filled]",
        picked_out_anyway,
    ),
    Fault(
        "the best of all orders",
        "tests/extraction/test_policy.py::"
        "test_ways_by_judgement_are_tried_in_the_best_of_all_orders[blind-None]",
        shorter_ways_past,
    ),
    Fault(
        "injury is a veto",
        "tests/extraction/test_changes.py::test_plan_changes_as_a_mechanic_expects[spring-behind]",
        gates_open,
    ),
    Fault(
        "drawn fasteners agree",
        "tests/extraction/test_twin.py::test_drawn_fasteners_take_what_the_plan_says[stripped]",
        bonds_too_weak,
    ),
    Fault(
        "the search loses nothing",
        "tests/extraction/test_policy.py::test_nothing_is_lost_by_what_is_not_followed",
        branch_cut,
    ),
)


class Planter:
    """Plants a fault once the test tools are up; a failing case is not shrunk: it has failed."""

    def __init__(self, name: str) -> None:
        self.name = name

    def pytest_configure(self) -> None:
        """Plant it."""
        from hypothesis import Phase, settings

        settings.register_profile("seen", phases=(Phase.generate,))
        settings.load_profile("seen")
        for fault in FAULTS:
            if fault.name == self.name:
                fault.plant()


def run(test: str, plant: str = "") -> int:
    """Run one test in a process of its own, with a fault where one is named; return its status."""
    command = [sys.executable, "-m", "tests.bench.planner_faults", PLANT + plant, test]
    return subprocess.run(command, capture_output=True).returncode


def planted(name: str, test: str) -> int:
    """Run the test in this process with a fault."""
    import pytest

    options = ["-q", "-x", "-p", "no:randomly", "--hypothesis-seed=1", test]
    return int(pytest.main(options, plugins=[Planter(name)]))


def main(words: list[str]) -> int:
    """Print what was seen and what was not; return how many were not."""
    missed = 0
    sound: dict[str, bool] = {}
    for fault in FAULTS:
        if words and not any(word in fault.name for word in words):
            continue
        if fault.test not in sound:
            sound[fault.test] = run(fault.test) == 0
        seen = run(fault.test, fault.name) == 1
        missed += not (seen and sound[fault.test])
        said = "seen" if seen else "NOT SEEN"
        said += "" if sound[fault.test] else ", but the test fails without it too"
        print(f"{fault.name:26} {said:10} {fault.test.rpartition('::')[2]}", flush=True)
    return missed


if __name__ == "__main__":
    first, *rest = sys.argv[1:] or [""]
    if first.startswith(PLANT):
        sys.exit(planted(first.removeprefix(PLANT), *rest))
    sys.exit(main(sys.argv[1:]))
