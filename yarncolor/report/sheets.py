"""Sheets: a swatch sheet in A5 for the record, and plans side by side on one scale.

Rendered with matplotlib, so that text is text and the PDF prints sharp at any size.
"""

import io
from collections.abc import Sequence
from math import ceil
from textwrap import wrap
from typing import TYPE_CHECKING, Any

from yarncolor import __version__
from yarncolor.answers.answer import Answer
from yarncolor.layout.layout import used_g
from yarncolor.measures import Measure
from yarncolor.phrases import title_of
from yarncolor.pictures import fonts
from yarncolor.pictures.alt_text import strip_alt
from yarncolor.pictures.as_knitted import each_stands, knit_of, times_shown
from yarncolor.pictures.fabric_pictures import knitted_piece
from yarncolor.pictures.png import INK
from yarncolor.pictures.view import Rendered, ViewSettings
from yarncolor.pictures.yarn_pictures import whole_yarn, wraps, yarn_at
from yarncolor.report.yarn_lines import yarn_lines
from yarncolor.units import MM_PER_INCH

if TYPE_CHECKING:
    from matplotlib.figure import Figure

A5_MM = (148.0, 210.0)
_DPI = 300
_MEASURED_PX = 100
"""Size at which the width of a text is measured."""

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
    figure = _figure(A5_MM, dpi)
    title = title_of(answer.plan)
    size_pt = _size_pt(title, 108, (13, 9))
    _text(figure, (10, 9), _cut(title, 108, size_pt), size_pt, bold=True)
    _about(figure, (10, 15), strip_alt(answer))
    longest_m = answer.layout.stretches.yarn_m
    yarn = yarn_at(answer, longest_m / 2, 40, (1500, 164), look)
    _image(figure, (10, 19, 128, 14), yarn)
    times = 128 / (yarn.pixels.shape[1] * yarn.mm_per_px)
    _text(figure, (10, 34.4), f"the yarn in the middle, {times:.1f} times life size", 5.5)
    _image(figure, (10, 36, 61, 61), wraps(answer, (61, 61), None, 900, look))
    times = times_shown(answer, knit_of(answer).fabric)
    piece = knitted_piece(answer, size_px=(1000, 1000), look=look)
    _image(figure, (77, 36, 61, 61), piece)
    _image(figure, (10, 101, 128, 26), whole_yarn(answer, 12, (1500, 304), look))
    _text(figure, (10, 98.6), "wraps from all along the yarn, life size", 5.5)
    _text(figure, (77, 98.6), _knitted(answer, times), 5.5)
    _chips(figure, answer, 132)
    lines = [part for line in yarn_lines(answer) for part in wrap(line, _LINE_LETTERS)]
    top = 134 + 4.2 * ceil(min(len(_used(answer)), _MOST_CHIPS) / 3)
    for number, line in enumerate(lines[: int((A5_MM[1] - 8 - top) / _LINE_MM)]):
        _text(figure, (10, top + 2 + _LINE_MM * number), line, 5.6)
    return _bytes(figure, form, title, strip_alt(answer))


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
    figure = _figure((210.0, 12 + row_mm * len(plans)), dpi)
    for number, (name, answer) in enumerate(plans):
        top = 6 + row_mm * number
        lengths = _ROWS * answer.layout.stretches.yarn_m / longest_m
        rows = max(1, ceil(lengths - 1e-9))
        wide = max(lengths / rows, 0.02)
        _text(figure, (10, top + 3), _cut(name, 118, 10), 10, bold=True)
        _about(figure, (10, top + 8), strip_alt(answer))
        picture = whole_yarn(answer, rows, (round(1400 * wide), 40 * rows), look)
        _image(figure, (10, top + 11, 128 * wide, 3.6 * rows), picture)
        piece_mm = [side * scale for side in sides[number]]
        size = (max(round(16 * piece_mm[0]), 16), max(round(16 * piece_mm[1]), 16))
        knit = knitted_piece(answer, size_px=size, look=look, times=times)
        high, wide = (pixels * knit.mm_per_px * scale for pixels in knit.pixels.shape[:2])
        _image(figure, (144, top + 3, wide, high), knit)
        _text(figure, (144, top + 0.8), _knitted(answer, times), 5.5)
    _text(figure, (10, 9 + row_mm * len(plans)), _READ_SO, 5.5)
    titles = " and ".join(name for name, _ in plans)
    return _bytes(figure, form, titles, "; ".join(f"{n}: {strip_alt(f)}" for n, f in plans))


def _figure(size_mm: tuple[float, float], dpi: int) -> "Figure":
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    wide, high = (side / MM_PER_INCH for side in size_mm)
    figure = Figure(figsize=(wide, high), dpi=dpi)
    FigureCanvasAgg(figure)
    return figure


