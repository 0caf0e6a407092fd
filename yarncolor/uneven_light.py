"""Light that is not the same all over a photograph: how it falls off, and readings made even."""

from dataclasses import dataclass

import numpy as np

from yarncolor.errors import Fault, PlanError
from yarncolor.fibre_colours import LUMINANCE, Box, kept_linear
from yarncolor.photographs import Photo

WORTH_SAYING = 0.10
_FEWEST = 3


@dataclass(frozen=True)
class Light:
    """A plane of light over a picture, fitted in logarithms.

    Parameters
    ----------
    slope : (2,) array
        Logarithm of light won from left to right, and from top to bottom.
    middle : float
        Logarithm of light in the middle.
    left_over : float
        Share by which the measured places stray from the plane.
    falls_by : float
        Share of light lost from the brightest of them to the darkest.
    """

    slope: np.ndarray
    middle: float
    left_over: float
    falls_by: float

    @property
    def words(self) -> str:
        """What is said of it."""
        if self.falls_by < WORTH_SAYING:
            return f"The light is even: {self.falls_by:.0%} between the places on white."
        return (
            f"The light falls off by {self.falls_by:.0%} between the places on white; readings "
            "are made even."
        )

    def at(self, place: tuple[float, float]) -> float:
        """Return light at a place over that in the middle; place in shares of the picture."""
        return float(np.exp(self.slope @ (np.array(place) - 0.5)))


def light_by_white(photo: Photo, boxes: list[Box]) -> Light:
    """Return how light falls over a picture, from boxes on one white all over it.

    Parameters
    ----------
    photo : Photo
        The photograph.
    boxes : list of Box
        At least three, on the same paper, not in one line.
    """
    if len(boxes) < _FEWEST:
        remedy = f"give at least {_FEWEST} boxes on white, well apart"
        raise PlanError([Fault("", "boxes", "", remedy)])
    bright = [float(kept_linear(photo, box)[0].mean(axis=0) @ LUMINANCE) for box in boxes]
    return light_of(np.array([box.middle for box in boxes]), np.array(bright))


def light_of(places: np.ndarray, bright: np.ndarray) -> Light:
    """Return the plane of light through places (n, 2) in shares, of so much brightness (n,)."""
    matrix = np.column_stack([np.ones(len(places)), places - 0.5])
    if np.linalg.matrix_rank(matrix, tol=0.02) < _FEWEST:
        remedy = "these places lie in one line; add one beside it"
        raise PlanError([Fault("", "boxes", "", remedy)])
    found, *_ = np.linalg.lstsq(matrix, np.log(bright), rcond=None)
    left_over = float(np.abs(np.expm1(np.log(bright) - matrix @ found)).max())
    fitted = matrix @ found
    falls_by = 1 - float(np.exp(fitted.min() - fitted.max()))
    return Light(found[1:], float(found[0]), left_over, falls_by)


def made_even(linear: np.ndarray, light: Light, place: tuple[float, float]) -> np.ndarray:
    """Return linear light of a place as it would be in the middle of the picture."""
    return linear / light.at(place)
