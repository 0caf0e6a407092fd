"""A plan to begin with: one lot that stands for those to come."""

from functools import cache

from yarncolor.plan import Lot, Plan
from yarncolor.planfile.read import plan_from_text

NEW_PLAN = """[[lots]]
name = "Lot 1"
colour = "#808080"
mass_g = 20.0
"""


def has_no_lots_yet(plan: Plan) -> bool:
    """Return whether a plan has nothing but the lot that a new plan begins with."""
    return plan.lots == _first_lot()


@cache
def _first_lot() -> tuple[Lot, ...]:
    return plan_from_text(NEW_PLAN, "a new plan").lots
