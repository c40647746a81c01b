"""`fastkit torque`."""

from collections.abc import Callable, Iterator
from typing import Any

import click

from fastkit.answers.torque import TorqueAnswer, document, torque
from fastkit.answers.torque_steps import LIMITS, WEAKEST
from fastkit.cli.output import answering, bold, clean, emit, trouble_line, wrap
from fastkit.errors import Misuse
from fastkit.notation.units import (
    angle_deg,
    figures,
    force_n,
    length_mm,
    show_kn,
    show_mm,
    show_nm,
    torque_nmm,
)

CAUTION = (
    "The vehicle or machine maker's specification governs; these are values for a known fastener "
    "in sound parts. Brakes, steering, lifting and pressure: qualified hands."
)
MARKS = {"memory": " [memory]", "judgement": " [judgement]"}
ASSUMED = {
    "friction": "friction {}",
    "head": "{}",
    "hole": "hole {}",
    "utilisation_pct": "{:g} % of yield",
    "wrench_error_pct": "wrench ±{:g} %",
    "clamp_n": "clamp {}",
    "into": "into {}",
    "engage_mm": "engagement {}",
    "washer": "hard washer {} under the head",
    "seat": "clamped part of {} too",
    "nut": "a sound {}",
    "drive": "drive {}",
}


def _percent(text: str) -> float:
    try:
        return float(text.strip().removesuffix("%"))
    except ValueError as error:
        raise Misuse(f"cannot read {text[:40]!r}: expected a share in % such as 90") from error


def _mu(text: str) -> float | tuple[float, float]:
    ends = text.split("..") if ".." in text else [text]
    try:
        values = [float(end) for end in ends]
    except ValueError as error:
        raise Misuse(f"cannot read mu {text[:40]!r}: expected X or X..Y such as 0.1") from error
    if len(values) > 2:
        raise Misuse(f"cannot read mu {text[:40]!r}: expected X or X..Y such as 0.1..0.14")
    return values[0] if len(values) == 1 else (values[0], values[1])


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
@click.option("--friction", metavar="CONDITION", help="Friction condition, such as class-b, dry.")
@click.option("--mu", metavar="X[..Y]", callback=_read(_mu), help="Friction coefficient instead.")
@click.option("--mu-head", metavar="X[..Y]", callback=_read(_mu), help="Under the head alone.")
@click.option("--head", metavar="HEAD", help="hexagon, socket, flange, countersunk, a standard.")
@click.option("--into", metavar="MATERIAL", help="What holds the thread, or a nut such as nut-8.")
@click.option("--engage", metavar="MM", callback=_read(length_mm), help="Thread engagement.")
@click.option("--clamp", metavar="N", callback=_read(force_n), help="Clamp that is required.")
@click.option("--utilisation", metavar="PCT", callback=_read(_percent), help="Share of yield.")
@click.option("--wrench-error", metavar="PCT", callback=_read(_percent), help="Wrench, ± percent.")
@click.option("--prevailing", metavar="NM", callback=_read(_nm), help="Of a locking nut.")
@click.option("--adapter", metavar="MM", callback=_read(length_mm), help="Adapter on the wrench.")
@click.option("--wrench-length", metavar="MM", callback=_read(length_mm), help="Grip to square.")
@click.option("--adapter-angle", metavar="DEG", callback=_read(angle_deg), help="Off the handle.")
@click.option("--drive", metavar="ID", help="Drive that must carry it, such as T40.")
@click.option("--reused", is_flag=True, help="The fastener has been tightened before.")
@click.option("--set", "setting", metavar="TORQUE", callback=_read(_nm), help="Judge a setting.")
@click.option("--angle", metavar="DEG", callback=_read(angle_deg), help="Turned on from snug.")
@click.option("--grip", metavar="MM", callback=_read(length_mm), help="Clamped length.")
@click.option("--maker", metavar="TORQUE", callback=_read(_nm), help="The maker's own value.")
@click.option("--place", metavar="WORDS", help="The same from your notes: machine and place.")
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
            why=why,
        )
    found = document(answer) if noted is None else {**document(answer), "noted": noted._asdict()}

    def lines(columns: int) -> Iterator[str]:
        if noted is not None:
            said = f"{noted.machine}, {noted.place}: {noted.written}, read in {noted.read_in}"
            yield from map(bold, wrap(f"Your note: {said} ({noted.at[:10]}).", columns))
        yield from _lines(answer, columns)

    emit(found, as_json, lines)
    if answer.empty or answer.published:
        click.echo(trouble_line(answer.reason or ""), err=True)
        ctx.exit(1)


