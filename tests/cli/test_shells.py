"""Completion where it happens: the Tab key in a real bash, zsh and fish."""

import os
import shlex
import subprocess
import sys

import pytest

from fastkit.answers.options import CHOICES
from fastkit.cli import COMMANDS
from fastkit.notation.entry import KINDS
from tests.cli.terminals import BARE, ON, Terminal

CLI = [sys.executable, "-c", "from fastkit.cli import main; main()"]

# typed (Tab where | stands, else at the end), the words of the line that comes of it; what is a
# whole word is followed by a blank, what goes on is not
BECOMES = [
    # commands and options
    ("fastkit extr", "fastkit extract "),
    ("fastkit extract --dam", "fastkit extract --damage "),
    ("fastkit --vers", "fastkit --version "),
    ("fastkit torque M8x1.25 8.8 --wrench-er", "fastkit torque M8x1.25 8.8 --wrench-error "),
    ("fastkit find --wi", "fastkit find --wide "),
    ("cd . && fastkit extr", "cd . && fastkit extract "),
    ("FASTKIT_QUIET=1 fastkit show thread:M8x1.2", "FASTKIT_QUIET=1 fastkit show thread:M8x1.25 "),
    # words that an option takes
    ("fastkit extract --damage snapped-f", "fastkit extract --damage snapped-flush "),
    ("fastkit extract --damage=snapped-f", "fastkit extract --damage=snapped-flush "),
    ("fastkit note better-bit ok --seized gal", "fastkit note better-bit ok --seized galled "),
    ("fastkit repair M8x1.25 --far-side bl", "fastkit repair M8x1.25 --far-side blind "),
    ("fastkit extract --part glow", "fastkit extract --part glow-plug "),
    ("fastkit extract --compare seat-b", "fastkit extract --compare seat-bit "),
    (
        "fastkit extract --compare seat-bit better-b",
        "fastkit extract --compare seat-bit better-bit ",
    ),
    (
        "fastkit extract --tried seat-bit --tried better-b",
        "fastkit extract --tried seat-bit --tried better-bit ",
    ),
    ("fastkit cards --size sl", "fastkit cards --size sleeve "),
    ("fastkit find m8 --kind washe", "fastkit find m8 --kind washer "),
    # words that a command takes first
    ("fastkit identify thr", "fastkit identify thread "),
    ("fastkit tools exp", "fastkit tools export "),
    ("fastkit stock imp", "fastkit stock import "),
    ("fastkit note und", "fastkit note undo "),
    ("fastkit note better-b", "fastkit note better-bit "),
    # ids: colons, slashes, a sign that begins a remark, at, plus
    ("fastkit show hardw", "fastkit show hardware:"),
    ("fastkit show thread:M8x1.2", "fastkit show thread:M8x1.25 "),
    ("fastkit show thread:1/4-20-U", "fastkit show thread:1/4-20-UNC "),
    ("fastkit show thread:#10-3", "fastkit show thread:#10-32-UNF "),
    ("fastkit torque '#10-3", "fastkit torque '#10-32-UNF' "),
    ("fastkit torque \\#10-3", "fastkit torque '#10-32-UNF' "),
    ("fastkit repair M8x1.25 --critical susp", "fastkit repair M8x1.25 --critical suspension "),
    ("fastkit note better-bit noth", "fastkit note better-bit nothing "),
    ("fastkit tools add breaker", "fastkit tools add breaker-bar "),
    ("fastkit show torque:M8x1.25@12", "fastkit show torque:M8x1.25@12.9 "),
    ("fastkit show pair:brass+so", "fastkit show pair:brass+solder "),
    ("fastkit cards --only drive:T2", "fastkit cards --only drive:T2"),
    ("fastkit torque m8x1.2", "fastkit torque M8x1.25 "),
    ("fastkit show thread:m8x1.2", "fastkit show thread:M8x1.25 "),
    ("fastkit torque M8x1.25 A2-7", "fastkit torque M8x1.25 A2-70 "),
    # a word in the middle
    ("fastkit show thread:M8x1.2| --json", "fastkit show thread:M8x1.25 --json"),
    ("fastkit sho| thread:M8x1.25", "fastkit show thread:M8x1.25"),
    (
        "fastkit extract --damage snapped-f| --seized rusted",
        "fastkit extract --damage snapped-flush --seized rusted",
    ),
    # behind quotes
    (
        'fastkit extract "m8 rounded, 8 mm beside" --sei',
        'fastkit extract "m8 rounded, 8 mm beside" --seized',
    ),
    ("fastkit find won\\'t --ki", "fastkit find won\\'t --kind "),
    ("fastkit show 'thread:M8x1.2", "fastkit show 'thread:M8x1.25' "),
    # names in the user's own file
    ("fastkit extract --again do", "fastkit extract --again door-hinge "),
    ("fastkit note better-bit ok --again do", "fastkit note better-bit ok --again door-hinge "),
    ("fastkit job --again pu", "fastkit job --again pump "),
    ("fastkit job --again old", "fastkit job --again 'old pump' "),
    ("fastkit job --again 'old", "fastkit job --again 'old pump' "),
    # files
    ("fastkit job fro", "fastkit job front.toml "),
    ("fastkit job spare", "fastkit job 'spare wheel.toml' "),
    ("fastkit cards --for fro", "fastkit cards --for front.toml "),
    ("fastkit order --at hol", "fastkit order --at holes.csv "),
    ("fastkit tools import fro", "fastkit tools import front.toml "),
    ("fastkit cards --out fro", "fastkit cards --out front.toml "),
    ("fastkit sources --export fol", "fastkit sources --export folder/"),
    # nothing to complete: the line stays as it is
    ("fastkit show nosuch:zzz", "fastkit show nosuch:zzz"),
    ("fastkit show torque:", "fastkit show torque:"),
    ("fastkit nosuch ", "fastkit nosuch "),
    ("fastkit nosuch fro", "fastkit nosuch fro"),
    ("fastkit extract --damage zzz", "fastkit extract --damage zzz"),
    ("fastkit extract --nosuch zzz", "fastkit extract --nosuch zzz"),
    ("fastkit extract --above fro", "fastkit extract --above fro"),
    ("fastkit show thread:%", "fastkit show thread:%"),
    ("fastkit show thread:_8", "fastkit show thread:_8"),
    ("fastkit job --again zzz", "fastkit job --again zzz"),
]


