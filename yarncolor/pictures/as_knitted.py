"""What is knitted of a plan: the fabric, its gauge, and which part of the yarn it shows."""

from math import ceil
from typing import NamedTuple

from yarncolor.answers.answer import Preview
from yarncolor.errors import Fault, PlanError, in_range
from yarncolor.pictures.knit_scenes import KINDS, KnitFabric
from yarncolor.pictures.shown_part import part_words
from yarncolor.pictures.yarn_geometry import yarn_geometry_of
from yarncolor.yarn import knitted_size
from yarncolor.yarn.knitted_shape import Shape, edge_of_stitch_m, shape_of
from yarncolor.yarn.knitting import loop_length_cm
from yarncolor.yarn.structure import YarnStructure

SWATCH_STITCHES, SWATCH_ROWS = 44, 56
WORN = "worn"
"""A kind that is in the round, and seen as it is worn."""
_EACH = {"round": "round", "triangle": "stitch"}
"""What stands for several in small: a row, but for these."""


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
    of a fabric as tight as hands usually knit. A triangle and other pieces do not lend each other
    their stitches and rows.

    Parameters
    ----------
    preview : Preview
        The plan laid out, with its colours.
    kind : str, optional
        flat, round, triangle, garter, or worn.
    stitches, rows : int, optional
        Cast on; worked.
    gauge : (float, float), optional
        Stitches and rows in 10 cm.
    """
    fabric, yarn = preview.plan.fabric, preview.resolved.yarn
    kind = kind if kind is not None else fabric.kind or "flat"
    if kind not in (*KINDS, WORN):
        raise PlanError([Fault("", "kind", kind, f"give one of {', '.join((*KINDS, WORN))}")])
    kind = "round" if kind == WORN else kind
    (wide, high), is_given = _gauge(preview, gauge)
    own_stitches, own_rows = _own_size(preview, kind) or (_swatch_stitches(kind), None)
    cast_on = stitches if stitches is not None else own_stitches
    in_range("stitches", cast_on, 1, 10_000, "stitches")
    worked = rows if rows is not None else own_rows or SWATCH_ROWS
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


def times_shown(preview: Preview, knit: KnitFabric) -> int:
    """Return for how many stitches one stands where nothing is said of the part that is shown.

    A piece of the plan is shown as it is; a swatch shows the whole yarn.

    Parameters
    ----------
    preview : Preview
        The plan laid out, with its colours.
    knit : KnitFabric
        What is knitted of it.
    """
    _, rows = _own_size(preview, knit.kind) or (None, None)
    return 1 if rows else times_smaller(preview, knit)


class PieceShown(NamedTuple):
    """What is knitted of a plan, and which part of the yarn it shows, one stitch for so many."""

    fabric: KnitFabric
    aspect: float
    from_m: float
    times: int


def piece_shown(preview: Preview, mark_m: float | None = None) -> PieceShown:
    """Return what is knitted of a plan: stitch by stitch from a mark, else as a plan has it.

    Parameters
    ----------
    preview : Preview
        The plan laid out, with its colours.
    mark_m : float, optional
        Metre of yarn that the first stitch takes; without, a swatch shows the whole yarn.
    """
    knit, aspect, _ = knit_of(preview)
    if mark_m is not None:
        return PieceShown(knit, aspect, mark_m, 1)
    return PieceShown(knit, aspect, first_stitch_m(preview), times_shown(preview, knit))


def first_stitch_m(preview: Preview) -> float:
    """Return at which metre of yarn a plan's own piece begins: of stripes after the cast-on.

    Parameters
    ----------
    preview : Preview
        The plan laid out, with its colours.
    """
    laid, yarn = preview.resolved.scheme_input.striped, preview.resolved.yarn
    size = knitted_size.knitted_size(preview.plan.fabric, yarn.finished_tex)
    if laid is None or size is None:
        return 0.0
    return shape_of(preview.plan.fabric, size).cast_on_m / yarn.finishing_ratio


def _own_size(preview: Preview, kind: str) -> tuple[int, int | None] | None:
    """Return stitches cast on and rows of what a plan knits, if it is of this kind."""
    planned, own_kind = preview.piece, preview.plan.fabric.kind or "flat"
    if planned is None or (own_kind == "triangle") != (kind == "triangle"):
        return None
    return planned.stitches, planned.rows


def _swatch_stitches(kind: str) -> int:
    return knitted_size.CAST_ON_OF_TRIANGLE if kind == "triangle" else SWATCH_STITCHES


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


def shown_words(preview: Preview, knit: KnitFabric, from_m: float, times: int) -> str:
    """Return which part of the yarn a piece shows, in words.

    Parameters
    ----------
    preview : Preview
        The plan laid out, with its colours.
    knit : KnitFabric
        What is knitted.
    from_m : float
        Metre of yarn that the first stitch takes.
    times : int
        For how many stitches one stands.
    """
    end_m = end_of_piece_m(preview, knit, from_m, times)
    part = part_words((from_m, end_m), preview.layout.stretches.yarn_m, preview.say.length)
    return f"{part}{' in small' * (times > 1)}{each_stands(knit, times)}"


def each_stands(knit: KnitFabric, times: int) -> str:
    """Return for how many a row of a piece stands, in words; nothing where for itself.

    Parameters
    ----------
    knit : KnitFabric
        What is knitted.
    times : int
        For how many stitches one stands.
    """
    return f", each {_EACH.get(knit.kind, 'row')} for {times}" if times > 1 else ""


def knitted_words(preview: Preview, times: int | None = None) -> str:
    """Return which way a plan's piece is knitted, and for how many a row on its picture stands.

    Parameters
    ----------
    preview : Preview
        The plan laid out, with its colours.
    times : int, optional
        For how many stitches one stands; by default as many as is shown of the plan.
    """
    knit = knit_of(preview).fabric
    times = times_shown(preview, knit) if times is None else times
    way = "downwards" if knit.kind == "triangle" else "upwards"
    if times > 1:
        return f"knitted {way}: the whole yarn{each_stands(knit, times)}"
    return f"knitted {way}, from the beginning of the yarn"


def end_of_piece_m(preview: Preview, knit: KnitFabric, from_m: float, times: int) -> float:
    """Return the metre at which a piece ends, or the yarn does.

    A plan's own piece is bound off, so that it has the rows that are said of it; a swatch takes
    the yarn to its end.

    Parameters
    ----------
    preview : Preview
        The plan laid out, with its colours.
    knit : KnitFabric
        What is knitted.
    from_m : float
        Metre of yarn that the first stitch takes.
    times : int
        For how many stitches one stands.
    """
    is_bound_off = times == 1 and preview.piece is not None
    rows = rows_bound_off(preview, knit, from_m) if is_bound_off else knit.rows
    taken_m = float(knit.first_stitch[rows]) * knit.stitch_m * times
    return min(from_m + taken_m, preview.layout.stretches.yarn_m)


def rows_bound_off(preview: Preview, knit: KnitFabric, from_m: float) -> int:
    """Return how many rows of a plan's piece the yarn gives, cast-on and bind-off counted.

    Parameters
    ----------
    preview : Preview
        The plan laid out, with its colours.
    knit : KnitFabric
        What is knitted.
    from_m : float
        Metre of yarn that the first stitch takes.
    """
    edge_m = edge_of_stitch_m(knit.gauge_stitches) / preview.resolved.yarn.finishing_ratio
    grows = knit.growth if knit.kind == "triangle" else 0.0
    shape = Shape(knit.cast_on, grows, knit.stitch_m, edge_m)
    cast_on_m = 0.0 if from_m == first_stitch_m(preview) else from_m
    return min(knit.rows, shape.rows_from(preview.layout.stretches.yarn_m - cast_on_m))
