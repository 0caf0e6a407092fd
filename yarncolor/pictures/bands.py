"""Bands of colour over a yarn: lots in columns, plies as slanting stripes, an axis of metres."""

from functools import lru_cache

import numpy as np

from yarncolor.layout.stretches import WHOLE_PPB, Stretches

STRIPE_PX, SLANT = 6, 0.5
"""Width of a ply's stripe; pixels that it leans for each that it is high."""


def lots_of_columns(along: Stretches, width_px: int) -> np.ndarray:
    """Return the lot of each ply in the middle of each column: (width, plies).

    Parameters
    ----------
    along : Stretches
        Of the plied yarn, which fills the width.
    width_px : int
        How many columns.
    """
    middle = (np.arange(width_px) + 0.5) / width_px * WHOLE_PPB
    return along.lot[np.searchsorted(along.edges_ppb, middle, side="right") - 1]


@lru_cache(maxsize=16)
def slanting_stripes(width_px: int, height_px: int, plies: int) -> np.ndarray:
    """Return which ply each pixel of a plied band shows: (height, width).

    Parameters
    ----------
    width_px, height_px : int
        Of the band.
    plies : int
        That take turns, from 0.
    """
    x, y = np.arange(width_px), np.arange(height_px)[:, None]
    stripe: np.ndarray = ((x + (height_px - y) * SLANT) // STRIPE_PX).astype(int) % plies
    return stripe


def nice_step(least: float) -> float:
    """Return the smallest of 1, 2, 5 times a power of ten that is not below the least."""
    power = 10.0 ** np.floor(np.log10(least))
    return float(
        next(power * digit for digit in (1, 2, 5, 10) if power * digit >= least * (1 - 1e-9))
    )


def axis_m(yarn_m: float, step_m: float) -> list[tuple[float, str]]:
    """Return where an axis is marked, in metres, and what is written there.

    Parameters
    ----------
    yarn_m : float
        Length of the yarn.
    step_m : float
        From mark to mark.
    """
    marks = np.arange(0, yarn_m * (1 + 1e-9), step_m).tolist()
    return [(metre, f"{metre:.10g}" if metre else "0 m") for metre in marks]
