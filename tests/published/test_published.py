"""
Every published number that the formulas claim to reproduce, with its source beside it.

A table's tolerance is half a unit of the last printed digit, or what the file states. A row that
does not come out is listed in deviations.toml with the evidence; it must then really deviate.
Run this file by itself for the count and the worst deviation of each family.
"""

import importlib
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest

HERE = Path(__file__).parent


class Case(NamedTuple):
    """One printed value."""

    family: str
    label: str
    source: str
    function: str
    args: tuple[float | str, ...]
    result: float
    printed: str
    tolerance: dict[str, float]

    @property
    def name(self) -> str:
        """What deviations.toml calls it."""
        return f"{self.family}: {self.label}"

    def got(self) -> float:
        """What the formula gives, in the printed unit."""
        module, _, function = self.function.partition(":")
        formula: Callable[..., float] = getattr(importlib.import_module(module), function)
        return formula(*self.args) * self.result

    def allowed(self) -> float:
        """How far off the printed value it may lie."""
        value = abs(float(self.printed))
        unit = 10.0 ** -len(self.printed.partition(".")[2])
        if "figures" in self.tolerance:  # trailing zeros only fill up
            exponent = len(self.printed.partition(".")[0].lstrip("0"))
            unit = max(unit, 10.0 ** (exponent - self.tolerance["figures"])) if exponent else unit
        if not self.tolerance or "figures" in self.tolerance:
            return unit / 2 * (1 + 1e-9)
        bounds = (
            self.tolerance.get("relative", 0.0) * value,
            self.tolerance.get("units", 0) * unit,
        )
        return max(bounds) * (1 + 1e-9)

    def off(self) -> float:
        """Relative deviation of the formula from the printed value."""
        return self.got() / float(self.printed) - 1


def _cases() -> list[Case]:
    found = []
    for path in sorted(HERE.glob("*.toml")):
        for table in tomllib.loads(path.read_text("utf-8")).get("table", ()):
            scale = [table.get("scale", {}).get(column, 1.0) for column in table["columns"]]
            for label, *args, printed in table["rows"]:
                scaled = tuple(
                    a if isinstance(a, str) else a * s for a, s in zip(args, scale, strict=True)
                )
                found.append(
                    Case(
                        table["family"],
                        label,
                        table["source"],
                        table["function"],
                        scaled,
                        table.get("result", 1.0),
                        printed,
                        table.get("tolerance", {}),
                    )
                )
    return found


CASES = _cases()
DEVIATIONS: dict[str, str] = {
    f"{entry['family']}: {label}": entry["evidence"]
    for entry in tomllib.loads((HERE / "deviations.toml").read_text("utf-8"))["deviation"]
    for label in entry["labels"]
}
AT_LEAST = {  # printed values a family must hold, so that a table cannot get lost
    "VDI 2230-1 A1 coarse preload": 187,
    "VDI 2230-1 A1 coarse torque": 187,
    "VDI 2230 fine preload": 81,
    "VDI 2230 fine torque": 81,
    "breaking torque": 29,
    "ultimate load": 97,
    "limits: 6g": 512,
    "limits: 6H": 528,
    "limits: 3A": 50,
    "limits: 3B": 70,
    "limits: 7H": 10,
    "worked: screws of one textbook": 8,
}


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_reproduces_the_printed_value(case: Case) -> None:
    """The formula lands within the tolerance, or the row is listed and does deviate."""
    inside = abs(case.got() - float(case.printed)) <= case.allowed()

    if case.name in DEVIATIONS:
        assert not inside, f"{case.name} comes out: take it off deviations.toml"
    else:
        assert inside, f"{case.name}: printed {case.printed}, got {case.got():.6g}; {case.source}"


def test_names_are_unique_and_deviations_name_rows() -> None:
    """A listed deviation points at one row, and says why."""
    names = [case.name for case in CASES]

    assert len(names) == len(set(names))
    assert set(DEVIATIONS) <= set(names)
    assert all(len(evidence) > 20 for evidence in DEVIATIONS.values())


@pytest.mark.parametrize("family", sorted(AT_LEAST))
def test_nothing_got_lost(family: str) -> None:
    """The tables are still whole."""
    assert sum(case.family == family for case in CASES) >= AT_LEAST[family]


def test_worked_examples_are_of_many_kinds() -> None:
    """At least twenty kinds beside those of the first two files, each read with page or section."""
    tables = tomllib.loads((HERE / "worked_more.toml").read_text("utf-8"))["table"]

    assert len({table["family"] for table in tables}) >= 20
    assert all(table["standing"] == "read" for table in tables)


@pytest.mark.parametrize("family", ["VDI 2230-1 A1 coarse", "VDI 2230 fine"])
@pytest.mark.parametrize(("kind", "bound"), [("preload", 0.025), ("torque", 0.035)])
def test_vdi_tables_hold_as_a_whole(family: str, kind: str, bound: float) -> None:
    """At least 98 % of the rows lie within 2.5 % of preload and 3.5 % of torque."""
    rows = [abs(case.off()) for case in CASES if case.family == f"{family} {kind}"]

    assert sum(off <= bound for off in rows) >= 0.98 * len(rows)


if __name__ == "__main__":
    for name in dict.fromkeys(case.family for case in CASES):
        rows = [case for case in CASES if case.family == name]
        held = [case for case in rows if case.name not in DEVIATIONS]
        worst = max((abs(case.off()) for case in held), default=0.0)
        print(f"{name:34} {len(held):4} of {len(rows):4}   worst {worst:7.3%}")
    print(f"{'all':34} {len(CASES) - len(DEVIATIONS):4} of {len(CASES):4}")
