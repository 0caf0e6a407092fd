"""What a knitted piece takes, in plain stitch, and what can be knitted from what is there.

References
----------
.. [1] Munden 1959; see `yarncolor.yarn.knitting`.
"""

from dataclasses import dataclass, replace

import numpy as np

from yarncolor.layout.layout import Layout, used_g
from yarncolor.yarn.knitted_shape import Shape, shape_of
from yarncolor.yarn.knitted_size import KnittedSize, knitted_size, wingspan_cm
from yarncolor.yarn.knitting import FORMULA_BAND, tightness_factor
from yarncolor.yarn.provenance import Provenance

SWATCH_BAND = 0.03
"""A weighed swatch is right to within a few in a hundred; judgement."""
GUESS_BAND = 0.25
"""A guessed gauge may be out by so much more than the formula; judgement."""


@dataclass(frozen=True)
class KnittedPiece:
    """A knitted piece and the yarn it takes; lengths of yarn are of the finished yarn.

    Of several alike it is one, with the yarn of one.

    Parameters
    ----------
    kind : str
        flat, round or triangle.
    stitches, last_stitches : int
        Cast on, and in the last row; the latter None without rows.
    rows : int or None
        Wanted; None where the plan does not say.
    gauge_stitches, gauge_rows : float
        In 10 cm.
    loop_cm : float
        Yarn in one stitch.
    source : Provenance
        measured (a weighed swatch) or derived (gauge alone).
    band : float
        Share by which the yarn may be out.
    tightness : float
        Tightness factor, tex^½/cm.
    width_cm, height_cm : float or None
        Of the piece; of a triangle its last row.
    needs_m : float or None
        Finished yarn that the wanted rows take, edges included.
    needs_plied_m : float or None
        The same as plied, before resting and washing.
    has_m : float
        Finished yarn that the plan makes for it.
    rows_possible : int
        What can be knitted from it.
    gauge_is_guess : bool
        Whether the gauge is guessed by the yarn's thickness.
    wingspan_cm : float or None
        Of a triangle with rows: its top edge in one line.
    copies : int
        How many alike are spun for.
    """

    kind: str
    stitches: int
    last_stitches: int | None
    rows: int | None
    gauge_stitches: float
    gauge_rows: float
    loop_cm: float
    source: Provenance
    band: float
    tightness: float
    width_cm: float | None
    height_cm: float | None
    needs_m: float | None
    needs_plied_m: float | None
    has_m: float
    rows_possible: int
    gauge_is_guess: bool = False
    wingspan_cm: float | None = None
    copies: int = 1

    @property
    def all_plied_m(self) -> float | None:
        """Yarn as plied that all copies take; None where the plan does not say."""
        return None if self.needs_plied_m is None else self.needs_plied_m * self.copies

    @property
    def row_m(self) -> float:
        """Finished yarn in a row of the stitches cast on."""
        return self.stitches * self.loop_cm / 100


def piece(laid: Layout) -> KnittedPiece | None:
    """Return the knitted piece of a plan; None where the plan does not speak of one.

    Its stitches and gauge are those of the plan, whatever grist was spun; how dense it comes out,
    and for how many rows there is yarn, go by what lies on the bobbins.
    """
    fabric, yarn = laid.resolved.plan.fabric, laid.resolved.yarn
    size = knitted_size(fabric, yarn.finished_tex)
    if size is None:
        return None
    striped = laid.resolved.scheme_input.striped
    gauge, rows, loop = size.gauge, size.rows, size.loop_cm
    if rows is None and striped is not None:
        rows = striped.rows_in_all
    size, shape = replace(size, rows=rows), shape_of(fabric, size)
    has_m = _least_copy_m(laid) * yarn.finishing_ratio
    needs_m = None if rows is None else shape.needs_m(rows)
    last = None if rows is None else shape.last_stitches(rows)
    widest = last if shape.growth else size.stitches
    return KnittedPiece(
        kind=fabric.kind or "flat",
        stitches=size.stitches,
        last_stitches=last,
        rows=rows,
        gauge_stitches=gauge.stitches_per_10cm,
        gauge_rows=gauge.rows_per_10cm,
        loop_cm=loop,
        source="derived" if fabric.swatch is None else "measured",
        band=_band(size, fabric.swatch is not None),
        tightness=tightness_factor(laid.finished_tex, loop),
        width_cm=None if widest is None else widest / gauge.stitches_per_10cm * 10,
        height_cm=None if rows is None else rows / gauge.rows_per_10cm * 10,
        needs_m=needs_m,
        needs_plied_m=None if needs_m is None else needs_m / yarn.finishing_ratio,
        has_m=has_m,
        rows_possible=shape.rows_from(has_m),
        gauge_is_guess=gauge.is_guess,
        wingspan_cm=_wingspan_cm(size, shape),
        copies=laid.resolved.scheme.copies,
    )


def _least_copy_m(laid: Layout) -> float:
    """Return the yarn of the shortest copy, as plied; all of it where there is one."""
    along = laid.stretches
    ends_m = np.concatenate([[0.0], along.copy_ends_m, [along.yarn_m]])
    return float(np.diff(ends_m).min())


def to_card_g(laid: Layout, needs_plied_m: float) -> np.ndarray:
    """Return grams of each lot to card for so much yarn as plied: (lots,).

    As the plan now divides them, through contraction, spinning and carding losses.

    Parameters
    ----------
    laid : Layout
        The plan laid out.
    needs_plied_m : float
        Yarn as plied.
    """
    share = needs_plied_m / laid.stretches.yarn_m
    return used_g(laid) * share / (1 - laid.resolved.card_loss)


def _band(size: KnittedSize, is_weighed: bool) -> float:
    if is_weighed:
        return SWATCH_BAND
    return GUESS_BAND if size.gauge.is_guess else FORMULA_BAND


def _wingspan_cm(size: KnittedSize, shape: Shape) -> float | None:
    if size.rows is None or not shape.growth:
        return None
    return wingspan_cm(shape.last_stitches(size.rows), size.rows, size.gauge)
