"""What is said in words behind a thread is what the options say."""

import json
import shlex

import pytest
from click.testing import CliRunner

from fastkit.cli import cli


def run(line):
    return CliRunner().invoke(cli, shlex.split(line))


@pytest.mark.parametrize(
    ("words", "options"),
    [
        ("torque M8 10.9 oiled", "torque M8 10.9 --friction oiled"),
        ("torque M8 10.9 into aluminium", "torque M8 10.9 --into aluminium"),
        (
            "torque m8 10.9 oiled into alloy 12 mm engaged",
            "torque M8 10.9 --friction oiled --into aluminium --engage 12",
        ),
        ("torque M10 8.8 dry, flanged", "torque M10 8.8 --friction dry --head flange"),
        ("torque M6 A2-70 anti seize reused", "torque M6 A2-70 --friction anti-seize --reused"),
        (
            "torque M12 8.8 zinc plated cast iron 1-1/2 in deep",
            "torque M12 8.8 --friction zinc-dry --into cast-iron --engage 38.1",
        ),
        (
            "torque M8 8.8 socket head threadlock",
            "torque M8 8.8 --head socket --friction threadlocker",
        ),
        ("torque M8 8.8 dry --friction oiled", "torque M8 8.8 --friction oiled"),
        ("replace M6 pan head PH2 rusted", "replace M6 --was 'pan head PH2 rusted'"),
        (
            "replace M6 pan head rusted into aluminium",
            "replace M6 --was 'pan head rusted' --into aluminium",
        ),
        (
            "replace M8 rusted in alloy --grip 12",
            "replace M8 --was rusted --into aluminium --grip 12",
        ),
        ("replace M8 in alloy --into steel", "replace M8 --into steel"),
        ("replace M8 rusted --was 'socket head'", "replace M8 --was 'socket head rusted'"),
        ("torque m10 fine 10.9 oiled", "torque 'M10 fine' 10.9 --friction oiled"),
        ("torque m10 x 1.25 10.9", "torque M10x1.25 10.9"),
        ("torque 3/8 unc grade 8 dry", "torque 3/8-16-UNC SAE-8 --friction dry"),
        ("torque 10.9 m8", "torque M8 10.9"),
        ("torque m8x1,25 10,9 oiled", "torque M8x1.25 10.9 --friction oiled"),
        ("torque grade 5 1/2 unf, oiled", "torque 1/2-20-UNF SAE-5 --friction oiled"),
        (
            "torque m8x1 stainless into ali 12 deep",
            "torque M8x1 A2-70 --into aluminium --engage 12",
        ),
        (
            "torque m5 10.9 button head, threadlocked",
            "torque M5 10.9 --head ISO-7380-1 --friction threadlocker",
        ),
        ("torque 8mm bolt 8.8", "torque M8 8.8"),
        ("torque m8x40 8.8", "torque M8 8.8"),
        (
            "torque m8 t45 countersunk 10.9",
            "torque M8 10.9 --drive T45 --head countersunk",
        ),
        ("torque m10 8.8 angle 90", "torque M10 8.8 --angle 90"),
        ("torque m10 8.8 snug and then 90 degrees", "torque M10 8.8 --angle 90"),
        (
            "torque m10 8.8 with a 250mm wrench and a 50 mm crow foot",
            "torque M10 8.8 --wrench-length 250 --adapter 50",
        ),
        ("torque m8 10.9 is 25 nm ok?", "torque M8 10.9 --set 25"),
        ("torque m8 8.8 manual says 18 lb-ft", "torque M8 8.8 --maker '18 lb-ft'"),
        ("torque m8 8.8 is 18 ft lbs too much", "torque M8 8.8 --set '18 ft-lb'"),
        ("torque m8 8.8 18ft/lb", "torque M8 8.8 --set '18 ft-lb'"),
        ("torque m8 8.8 25 newton meters", "torque M8 8.8 --set 25"),
        ("torque m5 8.8 50 in lb", "torque M5 8.8 --set '50 in-lb'"),
        ("torque m8 8.8, oily", "torque M8 8.8 --friction oiled"),
        ("torque m8 8.8 greasy threads", "torque M8 8.8 --friction greased"),
        ("torque m8 8.8 galv", "torque M8 8.8 --friction hot-dip-dry"),
        ("torque m8 8.8 yellow zinc plated", "torque M8 8.8 --friction zinc-dry"),
        ("torque m8 allen head 8.8", "torque M8 8.8 --head socket"),
        ("torque m8 8.8 friction 0.12", "torque M8 8.8 --mu 0.12"),
        ("torque m8 8.8 mu 0.1", "torque M8 8.8 --mu 0.1"),
        ("torque m8 8.8 clamp 10 kN", "torque M8 8.8 --clamp '10 kN'"),
        ("torque m8 8.8 quarter turn", "torque M8 8.8 --angle 90"),
        ("torque m8 8.8 snug plus 90°", "torque M8 8.8 --angle 90"),
        ("torque m8 8.8 prevailing 3 Nm", "torque M8 8.8 --prevailing 3"),
        ("torque m8 8.8 lock nut drags 3 nm", "torque M8 8.8 --prevailing 3"),
        ("torque M8-8.8", "torque M8 8.8"),
        ("torque m8x40-10.9 oiled.", "torque M8 10.9 --friction oiled"),
        ("torque m8 8.8 alternator bracket", "torque M8 8.8"),
        (
            "torque m10 8.8 crow foot 50 mm at 90 degrees, wrench 400",
            "torque M10 8.8 --adapter 50 --adapter-angle 90 --wrench-length 400",
        ),
        ("torque m8 8.8 grip 30", "torque M8 8.8 --grip 30"),
        ("torque m20 10.9 nut 10", "torque M20 10.9 --into nut-10"),
        ("torque used m12 bolt 8.8 in iron", "torque M12 8.8 --reused --into cast-iron"),
        ("torque m14x1.25 spark plug alu head", "torque plug-M14x1.25 --into aluminium"),
        ("torque m12 8.8 120 mm long", "torque M12 8.8"),
        (
            "repair m10 x 1.25 alu head stripped 20mm deep",
            "repair M10x1.25 --into aluminium --hole stripped --depth 20",
        ),
        ("repair m8 sump stripped", "repair M8 --hole stripped"),
        (
            "repair 1/4-20 ally gearbox pulled out blind 12mm",
            "repair 1/4-20 --into aluminium --hole stripped --far-side blind --depth 12",
        ),
        ("repair exhaust stud m8 head stripped", "repair M8 --hole stripped"),
        (
            "repair m14x1.25 spark plug alu stripped",
            "repair plug-M14x1.25 --into aluminium --hole stripped",
        ),
        ("repair stripped 3/8 unc in cast iron", "repair 3/8-16-UNC --into cast-iron"),
        ("repair m14 spark plug thread gone", "repair plug-M14 --hole stripped"),
        ("repair m12x1.25 stud hole knackered", "repair M12x1.25 --hole stripped"),
        ("repair m8 drilled out to 8.5", "repair M8 --hole oversize:8.5"),
        (
            "repair m20x1.5 drain enlarged to 21 alu",
            "repair M20x1.5 --hole oversize:21 --into aluminium",
        ),
        (
            "repair m6 blind hole 15 mm deep stripped, wall 2mm",
            "repair M6 --far-side blind --depth 15 --hole stripped --wall 2",
        ),
        (
            "repair m10 1.25 came out with the bolt alu",
            "repair M10x1.25 --hole stripped --into aluminium",
        ),
        ("repair tapped hole m5 too big", "repair M5 --hole stripped"),
        ("replace exhaust stud m8", "replace M8 --was 'exhaust stud'"),
        ("replace brake caliper bolt m10", "replace M10 --was 'brake caliper bolt'"),
        ("replace m10 x 1.25 flange 8.8", "replace M10x1.25 --was 'flange 8.8'"),
        ("replace m6x16 pan head rusted", "replace M6 --was 'pan head rusted 16 long'"),
        (
            "replace rusty m6 phillips 16 long into alu",
            "replace M6 --was 'rusty phillips 16 long' --into aluminium",
        ),
        (
            "replace m6 allen rounded 20 mm engine cover aluminium",
            "replace M6 --was 'allen rounded, 20 long, engine cover' --into aluminium",
        ),
        (
            "replace m10 x 1.25 x 35 flange bolt 10.9",
            "replace M10x1.25 --was 'flange bolt 10.9, 35 long'",
        ),
        ("replace m3 x 6 pan", "replace M3 --was 'pan, 6 long'"),
        ("replace 8mm bolt 40mm long rusty", "replace M8 --was 'bolt 40 long rusty'"),
        (
            "replace m8 bolt exhaust manifold cast iron",
            "replace M8 --was 'bolt exhaust manifold' --into cast-iron",
        ),
        ("replace m6 bolt into cast iron", "replace M6 --was bolt --into cast-iron"),
        (
            "replace m6 bolt in the alloy housing",
            "replace M6 --was 'bolt housing' --into aluminium",
        ),
        ("replace m8 bolt, magnesium case", "replace M8 --was 'bolt case' --into magnesium"),
        ("replace m6 aluminium bolt", "replace M6 --was 'aluminium bolt'"),
        ("order 5 wheel", "order 5 circle"),
        ("order circle 6", "order 6 circle"),
        ("order 8 bolts circle 25nm", "order 8 circle --torque 25"),
        ("order 8 bolt flange 18 lb-ft", "order 8 circle --torque '18 lb-ft'"),
        ("order 8 circle 18 ft lbs", "order 8 circle --torque '18 lb-ft'"),
        ("order 10 2x5 25 Nm", "order 10 grid 2x5 --torque 25"),
        ("order 10 bolts in a grid of 5 by 2", "order 10 grid 5x2"),
        ("near t25 stripped", "near T25"),
        ("near t30 bit", "near T30"),
        ("near 13mm rounded", "near AF-13mm"),
        ("near 6mm allen stripped", "near hex-6mm"),
        ("near rounded 1/2 inch bolt head", "near AF-1/2in"),
        ("show m8 8.8", "show torque:M8x1.25@8.8"),
        ("show torque m8 8.8", "show torque:M8x1.25@8.8"),
        ("show hex 5mm", "show drive:hex-5mm"),
        ("show left hand drill", "show method:left-hand-drill"),
        ("identify bolt 7.9 1.25", "identify thread --major 7.9 --pitch 1.25"),
        ("identify nut 6.7 1.25", "identify thread --minor 6.7 --internal --pitch 1.25"),
        ("identify what is this 9.5mm thread 1.0 pitch", "identify thread --major 9.5 --pitch 1.0"),
        ("identify i have a bolt 12 x 1.25", "identify thread --major 12 --pitch 1.25"),
        ("identify hex head 13 across 5.3 high", "identify head --flats 13 --height 5.3"),
    ],
)
def test_words_say_what_options_say(words, options):
    said, meant = (run(f"{line} --json") for line in (words, options))

    assert said.stdout == meant.stdout
    assert said.exit_code == meant.exit_code < 2


