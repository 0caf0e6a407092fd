"""Carded blends that look evenly spaced: light into dark needs uneven mixtures."""

import numpy as np

from yarncolor.colour.carding import blended_lab
from yarncolor.colour.science import ciede2000

_SAMPLES = 2001
_ROUNDS = 40
_ALIKE = 1e-6
EVEN = 1.1
"""Largest step over smallest step that counts as even."""


def plain_fractions(steps: int) -> np.ndarray:
    """Return the fractions (steps,) of the second lot in blends mixed as n : 1, …, 1 : n."""
    return np.arange(1, steps + 1) / (steps + 1)


def even_fractions(lab: np.ndarray, steps: int) -> np.ndarray:
    """Return the fractions (steps,) of the second lot that make all steps look alike.

    The steps, in CIEDE2000, are those from lot to blend to blend to lot. They are evened out by
    moving the fractions along the running total of the differences, until the largest is at
    most a hundredth above the smallest or no round improves them.

    Parameters
    ----------
    lab : (2, 3) array
        CIELAB of the two lots.
    steps : int
        Number of blends, 1 to 20.

    Raises
    ------
    ValueError
        For a number of steps outside its range.
    """
    if not 1 <= steps <= 20:
        raise ValueError("give 1 to 20 steps")
    path = np.linspace(0, 1, _SAMPLES) ** 2
    along = _running(path, lab)
    if along[-1] < _ALIKE:
        return plain_fractions(steps)
    wanted = np.linspace(0, along[-1], steps + 2)
    best, ratio = path, np.inf
    for _ in range(_ROUNDS):
        fractions = np.interp(wanted, along, path)
        sizes = step_sizes(fractions[1:-1], lab)
        if sizes.max() < ratio * sizes.min():
            best, ratio = fractions, sizes.max() / sizes.min()
        if ratio <= 1.01:
            break
        reached = np.append(0, np.cumsum(sizes))
        wanted = np.interp(np.linspace(0, reached[-1], steps + 2), reached, wanted)
    return best[1:-1]


def step_sizes(fractions: np.ndarray, lab: np.ndarray) -> np.ndarray:
    """Return the CIEDE2000 (steps + 1,) from lot to blend to blend to lot.

    Parameters
    ----------
    fractions : (steps,) array
        Of the second lot, rising.
    lab : (2, 3) array
        CIELAB of the two lots.
    """
    seen = _blends(np.concatenate([[0.0], fractions, [1.0]]), lab)
    return ciede2000(seen[1:], seen[:-1])


def _running(fractions: np.ndarray, lab: np.ndarray) -> np.ndarray:
    seen = _blends(fractions, lab)
    return np.append(0, np.cumsum(ciede2000(seen[1:], seen[:-1])))


def _blends(fractions: np.ndarray, lab: np.ndarray) -> np.ndarray:
    return blended_lab(np.column_stack([1 - fractions, fractions]), lab)
