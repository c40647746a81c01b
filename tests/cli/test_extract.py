"""The command: its screen, its document, its refusals; nothing dangerous is cut."""

import json
import random
from typing import Any

import pytest
from click.testing import CliRunner, Result

from fastkit.answers import extract as answers
from fastkit.answers.extract import extract
from fastkit.answers.extract_answer import EMPTY, ExtractAnswer
from fastkit.answers.options import CHOICES
from fastkit.cli import cli
from fastkit.cli.extract_screen import least, limit, screen, whole

EMERGENCIES = (
    "6 mm hex socket rounded out, M8 into cast iron, 90 mm above, 8 mm beside, "
    "rubber hose 20 mm off, rusted",
    "M14 bolt seized in the sleeve, spring loaded, 30 % wasted, on a jack, soaked it",
    "11 mm tube nut rounded, brake line touching, fuel line 100 mm away, lying under it",
    "extractor broke off in it, M8, alloy head",
    "17 mm nut rounded on an M10 stud, rusted, fuel line 300 mm",
    "PH2 chewed up in plastic, battery 5 mm, airbag 20 mm, wiring touching",
)


def run(*arguments: str) -> Result:
    """The command in process, as `fastkit extract …`."""
    return CliRunner().invoke(cli, ["extract", *arguments], standalone_mode=True)


@pytest.fixture(scope="module", params=EMERGENCIES)
def answer(request: pytest.FixtureRequest, store: Any) -> ExtractAnswer:
    """Each emergency once."""
    return extract(request.param, store=store)


@pytest.mark.parametrize("columns", [80, 50])
def test_screen_fits(answer, columns):
    """30 lines at 80 columns and 46 at 50, a few more where all of them warn, no line too wide."""
    lines = screen(answer, columns)

    assert len(lines) <= {80: 38, 50: 57}[columns]
    assert len(lines) <= limit(columns) or lines == least(answer, columns)
    assert max(map(len, lines)) <= columns


def test_a_forbidden_neighbour_says_how_far_off():
    """The distance stands on the first screen: flame 150 mm off brake fluid, sparks 100."""
    said = " ".join(run("M6 bolt rounded, rusted, brake line 30 mm off").stdout.split())

    for distance in ("flame 150 mm", "sparks 100 mm"):
        assert distance in said.replace(" within", "")


def test_who_may_lie_under_it_is_warned():
    """Where nothing says what it rests on, stands are asked for; on the bench they are not."""
    words = "M6 bolt rounded, rusted, under the car"
    assert "never a jack alone" in run(words).stdout
    assert "never a jack alone" not in run(words.replace("under the car", "on the bench")).stdout


@pytest.mark.parametrize("columns", [80, 50, 30])
def test_nothing_dangerous_is_cut(answer, columns):
    """Every caution of the first move, every neighbour that forbids, and what governs are there."""
    told = " ".join(" ".join(screen(answer, columns)).split()).lower()

    for caution in answer.plan[0].cautions:
        assert caution.lower() in told
    for step in answer.plan[0].steps:
        assert step.lower() in told
    for out in answer.ruled_out:
        if out.reason.code == "neighbour":
            assert str(out.reason.values[0]).replace("-", " ") in told
    for step in answer.plan:
        if answer.titles[f"method:{step.method}"].lower() + ":" in told:
            assert all(condition.lower() in told for condition in step.conditions)
    assert answer.governs.lower() in told
    for sentence in answer.stop_when:
        assert sentence.lower() in told


def test_screen_says_what_the_document_says(answer):
    """First move, chance, what follows, words left over."""
    told = " ".join(" ".join(screen(answer, 80)).split())

    assert answer.titles[f"method:{answer.plan[0].method}"].upper() in told
    for word in answer.not_understood:
        assert word in told


def test_why_tells_everything(answer):
    """Each method and each reason for ruling out."""
    told = " ".join(" ".join(whole(answer, 80)).split())

    for step in answer.plan:
        assert answer.titles[f"method:{step.method}"] in told
    for out in answer.ruled_out:
        assert out.because in told


def test_more_lines_the_narrower():
    """30 lines from 80 columns on, 46 at 50."""
    assert [30, 30, 46, 46] == [limit(columns) for columns in (100, 80, 50, 30)]


