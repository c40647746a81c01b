"""The order answer: shapes, sizes, stages, files, refusals."""

import pytest

from fastkit.answers.order import document, read_points, tightening_order
from fastkit.errors import Misuse


def test_stages_rise_and_end_with_a_round():
    """30, 70 and 100 % of the final torque (ASME PCC-1), then once round."""
    answer = tightening_order(8, "circle", torque_nm=100)

    assert [30, 70, 100, 100] == pytest.approx([stage.torque_nm for stage in answer.stages])
    assert answer.stages[0].order == answer.sequence == (1, 5, 3, 7, 2, 6, 4, 8)
    assert (1, 2, 3, 4, 5, 6, 7, 8) == answer.stages[-1].order


def test_loosening_is_the_reverse_in_small_steps():
    """The last tightened first, all a little before any comes out."""
    answer = tightening_order(10, "rectangle", size="5x2", loosen=True)

    assert answer.loosening == tuple(reversed(answer.sequence)) == answer.stages[0].order
    assert all(stage.torque_nm is None for stage in answer.stages)
    assert "reverse" in answer.why
    assert "reverse" not in tightening_order(10, "rectangle", size="5x2").why


@pytest.mark.parametrize(
    ("n", "shape", "size", "pattern"),
    [
        (8, "circle", None, "cross"),
        (7, "Circle ", None, "star"),
        (6, "line", None, "centre-outward"),
        (10, "rectangle", None, "centre-outward"),
        (12, "rectangle", "4x4", "centre-outward"),
        (12, "grid", "4x3", "centre-outward"),
        (12, "rings", "4+8", "ring-by-ring"),
        (4, "rectangle", "2x2", "cross"),
    ],
)
def test_shapes(n, shape, size, pattern):
    """Each shape has its pattern; the document holds what scripts rely on."""
    answer = tightening_order(n, shape, size=size)
    said = document(answer)

    assert pattern == answer.pattern
    assert sorted(said["sequence"]) == list(range(1, n + 1))
    assert all({"torque_nm", "order"} <= set(stage) for stage in said["stages"])


def test_a_file_of_points():
    """Comments and any separator; the name of the pattern follows from where they sit."""
    points = read_points("# cover\n0 0\n10, 0  # second\n10;10\n0\t10\n\n")

    assert ((0, 0), (10, 0), (10, 10), (0, 10)) == points
    assert "cross" == tightening_order(points=points).pattern


@pytest.mark.parametrize(
    ("n", "shape", "options", "said"),
    [
        (0, "circle", {}, "1 to 500"),
        (8, "spiral", {}, "circle, line"),
        (9, "rectangle", {}, "two rows"),
        (9, "rectangle", {"size": "5x2"}, "expected 10"),
        (9, "rectangle", {"size": "5by2"}, "5x2"),
        (8, "grid", {"size": "2x2x2"}, "5x2"),
        (8, "circle", {"size": "4x2"}, "no size"),
        (8, "rings", {}, "4+8"),
        (8, "circle", {"torque_nm": 0}, "torque must be"),
        (8, "circle", {"torque_nm": float("nan")}, "torque must be"),
        (None, None, {"points": ((0.0, 0.0), (0.0, 0.0))}, "one place"),
    ],
)
def test_refusals(n, shape, options, said):
    """One line that names what is expected."""
    with pytest.raises(Misuse) as refused:
        tightening_order(n, shape, **options)

    assert said in str(refused.value) and "\n" not in str(refused.value)


@pytest.mark.parametrize("text", ["", "1\n", "1 2 3", "a b", "nan 1", "1 1e300"])
def test_bad_files(text):
    """The line is named."""
    with pytest.raises(Misuse, match=r"line 1|the file must hold"):
        read_points(text)
