"""A plan's answer: everything that follows from it."""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from yarncolor.answers.bobbins import (
    Bobbin,
    Need,
    WeighPoint,
    bobbins_needed,
    filled_bobbins,
    weigh_points,
)
from yarncolor.answers.by_hand import ByScale, HandDivision, hand_division, on_strips
from yarncolor.answers.closing_costs import ClosingCost, open_costs
from yarncolor.answers.drift import Drift, drift
from yarncolor.answers.finishing import Lengths, class_of, lengths
from yarncolor.answers.hours import Hours, hours
from yarncolor.answers.knitted_piece import KnittedPiece, piece
from yarncolor.answers.leftovers import Leftover, leftovers
from yarncolor.answers.on_bobbin import OnBobbins, on_bobbins
from yarncolor.answers.on_the_scale import on_scale, on_scale_g, put_g
from yarncolor.answers.runs import Runs, at_fault, runs
from yarncolor.answers.skeins import Skein, skeins
from yarncolor.answers.spins import SPINS_AT_HAND
from yarncolor.answers.spread import Spread, matched_band, spread
from yarncolor.answers.straying import goes_beyond_portions
from yarncolor.answers.weigh_out import SingleWeighOut, weigh_out
from yarncolor.colour.difference import Contrast, contrast
from yarncolor.colour.palette import DisplayColours, Palette, display_colours, palette, palette_as
from yarncolor.layout.layout import Layout, layout
from yarncolor.layout.resolved import ResolvedPlan, resolve
from yarncolor.layout.stretches import shares_by_colours
from yarncolor.layout.weighing import WeighGroups
from yarncolor.measures import Measures
from yarncolor.plan import Plan
from yarncolor.yarn.weight_classes import WeightClass


@dataclass(frozen=True)
class Preview:
    """A plan laid out, in its colours: all that a picture needs; `preview` makes it."""

    layout: Layout
    palette: DisplayColours

    @property
    def resolved(self) -> ResolvedPlan:
        """The plan with every default settled."""
        return self.layout.resolved

    @property
    def say(self) -> Measures:
        """What everything that is measured is said in."""
        return self.layout.resolved.say

    @property
    def plan(self) -> Plan:
        """The plan."""
        return self.layout.resolved.plan

    @cached_property
    def piece(self) -> KnittedPiece | None:
        """What is knitted from the yarn; None where the plan does not speak of a piece."""
        return piece(self.layout)


