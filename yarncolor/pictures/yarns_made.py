"""Yarns that were made: one as planned, as spun and as it came out, and many on one scale."""

from collections.abc import Sequence
from dataclasses import replace

from PIL import Image

from yarncolor.answers.answer import Answer, Preview
from yarncolor.pictures.page import legend_of, under_each_other
from yarncolor.pictures.side_by_side import Scale
from yarncolor.pictures.ways_on import Shown, named

READ_SO = (
    "Strips are read from left to right, from where plying begins, and a {metre} is equally long "
    "in all. Upper bands: each ply over the whole length; lowest band: the plied yarn."
)


def yarn_made(answer: Answer, width_px: int) -> Image.Image:
    """Return a yarn as planned, as spun and as it came out, under each other on one scale.

    Parameters
    ----------
    answer : Answer
        What follows from its plan, from what was spun and what was made.
    width_px : int
        Of the picture.
    """
    every = [_shown("as planned", answer.as_planned)]
    if answer.layout.wheel is not None:
        every.append(_shown("as spun", answer))
    if _made_m(answer) is not None:
        every.append(_shown("as it came out", as_made(answer)))
    return yarns_made(every, width_px)


def _shown(name: str, yarn: Preview) -> Shown:
    return Shown(name, yarn.say.long(yarn.layout.stretches.yarn_m), yarn)


def as_made(answer: Answer) -> Preview:
    """Return a yarn in its colours as spun, as long as it came out where that was measured.

    Which colours meet where was not measured: they are taken to lie as spun, over that length.
    """
    made_m, laid = _made_m(answer), answer.layout
    if made_m is None:
        return answer
    along = replace(laid.stretches, yarn_m=made_m)
    return Preview(replace(laid, stretches=along), answer.palette)


def _made_m(answer: Answer) -> float | None:
    return None if answer.plan.made is None else answer.plan.made.plied_m


def yarns_made(yarns: Sequence[Shown], width_px: int) -> Image.Image:
    """Return yarns under each other, named, a metre equally long in all.

    Parameters
    ----------
    yarns : sequence of Shown
        At least one.
    width_px : int
        Of the picture.
    """
    longest_m = max(shown.yarn.layout.stretches.yarn_m for shown in yarns)
    scale = Scale(width_px, longest_m, 1.0)
    parts = [named(shown, scale) for shown in yarns]
    read_so = READ_SO.format(metre=yarns[0].yarn.say.length.name)
    below = legend_of([shown.yarn for shown in yarns], read_so, width_px)
    return under_each_other(parts, below, ruled_off=True)
