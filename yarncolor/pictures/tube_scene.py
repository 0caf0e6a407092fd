"""What is knitted in the round, seen as it is worn: a tube before the eye, open or gathered.

A plain piece is laid round a cylinder whose axis stands upright. Of the front half each stitch is
seen as narrow as it turns away: at x from the axis of a tube of radius R it lies at the angle
asin(x / R). Rounds are seen a little from above and sag in the middle. Gathered at the top, the
last rounds lie on half an ellipsoid; else one looks over the rim onto the inside.
"""

from dataclasses import dataclass
from math import pi, sqrt

import numpy as np

from yarncolor.pictures.coverage import covered
from yarncolor.pictures.scene import (
    FIXED_SRGB,
    LEVELS,
    SHADES,
    Edges,
    Scene,
    levels_of,
)

_FINER = 2
"""Samples along each side of a pixel."""
_SAG, _CROWN = 0.14, 0.72
"""How far rounds sag, and how high a crown is, in radii: by eye."""
_RIM = 0.4
"""Part of the last round that bends over the rim of an open tube."""
_LIGHT_FROM, _AMBIENT, _INSIDE = -0.35, 0.34, 0.5
"""Where light comes from, in radians from the front; what shade keeps; how light the inside is."""


@dataclass(frozen=True)
class Tube:
    """A piece in the round by its stitches; lengths are in widths of a stitch.

    Parameters
    ----------
    stitches, rows : int
        Round it, and up.
    aspect : float
        Height of a row over width of a stitch.
    is_gathered : bool
        Whether the last rounds are drawn together.
    """

    stitches: int
    rows: int
    aspect: float
    is_gathered: bool

    @property
    def radius(self) -> float:
        """Of the tube."""
        return self.stitches / (2 * pi)

    @property
    def crown_height(self) -> float:
        """How high the crown stands above the rest; 0 for an open tube."""
        return _CROWN * self.radius if self.is_gathered else 0.0

    @property
    def straight(self) -> float:
        """Height of what lies straight up."""
        on_crown = _quarter(self.radius, self.crown_height) if self.is_gathered else 0.0
        return self.rows * self.aspect - on_crown

    @property
    def size(self) -> tuple[float, float]:
        """Width and height as it is seen."""
        rim = 0.0 if self.is_gathered else _SAG * self.radius
        return 2 * self.radius, self.straight + self.crown_height + _SAG * self.radius + rim


def _quarter(across: float, up: float) -> float:
    """Return how long a quarter of an ellipse is, from its side to its top: nearly."""
    return pi / 2 * sqrt((across**2 + up**2) / 2)


def on_a_tube(
    flat: Scene, tube: Tube, stitch_px: tuple[int, int], size_px: tuple[int, int], px: float
) -> Scene:
    """Return a flat scene of a piece in the round as it is seen on a tube.

    Parameters
    ----------
    flat : Scene
        The whole piece, its stitches in the middle, cast on at the bottom.
    tube : Tube
        What it is laid round.
    stitch_px : (int, int)
        Width and height of a stitch in the flat scene.
    size_px : (int, int)
        Of the picture.
    px : float
        Width of a stitch that faces the eye, in the picture.
    """
    column, row, light = _places(tube, size_px, px)
    high, wide = flat.shape
    left = (wide - tube.stitches * stitch_px[0]) // 2
    below = (high + (tube.rows + 1) * stitch_px[1]) // 2
    x = np.clip(left + column * stitch_px[0], 0, wide - 1).astype(np.intp)
    # in the round the work climbs by one row in each round
    lift = column / tube.stitches
    y = np.clip(below - 1 - (row + lift) * stitch_px[1], 0, high - 1).astype(np.intp)
    seen = np.where(np.isnan(light), 0, flat.index[y, x])
    place, level = np.divmod(seen, LEVELS)
    is_yarn = (place >= len(FIXED_SRGB)) & ~np.isnan(light)
    shade = np.where(is_yarn, (np.minimum(level, SHADES - 1) + 0.5) / SHADES * light, 1.0)
    place = np.where(is_yarn, place, 0)
    main, (at, other, others, share) = covered(place, shade, (_FINER, _FINER))
    index, second = (each * LEVELS + levels_of(shades) for each, shades in (main, (other, others)))
    parted = second != index.reshape(-1)[at]
    edges = Edges(at[parted], second[parted], share[parted])
    return Scene(index, flat.ply, flat.metre, flat.mm_per_px * stitch_px[0] / px, edges)


