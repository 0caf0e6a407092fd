"""What holds a skein: ties, each a figure of eight round a half, and a tag on a cord."""

import numpy as np

from yarncolor.pictures.hank import SKEIN_TO, Hank
from yarncolor.pictures.scene import CARD, FIXED_SRGB, WARP
from yarncolor.pictures.strands import Canvas
from yarncolor.pictures.yarn_scenes import PictureScale

_TIES, _THICK, _SPREAD = 4, 0.75, 1.7
"""How many ties; half their thickness and half the width of their eight, over half a strand's."""

_SHADOW, _RIM, _TURNS_AWAY, _DARK = 0.62, 0.25, 0.7, 0.1
"""Light beside a tie; at a thread's rim; what it loses where it goes round; of the tag's line."""

_TAG = (0.845, 0.985, 0.28, 0.72)
"""Left, right, top and bottom of the tag, over width and height of the picture."""

_HOLE_AT, _HOLE, _LINE, _CORD, _SAG = 0.09, 0.035, 0.006, 0.005, 0.03
"""How far from the tag's edge its hole is, how large that, the line round the tag, half the cord,
how far this hangs through, over the height of the picture."""


def tag_box(size: PictureScale) -> tuple[int, int, int, int]:
    """Return the tag's left, top, right and bottom, in pixels.

    Parameters
    ----------
    size : PictureScale
        Of the picture.
    """
    left, right, top, bottom = _TAG
    across, down = size.width_px, size.height_px
    return round(left * across), round(top * down), round(right * across), round(bottom * down)


def tie_up(canvas: Canvas, drawn: Hank) -> None:
    """Draw the ties of a skein, where one of its halves lies on top.

    Parameters
    ----------
    canvas : Canvas
        With the skein.
    drawn : Hank
        How thick that is.
    """
    tops = np.arange(1 / 4, drawn.length / drawn.pitch_px, 1 / 2)
    picked = np.rint(np.linspace(0, len(tops) - 1, min(_TIES, len(tops)))).astype(int)
    for at in drawn.first + tops[picked] * drawn.pitch_px:
        _tie(canvas, drawn, float(at))


def _tie(canvas: Canvas, drawn: Hank, at_px: float) -> None:
    half, thick = drawn.half_px + drawn.strand_px, max(_THICK * drawn.strand_px, 0.8)
    lean = np.arctan(2 * np.pi * drawn.half_px / drawn.pitch_px)
    y, x = _window(canvas, drawn, at_px, 1.5 * half + 3 * thick)
    down, over = (y + 0.5) / canvas.down - drawn.high / 2, x + 0.5 - at_px
    along = over * np.cos(lean) + down * np.sin(lean)
    across = (down * np.cos(lean) - over * np.sin(lean)) / half
    spread = _SPREAD * max(drawn.strand_px, 1) * np.sin(np.pi / 2 * np.clip(across, -1, 1))
    for leaning in (1, -1):
        away = np.abs(along - leaning * spread) / thick
        inside = np.abs(across) < 1
        canvas.shade[y, x] *= np.where(inside & (away < 2), _SHADOW, 1)
        shade = _RIM + (1 - _RIM) * np.sqrt(
            np.clip(1 - away**2, 0, 1) * (1 - 0.7 * across**2).clip(0)
        )
        _put(canvas, (y, x), inside & (away < 1), WARP, shade)


def hang_tag(canvas: Canvas, size: PictureScale) -> None:
    """Draw a tag without words, and the cord that it hangs by.

    Parameters
    ----------
    canvas : Canvas
        With the skein.
    size : PictureScale
        Of the picture.
    """
    left, top, right, bottom = tag_box(size)
    high, from_px = size.height_px, round(SKEIN_TO * size.width_px) - 2
    y, x = np.mgrid[0 : high * canvas.down, from_px : size.width_px]
    down, over = (y + 0.5) / canvas.down, x + 0.5
    inward = np.minimum.reduce([over - left, right - over, down - top, bottom - down])
    hole_x, hole_y = left + _HOLE_AT * high, (top + bottom) / 2
    from_hole = np.hypot(over - hole_x, down - hole_y)
    is_card = (inward > 0) & (from_hole > _HOLE * high)
    line = np.minimum(inward, from_hole - _HOLE * high) < max(_LINE * high, 0.7)
    _put(canvas, (y, x), is_card, CARD, np.where(line, _DARK, 1.0))
    gone = (over - from_px) / (hole_x - from_px)
    cord = hole_y + _SAG * high * np.sin(np.pi * np.clip(gone, 0, 1))
    away = np.abs(down - cord) / max(_CORD * high, 0.7)
    _put(canvas, (y, x), (away < 1) & (gone < 1), WARP, np.full(away.shape, _RIM))


def _window(
    canvas: Canvas, drawn: Hank, at_px: float, reach_px: float
) -> tuple[np.ndarray, np.ndarray]:
    """Return rows and columns of the samples round a tie."""
    high, wide = canvas.place.shape
    top, bottom = (round((drawn.high / 2 + way * reach_px) * canvas.down) for way in (-1, 1))
    left, right = round(at_px - reach_px), round(at_px + reach_px)
    y, x = np.mgrid[max(top, 0) : min(bottom, high), max(left, 0) : min(right, wide)]
    return y, x


def _put(
    canvas: Canvas,
    at: tuple[np.ndarray, np.ndarray],
    inside: np.ndarray,
    place: int,
    shade: np.ndarray,
) -> None:
    """Lay a place that is no yarn over what is there."""
    y, x = (each[inside] for each in at)
    canvas.place[y, x], canvas.shade[y, x] = place - len(FIXED_SRGB), shade[inside]
