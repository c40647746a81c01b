"""What every answer of `replace` keeps, whatever was asked."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fastkit.answers.replace import document, replace
from fastkit.answers.shelf import add_stock, add_tool
from fastkit.errors import Misuse, NotHeld
from fastkit.records.replacement import Lock, Make
from fastkit.reference.lookup import many, one

ASKED = st.fixed_dictionaries(
    {
        "thread": st.sampled_from(["M5", "M6", "M8", "M10", "M12", "M10x1", "3/8-16", "1/4-28"]),
        "was": st.sampled_from(
            [
                "hexagon 8.8 zinc plated",
                "socket head 12.9 black, rusted",
                "pan head PH2",
                "flange hexagon 10.9",
                "countersunk, rusted",
                "button head stainless",
                "",
                "hexagon A2-70, came loose",
            ]
        ),
        "into": st.sampled_from([None, "nut", "steel", "aluminium", "magnesium", "cast iron"]),
        "place": st.sampled_from(
            ["", "outdoors, salt", "indoors", "vibrates", "180 °C", "240 °C, vibrates", "-80 °C"]
        ),
        "grip_mm": st.one_of(st.none(), st.floats(1.0, 60.0)),
        "depth_mm": st.one_of(st.none(), st.floats(2.0, 30.0)),
        "above_mm": st.one_of(st.none(), st.floats(0.0, 90.0)),
        "beside_mm": st.one_of(st.none(), st.floats(0.0, 20.0)),
    }
)
FEW = settings(
    max_examples=80,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)


def in_its_system(asked):
    """An inch thread has the classes of its own standard."""
    if "/" in asked["thread"]:
        return {
            **asked,
            "was": asked["was"]
            .replace("8.8", "SAE 5")
            .replace("10.9", "SAE 8")
            .replace("12.9", ""),
        }
    return asked


@FEW
@given(asked=ASKED)
def test_what_every_option_keeps(store, asked):
    """Window, lock, paste, room, heat and strength are consistent within each option."""
    asked = in_its_system(asked)
    answer = replace(**asked, store=store)
    makes = {row.id: row for row in many(store, Make)}
    locks = {row.id: row for row in many(store, Lock)}
    degc = answer.understood["temperature_degc"]

    assert [option.rank for option in answer.options] == list(range(1, len(answer.options) + 1))
    assert answer.line == (answer.options[0].line if answer.options else None)
    assert (answer.reason is None) == bool(answer.options)
    for option in answer.options:
        if option.torque_nm is not None:
            assert option.torque_min_nm <= option.torque_nm * (1 + 1e-9)
            assert option.torque_nm <= option.torque_max_nm * (1 + 1e-9)
        lock = locks[option.locking]
        if option.locking.startswith("threadlocker"):
            assert "none" == option.lubricant
            assert asked["into"] != "nut"
        if degc is not None:
            assert lock.to_degc is None or degc <= lock.to_degc
            most = makes[option.make].use_max_degc
            assert most is None or degc <= most
        assert all(value is None or value >= -1e-6 for value in option.margins.values())
        assert not (option.grade in {"12.9", "A574"} and makes[option.make].plated)
        if option.form != "nut":
            said = " ".join(option.trades)
            assert ("weaker" in said) == (option.strength_pct < 98)
            assert ("stronger" in said) == (option.strength_pct > 115)
            assert ("countersunk" == option.form) == ("countersunk" in asked["was"])


@FEW
@given(asked=ASKED)
def test_the_room_fits(store, asked):
    """The head, the screw on its way in and the washer fit where the old head was measured."""
    asked = in_its_system({**asked, "above_mm": asked["above_mm"] or 45.0, "was": "hexagon 8.8"})
    answer = replace(**asked, store=store)
    seat_to_roof = asked["above_mm"] + answer.understood["old_head_height_mm"]
    for option in answer.options:
        assert option.head_height_mm + option.margins["above_mm"] <= seat_to_roof + 1e-3
        if option.length_mm is not None:
            assert option.length_mm + option.head_height_mm <= seat_to_roof + 1e-3


@pytest.mark.parametrize("thread", ["M5", "M6", "M8", "M10", "M12"])
@pytest.mark.parametrize("into", ["steel", "nut", "aluminium"])
def test_cheaper_never_claims_more_strength(store, thread, into):
    """Strength follows class and head alone; a dearer finish adds none, a cheaper none either."""
    held = {}
    for was in ("hexagon 8.8", "pan head 4.8", "socket head 12.9"):
        for place in ("indoors", "workshop", "outdoors", "salt"):
            answer = replace(thread, was=was, into=into, place=place, grip_mm=12, store=store)
            for option in answer.options:
                key = (was, option.standard, option.grade)
                assert held.setdefault(key, option.strength_pct) == option.strength_pct
    order = ["4.8", "8.8", "10.9", "12.9"]
    for (was, standard, grade), pct in held.items():
        for (other_was, other_standard, other), other_pct in held.items():
            if (was, standard) == (other_was, other_standard) and {grade, other} <= set(order):
                assert (order.index(grade) < order.index(other)) == (pct < other_pct)


def test_a_longer_hole_is_never_weaker(store):
    """With more thread the highest setting does not fall."""
    most = [
        replace(
            "M6", was="socket head 8.8", into="aluminium", grip_mm=8, depth_mm=depth, store=store
        )
        for depth in (9, 10, 12, 16, 20)
    ]
    settings_ = [answer.options[0].torque_max_nm for answer in most]

    assert settings_ == sorted(settings_)


def test_too_little_thread_is_told_so(store):
    """Where no setting clamps and spares the thread, the answer names the thread, not the shop."""
    answer = replace(
        "M6", was="socket head 12.9", into="aluminium", grip_mm=8, depth_mm=5, store=store
    )

    assert () == answer.options
    assert "thread" in answer.reason
    assert "insert" in answer.way


def test_stock_is_preferred_and_said(store):
    """What lies in the drawer comes first, if it is among what serves."""
    asked = {
        "was": "pan head, zinc plated, PH2, rusted",
        "into": "aluminium",
        "grip_mm": 12,
        "place": "salt",
    }
    before = replace("M6", **asked, store=store)
    other = before.options[1]
    add_stock(f"M6x{other.length_mm:g} {other.grade} {other.drive}", 7, "drawer 3")
    add_stock("M6x25 4.8 zinc", 50, "drawer 1")

    after = replace("M6", **asked, store=store)

    assert other.standard == after.options[0].standard
    assert "7 × M6x25 A4-70" in after.options[0].in_stock
    assert "drawer 3" in after.options[0].in_stock
    assert [None] * (len(after.options) - 1) == [o.in_stock for o in after.options[1:]]


def test_bits_at_hand_decide_between_like_heads(store):
    """With keys listed and no hexalobular bit, the head that a key turns comes first."""
    asked = {"was": "socket head 8.8 zinc plated", "into": "steel", "grip_mm": 10}
    assert "hex-socket" == replace("M8", **asked, store=store).options[0].system
    add_tool("ratchet", "T45 T40 T30")

    first = replace("M8", **asked, store=store).options[0]

    assert "hexalobular" == first.system
    assert any("T45" in note for note in first.notes)


@pytest.mark.parametrize(
    ("asked", "error"),
    [
        ({"thread": "G1/4"}, NotHeld),
        ({"thread": "M8", "into": "cheese"}, Misuse),
        ({"thread": "M8", "grip_mm": -1.0}, Misuse),
        ({"thread": "M8", "grip_mm": float("nan")}, Misuse),
        ({"thread": "M8", "lack": ["hope"]}, Misuse),
        ({"thread": "wheel"}, Misuse),
        ({"thread": "M8", "into": "\udc88"}, Misuse),
        ({"thread": "M8", "was": "hexagon TI2"}, NotHeld),
    ],
)
def test_refusals_name_what_was_expected(store, asked, error):
    """One line that says what would do."""
    with pytest.raises(error, match=r"must be|expected|nearest|no "):
        replace(asked.pop("thread"), **asked, store=store)


def test_no_torque_is_reckoned_for_brakes(store):
    """What stops, steers or carries has the maker's value, and nothing in place of it."""
    answer = replace(
        "M12x1.5", was="brake caliper bolt, flange 10.9", into="cast iron", grip_mm=15, store=store
    )

    assert answer.options
    for option in answer.options:
        assert option.torque_nm is None and option.torque_max_nm is None
        assert "maker" in option.torque_reason
    assert () == answer.substitutes


