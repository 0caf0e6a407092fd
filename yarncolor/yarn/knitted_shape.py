"""A knitted piece row by row: how many stitches each has, and how much yarn they take.

References
----------
.. [1] Cast-on tail and bind-off, three times the width each. Common practice, no source.
"""

from dataclasses import dataclass
from math import floor, sqrt

import numpy as np
from numpy.typing import NDArray

from yarncolor.plan import Fabric
from yarncolor.yarn.knitted_size import KnittedSize, increases_per_row

EDGE_WIDTHS = 3.0


def edge_of_stitch_m(stitches_per_10cm: float) -> float:
    """Return the finished yarn that a stitch of cast-on or bind-off takes [1]_."""
    return EDGE_WIDTHS / stitches_per_10cm / 10


def shape_of(fabric: Fabric, size: KnittedSize) -> "Shape":
    """Return the rows of a plan's piece, in finished yarn.

    Parameters
    ----------
    fabric : Fabric
        Table of the plan.
    size : KnittedSize
        What it comes to.
    """
    edge_m = edge_of_stitch_m(size.gauge.stitches_per_10cm)
    return Shape(size.stitches, increases_per_row(fabric), size.loop_cm / 100, edge_m)


@dataclass(frozen=True)
class Shape:
    """Stitches of a piece row by row: s + i·r in row i, r the increases of a triangle.

    Parameters
    ----------
    cast_on : int
        Stitches of the first row.
    growth : float
        Stitches that a row has more than the one before.
    loop_m, edge_m : float
        Yarn in a stitch; yarn that a stitch of cast-on or bind-off takes.
    """

    cast_on: int
    growth: float
    loop_m: float
    edge_m: float

    @property
    def cast_on_m(self) -> float:
        """Yarn of the cast-on."""
        return self.cast_on * self.edge_m

    def last_stitches(self, rows: int) -> int:
        """Return the stitches of the last of so many rows."""
        return floor(self.cast_on + self.growth * (rows - 1))

    def rows_m(self, rows: NDArray[np.int64]) -> NDArray[np.float64]:
        """Return the yarn in so many rows, without their edges: (n,).

        Parameters
        ----------
        rows : (n,) int array
            From the cast-on on.
        """
        stitches = self.cast_on * rows + self.growth * rows * (rows - 1) / 2
        return np.asarray(stitches * self.loop_m)

    def bind_off_m(self, rows: NDArray[np.int64]) -> NDArray[np.float64]:
        """Return the yarn that binds off the last of so many rows: (n,).

        Parameters
        ----------
        rows : (n,) int array
            From the cast-on on.
        """
        return np.asarray((self.cast_on + self.growth * (rows - 1)) * self.edge_m)

    def needs_m(self, rows: int) -> float:
        """Return the yarn of so many rows, cast-on and bind-off included."""
        in_rows = self.cast_on * rows + self.growth * rows * (rows - 1) / 2
        edges = self.cast_on + self.cast_on + self.growth * (rows - 1)
        return in_rows * self.loop_m + edges * self.edge_m

    def rows_from(self, yarn_m: float) -> int:
        """Return how many whole rows so much yarn gives: n with needs_m(n) ≤ yarn_m."""
        half = self.growth * self.loop_m / 2
        linear = self.cast_on * self.loop_m - half + self.growth * self.edge_m
        left = yarn_m - 2 * self.cast_on * self.edge_m + self.growth * self.edge_m
        if left <= 0:
            return 0
        rows = 2 * left / (linear + sqrt(linear**2 + 4 * half * left))
        return max(0, floor(rows * (1 + 1e-12)))
