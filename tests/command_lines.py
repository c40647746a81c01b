"""Command lines made by chance over the real commands and options, and what must hold of each."""

import json
import os
import random
import shlex
from collections.abc import Iterator, Sequence
from pathlib import Path

import click
from click.testing import CliRunner, Result

from fastkit.cli import COMMANDS, cli
from fastkit.cli.examples import EXAMPLES

# Words that come close to something meant, and some that steer a terminal, a file name, a query.
MEANT = (
    *("M8", "m8x1", "1/4-20", "8.8", "A2-70", "T20", "hex 5", "PH2", "M8 8.8 torque", "thread:M8"),
    *("rusted", "rounded", "8 mm beside", "fuel:20", "fuel", "none", "stripped", "unknown"),
    *("12 N·m", "9 lb-ft", "7/0in", "10x20", "8", "60", "circle", "rings", "5x2", "4+8", "nut-8"),
    *("0.1..0.2", "drive:T20", "grade:8.8", "soak-penetrant", "add", "list", "remove", "export"),
    *("import", "undo", "ok", "torque", "aluminium", "steel", "thread", "drive", "grade", "head"),
    *("outdoors,salt", "oversize:6.9", "5:90", "250x13", "20/-78", "250F", "high", "pump", "1e3"),
)
HOSTILE = (
    *("-1", "0", "-0.0", "1e400", "1e309", "nan", "NaN", "-NaN", "inf", "-inf", "1/", "1/0", "x"),
    *(
        "",
        " ",
        "-",
        "--",
        "---",
        "-x",
        "--=",
        "=",
        "0x10",
        "1_0",
        "1e",
        "00",
        "1..",
        "1,5",
        "5e-324",
    ),
    *("\x1b[31m", "\x1b]0;x\x07", "\x9b31m", "\x7f", "\x08\x08", "\x00", "\n", "\r", "\t", "\x85"),
    *("\u202e8.8", "M8\u2066", "\u200f8", "\u061c8", "\u200b", "\u2028", "\ufeff", "\U000e0041"),
    *("🔩", "²", "½", "٣", "−5", "Ⅷ", "M８", "e\u0301" * 300, "\u0300" * 300, "ß" * 300, "İ"),
    *("../../etc/passwd", "/dev/null", "/dev/stdin", "/dev/zero", "~", ".", "file:///", "/" * 300),
    *(
        "'; DROP TABLE thread; --",
        "'",
        "''",
        '"',
        '"m8',
        "\\",
        "\\'",
        "`id`",
        "$HOME",
        "$(id)",
        "%00",
    ),
    *(
        "%s",
        "%n",
        "%(x)s",
        "{0}",
        "{}",
        "{x!r}",
        "{0.__class__}",
        "%",
        "*",
        "m8*",
        "?",
        "[",
        "(",
        "|",
    ),
    *(
        "NEAR(",
        "NEAR(m8 t20, 2)",
        "a AND",
        "OR",
        "NOT m8",
        "title:x",
        "^m8",
        "-m8",
        "m8 + t20",
        ":",
    ),
    *(
        "9" * 400,
        "9" * 5000,
        "0." + "0" * 5000 + "1",
        "M" * 5000,
        "ü" * 5000,
        "8x" * 2500,
        "thread:",
    ),
    *("m8 " * 1700, "1/" * 2500, "-" * 5000, "a,b;" * 1200, "\udcff\udcfe", "M\udc88", "\ud800"),
)
FILES = (
    *("bomb.toml", "deep.toml", "huge.toml", "noise.bin", "folder", "pipe", "loop"),
    *("locked.toml", "none.toml", "dead", "far"),
)
WRITES, OUTPUT = ("--export", "--out"), "written"  # what writes files, and where it may
EXPORTED = f"{OUTPUT}.csv"  # where `tools export` may
DRAWS = "cards"  # for seconds; only its list is asked for, and that seldom


