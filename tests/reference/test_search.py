"""What the search promises for any words."""

import string

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fastkit.notation.entry import PROMINENT
from fastkit.reference.search import search
from fastkit.reference.spelling import spelt
from fastkit.reference.store import query

SHARED = settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
TYPED = st.text(alphabet=string.ascii_lowercase + string.digits + " /-.#x\"'*():", max_size=40)


def ids(found):
    return [hit.id for hit in found.hits]


def test_every_entry_is_found_by_its_id(store):
    for (id_,) in query(store, "SELECT id FROM entry WHERE kind <> 'torque' OR rowid % 40 = 0"):
        assert [id_] == ids(search(store, id_))


def test_designations_are_read_never_spelt(store):
    """A fuzzy scorer ties "4" with "1/4-20" for "1/4", and "7" with any code that ends in it."""
    found = search(store, "1/4")

    assert ["thread:1/4-20-UNC", "thread:1/4-28-UNF"] == ids(found)[:2]
    assert [] == ids(search(store, "X94678"))
    assert "T27" not in {hit.id for hit in search(store, "T26").hits}


@pytest.mark.parametrize(
    ("words", "near"),
    [
        ("T21", "drive:T20"),
        ("grade 3", "grade:SAE-2"),
        ("M99", "thread:M64"),
        ("hex 13.5", "drive:hex-13"),
    ],
)
def test_what_is_not_held_names_the_nearest(store, words, near):
    found = search(store, words)

    assert () == found.hits
    assert 3 == len(found.nearest)
    assert found.nearest[0].startswith(near)


def test_nonsense_names_something_near(store):
    found = search(store, "zzzz")

    assert () == found.hits and 0 < len(found.nearest) <= 3


@pytest.mark.parametrize(
    "words",
    ["", "   ", "\x00", "\udc80", '"', "' OR 1=1 --", "NEAR(", "a* AND", "NOT", "{", "^m8", "-"],
)
def test_the_languages_below_are_never_spoken(store, words):
    """No word is taken as SQL or as the index's own syntax."""
    search(store, words)


@pytest.mark.parametrize(
    "words", ["x" * 5000, "bolt " * 2000, "1/" * 3000, "é" * 3000, "torx " * 500]
)
def test_long_input_is_answered(store, words):
    search(store, words)


def test_a_kind_narrows_and_a_limit_cuts(store):
    assert {"drive"} == {hit.kind for hit in search(store, "8 mm", kind="drive").hits}
    assert 2 == len(search(store, "bolt", 2).hits)
    assert ["torque:M8x1.25@8.8"] == ids(search(store, "m8 torque", 1))


def test_a_kind_by_its_name(store):
    assert {"friction"} == {hit.kind for hit in search(store, "friction").hits}
    assert {"thread"} == {hit.kind for hit in search(store, "Threads").hits}


@pytest.mark.parametrize(
    ("words", "id_"),
    [
        ("rubbr", "neighbour:rubber"),
        ("aluminum", "material:aluminium"),
        ("philipps 2", "drive:PH2"),
        ("penetratig oil", "method:soak-penetrant"),
        ("lefthand drill", "method:left-hand-drill"),
        ("hexalobuler 20", "drive:T20"),
    ],
)
def test_misspelt_names(store, words, id_):
    assert id_ in ids(search(store, words))[:3]


def test_nicknames_are_understood_never_said(store):
    for words in ("torx 20", "allen 5", "phillips 2", "pozi 2", "robertson 2"):
        found = search(store, words)
        said = f"{found.read_as} {' '.join(hit.title for hit in found.hits)}".lower()
        assert words.split()[0] not in said


@SHARED
@given(words=st.one_of(TYPED, st.text(max_size=60)), limit=st.integers(1, 20))
def test_any_words(store, words, limit):
    """Hits are real entries, best first, no more than asked for, and the same each time."""
    found = search(store, words, limit)

    assert found == search(store, words, limit)
    assert len(found.hits) <= limit
    assert [hit.score for hit in found.hits] == sorted((h.score for h in found.hits), reverse=True)
    assert all(0 < hit.score <= 100 for hit in found.hits)
    for id_ in [*ids(found), *found.nearest]:
        assert query(store, "SELECT 1 FROM entry WHERE id = ?", (id_,))


@SHARED
@given(words=TYPED, kind=st.sampled_from(PROMINENT))
def test_a_kind_never_lets_another_in(store, words, kind):
    assert {hit.kind for hit in search(store, words, kind=kind).hits} <= {kind}


def test_a_misspelt_word_names_the_known_one_that_it_is_taken_for(store):
    assert "flibber (fiber)" == search(store, "flibber").read_as


@pytest.mark.parametrize("words", ["?", "iso 99999", "hex 100mm", "zzzqqq"])
def test_nothing_found_names_the_three_that_are_nearest(store, words):
    found = search(store, words)

    assert () == found.hits
    assert 3 == len(set(found.nearest))


def test_a_standard_that_is_not_held_names_publications(store):
    assert {"source"} == {id_.partition(":")[0] for id_ in search(store, "din 9999").nearest}


def test_a_class_that_is_written_out_stands_before_a_word_for_one(store):
    assert "torque:M12x1.75@A4-80" == search(store, "stainless m12 a4-80 torque").hits[0].id


def test_what_is_denied_is_not_meant(store):
    assert "washer:ISO-7089-M8" == search(store, "m8 washer not split").hits[0].id


