"""A portrait of the yarn, fibre by fibre: a short length of it, as near as under a glass.

What is drawn is the plan's: plies, their angles and turns, thickness, direction, colours and joins,
how even the hands spin, how the fibre was prepared.
"""

from dataclasses import dataclass, replace
from math import atan, degrees
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from yarncolor.answers.answer import Answer, seen_as
from yarncolor.answers.guessed_thickness import length_hangs
from yarncolor.colour.csf_filter import srgb_from_afar
from yarncolor.colour.srgb import coded, linear
from yarncolor.errors import in_range
from yarncolor.layout.layout import in_words
from yarncolor.layout.stretches import longest_of_most_colours
from yarncolor.pictures.painting import Paint
from yarncolor.pictures.portrait_colours import combed_of, light_of_fibres, light_of_hairs
from yarncolor.pictures.portrait_fibres import Fibres, Floats, fibres_of
from yarncolor.pictures.portrait_hairs import hairs_of, painted_hairs
from yarncolor.pictures.portrait_light import Lit, on_fibres, round_ply, shadow, within_white
from yarncolor.pictures.portrait_seen import FINER, NONE, Seen, seen_of
from yarncolor.pictures.scene import FIXED_SRGB, PAPER
from yarncolor.pictures.shown_part import lots_between
from yarncolor.pictures.thick_and_thin import yarn_thickness_at
from yarncolor.pictures.view import Raster, Rendered, ViewSettings, checked_px, worded
from yarncolor.pictures.yarn_geometry import YarnGeometry, yarn_geometry_of
from yarncolor.said import Figure, said

SHORTEST_MM, LONGEST_MM = 2.0, 80.0
"""Of yarn in a portrait."""

_FILLED = 0.62
_LIGHT, _HAIR_MM = 0.80, 0.021
"""How light the yarn is on the mean, over its colours, as in the plain picture; width of a hair."""


@dataclass(frozen=True)
class _Glass:
    """What is looked at: pixels, scale, metre at the left edge, unevenness."""

    wide: int
    high: int
    px_per_mm: float
    from_m: float
    paint: Paint

    @property
    def x_mm(self) -> Floats:
        return ((np.arange(self.wide) + 0.5) / self.px_per_mm).astype(np.float32)

    @property
    def metre(self) -> NDArray[np.float64]:
        return np.asarray(self.from_m + self.x_mm.astype(float) / 1000)


def portrait(
    answer: Answer,
    from_m: float | None = None,
    length_mm: float = 14.0,
    size_px: tuple[int, int] = (2400, 480),
    look: ViewSettings = ViewSettings(),
) -> Rendered:
    """Return a short length of the yarn, fibre by fibre.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    from_m : float, optional
        Metre at the left edge, from the start of plying; by default where most colours meet.
    length_mm : float
        How much of the yarn is seen, 2 to 80; more where it would not fit in height.
    size_px : (int, int)
        Width and height.
    look : ViewSettings
        How it is looked at; the seed of its unevenness is that of the fibres too.

    Raises
    ------
    PlanError
        For a place beyond the yarn's end, or a size that cannot be.
    """
    along = answer.layout.stretches
    from_m = _liveliest_m(answer) if from_m is None else from_m
    in_range("from_m", from_m, 0, along.yarn_m, "m")
    in_range("length_mm", length_mm, SHORTEST_MM, LONGEST_MM, "mm")
    wide, high = checked_px(size_px)
    px_per_mm = min(wide / length_mm, _FILLED * high / answer.resolved.yarn.relaxed_diameter_mm)
    length_mm = wide / px_per_mm
    seen = answer if look.view == "as it is" else seen_as(answer, look.view, look.severity)
    light = _light(seen, _Glass(wide, high, px_per_mm, from_m, look.paint))
    pixels = np.rint(255 * coded(np.clip(light, 0, 1))).astype(np.uint8)
    if look.distance_m > 0:
        each = np.arange(wide * high).reshape(high, wide)
        apart = degrees(atan(1 / px_per_mm / 1000 / look.distance_m))
        pixels = srgb_from_afar(each, pixels.reshape(-1, 3), apart)
    measures = answer.say
    caption = said(
        f"{'{shown} of the yarn from {place} on' if from_m else 'The first {shown} of the yarn'}, "
        "fibre by fibre; it is {long} long{hangs}.",
        shown=Figure(measures.thickness(length_mm, 0), "shown"),
        place=Figure(measures.length(from_m, 2), "from"),
        long=Figure(measures.long(along.yarn_m), "length"),
        hangs=Figure(length_hangs(answer), "single"),
    )
    words = (caption, f"The yarn, fibre by fibre: {in_words(answer.layout)}")
    lots = lots_between(answer, from_m, min(from_m + length_mm / 1000, along.yarn_m))
    return worded(seen, look, words, lots, Raster(pixels, 1 / px_per_mm))


