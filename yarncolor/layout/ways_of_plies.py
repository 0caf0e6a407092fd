"""Schemes in which plies differ by more than repeats: each its own order, and a fade ply by ply."""

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.portions import NO_PLACE, PlyPieces
from yarncolor.layout.scheme_input import SchemeInput, repeat_shares, started_on
from yarncolor.plan import OwnPly


def mixed(given: SchemeInput, k: int) -> PlyPieces:
    """Return a ply's own sequence, as often through as it says, in its own order.

    Place e of ply k is the share w_ke of its ply; the yarn takes T grams of fibre, the most with
    Σ T · g_k · w_ke no more than each lot has. The rest is never spun.

    Parameters
    ----------
    given : SchemeInput
        What the scheme works on.
    k : int
        Which ply, counted from 0.
    """
    lots, shares = zip(*(_own_shares(given, own) for own in given.scheme.ply), strict=True)
    of_ply = np.repeat(given.ply_share, [len(own) for own in lots])
    drawn = np.bincount(
        np.concatenate(lots), np.concatenate(shares) * of_ply, len(given.to_divide_g)
    )
    needed = drawn > 0
    whole_g = np.min(given.to_divide_g[needed] / drawn[needed])
    own = given.scheme.ply[k]
    order, mass = started_on(shares[k] * (whole_g * given.ply_share[k]), own.start_at or 0)
    used = mass > 0
    order, mass = order[used], mass[used]
    share = repeat_shares(own.times or 1)
    pieces = PlyPieces(
        np.tile(lots[k][order], len(share)),
        np.full(len(order) * len(share), NO_PLACE),
        np.repeat(np.arange(1, len(share) + 1), len(order)),
        np.outer(share, mass).ravel(),
    )
    return pieces.reversed() if own.reversed else pieces


def _own_shares(given: SchemeInput, own: OwnPly) -> tuple[NDArray[np.int64], NDArray[np.float64]]:
    """Return the lot of each place of a ply, and its share of that ply."""
    lot = np.array([given.names.index(name) for name in own.sequence])
    parts = np.array(own.parts or given.to_divide_g[lot] / np.bincount(lot)[lot], dtype=float)
    return lot, parts / parts.sum()


def fade(given: SchemeInput, k: int) -> PlyPieces:
    """Return the lots that it fades from, then those that it fades to.

    Ply k of P is of the first side over the share k/(P + 1) of its length; each side's lots stand
    there in proportion to their grams, as many times through as the options say. As much is spun
    as both sides can give; the rest is never spun.

    Parameters
    ----------
    given : SchemeInput
        What the scheme works on.
    k : int
        Which ply, counted from 0.
    """
    plies = len(given.ply_share)
    is_first = given.place <= len(given.scheme.from_)
    first = np.arange(1, plies + 1) / (plies + 1)
    sides = [(is_first, first), (~is_first, 1 - first)]
    side_g = [given.mass_g[..., own].sum(axis=-1, keepdims=True) for own, _ in sides]
    whole_g = np.minimum(
        *(
            mass_g / (given.ply_share @ share)
            for mass_g, (_, share) in zip(side_g, sides, strict=True)
        )
    )
    times = given.scheme.times[k]
    order = np.concatenate([np.tile(np.flatnonzero(own), times) for own, _ in sides])
    repeat = np.concatenate(
        [np.repeat(np.arange(1, times + 1), int(own.sum())) for own, _ in sides]
    )
    ratio = [
        share[k] * whole_g * given.ply_share[k] / (mass_g * times)
        for mass_g, (_, share) in zip(side_g, sides, strict=True)
    ]
    mass = given.mass_g[..., order] * np.where(is_first[order], *ratio)
    return PlyPieces(given.lot[..., order], given.place[order], repeat, mass)
