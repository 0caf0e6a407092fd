"""Threads that cross: the surface of a plain weave, from one crossing to the next but one.

Each thread is an oval tube whose middle rises over one crossing thread and dips under the next,
as a cosine: the shape that F. T. Peirce, The geometry of cloth structure, Journal of the Textile
Institute 28, 1937, T45-T96 draws with arcs and lines (from memory). What is highest is seen, so
that floats come out as lenses, and light falls on the surface as it stands. Proportions by eye.
"""

from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from yarncolor.pictures.relief import MIDDLE, TO_LIGHT, past_higher

WARP_END, BETWEEN = 2, 3
"""What is seen that is no weft: the warp, and what lies behind the cloth."""

_THICK, _SWELL = 0.34, 0.26
"""Half of a thread's thickness over its width; how much wider it lies on top than in the mean."""

_AMBIENT, _REACH, _SHADOW = 0.34, 0.16, 1.5
"""Light that comes from everywhere; how far, in crossings, and how much a higher thread shades."""

_DARKEST = 0.06


@dataclass(frozen=True)
class Crossings:
    """Two picks by two ends, that repeat: maps from the bottom left.

    Parameters
    ----------
    fine : int
        Samples up and across a crossing, whose threads cross in its middle.
    pick : (2 fine, 2 fine) int8 array
        Weft that is seen, as -1, 0 or 1 from the crossing's own; else WARP_END or BETWEEN.
    around : float32 array
        Where on its thread, in turns round it: -1/4 at the lower or left rim to 1/4.
    shade : float32 array
        How light, 0 to 1.
    """

    fine: int
    pick: np.ndarray
    around: np.ndarray
    shade: np.ndarray


class _Tube(NamedTuple):
    """A thread, (across, along) maps: height of its surface, place on it, and how it is lit."""

    high: np.ndarray
    rim: np.ndarray
    lit: np.ndarray


@lru_cache(maxsize=8)
def crossings(fine: int, room_mm: tuple[float, float], wide_mm: tuple[float, float]) -> Crossings:
    """Return the surface of a plain weave; kept.

    Parameters
    ----------
    fine : int
        Samples up and across a crossing.
    room_mm : (float, float)
        Room of a pick and of an end: from the middle of one to the middle of the next.
    wide_mm : (float, float)
        How wide threads of the weft and of the warp lie.
    """
    aspect = room_mm[1] / room_mm[0]
    weft, warp = (each / room_mm[0] for each in wide_mm)
    crimp = _THICK * (weft + warp) / 2
    across, up, near = (float(each) for each in TO_LIGHT * (1, -1, 1))
    own = np.repeat(np.arange(2), fine)[:, None]
    top = np.full((2 * fine, 2 * fine), -np.inf, np.float32)
    pick, rim = np.full(top.shape, BETWEEN, np.int8), np.zeros_like(top)
    lit = np.full_like(top, _AMBIENT)
    for thread in range(-1, 3):
        swing = _swing(thread, fine)
        weft_tube = _tube(thread, swing, (1.0, aspect), (weft, crimp), (across, up, near))
        warp_tube = _tube(thread, -swing, (aspect, 1.0), (warp, crimp), (up, across, near))
        turned = _Tube(*(each.T for each in warp_tube))
        for tube, who in ((weft_tube, thread - own), (turned, WARP_END)):
            seen = tube.high > top
            pick[seen] = np.broadcast_to(who, top.shape)[seen]
            top[seen], rim[seen], lit[seen] = tube.high[seen], tube.rim[seen], tube.lit[seen]
    high = np.maximum(top, top[np.isfinite(top)].min())
    light = lit * past_higher(high, (_REACH * fine, _REACH * fine), _SHADOW)
    around = (np.arcsin(np.clip(rim, -1, 1)) / (2 * np.pi)).astype(np.float32)
    return Crossings(fine, pick, around, _in_the_mean(light))


def _swing(thread: int, fine: int) -> np.ndarray:
    """Return how high a weft's middle lies along two crossings, -1 to 1: (2 fine,)."""
    swing: np.ndarray = (1 - 2 * (thread % 2)) * np.cos(np.pi * _at(fine))
    return swing


def _at(fine: int) -> np.ndarray:
    """Return where samples lie, in crossings from the middle of the first: (2 fine,)."""
    return ((np.arange(2 * fine) + 0.5) / fine - 0.5).astype(np.float32)


def _tube(
    thread: int,
    swing: np.ndarray,
    rooms: tuple[float, float],
    size: tuple[float, float],
    to_light: tuple[float, float, float],
) -> _Tube:
    """Return the surface of one thread, from how high its middle lies along it."""
    (room, run), (width, crimp) = rooms, size
    fine = len(swing) // 2
    half = width / 2 * (1 + _SWELL * swing)
    rim = (_at(fine)[:, None] - thread) * room / half
    out = np.sqrt(np.maximum(1 - rim**2, 1e-3))
    high = np.where(np.abs(rim) < 1, crimp * swing + _THICK * width * out, -np.inf)
    rise = crimp * np.gradient(swing) * fine / run
    fall = -_THICK * width * rim / (half * out)
    along, across, near = to_light
    light = np.maximum(near - along * rise - across * fall, 0) / np.sqrt(1 + rise**2 + fall**2)
    lit = _AMBIENT + (1 - _AMBIENT) * light
    return _Tube(*(each.astype(np.float32) for each in (high, rim, lit)))


def _in_the_mean(lit: np.ndarray) -> np.ndarray:
    """Return the same light, in the mean that which leaves colours what they are."""
    shade: np.ndarray = np.clip(lit * (MIDDLE / lit.mean()), _DARKEST, 1)
    return shade
