"""The order command: a drawing that fits, statuses, one line for every mistake."""

import json

import pytest
from click.testing import CliRunner

from fastkit.cli import cli


def run(*args, **env):
    """The command's result."""
    return CliRunner().invoke(cli, ["order", *args], env=env)


@pytest.mark.parametrize("columns", ["24", "50", "80"])
@pytest.mark.parametrize(
    "args",
    [
        ("8", "circle"),
        ("60", "circle", "--why"),
        ("10", "rectangle", "5x2", "--torque", "90 N·m"),
        ("12", "rings", "4+8", "--loosen"),
    ],
)
def test_no_line_is_wider_than_the_screen(columns, args):
    """Drawing, order and stages at any width."""
    result = run(*args, COLUMNS=columns)

    assert 0 == result.exit_code, result.output
    assert max(map(len, result.stdout.splitlines())) <= int(columns)


def test_the_drawing_shows_turns_where_they_are():
    """On eight: first at the top, second at the bottom, third to the right, fourth to the left."""
    lines = run("8", "circle", COLUMNS="50").stdout.splitlines()
    drawn = [line for line in lines[3:] if line.strip()][:5]

    assert "1" == drawn[0].strip() and "2" == drawn[-1].strip()
    assert ["4", "3"] == drawn[2].split()


def test_json(tmp_path):
    """Sequence and stages, from a shape or a file."""
    file = tmp_path / "cover.txt"
    file.write_text("0 0\n10 0\n10 10\n0 10\n", "utf-8")
    said = json.loads(run("--at", str(file), "--torque", "20", "--json").stdout)

    assert [1, 3, 2, 4] == said["sequence"]
    assert 20 == said["stages"][-1]["torque_nm"] and said["stages"][0]["order"] == said["sequence"]
    assert [1, 5, 3, 7, 2, 6, 4, 8] == json.loads(run("8", "circle", "--json").stdout)["sequence"]


@pytest.mark.parametrize(
    "args",
    [
        (),
        ("8",),
        ("eight", "circle"),
        ("0", "circle"),
        ("99999999999", "circle"),
        ("8", "spiral"),
        ("8", "circle", "--torque", "much"),
        ("8", "circle", "--at", __file__),
        ("--at", "/nowhere/at/all"),
        ("--at", __file__),
    ],
)
def test_misuse_is_status_2(args):
    """One line on standard error, nothing on standard output."""
    result = run(*args)

    assert 2 == result.exit_code, result.output
    assert "" == result.stdout and 1 == result.stderr.count("\n")


def test_a_binary_file_is_refused(tmp_path):
    """As a mistake in a file that the user wrote."""
    file = tmp_path / "x"
    file.write_bytes(b"\xff\xfe\x00\x81")

    assert 2 == run("--at", str(file)).exit_code


def test_a_file_without_end_is_refused(tmp_path):
    """Nobody has a million bytes of fasteners."""
    file = tmp_path / "long"
    file.write_bytes(b"1 1\n" * 300_000)

    assert 2 == run("--at", str(file)).exit_code
