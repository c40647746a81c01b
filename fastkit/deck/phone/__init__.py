"""
The deck and what is asked most, as one file for a telephone without a network.

Flow: cards, plans, torques and the search's own tables -> one HTML text that holds everything,
style, script and typeface included, and that forbids its reader to fetch anything.
"""

import re
import sqlite3
from base64 import b64encode
from collections.abc import Mapping, Sequence
from gzip import compress
from hashlib import sha256
from itertools import groupby
from json import dumps
from pathlib import Path
from typing import Any

from fastkit.answers.find_tables import tables
from fastkit.answers.short_facts import facts
from fastkit.deck.card import Card
from fastkit.deck.markup import FONTS, PRODUCER, Fragment, fragment_css, fragments, phone_page
from fastkit.notation.tied import MEASURES

HERE = Path(__file__).parent
SCRIPTS = (
    *(
        "words",
        "writing",
        "textindex",
        "gathered",
        "hearing",
        "spelling",
        "spoken",
        "scoring",
        "search",
    ),
    *("elements", "packed", "stuck", "torque", "find", "cards", "routes"),
)
FAMILIES = {
    "start": "First",
    "emergency": "Stuck, broken",
    "loosen": "Loosen",
    "torque": "Tighten",
    "gauge": "What is it",
    "replace": "Replace",
    "repair": "Repair",
    "deck": "About the deck",
}


def page(content: Mapping[str, Any], cards: Sequence[Card], store: sqlite3.Connection) -> str:
    """
    The page as HTML; the same input gives the same text.

    Args:
        content: What was worked out beforehand: version, data, stuck and torque.
        cards: The cards in order.
        store: Open reference, for what can be found.

    Raises:
        Broken: When the reference cannot be read.
    """
    faces = [_faced(fragment) for fragment in fragments(cards, content["data"])]
    style = _style()
    script = _script()
    data = {
        "stuck": content["stuck"],
        "torque": content["torque"],
        "find": {"search": tables(store), **facts(store)},
    }
    families = groupby(faces, lambda face: face.family)
    return phone_page(
        policy=_policy(style, script),
        producer=PRODUCER,
        version=content["version"],
        data_version=content["data"],
        css=style,
        script=script,
        cards=faces,
        families=[(FAMILIES[family], list(members)) for family, members in families],
        data=[(name, _packed(held)) for name, held in data.items()],
    )


def _policy(style: str, script: str) -> str:
    """Nothing from anywhere, but this style, this script and the typeface inside the style."""
    return "; ".join(
        (
            "default-src 'none'",
            f"script-src '{_hash(script)}'",
            f"style-src '{_hash(style)}'",
            *("font-src data:", "base-uri 'none'", "form-action 'none'"),
            "require-trusted-types-for 'script'",
        )
    )


def _hash(text: str) -> str:
    return f"sha256-{b64encode(sha256(text.encode()).digest()).decode()}"


def _packed(held: Any) -> str:
    """JSON, compressed, in base64."""
    text = dumps(held, ensure_ascii=False, separators=(",", ":"))
    return b64encode(compress(text.encode(), mtime=0)).decode()


def _script() -> str:
    """Every part in one scope of its own, the units that stay with their number before them."""
    measures = f"const MEASURES = {dumps(MEASURES, ensure_ascii=False)};"
    parts = "\n".join((HERE / f"{name}.js").read_text("utf-8") for name in SCRIPTS)
    return f'"use strict";\n{{\n{measures}\n{parts}\n}}\n'


def _style() -> str:
    """The page's style with the typeface in it, and that of the blocks on a card."""
    style = (HERE / "page.css").read_text("utf-8")
    for weight in ("400", "700"):
        font = b64encode((FONTS / f"hyperlegible-{weight}.woff2").read_bytes()).decode()
        style = style.replace(f'url("font:{weight}")', f"url(data:font/woff2;base64,{font})")
    return f"{_for_screen(fragment_css())}\n{style}"


def _for_screen(css: str) -> str:
    r"""
    A card's style within a face, its points of a size that the reader's own text size sets.

    >>> _for_screen(".text.small { font-size: 6.6rem }")
    '\n.face .text.small { font-size: calc(6.6 * var(--pt)) }'
    """
    css = re.sub(r"([\d.]+)rem\b", r"calc(\1 * var(--pt))", css)
    css = re.sub(r"(?<![\w.])(-?[\d.]+)mm\b", r"calc(\1 * 2.835 * var(--pt))", css)
    css = re.sub(r"#000\b", "var(--ink)", css)
    css = re.sub(r"#fff\b", "var(--paper)", css)
    return re.sub(r"([^{}]+)\{", lambda rule: f"{_within(rule[1])} {{", css)


def _within(selectors: str) -> str:
    return ",".join(f"\n.face {each.strip()}" for each in selectors.split(","))


def _faced(fragment: Fragment) -> Fragment:
    """A card's faces with drawings that grow with the text and tables that can be moved."""
    return fragment._replace(front=_fluid(fragment.front), back=_fluid(fragment.back))


def _fluid(face: str) -> str:
    """Sizes in em, hundredths of a mm in drawings, no typeface of their own, no empty headings."""
    face = re.sub(
        r'<svg xmlns="[^"]*" width="([\d.]+)mm" height="([\d.]+)mm"',
        r'<svg width="\1em" height="\2em"',
        face,
    )
    face = face.replace(' font-family="Hyperlegible"', "").replace("<th></th>", "<td></td>")
    face = re.sub(r"<svg.*?</svg>", _coarser, face, flags=re.DOTALL)
    return re.sub(
        r'(<table class="block">.*?</table>)',
        r'<div class="scroll">\1</div>',
        face,
        flags=re.DOTALL,
    )


def _coarser(drawing: re.Match[str]) -> str:
    """No screen shows more than hundredths; the words in a drawing are left as they are."""
    parts = re.split(r"(>[^<]*<)", drawing[0])
    return "".join(
        part if part.startswith(">") else re.sub(r"\d+\.\d{3,}", _hundredths, part)
        for part in parts
    )


def _hundredths(number: re.Match[str]) -> str:
    return f"{float(number[0]):.2f}".rstrip("0").rstrip(".")
