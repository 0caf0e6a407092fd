"""Plans side by side as pictures: strip, yarn and swatch of each, on one scale for all.

A metre of strip, a millimetre of yarn and a stitch are as many pixels in every panel.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

import numpy as np
from PIL import Image, ImageDraw

from yarncolor.answers.answer import Answer, Preview
from yarncolor.answers.guessed_thickness import metres_told
from yarncolor.answers.unlike import most_unlike_m
from yarncolor.layout.stretches import Stretches, longest_of_most_colours
from yarncolor.pictures import fonts
from yarncolor.pictures.alt_text import strip_alt
from yarncolor.pictures.as_knitted import each_stands, knit_of, times_smaller
from yarncolor.pictures.bands import axis_m, plies_and_yarn
from yarncolor.pictures.captions import wrapped
from yarncolor.pictures.fabric_pictures import knitted_piece
from yarncolor.pictures.fonts import pixel_name
from yarncolor.pictures.knit_scenes import KnitFabric
from yarncolor.pictures.page import (
    EDGE_PX,
    LINE_PX,
    TEXT_PX,
    Page,
    legend_of,
    under_each_other,
)
from yarncolor.pictures.png import INK, PAPER
from yarncolor.pictures.view import Rendered
from yarncolor.pictures.yarn_pictures import yarn_at

_NAME_PX, _HEAD_PX, _GAP_PX = 17, 30, 6
_PLIES_PX, _PLIED_PX, _BAND_GAP_PX, _AXIS_PX, _TICK_PX = 66, 30, 5, 28, 5
_STRIP_PX = _PLIES_PX + _BAND_GAP_PX + _PLIED_PX
_YARN_PX, _YARN_BESIDE_PX, _SWATCH_PX, _BESIDE_FROM_PX, _YARN_SHARE = 84, 150, 260, 700, 0.42
_THICKEST, _STITCH_PX, _CROP_PX = 0.55, 4, 24


@dataclass(frozen=True)
class Scale:
    """What all panels of one comparison share.

    Parameters
    ----------
    width_px : int
        Of a panel.
    longest_m : float
        Metres of yarn that fill its strip.
    px_per_mm : float
        Of the yarn at true scale.
    times : int
        For how many stitches one of a swatch stands, so that the whole yarn fits.
    at_m : float or None
        Where every yarn is looked at; None for where each shows most colours.
    """

    width_px: int
    longest_m: float
    px_per_mm: float
    times: int = 1
    at_m: float | None = None

    @property
    def strip_px(self) -> int:
        """Width of the longest strip."""
        return self.width_px - 2 * EDGE_PX

    @property
    def px_per_m(self) -> float:
        """Pixels to a metre of strip."""
        return self.strip_px / self.longest_m

    @property
    def is_wide(self) -> bool:
        """Whether yarn and swatch have room beside each other."""
        return self.width_px >= _BESIDE_FROM_PX

    @property
    def yarn_px(self) -> tuple[int, int]:
        """Width and height of the yarn's picture."""
        if self.is_wide:
            return round(self.strip_px * _YARN_SHARE), _YARN_BESIDE_PX
        return self.strip_px, _YARN_PX

    @property
    def yarn_lines(self) -> int:
        """Lines for the words over the yarn's picture, which name the lots there."""
        return 2 if self.is_wide else 3

    @property
    def swatch_px(self) -> tuple[int, int]:
        """Width and height of the swatch's picture: whole stitches."""
        beside = self.yarn_px[0] + 3 * EDGE_PX if self.is_wide else 0
        return (self.strip_px - beside) // _STITCH_PX * _STITCH_PX, _SWATCH_PX


def one_scale(plans: Iterable[Answer], width_px: int) -> Scale:
    """Return the scale on which all plans fit panels of a width, and where they are looked at.

    Parameters
    ----------
    plans : iterable of Answer
        To be compared.
    width_px : int
        Of a panel.
    """
    every = list(plans)
    return replace(fitting_scale(every, width_px), at_m=most_unlike_m(every))


def fitting_scale(plans: Iterable[Answer], width_px: int) -> Scale:
    """Return the scale on which all plans fit panels of a width, each looked at for itself.

    Parameters
    ----------
    plans : iterable of Answer
        Whose panels stand together.
    width_px : int
        Of a panel.
    """
    every = list(plans)
    thickest_mm = max(answer.resolved.yarn.relaxed_diameter_mm for answer in every)
    longest_m = max(answer.layout.stretches.yarn_m for answer in every)
    scale = Scale(width_px, float(longest_m), 1.0)
    times = max(times_smaller(answer, _swatch_fabric(answer, scale)) for answer in every)
    px_per_mm = _THICKEST * scale.yarn_px[1] / float(thickest_mm)
    return replace(scale, px_per_mm=px_per_mm, times=times)


