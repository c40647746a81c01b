"""Outlines true to scale as SVG path data, in mm, y downwards, from the data's dimensions."""

from math import cos, pi, radians, sin, sqrt, tan

TIP_RADIUS = 0.08
"""Tip radius of a hexalobular outline over A: mean of the radii that BOSL2 carries per size."""

Point = tuple[float, float]


def number(value: float) -> str:
    """A coordinate with a ten-thousandth of a millimetre, without trailing zeros."""
    return f"{value + 0.0:.4f}".rstrip("0").rstrip(".") or "0"


def polygon(points: list[Point]) -> str:
    """Closed path through points."""
    return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points) + "Z"


def regular(sides: int, across_flats_mm: float, centre: Point, turn_deg: float = 0.0) -> str:
    """
    Regular polygon by its across-flats dimension.

    Args:
        sides: 4 for a square, 6 for a hexagon.
        across_flats_mm: Distance between opposite flats [mm].
        centre: Centre [mm].
        turn_deg: Turn from corner pointing right [deg].
    """
    radius = across_flats_mm / 2 / cos(pi / sides)
    return polygon(
        [
            (
                centre[0] + radius * cos(radians(turn_deg) + 2 * pi * k / sides),
                centre[1] + radius * sin(radians(turn_deg) + 2 * pi * k / sides),
            )
            for k in range(sides)
        ]
    )


def valley_radius(a_mm: float, b_mm: float, tip_mm: float) -> float:
    """
    Radius of the valleys of a hexalobular outline whose arcs run into each other smoothly.

    A tip circle of radius Re is centred on a lobe's axis at p = A/2 - Re, a valley circle of
    radius Ri 30 degrees on at B/2 + Ri; they touch where the centres are Re + Ri apart, which is
    linear in Ri.

    Args:
        a_mm: A, across the lobes [mm].
        b_mm: B, across the valleys [mm].
        tip_mm: Re, tip radius [mm].
    """
    p, q = a_mm / 2 - tip_mm, b_mm / 2
    return (tip_mm**2 - p**2 - q**2 + sqrt(3) * p * q) / (2 * q - sqrt(3) * p - 2 * tip_mm)


def hexalobular(a_mm: float, b_mm: float, centre: Point) -> str:
    """
    Hexalobular outline of twelve arcs through A and B (ISO 10664, Table 1).

    Args:
        a_mm: A, across the lobes [mm].
        b_mm: B, across the valleys [mm].
        centre: Centre [mm].
    """
    tip = TIP_RADIUS * a_mm
    valley = valley_radius(a_mm, b_mm, tip)
    p, v = a_mm / 2 - tip, b_mm / 2 + valley
    cx, cy = centre
    out = []
    for k in range(6):
        axis = radians(60 * k)
        for side in (-1, 1):
            toward = axis + side * pi / 6
            x, y = p * cos(axis), p * sin(axis)
            dx, dy = v * cos(toward) - x, v * sin(toward) - y
            share = tip / (tip + valley)
            point = f"{number(cx + x + dx * share)} {number(cy + y + dy * share)}"
            if side < 0:
                arc = f"A{number(valley)} {number(valley)} 0 0 0 "
                out.append((arc if k else "M") + point)
            else:
                out.append(f"A{number(tip)} {number(tip)} 0 0 1 {point}")
    start = out[0][1:]
    return "".join(out) + f"A{number(valley)} {number(valley)} 0 0 0 {start}Z"


def cross(span_mm: float, wing_mm: float, centre: Point) -> str:
    """
    Four wings, seen along the axis (ISO 4757).

    Args:
        span_mm: From wing tip to opposite wing tip [mm].
        wing_mm: Width of a wing [mm].
        centre: Centre [mm].
    """
    s, w = span_mm / 2, wing_mm / 2
    corners = [
        (s, -w),
        (s, w),
        (w, w),
        (w, s),
        (-w, s),
        (-w, w),
        (-s, w),
        (-s, -w),
        (-w, -w),
        (-w, -s),
        (w, -s),
        (w, -w),
    ]
    return polygon([(centre[0] + x, centre[1] + y) for x, y in corners])