def lay_out(folder: Path) -> None:
    """Put files there that nobody should have to read."""
    (folder / "bomb.toml").write_text("a = 1\n" * 200_000, "utf-8")
    (folder / "deep.toml").write_text("a = " + "[" * 50_000, "utf-8")
    with (folder / "huge.toml").open("wb") as huge:
        huge.truncate(3_000_000_000)  # a hole: no disk is filled
    (folder / "noise.bin").write_bytes(bytes(range(256)) * 400)
    (folder / "folder").mkdir()
    os.mkfifo(folder / "pipe")
    (folder / "loop").symlink_to(folder / "loop")
    (folder / "dead").symlink_to(folder / "nowhere")
    (folder / "far").symlink_to("/dev/zero")
    (folder / "locked.toml").write_text("", "utf-8")
    (folder / "locked.toml").chmod(0)


def lines(count: int, seed: int) -> Iterator[list[str]]:
    """
    Yield as many command lines, always the same for a seed.

    Every other one is thrown together; the rest are examples of the help in which a word or two
    has changed, which are understood further before they fail.
    """
    dice = random.Random(seed)
    context = click.Context(cli)
    commands = {name: cli.get_command(context, name) for name in COMMANDS}
    names = [name for name in commands for _ in range(1 if name == DRAWS else 10)]
    for number in range(count):
        name = dice.choice(names) if dice.random() < 0.97 else dice.choice(HOSTILE)
        known = commands.get(name)
        params = [param for param in known.params if param.opts[0].startswith("-")] if known else []
        if number % 2 and name in EXAMPLES:
            line = shlex.split(dice.choice(EXAMPLES[name]))[1:]
            for _ in range(dice.randrange(1, 3)):
                _change(line, params, dice)
        else:
            line = [name]
            for _ in range(dice.randrange(6)):
                line += _thrown(params, dice)
        yield _only_where_allowed(line)


def _word(dice: random.Random) -> str:
    """A word of some kind."""
    kind = dice.random()
    if kind < 0.4:
        return dice.choice(MEANT)
    return dice.choice(HOSTILE) if kind < 0.93 else dice.choice(FILES)


def _thrown(params: Sequence[click.Parameter], dice: random.Random) -> list[str]:
    """A word, or an option, most often with a value where it takes one."""
    if not params or dice.random() < 0.6:
        return [_word(dice)]
    param = dice.choice(params)
    flag = dice.choice([*param.opts, *param.secondary_opts])
    takes = isinstance(param, click.Option) and not param.is_flag
    return [flag, _word(dice)] if takes and dice.random() < 0.8 else [flag]


def _change(line: list[str], params: Sequence[click.Parameter], dice: random.Random) -> None:
    """Change one thing about a line, its command left as it is."""
    at, kind = dice.randrange(1, len(line) + 1), dice.random()
    if kind < 0.4 and at < len(line):
        line[at] = _word(dice)
    elif kind < 0.5 and at < len(line):
        del line[at]
    else:
        line[at:at] = _thrown(params, dice)


def _only_where_allowed(line: list[str]) -> list[str]:
    """The line, writing into its own folder only and drawing nothing."""
    for at, word in enumerate(line[:-1]):
        if word in WRITES:
            line[at + 1] = OUTPUT
        elif word == "export":
            line[at + 1] = EXPORTED
    if DRAWS in line[:1]:
        line[1:1] = ["--list"]
    return line


def run(line: Sequence[str]) -> Result:
    """Run one in process."""
    return CliRunner().invoke(cli, list(line))


def faults(line: Sequence[str], status: int, out: str, err: str) -> list[str]:
    """Return what is wrong with an answer; nothing is the rule."""
    found = []
    if status not in {0, 1, 2, 3}:
        found.append(f"status {status}")
    if "Traceback" in out + err:
        found.append("a traceback")
    raw = {sign for sign in out + err if sign != "\n" and not sign.isprintable()}
    if raw:
        found.append(f"raw {sorted(raw)}")
    if status in {2, 3} and out:
        found.append("output beside a refusal")
    if status in {2, 3} and not 1 <= err.count("\n") <= 15:
        found.append("a refusal that is not a line")
    if "--json" in line and "--help" not in line and status in {0, 1} and out.startswith("{"):
        json.loads(out)
    return found
