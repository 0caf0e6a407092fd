"""A ball as a scene: wound by hand, some turns one way, then some another, what is last on top.

Each layer is a belt of turns round an axis of its own; where no upper belt lies, the next is seen.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import pi

import numpy as np

from yarncolor.pictures.coverage import index_and_edges
from yarncolor.pictures.relief import MIDDLE, TO_LIGHT, of_ply
from yarncolor.pictures.scene import FIXED_SRGB, LEVELS, PAPER, Edges, Scene
from yarncolor.pictures.strands import Twist
from yarncolor.pictures.yarn_scenes import PictureScale

_FINER, _SEED, _LAYERS, _CHANCES = 2, 9, 60, 4096
_BELT, _SPREAD, _CLOSE = 0.1, 0.5, 0.94
"""Half a belt's width over the ball's radius, how far that strays, and from turn to turn over the
yarn's thickness."""

_AT_ONCE = 1 << 15
"""Samples that are looked at at once, which keeps them in a cache."""

_SHARE = 0.94
"""Of the picture's smaller side that the ball fills."""

_PACKED = 0.6
"""How much of a ball is yarn as it lies, by eye."""

_MOST_PLACES, _CELLS = 240_000, (8, 48)
"""Places that a ball is cut into, as far as turns have no fewer cells than the first of these."""

_AMBIENT, _SHADOW, _SHADE_REACH, _DARKEST = 0.3, 0.62, 0.8, 0.05
_WANDER, _WAVES = 0.6, 2
_BETWEEN, _UNEVEN = 0.35, 0.32
"""Light between turns; how far the line where two meet wanders, over a turn's thickness."""


@dataclass(frozen=True)
class Ball:
    """A wound ball.

    Parameters
    ----------
    scene : Scene
        As it is seen.
    wide_mm : float
        How wide it is.
    outside_m : float
        Length of yarn, from the end outside on, in which all lies that is seen.
    """

    scene: Scene
    wide_mm: float
    outside_m: float


@dataclass(frozen=True)
class _Belts:
    """Belts of turns, the outermost first: half widths, turns in each, and how thick these are.

    Frames (belts, 3, 3) have each belt's axis and two directions from which turns are counted.
    """

    frame: np.ndarray
    half: np.ndarray
    turns: np.ndarray
    thick: float

    @property
    def first(self) -> np.ndarray:
        """Turns that lie in belts before each, and in all."""
        return np.append(0, np.cumsum(self.turns))


def ball_mm(yarn_m: float, thick_mm: float) -> float:
    """Return how wide a ball is that is wound of a yarn.

    Parameters
    ----------
    yarn_m : float
        Its length.
    thick_mm : float
        How thick it lies.
    """
    return float((6 / pi * yarn_m * 1000 * pi / 4 * thick_mm**2 / _PACKED) ** (1 / 3))