def rectangle(width_mm: float, height_mm: float, centre: Point) -> str:
    """
    Rectangle about a centre: a blade seen end on.

    Args:
        width_mm: Width [mm].
        height_mm: Height [mm].
        centre: Centre [mm].
    """
    w, h = width_mm / 2, height_mm / 2
    corners = [(-w, -h), (w, -h), (w, h), (-w, h)]
    return polygon([(centre[0] + x, centre[1] + y) for x, y in corners])


def circle(diameter_mm: float, centre: Point) -> str:
    """
    Circle of two arcs.

    Args:
        diameter_mm: Diameter [mm].
        centre: Centre [mm].
    """
    r, d = number(diameter_mm / 2), number(diameter_mm)
    left, y = number(centre[0] - diameter_mm / 2), number(centre[1])
    return f"M{left} {y}a{r} {r} 0 1 0 {d} 0a{r} {r} 0 1 0 -{d} 0Z"


def comb(
    pitch_mm: float, length_mm: float, corner: Point, back_mm: float, flank_angle_deg: float = 60.0
) -> str:
    """
    Comb of whole teeth with the basic profile of ISO 68-1, teeth upwards.

    Crests are P/8 and roots P/4 wide; between them flanks at half the flank angle.

    Args:
        pitch_mm: Pitch P [mm].
        length_mm: Most length taken [mm].
        corner: Lower left corner [mm].
        back_mm: Height of the solid back below the roots [mm].
        flank_angle_deg: Angle between the flanks [deg].
    """
    x0, y0 = corner
    flank = pitch_mm * (1 - 1 / 8 - 1 / 4) / 2
    depth = flank / tan(radians(flank_angle_deg / 2))
    root, crest = y0 - back_mm, y0 - back_mm - depth
    points = [(x0, y0)]
    teeth = int(length_mm / pitch_mm + 1e-9)
    for k in range(teeth):
        x = x0 + k * pitch_mm
        points += [
            (x, root),
            (x + pitch_mm / 8, root),
            (x + pitch_mm / 8 + flank, crest),
            (x + pitch_mm / 4 + flank, crest),
            (x + pitch_mm / 4 + 2 * flank, root),
        ]
    end = x0 + teeth * pitch_mm
    return polygon([*points, (end, root), (end, y0)])


def star(across_points_mm: float, centre: Point) -> str:
    """
    Three squares turned by 30 degrees about one middle: twelve points of 90 degrees.

    Args:
        across_points_mm: Diagonal of each square [mm].
        centre: Centre [mm].
    """
    outer = across_points_mm / 2
    inner = outer * cos(pi / 4) / cos(pi / 4 - pi / 12)  # where two squares' sides cross
    return polygon(
        [
            (
                centre[0] + radius * cos(pi / 12 * k),
                centre[1] + radius * sin(pi / 12 * k),
            )
            for k in range(24)
            for radius in ((outer, inner)[k % 2],)
        ]
    )


def softened(corners: int, across_flats_mm: float, centre: Point, share: float) -> str:
    """
    Regular polygon whose corners are worn round.

    Args:
        corners: Number of corners.
        across_flats_mm: Distance between opposite flats [mm].
        centre: Centre [mm].
        share: Part of each side worn away from each end, 0 to 0.5 [-].
    """
    radius = across_flats_mm / 2 / cos(pi / corners)
    points = [
        (
            centre[0] + radius * cos(2 * pi * k / corners + pi / 6),
            centre[1] + radius * sin(2 * pi * k / corners + pi / 6),
        )
        for k in range(corners)
    ]
    out = []
    for k, (x, y) in enumerate(points):
        (px, py), (nx, ny) = points[k - 1], points[(k + 1) % corners]
        a = f"{number(x + (px - x) * share)} {number(y + (py - y) * share)}"
        b = f"{number(x + (nx - x) * share)} {number(y + (ny - y) * share)}"
        out.append(f"{'L' if k else 'M'}{a}Q{number(x)} {number(y)} {b}")
    return "".join(out) + "Z"
