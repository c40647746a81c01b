"""The short facts of an entry: what a person can use, not what only a plan reckons with."""

from fastkit.answers.short_facts import facts


def test_a_method_begins_with_what_is_done(store):
    """No share or count of the planner stands before the steps; what guards people is whole."""
    values, lists, _ = facts(store)["facts"]["method:weld-nut"]
    names = [name for name, *_ in lists]

    assert ["minutes"] == [name for name, *_ in values]
    assert ["steps", "cautions", "hazards"] == names[:3]
    assert [0, 0, 0] == [left_out for _, _, left_out in lists[:3]]


def test_a_drawn_mark_is_no_fact(store):
    held = facts(store)["facts"]

    assert not [name for _, lists, _ in held.values() for name, *_ in lists if "strokes" in name]
