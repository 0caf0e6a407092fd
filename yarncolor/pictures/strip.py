"""The overview strip: plies side by side over the whole length, the plied yarn under them."""

import math
from functools import lru_cache
from xml.etree import ElementTree

import numpy as np
from PIL import Image

from yarncolor.answers.answer import Answer
from yarncolor.colour.palette import Palette
from yarncolor.colour.science import srgb_from_hex
from yarncolor.colour.srgb import label_ink
from yarncolor.layout.layout import in_words
from yarncolor.layout.stretches import WHOLE_PPB
from yarncolor.phrases import metres, percent
from yarncolor.pictures import fonts
from yarncolor.pictures.png import INK, PAPER, png_bytes
from yarncolor.pictures.strip_layout import (
    HEIGHT_PX,
    LEFT_PX,
    SLANT,
    STRIPE_PX,
    WIDTH_PX,
    YARN_PX,
    Band,
    Strip,
    Text,
    strip_layout,
)
from yarncolor.units import MM_PER_INCH

_FIRST_LOT = fonts.LEVELS + 1
SEPARATED_PX, _DPI = 8, 144


def strip_png(found: Answer, width_px: int = WIDTH_PX, height_px: int = HEIGHT_PX) -> bytes:
    """Return the overview strip as a PNG with its title, software and a text alternative."""
    drawn = strip_layout(found.layout, found.palette, width_px, height_px)
    index, colours = raster(drawn)
    return _png(index, colours, found.plan.title, strip_alt(found))


def raster(drawn: Strip) -> tuple[np.ndarray, np.ndarray]:
    """Return the strip as an index map (height, width) and the palette (entries, 3) uint8.

    Entries: 0 paper, up to 4 its shades to ink, then the lots, then shades of labels on lots.
    """
    index = np.zeros((drawn.height_px, drawn.width_px), np.uint16)
    columns = _lots_of_columns(drawn) + _FIRST_LOT
    for k, band in enumerate(drawn.bands):
        rows = _rows(band.top_px, band.height_px)
        index[rows, LEFT_PX : LEFT_PX + drawn.inner_px] = columns[:, k]
        index[rows, _separators(band)] = 0
    plies = len(drawn.bands)
    stripe, across = _barber_pole(drawn.inner_px, plies)
    top = round(drawn.yarn_top_px)
    index[top : top + YARN_PX, LEFT_PX : LEFT_PX + drawn.inner_px] = columns[across, stripe]
    _axis(index, drawn)
    colours = _Colours(drawn.palette)
    for text in drawn.texts:
        _write(index, text, colours)
    return index, colours.table()


def strip_alt(found: Answer) -> str:
    """Return the text alternative of the strip, from its numbers."""
    shares = found.shares
    laid = found.layout
    matched = f"matched {_over(shares[0])}"
    many = f", all plies different {_over(shares[-1])}" if shares[-1] and len(shares) > 1 else ""
    lots = len(np.unique(laid.portions.lot))
    colours = f"{lots} colours" if lots > 1 else "one colour"
    return (
        f"{in_words(laid).capitalize()}, {metres(laid.stretches.yarn_m)} of yarn "
        f"in {colours}; {matched}{many}."
    )


def _over(share: float) -> str:
    if share in (0, 1):
        return "over its whole length" if share else "nowhere"
    return f"over {percent(share)} of its length"


def strip_svg(found: Answer, width_px: int = WIDTH_PX, height_px: int = HEIGHT_PX) -> bytes:
    """Return the overview strip as SVG; names stay text, whatever their script."""
    drawn = strip_layout(found.layout, found.palette, width_px, height_px)
    size = {"width": str(width_px), "height": str(height_px)}
    box = f"0 0 {width_px} {height_px}"
    svg = ElementTree.Element(
        "svg", xmlns="http://www.w3.org/2000/svg", viewBox=box, role="img", **size
    )
    ElementTree.SubElement(svg, "title").text = found.plan.title or "Untitled plan"
    ElementTree.SubElement(svg, "desc").text = strip_alt(found)
    ElementTree.SubElement(svg, "rect", fill=PAPER, **size)
    for band in drawn.bands:
        _rects(svg, band, band.top_px, band.height_px, drawn.palette)
    _svg_yarn(svg, drawn)
    for x in drawn.ticks_px:
        line = {"x1": x, "x2": x, "y1": drawn.axis_px, "y2": drawn.axis_px + 6}
        ElementTree.SubElement(svg, "line", stroke=INK, **_rounded(line))
    for text in drawn.texts:
        _svg_text(svg, text, drawn.palette)
    return ElementTree.tostring(svg, encoding="utf-8", xml_declaration=True)


class _Colours:
    """The palette of one raster: grows by the shades of each lot that bears a label."""

    def __init__(self, palette: Palette) -> None:
        self._lots = palette.srgb
        greys = _between(PAPER, INK)
        self._table = [PAPER, *greys, *palette.srgb]
        self._shades: dict[int, np.ndarray] = {}

    def shades(self, lot: int | None) -> np.ndarray:
        """Return the palette entries from the ground (unused) to the ink on a lot, or on paper."""
        if lot is None:
            return np.arange(fonts.LEVELS + 1, dtype=np.uint16)
        if lot not in self._shades:
            ground = self._lots[lot]
            entries = np.arange(fonts.LEVELS + 1, dtype=np.uint16) + len(self._table) - 1
            self._table += _between(ground, label_ink(ground))
            self._shades[lot] = entries
        return self._shades[lot]

    def table(self) -> np.ndarray:
        """Return all entries as (n, 3) uint8."""
        return np.rint(srgb_from_hex(self._table) * 255).astype(np.uint8)


