"""The overview strip as shapes: SVG, whose names stay text."""

from xml.etree import ElementTree

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.colour.srgb import label_ink
from yarncolor.phrases import title_of
from yarncolor.pictures.alt_text import strip_alt
from yarncolor.pictures.bands import slanting_windows
from yarncolor.pictures.drafted import STREAKS_PX
from yarncolor.pictures.png import INK, PAPER
from yarncolor.pictures.strip_layout import (
    CUT_PX,
    HEIGHT_PX,
    LEFT_PX,
    WIDTH_PX,
    YARN_PX,
    Band,
    Strip,
    Text,
    strip_layout,
)

SVG = "http://www.w3.org/2000/svg"
CRISP = {"shape-rendering": "crispEdges"}
"""So that no paper shines through between shapes that touch."""


def strip_svg(answer: Answer, width_px: int = WIDTH_PX, height_px: int = HEIGHT_PX) -> bytes:
    """Return the overview strip as SVG; names stay text, whatever their script.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    width_px, height_px : int
        From 480 × 240 to 20,000 × 4,000.
    """
    drawn = strip_layout(answer.layout, answer.palette, width_px, height_px)
    size = {"width": str(width_px), "height": str(height_px)}
    box = f"0 0 {width_px} {height_px}"
    svg = ElementTree.Element("svg", {"xmlns": SVG, "viewBox": box, "role": "img", **CRISP, **size})
    ElementTree.SubElement(svg, "title").text = title_of(answer.plan)
    ElementTree.SubElement(svg, "desc").text = strip_alt(answer)
    ElementTree.SubElement(svg, "rect", {"fill": PAPER, **size})
    _svg_streaks(svg, drawn)
    for band in drawn.bands:
        _rects(svg, band, band.top_px, band.height_px, drawn)
    _svg_yarn(svg, drawn)
    for x in drawn.ticks_px:
        line = {"x1": x, "x2": x, "y1": drawn.axis_px, "y2": drawn.axis_px + 6}
        ElementTree.SubElement(svg, "line", {"stroke": INK, **_rounded(line)})
    _svg_cuts(svg, drawn)
    for text in drawn.texts:
        _svg_text(svg, text, drawn)
    return svg_bytes(svg)


def svg_bytes(svg: ElementTree.Element) -> bytes:
    """Return a drawing as the bytes of a file."""
    data: bytes = ElementTree.tostring(svg, encoding="utf-8", xml_declaration=True)
    return data


def _rects(
    parent: ElementTree.Element, band: Band, top: float, height: float, drawn: Strip
) -> None:
    for at, lot in enumerate(band.lot):
        x, end = band.edges_px[at], band.edges_px[at + 1]
        box = _rounded({"x": x, "y": top, "width": end - x, "height": height})
        fill = f"url(#drafted-{lot})" if lot in drawn.drafted else drawn.palette.srgb[lot]
        ElementTree.SubElement(parent, "rect", {"fill": fill, **box})


def _svg_streaks(svg: ElementTree.Element, drawn: Strip) -> None:
    """Define how lots look that are drafted together: their colours side by side."""
    for lot, (lots, up_to) in drawn.drafted.items():
        size = {"width": str(STREAKS_PX), "height": str(STREAKS_PX)}
        about = {"id": f"drafted-{lot}", "patternUnits": "userSpaceOnUse", **size}
        pattern = ElementTree.SubElement(svg, "pattern", about)
        tops = [0.0, *(up_to[:-1] * STREAKS_PX).tolist()]
        for one, top in zip(lots.tolist(), tops, strict=True):
            box = {"y": f"{top:g}", **size, "fill": drawn.palette.srgb[one]}
            ElementTree.SubElement(pattern, "rect", box)


def _svg_yarn(svg: ElementTree.Element, drawn: Strip) -> None:
    """Draw each ply over the whole plied band, seen only through its own slanted stripes.

    The last ply lies under the others, whole: no seam shows where stripes of one colour meet.
    """
    plies = len(drawn.bands)
    top = drawn.yarn_top_px
    definitions = ElementTree.SubElement(svg, "defs")
    _rects(svg, drawn.bands[-1], top, YARN_PX, drawn)
    for k, band in enumerate(drawn.bands[:-1]):
        clip = ElementTree.SubElement(definitions, "clipPath", {"id": f"ply-{k + 1}"})
        windows = np.add(slanting_windows(drawn.inner_px, YARN_PX, plies, k), (LEFT_PX, top))
        corners = [
            f"M{one[0]:g} {one[1]:g}H{other[0]:g}L{low[0]:g} {low[1]:g}H{end[0]:g}Z"
            for one, other, low, end in windows
        ]
        ElementTree.SubElement(clip, "path", {"d": "".join(corners)})
        group = ElementTree.SubElement(svg, "g", {"clip-path": f"url(#ply-{k + 1})"})
        _rects(group, band, top, YARN_PX, drawn)


def _svg_cuts(svg: ElementTree.Element, drawn: Strip) -> None:
    """Draw a line with paper about it where one of several alike ends."""
    top, end = drawn.cut_rows_px
    for x in drawn.cuts_px:
        line = _rounded({"x1": x, "x2": x, "y1": top, "y2": end})
        about = {"stroke": PAPER, "stroke-width": str(CUT_PX + 1)}
        ElementTree.SubElement(svg, "line", {**about, **line})
        ElementTree.SubElement(svg, "line", {"stroke": INK, **line})


def _svg_text(svg: ElementTree.Element, text: Text, drawn: Strip) -> None:
    lots = drawn.palette.srgb
    ink = INK if text.on_lot is None else label_ink(lots[text.on_lot])
    style = {
        "text-anchor": text.anchor,
        "dominant-baseline": "central",
        "font-family": "DejaVu Sans, Noto Sans, sans-serif",
        "font-size": str(text.size_px),
        "font-weight": "bold" if text.bold else "normal",
    }
    if text.on_lot is not None and text.on_lot in drawn.drafted:
        style |= {"stroke": lots[text.on_lot], "stroke-width": "5", "paint-order": "stroke"}
    place = _rounded({"x": text.x, "y": text.y})
    ElementTree.SubElement(svg, "text", {"fill": ink, **place, **style}).text = text.text


def _rounded(numbers: dict[str, float]) -> dict[str, str]:
    return {key: f"{value:.2f}".rstrip("0").rstrip(".") for key, value in numbers.items()}
