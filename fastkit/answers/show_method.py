"""The values of ways of loosening, of their tools and of what they endanger."""

import sqlite3
from collections.abc import Mapping

from fastkit.answers.show_rows import Builder, Group, listed, plain, row_of
from fastkit.records.hazard import Clearance, Hazard, Neighbour
from fastkit.records.method import (
    BondEffect,
    Condition,
    Method,
    MethodHazard,
    MethodText,
    Variant,
    Veto,
)
from fastkit.records.part import Part
from fastkit.records.seizure import Seizure
from fastkit.records.tool import Tool
from fastkit.reference.lookup import get, many

# of a neighbour: what only a plan reckons with
PLANNED = ("aside_mm", "aside_min", "undone_mm", "undone_min", "named")


def method(store: sqlite3.Connection, key: str) -> list[Group]:
    """A way of loosening: what it does, with which tools, what it gives off, where it is out."""
    row = get(store, Method, key)
    texts = sorted(many(store, MethodText, method=key), key=lambda text: text.n)
    given_off = [
        get(store, Hazard, given.hazard) for given in many(store, MethodHazard, method=key)
    ]
    lists = {
        "steps": [text.text for text in texts if text.part == "step"],
        "cautions": [text.text for text in texts if text.part == "caution"],
    }
    return [
        Group("", ({**row._asdict(), **lists},)),
        Group("hazards", listed(given_off)),
        Group("variants", listed(many(store, Variant, method=key), "method")),
        Group("vetoes", listed(many(store, Veto, method=key), "method")),
        Group("bond_effects", listed(many(store, BondEffect, method=key), "method")),
    ]


def hazard(store: sqlite3.Connection, key: str) -> list[Group]:
    """A hazard, how far it must stay from what, and the methods that give it off."""
    methods = [{"method": f"method:{m.method}"} for m in many(store, MethodHazard, hazard=key)]
    return [
        Group("", (row_of(get(store, Hazard, key), "guard"),)),  # which its caution says at length
        Group("clearances", listed(many(store, Clearance, hazard=key), "hazard")),
        Group("methods", tuple(methods)),
    ]


def neighbour(store: sqlite3.Connection, key: str) -> list[Group]:
    """A neighbour of the work and how far each hazard must stay from it."""
    return [
        Group("", (row_of(get(store, Neighbour, key), *PLANNED),)),
        Group("clearances", listed(many(store, Clearance, neighbour=key), "neighbour")),
    ]


def seizure(store: sqlite3.Connection, key: str) -> list[Group]:
    """A state of seizure and what each treatment leaves of it."""
    return [
        *plain(Seizure)(store, key),
        Group("bond_effects", listed(many(store, BondEffect, seizure=key), "seizure")),
    ]


def tool(store: sqlite3.Connection, key: str) -> list[Group]:
    """A tool and what is done with it, with the room that takes."""
    return [
        *plain(Tool)(store, key),
        Group("variants", listed(many(store, Variant, tool=key), "tool")),
    ]


def part(store: sqlite3.Connection, key: str) -> list[Group]:
    """A part known by its name: what it is taken for, what is never done to it, what is minded."""
    vetoes = [row for row in many(store, Veto, field="part") if key in row.value.split()]
    minded = [row for row in many(store, Condition, field="part") if key in row.value.split()]
    return [
        *plain(Part)(store, key),
        Group("vetoes", listed(vetoes, "field", "op", "value")),
        Group("conditions", listed(minded, "field", "value")),
    ]


KINDS: Mapping[str, Builder] = {
    "method": method,
    "hazard": hazard,
    "neighbour": neighbour,
    "seizure": seizure,
    "tool": tool,
    "part": part,
}
