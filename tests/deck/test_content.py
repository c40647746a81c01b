"""What the cards say: every number is the answers' and the data's, every id is held."""

import re
from html import unescape

import pytest

from fastkit.answers.extract import extract
from fastkit.answers.torque import torque
from fastkit.answers.torque_sources import FORMULAS_ONLY
from fastkit.deck import cards_emergency, cards_torque, content, markup, pdf
from fastkit.deck.card import Caution, Cell, Steps, Table
from fastkit.errors import NotHeld
from fastkit.notation.units import LBFT_NMM
from fastkit.records.drive import Drive
from fastkit.records.method import Method, Variant
from fastkit.records.thread import ClearanceHole, TapDrill
from fastkit.reference.lookup import get, many, one
from fastkit.reference.store import query

LAY_EVERY = sorted(s.id for s in content.sketches())


def texts(card):
    """Every plain word string of a card."""

    def walk(value):
        if isinstance(value, str):
            yield value
        elif isinstance(value, tuple):
            for part in value:
                yield from walk(part)

    every = [t for face in (card.front, card.back) for t in walk(face)]
    drawn = [t for svg in every if svg.startswith("<svg") for t in re.findall(r">([^<]+)<", svg)]
    return [*(t for t in every if not t.startswith("<svg")), *map(unescape, drawn)]


def tables(card, face="front"):
    """Tables of a face."""
    return [b for b in getattr(card, face) if isinstance(b, Table)]


def test_deck_has_its_families(cards):
    """At least a card for each moment: emergencies, torque, sizes, gauges, proof, sources."""
    counts = {f: sum(c.family == f for c in cards) for f in markup.FAMILIES}

    assert len(cards) >= 20
    assert counts["emergency"] >= 7 and counts["torque"] >= 6 and counts["gauge"] >= 4
    assert list(range(1, len(cards) + 1)) == [c.number for c in cards]
    assert set(LAY_EVERY) <= {c.id for c in cards}


def test_every_entry_and_source_is_held(cards, store):
    """No card names an entry or a source that `show` would not know."""
    held = {str(r[0]) for r in query(store, "SELECT id FROM entry")}
    named = {f"source:{s}" for s in FORMULAS_ONLY}
    for card in cards:
        assert set(card.entries) <= held, card.id
        assert {f"source:{s}" for s in card.sources} <= held | named, card.id


def test_every_source_is_named_on_few_cards(cards):
    """By key and title, a standard by its body and number; three cards of them at most."""
    listing = [card for card in cards if card.id.startswith("sources")]
    by_number, by_key = set(), set()
    for card in listing:
        for block in (*tables(card, "front"), *tables(card, "back")):
            for row in block.rows:
                if len(row) == 2 and row[0].look == "key":
                    by_number |= {f"{row[0].text} {number}" for number in row[1].text.split(", ")}
                else:
                    by_key.add(row[0].text.partition(":")[0])
    for source in {s for card in cards for s in card.sources} - set(FORMULAS_ONLY):
        body, _, number = source.partition("-")
        assert source in by_key or f"{body.upper()} {number.upper()}" in by_number, source
    assert len(listing) <= 3


def test_every_card_asks_and_sources(cards):
    """Each card has a title, a question, both faces, and but for the index what it rests on."""
    for card in cards:
        assert card.title and card.question and card.front and card.back
        assert card.entries, card.id
        if card.family in ("emergency", "torque"):
            assert any("aution" in type(b).__name__ for b in (*card.front, *card.back)), card.id


