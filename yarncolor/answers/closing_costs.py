"""Where a sequence closes on its first lot and runs double: what each way of closing costs."""

from dataclasses import dataclass, field, replace
from functools import lru_cache

import numpy as np

from yarncolor.answers.by_hand import ByScale, hand_division
from yarncolor.answers.runs import at_fault, runs
from yarncolor.layout.bobbin_pieces import BobbinPieces
from yarncolor.layout.closing import CLOSINGS, works_on
from yarncolor.layout.layout import Layout, layout
from yarncolor.layout.resolved import ResolvedPlan
from yarncolor.layout.scheme_input import repeat_shares
from yarncolor.layout.stretches import shares_by_colours

_TOLERANCE = 1e-9


@dataclass(frozen=True)
class ClosingCost:
    """One way of closing, in numbers.

    Parameters
    ----------
    closing : str
        One of `yarncolor.layout.closing.CLOSINGS`.
    longest_run_ratio : float
        Longest run of the closing lot that is not meant, over the median run of its ply.
    mends : bool
        Whether no run is at fault any more.
    matched : float
        Share of the yarn that shows one colour.
    left_over_g : float
        Grams of the closing lot that are not spun.
    shifted_m : float
        How far the worst meeting of repeats moves, in metres of single.
    by_hand : bool
        Whether hands can divide the closing lot without a scale.
    """

    closing: str
    longest_run_ratio: float
    mends: bool
    matched: float
    left_over_g: float
    shifted_m: float
    by_hand: bool


@dataclass(frozen=True)
class _Question:
    """A plan whose ways of closing are asked for, and all of it that they depend on."""

    resolved: ResolvedPlan = field(compare=False)
    depends_on: tuple[object, ...]


def closing_costs(resolved: ResolvedPlan) -> list[ClosingCost]:
    """Return all ways of closing, best first: those that mend, then by what they cost.

    They are kept, since a change of twist, of the scale or of the fabric changes none.
    """
    target = resolved.plan.target
    depends_on = (
        resolved.plan.lots,
        resolved.scheme,
        resolved.scheme_input.place.tobytes(),
        resolved.scheme_input.mass_g.tobytes(),
        resolved.tex.tobytes(),
        resolved.wound_off.tobytes(),
        resolved.card_loss,
        resolved.spin_loss,
        target and (target, resolved.contraction, resolved.yarn.yarn_tex),
    )
    return [*_costs(_Question(resolved, depends_on))]


def open_costs(laid: Layout) -> list[ClosingCost]:
    """Return the ways of closing that can still be taken, best first; none but today's: none.

    One that would make other rows of what is spun comes too late.
    """
    costs = closing_costs(laid.resolved)
    if laid.wheel is None:
        return costs
    today = laid.resolved.scheme_input.closing
    kept = [cost for cost in costs if _keeps_what_is_spun(laid, laid.wheel, cost.closing)]
    return kept if any(cost.closing != today for cost in kept) else []


def _keeps_what_is_spun(laid: Layout, wheel: BobbinPieces, closing: str) -> bool:
    """Return whether every row that is spun would have the same lot and grams."""
    now, then = wheel.planned, _closed(laid.resolved, closing).portions
    row = wheel.of_planned[wheel.spun & ~wheel.is_extra]
    ply = now.ply[row]
    other = then.starts[ply] + row - now.starts[ply]
    if (other >= then.starts[ply + 1]).any():
        return False
    alike_g = np.isclose(then.mass_g[other], now.mass_g[row], rtol=_TOLERANCE, atol=0)
    return bool((alike_g & (then.lot[other] == now.lot[row])).all())


def _closed(resolved: ResolvedPlan, closing: str) -> Layout:
    """Return a plan closed another way, laid out before anything is spun."""
    draft = replace(resolved.scheme_input, scheme=replace(resolved.scheme, closing=closing))
    return layout(replace(resolved, plan=resolved.plan.before_the_wheel, scheme_input=draft))


@lru_cache(maxsize=8)
def _costs(question: _Question) -> list[ClosingCost]:
    places = len(question.resolved.scheme_input.place)
    ways = (closing for closing in CLOSINGS if works_on(closing, places))
    costs = [_cost(question.resolved, closing) for closing in ways]
    return sorted(
        costs,
        key=lambda cost: (
            not cost.mends,
            round(cost.left_over_g, 6),
            round(cost.shifted_m, 6),
            not cost.by_hand,
        ),
    )


def _cost(resolved: ResolvedPlan, closing: str) -> ClosingCost:
    laid = _closed(resolved, closing)
    draft, its_runs = laid.resolved.scheme_input, runs(laid)
    closing_lot = draft.lot[0]
    counted = (its_runs.lot == closing_lot) & ~its_runs.meant
    divided = hand_division(laid)
    return ClosingCost(
        closing=closing,
        longest_run_ratio=float(its_runs.ratio[counted].max(initial=0.0)),
        mends=not at_fault(its_runs, laid).any(),
        matched=float(shares_by_colours(laid.stretches.edges_ppb, laid.stretches.lot)[0]),
        left_over_g=_unspun_g(
            draft.mass_g.sum() * min(laid.target_ratio, 1), laid.portions.mass_g.sum()
        ),
        shifted_m=shifted_m(laid),
        by_hand=all(
            not isinstance(divided[at], ByScale)
            for at in np.flatnonzero(laid.portions.lot == closing_lot)
        ),
    )


def shifted_m(laid: Layout) -> float:
    """Return how far the worst meeting of repeats is moved by sharing the closing lot out.

    In metres of single; 0 for every other way of closing, whose repeats fill their share.
    """
    if laid.resolved.scheme_input.closing != "share":
        return 0.0
    portions, divisions = laid.portions, laid.resolved.scheme.divisions or ()
    worst = 0.0
    for k, division in enumerate(divisions):
        first = (portions.ply == k) & (portions.copy == 1)
        share = repeat_shares(division)
        length = np.bincount(portions.repeat[first] - 1, portions.length_m[first], len(share))
        moved = np.cumsum(length) - np.cumsum(share) * length.sum()
        worst = max(worst, float(np.abs(moved).max()))
    return worst


def _unspun_g(all_g: float, spun_g: float) -> float:
    rest = float(all_g - spun_g)
    return rest if rest > 1e-9 * all_g else 0.0