@pytest.mark.parametrize(
    ("line", "reason"),
    [
        ("torque m12x1.5 wheel nut", "wheel fasteners"),
        ("torque lug nut 1/2 unf", "wheel fasteners"),
        ("torque spark plug m14", "spark plug"),
        ("torque brake pipe nut m10x1", "tube nut"),
        ("torque m14x1.5 oil drain plug alu sump", "seals"),
        ("torque m10 banjo bolt", "seals"),
        ("torque m18x1.5 oxygen sensor", "seals"),
        ("torque 1/4 npt", "pipe threads"),
        ("torque st4.2", "self-tapping"),
        ("torque m6 into plastic", "plastic"),
        ("torque m12 10.9 head bolt torque to yield", "torque-to-yield"),
        ("torque set screw m5 45H", "set screw"),
        ("torque m10 10.9 cylinder head bolt", "maker's stages"),
        ("torque m9 conrod bolt", "maker's stages"),
        ("torque flywheel m10x1", "maker's stages"),
    ],
)
def test_what_gets_no_window_needs_no_class(line, reason):
    result = run(f"{line} --json")
    answer = json.loads(result.stdout)

    assert 1 == result.exit_code
    assert reason in answer["reason"]
    assert answer["published"] and answer["torque_nm"] is None


@pytest.mark.parametrize(
    ("line", "parts"),
    [
        ("torque 8mm bolt", ("GRADE", "fastkit torque M8 8.8")),
        ("torque m10x1.25 alternator bolt", ("GRADE", "fastkit torque M8 8.8")),
        ("torque 8.8", ("THREAD", "fastkit torque M8 8.8")),
        ("torque m8 m10 8.8", ("m8", "m10", "one thread")),
        ("torque m8 8.8 10.9", ("8.8", "10.9", "one grade")),
        ("torque m8 8.8 12", ("'12'", "12 deep")),
        ("torque m8 8.8 with a lock nut", ("lock nut", "prevailing 3 Nm")),
        ("replace hose clamp screw", ("THREAD", "fastkit replace")),
        ("repair stripped in alu", ("THREAD", "fastkit repair")),
        ("order 5 banana", ("'banana'", "circle, line, rectangle, grid, rings")),
        ("near t25 banana", ("'t25 banana'", "T20, hex-5mm", "nearest: T25")),
        ("show m8 banana", ("'m8 banana'", "nearest")),
        ("identify banana 7", ("'banana'", "thread, drive, grade or head")),
    ],
)
def test_what_is_missing_or_not_understood_is_told(line, parts):
    result = run(line)

    assert result.exit_code == 2 or line.startswith("show")
    assert result.stderr.count("\n") == 1
    for part in parts:
        assert part in result.stderr