@pytest.mark.parametrize("plan", cards_torque.CARDS, ids=lambda plan: plan.id)
def test_torque_cards_say_what_torque_answers(plan, cards, store):
    """Each row's setting and window are the answer's, edges rounded inward."""
    card = next(c for c in cards if c.id == plan.id)
    for side, face in ((plan.front, "front"), (plan.back, "back")):
        rows = tables(card, face)[0].rows
        assert len(rows) == len(side.threads)
        for key, (_, big, second, window) in zip(side.threads, rows, strict=True):
            tapped = {}
            if side.engage_d:
                size = float(key[1:].split("x")[0])
                tapped = {"into": plan.into, "engage_mm": side.engage_d * size}
            a = torque(key, plan.grade, friction=side.friction, store=store, **tapped)
            unit = 1000 / LBFT_NMM if plan.inch else 1.0
            low, high = map(float, window.text.split(" to "))
            shown = float(big.text)
            assert a.torque_nm * unit == pytest.approx(shown, rel=0.02)
            assert a.torque_min_nm * unit <= low <= high <= a.torque_max_nm * unit + 1e-9
            assert a.torque_min_nm * unit == pytest.approx(low, rel=0.01)
            assert shown <= a.torque_nm * unit + 1e-9
            other, per = second.text.split(), 1000 / LBFT_NMM
            if "lb·in" in other:
                per *= 12
            wanted = a.torque_nm if plan.inch else a.torque_nm * per
            assert wanted == pytest.approx(float(other[0]), rel=0.04)


@pytest.mark.parametrize("case", cards_emergency.CASES, ids=lambda case: case.id)
def test_emergencies_start_as_the_plan(case, cards, store):
    """First step, room drawn and reason to stop are those of the plan at the stated situation."""
    card = next(c for c in cards if c.id == case.id)
    answer = extract("", store=store, **case.options)
    steps = next(b for b in card.front if isinstance(b, Steps)).items
    first = answer.plan[0]

    assert f"method:{first.method}" == card.entries[0]
    assert answer.titles[f"method:{first.method}"] == steps[0].title
    assert "STOP" == steps[-1].tag
    drawing = card.front[0].svg
    numbers = set(re.findall(r">(\d+)</text>", drawing))
    used = [
        v
        for m in answer.plan
        if (v := one(store, Variant, method=m.method, id=m.variant or "")) is not None
    ]
    rooms = [{f"{v.above_mm:g}", f"{v.beside_mm:g}"} for v in used]
    assert not numbers or numbers in rooms


SHOP = "Machine shop, or a new part."


@pytest.mark.parametrize("case", cards_emergency.CASES, ids=lambda case: case.id)
def test_each_step_is_what_the_plan_says_first_once_those_above_have_failed(case, cards, store):
    """With the chance and the minutes that it then has, not those it would have had at first."""
    card = next(c for c in cards if c.id == case.id)
    *steps, stop = next(b for b in card.front if isinstance(b, Steps)).items
    tried = []
    for step in steps:
        answer = extract("", store=store, tried=tuple(tried), **case.options)
        first = answer.plan[0]
        chance = f"chance {first.chance * 100:.0f} %"
        treats = one(store, Method, id=first.method).kind == "treat"
        again = ", once more" if first.method in tried else ""
        assert f"{answer.titles[f'method:{first.method}']}{again}" == step.title
        assert step.text.startswith("weakens the bond" if treats else chance)
        assert f", {first.minutes:.0f} min" in step.text
        tried.append(first.method)
    assert "STOP" == stop.tag and "The last way failed too" == stop.title
    assert SHOP == stop.text or stop.text.startswith("Last way: ")


@pytest.mark.parametrize("case", cards_emergency.CASES, ids=lambda case: case.id)
def test_what_an_emergency_warns_of_is_said_once(case, cards):
    """The eyes that two of its moves want covered are named once: the room is another warning's."""
    card = next(c for c in cards if c.id == case.id)
    box = next(b for b in card.back if isinstance(b, Caution)).text
    said = re.split(r"(?<=\.) ", box)

    assert len(set(said)) == len(said)


@pytest.mark.parametrize(
    ("id", "methods"),
    [
        ("tool-broken-in", ["pick-out-broken-key"]),  # no blows on glass-hard steel in a hole
        ("tube-nut-rounded", ["cut-tube-socket"]),  # the tube is off: nothing else is tried on it
        ("bolt-locked", ["flame-heat", "six-point-socket"]),  # heat, then it turns
        ("snapped-below", ["flame-heat", "left-hand-drill"]),
    ],
)
def test_emergencies_follow_as_a_mechanic_would(id, methods, cards):
    card = next(c for c in cards if c.id == id)
    *steps, stop = next(b for b in card.front if isinstance(b, Steps)).items

    assert methods == [entry.removeprefix("method:") for entry in card.entries][: len(methods)]
    if len(methods) == 1:
        assert 1 == len(steps) and SHOP == stop.text
    if id == "bolt-locked":
        assert int(re.search(r"chance (\d+) %", steps[1].text)[1]) >= 90


