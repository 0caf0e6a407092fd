"""Orders as pictures: today's and the best as strips; all of them between two aims."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw

from yarncolor.pictures import fonts
from yarncolor.pictures.bands import nice_step
from yarncolor.pictures.captions import wrapped
from yarncolor.pictures.page import EDGE_PX, LINE_PX, TEXT_PX, Page, legend_of, under_each_other
from yarncolor.pictures.png import INK, PAPER
from yarncolor.pictures.side_by_side import Scale
from yarncolor.pictures.ways_on import Shown, named

READ_SO = (
    "Strips are read from left to right, from where plying begins, and a {metre} is equally long "
    "in all. Upper bands: each ply over the whole length; lowest band: the plied yarn."
)
CLOUD_READ = (
    "Grey: every order that was valued. Red line: those that no other beats on both. Numbers: the "
    "best orders that differ. Square: today's."
)
_HIGH_SHARE, _LEFT_PX, _BELOW_PX, _TOP_PX, _CLOUD_LINES = 0.42, 70, 62, 86, 3
_CELL_PX, _DOT_PX, _MARK_PX, _TICKS = 3, 4, 9, 7
_FRONT, _NOW, _GRID = "#b03a1a", "#1f4a8a", "#d8d8d8"
_LIGHTEST, _DARKEST = 225.0, 120.0


@dataclass(frozen=True, eq=False)
class TradeOff:
    """All orders between two aims, the better towards the lower left.

    Parameters
    ----------
    words : (str, str)
        What the axes are called, across and up.
    told : (str, str)
        How a value is told, with a place for its number.
    cloud : (N, 2) array
        Values of every order that was valued.
    front : (K, 2) array
        Those that none beats on both, along the front.
    best : (B, 2) array
        The best orders, numbered from 1.
    now : (2,) array
        Today's.
    chosen : (1 or 0, 2) array
        The one that is chosen, if any.
    more_is_better : (bool, bool)
        Of each aim; its axis is turned round then.
    """

    words: tuple[str, str]
    told: tuple[str, str]
    cloud: NDArray[np.float64]
    front: NDArray[np.float64]
    best: NDArray[np.float64]
    now: NDArray[np.float64]
    chosen: NDArray[np.float64]
    more_is_better: tuple[bool, bool]


def orders_in_strips(orders: Sequence[Shown], width_px: int) -> Image.Image:
    """Return today's order and the best under each other, named, a metre equally long in all.

    Parameters
    ----------
    orders : sequence of Shown
        Today's first.
    width_px : int
        Of the picture.
    """
    longest_m = max(shown.yarn.layout.stretches.yarn_m for shown in orders)
    parts = [named(shown, Scale(width_px, longest_m, 1.0)) for shown in orders]
    read_so = READ_SO.format(metre=orders[0].yarn.say.length.name)
    below = legend_of([shown.yarn for shown in orders], read_so, width_px)
    return under_each_other(parts, below, ruled_off=True)


@dataclass(frozen=True, eq=False)
class _Plot:
    """Where values lie on the picture."""

    low: NDArray[np.float64]
    high: NDArray[np.float64]
    size_px: tuple[int, int]
    turned: tuple[bool, bool]

    def pixels(self, values: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return (N, 2) pixels of (N, 2) values, from the upper left corner of the picture."""
        share = (values - self.low) / (self.high - self.low)
        share = np.where(np.array(self.turned), 1 - share, share)
        x, y = share.T
        wide, high = self.size_px
        return np.stack([_LEFT_PX + x * (wide - 1), _TOP_PX + (1 - y) * (high - 1)], axis=1)


def trade_off(shown: TradeOff, width_px: int) -> Image.Image:
    """Return all orders as a cloud between two aims, with the front and the best in it.

    Parameters
    ----------
    shown : TradeOff
        What is drawn.
    width_px : int
        Of the picture.
    """
    size_px = (width_px - _LEFT_PX - 3 * EDGE_PX, round(width_px * _HIGH_SHARE))
    every = np.vstack([shown.cloud, shown.now])
    low, high = every.min(axis=0), every.max(axis=0)
    pad = np.where(high > low, 0.05 * (high - low), np.maximum(np.abs(high), 1.0) * 0.05)
    plot = _Plot(low - pad, high + pad, size_px, shown.more_is_better)
    page = Page(Image.new("RGB", (width_px, _TOP_PX + size_px[1] + _BELOW_PX), PAPER))
    page.paste(_cloud(plot, shown.cloud), (_LEFT_PX, _TOP_PX))
    _axes(page, plot, shown)
    _front(page, plot, shown.front)
    _marks(page, plot, shown)
    return page.image


