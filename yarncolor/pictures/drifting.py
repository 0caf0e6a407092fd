"""Yarns as hands would make them, under the one that was planned; and how plies fall apart."""

from dataclasses import replace

import numpy as np
from PIL import Image, ImageDraw

from yarncolor.answers.answer import Preview
from yarncolor.answers.spins import Spins
from yarncolor.layout.stretches import Stretches
from yarncolor.measures import Measure
from yarncolor.phrases import counted
from yarncolor.pictures import fonts
from yarncolor.pictures.bands import axis_m, plies_and_yarn
from yarncolor.pictures.page import EDGE_PX, LINE_PX, TEXT_PX, Page, legend_of, under_each_other
from yarncolor.pictures.png import INK, PAPER
from yarncolor.pictures.side_by_side import Scale, axis, strip

YARNS = 20
_BAND_PX, _GAP_PX, _NAME_PX, _AXIS_PX, _TOP_PX = 15, 3, 15, 30, 26
_GROWTH_PX, _LEFT_PX, _PLACES, _FILL, _LINE = 190, 58, 201, "#d8d2c4", "#b0b0b0"
READ_SO = (
    "Each band is a whole plied yarn, read from left to right from where plying begins; a "
    "{metre} is equally long in all. Above, each ply of the plan over the whole length, and the "
    "yarn as planned; under it, the same plan spun over and over, no two alike."
)
GROWTH_READ_SO = (
    "How far apart what lies side by side in the plan comes to lie, on the whole (root mean "
    "square), from where plying begins on the left. Below it the yarn as planned."
)


def yarns_in_hand(planned: Preview, spun: Spins, width_px: int, yarns: int = YARNS) -> Image.Image:
    """Return so many yarns as hands would make them, under each other below the planned one.

    Parameters
    ----------
    planned : Preview
        The plan laid out, in its colours.
    spun : Spins
        The plan, spun at least so many times.
    width_px : int
        Of the picture.
    yarns : int
        How many.
    """
    made = [spun.along(number) for number in range(min(yarns, len(spun.length_m)))]
    longest_m = max(one.yarn_m for one in (planned.layout.stretches, *made))
    scale = Scale(width_px, longest_m, 1.0)
    parts = [_planned(planned, scale), _made(planned, made, scale)]
    return under_each_other(parts, legend_of([planned], _read_so(planned), width_px))


def _read_so(planned: Preview) -> str:
    return READ_SO.format(metre=planned.say.length.name)


def _planned(planned: Preview, scale: Scale) -> Image.Image:
    pixels = strip(planned, scale)
    page = _page(scale.width_px, _TOP_PX + pixels.shape[0] + EDGE_PX)
    words = f"as planned: {planned.say.long(planned.layout.stretches.yarn_m)}"
    page.write((EDGE_PX, 5), words, _NAME_PX, scale.strip_px, bold=True)
    page.paste(pixels, (EDGE_PX, _TOP_PX))
    return page.image


def _made(planned: Preview, made: list[Stretches], scale: Scale) -> Image.Image:
    each_px = _BAND_PX + _GAP_PX
    below = _TOP_PX + len(made) * each_px
    page = _page(scale.width_px, below + _AXIS_PX)
    words = f"{counted(len(made), 'yarn')} as these hands would make them"
    page.write((EDGE_PX, 5), words, _NAME_PX, scale.strip_px, bold=True)
    for number, along in enumerate(made):
        wide = max(1, round(along.yarn_m * scale.px_per_m))
        band = plies_and_yarn(along, planned.palette.srgb, wide, (0, 0, _BAND_PX))
        page.paste(band, (EDGE_PX, _TOP_PX + number * each_px))
    longest = max(made, key=lambda along: along.yarn_m)
    axis(page, replace(planned, layout=replace(planned.layout, stretches=longest)), scale, below)
    return page.image


def misfit(planned: Preview, spun: Spins, width_px: int) -> Image.Image:
    """Return how far plies fall apart from where plying begins, over the yarn as planned.

    Parameters
    ----------
    planned : Preview
        The plan laid out, in its colours.
    spun : Spins
        The plan, spun many times.
    width_px : int
        Of the picture.
    """
    along = planned.layout.stretches
    at_m = np.linspace(0.0, along.yarn_m, _PLACES)
    off_m = spun.off_m(at_m)
    wide, band_px = width_px - _LEFT_PX - EDGE_PX, 2 * _BAND_PX
    page = _page(width_px, _TOP_PX + _GROWTH_PX + _GAP_PX + band_px + _AXIS_PX)
    page.write((EDGE_PX, 5), "how far plies fall apart", _NAME_PX, width_px, bold=True)
    length = planned.say.length
    _curve(page, at_m / along.yarn_m * wide, off_m, length)
    top = _TOP_PX + _GROWTH_PX + _GAP_PX
    page.paste(plies_and_yarn(along, planned.palette.srgb, wide, (0, 0, band_px)), (_LEFT_PX, top))
    _metres_below(page, (along.yarn_m, length), wide, top + band_px)
    return under_each_other([page.image], legend_of([planned], GROWTH_READ_SO, width_px))


def _curve(page: Page, x_px: np.ndarray, off_m: np.ndarray, length: Measure) -> None:
    """Draw the curve, filled down to nothing, with metres at its left."""
    pen, bottom = ImageDraw.Draw(page.image), _TOP_PX + _GROWTH_PX
    most_m = max(float(off_m.max()), 1e-3)
    high_px = (_GROWTH_PX - LINE_PX) / most_m
    points = [(_LEFT_PX + float(x), bottom - float(off) * high_px)
              for x, off in zip(x_px, off_m, strict=True)]  # fmt: skip
    pen.polygon([(_LEFT_PX, bottom), *points, (points[-1][0], bottom)], fill=_FILL)
    pen.line(points, fill=INK, width=2)
    for metre, text in axis_m(most_m, most_m / 4, length):
        y = bottom - metre * high_px
        pen.line((_LEFT_PX - 4, y, points[-1][0], y), fill=_LINE if metre else INK)
        left = _LEFT_PX - 8 - fonts.width_px(text, TEXT_PX)
        page.write((left, round(y) - TEXT_PX // 2 - 2), text, TEXT_PX, _LEFT_PX)


def _metres_below(page: Page, yarn: tuple[float, Measure], wide: int, top: int) -> None:
    pen, (yarn_m, length) = ImageDraw.Draw(page.image), yarn
    for metre, text in axis_m(yarn_m, yarn_m / max(2, wide // 64), length):
        x = _LEFT_PX + round(metre / yarn_m * wide)
        pen.line((x, top + 1, x, top + 5), fill=INK)
        half = fonts.width_px(text, TEXT_PX - 1) / 2
        left = min(max(x - half, EDGE_PX), page.image.width - 2 * half - 1)
        page.write((round(left), top + 6), text, TEXT_PX - 1, page.image.width)


def _page(width_px: int, height_px: int) -> Page:
    return Page(Image.new("RGB", (width_px, height_px), PAPER))
