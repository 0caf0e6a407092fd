"""What a scheme works on, and what several schemes do to an order of places."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.closing import ends_on_its_first_lot, works_on
from yarncolor.layout.resolved_scheme import ResolvedScheme
from yarncolor.layout.striped import Striped


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
    scheme : ResolvedScheme
        Its name and options.
    names : tuple of str
        Names of all lots.
    to_divide_g : (lots,) array
        What each lot has to divide.
    turned : (plies,) bool array
        Whether what is spun first of a ply comes off first.
    striped : Striped or None
        The stripes of a knitted piece; None of another scheme.
    """

    lot: NDArray[np.int64]
    place: NDArray[np.int64]
    mass_g: NDArray[np.float64]
    ply_share: NDArray[np.float64]
    scheme: ResolvedScheme
    names: tuple[str, ...]
    to_divide_g: NDArray[np.float64]
    turned: NDArray[np.bool_]
    striped: Striped | None

    @property
    def closes(self) -> bool:
        """Whether it is a fractal whose sequence closes on its first lot."""
        return self.scheme.name == "fractal" and ends_on_its_first_lot(self.lot)

    @property
    def closing(self) -> str:
        """How the sequence closes: as the options say where it can, else ``keep``."""
        asked = self.scheme.closing
        return asked if self.closes and works_on(asked, self.lot.shape[-1]) else "keep"


def repeat_shares(division: int | tuple[float, ...]) -> NDArray[np.float64]:
    """Return the share of a ply that each repeat takes: equal, or by the sizes given."""
    sizes = np.ones(division) if isinstance(division, int) else np.array(division, dtype=float)
    shares: NDArray[np.float64] = sizes / sizes.sum()
    return shares


def started_on(
    mass_g: NDArray[np.float64], places: float
) -> tuple[NDArray[np.int64], NDArray[np.float64]]:
    """Return the order of places that starts some places on, counted round, and their masses.

    Parameters
    ----------
    mass_g : (..., E) array
        What each place weighs.
    places : float
        A multiple of 0.5; half a place splits an entry in two equal halves.
    """
    whole, half = divmod(round(2 * places), 2)
    order = np.roll(np.arange(mass_g.shape[-1]), -whole)
    if half:
        order = np.append(order, order[0])
    mass = mass_g[..., order]
    if half:
        mass[..., [0, -1]] /= 2
    return order, mass