def ball(
    yarn_m: float, twist: Twist, thick_mm: float, size_px: tuple[int, int], start_outside: bool
) -> Ball:
    """Return a ball, wound so that one end of the yarn lies outside.

    Parameters
    ----------
    yarn_m : float
        Length of the yarn.
    twist : Twist
        Of the yarn.
    thick_mm : float
        How thick it lies.
    size_px : (int, int)
        Width and height of the picture.
    start_outside : bool
        Whether it is the end where plying began.
    """
    wide_mm = ball_mm(yarn_m, thick_mm)
    size = PictureScale(*size_px, _SHARE * min(size_px) / wide_mm)
    thick = min(2 * thick_mm / wide_mm, 1.0)
    belts = _belts(thick)
    cells = int(np.clip(_MOST_PLACES // (belts.first[-1] * twist.plies), *_CELLS))
    index, edges = _kept(size, thick, cells, twist)
    gone_m = _gone_m(belts, cells, wide_mm / 2000)
    gone_m *= min(1.0, yarn_m / gone_m.max())
    place = np.append(index.reshape(-1), edges.index) // LEVELS - len(FIXED_SRGB)
    seen_m = gone_m[place[place >= 0] // twist.plies].max()
    metre = np.repeat(gone_m if start_outside else yarn_m - gone_m, twist.plies)
    ply = np.tile(np.arange(twist.plies), len(gone_m))
    scene = Scene(index, ply, np.clip(metre, 0, yarn_m), 1 / size.px_per_mm, edges)
    return Ball(scene, wide_mm, float(seen_m))


@lru_cache(maxsize=4)
def _belts(thick: float) -> _Belts:
    """Return belts of turns so thick, over the ball's radius; the last covers what is left."""
    rng = np.random.default_rng(_SEED)
    axis = rng.standard_normal((_LAYERS, 3))
    axis /= np.linalg.norm(axis, axis=1)[:, None]
    half = _BELT * (1 + _SPREAD * rng.uniform(-1, 1, _LAYERS))
    turns = np.maximum(np.rint(2 * half / (thick * _CLOSE)), 2).astype(np.intp)
    turns[-1] = max(int(np.ceil(2 / (thick * _CLOSE))), 2)
    half = turns * thick * _CLOSE / 2
    frame = np.stack([axis, *_round(axis)], axis=1).astype(np.float32)
    return _Belts(frame, half.astype(np.float32), turns, thick)


def _gone_m(belts: _Belts, cells: int, radius_m: float) -> np.ndarray:
    """Return how much yarn lies from the outer end to each cell: (turns * cells,)."""
    along = [
        np.sqrt(np.maximum(1 - np.linspace(-half, half, turns) ** 2, belts.thick**2 / 4))
        for half, turns in zip(belts.half, belts.turns, strict=True)
    ]
    each = np.repeat(2 * pi * radius_m * np.concatenate(along) / cells, cells)
    gone: np.ndarray = np.cumsum(each) - each / 2
    return gone


@lru_cache(maxsize=4)
def _kept(size: PictureScale, thick: float, cells: int, twist: Twist) -> tuple[np.ndarray, Edges]:
    """Return the index of a ball and its edges."""
    high, wide = size.height_px * _FINER, size.width_px * _FINER
    radius = _SHARE * min(size.width_px, size.height_px) / 2 * _FINER
    x = ((np.arange(wide) + 0.5 - wide / 2) / radius).astype(np.float32)
    y = ((high / 2 - np.arange(high) - 0.5) / radius).astype(np.float32)
    inside = x**2 + y[:, None] ** 2 < 1
    on = np.stack([np.broadcast_to(x, inside.shape)[inside], np.nonzero(inside)[0]])
    on[1] = y[on[1].astype(np.intp)]
    normal = np.vstack([on, np.sqrt(1 - (on**2).sum(axis=0))[None]]).astype(np.float32)
    place = np.full(inside.shape, PAPER - len(FIXED_SRGB), np.int32)
    shade = np.ones(inside.shape, np.float32)
    belts, parts = _belts(thick), range(0, normal.shape[1], _AT_ONCE)
    wound = [_wound(normal[:, at : at + _AT_ONCE], belts, cells, twist) for at in parts]
    place[inside], lit = (np.concatenate(each) for each in zip(*wound, strict=True))
    shade[inside] = np.clip(lit * (MIDDLE / lit.mean()), _DARKEST, 1)
    return index_and_edges(place, shade, (_FINER, _FINER))


def _wound(
    normal: np.ndarray, belts: _Belts, cells: int, twist: Twist
) -> tuple[np.ndarray, np.ndarray]:
    """Return place and light of samples of a ball, by their normals: (3, samples)."""
    belt, north, gone, shadow = _belt_seen(normal, belts)
    across = (north + belts.half[belt]) / np.float32(belts.thick * _CLOSE)
    turn, rim = _turn_seen(across, belts.first[belt], gone)
    turn = np.clip(turn, 0, belts.turns[belt] - 1)
    out = np.sqrt(1 - (rim * np.float32(0.98)) ** 2)
    run = gone * (2 * pi / belts.thick * twist.turns) + _chance(belts.first[belt] + turn)
    turned = (run + np.arcsin(rim) / (2 * pi)) * twist.plies
    ply = np.floor(turned)
    lit = _AMBIENT + (1 - _AMBIENT) * _lambert(normal, belts.frame[belt, 0], rim, out)
    lit = lit * shadow * (_BETWEEN + (1 - _BETWEEN) * out)
    if twist.plies > 1:
        lit = lit * of_ply(turned - ply)
    cell = np.minimum((gone * cells).astype(np.int32), cells - 1)
    own = (belts.first[belt] + belts.turns[belt] - 1 - turn) * cells + cell
    place = own * twist.plies + ply.astype(np.intp) % twist.plies
    return place.astype(np.int32), lit


def _turn_seen(
    across: np.ndarray, first: np.ndarray, gone: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """Return which turn of its belt each sample shows, and where on it, from -1 to 1.

    Turns lie unevenly: where two of them meet wanders round the ball.
    """
    turn = np.floor(across).astype(np.intp)

    def meets(which: np.ndarray) -> np.ndarray:
        """Return where each turn begins."""
        chance = _chance(first + which)
        away: np.ndarray = np.sin(2 * pi * ((1 + 3 * chance).round() * gone + chance))
        begun: np.ndarray = which + _UNEVEN * away
        return begun

    turn += (across >= meets(turn + 1)).astype(np.intp) - (across < meets(turn))
    begun, ended = meets(turn), meets(turn + 1)
    rim: np.ndarray = np.clip((across - begun) / (ended - begun) * 2 - 1, -1, 1)
    return turn, rim


def _chance(number: np.ndarray) -> np.ndarray:
    """Return a number from 0 to 1 for each turn, the same whenever it is asked for."""
    chance: np.ndarray = _chances()[number % _CHANCES]
    return chance


@lru_cache(maxsize=1)
def _chances() -> np.ndarray:
    return np.random.default_rng(_SEED).random(_CHANCES).astype(np.float32)


def _belt_seen(
    normal: np.ndarray, belts: _Belts
) -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
    """Return which belt each sample shows, how far north of its middle, how far round, the shadow.

    Latitudes are sines, and wander round the ball; what is round goes from 0 to 1.
    """
    samples = normal.shape[1]
    belt = np.full(samples, len(belts.turns) - 1)
    north, gone = np.zeros(samples, np.float32), np.zeros(samples, np.float32)
    shadow, left = np.ones(samples, np.float32), np.arange(samples)
    for number, (frame, half) in enumerate(zip(belts.frame, belts.half, strict=True)):
        here = normal[:, left]
        latitude = frame[0] @ here
        near = np.flatnonzero(np.abs(latitude) < half + 2 * belts.thick)
        if not len(near):
            continue
        east, side = frame[1:] @ here[:, near]
        around = np.arctan2(side, east) / np.float32(2 * pi) % 1
        wander = np.sin(2 * pi * (_WAVES * around + number / 7)) * _WANDER * belts.thick
        lies = latitude[near] + wander.astype(np.float32)
        beyond = np.abs(lies) - half
        is_on = beyond < 0 if number < len(belts.turns) - 1 else np.ones(len(near), bool)
        shaded = left[near[~is_on & (beyond < _SHADE_REACH * belts.thick)]]
        shadow[shaded] = np.minimum(shadow[shaded], _SHADOW)
        at = left[near[is_on]]
        belt[at], north[at], gone[at] = number, lies[is_on], around[is_on]
        kept = np.ones(len(left), bool)
        kept[near[is_on]] = False
        left = left[kept]
    return belt, north, gone, shadow


def _round(axis: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Return two directions square to each axis and to each other: (belts, 3) each."""
    other = np.eye(3)[np.abs(axis).argmin(axis=1)]
    east = np.cross(other, axis)
    east /= np.linalg.norm(east, axis=1)[:, None]
    return east, np.cross(axis, east)


def _lambert(normal: np.ndarray, axis: np.ndarray, rim: np.ndarray, out: np.ndarray) -> np.ndarray:
    """Return light on the round of turns that lie on a ball: (samples,)."""
    light = TO_LIGHT * np.array([1, -1, 1], np.float32)
    on_ball, latitude = light @ normal, np.einsum("sk,ks->s", axis, normal)
    level = np.sqrt(np.maximum(1 - latitude**2, 1e-3))
    on_side = (axis @ light - latitude * on_ball) / level
    lit: np.ndarray = np.maximum(out * on_ball + rim * on_side, 0)
    return lit
