"""A sheet of paper, measured in millimetres from its top left: the one door to matplotlib.

What is put on it stays text and shapes where the file can hold them; pictures are pixels.
"""

import io
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, Literal, NamedTuple

import numpy as np

from yarncolor import __version__
from yarncolor.pictures import fonts
from yarncolor.pictures.png import INK
from yarncolor.units import MM_PER_INCH

if TYPE_CHECKING:
    from matplotlib.text import Text

MM_PER_POINT = MM_PER_INCH / 72
_MEASURED_PX = 100
"""Size at which the width of a text is measured."""

_HALF_A_CAPITAL = 0.36
"""Half the height of a capital, in sizes of letters."""

_ON_DOTS = 1.025
"""How much wider a small text is where its letters are moved onto dots, at the most; by trial."""

_SANS, _SERIF = ("DejaVu Sans",), ("DejaVu Serif", "DejaVu Sans")
"""Letters, and those that stand in for what the first cannot write."""

Side = Literal["left", "center", "right"]


class Area(NamedTuple):
    """A part of a sheet, in millimetres from its top left."""

    left_mm: float
    top_mm: float
    wide_mm: float
    high_mm: float

    @property
    def right_mm(self) -> float:
        """Its right edge."""
        return self.left_mm + self.wide_mm

    @property
    def bottom_mm(self) -> float:
        """Its lower edge."""
        return self.top_mm + self.high_mm


class Pen(NamedTuple):
    """What a text is written with.

    Parameters
    ----------
    size_pt : float
        Of its letters.
    bold, serif : bool
        Whether they are bold; whether they have serifs.
    colour, halo : str
        CSS hex of them, and of what is about them; empty for nothing.
    """

    size_pt: float
    bold: bool = False
    serif: bool = False
    colour: str = INK
    halo: str = ""


class Paper:
    """A sheet that pictures, text and shapes are put on.

    Parameters
    ----------
    size_mm : (float, float)
        Width and height.
    dpi : float
        Dots to the inch of its pictures.
    colour : str
        CSS hex of the paper itself.
    """

    def __init__(self, size_mm: tuple[float, float], dpi: float, colour: str = "#ffffff") -> None:
        from matplotlib.backends.backend_agg import FigureCanvasAgg
        from matplotlib.figure import Figure
        from matplotlib.transforms import Affine2D

        self.wide_mm, self.high_mm = size_mm
        wide, high = (side / MM_PER_INCH for side in size_mm)
        self.figure = Figure(figsize=(wide, high), dpi=dpi, facecolor=colour)
        FigureCanvasAgg(self.figure)
        down = Affine2D().scale(1 / MM_PER_INCH, -1 / MM_PER_INCH).translate(0, high)
        self._mm = down + self.figure.dpi_scale_trans

    def pixels_of(self, box: Area) -> tuple[int, int]:
        """Return how many pixels wide and high a part of the paper is."""
        each = self.figure.dpi / MM_PER_INCH
        return max(round(box.wide_mm * each), 1), max(round(box.high_mm * each), 1)

    def dots(self, left_mm: float, top_mm: float, pixels: np.ndarray) -> Area:
        """Return the box in which each pixel of a picture is a dot of the paper.

        Parameters
        ----------
        left_mm, top_mm : float
            Where it is to be; it is moved onto whole dots.
        pixels : (height, width, 3) uint8 array
            Of the picture.
        """
        each, (high, wide) = MM_PER_INCH / self.figure.dpi, pixels.shape[:2]
        return Area(
            round(left_mm / each) * each, round(top_mm / each) * each, wide * each, high * each
        )

    def picture(self, box: Area, pixels: np.ndarray) -> None:
        """Put pixels into a box: from its top left, as large as fits whole.

        Parameters
        ----------
        box : Area
            Where.
        pixels : (height, width, 3) uint8 array
            Of the picture.
        """
        place = (
            box.left_mm / self.wide_mm,
            1 - box.bottom_mm / self.high_mm,
            box.wide_mm / self.wide_mm,
            box.high_mm / self.high_mm,
        )
        axes = self.figure.add_axes(place)
        axes.axis("off")
        axes.imshow(pixels, interpolation="antialiased", aspect="equal", resample=True)
        axes.set_anchor("NW")

    def text(self, at_mm: tuple[float, float], text: str, pen: Pen, side: Side = "left") -> "Text":
        """Put a line of text beside a point, the middle of its capitals as high as that.

        Parameters
        ----------
        at_mm : (float, float)
            The point.
        text : str
            One line; a sign in it is a sign and nothing else.
        pen : Pen
            Size and colour of its letters.
        side : Side
            Which of its sides is at the point: left, center or right.
        """
        from matplotlib.patheffects import withStroke

        x_mm, y_mm = at_mm
        written = self.figure.text(
            x_mm,
            y_mm + _HALF_A_CAPITAL * pen.size_pt * MM_PER_POINT,
            fonts.drawable(text),
            transform=self._mm,
            fontsize=pen.size_pt,
            color=pen.colour,
            weight="bold" if pen.bold else "normal",
            family=_SERIF if pen.serif else _SANS,
            ha=side,
            va="baseline",
            parse_math=False,
        )
        if pen.halo:
            about = withStroke(linewidth=pen.size_pt / 3, foreground=pen.halo)
            written.set_path_effects([about])
        return written

    def swatch(self, box: Area, colour: str, border: str = INK, border_pt: float = 0.4) -> None:
        """Put a field of one colour on the sheet, with a border.

        Parameters
        ----------
        box : Area
            Where.
        colour, border : str
            CSS hex.
        border_pt : float
            Width of the border; 0 for none.
        """
        from matplotlib.patches import Rectangle

        field = Rectangle((box.left_mm, box.top_mm), box.wide_mm, box.high_mm, transform=self._mm)
        field.set(facecolor=colour, edgecolor=border, linewidth=border_pt)
        self.figure.add_artist(field)

    def fields(
        self,
        corners_mm: np.ndarray,
        colours: Sequence[str],
        within_mm: np.ndarray | None = None,
    ) -> None:
        """Put fields without borders on the sheet, each over those before it.

        Parameters
        ----------
        corners_mm : (fields, corners, 2) array
            Of each field.
        colours : sequence of str
            CSS hex of each.
        within_mm : (windows, corners, 2) array, optional
            Windows through which alone the fields are seen; without, they are seen whole.
        """
        from matplotlib.collections import PolyCollection
        from matplotlib.path import Path

        shapes = PolyCollection(list(corners_mm), facecolors=list(colours), edgecolors="none")
        shapes.set(transform=self._mm, linewidth=0)
        self.figure.add_artist(shapes)
        if within_mm is not None:
            shapes.set_clip_path(Path.make_compound_path_from_polys(within_mm), self._mm)

    def line(
        self, from_mm: tuple[float, float], to_mm: tuple[float, float], colour: str, wide_pt: float
    ) -> None:
        """Put a line on the sheet.

        Parameters
        ----------
        from_mm, to_mm : (float, float)
            Its ends.
        colour : str
            CSS hex.
        wide_pt : float
            How wide it is.
        """
        from matplotlib.lines import Line2D

        drawn = Line2D(*zip(from_mm, to_mm, strict=True), transform=self._mm)
        drawn.set(color=colour, linewidth=wide_pt, solid_capstyle="butt")
        self.figure.add_artist(drawn)

    def written(self, form: str, title: str, alt: str) -> bytes:
        """Return the sheet as a file with its title and text alternative, the same every time.

        Parameters
        ----------
        form : str
            pdf, svg or png.
        title, alt : str
            What it is called; in words.
        """
        from matplotlib import rc_context

        stream = io.BytesIO()
        about: dict[str, Any] = {"Title": title}
        if form == "png":
            about |= {"Software": f"yarncolor {__version__}", "Description": alt}
        elif form == "pdf":
            about |= {"Creator": f"yarncolor {__version__}", "Subject": alt, "CreationDate": None}
        else:
            about |= {"Creator": f"yarncolor {__version__}", "Date": None, "Description": alt}
        with rc_context({"svg.hashsalt": "yarncolor", "svg.fonttype": "none", "pdf.fonttype": 42}):
            self.figure.savefig(stream, format=form, dpi=self.figure.dpi, metadata=about)
        return stream.getvalue()


