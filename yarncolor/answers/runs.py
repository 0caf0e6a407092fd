"""Runs: consecutive fibre of one colour on a ply, and those that are longer than they should.

Where one of several alike ends, a run does.
"""

from dataclasses import dataclass

import numpy as np

from yarncolor.layout.layout import Layout

LONGEST_RATIO = 1.5
"""A run of the closing lot longer than this many median runs of its ply is a fault, unless
another lot has a run there that is as long."""
_HARDLY = 1e-300


@dataclass(frozen=True)
class Runs:
    """Runs of every ply, in spinning order: arrays of one length.

    Parameters
    ----------
    ply, lot : int arrays
        Counted from 0.
    start_m, end_m : arrays
        Metres of that single, from the start of spinning.
    pieces : int array
        Portions in the run.
    ratio : array
        Length over the median run of its ply.
    over_others : array
        Length over the longest run of another lot on its ply; without bound where there is none.
    meant : bool array
        The turn of a mirrored scheme, or the band at the end that closes once.
    """

    ply: np.ndarray
    lot: np.ndarray
    start_m: np.ndarray
    end_m: np.ndarray
    pieces: np.ndarray
    ratio: np.ndarray
    over_others: np.ndarray
    meant: np.ndarray


def runs(layout: Layout) -> Runs:
    """Return the runs of every ply."""
    portions = layout.portions
    starts_anew = np.diff(portions.ply, prepend=-1) != 0
    changes = (np.diff(portions.lot, prepend=-1) != 0) | (np.diff(portions.copy, prepend=0) != 0)
    first = np.flatnonzero(starts_anew | changes)
    end = np.append(first[1:], len(portions))
    ends_m = portions.ends_m
    start_m = np.where(starts_anew, 0.0, np.roll(ends_m, 1))[first]
    length = ends_m[end - 1] - start_m
    ply, lot = portions.ply[first], portions.lot[first]
    median = np.array([np.median(length[ply == k]) for k in range(ply[-1] + 1)])
    return Runs(
        ply=ply,
        lot=lot,
        start_m=start_m,
        end_m=ends_m[end - 1],
        pieces=end - first,
        ratio=length / median[ply],
        over_others=length / np.maximum(_longest_of_others_m(ply, lot, length), _HARDLY),
        meant=np.logical_or.reduceat(_meant_portions(layout), first),
    )


def listed(these: Runs, layout: Layout) -> np.ndarray:
    """Return the indices of runs of two or more portions, and of the band that closes once.

    Parameters
    ----------
    these : Runs
        Of a layout.
    layout : Layout
        The plan laid out.
    """
    band = these.meant & (layout.resolved.scheme_input.closing == "tail")
    return np.flatnonzero((these.pieces > 1) | band)


def at_fault(these: Runs, layout: Layout) -> np.ndarray:
    """Return which runs of a fractal's closing lot are too long and not meant: (runs,) bool.

    Parameters
    ----------
    these : Runs
        Of a layout.
    layout : Layout
        The plan laid out.
    """
    draft = layout.resolved.scheme_input
    if not draft.closes:
        return np.zeros(len(these.lot), dtype=bool)
    stands_out = these.over_others > 1 + 1e-9
    too_long = (these.ratio > LONGEST_RATIO * (1 + 1e-9)) & stands_out
    return np.asarray(too_long & (these.lot == draft.lot[0]) & ~these.meant)


def _longest_of_others_m(ply: np.ndarray, lot: np.ndarray, length_m: np.ndarray) -> np.ndarray:
    """Return, for each run, the longest run of another lot on its ply; 0 where there is none."""
    longest = np.zeros((int(ply[-1]) + 1, int(lot.max()) + 2))
    np.maximum.at(longest, (ply, lot), length_m)
    second, first = np.sort(longest, axis=1)[:, -2:].T
    own = longest.argmax(axis=1)[ply] == lot
    return np.asarray(np.where(own, second[ply], first[ply]))


def _meant_portions(layout: Layout) -> np.ndarray:
    draft = layout.resolved.scheme_input
    meant = draft.scheme.name == "mirrored" or draft.closing == "tail"
    if not meant:
        return np.zeros(len(layout.portions), dtype=bool)
    return np.asarray(layout.portions.place == draft.place[-1])
