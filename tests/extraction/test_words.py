"""Sentences as people type them fill the right fields, and nonsense fills none."""

import csv
import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fastkit.answers.understand import understand
from fastkit.errors import FastkitError, Misuse
from fastkit.extraction.reading import DAMAGE_ORDER, SEIZED_ORDER, Reading
from fastkit.extraction.situation import Situation
from fastkit.extraction.vocabulary import indexed, vocabulary
from fastkit.extraction.words import read
from fastkit.notation.names import spread
from fastkit.records.part import Part
from fastkit.records.source import Phrase
from fastkit.reference import resolve
from fastkit.reference.phrases import of_parts

DATA = Path(__file__).parents[2] / "data"
SENTENCES = Path(__file__).parent / "words"


def rows_of(name: str) -> list[dict[str, str]]:
    """The rows of a data file."""
    with (DATA / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


PARTS = [Part(**{**row, "shank_share": 1.0, "preload_share": 1.0}) for row in rows_of("parts.csv")]
WRITTEN = [
    Phrase(**row | {"words": words})
    for row in rows_of("phrases.csv")
    for words in spread(row["words"])
]
PHRASES = [*WRITTEN, *of_parts(WRITTEN, PARTS)]
ALIASES = {row["words"]: row["entry"] for row in rows_of("aliases.csv")}
KNOWN = vocabulary(PHRASES)
NONSENSE = tomllib.loads((SENTENCES / "nonsense.toml").read_text("utf-8"))["sentences"]
ROOM = (
    "axis",
    "length",
    "distance",
    "touching",
    "tool",
    "kin",
    "owned",
    "method",
    "cue",
    "form",
    "captive",
    "place",
    "filler",
    "cannot",
)


def understood(words: str) -> Reading:
    """What the shipped phrases make of words."""
    plain = words.lower()
    return read(words, KNOWN, {alias: ALIASES[alias] for alias in ALIASES if alias in plain})


def cases() -> list[Any]:
    """Every sentence of the files."""
    return [
        pytest.param(case, id=f"{path.stem}: {case['words'][:60]}")
        for path in sorted(SENTENCES.glob("*.toml"))
        for case in tomllib.loads(path.read_text("utf-8")).get("phrasing", [])
    ]


def plain(value: Any) -> Any:
    """The value as the sentence files write it: rounded, pairs as lists."""
    if isinstance(value, tuple | list):
        return ["-" if item is None else plain(item) for item in value]
    if isinstance(value, float | int) and not isinstance(value, bool):
        return round(value, 3)
    return value


@pytest.mark.parametrize("case", cases())
def test_sentence_fills_the_fields_it_names(case, store):
    """Exactly the fields named, the vague ones marked, nothing lost."""
    reading = understood(case["words"])
    said = {key: value for key, value in case.items() if key not in ("words", "left", "taken")}
    got = dict(reading.given)
    if "thread" in got:
        got["thread"] = resolve.thread(store, got["thread"]).id

    assert {key: plain(value) for key, value in said.items()} == {
        key: plain(value) for key, value in got.items()
    }
    assert sorted(case.get("taken", [])) == sorted({taken.what for taken in reading.taken})
    assert case.get("left", []) == list(reading.left)


def test_enough_sentences():
    """At least 150 phrasings and 20 of nonsense."""
    assert len(cases()) >= 150
    assert len(NONSENSE) >= 20


@pytest.mark.parametrize("words", NONSENSE)
def test_nonsense_fills_nothing(words):
    """Nothing is read into words that say nothing of a fastener."""
    assert understood(words).given == {}


@pytest.mark.parametrize("words", NONSENSE)
def test_nonsense_is_refused_in_one_line(words, store):
    """The refusal names what was expected and gives an example."""
    with pytest.raises(
        Misuse, match=r"nothing understood in .*expected drive or thread"
    ) as refusal:
        understand(store, words)

    assert "\n" not in str(refusal.value)
    assert refusal.value.nearest


@pytest.mark.parametrize(
    ("words", "field", "value"),
    [
        ("rouned", "damage", "rounded"),
        ("strippped", "damage", "stripped"),
        ("alumnium", "into", "aluminium"),
        ("galvansied", "coating", "zinc"),
    ],
)
def test_a_slip_of_the_keyboard_is_forgiven(words, field, value):
    """One wrong, missing, extra or swapped letter in a long word."""
    assert understood(words).given[field] == value


@pytest.mark.parametrize(
    ("words", "field"),
    [("not galled", "seized"), ("no fuel lines near", "near"), ("isn't stripped", "damage")],
)
def test_a_negated_state_is_not_filled(words, field):
    """What is denied is understood and fills nothing."""
    reading = understood(words)

    assert field not in reading.given
    assert reading.left == ()


def test_denied_tools_are_lacking_through_a_list():
    """`or` carries the negation on, `but` ends it."""
    reading = understood("no welder or torch but I have a hammer")

    assert reading.given["lack"] == ("welder", "torch")
    assert reading.given["have"] == ("hammer",)


def test_the_worst_state_said_counts():
    """A head rounded first and snapped since is snapped."""
    assert understood("rounded it, then it snapped off below").given["damage"] == "snapped-below"


def test_plain_numbers_win_over_vague_words():
    """`lying under it` says less than a measured height."""
    reading = understood("lying under it, 120 mm above")

    assert reading.given["above_mm"] == 120
    assert [taken.what for taken in reading.taken] == ["swing_deg"]


def test_phrases_are_unambiguous():
    """No two phrases of the same words fill one field differently."""
    for words, rows in indexed(PHRASES).rows.items():
        single = [row.option.rstrip("?") for row in rows]
        several = ("tool", "kin", "lack", "touching", "near")  # fields that hold more than one
        single = [option for option in single if option not in several]
        if "part" in single and single.count("kind") == 2:
            single.remove("kind")  # a part brings a kind of its own, behind what is said of it
        assert len(set(single)) == len(single), f"{words}: {rows}"


def test_phrases_fill_only_known_fields():
    """Each phrase names a field of the situation, or an option that the reader handles."""
    fields = {*Situation._fields, *ROOM, "length", "can", "pipe", "tube"}
    for row in PHRASES:
        assert row.option.rstrip("?") in fields, row
        if row.option.startswith("damage"):
            assert row.value in DAMAGE_ORDER, row
        if row.option.rstrip("?") == "seized":
            assert row.value in SEIZED_ORDER, row


def test_phrases_name_known_things(store):
    """Tools, methods, materials and neighbours of the phrases stand in the data."""
    held = {row[0] for row in store.execute("SELECT id FROM entry")}
    kinds = {"tool": ("tool", "method"), "kin": ("tool",), "method": ("method",)}
    kinds |= {"into": ("material",), "near": ("neighbour",), "touching": ("neighbour",)}
    for row in PHRASES:
        wanted = kinds.get(row.option.rstrip("?"), ())
        assert not wanted or any(f"{kind}:{row.value}" in held for kind in wanted), row


@given(st.text(max_size=200))
def test_any_text_is_read_without_complaint(text):
    """Reading never fails, and what is left over comes from the text."""
    try:
        reading = understood(text)
    except FastkitError:
        pytest.fail("reading words refuses nothing")
    assert all(word for word in reading.left)


@given(st.lists(st.sampled_from(sorted(KNOWN.words)), max_size=30), st.integers(0, 9999))
def test_any_known_words_are_read_without_complaint(words, number):
    """Words of the trade in any order, with numbers between them."""
    understood(f" {number} mm ".join(words))


@pytest.mark.parametrize(
    "before",
    ["cant see it well", "head isnt rounded", "did not move", "wont come out", "rusted solid"],
)
def test_a_neighbour_is_never_lost(before):
    """Whatever is said before it without a comma, each name of a neighbour is read."""
    lost = [
        phrase.words
        for phrase in PHRASES
        if phrase.option.rstrip("?") == "near"
        for near in [understood(f"m8 bolt {before} {phrase.words}").given.get("near", ())]
        if all(item[0] != phrase.value for item in near)
    ]
    assert lost == []


def test_commas_matter_to_few_sentences():
    """Nobody types them under a car: nine in ten sentences mean the same without."""
    sentences = [case.values[0]["words"] for case in cases()]
    written = [words for words in sentences if "," in words]
    alike = [
        understood(words.replace(",", "")).given == understood(words).given for words in written
    ]
    assert len(written) > 100
    assert sum(alike) >= 0.9 * len(written)
