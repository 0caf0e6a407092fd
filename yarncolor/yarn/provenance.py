"""How a number is known: given in the plan, derived from it, assumed, or measured."""

from typing import Literal

from yarncolor.plan import Plying, Spinning
from yarncolor.yarn.given import GRIST_WAYS, densities, ply_twists

Provenance = Literal["given", "derived", "assumed", "measured"]

_OF_GRIST: dict[str, Provenance] = {
    "single_tex": "given",
    "single_m_per_g": "given",
    "sample": "measured",
    "yarn_m_per_100g": "derived",
    "single_wpi": "derived",
    "yarn_wpi": "derived",
}


def of_grist(spinning: Spinning) -> Provenance:
    """Return how the grist of the singles is known, by the first way that is given."""
    given = (way for way in GRIST_WAYS if getattr(spinning, way) is not None)
    return next((_OF_GRIST[way] for way in given), "assumed")


def of_relaxed_density(spinning: Spinning) -> Provenance:
    """Return how the relaxed density is known: by a wrapped skein, given, or assumed."""
    by_way = densities(spinning)
    if not by_way:
        return "assumed"
    return "measured" if "wrapped_skein" in by_way else "given"


def of_packed_density(spinning: Spinning) -> Provenance:
    """Return how the packed density is known: given or assumed."""
    return "assumed" if spinning.packed_density_g_per_cm3 is None else "given"


def of_twist(spinning: Spinning, *, known: bool) -> Provenance | None:
    """Return how the singles' twist is known; None where it is not.

    Parameters
    ----------
    spinning : Spinning
        Table of the plan.
    known : bool
        Whether there is such a twist at all.
    """
    if not known:
        return None
    direct = spinning.twist_tpm is not None or spinning.twist_tpi is not None
    return "given" if direct else "derived"


def of_ply_twist(plying: Plying, *, known: bool) -> Provenance | None:
    """Return how the ply twist is known; None where it is not.

    Parameters
    ----------
    plying : Plying
        Table of the plan.
    known : bool
        Whether there is such a twist at all.
    """
    if not known:
        return None
    return "given" if ply_twists(plying) else "derived"


def of_contraction(model: str) -> Provenance:
    """Return how the length lost in plying is known, by the model that is in force."""
    known: dict[str, Provenance] = {"measured": "measured", "none": "assumed"}
    return known.get(model, "derived")
