"""The workshop's own tables: whole, in bounds, and saying nothing that the situation cannot."""

import csv
import re
import tomllib
from collections import Counter
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from fastkit.extraction.bare_sizes import USUAL
from fastkit.extraction.gates import at_hand
from fastkit.extraction.situation import Near, Situation
from fastkit.joint.remains import jaw_capacity
from fastkit.records.bench import Bench, BenchNumber

DATA = Path(__file__).parents[2] / "data"
METHODS: list[dict[str, Any]] = tomllib.loads((DATA / "methods.toml").read_text(encoding="utf-8"))[
    "method"
]
JAWS = "clamp-wrench"  # by a formula: their force does not grow with what they grip
BY_ID = {method["id"]: method for method in METHODS}
SLUGS = """
    unload isolate clean-thread clean-recess dry-off soak-penetrant shock-tap warm-host
    tighten-first work-back-and-forth steady-bar better-bit seat-bit oversize-bit grit-paste
    press-and-turn hand-impact-driver power-impact six-point-socket gripping-socket
    next-size-socket line-wrench clamp-wrench cut-slot-handsaw cut-slot-blade
    cut-slot-oscillating cut-slot-disc file-flats chisel-turn weld-nut induction-heat flame-heat
    iron-heat chill-spray left-hand-drill right-hand-drill spiral-extractor straight-extractor
    drill-head-off stud-grip split-nut taper-split cut-shank cut-tube-socket far-side
    pull-while-turning hold-captive pick-out-broken-key drill-out-retap make-room drop-assembly
    bench machine-shop oil-thread press-home core-out pin-wrench clear-beside
""".split()
WORDS = {
    "kind": "screw bolt nut stud tube-nut",
    "damage": "intact worn stripped rounded tool-stuck extractor-broken snapped-proud "
    "snapped-flush snapped-below spinning nut-spinning",
    "seized": "none rusted seized galled painted threadlocked-low threadlocked-medium "
    "threadlocked-high",
    "seized_at": "thread head shank unknown",
    "coating": "plain zinc cadmium stainless unknown",
    "load": "none spring pressure vented weight unknown",
    "far_side": "reachable blind unknown",
    "residue": "none flammable chlorinated",
    "support": "stands jack jack-alone bench unknown",
    "recess": "clean filled",
    "into": "steel cast-iron aluminium magnesium brass plastic sheet wood glass ceramic carbon",
    "left_hand": "true false",
    "no_heat": "true false",
}
NEAR = """
    fuel brake-fluid electronics wiring rubber plastic paint battery bearing airbag refrigerant
    tyre pressurised running hot live implant lead-paint fluororubber ptfe sodium beryllium
    hollow
""".split()
SMALL_FLANGES = ("EN 1662", "ISO 15071")  # whose hexagon is another size's usual one
HOT = ("flame-heat", "weld-nut", "induction-heat", "iron-heat")


