"""Nothing leaves its box, whatever the words; nothing foreign is overwritten."""

import pytest
from weasyprint.urls import FatalURLFetchingError

from fastkit.deck import pdf, target
from fastkit.deck.card import Card, Caution, Cell, Step, Steps, Table, Text, clean, shortened
from fastkit.deck.cutting import Spill, shortened_by
from fastkit.errors import Broken, Misuse

HOSTILE = [
    "<script>alert(1)</script><b>x</b>",
    "{{ 7 * 7 }} {% raw %} &amp; <svg onload=x>",
    "\u202eright to left\u202c \u0645\u0631\u062d\u0628\u0627",
    "W" * 300,
    "bell\x07 escape\x1b[31m null\x00 tab\t line\nbreak",
    "https://example.invalid/a.png url(https://example.invalid)",
]


def sample(**fields):
    """A small card."""
    plain = {
        "id": "sample",
        "family": "deck",
        "title": "Sample",
        "question": "Which?",
        "entries": (),
        "sources": (),
        "front": (Text("front"),),
        "back": (Text("back"),),
        "number": 1,
    }
    return Card(**{**plain, **fields})


@pytest.mark.parametrize(("size", "paper"), [("sleeve", "a4"), ("3x5", "letter")])
def test_nothing_overflows(cards, size, paper):
    """Every block of every card lies within its header, body or footer, by WeasyPrint's layout."""
    document = pdf.layout(pdf.html(cards, "0123456789ab", size=size, paper=paper))

    assert [] == pdf.spills(document)


@pytest.mark.parametrize(
    "fields",
    [
        {"front": tuple(Text("word " * 60) for _ in range(5))},
        {"back": tuple(Text("word " * 60) for _ in range(5))},
        {"title": "A title that is far too long for the width of one card"},
        {"back_title": "A title that is far too long for the width of one card"},
        {"front": (Table(("a",), ((Cell("9" * 40, "big"),),)),)},
        {"front": (Table(("a", "b"), ((Cell("M8", "head"), Cell("25", "big")),) * 40, "bolts"),)},
        {"front": (Steps(tuple(Step(str(n), "Do this", "so") for n in range(30))),)},
        {"entries": tuple(f"kind{n}:entry" for n in range(60))},
    ],
)
def test_what_is_too_much_is_cut_and_said(fields):
    """Too much in body, title, table or footer comes off, is named, and the deck is drawn."""
    said = []
    cards, document = pdf.fitted([sample(), sample(id="other", **fields)], "0", said.append)

    assert [] == pdf.spills(document)
    assert sample() == cards[0]
    assert [] == said if "entries" in fields else "other" in said[0]


def test_cut_rows_say_where_they_are():
    """Rows that come off are the last; a line says how to see them; the first stay as they were."""
    rows = tuple((Cell(f"M{n}", "head"), Cell(str(n), "big")) for n in range(40))
    full = sample(front=(Table(("a", "b"), rows, "bolts"), Caution("It can hurt.")))
    cards, _ = pdf.fitted([full], "0", lambda _: None)
    table, caution = cards[0].front

    assert "more: fastkit find bolts" == table.rows[-1][0].text
    assert rows[: len(table.rows) - 1] == table.rows[:-1] and len(table.rows) >= 8
    assert Caution("It can hurt.") == caution


@pytest.mark.parametrize(("mm", "left"), [(0.4, 9), (5.0, 9), (12.0, 8), (500.0, 1)])
def test_no_more_rows_come_off_than_spill(mm, left):
    """Rows of large figures are about 5.8 mm tall; one at least comes off, one at least stays."""
    rows = tuple((Cell(f"M{n}", "head"), Cell(str(n), "big")) for n in range(10))
    full = sample(front=(Table(("a", "b"), rows, "bolts"),))
    table = shortened_by(full, Spill(full.id, False, "body", mm, "")).front[0]

    assert rows[:left] == table.rows[:-1]


