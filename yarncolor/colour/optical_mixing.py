"""A marl seen from afar: when its stripes run together, and into which colour.

References
----------
.. [1] X. Zhang and B. A. Wandell, A spatial extension of CIELAB for digital color-image
   reproduction, Journal of the Society for Information Display 5, 1997, 61-63; matrix and
   half-widths as in the authors' published code of 1996 (the printed table differs a little).
.. [2] H. G. Grassmann, Zur Theorie der Farbenmischung, Annalen der Physik 165, 1853, 69-84
   (from memory): lights add.
"""

import numpy as np
from numpy.typing import ArrayLike

from yarncolor.colour.science import ciede2000, lab_from_xyz, white_xyz, xyz_from_lab

OPPONENT = np.array(
    [
        [0.2787336, 0.7218031, -0.1065520],
        [-0.4487736, 0.2898056, 0.0771569],
        [0.0859513, -0.5899859, 0.5011089],
    ]
)
"""XYZ to luminance, red-green and blue-yellow [1]_."""

KERNELS = (
    ((0.05, 1.00327), (0.225, 0.114416), (7.0, -0.117686)),
    ((0.0685, 0.616725), (0.826, 0.383275)),
    ((0.0920, 0.567885), (0.6451, 0.432115)),
)
"""Half-width in degrees and weight of the Gaussians of each opponent plane [1]_."""

JUST_SEEN = 2.3
"""A difference of colour that is just seen (Mahy and others, 1994, from memory)."""
_SAMPLES_PER_STRIPE = 32
_FINEST_CPD = 60.0


def far_lab(share: ArrayLike, lab: ArrayLike) -> np.ndarray:
    """Return CIELAB (k, 3) of what stripes of n lots become when they can no longer be told apart.

    The mean of linear light, weighted by visible area [2]_. Plies shade each other a little, so
    that a real yarn is somewhat darker.

    Parameters
    ----------
    share : (k, n) array
        Shares of visible area; each row is made to sum to 1.
    lab : (n, 3) array
        CIELAB of the lots.

    Raises
    ------
    ValueError
        For a share below 0, or a row of nothing.
    """
    parts = np.atleast_2d(np.asarray(share, dtype=float))
    if not ((parts >= 0).all() and (parts.sum(axis=1) > 0).all()):
        raise ValueError("each share is 0 or more, and not all are 0")
    mean = parts / parts.sum(axis=1, keepdims=True) @ xyz_from_lab(lab)
    return lab_from_xyz(mean, white_xyz())


def contrast_left(frequency_cpd: ArrayLike) -> np.ndarray:
    """Return what the eye passes on of a fine pattern: (..., 3) for the opponent planes [1]_.

    The continuous transform of the kernels, Σ w exp(-(π s f)²) with s = half-width / (2 √ln 2).
    Luminance rises a little above 1 at about one cycle per degree: no error.

    Parameters
    ----------
    frequency_cpd : (...) array
        Cycles per degree, 0 or more.
    """
    frequency = np.asarray(frequency_cpd, dtype=float)[..., None]
    planes = []
    for kernels in KERNELS:
        half_width, weight = np.array(kernels).T
        planes.append((weight * gaussian_left(half_width, frequency)).sum(axis=-1))
    return np.where(frequency == 0, 1.0, np.stack(planes, axis=-1))


def gaussian_left(half_width_deg: np.ndarray | float, frequency_cpd: np.ndarray) -> np.ndarray:
    """Return what a Gaussian of so wide a half passes on: exp(-(π s f)²), s = half / (2 √ln 2).

    Parameters
    ----------
    half_width_deg : array or float
        Where it has fallen to half, in degrees of sight.
    frequency_cpd : array
        Cycles per degree.
    """
    spread = half_width_deg / (2 * np.sqrt(np.log(2)))
    left: np.ndarray = np.exp(-((np.pi * spread * frequency_cpd) ** 2))
    return left


