"""A twisted skein as a scene: two halves of a hank round each other, strand by strand.

Each strand has a course of its own: it wanders round its half, comes up and dives, and crosses its
neighbours. Ties and a tag hold the skein. Proportions by eye.
"""

from functools import lru_cache
from math import ceil

import numpy as np

from yarncolor.pictures.coverage import index_and_edges
from yarncolor.pictures.hank import Hank, hank
from yarncolor.pictures.relief import MIDDLE, TO_LIGHT, past_higher
from yarncolor.pictures.scene import (
    FIXED_SRGB,
    PAPER,
    Edges,
    Scene,
)
from yarncolor.pictures.skein_ties import hang_tag, tie_up
from yarncolor.pictures.strands import Canvas, Course, Twist
from yarncolor.pictures.yarn_scenes import PictureScale

_CELL_PX, _DOWN, _SEED = 8, 3, 5
_FEWEST_ROUND, _CORE = 5, 0.8
"""Strands from which on others fill what they lie round, and how thick that is, over the whole."""

_LAY = -0.5
"""Turns of strands round their half for each of its own, against it."""

_WANDER, _COME_UP, _BENDS = 0.16, 0.09, 4
"""How far strands wander round a half, in radians, and up and down, over its thickness; in how many
waves."""

_END, _REACH, _SHADOW = 2.2, 2.6, 0.10
_DARKEST = 0.05


def skein(yarn_m: float, twist: Twist, niddy_noddy_m: float, size: PictureScale) -> Scene:
    """Return a twisted skein, tied and tagged.

    A turn of the niddy-noddy is a strand of each half, there and back; where there are more turns
    than strands can be drawn, evenly spread ones are.

    Parameters
    ----------
    yarn_m : float
        Length of the yarn.
    twist : Twist
        Of the yarn.
    niddy_noddy_m : float
        Length of a turn.
    size : PictureScale
        Of the picture, at the scale of the yarn's thickness.
    """
    turns = max(1.0, yarn_m / niddy_noddy_m)
    drawn = hank(turns, size)
    index, edges = _kept(drawn, twist, size)
    cells = ceil(drawn.length / _CELL_PX)
    there = (np.arange(cells) + 0.5) / cells / 2
    around = np.stack([there, 1 - there])[:, None, :] * niddy_noddy_m
    turn = np.floor((np.arange(drawn.strands) + 0.5) / drawn.strands * turns)[:, None]
    metre = np.minimum(turn * niddy_noddy_m + around, yarn_m)
    ply = np.tile(np.arange(twist.plies), metre.size)
    return Scene(index, ply, np.repeat(metre.ravel(), twist.plies), 1 / size.px_per_mm, edges)


@lru_cache(maxsize=4)
def _kept(drawn: Hank, twist: Twist, size: PictureScale) -> tuple[np.ndarray, Edges]:
    """Return the index of a skein and its edges."""
    canvas = Canvas((size.height_px, size.width_px), _DOWN, PAPER - len(FIXED_SRGB))
    rng = np.random.default_rng(_SEED)
    for half in range(2):
        if drawn.strands >= _FEWEST_ROUND:
            canvas.draw(_core(drawn, half), _CORE * drawn.half_px, twist)
        for course in _courses(drawn, half, rng):
            canvas.draw(course, drawn.strand_px, twist)
    _light(canvas, drawn)
    tie_up(canvas, drawn)
    hang_tag(canvas, size)
    return index_and_edges(canvas.place, canvas.shade, (_DOWN, 1))


