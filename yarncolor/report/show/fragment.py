"""What Jupyter displays and a script prints: pictures and HTML, each with its plain text."""

import io
from base64 import b64encode
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from yarncolor.measures import Measures
from yarncolor.report.show.asked import asked_together, at_heads, at_rows
from yarncolor.report.show.markup import Cell, Html, joined, paragraphs, table_html
from yarncolor.report.why.reason import NOT_ASKED, Whys
from yarncolor.report.why.seen import Seen

if TYPE_CHECKING:
    from PIL import Image

_COLOURS = 96
_CELL_CSS = "padding:0 .8em 0 0;text-align:left"


@dataclass(frozen=True)
class Picture:
    """A PNG with a text alternative; a notebook shows it, a screen reader reads it.

    Parameters
    ----------
    png : bytes
        The picture.
    alt : str
        The same in words.
    width_px : int
        As wide as it is shown.
    seen : tuple of Seen
        Figures of its words, each with its reason.
    """

    png: bytes
    alt: str
    width_px: int
    seen: tuple[Seen, ...] = ()

    def __repr__(self) -> str:
        return self.alt

    def _repr_mimebundle_(self, **_: Any) -> tuple[dict[str, str], dict[str, dict[str, Any]]]:
        image = b64encode(self.png).decode()
        about = {"alt": self.alt, "width": self.width_px}
        return {"image/png": image, "text/plain": self.alt}, {"image/png": about}


@dataclass(frozen=True)
class Fragment:
    """An HTML fragment whose names are escaped, a plain string from here, and the same as text."""

    html: str
    text: str

    def __post_init__(self) -> None:
        object.__setattr__(self, "html", str(self.html))

    def __repr__(self) -> str:
        return self.text

    def _repr_mimebundle_(self, **_: Any) -> dict[str, str]:
        return {"text/html": self.html, "text/plain": self.text}


def small_picture(image: "Image.Image", alt: str, seen: tuple[Seen, ...] = ()) -> Picture:
    """Return a picture in few colours, since a notebook keeps its pictures in itself.

    Parameters
    ----------
    image : Image
        The picture.
    alt : str
        The same in words.
    seen : tuple of Seen
        Figures of its words, each with its reason.
    """
    from PIL import Image

    few = image.quantize(_COLOURS, Image.Quantize.FASTOCTREE, dither=Image.Dither.NONE)
    stream = io.BytesIO()
    few.save(stream, "PNG", optimize=True)
    return Picture(stream.getvalue(), alt, image.width, seen)


def sentences(*texts: str) -> Fragment:
    """Return texts as paragraphs and as lines."""
    return Fragment(paragraphs(texts), "\n".join(texts))


def with_why(told: Fragment, seen: Sequence[Seen], about: str, measures: Measures) -> Fragment:
    """Return sentences with what tells why of their figures below them.

    Parameters
    ----------
    told : Fragment
        The sentences.
    seen : sequence of Seen
        Their figures.
    about : str
        What they are about.
    measures : Measures
        What the plan is said in.
    """
    return Fragment(joined((Html(told.html), asked_together(seen, about, measures))), told.text)


def table(
    caption: str, head: Iterable[str], rows: Sequence[tuple[str, ...]], whys: Whys = NOT_ASKED
) -> Fragment:
    """Return a table for a notebook, every text escaped, and the same as plain text.

    Parameters
    ----------
    caption : str
        What the table is.
    head : iterable of str
        Of each column.
    rows : sequence of tuple of str
        Each as long as the head.
    whys : Whys
        Reasons that figures of the table answer with when they are asked.
    """
    css = f"{_CELL_CSS};vertical-align:baseline" if whys.rows else _CELL_CSS
    cells = [[Cell(text, css) for text in row] for row in at_rows(rows, whys)]
    text = "\n".join("  ".join(filter(None, row)) for row in rows)
    return Fragment(table_html(at_heads(head, whys), cells, caption, _CELL_CSS), text)


def below(first: Fragment, second: Fragment) -> Fragment:
    """Return two fragments, the second below the first.

    Parameters
    ----------
    first, second : Fragment
        In that order.
    """
    return Fragment(f"{first.html}<br>{second.html}", f"{first.text}\n{second.text}")
