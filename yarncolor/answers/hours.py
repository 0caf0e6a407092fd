"""Hours at the wheel: from minutes for a gram, or from treadling, ratio and twist.

A drafted metre takes as many turns of the flyer as it holds twist: m/min = treadles/min · ratio
/ twist. Common practice, no source: a flyer above 1,500 turns a minute is implausible
on a wheel driven by foot; a motor may drive it faster.
"""

from dataclasses import dataclass

import numpy as np

from yarncolor.layout.layout import Layout
from yarncolor.plan import Plying, Spinning
from yarncolor.yarn.provenance import Provenance
from yarncolor.yarn.structure import YarnStructure

FASTEST_RPM = 1500.0
"""Turns of a flyer in a minute that feet hardly pass."""
AGREE = 1.25
"""Two ways to the hours may differ by this factor."""


@dataclass(frozen=True)
class Hours:
    """Hours of a plan, and how they were found.

    Parameters
    ----------
    portion_h : (N,) array or None
        Spinning of each portion, all strands of its ply.
    plying_h : float or None
        Plying of the whole yarn.
    source : Provenance or None
        given (minutes for a gram) or derived (treadling, ratio, twist).
    by_treadling_h : float or None
        Spinning of everything by treadling, ratio and twist.
    flyer_rpm : float or None
        Fastest turns of the flyer a minute that this asks for.
    """

    portion_h: np.ndarray | None
    plying_h: float | None
    source: Provenance | None
    by_treadling_h: float | None
    flyer_rpm: float | None

    @property
    def spinning_h(self) -> float | None:
        """Spinning of everything."""
        return None if self.portion_h is None else float(self.portion_h.sum())

    @property
    def job_h(self) -> float | None:
        """Spinning and, where it is known, plying; None where spinning is not known."""
        return None if self.spinning_h is None else self.spinning_h + (self.plying_h or 0.0)

    @property
    def is_implausible(self) -> bool:
        """Whether the flyer would have to turn faster than feet drive one."""
        return self.flyer_rpm is not None and self.flyer_rpm > FASTEST_RPM

    @property
    def two_stories_h(self) -> tuple[float, float] | None:
        """Spinning by minutes for a gram and by treadling, where these disagree; else None."""
        if self.source != "given" or self.spinning_h is None or self.by_treadling_h is None:
            return None
        low, high = sorted((self.spinning_h, self.by_treadling_h))
        return (self.spinning_h, self.by_treadling_h) if high > AGREE * low else None

    @property
    def disagree(self) -> bool:
        """Whether minutes for a gram and treadling tell two stories."""
        return self.two_stories_h is not None


def hours(laid: Layout) -> Hours:
    """Return the hours that a plan takes at the wheel."""
    plan, yarn, portions = laid.resolved.plan, laid.resolved.yarn, laid.portions
    metres = portions.length_m * yarn.strands[portions.ply]
    by_treadling = _by_treadling_h(plan.spinning, yarn, portions.ply, metres)
    by_gram = None
    if plan.spinning.minutes_per_g is not None:
        by_gram = portions.mass_g * plan.spinning.minutes_per_g / 60
    portion_h = by_treadling if by_gram is None else by_gram
    given: Provenance = "derived" if by_gram is None else "given"
    return Hours(
        portion_h=portion_h,
        plying_h=_plying_h(plan.spinning, plan.plying, yarn, laid.stretches.yarn_m),
        source=None if portion_h is None else given,
        by_treadling_h=None if by_treadling is None else float(by_treadling.sum()),
        flyer_rpm=_flyer_rpm(plan.spinning, plan.plying, yarn),
    )


def _by_treadling_h(
    spinning: Spinning, yarn: YarnStructure, ply: np.ndarray, metres: np.ndarray
) -> np.ndarray | None:
    rpm = _rpm(spinning.treadles_per_min, spinning.drive_ratio)
    if rpm is None or yarn.twist_tpm is None:
        return None
    return np.asarray(metres * yarn.twist_tpm[ply] / rpm / 60)


def _plying_h(
    spinning: Spinning, plying: Plying, yarn: YarnStructure, yarn_m: float
) -> float | None:
    rpm = _plying_rpm(spinning, plying)
    if rpm is None or yarn.ply_twist_tpm is None or yarn.plies == 1:
        return None
    return float(yarn_m * yarn.ply_twist_tpm / rpm / 60)


def _flyer_rpm(spinning: Spinning, plying: Plying, yarn: YarnStructure) -> float | None:
    asked = [_rpm(spinning.treadles_per_min, spinning.drive_ratio), _plying_rpm(spinning, plying)]
    if spinning.minutes_per_g is not None and yarn.twist_tpm is not None:
        metres_a_minute = 1000 / yarn.strand_tex / spinning.minutes_per_g
        asked.append(float((metres_a_minute * yarn.twist_tpm).max()))
    known = [rpm for rpm in asked if rpm is not None]
    return max(known) if known else None


def _plying_rpm(spinning: Spinning, plying: Plying) -> float | None:
    treadles = plying.treadles_per_min or spinning.treadles_per_min
    return _rpm(treadles, plying.drive_ratio or spinning.drive_ratio)


def _rpm(treadles_per_min: float | None, drive_ratio: float | None) -> float | None:
    if treadles_per_min is None or drive_ratio is None:
        return None
    return treadles_per_min * drive_ratio
