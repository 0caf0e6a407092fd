"""Pictures and sheets of a plan, as a notebook shows them."""

import io
from collections.abc import Callable
from dataclasses import replace
from typing import Any

from PIL import Image

from yarncolor.answers.answer import Answer
from yarncolor.errors import Fault, PlanError, suggestion
from yarncolor.phrases import title_of
from yarncolor.pictures.as_knitted import knit_of, times_shown
from yarncolor.pictures.captions import with_caption
from yarncolor.pictures.catalogue import PICTURES
from yarncolor.pictures.fabric_pictures import stripe_heights
from yarncolor.report.share.sheet import share_sheet
from yarncolor.report.sheets import comparison_sheet, swatch_sheet
from yarncolor.report.show.fragment import Fragment, Picture, small_picture, table
from yarncolor.report.why.fabric import stripes_whys
from yarncolor.report.why.reason import NOT_ASKED

_SHOWN_PX, _SHEET_PX, _SHOWN_DPI = 1000, 620, 120
_MOST_ROWS = 100_000
_NEAR_ROW = 1e-5
"""A section begins in the row that it is so near to."""
_SMALLER: dict[str, dict[str, Any]] = {
    "portrait": {"size_px": (1200, 300)},
    "yarn": {"size_px": (1000, 170)},
    "whole": {"size_px": (1000, 520)},
    "wraps": {"size_px": 620},
    "skein": {"size_px": (900, 250)},
    "ball": {"size_px": (480, 480)},
    "knitted": {"size_px": (1000, 760)},
    "woven": {"size_px": (900, 560)},
}
"""Sizes in a notebook, which keeps its pictures in itself."""


def show_picture(answer: Answer, name: str, **options: Any) -> Picture:
    """Return one of a plan's pictures for a notebook, its lots named under it.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    name : str
        portrait, yarn, whole, wraps, skein, ball, knitted or woven.
    options : dict
        What that picture takes; see `yarncolor.pictures.catalogue`.

    Raises
    ------
    PlanError
        For a picture that there is not, or options that cannot be.
    """
    if name not in PICTURES:
        known = f"{suggestion(name, tuple(PICTURES)) or ''}; there are {', '.join(PICTURES)}"
        raise PlanError([Fault("", "picture", name, f"no picture has that name{known}")])
    drawn = PICTURES[name](answer, **_SMALLER.get(name, {}) | options)
    return small_picture(with_caption(answer, drawn), f"{drawn.alt} {drawn.caption}")


def show_stripes(
    answer: Answer, kind: str | None = None, most: int = 40, explained: bool = False
) -> Fragment:
    """Return how many rows each section of the yarn is high in the knitted piece.

    Where the plan has no piece of its own, they are those of a swatch that takes the whole yarn.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    kind : str, optional
        flat, round, triangle or garter; by default as in the plan.
    most : int
        How many sections at the most, from the cast-on.
    explained : bool
        Whether figures answer why.
    """
    knit = knit_of(answer, kind).fabric
    knit = replace(knit, rows=min(knit.rows * times_shown(answer, knit), _MOST_ROWS))
    stripes = _merged(stripe_heights(answer, knit))
    rows = [
        (
            colours,
            f"{int(first + _NEAR_ROW)}",
            f"{high:.1f}" if high >= 0.05 else "a few stitches",
        )
        for colours, first, high in stripes[:most]
    ]
    if len(stripes) > most:
        rows.append((f"and {len(stripes) - most} more sections", "", ""))
    head, whys = ("colours side by side", "from row", "rows"), NOT_ASKED
    if explained:
        whys = stripes_whys(answer)
    return table("stripes in the knitted piece", head, rows, whys)


def _merged(stripes: list[tuple[str, float, float]]) -> list[tuple[str, float, float]]:
    """Return stripes in which neighbours of the same colours are one."""
    joined: list[tuple[str, float, float]] = []
    for colours, first, rows in stripes:
        if joined and joined[-1][0] == colours:
            joined[-1] = (colours, joined[-1][1], joined[-1][2] + rows)
        else:
            joined.append((colours, first, rows))
    return joined


def show_sheet(answer: Answer, what: str = "to keep") -> Picture:
    """Return a sheet of a plan for a notebook.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    what : str
        to keep: the swatch sheet; to share: the one for others to look at.

    Raises
    ------
    PlanError
        For another sheet.
    """
    if what not in _SHEETS:
        known = f"{suggestion(what, tuple(_SHEETS))}; there are {', '.join(_SHEETS)}"
        raise PlanError([Fault("", "what", what, f"no sheet has that name{known}")])
    return _SHEETS[what](answer)


def _to_keep(answer: Answer) -> Picture:
    alt = f"Swatch sheet of {title_of(answer.plan)}: yarn, wraps, fabric, lots."
    return Picture(swatch_sheet(answer, "png", dpi=_SHOWN_DPI), alt, _SHEET_PX)


def _to_share(answer: Answer) -> Picture:
    image = Image.open(io.BytesIO(share_sheet(answer))).convert("RGB")
    alt = f"A sheet to share of {title_of(answer.plan)}: portrait, strip, fabric, lots by name."
    return small_picture(image.reduce(2), alt)


_SHEETS: dict[str, Callable[[Answer], Picture]] = {"to keep": _to_keep, "to share": _to_share}


def show_comparison(plans: dict[str, Answer]) -> Picture:
    """Return plans side by side for a notebook, each under what it is called."""
    alt = f"Side by side: {', '.join(plans)}."
    return Picture(comparison_sheet(list(plans.items()), dpi=_SHOWN_DPI), alt, _SHOWN_PX)