def _swatch_fabric(answer: Answer, scale: Scale) -> KnitFabric:
    """Return a flat swatch as large as there is room for: the whole yarn has to fit into it."""
    wide, high = scale.swatch_px
    stitches = wide // _STITCH_PX
    _, aspect, _ = knit_of(answer, "flat", stitches, 1)
    return knit_of(answer, "flat", stitches, _rows_that_fit(high, aspect)).fabric


def panel(answer: Answer, scale: Scale) -> Image.Image:
    """Return a plan's panel, strip, yarn and swatch, as high as any on its scale.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    scale : Scale
        What all panels share.
    """
    page = Page(Image.new("RGB", (scale.width_px, panel_height_px(scale)), PAPER))
    page.write((EDGE_PX, 0), STRIP_READ, TEXT_PX, scale.strip_px)
    page.paste(strip(answer, scale), (EDGE_PX, LINE_PX))
    axis(page, answer, scale, LINE_PX + _STRIP_PX)
    left, top = EDGE_PX, LINE_PX + _STRIP_PX + _AXIS_PX
    yarn, words = yarn_piece(answer, scale)
    lines = wrapped(words, scale.yarn_px[0])
    for number, line in enumerate(lines[: scale.yarn_lines]):
        page.write((left, top + number * LINE_PX), line, TEXT_PX, scale.yarn_px[0])
    page.paste(yarn.pixels, (left, top + scale.yarn_lines * LINE_PX))
    if scale.is_wide:
        left += scale.yarn_px[0] + 3 * EDGE_PX
    else:
        top += scale.yarn_lines * LINE_PX + _YARN_PX + _GAP_PX
    piece, words = swatch(answer, scale)
    page.write((left, top), words, TEXT_PX, scale.swatch_px[0])
    page.paste(piece.pixels, (left, top + LINE_PX))
    below = top + LINE_PX + piece.pixels.shape[0]
    page.write((left, below), CAST_ON, TEXT_PX, scale.swatch_px[0])
    return page.image


def panel_height_px(scale: Scale) -> int:
    """Return how high every panel on a scale is."""
    under = 0 if scale.is_wide else scale.yarn_lines * LINE_PX + _YARN_PX + _GAP_PX
    return LINE_PX + _STRIP_PX + _AXIS_PX + under + LINE_PX + _SWATCH_PX + LINE_PX + EDGE_PX


def strip(answer: Preview, scale: Scale) -> np.ndarray:
    """Return the plies over the whole length and the plied yarn under them, as pixels.

    Its width is the yarn's length on the scale: (height, width, 3) uint8.

    Parameters
    ----------
    answer : Preview
        A plan laid out, in its colours.
    scale : Scale
        What all panels share.
    """
    heights_px = (_PLIES_PX, _BAND_GAP_PX, _PLIED_PX)
    wide, srgb = strip_wide_px(answer, scale), answer.palette.srgb
    return plies_and_yarn(answer.layout.stretches, srgb, wide, heights_px)


def strip_wide_px(answer: Preview, scale: Scale) -> int:
    """Return how wide a yarn's strip is.

    Parameters
    ----------
    answer : Preview
        A plan laid out.
    scale : Scale
        What all panels share.
    """
    return max(1, round(answer.layout.stretches.yarn_m * scale.px_per_m))


def yarn_piece(answer: Answer, scale: Scale) -> tuple[Rendered, str]:
    """Return the yarn at the scale, where all differ most or it shows most colours; and where.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    scale : Scale
        What all panels share.
    """
    along = answer.layout.stretches
    at, middle_m = _looked_at(along, scale.at_m)
    wide, high = scale.yarn_px
    from_m = max(0.0, middle_m - wide / scale.px_per_mm / 2000)
    names = dict.fromkeys(pixel_name(lot, answer.plan.names) for lot in along.lot[at].tolist())
    length_mm = min(max(wide / scale.px_per_mm, 1.0), 2000.0)
    drawn = yarn_at(answer, from_m, length_mm, (wide, high))
    return drawn, f"the yarn at {metres_told(answer, middle_m)}: {', '.join(names)}"