def _places(
    tube: Tube, size_px: tuple[int, int], px: float
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return column, row and light of each sample; light is NaN where there is no fabric."""
    wide, high = (side * _FINER for side in size_px)
    per = px * _FINER
    across = (np.arange(wide) + 0.5 - wide / 2)[None, :] / per
    up = (high / 2 - np.arange(high) - 0.5)[:, None] / per + tube.size[1] / 2
    up, radius = np.broadcast_to(up, (high, wide)), tube.radius
    ring = np.full((high, wide), radius)
    turn = _angle(across, ring)
    climbed = up - _SAG * radius * (1 - np.cos(turn))
    for _ in range(3 if tube.is_gathered else 0):  # how far a ring sags hangs on how wide it is
        climbed = up - _SAG * (radius - ring * np.cos(turn))
        ring = _ring(tube, climbed)
        turn = _angle(across, ring)
    row = _height(tube, climbed) / tube.aspect
    column = (0.5 + turn / (2 * pi)) * tube.stitches
    light = _AMBIENT + (1 - _AMBIENT) * np.cos(turn - _LIGHT_FROM).clip(0)
    top = tube.rows if tube.is_gathered else tube.rows - _RIM
    there = (np.abs(across) < ring) & (row >= 0) & (row < top)
    light = np.where(there, light, np.nan)
    if not tube.is_gathered:
        _look_inside(tube, (across, up), turn, (column, row, light))
    return column, row, light


def _angle(across: np.ndarray, ring: np.ndarray) -> np.ndarray:
    angle: np.ndarray = np.arcsin(np.clip(across / np.maximum(ring, 1e-9), -1, 1))
    return angle


def _ring(tube: Tube, climbed: np.ndarray) -> np.ndarray:
    """Return the radius at heights: that of the tube, and less on its crown."""
    share = (climbed - tube.straight).clip(0) / max(tube.crown_height, 1e-9)
    ring: np.ndarray = tube.radius * np.sqrt((1 - share**2).clip(0))
    return ring


def _height(tube: Tube, climbed: np.ndarray) -> np.ndarray:
    """Return how much fabric lies up to heights: more than they say, where it leans inwards."""
    if not tube.is_gathered:
        return climbed
    share = np.linspace(0, 1, 513)
    steps = np.hypot(
        np.diff(tube.radius * np.sqrt(1 - share**2)), np.diff(share) * tube.crown_height
    )
    fabric = np.append(0, np.cumsum(steps))
    whole = tube.rows * tube.aspect - tube.straight
    on_crown = np.interp(
        (climbed - tube.straight) / max(tube.crown_height, 1e-9), share, fabric / fabric[-1] * whole
    )
    height: np.ndarray = np.where(climbed > tube.straight, tube.straight + on_crown, climbed)
    return height


def _look_inside(
    tube: Tube,
    at: tuple[np.ndarray, np.ndarray],
    turn: np.ndarray,
    seen: tuple[np.ndarray, np.ndarray, np.ndarray],
) -> None:
    """Put in what is seen over the rim: the back of the tube from inside, in shade."""
    (across, up), (column, row, light) = at, seen
    rim = tube.straight + _SAG * tube.radius - _RIM * tube.aspect
    front = rim - _SAG * tube.radius * np.cos(turn)
    back = rim + _SAG * tube.radius * np.cos(turn)
    inside = (np.abs(across) < tube.radius) & (up >= front) & (up < back)
    away = (0.5 + (pi - turn) / (2 * pi)) % 1.0
    column[inside] = (away * tube.stitches)[inside]
    row[inside] = (tube.rows - 1.0 - (back - up) / tube.aspect).clip(0)[inside]
    light[inside] = (_INSIDE * (_AMBIENT + (1 - _AMBIENT) * np.cos(turn)))[inside]
