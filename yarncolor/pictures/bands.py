"""Bands of colour over a yarn: lots in columns, plies as slanting stripes, an axis of metres."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from yarncolor.colour.science import srgb_from_hex
from yarncolor.layout.stretches import WHOLE_PPB, Stretches
from yarncolor.measures import Measure
from yarncolor.pictures.coverage import covered
from yarncolor.pictures.png import PAPER

STRIPE_PX, SLANT = 6, 0.5
"""Width of a ply's stripe; pixels that it leans for each that it is high."""

FINER = 9
"""Samples across a column: odd, so that of two lots one has more."""


@dataclass(frozen=True)
class Columns:
    """What the plies show in columns of pixels: (width, plies) arrays.

    Parameters
    ----------
    lot, other : int array
        The lot that has most of a column, and the one that comes second.
    share : uint8 array
        Of the second, in `WHOLE_SHARE` parts; 0 where there is none.
    """

    lot: np.ndarray
    other: np.ndarray
    share: np.ndarray


def shared_columns(along: Stretches, width_px: int) -> Columns:
    """Return which lots share each column of each ply.

    Parameters
    ----------
    along : Stretches
        Of the plied yarn, which fills the width.
    width_px : int
        How many columns.
    """
    finely = lots_of_columns(along, width_px * FINER).T
    whole, (at, other, _, share) = covered(finely, np.ones(finely.shape), (1, FINER))
    second, shares = whole[0].copy(), np.zeros(whole[0].shape, np.uint8)
    second.flat[at], shares.flat[at] = other, share
    return Columns(whole[0].T, second.T, shares.T)


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


def across_stripes(width_px: int, height_px: int) -> np.ndarray:
    """Return how far across its ply's stripe each pixel of a plied band lies: 0 to 1.

    Parameters
    ----------
    width_px, height_px : int
        Of the band.
    """
    x, y = np.arange(width_px), np.arange(height_px)[:, None]
    across: np.ndarray = (x + (height_px - y) * SLANT) % STRIPE_PX / STRIPE_PX
    return across


def slanting_windows(
    width_px: int, height_px: int, plies: int, ply: int, wide: int = 1
) -> np.ndarray:
    """Return the stripes in which a plied band shows one ply, as shapes: (stripes, 4, 2).

    Corners, x and y from the band's top left, run once round; stripes at the ends reach beyond it.

    Parameters
    ----------
    width_px, height_px : int
        Of the band.
    plies, ply : int
        How many take turns, and which one, from 0.
    wide : int
        How many stripes each is wide, where it lies under those of the next plies.
    """
    lean = height_px * SLANT
    stripes = np.arange(ply, int(np.ceil((width_px + lean) / STRIPE_PX)) + 1, plies)
    left, each = stripes * STRIPE_PX - lean, wide * STRIPE_PX
    across = np.array([0, each, each + lean, lean])
    down = np.broadcast_to([0, 0, height_px, height_px], (len(left), 4))
    return np.stack([left[:, None] + across, down], axis=-1)


def plies_and_yarn(
    along: Stretches, srgb: Sequence[str], width_px: int, heights_px: tuple[int, int, int]
) -> np.ndarray:
    """Return each ply's colours and the plied yarn under them: (height, width, 3) uint8.

    Parameters
    ----------
    along : Stretches
        Of the plied yarn, which fills the width.
    srgb : sequence of str
        CSS hex of each lot.
    width_px : int
        How many columns.
    heights_px : (int, int, int)
        Of all plies together, a line between them; of what is left free; of the plied yarn.
    """
    lot, (plies_px, gap_px, plied_px) = lots_of_columns(along, width_px), heights_px
    plies = lot.shape[1]
    ply = np.full((sum(heights_px), width_px), -1)
    edges = np.linspace(0, plies_px, plies + 1).round().astype(int)
    for k in range(plies):
        ply[edges[k] : edges[k + 1] - (plies > 1)] = k
    ply[plies_px + gap_px :] = slanting_stripes(width_px, plied_px, plies)
    rgb = srgb_from_hex([*srgb, PAPER])
    index = np.where(ply < 0, len(rgb) - 1, lot[np.arange(width_px), ply])
    level: np.ndarray = np.rint(rgb * 255).astype(np.uint8)[index]
    return level


def nice_step(least: float) -> float:
    """Return the smallest of 1, 2, 5 times a power of ten that is not below the least."""
    power = 10.0 ** np.floor(np.log10(least))
    return float(
        next(power * digit for digit in (1, 2, 5, 10) if power * digit >= least * (1 - 1e-9))
    )


def axis_m(yarn_m: float, least_m: float, length: Measure) -> list[tuple[float, str]]:
    """Return where an axis is marked, in metres, and what is written there.

    Parameters
    ----------
    yarn_m : float
        Length of the yarn.
    least_m : float
        From mark to mark, at least.
    length : Measure
        What lengths are said in.
    """
    step = nice_step(length.of(least_m))
    marks = np.arange(0, length.of(yarn_m) * (1 + 1e-9), step).tolist()
    return [(mark * length.size, f"{mark:.10g}" if mark else f"0 {length.unit}") for mark in marks]
