"""A knitted piece as shapes: rows of coloured runs, each as wide as its stitches."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from xml.etree import ElementTree

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.layout.stretches import Stretches
from yarncolor.phrases import title_of
from yarncolor.pictures.as_knitted import end_of_piece_m, first_stitch_m, knit_of, times_shown
from yarncolor.pictures.fabric_pictures import knitted_piece
from yarncolor.pictures.knit_scenes import KnitFabric, row_starts_m
from yarncolor.pictures.png import INK, PAPER
from yarncolor.pictures.strip_svg import CRISP, SVG, svg_bytes

_UNIT_PX, _MARGIN = 8.0, 10.0
_TOLERANCE = 1e-9
MOST_SHAPES = 20_000
"""Shapes of one drawing: beyond these no eye tells them apart, and no program opens them soon."""
_NOTE_PX = 24.0


def fabric_svg(answer: Answer, kind: str | None = None, from_m: float | None = None) -> bytes:
    """Return a knitted piece as SVG: each row a band, the plies of each section stripes in it.

    Where nothing is said of its part, the piece of a plan is shown as it is, and a swatch shows
    the whole yarn in small. A piece of more shapes than are told apart is drawn from its first row
    for as long as they are, and says so.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    kind : str, optional
        flat, round, triangle or garter; by default as in the plan.
    from_m : float, optional
        Metre of yarn that the first stitch takes; by default the yarn's beginning.
    """
    knit, aspect, _ = knit_of(answer, kind)
    times = times_shown(answer, knit) if from_m is None else 1
    start_m = first_stitch_m(answer) if from_m is None else from_m
    end_m = end_of_piece_m(answer, knit, start_m, times)
    knit = replace(knit, stitch_m=knit.stitch_m * times)
    starts = row_starts_m(knit, start_m)
    rows = min(knit.rows, int(np.searchsorted(starts, end_m * (1 - _TOLERANCE))))
    runs = _Runs.of(answer.layout.stretches, starts, rows)
    note = _cut_off_words(runs, rows)
    if note:
        knit = replace(knit, rows=runs.rows)
    svg = _sheet(answer, knit, aspect, note)
    alt = knitted_piece(answer, kind, from_m=from_m, size_px=(64, 64)).alt
    svg[1].text = f"{alt} {note}".strip()
    for shape in _shapes(runs, knit, aspect, answer.palette.srgb):
        ElementTree.SubElement(svg, "rect", shape)
    return svg_bytes(svg)


def _cut_off_words(runs: "_Runs", rows: int) -> str:
    """Return how much of so many rows is drawn, in words; nothing where all of it is."""
    if runs.rows < rows:
        return (
            f"Drawn {'is' if runs.rows == 1 else 'are'} the first {runs.rows:,} of {rows:,} rows."
        )
    return "Drawn is the beginning of the first row." if runs.is_cut_off else ""


def _sheet(answer: Answer, knit: KnitFabric, aspect: float, note: str) -> ElementTree.Element:
    """Return an empty drawing, as large as its rows, with its title and a note under them."""
    wide, high = float(knit.stitches.max()) * _UNIT_PX, knit.rows * _UNIT_PX * aspect
    below = _NOTE_PX if note else 0.0
    size = {"width": f"{wide + 2 * _MARGIN:g}", "height": f"{high + 2 * _MARGIN + below:g}"}
    box = f"0 0 {size['width']} {size['height']}"
    svg = ElementTree.Element("svg", {"xmlns": SVG, "viewBox": box, "role": "img", **CRISP, **size})
    ElementTree.SubElement(svg, "title").text = title_of(answer.plan)
    ElementTree.SubElement(svg, "desc")
    ElementTree.SubElement(svg, "rect", {"fill": PAPER, **size})
    if note:
        place = {"x": f"{_MARGIN:g}", "y": f"{high + _MARGIN + below - 6:g}", "fill": INK}
        font = {"font-family": "DejaVu Sans, Noto Sans, sans-serif", "font-size": "13"}
        ElementTree.SubElement(svg, "text", place | font).text = note
    return svg


@dataclass(frozen=True)
class _Runs:
    """Lengths of yarn in one row over which no ply changes, in the order of knitting.

    Parameters
    ----------
    row : ndarray of int, shape (runs,)
        In which row.
    share : ndarray, shape (2, runs)
        Of the row's yarn where each begins and ends, 0 to 1.
    lot : ndarray of int, shape (runs, plies)
        Of each ply.
    rows : int
        Those that are drawn, the last one whole; the only one may be cut off.
    is_cut_off : bool
        Whether there are more.
    """

    row: np.ndarray
    share: np.ndarray
    lot: np.ndarray
    rows: int
    is_cut_off: bool

    @classmethod
    def of(cls, along: Stretches, starts: np.ndarray, rows: int) -> "_Runs":
        """Return the runs of so many rows, of no more than can be told apart.

        Parameters
        ----------
        along : Stretches
            The yarn.
        starts : ndarray, shape (rows + 1,)
            Metre of yarn at which each row begins, and the last ends.
        rows : int
            Those that the yarn gives.
        """
        most = MOST_SHAPES // along.lot.shape[1]
        last = min(starts[rows], along.yarn_m)
        inner = along.edges_m[(along.edges_m > starts[0]) & (along.edges_m < last)]
        cuts = np.append(np.union1d(starts[:rows], inner), last)
        row = np.searchsorted(starts[:rows], cuts[:-1], side="right") - 1
        is_cut_off = len(row) > most
        if is_cut_off:
            keep = int(np.searchsorted(row, row[most])) or most
            cuts, row = cuts[: keep + 1], row[:keep]
        begins, ends = starts[row], starts[row + 1]
        share = (np.stack([cuts[:-1], np.minimum(cuts[1:], ends)]) - begins) / (ends - begins)
        stretch = np.searchsorted(along.edges_m, (cuts[:-1] + cuts[1:]) / 2, side="right") - 1
        drawn = int(row[-1]) + 1 if len(row) else 0
        return cls(row, share, along.lot[stretch], drawn, is_cut_off)


def _shapes(
    runs: _Runs, knit: KnitFabric, aspect: float, fills: Sequence[str]
) -> Iterator[dict[str, str]]:
    """Return each ply of each run as a rectangle."""
    wide = knit.stitches.astype(float) * _UNIT_PX
    left = _MARGIN + (wide.max() - wide) / 2
    back = (runs.row % 2 == 1) & (knit.kind != "round")
    up = runs.row if knit.kind == "triangle" else knit.rows - 1 - runs.row
    tall, plies = _UNIT_PX * aspect, runs.lot.shape[1]
    x = left[runs.row] + wide[runs.row] * np.where(back, 1 - runs.share[1], runs.share[0])
    across = wide[runs.row] * (runs.share[1] - runs.share[0]) + 0.05
    top = _MARGIN + up * _UNIT_PX * aspect
    for at, one, high, lots in zip(x, across, top, runs.lot.tolist(), strict=True):
        for k, lot in enumerate(lots):
            yield {
                "x": f"{at:.2f}",
                "y": f"{high + tall * k / plies:.2f}",
                "width": f"{one:.2f}",
                "height": f"{tall / plies + 0.05:.2f}",
                "fill": fills[lot],
            }