def test_random_situations_fit_the_screen(store, monkeypatch):
    """Many neighbours, gates and misses at once still fit, and still name every neighbour."""
    chance = random.Random(7)
    neighbours = [row[0] for row in store.execute("SELECT id FROM neighbour")]
    monkeypatch.setattr(answers, "plan", coarse(answers.plan))
    for _ in range(12):
        options: dict[str, Any] = {
            name: chance.choice(words) for name, words in CHOICES.items() if chance.random() < 0.5
        }
        options["near"] = [
            f"{thing}:{chance.choice((0, 10, 100))}"
            for thing in chance.sample(neighbours, chance.randrange(6))
        ]
        options["above"] = chance.choice((5, 40, 90, None))
        found = extract("M8, pump bracket, lying under it", store=store, **options)
        for columns, most in ((80, 44), (50, 64)):
            lines = screen(found, columns)
            assert len(lines) <= most, options
            assert max(map(len, lines)) <= columns, options


def coarse(plan: Any) -> Any:
    """The planner without asking what each assumption changes: a screen test needs no such pass."""
    return lambda situation, facts, assumed: plan(situation, facts, ())


def test_json_is_one_document():
    """Standard output holds the document, nothing else."""
    result = run("T30 stripped, cheese", "--above", "8mm", "--near", "rubber:20", "--json")
    document = json.loads(result.stdout)

    assert result.exit_code == 0
    assert document["situation"]["above_mm"] == 8
    assert document["situation"]["near"] == [{"thing": "rubber", "mm": 20.0}]
    assert document["not_understood"] == ["cheese"]
    assert document["plan"][0]["rank"] == 1


def test_not_held_is_a_document_with_its_reason():
    """Exit 1 with empty lists, the reason named."""
    result = run("M7.3 bolt rounded", "--json")
    document = json.loads(result.stdout)

    assert result.exit_code == 1
    assert {key: document[key] for key in EMPTY} == dict(EMPTY)
    assert "M7.3" in document["reason"]


@pytest.mark.parametrize("columns", ["80", "50"])
@pytest.mark.parametrize(
    "drawn", [("--tree",), ("--compare", "six-point-socket", "gripping-socket")]
)
def test_a_tree_and_a_comparison_say_how_the_words_were_read(drawn, columns, monkeypatch):
    """What was read, what was not and what is assumed stands above them as on the screen."""
    monkeypatch.setenv("COLUMNS", columns)
    words = "m8 13mm bolt rounded, rusted, frobnicated"
    shown, screen = (run(words, *given).stdout.splitlines() for given in (drawn, ()))

    for mark in ("READ AS  ", "NOT READ  ", "ASSUMED  "):
        line = next(line for line in shown if line.startswith(mark))
        assert mark == "ASSUMED  " or line in screen
    assert "frobnicated" in " ".join(shown)


def test_compare_sets_two_methods_side_by_side():
    """One that is offered with its numbers, one that is ruled out with its reason."""
    words = ("T30 stripped, rusted", "--compare", "machine-shop", "split-nut")
    told = run(*words).stdout
    document = json.loads(run(*words, "--json").stdout)

    assert "machine shop" in told
    assert [row["method"] for row in document["compare"]] == ["machine-shop", "split-nut"]


def test_no_way_left_is_said(answer, monkeypatch):
    """An empty plan: exit 1, the rest complete, the reason named, on the screen too."""
    bare = answer._replace(plan=())
    monkeypatch.setattr("fastkit.cli.extract.extract", lambda words, **options: bare)
    result = run("M8", "--json")

    assert result.exit_code == 1
    assert "no safe way" in json.loads(result.stdout)["reason"]
    assert "No safe way" in run("M8").stdout


@pytest.mark.parametrize(
    ("arguments", "names"),
    [
        (("purple monkey",), "nothing understood"),
        ((), "nothing was said"),
        (("M8", "--damage", "strippd"), "stripped"),
        (("M8", "--above", "8 bananas"), "bananas"),
        (("M8", "--above", "-5"), "-5"),
        (("M8", "--side", "30"), "30x12"),
        (("M8", "--near", "granny:20"), "expected one of"),
        (("M8", "--no-such-option"), "no-such-option"),
        (("M8", "--ask", "--json"), "expected one of them"),
        (("M8", "--compare", "seat-bit", "seat-bot"), "nearest: seat-bit"),
        (("M8", "--save", "\x07"), "printable"),
        (("M8", "--wasted", "nan"), "a share in percent"),
        (("M8", "--wasted", "inf"), "a share in percent"),
        (("M8", "--wasted", "96"), "0 to 95"),
        (("M8", "--can", "none", "--can", "bench"), "none alone"),
    ],
)
def test_wrong_usage_is_one_line(arguments, names):
    """Exit 2, one line on standard error, nothing on standard output."""
    result = run(*arguments)

    assert result.exit_code == 2
    assert result.stdout == ""
    assert len(result.stderr.splitlines()) == 1
    assert names in result.stderr