def test_the_length_of_the_old_one_is_bought_again():
    assert "M6 × 16" in run("replace m6x16 pan head").stdout
    assert "M6 × 16" not in run("replace m6x16 pan head --grip 30").stdout


@pytest.mark.parametrize(
    ("line", "first"),
    [
        ("torx 4.4", "drive:T25"),
        ("allen 4.75", "drive:hex-3/16in"),
        ("square recess 2.84", "drive:SQ"),
        ("hex socket 4.76", "drive:hex-3/16in"),
        ("inverted torx 9.3", "drive:E10"),
        ("thread 12.7 13", "thread:1/2-13-UNC"),
        ("pipe thread 13.1 19 tpi", "thread:G1/4"),
        ("5/16 bolt 24 tpi", "thread:5/16-24-UNF"),
        ("brake pipe nut 9.9 1.0", "thread:M10x1"),
        ("brake line nut 9.9 1.0", "thread:M10x1"),
        ("m10 x 1.25 bolt", "thread:M10x1.25"),
        ("nut 11.1 across", "drive:AF-"),
        ("round head 13 diameter 8 high", "head:ISO-4762-M8"),
        ("thread 5mm 0.8 in plastic", "thread:M5x0.8"),
        ("rusty stud 7.8 x 1.25", "thread:M8x1.25"),
        ("12.7 13tpi", "thread:1/2-13-UNC"),
        ("7.8 pitch 1.25", "thread:M8x1.25"),
        ("7.8 1.25", "thread:M8x1.25"),
        ("bolt head marked 8.8", "grade:8.8"),
        ("stamped 10.9", "grade:10.9"),
        ("6 lines on the head", "grade:SAE-8"),
        ("bolt with 3 marks", "grade:SAE-5"),
    ],
)
def test_what_a_reading_in_words_is(line, first):
    """The likeliest, and of a drive that is named nothing else."""
    found = json.loads(run(f"identify {line} --json").stdout)["candidates"]

    assert found[0]["id"].startswith(first)
    if "drive:" in first and "nut" not in line:
        assert {first[:7]} == {one["id"][:7] for one in found}


