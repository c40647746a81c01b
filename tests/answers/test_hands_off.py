"""What nobody should loosen, mend or cut at home gets no plan, and is told who does it."""

import pytest

from fastkit.answers.extract import extract
from fastkit.answers.repair_read import read_line as repair_line
from fastkit.answers.replace import replace
from fastkit.answers.torque_read import read_line as torque_line
from fastkit.errors import NotHeld


@pytest.mark.parametrize(
    ("line", "instead"),
    [
        ("acetylene regulator nut stuck on bottle 32 mm oil it?", "no oil"),
        ("propane bottle valve nut seized rusty 27 mm", "supplier"),
        ("oxygen regulator nut 1 1/4 stuck got oil", "no oil"),
        ("lpg tank outlet flare nut 22mm seized rusty got a torch", "no heat"),
        ("gas meter union nut 1 1/2 seized", "gas fitter"),
        ("high voltage battery cover bolt M6 torx T30 stripped EV", "service plug"),
        ("lithium battery pack lid bolt M6 seized", "service plug"),
        ("ev orange cable terminal bolt M8 stuck", "service plug"),
        ("oil drum bung seized want to cut it out with grinder", "no spark"),
        ("M10 bolt on an empty petrol drum seized", "no spark"),
        ("ball valve gland nut on hot water cylinder seized steam still in", "cold"),
        ("boiler flue bolt seized asbestos rope round it wire brush and grind", "licensed"),
        ("hv junction box screw m5 seized", "service plug"),
        ("m8 nut on a propane hose fitting leaks", "supplier"),
        ("split rim wheel nut M16 seized tyre inflated no idea", "valve core"),
        ("crane hook shackle pin seized want to cut with grinder", "out of use"),
        ("garage door torsion spring set screw 3/8 square stuck", "winding bars"),
        ("acetylene bottle 32 mm nut stuck", "no oil"),
        ("nut on the valve of a propane bottle seized", "supplier"),
        ("propane bottle is leaking, nut 27 mm stuck", "supplier"),
        ("regulator nut wont come off the oxygen bottle 32mm", "no oil"),
        ("nut from lpg tank 22 mm seized", "no heat"),
        ("27mm nut to gas bottle stuck", "no oil"),
        ("gas cylinders cap stuck 27 mm nut", "no oil"),
        ("propane-bottle valve nut 27 mm stuck", "supplier"),
        ("acetylene botle nut 32 mm stuck", "no oil"),
        ("proprane bottle nut stuck 27", "supplier"),
        ("got a propane bottle, valve nut 27 stuck", "supplier"),
        ("argon bottle valve nut 30 mm seized", "supplier"),
        ("m10 bolt in split rim 17 mm seized", "valve core"),
        ("crane hook 24 mm nut off, seized, m16", "out of use"),
        ("spring brake chamber clamp bolt m10 lorry rusted", "renewed whole"),
        ("unexploded shell nose fuze bolt m20 stuck", "police"),
        ("bolt m8 on truck wheel clamp ring, tyre inflated", "valve core"),
        ("bead lock ring bolt m8 seized, tyre at 2 bar", "valve core"),
        ("lpg cylinder valve bolt m10 stuck", "no blows"),
        ("mast shroud turnbuckle nut m10 seized rigging tight", "rigger"),
        ("m8 bolt rusted garage door spring 300 mm off", "door fitter"),
        ("m8 bolt rusted asbestos 300 mm off", "licensed"),
        ("clamp ring bolt m10 brake chamber, spring brake", "renewed whole"),
        ("garage door cable bracket bottom bolt m8 rusted", "door fitter"),
        ("torsion spring drum set screw garage door", "door fitter"),
        ("accumulator bolt m10 hydraulic nitrogen charged seized", "discharged"),
        ("capacitor screw terminal m5 stripped in a welder", "stored charge"),
        ("microwave screw security torx stuck", "stored charge"),
        ("crt tv back m4 screw stripped", "stored charge"),
        ("solar inverter dc terminal m4 screw on roof stuck", "licensed"),
        ("ebike battery case screw m3 stripped lithium", "service plug"),
        ("lithium-ion pack screw m3 stuck", "service plug"),
        ("consumer unit terminal screw live stripped", "proved dead"),
        ("overhead power line clamp m12 seized", "network operator"),
        ("steam boiler manhole stud m16 snapped", "licensed"),
        ("gas hob jet m6 stuck", "gas fitter"),
        ("nitrous bottle nut stuck 22mm", "supplier"),
        ("welding cylinder cap seized", "supplier"),
        ("aeroplane propeller bolt m10 seized", "licensed aircraft"),
        ("helicopter rotor bolt m12 seized", "licensed aircraft"),
        ("gun barrel nut seized 32 mm", "gunsmith"),
        ("ammo box latch screw m4 stuck with rounds in", "gunsmith"),
        ("lift car safety gear bolt m12 seized", "lift engineer"),
        ("hospital bed hoist bolt m10 seized", "lift engineer"),
        ("eye bolt m16 lifting gear seized in motor", "out of use"),
        ("scaffold clamp nut rusted 21 mm", "scaffolder"),
        ("boat through-hull bolt m10 seized in the water", "out of the water"),
        ("sea cock flange bolt m8 seized, boat afloat", "out of the water"),
    ],
)
def test_no_plan_but_a_word_on_who_does_it(store, line, instead):
    with pytest.raises(NotHeld, match=instead):
        extract(line, store=store)