@pytest.mark.parametrize(
    "words",
    [
        "M8 \x1b[31mred\x07",
        "M8 \ud800 broken",
        "M8 \0 nul",
        "M8 " + "x" * 1500,
        "M8 1/0 in above",
        "M8 9999999999999999 mm above 8 mm beside",
        "M8; DROP TABLE thread; --",
        "M8 %s {0} \\n",
    ],
)
def test_hostile_words_never_reach_the_terminal_raw(words):
    """No traceback, no control character on the screen."""
    result = run(words)

    assert result.exit_code in (0, 1, 2)
    assert result.exception is None or isinstance(result.exception, SystemExit)
    assert not set(result.output) & set("\x1b\x07\0")


def test_tree_begins_as_the_plan_does():
    """The drawing's first line and the document's root name the plan's first method."""
    words = "6 mm hex socket stripped, M8 in steel, rusted"
    document = json.loads(run(words, "--tree", "--json").stdout)
    assert document["tree"]["move"] == document["plan"][0]["method"]
    shares = [outcome["share"] for outcome in document["tree"]["outcomes"]]
    assert sum(shares) == pytest.approx(1)
    drawn = run(words, "--tree").stdout
    assert next(line for line in drawn.splitlines() if line[0] == "1").startswith("1 ")
    assert "maker's specification" in " ".join(drawn.split())


def test_why_sets_the_first_against_the_second():
    """What rank 1 saves over rank 2, and how wrong the bond may be."""
    told = run("6 mm hex socket stripped, M8 in steel, rusted", "--why").stdout
    assert "WHY FIRST" in told
    assert "the bond, the worst known number" in " ".join(told.split())


@pytest.mark.parametrize(
    ("words", "begins"),
    [
        (
            "M6 socket screw in an aluminium cover, 5 mm hex socket stripped, 20 mm above, "
            "15 mm beside, wiring 10 mm off, corroded, on the bench",
            "IF IT SNAPS  ",
        ),
        ("M6 T30 worn, rusted, into aluminium, on the bench", "IF IT FAILS  "),
    ],
)
def test_what_follows_names_the_failure(words, begins):
    """What comes next is told of the failure that is likeliest: a shank that parts is named."""
    lines = run(words).output.splitlines()

    assert next(line for line in lines if line.startswith("IF IT")).startswith(begins)


@pytest.mark.parametrize(
    ("words", "near"),
    [
        ("fuel rail bolt T30 stripped", {"fuel": 0, "pressurised": 0}),
        ("battery terminal bolt 10mm seized", {"battery": 0}),
        ("battery clamp nut 10 mm rounded", {"battery": 0}),
    ],
)
def test_what_the_thing_itself_carries(words, near):
    """A rail holds pressure, a terminal sits on its battery: due first, no size is a distance."""
    told = json.loads(CliRunner().invoke(cli, ["extract", *words.split(), "--json"]).stdout)

    assert near == {one["thing"]: one["mm"] for one in told["situation"]["near"]}
    assert "isolate" == told["plan"][0]["method"]


@pytest.mark.parametrize(
    "words",
    ["stuck oil filter", "seized cheese", "rusty wombat, tight space", "jar lid wont open, seized"],
)
def test_what_is_no_fastener_gets_no_plan(words):
    """How it is stuck alone says nothing of what it is, and what it is was not understood."""
    result = run(words)

    assert result.exit_code == 2 and not result.stdout
    assert "is no fastener that is known" in result.stderr and "bolt" in result.stderr


@pytest.mark.parametrize(
    "words",
    [
        "m8 bolt seized in the gearbox",
        "brake caliper bleed screw rounded",
        "rusted screw, rocker cover",
        "alternator bracket bolt M10 spins",
        "m6 snapped in the tractor water pump",
    ],
)
def test_where_it_sits_is_no_word_left_over(words):
    assert "NOT READ" not in run(words).stdout


def test_nothing_assumed_that_matters_is_no_empty_list() -> None:
    """Where nothing assumed changes the first move, what was assumed is counted all the same."""
    words = "fuel line nut rounded 16mm under car petrol dripping on a jack"
    lines = screen(extract(words), 80)
    assert not any(line.startswith("ASSUMED  ;") for line in lines)
