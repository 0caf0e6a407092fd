"""Every picture of a yarn by its name.

Each is a scene in the plan's colours, with a caption and a text alternative made of numbers.
"""

from collections.abc import Callable

from yarncolor.pictures.fabric_pictures import knitted_piece
from yarncolor.pictures.portrait_pictures import portrait
from yarncolor.pictures.skein_pictures import ball_of_yarn, skein_of_yarn
from yarncolor.pictures.view import Rendered
from yarncolor.pictures.woven_pictures import woven_cloth
from yarncolor.pictures.yarn_pictures import whole_yarn, wraps, yarn_at

PICTURES: dict[str, Callable[..., Rendered]] = {
    "portrait": portrait,
    "yarn": yarn_at,
    "whole": whole_yarn,
    "wraps": wraps,
    "skein": skein_of_yarn,
    "ball": ball_of_yarn,
    "knitted": knitted_piece,
    "woven": woven_cloth,
}
"""Every picture of a yarn by its name."""

WRITTEN = {name: draw for name, draw in PICTURES.items() if name != "ball"}
"""Those that are written into a plan's folder; the ball, slow for what it tells, is shown alone."""
