"""Plain weave as a scene: the yarn as weft, pick by pick, on a plain warp."""

from dataclasses import dataclass, replace
from functools import lru_cache
from math import ceil

import numpy as np
from scipy.ndimage import gaussian_filter

from yarncolor.pictures.coverage import index_and_edges
from yarncolor.pictures.crossings import WARP_END, Crossings, crossings
from yarncolor.pictures.relief import of_ply
from yarncolor.pictures.scene import (
    FIXED_SRGB,
    LEVELS,
    PAPER,
    WARP,
    Edges,
    Scene,
)
from yarncolor.pictures.yarn_scenes import PictureScale

WARP_ROOM = 0.56
"""How much of an end's room the warp's thread fills."""

_MOST_WEFT_CELLS, _FINER, _BAND = 160, 2, 64
_LEAST_FINE, _MOST_FINE = 16, 256
_FINER_ENDS = 8
"""Samples across a pixel of a warp that stands alone: of a fine one a pixel holds much."""

_SEED, _STREAKS = 11, (256, 1024)
_STREAK, _STREAK_MM, _STREAKS_ACROSS = 0.11, 0.06, 20.0
"""How far fibres stray from light to dark; a step along them; how many lie on half of a thread."""

_FEW_PX = 9.0
"""Rows of pixels from which on the fibres of a pick are drawn."""


@dataclass(frozen=True)
class Sett:
    """How a cloth is set.

    Parameters
    ----------
    picks_per_mm, ends_per_mm : float
        Of the cloth.
    turns_per_mm : float
        Turns of ply twist in a millimetre of weft, above 0 for S.
    weft_mm : float
        How wide the weft lies.
    """

    picks_per_mm: float
    ends_per_mm: float
    turns_per_mm: float
    weft_mm: float


@dataclass(frozen=True)
class _Threads:
    """Picks that are drawn, ends, cells of a pick, and plies."""

    picks: int
    ends: int
    cells: int
    plies: int


def woven(plies: int, size: PictureScale, sett: Sett, reach_m: tuple[float, float]) -> Scene:
    """Return plain weave with the yarn as weft on a plain warp, the first pick at the bottom.

    Parameters
    ----------
    plies : int
        Strands of the yarn.
    size : PictureScale
        Of the picture.
    sett : Sett
        Of the cloth.
    reach_m : (float, float)
        Metre of yarn in the first pick, and the yarn's end.
    """
    from_m, end_m = reach_m
    high_mm, wide_mm = size.height_px / size.px_per_mm, size.width_px / size.px_per_mm
    count = max(1, round(high_mm * sett.picks_per_mm))
    ends = max(1, round(wide_mm * sett.ends_per_mm))
    threads = _Threads(min(count, size.height_px), ends, min(ends, _MOST_WEFT_CELLS), plies)
    index, edges = _woven_kept(size, threads, sett)
    number = np.floor((np.arange(threads.picks) + 0.5) * count / threads.picks)[:, None]
    middle = (np.arange(threads.cells) + 0.5) / threads.cells
    within = np.where(number % 2 == 0, middle, 1 - middle)
    metre = from_m + (number + within) * wide_mm / 1000
    metre = np.repeat(np.where(metre <= end_m, metre, np.nan).ravel(), plies)
    ply = np.tile(np.arange(plies), threads.picks * threads.cells)
    scene = Scene(index, ply, metre, 1 / size.px_per_mm, edges)
    return _with_bare_warp(scene, threads) if np.isnan(metre).any() else scene


