"""From a resolved plan to portions, strands and stretches: the part that follows a finger."""

from dataclasses import dataclass, replace
from functools import cached_property
from typing import NamedTuple, TypeVar

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.along_single import keeps_grist, net_g_at
from yarncolor.layout.asked import as_asked
from yarncolor.layout.bobbin_pieces import BobbinPieces
from yarncolor.layout.ended import Ended, InLine, WrongEnd, brought_into_line, ended_at_m
from yarncolor.layout.lying import lying
from yarncolor.layout.portions import Portions, row_numbers, with_lengths
from yarncolor.layout.resolved import ResolvedPlan
from yarncolor.layout.schemes import laid_out
from yarncolor.layout.stretches import Stretches, stretches, yarn_length_m
from yarncolor.layout.winding import Strands, as_in_the_yarn, folded_in_three, strands
from yarncolor.measures import Measures
from yarncolor.plan import STRANDS_OF_A_CHAIN, Target

_Metres = TypeVar("_Metres", float, NDArray[np.float64])


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
    wheel : BobbinPieces or None
        What lies on the bobbins and what is still to spin, whose pieces the portions then are;
        None where nothing is said of it.
    ended : Ended or None
        The single that came to its end while plying, with which all lengths are in line.
    """

    resolved: ResolvedPlan
    portions: Portions
    stretches: Stretches
    target_ratio: float
    wheel: BobbinPieces | None = None
    ended: Ended | None = None

    @property
    def say(self) -> Measures:
        """What everything that is measured is said in."""
        return self.resolved.say

    @property
    def planned(self) -> Portions:
        """The rows as planned, whatever was spun."""
        return self.portions if self.wheel is None else self.wheel.planned

    @property
    def row(self) -> NDArray[np.int64]:
        """Row of its ply's page for each portion, from 1; 0 for a piece that is no row: (N,)."""
        return row_numbers(self.portions) if self.wheel is None else self.wheel.row

    @property
    def of_planned(self) -> NDArray[np.int64]:
        """Each portion as an index into the rows as planned; -1 for a piece that is no row."""
        if self.wheel is None:
            return np.arange(len(self.portions))
        return self.wheel.of_planned

    @property
    def to_spin(self) -> NDArray[np.bool_]:
        """Which portions are still to be spun, as far as that is said: (N,)."""
        if self.wheel is None:
            return np.ones(len(self.portions), dtype=np.bool_)
        return ~self.wheel.spun

    @property
    def single_used_m(self) -> NDArray[np.float64]:
        """Length of each single that goes into the yarn: (singles,)."""
        return self.stretches.yarn_m / (1 - self.resolved.yarn.contractions) * self.folds

    @property
    def plied_m(self) -> NDArray[np.float64]:
        """Yarn that each single would reach for, by what it loses in plying: (singles,)."""
        return self.portions.single_m * (1 - self.resolved.yarn.contractions) / self.folds

    @property
    def has_own_grist(self) -> bool:
        """Whether anything on the bobbins is of another grist than planned, as measured."""
        tex = enumerate(self.resolved.tex.tolist())
        return self.wheel is not None and not all(
            keeps_grist(self.portions, ply, one) for ply, one in tex
        )

    @cached_property
    def yarn_tex(self) -> float:
        """Linear density of the plied yarn: of what goes into it, where that was measured."""
        if not self.has_own_grist:
            return self.resolved.yarn.yarn_tex
        used_m, single_m = self.single_used_m, self.portions.single_m
        turned = self.resolved.wound_off % 2 == 1
        start_m = np.where(turned, 0.0, single_m - used_m)
        end_m = np.where(turned, used_m, single_m)
        each_g = [
            np.diff(net_g_at(self.portions, ply, np.array([start, end])))[0]
            for ply, (start, end) in enumerate(zip(start_m, end_m, strict=True))
        ]
        return float(sum(each_g) / self.stretches.yarn_m * 1000)

    @property
    def finished_tex(self) -> float:
        """Linear density of the yarn when it has rested and been washed."""
        return self.yarn_tex / self.resolved.yarn.finishing_ratio

    @property
    def yarn_g(self) -> float:
        """Mass of the plied yarn."""
        return self.yarn_tex * self.stretches.yarn_m / 1000

    @property
    def folds(self) -> int:
        """How often one single lies in the yarn: three times in a chain."""
        return STRANDS_OF_A_CHAIN if self.resolved.is_chain else 1


class PlannedRows(NamedTuple):
    """The rows of a plan before plies lie side by side: enough to say what was spun of them."""

    resolved: ResolvedPlan
    portions: Portions
    target_ratio: float


def planned_rows(resolved: ResolvedPlan) -> PlannedRows:
    """Return the rows of a resolved plan as planned, their lengths set, the target met."""
    planned = with_lengths(laid_out(resolved.scheme_input), resolved.tex, resolved.spin_loss)
    ratio = _target_ratio(resolved, planned)
    return PlannedRows(resolved, planned.scaled(ratio) if ratio < 1 else planned, ratio)