def test_a_caution_is_never_cut():
    """Too many words of warning are refused by name, not shortened."""
    with pytest.raises(Broken, match="sample"):
        pdf.pdf_bytes([sample(front=(Caution("mind the fuel " * 40),) * 4)], "0")


@pytest.mark.parametrize("words", HOSTILE)
def test_hostile_words_stay_text(words):
    """Markup, template and style syntax, direction marks and controls print as plain words."""
    short = clean(words, 60)
    blocks = (
        Text(short),
        Caution(short),
        Steps((Step("1", short, short),)),
        Table(("x",), ((Cell(short),),)),
    )
    markup = pdf.html([sample(front=blocks)], "0")
    document = pdf.layout(markup)

    assert [] == pdf.spills(document)
    assert "<script" not in markup and "onload=x>" not in markup and "\u202e" not in markup
    assert not set("\x00\x07\x1b") & set(markup)


def test_clean_shortens_and_keeps_plain_words():
    """What is plain stays, what is long ends in an ellipsis."""
    assert "6 mm socket, 5/8 in" == clean(" 6 mm\nsocket,  5/8 in ", 40)
    assert "aaaa…" == clean("a" * 9, 5)


def test_shortened_ids_name_first_and_last():
    """Few ids are all said, many by their ends; the kind is said once."""
    assert "drive:T10 T20 · source:x" == shortened(("drive:T10", "drive:T20", "source:x"))
    assert "n:0 … 19 (20)" == shortened(tuple(f"n:{k}" for k in range(20)))


def test_pages_fetch_nothing():
    """A document that asks for an address is refused as a whole."""
    with pytest.raises(FatalURLFetchingError, match="fetch nothing"):
        pdf.layout('<img src="https://example.invalid/x.png" alt="x">')


def test_foreign_files_stay(tmp_path):
    """A file that was not made here is kept byte for byte; ours is replaced; force overrides."""
    data = pdf.pdf_bytes([sample()], "0")
    file = tmp_path / "deck.pdf"
    for foreign in (b"notes", b"%PDF-1.7 fastkit cards", b"%PDF-1.7 /Type /ObjStm stream\nx"):
        file.write_bytes(foreign)
        with pytest.raises(Misuse, match="--force"):
            target.write(file, data)
        assert foreign == file.read_bytes()
    target.write(file, data, force=True)
    target.write(file, data)
    assert data == file.read_bytes()
    assert [file] == list(tmp_path.iterdir())


@pytest.mark.parametrize("name", ["missing/deck.pdf", "nul\x00.pdf", "x" * 300])
def test_impossible_paths_are_one_refusal(tmp_path, name):
    """A missing folder or an impossible name is said in one line, without a trace."""
    with pytest.raises(Broken):
        target.write(tmp_path / name, b"%PDF-")


def test_missing_pango_names_the_command(monkeypatch):
    """Where the library that shapes text is missing, the refusal names what installs it."""
    import builtins

    real = builtins.__import__

    def fail(name, *rest):
        if name == "weasyprint":
            raise OSError("cannot load library 'libpango-1.0-0': not found")
        return real(name, *rest)

    monkeypatch.setattr(builtins, "__import__", fail)
    with pytest.raises(Broken, match="apt-get install libpango"):
        pdf.weasyprint()


def test_each_side_is_told_while_it_is_laid_out():
    """Whoever waits hears of every side in its turn, and the bar is as long as the work done."""
    from fastkit.cli.cards import bar

    seen = []
    many = [sample(id=f"c{n}", number=n) for n in range(1, 20)]
    pdf.pdf_bytes(many, "0", side=seen.append)

    assert [1, 2, 3, 4, 5, 6] == seen
    assert "[########........] side 3 of 6" == bar(3, 6)
    assert "[................] side 0 of 6" == bar(0, 6)
    assert "[################] side 6 of 6" == bar(6, 6)