def _image(figure: "Figure", box_mm: tuple[float, float, float, float], drawn: Rendered) -> None:
    """Put a picture into a box given by its left, top, width and height in mm."""
    left, top, wide, high = box_mm
    page_wide, page_high = (side * MM_PER_INCH for side in figure.get_size_inches())
    place = (left / page_wide, 1 - (top + high) / page_high, wide / page_wide, high / page_high)
    axes = figure.add_axes(place)
    axes.axis("off")
    axes.imshow(drawn.pixels, interpolation="antialiased", aspect="equal", resample=True)
    axes.set_anchor("NW")


def _text(
    figure: "Figure", at_mm: tuple[float, float], text: str, size_pt: float, *, bold: bool = False
) -> None:
    page_wide, page_high = (side * MM_PER_INCH for side in figure.get_size_inches())
    figure.text(
        at_mm[0] / page_wide,
        1 - at_mm[1] / page_high,
        fonts.drawable(text),
        fontsize=size_pt,
        color=INK,
        weight="bold" if bold else "normal",
        va="center",
        parse_math=False,
    )


def _chips(figure: "Figure", answer: Answer, top_mm: float) -> None:
    """Put the lots that are used, with their names and grams, in columns."""
    from matplotlib.patches import Rectangle

    used, own = used_g(answer.layout), _used(answer)
    page_wide, page_high = (side * MM_PER_INCH for side in figure.get_size_inches())
    for number, at in enumerate(own[:_MOST_CHIPS]):
        x, y = 10 + 43 * (number % 3), top_mm + 4.2 * (number // 3)
        corner = (x / page_wide, 1 - (y + 1.5) / page_high)
        size = (4 / page_wide, 3 / page_high)
        chip = Rectangle(
            corner, *size, transform=figure.transFigure, facecolor=answer.palette.srgb[at]
        )
        chip.set(edgecolor=INK, linewidth=0.4)
        figure.add_artist(chip)
        name = answer.plan.names[at]
        shown = name if fonts.has_glyphs(name) else f"lot {at + 1}"
        _text(figure, (x + 5.2, y), _cut(shown, 26, 6), 6)
        _text(figure, (x + 33, y), _grams(used[at], answer.say.mass), 6)
    if len(own) > _MOST_CHIPS:
        _text(figure, (10, top_mm + 34), f"and {len(own) - _MOST_CHIPS} more lots", 6)


def _grams(mass_g: float, mass: Measure) -> str:
    return mass(mass_g, 0 if mass_g >= 10 else 1)


def _piece_mm(answer: Answer) -> tuple[float, float]:
    """Return how wide and how high a plan's knitted piece is."""
    knit, aspect, _ = knit_of(answer)
    stitch_mm = 100 / knit.gauge_stitches
    return float(knit.stitches.max()) * stitch_mm, knit.rows * stitch_mm * aspect


def _knitted(answer: Answer, times: int) -> str:
    """Return which way a plan's piece is knitted, and for how many a row on its picture stands."""
    knit = knit_of(answer).fabric
    way = "downwards" if knit.kind == "triangle" else "upwards"
    if times > 1:
        return f"knitted {way}: the whole yarn{each_stands(knit, times)}"
    return f"knitted {way}, from the beginning of the yarn"


def _used(answer: Answer) -> list[int]:
    return [at for at, mass in enumerate(used_g(answer.layout)) if mass > 0]


def _about(figure: "Figure", at_mm: tuple[float, float], text: str) -> None:
    """Write a yarn in words on one line over its pictures, smaller where it is long."""
    size_pt = _size_pt(text, 126, (6, 5))
    _text(figure, at_mm, _cut(text, 126, size_pt), size_pt)


def _size_pt(text: str, room_mm: float, sizes_pt: tuple[float, ...]) -> float:
    """Return the first size in which a text fits whole, else the last."""
    return next((size for size in sizes_pt if _cut(text, room_mm, size) == text), sizes_pt[-1])


def _cut(text: str, room_mm: float, size_pt: float) -> str:
    """Return a text that fits, cut where it is too long."""
    mm_per_px = size_pt * MM_PER_INCH / 72 / _MEASURED_PX
    return fonts.fitted(text, room_mm / mm_per_px, _MEASURED_PX)


def _bytes(figure: "Figure", form: str, title: str, alt: str) -> bytes:
    """Return a figure as a file with its title and text alternative; the same again every time."""
    from matplotlib import rc_context

    stream = io.BytesIO()
    about: dict[str, Any] = {"Title": title}
    if form == "png":
        about |= {"Software": f"yarncolor {__version__}", "Description": alt}
    elif form == "pdf":
        about |= {"Creator": f"yarncolor {__version__}", "Subject": alt, "CreationDate": None}
    else:
        about |= {"Creator": f"yarncolor {__version__}", "Date": None, "Description": alt}
    with rc_context({"svg.hashsalt": "yarncolor", "svg.fonttype": "none"}):
        figure.savefig(stream, format=form, dpi=figure.dpi, metadata=about)
    return stream.getvalue()