UNREAD = [
    ("torque m8 10.9 rusty bolt please", ("rusty, please", "N·m")),
    ("torque into alloy m8 8.8 quickly", ("quickly", "N·m")),
    ("repair m6 alu stripped again mate", ("again, mate", "insert")),
]


@pytest.mark.parametrize(("line", "parts"), UNREAD)
def test_a_word_that_says_nothing_is_told_beside_the_answer(line, parts):
    result = run(line)

    words, answer = parts
    assert result.stdout.startswith(f"not understood: {words}\n")
    assert answer in result.stdout
    assert json.loads(run(f"{line} --json").stdout)["not_understood"] == words.split(", ")


@pytest.mark.parametrize(
    ("line", "parts"),
    [
        ("torque m8 8.8 oild", ("'oild'", "nearest: oiled")),
        ("torque m8 8.8 into alumnium", ("'alumnium'", "nearest: aluminium")),
        ("torque m8 8.8 counterunk", ("'counterunk'", "nearest: countersunk")),
        ("torque m8 8.8 r2d2", ("'r2d2'", "expected how the thread is")),
        ("repair m6 alumnium stripped", ("'alumnium'", "nearest: aluminium")),
        ("repair m6 alu striped", ("'striped'", "nearest: stripped")),
    ],
)
def test_a_word_ill_spelt_or_with_a_number_is_not_passed_over(line, parts):
    """It may be what the answer hangs on."""
    result = run(line)

    assert result.exit_code == 2 and not result.stdout
    for part in parts:
        assert part in result.stderr


