"""Which things on the scale go up and which down, as a flow of ones that costs least.

Such a rounding always exists: it is a whole-numbered flow from the lots, over what each ply has
of them, through the things on the scale into the running totals, and the unrounded amounts are a
flow between the same whole bounds. A cheapest flow between whole bounds can be chosen whole [1]_;
the corners of its linear programme, one of which the simplex method ends in, all are.

References
----------
.. [1] L. R. Ford and D. R. Fulkerson, Flows in Networks, Princeton, 1962.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

Ints = NDArray[np.int64]
Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Between:
    """Least and most things that may go up in each of some totals: two float arrays."""

    least: Floats
    most: Floats


@dataclass(frozen=True)
class RoundingFlow:
    """Lots → shares of the plies → rows → running totals → the end; heaps go straight there.

    Parameters
    ----------
    ups_of_lot : (lots,) array
        How many things of each lot go up.
    lot_of_share : (S,) int array
        Lot of each share: what one ply has of one lot.
    share : (I,) int array
        Of each thing: first the rows, ply after ply, then the heaps.
    ends_ply : (R,) bool array
        Of each row, whether it is the last of its ply.
    things, shares, running : Between
        For each thing 0 to 1, or to 0 for what is whole; for each share; up to each row.
    """

    ups_of_lot: Floats
    lot_of_share: Ints
    share: Ints
    ends_ply: NDArray[np.bool_]
    things: Between
    shares: Between
    running: Between

    def cheapest(self, cost: Floats) -> Floats:
        """Return 1 for each thing that goes up, else 0, so that the costs' sum is least: (I,).

        Parameters
        ----------
        cost : (I,) array
            Of going up rather than down.
        """
        from scipy.optimize import linprog

        if not len(cost):
            return cost
        shares, rows, lots = len(self.lot_of_share), len(self.ends_ply), len(self.ups_of_lot)
        bounds = (self.shares, self.things, self.running)
        found = linprog(
            np.concatenate([np.zeros(shares), cost, np.zeros(rows)]),
            A_eq=self._balance,
            b_eq=np.append(self.ups_of_lot, np.zeros(self._balance.shape[0] - lots)),
            bounds=np.concatenate([np.column_stack([of.least, of.most]) for of in bounds]),
            method="highs-ds",
        )
        if found.x is None:
            raise ArithmeticError("no controlled rounding was found")
        ups: Floats = np.rint(found.x[shares : shares + len(cost)])
        return ups

    @cached_property
    def _balance(self):  # type: ignore[no-untyped-def]
        """For each node what leaves it less what comes: lots, shares, running totals."""
        from scipy.sparse import csr_array

        lots, shares = len(self.ups_of_lot), len(self.lot_of_share)
        rows = len(self.ends_ply)
        share, running = lots + np.arange(shares), lots + shares + np.arange(rows)
        end = lots + shares + rows
        onward = np.where(self.ends_ply, end, running + 1)
        heaps = np.full(len(self.share) - rows, end)
        leaves = np.concatenate([self.lot_of_share, share[self.share], running])
        comes = np.concatenate([share, running, heaps, onward])
        edge = np.arange(len(leaves))
        ones = np.ones(len(edge))
        entries = (np.append(ones, -ones), (np.append(leaves, comes), np.append(edge, edge)))
        return csr_array(entries, shape=(end + 1, len(edge)))[:end]
