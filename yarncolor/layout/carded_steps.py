"""Carded steps between the neighbours of a gradient: batts that lead from one lot to the next."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import gcd
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.portions import NO_PLACE
from yarncolor.layout.scheme_input import SchemeInput
from yarncolor.plan import Lot

Mix = tuple[int, int, int, int]
"""Two lots, and their parts in the smallest whole numbers."""


@dataclass(frozen=True)
class CardedPlaces:
    """The places of a gradient with carded steps between them, in one order or in many.

    Parameters
    ----------
    lot : (..., M) int array
        Lot of each place and step; the lots that are made are numbered on after those there are.
    place : (M,) int array
        Number of each place; 0 for a step.
    mass_g : (..., M) array
        What is left at each place, and what each step takes.
    spent_g : (..., E) array
        What each place gives to the steps on both its sides.
    mixes : list of dict of Mix to int
        For each order, what is made, by the order in which it first comes, and its number.
    """

    lot: NDArray[np.int64]
    place: NDArray[np.int64]
    mass_g: NDArray[np.float64]
    spent_g: NDArray[np.float64]
    mixes: list[dict[Mix, int]]


def unlike_neighbours(lot: NDArray[np.int64]) -> NDArray[np.bool_]:
    """Return after which places of (..., E) lots another lot comes: (..., E - 1).

    Parameters
    ----------
    lot : (..., E) int array
        Lot of each place; leading axes hold orders.
    """
    unlike: NDArray[np.bool_] = lot[..., :-1] != lot[..., 1:]
    return unlike


def carded_places(given: SchemeInput) -> CardedPlaces:
    """Return a gradient's places with s blends between neighbours.

    Between the places e and e + 1 stand s blends, each of mass b = min(m_e, m_e+1) / (s + 1),
    mixed (s + 1 - j) : j for j = 1..s; each lot keeps what is left. Neighbours of one lot need
    none.

    Parameters
    ----------
    given : SchemeInput
        Of a gradient; ``blend_steps`` of its scheme is s, 1 or more. In many orders, the same
        neighbours are alike.
    """
    along = _along(given)
    at, step, carded = along.at, along.step, along.step > 0
    lot = given.lot[..., at]
    mixes = []
    for order in lot.reshape(-1, len(at)):
        numbers: dict[Mix, int] = {}
        made = _mixes(order[~carded], at[carded], step[carded], given.scheme.blend_steps)
        order[carded] = [numbers.setdefault(mix, len(given.names) + len(numbers)) for mix in made]
        mixes.append(numbers)
    return CardedPlaces(lot, along.places(given), along.mass_g, along.spent_g, mixes)


class _Along(NamedTuple):
    """Places and steps of a gradient in the order spun; fields as in `CardedPlaces`.

    Parameters
    ----------
    at : (M,) int array
        Which place each is, or after which place a step comes, from 0.
    step : (M,) int array
        Which step after that place, from 1; 0 for the place itself.
    """

    at: NDArray[np.int64]
    step: NDArray[np.int64]
    mass_g: NDArray[np.float64]
    spent_g: NDArray[np.float64]

    def places(self, given: SchemeInput) -> NDArray[np.int64]:
        """Return the number of each place; 0 for a step: (M,)."""
        return np.where(self.step > 0, NO_PLACE, given.place[self.at])


def _along(given: SchemeInput) -> _Along:
    steps, places = given.scheme.blend_steps, len(given.place)
    unlike = unlike_neighbours(given.lot)
    each = np.minimum(given.mass_g[..., :-1], given.mass_g[..., 1:]) / (steps + 1) * unlike
    spent = np.zeros(given.mass_g.shape)
    spent[..., :-1] += each * steps / 2
    spent[..., 1:] += each * steps / 2
    blends = steps * np.append(np.atleast_2d(unlike)[0], False)
    at = np.repeat(np.arange(places), 1 + blends)
    step = np.arange(len(at)) - np.searchsorted(at, at)
    carded, mass = step > 0, (given.mass_g - spent)[..., at]
    mass[..., carded] = each[..., at[carded]]
    return _Along(at, step, mass, spent)


def carded_by_pair(given: SchemeInput) -> SchemeInput:
    """Return what a gradient works on with its carded steps, numbered by what they lie between.

    Step j from lot x to lot y, of s, is number L + (x · L + y) · s + j - 1 of L lots: the same in
    every order. `pair_parts` tells what it is made of.

    Parameters
    ----------
    given : SchemeInput
        Of a gradient with steps, as in `carded_places`.
    """
    along, lots, steps = _along(given), len(given.names), given.scheme.blend_steps
    after = np.minimum(along.at + 1, len(given.place) - 1)
    pair = given.lot[..., along.at] * lots + given.lot[..., after]
    number = lots + pair * steps + along.step - 1
    lot = np.where(along.step > 0, number, given.lot[..., along.at])
    return replace(given, lot=lot, place=along.places(given), mass_g=along.mass_g)


def pair_parts(lots: int, steps: int) -> NDArray[np.float64]:
    """Return what each step of `carded_by_pair` is made of, by mass: (lots² · steps, lots).

    Parameters
    ----------
    lots : int
        How many there are.
    steps : int
        Between each two.
    """
    j, at = np.arange(1, steps + 1), np.arange(lots)
    parts = np.zeros((lots, lots, steps, lots))
    parts[at, :, :, at] += steps + 1 - j
    parts[:, at, :, at] += j
    return parts.reshape(-1, lots)


def with_carded_steps(given: SchemeInput, card_loss: float) -> tuple[SchemeInput, tuple[Lot, ...]]:
    """Return what a scheme works on with a gradient's carded steps, and the lots so made.

    Parameters
    ----------
    given : SchemeInput
        Of any scheme, in one order; all but a gradient with steps stays as it is.
    card_loss : float
        Share of a lot's mass lost in carding: a made lot's own mass is raw, like any lot's.
    """
    if not given.scheme.is_carded:
        return given, ()
    places = carded_places(given)
    (mixes,) = places.mixes
    carded = places.place == NO_PLACE
    number = places.lot[carded] - len(given.names)
    mass_g = np.bincount(number, places.mass_g[carded] / (1 - card_loss), len(mixes))
    made = zip(mixes, mass_g.tolist(), strict=True)
    lots = tuple(made_lot(mix, mass, given.names) for mix, mass in made)
    to_divide = given.to_divide_g - np.bincount(given.lot, places.spent_g, len(given.to_divide_g))
    blended = [lot.mass_g * (1 - card_loss) for lot in lots]
    return (
        replace(
            given,
            lot=places.lot,
            place=places.place,
            mass_g=places.mass_g,
            names=(*given.names, *(lot.name for lot in lots)),
            to_divide_g=np.append(to_divide, blended),
        ),
        lots,
    )


def _mixes(
    lot: NDArray[np.int64], after: NDArray[np.int64], step: NDArray[np.int64], steps: int
) -> Iterator[Mix]:
    """Return what each blend is made of: the lots on both its sides, and their parts."""
    parts = {j: (steps + 1 - j, j) for j in range(1, steps + 1)}
    least = {j: (one // gcd(one, j), j // gcd(one, j)) for j, (one, _) in parts.items()}
    lots = lot.tolist()
    for at, j in zip(after.tolist(), step.tolist(), strict=True):
        yield lots[at], lots[at + 1], *least[j]


def made_lot(mix: Mix, mass_g: float, names: tuple[str, ...]) -> Lot:
    """Return the lot of a mix, under a name that no other lot bears.

    Parameters
    ----------
    mix : Mix
        What is carded.
    mass_g : float
        How much, raw.
    names : tuple of str
        Of the lots there are.
    """
    one, other, part_one, part_other = mix
    name = f"{names[one]} {part_one}:{part_other} {names[other]}"
    while name in names:
        name += ", carded"
    blend = ((names[one], float(part_one)), (names[other], float(part_other)))
    return Lot(name, mass_g, blend=blend, preparation="batt", is_step=True)
