"""Pictures of cloth: knitted stitch by stitch, and woven."""

from dataclasses import replace
from math import ceil
from typing import NamedTuple

import numpy as np

from yarncolor.answers.answer import Answer, Preview
from yarncolor.errors import Fault, PlanError, in_range
from yarncolor.layout.layout import in_words
from yarncolor.phrases import counted
from yarncolor.pictures.fonts import pixel_name
from yarncolor.pictures.knit_scenes import KINDS, KnitFabric, knitted, stitch_px, stripe_rows, woven
from yarncolor.pictures.scene import Scene
from yarncolor.pictures.shown_part import lots_between
from yarncolor.pictures.view import LEAST_PX, Rendered, ViewSettings, checked_px, render
from yarncolor.pictures.yarn_geometry import yarn_geometry_of
from yarncolor.pictures.yarn_scenes import PictureScale
from yarncolor.yarn import knitted_size
from yarncolor.yarn.knitting import loop_length_cm
from yarncolor.yarn.structure import YarnStructure

SWATCH_STITCHES, SWATCH_ROWS = 44, 56
_MARGIN_PX, _LEAST_STRIPE_PX, _BARE_ROWS = 12, 14, 3
_NAMES = {
    "flat": "Plain knitting, flat",
    "round": "Plain knitting in the round",
    "triangle": "A triangle knitted from the top down",
    "garter": "Garter stitch",
}


class AsKnitted(NamedTuple):
    """What is knitted of a plan: the fabric, height over width of a stitch, if gauge is given."""

    fabric: KnitFabric
    aspect: float
    gauge_is_given: bool


def knit_of(
    preview: Preview,
    kind: str | None = None,
    stitches: int | None = None,
    rows: int | None = None,
    gauge: tuple[float, float] | None = None,
) -> AsKnitted:
    """Return what is knitted of a plan.

    What is left out comes from the plan's fabric; without one it is a flat swatch at the gauge
    of a fabric as tight as hands usually knit.

    Parameters
    ----------
    preview : Preview
        The plan laid out, with its colours.
    kind : str, optional
        flat, round, triangle or garter.
    stitches, rows : int, optional
        Cast on; worked.
    gauge : (float, float), optional
        Stitches and rows in 10 cm.
    """
    fabric, yarn = preview.plan.fabric, preview.resolved.yarn
    kind = kind if kind is not None else fabric.kind or "flat"
    if kind not in KINDS:
        raise PlanError([Fault("", "kind", kind, f"give one of {', '.join(KINDS)}")])
    (wide, high), is_given = _gauge(preview, gauge)
    own_stitches, own_rows = _size_of_plan(preview)
    cast_on = stitches if stitches is not None else own_stitches
    in_range("stitches", cast_on, 1, 10_000, "stitches")
    worked = rows if rows is not None else own_rows
    in_range("rows", worked, 1, 100_000, "rows")
    stitch_m = _loop_m(preview, wide, high) / yarn.finishing_ratio
    growth = fabric.increases_per_row or knitted_size.INCREASES_PER_ROW
    turns = yarn_geometry_of(yarn, usual_twist=True).turns_per_mm * stitch_m * 1000
    knit = KnitFabric(kind, cast_on, worked, growth, stitch_m, turns, wide)
    return AsKnitted(knit, wide / high, is_given)


def times_smaller(preview: Preview, knit: KnitFabric) -> int:
    """Return for how many stitches one stands where the whole yarn is to fit into a piece.

    Parameters
    ----------
    preview : Preview
        The plan laid out, with its colours.
    knit : KnitFabric
        What has to hold the yarn.
    """
    room_m = float(knit.first_stitch[-1]) * knit.stitch_m
    return max(1, ceil(preview.layout.stretches.yarn_m / room_m))


def shown_as_knitted(preview: Preview) -> tuple[AsKnitted, int]:
    """Return what is knitted of a plan, and for how many stitches one stands.

    The piece of a plan is drawn as it is; where there is none, a swatch shows the whole yarn.
    """
    as_knitted, planned = knit_of(preview), preview.piece
    is_swatch = planned is None or planned.rows is None
    return as_knitted, times_smaller(preview, as_knitted.fabric) if is_swatch else 1


def _size_of_plan(preview: Preview) -> tuple[int, int]:
    """Return stitches cast on and rows of what a plan knits, those of a swatch where none."""
    planned = preview.piece
    if planned is None:
        return SWATCH_STITCHES, SWATCH_ROWS
    return planned.stitches, planned.rows or SWATCH_ROWS


def _gauge(preview: Preview, asked: tuple[float, float] | None) -> tuple[tuple[float, float], bool]:
    """Return stitches and rows in 10 cm: asked, of the plan or usual; and whether it is given."""
    planned = preview.piece
    if asked is None and planned is not None and not planned.gauge_is_guess:
        asked = (planned.gauge_stitches, planned.gauge_rows)
    gauge = asked or usual_gauge(preview.resolved.yarn)
    for value in gauge:
        in_range("gauge", value, 1, 150, "in 10 cm")
    return gauge, asked is not None


