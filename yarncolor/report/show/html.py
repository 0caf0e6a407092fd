"""Answers as a notebook shows them: pictures with a text alternative, tables with escaped names."""

import io
from base64 import b64encode
from collections.abc import Iterable
from dataclasses import dataclass
from html import escape
from typing import TYPE_CHECKING, Any

from yarncolor.answers.answer import Answer
from yarncolor.answers.fibre import used_of_lots_g
from yarncolor.colour.srgb import label_ink
from yarncolor.phrases import grams
from yarncolor.pictures.alt_text import strip_alt
from yarncolor.pictures.strip import strip_png
from yarncolor.report.advice import Way, advice_on
from yarncolor.report.summary import weigh_out_text
from yarncolor.report.weigh_out_words import batt_words, hand_words, heap_words, lost_lines
from yarncolor.report.yarn_lines import yarn_lines

if TYPE_CHECKING:
    from PIL import Image

_COLOURS = 96
_CELL = 'style="padding:0 .8em 0 0;text-align:left"'


@dataclass(frozen=True)
class Picture:
    """A PNG with a text alternative; a notebook shows it, a screen reader reads it."""

    png: bytes
    alt: str
    width_px: int

    def __repr__(self) -> str:
        return self.alt

    def _repr_mimebundle_(self, **_: Any) -> tuple[dict, dict]:
        image = b64encode(self.png).decode()
        about = {"alt": self.alt, "width": self.width_px}
        return {"image/png": image, "text/plain": self.alt}, {"image/png": about}


@dataclass(frozen=True)
class Fragment:
    """An HTML fragment whose names are escaped, and the same as plain text."""

    html: str
    text: str

    def __repr__(self) -> str:
        return self.text

    def _repr_mimebundle_(self, **_: Any) -> dict:
        return {"text/html": self.html, "text/plain": self.text}


def named_colours(colours: Iterable[tuple[str, str]], what: str) -> str:
    """Return colours with their names as a list in HTML, beside one another while there is room.

    Parameters
    ----------
    colours : iterable of (str, str)
        CSS colour and name of each.
    what : str
        What the list is, for a screen reader.
    """
    chip = "display:inline-block;width:1em;height:1em;border:1px solid currentColor;"
    items = "".join(
        f'<li><span style="{chip}background:{colour}"></span> {escape(name)}</li>'
        for colour, name in colours
    )
    look = "display:flex;flex-wrap:wrap;gap:.3em 1.2em;list-style:none;padding:0;margin:.3em 0"
    return f'<ul aria-label="{escape(what)}" style="{look}">{items}</ul>'


def small_picture(image: "Image.Image", alt: str) -> Picture:
    """Return a picture in few colours, since a notebook keeps its pictures in itself."""
    from PIL import Image

    few = image.quantize(_COLOURS, Image.Quantize.FASTOCTREE, dither=0)
    stream = io.BytesIO()
    few.save(stream, "PNG", optimize=True)
    return Picture(stream.getvalue(), alt, image.width)


def table(caption: str, head: Iterable[str], rows: list[tuple[str, ...]]) -> Fragment:
    """Return a table for a notebook, every text escaped, and the same as plain text."""
    cells = [
        f"<tr>{''.join(f'<td {_CELL}>{escape(cell)}</td>' for cell in row)}</tr>" for row in rows
    ]
    html = _table(escape(caption), map(escape, head), cells, _CELL)
    return Fragment(html, "\n".join("  ".join(filter(None, row)) for row in rows))


def show_strip(answer: Answer, width_px: int = 1200, height_px: int = 360) -> Picture:
    """Return the overview strip for a notebook."""
    return Picture(strip_png(answer, width_px, height_px), strip_alt(answer), width_px)


def show_stash(answer: Answer) -> Fragment:
    """Return the lots for a notebook: name on its colour, grams, kept back, used, notes."""
    used = used_of_lots_g(answer)
    rows, lines = [], []
    for at, lot in enumerate(answer.plan.lots):
        cells = (
            f"{lot.mass_g:.1f} g",
            f"{lot.reserve_g:.1f} g" if lot.reserve_g else "",
            f"{used[at]:.1f} g",
            lot.note,
        )
        rows.append(_row(answer, at, cells, False))
        lines.append("  ".join((lot.name, *filter(None, cells))))
    table = _table("the stash", ("lot", "grams", "kept back", "used", "note"), rows)
    return Fragment(table, "\n".join(lines))


