"""Lots of which more is spun and to spin than there was to divide: what happened, what is short."""

from dataclasses import dataclass

import numpy as np

from yarncolor.layout.layout import Layout, left_g, reserve_g, used_g

_ENOUGH = 1e-9


@dataclass(frozen=True)
class ShortLot:
    """A lot that more is taken of than there was to divide; grams as weighed out.

    Parameters
    ----------
    lot : int
        Index in the stash.
    to_spin_g : float
        What the rows to spin take of it.
    reserve_g : float
        What of it was kept back.
    spare_g : float
        What it has beyond what is spun and to be spun, the reserve too; below 0 where it lacks.
    """

    lot: int
    to_spin_g: float
    reserve_g: float
    spare_g: float

    @property
    def over_g(self) -> float:
        """Grams taken beyond what there was to divide."""
        return self.reserve_g - self.spare_g

    @property
    def missing_g(self) -> float:
        """Grams that are not there at all: gone in already, or wanted by rows to spin."""
        return max(-self.spare_g, 0.0)

    @property
    def from_reserve_g(self) -> float:
        """Grams that come out of what was kept back."""
        return self.over_g - self.missing_g

    @property
    def gone_in_g(self) -> float:
        """Grams that went onto the bobbins beyond all that there was."""
        return max(self.missing_g - self.to_spin_g, 0.0)

    @property
    def short_g(self) -> float:
        """Grams that rows to spin take and that are not there."""
        return min(self.missing_g, self.to_spin_g)

    @property
    def left_g(self) -> float:
        """Grams that are left for rows to spin, the reserve too."""
        return self.to_spin_g - self.short_g


def short_lots(laid: Layout) -> list[ShortLot]:
    """Return every lot of which more is taken than there was to divide, from one step of the scale.

    Parameters
    ----------
    laid : Layout
        What is spun and to be spun.
    """
    if laid.wheel is None and not laid.resolved.plan.lost:
        return []
    kept_g, spare_g, to_spin_g = reserve_g(laid), left_g(laid), _to_spin_g(laid)
    spare_g[np.abs(spare_g) <= _ENOUGH * used_g(laid)] = 0.0
    least_g = laid.resolved.step_g * (1 - laid.resolved.card_loss) * (1 - _ENOUGH)
    return [
        ShortLot(int(lot), float(to_spin_g[lot]), float(kept_g[lot]), float(spare_g[lot]))
        for lot in np.flatnonzero(kept_g - spare_g >= least_g)
    ]


def _to_spin_g(laid: Layout) -> np.ndarray:
    to_spin = laid.portions.take(np.flatnonzero(laid.to_spin))
    return to_spin.by_lot_g(len(laid.resolved.plan.lots))
