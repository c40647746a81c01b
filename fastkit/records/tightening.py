"""What scatters between a torque and a preload: nut factors, friction, methods, tools, seating."""

from typing import NamedTuple


class NutFactor(NamedTuple):
    """Nut factor K of T = K d F in one condition, as one publication gives it."""

    TABLE = "nut_factor"

    condition: str  # zinc-plated
    title: str
    k_min: float
    k_max: float
    source: str
    locator: str
    checked: str


class MeasuredFriction(NamedTuple):
    """Coefficients of friction measured on a surface, apart from the classes of VDI 2230-1."""

    TABLE = "measured_friction"

    id: str
    title: str
    mu_min: float  # thread and head together
    mu_max: float
    mu_thread_min: float | None
    mu_thread_max: float | None
    mu_head_min: float | None
    mu_head_max: float | None
    source: str
    locator: str
    checked: str


class SlipFriction(NamedTuple):
    """Static friction between clamped parts, which carries a sideways load."""

    TABLE = "slip_friction"

    pair: str  # steel+aluminium
    title: str
    state: str  # dry, lubricated
    mu_min: float
    mu_max: float
    source: str
    locator: str
    checked: str


class TorqueFactor(NamedTuple):
    """What a condition makes of a tabulated torque: multiply by it."""

    TABLE = "torque_factor"

    id: str
    title: str
    base: str  # the condition that the tabulated torque is for
    factor_min: float
    factor_max: float
    source: str
    locator: str
    checked: str


class TighteningMethod(NamedTuple):
    """Scatter of the preload by one way of tightening, as one publication gives it."""

    TABLE = "tightening_method"

    method: str  # torque-wrench
    title: str
    scatter_min_pct: float | None  # plus or minus
    scatter_max_pct: float | None
    alpha_min: float | None  # largest over smallest preload, alpha_A of VDI 2230-1
    alpha_max: float | None
    scatter_alpha_min: float | None  # the same from the scatter: (1 + s) / (1 - s)
    scatter_alpha_max: float | None
    source: str
    locator: str
    checked: str


class TurnOfNut(NamedTuple):
    """Turn from snug that preloads a structural bolt."""

    TABLE = "turn_of_nut"

    faces: str
    grip_from_d: float  # length of the bolt in diameters
    grip_to_d: float
    rotation_deg: float
    source: str
    locator: str
    checked: str


class StructuralTorque(NamedTuple):
    """Preload and reference torque of a structural bolt assembly."""

    TABLE = "structural_torque"

    thread: str  # M16x2
    grade: str
    preload_n: float
    torque_nm: float
    source: str
    locator: str
    checked: str


class Embedding(NamedTuple):
    """What one surface settles after tightening."""

    TABLE = "embedding"

    roughness: str  # rz-10-to-40
    title: str
    place: str  # thread, bearing face, interface
    load: str  # axial, shear
    embedding_um: float
    source: str
    locator: str
    checked: str


class WrenchClass(NamedTuple):
    """A class of torque tool and how far it may be off."""

    TABLE = "wrench_class"

    id: str  # type-2-class-a
    title: str
    small_deviation_pct: float  # largest torque of the tool 10 N·m and below
    deviation_pct: float
    source: str
    locator: str
    checked: str


class PrevailingTorque(NamedTuple):
    """Prevailing torque of a self-locking nut: on for the first time, off, off the fifth time."""

    TABLE = "prevailing_torque"

    thread: str  # M8x1.25
    nut_class: str  # 04, 5 6 8, 05 10 12
    first_on_max_nm: float
    first_off_min_nm: float
    fifth_off_min_nm: float
    source: str
    locator: str
    checked: str


class ReuseTorque(NamedTuple):
    """Drag that a used self-locking nut must still have; less: a new one."""

    TABLE = "reuse_torque"

    thread: str  # 1/4-28-UNF
    nut: str
    drag_min_nm: float
    source: str
    locator: str
    checked: str


class NutTorque(NamedTuple):
    """Torque of cadmium-plated aircraft nuts, threads free of oil."""

    TABLE = "nut_torque"

    thread: str
    nut: str  # tension, shear
    torque_min_nm: float
    torque_max_nm: float
    limit_nm: float
    source: str
    locator: str
    checked: str
