"""The step that another plan makes: its order of entries, and what was spun, are kept."""

from dataclasses import replace

from yarncolor.editing.history import Drag, History, Step
from yarncolor.editing.order import Order
from yarncolor.editing.sequence import names_of_places
from yarncolor.editing.spun_stays import newly_stated, with_spun_kept
from yarncolor.plan import Plan, to_data
from yarncolor.planfile.document import PlanDocument
from yarncolor.planfile.read import plan_from_data


def fresh_step(plan: Plan, document: PlanDocument) -> Step:
    """Return a step to begin with, every entry in its own place.

    Parameters
    ----------
    plan : Plan
        Where to begin.
    document : PlanDocument
        Where it is kept.
    """
    return Step(plan, document, Order.of_places(len(names_of_places(plan))))


def step_to(now: Step, plan: Plan, drag: Drag | None = None) -> Step:
    """Return the step to another plan; the order of entries is kept where the sequence is.

    Parameters
    ----------
    now : Step
        That stands.
    plan : Plan
        Another.
    drag : Drag, optional
        What was dragged to get there.
    """
    step = replace(now, plan=plan, stays=())
    if names_of_places(now.plan) != names_of_places(plan):
        step = fresh_step(plan, now.document)
    return replace(step, drag=drag)


def step_beside_spun(history: History, plan: Plan, drag: Drag | None = None) -> Step:
    """Return the step to another plan, on whose bobbins lies what lay there before.

    Parameters
    ----------
    history : History
        Steps so far.
    plan : Plan
        Another.
    drag : Drag, optional
        What was dragged to get there.

    Raises
    ------
    PlanError
        Where the plan has not the rows, plies or lots any more that were spun.
    """
    begun = history.begun(drag).plan
    kept = with_spun_kept(history.now.plan, plan, begun)
    if kept.spun:
        kept = plan_from_data(to_data(kept), "this change")
    return replace(step_to(history.now, kept, drag), stays=newly_stated(begun, kept))
