"""Fabric as scenes: plain knitting flat, in the round and as a triangle, garter, plain weave.

Each stitch takes its length of yarn in the order in which it is worked; so a stitch is a place of
the yarn for each ply, and its legs show the plies one after the other, as the twist lays them.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import floor

import numpy as np

from yarncolor.pictures.scene import PAPER, WARP, Scene, distinct, fixed, levels_of, yarn_index
from yarncolor.pictures.yarn_scenes import PictureScale

KINDS = ("flat", "round", "triangle", "garter")
LEAST_STITCH_PX = 2
_LEG, _LEAN, _TALL, _GAP = 0.42, 0.30, 1.42, 0.22
_WARP_SHARE, _MOST_WEFT_CELLS = 0.42, 160


@dataclass(frozen=True)
class KnitFabric:
    """A piece of plain knitting, stitch by stitch.

    Parameters
    ----------
    kind : str
        flat, round, triangle or garter.
    cast_on : int
        Stitches of the first row.
    rows : int
        Rows or rounds that are drawn.
    growth : float
        Stitches that a triangle wins in a row.
    stitch_m : float
        Yarn in one stitch, in metres of yarn as plied.
    turns_per_stitch : float
        Turns of ply twist in one stitch; above 0 for S.
    gauge_stitches : float
        Stitches in 10 cm, for the scale.
    """

    kind: str
    cast_on: int
    rows: int
    growth: float
    stitch_m: float
    turns_per_stitch: float
    gauge_stitches: float = 20.0

    @property
    def stitches(self) -> np.ndarray:
        """Stitches of each row: (rows,)."""
        growth = self.growth if self.kind == "triangle" else 0.0
        in_row: np.ndarray = np.floor(self.cast_on + growth * np.arange(self.rows)).astype(np.intp)
        return in_row

    @property
    def first_stitch(self) -> np.ndarray:
        """How many stitches were worked before each row, and in all: (rows + 1,)."""
        return np.append(0, np.cumsum(self.stitches))


def row_starts_m(knit: KnitFabric, from_m: float) -> np.ndarray:
    """Return where along the yarn each row begins, and the last ends: (rows + 1,).

    Parameters
    ----------
    knit : KnitFabric
        What is knitted.
    from_m : float
        Metre of yarn that the first stitch takes.
    """
    return from_m + knit.first_stitch * knit.stitch_m


def knitted(
    knit: KnitFabric, plies: int, size: PictureScale, reach_m: tuple[float, float], aspect: float
) -> Scene:
    """Return a knitted piece, cast-on edge at the bottom, a triangle's at the top.

    Flat pieces turn at the end of each row; in the round the work goes on as a spiral, so that
    each round stands one row higher where it ends: the jog. Stitches beyond the yarn's end are
    not drawn.

    Parameters
    ----------
    knit : KnitFabric
        What is knitted.
    plies : int
        Strands of the yarn.
    size : PictureScale
        Of the picture.
    reach_m : (float, float)
        Metre of yarn that the first stitch takes, and the yarn's end.
    aspect : float
        Height of a row over width of a stitch.
    """
    from_m, end_m = reach_m
    stitch, row_px = stitch_px(knit, size, aspect)
    index, seen, places = _kept(knit, plies, size, (stitch, row_px))
    metre = from_m + (seen + 0.5) * knit.stitch_m
    metre = np.where(metre <= end_m, metre, np.nan)
    return Scene(
        index=index,
        ply=places % plies,
        metre=metre[places // plies],
        mm_per_px=1 / size.px_per_mm,
    )


def stitch_px(knit: KnitFabric, size: PictureScale, aspect: float) -> tuple[int, int]:
    """Return width and height of a stitch in pixels, so that the piece fits where it can.

    Parameters
    ----------
    knit : KnitFabric
        What is knitted.
    size : PictureScale
        Room for it.
    aspect : float
        Height of a row over width of a stitch.
    """
    widest = int(knit.stitches.max())
    rows = knit.rows + (1 if knit.kind == "round" else 0)
    wide = min(size.width_px / widest, size.height_px / rows / aspect)
    stitch = max(LEAST_STITCH_PX, floor(wide))
    row_px = max(LEAST_STITCH_PX - 1, round(stitch * aspect))
    fits = max(LEAST_STITCH_PX - 1, size.height_px // rows)
    return stitch, min(row_px, fits)


@lru_cache(maxsize=4)
def _kept(
    knit: KnitFabric, plies: int, size: PictureScale, px: tuple[int, int]
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return the index of a piece, the stitches that are seen, from 0, and the places of these.

    A place is a ply of a stitch that is seen, counted through all of them; where stitches are so
    small that most plies are hidden, only places that some pixel shows.
    """
    high, wide = size.height_px, size.width_px
    (stitch, row_px), stitches = px, knit.stitches
    tile = _garter_tile(knit, plies, px) if knit.kind == "garter" else _plain_tile(knit, plies, px)
    widest = int(stitches.max())
    left = (wide - widest * stitch) // 2
    x = np.arange(wide, dtype=np.int32) - np.int32(left)
    column = x // stitch
    jog = np.clip(x, 0, widest * stitch) * row_px // (widest * stitch)
    lift = jog if knit.kind == "round" else np.zeros(wide, np.int32)
    deep = knit.rows * row_px + (row_px if knit.kind == "round" else 0)
    top = (high - deep) // 2
    y = np.arange(high, dtype=np.int32)[:, None] - np.int32(top)
    up = y if knit.kind == "triangle" else deep - 1 - y
    up = up - lift[None, :]
    row, within = up // row_px, up % row_px
    within = row_px - 1 - within if knit.kind != "triangle" else within
    at = (within, np.broadcast_to(x % stitch, within.shape))
    row = row + tile.row[at].astype(np.int32)
    number, inside = _numbers(knit, row, column)
    seen = distinct(number[inside]) if inside.any() else np.zeros(1, np.int32)
    place = np.clip(np.searchsorted(seen, number), 0, len(seen) - 1)
    del number
    phase = np.floor(seen * knit.turns_per_stitch * plies).astype(np.intp)
    strand = (tile.ply[at] + phase[place]) % plies
    shown, places = place * plies + strand, np.arange(len(seen) * plies)
    if len(places) > shown.size:
        places = distinct(shown.ravel())
        shown = np.searchsorted(places, shown)
    index = yarn_index(shown, tile.level[at])
    return np.where(inside, index, fixed(PAPER)), seen, places