@pytest.mark.parametrize(
    ("lack", "key", "gone"),
    [
        ("stainless", "finish", "passivated"),
        ("zinc flake", "finish", "zinc-flake"),
        ("A4-70", "grade", "A4-70"),
        ("T30", "drive", "T30"),
        ("hex head", "form", "hexagon"),
    ],
)
def test_what_the_shop_lacks_is_not_offered(store, lack, key, gone):
    """A finish, class, drive or head that is not to be had comes in no option."""
    asked = {"was": "pan head, zinc plated", "into": "aluminium", "place": "salt", "grip_mm": 12}
    before = replace("M6", **asked, store=store)
    after = replace("M6", **asked, lack=[lack], store=store)

    assert gone in {getattr(option, key) for option in before.options}
    assert gone not in {getattr(option, key) for option in after.options}
    assert after.options


@pytest.mark.parametrize(
    "asked",
    [
        {"thread": "M10 left-hand", "was": "hexagon 8.8"},
        {"thread": "M10", "was": "hexagon 8.8, left hand thread", "into": "nut"},
        {"thread": "M10 LH", "was": "hex nut", "into": "nut"},
    ],
)
def test_a_left_hand_thread_is_in_the_line(store, asked):
    """Whoever buys by the line gets no right-hand screw or nut."""
    answer = replace(asked.pop("thread"), **asked, store=store)

    for option in answer.options:
        assert option.line.endswith("LEFT-HAND THREAD")
        assert option.nut_line is None or option.nut_line.endswith("LEFT-HAND THREAD")
    assert answer.options