def width_mm(text: str, pen: Pen) -> float:
    """Return how wide a line of text is on a sheet.

    Parameters
    ----------
    text : str
        One line.
    pen : Pen
        That it is written with.
    """
    return fonts.width_px(fonts.drawable(text), _MEASURED_PX, pen.bold, pen.serif) * _mm_per_px(pen)


def cut(text: str, room_mm: float, pen: Pen) -> str:
    """Return a text that fits, cut where it is too long.

    Parameters
    ----------
    text : str
        One line.
    room_mm : float
        Room for it.
    pen : Pen
        That it is written with.
    """
    return fonts.fitted(text, room_mm / _mm_per_px(pen), _MEASURED_PX, pen.bold, pen.serif)


def fitting(text: str, room_mm: float, pens: Sequence[Pen]) -> Pen:
    """Return the first pen with which a text fits whole, else the last.

    Parameters
    ----------
    text : str
        One line.
    room_mm : float
        Room for it.
    pens : sequence of Pen
        From the largest.
    """
    return next((pen for pen in pens if cut(text, room_mm, pen) == text), pens[-1])


def wrapped(text: str, room_mm: float, pen: Pen, most: int) -> list[str]:
    """Return a text in lines that fit, cut where there are more than may be.

    Parameters
    ----------
    text : str
        To be parted between words, and within one that is too long for a line.
    room_mm : float
        Room for each.
    pen : Pen
        That it is written with.
    most : int
        How many lines.
    """
    lines, rest = list[str](), " ".join(filter(None, text.split(" ")))
    while rest and len(lines) < most - 1:
        line = _first_line(rest, room_mm, pen)
        lines.append(line.rstrip())
        rest = rest[len(line) :]
    return [*lines, cut(rest, room_mm, pen)] if rest else lines


def _first_line(text: str, room_mm: float, pen: Pen) -> str:
    """Return as many whole words of a text as fit, else as many letters; at least one."""
    if width_mm(text, pen) <= room_mm:
        return text
    fits = max(len(cut(text, room_mm, pen)) - 1, 1)
    fits += width_mm(text[: fits + 1].rstrip(), pen) <= room_mm
    words = text[: fits + 1].rpartition(" ")[0]
    return f"{words} " if words else text[:fits]


def _mm_per_px(pen: Pen) -> float:
    return pen.size_pt * MM_PER_POINT / _MEASURED_PX * _ON_DOTS
