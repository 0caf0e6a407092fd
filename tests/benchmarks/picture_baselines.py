"""The same pictures drawn straight away by matplotlib (Agg, no pyplot): shapes, one by one."""

import numpy as np
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.collections import PolyCollection
from matplotlib.figure import Figure

from yarncolor.answers.answer import Answer
from yarncolor.pictures.knit_scenes import KnitFabric
from yarncolor.pictures.yarn_geometry import yarn_geometry_of

CELL_PX, BANDS = 6, 5
PAPER, CARD = "#ffffff", "#ece5d6"


def yarn_by_matplotlib(found: Answer, from_m: float, length_mm: float, size_px) -> np.ndarray:
    """Return a length of yarn: each ply as shaded quadrilaterals along its helix."""
    wide, high = size_px
    rope, scale = yarn_geometry_of(found.resolved.yarn), wide / length_mm
    x = np.arange(0, wide + CELL_PX, CELL_PX)
    metre = from_m + x / scale / 1000
    quads, colours, depths = [], [], []
    for k, radius in enumerate(rope.radii_mm):
        angle = 2 * np.pi * (rope.turns_per_mm * metre * 1000 + k / len(rope.radii_mm))
        y, depth = high / 2 + rope.ply_helix_radius_mm * np.sin(angle) * scale, np.cos(angle)
        own = _colours_at(found, k, (metre[:-1] + metre[1:]) / 2)
        _add_bands((x, y, radius * scale), own, (quads, colours))
        depths += np.repeat((depth[:-1] + depth[1:]) / 2, BANDS).tolist()
    order = np.argsort(depths)
    quads, colours = np.array(quads)[order], np.array(colours)[order]
    return _drawn(quads, colours, size_px, PAPER)


def wraps_by_matplotlib(found: Answer, card_mm: float, size_px: int) -> np.ndarray:
    """Return a sampled wrap card: in each wrap the front of each ply, turn by turn."""
    rope, scale = yarn_geometry_of(found.resolved.yarn), size_px / card_mm
    thick = found.resolved.yarn.relaxed_diameter_mm * scale
    wraps = int(size_px / thick)
    starts = np.linspace(0, found.layout.stretches.yarn_m - card_mm / 1000, wraps)
    rope = rope.as_thick_as(thick / scale)
    quads, colours, depths = [], [], []
    x = np.arange(0, size_px + CELL_PX, CELL_PX)
    for wrap, start in enumerate(starts):
        metre = start + x / scale / 1000
        for k, radius in enumerate(rope.radii_mm):
            angle = 2 * np.pi * (rope.turns_per_mm * metre * 1000 + k / len(rope.radii_mm))
            y = (wrap + 0.5) * thick + rope.ply_helix_radius_mm * np.sin(angle) * scale
            own = _colours_at(found, k, (metre[:-1] + metre[1:]) / 2)
            _add_bands((x, y, radius * scale), own, (quads, colours))
            depths += np.repeat(np.cos(angle)[:-1], BANDS).tolist()
    order = np.argsort(depths)
    return _drawn(np.array(quads)[order], np.array(colours)[order], (size_px, size_px), CARD)


def knitted_by_matplotlib(found: Answer, knit: KnitFabric, aspect: float, size_px) -> np.ndarray:
    """Return a flat piece: two leaning legs for each stitch, a quadrilateral for each ply."""
    wide, high = size_px
    stitch = min(wide / knit.cast_on, high / knit.rows / aspect)
    row_px, plies = stitch * aspect, len(found.layout.stretches.lot[0])
    number = np.arange(knit.rows * knit.cast_on)
    row, column = number // knit.cast_on, number % knit.cast_on
    column = np.where(row % 2, knit.cast_on - 1 - column, column)
    left = (wide - knit.cast_on * stitch) / 2 + column * stitch
    bottom = high - (high - knit.rows * row_px) / 2 - row * row_px
    metre = (number + 0.5) * knit.stitch_m
    quads, colours = [], []
    for k in range(plies):
        own = _colours_at(found, k, metre)
        for leg in (-1, 1):
            low = left + stitch * (0.5 + leg * (0.04 + 0.4 * k / plies))
            step, lean = leg * stitch * 0.4 / plies, leg * stitch * 0.1
            corners = [
                (low, bottom),
                (low + step, bottom),
                (low + step + lean, bottom - row_px * 1.2),
                (low + lean, bottom - row_px * 1.2),
            ]
            quads += np.stack([np.stack(corner, 1) for corner in corners], 1).tolist()
            colours += own.tolist()
    return _drawn(np.array(quads), np.array(colours), size_px, PAPER)


def _colours_at(found: Answer, ply: int, metre: np.ndarray) -> np.ndarray:
    along = found.layout.stretches
    at = np.searchsorted(along.edges_m, metre, side="right") - 1
    lots = along.lot[at.clip(0, len(along.lot) - 1), ply]
    srgb = np.array([tuple(bytes.fromhex(colour[1:])) for colour in found.palette.srgb])
    return srgb[lots] / 255


def _add_bands(strand, own: np.ndarray, shapes: tuple[list, list]) -> None:
    """Add a strand as bands across its thickness, lightest in the middle."""
    (x, y, radius), (quads, colours) = strand, shapes
    edges = np.linspace(-1, 1, BANDS + 1) * radius
    shades = 0.5 + 0.5 * np.sqrt(1 - (np.linspace(-1, 1, BANDS + 2)[1:-1]) ** 2)
    for cell, colour in enumerate(own):
        for band in range(BANDS):
            low, top = edges[band], edges[band + 1]
            one, other = y[cell], y[cell + 1]
            ends = x[cell], x[cell + 1]
            quads.append(
                [
                    (ends[0], one + low),
                    (ends[1], other + low),
                    (ends[1], other + top),
                    (ends[0], one + top),
                ]
            )
            colours.append(colour * shades[band])


def _drawn(quads: np.ndarray, colours: np.ndarray, size_px, ground: str) -> np.ndarray:
    wide, high = size_px
    figure = Figure(figsize=(wide / 100, high / 100), dpi=100, facecolor=ground)
    canvas = FigureCanvasAgg(figure)
    axes = figure.add_axes((0, 0, 1, 1))
    axes.set(xlim=(0, wide), ylim=(high, 0))
    axes.axis("off")
    axes.add_collection(PolyCollection(quads, facecolors=colours, linewidths=0))
    canvas.draw()
    return np.asarray(canvas.buffer_rgba())[..., :3].copy()
