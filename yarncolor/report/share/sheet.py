"""A sheet to share: a portrait of the yarn, its strip, a piece of fabric, its lots by name.

Made to be posted, sent or pinned to a skein: the yarn runs across the whole sheet, and the sheet
takes its own quiet colours from the plan. What is written for oneself (purpose, notes, where
fibre comes from) stays at home.
"""

from typing import NamedTuple

from yarncolor.answers.answer import Answer
from yarncolor.errors import Fault, PlanError, quoted, suggestion
from yarncolor.phrases import title_of
from yarncolor.pictures.alt_text import strip_alt
from yarncolor.report.paper import MM_PER_POINT, Area, Paper, Pen, cut, fitting, wrapped
from yarncolor.report.share.lots import put_lots
from yarncolor.report.share.pictures import put_fabric, put_portrait
from yarncolor.report.share.strip import put_strip
from yarncolor.report.share.tones import Tones, tones
from yarncolor.report.share.words import facts
from yarncolor.units import MM_PER_INCH

_A5_MM, _HALF_LETTER_MM, _PICTURE_MM, _PICTURE_PX = (148, 210), (139.7, 215.9), (148, 185), 1600


class _Form(NamedTuple):
    """A kind of file, the size of its page, dots to the inch of its pictures."""

    kind: str
    size_mm: tuple[float, float]
    dpi: float


_FORMS = {
    "png": _Form("png", _PICTURE_MM, _PICTURE_PX / _PICTURE_MM[0] * MM_PER_INCH),
    "a5": _Form("pdf", _A5_MM, 300),
    "half-letter": _Form("pdf", _HALF_LETTER_MM, 300),
}
SHARE_FORMS = tuple(_FORMS)
"""What it can be: a picture of 1,600 by 2,000 pixels; a PDF in A5; a PDF of 5.5 by 8.5 inches."""

_MARGIN_MM, _LEADING = 12.0, 1.16
_TITLES = ((32, 1), (27, 1), (23, 1), (24, 2), (19, 2), (15, 3))
"""Sizes of a title in points, and on how many lines it may stand; the first that holds it whole."""


def share_sheet(answer: Answer, form: str = "png") -> bytes:
    """Return a sheet to share: portrait, strip, fabric, lots with their dye notes, title.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    form : str
        png: a picture of 1,600 by 2,000 pixels; a5: a PDF of 148 by 210 mm; half-letter: a PDF
        of 5.5 by 8.5 inches.

    Raises
    ------
    PlanError
        For a form that there is not.
    """
    sheet = share_paper(answer, form)
    title = title_of(answer.plan)
    return sheet.written(_FORMS[form].kind, title, f"{title}. {strip_alt(answer)}")


def share_paper(answer: Answer, form: str = "png", dpi: float | None = None) -> Paper:
    """Return the same sheet before it is a file, with all that stands on it.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    form : str
        png, a5 or half-letter.
    dpi : float, optional
        Dots to the inch of its pictures; by default as many as are usual for the form.

    Raises
    ------
    PlanError
        For a form that there is not.
    """
    if form not in _FORMS:
        remedy = f"give one of {', '.join(_FORMS)}{suggestion(str(form), SHARE_FORMS)}"
        raise PlanError([Fault("", "form", quoted(form), remedy)])
    _, size_mm, usual_dpi = _FORMS[form]
    own = tones(answer)
    paper = Paper(size_mm, dpi or usual_dpi, own.ground)
    inner = Area(
        _MARGIN_MM, _MARGIN_MM, paper.wide_mm - 2 * _MARGIN_MM, paper.high_mm - 2 * _MARGIN_MM
    )
    top = _put_head(paper, inner, answer, own)
    hero = Area(0, top + 0.8, paper.wide_mm, 0.205 * paper.high_mm + 5.4)
    put_portrait(paper, hero, answer, own)
    strip = Area(inner.left_mm, hero.bottom_mm + 0.8, inner.wide_mm, 0.06 * paper.high_mm + 15.5)
    put_strip(paper, strip, answer, own)
    low = strip.bottom_mm + 6.5
    below = Area(inner.left_mm, low, inner.wide_mm, inner.bottom_mm - low)
    put_lots(paper, put_fabric(paper, below, answer, own), answer, own)
    return paper


def _put_head(paper: Paper, inner: Area, answer: Answer, own: Tones) -> float:
    """Put title and facts at the head of the paper; return where they end."""
    pen, lines = _title(title_of(answer.plan), inner.wide_mm, own)
    line_mm, top = pen.size_pt * MM_PER_POINT * _LEADING, inner.top_mm
    for line in lines:
        paper.text((inner.left_mm, top + line_mm / 2), line, pen)
        top += line_mm
    said = " · ".join(facts(answer))
    small = fitting(said, inner.wide_mm, [Pen(size, colour=own.quiet) for size in (8.4, 7.6, 6.8)])
    paper.text((inner.left_mm, top + 3.2), cut(said, inner.wide_mm, small), small)
    return top + 5.4


def _title(title: str, room_mm: float, own: Tones) -> tuple[Pen, list[str]]:
    """Return a title in lines, and what it is written with: as large as it stands whole."""
    for size_pt, most in _TITLES:
        pen = Pen(size_pt, colour=own.ink, serif=True)
        lines = wrapped(title, room_mm, pen, most)
        if not lines[-1].endswith("…"):
            break
    return pen, lines
