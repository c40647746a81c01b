"""All of what the phone page knows: complete, the same each time, nothing of the user's own."""

from gzip import compress

import pytest
from click.testing import CliRunner

from fastkit.answers import grid_made
from fastkit.answers.grid import content
from fastkit.answers.grid_classes import AXES, DAMAGE, KINDS, every
from fastkit.answers.grid_kept import text_of
from fastkit.answers.grid_stuck import pack, read
from fastkit.cli import cli

DAMAGES = ("extractor-broken",)  # quick to plan
THREADS = ("M8x1.25", "1/4-20-UNC", "G1/4")
MOST_CELLS = 4100
MOST_BYTES = 350_000  # of the plans, packed as the page packs them
OWN = (
    ("tools", "add", "drill", "zebra drill", "--above", "20", "--beside", "1"),
    ("tools", "add", "ratchet", "zebra ratchet", "--above", "5"),
    ("stock", "add", "M8x20 zebra 8.8", "12", "zebra drawer"),
    ("note", "torque", "zebra", "zebra cover", "23 N·m", "zebra book, page 4"),
    *(
        ("note", "machine-shop", "ok", "--damage", "extractor-broken", "--seized", seized)
        for seized in ("rusted", "seized", "galled")
    ),
    *(
        ("note", "left-hand-drill", "broke", "--damage", "snapped-flush", "--seized", seized)
        for seized in ("rusted", "seized", "galled")
    ),
)


@pytest.fixture(scope="module")
def part(store):
    """The content for some damages and threads."""
    return content(store, damages=DAMAGES, threads=THREADS)


@pytest.fixture
def filled():
    """A home with tools, stock, maker's values and attempts in it."""
    for words in OWN:
        result = CliRunner().invoke(cli, list(words))
        assert result.exit_code == 0, (words, result.stderr, result.exception)


def test_grid_has_at_most_so_many_cells():
    """4 seizures, 9 rooms, 4 neighbours, 2 sizes, and damages within the 4,000."""
    sizes = [len(axis.classes) for axis in AXES]

    assert sizes[1:] == [4, 3, 3, 4, 2]
    assert len(list(every())) == grid_made.count() <= MOST_CELLS


def test_every_damage_is_asked_for_once_or_more():
    """What it looks like narrows the damages, and leaves none out."""
    named = {one for kind in KINDS for one in kind.damages}

    assert named == {each.id for each in DAMAGE.classes}


def test_ids_and_titles_are_distinct():
    """No two classes of an axis look the same, no text is empty."""
    for axis in AXES:
        for field in ("id", "title", "corner"):
            found = [getattr(each, field) for each in axis.classes]
            assert len(set(found)) == len(found) and all(found)


def test_same_bytes_each_time(part, store):
    """In whatever order the processes finish."""
    again = content(store, damages=DAMAGES, threads=THREADS)

    assert text_of(part) == text_of(again)


def test_one_processor_gives_the_same(part, store, monkeypatch):
    """No other process is needed."""
    monkeypatch.setattr(grid_made, "processors", lambda: 1)

    assert text_of(content(store, damages=DAMAGES, threads=THREADS)) == text_of(part)


def test_progress_counts_up_to_the_whole(store):
    """From none to all of them, never back."""
    heard = []
    content(store, lambda *done: heard.append(done), damages=DAMAGES, threads=THREADS[:1])

    assert heard[0] == (0, 288) and heard[-1] == (288, 288)
    assert [done for done, _ in heard] == sorted({done for done, _ in heard})


def test_nothing_of_the_own_file_is_in_it(part, store, filled):
    """Tools measured, attempts noted, stock and values: the same bytes as without."""
    full = text_of(content(store, damages=DAMAGES, threads=THREADS))

    assert full == text_of(part)
    assert b"zebra" not in full


def test_own_file_does_change_what_the_command_says(filled):
    """So that the test above would notice: the command's answer is another with it."""
    words = ["extract", "--damage", "snapped-flush", "--seized", "rusted", "--thread", "M8"]

    assert '"of": 1' in CliRunner().invoke(cli, [*words, "--json"]).stdout


def test_plans_read_as_they_were_made(part, store):
    """Each cell of the whole is the cell made by itself."""
    from fastkit.answers.grid_stuck import cell

    for picks in [mix for mix in every() if mix[0] in DAMAGES][::23]:
        alone = read(pack(store, {picks: cell(store, picks)}), picks)
        assert read(part["stuck"], picks) == alone


def test_only_numbers_of_things_that_are_there(part):
    """Every number points at a text, method, move, list or plan that exists; none is unused."""
    stuck = part["stuck"]
    used = {name: set() for name in ("texts", "methods", "moves", "outs", "lists", "plans")}
    used["plans"] = set(stuck["cells"])
    for moves, _, fails, why, outs, stop, chance, minutes, dangers, after in stuck["plans"]:
        used["moves"].update(moves)
        used["methods"].update({fails} - {-1})
        used["texts"].update({why, chance, minutes})
        used["lists"].update({outs, stop, dangers, after})
        used["outs"].update(stuck["lists"][outs])
        for texts in (stop, dangers, after):
            used["texts"].update(stuck["lists"][texts])
    for method, tool, verdict, chance, minutes, cautions in stuck["moves"]:
        used["methods"].add(method)
        used["texts"].update({tool, verdict, chance, minutes, *cautions} - {-1})
    for method, why, opens in stuck["outs"]:
        used["methods"].add(method)
        used["texts"].update({why, opens} - {-1})
    for _, title, steps, cautions in stuck["methods"]:
        used["texts"].update({title, *steps, *cautions})

    for name, numbers in used.items():
        assert numbers == set(range(len(stuck[name]))), name
    for name in ("texts", "plans", "moves", "outs"):
        assert len({repr(item) for item in stuck[name]}) == len(stuck[name]), name


def test_plans_stay_small(part):
    """Thirteen damages as large as this one keep within what the page has room for."""
    packed = len(compress(text_of(part["stuck"])))

    assert packed * len(DAMAGE.classes) / len(DAMAGES) < MOST_BYTES


def test_what_is_taken_for_granted_is_said(part, store):
    """The sentences name what `extract` assumes at a corner."""
    from fastkit.answers.extract import extract
    from fastkit.answers.grid_classes import corner

    picks = ("hexagon-rounded", "seized", "above-30", "beside-8", "clear", "M8")
    assumed = {row.what: row.value for row in extract(store=store, **corner(picks)).assumed}
    said = " ".join(part["stuck"]["taken"])

    assert {"engage_mm", "load", "far_side", "residue", "recess", "can", "power"} <= set(assumed)
    assert assumed["grade"] == "8.8" and "8.8" in said
    assert assumed["spoil_min"] == 120 and "two hours" in said
    for what, words in (
        ("engage_mm", "engaged one diameter"),
        ("stub_mm", "two diameters proud"),
        ("prevailing", "grips by itself"),
        ("coating", "no cadmium"),
        ("load", "no spring, weight or pressure"),
        ("support", "jack"),
        ("pocket_mm", "no pocket"),
        ("seized_at", "where it is bonded"),
        ("far_side", "far side"),
        ("residue", "Nothing that burns"),
        ("recess", "recess is clean"),
        ("wasted_pct", "no section is lost"),
        ("power", "tools and power"),
        ("can", "moved aside"),
        ("left_hand", "right-hand"),
    ):
        assert words in said, what
