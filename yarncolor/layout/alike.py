"""Which portions of a lot are equally large."""

import numpy as np
from numpy.typing import NDArray

_TOLERANCE = 1e-9


def alike(lot: NDArray[np.int64], mass: NDArray[np.float64]) -> NDArray[np.int64]:
    """Return for each portion the group that it is of: one lot, equally large, from 0: (N,).

    Parameters
    ----------
    lot : (N,) int array
        Of each portion.
    mass : (N,) array
        Its grams, or its steps of the scale.
    """
    order = np.lexsort((mass, lot))
    own, size = lot[order], mass[order]
    is_new = (np.diff(own) != 0) | (np.diff(size) > _TOLERANCE * size[1:])
    group = np.empty(len(lot), dtype=np.int64)
    group[order] = np.append(0, np.cumsum(is_new))[: len(lot)]
    return group
