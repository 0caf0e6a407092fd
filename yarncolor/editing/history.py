"""Steps of working on a plan, one after the other: to undo, to redo, and one for a whole drag."""

from dataclasses import dataclass, replace

from yarncolor.defaults import scheme_name
from yarncolor.editing.at_the_wheel_pieces import PieceKey
from yarncolor.editing.fitting import UNORDERED
from yarncolor.editing.order import Order
from yarncolor.plan import Plan, Scheme
from yarncolor.planfile.document import PlanDocument

_MOST_STEPS = 1000


@dataclass(frozen=True)
class EntryDrag:
    """One entry of the order under a finger."""

    entry: int


@dataclass(frozen=True)
class ControlDrag:
    """One slider or chooser of a bench under a finger."""

    control: str


Drag = EntryDrag | ControlDrag
"""What is dragged. Changes of one drag, one after the other, are one step."""


@dataclass(frozen=True)
class Step:
    """What undo brings back.

    Parameters
    ----------
    plan : Plan
        As it stands.
    document : PlanDocument
        Where it is kept.
    order : Order
        Which entry stands where, and what is held.
    drag : Drag, optional
        What was dragged to get here.
    stays : tuple of PieceKey
        Pieces on the bobbins that say themselves what went in since this step changed their rows.
    """

    plan: Plan
    document: PlanDocument
    order: Order
    drag: Drag | None = None
    stays: tuple[PieceKey, ...] = ()

    def called(self) -> "Step":
        """Return the step with its plan called after its file, with the hands named beside it."""
        path, plan = self.document.path, self.plan
        hands = self.document.hands_of(plan)
        name = plan.kept_as if path is None else path.stem
        if (plan.kept_as, plan.hands) == (name, hands):
            return self
        return replace(self, plan=replace(plan, kept_as=name, hands=hands))


@dataclass(frozen=True)
class History:
    """The step that stands, those before it, and those that were undone.

    Parameters
    ----------
    now : Step
        The step that stands.
    past : tuple of Step
        Those before it, the last one last; a thousand at most.
    future : tuple of Step
        Those that were undone, the next one first.
    """

    now: Step
    past: tuple[Step, ...] = ()
    future: tuple[Step, ...] = ()

    def last_ordered(self) -> Scheme | None:
        """Return the last scheme of the steps before this one that had every lot in order."""
        schemes = (step.plan.scheme for step in reversed(self.past))
        return next((each for each in schemes if scheme_name(each) not in UNORDERED), None)

    def begun(self, drag: Drag | None) -> Step:
        """Return the step from which a drag began that goes on, or begins."""
        return self.past[-1] if self._goes_on(drag) else self.now

    def _goes_on(self, drag: Drag | None) -> bool:
        return bool(self.past) and drag is not None and drag == self.now.drag

    def taken(self, step: Step) -> "History":
        """Return the history with another step; one that goes on with a drag takes its place."""
        if self._goes_on(step.drag):
            return History(step, self.past)
        return History(step, (*self.past, self.now)[-_MOST_STEPS:])

    def called(self) -> "History":
        """Return the history with every plan called after its file, which has another name."""
        past, future = (tuple(each.called() for each in own) for own in (self.past, self.future))
        return History(self.now.called(), past, future)

    def undone(self) -> "History":
        """Return the history with the last step taken back; there must be one."""
        return History(self.past[-1], self.past[:-1], (self.now, *self.future))

    def redone(self) -> "History":
        """Return the history with the step that was undone last taken again; there must be one."""
        return History(self.future[0], (*self.past, self.now), self.future[1:])
