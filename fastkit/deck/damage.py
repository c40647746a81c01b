"""Pictures of what went wrong, and of the room that a first move needs."""

from collections.abc import Callable
from math import atan2, cos, radians, sin

from fastkit.deck import profiles
from fastkit.deck.drawings import filled, label, line, outlined, svg

HATCH_MM = 1.3


def _ground(x0: float, x1: float, y: float, deep: float) -> str:
    """The body cut open: an edge with hatching beneath."""
    out = line([(x0, y), (x1, y)], 0.35)
    x = x0
    while x < x1 - 0.2:
        run = min(deep, x1 - x)
        out += line([(x, y + run), (x + run, y)], 0.2)
        x += HATCH_MM
    return out


def _threaded(x: float, half: float, top: float, bottom: float) -> str:
    """A threaded shank seen from the side, teeth left and right."""
    step = 0.9
    left, right, y = [(x - half, top)], [(x + half, top)], top
    while y + step <= bottom:
        left += [(x - half - 0.45, y + step / 2), (x - half, y + step)]
        right += [(x + half + 0.45, y + step / 2), (x + half, y + step)]
        y += step
    return outlined(profiles.polygon([*left, *reversed(right)]), 0.2, "#fff")


def _hole(x: float, face: float, top: float) -> str:
    """A body cut open with a threaded shank in its hole, the shank from *top* down."""
    body = _ground(0.5, x - 2.6, face, 3) + _ground(x + 2.6, 17.5, face, 3)
    return body + _threaded(x, 2.0, top, 17.5)


def _dashed(path: str, colour: str, dash: str, width_mm: float = 0.2) -> str:
    """The outline of what is no longer there."""
    return (
        f'<path d="{path}" fill="none" stroke="{colour}" stroke-width="{width_mm}" '
        f'stroke-dasharray="{dash}"/>'
    )


def recess_worn(size_mm: float = 11.0) -> str:
    """A hexagon socket whose corners are rounded on their working side."""
    c = (size_mm / 2 + 2.8, size_mm / 2 + 2.8)
    body = outlined(profiles.circle(size_mm + 5, c), 0.3)
    body += outlined(profiles.regular(6, size_mm * 0.62, c, 30), 0.2)
    body += outlined(profiles.softened(6, size_mm * 0.66, c, 0.22), 0.35, "#ddd")
    return svg(2 * c[0], 2 * c[1], "Recess with rounded corners, seen along the axis", body)


def recess_stripped(size_mm: float = 11.0) -> str:
    """A hexagon socket turned nearly to a circle."""
    c = (size_mm / 2 + 2.8, size_mm / 2 + 2.8)
    body = outlined(profiles.circle(size_mm + 5, c), 0.3)
    body += outlined(profiles.softened(6, size_mm * 0.70, c, 0.5), 0.35, "#000")
    body += _dashed(profiles.regular(6, size_mm * 0.60, c, 30), "#fff", "1 0.8", 0.25)
    return svg(2 * c[0], 2 * c[1], "Recess turned round, no corners left", body)


def _cornerless(size_mm: float, title: str, middle: Callable[[profiles.Point], str]) -> str:
    """An outer hexagon whose corners are gone, the sound one dashed about it, and its middle."""
    c = (size_mm / 2 + 2, size_mm / 2 + 2)
    body = _dashed(profiles.regular(6, size_mm, c, 30), "#000", "0.9 0.7")
    body += outlined(profiles.softened(6, size_mm, c, 0.46), 0.4, "#ddd") + middle(c)
    return svg(2 * c[0], 2 * c[1], title, body)


def hexagon_rounded(size_mm: float = 13.0) -> str:
    """A hexagon head whose corners are gone."""
    return _cornerless(
        size_mm,
        "Outer hexagon with its corners gone",
        lambda c: outlined(profiles.circle(size_mm * 0.56, c), 0.2),
    )


def snapped(proud_mm: float) -> str:
    """
    A shank without a head, cut through its middle.

    Args:
        proud_mm: How far the break stands above the face; negative: below it [mm].
    """
    face, x = 8.0, 9.0
    top = face - proud_mm
    body = _hole(x, face, top + 0.6)
    jag = [
        (x - 2.0, top + 0.6),
        (x - 1.1, top - 0.3),
        (x - 0.2, top + 0.5),
        (x + 0.8, top - 0.4),
        (x + 2.0, top + 0.6),
    ]
    body += filled(profiles.polygon([*jag, (x + 2.0, top + 1.2), (x - 2.0, top + 1.2)]))
    if proud_mm < 0:
        body += line([(x - 2.6, face), (x - 2.6, top + 1)], 0.3)
        body += line([(x + 2.6, face), (x + 2.6, top + 1)], 0.3)
    where = "proud of" if proud_mm > 0 else "flush with" if proud_mm == 0 else "below"
    return svg(18, 18, f"Broken shank {where} the face, cut open", body)


