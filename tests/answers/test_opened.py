"""What is done once a line has been opened: the line it is, not the one that runs past."""

import pytest

from fastkit.answers.opened import ANY_LINE, afterwards
from fastkit.extraction.situation import Near, Situation


@pytest.mark.parametrize(("mm", "own"), [(0.0, True), (5.0, True), (60.0, False)])
def test_a_line_that_only_runs_past_is_not_the_one_opened(store, mm, own):
    """A tube nut with brake fluid at it is a brake's; one 60 mm off says nothing of this one."""
    situation = Situation(kind="tube-nut", near=(Near("brake-fluid", mm),))
    said = " ".join(afterwards(store, situation, None))

    assert ("pedal" in said) == own
    assert (said == ANY_LINE) != own
