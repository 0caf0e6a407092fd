"""What stands where a plan says nothing: the one place of every default."""

from collections.abc import Sequence
from math import prod
from typing import Protocol

import numpy as np

from yarncolor.plan import STRANDS_OF_A_CHAIN, Plan, Scheme
from yarncolor.plan.limits import MOST_REPEATS
from yarncolor.plan.reference import default_of

SCHEME: str = default_of("scheme", "name")
PLIES: int = default_of("scheme", "plies")
CLOSING: str = default_of("scheme", "closing")
STAGGER_PLACES: float = default_of("scheme", "stagger_places")
BLEND_STEPS: int = default_of("scheme", "blend_steps")
SOLID_PLIES: tuple[int, ...] = default_of("scheme", "solid_plies")
RANDOM_SEED: int = default_of("scheme", "random_seed")
PIECES: int = default_of("scheme", "pieces")
LOOP_M: float = default_of("scheme", "loop_m")
SINGLE_TEX: float = default_of("spinning", "single_tex")
PACKED_DENSITY: float = default_of("spinning", "packed_density_g_per_cm3")
RELAXED_DENSITY: float = default_of("spinning", "relaxed_density_g_per_cm3")
LOSS: float = default_of("spinning", "card_loss")
WOUND_OFF: int = default_of("plying", "wound_off")
STRANDS: int = default_of("plying", "strands")
STEP_G: float = default_of("scale", "step_g")
CONTRACTION = 0.0
"""Of a yarn whose twists are not known: no key of the file says so."""


def scheme_name(scheme: Scheme) -> str:
    """Return the scheme, where none is given: matched."""
    return scheme.name or SCHEME


def plies_of(scheme: Scheme) -> int:
    """Return the number of strands in the yarn."""
    if scheme_name(scheme) == "chain":
        return STRANDS_OF_A_CHAIN
    if scheme.plies:
        return scheme.plies
    if scheme_name(scheme) == "free" and scheme.portions:
        return max(portion.ply or 1 for portion in scheme.portions)
    return len(scheme.divisions) if scheme.divisions else PLIES


def singles_of(scheme: Scheme) -> int:
    """Return the number of bobbins of singles: one for a chain, else one a ply."""
    return 1 if scheme_name(scheme) == "chain" else plies_of(scheme)


def divisions_of(scheme: Scheme) -> tuple[int | tuple[float, ...], ...]:
    """Return the repeats on each ply: 1 and 4 on two plies, else doubling from 1."""
    if scheme.divisions:
        return scheme.divisions
    plies = plies_of(scheme)
    return (1, 4) if plies == 2 else tuple(min(2**k, MOST_REPEATS) for k in range(plies))


def to_divide_g(plan: Plan) -> np.ndarray:
    """Return grams of each lot to divide: less what is kept back, blended and lost in carding."""
    return left_g(plan.lots) * (1 - (plan.spinning.card_loss or LOSS))


def taken_by_blends_g(plan: Plan) -> np.ndarray:
    """Return grams of each lot that its blends take, before carding: (lots,)."""
    return taken_g(plan.lots)


def solid_lot_of(scheme: Scheme, names: tuple[str, ...], to_divide: np.ndarray) -> str:
    """Return the plain lot of a solid scheme: the one with most grams, first of equals."""
    return scheme.solid_lot or names[int(np.argmax(to_divide))]


def sequence_of(scheme: Scheme, names: tuple[str, ...], to_divide: np.ndarray) -> tuple[str, ...]:
    """Return the order of lots: that of the file, without the plain lot of a solid scheme."""
    if scheme_name(scheme) == "free":
        return ()
    if scheme.sequence:
        return scheme.sequence
    if scheme_name(scheme) != "solid":
        return names
    return tuple(name for name in names if name != solid_lot_of(scheme, names, to_divide))


def place_masses_g(scheme: Scheme, lot: np.ndarray, to_divide: np.ndarray) -> np.ndarray:
    """Return grams of each place: a lot's mass shared among its places by their parts."""
    return shared_by_parts_g(np.array(scheme.parts or np.ones(len(lot)), float), lot, to_divide)


def shared_by_parts_g(parts: np.ndarray, lot: np.ndarray, to_divide: np.ndarray) -> np.ndarray:
    """Return grams of each place, for one order or for many.

    Parameters
    ----------
    parts : (..., E) array
        How much of its lot each place takes, beside the lot's other places.
    lot : (..., E) int array
        Lot of each place.
    to_divide : (lots,) array
        Grams of each lot.
    """
    lots, orders = len(to_divide), prod(lot.shape[:-1])
    at = lot + lots * np.arange(orders).reshape(*lot.shape[:-1], 1)
    of_lot = np.bincount(at.ravel(), parts.ravel(), orders * lots)[at]
    share: np.ndarray = np.divide(parts, of_lot, out=np.zeros(lot.shape), where=of_lot > 0)
    grams: np.ndarray = to_divide[lot] * share
    return grams


class Weighed(Protocol):
    """A lot as far as its grams go: a lot of a plan, or what is read of one."""

    @property
    def name(self) -> str:
        """Its name."""

    @property
    def mass_g(self) -> float:
        """Grams of it."""

    @property
    def reserve_g(self) -> float:
        """Grams kept back."""

    @property
    def blend(self) -> tuple[tuple[str, float], ...] | None:
        """Lots that it is carded from, with their parts by mass; None where it is no blend."""


def left_g(lots: Sequence[Weighed]) -> np.ndarray:
    """Return grams of each lot before carding, less what is kept back and blended: (lots,)."""
    kept = np.array([lot.mass_g - lot.reserve_g for lot in lots])
    left: np.ndarray = np.maximum(kept - taken_g(lots), 0.0)
    left[left < 1e-9 * kept] = 0.0
    return left


def taken_g(lots: Sequence[Weighed]) -> np.ndarray:
    """Return grams that blends take of each lot, by mass, by their parts: (lots,)."""
    at = {lot.name: number for number, lot in enumerate(lots)}
    takes = np.zeros(len(lots))
    for lot in lots:
        parts = lot.blend or ()
        for name, part in parts:
            takes[at[name]] += lot.mass_g * part / sum(each for _, each in parts)
    return takes
