"""Steps that a printed table takes together: formulas chained as its publication chains them."""

from math import pi

from fastkit.mechanics.bearing import hexagon_bearing_diameter, mean_bearing_diameter
from fastkit.mechanics.elastic import (
    bar_stiffness,
    elongation,
    frustum_stiffness,
    in_series,
    load_share,
    preload_by_angle,
)
from fastkit.mechanics.heat import expansion, preload_by_heat, press_compliance
from fastkit.mechanics.nut_factor import proof_preload, torque_by_nut_factor
from fastkit.mechanics.screw import collar_torque, screw_torque
from fastkit.mechanics.strength import hollow_shaft_torque, round_bar_torque
from fastkit.mechanics.thread import (
    pitch_diameter,
    stress_area,
    stress_diameter,
    unified_stress_area,
)
from fastkit.mechanics.tightening import preload_at_utilisation, torque
from fastkit.mechanics.tolerance import (
    iso_external,
    iso_internal,
    unified_external,
    unified_internal,
)
from fastkit.mechanics.tolerance_classes import (
    iso_external_class,
    iso_internal_class,
    unified_external_class,
    unified_internal_class,
)
from fastkit.mechanics.wrench import bar_twist, wrench_setting


def ultimate_load(d_mm: float, pitch_mm: float, tensile_mpa: float) -> float:
    """Stress area rounded to three figures, as ISO 898-1 prints it, times Rm [N]."""
    return float(f"{stress_area(d_mm, pitch_mm):.3g}") * tensile_mpa


def vdi_preload(d_mm: float, pitch_mm: float, yield_mpa: float, mu: float) -> float:
    """Preload at 90 % of yield [N]."""
    d_s = stress_diameter(stress_area(d_mm, pitch_mm))
    return preload_at_utilisation(yield_mpa, 0.9, d_s, pitch_mm, pitch_diameter(d_mm, pitch_mm), mu)


def vdi_torque(
    d_mm: float,
    pitch_mm: float,
    yield_mpa: float,
    mu: float,
    across_flats_mm: float,
    hole_mm: float,
) -> float:
    """Torque at that preload, hexagon head on a hole [N·mm]."""
    d_km = mean_bearing_diameter(hexagon_bearing_diameter(across_flats_mm), hole_mm)
    preload = vdi_preload(d_mm, pitch_mm, yield_mpa, mu)
    return torque(preload, pitch_mm, pitch_diameter(d_mm, pitch_mm), d_km, mu, mu)


def proof_torque(proof_mpa: float, area_mm2: float, share: float, k: float, d_mm: float) -> float:
    """T = K d F with F a share of the proof load."""
    return torque_by_nut_factor(k, d_mm, proof_preload(proof_mpa, area_mm2, share))


def screw_with_collar(
    load_n: float,
    lead_mm: float,
    d2_mm: float,
    mu_thread: float,
    flank_half_angle_deg: float,
    d_km_mm: float,
    mu_head: float,
) -> float:
    """Torque that raises the load, collar included."""
    thread = screw_torque(load_n, lead_mm, d2_mm, mu_thread, flank_half_angle_deg)
    return thread + collar_torque(load_n, d_km_mm, mu_head)


def screw_lowering(
    load_n: float,
    lead_mm: float,
    d2_mm: float,
    mu_thread: float,
    flank_half_angle_deg: float,
    d_km_mm: float,
    mu_head: float,
) -> float:
    """Torque that lowers the load, collar included."""
    thread = screw_torque(load_n, lead_mm, d2_mm, mu_thread, flank_half_angle_deg, lowering=True)
    return thread + collar_torque(load_n, d_km_mm, mu_head)


def force_at_lever(
    load_n: float, lead_mm: float, d2_mm: float, mu_thread: float, lever_mm: float
) -> float:
    """Force at the end of a lever that raises a square thread's load."""
    return screw_torque(load_n, lead_mm, d2_mm, mu_thread, 0.0) / lever_mm


def force_to_lower(
    load_n: float, lead_mm: float, d2_mm: float, mu_thread: float, lever_mm: float
) -> float:
    """Force at the end of a lever that lowers it."""
    return screw_torque(load_n, lead_mm, d2_mm, mu_thread, 0.0, lowering=True) / lever_mm


def load_of_couple(torque_nmm: float, lead_mm: float, d2_mm: float, mu_thread: float) -> float:
    """Axial load that a torque on a square thread gives."""
    return torque_nmm / screw_torque(1.0, lead_mm, d2_mm, mu_thread, 0.0)


def hollow_over_solid(bore_share: float) -> float:
    """Torque of a hollow shaft over that of the solid one."""
    return hollow_shaft_torque(1.0, bore_share, 1.0) / round_bar_torque(1.0, 1.0)


def solid_over_hollow(bore_share: float) -> float:
    """Stress of the hollow shaft over that of the solid one at the same torque."""
    return 1 / hollow_over_solid(bore_share)


def shaft_stress(d_mm: float, power_kw: float, rpm: float) -> float:
    """Shear stress of a solid shaft that carries a power [MPa]."""
    return power_kw * 1e6 / (2 * pi * rpm / 60) / round_bar_torque(d_mm, 1.0)


