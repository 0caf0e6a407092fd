"""What follows from the plan under the fingers: made once, for all who look."""

from functools import cached_property

from yarncolor.answers.answer import Answer, Preview, answer_of, preview
from yarncolor.layout.resolved import ResolvedPlan
from yarncolor.plan import Plan

_MOST_KEPT = 4


class Derived:
    """What follows from one plan, each part made when it is first asked for.

    Parameters
    ----------
    plan : Plan
        A plan that is right.
    """

    def __init__(self, plan: Plan) -> None:
        self.plan = plan

    @cached_property
    def preview(self) -> Preview:
        """The plan laid out in its colours: enough for pictures."""
        return preview(self.plan)

    @cached_property
    def answer(self) -> Answer:
        """Everything that follows, from what is laid out already."""
        return answer_of(self.preview.layout)

    @property
    def resolved(self) -> ResolvedPlan:
        """The plan with every default filled in."""
        return self.preview.resolved


class LastDerived:
    """What follows from the last few plans that were looked at: undo finds it again."""

    def __init__(self) -> None:
        self._kept: list[Derived] = []

    def of(self, plan: Plan) -> Derived:
        """Return what follows from a plan."""
        known = (each for each in self._kept if each.plan is plan)
        derived = next(known, None) or Derived(plan)
        others = [each for each in self._kept if each is not derived]
        self._kept = [derived, *others][:_MOST_KEPT]
        return derived
