"""A plan with everything settled that it does not say: what the model works on."""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from yarncolor.defaults import LOSS, WOUND_OFF, given_or, place_masses_g, scale_step_g, to_divide_g
from yarncolor.layout.assumptions import Assumption, Why, assumptions_of
from yarncolor.layout.carded_steps import with_carded_steps
from yarncolor.layout.own_hand import with_hands
from yarncolor.layout.resolved_scheme import ResolvedScheme, resolve_scheme
from yarncolor.layout.scheme_input import SchemeInput
from yarncolor.layout.striped import striped
from yarncolor.measures import Measures, measures_of
from yarncolor.plan import PerPly, Plan
from yarncolor.plan.hands import Figure
from yarncolor.yarn.given import per_ply
from yarncolor.yarn.structure import YarnStructure, yarn_structure


@dataclass(frozen=True)
class ResolvedPlan:
    """A plan with every default filled in.

    Parameters
    ----------
    plan : Plan
        As given, its lots with those that a gradient's steps make.
    scheme_input : SchemeInput
        What the scheme works on, its own options among it.
    yarn : YarnStructure
        How the yarn is built.
    wound_off : (singles,) int array
        How often each single is wound off before plying.
    card_loss, spin_loss : float
        Shares of mass lost.
    step_g : float
        What the scale can show.
    """

    plan: Plan
    scheme_input: SchemeInput
    yarn: YarnStructure
    wound_off: NDArray[np.int64]
    card_loss: float
    spin_loss: float
    step_g: float

    @property
    def say(self) -> Measures:
        """What everything that is measured is said in."""
        return measures_of(self.plan)

    @property
    def scheme(self) -> ResolvedScheme:
        """The scheme, nothing left open."""
        return self.scheme_input.scheme

    @property
    def to_divide_g(self) -> NDArray[np.float64]:
        """Grams of each lot after reserve and carding: (lots,)."""
        return self.scheme_input.to_divide_g

    @property
    def tex(self) -> NDArray[np.float64]:
        """Linear density of each ply as spun: (singles,); one for a chain."""
        return self.yarn.tex

    @property
    def contraction(self) -> float:
        """Share of length lost in plying."""
        return self.yarn.contraction

    @cached_property
    def as_in_the_yarn(self) -> NDArray[np.float64] | None:
        """Metres of yarn from a metre of each single, over those of the mean; None if all alike."""
        kept = 1 - self.yarn.contractions
        return kept / (1 - self.contraction) if np.ptp(kept) else None

    @property
    def is_chain(self) -> bool:
        """Whether one single is folded in three."""
        return self.scheme.name == "chain"

    @cached_property
    def assumptions(self) -> tuple[Assumption, ...]:
        """What stands where the plan says nothing, and what it says in vain."""
        return tuple(assumptions_of(self.plan, self.scheme_input, self.yarn))

    def by_hand(self, table: str, key: str) -> Figure | None:
        """Return what the spinner's own hands say of a key; None where they say nothing of it.

        Parameters
        ----------
        table, key : str
            Where it stands in the plan file.
        """
        of_key = (one for one in self.assumptions if (one.table, one.key) == (table, key))
        return next((one.value for one in of_key if one.why is Why.HAND), None)

    def assumed(self, table: str, key: str) -> Assumption | None:
        """Return what stands for a key of the plan file; None where it is given or not known.

        Parameters
        ----------
        table, key : str
            Where it stands in the plan file.
        """
        standing = (Why.USUAL, Why.DERIVED)
        of_key = (one for one in self.assumptions if (one.table, one.key) == (table, key))
        return next((one for one in of_key if one.why in standing), None)


def resolve(plan: Plan) -> ResolvedPlan:
    """Return a plan with every default filled in, what its hands do among it."""
    plan = with_hands(plan)
    yarn = yarn_structure(plan)
    card_loss = given_or(plan.spinning.card_loss, LOSS)
    scheme_input, steps = with_carded_steps(_scheme_input(plan, yarn), card_loss)
    return ResolvedPlan(
        plan=replace(plan, lots=(*plan.lots, *steps)),
        scheme_input=scheme_input,
        yarn=yarn,
        wound_off=wound_off_of(plan, yarn),
        card_loss=card_loss,
        spin_loss=given_or(plan.spinning.spin_loss, LOSS),
        step_g=scale_step_g(plan),
    )


def wound_off_of(plan: Plan, yarn: YarnStructure) -> NDArray[np.int64]:
    """Return how often each single of a plan is wound off before plying: (singles,).

    Parameters
    ----------
    plan : Plan
        As given.
    yarn : YarnStructure
        Its yarn.
    """
    windings: PerPly = WOUND_OFF if plan.plying.wound_off is None else plan.plying.wound_off
    return per_ply(windings, len(yarn.tex)).astype(np.int64)


def _scheme_input(plan: Plan, yarn: YarnStructure) -> SchemeInput:
    """Return what the scheme works on, without places of 0 g."""
    to_divide = to_divide_g(plan)
    scheme = resolve_scheme(plan.scheme, plan.names, to_divide)
    lot = np.array([plan.names.index(name) for name in scheme.sequence], dtype=np.int64)
    mass_g = place_masses_g(plan.scheme, lot, to_divide)
    used = np.flatnonzero(mass_g > 0)
    return SchemeInput(
        lot=lot[used],
        place=used + 1,
        mass_g=mass_g[used],
        ply_share=yarn.due,
        scheme=scheme,
        names=plan.names,
        to_divide_g=to_divide,
        turned=wound_off_of(plan, yarn) % 2 == 1,
        striped=striped(plan, yarn, to_divide),
    )
