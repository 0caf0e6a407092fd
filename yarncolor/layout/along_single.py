"""Grams along a single whose pieces are of their own grist."""

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.portions import Portions


def keeps_grist(portions: Portions, ply: int, tex: float) -> bool:
    """Return whether a single is of one grist all along.

    Parameters
    ----------
    portions : Portions
        Spun.
    ply : int
        From 0.
    tex : float
        That grist.
    """
    return bool((portions.tex[portions.of_ply(ply)] == tex).all())


def net_g_at(
    portions: Portions, ply: int, at_m: NDArray[np.float64] | float
) -> NDArray[np.float64]:
    """Return grams of single from its beginning to places along it; what spinning lost is none.

    Parameters
    ----------
    portions : Portions
        Spun.
    ply : int
        From 0.
    at_m : float or array
        From the start of spinning.
    """
    ends_m, net_g = _running(portions, ply)
    return np.asarray(np.interp(at_m, ends_m, net_g), dtype=np.float64)


def place_m_of(portions: Portions, ply: int, net_g: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return up to where so many grams of a single reach, from its beginning.

    Parameters
    ----------
    portions : Portions
        Spun.
    ply : int
        From 0.
    net_g : array
        Grams of single.
    """
    ends_m, own_g = _running(portions, ply)
    return np.asarray(np.interp(net_g, own_g, ends_m), dtype=np.float64)


def _running(portions: Portions, ply: int) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    own = portions.of_ply(ply)
    length_m = portions.length_m[own]
    net_g = np.cumsum(length_m * portions.tex[own] / 1000)
    return np.append(0.0, np.cumsum(length_m)), np.append(0.0, net_g)
