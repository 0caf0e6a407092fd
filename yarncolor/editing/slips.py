"""Slips at the wheel: the plan that says what happened, so that its answer says what to do.

Plies and rows are counted from 1, as on a bobbin's page.
"""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from yarncolor.defaults import scheme_name
from yarncolor.editing.at_the_wheel_pieces import pieces_on, with_pieces
from yarncolor.errors import fail
from yarncolor.layout.layout import Layout, layout
from yarncolor.layout.portions import Portions
from yarncolor.layout.resolved import resolve
from yarncolor.plan import REVERSIBLE, FreePortion, Plan, Scheme, Spun

LEFT_OUT, TOO_MANY, SWAPPED, ANOTHER_LOT = "left_out", "too_many", "swapped", "another_lot"
IN_REVERSE, CLOSED_LATE, OTHER_TWIST = "in_reverse", "closed_late", "other_twist"
SWAP_LATE = "swap_late"
SLIPS = (
    *(LEFT_OUT, TOO_MANY, SWAPPED, ANOTHER_LOT, IN_REVERSE),
    *(CLOSED_LATE, SWAP_LATE, OTHER_TWIST),
)


def left_out(plan: Plan, ply: int, row: int) -> Plan:
    """Return the plan of which a row was left out; the one after it is spun.

    Parameters
    ----------
    plan : Plan
        As it is.
    ply, row : int
        From 1.
    """
    after = row + 1
    if after > _rows(plan, ply):
        fail("row", f"row {row} is the last of ply {ply}: it is still to be spun")
    reached = _spun_up_to(plan, ply, after)
    return with_pieces(plan, ply, [one for one in reached if one.row != row])


def too_many(plan: Plan, ply: int, lot: str, mass_g: float) -> Plan:
    """Return the plan of which a piece was spun last that no row asks for.

    Parameters
    ----------
    plan : Plan
        As it is.
    ply : int
        From 1.
    lot : str
        Its name.
    mass_g : float
        As weighed out.
    """
    extra = Spun(ply, lot=lot, mass_g=mass_g)
    return with_pieces(plan, ply, [*pieces_on(plan, ply), extra])


def swapped(plan: Plan, ply: int, row: int, other: int) -> Plan:
    """Return the plan of which two rows were spun each in the other's place.

    Parameters
    ----------
    plan : Plan
        As it is.
    ply, row, other : int
        From 1.
    """
    pieces = _spun_up_to(plan, ply, max(row, other))
    places = {one.row: at for at, one in enumerate(pieces)}
    for wanted in (row, other):
        if wanted not in places:
            fail("row", f"row {wanted} of ply {ply} was left out; only rows that lie there swap")
    one, two = places[row], places[other]
    pieces[one], pieces[two] = pieces[two], pieces[one]
    return with_pieces(plan, ply, pieces)


def another_lot(plan: Plan, ply: int, row: int, lot: str) -> Plan:
    """Return the plan of which another lot went into a row.

    Parameters
    ----------
    plan : Plan
        As it is.
    ply, row : int
        From 1.
    lot : str
        The name of what went in.
    """
    pieces = _spun_up_to(plan, ply, row)
    there = (replace(one, lot=lot) if one.row == row else one for one in pieces)
    return with_pieces(plan, ply, there)


def in_reverse(plan: Plan, ply: int) -> Plan:
    """Return the plan of which a ply was spun from the last row of its page to the first.

    Where the scheme knows of reversed plies the ply is one, and what is spun of it counts on its
    page turned round; else all its rows are named, the last first.

    Parameters
    ----------
    plan : Plan
        As it is.
    ply : int
        From 1.
    """
    if scheme_name(plan.scheme) in REVERSIBLE:
        turned = tuple(sorted({*plan.scheme.reversed_plies} ^ {ply}))
        return replace(plan, scheme=replace(plan.scheme, reversed_plies=turned))
    rows = range(_rows(plan, ply), 0, -1)
    return with_pieces(plan, ply, [Spun(ply, row) for row in rows])


def wound_once_more(plan: Plan, ply: int) -> Plan:
    """Return the plan of which a ply is wound to another bobbin once more before plying.

    The page of stripes is turned round with it, since they are spun so that the cast-on comes
    off first: each piece keeps its stripe.

    Parameters
    ----------
    plan : Plan
        As it is.
    ply : int
        From 1.
    """
    times = resolve(plan).wound_off.tolist()
    times[ply - 1] += 1
    wound = replace(plan, plying=replace(plan.plying, wound_off=tuple(times)))
    if scheme_name(plan.scheme) != "stripes":
        return wound
    last = _rows(plan, ply) + 1
    turned = (replace(one, row=one.row and last - one.row) for one in pieces_on(plan, ply))
    return with_pieces(wound, ply, turned)


