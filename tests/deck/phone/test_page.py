"""The page as a file: everything in it, nothing outside it, and the same every time."""

import re
from pathlib import Path

from fastkit.deck.card import Caution, Text
from fastkit.deck.phone import SCRIPTS, page
from fastkit.deck.phone import __file__ as module_file

MOST = 1_500_000  # bytes
# of which the torques of every thread and the plans of every damage take so much at most
TORQUES, PLANS = 200_000, 150_000


def test_it_is_small_enough(held, cards, store):
    """The whole deck and all that can be found, with room for all plans and torques."""
    bare = {**held, "torque": {}, "stuck": {}}

    assert len(page(bare, cards, store).encode()) < MOST - TORQUES - PLANS


def test_it_is_the_same_every_time(text, held, few, store):
    assert text == page(held, few, store)


def test_it_names_nothing_outside(text):
    """No address of anything, no style or handler in an attribute, which the policy refuses."""
    markup = re.sub(r"<(style|script)\b.*?</\1>", "", text, flags=re.DOTALL)
    markup = re.sub(r"sha256-[\w+/]+", "", markup)  # of its own script and style

    assert [] == re.findall(r"https?:|//\w", markup)
    assert [] == re.findall(r"\s(?:style|on\w+|src|srcset|action)=", markup)
    assert {"#"} == {href[0] for href in re.findall(r'href="([^"]*)"', markup)}


def test_the_policy_forbids_everything_else(text):
    policy = re.search(r'Content-Security-Policy" content="([^"]*)"', text)

    assert policy
    said = dict(rule.split(" ", 1) for rule in policy[1].replace("&#39;", "'").split("; "))
    assert "'none'" == said["default-src"] == said["base-uri"] == said["form-action"]
    assert "data:" == said["font-src"]
    assert re.fullmatch(r"'sha256-[\w+/]{43}='", said["script-src"])
    assert re.fullmatch(r"'sha256-[\w+/]{43}='", said["style-src"])


def test_every_part_of_the_script_is_in_it():
    held = {path.stem for path in Path(module_file).parent.glob("*.js")}

    assert held == set(SCRIPTS)


def test_hostile_text_on_a_card_stays_text(held, few, store):
    hostile = ("</script><script>alert(1)</script>", '"><img src=x>', "\u202eabc")
    blocks = (*map(Text, hostile), *map(Caution, hostile))
    made = page(held, [few[0]._replace(title=hostile[0], front=blocks)], store)

    assert "<script>alert" not in made and "<img" not in made and "\u202e" not in made


def test_a_gauge_says_that_a_screen_is_none(text, few):
    gauges = [card.id for card in few if card.id.startswith("gauge-")]
    told = re.findall(r'id="card/([^"]*)"[^>]*>\s*<p class="stop"><b>No screen is true', text)

    assert ["gauge-pitch"] == gauges == told
