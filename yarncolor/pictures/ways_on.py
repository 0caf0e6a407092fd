"""One yarn as planned, as it stands and under each way to go on: strips on one scale."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from PIL import Image, ImageDraw

from yarncolor.answers.answer import Preview
from yarncolor.pictures.bands import lots_of_columns
from yarncolor.pictures.fonts import in_sentence, pixel_name
from yarncolor.pictures.png import INK, PAPER
from yarncolor.pictures.side_by_side import EDGE_PX, Page, Scale, axis, legend, strip

_NAME_PX, _TEXT_PX, _HEAD_PX, _LINE_PX = 16, 13, 30, 21
_OFF_PX, _OFF_GAP_PX, _AXIS_PX, _RULE = 5, 3, 30, "#b0b0b0"
READ_SO = (
    "Strips are read from left to right, from where plying begins, and a metre is equally long in "
    "all. Upper bands: each ply over the whole length; lowest band: the plied yarn. The black line "
    "under a strip: there a ply shows another colour than planned."
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
    parts = [_named(shown, planned.yarn, scale) for shown in every]
    colours, names = planned.yarn.palette.srgb, planned.yarn.plan.names
    lots = np.unique(np.concatenate([shown.yarn.layout.stretches.lot.ravel() for shown in every]))
    parts.append(legend([(colours[at], pixel_name(at, names)) for at in lots], READ_SO, width_px))
    tops = np.cumsum([0, *(part.height for part in parts)]).tolist()
    page = Image.new("RGB", (width_px, tops[-1]), PAPER)
    for top, part in zip(tops, parts, strict=False):
        page.paste(part, (0, top))
    pen = ImageDraw.Draw(page)
    for top in tops[1:-2]:
        pen.line((EDGE_PX, top, width_px - EDGE_PX, top), fill=_RULE)
    return page


def _named(shown: Shown, planned: Preview, scale: Scale) -> Image.Image:
    """Return a yarn's strip under its name, with a line where it is not as planned."""
    pixels = strip(shown.yarn, scale)
    high, wide = pixels.shape[:2]
    top = _HEAD_PX + _LINE_PX
    below = top + high + _OFF_GAP_PX
    page = Page(Image.new("RGB", (scale.width_px, below + _OFF_PX + _AXIS_PX), PAPER))
    page.write((EDGE_PX, 8), shown.name, _NAME_PX, scale.strip_px, bold=True)
    words = in_sentence(shown.words, planned.plan.names)
    page.write((EDGE_PX, _HEAD_PX), words, _TEXT_PX, scale.strip_px)
    page.paste(pixels, (EDGE_PX, top))
    line = np.where(_is_off(shown.yarn, planned, wide, scale)[:, None], _level(INK), _level(PAPER))
    page.paste(np.broadcast_to(line, (_OFF_PX, *line.shape)), (EDGE_PX, below))
    axis(page, shown.yarn, scale, below + _OFF_PX)
    return page.image


def _is_off(yarn: Preview, planned: Preview, wide: int, scale: Scale) -> np.ndarray:
    """Return where a ply shows another lot than planned, or none was planned: (wide,)."""
    planned_px = max(1, round(planned.layout.stretches.yarn_m * scale.px_per_m))
    lot = lots_of_columns(yarn.layout.stretches, wide)
    wanted = lots_of_columns(planned.layout.stretches, planned_px)
    both = min(wide, planned_px)
    is_off = np.ones(wide, dtype=np.bool_)
    is_off[:both] = (lot[:both] != wanted[:both]).any(axis=1)
    return is_off


def _level(colour: str) -> np.ndarray:
    return np.array([int(colour[at : at + 2], 16) for at in (1, 3, 5)], np.uint8)