def other_twist(plan: Plan, ply: int) -> Plan:
    """Return the plan of which a single was spun the other way round.

    Parameters
    ----------
    plan : Plan
        As it is.
    ply : int
        From 1.
    """
    yarn = resolve(plan).yarn
    ways = list(yarn.directions)
    ways[ply - 1] = "S" if ways[ply - 1] == "Z" else "Z"
    spinning = replace(plan.spinning, direction=tuple(ways))
    return replace(
        plan, spinning=spinning, plying=replace(plan.plying, direction=yarn.ply_direction)
    )


def closed_once_from_here(plan: Plan) -> Plan:
    """Return the plan whose sequence closes once, at the very end, as far as it is still to spin.

    At every meeting that is left one of the two pieces is laid aside and spun last. The rows are
    then the plan's own portions; those that are spun stay as they were planned.

    Raises
    ------
    PlanError
        Where no two pieces of the closing lot are left to meet.
    """
    return _closed_otherwise(plan, _closed_once)


def swapped_from_here(plan: Plan) -> Plan:
    """Return the plan whose last two pieces change places at every meeting still to be spun.

    Where those are spun, the first two after the meeting do. The rows are then the plan's own
    portions; those that are spun stay as they were planned.

    Raises
    ------
    PlanError
        Where no two pieces of the closing lot are left to meet, or none can change places.
    """
    return _closed_otherwise(plan, _swapped)


_Closed = Callable[[Portions, int], Portions]
"""From the rows of a ply, and how many of them are spun, to those that close otherwise."""


def _closed_otherwise(plan: Plan, closed: _Closed) -> Plan:
    laid = layout(resolve(plan))
    if not laid.resolved.scheme_input.closes:
        fail("closing", "the sequence does not close on the lot it began with")
    planned = laid.planned
    rows = [planned.take(np.arange(len(planned))[planned.of_ply(k)]) for k in _plies(laid)]
    then = [closed(one, _highest(laid, k)) for k, one in enumerate(rows)]
    if all(one is other for one, other in zip(rows, then, strict=True)):
        fail("closing", "every meeting is spun already; nothing is left to close otherwise")
    names = laid.resolved.plan.names
    portions = tuple(
        FreePortion(k + 1, names[lot], mass_g)
        for k, one in enumerate(then)
        for lot, mass_g in zip(one.lot.tolist(), one.mass_g.tolist(), strict=True)
    )
    free = Scheme(name="free", plies=len(then), portions=portions)
    kept = tuple(one for one in plan.to_spin if (one.row or 0) <= _highest(laid, one.ply - 1))
    return replace(plan, scheme=free, target=None, to_spin=kept)


def _plies(laid: Layout) -> range:
    return range(len(laid.resolved.tex))


def _closed_once(rows: Portions, highest: int) -> Portions:
    """Return the rows of which one of two that meet is spun at the very end."""
    last = np.searchsorted(rows.copy, rows.copy, side="right") - 1
    aside = [at + (at < highest) for at in _meetings(rows) if at + 1 >= highest]
    aside = [at for at in aside if at < last[at]]
    if not aside:
        return rows
    mass_g = rows.mass_g.copy()
    np.add.at(mass_g, last[aside], mass_g[aside])
    stays = np.setdiff1d(np.arange(len(rows)), aside)
    return replace(rows, mass_g=mass_g).take(stays)


def _swapped(rows: Portions, highest: int) -> Portions:
    """Return the rows of which two change places beside every meeting, where it parts the lot."""
    order, lot, closing = np.arange(len(rows)), rows.lot.copy(), rows.lot[-1]
    for at in _meetings(rows).tolist():
        for inner, outer, beyond in ((at - 1, at, at - 2), (at + 2, at + 1, at + 3)):
            to_spin = highest <= min(inner, outer) and 0 <= beyond < len(rows)
            if to_spin and closing not in (lot[inner], lot[beyond]):
                for each in (order, lot):
                    each[[inner, outer]] = each[[outer, inner]]
                break
    return rows if (order == np.arange(len(rows))).all() else rows.take(order)


def _meetings(rows: Portions) -> NDArray[np.int64]:
    """Return after which rows a repeat ends on the closing lot and the next begins with it."""
    closes = (rows.lot[1:] == rows.lot[:-1]) & (rows.lot[1:] == rows.lot[-1])
    return np.flatnonzero((np.diff(rows.repeat) != 0) & (np.diff(rows.copy) == 0) & closes)


def _highest(laid: Layout, k: int) -> int:
    """Return the highest row that lies on a bobbin, 0 for none."""
    return 0 if laid.wheel is None else laid.wheel.highest_row(k)


def _rows(plan: Plan, ply: int) -> int:
    planned = layout(resolve(plan)).planned
    own = planned.of_ply(ply - 1)
    return int(own.stop - own.start)


def _spun_up_to(plan: Plan, ply: int, row: int) -> list[Spun]:
    """Return what lies on a bobbin, and the rows up to one that are not named yet, as planned."""
    pieces = pieces_on(plan, ply)
    highest = max((one.row or 0 for one in pieces), default=0)
    return pieces + [Spun(ply, further) for further in range(highest + 1, row + 1)]
