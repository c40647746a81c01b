"""Words and options to a situation and a plan in words; options win, defaults are shown."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fastkit.answers import options
from fastkit.answers.extract import extract
from fastkit.answers.understand import NOT_ASSUMED, understand
from fastkit.errors import FastkitError, Misuse, NotHeld
from fastkit.extraction.situation import Near, Situation
from fastkit.records.drive import Drive
from fastkit.reference.lookup import many

SPOKEN = (
    "6 mm hex socket rounded out, M8 into cast iron, 90 mm above, 8 mm beside, "
    "rubber hose 20 mm off, rusted"
)
SITUATION_KEYS = {
    *("kind", "thread", "grade", "drive", "damage", "seized", "seized_at", "left_hand", "coating"),
    *("load", "far_side", "residue", "support", "recess", "wasted_pct", "into", "engage_mm"),
    *("above_mm", "beside_mm", "swing_deg", "side_mm", "pocket_mm", "near", "no_heat", "power"),
    *("have", "lack", "can", "tried", "spoil", "insert", "prevailing", "stub_mm", "part"),
}
PLAN_KEYS = {
    *("rank", "method", "variant", "verdict", "chance", "minutes", "expected_minutes", "margins"),
    *("weakest_link", "outcomes", "why", "needs", "after", "steps", "cautions", "if_it_fails"),
    "sizes",
}


@pytest.fixture(scope="module")
def spoken(store):
    """The answer to the example, once."""
    return extract(SPOKEN, store=store)


def test_words_fill_the_situation(spoken):
    """What was said stands in the situation; rounded in a recess is read as stripped."""
    said = spoken.situation

    assert (said.drive, said.thread, said.damage) == ("hex-6mm", "M8x1.25", "stripped")
    assert (said.above_mm, said.beside_mm) == (90, 8)
    assert said.near == (Near("rubber", 20.0),)
    assert (said.seized, said.into) == ("rusted", "cast-iron")


def test_document_has_the_keys_that_scripts_use(spoken):
    """Keys and forms of INTERFACE; JSON without NaN."""
    document = json.loads(json.dumps(spoken.document(), allow_nan=False))

    assert set(document) == {
        *("situation", "not_understood", "assumed", "plan", "ruled_out", "expected_minutes"),
        *("chance", "stop_when", "measure_next", "own", "near_fits"),
        *("dangers", "afterwards", "part_note", "leads_to"),
    }
    assert set(document["situation"]) == SITUATION_KEYS
    assert document["situation"]["thread"] == "thread:M8x1.25"
    assert document["situation"]["drive"] == "drive:hex-6mm"
    assert document["situation"]["near"] == [{"thing": "rubber", "mm": 20.0}]
    assert all(set(item) == {"what", "value", "changes_first_move"} for item in document["assumed"])
    assert document["plan"] and all(set(step) == PLAN_KEYS for step in document["plan"])
    for out in document["ruled_out"]:
        assert {"method", "because", "short_by", "opens_it"} <= set(out)


def test_plan_is_ranked_and_every_method_stands_once(spoken, store):
    """Ranks count up, one first, and nothing is both offered and ruled out."""
    methods = {row[0] for row in store.execute("SELECT id FROM method")}
    offered = [step.method for step in spoken.plan]
    out = [row.method for row in spoken.ruled_out]

    assert [step.rank for step in spoken.plan] == list(range(1, len(offered) + 1))
    assert [step.verdict for step in spoken.plan].count("first") == 1
    assert len(set(offered)) == len(offered)
    assert not set(offered) & set(out)
    assert set(offered) | set(out) <= methods


def test_every_step_has_words(spoken):
    """Steps from the data, a reason, needs as tools."""
    for step in spoken.plan:
        assert step.steps and step.why
    for item in spoken.document()["plan"]:
        assert all(need.startswith("tool:") for need in item["needs"])


def test_everything_not_said_is_assumed_and_shown(spoken):
    """No default is silent."""
    shown = {item.what for item in spoken.assumed}

    assert set(Situation._fields) <= shown | spoken.said | set(NOT_ASSUMED)


def test_options_win_over_words(store):
    """The option replaces what the words say, also a vague reading and its mark."""
    found = understand(
        store, "T30 stripped, lying under it, rusted", {"above": "50", "seized": "galled"}
    )

    assert found.situation.above_mm == 50
    assert found.situation.seized == "galled"
    assert "above_mm" not in found.vague
    assert "above_mm" not in dict(found.assumed)
    assert "swing_deg" in found.vague


@pytest.mark.parametrize(
    ("words", "kind", "thread", "drive", "grade"),
    [
        ("6 mm hex socket stripped", "screw", "M8x1.25", "hex-6mm", "8.8"),
        ("13 mm hex head rounded", "bolt", "M8x1.25", "AF-13mm", "8.8"),
        ("T30 stripped", "screw", "M6x1", "T30", "8.8"),
        ("PH2 stripped", "screw", "M4x0.7", "PH2", "4.8"),
        ("M8 nut seized", "nut", "M8x1.25", "AF-13mm", "8.8"),
        ("1/4-20 bolt rounded", "bolt", "1/4-20-UNC", "AF-7/16in", "SAE-5"),
        ("M8 stainless bolt galled", "bolt", "M8x1.25", "AF-13mm", "A2-70"),
        ("11 mm tube nut rounded", "tube-nut", "M10x1", "AF-11mm", "8.8"),
        ("M8 snapped off flush", "bolt", "M8x1.25", None, "8.8"),
        ("rounded", "bolt", "M8x1.25", "AF-13mm", "8.8"),
    ],
)
def test_what_nobody_said_follows_from_what_was_said(store, words, kind, thread, drive, grade):
    """Kind, thread, drive and grade are inferred through the heads, and shown as assumed."""
    found = understand(store, words)
    said = found.situation

    assert (kind, thread, drive, grade) == (said.kind, said.thread, said.drive, said.grade)
    for field in ("kind", "thread", "grade"):
        assert field in dict(found.assumed) or field in found.said


@pytest.mark.parametrize(
    ("words", "damage"),
    [("13 mm hex head stripped", "rounded"), ("T30 rounded", "stripped"), ("E10 worn", "worn")],
)
def test_stripped_and_rounded_are_read_as_each_other(store, words, damage):
    """By the drive: stripped is a recess, rounded an outer hexagon."""
    assert damage == understand(store, words).situation.damage


@pytest.mark.parametrize(
    ("name", "value", "field", "expected"),
    [
        ("above", "8mm", "above_mm", 8.0),
        ("above", "1in", "above_mm", 25.4),
        ("beside", 8, "beside_mm", 8.0),
        ("swing", "30", "swing_deg", 30.0),
        ("side", "30x12", "side_mm", (30.0, 12.0)),
        ("side", "none", "side_mm", (0.0, 0.0)),
        ("pocket", "20x60mm", "pocket_mm", (20.0, 60.0)),
        ("pocket", "1x2in", "pocket_mm", (25.4, 50.8)),
        ("near", ["rubber:20", "fuel"], "near", (Near("rubber", 20.0), Near("fuel", 0.0))),
        ("near", ["rubber:1in"], "near", (Near("rubber", 25.4),)),
        ("can", ["bench:30", "make-room"], "can", (("bench", 30.0), ("make-room", None))),
        ("can", ["none"], "can", ()),
        ("tried", ["seat-bit", "seat-bit"], "tried", ("seat-bit", "seat-bit")),
        ("have", ["welder"], "have", ("welder",)),
        ("have", ["rattle gun"], "have", ("impact-wrench",)),
        ("tried", ["hammered a bit in"], "tried", ("seat-bit",)),
        ("lack", ["tool:welder", "left-hand-drill"], "lack", ("welder", "left-hand-drill")),
        ("thread", "thread:M8x1", "thread", "M8x1"),
        ("drive", "6 mm hex socket", "drive", "hex-6mm"),
        ("wasted", "30%", "wasted_pct", 30.0),
        ("stub", "5", "stub_mm", 5.0),
        ("stub", "1/4in", "stub_mm", 6.35),
        ("spoil", "2h", "spoil_min", 120.0),
        ("far_side", "reachable", "far_side", "reachable"),
    ],
)
def test_option_values_are_read(store, name, value, field, expected):
    """As typed, in both unit systems, ids with their kind and without."""
    assert {field: expected} == options.fields(store, {name: value})


@pytest.mark.parametrize(
    ("name", "value", "nearest"),
    [
        ("damage", "strippd", "stripped"),
        ("kind", "scrw", "screw"),
        ("near", ["ruber:20"], "rubber"),
        ("tried", ["seat-bits"], "seat-bit"),
        ("lack", ["wellder"], "welder"),
        ("into", "alumium", "aluminium"),
        ("swing", "400", "360"),
        ("wasted", "120", "95"),
        ("stub", "20000", "10000"),
        ("side", "30", "20x60"),
        ("can", ["bensh"], "bench"),
        ("nonsense", "1", "tried"),
    ],
)
def test_wrong_values_are_refused_with_the_nearest(store, name, value, nearest):
    """One line naming what was wrong and what is nearest."""
    with pytest.raises(Misuse) as refusal:
        options.fields(store, {name: value})

    assert "\n" not in str(refusal.value)
    assert name == "nonsense" or nearest in refusal.value.nearest


def test_a_well_formed_thread_that_is_not_held(store):
    """M7.3 reads as a thread, but no table has it."""
    with pytest.raises(NotHeld):
        understand(store, "M7.3 bolt rounded")


@pytest.mark.parametrize("words", ["purple monkey wardrobe", "", "   ", "42"])
def test_nothing_understood_is_refused_with_an_example(store, words):
    """Nonsense gets no plan."""
    with pytest.raises(Misuse) as refusal:
        understand(store, words)

    assert refusal.value.nearest


def test_nonsense_beside_an_option_is_shown(store):
    """With an option there is something to plan; the words are listed as not understood."""
    found = understand(store, "purple wardrobe", {"damage": "rounded"})

    assert found.not_understood == ("purple", "wardrobe")


@pytest.mark.parametrize(
    ("words", "named"),
    [
        ("M8 130 % wasted", "wasted 130 percent"),
        ("M8 400 deg swing", "0 to 360 degrees"),
        ("M8 99999 mm above", "0 to 10000 mm"),
        ("M8 engagement 0 mm", "engage 0 mm"),
        ("M8 in a pocket 0 mm wide 60 deep", "pocket 0x60"),
    ],
)
def test_numbers_in_words_keep_the_bounds_of_the_options(store, words, named):
    """What no fastener can be is refused, not planned for."""
    with pytest.raises(Misuse) as refusal:
        understand(store, words)

    assert named in str(refusal.value)


def test_what_cannot_be_done_leaves_the_rest(store):
    """`cannot drop it` leaves making room and the bench; all three leave none."""
    assert understand(store, "M8 rusted, cannot drop it").situation.can == (
        ("make-room", None),
        ("bench", None),
    )
    words = "M8 rusted, cant drop it, cant make room, cant take it out"
    assert understand(store, words).situation.can == ()


def test_too_many_words_are_refused(store):
    """A pasted book is no situation."""
    with pytest.raises(Misuse):
        understand(store, "M8 " * 2000)


def test_a_method_that_is_lacking_is_ruled_out(store):
    """Drills that turn left are named by their method."""
    answer = extract("M8 snapped off flush, no left hand drill bits", store=store)

    assert "left-hand-drill" not in [step.method for step in answer.plan]


@given(
    st.dictionaries(
        st.sampled_from(options.NAMES),
        st.one_of(
            st.text(max_size=20),
            st.floats(-1e6, 1e6),
            st.lists(st.text(max_size=12), max_size=3),
        ),
        max_size=3,
    )
)
def test_hostile_options_are_read_or_refused(store, given_options):
    """Nothing but a refusal comes of nonsense in options."""
    try:
        options.fields(store, given_options)
    except FastkitError as refusal:
        assert str(refusal)


def test_on_a_jack_alone_stands_come_first():
    """Whatever the move: a vehicle that rests on its jack is put on stands before it is begun."""
    answer = extract("17 mm bolt seized, on a jack")

    assert answer.situation.support == "jack"
    assert all("stands" in step.cautions[0] for step in answer.plan)


def test_a_left_hand_thread_is_said_with_every_move():
    """Which way it loosens stands where it is turned."""
    answer = extract("left hand thread nut seized, 19 mm")

    assert answer.situation.left_hand
    assert all("clockwise loosens" in step.cautions[0] for step in answer.plan)


def test_a_stub_that_nobody_measured_is_assumed():
    """Two diameters proud, half of one below; of what has not snapped nothing is assumed."""
    assumed = {
        damage: dict(item[:2] for item in extract("M8", damage=damage).assumed)
        for damage in ("snapped-proud", "snapped-below", "snapped-flush", "intact")
    }

    assert assumed["snapped-proud"]["stub_mm"] == 16.0
    assert assumed["snapped-below"]["stub_mm"] == 4.0
    assert not {"stub_mm"} & {*assumed["snapped-flush"], *assumed["intact"]}


def test_a_stub_measured_before_it_broke_again_is_forgotten():
    """Words said how far it stood proud; the option says that it has gone below since."""
    then = extract("M8 stud snapped 12 mm proud, rusted", damage="snapped-below")

    assert then.situation.stub_mm == 4.0


def test_the_stub_is_what_to_measure():
    """Where its grip decides the first move, and nobody has said how far it stands proud."""
    words = "M8 stud snapped proud, rusted, 60 mm above, 60 mm beside, can swing 180 degrees"
    answer = extract(words, no_heat=True, tried=["shock-tap", "shock-tap"], power="none")

    assert answer.measure_next is not None
    assert answer.measure_next.axis == "stub_mm"
    assert answer.measure_next.below > 0


def test_a_short_stub_is_told_with_what_is_missing():
    """Five millimetres of M8 are three too few for the collet, the least of the stud tools."""
    answer = extract("M8 stud snapped 5 mm proud, rusted")
    out = next(row for row in answer.ruled_out if row.method == "stud-grip")

    assert out.short_by == ("stub", 3.0, "mm")
    assert out.opens_it == "3 mm (0.12 in) more stub"


def test_a_socket_that_no_head_has_means_the_guide_pin_it_comes_on(store):
    """7 mm is the key of caliper pins, M8 and its like; never an inch thread of near size."""
    assert extract("7 mm allen bolt rounded", store=store).situation.thread == "M8x1.25"


def test_every_drive_names_a_thread_that_is_held(store):
    """Whatever hexagon or recess is named alone, some thread is taken and the plan stands."""
    for drive in many(store, Drive):
        for kind in ("bolt", "nut", "screw"):
            assert understand(store, "", {"drive": drive.id, "kind": kind}).situation.thread


@pytest.mark.parametrize(
    ("across", "thread"),
    [(14, "M12x1"), (17, "M14x1.5"), (19, "M16x1.5"), (22, "M18x1.5"), (27, "M22x1.5")],
)
def test_a_large_tube_nut_is_no_m8(store, across, thread):
    """ISO 8434-1, light series: M14x1.5 with 17 mm, M16x1.5 19, M18x1.5 22, M22x1.5 27."""
    assert understand(store, f"hydraulic union {across} mm seized").situation.thread == thread


@pytest.mark.parametrize(
    ("words", "tried"),
    [
        (
            "caliper carrier bolt m10x1.25 hex 15 rounded rusted, brake hose 30mm",
            "six-point-socket",
        ),
        ("6 mm hex socket worn, M8 seized in steel", "better-bit"),
        ("T30 stripped M6 seized in aluminium", "oversize-bit"),
        ("13 mm nut worn rusted, M8 stud", "six-point-socket"),
        ("M12 stud snapped 15 mm proud, rusted in cast iron", "stud-extractor"),
        ("PH2 screw worn, rusted into steel, M5", "press-and-turn"),
    ],
)
def test_what_has_failed_is_not_said_to_come_first(words, tried):
    """An attempt is made with the strongest tool that fits: nobody does the same once more."""
    assert extract(words, tried=[tried]).plan[0].method != tried


@pytest.mark.parametrize("words", ["gas strut touching", "brake pipe touching", "charged AC line"])
def test_what_an_option_says_is_near_is_all_that_is_near(store, words):
    """Options win over words: nothing is left of a strut or pipe that only the words named."""
    answer = extract(f"M8 bolt rusted, {words}", store=store, near=["fuel:20"])

    assert (Near("fuel", 20.0),) == answer.situation.near
    assert () == answer.situation.sealed + answer.situation.piped