@lru_cache(maxsize=1024)
def _between(ground: str, ink: str) -> list[str]:
    ends = srgb_from_hex([ground, ink]) * 255
    steps = np.arange(1, fonts.LEVELS + 1)[:, None] / fonts.LEVELS
    levels = np.rint(ends[0] + (ends[1] - ends[0]) * steps).astype(np.uint8)
    return [f"#{bytes(row).hex()}" for row in levels]


def _lots_of_columns(drawn: Strip) -> np.ndarray:
    middle = (np.arange(drawn.inner_px) + 0.5) / drawn.inner_px * WHOLE_PPB
    stretch = np.searchsorted(drawn.stretches.edges_ppb, middle, side="right") - 1
    return drawn.stretches.lot[stretch]


def _separators(band: Band) -> np.ndarray:
    """Return the columns between two runs that are both wide enough to be parted."""
    wide = np.diff(band.edges_px) >= SEPARATED_PX
    return np.rint(band.edges_px[1:-1][wide[1:] & wide[:-1]]).astype(int)


@lru_cache(maxsize=16)
def _barber_pole(inner_px: int, plies: int) -> tuple[np.ndarray, np.ndarray]:
    """Return which ply and which column each pixel of the plied band shows."""
    x, y = np.arange(inner_px), np.arange(YARN_PX)[:, None]
    stripe = ((x + (YARN_PX - y) * SLANT) // STRIPE_PX).astype(int) % plies
    return stripe, np.broadcast_to(x, stripe.shape)


def _rows(top: float, height: float) -> slice:
    return slice(round(top), round(top + height))


def _axis(index: np.ndarray, drawn: Strip) -> None:
    top = round(drawn.axis_px)
    for x in drawn.ticks_px:
        index[top : top + 6, min(round(x), drawn.width_px - 1)] = fonts.LEVELS


def _write(index: np.ndarray, text: Text, colours: _Colours) -> None:
    levels = fonts.mask(text.pixels or text.text, text.size_px, text.bold)
    high, wide = levels.shape
    shift = {"start": 0, "middle": wide / 2, "end": wide}[text.anchor]
    x, y = max(0, round(text.x - shift)), max(0, round(text.y - high / 2))
    ground = index[y : y + high, x : x + wide]
    levels = levels[: ground.shape[0], : ground.shape[1]]
    inked = levels > 0
    ground[inked] = colours.shades(text.on_lot)[levels[inked]]


def _png(index: np.ndarray, colours: np.ndarray, title: str, alt: str) -> bytes:
    if len(colours) <= 256:
        image = Image.fromarray(index.astype(np.uint8), mode="P")
        image.putpalette(colours.tobytes())
    else:
        image = Image.fromarray(colours[index])
    return png_bytes(image, title, alt, width_mm=image.width / _DPI * MM_PER_INCH, compress_level=2)


def _rects(
    parent: ElementTree.Element, band: Band, top: float, height: float, palette: Palette
) -> None:
    for at, lot in enumerate(band.lot):
        x, end = band.edges_px[at], band.edges_px[at + 1]
        box = _rounded({"x": x, "y": top, "width": end - x, "height": height})
        ElementTree.SubElement(parent, "rect", fill=palette.srgb[lot], **box)


def _svg_yarn(svg: ElementTree.Element, drawn: Strip) -> None:
    """Draw each ply over the whole plied band, seen only through its own slanted stripes.

    The last ply lies under the others, whole: no seam shows where stripes of one colour meet.
    """
    plies = len(drawn.bands)
    top = drawn.yarn_top_px
    lean = YARN_PX * SLANT
    count = math.ceil((drawn.inner_px + lean) / STRIPE_PX) + 1
    definitions = ElementTree.SubElement(svg, "defs")
    _rects(svg, drawn.bands[-1], top, YARN_PX, drawn.palette)
    for k, band in enumerate(drawn.bands[:-1]):
        clip = ElementTree.SubElement(definitions, "clipPath", id=f"ply-{k + 1}")
        corners = []
        for stripe in range(k, count, plies):
            x = LEFT_PX + stripe * STRIPE_PX - lean
            high, low = (x, x + STRIPE_PX), (x + lean + STRIPE_PX, x + lean)
            corners.append(
                f"M{high[0]:g} {top:g}H{high[1]:g}L{low[0]:g} {top + YARN_PX:g}H{low[1]:g}Z"
            )
        ElementTree.SubElement(clip, "path", d="".join(corners))
        group = ElementTree.SubElement(svg, "g", **{"clip-path": f"url(#ply-{k + 1})"})
        _rects(group, band, top, YARN_PX, drawn.palette)


def _svg_text(svg: ElementTree.Element, text: Text, palette: Palette) -> None:
    ink = INK if text.on_lot is None else label_ink(palette.srgb[text.on_lot])
    style = {
        "text-anchor": text.anchor,
        "dominant-baseline": "central",
        "font-family": "DejaVu Sans, Noto Sans, sans-serif",
        "font-size": str(text.size_px),
        "font-weight": "bold" if text.bold else "normal",
    }
    place = _rounded({"x": text.x, "y": text.y})
    ElementTree.SubElement(svg, "text", fill=ink, **place, **style).text = text.text


def _rounded(numbers: dict[str, float]) -> dict[str, str]:
    return {key: f"{value:.2f}".rstrip("0").rstrip(".") for key, value in numbers.items()}
