"""Plans on a coarse grid, where many are compared: the same code, fewer states."""

from fastkit.extraction.solving import solve

COARSE = (4, 1)  # severities and treatments
TINY = 1e-6  # minutes: what floats round off


def expected(situation, facts, grid=COARSE):
    """Expected minutes of what is due first and the best move then, or of stopping."""
    solved = solve(situation, facts, *grid)
    took = {method.id: method.minutes for method in facts.methods}
    due = sum(took[gate] for gate, _ in solved.gates)
    return due + min([solved.policy.stop_minutes, *(item.expected for item in solved.roots)])
