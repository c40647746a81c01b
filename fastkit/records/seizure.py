"""Bonds: how strongly a seized fastener is held."""

from typing import NamedTuple


class Seizure(NamedTuple):
    """
    One state of seizure; each stress is lognormal.

    Symbols: tau, bond shear stress on the flanks, under the head, in the bore [MPa];
    mu, static friction; preload share, what is left of the table preload [-].
    """

    TABLE = "seizure"

    id: str  # the values of --seized
    title: str
    tau_thread_mpa: float  # median
    tau_head_mpa: float
    tau_shank_mpa: float
    spread: float  # sigma of ln(tau)
    mu_thread: float
    mu_head: float
    mu_spread: float  # sigma of ln(mu)
    preload_share: float
    galls: int  # 1: rises with rotation
    source: str
    locator: str
    checked: str


class DriveState(NamedTuple):
    """Share of a sound drive's capacity that a damage state leaves."""

    TABLE = "drive_state"

    damage: str
    system: str  # a drive system, or any
    share: float
    spread: float  # sigma of ln(capacity)
    source: str
    locator: str
    checked: str
