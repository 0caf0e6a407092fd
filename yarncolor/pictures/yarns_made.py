"""Yarns that were made: one as planned, as spun and as it came out, and many on one scale."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from PIL import Image, ImageDraw

from yarncolor.answers.answer import Answer, Preview
from yarncolor.phrases import metres
from yarncolor.pictures.fonts import pixel_name
from yarncolor.pictures.png import PAPER
from yarncolor.pictures.side_by_side import EDGE_PX, Page, Scale, axis, legend, strip
from yarncolor.pictures.ways_on import Shown

_NAME_PX, _TEXT_PX, _HEAD_PX, _LINE_PX, _AXIS_PX, _RULE = 16, 13, 30, 21, 30, "#b0b0b0"
READ_SO = (
    "Strips are read from left to right, from where plying begins, and a metre is equally long in "
    "all. Upper bands: each ply over the whole length; lowest band: the plied yarn."
)


def yarn_made(answer: Answer, width_px: int) -> Image.Image:
    """Return a yarn as planned, as spun and as it came out, under each other on one scale.

    Parameters
    ----------
    answer : Answer
        What follows from its plan, from what was spun and what was made.
    width_px : int
        Of the picture.
    """
    every = [_shown("as planned", answer.as_planned)]
    if answer.layout.wheel is not None:
        every.append(_shown("as spun", answer))
    if _made_m(answer) is not None:
        every.append(_shown("as it came out", as_made(answer)))
    return yarns_made(every, width_px)


def _shown(name: str, yarn: Preview) -> Shown:
    return Shown(name, metres(yarn.layout.stretches.yarn_m), yarn)


def as_made(answer: Answer) -> Preview:
    """Return a yarn in its colours as spun, as long as it came out where that was measured.

    Which colours meet where was not measured: they are taken to lie as spun, over that length.
    """
    made_m, laid = _made_m(answer), answer.layout
    if made_m is None:
        return answer
    along = replace(laid.stretches, yarn_m=made_m)
    return Preview(replace(laid, stretches=along), answer.palette)


def _made_m(answer: Answer) -> float | None:
    return None if answer.plan.made is None else answer.plan.made.plied_m


def yarns_made(yarns: Sequence[Shown], width_px: int) -> Image.Image:
    """Return yarns under each other, named, a metre equally long in all.

    Parameters
    ----------
    yarns : sequence of Shown
        At least one.
    width_px : int
        Of the picture.
    """
    longest_m = max(shown.yarn.layout.stretches.yarn_m for shown in yarns)
    scale = Scale(width_px, longest_m, 1.0)
    parts = [_named(shown, scale) for shown in yarns]
    parts.append(legend(_lots(yarns), READ_SO, width_px))
    tops = np.cumsum([0, *(part.height for part in parts)]).tolist()
    page = Image.new("RGB", (width_px, tops[-1]), PAPER)
    for top, part in zip(tops, parts, strict=False):
        page.paste(part, (0, top))
    pen = ImageDraw.Draw(page)
    for top in tops[1:-1]:
        pen.line((EDGE_PX, top, width_px - EDGE_PX, top), fill=_RULE)
    return page


def _lots(yarns: Sequence[Shown]) -> list[tuple[str, str]]:
    """Return colour and name of every lot that is in one of the yarns, each once."""
    return list(
        dict.fromkeys(
            (shown.yarn.palette.srgb[at], pixel_name(at, shown.yarn.plan.names))
            for shown in yarns
            for at in np.unique(shown.yarn.layout.stretches.lot)
        )
    )


def _named(shown: Shown, scale: Scale) -> Image.Image:
    pixels = strip(shown.yarn, scale)
    top = _HEAD_PX + _LINE_PX
    below = top + pixels.shape[0]
    page = Page(Image.new("RGB", (scale.width_px, below + _AXIS_PX), PAPER))
    page.write((EDGE_PX, 8), shown.name, _NAME_PX, scale.strip_px, bold=True)
    page.write((EDGE_PX, _HEAD_PX), shown.words, _TEXT_PX, scale.strip_px)
    page.paste(pixels, (EDGE_PX, top))
    axis(page, shown.yarn, scale, below)
    return page.image
