"""How far any two lots of a search are apart, carded steps among them."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from yarncolor.colour.carding import blended_lab
from yarncolor.colour.palette import palette
from yarncolor.colour.science import ciede2000
from yarncolor.layout.carded_steps import pair_parts
from yarncolor.layout.resolved_scheme import ResolvedScheme
from yarncolor.plan import Lot

_LARGEST_TABLE = 2000
"""Lots and steps of which all differences are kept; of more each is reckoned when it is asked."""


@dataclass(frozen=True, eq=False)
class Between:
    """CIEDE2000 between any two lots, by their numbers.

    Parameters
    ----------
    lab : (n, 3) array
        CIELAB of each.
    table : (n, n) array or None
        Their differences, where that is not too large.
    """

    lab: NDArray[np.float64]
    table: NDArray[np.float64] | None

    def of(self, one: NDArray[np.int64], other: NDArray[np.int64]) -> NDArray[np.float64]:
        """Return the difference of each pair.

        Parameters
        ----------
        one, other : (...) int arrays
            Lots by their numbers.
        """
        if self.table is not None:
            found: NDArray[np.float64] = np.take(self.table, one * len(self.table) + other)
            return found
        return np.asarray(ciede2000(self.lab[one], self.lab[other]), dtype=np.float64)


def between_lots(lots: tuple[Lot, ...], scheme: ResolvedScheme) -> Between:
    """Return how far lots are apart, numbered as in the plan; a gradient's steps follow them.

    Parameters
    ----------
    lots : tuple of Lot
        Of a plan, without the steps that its gradient makes.
    scheme : ResolvedScheme
        Whose steps they are.
    """
    own = palette(lots)
    if not scheme.is_carded:
        return Between(own.lab, own.between.ciede2000)
    steps = blended_lab(pair_parts(len(lots), scheme.blend_steps), own.lab)
    lab = np.concatenate([own.lab, steps])
    if len(lab) > _LARGEST_TABLE:
        return Between(lab, None)
    table = np.zeros((len(lab), len(lab)))
    one, other = np.triu_indices(len(lab), 1)
    table[one, other] = table[other, one] = ciede2000(lab[one], lab[other])
    return Between(lab, table)
