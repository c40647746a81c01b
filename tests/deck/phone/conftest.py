"""One browser and one page for all tests of the phone page."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

from fastkit.answers.grid import content
from fastkit.deck.card import Card
from fastkit.deck.content import deck
from fastkit.deck.phone import page as page_of

CHROMIUM = "/usr/bin/chromium"
FLAGS = (
    *("--no-sandbox", "--disable-gpu", "--disable-background-networking"),
    *("--disable-component-update", "--no-first-run"),
)
# enough of the grid, the torques and the deck to go through all views
DAMAGES = ("snapped-flush",)
THREADS = ("M8x1.25", "M4x0.7", "M6x1", "M10x1.25", "3/8-16-UNC", "G1/4", "1/4-18-NPT")
CARDS = ("index", "recess-worn", "recess-stripped", "tool-stuck", "torque-8.8", "gauge-pitch")


@pytest.fixture(scope="session")
def held(store: sqlite3.Connection) -> dict[str, Any]:
    """What the page carries of plans and torques."""
    return content(store, damages=DAMAGES, threads=THREADS)


@pytest.fixture(scope="session")
def few(store: sqlite3.Connection) -> list[Card]:
    """Cards of each kind: of steps, of tables, of drawings."""
    return deck(store, CARDS)


@pytest.fixture(scope="session")
def text(held: dict[str, Any], few: list[Card], store: sqlite3.Connection) -> str:
    """The page as HTML."""
    return page_of(held, few, store)


@pytest.fixture(scope="session")
def address(text: str, tmp_path_factory: pytest.TempPathFactory) -> str:
    """Where the page lies: a file in a folder whose name has blanks and signs."""
    file = tmp_path_factory.mktemp("on the # phone") / "fastkit.html"
    file.write_text(text, encoding="utf-8")
    return file.as_uri()


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """A real browser without a window."""
    with sync_playwright() as driver:
        opened = driver.chromium.launch(executable_path=CHROMIUM, args=list(FLAGS))
        yield opened
        opened.close()


class Tab:
    """
    A page of the browser that notes every request and every word on its console.

    Opened once: another place of the page is another address of it after its #.
    """

    def __init__(self, page: Page, address: str) -> None:
        self.page, self.address = page, address
        self.said: list[str] = []
        self.asked: list[str] = []
        page.on("console", lambda message: self.said.append(message.text))
        page.on("pageerror", lambda error: self.said.append(str(error)))
        page.on("request", lambda request: self.asked.append(request.url))

    def open(self, hash_: str, afresh: bool = False) -> Page:
        """Go to a place of the page and wait until it has been drawn."""
        if afresh:
            self.page.goto("about:blank")
        self.page.goto(f"{self.address}{hash_}")
        self.page.wait_for_function(
            "(hash) => document.querySelector('#main').dataset.shows === hash", arg=hash_
        )
        return self.page


@contextmanager
def telephone(browser: Browser, html: str, folder: Path) -> Iterator[Tab]:
    """A page of its own, open on a telephone without a network; its console stays empty."""
    file = folder / "fastkit.html"
    file.write_text(html, "utf-8")
    context = browser.new_context(offline=True, viewport={"width": 360, "height": 740})
    tab = Tab(context.new_page(), file.as_uri())
    yield tab
    context.close()
    assert [] == tab.said


@pytest.fixture(scope="session")
def opened_once(browser: Browser, address: str) -> Iterator[Tab]:
    """A tab without a network."""
    context = browser.new_context(offline=True)
    yield Tab(context.new_page(), address)
    context.close()


@pytest.fixture
def tab(opened_once: Tab) -> Iterator[Tab]:
    """
    The tab, of the size of a telephone and in light.

    When the test is over, nothing but the page itself may have been asked for, and the console
    must be empty.
    """
    opened_once.page.set_viewport_size({"width": 360, "height": 740})
    opened_once.page.emulate_media(media="screen", color_scheme="light")
    yield opened_once
    said, asked = opened_once.said[:], {url.partition("#")[0] for url in opened_once.asked}
    opened_once.said.clear()
    opened_once.asked.clear()
    assert [] == said
    assert asked <= {opened_once.address, "about:blank"}
