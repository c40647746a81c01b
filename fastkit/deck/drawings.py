"""Drawings as self-contained SVG, true to scale in mm: rulers, silhouettes, combs, outlines."""

from collections.abc import Iterable, Sequence
from html import escape
from typing import NamedTuple

from fastkit.deck import profiles
from fastkit.deck.card import clean

NUMERAL_MM = 4.95
"""Type size of a drawing's main figures, 14 pt."""

ID1_WIDTH_MM, ID1_HEIGHT_MM, ID1_RADIUS_MM = 85.60, 53.98, 3.18
"""Card size ID-1 of ISO/IEC 7810: the everyday object that proves a print's scale."""


class Shape(NamedTuple):
    """A silhouette: its outline about (0, 0) as a function of the centre, its box, its name."""

    name: str
    below: str
    width_mm: float
    height_mm: float
    path: str
    extra: str = ""


def svg(width_mm: float, height_mm: float, title: str, body: str) -> str:
    """
    A drawing with one user unit to the millimetre.

    Args:
        width_mm: Width on paper [mm].
        height_mm: Height on paper [mm].
        title: What it shows, for those who cannot see it.
        body: Markup made by this package.
    """
    w, h = profiles.number(width_mm), profiles.number(height_mm)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{w}mm" height="{h}mm" '
        f'viewBox="0 0 {w} {h}"><title>{escape(title)}</title>{body}</svg>'
    )


def placed(drawing: str, x: float, y: float, box_mm: float) -> str:
    """
    A drawing made smaller or larger inside another one, fitted into a square.

    Args:
        drawing: A drawing as `svg` makes it.
        x: Left edge of the square [mm].
        y: Upper edge of the square [mm].
        box_mm: Side of the square [mm].
    """
    view, _, rest = drawing.partition('viewBox="0 0 ')[2].partition('">')
    wide, high = map(float, view.split())
    scale = box_mm / max(wide, high)
    left, top = x + (box_mm - wide * scale) / 2, y + (box_mm - high * scale) / 2
    body = rest.partition("</title>")[2].removesuffix("</svg>")
    n = profiles.number
    return f'<g transform="translate({n(left)} {n(top)}) scale({n(scale)})">{body}</g>'


def label(
    x: float, y: float, text: str, size_mm: float = 2.2, anchor: str = "middle", bold: bool = False
) -> str:
    """
    Text in a drawing.

    Args:
        x: Anchor [mm].
        y: Base line [mm].
        text: Plain text; it is escaped here.
        size_mm: Type size [mm].
        anchor: start, middle or end.
        bold: Heavy weight.
    """
    weight = ' font-weight="700"' if bold else ""
    return (
        f'<text x="{profiles.number(x)}" y="{profiles.number(y)}" font-family="Hyperlegible" '
        f'font-size="{profiles.number(size_mm)}" text-anchor="{anchor}"{weight}>'
        f"{escape(clean(text, 60))}</text>"
    )


def line(points: Iterable[profiles.Point], width_mm: float = 0.2, dash: str = "") -> str:
    """
    An open stroke through points.

    Args:
        points: Corners [mm].
        width_mm: Stroke width [mm].
        dash: Dash pattern, empty for a solid stroke.
    """
    path = "M" + "L".join(f"{profiles.number(x)} {profiles.number(y)}" for x, y in points)
    dashed = f' stroke-dasharray="{dash}"' if dash else ""
    return f'<path d="{path}" fill="none" stroke="#000" stroke-width="{width_mm}"{dashed}/>'


def filled(path: str) -> str:
    """A solid silhouette."""
    return f'<path d="{path}" fill="#000"/>'


def outlined(path: str, width_mm: float = 0.2, fill: str = "none") -> str:
    """
    An outline whose stroke lies centred on the path.

    Args:
        path: Path data.
        width_mm: Stroke width [mm].
        fill: Paint inside.
    """
    return f'<path d="{path}" fill="{fill}" stroke="#000" stroke-width="{width_mm}"/>'


def ruler(length_mm: int) -> str:
    """
    Upright ruler: a tick each millimetre, figures each ten, zero at the top.

    Args:
        length_mm: Length [mm].
    """
    ticks = {10: 2.6, 5: 1.7, 1: 1.1}
    path = "".join(  # one path for all: a drawing of seventy is slow to lay out
        f"M0 {y + 0.5}H{next(long for step, long in ticks.items() if y % step == 0)}"
        for y in range(length_mm + 1)
    )
    body = f'<path d="{path}" fill="none" stroke="#000" stroke-width="0.25"/>'
    body += "".join(label(3.1, y + 2.3, str(y), 1.6, "end") for y in range(0, length_mm, 10))
    return svg(3.1, length_mm + 1, f"Ruler, {length_mm} mm", body)


