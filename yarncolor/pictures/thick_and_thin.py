"""Thick and thin along a yarn, as its hands are said to be: the same at the same place."""

from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from yarncolor.answers.spins import SEED
from yarncolor.answers.straying import drifted
from yarncolor.answers.straying import reach_m as reach_of
from yarncolor.layout.layout import Layout
from yarncolor.pictures.page import EDGE_PX, LINE_PX, TEXT_PX, Page
from yarncolor.pictures.png import PAPER

_NODES, _A_REACH = 65_536, 8
_LEAST_GRIST = 0.05
_ROWS, _ROW_M, _THICK_PX, _ROW_PX = 3, 5.0, 14.0, 26
_DARK, _LIGHT = np.array([92.0, 84.0, 66.0]), np.array([206.0, 196.0, 172.0])


class Hand(NamedTuple):
    """What hands are called, and the coefficient of variation of grist along what they spin."""

    name: str
    variation: float


def thickness_at(
    metre: NDArray[np.float64], variation: float, reach_m: float, strand: int = 0
) -> NDArray[np.float64]:
    """Return how thick a single is at places of it, over its mean: (n,).

    Its grist strays by a coefficient of variation and is alike at a distance x by
    exp(-x / reach); its thickness goes with the root of that.

    Parameters
    ----------
    metre : (n,) array
        Along the single.
    variation : float
        Of its grist.
    reach_m : float
        How far a thick or thin place reaches, in metres.
    strand : int
        Which single, from 0; each strays for itself.
    """
    at = np.maximum(np.nan_to_num(metre), 0.0) / reach_m * _A_REACH
    left = np.floor(at).astype(np.int64)
    share, stray = at - left, _stray(strand)
    value = stray[left % _NODES] * (1 - share) + stray[(left + 1) % _NODES] * share
    return np.asarray(np.sqrt(np.maximum(1 + variation * value, _LEAST_GRIST)))


def yarn_thickness_at(laid: Layout, metre: NDArray[np.float64]) -> NDArray[np.float64] | None:
    """Return how thick a plied yarn is at places of it, over its mean: (n,); None where even.

    Parameters
    ----------
    laid : Layout
        The plan laid out.
    metre : (n,) array
        Along the yarn.
    """
    variation = laid.resolved.plan.spinning.variation_within
    if not variation:
        return None
    along = metre / (1 - laid.resolved.contraction)
    plies = range(laid.resolved.yarn.plies)
    each = [thickness_at(along, variation, reach_of(laid), ply) ** 2 for ply in plies]
    return np.asarray(np.sqrt(np.mean(each, axis=0)))


@lru_cache(maxsize=16)
def _stray(strand: int) -> NDArray[np.float64]:
    """Return a single's grist at nodes along it, as SDs from its mean: (_NODES,)."""
    alike = float(np.exp(-1 / _A_REACH))
    new = np.random.default_rng((SEED, strand)).standard_normal(_NODES)
    new[1:] *= np.sqrt(1 - alike**2)
    return drifted(new, alike)


def swollen(
    index: NDArray[np.intp], thickness: NDArray[np.float64], ground: int
) -> NDArray[np.intp]:
    """Return a picture of a yarn along its middle, each column as thick as is said.

    Parameters
    ----------
    index : (height, width) int array
        The yarn as even.
    thickness : (width,) array
        Of each column, over its mean.
    ground : int
        What is seen beside the yarn.
    """
    high, wide = index.shape
    from_middle = np.arange(high)[:, None] + 0.5 - high / 2
    row = np.floor(from_middle / thickness + high / 2).astype(np.intp)
    inside = (row >= 0) & (row < high)
    seen = index[np.clip(row, 0, high - 1), np.arange(wide)]
    return np.where(inside, seen, ground)


def lengths_of_single(hands: Sequence[Hand], reach_m: float, width_px: int) -> Image.Image:
    """Return some metres of single for each of several hands, under each other, named.

    Parameters
    ----------
    hands : sequence of Hand
        At least one.
    reach_m : float
        How far a thick or thin place reaches, in metres.
    width_px : int
        Of the picture.
    """
    part_px = LINE_PX + 6 + _ROWS * _ROW_PX + EDGE_PX
    page = Page(Image.new("RGB", (width_px, part_px * len(hands)), PAPER))
    for number, (name, variation) in enumerate(hands):
        top = number * part_px
        page.write((EDGE_PX, top + 4), name, TEXT_PX + 1, width_px - 2 * EDGE_PX, bold=True)
        page.paste(
            _single(variation, reach_m, width_px - 2 * EDGE_PX), (EDGE_PX, top + LINE_PX + 6)
        )
    return page.image


def _single(variation: float, reach_m: float, wide: int) -> NDArray[np.uint8]:
    """Return rows of a single, one after the other: (rows, wide, 3)."""
    metre = (np.arange(_ROWS)[:, None] + (np.arange(wide) + 0.5) / wide) * _ROW_M
    half_px = thickness_at(metre, variation, reach_m) * _THICK_PX / 2
    from_middle = np.abs(np.arange(_ROW_PX) + 0.5 - _ROW_PX / 2)[None, :, None]
    across = np.minimum(from_middle / half_px[:, None, :], 1.0)
    light = np.sqrt(1 - across**2)[..., None]
    covered = np.clip(half_px[:, None, :] - from_middle + 0.5, 0.0, 1.0)[..., None]
    pixels = 255.0 + (_DARK + (_LIGHT - _DARK) * light - 255.0) * covered
    return np.asarray(pixels.reshape(_ROWS * _ROW_PX, wide, 3).astype(np.uint8))


METRES_SHOWN = _ROWS * _ROW_M
"""Of single in each picture."""
