"""Lots that pass for one, or that thin stripes of a yarn hardly show apart, to any eyes."""

from dataclasses import dataclass

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.colour.colour_vision import DEFICIENCIES
from yarncolor.colour.difference import ALIKE_BELOW, CLOSE_BELOW
from yarncolor.colour.palette import palette_as
from yarncolor.layout.layout import used_g

TWINS_BELOW = 5.0
"""CIEDE2000 under which thin stripes of two lots are hardly told apart: ours, within "close"."""


@dataclass(frozen=True)
class Twins:
    """Two lots, counted from 0, that are hardly told apart, and by which eyes."""

    one: int
    other: int
    ciede2000: float
    eyes: str

    @property
    def pass_for_one(self) -> bool:
        """Whether they are alike: they may as well be one lot."""
        return self.ciede2000 < ALIKE_BELOW


def near_twins(answer: Answer) -> list[Twins]:
    """Return pairs of used lots under `TWINS_BELOW` to every eye, nearest first.

    A gradient's carded steps are meant to be close and are left out.
    """
    return _pairs(answer, answer.palette.between.ciede2000, "every eye", TWINS_BELOW)


def lost_to_other_eyes(answer: Answer) -> list[Twins]:
    """Return pairs that are clear to most eyes and near-twins to one with a deficiency."""
    lost = []
    for deficiency in DEFICIENCIES:
        seen = palette_as(answer.plan.lots, deficiency).between.ciede2000
        clear = answer.palette.between.ciede2000 >= CLOSE_BELOW
        lost += _pairs(answer, np.where(clear, seen, np.inf), deficiency, TWINS_BELOW)
    return lost


def unsure_contrasts(answer: Answer) -> list[Twins]:
    """Return pairs of used lots whose difference is smaller than how surely it is known.

    Where lots say by how much their colour may be out, a difference is out by the root of the
    sum of both squares.
    """
    unsure = np.array([lot.colour_unsure or 0.0 for lot in answer.plan.lots])
    by = np.hypot(unsure[:, None], unsure)
    between = answer.palette.between.ciede2000
    beyond = np.where((between < by) & (between >= TWINS_BELOW), between, np.inf)
    return _pairs(answer, beyond, "every eye", np.inf)


def _pairs(answer: Answer, table: np.ndarray, eyes: str, below: float) -> list[Twins]:
    steps = np.array([lot.is_step for lot in answer.plan.lots])
    used = np.flatnonzero((used_g(answer.layout) > 0) & ~steps)
    one, other = (used[side] for side in np.triu_indices(len(used), 1))
    near = np.flatnonzero((table[one, other] < below) & np.isfinite(table[one, other]))
    near = near[np.argsort(table[one, other][near], kind="stable")]
    return [
        Twins(int(one[at]), int(other[at]), float(table[one[at], other[at]]), eyes) for at in near
    ]
