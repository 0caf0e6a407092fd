"""Ways to go on from what lies on the bobbins: each a function from pieces to pieces.

`WAYS` is the table. Rows to spin and pieces keep their own grist; grams follow from metres.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.bobbin_pieces import BobbinPieces
from yarncolor.layout.off_plan import PlyState, ply_states
from yarncolor.layout.pieces_changed import ExtraPiece, ends_drawn_off, relaid, with_extra

_NOTHING = 1e-9
"""Parts of a ply that are nothing."""

_LACKING = 1e-8
"""A row lacks grams from this part of all that was planned on."""


@dataclass(frozen=True, eq=False)
class AtWheel:
    """What a way to go on starts from.

    Parameters
    ----------
    wheel : BobbinPieces
        What lies on the bobbins and what is to be spun.
    wound_off : (singles,) int array
        How often each single is wound off before plying.
    spin_loss : float
        Share of mass lost in spinning.
    """

    wheel: BobbinPieces
    wound_off: NDArray[np.int64]
    spin_loss: float

    @cached_property
    def plies(self) -> list[PlyState]:
        """Each ply as planned and as it stands."""
        return ply_states(self.wheel, self.wound_off)

    def to_spin(self, k: int) -> NDArray[np.int64]:
        """Return the pieces of a ply that are to be spun, as indices into all."""
        own = self.wheel.pieces.of_ply(k)
        to_spin: NDArray[np.int64] = own.start + np.flatnonzero(~self.wheel.spun[own])
        return to_spin


def carry_on(start: AtWheel) -> BobbinPieces:
    """Return the pieces as they are."""
    return start.wheel


def in_step(start: AtWheel) -> BobbinPieces:
    """Return the rows to spin at their planned metres, the next ones corrected.

    What is lacking is added to the next row; what is too much is taken off the next rows, the
    first wholly before the second.
    """
    length_m = start.wheel.pieces.length_m.copy()
    for k, state in enumerate(start.plies):
        if not state.is_finished:
            length_m[start.to_spin(k)] = _corrected(start, k)
    return relaid(start.wheel, length_m)


def _corrected(start: AtWheel, k: int) -> NDArray[np.float64]:
    wheel, state, at = start.wheel, start.plies[k], start.to_spin(k)
    row = wheel.row[at]
    length_m = np.where(row > 0, state.planned_m[row - 1], wheel.pieces.length_m[at])
    to_come_m = state.planned_at_m[-1] - state.planned_at_m[state.highest_row]
    change_m = state.correction_m + to_come_m - length_m.sum()
    if change_m > 0:
        length_m[np.argmax(row > 0)] += change_m
        return length_m
    gone_m = np.minimum(np.cumsum(length_m), -change_m)
    return np.asarray(length_m - np.diff(gone_m, prepend=0.0))


def run_out(start: AtWheel) -> BobbinPieces:
    """Return the rows to spin of each ply scaled so that all plies end together."""
    finished = [state.single_m for state in start.plies if state.is_finished]
    length_m = start.wheel.pieces.length_m.copy()
    for k, state in enumerate(start.plies):
        end_m = min(finished, default=float(state.planned_at_m[-1]))
        if not state.is_finished and state.spun_m < end_m:
            at = start.to_spin(k)
            length_m[at] *= (end_m - state.spun_m) / length_m[at].sum()
    return relaid(start.wheel, length_m)


def pull_off(start: AtWheel) -> BobbinPieces:
    """Return the pieces without what is drawn off the outer ends of finished bobbins."""
    return ends_drawn_off(start.wheel, pulled_off_m(start))


def pulled_off_m(start: AtWheel) -> NDArray[np.float64]:
    """Return metres to draw off each ply's outer end before plying: (singles,)."""
    return np.array([_pulled_off_m(state) for state in start.plies])


def _pulled_off_m(state: PlyState) -> float:
    if not state.is_finished or state.turned or state.is_put_right:
        return 0.0
    return max(0.0, -state.correction_m)


def make_up(start: AtWheel) -> BobbinPieces:
    """Return the pieces with what the bobbins lack of their planned grams, to be spun next."""
    planned, lacks_g = start.wheel.planned, _lacking_g(start.wheel)
    extra = [
        ExtraPiece(
            ply=int(planned.ply[at]),
            lot=int(planned.lot[at]),
            mass_g=float(lacks_g[at]),
        )
        for at in np.flatnonzero(lacks_g > _LACKING * planned.mass_g.sum())
    ]
    lying = np.array([state.spun.sum() for state in start.plies])
    return with_extra(start.wheel, extra, lying, start.spin_loss)


def _lacking_g(wheel: BobbinPieces) -> NDArray[np.float64]:
    """Return what is too little of each row that should lie on the bobbins: (R,).

    What was asked for beside the rows makes up for it.
    """
    named = wheel.spun & (wheel.row > 0)
    at, wanted_g = wheel.of_planned[named], wheel.wanted_g
    lacks_g = np.where(wheel.left_out, wanted_g, 0.0)
    lacks_g[at] = np.maximum(wanted_g[at] - wheel.pieces.mass_g[named], 0.0)
    if wheel.asked is None:
        return lacks_g
    for (ply, lot), mass_g in np.ndenumerate(wheel.asked.extra_g):
        own = (wheel.planned.ply == ply) & (wheel.planned.lot == lot)
        total_g = np.minimum(np.cumsum(lacks_g[own]), mass_g)
        lacks_g[own] -= np.diff(total_g, prepend=0.0)
    return lacks_g


def follow(start: AtWheel) -> BobbinPieces:
    """Return the plies to spin with the surplus of the finished one at the same place.

    Of several finished plies it is the one that strayed farthest.
    """
    finished = [state for state in start.plies if state.is_finished]
    length_m = start.wheel.pieces.length_m.copy()
    led = max(finished, key=_strayed_m, default=None)
    if led is None or _strayed_m(led) <= _NOTHING * led.planned_at_m[-1]:
        return start.wheel
    for k, state in enumerate(start.plies):
        at = start.to_spin(k)
        row = start.wheel.row[at]
        wanted_m = np.abs(np.diff(_led_to_m(led, _off_m(state, state.planned_at_m))))
        length_m[at] = np.where(row > 0, wanted_m[row - 1], length_m[at])
    return relaid(start.wheel, length_m)


def _strayed_m(state: PlyState) -> float:
    return float(np.abs(state.lies_at_m - state.planned_at_m)[1:].max())


def _off_m(state: PlyState, spun_at_m: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the places along what comes off of planned places along the spinning."""
    return spun_at_m if state.turned else spun_at_m[-1] - spun_at_m


def _led_to_m(led: PlyState, off_m: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return where, along what comes off, a ply shows what it was to show at planned places."""
    lies_m = led.lies_at_m.copy()
    lies_m[0] = 0.0
    planned_m = _off_m(led, led.planned_at_m)
    now_m = lies_m if led.turned else lies_m[-1] - lies_m
    order = np.argsort(planned_m)
    beyond_m = np.maximum(off_m - led.planned_at_m[-1], 0.0)
    at_m: NDArray[np.float64] = np.interp(off_m, planned_m[order], now_m[order]) + beyond_m
    return at_m


WAYS: dict[str, Callable[[AtWheel], BobbinPieces]] = {
    "carry_on": carry_on,
    "in_step": in_step,
    "run_out": run_out,
    "pull_off": pull_off,
    "make_up": make_up,
    "follow": follow,
}
