"""What goes on the scale where something was decided at the wheel: the rest, weighed anew."""

from dataclasses import replace

import numpy as np

from yarncolor.layout.bobbin_pieces import BobbinPieces
from yarncolor.layout.portions import Portions
from yarncolor.layout.weighing import WeighGroups, weighed


def decided_on_scale(
    wheel: BobbinPieces, groups: WeighGroups, lots: int, step_g: float
) -> tuple[BobbinPieces, WeighGroups]:
    """Return the pieces with what goes on the scale, and all heaps, those of spun rows first.

    Rows that were spun keep what they took; running totals begin with the first row to spin.

    Parameters
    ----------
    wheel : BobbinPieces
        N pieces; R rows as planned, weighed.
    groups : WeighGroups
        Heaps of the rows as planned.
    lots : int
        Number of lots in the stash.
    step_g : float
        What the scale can show.
    """
    to_spin = np.flatnonzero(~wheel.spun)
    portions, heaps, _ = weighed(wheel.pieces.take(to_spin), lots, step_g)
    row = wheel.of_planned[to_spin]
    is_row = row >= 0
    weigh_g = np.full(len(wheel.pieces), np.nan)
    weigh_g[to_spin] = np.where(is_row, portions.weigh_g, _alone_g(portions, heaps))
    of_rows_g, group = wheel.planned.weigh_g.copy(), _of_spun(wheel, groups)
    of_rows_g[row[is_row]] = portions.weigh_g[is_row]
    kept_g = _kept_g(wheel.planned, groups, group)
    group[row[is_row]] = np.where(heaps.group < 0, -1, heaps.group + len(groups.ply))[is_row]
    every = WeighGroups(
        ply=np.concatenate([groups.ply, heaps.ply]),
        lot=np.concatenate([groups.lot, heaps.lot]),
        weigh_g=np.concatenate([kept_g, heaps.weigh_g]),
        group=group,
    )
    pieces = replace(wheel.pieces, weigh_g=weigh_g)
    return replace(wheel, planned=replace(wheel.planned, weigh_g=of_rows_g), pieces=pieces), every


def _alone_g(portions: Portions, heaps: WeighGroups) -> np.ndarray:
    """Return what goes on the scale for each piece: of a heap of one, all of it."""
    heaped = heaps.group >= 0
    pieces = np.bincount(heaps.group[heaped], minlength=len(heaps.ply))
    whole_g = np.where((pieces == 1) & (heaps.weigh_g > 0), heaps.weigh_g, np.nan)
    alone_g = portions.weigh_g.copy()
    alone_g[heaped] = whole_g[heaps.group[heaped]]
    return alone_g


def _of_spun(wheel: BobbinPieces, groups: WeighGroups) -> np.ndarray:
    """Return the heap of each row that was spun, -1 for every other: (R,)."""
    spun = wheel.of_planned[wheel.spun & (wheel.row > 0)]
    group = np.full(len(wheel.planned), -1)
    group[spun] = groups.group[spun]
    return group


def _kept_g(planned: Portions, groups: WeighGroups, spun: np.ndarray) -> np.ndarray:
    """Return of each heap what its spun rows took of it."""
    whole_g, spun_g = (
        np.bincount(group[group >= 0], planned.mass_g[group >= 0], len(groups.ply))
        for group in (groups.group, spun)
    )
    return np.asarray(groups.weigh_g * spun_g / whole_g)
