"""How a picture is looked at, and what it says of itself: shared by all pictures."""

from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np

from yarncolor.answers.answer import Answer, seen_as
from yarncolor.colour.palette import VIEWS
from yarncolor.errors import Fault, PlanError, in_range, suggestion
from yarncolor.phrases import EYES
from yarncolor.pictures.painting import Paint, painted, painted_from_afar, rgb
from yarncolor.pictures.scene import Scene
from yarncolor.said import Figure, Said, said

LEAST_PX, MOST_PX = 16, 6000
MOST_NAMED = 16
"""Lots that a text alternative names; the legend has them all."""

_SEEN = {
    "as it is": "",
    "lightness": " Seen by lightness alone.",
    **{eyes: f" Seen by {words}." for eyes, words in EYES.items()},
}


@dataclass(frozen=True)
class ViewSettings:
    """How a picture is looked at.

    Parameters
    ----------
    view : str
        As it is, lightness, protanomaly, deuteranomaly or tritanomaly.
    severity : float
        Of a colour-vision deficiency, 0 to 1.
    distance_m : float
        From the eye; 0 for close by.
    paint : Paint
        Unevenness of dye, joins, seed.
    """

    view: str = "as it is"
    severity: float = 1.0
    distance_m: float = 0.0
    paint: Paint = field(default_factory=Paint)

    def __post_init__(self) -> None:
        if self.view not in VIEWS:
            remedy = f"give one of {', '.join(VIEWS)}{suggestion(str(self.view), VIEWS)}"
            raise PlanError([Fault("", "view", str(self.view), remedy)])
        in_range("severity", self.severity, 0, 1, "")
        in_range("distance_m", self.distance_m, 0, 1000, "m")


class Raster(NamedTuple):
    """Pixels, (height, width, 3) uint8, and millimetres of the thing in each."""

    pixels: np.ndarray
    mm_per_px: float


NOTHING = said("")


@dataclass(frozen=True)
class Rendered:
    """A picture, ready to be framed.

    Parameters
    ----------
    pixels : (height, width, 3) uint8 array
        sRGB.
    caption : str
        What it shows, with its scale.
    alt : str
        Its text alternative.
    lots : tuple of int
        Lots that are seen, in the order in which they first appear along the yarn.
    mm_per_px : float
        Millimetres of the thing in a pixel.
    beside : tuple of (float, str)
        Heights in pixels and what is named there, to the right of the picture.
    srgb : tuple of str
        Colours of all lots as they are seen, for the legend; empty for those of the plan.
    told : Said
        The caption again, its numbers as figures.
    """

    pixels: np.ndarray
    caption: str
    alt: str
    lots: tuple[int, ...]
    mm_per_px: float
    beside: tuple[tuple[float, str], ...] = ()
    srgb: tuple[str, ...] = ()
    told: Said = NOTHING


def render(
    answer: Answer, scene: Scene, look: ViewSettings, words: tuple[Said, str], lots: tuple[int, ...]
) -> Rendered:
    """Return a scene in a plan's colours, with its words.

    Parameters
    ----------
    answer : Answer
        Whose colours.
    scene : Scene
        What is drawn.
    look : ViewSettings
        How it is looked at.
    words : (Said, str)
        Caption, and what the text alternative begins with.
    lots : tuple of int
        Lots that are seen, in the order in which they appear.
    """
    seen = answer if look.view == "as it is" else seen_as(answer, look.view, look.severity)
    if look.distance_m > 0:
        pixels = painted_from_afar(scene, seen, look.distance_m, look.paint)
    else:
        pixels = rgb(painted(scene, seen, look.paint))
    return worded(seen, look, words, lots, Raster(pixels, scene.mm_per_px))


def worded(
    seen: Answer,
    look: ViewSettings,
    words: tuple[Said, str],
    lots: tuple[int, ...],
    raster: Raster,
) -> Rendered:
    """Return pixels with what they show in words.

    Parameters
    ----------
    seen : Answer
        What follows from a plan, in the colours of the eye that looks.
    look : ViewSettings
        How it is looked at.
    words : (Said, str)
        Caption, and what the text alternative begins with.
    lots : tuple of int
        Lots that are seen, in the order in which they appear.
    raster : Raster
        What is seen.
    """
    caption, what = words
    how = _SEEN[look.view]
    far = NOTHING
    if look.distance_m > 0:
        metres = Figure(seen.say.far.given(look.distance_m), "distance")
        far = said(" Seen from {far}.", far=metres)
    alt = f"{what}. {_colours(seen.plan.names, lots)}{how}{far}"
    yarn = seen.resolved.yarn
    guess = yarn.ply_twist_tpm is None and yarn.plies > 1
    twist = " The ply twist is not given; a usual one is drawn." if guess else ""
    told = said("{caption}{twist}{how}{far}", caption=caption, twist=twist, how=how, far=far)
    return Rendered(
        raster.pixels,
        str(told),
        alt,
        lots,
        raster.mm_per_px,
        srgb=seen.palette.srgb,
        told=told,
    )


def _colours(names: tuple[str, ...], lots: tuple[int, ...]) -> str:
    """Return lots by name; of many the first ones, and how many more there are."""
    more = len(lots) - MOST_NAMED
    told = ", ".join(names[lot] for lot in lots[:MOST_NAMED])
    return f"{'Colours' if len(lots) > 1 else 'Colour'}: {told}{f' and {more} more' * (more > 0)}."


def checked_px(size_px: tuple[int, int]) -> tuple[int, int]:
    """Return width and height of a picture, or raise `PlanError` where they cannot be."""
    for value in size_px:
        in_range("size_px", value, LEAST_PX, MOST_PX, "pixels")
    return int(size_px[0]), int(size_px[1])
