"""What stands where a plan says nothing: the one place of every default."""

from collections.abc import Sequence
from math import prod
from typing import Protocol, TypeVar

import numpy as np
from numpy.typing import NDArray

from yarncolor.plan import STRANDS_OF_A_CHAIN, Bath, Plan, Scheme
from yarncolor.plan.limits import MOST_REPEATS, ROUNDING
from yarncolor.plan.reference import default_of
from yarncolor.plan.scheme import OWN_SEQUENCE, WITHOUT_SEQUENCE
from yarncolor.units import GRAMS_PER_OUNCE

SCHEME: str = default_of("scheme", "name")
PLIES: int = default_of("scheme", "plies")
CLOSING: str = default_of("scheme", "closing")
COPIES: int = default_of("scheme", "copies")
STAGGER_PLACES: float = default_of("scheme", "stagger_places")
BLEND_STEPS: int = default_of("scheme", "blend_steps")
SOLID_PLIES: tuple[int, ...] = default_of("scheme", "solid_plies")
RANDOM_SEED: int = default_of("scheme", "random_seed")
PIECES: int = default_of("scheme", "pieces")
TIMES: int = default_of("scheme", "times")
REPEAT: bool = default_of("scheme", "repeat")
LOOP_M: float = default_of("scheme", "loop_m")
SINGLE_TEX: float = default_of("spinning", "single_tex")
PACKED_DENSITY: float = default_of("spinning", "packed_density_g_per_cm3")
RELAXED_DENSITY: float = default_of("spinning", "relaxed_density_g_per_cm3")
LOSS: float = default_of("spinning", "card_loss")
REACH_M: float = default_of("spinning", "variation_reach_m")
DIVIDED: str = default_of("spinning", "divided")
WOUND_OFF: int = default_of("plying", "wound_off")
STRANDS: int = default_of("plying", "strands")
STEP_G: float = default_of("scale", "step_g")
CONTRACTION = 0.0
"""Of a yarn whose twists are not known: no key of the file says so."""
_STEP_OZ = 0.01
_NOTHING = 1e-3
"""Steps of the scale: what is left of a lot and is less than that is nothing."""


_Value = TypeVar("_Value")


def given_or(given: _Value | None, usual: _Value) -> _Value:
    """Return what is given, or what is usual where nothing is.

    Parameters
    ----------
    given : any or None
        A key's value.
    usual : any
        Of the same type.
    """
    return usual if given is None else given


def scale_step_g(plan: Plan) -> float:
    """Return what the scale shows: where nothing is said 0.1 g, or 0.01 oz in ounces."""
    usual_g = _STEP_OZ * GRAMS_PER_OUNCE if plan.units == "imperial" else STEP_G
    return given_or(plan.scale.step_g, usual_g)


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
    if scheme_name(scheme) == "mixed" and scheme.ply:
        return len(scheme.ply)
    if scheme_name(scheme) == "stripes":
        of_plies = (len(one.lots) for one in scheme.stripes if one.lots)
        return next(of_plies, PLIES)
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


def times_of(scheme: Scheme) -> tuple[int, ...]:
    """Return how often each ply of a fade runs through the lots of each side."""
    times = TIMES if scheme.times is None else scheme.times
    return (times,) * plies_of(scheme) if isinstance(times, int) else times


def to_divide_g(plan: Plan) -> NDArray[np.float64]:
    """Return grams of each lot to divide: what is left, less what is lost in carding: (lots,)."""
    left = left_g(plan.lots, scale_step_g(plan))
    return left * (1 - (plan.spinning.card_loss or LOSS))


def taken_by_blends_g(plan: Plan) -> NDArray[np.float64]:
    """Return grams of each lot that its blends take, before carding: (lots,)."""
    return taken_g(plan.lots)


def plying_tare_g(plan: Plan) -> float | None:
    """Return what the empty plying bobbin weighs; None where nothing says so."""
    own_g = None if plan.plied is None else plan.plied.plying_tare_g
    return given_or(own_g, plan.bobbins.plying_tare_g)


