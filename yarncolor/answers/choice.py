"""One way to go on from what lies on the bobbins: its yarn, its worth, its rows, what it takes."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from yarncolor.answers.short_lots import ShortLot, short_lots
from yarncolor.errors import fail
from yarncolor.layout.bobbin_pieces import BobbinPieces
from yarncolor.layout.layout import Layout
from yarncolor.layout.portions import Portions
from yarncolor.layout.stretches import shares_by_colours
from yarncolor.layout.weighing import WeighGroups, weighed

GRAMS, GRIST = "grams", "grist"
CARRY_ON = "carry_on"

FINEST, THICKEST = 1.18, 0.85
"""How much finer or thicker a hand can spin the same grams, as metres over metres."""

_NOTHING, _TOGETHER = 1e-9, 1e-4


@dataclass(frozen=True, eq=False)
class RowsToSpin:
    """What is still to spin, weighed anew: running totals begin with the first of these rows.

    Parameters
    ----------
    row : (M,) int array
        Row of its ply's page, from 1; 0 for a piece that no row asks for.
    portions : Portions
        Of each, with what goes on the scale.
    heaps : WeighGroups
        What is weighed together.
    """

    row: np.ndarray
    portions: Portions
    heaps: WeighGroups

    def of_ply(self, k: int) -> dict[int, int]:
        """Return the rows of a ply, from 1, and where each stands among all."""
        own = np.flatnonzero((self.portions.ply == k) & (self.row > 0))
        return dict(zip(self.row[own].tolist(), own.tolist(), strict=True))

    def beside(self, k: int) -> list[int]:
        """Return the pieces of a ply that no row asks for."""
        return [int(at) for at in np.flatnonzero((self.portions.ply == k) & (self.row == 0))]

    def heap_g(self, k: int, lot: int) -> float:
        """Return what goes on the scale of a ply's heap of a lot; 0 where there is none.

        Parameters
        ----------
        k : int
            The ply, from 0.
        lot : int
            Index in the stash.
        """
        own = (self.heaps.ply == k) & (self.heaps.lot == lot)
        return float(self.heaps.weigh_g[own].sum())


@dataclass(frozen=True, eq=False)
class Choice:
    """One way to go on.

    Parameters
    ----------
    name : str
        As `WAYS` has it.
    laid : Layout
        The yarn that hands make of it: by grist where that alone is possible.
    by_grams : BobbinPieces
        What lies on the bobbins, and is to be spun, where it is done by other grams.
    possible : str or None
        By grams, or by grist: the same grams spun finer or thicker; None where it is neither.
    factors : (singles,) array
        Metres to spin over those to spin now; NaN for a ply with nothing to spin.
    grist_instead_tex : (singles,) array
        How thick the same grams come to the same metres; NaN where that is no way.
    as_planned_by_grist : float
        Share of the planned yarn kept then; NaN where that is no way.
    pull_off_m : (singles,) array
        Metres drawn off the outer end before plying.
    more_g : (lots,) array
        What the rows to spin take of each lot more than now; below 0 less.
    missing_g : (lots,) array
        How much of that there is not.
    shift_m : float
        How far the colour change that strayed farthest lies from its place.
    as_planned : float
        Share of the planned yarn that it keeps.
    """

    name: str
    laid: Layout
    by_grams: BobbinPieces
    possible: str | None
    factors: np.ndarray
    grist_instead_tex: np.ndarray
    as_planned_by_grist: float
    pull_off_m: np.ndarray
    more_g: np.ndarray
    missing_g: np.ndarray
    shift_m: float
    as_planned: float

    @property
    def wheel(self) -> BobbinPieces:
        """What lies on the bobbins, and is to be spun, as hands make it."""
        return wheel_of(self.laid)

    @property
    def is_by_grist(self) -> bool:
        """Whether it can be done by grist alone."""
        return self.possible == GRIST

    @cached_property
    def short(self) -> list[ShortLot]:
        """Every lot of which it takes more than there was to divide."""
        return short_lots(self.laid)

    @property
    def yarn_m(self) -> float:
        """Length of the yarn."""
        return self.laid.stretches.yarn_m

    @property
    def matched(self) -> float:
        """Share of the yarn over which all plies look alike."""
        along = self.laid.stretches
        return float(shares_by_colours(along.edges_ppb, along.lot)[0])

    @property
    def ends_first(self) -> int:
        """Which ply runs out first, counted from 0; the first of equals."""
        plied_m = self.laid.plied_m
        return int(np.argmax(plied_m <= plied_m.min() * (1 + _NOTHING)))

    @property
    def ends_together(self) -> bool:
        """Whether all plies run out together."""
        plied_m = self.laid.plied_m
        return bool(plied_m.max() <= plied_m.min() * (1 + _TOGETHER))

    @cached_property
    def rows(self) -> RowsToSpin:
        """What is still to spin where it is done by grams, weighed anew."""
        wheel, resolved = self.by_grams, self.laid.resolved
        to_spin = np.flatnonzero(~wheel.spun)
        portions, heaps, _ = weighed(
            wheel.pieces.take(to_spin), len(resolved.plan.lots), resolved.step_g
        )
        return RowsToSpin(wheel.row[to_spin], portions, heaps)


def wheel_of(laid: Layout) -> BobbinPieces:
    """Return what lies on the bobbins of a plan of which something is spun."""
    if laid.wheel is None:
        fail("spun", "is missing; say in [[spun]] tables what lies on the bobbins")
    return laid.wheel