@pytest.fixture(scope="module")
def workshop(tmp_path_factory):
    """A folder with files, a home with a kept situation and a kept job, and `fastkit` on PATH."""
    folder = tmp_path_factory.mktemp("shell")
    (folder / "bin").mkdir()
    (folder / "bin" / "fastkit").write_text(f"#!/bin/sh\nexec {CLI[0]} -c '{CLI[2]}' \"$@\"\n")
    (folder / "bin" / "fastkit").chmod(0o755)
    (folder / "folder").mkdir()
    (folder / "holes.csv").write_text("0,0\n", "utf-8")
    env = {
        **{key: value for key, value in os.environ.items() if not key.startswith("COV_")},
        "HOME": str(folder / "own"),
        "FASTKIT_HOME": str(folder / "home"),
        "PATH": f"{folder / 'bin'}:{os.environ['PATH']}",
        "PYTHONPATH": os.pathsep.join(sys.path),
    }
    (folder / "own").mkdir()

    def run(*words):
        done = subprocess.run([*CLI, *words], env=env, cwd=folder, capture_output=True, text=True)
        assert 0 == done.returncode, done.stderr
        return done.stdout

    job = run("job", "--example")
    for name in ("front.toml", "spare wheel.toml"):
        (folder / name).write_text(job, "utf-8")
    for name in ("pump", "old pump"):
        run("job", "front.toml", "--save", name)
    run("extract", "m8 rounded, rusted", "--save", "door-hinge")
    return folder, env


@pytest.fixture(scope="module", params=BARE)
def terminal(request, workshop):
    """A shell with completion switched on as README says."""
    opened = Terminal(request.param, *workshop)
    yield opened
    opened.close()


@pytest.mark.parametrize(("typed", "expected"), BECOMES, ids=[typed for typed, _ in BECOMES])
def test_tab(terminal, typed, expected):
    line = terminal.line_after(typed)

    unchanged = typed == expected
    assert (line if unchanged else shlex.split(line)) == (
        typed if unchanged else shlex.split(expected)
    )
    if "|" not in typed:
        assert line.endswith(" ") == expected.endswith(" ")
    assert b"fastkit:" not in terminal.screen
    assert b"Traceback" not in terminal.screen


def ids(store, begun):
    rows = store.execute("SELECT id FROM entry WHERE substr(id, 1, ?) = ?", (len(begun), begun))
    return {row[0] for row in rows}


