"""The face that head or nut bears on: its diameters, its pressure."""

from math import pi

from fastkit.mechanics.bounds import positive, within

# ISO 286-1, Table 1: upper end of the size range, IT13, IT14, IT15, IT16 [mm]
IT = (
    (3.0, 0.14, 0.25, 0.40, 0.60),
    (6.0, 0.18, 0.30, 0.48, 0.75),
    (10.0, 0.22, 0.36, 0.58, 0.90),
    (18.0, 0.27, 0.43, 0.70, 1.10),
    (30.0, 0.33, 0.52, 0.84, 1.30),
    (50.0, 0.39, 0.62, 1.00, 1.60),
    (80.0, 0.46, 0.74, 1.20, 1.90),
    (120.0, 0.54, 0.87, 1.40, 2.20),
)


def mean_bearing_diameter(d_w_mm: float, d_h_mm: float) -> float:
    """
    Mean diameter of the ring that the head bears on, D_km = (d_w + d_h)/2.

    Args:
        d_w_mm: Outside diameter of the bearing face d_w [mm], > 0.
        d_h_mm: Diameter of the hole d_h [mm], > 0 and below d_w.

    Returns:
        Mean bearing diameter D_km [mm].

    Raises:
        ValueError: When an argument is not positive, or the hole not below the bearing face.

    References:
        1. VDI 2230-1:2015, symbol DKm and Table A1.

    >>> mean_bearing_diameter(11.7, 9.0)
    10.35
    """
    _ring(d_w_mm, d_h_mm)
    return (d_w_mm + d_h_mm) / 2


def _ring(d_w_mm: float, d_h_mm: float) -> None:
    positive(d_w_mm, "d_w_mm")
    positive(d_h_mm, "d_h_mm")
    if not d_h_mm < d_w_mm:
        raise ValueError(f"d_h_mm must be < d_w_mm {d_w_mm:g}, got {d_h_mm!r}")


def bearing_pressure(preload_n: float, d_w_mm: float, d_h_mm: float) -> float:
    """
    Pressure under head, nut or washer, p = F/(pi/4 (d_w^2 - d_h^2)).

    Args:
        preload_n: Force F [N], >= 0.
        d_w_mm: Outside diameter of the bearing face d_w [mm], > 0.
        d_h_mm: Diameter of the hole d_h [mm], > 0 and below d_w.

    Returns:
        Pressure p [MPa].

    Raises:
        ValueError: When an argument is out of its range, or the hole not below the bearing face.

    References:
        1. VDI 2230-1:2015, eq. (R10/1), flat bearing face.

    >>> round(bearing_pressure(18600, 11.7, 9.0))
    424
    """
    within(preload_n, "preload_n", 0.0, float("inf"))
    _ring(d_w_mm, d_h_mm)
    return preload_n / (pi / 4 * (d_w_mm**2 - d_h_mm**2))


def hexagon_bearing_diameter(across_flats_mm: float) -> float:
    """
    Least bearing diameter of a hexagon head or nut, from its across-flats size.

    d_w = s_min - IT16 below 21 mm, 0.95 s_min from there. Product grade A up to 36 mm across flats
    (M24): s_min = s - IT13 up to 30 mm, s - IT14 above; grade B from there: s - IT15 up to 60 mm,
    s - IT16 above.

    Args:
        across_flats_mm: Nominal width across flats s [mm], 3..120.

    Returns:
        Bearing diameter d_w,min [mm].

    Raises:
        ValueError: When *across_flats_mm* is out of range.

    References:
        1. ISO 4759-1:2000, across flats and bearing face of product grades A and B.
        2. ISO 286-1:2010, Table 1, standard tolerance IT13 to IT16.

    >>> round(hexagon_bearing_diameter(13.0), 2), round(hexagon_bearing_diameter(24.0), 2)
    (11.63, 22.49)
    """
    s = within(across_flats_mm, "across_flats_mm", 3.0, 120.0)
    it13, it14, it15, it16 = next(row[1:] for row in IT if s <= row[0])
    tolerance = (it13 if s <= 30 else it14) if s <= 36 else (it15 if s <= 60 else it16)
    s_min = s - tolerance
    return 0.95 * s_min if s >= 21 else s_min - it16
