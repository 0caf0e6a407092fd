"""From a resolved plan to portions, strands and stretches: the part that follows a finger."""

from dataclasses import dataclass, replace
from typing import TypeVar

import numpy as np

from yarncolor.layout.portions import Portions, with_lengths
from yarncolor.layout.resolved import ResolvedPlan
from yarncolor.layout.schemes import laid_out
from yarncolor.layout.stretches import Stretches, stretches
from yarncolor.layout.winding import folded_in_three, strands
from yarncolor.plan import STRANDS_OF_A_CHAIN, Target

_Metres = TypeVar("_Metres", float, np.ndarray)


@dataclass(frozen=True, eq=False)
class Layout:
    """A plan laid out; one is equal to itself alone, so that what follows from it can be kept.

    Parameters
    ----------
    resolved : ResolvedPlan
        The plan.
    portions : Portions
        Spun, scaled to the target, not weighed.
    stretches : Stretches
        Along the plied yarn.
    target_ratio : float
        Yarn wanted over yarn there is; above 1 where the stash falls short, 1 without target.
    """

    resolved: ResolvedPlan
    portions: Portions
    stretches: Stretches
    target_ratio: float

    @property
    def single_used_m(self) -> float:
        """Length of each single that goes into the yarn."""
        return self.stretches.yarn_m / (1 - self.resolved.contraction) * self.folds

    @property
    def yarn_tex(self) -> float:
        """Linear density of the plied yarn."""
        return self.resolved.yarn.yarn_tex

    @property
    def yarn_g(self) -> float:
        """Mass of the plied yarn."""
        return self.yarn_tex * self.stretches.yarn_m / 1000

    @property
    def folds(self) -> int:
        """How often one single lies in the yarn: three times in a chain."""
        return STRANDS_OF_A_CHAIN if self.resolved.is_chain else 1


def layout(resolved: ResolvedPlan) -> Layout:
    """Return a resolved plan laid out: portions spun, plies side by side, the target met."""
    portions = with_lengths(laid_out(resolved.scheme_input), resolved.tex, resolved.spin_loss)
    whole = Layout(resolved, portions, _plied(resolved, portions), 1.0)
    if resolved.plan.target is None:
        return whole
    wanted = target_ratio(resolved.plan.target, whole.stretches.yarn_m, whole.yarn_tex)
    used = min(wanted, 1.0)
    portions = replace(portions, mass_g=portions.mass_g * used, length_m=portions.length_m * used)
    return Layout(resolved, portions, _plied(resolved, portions), wanted)


def _plied(resolved: ResolvedPlan, portions: Portions) -> Stretches:
    off = strands(portions, resolved.wound_off)
    if resolved.is_chain:
        off = folded_in_three(off, resolved.scheme.loop_m)
    return stretches(off, resolved.contraction)


def target_ratio(target: Target, yarn_m: _Metres, yarn_tex: float) -> _Metres:
    """Return the yarn that is wanted over the yarn there is, of one yarn or of many.

    Parameters
    ----------
    target : Target
        Metres or grams that are wanted.
    yarn_m : float or array
        Metres of yarn from all that there is.
    yarn_tex : float
        Its linear density.
    """
    if target.yarn_m is not None:
        return target.yarn_m / yarn_m
    return target.yarn_g / (yarn_tex * yarn_m / 1000)


def used_g(layout: Layout) -> np.ndarray:
    """Return grams of each lot in all its portions, as weighed out: (lots,)."""
    lots = len(layout.resolved.plan.lots)
    return np.bincount(layout.portions.lot, layout.portions.mass_g, lots)


def in_words(laid: Layout) -> str:
    """Return the scheme and how many strands it has."""
    if laid.resolved.is_chain:
        return "chain plied from one single"
    plies = laid.stretches.lot.shape[1]
    return f"{laid.resolved.scheme.name}, {f'{plies} plies' if plies > 1 else 'one single'}"
