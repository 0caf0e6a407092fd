"""Every sample plan and extremes, drawn small."""

import io
from functools import cache

import pytest
from PIL import Image

import yarncolor as yc
from tests.helpers.paths import SAMPLES
from tests.helpers.pictures_asked import extremes
from yarncolor.pictures.catalogue import PICTURES

STAGGERED = {"name": "staggered", "plies": 3}
HOSTILE = ("<script>alert(1)</script>", r"$\frac$", "A & B", '"quoted"', "]]>", "{x} %s")
HARD = ("Kelp " * 11, "Φύκι", "昆布", "🧶👩\u200d🌾", "אצה", *HOSTILE)

SMALL = {
    "portrait": {"size_px": (320, 90)},
    "yarn": {"size_px": (320, 90)},
    "whole": {"size_px": (320, 120)},
    "wraps": {"size_px": 300},
    "skein": {"size_px": (320, 100)},
    "ball": {"size_px": (200, 200)},
    "knitted": {"size_px": (320, 300)},
    "woven": {"size_px": (320, 240), "width_mm": 60.0},
}
FULL = {
    "portrait": (480, 2400),
    "yarn": (200, 1200),
    "whole": (640, 1200),
    "wraps": (1200, 1200),
    "skein": (300, 1100),
    "ball": (640, 640),
    "woven": (900, 1200),
}

PLANS = {path.stem: lambda path=path: yc.answer(yc.read_plan(path)) for path in SAMPLES}
PLANS |= extremes()


@cache
def plan(name: str):
    return PLANS[name]()


@cache
def small(name: str, picture: str):
    return PICTURES[picture](plan(name), **SMALL[picture])


OF_ONE = r"(?<![\d.,])1 (wraps|turns|rows|stitches|picks|plies)\b"

each_plan = pytest.mark.parametrize("name", PLANS)
each_picture = pytest.mark.parametrize("picture", PICTURES)


def opened(png: bytes) -> Image.Image:
    image = Image.open(io.BytesIO(png))
    image.load()
    return image