def scale_bar(length_mm: float, upright: bool = False, step_mm: float = 10.0) -> str:
    """
    Scale bar of dark and light blocks in a fine frame.

    Args:
        length_mm: Distance between the outer edges of the bar [mm].
        upright: Drawn along the sheet's height.
        step_mm: Length of a block [mm].
    """
    blocks, x, dark = [], 0.0, True
    while x < length_mm - 1e-9:
        step = min(step_mm, length_mm - x)
        box = (1.0, x, 1.6, step) if upright else (x, 1.0, step, 1.6)
        n = [profiles.number(v) for v in box]
        fill = "#000" if dark else "#fff"
        blocks.append(f'<rect x="{n[0]}" y="{n[1]}" width="{n[2]}" height="{n[3]}" fill="{fill}"/>')
        x, dark = x + step, not dark
    edge = [(1.0, 0.0), (2.6, 0.0), (2.6, length_mm), (1.0, length_mm)]
    path = profiles.polygon(edge if upright else [(b, a) for a, b in edge])
    # stroke outside the measured edge: the bar's ends are the fill's ends
    body = "".join(blocks) + outlined(path, 0.08)
    size = (3.6, length_mm) if upright else (length_mm, 3.6)
    return svg(*size, f"Scale bar, {length_mm:g} mm", body)


def id1_outline() -> str:
    """Upright outline of an ID-1 card, the line's middle on the card's edge."""
    w, h, r = ID1_HEIGHT_MM, ID1_WIDTH_MM, ID1_RADIUS_MM
    n = profiles.number
    rect = (
        f'<rect x="0.2" y="0.2" width="{n(w)}" height="{n(h)}" rx="{n(r)}" '
        'fill="none" stroke="#000" stroke-width="0.15"/>'
    )
    return svg(w + 0.4, h + 0.4, f"Outline of an ID-1 card, {w} by {h:.2f} mm", rect)


def _cell(shape: Shape, text_mm: float) -> float:
    """Width that a silhouette takes with its name and the figure below [mm]."""
    ems = sum(
        {"M": 0.92, "S": 0.66, "Q": 0.78, "/": 0.5, ".": 0.34}.get(c, 0.62) for c in shape.name
    )
    return max(shape.width_mm, ems * text_mm, 0.5 * 1.9 * len(shape.below))


def sheet_of(
    shapes: Sequence[Shape],
    width_mm: float,
    title: str,
    gap_mm: float = 1.3,
    text_mm: float = NUMERAL_MM,
) -> str:
    """
    Silhouettes in rows, each with its name above and a figure below, as many a row as fit.

    Args:
        shapes: What to lay out, in order.
        width_mm: Width to fill [mm].
        title: What the drawing shows.
        gap_mm: Least gap between neighbours [mm].
        text_mm: Type size of the names [mm].
    """
    rows: list[list[Shape]] = [[]]
    used = 0.0
    for shape in shapes:
        cell = _cell(shape, text_mm)
        if rows[-1] and used + gap_mm + cell > width_mm:
            rows.append([])
            used = 0.0
        used += (gap_mm if rows[-1] else 0.0) + cell
        rows[-1].append(shape)
    body, y = "", 0.0
    for row in rows:
        cells = [_cell(s, text_mm) for s in row]
        space = (width_mm - sum(cells)) / len(row)
        tall = max(s.height_mm for s in row)
        x = 0.0
        for shape, cell in zip(row, cells, strict=True):
            cx, cy = x + (cell + space) / 2, y + text_mm + 0.7 + tall / 2
            body += label(cx, y + text_mm * 0.8, shape.name, text_mm, bold=True)
            place = f"translate({profiles.number(cx)} {profiles.number(cy)})"
            body += f'<g transform="{place}">{filled(shape.path)}{shape.extra}</g>'
            if shape.below:
                body += label(cx, cy + tall / 2 + 2.2, shape.below, 1.9)
            x += cell + space
        y += text_mm + 0.7 + tall + (2.6 if any(s.below for s in row) else 0.4) + 0.8
    return svg(width_mm, y, title, body)


def combs(rows: Sequence[tuple[str, str, float]], width_mm: float, title: str) -> str:
    """
    Pitch combs one below the other: name left, teeth, a word right.

    Args:
        rows: Name, word, pitch [mm] each.
        width_mm: Width to fill [mm].
        title: What the drawing shows.
    """
    body, y, left, right = "", 0.0, 11.6, 10.5
    for name, word, pitch in rows:
        y += max(pitch * 0.5413 + 1.9, 3.6)
        body += filled(profiles.comb(pitch, width_mm - left - right, (left, y), 1.0))
        body += label(left - 0.8, y, name, NUMERAL_MM, "end", bold=True)
        body += label(width_mm, y - 0.2, word, 2.3, "end")
        y += 1.5
    return svg(width_mm, y, title, body)


