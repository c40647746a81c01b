"""Thin: parse, ask, show; one module a command, loaded when it is called."""

import gc
import os
import sys
from collections.abc import Sequence
from importlib import import_module
from typing import Any, NoReturn

import click

from fastkit.cli.examples import ALONE, EXAMPLES, epilog
from fastkit.cli.output import PLAIN, WIDE, refusal_lines, trouble_line
from fastkit.errors import FastkitError
from fastkit.version import VERSION

# words of a fastener that will not move
STUCK = {"stuck", "seized", "rusted", "rusty", "rounded", "stripped", "snapped", "broken", "worn"}
ALIKE = 0.7  # a misspelt command is at least so like it
GARBAGE = 100_000  # objects made between two collections
TIDY = {"coverage", "weasyprint"}  # which write or clean up when Python ends
EXTRA = "Got unexpected extra argument"  # as click says it
COMPLETING = "_FASTKIT_COMPLETE"  # by which a shell asks what a word may become
# name of a command and of its module -> what `--help` says of it without loading the module
COMMANDS = {
    "find": "anything, by a few words",
    "show": "one entry whole, with its sources",
    "identify": "what thread, drive, head or grade this is",
    "torque": "how tight: the window of settings",
    "order": "in what order and stages to tighten or loosen",
    "extract": "what to do with a fastener that will not move",
    "job": "a whole job on one sheet, from a file of yours",
    "repair": "a ruined thread made good",
    "near": "bits, keys and sockets within hundredths of a size",
    "replace": "what goes back in place of a fastener, and what to buy",
    "note": "what you tried and looked up, in your own file",
    "tools": "the tools at hand, in your own file",
    "stock": "what lies in the drawers, in your own file",
    "cards": "pocket cards as a PDF, true to scale",
    "sources": "where the numbers come from",
    "check": "is this installation sound",
}


MODES = (
    ("--wide", WIDE, "Everything, over all columns of the screen."),
    ("--plain", PLAIN, "Words alone, for a screen reader."),
)


def _mode(flag: str, name: str, told: str) -> click.Option:
    """An option that every command takes and that only the output asks for."""

    def keep(ctx: click.Context, param: click.Parameter, value: bool) -> None:
        ctx.meta[name] = value

    return click.Option([flag], is_flag=True, expose_value=False, callback=keep, help=told)


