"""What many orders are worth, by laying out and merging each: every scheme, any number of plies."""

from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.many_orders import plied_strands
from yarncolor.layout.portions import PlyPieces
from yarncolor.layout.schemes import ply_pieces
from yarncolor.layout.stretches import WHOLE_PPB, sections
from yarncolor.search.aims import CONTRAST, EVEN, MATCHED, SMOOTH, TWINS, TWINS_BELOW
from yarncolor.search.between import Between
from yarncolor.search.way import Way


def valued(
    way: Way, between: Between, measures: tuple[str, ...], orders: NDArray[np.int64]
) -> NDArray[np.float64]:
    """Return each measure of many orders: (V, measures).

    Parameters
    ----------
    way : Way
        Whose places are put in order.
    between : Between
        How far its lots are apart.
    measures : tuple of str
        Of `MEASURES`.
    orders : (V, E) int array
        For each order, the place from which each place has what stands there.
    """
    values = np.empty((len(orders), len(measures)))
    for alike, given in way.scheme_inputs(orders):
        pieces = ply_pieces(given)
        found: dict[str, NDArray[np.float64]] = {}
        if SMOOTH in measures:
            found[SMOOTH] = _along_the_plies(pieces, between)
        if set(measures) - {SMOOTH}:
            strands = plied_strands(way.resolved, pieces)
            end_ppb, lot = sections(strands)
            share = np.diff(end_ppb, axis=-1, prepend=0) / WHOLE_PPB
            found |= side_by_side(share, lot, between, measures)
        values[alike] = np.stack([found[measure] for measure in measures], axis=-1)
    return values


def _along_the_plies(pieces: list[PlyPieces], between: Between) -> NDArray[np.float64]:
    """Return the mean difference of portions that follow each other, of all plies: (V,)."""
    total = np.zeros(len(pieces[0].mass_g))
    pairs = 0
    for ply in pieces:
        total += between.of(ply.lot[..., :-1], ply.lot[..., 1:]).sum(axis=-1)
        pairs += ply.lot.shape[-1] - 1
    return total / max(pairs, 1)


def side_by_side(
    share: NDArray[np.float64],
    lot: NDArray[np.int64],
    between: Between,
    measures: tuple[str, ...],
) -> dict[str, NDArray[np.float64]]:
    """Return the measures of lots that lie side by side, each (V,).

    Parameters
    ----------
    share : (V, N) array
        Share of the yarn's length of each section.
    lot : (V, N, plies) int array
        Lot of each ply in each section.
    between : Between
        How far lots are apart.
    measures : tuple of str
        Which are wanted.
    """
    found: dict[str, NDArray[np.float64]] = {}
    plies = [lot[..., k] for k in range(lot.shape[-1])]
    pairs = list(combinations(plies, 2))
    if MATCHED in measures:
        same = np.ones(share.shape, dtype=np.bool_)
        for ply in plies[1:]:
            same &= ply == plies[0]
        found[MATCHED] = (share * same).sum(axis=-1)
    if not {CONTRAST, EVEN, TWINS} & set(measures):
        return found
    apart, twins = np.zeros(share.shape), np.zeros(share.shape, dtype=np.bool_)
    for one, other in pairs:
        by = between.of(one, other)
        apart += by
        if TWINS in measures:
            twins |= (one != other) & (by < TWINS_BELOW)
    apart /= max(len(pairs), 1)
    mean = (share * apart).sum(axis=-1)
    found |= {CONTRAST: mean, TWINS: (share * twins).sum(axis=-1)}
    if EVEN in measures:
        found[EVEN] = np.sqrt((share * (apart - mean[..., None]) ** 2).sum(axis=-1))
    return found
