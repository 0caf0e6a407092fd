"""HTML whose texts are escaped by construction: the one way to it for notebooks and pages.

A text that joins or fills an `Html` is escaped; an `Html` is not escaped again. A template is a
literal in the code: `Html("<p>{}</p>").format(text)`.
"""

import html
from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from yarncolor.colour.srgb import label_ink
from yarncolor.phrases import isolated

_COLLAPSED = "border-collapse:collapse"


class Html(Markup):
    """HTML; texts that come into it are escaped as the standard library does it."""

    @classmethod
    def escape(cls, s: object, /) -> "Html":
        """Return a text escaped, its words from the right by themselves; and HTML as it is."""
        return cls(s if isinstance(s, Markup) else html.escape(isolated(str(s))))


@dataclass(frozen=True)
class Cell:
    """A cell of a table: a text, and its look as CSS."""

    text: str
    css: str = ""


def joined(parts: Iterable[str]) -> Html:
    """Return parts one after the other; those that are no HTML are escaped."""
    return Html("").join(parts)


def paragraphs(texts: Iterable[str]) -> Html:
    """Return texts as paragraphs."""
    return joined(_element("p", text) for text in texts)


def items(parts: Iterable[str]) -> Html:
    """Return parts as items of a list."""
    return joined(_element("li", part) for part in parts)


def table_html(
    head: Iterable[str],
    rows: Iterable[Iterable[Cell]],
    caption: str = "",
    head_css: str = "",
    css: str = _COLLAPSED,
) -> Html:
    """Return a table.

    Parameters
    ----------
    head : iterable of str
        Of each column.
    rows : iterable of iterable of Cell
        Each as long as the head.
    caption : str
        What the table is; none where it is empty.
    head_css, css : str
        Look of the head's cells, and of the table.
    """
    words = joined(_element("th", word, head_css, ' scope="col"') for word in head)
    lines = joined(
        _element("tr", joined(_element("td", cell.text, cell.css) for cell in row)) for row in rows
    )
    named = _element("caption", _element("b", caption), "text-align:left") if caption else ""
    parts = (named, _element("thead", _element("tr", words)), _element("tbody", lines))
    return _element("table", joined(parts), css)


def on_colour(colour: str) -> str:
    """Return the look, as CSS, of a text that stands on a colour given as CSS hex."""
    return f"background:{colour};color:{label_ink(colour)}"


def named_colours(colours: Iterable[tuple[str, str]], what: str) -> Html:
    """Return colours with their names as a list in HTML, beside one another while there is room.

    Parameters
    ----------
    colours : iterable of (str, str)
        CSS colour and name of each.
    what : str
        What the list is, for a screen reader.
    """
    chip = "display:inline-block;width:1em;height:1em;border:1px solid currentColor;"
    each = Html('<span style="{}background:{}"></span> {}')
    look = "display:flex;flex-wrap:wrap;gap:.3em 1.2em;list-style:none;padding:0;margin:.3em 0"
    named = items(each.format(chip, colour, name) for colour, name in colours)
    return Html('<ul aria-label="{}" style="{}">{}</ul>').format(what, look, named)


def _element(tag: str, inside: str, css: str = "", more: str = "") -> Html:
    """Return an element; written out, since a table has hundreds of them."""
    style = f' style="{html.escape(css)}"' if css else ""
    return Html(f"<{tag}{more}{style}>{Html.escape(inside)}</{tag}>")