@pytest.mark.parametrize(
    ("words", "first"),
    [
        ("falnge nut m8", "head:ISO-4161-M8"),  # two letters exchanged
        ("thred isert m6", "insert:M6x1"),  # a letter too few, in each
        ("shakeproof washbr m5", "washer:DIN-6797-M5"),  # another letter, in a saying
        ("stnlss m10 trq", "torque:M10x1.5@A2-70"),  # vowels left out
        ("qrtr twenty", "thread:1/4-20-UNC"),  # of a word that numbers hang on
        ("skware 2", "drive:SQ2"),  # as it sounds
        ("spa nner for m8 nut", "head:ISO-4032-M8"),  # a blank within
        ("three-quarter inch spanner", "drive:AF-3/4in"),  # a hyphen for a blank
    ],
)
def test_slips_of_the_hand_are_put_right(store, words, first):
    assert first == search(store, words).hits[0].id


@pytest.mark.parametrize("word", ["strip", "gross", "there", "degrease", "stain", "m8x125"])
def test_a_word_that_people_have_is_no_slip(store, word):
    """Words of the data's own sentences, of everyday, and begun ones stay as they were typed."""
    assert word == spelt(store, word)


@pytest.mark.parametrize(
    ("words", "first"),
    [
        ("10mm thread pitch", "thread:M10x1.5"),
        ("10mm spanner", "drive:AF-10mm"),
        ("socket for m10 bolt", "head:ISO-4014-M10"),
        ("m10 socket cap screw", "head:ISO-4762-M10"),
        ("m10 bolt across flats", "head:ISO-4014-M10"),
        ("din 125 a 8.4", "washer:ISO-7089-M8"),
        ("extractor no 4", "extractor:spiral-4"),
        ("pitch 1.25 m12", "thread:M12x1.25"),
    ],
)
def test_a_number_is_read_by_the_words_beside_it(store, words, first):
    assert first == search(store, words).hits[0].id


def test_a_damaged_bolt_is_called_by_its_spanner(store):
    assert "length 10mm" in search(store, "rounded 10mm bolt").read_as
    assert "drive:AF-10mm" in [hit.id for hit in search(store, "rounded 10mm bolt").hits[:3]]


@pytest.mark.parametrize(
    ("words", "near"),
    [
        ("cotter pin 3mm", "hardware:DIN-471-3"),
        ("roll pins", "hardware:DIN-471-3"),
        ("what size is an o ring 12mm", "washer:DIN-7603-M12"),
        ("coach screw m8", "head:ISO-4017-M8"),
        ("eyebolt m8", "head:ISO-4017-M8"),
        ("castel nut m12", "head:ISO-7040-M12"),
    ],
)
def test_a_part_that_is_not_held_is_nothing_and_names_what_is_like_it(store, words, near):
    found = search(store, words)

    assert not found.hits
    assert 3 == len(found.nearest)
    assert near == found.nearest[0]


@pytest.mark.parametrize("words", ["split pin washer m8", "cotter pin near brake fluid"])
def test_such_a_part_beside_another_hides_nothing(store, words):
    assert search(store, words).hits


@pytest.mark.parametrize(
    ("words", "first"),
    [
        ("what goes on spark plug threads", "compound:anti-seize"),
        ("stop exhaust nuts seizing", "compound:anti-seize"),
        ("keep a bolt from shaking loose", "compound:threadlocker"),
        ("heat the casting not the bolt", "method:warm-host"),
        ("no room to get at it", "method:make-room"),
    ],
)
def test_an_entry_is_found_by_what_it_is_for(store, words, first):
    assert search(store, words).hits[0].id.startswith(first)


def test_what_an_entry_is_called_stands_before_what_another_is_for(store):
    """`grind`, `slot` and `disc` are said of a slot cut with a disc, and of more beside it."""
    assert "tool:nut-splitter" in ids(search(store, "nut splitter"))[:2]
    assert "method:soak-penetrant" == ids(search(store, "penetrating oil"))[0]


@pytest.mark.parametrize(
    ("words", "first"),
    [
        ("not m8 but m10", "thread:M10x1.5"),
        ("m10 not m8", "thread:M10x1.5"),
        ("m12 not fine", "thread:M12x1.75"),
        ("6 point not 12 point socket", "method:six-point-socket"),
        ("not m8", "thread:M8x1.25"),  # nothing else was said
    ],
)
def test_a_designation_that_is_denied_is_not_meant(store, words, first):
    assert first == search(store, words).hits[0].id


@pytest.mark.parametrize("words", ["m8din933", "din933m8", "din 933m8", "m8 din933"])
def test_a_size_run_on_to_a_standard(store, words):
    assert "head:DIN-933-M8" == search(store, words).hits[0].id


@pytest.mark.parametrize(
    ("words", "first"),
    [
        ("t25 with a tamper pip", "drive:T25-tamper"),
        ("m8 triple square bit set", "drive:triple-square-M8"),
        ("14 mm head with twelve points", "drive:12pt-14mm"),
        ("number 8 pan head type ab screw", "head:ASME-B18.6.4-#8-AB"),
        ("1/4-20 thread", "thread:1/4-20-UNC"),
    ],
)
def test_a_size_in_an_entrys_key_counts_beside_the_words_for_it(store, words, first):
    assert first == search(store, words).hits[0].id


@pytest.mark.parametrize(
    ("words", "first"),
    [
        ("m25 lamp thread 1.5", "thread:M25x1.5"),
        ("m12 lug 1.25 tap", "thread:M12x1.25"),
        ("m8 lug 1.3", "thread:M8x1.25"),
        ("three quarter drive breaker bar", "tool:breaker-bar"),
        ("three quarter drive socket", "drive:driving-square-20mm"),
    ],
)
def test_a_pitch_apart_and_a_square_are_read(store, words, first):
    assert first == search(store, words).hits[0].id
