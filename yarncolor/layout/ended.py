"""A single that came to its end while plying: every length brought into line with that."""

from dataclasses import dataclass, replace
from enum import Enum

import numpy as np
from numpy.typing import NDArray

from yarncolor.defaults import plying_tare_g
from yarncolor.layout.bobbin_pieces import BobbinPieces
from yarncolor.plan import Plan

LEAST_CONTRACTION, MOST_CONTRACTION = -0.2, 0.6
"""Between these lies the length lost in plying that an end may tell."""

_NEAR = 1e-9
"""Parts of a single that are nothing."""


@dataclass(frozen=True)
class Ended:
    """A single that came to its end, and what that says of the lengths.

    Parameters
    ----------
    ply : int
        From 0.
    at_m : float
        After so much yarn.
    reckoned_m, single_m : float
        Length of its single as reckoned before, and as that end tells.
    tells_contraction : bool
        Whether all of it was measured, so that it tells the length lost in plying instead.
    also : tuple of int
        Other plies, from 0, that were reckoned shorter and are as long at least.
    """

    ply: int
    at_m: float
    reckoned_m: float
    single_m: float
    tells_contraction: bool
    also: tuple[int, ...]


@dataclass(frozen=True, eq=False)
class InLine:
    """What lies on the bobbins, and the length lost in plying, in line with a single's end."""

    ended: Ended
    wheel: BobbinPieces
    contraction: float


class Misfit(Enum):
    """Why no lengths agree with a single's end."""

    BEYOND = "no other single reaches as far"
    MEASURED = "more of it was measured"
    LOST = "more or less would be lost in plying than can be"


@dataclass(frozen=True)
class WrongEnd:
    """A single's end with which no lengths agree, and metres of yarn that it may come after."""

    why: Misfit
    least_m: float
    most_m: float


def ended_at_m(plan: Plan, yarn_tex: float) -> float | None:
    """Return after how much yarn a plan says that a single ended; None where it says nothing.

    Parameters
    ----------
    plan : Plan
        Its table of plying says so, in metres or by weight.
    yarn_tex : float
        Linear density of the plied yarn.
    """
    plied, empty_g = plan.plied, plying_tare_g(plan)
    if plied is None or plied.ended_ply is None:
        return None
    if plied.at_m is not None or plied.at_gross_g is None or empty_g is None:
        return plied.at_m
    return (plied.at_gross_g - empty_g) / yarn_tex * 1000


def brought_into_line(
    wheel: BobbinPieces, ply: int, at_m: float, contractions: NDArray[np.float64], folds: int
) -> InLine | WrongEnd:
    """Return the pieces in line with a single's end, or why they cannot be.

    Measured pieces keep their metres, the others of that single are made longer or shorter, with
    their grams; where all are measured it is the length lost in plying that is known from it.

    Parameters
    ----------
    wheel : BobbinPieces
        What lies on the bobbins.
    ply : int
        The one that ended, from 0.
    at_m : float
        Metres of yarn after which it did.
    contractions : (singles,) array
        Share of length that each loses in plying, as reckoned.
    folds : int
        How often the single lies in the yarn: three times in a chain.
    """
    reckoned_m = wheel.pieces.single_m
    tells = bool(wheel.is_measured[wheel.pieces.of_ply(ply)].all())
    kept = 1 - contractions
    if tells:
        kept = np.full(len(contractions), folds * at_m / reckoned_m[ply])
    needs_m = folds * at_m / kept
    wrong = _wrong(wheel, ply, at_m, kept / folds, folds)
    if wrong is not None:
        return wrong
    is_short = reckoned_m < needs_m * (1 - _NEAR)
    is_short[ply] = False
    also: tuple[int, ...] = tuple(np.flatnonzero(is_short).tolist())
    ended = Ended(ply, at_m, float(reckoned_m[ply]), float(needs_m[ply]), tells, also)
    scaled = also if tells else (ply, *also)
    return InLine(ended, _as_long(wheel, scaled, needs_m), float(1 - kept[ply]))


def _wrong(
    wheel: BobbinPieces, ply: int, at_m: float, makes: NDArray[np.float64], folds: int
) -> WrongEnd | None:
    """Return why a single cannot have ended there; of each, a metre of single makes so much yarn.

    Parameters
    ----------
    wheel : BobbinPieces
        What lies on the bobbins.
    ply, folds : int
        As above.
    at_m : float
        Metres of yarn after which it ended.
    makes : (singles,) array
        Metres of yarn from a metre of each single.
    """
    own, single_m = wheel.pieces.of_ply(ply), wheel.pieces.single_m
    is_measured = wheel.is_measured[own]
    measured_m = float(wheel.pieces.length_m[own][is_measured].sum())
    reach_m = np.delete(single_m * makes, ply)
    least_m, most_m = measured_m * float(makes[ply]) * (1 + 2 * _NEAR), np.inf
    why = Misfit.MEASURED
    if is_measured.all():
        lost = (MOST_CONTRACTION, LEAST_CONTRACTION)
        least_m, most_m = (measured_m * (1 - share) / folds for share in lost)
        why = Misfit.LOST
    if not least_m * (1 - _NEAR) <= at_m <= most_m * (1 + _NEAR):
        return WrongEnd(why, least_m, most_m)
    if len(reach_m) and at_m > reach_m.max() * (1 + _NEAR):
        return WrongEnd(Misfit.BEYOND, 0.0, float(reach_m.max()))
    return None


def _as_long(
    wheel: BobbinPieces, plies: tuple[int, ...], single_m: NDArray[np.float64]
) -> BobbinPieces:
    """Return the pieces, those of some plies as long in all as asked for; grams stay."""
    length_m = wheel.pieces.length_m.copy()
    for ply in plies:
        own = wheel.pieces.of_ply(ply)
        length_m[own] = _stretched(length_m[own], wheel.is_measured[own], float(single_m[ply]))
    tex = wheel.pieces.tex * wheel.pieces.length_m / length_m
    return replace(wheel, pieces=replace(wheel.pieces, length_m=length_m, tex=tex))


def _stretched(
    length_m: NDArray[np.float64], is_measured: NDArray[np.bool_], single_m: float
) -> NDArray[np.float64]:
    """Return pieces that are so long in all; measured ones keep their metres where others are."""
    keeps = is_measured & ~is_measured.all()
    rest_m = single_m - length_m[keeps].sum()
    share = rest_m / length_m[~keeps].sum()
    return np.where(keeps, length_m, length_m * share)
