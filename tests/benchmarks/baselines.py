"""Plain ways to the same results: what the package's ways are measured against."""

import io
from itertools import pairwise

import numpy as np
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.patches import Polygon
from matplotlib.path import Path

from yarncolor.colour.srgb import label_ink
from yarncolor.layout.winding import Strands
from yarncolor.pictures.bands import SLANT, STRIPE_PX
from yarncolor.pictures.strip_layout import LEFT_PX, RIGHT_PX, YARN_PX, Strip

Row = tuple[float, float, tuple[int, ...]]
"""Start and end of a stretch, as shares of the yarn, and the lot of each ply."""


def stretches_by_a_loop(strands: Strands) -> list[Row]:
    """Return the stretches by walking along all plies at once, from change to change."""
    plies = [_edges_of(strands, k) for k in range(len(strands.starts) - 1)]
    shortest = min(edges[-1] for edges, _ in plies)
    at, here, rows = [0] * len(plies), 0.0, []
    while here < 1 - 1e-9:
        lots = tuple(lot[i] for i, (_, lot) in zip(at, plies, strict=True))
        ends = [edges[i] / shortest for i, (edges, _) in zip(at, plies, strict=True)]
        there = min(1.0, *ends)
        if rows and rows[-1][2] == lots:
            rows[-1] = (rows[-1][0], there, lots)
        else:
            rows.append((here, there, lots))
        at = [
            min(i + (end - there < 1e-9), len(lot) - 1)
            for i, end, (_, lot) in zip(at, ends, plies, strict=True)
        ]
        here = there
    return rows


def _edges_of(strands: Strands, k: int) -> tuple[list[float], list[int]]:
    first, end = strands.starts[k], strands.starts[k + 1]
    edges, total = [], 0.0
    for length in strands.length_m[first:end].tolist():
        total += length
        edges.append(total)
    return edges, strands.lot[first:end].tolist()


def stretches_by_millimetres(strands: Strands) -> tuple[np.ndarray, np.ndarray]:
    """Return where the yarn changes (in metres) and the lots there, asked every millimetre."""
    ends, lots = [], []
    for first, end in pairwise(strands.starts):
        ends.append(np.cumsum(strands.length_m[first:end]))
        lots.append(strands.lot[first:end])
    asked = np.arange(0.0005, min(edges[-1] for edges in ends), 0.001)
    seen = np.column_stack(
        [lot[np.searchsorted(edges, asked)] for edges, lot in zip(ends, lots, strict=True)]
    )
    changes = np.flatnonzero((seen[1:] != seen[:-1]).any(axis=1)) + 1
    first_of_stretch = np.append(0, changes)
    return asked[first_of_stretch] - 0.0005, seen[first_of_stretch]


def strip_by_matplotlib(drawn: Strip) -> bytes:
    """Return a PNG of the same strip, drawn by matplotlib without pyplot."""
    figure = Figure(figsize=(drawn.width_px / 100, drawn.height_px / 100), dpi=100)
    FigureCanvasAgg(figure)
    axes = figure.add_axes((0, 0, 1, 1))
    axes.set(xlim=(0, drawn.width_px), ylim=(drawn.height_px, 0))
    axes.axis("off")
    for k, band in reversed(list(enumerate(drawn.bands))):
        _bars(axes, band, drawn.palette, band.top_px, band.height_px)
        stripes = _bars(axes, band, drawn.palette, drawn.yarn_top_px, YARN_PX)
        if k < len(drawn.bands) - 1:
            stripes.set_clip_path(_stripes(drawn, k), axes.transData)
    for text in drawn.texts:
        ink = "#1f1f1f" if text.on_lot is None else label_ink(drawn.palette.srgb[text.on_lot])
        axes.text(
            text.x,
            text.y,
            text.text,
            color=ink,
            fontsize=text.size_px * 0.72,
            weight="bold" if text.bold else "normal",
            ha={"start": "left", "middle": "center", "end": "right"}[text.anchor],
            va="center",
            parse_math=False,
        )
    axes.vlines(drawn.ticks_px, drawn.axis_px, drawn.axis_px + 6, color="#1f1f1f", linewidth=0.72)
    stream = io.BytesIO()
    figure.savefig(stream, format="png")
    return stream.getvalue()


def _bars(axes, band, palette, top_px: float, height_px: float):
    spans = list(zip(band.edges_px[:-1], np.diff(band.edges_px), strict=True))
    colours = [palette.srgb[lot] for lot in band.lot]
    return axes.broken_barh(spans, (top_px, height_px), facecolors=colours, linewidth=0)


def _stripes(drawn: Strip, k: int):
    """Return the slanted stripes of one ply as one path over the plied band."""
    lean, top = YARN_PX * SLANT, drawn.yarn_top_px
    plies, right = len(drawn.bands), drawn.width_px - RIGHT_PX
    count = int((right - LEFT_PX + lean) / STRIPE_PX) + 1
    lefts = [LEFT_PX + stripe * STRIPE_PX - lean for stripe in range(k, count, plies)]
    corners = [
        [
            (x, top),
            (x + STRIPE_PX, top),
            (x + STRIPE_PX + lean, top + YARN_PX),
            (x + lean, top + YARN_PX),
        ]
        for x in lefts
    ]
    return Path.make_compound_path(*(Polygon(four).get_path() for four in corners))
