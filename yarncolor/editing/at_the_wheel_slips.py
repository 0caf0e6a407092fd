"""A slip by its name, on a row or a ply: the plan that says so."""

from collections.abc import Callable

from yarncolor.editing.at_the_wheel_pieces import with_pieces
from yarncolor.editing.slips import (
    CLOSED_LATE,
    IN_REVERSE,
    LEFT_OUT,
    OTHER_TWIST,
    SWAP_LATE,
    SWAPPED,
    closed_once_from_here,
    in_reverse,
    left_out,
    other_twist,
    swapped,
    swapped_from_here,
    wound_once_more,
)
from yarncolor.plan import Plan

WOUND_ONCE_MORE = "wound_once_more"
"""What puts a ply right that was spun in reverse."""
NOT_SPUN = "not_spun"
"""That nothing lies on a ply's bobbin after all."""


def after_slip(plan: Plan, slip: str, ply: int, row: int) -> Plan:
    """Return the plan that says what happened; the same where that is no slip.

    Parameters
    ----------
    plan : Plan
        As it is.
    slip : str
        As `slips.SLIPS` has it, or `WOUND_ONCE_MORE`, or `NOT_SPUN`.
    ply, row : int
        From 1; a swap is with the next row. The row is 0 where none matters.
    """
    if slip in _OF_A_ROW:
        return _OF_A_ROW[slip](plan, ply, row) if row else plan
    if slip in _OF_ALL:
        return _OF_ALL[slip](plan)
    return _OF_A_PLY[slip](plan, ply) if slip in _OF_A_PLY else plan


_OF_A_ROW: dict[str, Callable[[Plan, int, int], Plan]] = {
    LEFT_OUT: left_out,
    SWAPPED: lambda plan, ply, row: swapped(plan, ply, row, row + 1),
}
_OF_ALL: dict[str, Callable[[Plan], Plan]] = {
    CLOSED_LATE: closed_once_from_here,
    SWAP_LATE: swapped_from_here,
}
_OF_A_PLY: dict[str, Callable[[Plan, int], Plan]] = {
    IN_REVERSE: in_reverse,
    OTHER_TWIST: other_twist,
    WOUND_ONCE_MORE: wound_once_more,
    NOT_SPUN: lambda plan, ply: with_pieces(plan, ply, ()),
}
