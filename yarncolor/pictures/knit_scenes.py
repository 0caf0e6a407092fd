"""Fabric as scenes: plain knitting flat, in the round and as a triangle, garter.

Each stitch takes its length of yarn in the order in which it is worked; so a stitch is a place of
the yarn for each ply, and its legs show the plies one after the other, as the twist lays them.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import floor

import numpy as np

from yarncolor.pictures.scene import (
    PAPER,
    Edges,
    Scene,
    distinct,
    fixed,
    yarn_index,
)
from yarncolor.pictures.stitch_tiles import TilePart, stitch_tile
from yarncolor.pictures.yarn_scenes import PictureScale

KINDS = ("flat", "round", "triangle", "garter")
LEAST_STITCH_PX = 2


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
    index, edges, seen, places = _kept(knit, plies, size, (stitch, row_px))
    metre = from_m + (seen + 0.5) * knit.stitch_m
    metre = np.where(metre <= end_m, metre, np.nan)
    return Scene(
        index=index,
        ply=places % plies,
        metre=metre[places // plies],
        mm_per_px=1 / size.px_per_mm,
        edges=edges,
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
) -> tuple[np.ndarray, Edges, np.ndarray, np.ndarray]:
    """Return the index of a piece, its edges, the stitches that are seen, and their places.

    A place is a ply of a stitch that is seen, counted through all of them; where stitches are so
    small that most plies are hidden, only places that some pixel shows.
    """
    grid = _grid(knit, size, px)
    tile = stitch_tile(knit.kind, plies, px, knit.turns_per_stitch)
    main = _shown_on(knit, grid, tile.main)
    at = np.flatnonzero(tile.share[grid.within, grid.column_px])
    rest = _shown_on(knit, grid.at(at), tile.other)
    share = tile.share[grid.within, grid.column_px].reshape(-1)[at]
    seen = distinct(np.concatenate([each.number[each.inside] for each in (main, rest)]))
    seen = seen if len(seen) else np.zeros(1, np.int32)
    phase = np.floor(seen * knit.turns_per_stitch * plies).astype(np.intp)
    shown, second = (_places(each, seen, phase, plies) for each in (main, rest))
    places = np.arange(len(seen) * plies)
    if len(places) > shown.size:
        places = distinct(np.concatenate([shown.ravel(), second]))
        shown, second = (np.searchsorted(places, each) for each in (shown, second))
    index, other = (
        np.where(each.inside, yarn_index(place, each.level), fixed(PAPER))
        for each, place in ((main, shown), (rest, second))
    )
    parted = other != index.reshape(-1)[at]
    return index, Edges(at[parted], other[parted], share[parted]), seen, places


def _places(shown: "_Shown", seen: np.ndarray, phase: np.ndarray, plies: int) -> np.ndarray:
    """Return the place of each pixel among all plies of the stitches that are seen."""
    stitch = np.clip(np.searchsorted(seen, shown.number), 0, len(seen) - 1)
    places: np.ndarray = stitch * plies + (shown.ply + phase[stitch]) % plies
    return places


@dataclass(frozen=True)
class _Grid:
    """Where pixels lie among the stitches: arrays that can be broadcast together.

    Row, from the one that is worked first, and pixel down in it; column, and pixel across in it.
    """

    row: np.ndarray
    within: np.ndarray
    column: np.ndarray
    column_px: np.ndarray

    def at(self, pixels: np.ndarray) -> "_Grid":
        """Return the same of some pixels, counted along the rows."""
        y, x = np.divmod(pixels, self.row.shape[1])
        return _Grid(self.row[y, x], self.within[y, x], self.column[0, x], self.column_px[0, x])


def _grid(knit: KnitFabric, size: PictureScale, px: tuple[int, int]) -> _Grid:
    """Return where the pixels of a picture lie, the piece in its middle."""
    (stitch, row_px), widest = px, int(knit.stitches.max())
    is_round = knit.kind == "round"
    x = np.arange(size.width_px, dtype=np.int32) - np.int32((size.width_px - widest * stitch) // 2)
    lift = np.clip(x, 0, widest * stitch) * row_px // (widest * stitch) * is_round
    deep = (knit.rows + is_round) * row_px
    top = (size.height_px - deep) // 2
    y = np.arange(size.height_px, dtype=np.int32)[:, None] - np.int32(top)
    up = (y if knit.kind == "triangle" else deep - 1 - y) - lift[None, :]
    row, within = up // row_px, up % row_px
    within = row_px - 1 - within if knit.kind != "triangle" else within
    return _Grid(row, within, (x // stitch)[None, :], (x % stitch)[None, :])


@dataclass(frozen=True)
class _Shown:
    """What pixels show: number of the stitch as worked, whether there is one, ply, level."""

    number: np.ndarray
    inside: np.ndarray
    ply: np.ndarray
    level: np.ndarray


def _shown_on(knit: KnitFabric, grid: _Grid, part: TilePart) -> _Shown:
    """Return what pixels show of one part of a tile that stands on every stitch."""
    at = (grid.within, np.broadcast_to(grid.column_px, grid.within.shape))
    number, inside = _numbers(knit, grid.row + part.row[at], grid.column)
    return _Shown(number, inside, part.ply[at], part.level[at])


def _numbers(
    knit: KnitFabric, row: np.ndarray, column: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """Return which stitch each pixel shows, in the order of working, and whether it shows one."""
    stitches = knit.stitches.astype(np.int32)
    inside = (row >= 0) & (row < knit.rows)
    row = np.clip(row, 0, knit.rows - 1)
    in_row = column - ((stitches.max() - stitches) // 2)[row]
    last = stitches[row] - 1
    inside &= (in_row >= 0) & (in_row <= last)
    back = (row % 2 == 1) & (knit.kind != "round")
    worked = np.clip(np.where(back, last - in_row, in_row), 0, last)
    return knit.first_stitch[:-1].astype(np.int32)[row] + worked, inside


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
