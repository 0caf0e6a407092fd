"""The yarn after the wheel: rested, washed, and what the charts call it then."""

from dataclasses import dataclass, replace

from yarncolor import units
from yarncolor.layout.layout import Layout
from yarncolor.yarn.weight_classes import GAUGE, WeightClass, classes_at, weight_class


@dataclass(frozen=True)
class Lengths:
    """Three lengths of one yarn, measured relaxed; None where the plan does not say.

    Parameters
    ----------
    plied_m, rested_m, finished_m : float or None
        As plied, when it has rested, when it was washed.
    plied_between_m : (float, float) or None
        Between which the first is to be expected, where it hangs on how plying is reckoned.
    """

    plied_m: float
    rested_m: float | None
    finished_m: float | None
    plied_between_m: tuple[float, float] | None


def lengths(laid: Layout) -> Lengths:
    """Return the yarn's length as plied, after it has rested, and after it was washed.

    Each share is lost of what the one before left: L (1 - rest) (1 - wash).
    """
    plying, fabric = laid.resolved.plan.plying, laid.resolved.plan.fabric
    plied_m = float(laid.stretches.yarn_m)
    yarn, band = laid.resolved.yarn, laid.resolved.yarn.contraction_band
    rested, washed = plying.resting_shrinkage, fabric.finishing_shrinkage
    return Lengths(
        plied_m=plied_m,
        rested_m=None if rested is None else plied_m * (1 - rested),
        finished_m=None if washed is None else plied_m * yarn.finishing_ratio,
        plied_between_m=band and _left(band, plied_m / (1 - yarn.contraction)),
    )


def _left(band: tuple[float, float], singles_m: float) -> tuple[float, float]:
    """Return what is left of singles that lose a share between two: the shorter length first."""
    low, high = band
    return singles_m * (1 - high), singles_m * (1 - low)


def class_of(laid: Layout) -> WeightClass:
    """Return what charts call the finished yarn by wraps and metres; by gauge stands beside."""
    yarn = laid.resolved.yarn
    tex, gauge = laid.yarn_tex / yarn.finishing_ratio, laid.resolved.plan.fabric.gauge_stitches
    called = weight_class(yarn.wpi(tex), units.m_per_100g(tex))
    if gauge is None:
        return called
    return replace(called, by={"gauge": classes_at(gauge, GAUGE), **called.by})
