"""Where a fractal's sequence closes on the lot it began with: six ways to spin it.

Leading axes of masses hold orders of the same places.
"""

from collections.abc import Callable
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray


class PlacesInTurn(NamedTuple):
    """The places of the sequence as one ply runs through them, in spinning order.

    Parameters
    ----------
    place : (N,) int array
        Counted from 0.
    repeat : (N,) int array
        Pass through the sequence, counted from 1.
    mass_g : (..., N) array
        What is spun each time.
    """

    place: NDArray[np.int64]
    repeat: NDArray[np.int64]
    mass_g: NDArray[np.float64]


def ends_on_its_first_lot(lot: NDArray[np.int64]) -> bool:
    """Return whether a sequence of two or more places ends on the lot it began with, or all do.

    Parameters
    ----------
    lot : (..., E) int array
        Lot of each place; leading axes hold orders.
    """
    return lot.shape[-1] > 1 and bool((lot[..., 0] == lot[..., -1]).all())


def keep(mass_g: NDArray[np.float64], share: NDArray[np.float64]) -> PlacesInTurn:
    """Return every repeat whole: two pieces of the closing lot meet at each inner meeting.

    Parameters
    ----------
    mass_g : (..., E) array
        What each place gives to this ply.
    share : (n,) array
        Share of the ply that each repeat takes, summing to 1.
    """
    return _rounds(mass_g, share, np.arange(mass_g.shape[-1]))


def tail(mass_g: NDArray[np.float64], share: NDArray[np.float64]) -> PlacesInTurn:
    """Return repeats without their last place, and all of that place once, at the very end.

    Parameters
    ----------
    mass_g : (..., E) array
        What each place gives to this ply.
    share : (n,) array
        Share of the ply that each repeat takes, summing to 1.
    """
    last = mass_g.shape[-1] - 1
    place, repeat, mass = _rounds(mass_g, share, np.arange(last))
    return PlacesInTurn(
        np.append(place, last),
        np.append(repeat, len(share)),
        np.concatenate([mass, mass_g[..., -1:]], axis=-1),
    )


def share_out(mass_g: NDArray[np.float64], share: NDArray[np.float64]) -> PlacesInTurn:
    """Return n + 1 equal pieces of the closing lot: one before each repeat, one at the end.

    Parameters
    ----------
    mass_g : (..., E) array
        What each place gives to this ply.
    share : (n,) array
        Share of the ply that each repeat takes, summing to 1.
    """
    piece = (mass_g[..., :1] + mass_g[..., -1:]) / (len(share) + 1)
    place, repeat, mass = tail(mass_g, share)
    closing = (place == 0) | (place == place[-1])
    return PlacesInTurn(place, repeat, np.where(closing, piece, mass))


def halve(mass_g: NDArray[np.float64], share: NDArray[np.float64]) -> PlacesInTurn:
    """Return repeats with half a piece at either end; half the closing lot stays over.

    Half of half the lot, a quarter, at either end: two ends that meet are then one piece.

    Parameters
    ----------
    mass_g : (..., E) array
        What each place gives to this ply.
    share : (n,) array
        Share of the ply that each repeat takes, summing to 1.
    """
    halves = mass_g.copy()
    halves[..., [0, -1]] = (mass_g[..., :1] + mass_g[..., -1:]) / 4
    return keep(halves, share)


def drop(mass_g: NDArray[np.float64], share: NDArray[np.float64]) -> PlacesInTurn:
    """Return repeats without their last place; half the closing lot stays over.

    Parameters
    ----------
    mass_g : (..., E) array
        What each place gives to this ply.
    share : (n,) array
        Share of the ply that each repeat takes, summing to 1.
    """
    first = mass_g.copy()
    first[..., 0] = (mass_g[..., 0] + mass_g[..., -1]) / 2
    return _rounds(first, share, np.arange(mass_g.shape[-1] - 1))


def swap(mass_g: NDArray[np.float64], share: NDArray[np.float64]) -> PlacesInTurn:
    """Return repeats of which all but the last have their last two pieces in each other's place.

    … y K | K … becomes … K y | K …, and nothing is left over.

    Parameters
    ----------
    mass_g : (..., E) array
        What each place gives to this ply; four places or more.
    share : (n,) array
        Share of the ply that each repeat takes, summing to 1.
    """
    place, repeat, mass = keep(mass_g, share)
    order = np.arange(len(place)).reshape(len(share), -1)
    order[:-1, [-2, -1]] = order[:-1, [-1, -2]]
    return PlacesInTurn(place[order.ravel()], repeat, mass[..., order.ravel()])


def _rounds(
    mass_g: NDArray[np.float64], share: NDArray[np.float64], places: NDArray[np.int64]
) -> PlacesInTurn:
    repeats = np.arange(1, len(share) + 1)
    mass = share[:, None] * mass_g[..., None, places]
    return PlacesInTurn(
        np.tile(places, len(share)),
        np.repeat(repeats, len(places)),
        mass.reshape(*mass_g.shape[:-1], -1),
    )


CLOSINGS: dict[str, Callable[[NDArray[np.float64], NDArray[np.float64]], PlacesInTurn]] = {
    "keep": keep,
    "tail": tail,
    "share": share_out,
    "halve": halve,
    "drop": drop,
    "swap": swap,
}

_LEAST_PLACES = {"swap": 4}
"""Of fewer places the closing lot would stand beside itself all the same."""


def works_on(closing: str, places: int) -> bool:
    """Return whether a way of closing can be taken with so many places.

    Parameters
    ----------
    closing : str
        One of `CLOSINGS`.
    places : int
        Of the sequence, those of 0 g left out.
    """
    return places >= _LEAST_PLACES.get(closing, 0)
