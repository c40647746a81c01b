"""README's second command where it may not install: it names what is missing and fails."""

import shutil
import subprocess
import sys
from pathlib import Path

SCRIPT = Path(__file__).parent / "run"
NEEDED = ("sh", "dirname", "tr", "grep", "cat", "env")


def bare_machine(folder):
    """A PATH with next to nothing on it, and a user who may not install."""
    for name in NEEDED:
        program = shutil.which(name)
        assert program
        (folder / name).symlink_to(program)
    user = folder / "id"
    user.write_text("#!/bin/sh\necho 1000\n")
    user.chmod(0o755)
    return folder


def test_missing_component_is_an_error(tmp_path):
    """No skip: the script ends with an error that names the packages and how to get them."""
    done = subprocess.run(
        ["sh", SCRIPT],
        env={
            "PATH": str(bare_machine(tmp_path)),
            "PYTHON": sys.executable,
            "VENV": str(tmp_path / "venv"),
        },
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )

    assert 3 == done.returncode
    assert "missing on this machine" in done.stderr
    for name in ("poppler-utils", "fontconfig", "chromium", "zsh", "fish"):
        assert name in done.stderr
    assert "sudo apt-get install" in done.stderr
    assert not (tmp_path / "venv").exists()


def test_no_python_is_said(tmp_path):
    """Without the interpreter the script says which one it wants."""
    done = subprocess.run(
        ["sh", SCRIPT],
        env={"PATH": str(bare_machine(tmp_path)), "PYTHON": "python-that-is-not-here"},
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )

    assert 3 == done.returncode
    assert "Python 3.11 or newer" in done.stderr