def _lines(answer: TorqueAnswer, columns: int) -> Iterator[str]:
    yield from wrap(_title(answer), columns)
    if answer.maker:
        yield from _maker(answer, columns)
    if answer.torque_nm is None:
        reason = answer.reason or ""
        yield from wrap(f"{reason[:1].upper()}{reason[1:]}.", columns)
        for way in answer.published or ():
            yield from wrap(f"Instead: {way}.", columns)
    else:
        yield from _window(answer, columns)
    if answer.breaking_torque_nm is not None:
        word = "about " if answer.breaking_torque_is_estimate else ""
        yield from wrap(f"Twists off at {word}{_both(answer.breaking_torque_nm)}.", columns)
    for note in answer.notes:
        yield from wrap(note, columns)
    if answer.why:
        yield ""
        for number, step in enumerate(answer.why, 1):
            yield from wrap(step, columns, f"{number:2}. ")
        for source in answer.sources:
            locator = "" if source.locator == "-" else f", {source.locator}"
            said = f"{source.used_for}: {source.title}{locator}{MARKS.get(source.checked, '')}"
            yield from wrap(said, columns, "  - ")
    yield ""
    if answer.assumed:
        yield from wrap(f"assumed: {'; '.join(map(_assumption, answer.assumed))}", columns)
    yield from wrap(f"sources: {'; '.join(_sources(answer))}", columns)
    yield from wrap(CAUTION, columns)


def _title(answer: TorqueAnswer) -> str:
    said = f"{answer.thread}, {answer.grade}"
    if answer.head:
        said += f", {answer.head_words}"
    if answer.mu_min is not None and answer.mu_max is not None:
        said += f", friction {_range(answer.mu_min, answer.mu_max)}"
        under = (answer.mu_head_min, answer.mu_head_max)
        if under != (answer.mu_min, answer.mu_max):
            said += f", under the head {_range(under[0] or 0.0, under[1] or 0.0)}"
    return said


def _range(low: float, high: float) -> str:
    return f"{low:g}" if low == high else f"{low:g} to {high:g}"


def _window(answer: TorqueAnswer, columns: int) -> Iterator[str]:
    assert answer.torque_nm is not None
    low, high = answer.torque_min_nm or 0.0, answer.torque_max_nm or 0.0
    yield ""
    if answer.empty:
        yield from wrap(
            f"No setting does: {_both(low)} to clamp enough at the highest friction, at most "
            f"{_both(high)} to overload nothing at the lowest.",
            columns,
        )
        for way in answer.opens_it:
            yield from wrap(f"{way}", columns, "opens it: ", "          ")
    else:
        for line in wrap(f"Set {_both(answer.torque_nm)}", columns):
            yield bold(line)
        if answer.wrench_setting_nm is not None:
            yield from wrap(
                f"With the adapter the scale reads {_both(answer.wrench_setting_nm)}.", columns
            )
        yield from wrap(f"Window {_both(low)} to {_both(high)}.", columns)
    yield ""
    yield from _bar(answer, columns)
    yield ""
    if answer.limited_by:
        more = f"; next: {LIMITS[answer.next_limit]}" if answer.next_limit else ""
        yield from wrap(f"Not more: {LIMITS[answer.limited_by]}{more}.", columns)
    if answer.weakest_part:
        yield from wrap(f"Overdone, {WEAKEST[answer.weakest_part]} first.", columns)
    if answer.preload_n is not None and not answer.empty:
        yield from wrap(
            f"Clamp at that setting: about {show_kn(answer.preload_n)}, at least "
            f"{show_kn(answer.guaranteed_n or 0.0)}, at most {show_kn(answer.preload_max_n or 0)}.",
            columns,
        )
    if answer.by_hand and not answer.empty:
        hand = answer.by_hand
        yield from wrap(
            f"By feel, for the order of size only: {figures(hand['pull_n'])} N "
            f"({figures(hand['pull_kg'])} kg) at the handle, {hand['at_mm']:g} mm out.",
            columns,
        )
    if answer.loosening_nm is not None and not answer.empty:
        loses = answer.loses_loosening
        more = f"; {WEAKEST[loses]} before" if loses else ""
        yield from wrap(
            f"Loosens again at about {_both(answer.loosening_nm)} while nothing has rusted or "
            f"bonded (practice){more}.",
            columns,
        )
    if answer.set:
        yield from _setting(answer.set, columns)
    if answer.angle:
        yield from _angle(answer.angle, columns)


