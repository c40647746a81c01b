"""`fastkit extract`."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import click

from fastkit.answers.extract import extract
from fastkit.answers.extract_answer import EMPTY, ExtractAnswer, Out, Step
from fastkit.answers.options import BOUNDS, CHOICES, MOVES
from fastkit.cli.helped import Command
from fastkit.cli.output import answering, emit, trouble_line
from fastkit.errors import Misuse

if TYPE_CHECKING:
    from fastkit.answers.tree import Node


def _choice(name: str) -> str:
    return f"One of {', '.join(CHOICES[name])}."


def _range(name: str) -> str:
    low, high, unit = BOUNDS[name]
    return f"{low:g} to {high:g} {unit}"


# options that help explains at once
FIRST = ("damage", "seized", "into", "above", "beside", "near", "tried", "ask", "why")


@click.command(cls=Command, first=FIRST)
@click.argument("words", nargs=-1)
@click.option("--kind", metavar="KIND", help=_choice("kind"))
@click.option("--part", metavar="PART", help="By its name: glow-plug, bleed-screw, wheel-nut …")
@click.option("--thread", metavar="THREAD", help="M8, 1/4-20, an id, a trade name.")
@click.option("--grade", metavar="GRADE", help="8.8, A2-70, SAE-5.")
@click.option("--drive", metavar="DRIVE", help="T30, PH2, hex-6mm, AF-13mm, a trade name.")
@click.option("--damage", metavar="STATE", help=_choice("damage"))
@click.option("--seized", metavar="HOW", help=_choice("seized"))
@click.option("--seized-at", metavar="WHERE", help=_choice("seized_at"))
@click.option("--left-hand", is_flag=True, help="The thread is left-handed.")
@click.option("--coating", metavar="COATING", help=_choice("coating"))
@click.option("--load", metavar="LOAD", help=f"What it holds back. {_choice('load')}")
@click.option("--far-side", metavar="STATE", help=f"The other end. {_choice('far_side')}")
@click.option("--residue", metavar="WHAT", help=f"What is on it now. {_choice('residue')}")
@click.option("--support", metavar="WHAT", help=f"What the part rests on. {_choice('support')}")
@click.option("--recess", metavar="STATE", help=_choice("recess"))
@click.option("--wasted", metavar="PCT", help=f"Section lost to rust, {_range('wasted')}.")
@click.option("--into", metavar="MATERIAL", help="steel, cast-iron, aluminium, magnesium, brass …")
@click.option("--insert", is_flag=True, help="A wire thread insert sits in the hole.")
@click.option("--prevailing", is_flag=True, help="A self-locking nut, whose thread drags.")
@click.option("--engage", metavar="MM", help="Length of thread that is engaged.")
@click.option("--stub", metavar="MM", help="A snapped shank stands proud so far, or sits so deep.")
@click.option("--above", metavar="MM", help="Free height over the head, along its axis.")
@click.option("--beside", metavar="MM", help="Smallest gap from the head's edge to what is beside.")
@click.option("--swing", metavar="DEG", help=f"Free arc for a handle, {_range('swing')}.")
@click.option("--side", metavar="none|WxD", help="Opening at head level, width by depth: 30x12.")
@click.option("--pocket", metavar="DIAxDEPTH", help="The head sits in a pocket: 20x60.")
@click.option("--near", metavar="THING[:MM]", multiple=True, help="Beside it: rubber:20, fuel …")
@click.option("--no-heat", is_flag=True, help="No flame, iron, weld or coil.")
@click.option("--power", metavar="POWER", help=_choice("power"))
@click.option("--have", metavar="TOOL", multiple=True, help="A tool at hand: ratchet, torch …")
@click.option("--lack", metavar="TOOL", multiple=True, help="A tool or method not at hand.")
@click.option(
    "--can", metavar="MOVE[:MIN]", multiple=True, help=f"Possible: none, {', '.join(MOVES)}."
)
@click.option("--tried", metavar="METHOD", multiple=True, help="Failed or done already, in order.")
@click.option("--spoil", metavar="MIN", help="What a spoiled part costs, in minutes.")
@click.option("--ask", is_flag=True, help="Guided questions first; Enter keeps, end of input ends.")
@click.option("--save", metavar="NAME", help="Keep the situation under a name.")
@click.option("--again", metavar="NAME", help="Go on with a kept one, and what was noted since.")
@click.option("--tree", is_flag=True, help="Draw what follows what, three moves deep.")
@click.option("--compare", nargs=2, metavar="A B", help="Two methods, side by side.")
@click.option("--why", is_flag=True, help="Every method, every reason, every number.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
@click.pass_context
def command(
    ctx: click.Context,
    /,
    words: tuple[str, ...],
    save: str | None,
    again: str | None,
    compare: tuple[str, str] | None,
    tree: bool,
    why: bool,
    as_json: bool,
    **options: Any,
) -> None:
    """
    What to do first with a fastener that will not move, here, with this room, beside that.

    WORDS say it as you would: "5 mm hex socket stripped, 30 mm above, can't swing, rusted".
    Options win over words. Room that is not named counts as free, tools as at hand.
    """
    asking = options.pop("ask")
    if asking and as_json:
        raise Misuse("--ask with --json: expected one of them; a script says it in options")
    text, said = " ".join(words), tuple[str, ...]()
    with answering(as_json, EMPTY):
        if again is not None:
            from fastkit.answers.kept import recall

            text, options, said = recall(again, text, options)
        if asking:
            from fastkit.cli.extract_ask import questioned

            text, options = questioned(text, options)
        answer = extract(text, **options)
        both = answer.compare(*compare) if compare else None
        node = None
        if tree:
            from fastkit.answers.tree import drawn

            node = drawn(answer.situation)
    if save is not None:
        from fastkit.answers.kept import save as keep

        said += keep(save, text, options)
    for line in dict.fromkeys((*said, *answer.own_said)):
        click.echo(trouble_line(line), err=True)

    document = answer.document(both)
    if tree:
        from fastkit.answers.tree import tree_document

        document["tree"] = tree_document(node)
    if why and as_json:
        from fastkit.answers.tree import how_steady, why_first

        document["why_first"] = why_first(answer, how_steady(answer.situation))
    emit(document, as_json, lambda columns: _drawn(answer, both, node, tree, why, columns))
    if not answer.plan:
        ctx.exit(1)


def _drawn(
    answer: ExtractAnswer,
    both: Sequence[Step | Out] | None,
    node: "Node | None",
    tree: bool,
    why: bool,
    columns: int,
) -> list[str]:
    """The lines of what was asked for: two side by side, a tree, everything, or the screen."""
    from fastkit.cli.extract_screen import screen, side_by_side, whole

    if both:
        return side_by_side(answer, both, columns)
    if tree:
        from fastkit.cli.extract_tree import draw

        return draw(answer, node, columns)
    if why:
        from fastkit.answers.tree import how_steady
        from fastkit.cli.extract_tree import first_against_second

        off = how_steady(answer.situation)
        reasons = first_against_second(answer, off, columns)
        return [*whole(answer, columns), "", *reasons]
    return screen(answer, columns)
