"""Hairs that stand off a yarn: rooted in a ply, free at one end, or caught again, as loops.

After Zhao, Luan and Bala (`portrait_fibres`), and K. Wu and C. Yuksel, Real-time fiber-level cloth
rendering, 2017, figure 4, as read: flyaway fibres are hairs, which end in the air, and loops, which
come back. How many and how long by preparation is by eye: carded fibre stands off all round, combed
hardly.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from yarncolor.pictures.portrait_fibres import Floats, centres_mm
from yarncolor.pictures.portrait_light import on_fibres
from yarncolor.pictures.yarn_geometry import YarnGeometry

_PER_MM, _LOOPS, _POINTS = 75.0, 0.4, 64
"""Hairs of a carded yarn in its own thickness, share of loops, points of one."""

_LENGTHS, _STANDS = (0.25, 2.0), 0.42
"""How long they are, in thicknesses of the yarn, and how far the usual one stands off."""

_CURL, _ROOTED = 0.30, 0.94
_OPAQUE, _SHINES_THROUGH = 0.7, 0.3
"""How dense a hair is, and how light the side of it that no light falls on: thin fibre glows."""


@dataclass(frozen=True)
class Hairs:
    """Hairs as points in a row: (hairs, points) arrays but for the first.

    Parameters
    ----------
    ply : (hairs,) int array
        In which each is rooted.
    x_mm, y_mm, z_mm : arrays
        Along, down and towards the eye; the first point is the root.
    """

    ply: NDArray[np.int64]
    x_mm: Floats
    y_mm: Floats
    z_mm: Floats

    def rooted_in(self, first_mm: float, last_mm: float) -> "Hairs":
        """Return those whose roots lie between two places along.

        Parameters
        ----------
        first_mm, last_mm : float
            Along the picture.
        """
        root = self.x_mm[:, 0]
        own = (root >= first_mm) & (root <= last_mm)
        return Hairs(self.ply[own], self.x_mm[own], self.y_mm[own], self.z_mm[own])


def hairs_of(
    rope: YarnGeometry, x_mm: Floats, reach_mm: float, fuzz: Floats, rng: np.random.Generator
) -> Hairs:
    """Return the hairs along a picture.

    Parameters
    ----------
    rope : YarnGeometry
        Plies on helices.
    x_mm : (columns,) array
        Along the yarn.
    reach_mm : float
        How far a hair stands off that fills the yarn's relaxed thickness.
    fuzz : (plies,) array
        How many there are: 1 as carded, 0 for none.
    rng : Generator
        Seeded.
    """
    thick = rope.envelope_mm
    beyond = _LENGTHS[1] * thick
    wide = float(x_mm[-1] - x_mm[0]) + 2 * beyond
    many = np.round(fuzz * _PER_MM * wide / thick / len(fuzz)).astype(np.int64)
    ply = np.repeat(np.arange(len(many)), many)
    root = (x_mm[0] - beyond + rng.random(len(ply)) * wide).astype(np.float32)
    t = np.linspace(0, 1, _POINTS, dtype=np.float32)
    is_loop = rng.random((len(ply), 1)) < _LOOPS
    away = np.where(is_loop, np.sin(np.pi * t), 1 - np.exp(-2.4 * t))
    high = reach_mm * 2 * _STANDS * rng.gamma(1.5, 0.6, (len(ply), 1))
    long = thick * rng.uniform(*_LENGTHS, (len(ply), 1)) * rng.choice((-1, 1), (len(ply), 1))
    radius = np.array(rope.radii_mm)[ply][:, None] * _ROOTED
    out = radius + high * (away + _bent(t, len(ply), rng))
    turn = 2 * np.pi * (rng.random((len(ply), 1)) + _bent(t, len(ply), rng) / 2)
    x = root[:, None] + long * (t + _bent(t, len(ply), rng) / 2)
    centre_y, centre_z = _roots(rope, ply, root)
    y, z = centre_y + out * np.sin(turn), centre_z + out * np.cos(turn)
    return Hairs(ply, *(each.astype(np.float32) for each in (x, y, z)))


def _roots(rope: YarnGeometry, ply: NDArray[np.int64], root: Floats) -> tuple[Floats, Floats]:
    every = centres_mm(rope, root)
    down, near = (each[ply, np.arange(len(ply))][:, None] for each in every)
    return down, near


def _bent(t: Floats, hairs: int, rng: np.random.Generator) -> Floats:
    """Return how hairs bend, the more the farther from the root: (hairs, points)."""
    often, begun = rng.uniform(0.5, 2.6, (hairs, 1)), rng.random((hairs, 1))
    wave = np.sin(2 * np.pi * (often * t + begun)) - np.sin(2 * np.pi * begun)
    found: Floats = (_CURL * t * wave).astype(np.float32)
    return found


@dataclass(frozen=True)
class HairLayer:
    """Hairs as they are painted: how much each pixel holds of them, and in which light.

    Parameters
    ----------
    cover : (height, width) array
        0 for none, 1 for all.
    light : (height, width, 3) array
        Linear light of what covers it.
    """

    cover: Floats
    light: Floats


def painted_hairs(
    hairs: Hairs, light_of_hairs: Floats, nearest_mm: Floats, px_per_mm: float, width_mm: float
) -> HairLayer:
    """Return hairs painted where no yarn stands before them.

    Parameters
    ----------
    hairs : Hairs
        Along from the picture's left edge.
    light_of_hairs : (hairs, 3) array
        Linear light of each hair's colour.
    nearest_mm : (height, width) array
        How near the yarn is at each pixel.
    px_per_mm : float
        Scale.
    width_mm : float
        Of a hair.
    """
    high, wide = nearest_mm.shape
    x, y = hairs.x_mm * px_per_mm - 0.5, hairs.y_mm * px_per_mm + high / 2 - 0.5
    ends = (x, y, hairs.z_mm)
    runs = [np.diff(each, axis=1) for each in ends]
    length = np.hypot(runs[0], runs[1])
    many = int(np.ceil(length.max())) + 1 if length.size else 1
    between = (np.arange(many) / many).astype(np.float32)
    x, y, z = ((each[:, :-1, None] + run[..., None] * between).reshape(-1)
               for each, run in zip(ends, runs, strict=True))  # fmt: skip
    piece = np.repeat(np.arange(length.size), many)
    inside = (x > 0) & (x < wide - 1) & (y > 0) & (y < high - 1)
    at = np.flatnonzero(inside)
    at = at[z[at] > nearest_mm[np.rint(y[at]).astype(int), np.rint(x[at]).astype(int)]]
    along = np.where(np.abs(runs[0]) < 1e-6, 1e-6, runs[0])
    lit = on_fibres(runs[1] / along, runs[2] * px_per_mm / along, np.zeros_like(along))
    of_pieces = (
        light_of_hairs[:, None, :] * (_SHINES_THROUGH + lit.own)[..., None] + lit.gleam[..., None]
    )
    weight = (length / many).reshape(-1)[piece[at]]
    amount, light = _splatted(
        (x[at], y[at]), weight, of_pieces.reshape(-1, 3)[piece[at]], (high, wide)
    )
    cover = 1 - np.exp(-_OPAQUE * amount * max(width_mm * px_per_mm, 0.4))
    return HairLayer(cover.astype(np.float32), light)


def _splatted(
    at: tuple[Floats, Floats], weight: Floats, light: Floats, shape: tuple[int, int]
) -> tuple[Floats, Floats]:
    """Return points shared out over the four pixels round each: how much, and the mean of light."""
    high, wide = shape
    left, top = (np.floor(each).astype(np.int64) for each in at)
    part_x, part_y = at[0] - left, at[1] - top
    corners = [
        (
            (top + down) * wide + left + on,
            weight * np.abs(1 - on - part_x) * np.abs(1 - down - part_y),
        )
        for down in (0, 1)
        for on in (0, 1)
    ]
    amount = _added(corners, 1.0, high * wide)
    mean = np.empty((high * wide, 3), np.float32)
    for channel in range(3):
        mean[:, channel] = _added(corners, light[:, channel], high * wide)
    mean /= np.maximum(amount, 1e-9)[:, None]
    return amount.reshape(shape), mean.reshape(*shape, 3)


def _added(
    corners: list[tuple[NDArray[np.int64], Floats]], value: Floats | float, pixels: int
) -> Floats:
    """Return what all points bring to each pixel."""
    found = np.zeros(pixels, np.float32)
    for pixel, share in corners:
        found += np.bincount(pixel, share * value, pixels)
    return found
