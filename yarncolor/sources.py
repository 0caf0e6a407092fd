"""How each number of a yarn as a body is known: given, measured, derived or assumed."""

import numpy as np

from yarncolor.grist import densities
from yarncolor.plan import Plying, Spinning
from yarncolor.twist_ways import ply_twists


def given_or_assumed(value: object) -> str:
    """Return how a number is known that is given or stands in a table of defaults."""
    return "assumed" if value is None else "given"


def density_source(spinning: Spinning) -> str:
    """Return how the relaxed density is known: by a wrapped skein, given, or assumed."""
    found = densities(spinning)
    if not found:
        return "assumed"
    return "measured" if "wrapped_skein" in found else "given"


def twist_source(spinning: Spinning, twist: np.ndarray | None) -> str | None:
    """Return how the singles' twist is known; None where it is not."""
    if twist is None:
        return None
    direct = spinning.twist_tpm is not None or spinning.twist_tpi is not None
    return "given" if direct else "derived"


def ply_twist_source(plying: Plying, twist_tpm: float | None) -> str | None:
    """Return how the ply twist is known; None where it is not."""
    if twist_tpm is None:
        return None
    return "given" if ply_twists(plying) else "derived"