def _courses(drawn: Hank, half: int, rng: np.random.Generator) -> list[Course]:
    """Return where the strands of a half run."""
    turned = _turned(drawn, half)
    start = 2 * np.pi * (np.arange(drawn.strands) + rng.uniform(0, 1, drawn.strands))
    start = (start / drawn.strands)[:, None]
    around = start + _LAY * turned + _WANDER * _waves(rng, drawn)
    far = (drawn.half_px - drawn.strand_px) * (1 + _COME_UP * (_waves(rng, drawn) - 1))
    ends = _rounded(drawn)
    middle = (drawn.half_px * np.sin(turned) + far * np.sin(around)) * ends + drawn.high / 2
    depth = drawn.half_px * np.cos(turned) + far * np.cos(around)
    lit = np.maximum(TO_LIGHT[1] * np.sin(around) + TO_LIGHT[2] * np.cos(around), 0)
    maps = (each.astype(np.float32) for each in (middle, depth, lit))
    rows = zip(*maps, _cells(drawn, half), strict=True)
    return [Course(drawn.first, *each) for each in rows]


def _core(drawn: Hank, half: int) -> Course:
    """Return what is seen of a half between its outer strands: those inside, in shadow."""
    turned = _turned(drawn, half)
    middle = drawn.half_px * np.sin(turned) * _rounded(drawn) + drawn.high / 2
    cells, column = _cells(drawn, half), np.arange(drawn.length)
    inside = cells[column // _CELL_PX % drawn.strands, column]
    depth = drawn.half_px * (np.cos(turned) - 0.1)
    from_end = min(round(_END * drawn.half_px / 2), drawn.length // 3)
    part = slice(from_end, drawn.length - from_end)
    dark = np.zeros(drawn.length)
    return Course(drawn.first + from_end, middle[part], depth[part], dark[part], inside[part])


def _turned(drawn: Hank, half: int) -> np.ndarray:
    """Return how far a half has gone round the skein, in radians: (length,)."""
    x = np.arange(drawn.length) + 0.5
    turned: np.ndarray = 2 * np.pi * (x / drawn.pitch_px + half / 2 + 1 / 4)
    return turned


def _cells(drawn: Hank, half: int) -> np.ndarray:
    """Return the place of the yarn, all plies as one, along each strand: (strands, length)."""
    cells = ceil(drawn.length / _CELL_PX)
    cell = np.arange(drawn.length) * cells // drawn.length
    strand = half * drawn.strands + np.arange(drawn.strands)[:, None]
    places: np.ndarray = (strand * cells + cell).astype(np.int32)
    return places


def _waves(rng: np.random.Generator, drawn: Hank) -> np.ndarray:
    """Return slow waves along each strand, about -1 to 1: (strands, length)."""
    x = np.arange(drawn.length) / drawn.length
    waves = np.zeros((drawn.strands, drawn.length))
    for wave in range(1, _BENDS + 1):
        begun, high = rng.uniform(0, 1, (2, drawn.strands, 1))
        waves += (0.5 + high) * np.cos(2 * np.pi * (wave * 1.7 * x + begun))
    about_one: np.ndarray = waves / np.sqrt(_BENDS)
    return about_one


def _rounded(drawn: Hank) -> np.ndarray:
    """Return how far a skein opens from its ends, which are folds: 0 to 1, (length,)."""
    to_end = np.minimum(np.arange(drawn.length), np.arange(drawn.length)[::-1]) + 0.5
    share = np.clip(to_end / max(_END * drawn.half_px, 1), 0, 1)
    opened: np.ndarray = np.sqrt(1 - (1 - share) ** 2)
    return opened


def _light(canvas: Canvas, drawn: Hank) -> None:
    """Let strands lie in the shadow of those over them, light in the mean what leaves colours."""
    is_yarn = canvas.place >= 0
    farthest = -2 * drawn.half_px
    high = np.where(is_yarn, canvas.near, farthest).astype(np.float32)
    near = (high - farthest) / (4 * drawn.half_px)
    reach = _REACH * drawn.strand_px
    canvas.shade *= past_higher(high, (reach * _DOWN, reach), _SHADOW) * (0.45 + 0.55 * near)
    mean = canvas.shade[is_yarn].mean()
    canvas.shade = np.where(
        is_yarn, np.clip(canvas.shade * (MIDDLE / mean), _DARKEST, 1), 1
    ).astype(np.float32)