def _looked_at(along: Stretches, at_m: float | None) -> tuple[int, float]:
    """Return the stretch that is looked at, and the metre in the middle of what is seen."""
    if at_m is None:
        at = longest_of_most_colours(along.edges_ppb, along.lot)
        return at, float(along.edges_m[at] + along.edges_m[at + 1]) / 2
    at = int(np.searchsorted(along.edges_m, at_m, side="right")) - 1
    return min(max(at, 0), len(along.lot) - 1), at_m


def swatch(answer: Answer, scale: Scale) -> tuple[Rendered, str]:
    """Return the whole yarn knitted flat and in small, on the scale of all, and its words.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    scale : Scale
        What all panels share.
    """
    knit = _swatch_fabric(answer, scale)
    drawn = knitted_piece(
        answer, "flat", knit.cast_on, knit.rows, size_px=scale.swatch_px, times=scale.times
    )
    return drawn, f"the whole yarn, knitted{each_stands(knit, scale.times)}"


def _rows_that_fit(height_px: int, aspect: float) -> int:
    """Return how many rows a swatch can have whose stitches keep their width.

    Rows are drawn in whole pixels and the piece is cropped to them with a small margin: where
    rounding makes rows taller, fewer fit; where it makes them lower by more than that margin in
    all, stitches would be drawn narrower.
    """
    row_px = _STITCH_PX * aspect
    most = [height_px / row_px - 1e-6, height_px // max(1, round(row_px))]
    if row_px > round(row_px):
        most.append(_CROP_PX / (row_px - round(row_px)) - 1e-6)
    return max(1, int(min(most)))


def side_by_side(plans: dict[str, Answer], width_px: int) -> Image.Image:
    """Return the panels of all plans under each other, named, their lots named below.

    Parameters
    ----------
    plans : dict of str to Answer
        By what each is called.
    width_px : int
        Of a panel.
    """
    scale = one_scale(plans.values(), width_px)
    parts = [_headed(name, answer, scale) for name, answer in plans.items()]
    return under_each_other(parts, legend_of(plans.values(), read_so(plans), width_px))


def _headed(name: str, answer: Answer, scale: Scale) -> Image.Image:
    """Return a plan's panel under its name and its numbers in words."""
    drawn, lines = panel(answer, scale), wrapped(strip_alt(answer), scale.strip_px)
    top = _HEAD_PX + len(lines) * LINE_PX + _GAP_PX
    page = Page(Image.new("RGB", (scale.width_px, top + drawn.height), PAPER))
    page.write((EDGE_PX, _GAP_PX), name, _NAME_PX, scale.strip_px, bold=True)
    for number, line in enumerate(lines):
        page.write((EDGE_PX, _HEAD_PX + number * LINE_PX), line, TEXT_PX, scale.strip_px)
    page.image.paste(drawn, (0, top))
    return page.image


STRIP_READ = "read from left to right, as it is plied"
CAST_ON = "cast on here, from the beginning of the yarn"
READ_SO = (
    "Strips are read from left to right, from where plying begins. Upper bands: each ply over the "
    "whole length; lowest band: the plied yarn. Under them the yarn at one {metre} of all, where "
    "they differ most. Swatches show the whole yarn in small, its beginning at the bottom. One "
    "scale for all: a {metre}, the yarn's thickness and a stitch are "
    "equally large, and each row stands for as many."
)


def read_so(plans: Mapping[str, Answer]) -> str:
    """Return how a picture of several plans is read, in the words of the first."""
    first = next(iter(plans.values()))
    return READ_SO.format(metre=first.say.length.name)


def axis(page: Page, answer: Preview, scale: Scale, top: int) -> None:
    """Draw metres under a strip; the step is that of the longest.

    Parameters
    ----------
    page : Page
        To draw on.
    answer : Preview
        Whose strip it is.
    scale : Scale
        What all strips share.
    top : int
        Where the strip ends.
    """
    least_m, length = scale.longest_m / max(2, scale.strip_px // 64), answer.say.length
    pen = ImageDraw.Draw(page.image)
    for at_m, text in axis_m(answer.layout.stretches.yarn_m, least_m, length):
        x = EDGE_PX + round(at_m * scale.px_per_m)
        pen.line((x, top + 1, x, top + _TICK_PX), fill=INK)
        half = fonts.width_px(text, TEXT_PX - 1) / 2
        left = min(max(x - half, EDGE_PX), scale.width_px - 2 * half - 1)
        page.write((round(left), top + _TICK_PX + 1), text, TEXT_PX - 1, scale.width_px)
