"""The rows that a replacement is chosen from name what the other tables hold."""

import pytest

from fastkit.answers.replace import NUT_KINDS, WAYS
from fastkit.answers.replace_buy import NUT_WORDS, NUTS
from fastkit.answers.replace_special import POINTS
from fastkit.answers.replace_special import WAYS as WORDS_OF_WAYS
from fastkit.answers.replace_words import PASTES
from fastkit.hardware.length import RULES
from fastkit.records.compound import Compound
from fastkit.records.finish import Finish
from fastkit.records.grade import Grade
from fastkit.records.head import Head
from fastkit.records.replacement import InchLength, Lock, Make, Offer, PartWord, ReuseRule
from fastkit.records.stuff import Engagement
from fastkit.reference.lookup import many


def test_offers_have_heads_and_classes(store):
    """Every head offered is held in some size, every class exists."""
    grades = {row.id for row in many(store, Grade)}
    standards = {row.standard for row in many(store, Head)}
    for row in many(store, Offer):
        assert row.standard in standards
        assert set(row.grades.split()) <= grades, row.standard
    for make in many(store, Make):
        assert set(make.grades.split()) <= grades, make.id


def test_no_high_strength_is_electroplated_unsaid(store):
    """12.9 and its inch like stand under no plated finish."""
    for make in many(store, Make):
        assert not (make.plated and {"12.9", "A574"} & set(make.grades.split())), make.id


def test_words_say_what_the_rest_understands(store):
    """Each word's value is a form, a finish, a kind, a level or a flag that something reads."""
    forms = {row.form for row in many(store, Offer)}
    finishes = {row.id for row in many(store, Finish)} | {"brass"}
    kinds = {*WAYS, *NUT_KINDS, "ground"}
    for row in many(store, PartWord):
        if row.what == "form":
            assert row.value in forms
        if row.what == "finish":
            assert row.value in finishes
        if row.what == "kind":
            assert row.value in kinds
        if row.what == "point":
            assert row.value in POINTS
        if row.what == "level":
            assert row.value in {"1", "2", "3", "4"}
        if row.what == "heat":
            assert 40 < float(row.value) < 1300
        assert row.words == row.words.lower()


def test_every_verdict_can_come(store):
    """A cue names something that a word can say."""
    said = {(row.what, row.value) for row in many(store, PartWord)}
    for rule in many(store, ReuseRule):
        what, _, value = rule.cue.partition(":")
        assert rule.cue in {"-", "safety:*"} or (what, value) in said, rule.id


def test_locks_and_pastes_are_known(store):
    """What the code chooses from is in the tables."""
    locks = {row.id for row in many(store, Lock)}
    compounds = {row.id for row in many(store, Compound)}

    assert set(NUTS) <= locks
    assert set(NUTS.values()) <= set(NUT_WORDS)
    assert set(PASTES) - {"none", "oil", "maker"} <= compounds
    assert set(WAYS) == set(WORDS_OF_WAYS)


def test_rules_of_engagement_are_held(store):
    """Each body's rule stands in the table."""
    bodies = {row.body for row in many(store, Engagement)}

    assert {name for names in RULES.values() for name in names} <= bodies


@pytest.mark.parametrize("row_type", [InchLength])
def test_inch_lengths_are_their_names(store, row_type):
    """`1-1/2in` is 38.1 mm."""
    for row in many(store, row_type):
        whole, _, part = row.id.removesuffix("in").rpartition("-")
        above, _, below = part.partition("/")
        inches = float(whole or 0) + float(above) / float(below or 1)
        assert row.length_mm == pytest.approx(25.4 * inches)
