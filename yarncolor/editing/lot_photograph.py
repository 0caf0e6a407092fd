"""A photograph of one lot: its colour in a box, and the plan in which the lot has it."""

from typing import Any, NamedTuple

from yarncolor.colour.photo.annotations import read_annotations
from yarncolor.colour.photo.image import Photo
from yarncolor.colour.photo.lots import lot_from, with_lot
from yarncolor.colour.photo.readings import Seen, reading_words, seen_on
from yarncolor.plan import Plan, to_data
from yarncolor.planfile.read import plan_from_data

_BOX = "fibre"
"""Key of the one box on fibre."""

_CORRECTED = "put right by the white"
_AS_IT_IS = "as the picture has it; a box on something white puts it right"


class LotReading(NamedTuple):
    """The colour of a lot in a photograph, CSS hex, empty where there is none; and words."""

    colour: str
    words: str


def seen_of_lot(photo: Photo, drawn: dict[str, Any]) -> Seen:
    """Return what a photograph says of one lot.

    Parameters
    ----------
    photo : Photo
        The photograph.
    drawn : dict
        A box on fibre, and one on white where there is any, as `read_annotations` takes them.
    """
    return seen_on(photo, read_annotations(drawn))


def lot_reading(seen: Seen) -> LotReading:
    """Return what is said of the one lot of a photograph, or what is in the way."""
    if seen.correction is None or _BOX not in seen.readings:
        return LotReading("", "; ".join(seen.faults.values()) or "Draw a box on the fibre.")
    said = reading_words(seen.readings[_BOX], seen.correction)
    how = _CORRECTED if seen.marks.way == "white" else _AS_IT_IS
    doubts = f"; {said['doubts']}" if said["doubts"] else ""
    return LotReading(said["colour"], f"The fibre's colour, {how}{doubts}.")


def with_colour_seen(plan: Plan, name: str, seen: Seen) -> Plan:
    """Return a plan, proved, in which a lot has the colour that was read.

    Parameters
    ----------
    plan : Plan
        That has the lot.
    name : str
        Of the lot.
    seen : Seen
        With a reading of it.
    """
    if seen.correction is None or name not in plan.names:
        return plan
    mass_g = plan.lots[plan.names.index(name)].mass_g
    lot = lot_from(name, mass_g, seen.readings[_BOX], seen.correction)
    return plan_from_data(to_data(with_lot(plan, lot)), "")
