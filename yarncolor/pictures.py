"""Pictures of a plan: yarn at true scale, the whole yarn, wraps, a skein, knitted and woven cloth.

Each is a scene in the plan's colours, with a caption and a text alternative made of numbers.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from math import sqrt

import numpy as np

from yarncolor.answers import Answer, seen_as
from yarncolor.errors import Fault, PlanError
from yarncolor.fabric import INCREASES_PER_ROW, ROWS_TO_STITCHES, piece
from yarncolor.knit_scenes import KINDS, Knit, knitted, stitch_px, stripe_rows, woven
from yarncolor.knitting import KS
from yarncolor.painting import Paint, painted, painted_from_afar, rgb
from yarncolor.physics import Physics
from yarncolor.scenes import Scene
from yarncolor.strip_layout import in_words, metres
from yarncolor.yarn_scenes import Sized, folded, skein, true_scale, wrap_card
from yarncolor.yarn_view import relaxed_diameter_mm, rope_of

LEAST_PX, MOST_PX = 16, 6000
NIDDY_NODDY_M = 1.5
USUAL_TIGHTNESS = 11.0
"""Tightness factor, tex^½/cm, of a gauge where none is given: the middle of hand knitting."""

SWATCH_STITCHES, SWATCH_ROWS = 44, 56
_MARGIN_PX, _THREAD_PX = 12, 5.0


@dataclass(frozen=True)
class Look:
    """How a picture is looked at.

    Parameters
    ----------
    view : str
        As it is, lightness, protanomaly, deuteranomaly or tritanomaly.
    severity : float
        Of a colour-vision deficiency, 0 to 1.
    distance_m : float
        From the eye; 0 for close by.
    paint : Paint
        Unevenness of dye, joins, seed.
    """

    view: str = "as it is"
    severity: float = 1.0
    distance_m: float = 0.0
    paint: Paint = field(default_factory=Paint)


@dataclass(frozen=True)
class Drawn:
    """A picture, ready to be framed.

    Parameters
    ----------
    pixels : (height, width, 3) uint8 array
        sRGB.
    caption : str
        What it shows, with its scale.
    alt : str
        Its text alternative.
    lots : tuple of int
        Lots that are seen, in the order in which they first appear along the yarn.
    mm_per_px : float
        Millimetres of the thing in a pixel.
    """

    pixels: np.ndarray
    caption: str
    alt: str
    lots: tuple[int, ...]
    mm_per_px: float


def yarn_at(
    found: Answer,
    from_m: float = 0.0,
    length_mm: float = 24.0,
    size_px: tuple[int, int] = (1200, 200),
    look: Look = Look(),
) -> Drawn:
    """Return a length of yarn at true scale: twist, angles, thickness, and the colours there.

    Parameters
    ----------
    found : Answer
        What follows from a plan.
    from_m : float
        Metre at the left edge, from the start of plying.
    length_mm : float
        How much of the yarn is seen, 1 to 2,000.
    size_px : (int, int)
        Width and height.
    look : Look
        How it is looked at.

    Raises
    ------
    PlanError
        For a place beyond the yarn's end, or a size that cannot be.
    """
    yarn_m = found.layout.stretches.yarn_m
    _in_range("from_m", from_m, 0, yarn_m, "m")
    _in_range("length_mm", length_mm, 1, 2000, "mm")
    wide, high = _checked(size_px)
    yarn = found.settled.physics
    rope, scale = rope_of(yarn), wide / length_mm
    scene = true_scale(rope, relaxed_diameter_mm(yarn), Sized(wide, high, scale), from_m)
    end_m = from_m + length_mm / 1000
    caption = (
        f"{length_mm:g} mm of the yarn from {from_m:.2f} m on, of {metres(yarn_m)}. Left of it: "
        "where plying began; right: where it ends."
    )
    what = f"{in_words(found.layout).capitalize()}: {length_mm:g} mm of yarn at {from_m:.2f} m"
    return _drawn(found, scene, look, (caption, what), (from_m, min(end_m, yarn_m)))


def whole_yarn(
    found: Answer,
    rows: int = 24,
    size_px: tuple[int, int] = (1200, 640),
    look: Look = Look(),
) -> Drawn:
    """Return the whole yarn folded into rows of equal length, as on a niddy-noddy."""
    yarn_m = found.layout.stretches.yarn_m
    wide, high = _checked(size_px)
    _in_range("rows", rows, 1, high // 3, "rows")
    yarn = found.settled.physics
    scale = high / rows / relaxed_diameter_mm(yarn)
    scene = folded(yarn_m, rope_of(yarn), int(rows), Sized(wide, high, scale))
    caption = (
        f"The whole yarn, {metres(yarn_m)}, in {rows} rows of {yarn_m / rows:.1f} m, each from "
        "left to right: plying began at the top left, it ends at the bottom right."
    )
    return _drawn(found, scene, look, (caption, _whole_in_words(found)), (0.0, yarn_m))


def wraps(
    found: Answer,
    card_mm: tuple[float, float] = (50.0, 50.0),
    from_m: float | None = None,
    size_px: int = 1200,
    look: Look = Look(),
) -> Drawn:
    """Return a wrap card: the yarn wound round a card at its own wraps to the inch.

    Parameters
    ----------
    found : Answer
        What follows from a plan.
    card_mm : (float, float)
        Width and height of the card, 10 to 300 mm.
    from_m : float, optional
        Metre that is wound on first. By default the wraps are taken from all along the yarn.
    size_px : int
        Width of the picture.
    look : Look
        How it is looked at.
    """
    yarn_m, yarn = found.layout.stretches.yarn_m, found.settled.physics
    for value in card_mm:
        _in_range("card_mm", value, 10, 300, "mm")
    scale = size_px / card_mm[0]
    wide, high = _checked((size_px, round(card_mm[1] * scale)))
    start = 0.0 if from_m is None else from_m
    _in_range("from_m", start, 0, yarn_m, "m")
    wpi = 25.4 / relaxed_diameter_mm(yarn)
    card = wrap_card(
        rope_of(yarn), wpi, Sized(wide, high, scale), (start, yarn_m), sampled=from_m is None
    )
    if from_m is None:
        taken = f"one from every {yarn_m / card.wraps:.1f} m of the yarn, the first at the top"
    else:
        taken = f"{card.metres:.1f} m from {start:.1f} m on, wound from the top"
    caption = (
        f"{card.wraps} wraps, {wpi:.0f} to the inch, on a card {card_mm[0]:g} mm wide: {taken}."
    )
    return _drawn(found, card.scene, look, (caption, _whole_in_words(found)), (start, yarn_m))


def skein_of_yarn(
    found: Answer,
    niddy_noddy_m: float = NIDDY_NODDY_M,
    size_px: tuple[int, int] = (1100, 300),
    look: Look = Look(),
) -> Drawn:
    """Return the yarn as a twisted skein from a niddy-noddy of so many metres a turn."""
    yarn_m = found.layout.stretches.yarn_m
    _in_range("niddy_noddy_m", niddy_noddy_m, 0.2, 5, "m")
    wide, high = _checked(size_px)
    yarn = found.settled.physics
    scale = _THREAD_PX / relaxed_diameter_mm(yarn)
    scene = skein(yarn_m, yarn.plies, niddy_noddy_m, Sized(wide, high, scale))
    caption = (
        f"A twisted skein: {metres(yarn_m)} in {yarn_m / niddy_noddy_m:.0f} turns of "
        f"{niddy_noddy_m:g} m. A drawing; where a colour comes to lie in it is not foretold."
    )
    return _drawn(found, scene, look, (caption, _whole_in_words(found)), (0.0, yarn_m))


def knit_of(
    found: Answer,
    kind: str | None = None,
    stitches: int | None = None,
    rows: int | None = None,
    gauge: tuple[float, float] | None = None,
) -> tuple[Knit, float, bool]:
    """Return the piece that is knitted, height over width of a stitch, and if its gauge is given.

    What is left out comes from the plan's fabric; without one it is a flat swatch at the gauge
    of a fabric as tight as hands usually knit.

    Parameters
    ----------
    found : Answer
        What follows from a plan.
    kind : str, optional
        flat, round, triangle or garter.
    stitches, rows : int, optional
        Cast on; worked.
    gauge : (float, float), optional
        Stitches and rows in 10 cm.
    """
    fabric, yarn, planned = found.plan.fabric, found.settled.physics, piece(found.layout)
    kind = kind or fabric.kind or "flat"
    if kind not in KINDS:
        raise PlanError([Fault("", "kind", kind, f"give one of {', '.join(KINDS)}")])
    given = gauge is not None or planned is not None
    if gauge is None and planned is not None:
        gauge = (planned.gauge_stitches, planned.gauge_rows)
    gauge = gauge or usual_gauge(yarn)
    for value in gauge:
        _in_range("gauge", value, 1, 150, "in 10 cm")
    loop_m = sqrt(KS / (gauge[0] * gauge[1] / 100)) / 100
    if planned is not None and planned.source == "measured":
        loop_m = planned.loop_cm / 100
    cast_on = stitches or fabric.stitches or SWATCH_STITCHES
    _in_range("stitches", cast_on, 1, 3000, "stitches")
    worked = rows or fabric.rows or SWATCH_ROWS
    _in_range("rows", worked, 1, 5000, "rows")
    stitch_m = loop_m / yarn.kept_in_finishing
    growth = fabric.increases_per_row or INCREASES_PER_ROW
    turns = (yarn.ply_twist_tpm or 0.0) * stitch_m
    return (
        Knit(kind, cast_on, worked, growth, stitch_m, turns, gauge[0]),
        gauge[0] / gauge[1],
        given,
    )


def usual_gauge(yarn: Physics) -> tuple[float, float]:
    """Return stitches and rows in 10 cm of a fabric as tight as hands usually knit a yarn."""
    loop_cm = sqrt(yarn.finished_tex) / USUAL_TIGHTNESS
    wide = min(max(10 * sqrt(KS / ROWS_TO_STITCHES) / loop_cm, 1.0), 110.0)
    return wide, wide * ROWS_TO_STITCHES


def knitted_piece(
    found: Answer,
    kind: str | None = None,
    stitches: int | None = None,
    rows: int | None = None,
    gauge: tuple[float, float] | None = None,
    from_m: float = 0.0,
    size_px: tuple[int, int] = (1600, 1200),
    look: Look = Look(),
) -> Drawn:
    """Return a knitted piece, stitch by stitch with the colours that fall on each.

    Parameters
    ----------
    found : Answer
        What follows from a plan.
    kind : str, optional
        flat, round, triangle or garter; by default as in the plan.
    stitches, rows : int, optional
        Cast on; worked. By default as in the plan, else a swatch.
    gauge : (float, float), optional
        Stitches and rows in 10 cm; by default as in the plan.
    from_m : float
        Metre of yarn that the first stitch takes.
    size_px : (int, int)
        Width and height.
    look : Look
        How it is looked at.
    """
    yarn_m = found.layout.stretches.yarn_m
    _in_range("from_m", from_m, 0, yarn_m, "m")
    wide, high = _checked(size_px)
    knit, aspect, given = knit_of(found, kind, stitches, rows, gauge)
    stitch, _ = stitch_px(knit, Sized(wide, high, 1.0), aspect)
    size = _cropped(knit, Sized(wide, high, stitch * knit.gauge_stitches / 100), aspect)
    scene = knitted(knit, found.settled.physics.plies, size, (from_m, yarn_m), aspect)
    worked = min(len(knit.stitches), _rows_there_are(knit, yarn_m - from_m))
    short = "" if worked == knit.rows else f" The yarn ends in row {worked + 1} of {knit.rows}."
    gauge = "" if given else " The gauge is a guess from the yarn's thickness."
    begin = "top" if knit.kind == "triangle" else "bottom"
    caption = (
        f"{_NAMES[knit.kind]}: {knit.cast_on} stitches cast on, {knit.rows} rows, begun at the "
        f"{begin} with the yarn from {from_m:.1f} m on.{short}{gauge}"
    )
    what = f"{_NAMES[knit.kind]} of {in_words(found.layout)}, {knit.rows} rows"
    end_m = min(from_m + float(knit.first_stitch[-1]) * knit.stitch_m, yarn_m)
    return _drawn(found, scene, look, (caption, what), (from_m, end_m))


def woven_cloth(
    found: Answer,
    width_mm: float = 300.0,
    picks_per_cm: float | None = None,
    from_m: float = 0.0,
    size_px: tuple[int, int] = (1200, 900),
    look: Look = Look(),
) -> Drawn:
    """Return plain weave with the yarn as weft on a plain warp.

    Parameters
    ----------
    found : Answer
        What follows from a plan.
    width_mm : float
        Of the cloth, 10 to 3,000.
    picks_per_cm : float, optional
        By default so many that the wefts lie as thick as they are.
    from_m : float
        Metre of yarn in the first pick.
    size_px : (int, int)
        Width and height.
    look : Look
        How it is looked at.
    """
    yarn_m, yarn = found.layout.stretches.yarn_m, found.settled.physics
    _in_range("from_m", from_m, 0, yarn_m, "m")
    _in_range("width_mm", width_mm, 10, 3000, "mm")
    wide, high = _checked(size_px)
    picks = picks_per_cm or 10 / relaxed_diameter_mm(yarn)
    _in_range("picks_per_cm", picks, 0.2, 100, "picks")
    scale = wide / width_mm
    ends_per_mm = picks / 20
    turns = (yarn.ply_twist_tpm or 0.0) / 1000
    scene = woven(
        yarn.plies, Sized(wide, high, scale), (picks / 10, ends_per_mm, turns), (from_m, yarn_m)
    )
    rows = round(high / scale * picks / 10)
    caption = (
        f"Plain weave, {picks:.1f} picks to the centimetre on a plain warp, {width_mm:g} mm wide: "
        f"{rows} picks from the bottom, with the yarn from {from_m:.1f} m on."
    )
    end_m = min(from_m + rows * width_mm / 1000, yarn_m)
    what = f"Plain weave of {in_words(found.layout)}"
    return _drawn(found, scene, look, (caption, what), (from_m, end_m))


_NAMES = {
    "flat": "Plain knitting, flat",
    "round": "Plain knitting in the round",
    "triangle": "A triangle knitted from the top down",
    "garter": "Garter stitch",
}

PICTURES: dict[str, Callable[..., Drawn]] = {
    "yarn": yarn_at,
    "whole": whole_yarn,
    "wraps": wraps,
    "skein": skein_of_yarn,
    "knitted": knitted_piece,
    "woven": woven_cloth,
}
"""Every picture of a yarn by its name."""


def stripe_heights(
    found: Answer, knit: Knit, from_m: float = 0.0
) -> list[tuple[str, float, float]]:
    """Return each section in a knitted piece: its colours, its first row from 1, its rows."""
    along, names = found.layout.stretches, found.plan.names
    edges = np.clip(along.edges_m, from_m, None)
    rows = stripe_rows(knit, edges, (from_m, along.yarn_m))
    told, at = [], 0
    for stretch in range(len(along.lot)):
        if edges[stretch + 1] <= from_m or at >= len(rows):
            continue
        first, high = rows[at]
        at += 1
        lots = dict.fromkeys(names[lot] for lot in along.lot[stretch])
        told.append((" + ".join(lots), first + 1, high))
    return told


def _drawn(
    found: Answer, scene: Scene, look: Look, words: tuple[str, str], reach_m: tuple[float, float]
) -> Drawn:
    seen = found if look.view == "as it is" else seen_as(found, look.view, look.severity)
    if look.distance_m > 0:
        pixels = painted_from_afar(scene, seen, look.distance_m, look.paint)
    else:
        pixels = rgb(painted(scene, seen, look.paint))
    lots = _lots_between(found, *reach_m)
    names = ", ".join(found.plan.names[lot] for lot in lots)
    caption, what = words
    how = {"as it is": "", "lightness": " Seen by lightness alone."}.get(
        look.view, f" Seen with {look.view}."
    )
    far = f" Seen from {look.distance_m:g} m." if look.distance_m > 0 else ""
    alt = f"{what}. {'Colours' if len(lots) > 1 else 'Colour'}: {names}.{how}{far}"
    return Drawn(pixels, f"{caption}{how}{far}", alt, lots, scene.mm_per_px)


def _lots_between(found: Answer, from_m: float, to_m: float) -> tuple[int, ...]:
    along = found.layout.stretches
    seen = (along.edges_m[:-1] < to_m + 1e-9) & (along.edges_m[1:] > from_m - 1e-9)
    return tuple(dict.fromkeys(along.lot[seen].ravel().tolist()))


def _whole_in_words(found: Answer) -> str:
    shares = found.shares
    matched = f"; matched over {shares[0]:.0%} of its length" if len(shares) > 1 else ""
    yarn_m = metres(found.layout.stretches.yarn_m)
    return f"{in_words(found.layout).capitalize()}, {yarn_m}{matched}"


def _cropped(knit: Knit, size: Sized, aspect: float) -> Sized:
    """Return the size that a piece fills, with a margin, and the scale of its stitches."""
    stitch, row_px = stitch_px(knit, size, aspect)
    rows = knit.rows + (1 if knit.kind == "round" else 0)
    wide = min(size.width_px, int(knit.stitches.max()) * stitch + 2 * _MARGIN_PX)
    high = min(size.height_px, rows * row_px + 2 * _MARGIN_PX)
    return Sized(max(wide, LEAST_PX), max(high, LEAST_PX), size.px_per_mm)


def _rows_there_are(knit: Knit, yarn_m: float) -> int:
    return int(np.searchsorted(knit.first_stitch * knit.stitch_m, yarn_m, side="right")) - 1


def _checked(size_px: tuple[int, int]) -> tuple[int, int]:
    for value in size_px:
        _in_range("size_px", value, LEAST_PX, MOST_PX, "pixels")
    return int(size_px[0]), int(size_px[1])


def _in_range(what: str, value: float, low: float, high: float, unit: str) -> None:
    if not (np.isfinite(value) and low <= value <= high):
        raise PlanError([Fault("", what, f"{value:g}", f"give {low:g} to {high:,.6g} {unit}")])
