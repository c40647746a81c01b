"""Job files: read whole, every mistake named with its line, written and read again the same."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fastkit.answers import job_file
from fastkit.answers.job_file import read_job, written_job
from fastkit.answers.job_rows import Fastener, Job, Line, Part
from fastkit.errors import Misuse

EXAMPLE = Path(job_file.__file__).with_name("job_example.toml").read_text("utf-8")
LEAST = """title = "A"
[[part]]
name = "lid"
[[fastener]]
name = "screws"
holds = "lid"
thread = "M4"
count = 2
"""


def mistakes(text, store):
    with pytest.raises(Misuse) as caught:
        read_job(text, store)
    return str(caught.value)


def test_the_example_is_read(store):
    job = read_job(EXAMPLE, store)

    assert ["motor lead", "suction hose", "pressure hose"] == [line.name for line in job.lines]
    assert ["guard", "pump cover", "impeller"] == [part.name for part in job.parts]
    assert [4, 8, 1] == [fastener.pieces for fastener in job.fasteners]
    assert "M10x1" == job.fasteners[2].thread


def test_what_may_be_left_out(store):
    """Only names, threads and counts are asked for."""
    job = read_job(LEAST, store)

    assert 0 == job.fasteners[0].stuck
    assert job.away is None


def test_a_told_state_means_all_are_stuck(store):
    job = read_job(LEAST + 'state = "m4 rusted"\n', store)

    assert 2 == job.fasteners[0].stuck


@pytest.mark.parametrize(
    ("old", "new", "line", "words"),
    [
        ('title = "A"', "", 1, ("title", "expected")),
        ("count = 2", "count = 0", 8, ("count", "0", "1 to 1000")),
        ("count = 2", 'count = "two"', 8, ("count", "whole number")),
        ("count = 2", "count = 2\nstuck = 3", 9, ("stuck", "0 to 2")),
        ('thread = "M4"', 'thread = "M4.3"', 7, ("thread", "M4.3")),
        ('thread = "M4"', "", 4, ("thread", "expected")),
        ('holds = "lid"', 'holds = "lit"', 6, ("holds", "lit", "lid")),
        ("count = 2", "cuont = 2", 8, ("cuont", "count")),
        ('name = "lid"', 'name = "lid"\nafter = ["lid"]', 4, ("after", "itself")),
        ('name = "lid"', 'name = "lid"\nafter = ["hose"]', 4, ("after", "hose")),
        ("[[part]]", '[[lines]]\nname = "x"\n[[part]]', 2, ("lines", "line")),
        ("[[part]]", '[[line]]\nname = "x"\nkind = "hosepipe"\n[[part]]', 4, ("kind", "hosepipe")),
        (
            "[[part]]",
            '[[line]]\nname = "lid"\nkind = "plug"\n[[part]]',
            6,
            ("name", "lid", "twice"),
        ),
        ("count = 2", 'count = 2\nmaker = "tight"', 9, ("maker", "tight")),
        ("count = 2", "count = 2\ngrip = -1", 9, ("grip", "-1")),
        ("count = 2", 'count = 2\nshape = "heart"', 9, ("shape", "heart", "circle")),
        ("count = 2", 'count = 2\nstate = "m4 fluffy"\ninto = "cheese"', 10, ("into", "cheese")),
        ('title = "A"', 'title = "A"\nhour = nan', 2, ("hour", "number")),
        ('title = "A"', 'title = "A', 1, ("line 1",)),
    ],
    ids=lambda value: str(value)[:30] if isinstance(value, str) else "",
)
def test_a_mistake_is_named_with_its_line(store, old, new, line, words):
    """Line, key, what stands there and what was expected."""
    assert old in LEAST
    said = mistakes(LEAST.replace(old, new, 1), store)

    assert f"line {line}" in said
    for word in words:
        assert word in said


def test_several_mistakes_at_once(store):
    text = LEAST.replace("count = 2", "count = 0")
    text = text.replace('thread = "M4"', 'thread = "M4.3"').replace('holds = "lid"', 'holds = "x"')
    said = mistakes(text, store)

    assert {"line 6", "line 7", "line 8"} <= {said[i : i + 6] for i in range(len(said))}


def test_a_ring_of_parts_is_told(store):
    text = LEAST + '[[part]]\nname = "a"\nafter = ["b"]\n[[part]]\nname = "b"\nafter = ["a"]\n'
    said = mistakes(text, store)

    assert "a" in said and "b" in said and "each other" in said


NAMES = (
    st.text(min_size=1, max_size=40)
    .map(lambda text: " ".join(text.split()))
    .filter(lambda text: text and text.isprintable())
)


@given(
    title=NAMES,
    names=st.lists(NAMES, min_size=2, max_size=5, unique=True),
    count=st.integers(1, 9),
    grip=st.none() | st.floats(0.5, 500),
    hour=st.none() | st.floats(1, 900),
    left=st.booleans(),
)
def test_written_and_read_again(store, title, names, count, grip, hour, left):
    """Whatever the words are: markup, quotes, backslashes, other scripts."""
    part, *rest = names
    fastener = Fastener(
        name=rest[0],
        holds=part,
        thread="M6x1",
        pieces=count,
        grip_mm=grip,
        left_hand=left,
        was=title,
    )
    job = Job(
        title,
        hour=hour,
        lines=tuple(Line(name, "plug") for name in rest),
        parts=(Part(part, after=tuple(rest)),),
        fasteners=(fastener,),
    )

    assert job == read_job(written_job(job), store)


def test_the_example_written_and_read_again(store):
    job = read_job(EXAMPLE, store)

    assert job == read_job(written_job(job), store)


@pytest.mark.parametrize(
    "text",
    [
        "a = " + "[" * 100_000,
        "a" * 3_000_000,
        'title = "A"\n' + "[[part]]\nname = 'x'\n" * 20_000,
        "\x00\x1b[31m",
        "",
    ],
    ids=["deep", "long", "many", "control", "empty"],
)
def test_hostile_files_are_refused_in_one_line(store, text):
    said = mistakes(text, store)

    assert len(said) < 2000
    assert "\x1b" not in said


def test_a_stub_is_told_and_written_again(store):
    """How far a snapped screw stands proud is a key of its own, in both unit systems."""
    job = read_job(LEAST + 'state = "snapped proud"\nstub = "1/4 in"\n', store)

    assert job.fasteners[0].stub_mm == pytest.approx(6.35)
    assert job == read_job(written_job(job), store)