class LazyGroup(click.Group):
    """A group that imports a command's module only when the command is asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Every command, in the order of the job."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command of that name; None where there is none."""
        if cmd_name not in COMMANDS:
            return None
        command = import_module(f"fastkit.cli.{cmd_name}").command
        assert isinstance(command, click.Command)
        command.epilog = epilog(cmd_name)
        held = {param.name for param in command.params}
        command.params += [_mode(*mode) for mode in MODES if mode[0].strip("-") not in held]
        if COMPLETING in os.environ:
            from fastkit.cli.complete import attach

            attach(cmd_name, command)
        return command

    def shell_complete(self, ctx: click.Context, incomplete: str) -> list[Any]:
        """Commands by the table above, and options."""
        from click.shell_completion import CompletionItem

        found = [
            CompletionItem(name, help=told)
            for name, told in COMMANDS.items()
            if name.startswith(incomplete)
        ]
        return found + click.Command.shell_complete(self, ctx, incomplete)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The list of commands, from the table above."""
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """The command named first; a wrong name is answered with the nearest one."""
        if args and args[0] not in COMMANDS and not args[0].startswith("-"):
            raise click.UsageError(
                f"no command {args[0][:60]!r}; expected one of {', '.join(COMMANDS)}"
                f"; nearest: {_meant(args)}"
            )
        return super().resolve_command(ctx, args)

    def main(
        self,
        args: Sequence[str] | None = None,
        prog_name: str | None = None,
        complete_var: str | None = None,
        standalone_mode: bool = True,
        **extra: Any,
    ) -> Any:
        """Run a command line; every trouble is one line on standard error and a status."""
        _speak_any_encoding()
        if COMPLETING in os.environ:
            from fastkit.cli.shells import register

            register()
        try:
            for word in args or ():  # from Python: no system passes such on
                _check_typed(word)
            status = super().main(args, prog_name, complete_var, standalone_mode=False, **extra)
            sys.stdout.flush()
        except FastkitError as error:
            if not standalone_mode:
                raise
            _leave("\n".join(refusal_lines(error)), error.status)
        except click.ClickException as error:
            if not standalone_mode:
                raise
            typed = list(sys.argv[1:] if args is None else args)
            _leave(trouble_line(_told(error, typed)), error.exit_code)
        except (click.Abort, KeyboardInterrupt):
            _leave("fastkit: interrupted", 130)
        except (BrokenPipeError, SystemExit):  # the second is what click makes of the first
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # nobody reads on
            sys.exit(0)
        except OSError as error:
            where = f" {error.filename}" if error.filename else ""
            _leave(trouble_line(f"cannot read or write{where}: {error.strerror or error}"), 3)
        if standalone_mode:
            sys.exit(status if isinstance(status, int) else 0)
        return status


def _meant(args: Sequence[str]) -> str:
    """The command that was misspelt, or the whole line where it was left out."""
    from difflib import get_close_matches

    near = get_close_matches(args[0][:40], COMMANDS, 1, ALIKE)
    stuck = not STUCK.isdisjoint(word.lower() for word in args)
    if near and not stuck:
        return near[0]
    return f"fastkit {'extract' if stuck else 'find'} {' '.join(args)[:60]}"


def _check_typed(word: str) -> None:
    if "\0" in word:
        raise click.UsageError("a word holds a NUL; expected words that can be typed")
    try:
        os.fsencode(word)
    except UnicodeEncodeError as error:
        raise click.UsageError(
            "a word holds half a letter; expected words that can be typed"
        ) from error


def _told(error: click.ClickException, typed: Sequence[str]) -> str:
    """What was wrong with a command line, with a line that works or the nearest option or word."""
    name = next((word for word in typed if word in COMMANDS), "")
    path = f"fastkit {name}".strip()
    if isinstance(error, click.NoSuchOption):
        near = f"; nearest: {error.possibilities[0]}" if error.possibilities else ""
        return f"no option {error.option_name[:60]!r}; expected one that {path} --help lists{near}"
    if isinstance(error, click.MissingParameter) and error.param:
        return f"{error.param.human_readable_name} is missing; {_as_in(name)}"
    if isinstance(error, click.BadOptionUsage):
        return f"{error.option_name} stands without its value; {_as_in(name, error.option_name)}"
    if isinstance(error, click.BadParameter) and error.param:
        kind = error.param.type
        if isinstance(kind, click.Choice):
            return f"{error.param.opts[0]}: {_of_choices(error, kind.choices)}"
    message = error.format_message()
    if message.startswith(EXTRA):
        return f"{message.partition('(')[2].rstrip(')')!r} is too much; {_as_in(name)}"
    return message


def _as_in(name: str, option: str = "") -> str:
    """A line that works, the first example that holds the option if one does."""
    lines = EXAMPLES.get(name, ("fastkit --help",))
    return f"expected as in: {next((line for line in lines if option in line), lines[0])}"


def _of_choices(error: click.BadParameter, choices: Sequence[str]) -> str:
    from difflib import get_close_matches

    word = error.message.partition(" is not one of ")[0].strip("'\"")
    near = get_close_matches(word[:60].lower(), choices, 1, 0.0)
    return f"{word[:60]!r}; expected one of {', '.join(choices)}; nearest: {near[0]}"


def _speak_any_encoding() -> None:
    """Let a terminal without "·" or "µ" show a question mark instead of failing."""
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="replace")


def _leave(line: str, status: int) -> NoReturn:
    click.echo(line, err=True)
    sys.exit(status)


def _show_version(ctx: click.Context, param: click.Parameter, value: bool) -> None:
    if value and not ctx.resilient_parsing:
        from fastkit.answers.held import held

        data = held()
        click.echo(f"fastkit {VERSION}, data {data.data_version}, {data.rows} rows")
        ctx.exit()


@click.group(
    cls=LazyGroup,
    invoke_without_command=True,
    context_settings={"help_option_names": ["-h", "--help"]},
)
@click.option(
    "--version",
    is_flag=True,
    is_eager=True,
    expose_value=False,
    callback=_show_version,
    help="Print the version of the code, of the data, and the number of rows.",
)
@click.pass_context
def cli(ctx: click.Context) -> None:
    """
    Fasteners: find out what one is, get it loose, tighten it right. Works offline.

    The vehicle or machine maker's specification governs every value.
    """
    if ctx.invoked_subcommand is None:
        for what, line in ALONE:
            click.echo(f"{what:18}{line}")
        click.echo(f"{'Every command:':18}fastkit --help")
    elif ctx.invoked_subcommand != "check":  # which reports it as a problem
        from fastkit.answers.held import out_of_date

        warning = out_of_date()
        if warning:
            click.echo(trouble_line(warning), err=True)


def main() -> NoReturn:
    """
    The entry point of the `fastkit` command.

    One answer makes little garbage, and the system takes the memory back at once: collecting it
    often, and taking it apart at the end, would cost a fifth of a cold start.
    """
    gc.set_threshold(GARBAGE)
    closed = sys.stdout is None
    _fill_closed_streams()
    try:
        if closed:
            _leave("fastkit: cannot write: standard output is closed", 3)
        cli.main(prog_name="fastkit")
    except SystemExit as end:
        _end_at_once(end)
        raise
    raise SystemExit(0)


def _fill_closed_streams() -> None:
    """Open nothing in the place of each closed stream, lest a file of ours gets its number."""
    for name, mode in (("stdin", "r"), ("stdout", "w"), ("stderr", "w")):
        if getattr(sys, name) is None:
            setattr(sys, name, open(os.devnull, mode, encoding="utf-8"))  # noqa: PTH123, SIM115


def _end_at_once(end: SystemExit) -> None:
    """Leave without tidying up, where nothing is left to do that only tidying up does."""
    if not isinstance(end.code, int) or not TIDY.isdisjoint(sys.modules):
        return
    try:
        for stream in (sys.stdout, sys.stderr):
            stream.flush()
    except (OSError, ValueError):  # closed or gone: the usual end deals with it
        return
    os._exit(end.code)
