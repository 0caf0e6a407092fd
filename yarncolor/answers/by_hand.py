"""Words beside grams: what hands can divide without a scale.

Common practice, no source: a rolag can be torn in halves, thirds, quarters and eighths; a batt
in strips and top in lengths, by halving and by thirds, up to 24.
"""

from fractions import Fraction
from functools import lru_cache

import numpy as np

from yarncolor.layout.layout import Layout
from yarncolor.layout.resolved import ResolvedPlan

NEEDS_A_SCALE = "needs a scale"
_FRACTIONS = {
    Fraction(1, 2): "½",
    Fraction(1, 3): "⅓",
    Fraction(2, 3): "⅔",
    Fraction(1, 4): "¼",
    Fraction(3, 4): "¾",
    Fraction(1, 8): "⅛",
    Fraction(3, 8): "⅜",
    Fraction(5, 8): "⅝",
    Fraction(7, 8): "⅞",
}
_PARTS = {"batt": "strip", "top": "length", "roving": "length"}
_MOST_PARTS = 24
_TOLERANCE = 1e-9


def hand_division(layout: Layout) -> list[str]:
    """Return for each portion how hands divide it, or that it needs a scale."""
    lots, to_divide = layout.resolved.plan.lots, layout.resolved.to_divide_g
    rolags = [rolags_to_divide(layout.resolved, at) for at in range(len(lots))]
    whole = [_is_whole(layout.resolved, at) for at in range(len(lots))]
    portions = layout.portions
    return [
        _words(lots[lot].preparation, rolags[lot], mass / to_divide[lot], whole[lot])
        for lot, mass in zip(portions.lot, portions.mass_g, strict=True)
    ]


def rolags_to_divide(settled: ResolvedPlan, lot: int) -> float | None:
    """Return how many rolags of a lot there are to divide, where the user counted them."""
    own = settled.plan.lots[lot]
    if own.rolags is None:
        return None
    return own.rolags * settled.to_divide_g[lot] / (own.mass_g * (1 - settled.card_loss))


def _is_whole(settled: ResolvedPlan, lot: int) -> bool:
    """Return whether nothing of a lot is kept back or blended: its parts are parts of all of it."""
    kept = settled.to_divide_g[lot] / (1 - settled.card_loss)
    return bool(kept > settled.plan.lots[lot].mass_g * (1 - _TOLERANCE))


def nearest_rolags(rolags: float, shares: np.ndarray) -> int | None:
    """Return the number of rolags nearest to this one that hands divide into these shares.

    Of two equally near, the larger: carding one more beats having one too few. None where
    nothing up to four times as many does.
    """
    numbers = np.arange(1, int(4 * rolags) + 13)
    for number in numbers[np.argsort(np.abs(numbers - rolags - 1e-6), kind="stable")]:
        if all(
            _rolags(Fraction(share * number).limit_denominator(1000), share * number)
            for share in shares
        ):
            return int(number)
    return None


@lru_cache(maxsize=4096)
def _words(preparation: str | None, rolags: float | None, share: float, whole: bool) -> str:
    if rolags is not None:
        amount = rolags * share
        return _rolags(Fraction(amount).limit_denominator(1000), amount) or NEEDS_A_SCALE
    part = Fraction(share).limit_denominator(_MOST_PARTS)
    if abs(part - share) > _TOLERANCE or not part:
        return NEEDS_A_SCALE
    if part == 1:
        return "all of the lot" if whole else "all that is left"
    if preparation in _PARTS and _by_halves_and_thirds(part.denominator):
        kind = _PARTS[preparation]
        return f"{part.numerator} of {part.denominator} {kind}s"
    of_what = "the lot" if whole else "what is left"
    return f"{_FRACTIONS[part]} of {of_what}" if part in _FRACTIONS else NEEDS_A_SCALE


def _rolags(amount: Fraction, exactly: float) -> str:
    """Return so many rolags in words; nothing where hands cannot divide them so."""
    whole, part = divmod(amount, 1)
    if abs(amount - exactly) > _TOLERANCE * max(1, exactly) or (part and part not in _FRACTIONS):
        return ""
    if not whole:
        return f"{_FRACTIONS[part]} of a rolag" if part else ""
    return f"{whole}{_FRACTIONS.get(part, '')} rolag{'s' if amount != 1 else ''}"


def _by_halves_and_thirds(number: int) -> bool:
    for factor in (2, 3):
        while number % factor == 0:
            number //= factor
    return number == 1


def heap_words(weigh_g: float, masses_g: np.ndarray) -> str:
    """Return how the pieces of a heap are made; a heap that the scale cannot show is a pinch."""
    if not weigh_g:
        return "a pinch"
    equal = np.ptp(masses_g) <= _TOLERANCE * masses_g.max()
    count = len(masses_g)
    if count == 1:
        return "one piece"
    return (
        f"divide by hand into {count} {'equal pieces' if equal else 'pieces, larger and smaller'}"
    )