@pytest.mark.parametrize(
    ("line", "options"),
    [
        ("10 bolts cylinder head", "10 grid 5x2"),
        ("head 10 bolts", "10 grid 5x2"),
        ("cylinder head 14 studs 80 Nm", "14 grid 7x2 --torque 80Nm"),
        ("6 manifold nuts", "6 line"),
        ("sump 16 bolts", "16 rectangle"),
        ("12 rocker cover 8 Nm", "12 rectangle --torque 8Nm"),
        ("4 carb flange", "4 circle"),
        ("2 caliper bolts", "2 line"),
    ],
)
def test_a_part_says_how_its_fasteners_sit(line, options):
    """A head in two rows, a pan round its edge, a manifold in a row: common practice, no source."""
    said, meant = (run(f"order {asked} --json") for asked in (line, options))

    assert said.exit_code == meant.exit_code == 0, said.stderr
    assert json.loads(said.stdout)["sequence"] == json.loads(meant.stdout)["sequence"]


@pytest.mark.parametrize(
    ("line", "named"),
    [
        ("torque m10x1.25 10.9 oiled caliper bolt", "brakes"),
        ("torque m12 10.9 seat belt anchor", "restraint"),
        ("torque m12x1.25 10.9 strut", "suspension"),
        ("torque m8 8.8 bracket", None),
    ],
)
def test_what_a_life_hangs_on_goes_by_the_makers_value(line, named):
    """It is said first, and no number is given to set by."""
    first = run(line).stdout.partition("\n")[0]

    assert json.loads(run(f"{line} --json").stdout)["critical"] == named
    assert (f"Stop: {named}" in first) == (named is not None)
    assert ("Set " in run(line).stdout) == (named is None)


@pytest.mark.parametrize(
    "line",
    [
        "replace m6x16 pan head rocker cover rusty alloy",
        "replace m8x25 alternator bracket",
        "replace m10x1.25x30 flange bolt carrier rusted",
        "torque m8 8.8 alternator bracket into alloy",
        "repair m8 stripped in the alternator bracket, alloy",
    ],
)
def test_where_it_sits_is_no_word_left_over(line):
    assert "not understood" not in run(line).stdout
