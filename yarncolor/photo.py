"""Colours of fibre from a photograph: read, put right, doubted, and brought into a plan.

The picture

- `open_photo`: a picture file, upright and in sRGB; where and when it was taken is not read
- `demo_photo`: an invented picture of five lots, paper and a target
- `Conditions`: the light and the camera that the invented one is taken with
- `Box`: a place on a picture, in shares of its width and height

Put right

- `uncorrected`: as it comes
- `by_white`: by a box on something white or grey
- `by_target`: by the corners of a target, of 24 patches or of your own
- `read_target`: a target's own values, from a file: row, column and CIELAB of each patch
- `light_by_white`: how uneven the light is, from boxes on one white or grey

Read

- `read_boxes`: the colour of each box, and by how much it may be out
- `proposals`: the lots that a picture may show, found by colour

Into the plan

- `lot_from`: a lot from a reading, with where its colour comes from
- `with_lot`: a plan with one lot more, or with a lot's colour changed

Examples
--------
>>> import yarncolor as yc
>>> picture = yc.photo.demo_photo()
>>> white = yc.photo.by_white(picture, yc.photo.Box(0.62, 0.18, 0.25, 0.25))
"""

from yarncolor.colour.photo.correction import by_white, uncorrected
from yarncolor.colour.photo.demo import Conditions, demo_photo
from yarncolor.colour.photo.illumination import light_by_white
from yarncolor.colour.photo.image import open_photo
from yarncolor.colour.photo.lots import lot_from, read_boxes, with_lot
from yarncolor.colour.photo.proposals import proposals
from yarncolor.colour.photo.sampling import Box
from yarncolor.colour.photo.target import by_target
from yarncolor.colour.photo.target_values import read_target

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
    "read_target",
    "uncorrected",
    "with_lot",
]