def _loop_m(preview: Preview, stitches_per_10cm: float, rows_per_10cm: float) -> float:
    """Return the length of finished yarn in a stitch: by a weighed swatch, else by gauge."""
    if preview.piece is not None and preview.piece.source == "measured":
        return preview.piece.loop_cm / 100
    return loop_length_cm(stitches_per_10cm, rows_per_10cm) / 100


def usual_gauge(yarn: YarnStructure) -> tuple[float, float]:
    """Return stitches and rows in 10 cm of a fabric as tight as hands usually knit a yarn."""
    wide = knitted_size.usual_gauge(yarn.finished_tex)
    return wide, wide * knitted_size.ROWS_TO_STITCHES


def knitted_piece(
    answer: Answer,
    kind: str | None = None,
    stitches: int | None = None,
    rows: int | None = None,
    gauge: tuple[float, float] | None = None,
    from_m: float = 0.0,
    size_px: tuple[int, int] = (1600, 1200),
    look: ViewSettings = ViewSettings(),
    times: int = 1,
) -> Rendered:
    """Return a knitted piece, stitch by stitch with the colours that fall on each.

    Parameters
    ----------
    answer : Answer
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
    look : ViewSettings
        How it is looked at.
    times : int
        For how many stitches one stands: above 1, a long yarn is shown in a small piece.
    """
    yarn_m = answer.layout.stretches.yarn_m
    in_range("from_m", from_m, 0, yarn_m, "m")
    in_range("times", times, 1, 1_000_000_000, "stitches")
    size_px = checked_px(size_px)
    knit, aspect, given = knit_of(answer, kind, stitches, rows, gauge)
    asked, worked = knit.rows, min(knit.rows, _rows_there_are(knit, yarn_m - from_m))
    knit, size, scene = piece_scene(answer, knit, aspect, from_m, size_px, times)
    stitch = scene_stitch_px(knit, aspect, size_px)
    short = (
        ""
        if worked == asked or times > 1
        else (f" The yarn ends in {_row_word(knit)} {worked + 1} of {asked}, edges not counted.")
    )
    short += f" In small: each stitch stands for {times}." if times > 1 else ""
    guess = "" if given else " The gauge is a guess from the yarn's thickness."
    begin = "top" if knit.kind == "triangle" else "bottom"
    cut_off = int(knit.stitches.max()) * stitch > size_px[0]
    short += " Its sides are cut off: the picture is too small for it." if cut_off else ""
    caption = (
        f"{_NAMES[knit.kind]}: {counted(knit.cast_on, 'stitch')} cast on, "
        f"{counted(asked, _row_word(knit))}, begun at the "
        f"{begin} with the yarn from {from_m:.1f} m on.{short}{guess}"
    )
    what = f"{_NAMES[knit.kind]} of {in_words(answer.layout)}, {counted(asked, 'row')}"
    end_m = min(from_m + float(knit.first_stitch[-1]) * knit.stitch_m * times, yarn_m)
    picture = render(answer, scene, look, (caption, what), lots_between(answer, from_m, end_m))
    if times > 1:
        return picture
    return replace(picture, beside=_stripes_beside(answer, knit, from_m, (size, aspect)))


def piece_scene(
    preview: Preview,
    knit: KnitFabric,
    aspect: float,
    from_m: float,
    size_px: tuple[int, int],
    times: int = 1,
) -> tuple[KnitFabric, PictureScale, Scene]:
    """Return what of a piece is drawn, the size that it fills, and it before it has colours.

    Where the yarn ends, a few rows stay bare and the rest is left away.

    Parameters
    ----------
    preview : Preview
        The plan laid out, with its colours.
    knit : KnitFabric
        What is knitted.
    aspect : float
        Height of a row over width of a stitch.
    from_m : float
        Metre of yarn that the first stitch takes.
    size_px : (int, int)
        Room for it.
    times : int
        For how many stitches one stands.
    """
    yarn_m, from_m = preview.layout.stretches.yarn_m / times, from_m / times
    rows = min(knit.rows, _rows_there_are(knit, yarn_m - from_m) + _BARE_ROWS)
    knit = replace(knit, rows=rows)
    scale = scene_stitch_px(knit, aspect, size_px) * knit.gauge_stitches / 100
    size = _cropped(knit, PictureScale(*size_px, scale), aspect)
    scene = knitted(knit, preview.resolved.yarn.plies, size, (from_m, yarn_m), aspect)
    return knit, size, replace(scene, metre=scene.metre * times) if times > 1 else scene


def scene_stitch_px(knit: KnitFabric, aspect: float, size_px: tuple[int, int]) -> int:
    """Return the width of a stitch in pixels where a piece has so much room.

    Parameters
    ----------
    knit : KnitFabric
        What is knitted.
    aspect : float
        Height of a row over width of a stitch.
    size_px : (int, int)
        Width and height.
    """
    return stitch_px(knit, PictureScale(*size_px, 1.0), aspect)[0]


