"""How a photograph's colours are put right, and by something white or grey.

For the correction by a 24-patch target see `yarncolor.colour.photo.target`.
"""

from dataclasses import dataclass

import numpy as np

from yarncolor.colour.photo.illumination import Illumination
from yarncolor.colour.photo.image import Photo
from yarncolor.colour.photo.sampling import LUMINANCE, Box, PatchReading, trimmed_linear
from yarncolor.colour.science import corrected
from yarncolor.colour.srgb import linear_of_bytes
from yarncolor.errors import Fault, PlanError

REFLECTS = {"white": 0.85, "grey": 0.18}
"""Share of light that a sheet of paper and a grey card reflect. Common practice, no source."""

UNSURE_UNCORRECTED, UNSURE_BY_WHITE, UNSURE_BY_DOUBTFUL_WHITE = 10.0, 6.0, 25.0
"""CIEDE2000 by which a colour may be out; by white from three real photographs, else judgement."""

TOO_DARK = 0.03
"""Of a white or a target: less light than that says nothing."""

_WHITE_SHARE, _MOST_CLIPPED = 0.5, 0.2


@dataclass(frozen=True, eq=False)
class WhiteSeen:
    """What a picture is put right by, where that is something white or grey.

    Parameters
    ----------
    linear : (3,) array
        Linear light as seen, made even where that is asked.
    reflects : float
        Share of light that it reflects.
    pixels : int
        Pixels that count.
    """

    linear: np.ndarray
    reflects: float
    pixels: int


@dataclass(frozen=True, eq=False)
class PatchesSeen:
    """The patches of a target, row by row: as seen, as they became, as they are.

    Parameters
    ----------
    seen, became, wanted : (n, 3) arrays
        Linear light as the picture has it; put right by all other patches; as it is.
    left_out, by_grey, fit : (n,) arrays
        CIEDE2000 of each from what it is: put right by all others, by the grey ones alone, by all.
    columns : int
        In a row.
    pixels : int
        Of each; 0 where that is not known.
    """

    seen: np.ndarray
    became: np.ndarray
    wanted: np.ndarray
    left_out: np.ndarray
    by_grey: np.ndarray
    fit: np.ndarray
    columns: int = 6
    pixels: int = 0


@dataclass(frozen=True, eq=False)
class Correction:
    """How a photograph is put right.

    Parameters
    ----------
    kind : str
        none, white, grey or target.
    matrix : (3,) or (3, m) array
        A gain for each channel, or what a target asks for: m is 3, or 6 for a root polynomial.
    degree : int
        0: each channel scaled; 1: 3 × 3 in linear light; 2: root polynomial.
    unsure : float
        CIEDE2000 by which a colour may be out.
    words : str
        What was done, for the record.
    warnings : tuple of str
        What makes it doubtful.
    white : WhiteSeen or None
        What it is found by, where that is something white or grey.
    patches : PatchesSeen or None
        The same of a target.
    """

    kind: str
    matrix: np.ndarray
    degree: int
    unsure: float
    words: str
    warnings: tuple[str, ...] = ()
    white: WhiteSeen | None = None
    patches: PatchesSeen | None = None

    def apply(self, linear: np.ndarray) -> np.ndarray:
        """Return linear light as it is: (n, 3).

        Parameters
        ----------
        linear : (n, 3) array
            Linear light as seen.
        """
        return linear * self.matrix if self.degree == 0 else corrected(linear, self.matrix)

    def unsure_of(self, reading: PatchReading) -> float:
        """Return CIEDE2000 by which a reading may be out: the correction's and its own, at once."""
        return float(np.hypot(self.unsure, reading.unsure))


def uncorrected() -> Correction:
    """Return no correction, with its warning."""
    warning = "nothing white was used: the picture's light and camera are taken as they come"
    return Correction("none", np.ones(3), 0, UNSURE_UNCORRECTED, "not corrected", (warning,))


def by_white(
    photo: Photo, box: Box, what: str = "white", light: Illumination | None = None
) -> Correction:
    """Return the correction by a box on something white or grey: each channel is scaled.

    Parameters
    ----------
    photo : Photo
        The photograph.
    box : Box
        On a sheet of white paper or a grey card, in the same light as the fibre.
    what : str
        white or grey.
    light : Illumination, optional
        How light falls over the picture; the white is made even like the fibre.
    """
    if what not in REFLECTS:
        raise PlanError([Fault("", "what", what, f"give one of {', '.join(REFLECTS)}")])
    linear, clipped, pixels = trimmed_linear(photo, box)
    seen = linear.mean(axis=0) / (1.0 if light is None else light.at(box.middle))
    warnings = (*_clipped(what, clipped), *_not_on_it(what, seen @ LUMINANCE, photo))
    unsure = UNSURE_BY_WHITE if not warnings else UNSURE_BY_DOUBTFUL_WHITE
    words = f"corrected by something {what}"
    white = WhiteSeen(seen, REFLECTS[what], pixels)
    return Correction(what, REFLECTS[what] / seen, 0, unsure, words, warnings, white)


def _clipped(what: str, share: float) -> list[str]:
    return [f"the {what} is clipped or black: expose otherwise"] if share > _MOST_CLIPPED else []


def _not_on_it(what: str, luminance: float, photo: Photo) -> list[str]:
    """Return a doubt where the box may lie on something else."""
    if luminance < TOO_DARK:
        return [f"the {what} is very dark: is the box on it?"]
    if what == "white" and luminance < _WHITE_SHARE * _brightest(photo):
        return ["other things in the picture are brighter: is the box on the white?"]
    return []


def _brightest(photo: Photo) -> float:
    """Return how bright the brightest hundredth of a picture is."""
    thinned = photo.srgb[::7, ::7].reshape(-1, 3)
    return float(np.quantile(linear_of_bytes()[thinned] @ LUMINANCE, 0.99))