def _liveliest_m(answer: Answer) -> float:
    """Return the middle of the longest part in which most colours lie side by side."""
    along = answer.layout.stretches
    at = longest_of_most_colours(along.edges_ppb, along.lot)
    return float(along.edges_m[at : at + 2].mean())


def _light(answer: Answer, glass: _Glass) -> Floats:
    """Return linear light of every pixel: (height, width, 3)."""
    rope = yarn_geometry_of(answer.resolved.yarn, usual_twist=True)
    rope = replace(rope, phase=rope.phase + glass.from_m * 1000 * rope.turns_per_mm % 1)
    rng = np.random.default_rng((glass.paint.seed, round(glass.from_m * 1000)))
    combed = combed_of(answer, glass.metre)
    thick = yarn_thickness_at(answer.layout, glass.metre)
    even = np.ones(glass.wide) if thick is None else thick
    thickness = even.astype(np.float32)
    body = _body(answer, fibres_of(rope, glass.x_mm, thickness, combed, rng), rope, glass)
    reach_mm = max(answer.resolved.yarn.relaxed_diameter_mm - rope.envelope_mm, 0.0) / 2
    hairs = hairs_of(rope, glass.x_mm, reach_mm, 1 - combed * 0.9, rng)
    end_mm = (answer.layout.stretches.yarn_m - glass.from_m) * 1000
    hairs = hairs.rooted_in(-glass.from_m * 1000, end_mm)
    root_m = glass.from_m + hairs.x_mm[:, 0] / 1000
    own = light_of_hairs(answer, hairs.ply, root_m, glass.paint) * _LIGHT
    layer = painted_hairs(hairs, own, body.nearest_mm, glass.px_per_mm, _HAIR_MM)
    cover = layer.cover[..., None]
    light: Floats = body.light * (1 - cover) + layer.light * cover
    return light


class _Body(NamedTuple):
    """The yarn without its hairs: linear light (height, width, 3), and how near it is."""

    light: Floats
    nearest_mm: Floats


def _body(answer: Answer, fibres: Fibres, rope: YarnGeometry, glass: _Glass) -> _Body:
    """Return the yarn's fibres lit, on paper; beyond its end there is none."""
    seen = seen_of(fibres, glass.high * FINER, glass.px_per_mm)
    body = (seen.fibre != NONE) & (glass.metre <= answer.layout.stretches.yarn_m)
    row, column = np.nonzero(body)
    fibre = seen.fibre[row, column]
    colour = light_of_fibres(answer, fibres.ply, fibres.around, glass.metre, glass.paint)
    scale = (glass.px_per_mm * FINER, glass.px_per_mm)
    dim = shadow(seen.z_mm, body, max(rope.radii_mm), scale)[row, column]
    lit = _lit(fibres, seen, (fibre, row, column), dim)
    light = np.empty((*body.shape, 3), np.float32)
    light[:] = linear(FIXED_SRGB[PAPER] / 255)
    of_place = colour[fibre, column] * lit.own[:, None] + lit.gleam[:, None]
    light[row, column] = within_white(of_place)
    nearest = np.where(body, seen.z_mm, -np.inf).reshape(glass.high, FINER, -1).max(axis=1)
    return _Body(light.reshape(glass.high, FINER, -1, 3).mean(axis=1), nearest)


def _lit(
    fibres: Fibres,
    seen: Seen,
    at: tuple[NDArray[np.int32], NDArray[np.int64], NDArray[np.int64]],
    dim: Floats,
) -> Lit:
    """Return the light of places, of which on the mean their colours have as much as is usual."""
    fibre, row, column = at
    slope, lean = fibres.slope[fibre, column], fibres.lean[fibre, column]
    lit = on_fibres(slope, lean, seen.across[row, column])
    turned = (each[fibre, column] for each in (fibres.face_y, fibres.face_z, fibres.depth))
    own = lit.own * round_ply(*turned) * dim
    mean = float(own.mean()) if len(own) else 1.0
    return Lit(own * (_LIGHT / max(mean, 1e-6)), lit.gleam * dim)