LIMIT_MARKS = {
    "yield": "y",
    "thread-strip": "s",
    "bolt-thread-strip": "b",
    "nut-proof": "n",
    "bearing-pressure": "p",
    "drive": "d",
}


def _bar(answer: TorqueAnswer, columns: int) -> Iterator[str]:
    """
    The window drawn to scale, each limit under it, and what each mark is.

    No colour, no wider than the screen; what lies beyond the right end is marked `>` and listed.
    """
    marks = [
        ("[", answer.torque_min_nm, "lowest: clamps enough at the highest friction"),
        ("]", answer.torque_max_nm, "highest: overloads nothing at the lowest friction"),
        ("T", answer.table_torque_nm, "what tables print: middle friction, no scatter"),
        ("M", answer.maker["torque_nm"] if answer.maker else None, "the maker's value"),
        ("S", answer.set["torque_nm"] if answer.set else None, "the setting asked about"),
        ("X", answer.breaking_torque_nm, "the shank twists off"),
    ]
    shown = [(sign, value, word) for sign, value, word in marks if value is not None]
    top = max(value for _, value, _ in shown) * 1.05
    cells = min(columns, 72) - 4

    def place(value: float) -> int:
        return min(round(value / top * (cells - 1)), cells - 1)

    drawn = ["."] * cells
    low, high = place(answer.torque_min_nm or 0.0), place(answer.torque_max_nm or 0.0)
    for at in range(low, high + 1):
        drawn[at] = "="
    for sign, value, _ in reversed(shown):
        drawn[place(value)] = sign
    if not answer.empty and answer.torque_nm is not None and high - low > 1:
        at = min(max(place(answer.torque_nm), low + 1), high - 1)
        drawn[at] = "o"
        shown.insert(1, ("o", answer.torque_nm, "set this"))
    yield f" 0{''.join(drawn)}"
    limits = [
        (LIMIT_MARKS[limit["name"]], limit["setting_nm"], LIMITS[limit["name"]])
        for limit in answer.limits
    ]
    yield from _under(limits, place, top, cells)
    for sign, value, word in shown:
        yield from wrap(f"{_both(value)}  {word}", columns, f" {sign} ")
    for sign, value, word in limits:
        yield from wrap(f"{_both(value)}  limit: {word}", columns, f" {sign} ")


def _under(
    limits: list[tuple[str, float, str]], place: Callable[[float], int], top: float, cells: int
) -> Iterator[str]:
    """The limits' marks on the bar's own scale; a further row where two fall on one cell."""
    rows: list[list[str]] = []
    for sign, value, _ in limits:
        at, sign = (place(value), sign) if value <= top else (cells - 1, ">")
        row = next((row for row in rows if row[at] in {" ", sign}), None)
        if row is None:
            row = [" "] * cells
            rows.append(row)
        row[at] = sign
    for row in rows:
        yield f"  {''.join(row)}".rstrip()


