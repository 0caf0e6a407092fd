"""The shortest of several lengths: what is left when plies that should be equal are not."""

import numpy as np

_SHARES_OF_SD = np.linspace(-7.0, 7.0, 1401)


def expected_shortest(mean: np.ndarray, sd: np.ndarray) -> float:
    """Return the expected shortest of independent normal lengths.

    Of equal ones it lies 1/√π SD below the mean for two, 3/(2√π) for three.

    Parameters
    ----------
    mean, sd : (N,) arrays
        Of each length; an SD of 0 is a length that is known.
    """
    grid, longer = _chance_longer(mean, sd)
    return float(grid[0] + np.trapezoid(longer, grid))


def shortest_quantiles(mean: np.ndarray, sd: np.ndarray, chances: np.ndarray) -> np.ndarray:
    """Return lengths which the shortest stays below with these chances, 0 to 1, rising."""
    grid, longer = _chance_longer(mean, sd)
    return np.interp(chances, 1 - longer, grid)


def _chance_longer(mean: np.ndarray, sd: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Return a grid of lengths and the chance that every one of the N is longer."""
    from scipy.special import ndtr

    mean, sd = np.asarray(mean, dtype=float), np.asarray(sd, dtype=float)
    if not sd.any():
        shortest = mean.min()
        return np.array([shortest, shortest + 1e-12 * max(1.0, shortest)]), np.array([1.0, 0.0])
    grid = np.unique(mean.min() + _SHARES_OF_SD * sd.max())
    known = sd == 0
    z = (grid[:, None] - mean[~known]) / sd[~known]
    longer = np.prod(ndtr(-z), axis=1) * (grid[:, None] < mean[known]).all(axis=1)
    return grid, longer
