"""A plan to begin with: one lot that stands for those to come."""

from functools import cache

from yarncolor.plan import Lot, Plan, to_data
from yarncolor.planfile.read import plan_from_data, plan_from_text
from yarncolor.planfile.save import merged_text

NEW_PLAN = """[[lots]]
name = "Lot 1"
colour = "#808080"
mass_g = 20.0
"""


_OF_THE_PIECE = ("title", "purpose", "units", "fabric", "target")


def new_plan_like(plan: Plan) -> str:
    """Return a plan to begin with that keeps of another what it is called and what is made of it.

    Parameters
    ----------
    plan : Plan
        The other one.
    """
    data = to_data(plan)
    kept = {key: data[key] for key in _OF_THE_PIECE if key in data}
    begun = plan_from_data({**kept, "lots": [to_data(lot) for lot in _first_lot()]})
    return merged_text("", begun, "a new plan")


def has_no_lots_yet(plan: Plan) -> bool:
    """Return whether a plan has nothing but the lot that a new plan begins with."""
    return plan.lots == _first_lot()


@cache
def _first_lot() -> tuple[Lot, ...]:
    return plan_from_text(NEW_PLAN, "a new plan").lots
