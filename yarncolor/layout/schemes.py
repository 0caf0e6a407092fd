"""Schemes: which lot lies where on which ply. Each says what one ply holds, in spinning order.

`SCHEMES` is the table; `laid_out` is the way in. Leading axes of lots and masses hold orders of
the same places: a scheme lays out one order and many alike.
"""

from collections.abc import Callable
from dataclasses import dataclass
from hashlib import sha256

import numpy as np

from yarncolor.layout.closing import CLOSINGS, closes
from yarncolor.layout.portions import NO_PLACE, PlyPieces, Portions, stacked
from yarncolor.plan import Scheme


@dataclass(frozen=True)
class SchemeInput:
    """What a scheme works on: the places of the sequence, their masses, and the options.

    Parameters
    ----------
    lot : (..., E) int array
        Lot of each place.
    place : (E,) int array
        Number of each place in the user's sequence, from 1; places of 0 g are left out.
    mass_g : (..., E) array
        What each place gives to all plies.
    ply_share : (plies,) array
        Share of the whole that each ply is due, summing to 1.
    options : Scheme
        With every default settled.
    names : tuple of str
        Names of all lots.
    to_divide_g : (lots,) array
        What each lot has to divide.
    """

    lot: np.ndarray
    place: np.ndarray
    mass_g: np.ndarray
    ply_share: np.ndarray
    options: Scheme
    names: tuple[str, ...]
    to_divide_g: np.ndarray


def laid_out(draft: SchemeInput) -> Portions:
    """Return the portions of every ply as one flat struct, not yet spun or weighed."""
    return stacked(ply_pieces(draft))


def ply_pieces(draft: SchemeInput) -> list[PlyPieces]:
    """Return what lies on each ply: the scheme's, with the reversed plies turned round."""
    scheme = SCHEMES[draft.options.name]
    plies = [scheme(draft, k) for k in range(len(draft.ply_share))]
    for number in draft.options.reversed_plies:
        plies[number - 1] = plies[number - 1].reversed()
    return plies


def repeat_shares(division: int | tuple[float, ...]) -> np.ndarray:
    """Return the share of a ply that each repeat takes: equal, or by the sizes given."""
    sizes = np.ones(division) if isinstance(division, int) else np.array(division, dtype=float)
    return sizes / sizes.sum()


def closing_in_force(draft: SchemeInput) -> str:
    """Return how the sequence closes, which is ``keep`` unless a fractal ends where it began."""
    closing = draft.options.name == "fractal" and closes(draft.lot)
    return draft.options.closing if closing else "keep"


def matched(draft: SchemeInput, k: int) -> PlyPieces:
    """Return the sequence once, in order."""
    return _once(draft, draft.mass_g * draft.ply_share[k])


def staggered(draft: SchemeInput, k: int) -> PlyPieces:
    """Return the sequence turned k · stagger_places places on; half a place splits an entry."""
    whole, half = divmod(round(2 * k * draft.options.stagger_places), 2)
    order = np.roll(np.arange(len(draft.place)), -whole)
    if half:
        order = np.append(order, order[0])
    mass = (draft.mass_g * draft.ply_share[k])[..., order]
    if half:
        mass[..., [0, -1]] /= 2
    return PlyPieces(draft.lot[..., order], draft.place[order], np.ones_like(order), mass)


def fractal(draft: SchemeInput, k: int) -> PlyPieces:
    """Return the sequence in d_k repeats, closed as the options say."""
    closing = CLOSINGS[closing_in_force(draft)]
    share = repeat_shares(draft.options.divisions[k])
    order, repeat, mass = closing(draft.mass_g * draft.ply_share[k], share)
    return PlyPieces(draft.lot[..., order], draft.place[order], repeat, mass)


def flipped(draft: SchemeInput, k: int) -> PlyPieces:
    """Return the sequence, on every second ply the other way round."""
    return matched(draft, k).reversed() if k % 2 else matched(draft, k)


def gradient(draft: SchemeInput, k: int) -> PlyPieces:
    """Return one slow pass through the sequence."""
    return matched(draft, k)


def mirrored(draft: SchemeInput, k: int) -> PlyPieces:
    """Return the sequence there and back, half of each portion each way."""
    there = _once(draft, draft.mass_g * draft.ply_share[k] / 2)
    back = there.reversed()
    return PlyPieces(
        np.concatenate([there.lot, back.lot], axis=-1),
        np.append(there.place, back.place),
        np.append(there.repeat, back.repeat + 1),
        np.concatenate([there.mass_g, back.mass_g], axis=-1),
    )