def layout(resolved: ResolvedPlan) -> Layout:
    """Return a resolved plan laid out: portions spun, the target met, plies side by side."""
    _, planned, ratio = planned_rows(resolved)
    wheel = lying(resolved, planned)
    if wheel is not None:
        wheel = as_asked(wheel, resolved.plan, resolved.spin_loss)
    portions = planned if wheel is None else wheel.pieces
    along = stretches(off_the_bobbins(resolved, portions), resolved.contraction)
    laid = Layout(resolved, portions, along, ratio, wheel)
    return laid if resolved.plan.plied is None else _up_to_its_end(laid)


def _up_to_its_end(laid: Layout) -> Layout:
    """Return a plan laid out so that a single ends where it did, if any lengths agree with that."""
    found = in_line(laid)
    if found is None or isinstance(found, WrongEnd):
        return laid
    resolved = laid.resolved
    if found.ended.tells_contraction:
        resolved = replace(resolved, yarn=resolved.yarn.with_contraction(found.contraction))
    portions = found.wheel.pieces
    along = stretches(off_the_bobbins(resolved, portions), resolved.contraction)
    return replace(
        laid,
        resolved=resolved,
        portions=portions,
        stretches=along,
        wheel=found.wheel,
        ended=found.ended,
    )


def in_line(laid: Layout) -> InLine | WrongEnd | None:
    """Return what agrees with the end of a single, or why nothing does; None where none ended."""
    plied, at_m = laid.resolved.plan.plied, ended_at_m(laid.resolved.plan, laid.yarn_tex)
    if laid.wheel is None or plied is None or plied.ended_ply is None or at_m is None:
        return None
    if plied.ended_ply > len(laid.resolved.tex) or at_m <= 0:
        return None
    lost, ply = laid.resolved.yarn.contractions, plied.ended_ply - 1
    return brought_into_line(laid.wheel, ply, at_m, lost, laid.folds)


def _target_ratio(resolved: ResolvedPlan, portions: Portions) -> float:
    """Return yarn wanted over yarn there is, for which the plies need not meet; 1 without."""
    if resolved.plan.target is None or resolved.scheme_input.striped is not None:
        return 1.0
    yarn_m = float(yarn_length_m(off_the_bobbins(resolved, portions), resolved.contraction))
    return target_ratio(resolved.plan.target, yarn_m, resolved.yarn.yarn_tex)


def off_the_bobbins(resolved: ResolvedPlan, portions: Portions) -> Strands:
    """Return what comes off each bobbin, in that order; of a chain its three strands.

    Where singles that are not alike lose each its own length in plying, they are as long as they
    would be if all lost the same.

    Parameters
    ----------
    resolved : ResolvedPlan
        The plan.
    portions : Portions
        What lies on its bobbins, or is to.
    """
    single = as_in_the_yarn(strands(portions, resolved.wound_off), resolved.as_in_the_yarn)
    return folded_in_three(single, resolved.scheme.loop_m) if resolved.is_chain else single


def target_ratio(target: Target, yarn_m: _Metres, yarn_tex: float) -> _Metres:
    """Return the yarn that is wanted over the yarn there is, of one yarn or of many; 1 for none.

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
    if target.yarn_g is not None:
        return target.yarn_g / (yarn_tex * yarn_m / 1000)
    return yarn_m / yarn_m


def used_g(layout: Layout) -> NDArray[np.float64]:
    """Return grams of each lot in all its portions, as weighed out: (lots,)."""
    return layout.portions.by_lot_g(len(layout.resolved.plan.lots))


def lost_g(layout: Layout) -> NDArray[np.float64]:
    """Return grams of each lot that were spoilt or lost, as far as they were to be divided."""
    names, kept = layout.resolved.plan.names, 1 - layout.resolved.card_loss
    lost = np.zeros(len(names))
    for one in layout.resolved.plan.lost:
        lost[names.index(one.lot)] += one.mass_g * kept
    return lost


def reserve_g(layout: Layout) -> NDArray[np.float64]:
    """Return grams of each lot that were kept back, as they would be to divide: (lots,)."""
    kept_g = np.array([lot.reserve_g for lot in layout.resolved.plan.lots], dtype=np.float64)
    return kept_g * (1 - layout.resolved.card_loss)


def left_g(layout: Layout) -> NDArray[np.float64]:
    """Return what each lot has beyond what is spun and to be spun, its reserve too: (lots,).

    Below 0 where more is taken of it than there is; what was drawn off a bobbin is no fibre again.
    """
    has_g = layout.resolved.to_divide_g + reserve_g(layout)
    left: NDArray[np.float64] = has_g - lost_g(layout) - used_g(layout) - drawn_off_g(layout)
    return left


def drawn_off_g(layout: Layout) -> NDArray[np.float64]:
    """Return grams of each lot drawn off outer ends, which are no fibre again: (lots,)."""
    lots, wheel = len(layout.resolved.plan.lots), layout.wheel
    if wheel is None or wheel.drawn_off is None:
        return np.zeros(lots)
    return wheel.drawn_off.by_lot_g(lots)


def in_words(laid: Layout) -> str:
    """Return the scheme and how many strands it has."""
    copies = laid.resolved.scheme.copies
    alike = f", {copies} alike" if copies > 1 else ""
    if laid.resolved.is_chain:
        return f"chain plied from one single{alike}"
    plies = laid.stretches.lot.shape[1]
    return f"{laid.resolved.scheme.name}, {f'{plies} plies' if plies > 1 else 'one single'}{alike}"
