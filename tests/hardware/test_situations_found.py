"""
What a good mechanic says of a thread, a mark or a hole, held against the answers.

Each `[[situation]]` has what is asked (`ask`), the `options` of the Python function, and any of:
`first`, one of which must lead; `must`, which must be offered; `must_not`, which must not; `says`,
words that must stand somewhere in the answer; `separates`, one of which must be the next reading;
`machine_shop`, whether it sends one there. Basis of all: common practice, no published source.
"""

import json
import tomllib
from pathlib import Path

import pytest

from fastkit.answers.identify import identify_thread
from fastkit.answers.identify_parts import identify_drive, identify_grade, identify_head
from fastkit.answers.repair import repair

CASES = tomllib.loads((Path(__file__).parent / "situations_found.toml").read_text("utf-8"))[
    "situation"
]
ASK = {
    "thread": identify_thread,
    "drive": identify_drive,
    "grade": identify_grade,
    "head": identify_head,
}


def offered(case, store):
    """Ids in order, and the whole document."""
    if case["ask"] == "repair":
        answer = repair(store=store, **case["options"])
        return [option.method for option in answer.options], answer.document()
    answer = ASK[case["ask"]](store=store, **case["options"])
    ids = [name for c in answer.candidates for name in (c.id, *c.also)]
    return ids, answer.document()


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["id"])
def test_situation(store, case):
    ids, document = offered(case, store)
    told = json.dumps(document, ensure_ascii=False).lower()

    if case.get("first"):
        assert ids and ids[0] in case["first"], ids[:5]
    assert [] == [name for name in case.get("must", ()) if name not in ids], ids[:12]
    assert [] == [name for name in case.get("must_not", ()) if name in ids]
    assert [] == [word for word in case.get("says", ()) if word.lower() not in told]
    if "separates" in case:
        assert document["separates"]["reading"] in case["separates"]
    if "machine_shop" in case:
        assert case["machine_shop"] == bool(document["machine_shop"])
    assert case["why"]
