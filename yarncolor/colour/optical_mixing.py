"""A marl seen from afar: when its stripes run together, and into which colour.

References
----------
.. [1] X. Zhang and B. A. Wandell, A spatial extension of CIELAB for digital color-image
   reproduction, Journal of the Society for Information Display 5, 1997, 61-63; matrix and
   half-widths as in the authors' published code of 1996 (the printed table differs a little).
.. [2] H. G. Grassmann, Zur Theorie der Farbenmischung, Annalen der Physik 165, 1853, 69-84:
   lights add; as G. Wyszecki and W. S. Stiles, Color Science, 2000, have it (quoted).
.. [3] P. Khuntong and W. Siapthaisong, technical report (in Thai), Buriram Rajabhat University,
   2021, table 4.7: hand-woven cloths of two colours; doi 10.5281/zenodo.23205538 (CC BY 4.0).
"""

import numpy as np
from numpy.typing import ArrayLike

from yarncolor.colour.difference import ALIKE_BELOW
from yarncolor.colour.plied_stripes import (
    DISTANCES,
    KERNELS,
    LAID,
    SAMPLES_PER_STRIPE,
    kept_of_stripes,
)
from yarncolor.colour.science import ciede2000, lab_from_xyz, white_xyz, xyz_from_lab

OPPONENT = np.array(
    [
        [0.2787336, 0.7218031, -0.1065520],
        [-0.4487736, 0.2898056, 0.0771569],
        [0.0859513, -0.5899859, 0.5011089],
    ]
)
"""XYZ to luminance, red-green and blue-yellow [1]_."""


MERGED_APART = 4.0
"""CIEDE2000 of `far_lab` and what was measured, in the mean of 100 cloths of two colours [3]_."""

MERGED_DARKER = 2.3
"""By how much L* those cloths were darker in the mean."""


def far_lab(share: ArrayLike, lab: ArrayLike) -> np.ndarray:
    """Return CIELAB (k, 3) of what stripes of n lots become when they can no longer be told apart.

    The mean of linear light, weighted by visible area [2]_. Strands shade each other a little: in
    100 cloths woven of two colours, what was measured [3]_ is 2.3 darker in L* and 4.0 away in
    CIEDE2000, each in the mean; the mean in CIELAB, which no light makes, lies 2.6 away. No plied
    yarn was measured.

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


def stripes_lab(lab: ArrayLike, kept: np.ndarray) -> np.ndarray:
    """Return CIELAB (..., plies, 3) of the middle of each stripe, of which so much is kept [1]_.

    Parameters
    ----------
    lab : (..., plies, 3) array
        CIELAB of the plies, in the order in which their stripes follow one another.
    kept : (..., waves, 3) array
        What is kept of the mean and of each wave of a whole turn in the opponent planes; waves
        that are not given are gone. All 1 changes nothing.
    """
    lab = np.asarray(lab)
    plies = lab.shape[-2]
    opponent = np.repeat(xyz_from_lab(lab) @ OPPONENT.T, SAMPLES_PER_STRIPE, axis=-2)
    waves = np.fft.rfft(opponent, axis=-2)[..., : kept.shape[-2], :] * kept
    seen = np.fft.irfft(waves, n=plies * SAMPLES_PER_STRIPE, axis=-2)
    middle = np.arange(plies) * SAMPLES_PER_STRIPE + SAMPLES_PER_STRIPE // 2
    xyz = (seen[..., middle, :] + seen[..., middle - 1, :]) / 2 @ np.linalg.inv(OPPONENT).T
    return lab_from_xyz(np.clip(xyz, 0, None), white_xyz())


def stripe_contrast(lab: ArrayLike, kept: np.ndarray) -> np.ndarray:
    """Return the CIEDE2000 (...) of the farthest two stripes of a marl of which so much is kept.

    Parameters
    ----------
    lab : (..., plies, 3) array
        CIELAB of two plies or more.
    kept : (..., waves, 3) array
        As `stripes_lab` takes it.
    """
    seen = stripes_lab(lab, kept)
    one, other = np.triu_indices(seen.shape[-2], 1)
    most: np.ndarray = ciede2000(seen[..., one, :], seen[..., other, :]).max(axis=-1)
    return most


def as_wide_as_a_minute_m(width_mm: float) -> float:
    """Return from how far a thread takes one minute of arc, the finest that is told apart.

    Parameters
    ----------
    width_mm : float
        How thick it is.
    """
    return float(width_mm / 1000 / np.tan(np.radians(1 / 60)))


def reads_as_one_m(
    lab: ArrayLike, period_mm: float, width_mm: float, laid: str = "wrapped"
) -> np.ndarray:
    """Return the distance (...) from which on a marl reads as one colour, in metres.

    That is where its stripes are alike [1]_, and at the farthest where the yarn itself takes one
    minute of arc. 0 where they are alike as they are. A model's prediction, checked against
    drawn yarns and not against eyes.

    Parameters
    ----------
    lab : (..., plies, 3) array
        CIELAB of two plies or more, in the order of their stripes.
    period_mm : float
        Length of yarn over which all plies show once: one turn of the ply twist.
    width_mm : float
        How thick the yarn lies.
    laid : str
        A single yarn "alone", "wrapped" side by side as on a card, or "knitted".
    """
    if not (0 < period_mm < np.inf and 0 < width_mm < np.inf and laid in LAID):
        raise ValueError(
            f"a period and a width are numbers of millimetres above 0, laid is one of {LAID}"
        )
    lab = np.asarray(lab)
    kept = kept_of_stripes(lab.shape[-2], float(f"{period_mm / width_mm:.6g}"), laid)
    left = stripe_contrast(lab[..., None, :, :], kept)
    plain = stripe_contrast(lab, np.ones_like(kept[0]))
    share = np.where(plain > ALIKE_BELOW, _last_above(left), 0.0)
    return share * as_wide_as_a_minute_m(width_mm)


def _last_above(left: np.ndarray) -> np.ndarray:
    """Return the share of the farthest distance up to which stripes (..., distances) differ."""
    above = left > ALIKE_BELOW
    last = len(DISTANCES) - 1 - above[..., ::-1].argmax(axis=-1)
    last = np.where(above.any(axis=-1), last, 0)
    after = np.minimum(last + 1, len(DISTANCES) - 1)
    here, there = (np.take_along_axis(left, at[..., None], -1)[..., 0] for at in (last, after))
    falls = np.where(here > there, here - there, 1.0)
    part = np.clip((here - ALIKE_BELOW) / falls, 0, 1)
    low, high = np.log(DISTANCES[last]), np.log(DISTANCES[after])
    share: np.ndarray = np.exp(low + part * (high - low))
    return share
