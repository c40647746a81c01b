"""Small things of the screens that a reader stumbles over, each as it should be said."""

import pytest
from click.testing import CliRunner

from fastkit.cli import cli


def run(*words):
    return CliRunner().invoke(cli, list(words), env={"COLUMNS": "100"})


def test_a_range_of_one_value_is_one_value():
    """Past yield both ends of the share stand at 100 %."""
    told = run("torque", "M8", "8.8", "--angle", "90", "--grip", "20").stdout

    assert "100 % of yield" in told and "100 to 100" not in " ".join(told.split())


def test_a_hot_place_is_not_called_unheated():
    head = run("replace", "M8", "--place", "600C", "--into", "steel").stdout.splitlines()[0]

    assert "600 °C" in head and "unheated" not in head


def test_a_nut_is_not_called_a_screw():
    told = run("replace", "M8", "--was", "nut", "--place", "600C", "--into", "steel").stdout

    assert "No nut from the shelf" in told and "No screw" not in told


@pytest.mark.parametrize("mark", ["A2", "a4", "A2 on the head"])
def test_a_steel_without_its_strength_is_every_class_of_it(mark):
    """People type what they can read; the usual class of the steel comes first."""
    steel = mark[:2].upper()
    found = run("identify", "grade", *mark.split())

    assert 0 == found.exit_code, found.stderr
    assert found.stdout.index(f"{steel}-70") < found.stdout.index(f"{steel}-80")


def test_a_figure_that_no_steel_has_is_no_mark():
    assert 1 == run("identify", "grade", "A9").exit_code


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ('"" = 3\n', "line 1, '': no such key"),
        ("x = 3\n", "line 1: expected title"),
        ("[[line]]\n", "line 1: expected title"),
    ],
)
def test_a_mistake_of_a_job_file_names_its_place(tmp_path, text, told):
    """An empty name is shown as one, and what is missing at the top belongs to no key."""
    file = tmp_path / "job.toml"
    file.write_text(text, "utf-8")
    said = run("job", str(file))

    assert 2 == said.exit_code
    assert told in said.stderr and ", :" not in said.stderr


@pytest.mark.parametrize(
    "words",
    [
        ["job"],
        ["order", "--at"],
        ["cards", "--out", "x.pdf", "--for"],
        ["tools", "import"],
        ["stock", "import"],
    ],
    ids=lambda words: words[0],
)
def test_a_file_that_is_not_there_is_wrong_usage(tmp_path, words):
    """It is the user's own file; status 3 is left for ours and for what cannot be written."""
    said = run(*words, str(tmp_path / "missing.toml"))

    assert 2 == said.exit_code
    assert "missing.toml" in said.stderr.splitlines()[-1]


def test_letters_that_resemble_nothing_are_given_no_neighbours():
    """`abc` is near to no drive; the examples are told instead."""
    said = run("near", "abc").stderr

    assert "expected such as T20" in said and "AF-1in" not in said
    assert "nearest: T30" in run("near", "T3O").stderr or "T3" in run("near", "T3O").stderr
