"""`fastkit repair`."""

from collections.abc import Iterator
from typing import Any

import click

from fastkit.answers.repair import RepairAnswer, RepairOption, repair
from fastkit.answers.repair_read import read_line
from fastkit.answers.repair_words import CRITICAL
from fastkit.cli.helped import Command
from fastkit.cli.output import answering, bold, emit, fitting, missing, wrap
from fastkit.notation.units import figures, length_mm, show_kn, show_mm

EMPTY: dict[str, Any] = {
    **{"thread": None, "situation": {}, "before": None, "options": [], "ruled_out": []},
    **{"machine_shop": None, "chase_or_cut": None, "cautions": [], "assumed": []},
    **{"shear_mpa": None, "shear_checked": None, "basis": [], "not_understood": [], "dangers": []},
}
ASSUMED = {
    "thread": "thread {}",
    "into": "body {}",
    "depth_mm": "hole {} deep",
    "engage_mm": "screw engaged {}",
    "wall_mm": "wall not measured",
    "far_side": "far side not known",
    "grade": "screw of class {}",
}


SHOWN = (4, 3, 2)  # ways and reasons against others, the first that makes one screen


def screen(answer: RepairAnswer, why: bool, columns: int) -> list[str]:
    """What was understood, the pick whole, the others in short, what is out and why."""
    if why:
        return list(_screen(answer, True, columns, len(answer.options)))
    return fitting(columns, (_screen(answer, False, columns, most) for most in SHOWN), long=True)


def _screen(answer: RepairAnswer, why: bool, columns: int, most: int) -> Iterator[str]:
    yield from wrap(_situation(answer), columns)
    cautions = answer.cautions
    if answer.situation["part"]:  # what sat there decides: its own caution before all ways
        name = answer.situation["part"].replace("-", " ")
        yield from wrap(cautions[0], columns, bold(f"{name[0].upper()}{name[1:]}: "), "  ")
        cautions = cautions[1:]
    if answer.situation["critical"]:
        yield from wrap(
            CRITICAL.format(answer.situation["critical"]), columns, bold("Stop: "), "  "
        )
    if answer.machine_shop:
        yield from wrap(answer.machine_shop, columns, bold("Machine shop: "), "  ")
    shown = answer.options[:most]
    for option in shown:
        yield from _option(option, why, columns)
    rest = [_named(option) for option in answer.options[len(shown) :]]
    if rest:
        yield from wrap("; ".join(rest), columns, "Also: ", "  ")
    yield from _barred(answer, why, columns, most)
    if answer.chase_or_cut:
        yield from wrap(answer.chase_or_cut, columns, "", "  ")
    said = "; ".join(_assumed(item) for item in answer.assumed)
    if said:
        yield from wrap(f"{said}.", columns, "Assumed: ", "  ")
    for caution in cautions:
        yield from wrap(caution, columns, "", "  ")
    for step in answer.basis if why else ():
        yield from wrap(step, columns, "", "  ")
    shear = ""
    if answer.shear_mpa:
        shear = f"; shear strength of the body {answer.shear_mpa:g} MPa [{answer.shear_checked}]"
    yield from wrap(
        f"Strength by FED-STD-H28/2B, VDI 2230-1{shear}; walls, times, order [judgement].", columns
    )


def _named(option: RepairOption) -> str:
    return f"{_plain(option.method)}{' (weaker)' if option.verdict == 'weaker' else ''}"


def _barred(answer: RepairAnswer, why: bool, columns: int, most: int) -> Iterator[str]:
    """What would do but for want of something; with reasons asked for, all that is out."""
    short = [out for out in answer.ruled_out if why or out.short_by]
    for out in short if why else short[:most]:
        way = f"; opens with {out.opens_it}" if why and out.opens_it else ""
        yield from wrap(f"{_plain(out.method)}: {out.because}{way}", columns, "Not: ", "  ")


def _situation(answer: RepairAnswer) -> str:
    told, before = answer.situation, answer.before
    hole = told["hole"]
    if told["oversize_mm"]:
        hole = f"hole {show_mm(told['oversize_mm'])}"
    wall = f", wall {show_mm(told['wall_mm'])}" if told["wall_mm"] is not None else ""
    held = ""
    if before.thread_n is not None:
        held = f"; it held {show_kn(before.thread_n)}, its screw {show_kn(before.screw_n)}"
    name = answer.thread.partition(":")[2]
    body = told["into"].replace("-", " ")
    return f"{name} in {body}, {hole}, {show_mm(told['depth_mm'])} deep{wall}{held}"


