"""The JSON documents hold the keys that README lists for scripts."""

import json
import re
import shlex
from pathlib import Path

import pytest
from click.testing import CliRunner

from fastkit.cli import cli

README = (Path(__file__).parents[1] / "README.md").read_text("utf-8")
# | `find m8` | `query`, `hits`: [`id`, `score`] |
ROWS = [
    pytest.param(shlex.split(command), keys, id=command[:40])
    for command, keys in re.findall(r"^\| `([^`]+)` \| (`.*`.*) \|$", README, re.MULTILINE)
]


def every_key(document):
    """Keys of a document and of the documents inside it."""
    if isinstance(document, dict):
        for key, value in document.items():
            yield key
            yield from every_key(value)
    elif isinstance(document, list):
        for element in document:
            yield from every_key(element)


@pytest.mark.parametrize(("question", "keys"), ROWS)
def test_keys_are_there(question, keys):
    """Every listed key stands in the answer to the question beside it."""
    result = CliRunner().invoke(cli, [*question, "--json"])

    assert 0 == result.exit_code, result.output
    assert set() == set(re.findall(r"`(\w+)`", keys)) - set(every_key(json.loads(result.stdout)))


def test_every_command_is_listed():
    """A script finds each command in the table."""
    assert {row.values[0][0] for row in ROWS} >= {
        *("find", "show", "torque", "extract", "cards", "sources", "check")
    }