def _cloud(plot: _Plot, values: NDArray[np.float64]) -> NDArray[np.uint8]:
    """Return how many orders lie in each cell, the more the darker: (height, width, 3)."""
    wide, high = plot.size_px
    cells = np.array([wide // _CELL_PX + 1, high // _CELL_PX + 1])
    at = ((plot.pixels(values) - (_LEFT_PX, _TOP_PX)) / _CELL_PX).astype(np.int64)
    count = np.bincount(at[:, 1] * cells[0] + at[:, 0], minlength=int(cells.prod()))
    some = np.log1p(count) / max(np.log1p(count.max()), 1e-9)
    level = np.where(count > 0, _LIGHTEST - (_LIGHTEST - _DARKEST) * some, 255.0)
    grey = level.reshape(cells[1], cells[0]).repeat(_CELL_PX, 0).repeat(_CELL_PX, 1)[:high, :wide]
    return np.repeat(grey[..., None], 3, axis=2).astype(np.uint8)


def _axes(page: Page, plot: _Plot, shown: TradeOff) -> None:
    wide, high = plot.size_px
    draw = ImageDraw.Draw(page.image)
    draw.rectangle((_LEFT_PX, _TOP_PX, _LEFT_PX + wide, _TOP_PX + high), outline=_GRID)
    lines = wrapped(CLOUD_READ, page.image.width - 2 * EDGE_PX)[:_CLOUD_LINES]
    for number, line in enumerate([*lines, f"Up: {shown.words[1]} (better below)"]):
        page.write((EDGE_PX, 4 + number * LINE_PX), line, TEXT_PX, page.image.width)
    below = _TOP_PX + high + 26
    page.write((_LEFT_PX, below), f"Across: {shown.words[0]} (better left)", TEXT_PX, wide)
    for axis in (0, 1):
        for value in _ticks(plot.low[axis], plot.high[axis]):
            values = np.where(np.arange(2) == axis, value, plot.low)[None]
            x, y = plot.pixels(values)[0]
            text = shown.told[axis].format(value)
            if axis == 0:
                draw.line((x, _TOP_PX + high, x, _TOP_PX + high + 5), INK)
                left = int(x - fonts.width_px(text, TEXT_PX) / 2)
                page.write((left, _TOP_PX + high + 7), text, TEXT_PX, _LEFT_PX)
            else:
                draw.line((_LEFT_PX - 5, y, _LEFT_PX, y), INK)
                left = int(_LEFT_PX - 8 - fonts.width_px(text, TEXT_PX))
                page.write((left, int(y - LINE_PX / 2)), text, TEXT_PX, _LEFT_PX)


def _ticks(low: float, high: float) -> list[float]:
    step = nice_step((high - low) / _TICKS)
    return [step * at for at in range(ceil(low / step), floor(high / step) + 1)]


def _front(page: Page, plot: _Plot, front: NDArray[np.float64]) -> None:
    at = plot.pixels(front)
    draw = ImageDraw.Draw(page.image)
    draw.line([tuple(point) for point in at.tolist()], fill=_FRONT, width=2)
    for x, y in at.tolist():
        draw.ellipse((x - _DOT_PX, y - _DOT_PX, x + _DOT_PX, y + _DOT_PX), fill=_FRONT)


def _marks(page: Page, plot: _Plot, shown: TradeOff) -> None:
    draw = ImageDraw.Draw(page.image)
    ((x, y),) = plot.pixels(shown.now[None]).tolist()
    draw.rectangle((x - 5, y - 5, x + 5, y + 5), fill=PAPER, outline=_NOW, width=3)
    page.write((int(x) + 9, int(y) - 9), "today", TEXT_PX, _LEFT_PX, bold=True)
    for cx, cy in plot.pixels(shown.chosen).tolist():
        draw.ellipse((cx - 13, cy - 13, cx + 13, cy + 13), outline=_FRONT, width=3)
    for number, (px, py) in enumerate(plot.pixels(shown.best).tolist(), 1):
        draw.ellipse((px - _MARK_PX, py - _MARK_PX, px + _MARK_PX, py + _MARK_PX), PAPER, INK, 2)
        text = str(number)
        left = px - fonts.width_px(text, TEXT_PX) / 2
        page.write((int(left), int(py - TEXT_PX / 2 - 2)), text, TEXT_PX, 2 * _MARK_PX, bold=True)