def cycles_per_degree(period_mm: float, distance_m: float) -> float:
    """Return how many periods fill a degree of sight at a distance; 0 when held to the eye.

    Parameters
    ----------
    period_mm : float
        Over which all plies show once, above 0.
    distance_m : float
        From the eye.
    """
    if distance_m <= 0:
        return 0.0
    return float(1 / np.degrees(np.arctan(period_mm / 1000 / distance_m)))


def stripes_lab(lab: np.ndarray, frequency_cpd: np.ndarray | float) -> np.ndarray:
    """Return CIELAB (..., plies, 3) of the middle of each stripe, as the eye sees them [1]_.

    Parameters
    ----------
    lab : (..., plies, 3) array
        CIELAB of the plies, in the order in which their stripes follow one another.
    frequency_cpd : (...) array or float
        Whole turns of all plies per degree of sight; 0 changes nothing.
    """
    lab = np.asarray(lab, dtype=float)
    plies = lab.shape[-2]
    opponent = np.repeat(xyz_from_lab(lab) @ OPPONENT.T, _SAMPLES_PER_STRIPE, axis=-2)
    waves = np.fft.rfft(opponent, axis=-2)
    cycles = np.arange(waves.shape[-2])
    waves *= contrast_left(np.asarray(frequency_cpd)[..., None] * cycles)
    seen = np.fft.irfft(waves, n=plies * _SAMPLES_PER_STRIPE, axis=-2)
    middle = np.arange(plies) * _SAMPLES_PER_STRIPE + _SAMPLES_PER_STRIPE // 2
    xyz = (seen[..., middle, :] + seen[..., middle - 1, :]) / 2 @ np.linalg.inv(OPPONENT).T
    return lab_from_xyz(np.clip(xyz, 0, None), white_xyz())


def stripe_contrast(lab: np.ndarray, frequency_cpd: np.ndarray | float) -> np.ndarray:
    """Return the CIEDE2000 (...) of the farthest two stripes of a marl, as the eye sees them.

    Parameters
    ----------
    lab : (..., plies, 3) array
        CIELAB of two plies or more.
    frequency_cpd : (...) array or float
        Whole turns of all plies per degree of sight.
    """
    seen = stripes_lab(lab, frequency_cpd)
    one, other = np.triu_indices(seen.shape[-2], 1)
    most: np.ndarray = ciede2000(seen[..., one, :], seen[..., other, :]).max(axis=-1)
    return most


def reads_as_one_cpd(lab: np.ndarray) -> np.ndarray:
    """Return the frequency (...) from which on a marl reads as one colour; 0 where it always does.

    Parameters
    ----------
    lab : (..., plies, 3) array
        CIELAB of two plies or more.
    """
    lab = np.asarray(lab, dtype=float)
    low = np.zeros(lab.shape[:-2])
    high = np.full(lab.shape[:-2], _FINEST_CPD)
    for _ in range(24):
        middle = (low + high) / 2
        seen = stripe_contrast(lab, middle) > JUST_SEEN
        low, high = np.where(seen, middle, low), np.where(seen, high, middle)
    return np.where(stripe_contrast(lab, low * 0) > JUST_SEEN, high, 0.0)


def reads_as_one_m(lab: np.ndarray, period_mm: float) -> np.ndarray:
    """Return the distance (...) from which on a marl reads as one colour, in metres.

    Parameters
    ----------
    lab : (..., plies, 3) array
        CIELAB of two plies or more, in the order of their stripes.
    period_mm : float
        Length of yarn over which all plies show once: one turn of the ply twist.
    """
    if not 0 < period_mm < np.inf:
        raise ValueError("a period is a number of millimetres above 0")
    frequency = np.maximum(reads_as_one_cpd(lab), 1e-9)
    distance = period_mm / 1000 / np.tan(np.radians(np.minimum(1 / frequency, 89.0)))
    return np.where(frequency <= 1e-9, 0.0, distance)