def _numbers(
    knit: KnitFabric, row: np.ndarray, column: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """Return which stitch each pixel shows, in the order of working, and whether it shows one."""
    stitches = knit.stitches.astype(np.int32)
    inside = (row >= 0) & (row < knit.rows)
    row = np.clip(row, 0, knit.rows - 1)
    in_row = column[None, :] - ((stitches.max() - stitches) // 2)[row]
    last = stitches[row] - 1
    inside &= (in_row >= 0) & (in_row <= last)
    back = (row % 2 == 1) & (knit.kind != "round")
    worked = np.clip(np.where(back, last - in_row, in_row), 0, last)
    return knit.first_stitch[:-1].astype(np.int32)[row] + worked, inside


@dataclass(frozen=True)
class _Tile:
    """One stitch: (height, width) maps of ply, level, and which row from here each pixel is of."""

    ply: np.ndarray
    level: np.ndarray
    row: np.ndarray


def _plain_tile(knit: KnitFabric, plies: int, px: tuple[int, int]) -> _Tile:
    """Return a stitch of plain knitting: two legs that lean apart, each over the one above."""
    wide, high = px
    u = (np.arange(wide) + 0.5) / wide
    v = 1 - (np.arange(high)[:, None] + 0.5) / high
    best = np.full((high, wide), -np.inf)
    ply, level = np.full((high, wide), -1, np.intp), np.zeros((high, wide), np.intp)
    row = np.zeros((high, wide), np.intp)
    upright = -1 if knit.kind == "triangle" else 1
    for below in (0, 1):
        along = (v + below) / _TALL
        for leg in (-1, 1):
            centre = 0.5 + leg * (0.09 + _LEAN * np.clip(along, 0, 1))
            across = (u - centre) / (_LEG / 2 * np.sin(np.pi * np.clip(along, 0.02, 0.98)) ** 0.35)
            inside = (np.abs(across) < 1) & (along > 0) & (along < 1)
            height = np.sqrt(np.maximum(1 - across**2, 0)) - 0.55 * along
            seen = inside & (height > best)
            turned = knit.turns_per_stitch * (0.35 * along + (0.5 if leg > 0 else 0.0))
            strand = np.floor((turned + across * 0.18 * leg) * plies).astype(np.intp) % plies
            shade = 0.30 + 0.70 * np.sqrt(np.maximum(1 - across**2, 0)) - 0.16 * along
            best, ply = np.where(seen, height, best), np.where(seen, strand, ply)
            level = np.where(seen, levels_of(shade), level)
            row = np.where(seen, -below * upright, row)
    dark = levels_of(np.full((high, wide), _GAP))
    gap = ply < 0
    return _Tile(np.where(gap, 0, ply), np.where(gap, dark, level), np.where(gap, 0, row))


def _garter_tile(knit: KnitFabric, plies: int, px: tuple[int, int]) -> _Tile:
    """Return a stitch of garter: a bump of the row, half a stitch apart in every other row."""
    wide, high = px
    u = (np.arange(wide) + 0.5) / wide * 2 - 1
    v = (np.arange(high)[:, None] + 0.5) / high * 2 - 1
    bow = v - 0.35 * np.cos(np.pi * u)
    out = np.sqrt(np.maximum(1 - (bow / 1.05) ** 2, 0.02))
    turned = knit.turns_per_stitch * (u[None, :] + 1) / 2 * 0.6 + bow * 0.15
    ply = np.floor(turned * plies).astype(np.intp) % plies
    level = levels_of(0.2 + 0.8 * out)
    return _Tile(ply, level, np.zeros((high, wide), np.intp))


def woven(
    plies: int, size: PictureScale, picks: tuple[float, float, float], reach_m: tuple[float, float]
) -> Scene:
    """Return plain weave with the yarn as weft on a plain warp, the first pick at the bottom.

    Parameters
    ----------
    plies : int
        Strands of the yarn.
    size : PictureScale
        Of the picture.
    picks : (float, float, float)
        Picks in a millimetre of cloth, ends in a millimetre, turns of ply twist in a millimetre
        of weft, above 0 for S.
    reach_m : (float, float)
        Metre of yarn in the first pick, and the yarn's end.
    """
    per_mm, ends_per_mm, turns_per_mm = picks
    from_m, end_m = reach_m
    high_mm, wide_mm = size.height_px / size.px_per_mm, size.width_px / size.px_per_mm
    count, ends = max(1, round(high_mm * per_mm)), max(1, round(wide_mm * ends_per_mm))
    cells = min(ends, _MOST_WEFT_CELLS)
    shown = min(count, size.height_px)
    number = np.floor((np.arange(shown) + 0.5) * count / shown)
    count = shown
    index = _woven_kept(plies, size, (count, ends), turns_per_mm)
    middle = (np.arange(cells) + 0.5) / cells
    forth = number[:, None] % 2 == 0
    within = np.where(forth, middle, 1 - middle)
    metre = from_m + (number[:, None] + within) * wide_mm / 1000
    metre = np.where(metre <= end_m, metre, np.nan)
    return Scene(
        index=index,
        ply=np.tile(np.arange(plies), count * cells),
        metre=np.repeat(metre.ravel(), plies),
        mm_per_px=1 / size.px_per_mm,
    )


@lru_cache(maxsize=4)
def _woven_kept(
    plies: int, size: PictureScale, threads: tuple[int, int], turns_per_mm: float
) -> np.ndarray:
    count, ends = threads
    high, wide = size.height_px, size.width_px
    y, x = np.arange(high)[:, None], np.arange(wide)[None, :]
    pick, end = (high - 1 - y) * count // high, x * ends // wide
    across = ((high - 1 - y) * count / high % 1) * 2 - 1
    over = (x * ends / wide % 1) * 2 - 1
    weft_up = (pick + end) % 2 == 0
    forth = pick % 2 == 0
    wide_mm, x_mm = wide / size.px_per_mm, (x + 0.5) / size.px_per_mm
    along_mm = pick * wide_mm + np.where(forth, x_mm, wide_mm - x_mm)
    stripe = (along_mm * turns_per_mm + np.where(forth, across, -across) * 0.12) * plies
    ply = np.floor(stripe).astype(np.intp) % plies
    round_weft = np.sqrt(np.maximum(1 - (across / 1.04) ** 2, 0.03))
    round_warp = np.sqrt(np.maximum(1 - (over / _WARP_SHARE) ** 2, 0.03))
    dip = np.where(weft_up, 0.78 + 0.22 * np.cos(over * np.pi / 2), 0.45 + 0.33 * np.abs(over))
    cells = min(ends, _MOST_WEFT_CELLS)
    weft = yarn_index(
        (pick * cells + end * cells // ends) * plies + ply, levels_of(round_weft * dip)
    )
    warp = fixed(WARP, 0) + levels_of(round_warp * (0.72 + 0.28 * np.cos(across * np.pi / 2)))
    return np.where(weft_up | (np.abs(over) > _WARP_SHARE), weft, warp)


def stripe_rows(
    knit: KnitFabric, changes_m: np.ndarray, reach_m: tuple[float, float]
) -> list[tuple[float, float]]:
    """Return how high each section of the yarn stands in the piece: (first row, rows) each.

    Parameters
    ----------
    knit : KnitFabric
        What is knitted.
    changes_m : (S + 1,) array
        Edges of the sections, in metres as plied.
    reach_m : (float, float)
        Metre of yarn that the first stitch takes, and the yarn's end.
    """
    starts = row_starts_m(knit, reach_m[0])
    at = np.interp(changes_m, starts, np.arange(knit.rows + 1))
    pairs = zip(at[:-1].tolist(), np.diff(at).tolist(), strict=True)
    return [(first, rows) for first, rows in pairs if rows > 0]
