"""Asking a sheet what stands on it: texts, pictures, swatches and bands, each with its place."""

from typing import NamedTuple

from matplotlib.patches import Rectangle

from yarncolor.report.paper import Paper

MM = 25.4


class Placed(NamedTuple):
    """What stands in a box, in millimetres from the top left."""

    what: str
    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other: "Placed", by_mm: float) -> bool:
        """Return whether two lie on each other by more than so much, across and down."""
        across = min(self.right, other.right) - max(self.left, other.left)
        down = min(self.bottom, other.bottom) - max(self.top, other.top)
        return across > by_mm and down > by_mm

    def holds(self, other: "Placed") -> bool:
        """Return whether the middle of another lies in it."""
        x, y = (other.left + other.right) / 2, (other.top + other.bottom) / 2
        return self.left <= x <= self.right and self.top <= y <= self.bottom


def placed(paper: Paper, artist, what: str) -> Placed:
    """Return where an artist of matplotlib stands."""
    figure = paper.figure
    high = figure.get_size_inches()[1] * figure.dpi
    box = artist.get_window_extent(figure.canvas.get_renderer())
    mm = MM / figure.dpi
    return Placed(what, box.x0 * mm, (high - box.y1) * mm, box.x1 * mm, (high - box.y0) * mm)


def texts(paper: Paper) -> list[Placed]:
    return [placed(paper, one, one.get_text()) for one in paper.figure.texts]


def pictures(paper: Paper) -> list[Placed]:
    return [placed(paper, one, "picture") for one in paper.figure.axes]


def rectangles(paper: Paper) -> tuple[list[Placed], list[Placed]]:
    """Return the swatches of a sheet by their colour, and the borders of its bands."""
    found = [one for one in paper.figure.artists if isinstance(one, Rectangle)]
    filled = [one for one in found if one.get_facecolor()[3] > 0]
    borders = [one for one in found if one.get_facecolor()[3] == 0]
    return (
        [placed(paper, one, _hex(one)) for one in filled],
        [placed(paper, one, "band") for one in borders],
    )


def _hex(patch: Rectangle) -> str:
    return "#" + "".join(f"{round(level * 255):02x}" for level in patch.get_facecolor()[:3])
