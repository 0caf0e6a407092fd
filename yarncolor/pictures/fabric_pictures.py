"""Pictures of a knitted piece: stitch by stitch, or the whole yarn in small."""

from collections.abc import Iterator
from dataclasses import replace
from math import ceil

import numpy as np

from yarncolor.answers.answer import Answer, Preview
from yarncolor.errors import in_range
from yarncolor.layout.layout import in_words
from yarncolor.phrases import counted, plied_words
from yarncolor.pictures.as_knitted import (
    WORN,
    AsKnitted,
    end_of_piece_m,
    first_stitch_m,
    knit_of,
    rows_bound_off,
    shown_words,
    times_shown,
)
from yarncolor.pictures.fonts import pixel_name
from yarncolor.pictures.knit_scenes import (
    LEAST_STITCH_PX,
    KnitFabric,
    knitted,
    stitch_px,
    stripe_rows,
)
from yarncolor.pictures.scene import Scene
from yarncolor.pictures.shown_part import lots_between
from yarncolor.pictures.tube_scene import on_a_tube
from yarncolor.pictures.view import LEAST_PX, MOST_PX, Rendered, ViewSettings, checked_px, render
from yarncolor.pictures.worn import Worn
from yarncolor.pictures.yarn_scenes import PictureScale
from yarncolor.said import Figure, Said, said

_MARGIN_PX, _LEAST_STRIPE_PX, _BARE_ROWS = 12, 14, 3
_PART_OF_STITCH = 1e-6
_MOST_WORN, _FINER_THAN_SEEN = 600, 1.5
"""Stitches round and rounds up of what is seen as worn; how much finer its fabric is drawn."""
_NAMES = {
    "flat": "Plain knitting in rows",
    "round": "Plain knitting in the round",
    "triangle": "A triangle knitted from the top down",
    "garter": "Garter stitch",
}


def knitted_piece(
    answer: Answer,
    kind: str | None = None,
    stitches: int | None = None,
    rows: int | None = None,
    gauge: tuple[float, float] | None = None,
    from_m: float | None = None,
    size_px: tuple[int, int] = (1600, 1200),
    look: ViewSettings = ViewSettings(),
    times: int | None = None,
) -> Rendered:
    """Return a knitted piece with the colours that fall on each stitch.

    Where nothing is said of its size, its part or its scale, the piece of a plan is shown as it
    is, and a swatch shows the whole yarn in small.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    kind : str, optional
        flat, round, triangle, garter, or worn: in the round as it is worn; by default as in the
        plan.
    stitches, rows : int, optional
        Cast on; worked. By default as in the plan, else a swatch.
    gauge : (float, float), optional
        Stitches and rows in 10 cm; by default as in the plan.
    from_m : float, optional
        Metre of yarn that the first stitch takes; by default the yarn's beginning.
    size_px : (int, int)
        Width and height.
    look : ViewSettings
        How it is looked at.
    times : int, optional
        For how many stitches one stands: above 1, a long yarn is shown in a small piece.
    """
    is_asked = (from_m, stitches, rows) != (None, None, None)
    start_m = from_m or 0.0 if is_asked else first_stitch_m(answer)
    in_range("from_m", start_m, 0, answer.layout.stretches.yarn_m, "m")
    size_px = checked_px(size_px)
    as_knitted = knit_of(answer, kind, stitches, rows, gauge)
    if times is None:
        times = 1 if is_asked else times_shown(answer, as_knitted.fabric)
    else:
        in_range("times", times, 1, 1_000_000_000, "stitches")
    asked = as_knitted.fabric
    if kind == WORN:
        return _worn(answer, as_knitted, (start_m, times), size_px, look)
    knit, size, scene = piece_scene(answer, asked, as_knitted.aspect, start_m, size_px, times)
    words = (
        _caption(answer, as_knitted, start_m, times, scene.shape[1]),
        f"{_NAMES[asked.kind]}, {counted(asked.rows, _row_word(asked))}. "
        f"The yarn: {in_words(answer.layout)}",
    )
    end_m = end_of_piece_m(answer, asked, start_m, times)
    picture = render(answer, scene, look, words, lots_between(answer, start_m, end_m))
    if times > 1:
        return picture
    beside = _stripes_beside(answer, knit, start_m, (size, as_knitted.aspect))
    return replace(picture, beside=beside)


def _worn(
    answer: Answer,
    as_knitted: AsKnitted,
    shown: tuple[float, int],
    size_px: tuple[int, int],
    look: ViewSettings,
) -> Rendered:
    """Return what is knitted in the round as it is worn: a sock's leg, a hat, or a tube."""
    knit, (start_m, times) = as_knitted.fabric, shown
    for name, value in (("stitches", knit.cast_on), ("rows", knit.rows)):
        in_range(name, value, 1, _MOST_WORN, "for a piece that is seen as it is worn")
    drawn = Worn.of(knit, as_knitted.aspect)
    px = drawn.px_in(size_px)
    size_px = drawn.cropped_px(px, size_px)
    stitch = max(LEAST_STITCH_PX, ceil(_FINER_THAN_SEEN * px))
    room = (stitch * knit.cast_on, ceil((knit.rows + 1) * (stitch * as_knitted.aspect + 1)))
    flat_knit, size, flat = piece_scene(answer, knit, as_knitted.aspect, start_m, room, times)
    tall = stitch_px(flat_knit, size, as_knitted.aspect)
    scene = on_a_tube(flat, drawn.tube(flat_knit.rows), tall, size_px, px)
    words = (
        said(
            "{size} {piece}",
            size=drawn.words(answer.say.width),
            piece=_caption(answer, as_knitted, start_m, times, MOST_PX),
        ),
        f"{drawn.name}, {counted(knit.rows, 'round')}. The yarn: {in_words(answer.layout)}",
    )
    end_m = end_of_piece_m(answer, knit, start_m, times)
    return render(answer, scene, look, words, lots_between(answer, start_m, end_m))


