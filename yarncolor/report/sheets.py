"""Sheets: a swatch sheet in A5 for the record, and plans side by side on one scale.

Text on them is text, and the PDF prints sharp at any size.
"""

from collections.abc import Sequence
from math import ceil
from textwrap import wrap

from yarncolor.answers.answer import Answer
from yarncolor.layout.layout import used_g
from yarncolor.measures import Measure
from yarncolor.phrases import title_of
from yarncolor.pictures import fonts
from yarncolor.pictures.alt_text import strip_alt
from yarncolor.pictures.as_knitted import knit_of, knitted_words, times_shown
from yarncolor.pictures.fabric_pictures import knitted_piece
from yarncolor.pictures.view import Rendered, ViewSettings
from yarncolor.pictures.yarn_pictures import whole_yarn, wraps, yarn_at
from yarncolor.report.paper import Area, Paper, Pen, cut, fitting
from yarncolor.report.yarn_lines import yarn_lines

A5_MM = (148.0, 210.0)
_DPI = 300
_SMALL = Pen(5.5)

_MOST_CHIPS, _LINE_LETTERS, _LINE_MM, _ROWS = 24, 122, 3.6, 8
MOST_COMPARED = 6
_READ_SO = (
    "Each yarn is folded into rows and read like a page, from the top left, where plying begins. "
    "One scale for all yarns, one for all fabrics."
)


def swatch_sheet(
    answer: Answer,
    form: str = "pdf",
    look: ViewSettings = ViewSettings(),
    dpi: int = _DPI,
) -> bytes:
    """Return one A5 sheet: yarn, wraps, fabric, the lots by name, and the numbers.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    form : str
        pdf, svg or png (300 dpi).
    look : ViewSettings
        How the pictures are looked at.
    dpi : int
        Dots to the inch of its pictures.
    """
    paper = Paper(A5_MM, dpi)
    title = title_of(answer.plan)
    pen = fitting(title, 124, (Pen(13, bold=True), Pen(9, bold=True)))
    paper.text((10, 9), cut(title, 124, pen), pen)
    _about(paper, (10, 15), strip_alt(answer))
    longest_m = answer.layout.stretches.yarn_m
    yarn = yarn_at(answer, longest_m / 2, 40, (1500, 164), look)
    _image(paper, (10, 19, 128, 14), yarn)
    times = 128 / (yarn.pixels.shape[1] * yarn.mm_per_px)
    paper.text((10, 34.4), f"the yarn in the middle, {times:.1f} times life size", _SMALL)
    _image(paper, (10, 36, 61, 61), wraps(answer, (61, 61), None, 900, look))
    times = times_shown(answer, knit_of(answer).fabric)
    piece = knitted_piece(answer, size_px=(1000, 1000), look=look)
    _image(paper, (77, 36, 61, 61), piece)
    _image(paper, (10, 101, 128, 26), whole_yarn(answer, 12, (1500, 304), look))
    paper.text((10, 98.6), "wraps from all along the yarn, life size", _SMALL)
    paper.text((77, 98.6), knitted_words(answer, times), _SMALL)
    _chips(paper, answer, 132)
    lines = [part for line in yarn_lines(answer) for part in wrap(line, _LINE_LETTERS)]
    top = 134 + 4.2 * ceil(min(len(_used(answer)), _MOST_CHIPS) / 3)
    for number, line in enumerate(lines[: int((A5_MM[1] - 8 - top) / _LINE_MM)]):
        paper.text((10, top + 2 + _LINE_MM * number), line, Pen(5.6))
    return paper.written(form, title, strip_alt(answer))


