"""Several lots from one photograph, by boxes; and as lots of a plan."""

from dataclasses import replace

import numpy as np

from yarncolor.colour.photo.correction import Correction
from yarncolor.colour.photo.illumination import (
    BEYOND_WORDS,
    WORTH_SAYING,
    Illumination,
    flat_fielded,
)
from yarncolor.colour.photo.image import Photo
from yarncolor.colour.photo.sampling import Box, PatchReading, fibre_colour, lab_as_seen
from yarncolor.colour.science import ciede2000
from yarncolor.plan import Lot, Plan

_SOURCE = "a photograph"
FLUFF_WORDS = "loose fibre looks paler than spun yarn, wet fibre darker"


def read_boxes(
    photo: Photo, boxes: dict[str, Box], correction: Correction, light: Illumination | None = None
) -> dict[str, PatchReading]:
    """Return the colour of each box, put right and, where the light is known, made even.

    Parameters
    ----------
    photo : Photo
        The photograph.
    boxes : dict of str to Box
        By the lot's name.
    correction : Correction
        How the photograph is put right.
    light : Illumination, optional
        How light falls over it.

    Raises
    ------
    PlanError
        For a box outside the picture, or without a pixel that can be used.
    """
    readings = {}
    for name, box in boxes.items():

        def put_right(linear: np.ndarray, box: Box = box) -> np.ndarray:
            even = linear if light is None else flat_fielded(linear, light, box.middle)
            return correction.apply(even)

        reading = fibre_colour(photo, box, put_right)
        readings[name] = _in_light(reading, box, correction, light) if light else reading
    return readings


def _in_light(
    reading: PatchReading, box: Box, correction: Correction, light: Illumination
) -> PatchReading:
    """Return a reading with the light there, that says so where it is uneven and not known.

    It may be out by as much as it would change if the light fell off as it does elsewhere.
    """
    reading = replace(reading, light=light.at(box.middle))
    if light.reaches(box.middle) or light.falls_by < WORTH_SAYING:
        return reading
    drawn_out = reading.linear[None, :] / light.drawn_out_to(box.middle)
    (other,) = lab_as_seen(correction.apply(drawn_out))
    unsure = max(reading.unsure, float(ciede2000(reading.lab, other)))
    return replace(reading, unsure=unsure, warnings=(*reading.warnings, BEYOND_WORDS))


def lot_from(name: str, mass_g: float, reading: PatchReading, correction: Correction) -> Lot:
    """Return a lot with the colour of a reading, and where that comes from.

    Parameters
    ----------
    name : str
        Of the lot.
    mass_g : float
        Grams.
    reading : PatchReading
        Its colour.
    correction : Correction
        How the photograph was put right.
    """
    doubts = f"; {'; '.join(reading.warnings)}" if reading.warnings else ""
    lab = np.clip(reading.lab, (0, -128, -128), (100, 128, 128))
    lightness, red, yellow = (round(float(value), 2) for value in lab)
    return Lot(
        name=name,
        mass_g=mass_g,
        lab=(lightness, red, yellow),
        source=f"{_SOURCE}, {correction.words}; {FLUFF_WORDS}{doubts}",
        colour_unsure=round(correction.unsure_of(reading), 1),
    )


def is_of_photograph(source: str) -> bool:
    """Return whether the source of a lot says that its colour was read from a photograph."""
    return source.startswith(_SOURCE)


def with_lot(plan: Plan, lot: Lot) -> Plan:
    """Return a plan with one more lot, or with that lot's colour where it has one of its name.

    Parameters
    ----------
    plan : Plan
        Where the lot goes.
    lot : Lot
        With its colour in CIELAB.
    """
    if lot.name in plan.names:
        old = plan.lots[plan.names.index(lot.name)]
        new = replace(
            old,
            colour=None,
            blend=None,
            bath=None,
            lab=lot.lab,
            source=lot.source,
            colour_unsure=lot.colour_unsure,
        )
        return replace(plan, lots=tuple(new if one is old else one for one in plan.lots))
    return replace(plan, lots=(*plan.lots, lot))
