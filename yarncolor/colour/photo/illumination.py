"""Light that is not the same all over a photograph: how it falls off, and readings made even.

A slope in logarithms, from five places on also a bowl round the picture's middle, which is how
lenses darken their corners. It holds among the places measured and a little beyond; farther out
nothing is known of the light, and a reading is left as it is, with a word.
"""

from dataclasses import dataclass

import numpy as np

from yarncolor.colour.photo.image import Photo
from yarncolor.colour.photo.sampling import LUMINANCE, Box, trimmed_linear
from yarncolor.errors import Fault, PlanError
from yarncolor.said import Figure, Filling, Said, said

WORTH_SAYING = 0.10
BEYOND_WORDS = "the light there is not known: it lies beyond the places on white, left as it is"
_FEWEST, _MARGIN, _STRAYS = 3, 0.25, 0.05


@dataclass(frozen=True, eq=False)
class Illumination:
    """Light over a picture: a slope and a bowl, fitted in logarithms.

    Parameters
    ----------
    slope : (2,) array
        Logarithm of light won from left to right, and from top to bottom.
    bowl : float
        Logarithm of light won with the square of the distance from the middle, in shares of the
        picture; 0 where fewer than five places, or none amid them, tell.
    middle : float
        Logarithm of light in the middle.
    left_over : float
        Share by which the measured places stray from that, at most.
    falls_by : float
        Share of light lost from the brightest of them to the darkest.
    span : (2, 2) array
        Least and greatest place, x and y, that was measured.
    seen, fitted : tuple of float
        Light at each of those places: as seen, and by slope and bowl.
    """

    slope: np.ndarray
    bowl: float
    middle: float
    left_over: float
    falls_by: float
    span: np.ndarray
    seen: tuple[float, ...] = ()
    fitted: tuple[float, ...] = ()

    @property
    def words(self) -> str:
        """What is said of it."""
        return str(self.told)

    @property
    def told(self) -> Said:
        """The same, its numbers figures."""
        falls = Figure(f"{self.falls_by:.0%}", "falls_by")
        if self.falls_by < WORTH_SAYING:
            return said("The light is even: {falls} between the places on white.", falls=falls)
        return said(
            "The light falls off by {falls} between the places on white; readings among them are "
            "made even{stray}",
            falls=falls,
            stray=self._stray,
        )

    @property
    def _stray(self) -> Filling:
        if self.left_over <= _STRAYS:
            return "."
        return said(
            ", though one place strays from that by {by}: is each box on the same white, none in "
            "a shadow?",
            by=Figure(f"{self.left_over:.0%}", "strays_by"),
        )

    def reaches(self, place: tuple[float, float]) -> bool:
        """Return whether a place lies among those measured, or a quarter of their span beyond."""
        least, greatest = self.span
        margin = _MARGIN * (greatest - least)
        return bool(((place >= least - margin) & (place <= greatest + margin)).all())

    def at(self, place: tuple[float, float]) -> float:
        """Return light at a place over that in the picture's middle, where it reaches the place.

        Else the light amid the places measured, which leaves a reading as it is beside a white
        among them.
        """
        where = place if self.reaches(place) else self.span.mean(axis=0)
        return self.drawn_out_to(where)

    def drawn_out_to(self, place: tuple[float, float] | np.ndarray) -> float:
        """Return light at any place, known or not, over that in the picture's middle.

        Parameters
        ----------
        place : (float, float) or (2,) array
            In shares of the picture.
        """
        off = np.asarray(place) - 0.5
        return float(np.exp(self.slope @ off + self.bowl * (off @ off)))


def light_by_white(photo: Photo, boxes: list[Box]) -> Illumination:
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
    bright = [float(trimmed_linear(photo, box)[0].mean(axis=0) @ LUMINANCE) for box in boxes]
    return light_of(np.array([box.middle for box in boxes]), np.array(bright))


def light_of(places: np.ndarray, bright: np.ndarray) -> Illumination:
    """Return light through places (n, 2) in shares of a picture, of so much brightness (n,).

    Parameters
    ----------
    places : (n, 2) array
        In shares of the picture from the top left; three or more, not in one line.
    bright : (n,) array
        Linear light there, above 0.
    """
    off = places - 0.5
    matrix = np.column_stack([np.ones(len(places)), off])
    if np.linalg.matrix_rank(matrix, tol=0.02) < _FEWEST:
        remedy = "these places lie in one line; add one beside it"
        raise PlanError([Fault("", "boxes", "", remedy)])
    with_bowl = np.column_stack([matrix, (off**2).sum(axis=1)])
    if len(places) > with_bowl.shape[1] and np.linalg.matrix_rank(with_bowl, tol=0.05) == 4:
        matrix = with_bowl
    terms, *_ = np.linalg.lstsq(matrix, np.log(bright), rcond=None)
    fitted = matrix @ terms
    left_over = float(np.abs(np.expm1(np.log(bright) - fitted)).max())
    falls_by = 1 - float(np.exp(fitted.min() - fitted.max()))
    span = np.array([places.min(axis=0), places.max(axis=0)])
    bowl = float(terms[3]) if len(terms) > _FEWEST else 0.0
    return Illumination(
        *(terms[1:3], bowl, float(terms[0]), left_over, falls_by, span),
        seen=tuple(bright.tolist()),
        fitted=tuple(np.exp(fitted).tolist()),
    )


def flat_fielded(linear: np.ndarray, light: Illumination, place: tuple[float, float]) -> np.ndarray:
    """Return linear light of a place as it would be in the middle of the picture.

    Parameters
    ----------
    linear : (n, 3) array
        Linear light as the picture has it.
    light : Illumination
        How light falls over it.
    place : (float, float)
        Where, in shares of the picture.
    """
    return linear / light.at(place)