def _stripes_beside(
    answer: Answer, knit: KnitFabric, from_m: float, sized: tuple[PictureScale, float]
) -> tuple[tuple[float, str], ...]:
    """Return the middle of each section's rows and its colours with its rows, in words."""
    size, aspect = sized
    _, row_px = stitch_px(knit, size, aspect)
    margin, named = (size.height_px - knit.rows * row_px) // 2, []
    for lots, first, rows in stripe_lots(answer, knit, from_m):
        colours = " + ".join(pixel_name(lot, answer.plan.names) for lot in lots)
        middle = (first - 1 + rows / 2) * row_px + margin
        down = middle if knit.kind == "triangle" else size.height_px - middle
        if rows * row_px >= _LEAST_STRIPE_PX:
            named.append(
                (down, f"{colours}, {rows:.0f} rows" if rows >= 1.5 else f"{colours}, 1 row")
            )
    return tuple(sorted(named))


def woven_cloth(
    answer: Answer,
    width_mm: float = 300.0,
    picks_per_cm: float | None = None,
    from_m: float = 0.0,
    size_px: tuple[int, int] = (1200, 900),
    look: ViewSettings = ViewSettings(),
) -> Rendered:
    """Return plain weave with the yarn as weft on a plain warp.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    width_mm : float
        Of the cloth, 10 to 3,000.
    picks_per_cm : float, optional
        By default so many that the wefts lie as thick as they are.
    from_m : float
        Metre of yarn in the first pick.
    size_px : (int, int)
        Width and height.
    look : ViewSettings
        How it is looked at.
    """
    yarn_m, yarn = answer.layout.stretches.yarn_m, answer.resolved.yarn
    in_range("from_m", from_m, 0, yarn_m, "m")
    in_range("width_mm", width_mm, 10, 3000, "mm")
    wide, high = checked_px(size_px)
    usual = min(10 / yarn.relaxed_diameter_mm, 100.0)
    picks = usual if picks_per_cm is None else picks_per_cm
    in_range("picks_per_cm", picks, 0.2, 100, "picks")
    scale = wide / width_mm
    ends_per_mm = picks / 20
    turns = yarn_geometry_of(yarn, usual_twist=True).turns_per_mm
    scene = woven(
        yarn.plies,
        PictureScale(wide, high, scale),
        (picks / 10, ends_per_mm, turns),
        (from_m, yarn_m),
    )
    rows = round(high / scale * picks / 10)
    there = int((yarn_m - from_m) / (width_mm / 1000))
    short = "" if there >= rows else f" The yarn ends in pick {there + 1} of {rows}."
    caption = (
        f"Plain weave, {picks:.1f} picks to the centimetre on a plain warp, {width_mm:g} mm wide: "
        f"{counted(rows, 'pick')} from the bottom, with the yarn from {from_m:.1f} m on.{short}"
    )
    end_m = min(from_m + rows * width_mm / 1000, yarn_m)
    what = f"Plain weave of {in_words(answer.layout)}"
    return render(answer, scene, look, (caption, what), lots_between(answer, from_m, end_m))


def stripe_heights(
    answer: Answer, knit: KnitFabric, from_m: float = 0.0
) -> list[tuple[str, float, float]]:
    """Return each section in a knitted piece: its colours, its first row from 1, its rows.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    knit : KnitFabric
        What is knitted.
    from_m : float
        Metre of yarn that the first stitch takes.
    """
    names = answer.plan.names
    return [
        (" + ".join(names[lot] for lot in lots), first, rows)
        for lots, first, rows in stripe_lots(answer, knit, from_m)
    ]


def stripe_lots(
    answer: Answer, knit: KnitFabric, from_m: float = 0.0
) -> list[tuple[tuple[int, ...], float, float]]:
    """Return each section in a knitted piece: its lots, its first row from 1, its rows.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    knit : KnitFabric
        What is knitted.
    from_m : float
        Metre of yarn that the first stitch takes.
    """
    along = answer.layout.stretches
    edges = np.clip(along.edges_m, from_m, None)
    rows = stripe_rows(knit, edges, (from_m, along.yarn_m))
    told, at = [], 0
    for stretch in range(len(along.lot)):
        if edges[stretch + 1] <= from_m or at >= len(rows):
            continue
        first, high = rows[at]
        at += 1
        lots = tuple(dict.fromkeys(along.lot[stretch].tolist()))
        told.append((lots, first + 1, high))
    return told


def _row_word(knit: KnitFabric) -> str:
    return "round" if knit.kind == "round" else "row"


def _cropped(knit: KnitFabric, size: PictureScale, aspect: float) -> PictureScale:
    """Return the size that a piece fills, with a margin, and the scale of its stitches."""
    stitch, row_px = stitch_px(knit, size, aspect)
    rows = knit.rows + (1 if knit.kind == "round" else 0)
    wide = min(size.width_px, int(knit.stitches.max()) * stitch + 2 * _MARGIN_PX)
    high = min(size.height_px, rows * row_px + 2 * _MARGIN_PX)
    return PictureScale(max(wide, LEAST_PX), max(high, LEAST_PX), size.px_per_mm)


def _rows_there_are(knit: KnitFabric, yarn_m: float) -> int:
    return int(np.searchsorted(knit.first_stitch * knit.stitch_m, yarn_m, side="right")) - 1
