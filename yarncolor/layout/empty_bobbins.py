"""The empty bobbins: how many each single fills as planned, and what each weighs."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.portions import Portions
from yarncolor.layout.resolved import ResolvedPlan
from yarncolor.plan import PerPly

_TOLERANCE = 1e-9


@dataclass(frozen=True)
class EmptyBobbins:
    """The bobbins of a plan, numbered in spinning order: a number keeps meaning the same bobbin.

    Parameters
    ----------
    tare_g : float, tuple of float or None
        What an empty bobbin weighs, one or each.
    count : (plies,) int array
        How many each strand of each single fills as planned.
    strands : (plies,) int array
        Strands that lie side by side in each ply.
    """

    tare_g: PerPly | None
    count: NDArray[np.int64]
    strands: NDArray[np.int64]

    def mass_g(self, ply: int, order: int, strand: int = 0) -> float | None:
        """Return what a bobbin weighs empty; None where that is not known.

        Parameters
        ----------
        ply : int
            From 0.
        order : int
            The how-manieth of its strand, from 1.
        strand : int
            Of that ply, from 0.
        """
        if not isinstance(self.tare_g, tuple):
            return self.tare_g
        before = int((self.count * self.strands)[:ply].sum()) + strand * int(self.count[ply])
        at = before + order - 1
        known = order <= self.count[ply] and at < len(self.tare_g)
        return self.tare_g[at] if known else None


def empty_bobbins(resolved: ResolvedPlan, planned: Portions) -> EmptyBobbins:
    """Return the bobbins of a plan.

    Parameters
    ----------
    resolved : ResolvedPlan
        Its table of bobbins says what they hold and weigh.
    planned : Portions
        The rows as planned, their lengths set.
    """
    table, yarn = resolved.plan.bobbins, resolved.yarn
    count = np.ones(len(resolved.tex), dtype=np.int64)
    if table.capacity_g is not None:
        filled = planned.single_m / (table.capacity_g / yarn.strand_tex * 1000)
        count = np.maximum(np.ceil(filled * (1 - _TOLERANCE)), 1).astype(np.int64)
    return EmptyBobbins(table.tare_g, count, yarn.strands)