def stepped(draft: SchemeInput, k: int) -> PlyPieces:
    """Return the sequence with its changes moved so that the plies change one after the other.

    Ply k changes from entry e to e + 1 at B_e + h_e · (k - k̄) of its length, B_e the running
    total of the entries' lengths and h_e the smaller allowance of the two neighbours. Every
    lot is used up exactly, because the plies' shares average k - k̄ to nothing.
    """
    all_g = draft.mass_g.sum(axis=-1, keepdims=True)
    length = draft.mass_g / all_g
    plies = len(draft.ply_share)
    number = np.arange(1, plies + 1)
    mean = draft.ply_share @ number
    allowance = length / plies
    allowance[..., 0] = length[..., 0] / mean
    allowance[..., -1] = length[..., -1] / (plies + 1 - mean)
    step = np.minimum(allowance[..., :-1], allowance[..., 1:])
    change = np.cumsum(length, axis=-1)[..., :-1] + step * (number[k] - mean)
    own = np.diff(change, prepend=0.0, append=1.0)
    return _once(draft, own * all_g * draft.ply_share[k])


def solid(draft: SchemeInput, k: int) -> PlyPieces:
    """Return one plain lot on the solid plies, the sequence on the others.

    Both sides are as long as the shorter one; what the longer has too much is never spun.
    """
    alone = np.isin(np.arange(1, len(draft.ply_share) + 1), draft.options.solid_plies)
    lot = draft.names.index(draft.options.solid_lot)
    solid_g, others_g = draft.to_divide_g[lot], draft.mass_g.sum(axis=-1, keepdims=True)
    solid_share, others_share = draft.ply_share[alone].sum(), draft.ply_share[~alone].sum()
    length = np.minimum(solid_g / solid_share, others_g / others_share)
    if not alone[k]:
        return _once(draft, draft.mass_g * (length * draft.ply_share[k] / others_g))
    mass = length * draft.ply_share[k]
    return PlyPieces(np.full(mass.shape, lot), np.array([NO_PLACE]), np.array([1]), mass)


def chain(draft: SchemeInput, k: int) -> PlyPieces:
    """Return the whole sequence on one single, which is folded in three while plying."""
    return matched(draft, k)


def shuffled(draft: SchemeInput, k: int) -> PlyPieces:
    """Return each lot's share in equal pieces, in an order drawn from the seed.

    The order is that of the SHA-256 digests of ``seed/ply/lot/piece``, so that it is the same
    on every machine and another lot changes nothing among the rest.
    """
    lots, pieces = np.unique(draft.lot), draft.options.pieces
    digests = {
        _digest(draft, k, draft.names[lot], piece): at
        for at, lot in enumerate(lots)
        for piece in range(pieces)
    }
    drawn = np.array([digests[digest] for digest in sorted(digests)])
    of_lot = draft.lot[..., None, :] == lots[:, None]
    share = np.stack([_sums(draft.mass_g, of_lot[..., at, :]) for at in range(len(lots))], axis=-1)
    mass = share * draft.ply_share[k]
    return PlyPieces(
        np.broadcast_to(lots[drawn], (*mass.shape[:-1], len(drawn))),
        draft.place[of_lot.argmax(axis=-1)][..., drawn],
        np.ones_like(drawn),
        mass[..., drawn] / pieces,
    )


def _digest(draft: SchemeInput, k: int, name: str, piece: int) -> bytes:
    return sha256(f"{draft.options.random_seed}/{k + 1}/{name}/{piece + 1}".encode()).digest()


def _sums(amount: np.ndarray, where: np.ndarray) -> np.ndarray:
    """Return the sum of each order's amounts where it has a lot, as often in every order."""
    return amount[where].reshape(*amount.shape[:-1], -1).sum(axis=-1)


def free(draft: SchemeInput, k: int) -> PlyPieces:
    """Return the user's own portions of this ply."""
    own = [portion for portion in draft.options.portions if portion.ply == k + 1]
    lot = np.array([draft.names.index(portion.lot) for portion in own])
    mass = np.array([portion.mass_g for portion in own], dtype=float)
    return PlyPieces(lot, np.full(len(own), NO_PLACE), np.ones(len(own), dtype=int), mass)


def _once(draft: SchemeInput, mass_g: np.ndarray) -> PlyPieces:
    return PlyPieces(draft.lot, draft.place, np.ones_like(draft.place), mass_g)


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
}
