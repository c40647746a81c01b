"""What every test stands on: data compiled afresh, an own home, a fixed screen and no network."""

import os
import shutil
import sqlite3
import sys
from collections.abc import Generator, Iterator
from pathlib import Path

import pytest
from hypothesis import settings

from fastkit.compiler.build import compile_database
from fastkit.reference.store import connect

ROOT = Path(__file__).parents[1]
SHIPPED = ROOT / "fastkit" / "reference" / "reference.db"

settings.register_profile("house", deadline=None, derandomize="CI" in os.environ)
settings.load_profile("house")


def refuse_network(event: str, _: tuple[object, ...]) -> None:
    """Audit hook: nothing here may look a host up or open a connection."""
    if event in {"socket.connect", "socket.getaddrinfo", "socket.gethostbyname", "socket.sendto"}:
        raise RuntimeError(f"a test reached for the network: {event}")


sys.addaudithook(refuse_network)


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport() -> Generator[None, pytest.TestReport, pytest.TestReport]:
    """A skipped test is a failed one: what a test needs is installed, not done without."""
    report = yield
    if report.skipped and not hasattr(report, "wasxfail"):
        report.outcome = "failed"
        report.longrepr = f"skipped, which nothing here may be: {report.longrepr}"
    return report


@pytest.fixture(scope="session")
def database(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The database compiled from data/ in a folder of its own."""
    path = tmp_path_factory.mktemp("compiled") / "reference.db"
    compile_database(ROOT / "data", path)
    return path


@pytest.fixture(scope="session", autouse=True)
def shipped(database: Path) -> Path:
    """The file that commands open by themselves, brought up to date for the in-place install."""
    fresh = SHIPPED.with_name(f"{SHIPPED.name}.{os.getpid()}")
    shutil.copy(database, fresh)
    fresh.replace(SHIPPED)
    return SHIPPED


@pytest.fixture(scope="session")
def store(database: Path) -> Iterator[sqlite3.Connection]:
    """A read-only connection to the database compiled from data/."""
    connection = connect(database)
    yield connection
    connection.close()


@pytest.fixture(autouse=True)
def own_surroundings(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each test has its own home, an 80-column screen and no colour."""
    monkeypatch.setenv("FASTKIT_HOME", str(tmp_path / "home"))
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.setenv("NO_COLOR", "1")


@pytest.fixture
def root() -> Path:
    """The top of the source tree."""
    return ROOT