def bore_of_equal_torque(solid_mm: float, outer_mm: float) -> float:
    """Bore of the hollow shaft that carries what the solid one does, by halving [mm]."""
    low, high = 0.0, outer_mm
    for _ in range(60):
        middle = (low + high) / 2
        if hollow_shaft_torque(outer_mm, middle, 1.0) > round_bar_torque(solid_mm, 1.0):
            low = middle
        else:
            high = middle
    return low


def unified_external_limit(
    limit: str, d_mm: float, pitch_mm: float, engaged_pitches: float | None = None
) -> float:
    """One limit of class 2A [mm]."""
    return float(getattr(unified_external(d_mm, pitch_mm, engaged_pitches), limit))


def unified_internal_limit(
    limit: str, d_mm: float, pitch_mm: float, engaged_pitches: float | None = None
) -> float:
    """One limit of class 2B [mm]."""
    return float(getattr(unified_internal(d_mm, pitch_mm, engaged_pitches), limit))


def unified_major_tolerance(pitch_mm: float) -> float:
    """Tolerance of the major diameter, class 2A, the same for every diameter [mm]."""
    limits = unified_external(25.4, pitch_mm)
    return limits.d_max - limits.d_min


def iso_external_limit(limit: str, d_mm: float, pitch_mm: float) -> float:
    """One limit of class 6g [mm]."""
    return float(getattr(iso_external(d_mm, pitch_mm), limit))


def iso_internal_limit(limit: str, d_mm: float, pitch_mm: float) -> float:
    """One limit of class 6H [mm]."""
    return float(getattr(iso_internal(d_mm, pitch_mm), limit))


def pitch_deviation(limit: str, d_mm: float, pitch_mm: float) -> float:
    """A limit of the pitch diameter, 6H or 6g, off the basic one [mm]."""
    external, internal = iso_external(d_mm, pitch_mm), iso_internal(d_mm, pitch_mm)
    chosen = {
        "nut_upper": internal.d2_max,
        "bolt_upper": external.d2_max,
        "bolt_lower": external.d2_min,
    }[limit]
    return chosen - pitch_diameter(d_mm, pitch_mm)


def iso_class_limit(limit: str, d_mm: float, pitch_mm: float, name: str) -> float:
    """One limit of any ISO class; a capital letter means an internal thread [mm]."""
    of_class = iso_internal_class if name[-1].isupper() else iso_external_class
    return float(getattr(of_class(d_mm, pitch_mm, name), limit))


def unified_class_limit(
    limit: str, d_mm: float, pitch_mm: float, engaged_pitches: float, name: str
) -> float:
    """One limit of any Unified class; engagement 0 stands for one diameter [mm]."""
    of_class = unified_internal_class if name[-1] == "B" else unified_external_class
    return float(getattr(of_class(d_mm, pitch_mm, name, engaged_pitches or None), limit))


def area_for_load(
    preload_n: float, load_n: float, bolt_n_mm: float, parts_n_mm: float, permissible_mpa: float
) -> float:
    """Area that a preloaded bolt needs under an outer load [mm^2]."""
    return (preload_n + load_share(bolt_n_mm, parts_n_mm) * load_n) / permissible_mpa


def stress_by_advance(
    advance_mm: float,
    length_mm: float,
    bolt_mm2: float,
    bolt_mpa: float,
    tube_mm2: float,
    tube_mpa: float,
) -> float:
    """Stress of a bolt in a tube when its nut is advanced, from the angle that does so [MPa]."""
    compliance = 1 / bar_stiffness(bolt_mpa, bolt_mm2, length_mm)
    compliance += 1 / bar_stiffness(tube_mpa, tube_mm2, length_mm)
    return preload_by_angle(360.0, advance_mm, compliance) / bolt_mm2


def radial_allowance(
    pressure_mpa: float, joint_mm: float, bore_mm: float, outside_mm: float, modulus_mpa: float
) -> float:
    """Interference on the radius that a shrink pressure takes, one material [mm]."""
    return (
        pressure_mpa * press_compliance(joint_mm, bore_mm, outside_mm, modulus_mpa, modulus_mpa) / 2
    )


def adapter_gain_pct(adapter_share: float, angle_deg: float) -> float:
    """How much more than its scale a wrench gives behind an adapter [%]."""
    return 100 * (1 / wrench_setting(1.0, 1.0, adapter_share, angle_deg) - 1)


def load_of_torque(
    torque_nmm: float,
    lead_mm: float,
    d2_mm: float,
    mu_thread: float,
    d_km_mm: float,
    mu_head: float,
) -> float:
    """Load that a torque gives on a square thread with a collar [N]."""
    return torque_nmm / screw_with_collar(1.0, lead_mm, d2_mm, mu_thread, 0.0, d_km_mm, mu_head)


def differential_load(
    torque_nmm: float,
    lead_mm: float,
    d2_mm: float,
    other_lead_mm: float,
    other_d2_mm: float,
    mu_thread: float,
) -> float:
    """Load that a torque raises on two square threads, one going up and one down [N]."""
    up = screw_torque(1.0, lead_mm, d2_mm, mu_thread, 0.0)
    down = screw_torque(1.0, other_lead_mm, other_d2_mm, mu_thread, 0.0, lowering=True)
    return torque_nmm / (up + down)