def solid_lot_of(scheme: Scheme, names: Sequence[str], to_divide_g: NDArray[np.float64]) -> str:
    """Return the plain lot of a solid scheme: the one with most grams, first of equals.

    Parameters
    ----------
    scheme : Scheme
        As the plan gives it.
    names : sequence of str
        Of all lots, in the order of the file.
    to_divide_g : (lots,) array
        What each lot has to divide.
    """
    return scheme.solid_lot or names[int(np.argmax(to_divide_g))]


def sequence_of(
    scheme: Scheme, names: Sequence[str], to_divide_g: NDArray[np.float64]
) -> tuple[str, ...]:
    """Return the order of lots: that of the file, without the plain lot of a solid scheme.

    Parameters
    ----------
    scheme : Scheme
        As the plan gives it.
    names : sequence of str
        Of all lots, in the order of the file.
    to_divide_g : (lots,) array
        What each lot has to divide.
    """
    if scheme_name(scheme) in WITHOUT_SEQUENCE:
        return ()
    if scheme_name(scheme) == "fade":
        return scheme.sides
    if scheme.sequence:
        return scheme.sequence
    if scheme_name(scheme) != "solid":
        return tuple(names)
    return tuple(name for name in names if name != solid_lot_of(scheme, names, to_divide_g))


def place_masses_g(
    scheme: Scheme, lot: NDArray[np.int64], to_divide_g: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Return grams of each place: a lot's mass shared among its places by their parts.

    Parameters
    ----------
    scheme : Scheme
        Its parts count, if any; they say nothing where the sequence has no places, or is a fade's.
    lot : (E,) int array
        Lot of each place.
    to_divide_g : (lots,) array
        What each lot has to divide.
    """
    given = scheme.parts if len(lot) and scheme_name(scheme) not in OWN_SEQUENCE else None
    parts = np.array(given or np.ones(len(lot)), dtype=float)
    return shared_by_parts_g(parts, lot, to_divide_g)


def shared_by_parts_g(
    parts: NDArray[np.float64], lot: NDArray[np.int64], to_divide_g: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Return grams of each place, for one order or for many.

    Parameters
    ----------
    parts : (..., E) array
        How much of its lot each place takes, beside the lot's other places.
    lot : (..., E) int array
        Lot of each place.
    to_divide_g : (lots,) array
        Grams of each lot.
    """
    lots, orders = len(to_divide_g), prod(lot.shape[:-1])
    at = lot + lots * np.arange(orders).reshape(*lot.shape[:-1], 1)
    of_lot = np.bincount(at.ravel(), parts.ravel(), orders * lots)[at]
    share = np.divide(parts, of_lot, out=np.zeros(lot.shape), where=of_lot > 0)
    mass_g: NDArray[np.float64] = to_divide_g[lot] * share
    return mass_g


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
    def recipe(self) -> tuple[tuple[str, float], ...]:
        """Lots that it takes its grams from, with their parts by mass; empty for none."""

    @property
    def bath(self) -> Bath | None:
        """The bath that it is dyed in; None where it is no such lot."""


def left_g(lots: Sequence[Weighed], step_g: float) -> NDArray[np.float64]:
    """Return grams of each lot before carding, less what is kept back and blended: (lots,).

    Less than a thousandth of what the scale shows is nothing; so is what rounding leaves.

    Parameters
    ----------
    lots : sequence of Weighed
        Every lot.
    step_g : float
        Of the scale.
    """
    mass, kept_back = np.array([(lot.mass_g, lot.reserve_g) for lot in lots]).T
    left: NDArray[np.float64] = mass - kept_back - taken_g(lots)
    left[left < np.maximum(ROUNDING * mass, _NOTHING * step_g)] = 0.0
    return left


def taken_g(lots: Sequence[Weighed]) -> NDArray[np.float64]:
    """Return grams that blends, by their parts, and later baths take of each lot: (lots,)."""
    at = {lot.name: number for number, lot in enumerate(lots)}
    takes = np.zeros(len(lots))
    for lot in lots:
        parts = lot.recipe
        for name, part in parts:
            takes[at[name]] += lot.mass_g * part / sum(each for _, each in parts)
        if lot.bath is not None and lot.bath.takes_from is not None:
            takes[at[lot.bath.takes_from]] += lot.mass_g
    return takes
