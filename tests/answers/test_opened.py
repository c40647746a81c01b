"""What is done once a line has been opened: the line it is, not the one that runs past."""

import pytest

from fastkit.answers.extract import extract
from fastkit.answers.opened import ANY_LINE


@pytest.mark.parametrize(("mm", "own"), [(0.0, True), (5.0, True), (60.0, False)])
def test_a_line_that_only_runs_past_is_not_the_one_opened(store, mm, own):
    """A tube nut with brake fluid at it is a brake's; one 60 mm off says nothing of this one."""
    answer = extract(kind="tube-nut", thread="M10x1", near=(f"brake-fluid:{mm:g}",), store=store)
    said = " ".join(answer.afterwards)

    assert ("pedal" in said) == own
    assert (said == ANY_LINE) != own
