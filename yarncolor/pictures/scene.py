"""Scenes: pictures before they have colours. Which place of the yarn each pixel shows, how light.

A *place* is a short length of one ply at some metre of the yarn: a cell of a strand, a stitch, a
pick. A scene is made once and kept; a change of order, of colours or of eye is one gather through
a packed table, and a second one at the pixels that two places share. The same plain arrays can be
painted with anywhere.
"""

from dataclasses import dataclass, field

import numpy as np

SHADES, FUZZ = 12, 4
LEVELS = SHADES + FUZZ
"""Levels of a place: from dark to light, then ever fainter hairs over the ground."""

WHOLE_SHARE = 256
"""Parts of a pixel in which the share of a second place is told."""

PAPER, CARD, WARP = 0, 1, 2
FIXED_SRGB = np.array([[255, 255, 255], [236, 229, 214], [222, 218, 208]], dtype=float)
"""Colours of places that are no yarn."""


@dataclass(frozen=True)
class Edges:
    """Pixels that two places share.

    Parameters
    ----------
    at : (E,) intp array
        Which pixels, counted along the rows from the top left; rising, each once.
    index : (E,) intp array
        The other place that each shows and its level, as in `Scene.index`.
    share : (E,) uint8 array
        How much of each pixel that other place covers, in `WHOLE_SHARE` parts: not above half.
    """

    at: np.ndarray = field(default_factory=lambda: np.zeros(0, np.intp))
    index: np.ndarray = field(default_factory=lambda: np.zeros(0, np.intp))
    share: np.ndarray = field(default_factory=lambda: np.zeros(0, np.uint8))

    def cut(self, from_px: int, width_px: int, of_px: int) -> "Edges":
        """Return the edges of some columns of a picture, as those of a picture of their own.

        Parameters
        ----------
        from_px, width_px : int
            First column, and how many.
        of_px : int
            Width of the picture that they are cut from.
        """
        row, column = np.divmod(self.at, of_px)
        column = column - from_px
        kept = (column >= 0) & (column < width_px)
        return Edges((row * width_px + column)[kept], self.index[kept], self.share[kept])


NO_EDGES = Edges()


@dataclass(frozen=True)
class Scene:
    """A picture without colours.

    Parameters
    ----------
    index : (height, width) intp array
        ``place * LEVELS + level`` of each pixel. The first places are those of `FIXED_SRGB`,
        whose levels are shades alone; the yarn's places follow.
    ply : (places,) int array
        Strand of each of the yarn's places, from 0.
    metre : (places,) array
        Where along the plied yarn each lies, in metres from the start of plying; NaN beyond the
        yarn's end, where the paper shows.
    mm_per_px : float
        Scale: millimetres of the thing that a pixel shows.
    edges : Edges
        Pixels that a second place has a share of; by default none.
    """

    index: np.ndarray
    ply: np.ndarray
    metre: np.ndarray
    mm_per_px: float
    edges: Edges = NO_EDGES

    @property
    def shape(self) -> tuple[int, int]:
        """Height and width in pixels."""
        return self.index.shape


def distinct(numbers: np.ndarray) -> np.ndarray:
    """Return the numbers that there are, each once, rising: sorting millions is quickest.

    Parameters
    ----------
    numbers : (N,) array
        In any order.
    """
    rising: np.ndarray = np.sort(numbers)
    return rising[np.append(True, rising[1:] != rising[:-1])] if len(rising) else rising


def fixed(place: int, level: int = SHADES - 1) -> int:
    """Return the index of a place that is no yarn, at a level of light.

    Parameters
    ----------
    place : int
        PAPER, CARD or WARP.
    level : int
        0 (dark) to SHADES - 1 (full light).
    """
    return place * LEVELS + level


def yarn_index(place: np.ndarray, level: np.ndarray) -> np.ndarray:
    """Return the index of the yarn's places, counted from 0, at levels of light.

    Parameters
    ----------
    place : int array
        From 0.
    level : int array
        0 to LEVELS - 1.
    """
    index: np.ndarray = (place + len(FIXED_SRGB)) * LEVELS + level
    return index


def levels_of(shade: np.ndarray) -> np.ndarray:
    """Return the level of a shade from 0 (darkest) to 1 (full light).

    Parameters
    ----------
    shade : array
        0 to 1.
    """
    level: np.ndarray = np.clip(shade * SHADES, 0, SHADES - 1).astype(np.intp)
    return level


def fuzz_level(faintness: np.ndarray) -> np.ndarray:
    """Return the level of a hair, from 0 (all yarn) to 1 (all ground).

    Parameters
    ----------
    faintness : array
        0 to 1.
    """
    level: np.ndarray = SHADES + np.clip(faintness * FUZZ, 0, FUZZ - 1).astype(np.intp)
    return level
