"""Strands of yarn drawn one over the other: each on its own course, the nearest seen."""

from dataclasses import dataclass

import numpy as np

from yarncolor.pictures.relief import TO_LIGHT, of_ply

_AMBIENT, _OWN = 0.30, 0.5
"""Light from everywhere; how much of the rest falls on a strand's own roundness."""

_STEEPEST = 2.5
"""How much taller a strand is cut at the most where it runs up or down."""


@dataclass(frozen=True)
class Twist:
    """Plies of a strand, and their turns over a length as long as it is thick; above 0 for S."""

    plies: int
    turns: float


@dataclass(frozen=True)
class Course:
    """Where a strand runs: in pixels, (columns,) arrays.

    Parameters
    ----------
    first : int
        Column of the first of them.
    middle, depth : array
        How far down, and how near to the eye.
    lit : array
        Light on what the strand lies on, 0 to 1.
    cell : int array
        Place of the yarn in each column, all its plies counted as one.
    """

    first: int
    middle: np.ndarray
    depth: np.ndarray
    lit: np.ndarray
    cell: np.ndarray


class Canvas:
    """What is seen so far, sample by sample: place, shade, and how near it is."""

    def __init__(self, shape: tuple[int, int], down: int, ground: int) -> None:
        high, wide = shape
        self.down = down
        self.place = np.full((high * down, wide), ground, np.int32)
        self.shade = np.ones(self.place.shape, np.float32)
        self.near = np.full(self.place.shape, -np.inf, np.float32)

    def draw(self, course: Course, radius_px: float, twist: Twist) -> None:
        """Draw a strand over what lies farther from the eye.

        Parameters
        ----------
        course : Course
            Where it runs.
        radius_px : float
            Half of how thick it is.
        twist : Twist
            Of its plies.
        """
        slope = np.gradient(course.middle)
        stretch = np.minimum(np.sqrt(1 + slope * slope), _STEEPEST)
        reach = int(np.ceil((radius_px * stretch.max() + 0.5) * self.down))
        away = np.arange(-reach, reach + 1)[:, None]
        row = np.floor(course.middle * self.down).astype(np.intp) + away
        rim = ((row + 0.5) / self.down - course.middle) / (radius_px * stretch)
        out = np.sqrt(np.maximum(1 - rim * rim, 0))
        near = (course.depth + radius_px * out).astype(np.float32)
        at = row * self.place.shape[1] + np.arange(course.first, course.first + row.shape[1])
        seen = (out > 0) & (row >= 0) & (row < len(self.place))
        seen[seen] = near[seen] > self.near.reshape(-1)[at[seen]]
        column = np.nonzero(seen)[1]
        at, rim, out = at[seen], rim[seen], out[seen]
        run = np.cumsum(stretch) / (2 * radius_px) * twist.turns
        turned = (run[column] - np.arcsin(rim) / (2 * np.pi)) * twist.plies
        ply = np.floor(turned)
        own = np.maximum(TO_LIGHT[1] * rim + TO_LIGHT[2] * out, 0)
        lit = _AMBIENT + (1 - _AMBIENT) * (_OWN * own + (1 - _OWN) * course.lit[column])
        cell = course.cell[column] * np.int32(twist.plies)
        self.near.reshape(-1)[at] = near[seen]
        self.place.reshape(-1)[at] = cell + ply.astype(np.int32) % np.int32(twist.plies)
        self.shade.reshape(-1)[at] = lit * (of_ply(turned - ply) if twist.plies > 1 else 1)
