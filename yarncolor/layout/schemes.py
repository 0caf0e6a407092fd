"""Schemes: which lot lies where on which ply. Each says what one ply holds, in spinning order.

`SCHEMES` is the table; `laid_out` is the way in. Leading axes of lots and masses hold orders of
the same places: a scheme lays out one order and many alike.
"""

from collections.abc import Callable
from hashlib import sha256

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.closing import CLOSINGS
from yarncolor.layout.portions import NO_PLACE, PlyPieces, Portions, stacked
from yarncolor.layout.scheme_input import SchemeInput, repeat_shares, started_on
from yarncolor.layout.ways_of_plies import fade, mixed


def laid_out(given: SchemeInput) -> Portions:
    """Return the portions of every ply as one flat struct, not yet spun or weighed."""
    return stacked(ply_pieces(given), given.scheme.copies)


def ply_pieces(given: SchemeInput) -> list[PlyPieces]:
    """Return what lies on each ply: the scheme's, reversed plies turned round, copy by copy."""
    pieces_of = SCHEMES[given.scheme.name]
    plies = [pieces_of(given, k) for k in range(len(given.ply_share))]
    for number in given.scheme.reversed_plies:
        plies[number - 1] = plies[number - 1].reversed()
    return [ply.times(given.scheme.copies) for ply in plies]


def matched(given: SchemeInput, k: int) -> PlyPieces:
    """Return the sequence once, in order.

    Parameters
    ----------
    given : SchemeInput
        What the scheme works on.
    k : int
        Which ply, counted from 0.
    """
    return _once(given, given.mass_g * given.ply_share[k])


def staggered(given: SchemeInput, k: int) -> PlyPieces:
    """Return the sequence turned k · stagger_places places on; half a place splits an entry.

    Parameters
    ----------
    given : SchemeInput
        What the scheme works on.
    k : int
        Which ply, counted from 0.
    """
    own_g = given.mass_g * given.ply_share[k]
    order, mass = started_on(own_g, k * given.scheme.stagger_places)
    return PlyPieces(given.lot[..., order], given.place[order], np.ones_like(order), mass)


def fractal(given: SchemeInput, k: int) -> PlyPieces:
    """Return the sequence in d_k repeats, closed as the options say.

    Parameters
    ----------
    given : SchemeInput
        What the scheme works on.
    k : int
        Which ply, counted from 0.
    """
    closing = CLOSINGS[given.closing]
    share = repeat_shares(given.scheme.divisions[k])
    order, repeat, mass = closing(given.mass_g * given.ply_share[k], share)
    return PlyPieces(given.lot[..., order], given.place[order], repeat, mass)


def flipped(given: SchemeInput, k: int) -> PlyPieces:
    """Return the sequence, on every second ply the other way round.

    Parameters
    ----------
    given : SchemeInput
        What the scheme works on.
    k : int
        Which ply, counted from 0.
    """
    return matched(given, k).reversed() if k % 2 else matched(given, k)


def gradient(given: SchemeInput, k: int) -> PlyPieces:
    """Return one slow pass through the sequence.

    Parameters
    ----------
    given : SchemeInput
        What the scheme works on.
    k : int
        Which ply, counted from 0.
    """
    return matched(given, k)


def mirrored(given: SchemeInput, k: int) -> PlyPieces:
    """Return the sequence there and back, half of each portion each way.

    Parameters
    ----------
    given : SchemeInput
        What the scheme works on.
    k : int
        Which ply, counted from 0.
    """
    there = _once(given, given.mass_g * given.ply_share[k] / 2)
    back = there.reversed()
    return PlyPieces(
        np.concatenate([there.lot, back.lot], axis=-1),
        np.append(there.place, back.place),
        np.append(there.repeat, back.repeat + 1),
        np.concatenate([there.mass_g, back.mass_g], axis=-1),
    )


def stepped(given: SchemeInput, k: int) -> PlyPieces:
    """Return the sequence with its changes moved so that the plies change one after the other.

    Ply k changes from entry e to e + 1 at B_e + h_e · (k - k̄) of its length, B_e the running
    total of the entries' lengths and h_e the smaller allowance of the two neighbours. Every
    lot is used up exactly, because the plies' shares average k - k̄ to nothing.

    Parameters
    ----------
    given : SchemeInput
        What the scheme works on.
    k : int
        Which ply, counted from 0.
    """
    all_g = given.mass_g.sum(axis=-1, keepdims=True)
    length = given.mass_g / all_g
    plies = len(given.ply_share)
    number = np.arange(1, plies + 1)
    mean = given.ply_share @ number
    allowance = length / plies
    allowance[..., 0] = length[..., 0] / mean
    allowance[..., -1] = length[..., -1] / (plies + 1 - mean)
    step = np.minimum(allowance[..., :-1], allowance[..., 1:])
    change = np.cumsum(length, axis=-1)[..., :-1] + step * (number[k] - mean)
    own = np.diff(change, prepend=0.0, append=1.0)
    return _once(given, own * all_g * given.ply_share[k])


