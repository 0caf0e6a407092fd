"""What hands can divide without a scale, as data; `yarncolor.report.weigh_out_words` says it.

Common practice, no source: a rolag can be torn in halves, thirds, quarters and eighths; a lot, a
batt in strips and top in lengths by halves and thirds one after the other, up to 24 pieces.
Where the scale cannot show pieces alike that hands divide equally, each is only about its part.
"""

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

import numpy as np

from yarncolor.answers.braid_strips import braid_strips, strip_of_each
from yarncolor.layout.alike import alike
from yarncolor.layout.layout import Layout
from yarncolor.layout.resolved import ResolvedPlan

TORN = frozenset(Fraction(part, whole) for whole in (2, 3, 4, 8) for part in range(1, whole))
"""Parts of a rolag that hands find: halves, thirds, quarters and eighths."""

PARTS = {"batt": "strip", "top": "length", "roving": "length"}
"""What hands make of a preparation that they divide lengthwise."""

_MOST_PARTS = 24
_TOLERANCE = 1e-9


@dataclass(frozen=True)
class ByScale:
    """Hands cannot divide it: it needs a scale."""


@dataclass(frozen=True)
class Rolags:
    """So many rolags, whole ones and a part that can be torn off."""

    count: Fraction
    alike_on_scale: bool = True


@dataclass(frozen=True)
class Lengthwise:
    """So many of the equal strips of a batt, or lengths of top, that a lot is divided into."""

    count: int
    of: int
    kind: str
    alike_on_scale: bool = True


@dataclass(frozen=True)
class ShareOfLot:
    """A part of a lot, or of what is left of it once some was kept back or blended."""

    part: Fraction
    of_whole_lot: bool
    alike_on_scale: bool = True


@dataclass(frozen=True)
class OnStrip:
    """A length of one of a ply's strips of a braid, that nobody parts from it."""

    number: int
    of: int
    alike_on_scale: bool = True


HandDivision = ByScale | Rolags | Lengthwise | ShareOfLot | OnStrip


def hand_division(layout: Layout) -> list[HandDivision]:
    """Return for each portion how hands divide it from its lot, or that it needs a scale."""
    lots, to_divide = layout.resolved.plan.lots, layout.resolved.to_divide_g
    rolags = [rolags_to_divide(layout.resolved, at) for at in range(len(lots))]
    whole = [_is_whole(layout.resolved, at) for at in range(len(lots))]
    portions, even = layout.portions, _alike_on_scale(layout)
    return [
        _divided(lots[lot].preparation, rolags[lot], mass / to_divide[lot], whole[lot], is_even)
        for lot, mass, is_even in zip(portions.lot, portions.mass_g, even, strict=True)
    ]


def on_strips(layout: Layout, divided: list[HandDivision]) -> list[HandDivision]:
    """Return how hands divide each portion as planned, where some lie on strips of a braid.

    Parameters
    ----------
    layout : Layout
        The plan laid out.
    divided : list of HandDivision
        How each would come from its lot.
    """
    found = strip_of_each(braid_strips(layout), len(divided))
    pairs = zip(divided, found, strict=True)
    return [one if strip is None else OnStrip(strip.number, strip.of) for one, strip in pairs]


def _alike_on_scale(layout: Layout) -> list[bool]:
    """Return for each portion whether all that are as large have the same grams, as far as known.

    One that is all that its ply has of its lot is as large as what other plies have of it, in
    however many pieces. Pieces of a heap are not weighed singly.
    """
    portions, near_g = layout.portions, layout.resolved.step_g / 2
    lots = len(layout.resolved.plan.lots)
    key, of, pieces = np.unique(
        portions.ply * lots + portions.lot, return_inverse=True, return_counts=True
    )
    mass_g, weigh_g = (np.bincount(of, g) for g in (portions.mass_g, portions.weigh_g))
    are_apart = _apart_g(portions.lot, portions.mass_g, portions.weigh_g) > near_g
    shares_are = _apart_g(key % lots, mass_g, weigh_g) > near_g
    return [not apart for apart in are_apart | ((pieces == 1) & shares_are)[of]]


def _apart_g(lot: np.ndarray, mass_g: np.ndarray, weigh_g: np.ndarray) -> np.ndarray:
    """Return by how much those that are as large as each differ on the scale; NaN: unknown."""
    group = alike(lot, mass_g)
    least, most = np.full((2, len(group)), np.nan)
    np.fmin.at(least, group, weigh_g)
    np.fmax.at(most, group, weigh_g)
    apart: np.ndarray = (most - least)[group]
    return apart


def rolags_to_divide(resolved: ResolvedPlan, lot: int) -> float | None:
    """Return how many rolags of a lot there are to divide, where the user counted them.

    Parameters
    ----------
    resolved : ResolvedPlan
        The plan.
    lot : int
        Index of the lot in the stash.
    """
    own = resolved.plan.lots[lot]
    if own.rolags is None:
        return None
    return float(own.rolags * resolved.to_divide_g[lot] / (own.mass_g * (1 - resolved.card_loss)))


def nearest_rolags(rolags: float, shares: np.ndarray) -> int | None:
    """Return the number of rolags nearest to this one that hands divide into these shares.

    Of two equally near, the larger: carding one more beats having one too few. None where
    nothing up to four times as many does.

    Parameters
    ----------
    rolags : float
        How many there are.
    shares : (S,) array
        Shares of them that are wanted, above 0 and up to 1.
    """
    numbers = np.arange(1, int(4 * rolags) + 13)
    for number in numbers[np.argsort(np.abs(numbers - rolags - 1e-6))]:
        if all(_rolags(share * number) for share in shares):
            return int(number)
    return None


def _is_whole(resolved: ResolvedPlan, lot: int) -> bool:
    """Return whether nothing of a lot is kept back or blended: its parts are parts of all of it."""
    kept = resolved.to_divide_g[lot] / (1 - resolved.card_loss)
    return bool(kept > resolved.plan.lots[lot].mass_g * (1 - _TOLERANCE))


@lru_cache(maxsize=4096)
def _divided(
    preparation: str | None, rolags: float | None, share: float, whole: bool, even: bool
) -> HandDivision:
    if rolags is not None:
        torn = _rolags(rolags * share)
        return Rolags(torn, even) if torn else ByScale()
    part = Fraction(share).limit_denominator(_MOST_PARTS)
    found = abs(part - share) <= _TOLERANCE and part and _by_halves_and_thirds(part.denominator)
    if not found:
        return ByScale()
    if part != 1 and preparation in PARTS:
        return Lengthwise(part.numerator, part.denominator, PARTS[preparation], even)
    return ShareOfLot(part, whole, even)


def _rolags(exactly: float) -> Fraction | None:
    """Return so many rolags; None where hands cannot divide them so."""
    amount = Fraction(exactly).limit_denominator(1000)
    part = amount % 1
    if abs(amount - exactly) > _TOLERANCE * max(1, exactly) or (part and part not in TORN):
        return None
    return amount or None


def _by_halves_and_thirds(number: int) -> bool:
    for factor in (2, 3):
        while number % factor == 0:
            number //= factor
    return number == 1
