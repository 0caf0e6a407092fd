"""The card's rows: one portion each, what is weighed of it, and what is meant."""

from dataclasses import dataclass

import numpy as np

from yarncolor.answers import by_hand
from yarncolor.answers.answer import Answer
from yarncolor.layout.schemes import closing_in_force
from yarncolor.phrases import grams

_PIECES = {"halve": "half", "share": "equal"}


@dataclass(frozen=True)
class Row:
    """One portion as it is spun.

    Parameters
    ----------
    number : int
        From 1, in spinning order.
    lot : int
        Index of the lot in the stash.
    weigh, words, so_far : str
        Grams, how hands divide it, and the running total; no grams for a piece of a heap.
    again : bool
        Whether the lot goes on from the row before.
    piece : str
        "half", "equal" or "band" where the way of closing made the piece what it is.
    """

    number: int
    lot: int
    weigh: str
    words: str
    so_far: str
    again: bool
    piece: str


@dataclass(frozen=True)
class Heap:
    """Fibre of one lot that is weighed once and divided by hand; no grams for a pinch."""

    lot: int
    weigh: str
    words: str


def put_g(answer: Answer) -> np.ndarray:
    """Return grams of each portion as they leave the scale; of a heap, its piece: (N,)."""
    portions, heaps = answer.layout.portions, answer.heaps
    put, heaped = portions.weigh_g.copy(), heaps.group >= 0
    of = heaps.group[heaped]
    whole = np.bincount(of, portions.mass_g[heaped], len(heaps.ply))
    put[heaped] = portions.mass_g[heaped] / whole[of] * heaps.weigh_g[of]
    return put


def rows_of(answer: Answer, own: slice) -> list[Row]:
    """Return the rows of one ply, given the slice of its portions."""
    portions, step = answer.layout.portions, answer.resolved.step_g
    from_heap, pieces = _words_from_heaps(answer, own), _pieces(answer, own)
    so_far = np.cumsum(np.nan_to_num(portions.weigh_g[own]))
    again = np.diff(portions.lot[own], prepend=-1) == 0
    return [
        Row(
            number=row + 1,
            lot=int(portions.lot[at]),
            weigh="" if at in from_heap else grams(portions.weigh_g[at], step),
            words=from_heap.get(at, answer.words[at]),
            so_far="" if at in from_heap else grams(so_far[row], step),
            again=bool(again[row]),
            piece=pieces[row],
        )
        for row, at in enumerate(range(own.start, own.stop))
    ]


def heaps_of(answer: Answer, own: slice) -> list[Heap]:
    """Return the heaps of one ply, given the slice of its portions."""
    heaps, step = answer.heaps, answer.resolved.step_g
    return [
        Heap(
            lot=int(heaps.lot[heap]),
            weigh=grams(heaps.weigh_g[heap], step) if heaps.weigh_g[heap] else "",
            words=by_hand.heap_words(heaps.weigh_g[heap], masses),
        )
        for heap, _, masses in _heaped(answer, own)
    ]


def is_band(answer: Answer, own: slice) -> np.ndarray:
    """Return which portions of a ply are the band that closes once: none on a single repeat."""
    draft, portions = answer.resolved.scheme_input, answer.layout.portions
    if closing_in_force(draft) != "tail" or portions.repeat[own].max() == 1:
        return np.zeros(own.stop - own.start, dtype=bool)
    return portions.place[own] == draft.place[-1]


def _pieces(answer: Answer, own: slice) -> list[str]:
    draft, place = answer.resolved.scheme_input, answer.layout.portions.place[own]
    kind = _PIECES.get(closing_in_force(draft))
    if kind is None:
        return ["band" if last else "" for last in is_band(answer, own)]
    return [kind if at in (draft.place[0], draft.place[-1]) else "" for at in place]


def _heaped(answer: Answer, own: slice) -> list[tuple[int, np.ndarray, np.ndarray]]:
    """Return the heaps of a ply: number, its portions, their masses."""
    of, masses = answer.heaps.group[own], answer.layout.portions.mass_g[own]
    return [
        (int(heap), np.flatnonzero(of == heap) + own.start, masses[of == heap])
        for heap in np.unique(of[of >= 0])
    ]


def _words_from_heaps(answer: Answer, own: slice) -> dict[int, str]:
    """Return for each portion of a heap what part of it that is."""
    words = {}
    for _, portions, masses in _heaped(answer, own):
        pieces = len(masses)
        equal = "all of it" if pieces == 1 else f"1 of {pieces} pieces"
        alike = np.ptp(masses) <= 1e-9 * masses.max()
        for at, share in zip(portions.tolist(), masses / masses.sum(), strict=True):
            words[at] = equal if alike else f"about {share:.0%} of it"
    return words
