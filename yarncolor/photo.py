"""Colours of fibre from a photograph.

TODO
"""

from yarncolor.colour.photo.correction import by_white, uncorrected
from yarncolor.colour.photo.demo import Conditions, demo_photo
from yarncolor.colour.photo.illumination import light_by_white
from yarncolor.colour.photo.image import open_photo
from yarncolor.colour.photo.lots import lot_from, read_boxes, with_lot
from yarncolor.colour.photo.proposals import proposals
from yarncolor.colour.photo.sampling import Box
from yarncolor.colour.photo.target import by_target

__all__ = [
    "Box",
    "Conditions",
    "by_target",
    "by_white",
    "demo_photo",
    "light_by_white",
    "lot_from",
    "open_photo",
    "proposals",
    "read_boxes",
    "uncorrected",
    "with_lot",
]
