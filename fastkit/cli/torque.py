"""`fastkit torque`."""

from collections.abc import Callable, Iterator
from typing import Any

import click

from fastkit.answers.torque import TorqueAnswer, document, torque
from fastkit.cli.output import answering, bold, emit, trouble_line, wrap
from fastkit.cli.torque_screen import lines
from fastkit.errors import Misuse
from fastkit.notation.units import angle_deg, force_n, length_mm, percent, torque_nmm


def _mu(text: str) -> float | tuple[float, float]:
    ends = text.split("..") if ".." in text else [text]
    try:
        values = [float(end) for end in ends]
    except ValueError as error:
        raise Misuse(f"cannot read mu {text[:40]!r}: expected X or X..Y such as 0.1") from error
    if len(values) > 2:
        raise Misuse(f"cannot read mu {text[:40]!r}: expected X or X..Y such as 0.1..0.14")
    return values[0] if len(values) == 1 else (values[0], values[1])


def _two(text: str, sign: str, expected: str) -> tuple[str, str]:
    """Two parts of an option; the second empty where it was left out."""
    first, found, second = text.partition(sign)
    if not first.strip() or (found and not second.strip()):
        raise Misuse(f"cannot read {text[:40]!r}: expected {expected}")
    return first, second


def _gears(text: str) -> tuple[float, float]:
    ratio, efficiency = _two(text, ":", "RATIO or RATIO:PCT such as 5:90")
    try:
        return float(ratio), percent(efficiency or "100")
    except ValueError as error:
        raise Misuse(
            f"cannot read {text[:40]!r}: expected RATIO or RATIO:PCT such as 5:90"
        ) from error


def _bar(text: str) -> tuple[float, float]:
    length, diameter = _two(text.replace("×", "x"), "x", "LENGTHxDIAMETER such as 250x13")
    if not diameter:
        raise Misuse(f"cannot read {text[:40]!r}: expected LENGTHxDIAMETER such as 250x13")
    return length_mm(length), length_mm(diameter)


def _celsius(text: str) -> float:
    word = text.strip().upper().replace("°", "").replace("−", "-")
    try:
        if word.endswith("F"):
            return (float(word[:-1]) - 32) / 1.8
        return float(word.removesuffix("C"))
    except ValueError as error:
        raise Misuse(
            f"cannot read {text[:40]!r}: expected a temperature such as 120, 120C or 250F"
        ) from error


def _temperatures(text: str) -> tuple[float, float]:
    body, bolt = _two(text, "/", "BODY or BODY/BOLT such as 120/20")
    return _celsius(body), _celsius(bolt or body)


def _nm(text: str) -> float:
    return torque_nmm(text) / 1000


def _read(
    reader: Callable[[str], Any],
) -> Callable[[click.Context, click.Parameter, str | None], Any]:
    """A reader of `notation.units` as what click calls for an option."""

    def callback(_: click.Context, __: click.Parameter, text: str | None) -> Any:
        return None if text is None else reader(text)

    return callback


