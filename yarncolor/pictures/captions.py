"""A picture in its frame: the picture, its lots by name, its caption; as PNG with its size."""

from dataclasses import dataclass

from PIL import Image, ImageDraw

from yarncolor.answers.answer import Answer
from yarncolor.phrases import title_of
from yarncolor.pictures import fonts
from yarncolor.pictures.fonts import pixel_name
from yarncolor.pictures.png import INK, PAPER, png_bytes
from yarncolor.pictures.view import Rendered

_TEXT_PX, _LINE_PX, _CHIP_PX, _GAP_PX, _EDGE_PX = 14, 24, 16, 18, 8
_MOST_BESIDE_PX, _LEAST_WORDS_PX = 420, 320
PRINT_MM = 120.0
"""Width of a picture on paper."""


@dataclass(frozen=True)
class Chip:
    """A lot in a legend: its chip's corner, its name and where that stands; pixels."""

    x: int
    y: int
    lot: int
    name: str
    text_x: int
    width_px: int


def chips(names: list[tuple[int, str]], width_px: int) -> list[Chip]:
    """Return where each lot of a legend stands: rows from left to right, none over another.

    Parameters
    ----------
    names : list of (int, str)
        Lots with their names; a name wider than the picture is cut.
    width_px : int
        Of the picture.
    """
    placed, x, y = [], _EDGE_PX, 0
    room = width_px - 2 * _EDGE_PX - _CHIP_PX - 6
    for lot, name in names:
        shown = fonts.fitted(name, room, _TEXT_PX) or "…"
        wide = _CHIP_PX + 6 + fonts.width_px(shown, _TEXT_PX)
        if x > _EDGE_PX and x + wide > width_px - _EDGE_PX:
            x, y = _EDGE_PX, y + _LINE_PX
        placed.append(Chip(x, y, lot, shown, x + _CHIP_PX + 6, wide))
        x += wide + _GAP_PX
    return placed


def captioned_png(
    answer: Answer, drawn: Rendered, print_mm: float = PRINT_MM, words: bool = True
) -> bytes:
    """Return a picture as PNG, its lots named and its caption under it.

    Title, software and text alternative stand in the file, and so many dots to the inch that it
    prints as wide as is asked.

    Parameters
    ----------
    answer : Answer
        Whose picture it is.
    drawn : Rendered
        The picture.
    print_mm : float
        Width on paper.
    words : bool
        Whether legend and caption stand under it; without, only names beside the picture.
    """
    title, alt = title_of(answer.plan), f"{drawn.alt} {drawn.caption}"
    return png_bytes(with_caption(answer, drawn, words), title, alt, width_mm=print_mm)


def with_caption(answer: Answer, drawn: Rendered, words: bool = True) -> Image.Image:
    """Return a picture with its lots named and its caption under it, where words are wanted.

    Parameters
    ----------
    answer : Answer
        Whose picture it is.
    drawn : Rendered
        The picture.
    words : bool
        Whether legend and caption stand under it.
    """
    high, wide = drawn.pixels.shape[:2]
    shown = drawn.lots if words else ()
    names = [(lot, pixel_name(lot, answer.plan.names)) for lot in shown]
    words_px = max(wide, _LEAST_WORDS_PX)
    legend = chips(names, words_px)
    caption = fonts.in_sentence(drawn.caption, answer.plan.names) if words else ""
    lines = wrapped(caption, words_px - 2 * _EDGE_PX)
    legend_px = (legend[-1].y + _LINE_PX if legend else 0) + _EDGE_PX
    beside = apart(drawn.beside, high)
    named_px = max((fonts.width_px(text, _TEXT_PX) for _, text in beside), default=0)
    picture_px = wide + (named_px + 2 * _EDGE_PX if beside else 0)
    size = (max(picture_px, words_px), high + legend_px)
    page = Image.new("RGB", (size[0], size[1] + len(lines) * _LINE_PX), PAPER)
    page.paste(Image.fromarray(drawn.pixels), (0, 0))
    pen, face = ImageDraw.Draw(page), fonts.font(_TEXT_PX)
    for chip in legend:
        top = high + _EDGE_PX + chip.y
        box = (chip.x, top, chip.x + _CHIP_PX, top + _CHIP_PX)
        pen.rectangle(box, fill=(drawn.srgb or answer.palette.srgb)[chip.lot], outline=INK)
        pen.text((chip.text_x, top + _CHIP_PX / 2), chip.name, fill=INK, font=face, anchor="lm")
    for y, text in beside:
        pen.text((wide + _EDGE_PX, y), text, fill=INK, font=face, anchor="lm")
    for number, line in enumerate(lines):
        top = high + legend_px + number * _LINE_PX
        pen.text((_EDGE_PX, top), line, fill=INK, font=face)
    return page


def apart(beside: tuple[tuple[float, str], ...], height_px: int) -> list[tuple[float, str]]:
    """Return the names that can stand beside a picture, none over another; the rest is left out.

    Parameters
    ----------
    beside : tuple of (float, str)
        Heights in pixels and what is named there, from the top.
    height_px : int
        Of the picture.
    """
    kept: list[tuple[float, str]] = []
    for y, text in beside:
        inside = _LINE_PX / 2 <= y <= height_px - _LINE_PX / 2
        if inside and (not kept or y - kept[-1][0] >= _LINE_PX - 4):
            kept.append((y, fonts.fitted(fonts.drawable(text), _MOST_BESIDE_PX, _TEXT_PX)))
    return kept


def wrapped(text: str, width_px: int) -> list[str]:
    """Return a text in lines that fit a width.

    Parameters
    ----------
    text : str
        In words.
    width_px : int
        Room for a line.
    """
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and fonts.width_px(longer, _TEXT_PX) <= width_px:
            lines[-1] = longer
        else:
            lines.append(fonts.fitted(word, width_px, _TEXT_PX))
    return lines
