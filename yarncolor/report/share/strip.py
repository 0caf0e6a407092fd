"""The whole yarn on a sheet to share: every ply over its length, the plied yarn under them."""

from collections.abc import Iterator

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.colour.srgb import label_ink
from yarncolor.pictures import fonts
from yarncolor.pictures.bands import slanting_windows
from yarncolor.pictures.drafted import STREAKS_PX
from yarncolor.pictures.strip_layout import (
    FOOT_PX,
    HEAD_PX,
    LEFT_PX,
    RIGHT_PX,
    YARN_PX,
    Band,
    Strip,
    Text,
    strip_layout,
)
from yarncolor.report.paper import MM_PER_POINT, Area, Paper, Pen, Side
from yarncolor.report.share.tones import Tones

_MM_PER_PX, _AXIS_PX = 0.15, 22
_OVER_MM, _BORDER_PT = 0.3, 0.35
"""By which a run reaches under the next one, so that no sheet shows between; its border."""


def put_strip(paper: Paper, box: Area, answer: Answer, tones: Tones) -> None:
    """Put the strip of a plan into a box, its metres along the lower edge.

    Parameters
    ----------
    paper : Paper
        The sheet.
    box : Area
        Where.
    answer : Answer
        What follows from a plan.
    tones : Tones
        Colours of the paper and its inks.
    """
    wide_px = round(box.wide_mm / _MM_PER_PX) + LEFT_PX + RIGHT_PX
    high_px = round(box.high_mm / _MM_PER_PX) - _AXIS_PX + HEAD_PX + FOOT_PX
    drawn = strip_layout(answer.layout, answer.palette, wide_px, high_px)
    on = _OnSheet(paper, box, drawn, tones)
    for band in drawn.bands:
        on.runs(band, band.top_px, band.height_px)
        on.border(band.top_px, band.height_px)
    on.plied()
    on.axis()
    for text in drawn.texts_of("label"):
        on.label(text)


class _OnSheet:
    """A strip whose pixels are put on a sheet in millimetres."""

    def __init__(self, paper: Paper, box: Area, drawn: Strip, tones: Tones) -> None:
        self.paper, self.box, self.drawn, self.tones = paper, box, drawn, tones
        self.mm = box.wide_mm / drawn.inner_px

    def x(self, x_px: float) -> float:
        return self.box.left_mm + (x_px - LEFT_PX) * self.mm

    def y(self, y_px: float) -> float:
        return self.box.top_mm + (y_px - HEAD_PX) * self.mm

    def runs(
        self, band: Band, top_px: float, high_px: float, windows: np.ndarray | None = None
    ) -> None:
        """Put the runs of a ply, each a little under the next, seen through windows alone."""
        fields, lots = zip(*self._fields(band, top_px, high_px), strict=True)
        colours = [self.drawn.palette.srgb[lot] for lot in lots]
        self.paper.fields(np.array(fields), colours, windows)

    def _fields(
        self, band: Band, top_px: float, high_px: float
    ) -> Iterator[tuple[list[tuple[float, float]], int]]:
        edges = [self.x(edge) for edge in band.edges_px]
        top, high = self.y(top_px), high_px * self.mm
        for at, lot in enumerate(band.lot.tolist()):
            right = min(edges[at + 1] + _OVER_MM, edges[-1])
            for low, up, shown in self._streaks(lot, high):
                yield (
                    [
                        (edges[at], top + low),
                        (right, top + low),
                        (right, top + up),
                        (edges[at], top + up),
                    ],
                    shown,
                )

    def _streaks(self, lot: int, high_mm: float) -> Iterator[tuple[float, float, int]]:
        """Yield what shows of a lot from edge to edge: its colour, or those drafted together."""
        if lot not in self.drawn.drafted:
            yield 0.0, high_mm, lot
            return
        lots, up_to = self.drawn.drafted[lot]
        each_mm = STREAKS_PX * self.mm
        for start in np.arange(0, high_mm, each_mm).tolist():
            tops = start + np.append(0, up_to[:-1]) * each_mm
            for one, top in zip(lots.tolist(), tops.tolist(), strict=True):
                if top < high_mm:
                    yield top, high_mm, one

    def border(self, top_px: float, high_px: float) -> None:
        """Put a fine line round a band, so that a pale run has an edge."""
        box = Area(self.box.left_mm, self.y(top_px), self.box.wide_mm, high_px * self.mm)
        self.paper.swatch(box, "none", self.tones.ink, _BORDER_PT)

    def plied(self) -> None:
        """Put the plied yarn: the last ply whole, the others over it in slanting stripes.

        Each reaches under the next one: no seam shows where two of one colour meet.
        """
        drawn, top = self.drawn, self.drawn.yarn_top_px
        plies = len(drawn.bands)
        self.runs(drawn.bands[-1], top, YARN_PX)
        for k, band in enumerate(drawn.bands[:-1]):
            stripes = slanting_windows(drawn.inner_px, YARN_PX, plies, k, plies - 1 - k)
            windows = np.add(stripes * self.mm, (self.box.left_mm, self.y(top)))
            self.runs(band, top, YARN_PX, windows)
        self.border(top, YARN_PX)
        above, below = drawn.cut_rows_px
        for cut in map(self.x, drawn.cuts_px):
            ends = ((cut, self.y(above)), (cut, self.y(below)))
            self.paper.line(*ends, self.tones.ground, 1.6)
            self.paper.line(*ends, self.tones.ink, 0.6)

    def axis(self) -> None:
        """Put the metres under the yarn."""
        top = self.y(self.drawn.yarn_top_px + YARN_PX)
        pen = Pen(6.5, colour=self.tones.quiet)
        for x, text in zip(self.drawn.ticks_px, self.drawn.texts_of("tick"), strict=True):
            at = self.x(x)
            self.paper.line((at, top + 0.3), (at, top + 1.2), self.tones.quiet, 0.5)
            first, last = x == self.drawn.ticks_px[0], self.box.right_mm - at < 4
            side: Side = "left" if first else "right" if last else "center"
            self.paper.text((at, top + 2.8), text.text, pen, side)

    def label(self, text: Text) -> None:
        """Put the name of a run on it, in the ink that reads on its colour."""
        if text.on_lot is None:
            return
        colour = self.drawn.palette.srgb[text.on_lot]
        halo = colour if text.on_lot in self.drawn.drafted else ""
        name = text.text if fonts.has_glyphs(text.text) else text.pixels or ""
        pen = Pen(text.size_px * self.mm / MM_PER_POINT, colour=label_ink(colour), halo=halo)
        self.paper.text((self.x(text.x), self.y(text.y)), name, pen, "center")
