"""Aliases, sources, errata: what people say leads somewhere, what is cited is there."""

import csv
import re
import sqlite3
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

DATA = Path(__file__).parents[2] / "data"
NICKNAMES = ("torx", "allen", "phillips", "pozi", "robertson")


def read(name: str) -> list[dict[str, Any]]:
    """The rows of a CSV file, as text."""
    with (DATA / name).open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def test_an_alias_leads_to_one_entry() -> None:
    """The same words never mean two things."""
    counts = Counter(row["words"] for row in read("aliases.csv"))
    assert [] == [words for words, count in counts.items() if count > 1]


def test_aliases_are_lower_case_words() -> None:
    """Aliases are held as the search reads them: lower case, single blanks."""
    assert [] == [
        row["words"]
        for row in read("aliases.csv")
        if row["words"] != " ".join(row["words"].lower().split())
    ]


@pytest.mark.parametrize(
    ("words", "entry"),
    [
        ("torx", "system:hexalobular"),
        ("allen", "system:hex-socket"),
        ("phillips", "system:cross-h"),
        ("pozi", "system:cross-z"),
        ("robertson", "system:square"),
        ("torx 20", "drive:T20"),
        ("5 mm allen", "drive:hex-5mm"),
        ("philips 2", "drive:PH2"),
        ("13 mm spanner", "drive:AF-13mm"),
        ("half inch thirteen", "thread:1/2-13-UNC"),
        ("three eighths fine", "thread:3/8-24-UNF"),
        ("grade 5", "grade:SAE-5"),
        ("grub screw m6", "head:ISO-4026-M6"),
    ],
)
def test_trade_words_are_understood(words: str, entry: str) -> None:
    """The five trade nicknames and the usual sayings stand in the alias table."""
    assert entry == {row["words"]: row["entry"] for row in read("aliases.csv")}[words]


def test_nicknames_stand_nowhere_else() -> None:
    """The trade nicknames are input only: no other data file holds them."""
    found = [
        (path.name, word)
        for path in sorted(DATA.glob("*.*"))
        if path.name not in ("aliases.csv", "phrases.csv", "README.md")
        for word in NICKNAMES
        if re.search(rf"\b{word}\b", path.read_text("utf-8"), re.IGNORECASE)
    ]
    assert [] == found


def test_purposes_hold_no_figure() -> None:
    """A figure would be found as a size that the entry has."""
    said = [row["purpose"] for row in read("purposes.csv")]
    assert [] == [text for text in said if re.search(r"\d", text)]


def test_titles_hold_no_nickname(store: sqlite3.Connection) -> None:
    """Nothing that is printed carries one."""
    titles = [row[0].lower() for row in store.execute("SELECT title FROM entry")]
    assert [] == [title for title in titles for word in NICKNAMES if word in title.split()]


def test_an_erratum_says_both_values_and_why() -> None:
    """As printed differs from as used, and the evidence is a sentence."""
    for row in read("errata.csv"):
        assert row["as_printed"] != row["as_used"]
        assert len(row["evidence"].split()) >= 3
