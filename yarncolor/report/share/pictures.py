"""The pictures on a sheet to share: the yarn across all of it, and a piece of fabric."""

import numpy as np
from PIL import Image

from yarncolor.answers.answer import Answer
from yarncolor.colour.science import srgb_from_hex
from yarncolor.layout.layout import used_g
from yarncolor.layout.stretches import colours_side_by_side
from yarncolor.pictures.as_knitted import knitted_words
from yarncolor.pictures.fabric_pictures import knitted_piece
from yarncolor.pictures.portrait_pictures import LONGEST_MM, SHORTEST_MM, portrait
from yarncolor.pictures.view import MOST_PX
from yarncolor.report.dye_notes import noted
from yarncolor.report.paper import Area, Paper, Pen, wrapped
from yarncolor.report.share.tones import Tones

_ACROSS = 6.2
"""How long a piece of yarn the portrait shows, in thicknesses of it."""

_MANY_LOTS, _WIDE, _LARGER = 12, 1.9, 2
_BESIDE, _BESIDE_NOTES, _BESIDE_MANY, _ABOVE = 0.5, 0.4, 0.36, 0.5
"""How much of a box fabric may take: beside few lots, few with dye notes, many; above them."""

_GUTTER_MM, _WORDS_APART_MM, _LINE_MM = 7.0, 1.4, 2.6


def put_portrait(paper: Paper, box: Area, answer: Answer, tones: Tones) -> None:
    """Put a length of the yarn into a box, from its left edge to its right.

    Parameters
    ----------
    paper : Paper
        The sheet.
    box : Area
        Where.
    answer : Answer
        What follows from a plan.
    tones : Tones
        Colours of the paper and its inks.
    """
    long_mm = _ACROSS * answer.resolved.yarn.relaxed_diameter_mm
    length_mm = min(max(long_mm, SHORTEST_MM), LONGEST_MM)
    drawn = portrait(answer, most_colourful_m(answer), length_mm, paper.pixels_of(box))
    at = paper.dots(box.left_mm, box.top_mm, drawn.pixels)
    paper.picture(at, _on_ground(drawn.pixels, tones.ground))


def most_colourful_m(answer: Answer) -> float:
    """Return the middle of the section of most colours that is liveliest: in chroma and contrast.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    """
    along = answer.layout.stretches
    count = colours_side_by_side(along.lot)
    chroma = np.hypot(*answer.palette.lab[:, 1:].T)[along.lot].mean(axis=1)
    lively = np.where(count == count.max(), chroma + answer.contrast.hyab / 2, -1.0)
    at = int(lively.argmax())
    return float(along.edges_m[at : at + 2].mean())


def put_fabric(paper: Paper, box: Area, answer: Answer, tones: Tones) -> Area:
    """Put a piece of fabric at the left of a box, a wide one at its top; return what is left.

    Parameters
    ----------
    paper : Paper
        The sheet.
    box : Area
        Where.
    answer : Answer
        What follows from a plan.
    tones : Tones
        Colours of the paper and its inks.
    """
    high, wide = _shown(answer, paper.pixels_of(box)).shape[:2]
    is_wide = wide > _WIDE * high
    share = _share_of_fabric(answer)
    room = (
        box._replace(high_mm=_ABOVE * box.high_mm)
        if is_wide
        else box._replace(wide_mm=share * box.wide_mm)
    )
    bottom = _put_piece(paper, room, answer, tones)
    if is_wide:
        top = bottom + _GUTTER_MM / 2
        return box._replace(top_mm=top, high_mm=box.bottom_mm - top)
    left = room.right_mm + _GUTTER_MM
    return box._replace(left_mm=left, wide_mm=box.right_mm - left)


def _share_of_fabric(answer: Answer) -> float:
    """Return how much of a box's width fabric takes beside lots: the more there is to say, less."""
    lots = np.flatnonzero(used_g(answer.layout))
    if len(lots) > _MANY_LOTS:
        return _BESIDE_MANY
    return _BESIDE_NOTES if any(noted(answer.plan.lots[at]) for at in lots) else _BESIDE


def _put_piece(paper: Paper, room: Area, answer: Answer, tones: Tones) -> float:
    """Put a knitted piece and what it shows into a box; return where they end."""
    pen = Pen(5.8, colour=tones.quiet)
    lines = wrapped(knitted_words(answer), room.wide_mm, pen, 2)
    words_mm = _WORDS_APART_MM + len(lines) * _LINE_MM
    pixels = _piece(answer, paper.pixels_of(room._replace(high_mm=room.high_mm - words_mm)))
    taken = paper.dots(room.left_mm, room.top_mm, pixels)
    paper.picture(taken, _on_ground(pixels, tones.ground))
    top = taken.bottom_mm + _WORDS_APART_MM
    for number, line in enumerate(lines):
        paper.text((room.left_mm, top + (number + 0.5) * _LINE_MM), line, pen)
    return taken.bottom_mm + words_mm


def _piece(answer: Answer, size_px: tuple[int, int]) -> np.ndarray:
    """Return a knitted piece without the paper round it, as large as fits.

    It is drawn larger and made smaller: its stitches are whole pixels, and seldom fill the room.
    """
    wide_px, high_px = (min(size * _LARGER, MOST_PX) for size in size_px)
    shown = _shown(answer, (wide_px, high_px))
    scale = min(size_px[0] / shown.shape[1], size_px[1] / shown.shape[0])
    size = [max(round(side * scale), 1) for side in shown.shape[1::-1]]
    return np.asarray(Image.fromarray(shown).resize(size, Image.Resampling.LANCZOS))


def _shown(answer: Answer, room_px: tuple[int, int]) -> np.ndarray:
    """Return a knitted piece drawn in a room, without the paper round it."""
    pixels = knitted_piece(answer, size_px=room_px).pixels
    rows, columns, _ = np.nonzero(pixels < 255)
    return pixels[rows.min() : rows.max() + 1, columns.min() : columns.max() + 1]


def _on_ground(pixels: np.ndarray, ground: str) -> np.ndarray:
    """Return a picture as if its white paper were the sheet's: each channel times the ground's."""
    whole: np.ndarray = np.rint(pixels * srgb_from_hex([ground])[0]).astype(np.uint8)
    return whole
