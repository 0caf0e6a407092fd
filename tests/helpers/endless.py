"""Stripes without end: what the filters along one line leave of them."""

import numpy as np

from yarncolor.colour.optical_mixing import contrast_left


def endless(cpd: float, plies: int) -> np.ndarray:
    """Return what is kept of each wave, at so many turns of all plies to a degree."""
    return contrast_left(np.asarray(cpd) * np.arange(plies * 16 + 1))
