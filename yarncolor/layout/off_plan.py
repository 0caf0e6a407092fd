"""How far the pieces of a ply have strayed from its rows as planned: where its colours change.

Lengths are metres of single. Along a ply the rows j = 1..n were planned to end at
P_j = p_1 + … + p_j, and end at S_j = x_1 + … + x_i, i the last piece that belongs to a row up to
j; P and S are the whole ply, h is the highest row that lies on the bobbin.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.bobbin_pieces import BobbinPieces
from yarncolor.layout.turned_round import put_right_by_winding
from yarncolor.layout.winding import Strands

_NEAR = 1e-9
"""Parts of a single's length that are nothing."""


@dataclass(frozen=True, eq=False)
class PlyState:
    """One ply: its rows as planned, and the pieces that lie there or are to be spun.

    Parameters
    ----------
    planned_m : (n,) array
        Length of each row as planned.
    planned_lot : (n,) int array
        Its lot as planned.
    length_m : (q,) array
        Length of each piece, in the order spun.
    after_row : (q,) int array
        Row, from 1, that each piece belongs to; 0 for pieces before the first.
    spun : (q,) bool array
        Whether it lies on the bobbin.
    turned : bool
        Whether what was spun first comes off first: wound off an odd number of times.
    is_put_right : bool
        Whether it was spun in reverse and is wound so that it comes off as planned; it is told
        then as if it were spun in order and wound as planned.
    """

    planned_m: NDArray[np.float64]
    planned_lot: NDArray[np.int64]
    length_m: NDArray[np.float64]
    after_row: NDArray[np.int64]
    spun: NDArray[np.bool_]
    turned: bool
    is_put_right: bool = False

    @cached_property
    def planned_at_m(self) -> NDArray[np.float64]:
        """Where each row was planned to end, from the start of spinning; 0 first: (n + 1,)."""
        return np.append(0.0, np.cumsum(self.planned_m))

    @cached_property
    def lies_at_m(self) -> NDArray[np.float64]:
        """Where each row ends; first where what lies before row 1 ends: (n + 1,)."""
        ends_m = np.append(0.0, np.cumsum(self.length_m))
        least_from_here = np.minimum.accumulate(self.after_row[::-1])[::-1]
        rows = np.arange(len(self.planned_m) + 1)
        at_m: NDArray[np.float64] = ends_m[np.searchsorted(least_from_here, rows, "right")]
        return at_m

    @cached_property
    def changes(self) -> NDArray[np.int64]:
        """Rows j after which the plan changes colour."""
        changes: NDArray[np.int64] = np.flatnonzero(np.diff(self.planned_lot)) + 1
        return changes

    @property
    def is_finished(self) -> bool:
        """Whether nothing of it is to be spun."""
        return bool(self.spun.all())

    @property
    def highest_row(self) -> int:
        """The highest row that lies on the bobbin; the last where nothing is to be spun."""
        if self.is_finished:
            return len(self.planned_m)
        return int(self.after_row[self.spun].max(initial=0))

    @property
    def single_m(self) -> float:
        """Length of the whole ply."""
        return float(self.length_m.sum())

    @property
    def spun_m(self) -> float:
        """Length of what lies on the bobbin."""
        return float(self.length_m[self.spun].sum())

    @cached_property
    def shifts_m(self) -> NDArray[np.float64]:
        """How far each colour change lies from its planned place along what comes off: (changes,).

        (P - P_j) against (S - S_j) where what was spun last comes off first, else P_j against S_j;
        above 0 where it comes later than planned.
        """
        planned_m, lies_m = self.planned_at_m, self.lies_at_m
        if not self.turned:
            planned_m, lies_m = planned_m[-1] - planned_m, self.single_m - lies_m
        shifts_m: NDArray[np.float64] = (lies_m - planned_m)[self.changes]
        return shifts_m

    @property
    def correction_m(self) -> float:
        """Metres that, spun next, put the colour changes on the bobbin back to their places.

        Where what was spun last comes off first, every change is moved by σ_j, the metres spun
        after it less those planned between it and row h: of 0 and the -σ_j the one, c, that makes
        the sum of all σ_j + c, without their signs, least; of equals the smallest. Else by
        P_h - S_h, which puts what follows back.
        """
        h = self.highest_row
        if self.turned:
            return float(self.planned_at_m[h] - self.spun_m)
        spun_after_m = self.spun_m - self.lies_at_m
        moved = (spun_after_m - (self.planned_at_m[h] - self.planned_at_m))[self.changes]
        moved = moved[self.changes <= h]
        tried = np.append(0.0, -moved)
        tried = tried[np.argsort(np.abs(tried), kind="stable")]
        off_m = np.abs(moved[:, None] + tried).sum(axis=0)
        near = _NEAR * self.planned_at_m[-1] * (1 + len(moved))
        return float(tried[np.argmax(off_m <= off_m.min() + near)])


