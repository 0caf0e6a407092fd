"""The weigh-out: what goes on the scale for each single, in spinning order; all show this one."""

from dataclasses import dataclass

import numpy as np

from yarncolor.answers.by_hand import HandDivision
from yarncolor.answers.on_the_scale import heap_of_each, singly_g
from yarncolor.layout.layout import Layout
from yarncolor.layout.portions import NO_PLACE, along_plies
from yarncolor.layout.weighing import WeighGroups

SPUN, TO_SPIN = "spun", "to_spin"
_TOLERANCE = 1e-9


@dataclass(frozen=True, eq=False)
class Heap:
    """Fibre of one lot on one ply that is weighed once and divided by hand.

    Parameters
    ----------
    ply, lot : int
        Both counted from 0.
    weigh_g : float
        Grams on the scale; 0 for a pinch that the scale cannot show.
    portion : (P,) int array
        The rows that are its pieces, indices into the rows as planned, rising.
    mass_g : (P,) array
        Grams of each piece, unrounded.
    """

    ply: int
    lot: int
    weigh_g: float
    portion: np.ndarray
    mass_g: np.ndarray

    @property
    def is_pinch(self) -> bool:
        """Whether the scale cannot show it."""
        return not self.weigh_g

    @property
    def is_equal(self) -> bool:
        """Whether all its pieces are alike."""
        return bool(np.ptp(self.mass_g) <= _TOLERANCE * self.mass_g.max())


@dataclass(frozen=True)
class HeapPiece:
    """Which piece, counted from 0, of which heap."""

    heap: Heap
    piece: int


@dataclass(frozen=True)
class Row:
    """One portion, weighed singly or a piece of a heap.

    Parameters
    ----------
    at : int
        Index into the plan's portions.
    number : int
        Row of its ply's page, from 1, in spinning order; 0 for a piece that is no row.
    lot : int
        Index in the stash.
    place : int or None
        In the sequence, from 1; None where the scheme has none.
    repeat : int
        Pass through the sequence, from 1.
    copy : int
        Which of several alike, from 1.
    begins_repeat : bool
        Whether another pass than that of the row before begins here, or another copy.
    mass_g : float
        Unrounded.
    weigh_g : float or None
        Grams on the scale; None for a piece of a heap.
    running_g : float
        Grams weighed singly from the beginning of the single up to this row: no heaps.
    on_bobbin_g : float
        Grams on the bobbin in use when this row is spun, pieces of heaps counted where they fall.
    start_m, end_m : float
        Along the single, from the start of spinning.
    by_hand : HandDivision
        How hands divide it.
    from_heap : HeapPiece or None
        None where it is weighed singly, or was spun.
    state : str or None
        "spun" or "to_spin"; None where nothing is said of spinning.
    """

    at: int
    number: int
    lot: int
    place: int | None
    repeat: int
    copy: int
    begins_repeat: bool
    mass_g: float
    weigh_g: float | None
    running_g: float
    on_bobbin_g: float
    start_m: float
    end_m: float
    by_hand: HandDivision
    from_heap: HeapPiece | None
    state: str | None

    @property
    def is_spun(self) -> bool:
        """Whether it lies on the bobbin already."""
        return self.state == SPUN


@dataclass(frozen=True)
class SingleWeighOut:
    """What is weighed for one single: its portions in spinning order, then its heaps.

    A heap stands while a piece of it is to be spun.
    """

    ply: int
    rows: tuple[Row, ...]
    heaps: tuple[Heap, ...]


def weigh_out(
    laid: Layout,
    groups: WeighGroups,
    by_hand: tuple[HandDivision, ...],
    on_bobbin_g: np.ndarray,
) -> tuple[SingleWeighOut, ...]:
    """Return what is weighed for each single, ply after ply.

    Parameters
    ----------
    laid : Layout
        The plan laid out and weighed.
    groups : WeighGroups
        What is weighed together.
    by_hand : tuple of HandDivision
        How hands divide each portion.
    on_bobbin_g : (N,) array
        Grams on the bobbin in use when each portion is spun.
    """
    heaps = _heaps(laid, groups)
    rows = _rows(laid, by_hand, on_bobbin_g, heaps)
    return tuple(
        SingleWeighOut(k, rows[laid.portions.of_ply(k)], tuple(h for h in heaps if h.ply == k))
        for k in range(len(laid.resolved.tex))
    )


def _heaps(laid: Layout, groups: WeighGroups) -> list[Heap]:
    masses, stands = laid.planned.mass_g, heap_of_each(laid, groups)
    return [
        Heap(
            ply=int(groups.ply[at]),
            lot=int(groups.lot[at]),
            weigh_g=float(groups.weigh_g[at]),
            portion=np.flatnonzero(groups.group == at),
            mass_g=masses[groups.group == at],
        )
        for at in np.unique(stands[stands >= 0])
    ]


def _rows(
    laid: Layout,
    by_hand: tuple[HandDivision, ...],
    on_bobbin_g: np.ndarray,
    heaps: list[Heap],
) -> tuple[Row, ...]:
    portions = laid.portions
    first = np.arange(len(portions)) == portions.starts[portions.ply]
    start_m = np.where(first, 0.0, portions.ends_m - portions.length_m)
    anew = portions.begins_pass & ~first
    running = along_plies(singly_g(laid), portions.starts)
    pieces = {
        int(at): HeapPiece(heap, piece) for heap in heaps for piece, at in enumerate(heap.portion)
    }
    ends_m, number, planned = portions.ends_m, laid.row, laid.of_planned
    in_sequence = (portions.place != NO_PLACE) & bool(laid.resolved.scheme.sequence)
    states = None if laid.wheel is None else np.where(laid.to_spin, TO_SPIN, SPUN).tolist()
    return tuple(
        Row(
            at=at,
            number=int(number[at]),
            lot=int(portions.lot[at]),
            place=int(portions.place[at]) if in_sequence[at] else None,
            repeat=int(portions.repeat[at]),
            copy=int(portions.copy[at]),
            begins_repeat=bool(anew[at]),
            mass_g=float(portions.mass_g[at]),
            weigh_g=None if np.isnan(portions.weigh_g[at]) else float(portions.weigh_g[at]),
            running_g=float(running[at]),
            on_bobbin_g=float(on_bobbin_g[at]),
            start_m=float(start_m[at]),
            end_m=float(ends_m[at]),
            by_hand=by_hand[at],
            from_heap=pieces.get(int(planned[at])) if laid.to_spin[at] else None,
            state=states and states[at],
        )
        for at in range(len(portions))
    )
