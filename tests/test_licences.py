"""What fastkit stands on is listed with its licence, all of it and nothing else."""

import re
import tomllib
from importlib.metadata import distribution
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
# | pytest, pytest-cov | MIT | tests |
TABLE = re.findall(
    r"^\| ([a-z0-9, -]+) \| ([\w.-]+) \| [^|]+ \|$",
    (ROOT / "DEVELOPERS.md").read_text("utf-8").partition("## What it stands on")[2],
    re.MULTILINE,
)
LICENCES = {name: own for names, own in TABLE[1:] for name in names.split(", ")}
FAMILIES = {"BSD-3-Clause": "BSD", "Apache-2.0": "Apache", "MPL-2.0": "MPL", "MIT": "MIT"}


def wanted():
    """Names of every package that pyproject.toml asks for."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    lists = [
        project["build-system"]["requires"],
        project["project"]["dependencies"],
        *project["project"]["optional-dependencies"].values(),
    ]
    return {re.match(r"[\w-]+", line)[0] for lines in lists for line in lines}


def test_all_are_listed():
    assert wanted() == set(LICENCES)


@pytest.mark.parametrize("name", sorted(LICENCES))
def test_the_licence_is_the_packages_own(name):
    """As its own metadata says, or the licence file that comes with it."""
    package = distribution(name)
    said = package.metadata
    own = [said.get("License-Expression") or said.get("License") or ""]
    own += [line for line in said.get_all("Classifier", []) if line.startswith("License")]
    own += [package.read_text(f"licenses/{file}") for file in said.get_all("License-File", [])]

    assert FAMILIES[LICENCES[name]] in " ".join(own)


def test_the_lock_pins_them_all_with_hashes():
    """Every package that is asked for, each at one version within its range, each with hashes."""
    lock = (ROOT / ".ci" / "lock.txt").read_text("utf-8")
    blocks = re.findall(r"^([\w.-]+)==([\w.]+)(.*?)(?=^[\w.-]+==|\Z)", lock, re.M | re.S)
    pinned = {name.lower().replace("_", "-"): version for name, version, _ in blocks}

    assert wanted() <= set(pinned)
    assert len(blocks) == len(pinned)
    assert [] == [name for name, _, rest in blocks if "--hash=sha256:" not in rest]