def _with_bare_warp(scene: Scene, threads: _Threads) -> Scene:
    """Return a cloth whose warp stands alone where the yarn does not reach."""
    high, wide = scene.shape
    end = np.arange(wide) * threads.ends // wide
    pick = (high - 1 - np.arange(high))[:, None] * threads.picks // high
    own = (pick * threads.cells + end * threads.cells // threads.ends) * threads.plies
    place = scene.index // LEVELS - len(FIXED_SRGB)
    is_bare = np.isnan(scene.metre)[np.where(place >= 0, place, own)]
    alone, shared = _warp_alone(wide, threads.ends)
    bare_at = np.flatnonzero(is_bare[:, shared.at])
    row, edge = np.divmod(bare_at, max(len(shared.at), 1))
    kept = ~is_bare.reshape(-1)[scene.edges.at]
    edges = Edges(
        np.concatenate((scene.edges.at[kept], row * wide + shared.at[edge])),
        np.concatenate((scene.edges.index[kept], shared.index[edge])),
        np.concatenate((scene.edges.share[kept], shared.share[edge])),
    )
    rising = np.argsort(edges.at)
    edges = Edges(edges.at[rising], edges.index[rising], edges.share[rising])
    return replace(scene, index=np.where(is_bare, alone, scene.index), edges=edges)


def _warp_alone(wide_px: int, ends: int) -> tuple[np.ndarray, Edges]:
    """Return one row of a warp that nothing crosses: the index of each pixel, and its edges."""
    end = (np.arange(wide_px * _FINER_ENDS) + 0.5) / (wide_px * _FINER_ENDS) * ends
    shade = np.sqrt(np.maximum(1 - ((end % 1 * 2 - 1) / WARP_ROOM) ** 2, 0))
    is_warp = shade > 0
    place = np.where(is_warp, WARP, PAPER) - len(FIXED_SRGB)
    samples = (place[None], np.where(is_warp, shade, 1)[None])
    return index_and_edges(*samples, (1, _FINER_ENDS))


@lru_cache(maxsize=4)
def _woven_kept(size: PictureScale, threads: _Threads, sett: Sett) -> tuple[np.ndarray, Edges]:
    """Return the index of a cloth and its edges."""
    wide_mm, high_mm = size.width_px / size.px_per_mm, size.height_px / size.px_per_mm
    end_mm, pick_mm = wide_mm / threads.ends, high_mm / threads.picks
    fine = ceil(max(end_mm, pick_mm) * size.px_per_mm * _FINER)
    surface = crossings(
        min(max(fine, _LEAST_FINE), _MOST_FINE),
        (pick_mm, end_mm),
        (sett.weft_mm * sett.picks_per_mm * pick_mm, WARP_ROOM * end_mm),
    )
    bands = range(0, size.height_px * _FINER, _BAND * _FINER)
    parts = [_band(surface, size, threads, sett.turns_per_mm, top) for top in bands]
    place, shade = (np.concatenate(each) for each in zip(*parts, strict=True))
    return index_and_edges(place, shade, (_FINER, _FINER))


@dataclass(frozen=True)
class _Samples:
    """Where the samples of some rows lie: pick and end with what is left over, millimetres."""

    up: np.ndarray
    along: np.ndarray
    up_mm: np.ndarray
    along_mm: np.ndarray


def _samples(size: PictureScale, threads: _Threads, top: int) -> _Samples:
    """Return where samples lie, from some row of them down."""
    high, wide = size.height_px * _FINER, size.width_px * _FINER
    up = (high - 0.5 - np.arange(top, min(top + _BAND * _FINER, high)))[:, None]
    along = np.arange(wide) + 0.5
    mm = [(each / _FINER / size.px_per_mm).astype(np.float32) for each in (up, along)]
    return _Samples(up * threads.picks / high, along * threads.ends / wide, *mm)


def _band(
    surface: Crossings, size: PictureScale, threads: _Threads, turns_per_mm: float, top: int
) -> tuple[np.ndarray, np.ndarray]:
    """Return place and shade of the samples in some rows of a cloth, from one of them down."""
    at = _samples(size, threads, top)
    row, column = ((each % 2 * surface.fine).astype(np.int32) for each in (at.up, at.along))
    tile = row * np.int32(2 * surface.fine) + column
    who, around, shade = (
        np.take(each.reshape(-1), tile) for each in (surface.pick, surface.around, surface.shade)
    )
    is_weft = who < WARP_END
    thread = at.up.astype(np.int32) + np.where(is_weft, who, 0)
    thread = np.clip(thread, 0, threads.picks - 1)
    wide_mm = size.width_px / size.px_per_mm
    turned = _turned(thread, at.along_mm, around, np.float32(wide_mm), np.float32(turns_per_mm))
    turned *= threads.plies
    ply = np.floor(turned)
    if size.height_px / threads.picks >= _FEW_PX:
        shade *= _streaks(around, np.where(is_weft, at.along_mm, at.up_mm), thread)
        shade *= np.where(is_weft & (threads.plies > 1), of_ply(turned - ply), 1)
    cell = (at.along.astype(np.int32) * threads.cells // threads.ends).astype(np.int32)
    place = (thread * threads.cells + cell) * threads.plies + ply.astype(np.int32) % threads.plies
    bare = np.where(who == WARP_END, np.int32(WARP), np.int32(PAPER)) - np.int32(len(FIXED_SRGB))
    return np.where(is_weft, place, bare), shade


def _turned(
    thread: np.ndarray,
    along_mm: np.ndarray,
    around: np.ndarray,
    wide_mm: np.float32,
    turns_per_mm: np.float32,
) -> np.ndarray:
    """Return how many turns of twist lie before each sample of a weft that goes forth and back."""
    is_forth = thread % 2 == 0
    gone = thread * (wide_mm * turns_per_mm % 1) + np.where(is_forth, around, -around)
    turned: np.ndarray = gone + np.where(is_forth, along_mm, wide_mm - along_mm) * turns_per_mm
    return turned


def _streaks(around: np.ndarray, along_mm: np.ndarray, thread: np.ndarray) -> np.ndarray:
    """Return how light the fibres are that lie along each thread."""
    noise = _noise()
    many, long = noise.shape
    row = (around * (2 * _STREAKS_ACROSS) + thread * 17 + many).astype(np.int32) % many
    column = (along_mm / np.float32(_STREAK_MM)).astype(np.int32) % long
    light: np.ndarray = np.take(noise.reshape(-1), row * long + column)
    return light


@lru_cache(maxsize=1)
def _noise() -> np.ndarray:
    """Return noise that is drawn out along its rows, about 1: `_STREAKS` float32."""
    noise = np.random.default_rng(_SEED).standard_normal(_STREAKS)
    drawn = gaussian_filter(noise, (0.8, 12.0), mode="wrap")
    light: np.ndarray = (1 + _STREAK * drawn / drawn.std()).astype(np.float32)
    return light
