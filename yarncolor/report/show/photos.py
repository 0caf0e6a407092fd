"""Photographs and what was read from them, as a notebook shows them."""

from PIL import Image, ImageDraw, ImageFont

from yarncolor.colour.photo.correction import Correction
from yarncolor.colour.photo.image import Photo
from yarncolor.colour.photo.proposals import Proposal
from yarncolor.colour.photo.readings import correction_words, reading_words
from yarncolor.colour.photo.sampling import Box, PatchReading
from yarncolor.pictures import fonts
from yarncolor.pictures.png import INK, PAPER
from yarncolor.report.show.fragment import Fragment, Picture, small_picture
from yarncolor.report.show.markup import Cell, joined, on_colour, paragraphs, table_html

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


def show_readings(readings: dict[str, PatchReading], correction: Correction) -> Fragment:
    """Return what was read: chip, name, colour, how even it is, pixels, doubts.

    Parameters
    ----------
    readings : dict of str to PatchReading
        By the lot's name.
    correction : Correction
        How the photograph was put right.
    """
    head = ("lot", "colour", "may be out by", "how even", "pixels", "doubts")
    rows, lines = [], []
    for name, reading in readings.items():
        said = reading_words(reading, correction)
        words = (said["colour"], said["out_by"], said["even"], said["pixels"], said["doubts"])
        cells = (Cell(text, "padding:0 .8em 0 .3em") for text in words)
        rows.append([Cell(name, f"{on_colour(words[0])};padding:0 .5em"), *cells])
        lines.append("  ".join(filter(None, (name, *words))))
    notes = correction_words(correction)
    readings_table = table_html(head, rows, head_css="text-align:left")
    return Fragment(joined((readings_table, paragraphs(notes))), "\n".join([*lines, *notes]))
