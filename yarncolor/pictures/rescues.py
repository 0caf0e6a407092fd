"""What can still be made when a single runs out, each beside the yarn that it goes on from."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from PIL import Image

from yarncolor.answers.answer import Answer
from yarncolor.answers.guessed_thickness import metres_told
from yarncolor.layout.stretches import Stretches
from yarncolor.pictures.bands import plies_and_yarn
from yarncolor.pictures.captions import wrapped
from yarncolor.pictures.fonts import in_sentence, pixel_name
from yarncolor.pictures.page import (
    EDGE_PX,
    LINE_PX,
    TEXT_PX,
    Page,
    legend,
    under_each_other,
)
from yarncolor.pictures.painting import painted, rgb
from yarncolor.pictures.png import PAPER
from yarncolor.pictures.yarn_pictures import yarn_scene

_NAME_PX, _HEAD_PX = 16, 30
_PLIES_PX, _PLIED_PX, _GAP_PX, _YARN_PX = 48, 26, 10, 70
_BEFORE = 0.35
"""Part of the picture's width in which the yarn before is seen."""

_THICKEST = 0.8
"""Part of a row's height that the yarn before fills."""

READ_SO = (
    "On the left the last of the yarn, on the right what follows it; a {metre} is equally long "
    "everywhere. Upper bands: each ply; lowest band: the plied yarn. Under it the same place close "
    "by, all at one scale: how thick the yarn is, and how many plies it has."
)


@dataclass(frozen=True)
class ShownRescue:
    """One rescue: what it is called, what is said of it, and its yarn as it is drawn."""

    name: str
    words: str
    yarn: Answer


def rescues_picture(before: Answer, after: Sequence[ShownRescue], width_px: int) -> Image.Image:
    """Return every rescued yarn beside the end of the yarn that it goes on from, on one scale.

    Parameters
    ----------
    before : Answer
        The yarn that ran out.
    after : sequence of ShownRescue
        At least one.
    width_px : int
        Of the picture.
    """
    longest_m = max(one.yarn.layout.stretches.yarn_m for one in after)
    parts = [_row(before, one, longest_m, width_px) for one in after]
    shown = np.concatenate([one.yarn.layout.stretches.lot.ravel() for one in after])
    tail = _tail(before.layout.stretches, _before_m(longest_m))
    lots = np.unique(np.concatenate([shown, tail.lot.ravel()]))
    colours, names = before.palette.srgb, before.plan.names
    read_so = READ_SO.format(metre=before.say.length.name)
    below = legend([(colours[at], pixel_name(at, names)) for at in lots], read_so, width_px)
    return under_each_other(parts, below, ruled_off=True)


def _before_m(longest_m: float) -> float:
    """Return how much of the yarn before is seen, at the scale of the longest rescue."""
    return longest_m * _BEFORE / (1 - _BEFORE)


def _row(before: Answer, one: ShownRescue, longest_m: float, width_px: int) -> Image.Image:
    """Return a rescue's picture under its name and what is said of it."""
    room_px = width_px - 2 * EDGE_PX
    lines, drawn = (
        wrapped(in_sentence(one.words, before.plan.names), room_px),
        rescue_picture(before, one.yarn, longest_m, width_px),
    )
    top = _HEAD_PX + len(lines) * LINE_PX + 4
    page = Page(Image.new("RGB", (width_px, top + drawn.height), PAPER))
    page.write((EDGE_PX, 8), one.name, _NAME_PX, room_px, bold=True)
    for number, line in enumerate(lines):
        page.write((EDGE_PX, _HEAD_PX + number * LINE_PX), line, TEXT_PX, room_px)
    page.image.paste(drawn, (0, top))
    return page.image


def rescue_picture(before: Answer, yarn: Answer, longest_m: float, width_px: int) -> Image.Image:
    """Return a rescued yarn beside the end of the yarn that it goes on from, along it and close by.

    Parameters
    ----------
    before, yarn : Answer
        The yarn that ran out; the rescued one.
    longest_m : float
        Metres of the longest rescue that is shown on this scale.
    width_px : int
        Of the picture.
    """
    room_px, under = width_px - 2 * EDGE_PX, _PLIES_PX + _PLIED_PX + 6
    page = Page(Image.new("RGB", (width_px, under + LINE_PX + _YARN_PX + _GAP_PX), PAPER))
    left_px = round(room_px * _BEFORE) - _GAP_PX // 2
    px_per_m = (room_px - left_px - _GAP_PX) / longest_m
    tail = _tail(before.layout.stretches, left_px / px_per_m)
    middle_px = EDGE_PX + left_px + _GAP_PX
    bands = _bands(tail, before, px_per_m)
    page.paste(bands, (middle_px - _GAP_PX - bands.shape[1], 0))
    page.paste(_bands(yarn.layout.stretches, before, px_per_m), (middle_px, 0))
    last = f"the last {before.say.long(tail.yarn_m)} of the yarn"
    page.write((EDGE_PX, under), last, TEXT_PX, left_px)
    told = f"{metres_told(before, yarn.layout.stretches.yarn_m)} more"
    page.write((middle_px, under), told, TEXT_PX, room_px - left_px)
    _close_by(page, before, yarn, (left_px, under + LINE_PX))
    return page.image


def _tail(along: Stretches, length_m: float) -> Stretches:
    """Return the last metres of a yarn, or all of it where it is shorter."""
    from_ppb = max(0, round((1 - length_m / along.yarn_m) * along.edges_ppb[-1]))
    first = int(np.searchsorted(along.edges_ppb, from_ppb, side="right")) - 1
    edges_m = np.append(from_ppb, along.edges_ppb[first + 1 :]) - from_ppb
    whole = along.edges_ppb[-1]
    edges_ppb = np.rint(edges_m / edges_m[-1] * whole).astype(np.int64)
    return Stretches(edges_ppb, along.lot[first:], along.yarn_m * float(1 - from_ppb / whole))


def _bands(along: Stretches, answer: Answer, px_per_m: float) -> np.ndarray:
    """Return each ply's colours and the plied yarn under them, to scale: (height, width, 3)."""
    wide = max(2, round(along.yarn_m * px_per_m))
    return plies_and_yarn(along, answer.palette.srgb, wide, (_PLIES_PX, 2, _PLIED_PX - 2))


def _close_by(page: Page, before: Answer, yarn: Answer, at: tuple[int, int]) -> None:
    """Draw the end of the yarn before and the beginning of the rescue at one true scale."""
    left_px, top = at
    thick_mm = max(shown.resolved.yarn.relaxed_diameter_mm for shown in (before, yarn))
    px_per_mm = _THICKEST * _YARN_PX / thick_mm
    right_px = page.image.width - 2 * EDGE_PX - left_px - _GAP_PX
    yarn_m, shown_m = before.layout.stretches.yarn_m, left_px / px_per_mm / 1000
    page.paste(_seen(before, max(0.0, yarn_m - shown_m), left_px, px_per_mm), (EDGE_PX, top))
    page.paste(_seen(yarn, 0.0, right_px, px_per_mm), (EDGE_PX + left_px + _GAP_PX, top))


def _seen(answer: Answer, from_m: float, wide_px: int, px_per_mm: float) -> np.ndarray:
    length_mm = min(max(wide_px / px_per_mm, 1.0), 2000.0)
    scene = yarn_scene(answer, from_m, length_mm, (wide_px, _YARN_PX))
    return rgb(painted(scene, answer))
