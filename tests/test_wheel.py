"""The wheel, built from the source archive and installed where nothing else of us is, answers."""

import json
import os
import subprocess
import sys
import sysconfig
import venv
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]


def run(*words, **options):
    done = subprocess.run(
        list(map(str, words)), capture_output=True, text=True, check=False, **options
    )
    assert 0 == done.returncode, f"{words}\n{done.stdout}{done.stderr}"
    return done.stdout


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    """Built the way an installer does it: source archive first, wheel from that."""
    folder = tmp_path_factory.mktemp("built")
    build = (sys.executable, "-m", "hatchling", "build", "--directory", folder, "--target")
    run(*build, "sdist", cwd=ROOT)
    (archive,) = folder.glob("*.tar.gz")
    run(sys.executable, "-m", "tarfile", "-e", archive, folder / "source")
    (source,) = (folder / "source").iterdir()
    assert not (source / "fastkit" / "reference" / "reference.db").exists()
    run(*build, "wheel", cwd=source)
    (built,) = folder.glob("*.whl")
    return built


@pytest.fixture(scope="module")
def installed(wheel, tmp_path_factory):
    """
    A clean environment with the wheel in it, in another folder; no network.

    What fastkit depends on is borrowed from the running environment through a path file, which
    (unlike a site folder) does not bring the editable install of the source tree with it.
    """
    folder = tmp_path_factory.mktemp("else where")
    venv.create(folder / "env", with_pip=False)
    python = folder / "env" / "bin" / "python"
    site = Path(run(python, "-c", "import sysconfig; print(sysconfig.get_path('purelib'))").strip())
    places = {sysconfig.get_path("purelib"), sysconfig.get_path("platlib")}
    (site / "borrowed.pth").write_text("\n".join(sorted(places)) + "\n")
    run(
        *(sys.executable, "-m", "pip", "--python", python, "install", "--quiet"),
        *("--no-deps", "--no-index", "--ignore-installed", wheel),
        cwd=folder,
    )
    return folder


def answer(installed, *words):
    """The JSON that the installed command prints, run from a folder that is not ours."""
    program = installed / "env" / "bin" / "fastkit"
    environment = {k: v for k, v in os.environ.items() if not k.startswith("PYTHON")}
    return json.loads(run(program, *words, "--json", cwd=installed, env=environment))


def test_wheel_carries_the_data_and_no_scraps(wheel):
    """The database, fonts and licence are inside; tests and caches are not."""
    names = zipfile.ZipFile(wheel).namelist()

    assert "fastkit/reference/reference.db" in names
    assert any(name.endswith("licenses/LICENSE") for name in names)
    assert [] == [name for name in names if name.endswith(".pyc") or name.startswith("tests")]


def test_installed_wheel_is_the_one_that_answers(installed):
    """The borrowed libraries do not bring the source tree along."""
    where = run(
        *(installed / "env" / "bin" / "python", "-c", "import fastkit; print(fastkit.__file__)"),
        cwd=installed,
        env={k: v for k, v in os.environ.items() if not k.startswith("PYTHON")},
    )

    assert Path(where.strip()).is_relative_to(installed)


def test_installed_wheel_answers(installed):
    """Four questions, one of each kind, in a folder that has nothing to do with the project."""
    assert "thread:M8x1.25" == answer(installed, "find", "m8")["hits"][0]["id"]
    assert 0 < answer(installed, "torque", "M8", "8.8")["torque_nm"] < 40
    assert answer(installed, "extract", "M8 hex socket rounded out, rusted")["plan"]
    assert answer(installed, "check")["ok"] is True
