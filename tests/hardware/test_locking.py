"""Which lock, and what on the thread: what practice asks for, case by case."""

import pytest

from fastkit.hardware.locking import choose, on_thread, wants_lock
from fastkit.hardware.old import Old, Place
from fastkit.records.replacement import Lock, Make
from fastkit.reference.lookup import many

HOT, HOTTER, HOTTEST = 140.0, 220.0, 350.0  # degC: over nylon's 120, a locker's 149, wedges' 300


@pytest.fixture(scope="module")
def locks(store):
    return many(store, Lock)


@pytest.fixture(scope="module")
def makes(store):
    return {row.id: row for row in many(store, Make)}


@pytest.mark.parametrize(
    ("old", "place", "wanted"),
    [
        (Old(), Place(), False),
        (Old(), Place(flags=("vibration",)), True),
        (Old(states=("came-loose",)), Place(), True),
        (Old(had=("locker",)), Place(), True),
        (Old(had=("cotter",)), Place(), True),
        (Old(kind="lock-nut"), Place(), True),
        (Old(states=("rusted",)), Place(level=4), False),
    ],
)
def test_a_joint_that_shakes_or_was_locked_wants_a_lock(old, place, wanted):
    assert wanted == wants_lock(old, place)


@pytest.mark.parametrize(
    ("joint", "body", "mm", "degc", "flat", "insulated", "lock"),
    [
        # a small thread must open again by hand; a larger one takes the medium strength
        ("tapped", "steel", 5.0, None, True, False, "threadlocker-low"),
        ("tapped", "steel", 8.0, None, True, False, "threadlocker-medium"),
        # past 149 °C the usual lockers are gone, past 232 °C all of them: washers with wedges
        ("tapped", "aluminium", 8.0, HOTTER, True, False, "threadlocker-high-heat"),
        ("tapped", "steel", 8.0, 290.0, True, False, "wedge-washers"),
        # nylon is gone past 120 °C
        ("nut", "steel", 8.0, None, True, False, "nut-nylon"),
        ("nut", "steel", 8.0, HOT, True, False, "nut-metal"),
        # a cone has no flat to put a washer under; a sleeve parts it from the washers' ribs
        ("tapped", "steel", 8.0, 290.0, False, False, None),
        ("tapped", "steel", 8.0, 290.0, True, True, None),
        ("nut", "steel", 8.0, HOTTEST, True, False, None),
        # plastic is held by its insert; adhesives crack it
        ("tapped", "plastic", 8.0, None, True, False, "preload"),
    ],
)
def test_one_lock_that_stands_the_heat(locks, joint, body, mm, degc, flat, insulated, lock):
    found = choose(locks, True, joint, body, mm, degc, flat, insulated)

    assert lock == (found and found.id)
    assert "preload" == choose(locks, False, joint, body, mm, degc, flat, insulated).id


@pytest.mark.parametrize("lock", ["threadlocker-low", "threadlocker-medium"])
@pytest.mark.parametrize("body", ["steel", "aluminium"])
def test_never_a_locker_and_a_paste_together(locks, makes, lock, body):
    """Neither holds with the other, whatever the fastener and the place."""
    chosen = next(row for row in locks if row.id == lock)
    for make in makes.values():
        for place in (Place(), Place(level=4), Place(temperature_degc=HOT)):
            assert ("none", "threadlocker") == on_thread(make, chosen, body, place)


def test_what_goes_on_the_thread(locks, makes):
    """Stainless is never dry but in plastic or current; zinc paste on light metal; food white."""
    bare = next(row for row in locks if row.id == "preload")
    stainless = [row for row in makes.values() if row.finish == "passivated"]
    zinc = next(row for row in makes.values() if row.finish == "zinc-plated")
    assert stainless
    for make in stainless:
        assert "anti-seize-nickel" == on_thread(make, bare, "steel", Place()).lubricant
        assert "anti-seize-zinc" == on_thread(make, bare, "aluminium", Place()).lubricant
        hot = Place(temperature_degc=HOTTER)
        assert "anti-seize-white" == on_thread(make, bare, "aluminium", hot).lubricant
        food = on_thread(make, bare, "steel", Place(flags=("food",)))
        assert "anti-seize-white" == food.lubricant
        assert "none" == on_thread(make, bare, "plastic", Place()).lubricant
    assert "oil" == on_thread(zinc, bare, "steel", Place()).lubricant
    assert "anti-seize-zinc" == on_thread(zinc, bare, "aluminium", Place(level=4)).lubricant
    assert "none" == on_thread(zinc, bare, "steel", Place(), conducts=True).lubricant
    assert Make is type(zinc)
    assert "maker" == on_thread(zinc, bare, "steel", Place(), safety=True).lubricant
