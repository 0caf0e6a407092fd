"""Scenes get their colours: one packed table, one gather."""

from dataclasses import dataclass, replace
from math import atan, degrees

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.colour.csf_filter import srgb_from_afar
from yarncolor.colour.science import srgb_from_hex
from yarncolor.colour.srgb import coded, linear
from yarncolor.pictures.appearance import JOIN_STEPS, MOTTLES, STAPLE_M, ColourAt, colour_at
from yarncolor.pictures.drafted import drafted_lots, shown_lots, turn_at
from yarncolor.pictures.scene import FIXED_SRGB, LEVELS, PAPER, Scene, light_of_levels

_SPARSE = 1 << 22
_OPAQUE = np.uint32(0xFF000000)


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
    table = colour_table(scene, answer, paint)
    return np.take(table, scene.index, mode="clip")


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
    shown = colour_at(
        answer.layout.stretches, scene.ply, scene.metre, staple_m=paint.staple_m, seed=paint.seed
    )
    shown = _side_by_side(shown, scene, answer)
    entry, used = _entries(shown, len(answer.plan.lots))
    ground = _packed(FIXED_SRGB)
    table = np.empty((len(ground) + len(entry), LEVELS), np.uint32)
    table[: len(ground)], yarn = ground, table[len(ground) :]
    np.take(_packed(_mixed_srgb(used, answer, paint)), entry, axis=0, out=yarn, mode="clip")
    yarn[np.isnan(scene.metre)] = ground[PAPER, -1]
    return table.ravel()


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
    return srgb_from_afar(scene.index, table, degrees_per_px)


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


def _packed(srgb: np.ndarray) -> np.ndarray:
    """Return colours at every level, packed: (entries, LEVELS) uint32."""
    light, through = light_of_levels()
    paper = FIXED_SRGB[PAPER]
    own = np.clip(srgb[:, None, :] * light[:, None], 0, 255)
    mixed = own * (1 - through[:, None]) + paper * through[:, None]
    level = np.rint(mixed).astype(np.uint32)
    packed: np.ndarray = level[..., 0] | level[..., 1] << 8 | level[..., 2] << 16 | _OPAQUE
    return packed
