"""Which things on the scale go up and which down, as a flow of ones that costs least.

Such a rounding always exists: it is a whole-numbered flow from the lots, over what each ply has
of them, through the things on the scale into the running totals, and the unrounded amounts are a
flow between the same whole bounds. A cheapest flow between whole bounds can be chosen whole [1]_;
the corners of its linear programme, one of which the simplex method ends in, all are.

References
----------
.. [1] L. R. Ford and D. R. Fulkerson, Flows in Networks, Princeton, 1962.
"""

import warnings
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

Ints = NDArray[np.int64]
Floats = NDArray[np.float64]

_QUIET = {"output_flag": False}
"""The solver keeps no log, which would cost time; scipy warns that it only hands this on."""


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
        from scipy.optimize import Bounds, milp

        if not len(cost):
            return cost
        shares, rows = len(self.lot_of_share), len(self.ends_ply)
        totals = (self.shares, self.things, self.running)
        least, most = (
            np.concatenate(each)
            for each in zip(*((of.least, of.most) for of in totals), strict=True)
        )
        with warnings.catch_warnings(action="ignore", category=RuntimeWarning):
            found = milp(
                np.concatenate([np.zeros(shares), cost, np.zeros(rows)]),
                bounds=Bounds(least, most),
                constraints=self._balance(),
                options=_QUIET,
            )
        if found.x is None:
            raise ArithmeticError("no controlled rounding was found")
        ups: Floats = np.rint(found.x[shares : shares + len(cost)])
        return ups

    def _balance(self) -> Any:
        """For each node what leaves it less what comes: lots, shares, running totals.

        Edge by edge, as the solver reads it; the end is left out, for it follows from the rest.
        """
        from scipy.optimize import LinearConstraint
        from scipy.sparse import csc_array

        lots, shares = len(self.ups_of_lot), len(self.lot_of_share)
        rows = len(self.ends_ply)
        share, running = lots + np.arange(shares), lots + shares + np.arange(rows)
        end = lots + shares + rows
        onward = np.where(self.ends_ply, end, running + 1)
        heaps = np.full(len(self.share) - rows, end)
        leaves = np.concatenate([self.lot_of_share, share[self.share], running])
        comes = np.concatenate([share, running, heaps, onward])
        nodes = np.column_stack([leaves, comes])
        is_node = nodes < end
        entries = np.broadcast_to([1.0, -1.0], nodes.shape)[is_node]
        of_edge = np.append(0, np.cumsum(is_node.sum(axis=1))).astype(np.intc)
        at = nodes[is_node].astype(np.intc)  # older releases of the solver take no longer ones
        balance = csc_array((entries, at, of_edge), shape=(end, len(nodes)))
        supply = np.append(self.ups_of_lot, np.zeros(end - lots))
        return LinearConstraint(balance, supply, supply)
