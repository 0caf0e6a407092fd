"""Lots that are drafted together side by side: which of their colours a place of a single shows.

Drafted side by side, colours lie beside each other in the single, and its twist winds them round
it. So a place shows the lots of its mixture one after the other, each for its part of a turn.
"""

from functools import lru_cache

import numpy as np

from yarncolor.plan import Lot

SPIRAL_M, BETWEEN_PLIES = 0.0017, 0.37
"""Length of a turn of a drafted single, and by which part of one the plies differ: by eye."""

STREAKS_PX = 9
"""Height of all colours of a drafted single side by side, on a band of the strip."""

Drafted = dict[int, tuple[np.ndarray, np.ndarray]]
"""Of each drafted lot the lots that show in it, and up to which part of a turn each does."""


@lru_cache(maxsize=8)
def drafted_lots(lots: tuple[Lot, ...]) -> Drafted:
    """Return what shows in each lot that is drafted from others; what those are drafted from too.

    Parameters
    ----------
    lots : tuple of Lot
        All lots of a plan.
    """
    at = {lot.name: number for number, lot in enumerate(lots)}
    found: Drafted = {}
    for number, lot in enumerate(lots):
        if lot.drafted is not None:
            shares = _shares(lot.name, at, lots)
            found[number] = (np.array([*shares]), np.cumsum([*shares.values()]))
    return found


def _shares(name: str, at: dict[str, int], lots: tuple[Lot, ...]) -> dict[int, float]:
    """Return the share of each lot that shows in one, by its index."""
    drafted = lots[at[name]].drafted
    if drafted is None:
        return {at[name]: 1.0}
    whole, found = sum(part for _, part in drafted), dict[int, float]()
    for source, part in drafted:
        for lot, share in _shares(source, at, lots).items():
            found[lot] = found.get(lot, 0.0) + share * part / whole
    return found


def turn_at(ply: np.ndarray, metre: np.ndarray) -> np.ndarray:
    """Return at which part of a turn of its single each place lies: 0 to 1.

    Parameters
    ----------
    ply : (N,) int array
        From 0.
    metre : (N,) array
        Along the plied yarn.
    """
    turn: np.ndarray = (metre / SPIRAL_M + ply * BETWEEN_PLIES) % 1.0
    return turn


def streaks(height_px: int) -> np.ndarray:
    """Return at which part of a turn each row of a band of the strip lies: (height,).

    Parameters
    ----------
    height_px : int
        Of the band.
    """
    row: np.ndarray = (np.arange(height_px) % STREAKS_PX + 0.5) / STREAKS_PX
    return row


def shown_lots(
    lot: np.ndarray, turn: np.ndarray, drafted: dict[int, tuple[np.ndarray, np.ndarray]]
) -> np.ndarray:
    """Return which lot each place shows: of a drafted one, the one that lies there.

    Parameters
    ----------
    lot : int array
        That each place is of.
    turn : array
        At which part of a turn it lies; of a shape that goes with the lots'.
    drafted : dict of arrays
        What shows in each drafted lot.
    """
    seen = lot
    for one, (lots, up_to) in drafted.items():
        part = np.searchsorted(up_to, turn, side="right").clip(max=len(lots) - 1)
        seen = np.where(lot == one, lots[part], seen)
    return seen