@pytest.mark.parametrize(
    ("asked", "line"),
    [
        (
            {"thread": "M6", "was": "grub screw M6x10, cone point"},
            "Set screw, cone point ISO 4027 – M6 × 10 – 45H, 3 mm hex socket",
        ),
        (
            {"thread": "M8", "was": "stud, rusted", "into": "cast iron", "grip_mm": 20},
            "Stud DIN 939 – M8 × 35 – 8.8, zinc plated",
        ),
        (
            {"thread": "M14x1.5", "was": "drain plug, copper washer", "into": "aluminium"},
            "sealing ring DIN 7603 A 14 × 18 × 1.5, copper",
        ),
    ],
)
def test_other_kinds_have_a_line_too(store, asked, line):
    """Set screws by point, studs by body, plugs by ring."""
    answer = replace(asked.pop("thread"), **asked, store=store)

    assert answer.line.startswith(line)
    assert () == answer.options


def test_denied_words_count_for_nothing(store):
    """`not rusted` is no rust, `never loose` no loosening."""
    answer = replace("M8", was="hexagon 8.8, not rusted, clean", store=store)

    assert [] == [state for state in answer.understood["state"] if state == "rusted"]
    assert "reuse" == answer.reuse.verdict


def test_a_torque_above_the_class_raises_it(store):
    """A pan head that was set to what 4.8 cannot stand was no 4.8."""
    low = replace("M6", was="pan head, zinc plated", torque_known_nm=5, store=store)
    high = replace("M6", was="pan head, zinc plated", torque_known_nm=15, store=store)

    assert "4.8" == low.understood["grade"]
    assert "8.8" == high.understood["grade"]


def test_the_document_is_plain(store):
    """Numbers, text, lists and objects, with its units in the keys."""
    plain = document(replace("M8", was="hexagon 8.8", grip_mm=20, into="nut", store=store))

    assert isinstance(plain["options"], list)
    assert plain["line"] == plain["options"][0]["line"]
    assert one(store, Make, id=plain["options"][0]["make"]) is not None


def test_a_nut_stands_the_heat_of_its_place(store):
    """No plated, oiled nut on an exhaust; a stainless one with paste where it is only hot."""
    hot = replace("M8", was="nut", place="exhaust manifold", store=store)
    warm = replace("M8", was="nut", place="200 °C", store=store)

    assert () == hot.options and "600 °C" in (hot.reason or "")
    assert warm.options
    for one_ in warm.options:
        assert "zinc-plated" != one_.finish or "flake" in one_.make
        assert "oil" != one_.lubricant


