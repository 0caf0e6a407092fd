"""Where a fractal's sequence closes on the lot it began with: five ways to spin it.

Leading axes of masses hold orders of the same places.
"""

from collections.abc import Callable

import numpy as np

Laid = tuple[np.ndarray, np.ndarray, np.ndarray]
"""Place (from 0), repeat (from 1) and mass of the portions of one ply, in spinning order."""


def closes(lot: np.ndarray) -> bool:
    """Return whether a sequence of two or more places ends on the lot it began with, or all do."""
    return lot.shape[-1] > 1 and bool((lot[..., 0] == lot[..., -1]).all())


def keep(mass_g: np.ndarray, share: np.ndarray) -> Laid:
    """Return every repeat whole: two pieces of the closing lot meet at each inner meeting.

    Parameters
    ----------
    mass_g : (..., E) array
        What each place gives to this ply.
    share : (n,) array
        Share of the ply that each repeat takes, summing to 1.
    """
    return _rounds(mass_g, share, np.arange(mass_g.shape[-1]))


def tail(mass_g: np.ndarray, share: np.ndarray) -> Laid:
    """Return repeats without their last place, and all of that place once, at the very end."""
    last = mass_g.shape[-1] - 1
    place, repeat, mass = _rounds(mass_g, share, np.arange(last))
    return (
        np.append(place, last),
        np.append(repeat, len(share)),
        np.concatenate([mass, mass_g[..., -1:]], axis=-1),
    )


def share_out(mass_g: np.ndarray, share: np.ndarray) -> Laid:
    """Return n + 1 equal pieces of the closing lot: one before each repeat, one at the end."""
    piece = (mass_g[..., :1] + mass_g[..., -1:]) / (len(share) + 1)
    place, repeat, mass = tail(mass_g, share)
    return place, repeat, np.where((place == 0) | (place == place[-1]), piece, mass)


def halve(mass_g: np.ndarray, share: np.ndarray) -> Laid:
    """Return repeats with half a piece at either end; half the closing lot stays over."""
    halves = mass_g.copy()
    halves[..., [0, -1]] = (mass_g[..., :1] + mass_g[..., -1:]) / 4
    return keep(halves, share)


def drop(mass_g: np.ndarray, share: np.ndarray) -> Laid:
    """Return repeats without their last place; half the closing lot stays over."""
    first = mass_g.copy()
    first[..., 0] = (mass_g[..., 0] + mass_g[..., -1]) / 2
    return _rounds(first, share, np.arange(mass_g.shape[-1] - 1))


def _rounds(mass_g: np.ndarray, share: np.ndarray, places: np.ndarray) -> Laid:
    repeats = np.arange(1, len(share) + 1)
    mass = share[:, None] * mass_g[..., None, places]
    return (
        np.tile(places, len(share)),
        np.repeat(repeats, len(places)),
        mass.reshape(*mass_g.shape[:-1], -1),
    )


CLOSINGS: dict[str, Callable[[np.ndarray, np.ndarray], Laid]] = {
    "keep": keep,
    "tail": tail,
    "share": share_out,
    "halve": halve,
    "drop": drop,
}