def factor_of_friction(
    d_mm: float, pitch_mm: float, d2_mm: float, mu_thread: float, d_km_mm: float, mu_head: float
) -> float:
    """Nut factor by the exact wedge and a collar, K = T/(F d)."""
    thread = screw_torque(1.0, pitch_mm, d2_mm, mu_thread)
    return (thread + collar_torque(1.0, d_km_mm, mu_head)) / d_mm


def service_stress(
    preload_mpa: float,
    load_n: float,
    d_mm: float,
    bolt_length_mm: float,
    bolt_mpa: float,
    grip_mm: float,
    parts_mpa: float,
    area_mm2: float,
) -> float:
    """Stress of a preloaded bolt under its share of a load, two cones of 45 degrees [MPa]."""
    bolt = bar_stiffness(bolt_mpa, pi / 4 * d_mm**2, bolt_length_mm)
    cone = frustum_stiffness(parts_mpa, d_mm, 1.5 * d_mm, grip_mm / 2, 45.0)
    return preload_mpa + load_share(bolt, in_series(cone, cone)) * load_n / area_mm2


def skin_stress(torque_nmm: float, outer_mm: float, inner_mm: float) -> float:
    """Shear stress at the skin of a tube or bar [MPa]."""
    return torque_nmm / hollow_shaft_torque(outer_mm, inner_mm, 1.0)


def hollow_stress_of_power(outer_mm: float, inner_mm: float, power_kw: float, rpm: float) -> float:
    """Shear stress at the skin of a tube that carries a power [MPa]."""
    return skin_stress(power_kw * 1e6 / (2 * pi * rpm / 60), outer_mm, inner_mm)


def twist_of_two(
    first_nmm: float,
    first_mm: float,
    second_nmm: float,
    second_mm: float,
    d_mm: float,
    shear_modulus_mpa: float,
) -> float:
    """Twist of a bar with two torques in it, the second below zero where it turns back [deg]."""
    back = -1 if second_nmm < 0 else 1
    first = bar_twist(first_nmm, first_mm, d_mm, shear_modulus_mpa)
    return first + back * bar_twist(abs(second_nmm), second_mm, d_mm, shear_modulus_mpa)


def stress_by_turn(
    angle_deg: float,
    pitch_mm: float,
    length_mm: float,
    bolt_mm2: float,
    bolt_mpa: float,
    tube_mm2: float,
    tube_mpa: float,
    of_mm2: float,
) -> float:
    """Stress of bolt or tube when the nut is turned [MPa]."""
    compliance = 1 / bar_stiffness(bolt_mpa, bolt_mm2, length_mm)
    compliance += 1 / bar_stiffness(tube_mpa, tube_mm2, length_mm)
    return preload_by_angle(angle_deg, pitch_mm, compliance) / of_mm2


def blocked_pair(
    first_mm: float,
    first_alpha: float,
    first_mpa: float,
    first_mm2: float,
    second_mm: float,
    second_alpha: float,
    second_mpa: float,
    second_mm2: float,
    rise_k: float,
) -> float:
    """Force of two bars end to end between walls, heated [N]."""
    free = expansion(first_mm, first_alpha, rise_k) + expansion(second_mm, second_alpha, rise_k)
    stiff = in_series(
        bar_stiffness(first_mpa, first_mm2, first_mm),
        bar_stiffness(second_mpa, second_mm2, second_mm),
    )
    return free * stiff


def heated_stress(
    length_mm: float,
    parts_alpha: float,
    bolt_alpha: float,
    rise_k: float,
    bolt_mm2: float,
    bolt_mpa: float,
    parts_mm2: float,
    parts_mpa: float,
    of_mm2: float,
) -> float:
    """Stress of one of two parts that hold each other when both are heated [MPa]."""
    compliance = 1 / bar_stiffness(bolt_mpa, bolt_mm2, length_mm)
    compliance += 1 / bar_stiffness(parts_mpa, parts_mm2, length_mm)
    force = preload_by_heat(length_mm, parts_alpha, rise_k, bolt_alpha, rise_k, compliance)
    return force / of_mm2


def stretch_of_thread(
    preload_n: float, length_mm: float, d_mm: float, pitch_mm: float, modulus_mpa: float
) -> float:
    """Stretch of a stud threaded all over, by its stress area."""
    area = unified_stress_area(d_mm, pitch_mm)
    return elongation(preload_n, 1 / bar_stiffness(modulus_mpa, area, length_mm))


def lever_of_force(
    load_n: float,
    lead_mm: float,
    d2_mm: float,
    mu_thread: float,
    d_km_mm: float,
    mu_head: float,
    force_n: float,
) -> float:
    """Lever at which a force raises a square thread's load, collar included [mm]."""
    whole = screw_with_collar(load_n, lead_mm, d2_mm, mu_thread, 0.0, d_km_mm, mu_head)
    return whole / force_n
