"""Tools and stock go out as TOML or CSV and come back the same."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fastkit.errors import Misuse
from fastkit.shopbook.exchange import content, parsed, written
from fastkit.shopbook.rows import Owned, Stocked

WORDS = st.text(st.characters(codec="utf-8"), max_size=40).map(
    lambda text: " ".join("".join(c for c in text if c.isprintable() or c.isspace()).split())
)
SOME = WORDS.map(lambda text: text or "x")
SIZE = st.none() | st.floats(0, 10_000)
TOOLS = st.builds(Owned, st.just(0), SOME, WORDS, SIZE, SIZE, st.none() | st.floats(0, 360), WORDS)
STOCK = st.builds(Stocked, st.just(0), SOME, st.integers(1, 1_000_000), WORDS)


@pytest.mark.parametrize("suffix", [".toml", ".csv"])
@pytest.mark.parametrize(("kind", "rows"), [(Owned, TOOLS), (Stocked, STOCK)])
def test_there_and_back(kind, rows, suffix):
    """Every row, every figure, every sign."""

    @given(st.lists(rows, max_size=8))
    def round_trip(shelf):
        assert shelf == parsed(kind, written(kind, shelf, suffix), suffix)

    round_trip()


@pytest.mark.parametrize(
    ("kind", "suffix", "text", "named"),
    [
        (Owned, ".csv", "tool,size\nratchet\n", "line 2: 1 cells"),
        (Owned, ".csv", "tool,colour\nratchet,red\n", "line 2: no column 'colour'"),
        (Owned, ".csv", "tool,above_mm\nratchet,-3\n", "above_mm '-3': expected 0 to 10000"),
        (Owned, ".csv", "tool,above_mm\nratchet,nan\n", "above_mm 'nan'"),
        (Owned, ".csv", 'tool\n"ratchet\n', "expected CSV"),
        (Owned, ".csv", "size\n3/8\n", "line 2: tool is missing"),
        (Owned, ".toml", "[[tool]]\ntool = 5\n", "[[tool]] number 1: tool '5': expected text"),
        (Owned, ".toml", "tool = 5\n", "expected [[tool]]"),
        (Owned, ".toml", "a = [", "expected TOML"),
        (Owned, ".toml", "[[stock]]\nwhat = 'x'\n", "expected [[tool]] and nothing else"),
        (Owned, ".toml", "a = " + "[" * 5000, "expected TOML"),
        (Owned, ".toml", "[[tool]]\ntool = 'x'\nswing_deg = true\n", "swing_deg 'True'"),
        (Stocked, ".csv", "what,amount\nM8,2.5\n", "amount '2.5': expected 1 to"),
        (Stocked, ".csv", "what,amount\nM8,1e400\n", "amount '1e400'"),
        (Stocked, ".csv", "what,amount\nM8,1000001\n", "expected 1 to 1000000"),
        (Stocked, ".toml", '[[stock]]\nwhat = "a\\u0000b"\n', "printable"),
    ],
)
def test_a_mistake_is_named_with_its_place(kind, suffix, text, named):
    with pytest.raises(Misuse) as refusal:
        parsed(kind, text, suffix)

    assert named in str(refusal.value)


def test_a_name_that_no_file_can_have():
    with pytest.raises(Misuse, match="expected a file"):
        content(Path("a\0b.toml"))
