"""How light falls on fibre: a colour at every level, with relief left on the darkest and lightest.

Light multiplies a colour's coded values; about the level at which surfaces lie in the mean, it is
what it was said to be. Near white, where nothing can be brighter, light is pressed together from
both ends; near black, where a product shows nothing, a veil of light that fibre throws back
undyed, as every surface does, keeps light and dark apart. Strengths are by eye.
"""

import numpy as np
from scipy.ndimage import gaussian_filter

from yarncolor.pictures.scene import FIXED_SRGB, FUZZ, LEVELS, PAPER, SHADES

TO_LIGHT = np.array([-0.30, -0.66, 0.69], np.float32)
"""Where the light of every picture is: to the left, above (down is positive), towards the eye; of
length 1, nearly."""

DARK, BRIGHT = 0.46, 1.12
"""By what a colour's values are multiplied where it is darkest and where it is brightest."""

FURROW = 0.34
"""How much light a ply loses towards the furrow beside it."""

MIDDLE = 9 / 11
"""How high, from dark to bright, light leaves a colour what it is."""

LEAST_RELIEF = 24.0
"""Least difference between dark and bright that every lot has, of 255."""


def heights() -> np.ndarray:
    """Return how high each level stands from dark to bright, 0 to 1: (LEVELS,).

    Hairs stand where light leaves a colour what it is.
    """
    high = np.full(LEVELS, MIDDLE)
    high[:SHADES] = np.linspace(0, 1, SHADES)
    return high


def let_through() -> np.ndarray:
    """Return how much of the ground each level lets through, 0 to 1: (LEVELS,)."""
    through = np.zeros(LEVELS)
    through[SHADES:] = (np.arange(FUZZ) + 1) / (FUZZ + 1)
    return through


def at_every_level(srgb: np.ndarray) -> np.ndarray:
    """Return colours of fibre at every level: (colours, LEVELS, 3), 0 to 255.

    Parameters
    ----------
    srgb : (colours, 3) array
        0 to 255.
    """
    high, peak = heights()[:, None], srgb.max(axis=1)[:, None, None]
    bright = np.minimum(BRIGHT, 255 / np.maximum(peak, 1))
    dark = DARK + BRIGHT - bright
    lack = np.maximum(LEAST_RELIEF - peak * (bright - dark), 0)
    veil = lack * high - np.minimum(lack * MIDDLE, peak * dark)
    return _on_paper(srgb[:, None, :] * (dark + (bright - dark) * high) + veil)


def fixed_at_every_level() -> np.ndarray:
    """Return what is no yarn at every level, itself where it is brightest: (3, LEVELS, 3)."""
    return _on_paper(FIXED_SRGB[:, None, :] * (DARK + (1 - DARK) * heights()[:, None]))


def of_ply(within: np.ndarray) -> np.ndarray:
    """Return how light a ply is, about 1: dark where it lies against its neighbours.

    Parameters
    ----------
    within : array
        Where on the ply, from one of its rims, 0, to the other, 1.
    """
    to_rim = (2 * within - 1) ** 2
    light: np.ndarray = 1 + FURROW * (0.2 - to_rim * to_rim)
    return light


def past_higher(high: np.ndarray, reach_px: tuple[float, float], darkening: float) -> np.ndarray:
    """Return how much light reaches each place past what stands higher round it, 0 to 1.

    Parameters
    ----------
    high : (rows, columns) float array
        How high the surface stands.
    reach_px : (float, float)
        How far it is looked round, in pixels of that map, down and across.
    darkening : float
        How fast it gets dark, for a unit of height.
    """
    around = gaussian_filter(high, reach_px, mode="wrap", truncate=2.5)
    light: np.ndarray = np.exp(-darkening * np.maximum(around - high, 0))
    return light


def _on_paper(own: np.ndarray) -> np.ndarray:
    through = let_through()[:, None]
    seen: np.ndarray = np.clip(own, 0, 255) * (1 - through) + FIXED_SRGB[PAPER] * through
    return seen
