"""A knitted piece as shapes: rows of coloured runs, each as wide as its stitches."""

from dataclasses import replace
from itertools import pairwise
from xml.etree import ElementTree

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.phrases import title_of
from yarncolor.pictures.as_knitted import end_of_piece_m, knit_of, times_shown
from yarncolor.pictures.fabric_pictures import knitted_piece
from yarncolor.pictures.knit_scenes import KnitFabric, row_starts_m
from yarncolor.pictures.png import PAPER
from yarncolor.pictures.strip_svg import CRISP, SVG, svg_bytes

_UNIT_PX, _MARGIN = 8.0, 10.0
_TOLERANCE = 1e-9


def fabric_svg(answer: Answer, kind: str | None = None, from_m: float | None = None) -> bytes:
    """Return a knitted piece as SVG: each row a band, the plies of each section stripes in it.

    Where nothing is said of its part, the piece of a plan is shown as it is, and a swatch shows
    the whole yarn in small.

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
    times, start_m = (times_shown(answer, knit) if from_m is None else 1), from_m or 0.0
    end_m = end_of_piece_m(answer, knit, start_m, times)
    knit = replace(knit, stitch_m=knit.stitch_m * times)
    wide, high = float(knit.stitches.max()) * _UNIT_PX, knit.rows * _UNIT_PX * aspect
    size = {"width": f"{wide + 2 * _MARGIN:g}", "height": f"{high + 2 * _MARGIN:g}"}
    box = f"0 0 {size['width']} {size['height']}"
    svg = ElementTree.Element("svg", {"xmlns": SVG, "viewBox": box, "role": "img", **CRISP, **size})
    ElementTree.SubElement(svg, "title").text = title_of(answer.plan)
    alt = knitted_piece(answer, kind, from_m=from_m, size_px=(64, 64)).alt
    ElementTree.SubElement(svg, "desc").text = alt
    ElementTree.SubElement(svg, "rect", {"fill": PAPER, **size})
    starts = row_starts_m(knit, start_m)
    for row in range(min(knit.rows, int(np.searchsorted(starts, end_m * (1 - _TOLERANCE))))):
        _row(svg, answer, knit, (row, starts, aspect))
    return svg_bytes(svg)


def _row(
    svg: ElementTree.Element, answer: Answer, knit: KnitFabric, at: tuple[int, np.ndarray, float]
) -> None:
    """Add one row: runs between the changes of colour that fall into it."""
    row, starts, aspect = at
    along = answer.layout.stretches
    start, end = starts[row : row + 2]
    last = min(end, along.yarn_m)
    inner = along.edges_m[(along.edges_m > start) & (along.edges_m < last)]
    edges = np.concatenate([[start], inner, [last]])
    wide = float(knit.stitches[row]) * _UNIT_PX
    left = _MARGIN + (float(knit.stitches.max()) * _UNIT_PX - wide) / 2
    back = row % 2 == 1 and knit.kind != "round"
    up = row if knit.kind == "triangle" else knit.rows - 1 - row
    top, tall = _MARGIN + up * _UNIT_PX * aspect, _UNIT_PX * aspect
    for one, other in pairwise(edges):
        share = (one - start) / (end - start), (other - start) / (end - start)
        x = left + wide * (1 - share[1] if back else share[0])
        stretch = int(np.searchsorted(along.edges_m, (one + other) / 2, side="right")) - 1
        lots = along.lot[stretch].tolist()
        for k, lot in enumerate(lots):
            shape = {
                "x": f"{x:.2f}",
                "y": f"{top + tall * k / len(lots):.2f}",
                "width": f"{wide * (share[1] - share[0]) + 0.05:.2f}",
                "height": f"{tall / len(lots) + 0.05:.2f}",
                "fill": answer.palette.srgb[lot],
            }
            ElementTree.SubElement(svg, "rect", shape)
