"""What a piece in the round is when it is worn: a sock's leg, a hat, a cowl; by its size alone."""

from dataclasses import dataclass
from math import ceil
from typing import Self

from yarncolor.measures import Measure
from yarncolor.pictures.knit_scenes import KnitFabric
from yarncolor.pictures.tube_scene import Tube
from yarncolor.pictures.view import LEAST_PX
from yarncolor.said import Figure, Said, said

_FILLED, _MARGIN_PX = 0.96, 16
_HEAD_CM, _HAT_CM = (42.0, 66.0), 40.0
"""Round a head, and how high a hat is at most. Common practice, no source."""
_LEAST_STRAIGHT = 0.2
"""Share of a hat that stands up below its crown; what is lower is a band."""
_LEG_CM = 36.0
"""What is narrower is for a leg or an arm. Common practice, no source."""


@dataclass(frozen=True)
class Worn:
    """A piece in the round by its size, and what that makes of it.

    Parameters
    ----------
    stitches, rows : int
        Round it, and up.
    aspect : float
        Height of a row over width of a stitch.
    stitch_cm : float
        Width of a stitch.
    """

    stitches: int
    rows: int
    aspect: float
    stitch_cm: float

    @classmethod
    def of(cls, knit: KnitFabric, aspect: float) -> Self:
        """Return a piece as it is worn.

        Parameters
        ----------
        knit : KnitFabric
            What is knitted, in the round.
        aspect : float
            Height of a row over width of a stitch.
        """
        return cls(knit.cast_on, knit.rows, aspect, 10 / knit.gauge_stitches)

    @property
    def round_cm(self) -> float:
        """How far round it is."""
        return self.stitches * self.stitch_cm

    @property
    def high_cm(self) -> float:
        """How high it is, laid flat."""
        return self.rows * self.aspect * self.stitch_cm

    @property
    def is_hat(self) -> bool:
        """Whether it is as large as a hat, and drawn together at the top."""
        gathered = Tube(self.stitches, self.rows, self.aspect, is_gathered=True)
        is_tall = gathered.straight >= _LEAST_STRAIGHT * self.rows * self.aspect
        return is_tall and _HEAD_CM[0] <= self.round_cm <= _HEAD_CM[1] and self.high_cm <= _HAT_CM

    @property
    def name(self) -> str:
        """What it is called."""
        if self.is_hat:
            return "A hat, gathered at the top"
        return "A sock's leg" if self.round_cm <= _LEG_CM else "A tube"

    def tube(self, rows: int | None = None) -> Tube:
        """Return it as a tube, with so many of its rows; all by default."""
        return Tube(self.stitches, rows or self.rows, self.aspect, self.is_hat)

    def px_in(self, size_px: tuple[int, int]) -> float:
        """Return how wide a stitch that faces the eye is drawn, so that all of it is seen.

        Parameters
        ----------
        size_px : (int, int)
            Of the picture.
        """
        wide, high = self.tube().size
        return _FILLED * min(size_px[0] / wide, size_px[1] / high)

    def cropped_px(self, px: float, size_px: tuple[int, int]) -> tuple[int, int]:
        """Return the part of a picture that it fills, with a margin.

        Parameters
        ----------
        px : float
            Width of a stitch that faces the eye.
        size_px : (int, int)
            Of the whole picture.
        """
        wide, high = (
            min(most, max(LEAST_PX, ceil(side * px) + 2 * _MARGIN_PX))
            for side, most in zip(self.tube().size, size_px, strict=True)
        )
        return wide, high

    def words(self, width: Measure) -> Said:
        """Return what it is and how large, in a sentence.

        Parameters
        ----------
        width : Measure
            Puts centimetres into words.
        """
        return said(
            f"{self.name}: {{round}} round, {{high}} high.",
            round=Figure(width(self.round_cm), "size"),
            high=Figure(width(self.high_cm), "size"),
        )
