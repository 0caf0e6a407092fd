"""The yarn itself as scenes: a length at true scale, the whole folded, wraps on a card."""

from dataclasses import dataclass, replace
from functools import lru_cache
from math import ceil, floor

import numpy as np

from yarncolor.pictures.coverage import covered
from yarncolor.pictures.scene import (
    CARD,
    PAPER,
    WHOLE_SHARE,
    Edges,
    Scene,
    fixed,
    fuzz_level,
    levels_of,
    yarn_index,
)
from yarncolor.pictures.yarn_geometry import GROUND, YarnGeometry, side_view
from yarncolor.units import MM_PER_INCH

_CELL_PX, _FUZZ_DENSITY = 6, 0.38
_LONGEST_PITCH_PX = 6000
_MOST_SAMPLES, _DOWN_OF_FEW = 1 << 21, 3
"""Of a wrap with a turn to spare; a few wraps of thicker yarn begin alike, with fewer samples."""

_WRAP_CELL_MM = 2.5
_STRIPE_PX, _DOWN = 5, 5
_TOUCHING, _GROOVE = 0.98, 0.5
"""Thickness of a wrap over the room it has; light on the card between two of them."""


@dataclass(frozen=True)
class PictureScale:
    """Size of a picture: pixels, and pixels for a millimetre of the thing."""

    width_px: int
    height_px: int
    px_per_mm: float


def true_scale(rope: YarnGeometry, relaxed_mm: float, size: PictureScale, from_m: float) -> Scene:
    """Return a length of yarn from the side, its twist in the phase that it has at that metre.

    Core and angles are those of the packed yarn, hairs reach out to the relaxed diameter.

    Parameters
    ----------
    rope : YarnGeometry
        The plied yarn.
    relaxed_mm : float
        How thick it lies.
    size : PictureScale
        Of the picture.
    from_m : float
        Metre of yarn at the picture's left edge.
    """
    rope, off = _in_phase(rope, size.px_per_mm, from_m * 1000)
    whole, edges = _kept(rope, relaxed_mm, size)
    columns = whole.shape[1]
    cells = ceil(columns / _CELL_PX)
    middle_px = (np.arange(cells) + 0.5) * _CELL_PX - off
    metre = from_m + middle_px / size.px_per_mm / 1000
    plies = len(rope.radii_mm)
    return Scene(
        index=whole[:, off : off + size.width_px],
        ply=np.repeat(np.arange(plies), cells),
        metre=np.tile(metre, plies),
        mm_per_px=1 / size.px_per_mm,
        edges=edges.cut(off, size.width_px, columns),
    )


