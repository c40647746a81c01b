"""The page finds what the command finds: the first entry, and how the words were read."""

import csv
import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from fastkit.answers.find_tables import ecmascript, tables
from fastkit.cli import cli
from fastkit.errors import Broken

with Path(__file__).with_name("queries.csv").open(encoding="utf-8", newline="") as file:
    QUERIES = [row["words"] for row in csv.DictReader(file)]

# types each of them into the page's own field and reads what it shows
TYPE = """async (queries) => {
  const input = document.querySelector("#find-words");
  const found = [];
  for (const words of queries) {
    input.value = words;
    input.dispatchEvent(new Event("input"));
    await new Promise((done) => setTimeout(done));
    found.push({
      words: input.value,
      readAs: document.querySelector("#find-status b").textContent,
      ids: [...document.querySelectorAll(".hits .id")].map((id) => id.textContent),
    });
  }
  return found;
}"""


@pytest.fixture(scope="module")
def typed(browser, address):
    """What the page shows for every query, by query."""
    page = browser.new_page()
    page.goto(f"{address}#find/m8")
    page.wait_for_selector(".hits a")
    found = page.evaluate(TYPE, QUERIES)
    page.close()
    return {each["words"]: each for each in found}


def test_there_are_enough():
    assert 200 <= len(set(QUERIES)) == len(QUERIES)


@pytest.mark.parametrize("words", QUERIES)
def test_first_hit_and_reading_are_the_commands(typed, words):
    said = json.loads(CliRunner().invoke(cli, ["find", "--json", "--", words]).stdout)
    ids = [hit["id"] for hit in said["hits"]] or said["nearest"]

    assert said["read_as"] == typed[words]["readAs"]
    assert ids[:10] == typed[words]["ids"][:10]


def test_the_index_is_handed_on_whole(store):
    """Key, other names and the rest of each entry are what the search table holds."""
    made = tables(store)
    names: dict[int, list[str]] = {}
    for words, place in made["aliases"]:
        names.setdefault(place, []).append(words)
    held = [words for (words,) in store.execute("SELECT words FROM search ORDER BY rowid")]
    rebuilt = [
        " ".join(filter(None, (id_.partition(":")[2], *names.get(place, ()), rest)))
        for place, (id_, _, rest, *_serves) in enumerate(made["entries"])
    ]

    assert held == rebuilt


@pytest.mark.parametrize("pattern", [r"(?i)m8", r"(?P<a>x)(?P=a)", r"\Am8", r"m8\Z"])
def test_a_pattern_without_counterpart_is_refused(pattern):
    with pytest.raises(Broken, match="no form for a page"):
        ecmascript(pattern)


def test_as_you_type(tab):
    """Hits follow each letter, the address keeps the words, and the count is said aloud."""
    page = tab.open("#find")
    page.locator("#find-words").press_sequentially("m8 8.8 torque")

    page.locator(".hits a").first.get_by_text("torque:M8x1.25@8.8").wait_for()
    assert page.url.endswith("#find/m8%208.8%20torque")
    assert "status" == page.locator("#find-status").get_attribute("role")
    assert "read as thread M8, grade 8.8, torque" in page.locator("#find-status").inner_text()


def test_a_hit_opens_its_facts_and_back_leads_to_the_words(tab):
    page = tab.open("#find/weld%20nut")
    page.locator(".hits a", has_text="method:weld-nut").click()
    page.get_by_role("heading", name="Weld a nut on and turn it while warm").wait_for()
    assert "no bearing between" in page.locator("#view-entry").inner_text()
    assert "CAUTION" in page.locator("#view-entry .caution").inner_text()

    page.go_back()
    page.locator("#view-find").wait_for()
    assert "weld nut" == page.locator("#find-words").input_value()


def test_markup_in_words_stays_text(tab):
    page = tab.open("#find")
    page.fill("#find-words", "<img src=x onerror=alert(1)> m8")

    page.locator(".hits a").first.wait_for()
    assert 0 == page.locator("main img").count()


def test_words_that_say_it_will_not_move_lead_to_the_plans(tab):
    page = tab.open("#find/seized%20bolt%20wont%20turn")
    page.get_by_role("link", name="It will not move: what to do first").click()

    page.get_by_role("heading", name="What is it?").wait_for()


@pytest.mark.parametrize("hash_", ["#entry/no%3Asuch", "#find/%E0%A4%A", "#nothing", "#card/none"])
def test_an_address_that_leads_nowhere_does_no_harm(tab, hash_):
    page = tab.open(hash_)

    assert page.locator("main h1:visible").count()
