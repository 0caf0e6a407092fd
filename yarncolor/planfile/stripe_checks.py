"""Checks of stripes: a knitted piece whose rows are known, and fibre for the first of them."""

from yarncolor.defaults import plies_of, scheme_name
from yarncolor.errors import quoted
from yarncolor.layout.resolved import resolve
from yarncolor.layout.striped import Striped, whole_piece
from yarncolor.plan import Fabric, Plan, Scheme
from yarncolor.plan.key import unit_slot
from yarncolor.plan.limits import MOST_PORTIONS
from yarncolor.planfile.given import GivenPlan
from yarncolor.planfile.reading import FaultIterator, Reading
from yarncolor.said import Amount, KeyName, lacking, said

_SIZE = ("kind", "stitches", "width_cm", "rows", "gauge_stitches", "gauge_rows", "swatch")


def faults(reading: Reading, given: GivenPlan) -> FaultIterator:
    """Return place and remedy of each fault of stripes beside their fabric and their lots.

    Whether the first stripe has fibre is looked at where nothing else of the file is at fault.

    Parameters
    ----------
    reading : Reading
        The file being read; every fault of what the yarn rests on is told.
    given : GivenPlan
        Its tables.
    """
    scheme, fabric = given.tables.scheme, given.tables.fabric
    if reading.any_bad(("scheme",), ("name", "stripes", "repeat", "copies")):
        return
    if scheme_name(scheme) != "stripes" or not scheme.stripes:
        return
    yield from _of_the_piece(reading, scheme, fabric)
    if not reading.faults:
        yield from _of_the_first(given.plan)


def _of_the_piece(reading: Reading, scheme: Scheme, fabric: Fabric) -> FaultIterator:
    if reading.any_bad(("fabric",), _SIZE):
        return
    if fabric.stitches is None and fabric.width_cm is None:
        remedy = lacking(
            "how wide the piece is, or how many stitches are cast on",
            "is missing; stripes need a knitted piece: give stitches cast on, or {width}",
            width=KeyName("fabric", "width_cm"),
        )
        yield ("fabric", "stitches"), remedy
    if not _has_gauge(fabric):
        remedy = lacking(
            "stitches in {ten_cm}, or a weighed swatch",
            "is missing; stripes fall on their rows by it: give stitches in {ten_cm}, or {swatch}",
            swatch=KeyName("fabric", "swatch"),
            ten_cm=unit_slot("ten_cm"),
        )
        yield ("fabric", "gauge_stitches"), remedy
    by_wingspan = fabric.kind == "triangle" and fabric.width_cm is not None
    if scheme.repeat and fabric.rows is None and not by_wingspan:
        remedy = lacking(
            "how many rows the piece has",
            "is missing; stripes go round until the piece is full: give its rows or rounds",
        )
        yield ("fabric", "rows"), remedy
    elif plies_of(scheme):
        yield from _too_many(scheme, fabric.rows)


def _has_gauge(fabric: Fabric) -> bool:
    """Return whether rows are known by what was counted or weighed, not by a guess."""
    counted = (fabric.gauge_stitches, fabric.gauge_rows, fabric.swatch)
    by_width = fabric.width_cm is not None and fabric.stitches is not None
    return counted != (None, None, None) or (by_width and fabric.kind != "triangle")


def _too_many(scheme: Scheme, rows: int | None) -> FaultIterator:
    heights, _ = whole_piece(scheme.stripes, rows if scheme.repeat else None)
    count = len(heights) * plies_of(scheme) * (scheme.copies or 1)
    if count > MOST_PORTIONS:
        yield (
            ("scheme", "stripes"),
            f"make {count:,} portions; at most {MOST_PORTIONS:,} can be planned",
        )


def _of_the_first(plan: Plan) -> FaultIterator:
    """Yield what the first stripe lacks: with nothing to spin there is no plan."""
    resolved = resolve(plan)
    laid = resolved.scheme_input.striped
    if laid is None or laid.count:
        return
    lot = laid.first_lacks or 0
    takes, has = _takes_g(laid, lot), laid.has_g[lot]
    remedy = said(
        "with its edges it takes {takes} of {lot}, which has {has} to divide; give it fewer "
        "rows, or more of the lot",
        takes=Amount(takes, "g", form=".4g"),
        lot=quoted(plan.names[lot]),
        has=Amount(has, "g", form=".4g"),
    )
    yield ("scheme", "stripes", 0), remedy


def _takes_g(laid: Striped, lot: int) -> float:
    return float(laid.first_takes_g[lot])
