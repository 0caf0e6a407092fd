"""The quiet colours of a sheet to share, taken from the plan's own: its ground and its inks."""

from typing import NamedTuple

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.colour.science import hex_from_srgb, shown_srgb
from yarncolor.layout.layout import used_g

_LIGHTNESS = (96.5, 14.0, 37.0, 70.0)
_CHROMA = (3.5, 6.0, 7.0, 6.0)
_GREYISH = 8.0
"""Mean chroma below which a stash has hardly a hue, and its sheet neither."""


class Tones(NamedTuple):
    """CSS hex colours: the sheet, what is written large, what is written small, fine lines."""

    ground: str
    ink: str
    quiet: str
    line: str


def tones(answer: Answer) -> Tones:
    """Return the colours of a plan's sheet: the hue of all its fibre together, hardly there.

    Lightness alone makes the contrast of WCAG 2.2 AA: the small ink on the ground, by its L*,
    above 6 to 1.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    """
    mass = used_g(answer.layout)
    hue = mass @ answer.palette.lab[:, 1:] / mass.sum()
    chroma = float(np.hypot(*hue))
    toward = hue / max(chroma, _GREYISH)
    lab = [(light, *(much * toward)) for light, much in zip(_LIGHTNESS, _CHROMA, strict=True)]
    return Tones(*hex_from_srgb(shown_srgb(np.array(lab))[0]))
