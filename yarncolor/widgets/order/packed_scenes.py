"""A scene on its way to the browser: its maps in as few bytes as tell them."""

import numpy as np

from yarncolor.pictures.appearance import unevenness_of
from yarncolor.pictures.scene import Scene
from yarncolor.widgets.order.order_frames import PAINT
from yarncolor.widgets.protocol.order import SceneSize

_FARTHEST = 255
"""Pixels from one edge to the next that a byte can tell."""


def packed_scene(scene: Scene) -> tuple[SceneSize, list[bytes]]:
    """Return a scene for the browser: sizes, places with metres and unevenness, index and edges.

    Places come ply by ply and rising along the yarn, so that one walk finds what each shows;
    those beyond the yarn's end are left out and stay paper.

    Parameters
    ----------
    scene : Scene
        What is drawn.
    """
    there = np.flatnonzero(~np.isnan(scene.metre))
    order = there[np.lexsort((scene.metre[there], scene.ply[there]))]
    ply, metre = scene.ply[order], scene.metre[order]
    plies = int(scene.ply.max()) + 1
    high, wide = scene.shape
    head: SceneSize = {
        "width": wide,
        "height": high,
        "places": len(scene.metre),
        "starts": np.searchsorted(ply, np.arange(plies + 1)).tolist(),
    }
    mottle = unevenness_of(ply, np.maximum(metre, 0.0), PAINT.seed)
    buffers = [
        order.astype(np.uint32).tobytes(),
        metre.astype(np.float64).tobytes(),
        mottle.astype(np.uint8).tobytes(),
        *_halves(scene.index),
    ]
    return head, buffers + _edges(scene)


def _edges(scene: Scene) -> list[bytes]:
    """Return steps from edge to edge, second indices and shares.

    Every so many pixels one is told that no other shares, so that no step is too long.
    """
    edges, index = scene.edges, scene.index.reshape(-1)
    at = np.union1d(edges.at, np.arange(0, index.size, _FARTHEST))
    own = np.searchsorted(at, edges.at)
    second, share = index[at], np.zeros(len(at), np.uint8)
    second[own], share[own] = edges.index, edges.share
    steps = np.diff(at, prepend=0).astype(np.uint8)
    return [steps.tobytes(), *_halves(second), share.tobytes()]


def _halves(numbers: np.ndarray) -> list[bytes]:
    """Return the lower two bytes of each number, and what is above: one byte each, or two."""
    above = numbers >> 16
    wide = np.uint8 if above.max(initial=0) <= np.iinfo(np.uint8).max else np.uint16
    return [(numbers & 0xFFFF).astype(np.uint16).tobytes(), above.astype(wide).tobytes()]
