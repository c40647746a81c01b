"""Command lines made by chance over the real commands and options, and what must hold of each."""

import json
import os
import random
from collections.abc import Iterator, Sequence
from pathlib import Path

import click
from click.testing import CliRunner, Result

from fastkit.cli import COMMANDS, cli

# Words that come close to something meant, and some that steer a terminal, a file name, a query.
MEANT = (
    *("M8", "m8x1", "1/4-20", "8.8", "A2-70", "T20", "hex 5", "PH2", "M8 8.8 torque", "thread:M8"),
    *("rusted", "rounded", "8 mm beside", "fuel:20", "fuel", "none", "stripped", "unknown"),
    *("12 N·m", "9 lb-ft", "7/0in", "10x20", "8", "60", "circle", "rings", "5x2", "4+8", "nut-8"),
    *(
        "0.1..0.2",
        "drive:T20",
        "grade:8.8",
        "soak-penetrant",
        "add",
        "list",
        "undo",
        "ok",
        "torque",
    ),
    *(
        "undo",
        "ok",
        "torque",
        "aluminium",
        "steel",
        "thread",
        "drive",
        "grade",
        "head",
        "outdoors,salt",
    ),
    "oversize:6.9",
    *("5:90", "250x13", "20/-78", "250F", "high"),
)
HOSTILE = (
    *("-1", "0", "-0.0", "1e400", "1e309", "nan", "NaN", "inf", "-inf", "1/", "x", "", "-", "--"),
    *("\x1b[31m", "\x1b]0;x\x07", "\x00", "\n", "\r", "\t", "\u202e8.8", "\u200b", "🔩", "²", "½"),
    *(
        "../../etc/passwd",
        "/dev/null",
        "/dev/stdin",
        "~",
        ".",
        "file:///",
        "'; DROP TABLE thread; --",
    ),
    *("%s", "%n", "{0}", "{}", "$HOME", "`id`", "%", "*", '"', "\\", "NEAR(", "a AND", "title:x"),
    *("9" * 400, "M" * 5000, "ü" * 3000, "thread:", ":", "\udcff\udcfe", "M\udc88", "٣", "−5"),
)
FILES = (
    "bomb.toml",
    "deep.toml",
    "noise.bin",
    "folder",
    "pipe",
    "loop",
    "locked.toml",
    "none.toml",
)
WRITES, OUTPUT = ("--export", "--out"), "written"  # what writes files, and where it may
PRINTERS = ("cards",)  # they print for seconds; only their refusals are tried here


def lay_out(folder: Path) -> None:
    """Put files there that nobody should have to read."""
    (folder / "bomb.toml").write_text("a = 1\n" * 200_000, "utf-8")
    (folder / "deep.toml").write_text("a = " + "[" * 50_000, "utf-8")
    (folder / "noise.bin").write_bytes(bytes(range(256)) * 400)
    (folder / "folder").mkdir()
    os.mkfifo(folder / "pipe")
    (folder / "loop").symlink_to(folder / "loop")
    (folder / "locked.toml").write_text("", "utf-8")
    (folder / "locked.toml").chmod(0)


def lines(count: int, seed: int) -> Iterator[list[str]]:
    """Yield as many command lines, always the same for a seed."""
    dice = random.Random(seed)
    context = click.Context(cli)
    commands = {name: cli.get_command(context, name) for name in COMMANDS}
    names = [name for name in commands if name not in PRINTERS]
    for _ in range(count):
        name = dice.choice(names) if dice.random() < 0.97 else dice.choice(HOSTILE)
        line = [name]
        known = commands.get(name)
        flags = [flag for param in known.params for flag in param.opts] if known else []
        for _ in range(dice.randrange(6)):
            kind = dice.random()
            if kind < 0.3 and flags:
                flag = dice.choice(flags)
                line += [flag, OUTPUT] if flag in WRITES else [flag]
            elif kind < 0.6:
                line.append(dice.choice(MEANT))
            elif kind < 0.95:
                line.append(dice.choice(HOSTILE))
            else:
                line.append(dice.choice(FILES))
        yield line


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
    if any(sign in out + err for sign in ("\x1b", "\x00", "\x07", "\u202e")):
        found.append("control characters")
    if status in {2, 3} and out:
        found.append("output beside a refusal")
    if status in {2, 3} and not 1 <= err.count("\n") <= 15:
        found.append("a refusal that is not a line")
    if "--json" in line and "--help" not in line and status in {0, 1} and out.startswith("{"):
        json.loads(out)
    return found
