"""Every picture of a yarn by its name.

Each is a scene in the plan's colours, with a caption and a text alternative made of numbers.
"""

from collections.abc import Callable

from yarncolor.fabric_pictures import (
    knit_of,
    knitted_piece,
    stripe_heights,
    usual_gauge,
    woven_cloth,
)
from yarncolor.looking import Drawn, Look
from yarncolor.yarn_pictures import skein_of_yarn, whole_yarn, wraps, yarn_at

__all__ = [
    "PICTURES",
    "Drawn",
    "Look",
    "knit_of",
    "knitted_piece",
    "skein_of_yarn",
    "stripe_heights",
    "usual_gauge",
    "whole_yarn",
    "woven_cloth",
    "wraps",
    "yarn_at",
]

PICTURES: dict[str, Callable[..., Drawn]] = {
    "yarn": yarn_at,
    "whole": whole_yarn,
    "wraps": wraps,
    "skein": skein_of_yarn,
    "knitted": knitted_piece,
    "woven": woven_cloth,
}
"""Every picture of a yarn by its name."""