def comparison_sheet(
    plans: Sequence[tuple[str, Answer]],
    form: str = "png",
    look: ViewSettings = ViewSettings(),
    dpi: int = _DPI,
) -> bytes:
    """Return plans side by side: the same length to the same width, fabric at the same scale.

    Parameters
    ----------
    plans : sequence of (str, Answer)
        Two to six, each with what it is called: a scheme, a closing, an order.
    form : str
        png (300 dpi), pdf or svg.
    look : ViewSettings
        How the pictures are looked at.
    dpi : int
        Dots to the inch of its pictures.

    Raises
    ------
    ValueError
        For fewer than one plan, or more than six.
    """
    if not 1 <= len(plans) <= MOST_COMPARED:
        raise ValueError(f"compare 1 to {MOST_COMPARED} plans, not {len(plans)}")
    row_mm, longest_m = 44.0, max(answer.layout.stretches.yarn_m for _, answer in plans)
    sides = [_piece_mm(answer) for _, answer in plans]
    scale = min(min(56 / wide, 38 / high) for wide, high in sides)
    times = max(times_shown(answer, knit_of(answer).fabric) for _, answer in plans)
    paper = Paper((210.0, 12 + row_mm * len(plans)), dpi)
    for number, (name, answer) in enumerate(plans):
        top = 6 + row_mm * number
        lengths = _ROWS * answer.layout.stretches.yarn_m / longest_m
        rows = max(1, ceil(lengths - 1e-9))
        wide = max(lengths / rows, 0.02)
        paper.text((10, top + 3), cut(name, 118, Pen(10)), Pen(10, bold=True))
        _about(paper, (10, top + 8), strip_alt(answer))
        picture = whole_yarn(answer, rows, (round(1400 * wide), 40 * rows), look)
        _image(paper, (10, top + 11, 128 * wide, 3.6 * rows), picture)
        piece_mm = [side * scale for side in sides[number]]
        size = (max(round(16 * piece_mm[0]), 16), max(round(16 * piece_mm[1]), 16))
        knit = knitted_piece(answer, size_px=size, look=look, times=times)
        high, wide = (pixels * knit.mm_per_px * scale for pixels in knit.pixels.shape[:2])
        _image(paper, (144, top + 3, wide, high), knit)
        paper.text((144, top + 0.8), knitted_words(answer, times), _SMALL)
    paper.text((10, 9 + row_mm * len(plans)), _READ_SO, _SMALL)
    titles = " and ".join(name for name, _ in plans)
    return paper.written(form, titles, "; ".join(f"{n}: {strip_alt(f)}" for n, f in plans))


def _image(paper: Paper, box_mm: tuple[float, float, float, float], drawn: Rendered) -> None:
    paper.picture(Area(*box_mm), drawn.pixels)


def _chips(paper: Paper, answer: Answer, top_mm: float) -> None:
    """Put the lots that are used, with their names and grams, in columns."""
    used, own = used_g(answer.layout), _used(answer)
    for number, at in enumerate(own[:_MOST_CHIPS]):
        x, y = 10 + 43 * (number % 3), top_mm + 4.2 * (number // 3)
        paper.swatch(Area(x, y - 1.5, 4, 3), answer.palette.srgb[at])
        name = answer.plan.names[at]
        shown = name if fonts.has_glyphs(name) else f"lot {at + 1}"
        paper.text((x + 5.2, y), cut(shown, 26, Pen(6)), Pen(6))
        paper.text((x + 33, y), mass_in_short(used[at], answer.say.mass), Pen(6))
    if len(own) > _MOST_CHIPS:
        paper.text((10, top_mm + 34), f"and {len(own) - _MOST_CHIPS} more lots", Pen(6))


def mass_in_short(mass_g: float, mass: Measure) -> str:
    """Return what is used of a lot, as a sheet says it: with a tenth below ten grams.

    Parameters
    ----------
    mass_g : float
        Of the lot.
    mass : Measure
        What masses are said in.
    """
    return mass(mass_g, 0 if mass_g >= 10 else 1)


def _piece_mm(answer: Answer) -> tuple[float, float]:
    """Return how wide and how high a plan's knitted piece is."""
    knit, aspect, _ = knit_of(answer)
    stitch_mm = 100 / knit.gauge_stitches
    return float(knit.stitches.max()) * stitch_mm, knit.rows * stitch_mm * aspect


def _used(answer: Answer) -> list[int]:
    return [at for at, mass in enumerate(used_g(answer.layout)) if mass > 0]


def _about(paper: Paper, at_mm: tuple[float, float], text: str) -> None:
    """Write a yarn in words on one line over its pictures, smaller where it is long."""
    pen = fitting(text, 126, (Pen(6), Pen(5)))
    paper.text(at_mm, cut(text, 126, pen), pen)
