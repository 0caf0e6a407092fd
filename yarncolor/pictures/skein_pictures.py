"""Pictures of the yarn wound up: a twisted skein, a ball."""

from dataclasses import replace

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.guessed_thickness import about, metres_told
from yarncolor.errors import in_range
from yarncolor.phrases import counted
from yarncolor.pictures import fonts
from yarncolor.pictures.alt_text import whole_in_words
from yarncolor.pictures.ball_scenes import ball
from yarncolor.pictures.hank import hank
from yarncolor.pictures.shown_part import lots_between
from yarncolor.pictures.skein_scenes import skein
from yarncolor.pictures.skein_ties import tag_box
from yarncolor.pictures.strands import Twist
from yarncolor.pictures.view import Rendered, ViewSettings, checked_px, render
from yarncolor.pictures.yarn_geometry import yarn_geometry_of
from yarncolor.pictures.yarn_scenes import PictureScale
from yarncolor.said import Figure, said

NIDDY_NODDY_M = 1.5
_LETTERS, _LEAST_LETTERS_PX, _HOLE_ROOM, _INK = 0.125, 9, 0.36, 31.0
"""Of a tag: height of its letters over its own, and from how many pixels on they are written; room
for the hole; ink, of 255."""


def skein_of_yarn(
    answer: Answer,
    niddy_noddy_m: float = NIDDY_NODDY_M,
    size_px: tuple[int, int] = (1100, 300),
    look: ViewSettings = ViewSettings(),
) -> Rendered:
    """Return the yarn as a twisted skein from a niddy-noddy of so many metres a turn.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    niddy_noddy_m : float
        Metres of a turn, 0.2 to 5.
    size_px : (int, int)
        Width and height.
    look : ViewSettings
        How it is looked at.
    """
    yarn_m = answer.layout.stretches.yarn_m
    in_range("niddy_noddy_m", niddy_noddy_m, 0.2, 5, "m")
    wide, high = checked_px(size_px)
    yarn = answer.resolved.yarn
    size = PictureScale(wide, high, 1.0)
    thick_px = 2 * hank(yarn_m / niddy_noddy_m, size).strand_px
    size = replace(size, px_per_mm=thick_px / yarn.relaxed_diameter_mm)
    turns = yarn_geometry_of(yarn, usual_twist=True).turns_per_mm * yarn.relaxed_diameter_mm
    scene = skein(yarn_m, Twist(yarn.plies, turns), niddy_noddy_m, size)
    caption = said(
        "A twisted skein: {long} in {turns} of {round}. A drawing: how the colours fall in yours "
        "cannot be said beforehand.",
        long=Figure(metres_told(answer, yarn_m), "length"),
        turns=Figure(counted(yarn_m / niddy_noddy_m, "turn"), "turns"),
        round=Figure(answer.say.length.given(niddy_noddy_m), "shown"),
    )
    what = f"A twisted skein, tied and tagged. {whole_in_words(answer)}"
    lots = lots_between(answer, 0.0, yarn_m)
    drawn = render(answer, scene, look, (caption, what), lots)
    return drawn if look.distance_m > 0 else _tagged(drawn, answer, tag_box(size))


def ball_of_yarn(
    answer: Answer,
    start_outside: bool = False,
    size_px: tuple[int, int] = (640, 640),
    look: ViewSettings = ViewSettings(),
) -> Rendered:
    """Return the yarn wound into a ball: what was wound last lies outside.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    start_outside : bool
        Whether the end where plying began lies outside, as where a skein is wound from its far
        end; else that where it ended.
    size_px : (int, int)
        Width and height.
    look : ViewSettings
        How it is looked at.
    """
    yarn_m, yarn, long = answer.layout.stretches.yarn_m, answer.resolved.yarn, answer.say.length
    thick_mm = yarn.relaxed_diameter_mm
    turns = yarn_geometry_of(yarn, usual_twist=True).turns_per_mm * thick_mm
    twist = Twist(yarn.plies, turns)
    wound = ball(yarn_m, twist, thick_mm, checked_px(size_px), start_outside)
    ends = ("began", "ended") if start_outside else ("ended", "began")
    outside_m = min(wound.outside_m, yarn_m)
    reach_m = (0.0, outside_m) if start_outside else (yarn_m - outside_m, yarn_m)
    caption = said(
        "A ball of {long}, {about}{wide} wide, wound by hand. Outside lies the end where plying "
        f"{ends[0]}, inside that where it {ends[1]}; what is seen comes from {{outside}} next to "
        "the end outside.",
        long=Figure(metres_told(answer, yarn_m), "length"),
        about=about(answer),
        wide=Figure(answer.say.width(wound.wide_mm / 10, 0), "ball"),
        outside=Figure(long(outside_m, 0), "outside"),
    )
    what = f"A wound ball, the end outside where plying {ends[0]}. {whole_in_words(answer)}"
    return render(answer, wound.scene, look, (caption, what), lots_between(answer, *reach_m))


def _tagged(drawn: Rendered, answer: Answer, box: tuple[int, int, int, int]) -> Rendered:
    """Return a skein with the yarn's name, length and mass on its tag, where they can be read."""
    left, top, right, bottom = box
    letters_px = round((bottom - top) * _LETTERS)
    if letters_px < _LEAST_LETTERS_PX:
        return drawn
    laid = answer.layout
    told = (
        answer.plan.title,
        metres_told(laid, laid.stretches.yarn_m),
        answer.say.mass(float(laid.yarn_g), 0),
    )
    pixels, from_px = drawn.pixels.copy(), left + round((bottom - top) * _HOLE_ROOM)
    for line, text in enumerate(told):
        words, room_px, is_bold = fonts.drawable(text), right - 6 - from_px, line == 0
        own_px = letters_px
        while own_px > _LEAST_LETTERS_PX and fonts.width_px(words, own_px, is_bold) > room_px:
            own_px -= 1
        shown = fonts.fitted(words, room_px, own_px, is_bold)
        if not shown:
            continue
        mask = fonts.mask(shown, own_px, is_bold)
        at = top + round((bottom - top) * (line + 1) / (len(told) + 1)) - len(mask) // 2
        part = pixels[at : at + mask.shape[0], from_px : from_px + mask.shape[1]]
        share = (mask[: part.shape[0], : part.shape[1]] / fonts.LEVELS)[..., None]
        part[:] = np.rint(part * (1 - share) + _INK * share)
    return replace(drawn, pixels=pixels)