@cache
def rows(name: str) -> list[dict[str, str]]:
    """Return the rows of a data file."""
    with (DATA / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def bench() -> Bench:
    """The numbers of practice, as the planner reads them."""
    kept = [{**row, "value": float(row["value"])} for row in rows("bench_numbers.csv")]
    return Bench(BenchNumber(**row) for row in kept)


def spoken_of(row: dict[str, str]) -> list[str]:
    """Return the methods of a line: those named, or all but those."""
    names = row["method"].split()
    return [name for name in BY_ID if name not in names[2:]] if names[0] == "all" else names


def vetoed(method: str, **seen: str) -> bool:
    """Say whether a rule of the method holds when the situation says what is seen, and no more."""
    rules: dict[str, list[bool]] = {}
    for row in rows("vetoes.csv"):
        if method in spoken_of(row):
            hit = row["field"] in seen and seen[row["field"]] in row["value"].split()
            rules.setdefault(row["rule"], []).append(hit)
    return any(all(hits) for hits in rules.values())


def nearest(neighbour: str, method: str) -> float:
    """Return the distance below which a neighbour forbids a method, mm; 0: never."""
    return max(
        (
            float(row["forbid_mm"])
            for row in rows("clearances.csv")
            if row["neighbour"] == neighbour and row["hazard"] in BY_ID[method].get("hazards", ())
        ),
        default=0.0,
    )


def test_every_method_stands() -> None:
    """All slugs, each once."""
    assert Counter(SLUGS) == Counter(method["id"] for method in METHODS)


@pytest.mark.parametrize("method", METHODS, ids=[method["id"] for method in METHODS])
def test_method_can_be_read_under_a_machine(method: dict[str, Any]) -> None:
    """Two to five short steps, at least one caution, a tool; `isolate` tells some of its own."""
    steps = [text for text in method["steps"] if tagged(text)[0] not in INSTEAD]
    assert 2 <= len(steps) <= (11 if method["id"] == "isolate" else 5)
    assert method["cautions"]
    assert all(len(tagged(text)[1]) <= 130 for text in method["steps"] + method["cautions"])
    tools = [row for row in rows("variants.csv") if row["method"] == method["id"]]
    assert tools or method["kind"] == "room" or method["id"] == "machine-shop"


def test_kinds_have_what_the_planner_asks_of_them() -> None:
    """Odds for what is not turned, a grip for what is, a hold where no formula gives one."""
    for method in METHODS:
        name, kind = method["id"], method["kind"]
        assert ("chance" in method) == (kind in ("gate", "part", "room")), name
        assert kind != "turn" or "grip" in method, name
        held = method.get("grip") in ("rim", "shank", "far-side") and name != JAWS
        assert ("hold" in method) == held, name
        assert kind != "room" or "opens" in method, name


def test_jaws_hold_less_than_cams_and_no_cold_grip_more_than_the_shank() -> None:
    """An M8 8.8 shank breaks at 33 N·m (ISO 898-7); jaws on it slip well before."""
    jaws, cam = jaw_capacity(8.0, bench()) / 1000, BY_ID["stud-grip"]["hold"] * 8.0**2
    assert jaws < 0.5 * 33
    assert jaws < cam <= 33


def test_numbers_of_the_bench_are_asked_for_and_held() -> None:
    """Each number has its line of any kind but holes, and each line somebody who asks for it."""
    code = "".join(
        path.read_text(encoding="utf-8")
        for room in ("answers", "extraction", "hardware", "joint")
        for path in (DATA.parent / "fastkit" / room).glob("*.py")
    )
    asked = set(re.findall(r'bench\.get\(\s*"(\w+)"', code))
    held = {(row["number"], row["of"]) for row in rows("bench_numbers.csv")}

    assert asked == {number for number, _ in held}
    assert {number for number, of in held if of == "any"} == asked - {"hole"}


def test_stub_grips_name_known_tools() -> None:
    """Each line a tool of its method, or any of them; what needs length is told for every tool."""
    tools: dict[str, set[str]] = {}
    for row in rows("variants.csv"):
        tools.setdefault(row["method"], set()).add(row["id"])
    told: dict[str, set[str]] = {}
    for row in rows("stub_grips.csv"):
        told.setdefault(row["method"], set()).add(row["tool"])
    for method, named in told.items():
        assert named in ({"any"}, tools[method]), method


def test_tools_are_used_and_known() -> None:
    """Each tool serves a method, each method's tools are listed."""
    assert {row["tool"] for row in rows("variants.csv")} == {row["id"] for row in rows("tools.csv")}


def test_offered_heads_have_their_sizes() -> None:
    """A head that shops sell stands in heads.csv with its sizes, else nothing could offer it."""
    held = {row["standard"] for row in rows("heads.csv")}

    assert {row["standard"] for row in rows("offers.csv")} <= held


def test_usual_hexagons_are_those_of_the_heads() -> None:
    """Code knows the hexagons of a metric thread unasked: those of all but the small flanges."""
    held: dict[str, set[float]] = {size: set() for size in USUAL}
    for row in rows("heads.csv"):
        flats = re.fullmatch(r"AF-([\d.]+)mm", row["drive"])
        if flats and row["size"] in held and row["standard"] not in SMALL_FLANGES:
            held[row["size"]].add(float(flats[1]))

    assert held == {size: set(flats) for size, flats in USUAL.items()}


# told in place of another step, never besides
INSTEAD = ({"stub"}, {"sunk-stub"}, {"in-plastic"}, {"no-glow"})


def tagged(text: str) -> tuple[set[str], str]:
    """What a step or a caution is told at, and the words."""
    told, bracket, words = text.removeprefix("[").partition("] ")
    return ({*told.split()}, words) if bracket and text[0] == "[" else (set(), text)


def test_what_is_made_dead_goes_with_its_steps() -> None:
    """Each step of `isolate` has its caution, told at the same neighbours."""
    steps = [tagged(text) for text in BY_ID["isolate"]["steps"]]
    cautions = [tagged(text) for text in BY_ID["isolate"]["cautions"]]

    assert [told for told, _ in steps] == [told for told, _ in cautions]
    assert all(told for told, _ in steps)
    at = {thing: " ".join(text for told, text in steps if thing in told) for thing in NEAR}
    for thing, word in (("airbag", "negative clamp"), ("pressurised", "strut"), ("fuel", "pump")):
        assert word in at[thing]


BESIDE = (Near("fuel", 300.0), Near("refrigerant", 60.0), Near("pressurised", 20.0))


def test_what_a_text_is_told_at_may_be_at_hand() -> None:
    """A tag that no situation has would hide its step for good."""
    held = set(NEAR).union(
        *(
            at_hand(
                Situation(
                    kind,
                    "M8x1.25",
                    load=load,
                    damage=damage,
                    into=into,
                    coating=coating,
                    near=BESIDE,
                    sealed=("pressurised",),
                ),
                outer,
                on_wheels,
                nominal_mm=20.0,
            )
            for kind in ("bolt", "tube-nut")
            for load in WORDS["load"].split()
            for damage in ("intact", "spinning", "snapped-flush", "snapped-below")
            for into, coating in (("steel", "plain"), ("plastic", "stainless"))
            for outer in (True, False)
            for on_wheels in (True, False)
        ),
        *(
            at_hand(
                Situation("bolt", near=(Near("pressurised", 0.0),), **{named: ("pressurised",)}),
                True,
                False,
                nominal_mm=8.0,
            )
            for named in ("sealed", "piped")
        ),
    )
    strut = (Near("pressurised", 0.0),)
    sealed = Situation("bolt", "M8x1.25", near=strut, sealed=("pressurised",))
    held |= at_hand(sealed, False, False, nominal_mm=8.0)
    for method in METHODS:
        tools = {row["id"] for row in rows("variants.csv") if row["method"] == method["id"]}
        for text in method["steps"] + method["cautions"]:
            words = {word for tag in tagged(text)[0] for word in tag.split("+")}
            assert words <= held | tools, text


def test_vetoes_speak_the_options_language() -> None:
    """A rule on a field or word that does not exist would never hold."""
    for row in [*rows("vetoes.csv"), *rows("tool_vetoes.csv")]:
        field, words = row["field"], set(row["value"].split())
        assert field in (*Situation._fields, "size_mm", "drive_system"), row["rule"]
        if row["op"] in ("=", "in", "not"):
            if field == "part":
                assert words <= {part["id"] for part in rows("parts.csv")}, row["rule"]
            elif field == "near":
                assert words <= set(NEAR), row["rule"]
            elif field == "drive":
                assert words <= {drive["id"] for drive in rows("drives.csv")}, row["rule"]
            elif field == "drive_system":
                assert words <= {drive["system"] for drive in rows("drives.csv")}, row["rule"]
            else:
                assert words <= set(WORDS[field].split()), row["rule"]
        else:
            assert float(row["value"]) > 0
        assert set(spoken_of(row)) <= set(BY_ID)
        opens = row["opens_it"]
        assert "-" not in opens or " " in opens or opens in BY_ID, row["rule"]


def test_lines_of_a_rule_speak_of_the_same_methods() -> None:
    """All lines of a rule must hold: lines of one name share all their methods, or none."""
    owners: dict[str, set[frozenset[str]]] = {}
    for row in rows("vetoes.csv"):
        owners.setdefault(row["rule"], set()).add(frozenset(spoken_of(row)))
    for rule, groups in owners.items():
        assert sum(map(len, groups)) == len(frozenset().union(*groups)), rule


def test_who_works_under_a_load_is_written_for_all_but_the_safe() -> None:
    """A new method comes under these without being named."""
    guards = {"under-load", "under-pressure", "nothing-under-it"}
    for row in rows("vetoes.csv"):
        assert row["rule"] not in guards or row["method"].startswith("all but ")


def test_every_neighbour_is_held_against_fire() -> None:
    """Flame, sparks and spatter have a distance for each; it is forbidden nearer than shielded."""
    assert {row["id"] for row in rows("neighbours.csv")} == set(NEAR)
    held = {(row["neighbour"], row["hazard"]) for row in rows("clearances.csv")}
    for thing in NEAR:
        assert {(thing, hazard) for hazard in ("flame", "spatter", "heat")} <= held, thing
    for row in rows("clearances.csv"):
        assert float(row["forbid_mm"]) <= float(row["shield_mm"])
        assert row["condition"]


def test_distance_matters() -> None:
    """A flame beside rubber is out at 30 mm and not at 300."""
    assert 30 < nearest("rubber", "flame-heat") <= 300
    assert nearest("fuel", "cut-slot-disc") > nearest("rubber", "cut-slot-disc")


@pytest.mark.parametrize("method", [*HOT, "cut-slot-disc"])
@pytest.mark.parametrize("residue", ["flammable", "chlorinated"])
def test_no_heat_or_spark_on_a_wet_part(method: str, residue: str) -> None:
    """A flammable residue is dried off first; after a chlorinated one heat stays barred."""
    assert vetoed(method, residue=residue)


@pytest.mark.parametrize("method", HOT)
def test_no_heat_means_no_weld_either(method: str) -> None:
    """And no iron."""
    assert vetoed(method, no_heat="true")


@pytest.mark.parametrize(
    ("method", "seen"),
    [
        ("left-hand-drill", {"left_hand": "true"}),
        ("spiral-extractor", {"left_hand": "true"}),
        ("right-hand-drill", {"left_hand": "false"}),
        ("better-bit", {"damage": "snapped-flush"}),
        ("better-bit", {"damage": "tool-stuck"}),
        ("seat-bit", {"into": "plastic"}),
        ("hand-impact-driver", {"into": "plastic"}),
        ("steady-bar", {"support": "jack"}),
        ("power-impact", {"seized": "galled"}),
        ("tighten-first", {"seized": "galled"}),
        ("soak-penetrant", {"seized": "threadlocked-high"}),
        ("six-point-socket", {"kind": "tube-nut"}),
        ("line-wrench", {"damage": "rounded"}),
        ("clamp-wrench", {"damage": "snapped-flush"}),
        ("cut-slot-disc", {"damage": "snapped-below"}),
        ("flame-heat", {"coating": "cadmium"}),
        ("flame-heat", {"into": "magnesium"}),
        ("weld-nut", {"into": "brass"}),
        ("split-nut", {"load": "spring"}),
        ("drill-head-off", {"load": "weight"}),
        ("cut-tube-socket", {"load": "pressure"}),
        ("drill-out-retap", {"damage": "extractor-broken"}),
        ("six-point-socket", {"damage": "spinning"}),
        ("better-bit", {"recess": "filled"}),
    ],
)
def test_what_must_not_be_done(method: str, seen: dict[str, str]) -> None:
    """One row a rule of the bench."""
    assert vetoed(method, **seen)


@pytest.mark.parametrize(
    ("method", "seen"),
    [
        ("left-hand-drill", {"left_hand": "false", "damage": "snapped-flush"}),
        ("better-bit", {"damage": "worn", "into": "aluminium", "recess": "clean"}),
        ("steady-bar", {"support": "stands", "damage": "intact"}),
        ("line-wrench", {"kind": "tube-nut", "damage": "intact"}),
        ("weld-nut", {"damage": "snapped-below", "into": "aluminium"}),
        ("cut-shank", {"kind": "bolt", "seized": "galled", "far_side": "reachable"}),
        ("hold-captive", {"damage": "spinning"}),
        ("far-side", {"damage": "spinning", "far_side": "reachable"}),
        ("pick-out-broken-key", {"damage": "extractor-broken"}),
        ("soak-penetrant", {"seized": "rusted", "residue": "flammable"}),
    ],
)
def test_what_may_be_done(method: str, seen: dict[str, str]) -> None:
    """The other side of the same rules."""
    assert not vetoed(method, **seen)


def always_told(method: dict[str, Any], tool: str = "") -> str:
    """What a method says wherever it is told in full, whatever stands beside it; with one tool."""
    texts = [tagged(text) for text in method["steps"] + method["cautions"]]
    return " ".join(words for told, words in texts if told <= {tool}).lower()


@pytest.mark.parametrize("method", METHODS, ids=[method["id"] for method in METHODS])
def test_a_method_tells_what_guards_from_what_it_gives_off(method: dict[str, Any]) -> None:
    """The guard of each hazard, of a tool's own with that tool, stands in steps or cautions."""
    guards = {row["id"]: row["guard"] for row in rows("hazards.csv") if row["guard"]}
    given = {("", hazard) for hazard in method.get("hazards", ())}
    given |= {
        (row["variant"], row["hazard"])
        for row in rows("variant_hazards.csv")
        if row["method"] == method["id"]
    }
    assert not {
        (tool, guards[hazard])
        for tool, hazard in given
        if hazard in guards and guards[hazard] not in always_told(method, tool)
    }


HARMS_NO_HOSE = {  # what is done by hand and eye, with a brush or a can, or elsewhere
    *("unload", "isolate", "clean-recess", "dry-off", "oil-thread", "clean-thread"),
    *("soak-penetrant", "chill-spray", "machine-shop"),
}
LEVERS = {"pull-while-turning", "hold-captive", "press-and-turn", "press-home"}
LINES = {"brake-fluid", "fuel", "refrigerant", "rubber", "pressurised"}


def asked_at(field: str, value: str, words: str) -> set[str]:
    """Which methods ask for something where a field has a value."""
    return {
        name
        for row in rows("conditions.csv")
        if row["field"] == field and value in row["value"].split() and words in row["condition"]
        for name in spoken_of(row)
    }


def test_whatever_may_open_a_hose_with_water_wants_it_cold() -> None:
    """All methods but those that cannot."""
    assert asked_at("piped", "rubber", "engine cold, no pressure") == set(BY_ID) - HARMS_NO_HOSE


@pytest.mark.parametrize("line", sorted(LINES))
def test_nothing_is_levered_against_a_line(line: str) -> None:
    """Whatever a lever or a wedge is put to, beside whatever holds a fluid."""
    assert asked_at("near", line, "nothing levered against line or hose") == LEVERS


def test_a_part_taken_off_asks_of_its_lines_what_room_asks() -> None:
    """The bench and what is lowered move lines as well as what is moved for room."""
    rooms = {"make-room", "drop-assembly", "bench"}
    asked = [row for row in rows("conditions.csv") if "make-room" in spoken_of(row)]
    assert [row for row in asked if row["field"] == "near"]
    for row in asked:
        if row["field"] == "near":
            assert rooms <= asked_at("near", row["value"], row["condition"]), row