def solid(given: SchemeInput, k: int) -> PlyPieces:
    """Return one plain lot on the solid plies, the sequence on the others.

    Both sides are as long as the shorter one; what the longer has too much is never spun.

    Parameters
    ----------
    given : SchemeInput
        What the scheme works on.
    k : int
        Which ply, counted from 0.
    """
    alone = np.isin(np.arange(1, len(given.ply_share) + 1), given.scheme.solid_plies)
    lot = given.names.index(given.scheme.solid_lot)
    solid_g, others_g = given.to_divide_g[lot], given.mass_g.sum(axis=-1, keepdims=True)
    solid_share, others_share = given.ply_share[alone].sum(), given.ply_share[~alone].sum()
    length = np.minimum(solid_g / solid_share, others_g / others_share)
    if not alone[k]:
        return _once(given, given.mass_g * (length * given.ply_share[k] / others_g))
    mass = length * given.ply_share[k]
    return PlyPieces(np.full(mass.shape, lot), np.array([NO_PLACE]), np.array([1]), mass)


def chain(given: SchemeInput, k: int) -> PlyPieces:
    """Return the whole sequence on one single, which is folded in three while plying.

    Parameters
    ----------
    given : SchemeInput
        What the scheme works on.
    k : int
        Which ply, counted from 0.
    """
    return matched(given, k)


def shuffled(given: SchemeInput, k: int) -> PlyPieces:
    """Return each lot's share in equal pieces, in an order drawn from the seed.

    The order is that of the SHA-256 digests of ``seed/ply/lot/piece``, so that it is the same
    on every machine and another lot changes nothing among the rest.

    Parameters
    ----------
    given : SchemeInput
        What the scheme works on.
    k : int
        Which ply, counted from 0.
    """
    lots, pieces = np.unique(given.lot), given.scheme.pieces
    digests = {
        _digest(given, k, given.names[lot], piece): at
        for at, lot in enumerate(lots)
        for piece in range(pieces)
    }
    drawn = np.array([digests[digest] for digest in sorted(digests)])
    of_lot = given.lot[..., None, :] == lots[:, None]
    share = np.stack([_sums(given.mass_g, of_lot[..., at, :]) for at in range(len(lots))], axis=-1)
    mass = share * given.ply_share[k]
    return PlyPieces(
        np.broadcast_to(lots[drawn], (*mass.shape[:-1], len(drawn))),
        given.place[of_lot.argmax(axis=-1)][..., drawn],
        np.ones_like(drawn),
        mass[..., drawn] / pieces,
    )


def _digest(given: SchemeInput, k: int, name: str, piece: int) -> bytes:
    return sha256(f"{given.scheme.random_seed}/{k + 1}/{name}/{piece + 1}".encode()).digest()


def _sums(amount: NDArray[np.float64], where: NDArray[np.bool_]) -> NDArray[np.float64]:
    """Return the sum of each order's amounts where it has a lot, as often in every order."""
    sums: NDArray[np.float64] = amount[where].reshape(*amount.shape[:-1], -1).sum(axis=-1)
    return sums


def free(given: SchemeInput, k: int) -> PlyPieces:
    """Return the user's own portions of this ply.

    Parameters
    ----------
    given : SchemeInput
        What the scheme works on.
    k : int
        Which ply, counted from 0.
    """
    own = [portion for portion in given.scheme.portions if portion.ply == k + 1]
    lot = np.array([given.names.index(portion.lot) for portion in own])
    mass = np.array([portion.mass_g for portion in own], dtype=float)
    return PlyPieces(lot, np.full(len(own), NO_PLACE), np.ones(len(own), dtype=int), mass)


def stripes(given: SchemeInput, k: int) -> PlyPieces:
    """Return the stripes of a knitted piece, so spun that the cast-on comes off first.

    Parameters
    ----------
    given : SchemeInput
        What the scheme works on.
    k : int
        Which ply, counted from 0.
    """
    if given.striped is None:
        raise ValueError("stripes need a fabric whose rows are known")
    return given.striped.of_ply(k, turned=bool(given.turned[k]))


def _once(given: SchemeInput, mass_g: NDArray[np.float64]) -> PlyPieces:
    return PlyPieces(given.lot, given.place, np.ones_like(given.place), mass_g)


SCHEMES: dict[str, Callable[[SchemeInput, int], PlyPieces]] = {
    "matched": matched,
    "staggered": staggered,
    "fractal": fractal,
    "flipped": flipped,
    "gradient": gradient,
    "stepped": stepped,
    "mirrored": mirrored,
    "solid": solid,
    "chain": chain,
    "shuffled": shuffled,
    "free": free,
    "mixed": mixed,
    "fade": fade,
    "stripes": stripes,
}
