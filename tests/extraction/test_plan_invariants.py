"""What must hold of every plan, whatever the situation."""

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from fastkit.extraction.plan import plan
from fastkit.extraction.situation import Near, Situation
from fastkit.extraction.solving import solve
from fastkit.extraction.tree import tree
from tests.extraction.coarse import COARSE, TINY, expected

FEW = settings(
    max_examples=12, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
MANY = settings(FEW, max_examples=40)
TOOLS = [
    *("penetrant", "induction-heater", "torch", "punch", "hand-impact-driver", "locking-pliers"),
    *("breaker-bar", "ratchet", "key", "weld-nut", "cut-slot-disc", "far-side", "two-nuts"),
]
TRIED = [
    *("seat-bit", "better-bit", "soak-penetrant", "shock-tap", "six-point-socket", "steady-bar"),
    *("clamp-wrench", "flame-heat", "hand-impact-driver", "drill-out-retap"),
]
HOT = {"flame-heat", "iron-heat", "weld-nut", "induction-heat", "cut-slot-disc"}

DRIVES = st.sampled_from(
    [("M8x1.25", "hex-6mm"), ("M6x1", "T30"), ("M5x0.8", "PH2"), ("M8x1.25", "AF-13mm")]
)
ROOM = st.one_of(st.none(), st.sampled_from([5.0, 12.0, 30.0, 60.0, 90.0, 140.0, 250.0]))
NEAR = st.lists(
    st.builds(
        Near,
        st.sampled_from(["fuel", "rubber", "wiring", "electronics", "battery", "brake-fluid"]),
        st.sampled_from([0.0, 20.0, 60.0, 150.0, 400.0]),
    ),
    max_size=2,
).map(tuple)


NUT = Situation("nut", "M12x1.75", "4.8", "AF-18mm", "spinning", beside_mm=15.0)
NUT = NUT._replace(residue="chlorinated", lack=("hacksaw",), spoil_min=600.0)


@st.composite
def situations(draw):
    """A fastener in some state, somewhere, beside something."""
    thread, drive = draw(DRIVES)
    outer = drive.startswith("AF")
    gone = "rounded" if outer else "stripped"
    damage = draw(
        st.sampled_from(["intact", "worn", gone, "snapped-proud", "snapped-flush", "spinning"])
    )
    return Situation(
        kind="bolt" if outer else "screw",
        thread=thread,
        grade="8.8",
        drive=drive,
        damage=damage,
        seized=draw(st.sampled_from(["none", "rusted", "seized", "galled", "threadlocked-high"])),
        into=draw(st.sampled_from(["steel", "aluminium", "cast-iron", "plastic"])),
        load=draw(st.sampled_from(["none", "unknown", "spring"])),
        residue=draw(st.sampled_from(["none", "none", "flammable", "chlorinated"])),
        far_side=draw(st.sampled_from(["unknown", "reachable", "blind"])),
        above_mm=draw(ROOM),
        beside_mm=draw(ROOM),
        swing_deg=draw(st.one_of(st.none(), st.sampled_from([5.0, 30.0, 90.0]))),
        near=draw(NEAR),
    )


@st.composite
def anywhere(draw):
    """The same with everything else that can be said of it, nuts, studs and tubes among."""
    situation = draw(situations())
    kinds = {"AF-13mm": ("bolt", "nut", "stud"), "hex-6mm": ("screw", "bolt")}
    pick = lambda *values: draw(st.sampled_from(values))  # noqa: E731
    kind = pick(*kinds.get(situation.drive, ("screw",)))
    return situation._replace(
        kind=kind,
        grade=pick("8.8", "4.8", "10.9", "A2-70"),
        damage=pick(situation.damage, "snapped-below", "nut-spinning", "tool-stuck")
        if kind in ("bolt", "screw")
        else situation.damage,
        seized_at=pick("unknown", "thread", "head", "shank"),
        left_hand=pick(False, False, True),
        coating=pick("unknown", "plain", "zinc", "cadmium", "stainless"),
        load=pick(situation.load, "weight", "pressure"),
        support=pick("unknown", "stands", "jack", "bench"),
        recess=pick("clean", "clean", "filled"),
        wasted_pct=pick(0.0, 0.0, 20.0, 60.0),
        into=pick(situation.into, "magnesium", "brass", "sheet", "wood"),
        engage_mm=pick(None, 4.0, 20.0),
        stub_mm=pick(None, 2.0, 8.0),
        side_mm=pick(None, None, (0.0, 0.0), (20.0, 10.0), (60.0, 40.0)),
        pocket_mm=pick(None, None, (16.0, 20.0), (30.0, 60.0)),
        no_heat=pick(False, False, True),
        power=pick(None, None, "none", "electric", "air"),
        lack=tuple(sorted(draw(st.sets(st.sampled_from(TOOLS), max_size=3)))),
        can=pick(None, None, (), (("make-room", None),), (("bench", 30.0),)),
        tried=tuple(draw(st.lists(st.sampled_from(TRIED), max_size=2, unique=True))),
        spoil_min=pick(120.0, 10.0, 600.0),
        insert=pick(False, False, True),
    )


def minutes(situation, facts):
    """The same by the rows for this situation."""
    return expected(situation, facts(situation))


@given(situation=anywhere().map(lambda situation: situation._replace(tried=())))
@example(situation=NUT)
@FEW
def test_more_room_never_costs_time(situation, facts):
    """
    Any axis freed, alone or all: the best expected time does not rise by more than a fiftieth.

    Where room can be made, what failed before may be tried once more in it, which a place that is
    free from the first does not grant: in a pocket with its side shut that has been worth 0.3 %.
    """
    axes = ("above_mm", "beside_mm", "swing_deg", "side_mm", "pocket_mm")
    took = minutes(situation, facts)
    for free in (*({axis: None} for axis in axes), dict.fromkeys(axes)):
        assert minutes(situation._replace(**free), facts) <= took * 1.02


@given(situation=situations())
@FEW
def test_a_neighbour_less_never_costs_time(situation, facts):
    """One neighbour taken away, then all: the best expected time does not rise."""
    took = minutes(situation, facts)
    for near in (situation.near[1:], ()):
        assert minutes(situation._replace(near=near), facts) <= took + TINY


@given(situation=situations(), lack=st.sets(st.sampled_from(TOOLS), min_size=1, max_size=4))
@FEW
def test_a_further_tool_never_costs_time(situation, lack, facts):
    """
    Tools and power that were lacking come to hand: the best expected time does not rise.

    But by drying off, which is due before all else as soon as a tool makes possible what the
    residue would light or poison.
    """
    without = situation._replace(lack=tuple(sorted(lack)), power="none")
    dry = next(row.minutes for row in facts(situation).methods if row.id == "dry-off")
    took = minutes(without, facts) + (TINY if situation.residue == "none" else dry + TINY)
    for more in ({"power": None}, {"lack": without.lack[1:]}, {"lack": (), "power": None}):
        assert minutes(without._replace(**more), facts) <= took


@given(situation=situations())
@FEW
def test_less_damage_never_takes_longer(situation, facts):
    """Intact, worn, gone; proud, flush, below: each takes no less than the one before."""
    gone = "rounded" if situation.kind == "bolt" else "stripped"
    for order in (("intact", "worn", gone), ("snapped-proud", "snapped-flush", "snapped-below")):
        took = [minutes(situation._replace(damage=damage), facts) for damage in order]
        assert took[0] <= took[1] + TINY
        assert took[1] <= took[2] + TINY


@pytest.mark.parametrize("damage", ["intact", "worn"])
def test_what_oil_opens_is_followed(facts, damage):
    """Of a galled screw no turn is open dry: the policy oils it first, though heat is as strong."""
    situation = Situation("screw", "M8x1.25", "8.8", "hex-6mm", damage, "galled", into="steel",
                          above_mm=30.0, beside_mm=30.0, swing_deg=60.0)  # fmt: skip
    solved = solve(situation, facts(situation), *COARSE)

    state, choice = solved.state, solved.policy.best(solved.state)
    assert choice.move == solved.roots[0].move
    while choice.candidate is None or not choice.candidate.chain:
        state = choice.branches[0].state
        choice = solved.policy.best(state)
    assert state.residue == "flammable"
    soaks = situation._replace(lack=("work-back-and-forth",))  # that is done in oil as well
    solved = solve(soaks, facts(soaks), *COARSE)
    assert solved.policy.best(solved.state).move == "soak-penetrant" == solved.roots[0].move


def test_oil_in_a_galled_thread_is_not_dried_off_first(facts):
    """What burns is dried off before all else, but where a thread turned dry galls."""
    for seized, due in (("galled", False), ("rusted", True)):
        situation = Situation("bolt", "M8x1.25", "A2-70", "AF-13mm", seized=seized)
        solved = solve(situation._replace(residue="flammable"), facts(situation), *COARSE)
        assert ("dry-off" in [gate for gate, _ in solved.gates]) == due


@given(situation=situations())
@FEW
def test_a_neighbour_less_rules_nothing_out(situation, facts):
    """What could be done beside something can be done without it."""
    alone = situation._replace(near=())
    offered = {item.move for item in solve(situation, facts(situation), *COARSE).roots}
    solved = solve(alone, facts(alone), *COARSE)
    then = {item.move for item in solved.roots} | {gate for gate, _ in solved.gates}

    room_makers = {"make-room", "drop-assembly", "bench"}  # nothing left to make room from
    assert offered - room_makers <= then


@given(situation=anywhere())
@FEW
def test_plan_is_well_formed(situation, facts):
    """Chances lie in 0..1, shares sum to one, no margin is negative, a method stands once."""
    rows = facts(situation)
    made = plan(situation, rows, ())
    offered = [move.method for move in made.moves]
    out = [row.method for row in made.ruled_out]

    assert 0 <= made.chance <= 1
    assert list(range(1, len(offered) + 1)) == [move.rank for move in made.moves]
    assert not set(offered) & set(out)
    assert len(offered) == len(set(offered))
    for move in made.moves:
        assert 0 < move.chance <= 1
        assert abs(sum(share for _, share in move.outcomes) - 1) < 1e-6
        assert all(margin is None or margin >= 0 for margin in move.margins)
    for row in made.ruled_out:
        assert row.because.code
        assert row.short_by is None or row.short_by.amount > 0


@given(situation=anywhere())
@settings(FEW, max_examples=40)
def test_what_is_offered_fits_and_is_let_be(situation, facts):
    """Read from the rows again: no tool larger than its room, no hazard too near a neighbour."""
    rows = facts(situation)
    tools = {(row.method, row.id): row for row in rows.variants}
    forbid = {(row.neighbour, row.hazard): row.forbid_mm for row in rows.clearances}
    hazards = {(row.method, row.hazard) for row in rows.method_hazards}
    of_tools = {(row.method, row.variant, row.hazard) for row in rows.variant_hazards}
    gates = {row.id for row in rows.methods if row.kind == "gate"}
    for move in plan(situation, rows, ()).moves:
        if move.method in gates:
            continue
        if tool := tools.get((move.method, move.variant or "")):
            for room, needs in (
                (situation.above_mm, tool.above_mm),
                (situation.beside_mm, tool.beside_mm),
                (situation.swing_deg, tool.swing_deg),
                (situation.pocket_mm and situation.pocket_mm[0], tool.pocket_diameter_mm),
                (situation.side_mm and situation.side_mm[0], tool.side_width_mm),
                (situation.side_mm and situation.side_mm[1], tool.side_depth_mm),
            ):
                assert room is None or needs is None or needs <= room
        for near in situation.near:
            near_hazards = {hazard for method, hazard in hazards if method == move.method}
            near_hazards |= {
                hazard for *of, hazard in of_tools if of == [move.method, move.variant]
            }
            assert all(near.mm >= forbid.get((near.thing, hazard), 0) for hazard in near_hazards)


@given(situation=anywhere())
@FEW
def test_chances_sum_to_one(situation, facts):
    """Of every first move, before the plan words them: what may come of it is all of it."""
    for choice in solve(situation, facts(situation), *COARSE).roots:
        assert abs(sum(branch.share for branch in choice.branches) - 1) < 1e-6


@given(situation=situations(), wasted=st.sampled_from([0.0, 40.0]))
@MANY
def test_nothing_is_turned_that_breaks_twice_as_often_as_it_comes(situation, wasted, facts):
    """Neither a head is wrung off nor a hard extractor broken at worse than two to one."""
    situation = situation._replace(wasted_pct=wasted)
    for move in plan(situation, facts(situation), ()).moves:
        odds = dict(move.outcomes)
        broken = odds.get("broken-extractor", 0.0)
        if not situation.damage.startswith("snapped"):
            broken += odds.get("snapped", 0.0)
        assert broken <= 2.1 * odds.get("free", 1.0), move.method


@given(situation=anywhere())
@FEW
def test_every_method_is_answered(situation, facts):
    """Offered or ruled out with a rule or a number: nothing is passed over in silence."""
    rows = facts(situation)
    made = plan(situation, rows, ())
    answered = {move.method for move in made.moves} | {row.method for row in made.ruled_out}

    assert {row.id for row in rows.methods if row.kind in ("treat", "turn", "part")} <= answered
    for row in made.ruled_out:
        assert row.short_by or all(value != "" for value in row.because.values)
        assert row.because.values


@given(situation=anywhere())
@FEW
def test_the_plan_ends(situation, facts):
    """Followed along its best moves, whatever comes of them, it never comes back to a state."""
    solved = solve(situation, facts(situation), *COARSE)
    ended, above = set(), set()

    def follow(state):
        assert state not in above
        above.add(state)
        for branch in solved.policy.best(state).branches:
            if branch.state is not None and branch.state not in ended:
                follow(branch.state)
        above.remove(state)
        ended.add(state)

    follow(solved.state)


@given(situation=anywhere())
@FEW
def test_nothing_hot_on_a_residue(situation, facts):
    """Anywhere in the policy: no heat or sparks on what burns or what is chlorinated."""
    rows = facts(situation)
    solved = solve(situation, rows, *COARSE)
    sparks = {(row.method, row.variant) for row in rows.variant_hazards if row.hazard == "sparks"}
    for state in list(solved.policy.states()):
        if state.residue != "none":
            found = solved.options.open(state.damage, state.residue, state.room)
            assert not HOT & {item.method.id for item in found}
            assert not sparks & {(row.method.id, row.variant.id) for row in found if row.variant}


@pytest.mark.parametrize(
    ("residue", "offered"), [("none", True), ("flammable", False), ("chlorinated", False)]
)
def test_a_tool_that_sparks_waits_until_what_burns_is_off(residue, offered, facts):
    """A burr where no punch is at hand: on a dry part alone."""
    stuck = Situation(
        "bolt", "M8x1.25", grade="8.8", damage="extractor-broken", lack=("punch",), residue=residue
    )
    solved = solve(stuck, facts(stuck), *COARSE)
    found = solved.options.open("extractor-broken", residue, 0)
    assert ("pick-out-broken-key" in {item.method.id for item in found}) == offered


@given(situation=anywhere())
@FEW
def test_a_chlorinated_residue_is_never_covered_up(situation, facts):
    """No soak laid over it, and no drying off of that soak, makes it another residue."""
    solved = solve(situation._replace(residue="chlorinated"), facts(situation), *COARSE)

    assert {state.residue for state in solved.policy.states()} <= {"chlorinated"}


@given(situation=anywhere())
@FEW
def test_same_input_same_plan(situation, facts):
    """A plan depends on nothing but its input."""
    rows = facts(situation)

    assert plan(situation, rows, ()) == plan(situation, rows, ())


@given(situation=anywhere())
@FEW
def test_the_tree_begins_as_the_plan(situation, facts):
    """The gates, then the best move, at the plan's minutes and chance; or nothing helps."""
    rows = facts(situation)
    made, node = plan(situation, rows, ()), tree(situation, rows)
    if node is None:
        assert not made.moves
        return
    assert made.expected_minutes == pytest.approx(node.expected_minutes)
    assert made.chance == pytest.approx(node.chance)
    for move in made.moves:
        assert node.move == move.method
        if move.why[0].code != "due_first":
            return
        node = node.outcomes[0].then
    assert node.move == "stop"


@given(situation=situations())
@FEW
def test_failure_never_helps_a_weaker_tool(situation, facts):
    """After a failed attempt no turn that reaches no further is offered as if it might work."""
    solved = solve(situation, facts(situation), *COARSE)
    for choice in solved.roots:
        slipped = [item for item in choice.branches if item.name == "nothing"]
        if choice.candidate is None or not choice.candidate.chain or not slipped:
            continue
        for _, turn in solved.policy.turns(slipped[0].state):
            if turn.first_slip <= slipped[0].state.bound < turn.count:
                assert turn.outcomes(slipped[0].state.bound)[0] < 1e-3


@given(situation=situations(), proud=st.booleans())
@FEW
def test_a_longer_stub_never_costs_time(situation, proud, facts):
    """The further it stands proud, or the less deep it sits, the sooner it is out."""
    damage = "snapped-proud" if proud else "snapped-below"
    lengths = (1.0, 4.0, 8.0, 14.0, 40.0) if proud else (60.0, 30.0, 12.0, 5.0, 1.0)
    stubs = [situation._replace(damage=damage, stub_mm=length) for length in lengths]
    took = [expected(stub, facts(stub)) for stub in stubs]
    for longer, shorter in zip(took[1:], took, strict=False):
        assert longer <= shorter + TINY


def test_what_is_offered_as_on_a_worse_one_is_not_ruled_out(facts):
    """No heat but a welder's: a nut is welded on a sound head after all, and said once."""
    lack = ("torch", "induction-heater", "soldering-iron", "hot-air-gun")
    situation = Situation("bolt", "M10x1.5", "8.8", "AF-17mm", seized="threadlocked-high")
    situation = situation._replace(lack=lack)
    made = plan(situation, facts(situation), ())

    assert made.moves[0].method == "weld-nut"
    assert "weld-nut" not in [row.method for row in made.ruled_out]


@pytest.mark.parametrize("thing", ["fuel", "electronics"])
def test_a_last_way_that_is_forbidden_here_is_told_with_its_move(thing, facts):
    """What sparks beside fuel comes last only after a move, and the stop rule says which."""
    situation = Situation(
        "nut", "M10x1.5", "8.8", "AF-17mm", "intact", seized="rusted", near=(Near(thing, 10.0),)
    )

    found = plan(situation, facts(situation), ())

    told = found.stop_when[0]
    assert told.code == "after_failures_moved"
    assert told.values[0] in {out.method for out in found.ruled_out}
    assert told.values[1] in {"make-room", "drop-assembly", "bench"}