def ply_states(wheel: BobbinPieces, wound_off: NDArray[np.int64]) -> list[PlyState]:
    """Return each ply as planned and as it stands.

    Parameters
    ----------
    wheel : BobbinPieces
        What lies on the bobbins and what is to be spun.
    wound_off : (singles,) int array
        How often each single is wound off before plying.
    """
    put_right = put_right_by_winding(wheel, wound_off)
    states = []
    for k, wound in enumerate(wound_off.tolist()):
        rows, own = wheel.planned.of_ply(k), wheel.pieces.of_ply(k)
        order = slice(None, None, -1 if k in put_right else 1)
        state = PlyState(
            planned_m=wheel.planned.length_m[rows],
            planned_lot=wheel.planned.lot[rows],
            length_m=wheel.pieces.length_m[own][order],
            after_row=wheel.after_row[own][order],
            spun=wheel.spun[own][order],
            turned=bool(wound % 2) ^ (k in put_right),
            is_put_right=k in put_right,
        )
        states.append(state)
    return states


def largest_shift_m(states: Iterable[PlyState]) -> float:
    """Return how far the colour change that strayed farthest lies from its place: 0 for none."""
    return max((float(np.abs(state.shifts_m).max(initial=0.0)) for state in states), default=0.0)


def kept_share(planned: Strands, now: Strands) -> float:
    """Return the share of a planned yarn that another keeps, over all plies.

    A ply keeps what shows its planned lot at its planned place from where plying begins; beyond
    the other yarn's end nothing is kept.

    Parameters
    ----------
    planned, now : Strands
        What comes off each bobbin, in that order.
    """
    kept_m, planned_m = 0.0, _yarn_m(planned)
    reach_m = min(planned_m, _yarn_m(now))
    plies = len(planned.starts) - 1
    for k in range(plies):
        old, new = _along(planned, k), _along(now, k)
        edges_m = np.unique(np.minimum(np.concatenate([[0.0], old.ends_m, new.ends_m]), reach_m))
        middle_m = (edges_m[1:] + edges_m[:-1]) / 2
        kept_m += float(np.diff(edges_m)[old.lot_at(middle_m) == new.lot_at(middle_m)].sum())
    return kept_m / (plies * planned_m)


@dataclass(frozen=True, eq=False)
class _Along:
    """One strand: where each piece ends, and its lot."""

    ends_m: NDArray[np.float64]
    lot: NDArray[np.int64]

    def lot_at(self, at_m: NDArray[np.float64]) -> NDArray[np.int64]:
        """Return the lot at metres of what comes off."""
        at = np.searchsorted(self.ends_m, at_m, "right")
        lot: NDArray[np.int64] = self.lot[np.minimum(at, len(self.lot) - 1)]
        return lot


def _along(strands: Strands, k: int) -> _Along:
    own = slice(strands.starts[k], strands.starts[k + 1])
    return _Along(np.cumsum(strands.length_m[own]), strands.lot[own])


def _yarn_m(strands: Strands) -> float:
    return min(float(_along(strands, k).ends_m[-1]) for k in range(len(strands.starts) - 1))
