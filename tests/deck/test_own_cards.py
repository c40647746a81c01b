"""Cards of a job and of the user's own file: what was told is on them, as text, in its box."""

import io
import json
import re

import pdfplumber
import pytest
from click.testing import CliRunner

from fastkit.answers.job import job
from fastkit.answers.job_file import EXAMPLE
from fastkit.answers.notes import note_torque
from fastkit.answers.shelf import add_tool
from fastkit.cli import cli
from fastkit.deck import content, pdf
from fastkit.deck.cards_job import job_cards

HOSTILE = (
    "<script>alert(1)</script>",
    "{{ 7 * 7 }} {% raw %}",
    "\u0645\u0631\u062d\u0628\u0627 \u05e9\u05dc\u05d5\u05dd",
    "W" * 120,
    "\U0001f527\U0001f6e0 spanner",
    "</article></section>",
)


@pytest.fixture(scope="module")
def example():
    """The job that ships as an example."""
    return EXAMPLE.read_text("utf-8")


def words(cards):
    """Everything the cards say, as printed and extracted."""
    with pdfplumber.open(io.BytesIO(pdf.pdf_bytes(cards, "0"))) as document:
        return " ".join(" ".join((page.extract_text() or "").split()) for page in document.pages)


def test_a_job_has_its_cards(example, store):
    """Labels, order of work, plans, list, torque and order each have a card, letters printed."""
    answer = job(example, store=store)
    cards = job_cards(answer)
    ids = [c.id for c in cards]

    for wanted in ("labels", "apart", "loosen-1", "buy", "together", "torque", "order-1", "checks"):
        assert f"job-{wanted}" in ids
    assert list(range(1, len(cards) + 1)) == [c.number for c in cards]
    said = words(cards)
    for label in answer.labels:
        assert label.letter in said and label.name.split()[0] in said
    for row in answer.tightening:
        if row.torque_nm is not None:
            assert f"{row.torque_nm:.4g}" in said
    for buy in answer.buy:
        assert f"{buy.pieces}" in said and buy.line.split(",")[0].split()[0] in said


def test_no_step_of_a_job_is_lost(example, store):
    """Each task that the sheet names is a step of a card, whole."""
    answer = job(example, store=store)
    cards = job_cards(answer)
    for id, tasks in (("job-apart", answer.apart), ("job-together", answer.together)):
        steps = [
            step
            for c in cards
            if re.sub(r"-\d+$", "", c.id) == id
            for face in (c.front, c.back)
            for block in face
            if block.kind == "steps"
            for step in block.items
        ]
        assert [t.what for t in tasks] == [s.title for s in steps]
        assert not [s.text for s in steps if s.text.endswith("…")]


def test_the_cards_of_a_job_are_whole_and_few(example, store):
    """No word is cut off, what can hurt comes first, one card holds the order of work."""
    answer = job(example, store=store)
    cards = job_cards(answer)
    told = " ".join(f"{block}" for card in cards for block in (*card.front, *card.back))

    assert "…" not in told and "..." not in told
    assert "job-cautions" == cards[0].id
    assert all(caution.lower() in told.lower() for caution in answer.cautions)
    assert 1 == len([card for card in cards if card.id.startswith("job-apart")])
    assert "plan below" not in told
    assert not pdf.spills(pdf.layout(pdf.html(cards, "0")))
    for plan in answer.plans:
        card = next(c for c in cards if c.front and plan.name in getattr(c.front[0], "text", ""))
        assert "caution" in {block.kind for block in card.front}


@pytest.mark.parametrize("nasty", HOSTILE)
def test_hostile_words_in_a_job_stay_text(example, store, nasty):
    """Markup, other scripts, long words and pictures print as words inside their boxes."""
    told = json.dumps(nasty, ensure_ascii=False)
    text = re.sub('title = "[^"]*"', lambda _: f"title = {told}", example, count=1)
    text = text.replace('"guard screws"', told).replace(
        '"motor lead"', json.dumps(nasty + "2", ensure_ascii=False)
    )
    cards = job_cards(job(text, store=store))
    fitted, document = pdf.fitted(cards, "0", lambda _: None)

    assert [] == pdf.spills(document)
    assert [c.id for c in cards] == [c.id for c in fitted]
    assert "<script>" not in pdf.html(cards, "0")


def test_for_writes_a_job(tmp_path, example):
    """The command makes the job's cards; a missing file and a mistake in it are refused."""
    source, target = tmp_path / "job.toml", tmp_path / "job.pdf"
    source.write_text(example, "utf-8")
    done = CliRunner().invoke(cli, ["cards", "--for", str(source), "--out", str(target), "--json"])

    assert 0 == done.exit_code, done.stderr
    assert target.read_bytes().startswith(b"%PDF-")
    assert "job-apart" in {c["id"] for c in json.loads(done.stdout)["cards"]}
    assert 0 != CliRunner().invoke(cli, ["cards", "--for", str(tmp_path / "none.toml")]).exit_code


def test_own_values_and_tools_make_cards(store):
    """Without notes there are none; a noted torque and a tool are printed with their numbers."""
    before = {s.id for s in content.sketches()}
    note_torque("mower <b>", "blade bolt", "42 N·m", "handbook p. 7")
    add_tool("ratchet", "1/4 in stubby", above_mm=31.5, beside_mm=12)
    cards = content.deck(store, ["own-torques", "own-tools"])
    said = words(cards)

    assert not {"own-torques", "own-tools"} & before
    assert "42" in said and "31" in said and "mower" in said and "31.5" in said
    assert "as you noted them" in said.lower()


@pytest.mark.parametrize("nasty", HOSTILE)
def test_hostile_words_in_the_own_file_stay_text(store, nasty):
    """Markup, other scripts, long words and pictures noted for a torque or a tool stay in place."""
    note_torque(nasty, nasty, "42 N·m", nasty)
    add_tool("ratchet", nasty[:60], above_mm=31.5, beside_mm=12)
    cards = content.deck(store, ["own-torques", "own-tools"])
    fitted, document = pdf.fitted(cards, "0", lambda _: None)
    markup = pdf.html(fitted, "0")

    assert [] == pdf.spills(document)
    assert ["own-torques", "own-tools"] == [c.id for c in fitted]
    assert "<script>" not in markup and markup.count("</article>") == 2 * len(fitted)
    assert "42" in markup and "31.5" in markup
