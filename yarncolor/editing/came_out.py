"""What came out, said of a plan: the plan that says so, or every fault of it."""

from typing import Any

from yarncolor.plan import Plan, to_data
from yarncolor.planfile.read import plan_changed


def came_out(plan: Plan, **measured: Any) -> Plan:
    """Return the plan that says what came out, in place of what it said of that before.

    Parameters
    ----------
    plan : Plan
        Of the yarn that was made.
    measured : dict
        Keys of its ``made`` table: ``length_m``, ``mass_g``, ``washed_m`` and so on.

    Raises
    ------
    PlanError
        With every fault of what was measured.
    """
    return plan_changed(plan, to_data(plan) | {"made": measured}, "what came out")
