"""A real shell in a pseudo-terminal: keys go in, the line as the shell then holds it comes out."""

import os
import select
import shlex
import subprocess
import sys
import time
from pathlib import Path

# a shell of one's own session, to which the pseudo-terminal belongs
LEAD = """
import fcntl, os, sys, termios
fcntl.ioctl(0, termios.TIOCSCTTY, 0)
os.execvp(sys.argv[1], sys.argv[1:])
"""
BARE = {
    "bash": ["bash", "--norc", "--noprofile", "-i"],
    "zsh": ["zsh", "-f", "-i"],
    "fish": ["fish", "--no-config", "-i"],
}
# what README tells people to write
ON = {
    "bash": 'eval "$(_FASTKIT_COMPLETE=bash_source fastkit)"',
    "zsh": 'eval "$(_FASTKIT_COMPLETE=zsh_source fastkit)"',
    "fish": "_FASTKIT_COMPLETE=fish_source fastkit | source",
}
# Ctrl-T writes the line down; Alt-* puts every completion into it
KEYS = {
    "bash": r"""bind -x '"\C-t": printf "%s\n" "$READLINE_LINE" >>"$HELD"'; PS1='> '""",
    "zsh": """bindkey -e; PS1='> '
held() { print -r -- "$BUFFER" >>"$HELD" }; zle -N held; bindkey '^T' held
zle -C every complete-word _generic; bindkey '^[*' every
zstyle ':completion:every:*' completer _all_matches _complete
zstyle ':completion:every:*' insert yes""",
    "fish": r"bind \ct 'commandline >>$HELD'",
}
WAIT_S = 60.0


class Terminal:
    """One shell with completion switched on, for as many lines as one likes."""

    def __init__(self, shell: str, folder: Path, env: dict[str, str], before: str = "") -> None:
        self.shell = shell
        self.screen = b""
        self._held = folder / f"held-{shell}"
        self._held.touch()
        self._seen = 0
        self._lead, inner = os.openpty()
        self._process = subprocess.Popen(
            [sys.executable, "-c", LEAD, *BARE[shell]],
            stdin=inner,
            stdout=inner,
            stderr=inner,
            cwd=folder,
            env={**env, "HELD": str(self._held), "TERM": "dumb", "COLUMNS": "200"},
            start_new_session=True,
        )
        os.close(inner)
        for line in (*before.splitlines(), ON[shell], *KEYS[shell].splitlines()):
            self._type(f"{line}\n")
        self._type("echo on >>$HELD\n")
        self._wait()

    def line_after(self, typed: str, keys: str = "\t") -> str:
        """The line after the keys, pressed where `|` stands in it, or at its end."""
        left, _, right = typed.partition("|")
        self.screen = b""
        self._type(left + right + "\x02" * len(right) + keys + "\x14")
        line = self._wait()
        self._type("\x05\x15")
        return line

    def offers(self, typed: str) -> set[str]:
        """Every completion of the last word of the line."""
        if self.shell == "fish":
            self._type(f"complete -C {shlex.quote(typed)} | string split -f1 \\t >>$HELD.all\n")
            self._type("echo done >>$HELD\n")
            self._wait()
            found = Path(f"{self._held}.all")
            words = found.read_text("utf-8").split("\n")
            found.unlink()
            return set(words) - {""}
        typed_before, _, begun = typed.rpartition(" ")
        words = shlex.split(self.line_after(typed, "\x1b*"))[len(shlex.split(typed_before)) :]
        if self.shell == "bash":  # whose words are cut at a colon
            piece = begun.rpartition(":")[0] + ":" * (":" in begun)
            words = [words[0], *(f"{piece}{word}" for word in words[1:])]
        return set(words) - {begun}

    def close(self) -> None:
        """Let the shell go."""
        self._process.kill()
        self._process.wait()
        os.close(self._lead)

    def _type(self, keys: str) -> None:
        os.write(self._lead, keys.encode())
        self._read(0.0)

    def _read(self, seconds: float) -> None:
        while select.select([self._lead], [], [], seconds)[0]:
            self.screen += os.read(self._lead, 65536)
            seconds = 0.0

    def _wait(self) -> str:
        """The next line that the shell wrote down."""
        end = time.monotonic() + WAIT_S
        while time.monotonic() < end:
            self._read(0.02)
            lines = self._held.read_text("utf-8").split("\n")
            if len(lines) > self._seen + 1:
                self._seen += 1
                return lines[self._seen - 1]
        raise AssertionError(f"{self.shell} said nothing; on the screen: {self.screen[-2000:]!r}")
