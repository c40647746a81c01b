"""What stands where: the top level, and words that have their one place or none."""

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
TOP = {
    "README.md",
    "DEVELOPERS.md",
    "LICENSE",
    "cards_out",
    "data",
    "fastkit",
    "pyproject.toml",
    "tests",
}
MADE = {"build", "dist"}  # by builds; ignored by git, as dotfiles and caches are
MACHINE_PATH = re.compile(r"(?<![\w./~-])/(?:work|root|home|Users|tmp)/\w")
REGISTRY = re.compile(
    r"--(?:extra-)?index[-]url|--regist[r]y|regist[r]y\s*=|https?://(?:pypi|files\.py)"
)
NICKNAME = re.compile(r"\b(?:torx|allen|phillips|pozi(?:driv)?|robertson)\b", re.IGNORECASE)
TEXT = {".py", ".md", ".toml", ".csv", ".css", ".html", ".svg", ".txt", ".yml", ".cfg", ""}


def written():
    """Text files of the project, without what builds and caches leave behind."""
    for top in sorted(ROOT.iterdir()):
        if top.name in TOP - {"cards_out"} | {".ci", ".gitignore"}:
            for path in [top] if top.is_file() else sorted(top.rglob("*")):
                if path.is_file() and path.suffix in TEXT and "__pycache__" not in path.parts:
                    yield path


def lines_with(pattern, paths):
    return [
        f"{path.relative_to(ROOT)}:{number}: {line.strip()[:80]}"
        for path in paths
        for number, line in enumerate(path.read_text("utf-8").splitlines(), 1)
        if pattern.search(line)
    ]


def test_top_level_is_the_map():
    """The first look at the folder shows the whole house and nothing else."""
    there = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}

    assert TOP == there - MADE


@pytest.mark.parametrize("pattern", [MACHINE_PATH, REGISTRY], ids=["machine path", "registry"])
def test_nothing_is_tied_to_a_machine(pattern):
    """The tree runs anywhere: no path of one machine, no host to fetch from."""
    assert [] == lines_with(pattern, (path for path in written() if path != Path(__file__)))


def test_nicknames_are_only_understood():
    """A recess is called by its standard's name; the trade's nickname is only input."""
    places = (
        path
        for path in written()
        if "tests" not in path.relative_to(ROOT).parts
        and path.name not in {"aliases.csv", "phrases.csv"}
    )

    assert [] == lines_with(NICKNAME, places)