@dataclass(frozen=True)
class Answer(Preview):
    """Everything that follows from a plan; `answer` makes it, each part once, when first asked.

    Parameters
    ----------
    palette : Palette
        Colours of its lots, and how far they are apart.
    heaps : WeighGroups
        What is weighed together and divided by hand, of the rows as planned.
    weigh_rest_g : (lots,) array
        Under one step of the scale of each lot.
    by_hand : tuple of HandDivision
        How hands divide each portion.
    contrast : Contrast
        Of each stretch.
    runs : Runs
        Consecutive fibre of one colour.
    leftovers : tuple of Leftover
        What does not become yarn.
    closing_costs : tuple of ClosingCost
        Ways of closing, best first; none where there is nothing to mend.
    """

    palette: Palette
    heaps: WeighGroups
    weigh_rest_g: np.ndarray
    by_hand: tuple[HandDivision, ...]
    contrast: Contrast
    runs: Runs
    leftovers: tuple[Leftover, ...]
    closing_costs: tuple[ClosingCost, ...]

    @cached_property
    def as_planned(self) -> "Answer":
        """The same plan before anything was spun; the answer itself where nothing is said of it."""
        if self.layout.wheel is None:
            return self
        return answer(self.plan.without_steps.before_the_wheel)

    @cached_property
    def weigh_out(self) -> tuple[SingleWeighOut, ...]:
        """What is weighed for each single, ply after ply."""
        on_bobbin_g = self.on_bobbins.after_each_g
        return weigh_out(self.layout, self.heaps, self.by_hand, on_bobbin_g)

    @cached_property
    def put_g(self) -> np.ndarray:
        """Grams of each portion as they leave the scale; of a heap, its piece: (N,)."""
        return put_g(self.layout, self.heaps)

    @cached_property
    def on_scale_g(self) -> np.ndarray:
        """What goes on the scale with each portion: its own mass or that of its heap, (N,)."""
        return on_scale_g(self.layout, self.heaps)

    @cached_property
    def spread(self) -> Spread | None:
        """The bands of the plan's lengths; None where no variation is given."""
        return spread(self.layout, self.on_scale_g)

    @cached_property
    def drift(self) -> Drift | None:
        """What hands do to the plan, spun many times; None where nothing varies."""
        return drift(self.layout, self.on_scale_g)

    @cached_property
    def drift_at_hand(self) -> Drift | None:
        """What hands do to the plan, spun less often: for words, and while fingers wait."""
        return drift(self.layout, self.on_scale_g, SPINS_AT_HAND)

    @cached_property
    def matched_band(self) -> tuple[float, float] | None:
        """Between which matched shares nine yarns of ten lie; None without a variation."""
        if goes_beyond_portions(self.layout):
            shares = None if self.drift is None else self.drift.matched
            return None if shares is None else (float(shares[0]), float(shares[-1]))
        return matched_band(self.layout, self.on_scale_g)

    @cached_property
    def bobbins(self) -> tuple[Bobbin, ...]:
        """Every bobbin that the singles fill, in spinning order."""
        return filled_bobbins(self.layout)

    @cached_property
    def bobbins_needed(self) -> Need:
        """How many bobbins are needed at once."""
        return bobbins_needed(self.layout, self.bobbins)

    @cached_property
    def on_bobbins(self) -> OnBobbins:
        """What is on the bobbins at any place: the one running total."""
        return on_bobbins(self.layout, self.put_g, self.bobbins)

    @cached_property
    def weigh_points(self) -> tuple[WeighPoint, ...]:
        """What each bobbin should weigh after each repeat, and when it is full."""
        return weigh_points(self.layout, self.bobbins)

    @cached_property
    def skeins(self) -> tuple[Skein, ...]:
        """The skeins that the plying bobbin allows."""
        return skeins(self.layout)

    @cached_property
    def hours(self) -> Hours:
        """Hours at the wheel."""
        return hours(self.layout)

    @cached_property
    def lengths(self) -> Lengths:
        """The yarn's length as plied, rested and washed."""
        return lengths(self.layout)

    @cached_property
    def weight_class(self) -> WeightClass:
        """What charts call the finished yarn."""
        return class_of(self.layout)

    @cached_property
    def shares(self) -> np.ndarray:
        """Share of the yarn's length that shows 1, 2, … colours: (plies,)."""
        along = self.layout.stretches
        return shares_by_colours(along.edges_ppb, along.lot)


def preview(plan: Plan) -> Preview:
    """Return a plan laid out, in its colours: what can be shown before anything is judged."""
    laid = layout(resolve(plan))
    return Preview(laid, display_colours(laid.resolved.plan.lots))


def answer(plan: Plan) -> Answer:
    """Return everything that follows from a plan.

    Parameters
    ----------
    plan : Plan
        As `read_plan` or `plan_from_data` returns it.
    """
    return answer_of(layout(resolve(plan)))


def answer_of(laid: Layout) -> Answer:
    """Return everything that follows from a plan that is laid out, such as a preview's layout."""
    filled = laid.resolved
    whole, heaps, rest = on_scale(laid)
    its_runs = runs(whole)
    colours = palette(filled.plan.lots)
    return Answer(
        layout=whole,
        heaps=heaps,
        weigh_rest_g=rest,
        by_hand=tuple(_by_hand(whole)),
        palette=colours,
        contrast=contrast(whole.stretches.lot, colours.between),
        runs=its_runs,
        leftovers=tuple(leftovers(whole, its_runs)),
        closing_costs=tuple(open_costs(whole)) if at_fault(its_runs, whole).any() else (),
    )


def _by_hand(laid: Layout) -> list[HandDivision]:
    """Return for each portion how hands divide it: what was weighed otherwise needs a scale."""
    if laid.wheel is None:
        return on_strips(laid, hand_division(laid))
    of_rows = on_strips(laid, hand_division(replace(laid, portions=laid.planned)))
    wheel = laid.wheel
    is_usual = wheel.as_planned & (wheel.wanted_g == wheel.planned.mass_g)[wheel.of_planned]
    pieces = zip(wheel.of_planned.tolist(), is_usual.tolist(), strict=True)
    return [of_rows[at] if usual else ByScale() for at, usual in pieces]


def seen_as(answer: Answer, view: str, severity: float = 1.0) -> Answer:
    """Return an answer whose every picture and contrast is that of another eye.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    view : str
        As it is, lightness, protanomaly, deuteranomaly or tritanomaly.
    severity : float
        Of a colour-vision deficiency, 0 to 1.
    """
    colours = palette_as(answer.plan.lots, view, severity)
    far = contrast(answer.layout.stretches.lot, colours.between)
    return replace(answer, palette=colours, contrast=far)
