"""Help on one screen: the options asked for most explained, the others named, examples last."""

from collections.abc import Sequence
from typing import Any

import click

from fastkit.cli.output import NARROW, WIDE, wrap


class Command(click.Command):
    """A command whose help fits a screen; with `--wide` it explains every option."""

    def __init__(self, *args: Any, first: Sequence[str] = (), **settings: Any) -> None:
        """Make one; *first* are the options explained at once, all where it is left out."""
        super().__init__(*args, **settings)
        self.first = {*first, "as_json"} if first else ()

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Read the line; help, which is answered before any option, must know of `--wide`."""
        ctx.meta[WIDE] = "--wide" in args
        return super().parse_args(ctx, args)

    def format_options(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The options: those asked for most with what they say, then the names of the others."""
        told: list[tuple[str, str]] = []
        named: list[str] = []
        for param in self.get_params(ctx):
            record = param.get_help_record(ctx) if isinstance(param, click.Option) else None
            if record:
                every = not self.first or ctx.meta.get(WIDE) or not param.expose_value
                if every or param.name in self.first:
                    told.append(record)
                else:
                    named.append("/".join((*param.opts, *param.secondary_opts)))
        with formatter.section("Options"):
            if formatter.width < NARROW:
                for option, text in told:
                    _write(formatter, f"{option}: {text}")
            else:
                formatter.write_dl(told)
        if named:
            with formatter.section(f"More, told by fastkit {ctx.info_name} --help --wide"):
                _write(formatter, ", ".join(named))


def _write(formatter: click.HelpFormatter, text: str) -> None:
    """One paragraph, its further lines set in."""
    indent = " " * formatter.current_indent
    for line in wrap(text, formatter.width, indent, f"{indent}    "):
        formatter.write(f"{line}\n")