def test_drill_cards_say_what_the_rows_say(cards, store):
    """Metric tap drills and clearance holes as in the data."""
    card = next(c for c in cards if c.id == "drills-metric")
    for face in ("front", "back"):
        for name, tap, _, clear, _ in tables(card, face)[0].rows:
            row = next(t for t in many(store, TapDrill, thread=name.text))
            hole = one(store, ClearanceHole, size=name.text.split("x")[0])
            assert row.drill_mm == pytest.approx(float(tap.text))
            assert hole.medium_mm == pytest.approx(float(clear.text))


def test_wrench_card_says_what_the_heads_say(cards, store):
    """M8 takes 13, M10 16 and formerly 17 (ISO 4014, DIN 933); 1/4 in takes 7/16."""
    card = next(c for c in cards if c.id == "across-flats")
    front = {r[0].text: [c.text for c in r[1:]] for r in tables(card)[0].rows}
    back = {r[0].text: r[1].text for r in tables(card, "back")[0].rows}

    assert "13" == front["M8"][0] and ["16", "17"] == front["M10"][:2]
    assert "7/16" == back["1/4"]
    assert 13 == get(store, Drive, "AF-13mm").across_flats_mm


def test_large_numbers_are_large():
    """The main figures stand at 14 pt or more on the smallest card."""
    css = (pdf.HERE / "templates" / "blocks.css.j2").read_text("utf-8")
    for rule in ("td.big", ".value", ".tag"):
        size = re.search("(?m)^" + re.escape(rule) + r" {.*font-size: ([\d.]+)rem", css)
        assert float(size[1]) >= 14
    assert 5.0 / 25.4 * 72 >= 14  # room drawing, mm


def test_marks_tell_memory_and_practice(cards):
    """A card whose rows are judgement or memory says so in its foot and beside the numbers."""
    for card in cards:
        if card.family == "emergency":
            assert "p" in card.marks
        marked = {
            c.mark
            for t in (*tables(card), *tables(card, "back"))
            for r in t.rows
            for c in r
            if isinstance(c, Cell)
        } - {""}
        assert marked <= set(card.marks), card.id


def test_all_letters_are_in_the_bundled_face(cards):
    """No word falls back to a face of the machine it is printed on."""
    from fontTools.ttLib import TTFont

    for weight in (400, 700):
        held = TTFont(pdf.HERE / "fonts" / f"hyperlegible-{weight}.woff2").getBestCmap()
        for card in cards:
            for text in (card.title, card.question, *card.entries, *texts(card)):
                assert set(map(ord, text)) <= held.keys(), (card.id, text)


@pytest.mark.parametrize(
    ("wish", "ids"),
    [
        ("verify", ["verify-the-print"]),
        ("torque 8.8", ["torque-8.8", "torque-8.8-fine", "torque-small"]),
        ("torque-8.8", ["torque-8.8"]),
        ("snapped flush", ["snapped-flush"]),
        ("gauge-pitch", ["gauge-pitch"]),
        ("drive:T20", ["near-keys", "gauge-hexalobular"]),
        ("1", ["index"]),
    ],
)
def test_cards_are_chosen_by_words_ids_entries_and_numbers(store, wish, ids):
    """What `--only` takes."""
    assert ids == [c.id for c in content.deck(store, [wish])]


@pytest.mark.parametrize("wish", ["wibble", "", "drive:T999", "999"])
def test_unknown_wishes_name_the_nearest(store, wish):
    """A wish for no card is refused with three ids."""
    with pytest.raises(NotHeld) as refused:
        content.deck(store, [wish])
    assert 3 == len(refused.value.nearest)
