"""A row that was taken in is read again as it was, and proved by its checksum."""

from typing import get_args, get_origin, get_type_hints

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fastkit.shopbook import place, rows, store
from fastkit.shopbook.carve import carve
from fastkit.shopbook.rows import TABLES

TEXT = st.text(st.characters(codec="utf-8", exclude_characters="\0"), max_size=60)
# as a caller may give them: whole numbers for measures, nought with a sign, the smallest there is
MEASURE = st.floats(0, 1e6) | st.integers(0, 10**6) | st.sampled_from([-0.0, 5e-324, 1e15, 1e300])
BY_TYPE = {str: TEXT, float: MEASURE.filter(bool), int: st.integers(1, 2**40)}
FIXED = {"outcome": st.sampled_from(["ok", "nothing", "worse", "broke"])}


def any_of(kind):
    """A strategy for the rows of a kind."""

    def value(name, hint):
        if name in FIXED:
            return FIXED[name]
        if get_origin(hint) is not None or type(hint).__name__ == "UnionType":
            return st.none() | MEASURE if float in get_args(hint) else st.none() | TEXT
        return BY_TYPE[hint]

    hints = get_type_hints(kind)
    return st.builds(kind, **{name: value(name, hints[name]) for name in kind._fields})


@pytest.mark.parametrize("kind", TABLES)
def test_what_is_written_is_read(kind):
    """Through SQLite, and out of the raw bytes."""

    @settings(max_examples=25, suppress_health_check=[HealthCheck.too_slow])
    @given(st.lists(any_of(kind), min_size=1, max_size=3))
    def there_and_back(given_rows):
        place.file().unlink(missing_ok=True)
        with store.writing() as pen:
            added = [pen.add(row) for row in given_rows]
        held = store.read()

        assert None is held.trouble
        assert tuple(added) == held.rows
        assert [row[1:] for row in given_rows] == [row[1:] for row in held.rows]
        assert (added, 0) == carve(place.file().read_bytes())

    there_and_back()


def test_every_kind_has_a_table_and_a_row_of_it_can_be_made():
    assert set(TABLES) >= set(rows.SINCE)
    assert len(set(TABLES.values())) == len(TABLES)
