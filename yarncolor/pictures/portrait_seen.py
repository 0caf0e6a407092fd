"""Which fibre is seen at each pixel: the nearest of those that cover it."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from yarncolor.pictures.portrait_fibres import Fibres, Floats

FINER = 2
"""Rows that are looked at for each row of the picture: fibres run along it."""

NONE = -1
_ACROSS_BITS, _FIBRE_BITS = 5, 12
_ACROSS = (1 << _ACROSS_BITS) - 1
_DEPTHS = (1 << (32 - _ACROSS_BITS - _FIBRE_BITS)) - 1
_THINNEST_PX = 1.6


@dataclass(frozen=True)
class Seen:
    """What is seen: (rows, columns) arrays.

    Parameters
    ----------
    fibre : int array
        Which; `NONE` beside the yarn.
    across : float array
        Where on it: -1 at its upper edge to 1 at its lower.
    z_mm : float array
        How near it is.
    """

    fibre: NDArray[np.int32]
    across: Floats
    z_mm: Floats


def seen_of(fibres: Fibres, rows: int, px_per_mm: float) -> Seen:
    """Return which fibre is seen at each pixel of a picture whose middle row is the yarn's axis.

    Nearness, fibre and place on it are one number, so that the largest at a pixel is what is seen.

    Parameters
    ----------
    fibres : Fibres
        At each column.
    rows : int
        Of the picture, `FINER` times its height.
    px_per_mm : float
        Scale along the yarn; across it there are `FINER` times as many.
    """
    columns = fibres.y_mm.shape[1]
    far_mm = float(np.abs(fibres.z_mm).max()) + 1e-6
    near = ((fibres.z_mm + far_mm) / (2 * far_mm) * (_DEPTHS - 2) + 1).astype(np.uint32)
    middle = fibres.y_mm * px_per_mm * FINER + rows / 2
    thin = np.maximum(fibres.width_mm[:, None] * px_per_mm, _THINNEST_PX) * FINER / 2
    half = thin * np.sqrt(1 + fibres.slope**2)
    keys = np.zeros((rows + 2, columns), np.uint32)
    for at in range(len(middle)):
        _cover(keys, middle[at], half[at], near[at] << _FIBRE_BITS | np.uint32(at))
    return _unpacked(keys[1:-1], far_mm)


def _cover(keys: NDArray[np.uint32], middle: Floats, half: Floats, own: NDArray[np.uint32]) -> None:
    """Put a fibre into the pixels that it covers where it is nearest; beyond lies a spare row."""
    rows, columns = keys.shape
    step = np.arange(2 * int(np.ceil(half.max())) + 1)[:, None]
    row = np.floor(middle - half).astype(np.int64) + 1 + step
    across = (row - middle) / half
    place = ((across + 1) / 2 * _ACROSS + 0.5).clip(0, _ACROSS).astype(np.uint32)
    packed = np.where(np.abs(across) < 1, own << _ACROSS_BITS | place, 0)
    at = (np.clip(row, -1, rows - 2) + 1) * columns + np.arange(columns)
    flat = keys.reshape(-1)
    inside = (row >= 0) & (row <= rows - 3)
    flat[at[inside]] = np.maximum(flat[at[inside]], packed[inside])


def _unpacked(keys: NDArray[np.uint32], far_mm: float) -> Seen:
    fibre = (keys >> _ACROSS_BITS & (1 << _FIBRE_BITS) - 1).astype(np.int32)
    across = (keys & _ACROSS).astype(np.float32) * (2 / _ACROSS) - 1
    near = (keys >> _ACROSS_BITS + _FIBRE_BITS).astype(np.float32)
    z = (near - 1) / (_DEPTHS - 2) * 2 * far_mm - far_mm
    return Seen(np.where(keys > 0, fibre, NONE).astype(np.int32), across, z)