@pytest.mark.parametrize(
    "ask",
    [
        lambda store: repair_line("m14x1.5 lpg tank valve boss stripped".split(), store),
        lambda store: repair_line("m8 high voltage battery case stripped alu lid".split(), store),
        lambda store: repair_line("m24 lifting eye hole stripped in cast iron".split(), store),
        lambda store: torque_line("m14x1.5 acetylene regulator nut".split(), store),
        lambda store: torque_line("m16 10.9 lifting eye".split(), store),
        lambda store: replace("M16", was="lifting eye bolt rusty grade 10.9", store=store),
        lambda store: replace("M8", was="propane regulator brass screw", store=store),
        lambda store: replace("M6", was="high voltage battery cover bolt", store=store),
        lambda store: torque_line("m12 8.8 aeroplane wing bolt".split(), store),
        lambda store: repair_line("m8 gun receiver stripped".split(), store),
        lambda store: repair_line("m6 aeroplane bracket hole stripped".split(), store),
        lambda store: replace("M8", was="sling shackle pin", store=store),
        lambda store: replace("M8", was="bolt of a crane hook 13 mm", store=store),
        lambda store: torque_line("m12 nut on the valve of a gas bottle".split(), store),
        lambda store: repair_line("m10 thread in an acetylene botle stripped".split(), store),
    ],
)
def test_neither_mended_nor_replaced_nor_set(store, ask):
    with pytest.raises(NotHeld, match="instead"):
        ask(store)


@pytest.mark.parametrize(
    "line",
    [
        "M8 bolt 13 mm seized, propane tank 300 mm away",
        "M6 T30 worn next to the high voltage battery",
        "M10 bolt rusted, got oxy acetylene",
        "M8 bolt rusted, gas strut touching",
        "rear drum M6 countersunk screw seized",
        "gas tank strap bolt 13 mm rusted",
        "M8 bolt seized, steam cleaned, hv cable 200 mm off",
        "m12 bolt in the steam engine's frame rusted",
        "leaf spring shackle bolt m12 seized rusted",
        "petrol tank sender screw m5 seized",
        "M8 bolt 13 mm seized 300 mm off the propane tank",
        "M8 bolt seized beside the fuel line and the lpg tank",
        "M8 bolt seized, close to a gas bottle",
        "M8 bolt seized, hv cable at 200 mm",
        "M8 bolt seized, hv cable touching",
        "M8 bolt seized, got no gas bottle",
        "M8 bolt seized, away from the hybrid battery",
        "M8 bolt seized, got lithium grease",
        "M8 screw into aircraft grade aluminium, seized",
        "elevator bolt m8 rusted",
        "fire extinguisher bracket screw m5 rusted",
        "gas cooker hood screw m4 stripped",
        "pressure cooker handle screw m5 stripped",
        "mower deck bolt m10 rusted, pistol grip drill",
        "live axle bolt m12 rusted",
        "boat trailer bolt m12 rusted",
        "sand blasting cabinet door screw m6 stripped",
        "engine lifting hook bolt m8 seized",
    ],
)
def test_what_only_stands_near_stops_nothing(store, line):
    assert extract(line, store=store).plan


@pytest.mark.parametrize(
    ("name", "rules"),
    [
        ("oxygen bottle", "fuel"),
        ("propane cylinder", "fuel"),
        ("petrol drum", "fuel"),
        ("gas meter", "fuel"),
        ("split rim", "tyre"),
        ("steam pipe", "pressurised"),
        ("lithium battery", "battery"),
        ("capacitor", "electronics"),
    ],
)
def test_what_stands_near_is_kept_clear_of(store, name, rules):
    """The words that the refusal asks for are read, and bring their distances."""
    told = extract(f"M8 bolt rusted, {name} 30 mm off", store=store)

    assert (rules, 30.0) in [(near.thing, near.mm) for near in told.situation.near]
    assert not set(name.split()) & set(told.not_understood)


def test_a_word_that_would_let_it_pass_is_said(store):
    """Who only has it standing near learns how to say so."""
    with pytest.raises(NotHeld, match="300 mm off"):
        extract("M8 bolt seized, hv cable 200 mm", store=store)
