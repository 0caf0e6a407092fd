"""A plan that asks for other aims, or for what its orders are to obey."""

from typing import Any

from yarncolor.plan import Plan, to_data
from yarncolor.planfile.read import plan_changed


def asked(plan: Plan, **keys: Any) -> Plan:
    """Return a plan that looks for something else.

    Parameters
    ----------
    plan : Plan
        As it stands.
    keys : dict
        Of the table ``orders``: aims, hold, neighbours, apart, may_leave_out, closed; None takes
        one away.

    Raises
    ------
    PlanError
        With every fault, one line each.
    """
    data = to_data(plan)
    wanted = {**data.get("orders", {}), **keys}
    data["orders"] = {key: value for key, value in wanted.items() if value is not None}
    return plan_changed(plan, data, "what is asked of orders")
