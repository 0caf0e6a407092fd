"""Photographs and what was read from them, as a notebook shows them."""

from PIL import Image, ImageDraw, ImageFont

from yarncolor.colour.photo.correction import Correction
from yarncolor.colour.photo.illumination import Illumination
from yarncolor.colour.photo.image import Photo
from yarncolor.colour.photo.proposals import Proposal
from yarncolor.colour.photo.readings import Column, reading_words
from yarncolor.colour.photo.sampling import Box, PatchReading
from yarncolor.pictures import fonts
from yarncolor.pictures.png import INK, PAPER
from yarncolor.report.show.asked import asked, asked_together
from yarncolor.report.show.fragment import Fragment, Picture, small_picture
from yarncolor.report.show.markup import Cell, joined, on_colour, paragraphs, table_html
from yarncolor.report.why.photographs import reading_reasons
from yarncolor.report.why.photographs_seen import sentences_of, sentences_seen
from yarncolor.report.why.reason import Reason

_WIDE_PX, _HIGH_PX, _TEXT_PX = 900, 1200, 14


def show_photo(
    photo: Photo,
    boxes: dict[str, Box] | None = None,
    corners: list[tuple[float, float]] | None = None,
) -> Picture:
    """Return a photograph with its boxes and a target's corners drawn and named.

    Parameters
    ----------
    photo : Photo
        The photograph.
    boxes : dict of str to Box, optional
        By what they are called.
    corners : list of (x, y), optional
        Of a target.
    """
    boxes = boxes or {}
    named = f" with boxes on {', '.join(boxes)}" if boxes else ""
    wide, high = photo.size_px
    alt = f"A photograph of {wide} × {high} pixels{named}."
    return small_picture(marked(photo, boxes, corners), alt)


def show_proposals(photo: Photo, proposals: list[Proposal]) -> Picture:
    """Return a photograph with the lots that it may show, numbered, near-twins pointed out.

    Parameters
    ----------
    photo : Photo
        The photograph.
    proposals : list of Proposal
        From `proposals`.
    """
    names = [
        f"{at}" if one.twin_of is None else f"{at}, like {one.twin_of + 1}"
        for at, one in enumerate(proposals, start=1)
    ]
    return show_photo(photo, {name: one.box for name, one in zip(names, proposals, strict=True)})


def marked(
    photo: Photo, boxes: dict[str, Box], corners: list[tuple[float, float]] | None = None
) -> Image.Image:
    """Return a photograph, not wider than a page, with boxes and corners drawn on it.

    Parameters
    ----------
    photo : Photo
        The photograph.
    boxes : dict of str to Box
        Each under its name.
    corners : list of (float, float) or None
        Of a target, in shares of the picture.
    """
    image = Image.fromarray(photo.srgb)
    image.thumbnail((_WIDE_PX, _HIGH_PX))
    pen, face = ImageDraw.Draw(image), fonts.font(_TEXT_PX)
    wide, high = image.size
    for name, box in boxes.items():
        left, top = box.left * wide, box.top * high
        right, bottom = left + box.width * wide, top + box.height * high
        _framed(pen, [(left, top), (right, top), (right, bottom), (left, bottom)])
        _named(pen, (left + 4, top + 3), fonts.turned(fonts.drawable(name)), face)
    if corners:
        _framed(pen, [(x * wide, y * high) for x, y in corners])
    return image


def _framed(pen: ImageDraw.ImageDraw, points: list[tuple[float, float]]) -> None:
    closed = [*points, points[0]]
    pen.line(closed, fill=INK, width=4)
    pen.line(closed, fill=PAPER, width=2)


def _named(
    pen: ImageDraw.ImageDraw, at: tuple[float, float], name: str, face: ImageFont.FreeTypeFont
) -> None:
    left, top, right, bottom = pen.textbbox(at, name, font=face)
    pen.rectangle((left - 2, top - 1, right + 2, bottom + 1), fill=PAPER)
    pen.text(at, name, fill=INK, font=face)


def show_readings(
    readings: dict[str, PatchReading],
    correction: Correction,
    light: Illumination | None = None,
    explained: bool = False,
) -> Fragment:
    """Return what was read: chip, name, colour, how even it is, pixels, doubts; and by what.

    Parameters
    ----------
    readings : dict of str to PatchReading
        By the lot's name.
    correction : Correction
        How the photograph was put right.
    light : Illumination, optional
        How light falls over it, to be told too.
    explained : bool
        Whether figures answer why.
    """
    rows, lines = [], []
    for name, reading in readings.items():
        said = reading_words(reading, correction)
        words = [said[column] for column in _COLUMNS]
        whys = reading_reasons(reading, correction) if explained else {}
        cells = (Cell(_told(said[column], whys.get(column)), _CELL) for column in _COLUMNS)
        rows.append([Cell(name, f"{on_colour(words[0])};{_CELL}"), *cells])
        lines.append("  ".join(filter(None, (name, *words))))
    notes = [str(one) for one in sentences_of(correction, light)]
    readings_table = table_html(("lot", *_COLUMNS.values()), rows, head_css="text-align:left")
    why = asked_together(sentences_seen(correction, light) if explained else (), "the picture")
    html = joined((readings_table, paragraphs(notes), why))
    return Fragment(html, "\n".join([*lines, *notes]))


_COLUMNS: dict[Column, str] = {
    "colour": "colour",
    "out_by": "may be out by",
    "even": "how even",
    "pixels": "pixels",
    "doubts": "doubts",
}
"""What is told of a box, and the heads of its columns."""

_CELL = "padding:0 .8em 0 .3em;vertical-align:baseline"


def _told(text: str, reason: Reason | None) -> str:
    """Return what stands in a cell: a text, or what answers why when it is asked."""
    return asked(text, reason) if text and reason is not None else text