def kinds(store):
    return {f"{row[0]}:" for row in store.execute("SELECT DISTINCT kind FROM entry")}


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("fastkit ", lambda store: set(COMMANDS)),
        ("fastkit extract --damage ", lambda store: set(CHOICES["damage"])),
        ("fastkit find --kind ", lambda store: set(KINDS)),
        ("fastkit show ", kinds),
        ("fastkit show drive:SQ", lambda store: ids(store, "drive:SQ")),
        ("fastkit show torque:", lambda store: ids(store, "torque:")),
        ("fastkit show thread:#1", lambda store: ids(store, "thread:#1")),
        ("fastkit tools ", lambda store: {"add", "remove", "list", "export", "import"}),
        ("fastkit identify ", lambda store: {"thread", "drive", "grade", "head"}),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_all_that_is_offered(terminal, store, typed, expected):
    assert terminal.offers(typed) == expected(store)


def test_completing_makes_no_home(workshop):
    """Whoever presses Tab keeps nothing."""
    folder, env = workshop
    line = {"COMP_WORDS": "fastkit extract --again "}
    home = folder / "not-yet"
    subprocess.run(
        CLI,
        env={**env, **line, "_FASTKIT_COMPLETE": "bash_complete", "FASTKIT_HOME": str(home)},
        check=True,
    )

    assert not home.exists()


@pytest.mark.parametrize("shell", BARE)
@pytest.mark.parametrize("damage", ["own file", "program"])
def test_what_is_broken_says_nothing_into_the_line(workshop, tmp_path, shell, damage):
    """A damaged file of one's own, or a program that fails: nothing is offered, nothing printed."""
    env = workshop[1]
    if damage == "own file":
        (tmp_path / "home").mkdir()
        (tmp_path / "home" / "shopbook.db").write_bytes(b"\0" * 5000)
        opened = Terminal(shell, tmp_path, {**env, "FASTKIT_HOME": str(tmp_path / "home")})
    else:
        opened = Terminal(shell, tmp_path, env)
        program = tmp_path / "bin" / "fastkit"
        program.parent.mkdir()
        program.write_text("#!/bin/sh\necho Traceback >&2; exit 3\n")
        program.chmod(0o755)
        how = (
            f"set PATH {program.parent} $PATH"
            if shell == "fish"
            else f"PATH={program.parent}:$PATH"
        )
        opened.line_after("", f"{how}\n")
    try:
        line = opened.line_after("fastkit extract --again do")
    finally:
        opened.close()

    assert "fastkit extract --again do" == line
    assert b"Traceback" not in opened.screen
    assert b"fastkit:" not in opened.screen


@pytest.mark.parametrize(
    ("shell", "before"),
    [
        ("bash", "COMP_WORDBREAKS=${COMP_WORDBREAKS//:}"),  # as some have it
        ("bash", "set -u"),
        ("bash", "set -o posix"),
        ("bash", "shopt -s nullglob failglob"),
        ("zsh", "autoload -Uz compinit; compinit -u"),  # switched on already
        ("zsh", "setopt nounset ksharrays shwordsplit extendedglob"),
        ("fish", "set -g fish_complete_path"),
    ],
)
def test_settings_of_ones_own(workshop, tmp_path, shell, before):
    opened = Terminal(shell, tmp_path, workshop[1], before)
    try:
        lines = [
            opened.line_after("fastkit show thread:M8x1.2"),
            opened.line_after("fastkit extract --damage=snapped-f"),
        ]
    finally:
        opened.close()

    assert ["fastkit show thread:M8x1.25 ", "fastkit extract --damage=snapped-flush "] == lines


@pytest.mark.parametrize(
    ("version", "said"), [("3 2", True), ("4 3", True), ("4 4", False), ("5 2", False)]
)
def test_a_bash_that_is_too_old_is_told_so(workshop, version, said):
    """Once, when it is switched on, and nothing fails at each Tab."""
    env = {**workshop[1], "_FASTKIT_COMPLETE": "bash_source"}
    script = subprocess.run(CLI, env=env, capture_output=True, text=True, check=True).stdout
    script = f"old=({version})\n{script.replace('BASH_VERSINFO', 'old')}\ncomplete -p fastkit"
    done = subprocess.run(["bash", "-c", script], capture_output=True, text=True)

    assert ("fastkit: completion needs bash 4.4 or newer" in done.stderr) == said
    assert ("_fastkit_completion" in done.stdout) != said


def test_readme_says_the_same_lines(root):
    readme = (root / "README.md").read_text("utf-8")

    assert all(line in readme for line in ON.values())
