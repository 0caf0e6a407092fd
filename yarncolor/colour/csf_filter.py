"""A picture as it looks from a distance: planes of a palette, filtered as the eye does."""

from functools import cache, lru_cache

import numpy as np

from yarncolor.colour.optical_mixing import OPPONENT, gaussian_left
from yarncolor.colour.plied_stripes import KERNELS, ply_in_front
from yarncolor.colour.science import xyz_from_lab
from yarncolor.colour.srgb import coded, linear_of_bytes

_SRGB_FROM_XYZ = np.array(
    [[3.2406, -1.5372, -0.4986], [-0.9689, 1.8758, 0.0415], [0.0557, -0.2040, 1.0570]]
)
"""IEC 61966-2-1."""
_LEVELS = 4096
_TURNED_ON = 0.618034
"""Turns of twist by which a wrap is ahead of the one before: no two near each other alike."""


def seen_from_afar(index: np.ndarray, lab: np.ndarray, degrees_per_px: float) -> np.ndarray:
    """Return a picture (height, width, 3) uint8 sRGB as it looks from afar.

    The palette is converted, never the pixels. Each opponent plane of S-CIELAB is blurred by
    its finest Gaussian, with reflected edges so that the border does not darken. The broad
    Gaussians, which S-CIELAB needs to weigh differences, would tint whole areas: they are left
    out of a picture.

    Parameters
    ----------
    index : (height, width) int array
        Which colour each pixel has.
    lab : (colours, 3) array
        CIELAB of the colours.
    degrees_per_px : float
        Degrees of sight that a pixel takes; 0 leaves the picture as it is.
    """
    return _seen((xyz_from_lab(lab) @ OPPONENT.T)[index], degrees_per_px)


def srgb_from_afar(
    index: np.ndarray,
    srgb: np.ndarray,
    degrees_per_px: float,
    second: tuple[np.ndarray, np.ndarray, np.ndarray] | None = None,
) -> np.ndarray:
    """Return a picture as `seen_from_afar` does, from a table of sRGB colours.

    Parameters
    ----------
    index : (height, width) int array
        Which colour each pixel has.
    srgb : (colours, 3) uint8 array
        The colours.
    degrees_per_px : float
        Degrees of sight that a pixel takes; 0 leaves the picture as it is.
    second : ((E,) int array, (E,) int array, (E,) array), optional
        Pixels that a second colour has a share of, counted along the rows; that colour; its
        share, 0 to 1, of the light.
    """
    xyz = linear_of_bytes()[srgb] @ np.linalg.inv(_SRGB_FROM_XYZ).T
    colours = (xyz @ OPPONENT.T).astype(np.float32)
    planes = colours[index]
    if second is not None:
        at, other, share = second
        flat = planes.reshape(-1, 3)
        flat[at] += (colours[other] - flat[at]) * share[:, None].astype(np.float32)
    return _seen(planes, degrees_per_px)


def _seen(planes: np.ndarray, degrees_per_px: float) -> np.ndarray:
    if degrees_per_px > 0:
        planes = _filtered(planes.astype(np.float32), degrees_per_px)
    linear = planes @ (_SRGB_FROM_XYZ @ np.linalg.inv(OPPONENT)).T.astype(np.float32)
    levels: np.ndarray = _encoded()[np.clip(linear * _LEVELS, 0, _LEVELS).astype(np.int32)]
    return levels


def _filtered(planes: np.ndarray, degrees_per_px: float) -> np.ndarray:
    import scipy.fft

    waves = scipy.fft.dctn(planes, axes=(0, 1), workers=2)
    waves *= _passed_on(planes.shape[:2], degrees_per_px)
    filtered: np.ndarray = scipy.fft.idctn(waves, axes=(0, 1), workers=2, overwrite_x=True)
    return filtered


@lru_cache(maxsize=4)
def _passed_on(shape: tuple[int, int], degrees_per_px: float) -> np.ndarray:
    """Return what the finest Gaussian of each plane passes on of each wave: (height, width, 3)."""
    down, along = (np.arange(size) / (2 * size * degrees_per_px) for size in shape)
    finest = [min(width for width, _ in kernels) for kernels in KERNELS]
    left = [np.outer(gaussian_left(width, down), gaussian_left(width, along)) for width in finest]
    return np.stack(left, axis=-1).astype(np.float32)


@cache
def _encoded() -> np.ndarray:
    """Return the sRGB byte of each level of linear light (IEC 61966-2-1)."""
    codes: np.ndarray = np.rint(coded(np.arange(_LEVELS + 1) / _LEVELS) * 255).astype(np.uint8)
    return codes


def wraps(
    width_px: int, height_px: int, plies: int, period_px: float, yarn_px: float
) -> np.ndarray:
    """Return the index map (height, width) of a marl wrapped side by side: which ply is seen.

    Parameters
    ----------
    width_px, height_px : int
        Size of the picture.
    plies : int
        How many plies follow one another, 2 or more.
    period_px : float
        Length over which all plies show once.
    yarn_px : float
        How thick the yarn lies.
    """
    x, y = np.arange(width_px), np.arange(height_px)[:, None] / yarn_px
    turn = x / period_px + np.floor(y) * _TURNED_ON
    return ply_in_front(plies, turn, y % 1 - 0.5)[0]