@pytest.mark.parametrize("was", ["10.9 brake caliper bolt", "steering knuckle bolt", "nut, brake"])
def test_nothing_slippery_under_a_makers_torque(was, store):
    """Oil under a value meant for dry threads overloads: what holds a life goes by its maker."""
    answer = replace("M10", was=was, store=store)

    assert answer.options
    for one_ in answer.options:
        assert "maker" == one_.lubricant
        assert "clean and dry" in one_.lubricant_words


def test_another_head_keeps_its_own_length(store):
    """Without the washer it is shorter: nobody is told to take the same length."""
    answer = replace("M8", was="8.8", into="aluminium", grip_mm=20, store=store)
    same = next(text for text in answer.substitutes if text.startswith("Other head"))

    assert answer.options[0].length_mm != answer.options[1].length_mm
    assert "same class and length" not in same and "× 35" in same


def test_a_ground_joint_has_one_torque(store):
    """A weaker class into soft metal: the joint's steps do not send its screw past its window."""
    answer = replace("M6", was="4.8", place="earth point", into="aluminium", store=store)

    first = answer.options[0]
    assert answer.ground.torque_max_nm <= first.torque_max_nm


@pytest.mark.parametrize(
    ("was", "options", "metals", "creeps"),
    [
        ("hexagon screw, plastic cover", {"into": "aluminium"}, ["aluminium"], True),
        ("pan head out of a plastic trim panel", {}, ["steel"], True),
        ("hexagon screw", {"into": "aluminium", "clamped": "plastic"}, ["aluminium"], True),
        ("hexagon, aluminium cover", {"into": "cast-iron"}, ["cast-iron", "aluminium"], False),
        ("hexagon, plastic cover", {"clamped": "magnesium"}, ["steel", "magnesium"], False),
    ],
)
def test_what_the_words_say_is_clamped(store, was, options, metals, creeps):
    """Plastic touches no metal in the wet, but creeps under a head; the option goes over words."""
    found = replace("M6", was=was, grip_mm=10, store=store, **options)

    assert () == found.not_understood
    assert metals == found.understood["metals"]
    assert creeps == any("plastic" in caution.lower() for caution in found.cautions)


@pytest.mark.parametrize(
    "was",
    [
        *("countersunk T25 stripped", "worn out hex", "chewed up", "cammed", "butchered slot"),
        *("snapped off", "sheared off flush", "threads gone", "thread stripped", "crusty"),
    ],
)
def test_a_part_that_failed_is_renewed(was):
    """However it is said."""
    answer = replace("M5", was=was)

    assert "renew" == answer.reuse.verdict
    assert not answer.not_understood


@pytest.mark.parametrize(
    ("asked", "grade"),
    [
        ({"thread": "M6", "was": "socket head, rusted", "into": "aluminium"}, "8.8"),
        ({"thread": "M8", "was": "socket head", "into": "cast iron"}, "12.9"),
        ({"thread": "M5", "was": "socket head"}, "12.9"),
    ],
)
def test_no_stronger_class_is_assumed_than_its_thread_can_use(store, asked, grade):
    """A socket screw in soft metal is no 12.9 that would strip its thread before it clamps."""
    found = replace(**asked, store=store)

    assert found.options
    assumed = {row["what"]: row["value"] for row in found.assumed}
    assert assumed["class of the old one (read its head)"] == grade


@pytest.mark.parametrize(
    ("thread", "was", "instead"),
    [
        ("M10x1", "bleed nipple", ("maker", "seat")),
        ("M10x1", "brake bleeder, rusted", ("maker",)),
        ("M18x1.5", "oxygen sensor", ("maker", "reach")),
        ("M10x1", "glow plug", ("maker", "reach")),
        ("M16x1.5", "hydraulic fitting", ("maker",)),
        ("M6", "hose clamp", ("clamp",)),
        ("M14", "castle nut, split pin", ("pin", "next slot", "never back")),
        ("M18x1.5", "gearbox fill plug", ("flange",)),
        ("M10x1", "brake line nut", ("maker",)),
        ("M12x1", "flare nut", ("maker",)),
    ],
)
def test_what_is_no_screw_gets_none(store, thread, was, instead):
    """No bolt off a shelf stands in for what seals, senses or is pinned."""
    found = replace(thread, was=was, store=store)

    assert not found.options
    assert all(word in (found.way or "") for word in instead)
