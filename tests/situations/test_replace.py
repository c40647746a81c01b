"""
What a good mechanic would put back, held against `replace`.

Each `[[situation]]` has `ask`, the arguments, and any of: `first`, values of the first option, any
of the listed; `never`, values that no option has (keys joined by + are looked at together);
`none`, nothing is offered; `reuse`, the verdict; `says`, beginnings of words that stand in the
answer; `says_not`, what must not; `ground`, a ground joint is described; `stack`, pieces in that
order. `why` says why.
"""

import json
import tomllib
from pathlib import Path
from typing import Any

import pytest

from fastkit.answers.replace import ReplaceAnswer, document, replace

CASES = [
    case
    for path in sorted((Path(__file__).parent / "replace").glob("*.toml"))
    for case in tomllib.loads(path.read_text(encoding="utf-8"))["situation"]
]
# id: why the answer differs from the bench; each is expected to fail, and speaks up once it holds
KNOWN_MISSES: dict[str, str] = {}


def values(option: dict[str, Any], key: str) -> list[Any]:
    """What an option has under a key; keys joined by + give one joined value."""
    if "+" in key:
        return ["+".join(str(option[part]) for part in key.split("+"))]
    value = option[key]
    return value if isinstance(value, list) else [value]


def misses(case: dict[str, Any], answer: ReplaceAnswer) -> list[str]:
    """Return what the answer gets wrong, in words."""
    told = json.loads(json.dumps(document(answer)))
    options = told["options"]
    wrong = []
    if case.get("none"):
        wrong += [f"{option['line']} is offered" for option in options[:1]]
    for key, wanted in case.get("first", {}).items():
        found = values(options[0], key) if options else ["nothing"]
        if not any(value in wanted for value in found):
            wrong.append(f"first has {key} {found}, not one of {wanted}")
    for key, barred in case.get("never", {}).items():
        for option in options:
            wrong += [
                f"option {option['rank']} has {key} {value}"
                for value in values(option, key)
                if any(value == bad or str(value).startswith(f"{bad} ") for bad in barred)
            ]
    if "reuse" in case and told["reuse"]["verdict"] != case["reuse"]:
        wrong.append(f"reuse is {told['reuse']['verdict']}, not {case['reuse']}")
    text = json.dumps(told, ensure_ascii=False).lower()
    wrong += [f"does not say {word!r}" for word in case.get("says", ()) if word.lower() not in text]
    wrong += [f"says {word!r}" for word in case.get("says_not", ()) if word.lower() in text]
    if case.get("ground") and not told["ground"]:
        wrong.append("no ground joint is described")
    if case.get("stack") and told["ground"]:
        stack = " | ".join(told["ground"]["stack"]).lower()
        places = [stack.find(piece) for piece in case["stack"]]
        if -1 in places or places != sorted(places):
            wrong.append(f"stack is {stack}")
    return wrong


@pytest.mark.parametrize(
    "case",
    [
        pytest.param(
            case,
            id=case["id"],
            marks=pytest.mark.xfail(reason=KNOWN_MISSES[case["id"]], strict=True)
            if case["id"] in KNOWN_MISSES
            else (),
        )
        for case in CASES
    ],
)
def test_what_goes_back_is_what_the_bench_would_fit(case: dict[str, Any]) -> None:
    """The first option is right, nothing barred is offered, and what must be said is said."""
    assert misses(case, replace(**case["ask"])) == []


def test_situations_are_well_formed() -> None:
    """Twenty-five or more, each once, each with a reason and something expected."""
    names = [case["id"] for case in CASES]
    keys = {
        "id",
        "ask",
        "first",
        "never",
        "none",
        "reuse",
        "says",
        "says_not",
        "ground",
        "stack",
        "why",
    }
    assert len(names) == len(set(names)) >= 25
    for case in CASES:
        assert set(case) <= keys | {"basis"}
        assert case["why"]