def _setting(judged: dict[str, Any], columns: int) -> Iterator[str]:
    forces, shares = judged["preload_n"], judged["utilisation_pct"]
    over = " Beyond yield at the lowest friction." if max(shares) > 100 else ""
    if judged["passes"]:
        over += f" It may pass: {', '.join(LIMITS[name] for name in judged['passes'])}."
    yield from wrap(
        f"{_both(judged['torque_nm'])} gives {figures(forces[0] / 1000)} to "
        f"{figures(forces[-1] / 1000)} kN, in the middle {show_kn(forces[1])}: {shares[0]:.0f} to "
        f"{shares[-1]:.0f} % of yield.{over}",
        columns,
    )


def _angle(turned: dict[str, Any], columns: int) -> Iterator[str]:
    """What the angle adds, and the one that the window's clamp takes."""
    forces, shares = turned["preload_n"], turned["utilisation_pct"]
    if turned["angle_deg"] is not None:
        yield from wrap(
            f"{_both(turned['snug_nm'])} to snug, then {turned['angle_deg']:g}°: "
            f"{figures(forces[0] / 1000)} to {show_kn(forces[-1])}, {shares[0]:.0f} to "
            f"{shares[-1]:.0f} % of yield; the bolt is then {show_mm(turned['elongation_mm'])} "
            "longer.",
            columns,
        )
        if any(turned["past_yield"]):
            yield from wrap(
                "Past yield: the bolt keeps part of that length, its next stretch starts from a "
                "harder and shorter reserve, and the same angle may break it. Not used again.",
                columns,
            )
    angle = turned["target_angle_deg"]
    reached = f"about {angle:.0f}° from snug, elastic" if angle >= 1 else "reached at snug already"
    yield from wrap(
        f"The setting's clamp stretches the bolt {show_mm(turned['target_elongation_mm'])}: "
        f"{reached}, on a grip of {show_mm(turned['grip_mm'])}; what settles between the parts "
        "takes more.",
        columns,
    )


def _maker(answer: TorqueAnswer, columns: int) -> Iterator[str]:
    judged = answer.maker or {}
    yield from wrap(f"Maker's value: {_both(judged['torque_nm'])}. It governs.", columns)
    if judged["inside"]:
        said = "It lies inside the window below."
    elif judged["torque_nm"] < (answer.torque_min_nm or 0.0):
        said = "It lies below the window: the maker asks for less clamp than assumed here"
        needed = judged["clamp_needed_n"]
        said += f"; right if {show_kn(needed)} is enough." if needed else "."
    else:
        bound = LIMITS[answer.limited_by or "yield"]
        ways = []
        if judged["friction_needed"]:
            ways.append(f"friction is {judged['friction_needed']:.2g} or more")
        if judged["yield_needed_mpa"]:
            ways.append(f"the bolt's yield strength is {judged['yield_needed_mpa']:.0f} MPa")
        said = "It lies above the window" + (
            f": right if {', or '.join(ways)}."
            if ways
            else f", and no friction explains it; {bound} is the nearest limit."
        )
    yield from wrap(said, columns)


def _assumption(entry: dict[str, Any]) -> str:
    what, value = entry["what"], entry["value"]
    if what == "clamp_n":
        value = f"{show_kn(value)}, 40 % of the table preload (practice)"
    if what == "engage_mm":
        value = show_mm(value)
    return ASSUMED[what].format(value)


def _sources(answer: TorqueAnswer) -> Iterator[str]:
    """Each source once, by its short name, with what stands on it and how far it is checked."""
    uses: dict[tuple[str, str], list[str]] = {}
    for source in answer.sources:
        mark = MARKS.get(source.checked, "")
        uses.setdefault((_short(source.id, source.title), mark), []).append(source.used_for)
    for (name, mark), used_for in uses.items():
        yield f"{name}{mark} ({', '.join(used_for)})"


def _short(key: str, title: str) -> str:
    """The standard's number, which its title ends with; else the title."""
    number = title.rpartition("(")[2].partition(")")[0]
    return clean(
        number if any(c.isdigit() for c in number) else key if key == "practice" else title
    )


def _both(nm: float) -> str:
    return show_nm(nm * 1000)