def tool_broken() -> str:
    """A hard extractor broken off in the hole of a broken shank."""
    face, x = 8.0, 9.0
    body = _hole(x, face, face)
    tip = [(x - 1.3, face - 2.6), (x - 0.4, face - 1.8), (x + 0.3, face - 2.8), (x + 1.3, face - 2)]
    body += filled(profiles.polygon([*tip, (x + 0.6, 14), (x - 0.6, 14)]))
    return svg(18, 18, "Extractor broken off in a broken shank, cut open", body)


def spinning() -> str:
    """A bolt whose head turns along without coming out."""
    c = (8.0, 9.0)
    body = outlined(profiles.regular(6, 9, c, 30), 0.35, "#ddd")
    body += outlined(profiles.circle(5, c), 0.2)
    for start in (200, 20):
        a, b = radians(start), radians(start + 120)
        n, r = profiles.number, 7.0
        body += (
            f'<path d="M{n(c[0] + r * cos(a))} {n(c[1] + r * sin(a))}A{r} {r} 0 0 1 '
            f'{n(c[0] + r * cos(b))} {n(c[1] + r * sin(b))}" fill="none" stroke="#000" '
            'stroke-width="0.5"/>'
        )
        tip = (c[0] + r * cos(b), c[1] + r * sin(b))
        way = b + 1.57
        body += filled(
            profiles.polygon(
                [
                    (tip[0] + 1.6 * cos(way), tip[1] + 1.6 * sin(way)),
                    (tip[0] + 1.0 * cos(b), tip[1] + 1.0 * sin(b)),
                    (tip[0] - 1.0 * cos(b), tip[1] - 1.0 * sin(b)),
                ]
            )
        )
    return svg(16, 18, "Hexagon turning round and round", body)


def _bolt(x: float, face: float, out: float = 0.0) -> str:
    """A bolt in its body, its head on the face or so far out of it."""
    return _hole(x, face, face - out) + outlined(
        profiles.rectangle(9, 4.2, (x, face - out - 2.2)), 0.35, "#fff"
    )


def seized() -> str:
    """A bolt with its head on, rust along thread and head."""
    face, x = 8.0, 9.0
    body = _bolt(x, face)
    body += line([(x - 2.2, face - 4.2), (x - 2.2, face - 0.2)], 0.2)
    body += line([(x + 2.2, face - 4.2), (x + 2.2, face - 0.2)], 0.2)
    for dx, dy in [(-3.6, 0.7), (-3.1, 2.6), (-3.3, 4.8), (3.4, 1.4), (3.2, 3.4), (3.5, 5.9)]:
        body += f'<circle cx="{x + dx}" cy="{face + dy}" r="0.45" fill="#000"/>'
    return svg(18, 18, "Bolt with its head on, held along thread and under the head", body)


def tool_stuck(size_mm: float = 11.0) -> str:
    """A bit that sits fast in a recess, broken off level with the head."""
    c = (size_mm / 2 + 2.8, size_mm / 2 + 2.8)
    body = outlined(profiles.circle(size_mm + 5, c), 0.3)
    body += outlined(profiles.regular(6, size_mm * 0.66, c, 30), 0.35, "#000")
    jag = [(-2.6, 0.8), (-1.2, -0.9), (-0.2, 0.7), (1.1, -0.8), (2.6, 0.6)]
    points = " L".join(f"{c[0] + x} {c[1] + y}" for x, y in jag)
    body += f'<path d="M{points}" fill="none" stroke="#fff" stroke-width="0.5"/>'
    return svg(2 * c[0], 2 * c[1], "Bit broken off in a recess, seen along the axis", body)


def galled() -> str:
    """A bolt half way out, metal smeared in its thread."""
    face, x = 11.0, 9.0
    body = _bolt(x, face, out=4.2)
    for y in (face + 0.6, face + 2.1, face + 3.6):
        for way in (-1, 1):
            tooth = [(x + way * 1.6, y), (x + way * 2.9, y + 0.5), (x + way * 1.6, y + 1.2)]
            body += filled(profiles.polygon(tooth))
    return svg(18, 18, "Stainless bolt half way out, its thread smeared", body)