@lru_cache(maxsize=8)
def _kept(rope: YarnGeometry, relaxed_mm: float, size: PictureScale) -> tuple[np.ndarray, Edges]:
    """Return index and edges of a picture and a pitch more, so that any phase is a cut from it."""
    width = size.width_px + _pitch_px(rope, size.px_per_mm)
    view = side_view(rope, width, size.height_px, size.px_per_mm, _DOWN)
    cells = ceil(width / _CELL_PX)
    cell = (np.arange(width) // _CELL_PX).astype(np.int32)
    place = np.where(view.ply == GROUND, GROUND, view.ply * np.int32(cells) + cell)
    (main, light), (at, other, lit, share) = covered(place, view.shade, (_DOWN, 1))
    index, second = (
        np.where(each == GROUND, fixed(PAPER), yarn_index(each, levels_of(shade)))
        for each, shade in ((main, light), (other, lit))
    )
    ply = np.where(main == GROUND, GROUND, main // cells)
    return _fuzzed(index, ply, relaxed_mm * size.px_per_mm / 2, cells), Edges(at, second, share)


def _fuzzed(index: np.ndarray, ply: np.ndarray, reach_px: float, cells: int) -> np.ndarray:
    """Return the index with hairs beside the core, out to the relaxed thickness."""
    high, wide = index.shape
    core = ply != GROUND
    top, bottom = core.argmax(axis=0), high - 1 - core[::-1].argmax(axis=0)
    y = np.arange(high)[:, None]
    for edge, away in ((top, top - y), (bottom, y - bottom)):
        room = np.maximum(reach_px - np.abs(edge - high / 2), 2.0)
        far = away / room
        noise = _hairs(high, wide)
        is_hair = (far > 0) & (far < 1) & (noise < _FUZZ_DENSITY * (1 - far))
        nearest = ply[np.clip(edge, 0, high - 1), np.arange(wide)]
        place = np.broadcast_to(nearest * cells + np.arange(wide) // _CELL_PX, index.shape)
        hair = is_hair & (place >= 0) & core.any(axis=0)
        index = np.where(hair, yarn_index(place, fuzz_level(0.25 + 0.7 * far)), index)
    return index


@lru_cache(maxsize=4)
def _hairs(high: int, wide: int) -> np.ndarray:
    """Return noise that runs in short slanting hairs: (high, wide), 0 to 1."""
    noise = np.random.default_rng(7).random((high, wide)).astype(np.float32)
    slanted = [np.roll(noise, (step, 2 * step), (0, 1)) for step in range(3)]
    hairs: np.ndarray = np.minimum.reduce(slanted) * 2.2
    return hairs


def _in_phase(rope: YarnGeometry, px_per_mm: float, from_mm: float) -> tuple[YarnGeometry, int]:
    """Return a rope and how many pixels of it to pass over, so that its turns are those there.

    A pitch that is too long to be kept whole is begun anew instead.
    """
    if not rope.turns_per_mm:
        return rope, 0
    if _pitch_px(rope, px_per_mm):
        return rope, round(from_mm % rope.pitch_mm * px_per_mm)
    return replace(rope, phase=from_mm * rope.turns_per_mm % 1), 0


def _pitch_px(rope: YarnGeometry, px_per_mm: float) -> int:
    """Return the pixels of a pitch, rounded up; 0 without twist, or where it is too long."""
    if not rope.turns_per_mm or rope.pitch_mm * px_per_mm > _LONGEST_PITCH_PX:
        return 0
    return ceil(rope.pitch_mm * px_per_mm)


def folded(yarn_m: float, rope: YarnGeometry, rows: int, size: PictureScale) -> Scene:
    """Return the whole yarn in rows of equal length, as it lies on a niddy-noddy.

    Each row runs from left to right; in it the plies stand as slanting stripes, which meet along
    the diagonals of pixels.

    Parameters
    ----------
    yarn_m : float
        Length of the yarn.
    rope : YarnGeometry
        The plied yarn; its stripes lean the way that it is twisted.
    rows : int
        How many rows.
    size : PictureScale
        Of the picture, at the scale of the yarn's thickness.
    """
    high, wide, plies = size.height_px, size.width_px, len(rope.radii_mm)
    lean = -1 if rope.turns_per_mm >= 0 else 1
    cells = ceil(wide / _CELL_PX)
    y, x = np.arange(high)[:, None], np.arange(wide)[None, :]
    row = np.minimum(y * rows // high, rows - 1)
    row_top = -(-np.arange(rows + 1) * high // rows)
    within, last = y - row_top[row], row_top[row + 1] - row_top[row] - 1
    stripe, beyond = np.divmod(x + lean * within, _STRIPE_PX)
    place, other = (
        (row * plies + ply % plies) * cells + x // _CELL_PX for ply in (stripe, stripe + lean)
    )
    between = np.minimum(within, last - within)
    level = levels_of(np.where(between < 1, 0.35, np.where(between < 3, 0.75, 0.97)))
    index, second = (yarn_index(each, level) for each in (place, other))
    is_half = (beyond == (0 if lean < 0 else _STRIPE_PX - 1)) & (second != index)
    if last.min() > 4:
        index = np.where(within == last, fixed(PAPER), index)
        is_half &= within != last
    at = np.flatnonzero(is_half)
    half = np.full(len(at), WHOLE_SHARE // 2, np.uint8)
    each = (np.arange(rows)[:, None] + (np.arange(cells) + 0.5) / cells) * yarn_m / rows
    return Scene(
        index=index,
        ply=np.tile(np.repeat(np.arange(plies), cells), rows),
        metre=np.repeat(each, plies, axis=0).reshape(rows, plies, cells).ravel(),
        mm_per_px=1 / size.px_per_mm,
        edges=Edges(at, second.reshape(-1)[at], half),
    )


@dataclass(frozen=True)
class WrapCard:
    """A yarn wound round a card, as spinners make samples.

    Parameters
    ----------
    scene : Scene
        Front of the card.
    wraps : int
        That lie on it.
    length_m : float
        Yarn on the card, front and back.
    """

    scene: Scene
    wraps: int
    length_m: float


def wrap_card(
    rope: YarnGeometry,
    wpi: float,
    size: PictureScale,
    reach_m: tuple[float, float],
    *,
    sampled: bool = False,
) -> WrapCard:
    """Return a card wound with yarn at its own wraps to the inch, front seen.

    Each wrap takes twice the card's width; every other width lies on the back. A sampled card
    shows the whole yarn instead: its wraps begin at evenly spread metres.

    Parameters
    ----------
    rope : YarnGeometry
        The plied yarn, drawn as thick as it lies.
    wpi : float
        Wraps to the inch.
    size : PictureScale
        Of the picture: the card and nothing beside it.
    reach_m : (float, float)
        Metre of yarn that is wound on first, and the yarn's end.
    sampled : bool
        Whether wraps are taken from all along the yarn.
    """
    from_m, end_m = reach_m
    wrap_px = MM_PER_INCH / wpi * size.px_per_mm
    wraps = max(1, floor(size.height_px / wrap_px))
    width_m = size.width_px / size.px_per_mm / 1000
    step_m = (end_m - from_m - width_m) / max(wraps - 1, 1) if sampled else 2 * width_m
    starts = from_m + max(step_m, 0.0) * np.arange(wraps)
    cells = max(1, ceil(width_m * 1000 / _WRAP_CELL_MM))
    plies = len(rope.radii_mm)
    index, edges = _wraps_kept(rope, wpi, size, wraps)
    metre = starts[:, None] + (np.arange(cells) + 0.5) / cells * width_m
    metre = np.where(metre <= end_m, metre, np.nan)
    scene = Scene(
        index=index,
        ply=np.tile(np.repeat(np.arange(plies), cells), wraps),
        metre=np.repeat(metre, plies, axis=0).ravel(),
        mm_per_px=1 / size.px_per_mm,
        edges=edges,
    )
    return WrapCard(scene, wraps, float(min(2 * width_m * wraps, end_m - from_m)))


@lru_cache(maxsize=4)
def _wraps_kept(
    rope: YarnGeometry, wpi: float, size: PictureScale, wraps: int
) -> tuple[np.ndarray, Edges]:
    """Return the index of a card and its edges; the card lies in shadow beside the yarn."""
    place, shade = _wound(rope, wpi, size, wraps)
    finer = (len(place) // size.height_px, 1)
    (main, light), (at, other, lit, share) = covered(place, shade, finer)
    index, second = (
        np.where(each == GROUND, fixed(CARD, 0) + levels_of(lit), yarn_index(each, levels_of(lit)))
        for each, lit in ((main, light), (other, lit))
    )
    return index, Edges(at, second, share)


def _wound(
    rope: YarnGeometry, wpi: float, size: PictureScale, wraps: int
) -> tuple[np.ndarray, np.ndarray]:
    """Return place and shade of each sample of a card, wraps one below the other."""
    wide, wrap_px = size.width_px, MM_PER_INCH / wpi * size.px_per_mm
    thick = rope.as_thick_as(MM_PER_INCH / wpi * _TOUCHING)
    tall, pitch = max(3, ceil(wrap_px)), _pitch_px(rope, size.px_per_mm)
    down = _DOWN
    if (wide + pitch) * tall * down > _MOST_SAMPLES:
        pitch, down = 0, _DOWN_OF_FEW
    view = side_view(thick, wide + pitch, tall, size.px_per_mm, down)
    cells = max(1, ceil(wide / size.px_per_mm / _WRAP_CELL_MM))
    cell = np.minimum(np.arange(wide) * cells // wide, cells - 1).astype(np.int32)
    place = np.full((size.height_px * down, wide), GROUND, np.int32)
    shade = np.ones(place.shape, np.float32)
    for wrap in range(wraps):
        top = round(((wrap + 0.5) * wrap_px - tall / 2) * down)
        rows = slice(max(0, -top), min(tall * down, len(place) - top))
        off = round(2 * wrap * wide % (rope.pitch_mm * size.px_per_mm)) if pitch else 0
        ply, lit = (each[rows, off : off + wide] for each in (view.ply, view.shade))
        part = slice(top + rows.start, top + rows.stop)
        is_yarn = ply != GROUND
        first = np.int32(wrap * len(rope.radii_mm))
        place[part] = np.where(is_yarn, (first + ply) * np.int32(cells) + cell, place[part])
        shade[part] = np.where(is_yarn, lit, np.minimum(shade[part], _GROOVE))
    return place, shade