def blades(rows: Sequence[tuple[float, float, str]], width_mm: float, title: str) -> str:
    """
    Blades end on, one below the other: thickness left, the blade, a word right.

    Args:
        rows: Width [mm], thickness [mm], word each.
        width_mm: Width to fill [mm].
        title: What the drawing shows.
    """
    body, y, left, tall = "", 0.0, 11.6, 5.3
    for wide, thick, word in rows:
        body += filled(profiles.rectangle(wide, thick, (left + wide / 2, y + tall / 2)))
        body += label(left - 1.4, y + tall / 2 + 1.7, f"{thick:g}", NUMERAL_MM, "end", bold=True)
        body += label(width_mm, y + tall / 2 + 0.9, word, 2.5, "end")
        y += tall
    return svg(width_mm, y, title, body)


def stairs(steps: Sequence[tuple[str, str, float]], width_mm: float, title: str) -> str:
    """
    Steps one below the other about one middle line, each as wide as its number.

    Args:
        steps: Name, word, width [mm] each, from narrow to wide.
        width_mm: Width to fill [mm].
        title: What the drawing shows.
    """
    body, y, tall = "", 0.0, 3.9
    for k, (name, word, wide) in enumerate(steps):
        body += filled(profiles.rectangle(wide, tall, (width_mm / 2, y + tall / 2)))
        size = 3.6 if "/" in name else NUMERAL_MM  # fractions are high and wide
        body += label(12.8, y + tall - 0.4, name, size, "end", bold=True)
        body += label(width_mm, y + tall - 0.9, word, 2.3, "end")
        if k:  # a hair between steps, so that equal neighbours do not run together
            edge = [((width_mm - wide) / 2, y), ((width_mm + wide) / 2, y)]
            body += f'<g stroke="#fff">{line(edge, 0.12).replace("#000", "#fff")}</g>'
        y += tall
    return svg(width_mm, y, title, body)


def rings(sizes: Sequence[tuple[str, float]], width_mm: float) -> str:
    """
    Rings whose inner edge is as wide as a number, with name and number inside.

    Args:
        sizes: Name and inner diameter [mm] each.
        width_mm: Width to fill [mm].
    """
    wall, gap, letters = 0.5, 1.0, 5.8
    rows: list[list[tuple[str, float]]] = [[]]
    for name, inner in sizes:
        used = sum(max(d + 2 * wall, letters) + gap for _, d in rows[-1])
        if rows[-1] and used + max(inner + 2 * wall, letters) > width_mm:
            rows.append([])
        rows[-1].append((name, inner))
    body, y = "", 0.0
    for row in rows:
        tall = max(d for _, d in row) + 2 * wall
        space = (width_mm - sum(max(d + 2 * wall, letters) for _, d in row)) / len(row)
        x = space / 2
        for name, inner in row:
            cx, cy, r = x + max(inner + 2 * wall, letters) / 2, y + 4.8 + tall / 2, inner / 2
            body += outlined(profiles.circle(inner + wall, (cx, cy)), wall)
            body += label(cx, cy - tall / 2 - 0.7, name, NUMERAL_MM, bold=True)
            if inner > 7.2:
                body += label(cx, cy + 0.9, f"{inner:g}", min(2.6, r * 0.6))
            else:
                body += label(cx, cy + r + 3.2, f"{inner:g}", 2.2)
            x += max(inner + 2 * wall, letters) + space
        y += tall + 4.8 + (2.8 if min(d for _, d in row) <= 7.2 else 1.0)
    return svg(width_mm, y, "Rings, true to scale inside", body)


def recognition(system: str) -> str:
    """Face of a screw with a cross recess, enlarged: rays between the wings tell Z from H."""
    centre = (8.0, 8.0)
    body = outlined(profiles.circle(15, centre), 0.3)
    body += filled(profiles.cross(9, 2.4, centre)) + filled(profiles.regular(4, 3.2, centre))
    if system == "cross-z":
        for x, y in ((1, 1), (1, -1), (-1, 1), (-1, -1)):
            body += line([(8 + 1.6 * x, 8 + 1.6 * y), (8 + 3.6 * x, 8 + 3.6 * y)], 0.3)
    name = "Z" if system == "cross-z" else "H"
    body += label(19.5, 10, name, 6, bold=True)
    return svg(23, 16, f"Cross recess {name}, enlarged", body)