def locked() -> str:
    """A bolt with its head on, adhesive in its thread."""
    face, x = 8.0, 9.0
    body = _bolt(x, face)
    for way in (-1, 1):
        body += filled(profiles.rectangle(0.9, 6.5, (x + way * 2.35, face + 4.6)))
    drop = "M3 11.2c-1.3 1.9 -1.9 2.6 -1.9 3.5a1.9 1.9 0 0 0 3.8 0c0 -0.9 -0.6 -1.6 -1.9 -3.5Z"
    body += filled(drop)
    return svg(18, 18, "Bolt with its head on, adhesive in its thread", body)


def nut_spinning() -> str:
    """A nut that turns on its stud without coming off."""
    head = spinning().partition("</title>")[2].removesuffix("</svg>")
    body = head + filled(profiles.circle(4.4, (8.0, 9.0)))
    return svg(16, 18, "Nut turning round and round on its stud", body)


def tube_nut_rounded(size_mm: float = 11.0) -> str:
    """A tube nut whose corners are gone, its tube through it."""
    return _cornerless(
        size_mm,
        "Tube nut with its corners gone, tube in it",
        lambda c: outlined(profiles.circle(4.8, c), 0.9, "#fff"),
    )


def _arrow(a: profiles.Point, b: profiles.Point) -> str:
    """A dimension line with a solid head at both ends."""
    out = line([a, b], 0.2)
    for tip, other in ((a, b), (b, a)):
        way = atan2(other[1] - tip[1], other[0] - tip[0])
        out += filled(
            profiles.polygon(
                [
                    tip,
                    (tip[0] + 1.5 * cos(way + 0.3), tip[1] + 1.5 * sin(way + 0.3)),
                    (tip[0] + 1.5 * cos(way - 0.3), tip[1] + 1.5 * sin(way - 0.3)),
                ]
            )
        )
    return out


def _swing(deg: float, centre: profiles.Point, face: float) -> str:
    """The arc of a handle about a hexagon, and below it how wide it is."""
    (cx, cy), r, n = centre, 6.0, profiles.number
    half = radians(min(deg, 359.0) / 2)
    a = (cx + r * sin(-half), cy - r * cos(half))
    b = (cx + r * sin(half), cy - r * cos(half))
    body = outlined(profiles.regular(6, 2.4, centre), 0.2, "#ddd") + line([a, centre, b], 0.2)
    body += (
        f'<path d="M{n(a[0])} {n(a[1])}A{r} {r} 0 {1 if deg > 180 else 0} 1 '
        f'{n(b[0])} {n(b[1])}" fill="none" stroke="#000" stroke-width="0.35"/>'
    )
    return body + label(cx, face + 0.6, f"{deg:g}°", 5.0, bold=True)


def room(above_mm: float | None, beside_mm: float | None, swing_deg: float | None) -> str:
    """
    The room a tool needs: height over the head, gap beside it, arc of its handle.

    The picture is not to scale; its numbers are. None: that axis does not matter.

    Args:
        above_mm: Free height over the head [mm].
        beside_mm: Free gap beside the head [mm].
        swing_deg: Free arc of the handle in its own plane [deg].
    """
    width, face, x, wall = 35.0, 17.0, 8.0, 21.0
    body = _ground(0.3, wall + 0.4, face, 1.6)
    body += outlined(profiles.rectangle(6, 3, (x, face - 1.5)), 0.35, "#ddd")
    if above_mm is not None:
        body += line([(x - 6.5, 0.5), (x + 6.5, 0.5)], 0.5)
        body += _arrow((x, 0.8), (x, face - 3.2))
        body += label(x + 0.9, 7.2, f"{above_mm:g}", 5.0, "start", bold=True)
        body += label(x + 0.9, 9.8, "mm", 2.2, "start")
    if beside_mm is not None:
        body += line([(wall, face), (wall, face - 5)], 0.5)
        body += _arrow((x + 3.2, face - 1.3), (wall - 0.3, face - 1.3))
        body += label((x + 3 + wall) / 2, face - 2.3, f"{beside_mm:g}", 5.0, bold=True)
    if swing_deg:
        body += _swing(swing_deg, (28.6, 7.4), face)
    words = ", ".join(
        f"{value:g} {unit} {axis}"
        for value, unit, axis in (
            (above_mm, "mm", "above"),
            (beside_mm, "mm", "beside"),
            (swing_deg, "degrees", "swing"),
        )
        if value is not None
    )
    return svg(width, face + 1.7, f"Room needed: {words or 'none named'}", body)
