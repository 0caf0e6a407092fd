"""Scenes get their colours: one packed table, one gather, one blend where two places meet."""

from dataclasses import dataclass, replace
from math import atan, degrees

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.colour.csf_filter import srgb_from_afar
from yarncolor.colour.science import srgb_from_hex
from yarncolor.colour.srgb import coded, linear
from yarncolor.pictures.appearance import JOIN_STEPS, MOTTLES, STAPLE_M, ColourAt, colour_at
from yarncolor.pictures.blending import lanes_of, packed_of, shared
from yarncolor.pictures.drafted import drafted_lots, shown_lots, turn_at
from yarncolor.pictures.relief import at_every_level, fixed_at_every_level
from yarncolor.pictures.scene import FIXED_SRGB, LEVELS, PAPER, SHADES, WHOLE_SHARE, Scene

_SPARSE, _AT_ONCE = 1 << 22, 1 << 15


@dataclass(frozen=True)
class Paint:
    """How a scene is coloured.

    Parameters
    ----------
    mottle : float
        How far dye strays from light to dark within a lot, as a share of linear light.
    staple_m : float
        Length of a join.
    seed : int
        Of the unevenness.
    """

    mottle: float = 0.16
    staple_m: float = STAPLE_M
    seed: int = 1


def painted(scene: Scene, answer: Answer, paint: Paint = Paint()) -> np.ndarray:
    """Return a scene in the colours of a plan: (height, width) uint32, RGBA by bytes.

    Parameters
    ----------
    scene : Scene
        What is drawn.
    answer : Answer
        Whose colours; `yarncolor.seen_as` gives those of another eye.
    paint : Paint
        Unevenness and joins.
    """
    row, packed = _rows(scene, answer, paint)
    pixels = np.take(_of_places(packed, row), scene.index, mode="clip")
    if len(scene.edges.at):
        _share(pixels.reshape(-1), scene, _of_places(lanes_of(packed), row))
    return pixels


def _share(pixels: np.ndarray, scene: Scene, lanes: np.ndarray) -> None:
    """Blend, in a row of all pixels, those that two places share: as many as a cache holds."""
    edges, index = scene.edges, scene.index.reshape(-1)
    for start in range(0, len(edges.at), _AT_ONCE):
        part = slice(start, start + _AT_ONCE)
        at = edges.at[part]
        first = np.take(index, at, mode="clip")
        one, other = (np.take(lanes, each, mode="clip") for each in (first, edges.index[part]))
        pixels[at] = shared(one, other, edges.share[part])


def colour_table(scene: Scene, answer: Answer, paint: Paint) -> np.ndarray:
    """Return the packed colour of every place at every level: (places * LEVELS,) uint32.

    Parameters
    ----------
    scene : Scene
        What is drawn.
    answer : Answer
        Whose colours.
    paint : Paint
        Unevenness and joins.
    """
    row, packed = _rows(scene, answer, paint)
    return _of_places(packed, row)


def _of_places(rows: np.ndarray, row: np.ndarray) -> np.ndarray:
    return np.take(rows, row, axis=0, mode="clip").ravel()


def _rows(scene: Scene, answer: Answer, paint: Paint) -> tuple[np.ndarray, np.ndarray]:
    """Return which row of colours each place has, and the rows: (places,), (rows, LEVELS)."""
    shown = colour_at(
        answer.layout.stretches, scene.ply, scene.metre, staple_m=paint.staple_m, seed=paint.seed
    )
    shown = _side_by_side(shown, scene, answer)
    entry, used = _entries(shown, len(answer.plan.lots))
    ground, blank = packed_of(fixed_at_every_level()), len(FIXED_SRGB)
    packed = np.empty((blank + 1 + len(used[0]), LEVELS), np.uint32)
    packed[:blank], packed[blank] = ground, ground[PAPER, SHADES - 1]
    packed[blank + 1 :] = packed_of(at_every_level(_mixed_srgb(used, answer, paint)))
    yarn = np.where(np.isnan(scene.metre), blank, entry + blank + 1)
    return np.concatenate([np.arange(blank), yarn]), packed


def painted_from_afar(
    scene: Scene,
    answer: Answer,
    distance_m: float,
    paint: Paint = Paint(),
) -> np.ndarray:
    """Return a scene as it looks from a distance: (height, width, 3) uint8.

    Parameters
    ----------
    scene : Scene
        What is drawn; its scale says how large it is.
    answer : Answer
        Whose colours.
    distance_m : float
        From the eye, above 0.
    paint : Paint
        Unevenness and joins.
    """
    table = rgb(colour_table(scene, answer, paint)[None, :])[0]
    degrees_per_px = degrees(atan(scene.mm_per_px / 1000 / distance_m))
    edges = scene.edges
    second = (edges.at, edges.index, edges.share / WHOLE_SHARE)
    return srgb_from_afar(scene.index, table, degrees_per_px, second)


def rgb(pixels: np.ndarray) -> np.ndarray:
    """Return packed pixels as (height, width, 3) uint8.

    Parameters
    ----------
    pixels : (height, width) uint32 array
        RGBA by bytes.
    """
    return pixels.view(np.uint8).reshape(*pixels.shape, 4)[..., :3]


def _side_by_side(shown: ColourAt, scene: Scene, answer: Answer) -> ColourAt:
    """Return what places show where lots are drafted together: one of those at each."""
    drafted = drafted_lots(answer.plan.lots)
    if not drafted:
        return shown
    metre = np.clip(np.nan_to_num(scene.metre), 0.0, answer.layout.stretches.yarn_m)
    turn = turn_at(scene.ply, metre)
    one, other = (shown_lots(lot, turn, drafted) for lot in (shown.one, shown.other))
    return replace(shown, one=one, other=other)


def _entries(shown: ColourAt, lots: int) -> tuple[np.ndarray, tuple[np.ndarray, ...]]:
    """Return which entry each place has, and the entries in use: one, other, mix, mottle."""
    shape = (lots, lots, JOIN_STEPS + 1, MOTTLES)
    key = np.ravel_multi_index((shown.one, shown.other, shown.mix, shown.mottle), shape)
    if np.prod(shape) > _SPARSE:
        used, entry = np.unique(key, return_inverse=True)
    else:
        is_used = np.zeros(int(np.prod(shape)), bool)
        is_used[key] = True
        used = np.flatnonzero(is_used)
        entry = (np.cumsum(is_used) - 1)[key]
    return entry, np.unravel_index(used, shape)


def _mixed_srgb(used: tuple[np.ndarray, ...], answer: Answer, paint: Paint) -> np.ndarray:
    """Return the colours of entries: mixed and shaded in linear light, (entries, 3), 0 to 255."""
    one, other, mix, mottle = used
    light_of_lots = linear(srgb_from_hex(list(answer.palette.srgb)))
    share = (mix / JOIN_STEPS)[:, None]
    light = 1 + paint.mottle * (mottle - (MOTTLES - 1) / 2)[:, None] / (MOTTLES - 1) * 2
    return 255 * coded(
        np.clip((light_of_lots[one] * (1 - share) + light_of_lots[other] * share) * light, 0, 1)
    )
