"""Whether what has strayed on the bobbins matters: what it moves, and what it does not."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from yarncolor.layout.off_plan import PlyState

_SEEN_M = 0.05
"""A colour that changes nearer to its place than this is where it was planned, to any eye."""


@dataclass(frozen=True)
class Matters:
    """What has strayed farthest, what that moves, and how the yarn stands.

    Parameters
    ----------
    ply : int or None
        The ply that strayed farthest, counted from 0; None where all is as planned.
    surplus_m : float
        Metres that lie on its bobbin too many; below 0 too few.
    turned : bool
        Whether what was spun first on it comes off first.
    shift_m : float
        By how much its colour change that strayed farthest comes later; below 0 sooner.
    moved, changes : int
        How many of its colour changes are moved, of how many.
    is_block : bool
        Whether those moved are all that come off behind one place, none before it.
    is_reordered : bool
        Whether a row lies on its bobbin after a later one.
    is_decided : bool
        Whether something was decided at the wheel, in place of the plan's own rows.
    as_planned : float
        Share of the planned yarn that is kept if nothing is done.
    yarn_m : float
        Length of the yarn if nothing is done.
    longer_m : float
        How much that is more than planned.
    """

    ply: int | None
    surplus_m: float
    turned: bool
    shift_m: float
    moved: int
    changes: int
    is_block: bool
    is_reordered: bool
    is_decided: bool
    as_planned: float
    yarn_m: float
    longer_m: float


def matters(
    plies: Sequence[PlyState],
    as_planned: float,
    yarn_m: float,
    planned_m: float,
    *,
    is_decided: bool,
) -> Matters:
    """Return whether what has strayed matters.

    Parameters
    ----------
    plies : sequence of PlyState
        As they stand.
    as_planned : float
        Share of the planned yarn that is kept if nothing is done.
    yarn_m, planned_m : float
        Length of the yarn then, and as planned.
    is_decided : bool
        Whether something was decided at the wheel.
    """
    worst = max(range(len(plies)), key=lambda k: _strayed_m(plies[k]))
    ply = plies[worst]
    shifts = ply.shifts_m
    farthest = shifts[np.argmax(np.abs(shifts))] if len(shifts) else 0.0
    is_moved = np.abs(shifts) > _SEEN_M
    as_they_come = is_moved if ply.turned else is_moved[::-1]
    return Matters(
        ply=worst if max(_strayed_m(ply)) > _SEEN_M else None,
        surplus_m=_surplus_m(ply),
        turned=ply.turned,
        shift_m=float(farthest),
        moved=int(is_moved.sum()),
        changes=len(shifts),
        is_block=bool((np.diff(as_they_come.astype(int)) >= 0).all()),
        is_reordered=bool((np.diff(ply.after_row) < 0).any()),
        is_decided=is_decided,
        as_planned=as_planned,
        yarn_m=yarn_m,
        longer_m=yarn_m - planned_m,
    )


def _surplus_m(ply: PlyState) -> float:
    return float(ply.spun_m - ply.planned_at_m[ply.highest_row])


def _strayed_m(ply: PlyState) -> tuple[float, float]:
    """Return how far a ply's colours strayed, then how far its end did."""
    off_end_m = abs(float(ply.single_m - ply.planned_at_m[-1]))
    return float(np.abs(ply.shifts_m).max(initial=0.0)), off_end_m
