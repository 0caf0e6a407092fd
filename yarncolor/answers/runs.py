"""Runs: consecutive fibre of one colour on a ply, and those that are longer than they should."""

from dataclasses import dataclass

import numpy as np

from yarncolor.layout.layout import Layout

LONGEST_RATIO = 1.5
"""A run of the closing lot longer than this many median runs of its ply is a fault."""


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
    meant : bool array
        The turn of a mirrored scheme, or the band at the end that closes once.
    """

    ply: np.ndarray
    lot: np.ndarray
    start_m: np.ndarray
    end_m: np.ndarray
    pieces: np.ndarray
    ratio: np.ndarray
    meant: np.ndarray


def runs(layout: Layout) -> Runs:
    """Return the runs of every ply."""
    portions = layout.portions
    starts_anew = np.diff(portions.ply, prepend=-1) != 0
    changes = np.diff(portions.lot, prepend=-1) != 0
    first = np.flatnonzero(starts_anew | changes)
    end = np.append(first[1:], len(portions))
    ends_m = portions.ends_m
    start_m = np.where(starts_anew, 0.0, np.roll(ends_m, 1))[first]
    length = ends_m[end - 1] - start_m
    ply = portions.ply[first]
    median = np.array([np.median(length[ply == k]) for k in range(ply[-1] + 1)])
    return Runs(
        ply=ply,
        lot=portions.lot[first],
        start_m=start_m,
        end_m=ends_m[end - 1],
        pieces=end - first,
        ratio=length / median[ply],
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
    too_long = these.ratio > LONGEST_RATIO * (1 + 1e-9)
    return np.asarray(too_long & (these.lot == draft.lot[0]) & ~these.meant)


def _meant_portions(layout: Layout) -> np.ndarray:
    draft = layout.resolved.scheme_input
    meant = draft.scheme.name == "mirrored" or draft.closing == "tail"
    if not meant:
        return np.zeros(len(layout.portions), dtype=bool)
    return np.asarray(layout.portions.place == draft.place[-1])