def _option(option: RepairOption, why: bool, columns: int) -> Iterator[str]:
    first = option.rank == 1
    head, (low, high) = f"{option.rank} {option.title}", option.minutes
    said = f"{_strength(option)}; {low:g} to {high:g} min; {_holes(option)}"
    reason = option.why[0].upper() + option.why[1:]
    whole = f"{said}. {reason}." if first or why else said
    yield from wrap(whole, columns, f"{bold(head) if first else head}: ", "   ")
    if first or why:
        yield from wrap(f"needs {option.needs}", columns, "   ")
        for number, step in enumerate(option.steps, 1):
            yield from wrap(step, columns, f"   {number}. ")
        for caution in option.cautions:
            yield from wrap(caution, columns, "   ! ")


def _strength(option: RepairOption) -> str:
    if option.strength_n is None:
        return option.limited_by
    share = f"{option.share_pct:.0f} % of the old, " if option.share_pct else ""
    weak = "WEAKER, " if option.verdict == "weaker" else ""
    return f"{weak}{share}holds {show_kn(option.strength_n)}"


def _holes(option: RepairOption) -> str:
    """Drill, tap, length and the room they want."""
    parts = []
    if option.drill_mm and option.method != "chase":
        name = f", {option.drill_name}" if option.drill_name else ""
        drill = f"{option.drill_mm:.4g} mm ({option.drill_mm / 25.4:.3f} in{name})"
        parts.append(f"drill {drill}{MARKS.get(option.drill_checked or '', '')}")
    if option.tap and option.method != "chase":
        parts.append(f"tap {option.tap}")
    if option.length_mm:
        parts.append(f"{figures(option.length_mm)} mm of thread")
    if option.wall_needed_mm > 0:
        edge = f"{option.edge_needed_mm:.1f} mm from middle to edge"
        parts.append(f"wall {option.wall_needed_mm:.1f} mm ({edge})")
    if option.above_mm:
        parts.append(f"{option.above_mm:g} mm above")
    if option.heat_max_c:
        parts.append(f"to {option.heat_max_c:g} °C")
    if not option.keeps_screw:
        parts.append("another screw")
    parts.append(UNDONE[option.reversible])
    return ", ".join(parts)


MARKS = {"memory": " [memory]", "judgement": " [judgement]"}
UNDONE = {"yes": "can be undone", "with work": "undone with work", "no": "no way back"}


def _plain(slug: str) -> str:
    return slug.replace("-", " ")


def _assumed(item: dict[str, Any]) -> str:
    value = item["value"]
    shown = show_mm(value) if isinstance(value, float) else value
    return ASSUMED[item["what"]].format(shown)


@click.command(cls=Command)
@click.argument("thread")
@click.argument("words", nargs=-1)
@click.option("--part", help="What sat in it: drain-plug, spark-plug, sender ...")
@click.option("--into", help="Material of the body.")
@click.option("--depth", "depth_mm", metavar="MM", help="Depth of the hole, thickness of a sheet.")
@click.option("--hole", help="stripped, oversize:MM, cracked or damaged (ridges still stand).")
@click.option("--wall", "wall_mm", metavar="MM", help="Least metal outside the old thread.")
@click.option("--edge", "edge_mm", metavar="MM", help="Middle of the hole to the edge.")
@click.option("--engage", "engage_mm", metavar="MM", help="Length of thread the screw used.")
@click.option("--grade", help="Class or grade of the screw.")
@click.option("--above", "above_mm", metavar="MM", help="Free room over the hole.")
@click.option("--far-side", help="reachable, blind or unknown.")
@click.option("--hot", "hot_c", type=float, metavar="DEGC", help="Highest temperature in service.")
@click.option(
    "--critical",
    help="What hangs on it: brakes, steering, suspension, wheels, pressure, people …",
)
@click.option("--why", is_flag=True, help="Steps, needs and reasons of every way.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
@click.pass_context
def command(
    ctx: click.Context,
    /,
    thread: str,
    words: tuple[str, ...],
    why: bool,
    as_json: bool,
    **options: Any,
) -> None:
    """
    How a ruined thread is made good: every way compared, the best first.

    Words do as well as options: m6 aluminium stripped 15 deep wall 3.
    """
    given = {name: value for name, value in options.items() if value is not None}
    given = {
        name: length_mm(value) if name.endswith("_mm") else value for name, value in given.items()
    }
    with answering(as_json, EMPTY):
        given = {**read_line((thread, *words)), **given}
        unread, warned = given.pop("not_understood", ()), given.pop("dangers", ())
        if "thread" not in given and "part" not in given:
            raise missing(ctx, "thread")
        answer = repair(**given)
    emit(answer.document(), as_json, lambda columns: screen(answer, why, columns), unread, warned)
