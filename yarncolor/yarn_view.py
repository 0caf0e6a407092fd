"""A yarn seen from the side and end on, as index maps: which ply, how light, at each pixel.

The maps hold no colour: a change of colours is one gather. Plies are round strands on helices;
at each pixel the nearest surface is seen. Fibres lie on each strand at the angle that its own
twist leaves it after plying.
"""

from dataclasses import dataclass

import numpy as np

from yarncolor.physics import Physics

GROUND = -1
_DARKEST, _FIBRES, _FIBRE_DEPTH = 0.42, 9, 0.16


@dataclass(frozen=True)
class View:
    """What is seen: (height, width) maps.

    Parameters
    ----------
    ply : int8 array
        Ply at each pixel, from 0; `GROUND` where there is none.
    shade : float array
        How light, 0 to 1.
    """

    ply: np.ndarray
    shade: np.ndarray


@dataclass(frozen=True)
class _Strands:
    """Round strands on helices: radii, ring, turns of ply and of the fibres in each."""

    radii_mm: np.ndarray
    ring_mm: float
    turns_per_mm: float
    fibre_turns_per_mm: np.ndarray


def yarn_side(yarn: Physics, width_px: int, height_px: int, px_per_mm: float) -> View:
    """Return plied yarn from the side, its axis along the middle of the picture."""
    turns = (yarn.ply_twist_tpm or 0.0) / 1000 * _hand(yarn.ply_direction)
    strands = _Strands(yarn.diameters_mm / 2, yarn.ring_mm, turns, _left_turns_per_mm(yarn))
    return _side(strands, (height_px, width_px), px_per_mm)


def single_side(yarn: Physics, width_px: int, height_px: int, px_per_mm: float) -> View:
    """Return the first single from the side, before plying."""
    twist = 0.0 if yarn.twist_tpm is None else yarn.twist_tpm[0] / 1000
    turns = np.array([twist * _hand(yarn.directions[0])])
    strands = _Strands(yarn.diameters_mm[:1] / 2, 0.0, 0.0, turns)
    return _side(strands, (height_px, width_px), px_per_mm)


def yarn_end(yarn: Physics, size_px: int, px_per_mm: float) -> View:
    """Return a cut through the yarn: its plies on their ring, in a square picture."""
    place = (np.arange(size_px) + 0.5 - size_px / 2) / px_per_mm
    x, y = np.meshgrid(place, -place)
    angles = ring_angles(yarn)
    from_centre = np.hypot(
        x - yarn.ring_mm * np.cos(angles)[:, None, None],
        y - yarn.ring_mm * np.sin(angles)[:, None, None],
    )
    share = from_centre / (yarn.diameters_mm / 2)[:, None, None]
    ply = share.argmin(axis=0)
    nearest = np.take_along_axis(share, ply[None], axis=0)[0]
    inside = nearest <= 1
    shade = np.where(nearest > 1 - 1.2 / px_per_mm / yarn.diameters_mm[ply], 0.55, 0.95)
    return View(np.where(inside, ply, GROUND).astype(np.int8), np.where(inside, shade, 1.0))


def ring_angles(yarn: Physics) -> np.ndarray:
    """Return where each ply stands on the ring, in radians from the right: (plies,).

    Neighbours touch: the angle between two of them is that of their chord.
    """
    radii = yarn.diameters_mm / 2
    if yarn.plies == 1:
        return np.zeros(1)
    chords = np.minimum((radii + np.roll(radii, -1)) / (2 * yarn.ring_mm), 1.0)
    steps = 2 * np.arcsin(chords)
    steps *= 2 * np.pi / steps.sum()
    return np.pi / 2 + np.append(0.0, np.cumsum(steps)[:-1])


def envelope_mm(yarn: Physics) -> float:
    """Return the diameter of the circle round all plies."""
    return float(2 * (yarn.ring_mm + yarn.diameters_mm.max() / 2))


def _side(strands: _Strands, shape: tuple[int, int], px_per_mm: float) -> View:
    high, wide = shape
    x = ((np.arange(wide) + 0.5) / px_per_mm).astype(np.float32)
    y = ((np.arange(high) + 0.5 - high / 2) / px_per_mm).astype(np.float32)[:, None]
    plies = len(strands.radii_mm)
    nearest = np.full(shape, -np.inf, np.float32)
    ply, shade = np.full(shape, GROUND, np.int8), np.ones(shape, np.float32)
    for k in range(plies):
        radius = np.float32(strands.radii_mm[k])
        angle = (2 * np.pi * (strands.turns_per_mm * x + k / plies)).astype(np.float32)
        ring = np.float32(strands.ring_mm)
        centre, depth = ring * np.sin(angle), ring * np.cos(angle)
        slope = depth * np.float32(2 * np.pi * strands.turns_per_mm)
        stretch = np.sqrt(1 + slope**2)
        across = (y - centre) / (radius * stretch)
        out = np.sqrt(np.maximum(1 - across**2, 0.0))
        seen = (np.abs(across) <= 1) & (depth + radius * out > nearest)
        length = np.cumsum(stretch, dtype=np.float64) / px_per_mm
        turned = np.mod(length * strands.fibre_turns_per_mm[k], 1).astype(np.float32)
        near = (depth / strands.ring_mm + 1) / 2 if strands.ring_mm else np.ones_like(x)
        column = np.nonzero(seen)[1]
        lit = _lit(across[seen], out[seen], turned[column])
        shade[seen] = lit * (0.72 + 0.28 * near[column])
        nearest[seen], ply[seen] = (depth + radius * out)[seen], k
    return View(ply, shade)


def _lit(across: np.ndarray, out: np.ndarray, turned: np.ndarray) -> np.ndarray:
    """Return how light a strand's surface is: round, with fibres that wind along it."""
    around = np.arcsin(np.clip(across, -1, 1)) / (2 * np.pi)
    fibre = 0.5 + 0.5 * np.cos(2 * np.pi * _FIBRES * (around - turned))
    return (_DARKEST + (1 - _DARKEST) * out) * (1 - _FIBRE_DEPTH * fibre)


def _left_turns_per_mm(yarn: Physics) -> np.ndarray:
    """Return turns that the fibres of each ply make round its own axis once plied: (plies,)."""
    if yarn.twist_tpm is None:
        return np.zeros(yarn.plies)
    twist = np.resize(yarn.twist_tpm, yarn.plies)
    hands = [_hand(direction) for direction in yarn.directions]
    own = twist * np.resize(np.array(hands, dtype=float), yarn.plies)
    if yarn.helix_angle_deg is None:
        return own / 1000
    by_plying = yarn.ply_twist_tpm * np.cos(np.radians(yarn.helix_angle_deg)) ** 2
    return (own + by_plying * _hand(yarn.ply_direction)) / 1000


def _hand(direction: str) -> int:
    """Return the sign of a direction on a picture whose y runs down: Z rises to the right."""
    return -1 if direction == "Z" else 1
