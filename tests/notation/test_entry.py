"""Entry ids."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fastkit.notation.entry import KINDS, entry_id, split_id


@given(st.sampled_from(KINDS), st.text("abcXYZ0189.-/@#+:", min_size=1))
def test_an_id_comes_apart_as_it_was_made(kind, key):
    assert (kind, key) == split_id(entry_id(kind, key))


@pytest.mark.parametrize(
    "text", ["", ":", "thread:", "M8", "colour:red", "thread:M8 x 1", "http://x"]
)
def test_what_is_no_id(text):
    assert split_id(text) is None


def test_the_kind_may_be_shouted():
    assert ("thread", "M8x1.25") == split_id(" THREAD:M8x1.25 ")