def show_batts(answer: Answer) -> Fragment:
    """Return what is carded together first; empty where nothing is."""
    rows = batt_words(answer)
    if not rows:
        return Fragment("", "")
    return table("to card together first", ("batt", "of"), rows)


def show_yarn(answer: Answer) -> Fragment:
    """Return the yarn in a few sentences for a notebook."""
    lines = list(yarn_lines(answer))
    return Fragment("".join(f"<p>{escape(line)}</p>" for line in lines), "\n".join(lines))


def show_advice(answer: Answer) -> Fragment:
    """Return the advice for a notebook, worst first; each way to mend something on its line."""
    told = advice_on(answer)
    if not told:
        return Fragment("<p>Nothing to mend.</p>", "Nothing to mend.")
    items = "".join(f"<li>{escape(item.lead)}{_ways(item.ways)}</li>" for item in told)
    return Fragment(f"<ol>{items}</ol>", "\n".join(item.text for item in told))


def _ways(ways: tuple[Way, ...]) -> str:
    items = "".join(f"<li><b>{escape(way.choice)}</b>: {escape(way.cost)}</li>" for way in ways)
    return f'<ol type="a">{items}</ol>' if ways else ""


def show_weigh_out(answer: Answer) -> Fragment:
    """Return the order for each bobbin for a notebook: chip, name, grams, words, running total."""
    tables = "".join(_bobbin(answer, k) for k in range(len(answer.resolved.tex)))
    lost = "".join(f"<p>{escape(line)}</p>" for line in lost_lines(answer))
    flow = "display:flex;flex-wrap:wrap;gap:1.5em;align-items:flex-start"
    return Fragment(f'{lost}<div style="{flow}">{tables}</div>', weigh_out_text(answer))


def _bobbin(answer: Answer, k: int) -> str:
    single, step = answer.weigh_out[k], answer.resolved.step_g
    rows = []
    for row in single.rows:
        cells = ("", "a piece of the heap", "")
        if row.weigh_g is not None:
            mass, total = grams(row.weigh_g, step), grams(row.running_g, step)
            cells = (f"{mass} g", hand_words(row.by_hand), f"{total} g")
        rows.append(_row(answer, row.lot, cells, row.begins_repeat))
    for heap in single.heaps:
        mass = "" if heap.is_pinch else f"{grams(heap.weigh_g, step)} g"
        rows.append(_row(answer, heap.lot, (mass, f"heap: {heap_words(heap)}", ""), False))
    caption = f"bobbin {k + 1} of {len(answer.resolved.tex)}, in spinning order"
    return _table(caption, ("lot", "weigh", "by hand", "so far"), rows)


def _table(caption: str, head: Iterable[str], rows: list[str], style: str = "") -> str:
    column = f'<th scope="col" {style}'.strip()
    words = "".join(f"{column}>{word}</th>" for word in head)
    return (
        f'<table style="border-collapse:collapse"><caption style="text-align:left">'
        f"<b>{caption}</b></caption>"
        f"<thead><tr>{words}</tr></thead><tbody>{''.join(rows)}</tbody></table>"
    )


def _row(answer: Answer, lot: int, cells: tuple[str, ...], new_repeat: bool) -> str:
    colour = answer.palette.srgb[lot]
    rule = "border-top:2px solid currentColor;" if new_repeat else ""
    chip = f"background:{colour};color:{label_ink(colour)};padding:0 .5em;text-align:left"
    name = f'<td style="{rule}{chip}">{escape(answer.plan.names[lot])}</td>'
    return f"<tr>{name}{''.join(_cell(cell, rule) for cell in cells)}</tr>"


def _cell(text: str, rule: str) -> str:
    side = "right" if text.endswith(" g") else "left"
    return f'<td style="{rule}padding:0 .5em;text-align:{side}">{escape(text)}</td>'
