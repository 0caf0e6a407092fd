"""One order as a bench shows it: its strip, and its yarn where most colours lie side by side."""

import numpy as np
from PIL import Image

from yarncolor.answers.answer import Answer
from yarncolor.pictures.page import EDGE_PX, LINE_PX, TEXT_PX, Page
from yarncolor.pictures.png import PAPER
from yarncolor.pictures.side_by_side import axis, fitting_scale, strip, yarn_piece

_AXIS_PX = 30


def order_panel(answer: Answer, longest: Answer, width_px: int) -> Image.Image:
    """Return strip and yarn of an order.

    Parameters
    ----------
    answer : Answer
        What follows from the plan in that order.
    longest : Answer
        The order whose yarn is longest: a metre is as long in all panels.
    width_px : int
        Of the panel.
    """
    scale = fitting_scale([answer, longest], width_px)
    pixels = strip(answer, scale)
    yarn, words = yarn_piece(answer, scale)
    top = pixels.shape[0] + _AXIS_PX
    high = top + LINE_PX + yarn.pixels.shape[0] + EDGE_PX
    page = Page(Image.new("RGB", (width_px, high), PAPER))
    page.paste(pixels, (EDGE_PX, 0))
    axis(page, answer, scale, pixels.shape[0])
    page.write((EDGE_PX, top), words, TEXT_PX, scale.strip_px)
    page.paste(np.ascontiguousarray(yarn.pixels), (EDGE_PX, top + LINE_PX))
    return page.image