def _caption(
    answer: Answer, as_knitted: AsKnitted, from_m: float, times: int, width_px: int
) -> Said:
    """Return what a piece is, which part of the yarn it shows, and what of it is missing."""
    knit = as_knitted.fabric
    begin, each = "top" if knit.kind == "triangle" else "bottom", _row_word(knit)
    parts = [
        said(
            f"{_NAMES[knit.kind]}: {{cast_on}} cast on, {{rows}}, begun at the {begin}. "
            "It shows {part}.",
            cast_on=Figure(counted(knit.cast_on, "stitch"), "stitches"),
            rows=Figure(counted(knit.rows, each), "rows"),
            part=Figure(shown_words(answer, knit, from_m, times), "part"),
        )
    ]
    if times == 1:
        parts += _where_the_yarn_ends(answer, knit, from_m)
    if int(knit.stitches.max()) * LEAST_STITCH_PX > width_px:
        parts.append(said("Its sides are cut off: the picture is too small for it."))
    if not as_knitted.gauge_is_given:
        parts.append(said("The gauge is a guess from the yarn's thickness."))
    slots = {f"part_{at}": part for at, part in enumerate(parts)}
    return Said(" ".join(f"{{{at}}}" for at in slots), slots)


def _where_the_yarn_ends(answer: Answer, knit: KnitFabric, from_m: float) -> Iterator[Said]:
    """Yield how many rows a plan's piece gets, or in which a swatch ends, where not in its last."""
    each = _row_word(knit)
    if answer.piece is not None:
        rows = rows_bound_off(answer, knit, from_m)
        if rows < knit.rows:
            yield said(
                "The yarn gives {given} of {rows}, cast-on and bind-off counted.",
                given=Figure(f"{rows}", "given"),
                rows=Figure(counted(knit.rows, each), "rows"),
            )
        return
    rows = _rows_there_are(knit, answer.layout.stretches.yarn_m - from_m)
    if rows < knit.rows:
        yield said(
            f"The yarn ends in {each} {{last}} of {{rows}}, edges not counted.",
            last=Figure(f"{rows + 1}", "given"),
            rows=Figure(f"{knit.rows}", "rows"),
        )


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
    end_m, from_m = end_of_piece_m(preview, knit, from_m, times) / times, from_m / times
    rows = min(knit.rows, _rows_there_are(knit, end_m - from_m) + _BARE_ROWS)
    knit = replace(knit, rows=rows)
    size = _cropped(knit, PictureScale(*size_px, 1.0), aspect)
    px_per_mm = stitch_px(knit, size, aspect)[0] * knit.gauge_stitches / 100
    size = replace(size, px_per_mm=px_per_mm)
    scene = knitted(knit, preview.resolved.yarn.plies, size, (from_m, end_m), aspect)
    return knit, size, replace(scene, metre=scene.metre * times) if times > 1 else scene


def least_room_px(knit: KnitFabric) -> tuple[int, int]:
    """Return the width and height in pixels below which a piece is cut off."""
    margins = 2 * _MARGIN_PX
    return int(knit.stitches.max()) * LEAST_STITCH_PX + margins, (knit.rows + 1) + margins


def _stripes_beside(
    answer: Answer, knit: KnitFabric, from_m: float, sized: tuple[PictureScale, float]
) -> tuple[tuple[float, str], ...]:
    """Return the middle of each section's rows and its colours with its rows, in words."""
    size, aspect = sized
    _, row_px = stitch_px(knit, size, aspect)
    margin, named = (size.height_px - knit.rows * row_px) // 2, []
    for lots, first, rows in stripe_lots(answer, knit, from_m):
        colours = plied_words(pixel_name(lot, answer.plan.names) for lot in lots)
        middle = (first - 1 + rows / 2) * row_px + margin
        down = middle if knit.kind == "triangle" else size.height_px - middle
        if rows * row_px >= _LEAST_STRIPE_PX:
            named.append((down, f"{colours}, {counted(max(rows, 1), _row_word(knit))}"))
    return tuple(sorted(named))


def stripe_heights(
    answer: Answer, knit: KnitFabric, from_m: float | None = None
) -> list[tuple[str, float, float]]:
    """Return each section in a knitted piece: its colours, its first row from 1, its rows.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    knit : KnitFabric
        What is knitted.
    from_m : float, optional
        Metre of yarn that the first stitch takes; by default as the plan's own piece begins.
    """
    names = answer.plan.names
    return [
        (plied_words(names[lot] for lot in lots), first, rows)
        for lots, first, rows in stripe_lots(answer, knit, from_m)
    ]


def stripe_lots(
    answer: Answer, knit: KnitFabric, from_m: float | None = None
) -> list[tuple[tuple[int, ...], float, float]]:
    """Return each section in a knitted piece: its lots, its first row from 1, its rows.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    knit : KnitFabric
        What is knitted.
    from_m : float, optional
        Metre of yarn that the first stitch takes; by default as the plan's own piece begins.
    """
    from_m = first_stitch_m(answer) if from_m is None else from_m
    along, end_m = answer.layout.stretches, end_of_piece_m(answer, knit, from_m, 1)
    edges = np.clip(along.edges_m, from_m, end_m)
    rows = stripe_rows(knit, edges, (from_m, end_m))
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
    stitches = yarn_m / knit.stitch_m + _PART_OF_STITCH
    return int(np.searchsorted(knit.first_stitch, stitches, side="right")) - 1
