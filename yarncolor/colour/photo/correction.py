"""Putting a photograph's colours right: by something white or grey, or by a 24-patch target.

References
----------
.. [1] Cheung, Westland, Connah & Ripamonti 2004: 3 × 3 in linear light is their three-term case.
.. [2] Finlayson, Mackiewicz & Hurlbert 2015: root-polynomial correction, which does not change
   with exposure. Higher orders fit 24 patches better and other colours worse: refused.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from yarncolor.colour.photo.illumination import Illumination
from yarncolor.colour.photo.image import Photo
from yarncolor.colour.photo.sampling import (
    LUMINANCE,
    Box,
    PatchReading,
    trimmed_linear,
)
from yarncolor.colour.srgb import linear_of_bytes
from yarncolor.errors import Fault, PlanError

REFLECTS = {"white": 0.85, "grey": 0.18}
"""Share of light that a sheet of paper and a grey card reflect. Common practice, no source."""

UNSURE_UNCORRECTED, UNSURE_BY_WHITE, LEAST_UNSURE = 10.0, 6.0, 3.0
UNSURE_BY_DOUBTFUL_WHITE = 25.0
"""CIEDE2000 by which a colour may be out; by white from three real photographs, else judgement."""

_TOO_DARK, _WORST_TARGET, _WHITE_SHARE = 0.03, 22.0, 0.5


@dataclass(frozen=True)
class Correction:
    """How a photograph is put right.

    Parameters
    ----------
    kind : str
        none, white, grey or target.
    apply : callable
        Linear light (n, 3) as seen to linear light as it is.
    unsure : float
        CIEDE2000 by which a colour may be out.
    words : str
        What was done, for the record.
    warnings : tuple of str
        What makes it doubtful.
    """

    kind: str
    apply: Callable[[np.ndarray], np.ndarray]
    unsure: float
    words: str
    warnings: tuple[str, ...] = ()

    def unsure_of(self, reading: PatchReading) -> float:
        """Return CIEDE2000 by which a reading may be out: the correction's and its own, at once."""
        return float(np.hypot(self.unsure, reading.unsure))


def uncorrected() -> Correction:
    """Return no correction, with its warning."""
    return Correction(
        "none",
        lambda light: light,
        UNSURE_UNCORRECTED,
        "not corrected",
        ("nothing white was used: the picture's light and camera are taken as they come",),
    )


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
    light : Light, optional
        How light falls over the picture; the white is made even like the fibre.
    """
    if what not in REFLECTS:
        raise PlanError([Fault("", "what", what, f"give one of {', '.join(REFLECTS)}")])
    linear, clipped, _ = trimmed_linear(photo, box)
    seen = linear.mean(axis=0) / (1.0 if light is None else light.at(box.middle))
    warnings = [f"the {what} is clipped or black: expose otherwise"] if clipped > 0.2 else []
    if seen @ LUMINANCE < _TOO_DARK:
        warnings.append(f"the {what} is very dark: is the box on it?")
    elif what == "white" and seen @ LUMINANCE < _WHITE_SHARE * _brightest(photo):
        warnings.append("other things in the picture are brighter: is the box on the white?")
    gain = REFLECTS[what] / seen
    unsure = UNSURE_BY_WHITE if not warnings else UNSURE_BY_DOUBTFUL_WHITE
    return Correction(
        what,
        lambda light: light * gain,
        unsure,
        f"corrected by something {what}",
        tuple(warnings),
    )


def _not_too_dark(seen: np.ndarray) -> None:
    if (seen @ LUMINANCE).max() < _TOO_DARK:
        remedy = "the target is too dark to be used; give it more light"
        raise PlanError([Fault("", "corners", "", remedy)])


def _brightest(photo: Photo) -> float:
    """Return how bright the brightest hundredth of a picture is."""
    thinned = photo.srgb[::7, ::7].reshape(-1, 3)
    return float(np.quantile(linear_of_bytes()[thinned] @ LUMINANCE, 0.99))
