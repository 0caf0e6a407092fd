"""How large a knitted piece is, from what one knows of it: stitches or a width, gauge or a guess.

References
----------
.. [1] Munden 1959; see `yarncolor.yarn.knitting`.
.. [2] A shawl from the top down: three stitches of a garter tab, four increases in every second
   row. Common practice, no source.
.. [3] Its wingspan is geometry: each half is a triangle whose base is half of the last row; the
   top edge is its two inner sides in one line.
"""

from dataclasses import dataclass
from math import hypot, sqrt

from yarncolor.plan import Fabric
from yarncolor.yarn.knitting import KS, loop_from_swatch_cm, loop_length_cm, usual_loop_cm

ROWS_TO_STITCHES = 1.3
"""Rows to stitches in 10 cm of plain knitting, where the rows were not counted [1]_."""
INCREASES_PER_ROW = 2.0
"""Of a triangle from the top down [2]_."""
CAST_ON_OF_TRIANGLE = 3
"""Stitches, where only its wingspan is known [2]_."""
LEAST_GAUGE, MOST_GAUGE = 1.0, 100.0
"""Stitches in 10 cm that a guess keeps to."""


@dataclass(frozen=True)
class Gauge:
    """Stitches and rows in 10 cm.

    Parameters
    ----------
    stitches_per_10cm, rows_per_10cm : float
        As counted, or as they follow.
    by : str
        The key that it follows from; empty for a guess by the yarn's thickness.
    """

    stitches_per_10cm: float
    rows_per_10cm: float
    by: str

    @property
    def is_guess(self) -> bool:
        """Whether it is neither counted nor follows from what was."""
        return not self.by


@dataclass(frozen=True)
class KnittedSize:
    """A knitted piece by its stitches and rows; ``rows`` is None where as many as the yarn gives.

    ``loop_cm`` is the finished yarn in a stitch.
    """

    stitches: int
    rows: int | None
    gauge: Gauge
    loop_cm: float


def knitted_size(fabric: Fabric, finished_tex: float) -> KnittedSize | None:
    """Return the size of what a plan knits; None where it tells neither stitches nor width.

    Parameters
    ----------
    fabric : Fabric
        Table of the plan.
    finished_tex : float
        Of the finished yarn.
    """
    if fabric.stitches is None and fabric.width_cm is None:
        return None
    gauge = gauge_of(fabric, finished_tex)
    swatch_cm = _swatch_loop_cm(fabric, finished_tex)
    loop_cm = swatch_cm or loop_length_cm(gauge.stitches_per_10cm, gauge.rows_per_10cm)
    cast_on = fabric.stitches or _cast_on(fabric, gauge)
    rows = fabric.rows
    if rows is None and fabric.kind == "triangle" and fabric.width_cm is not None:
        rows = _rows_to_wingspan(fabric, cast_on, gauge)
    return KnittedSize(cast_on, rows, gauge, loop_cm)


def gauge_of(fabric: Fabric, finished_tex: float) -> Gauge:
    """Return the gauge of a plan: counted, by width and stitches, by rows, by a swatch, guessed.

    Parameters
    ----------
    fabric : Fabric
        Table of the plan.
    finished_tex : float
        Of the finished yarn.
    """
    stitches, by = _stitches_in_10_cm(fabric, finished_tex)
    return Gauge(stitches, fabric.gauge_rows or stitches * ROWS_TO_STITCHES, by)


def usual_gauge(finished_tex: float) -> float:
    """Return stitches in 10 cm of a fabric as tight as hands usually knit a yarn of so many tex."""
    return _stitches_of_loop(usual_loop_cm(finished_tex))


def increases_per_row(fabric: Fabric) -> float:
    """Return the stitches by which a row is longer than the one before: only a triangle grows."""
    if fabric.kind != "triangle":
        return 0.0
    given = fabric.increases_per_row
    return INCREASES_PER_ROW if given is None else given


def wingspan_cm(last_stitches: int, rows: int, gauge: Gauge) -> float:
    """Return the top edge of a triangle from the top down, laid out in one line [3]_.

    Parameters
    ----------
    last_stitches, rows : int
        Of its last row; in all.
    gauge : Gauge
        Stitches and rows in 10 cm.
    """
    return 2 * hypot(
        rows / gauge.rows_per_10cm * 10, last_stitches / gauge.stitches_per_10cm * 10 / 4
    )


def _stitches_in_10_cm(fabric: Fabric, finished_tex: float) -> tuple[float, str]:
    if fabric.gauge_stitches is not None:
        return fabric.gauge_stitches, "gauge_stitches"
    if fabric.width_cm is not None and fabric.stitches is not None and fabric.kind != "triangle":
        return fabric.stitches / fabric.width_cm * 10, "width_cm"
    if fabric.gauge_rows is not None:
        return fabric.gauge_rows / ROWS_TO_STITCHES, "gauge_rows"
    loop_cm = _swatch_loop_cm(fabric, finished_tex)
    if loop_cm is not None:
        return _stitches_of_loop(loop_cm), "swatch"
    return usual_gauge(finished_tex), ""


def _stitches_of_loop(loop_cm: float) -> float:
    """Return stitches in 10 cm of loops so long, rows to stitches as usual [1]_."""
    return min(max(10 * sqrt(KS / ROWS_TO_STITCHES) / loop_cm, LEAST_GAUGE), MOST_GAUGE)


def _swatch_loop_cm(fabric: Fabric, finished_tex: float) -> float | None:
    swatch = fabric.swatch
    if swatch is None:
        return None
    return loop_from_swatch_cm(swatch.stitches * swatch.rows, swatch.mass_g, finished_tex)


def _cast_on(fabric: Fabric, gauge: Gauge) -> int:
    width_cm, rows = fabric.width_cm or 0.0, fabric.rows
    if fabric.kind != "triangle":
        return max(1, round(width_cm / 10 * gauge.stitches_per_10cm))
    if rows is None:
        return CAST_ON_OF_TRIANGLE
    base_cm = 4 * sqrt(max(0.0, (width_cm / 2) ** 2 - (rows / gauge.rows_per_10cm * 10) ** 2))
    last = base_cm / 10 * gauge.stitches_per_10cm
    return max(1, round(last - increases_per_row(fabric) * (rows - 1)))


def _rows_to_wingspan(fabric: Fabric, cast_on: int, gauge: Gauge) -> int:
    """Return the rows after which a triangle is as wide as wanted: (a r)² + (b r + c)² = (w/2)²."""
    grows, half_cm = increases_per_row(fabric), (fabric.width_cm or 0.0) / 2
    quarter_cm = 10 / gauge.stitches_per_10cm / 4
    a, b, c = 10 / gauge.rows_per_10cm, grows * quarter_cm, (cast_on - grows) * quarter_cm
    square = a**2 + b**2
    inside = max(0.0, (b * c) ** 2 - square * (c**2 - half_cm**2))
    return max(1, round((sqrt(inside) - b * c) / square))
