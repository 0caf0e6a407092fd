"""One yarn as planned, as it stands and under each way to go on: strips on one scale."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from PIL import Image

from yarncolor.answers.answer import Preview
from yarncolor.pictures.bands import lots_of_columns
from yarncolor.pictures.fonts import in_sentence, pixel_name
from yarncolor.pictures.page import EDGE_PX, TEXT_PX, Page, legend, under_each_other
from yarncolor.pictures.png import INK, PAPER
from yarncolor.pictures.side_by_side import Scale, axis, strip, strip_wide_px

_NAME_PX, _HEAD_PX, _LINE_PX, _AXIS_PX = 16, 30, 21, 30
_OFF_PX, _OFF_GAP_PX = 5, 3
READ_SO = (
    "Strips are read from left to right, from where plying begins, and a {metre} is equally long "
    "in all. Upper bands: each ply over the whole length; lowest band: the plied yarn. The black "
    "line under a strip: there a ply shows another colour than planned."
)


@dataclass(frozen=True)
class Shown:
    """One of the yarns: what it is called, what is said of it, and the yarn."""

    name: str
    words: str
    yarn: Preview


def ways_on(planned: Shown, ways: Sequence[Shown], width_px: int) -> Image.Image:
    """Return the yarn as planned, then every other, under each other, named, on one scale.

    Parameters
    ----------
    planned : Shown
        As planned.
    ways : sequence of Shown
        As it stands first.
    width_px : int
        Of the picture.
    """
    every = [planned, *ways]
    longest_m = max(shown.yarn.layout.stretches.yarn_m for shown in every)
    scale = Scale(width_px, longest_m, 1.0)
    parts = [named(shown, scale, _off_line(shown.yarn, planned.yarn, scale)) for shown in every]
    colours, names = planned.yarn.palette.srgb, planned.yarn.plan.names
    lots = np.unique(np.concatenate([shown.yarn.layout.stretches.lot.ravel() for shown in every]))
    read_so = READ_SO.format(metre=planned.yarn.say.length.name)
    below = legend([(colours[at], pixel_name(at, names)) for at in lots], read_so, width_px)
    return under_each_other(parts, below)


def named(shown: Shown, scale: Scale, under: np.ndarray | None = None) -> Image.Image:
    """Return a yarn's strip under its name, metres below it.

    Parameters
    ----------
    shown : Shown
        The yarn.
    scale : Scale
        What all strips share.
    under : (height, width, 3) uint8 array, optional
        What stands between strip and metres.
    """
    pixels = strip(shown.yarn, scale)
    pixels = pixels if under is None else np.vstack([pixels, under])
    top = _HEAD_PX + _LINE_PX
    below = top + pixels.shape[0]
    page = Page(Image.new("RGB", (scale.width_px, below + _AXIS_PX), PAPER))
    name, words = (in_sentence(each, shown.yarn.plan.names) for each in (shown.name, shown.words))
    page.write((EDGE_PX, 8), name, _NAME_PX, scale.strip_px, bold=True)
    page.write((EDGE_PX, _HEAD_PX), words, TEXT_PX, scale.strip_px)
    page.paste(pixels, (EDGE_PX, top))
    axis(page, shown.yarn, scale, below)
    return page.image


def _off_line(yarn: Preview, planned: Preview, scale: Scale) -> np.ndarray:
    """Return a line where a yarn is not as planned, as wide as its strip: (height, wide, 3)."""
    is_off = _is_off(yarn, planned, scale)
    under = np.zeros((_OFF_GAP_PX + _OFF_PX, len(is_off)), dtype=np.bool_)
    under[_OFF_GAP_PX:] = is_off
    return np.where(under[:, :, None], _level(INK), _level(PAPER))


def _is_off(yarn: Preview, planned: Preview, scale: Scale) -> np.ndarray:
    """Return where a ply shows another lot than planned, or none was planned: (wide,)."""
    wide, planned_px = strip_wide_px(yarn, scale), strip_wide_px(planned, scale)
    lot = lots_of_columns(yarn.layout.stretches, wide)
    wanted = lots_of_columns(planned.layout.stretches, planned_px)
    both = min(wide, planned_px)
    is_off = np.ones(wide, dtype=np.bool_)
    is_off[:both] = (lot[:both] != wanted[:both]).any(axis=1)
    return is_off


def _level(colour: str) -> np.ndarray:
    return np.array([int(colour[at : at + 2], 16) for at in (1, 3, 5)], np.uint8)