@click.command()
@click.argument("thread")
@click.argument("grade")
@click.option(
    "--friction",
    metavar="CONDITION",
    help="How the thread is: dry, oiled, class-b (0.08 to 0.16, if left out) …",
)
@click.option(
    "--mu",
    metavar="X[..Y]",
    callback=_read(_mu),
    help="Friction coefficient in place of that: 0.12, 0.1..0.14.",
)
@click.option(
    "--mu-head", metavar="X[..Y]", callback=_read(_mu), help="The same under the head alone."
)
@click.option(
    "--head", metavar="HEAD", help="Head: hexagon, socket, flange, countersunk, a standard."
)
@click.option("--into", metavar="MATERIAL", help="What holds the thread, or a nut such as nut-8.")
@click.option(
    "--engage", metavar="MM", callback=_read(length_mm), help="Length of thread that carries."
)
@click.option(
    "--clamp",
    metavar="N",
    callback=_read(force_n),
    help="Clamping force the joint needs; else 40 % of the table's.",
)
@click.option(
    "--utilisation",
    metavar="PCT",
    callback=_read(percent),
    help="How near to yield it may be stretched; else 90 %.",
)
@click.option(
    "--wrench-error",
    metavar="PCT",
    callback=_read(percent),
    help="What the wrench may be off, ±; else 4 %.",
)
@click.option(
    "--prevailing", metavar="NM", callback=_read(_nm), help="What a locking nut takes just to run."
)
@click.option(
    "--adapter",
    metavar="MM",
    callback=_read(length_mm),
    help="Length of a crow foot or other adapter on the wrench.",
)
@click.option(
    "--wrench-length",
    metavar="MM",
    callback=_read(length_mm),
    help="The wrench itself, middle of its grip to its square.",
)
@click.option(
    "--adapter-angle",
    metavar="DEG",
    callback=_read(angle_deg),
    help="The adapter's angle off the line of the handle.",
)
@click.option(
    "--drive", metavar="ID", help="Recess or head that must carry the torque, such as T40."
)
@click.option("--reused", is_flag=True, help="The fastener has been tightened before.")
@click.option(
    "--set",
    "setting",
    metavar="TORQUE",
    callback=_read(_nm),
    help="A setting to be judged: what it clamps, how near to yield.",
)
@click.option(
    "--angle",
    metavar="DEG",
    callback=_read(angle_deg),
    help="Turned on so far from snug, in place of a torque alone.",
)
@click.option(
    "--grip",
    metavar="MM",
    callback=_read(length_mm),
    help="Thickness that is clamped, head to nut or thread.",
)
@click.option(
    "--maker", metavar="TORQUE", callback=_read(_nm), help="The maker's value, which goes first."
)
@click.option(
    "--place",
    metavar="WORDS",
    help="The maker's value out of your notes: words of machine and place.",
)
@click.option(
    "--multiplier",
    metavar="RATIO[:PCT]",
    callback=_read(_gears),
    help="Torque multiplier: its ratio, its efficiency in %.",
)
@click.option(
    "--extension",
    metavar="LxD",
    callback=_read(_bar),
    help="Extension bar, length by diameter in mm: how far it twists.",
)
@click.option(
    "--heat",
    metavar="C[/C]",
    callback=_read(_temperatures),
    help="Warm in service: the body, or body/bolt, in °C or with F.",
)
@click.option(
    "--press",
    metavar="MM",
    callback=_read(length_mm),
    help="A stud or pin pressed in: how much thicker than its hole; with --heat.",
)
@click.option("--locker", metavar="STRENGTH", help="Threadlocker on the thread: low, medium, high.")
@click.option("--broken", is_flag=True, help="What gets the rest out once it has broken.")
@click.option("--why", is_flag=True, help="Walk through the steps with numbers and sources.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
@click.pass_context
def command(
    ctx: click.Context,
    thread: str,
    grade: str,
    friction: str | None,
    mu: float | tuple[float, float] | None,
    mu_head: float | tuple[float, float] | None,
    head: str | None,
    into: str | None,
    engage: float | None,
    clamp: float | None,
    utilisation: float | None,
    wrench_error: float | None,
    prevailing: float | None,
    adapter: float | None,
    wrench_length: float | None,
    adapter_angle: float | None,
    drive: str | None,
    reused: bool,
    setting: float | None,
    angle: float | None,
    grip: float | None,
    maker: float | None,
    place: str | None,
    multiplier: tuple[float, float] | None,
    extension: tuple[float, float] | None,
    heat: tuple[float, float] | None,
    press: float | None,
    locker: str | None,
    broken: bool,
    why: bool,
    as_json: bool,
) -> None:
    """
    How tight: the window of settings that clamp enough and overload nothing.

    THREAD and GRADE as written on the fastener or in the trade: M8 8.8, 3/8-16 SAE-5.
    """
    noted = None
    with answering(as_json, document(TorqueAnswer(thread[:60], grade[:60]))):
        if place is not None:
            if maker is not None:
                raise Misuse("--maker and --place: expected one of them")
            from fastkit.answers.notes import makers_torque

            noted = makers_torque(place)
            maker = noted.torque_nm
        answer = torque(
            thread,
            grade,
            friction=friction,
            mu=mu,
            mu_head=mu_head,
            head=head,
            into=into,
            engage_mm=engage,
            clamp_n=clamp,
            utilisation_pct=utilisation,
            wrench_error_pct=wrench_error,
            prevailing_nm=prevailing or 0.0,
            adapter_mm=adapter,
            wrench_length_mm=wrench_length,
            adapter_angle_deg=adapter_angle,
            drive=drive,
            reused=reused,
            set_nm=setting,
            angle_deg=angle,
            grip_mm=grip,
            maker_nm=maker,
            multiplier=multiplier,
            extension_mm=extension,
            heat_c=heat,
            press_mm=press,
            locker=locker,
            broken=broken,
            why=why,
        )
    found = document(answer) if noted is None else {**document(answer), "noted": noted._asdict()}

    def said(columns: int) -> Iterator[str]:
        if noted is not None:
            whence = f"{noted.machine}, {noted.place}: {noted.written}, read in {noted.read_in}"
            yield from map(bold, wrap(f"Your note: {whence} ({noted.at[:10]}).", columns))
        yield from lines(answer, columns)

    emit(found, as_json, said)
    if answer.empty or answer.published:
        click.echo(trouble_line(answer.reason or ""), err=True)
        ctx.exit(1)
