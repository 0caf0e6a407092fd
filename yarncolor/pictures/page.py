"""A picture put together from parts: text, chips, parts under each other, a legend below them."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from PIL import Image, ImageDraw

from yarncolor.answers.answer import Preview
from yarncolor.pictures import fonts
from yarncolor.pictures.captions import chips, wrapped
from yarncolor.pictures.fonts import pixel_name
from yarncolor.pictures.png import INK, PAPER

EDGE_PX, TEXT_PX, LINE_PX = 8, 13, 19
_CHIP_PX, _RULE = 16, "#b0b0b0"


@dataclass(frozen=True)
class Page:
    """A picture being put together."""

    image: Image.Image

    def paste(self, pixels: np.ndarray, at: tuple[int, int]) -> None:
        """Put pixels into the picture.

        Parameters
        ----------
        pixels : (height, width, 3) uint8 array
            What to put there.
        at : (int, int)
            Its upper left corner, pixels.
        """
        self.image.paste(Image.fromarray(np.ascontiguousarray(pixels)), at)

    def write(
        self, at: tuple[int, int], text: str, size_px: int, room_px: int, *, bold: bool = False
    ) -> None:
        """Write a line of text, cut where it does not fit.

        Parameters
        ----------
        at : (int, int)
            Its upper left corner, pixels.
        text : str
            One line.
        size_px, room_px : int
            Of its letters; for all of it.
        bold : bool
            Whether it is bold.
        """
        told = fonts.fitted(fonts.drawable(text), room_px, size_px, bold)
        ImageDraw.Draw(self.image).text(at, told, fill=INK, font=fonts.font(size_px, bold))

    def chip(self, x: int, y: int, srgb: str) -> None:
        """Draw a lot's colour.

        Parameters
        ----------
        x, y : int
            Upper left corner, pixels.
        srgb : str
            CSS hex.
        """
        box = (x, y, x + _CHIP_PX, y + _CHIP_PX)
        ImageDraw.Draw(self.image).rectangle(box, fill=srgb, outline=INK)


def under_each_other(
    parts: Sequence[Image.Image], below: Image.Image, *, ruled_off: bool = False
) -> Image.Image:
    """Return equally wide parts under each other, a rule between them, and what stands below.

    Parameters
    ----------
    parts : sequence of Image
        At least one.
    below : Image
        Their legend.
    ruled_off : bool
        Whether a rule stands above the legend, too.
    """
    tops = np.cumsum([0, *(part.height for part in parts)]).tolist()
    page = Image.new("RGB", (below.width, tops[-1] + below.height), PAPER)
    for top, part in zip(tops, [*parts, below], strict=True):
        page.paste(part, (0, top))
    for top in tops[1:] if ruled_off else tops[1:-1]:
        ImageDraw.Draw(page).line((EDGE_PX, top, below.width - EDGE_PX, top), fill=_RULE)
    return page


def legend_of(yarns: Iterable[Preview], read_so: str, width_px: int) -> Image.Image:
    """Return the lots of several yarns by colour and name, each once, and how to read the picture.

    Parameters
    ----------
    yarns : iterable of Preview
        At least one.
    read_so : str
        A sentence or more.
    width_px : int
        Of the picture.
    """
    lots = dict.fromkeys(
        (yarn.palette.srgb[at], pixel_name(at, yarn.plan.names))
        for yarn in yarns
        for at in np.unique(yarn.layout.stretches.lot)
    )
    return legend(list(lots), read_so, width_px)


def legend(lots: list[tuple[str, str]], read_so: str, width_px: int) -> Image.Image:
    """Return lots by colour and name, and under them how to read the picture.

    Parameters
    ----------
    lots : list of (str, str)
        Colour and name of each.
    read_so : str
        A sentence or more.
    width_px : int
        Of the picture.
    """
    colours, names = zip(*lots, strict=True)
    placed = chips(list(enumerate(names)), width_px)
    lines = wrapped(read_so, width_px - 2 * EDGE_PX)
    words_top = placed[-1].y + LINE_PX + EDGE_PX + 6
    high = words_top + len(lines) * LINE_PX + EDGE_PX
    page = Page(Image.new("RGB", (width_px, high), PAPER))
    for chip in placed:
        page.chip(chip.x, chip.y + EDGE_PX, colours[chip.lot])
        page.write((chip.text_x, chip.y + EDGE_PX), chip.name, TEXT_PX + 1, width_px)
    for number, line in enumerate(lines):
        page.write((EDGE_PX, words_top + number * LINE_PX), line, TEXT_PX, width_px)
    return page.image
