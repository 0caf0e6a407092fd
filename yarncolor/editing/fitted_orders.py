"""What every order is to obey, fitted when lots or the scheme change: what cannot be goes."""

from collections.abc import Iterable
from typing import Any

from yarncolor.errors import Path, PlanError
from yarncolor.planfile.read import plan_from_data

_TABLE = "orders"


def fitted(data: dict[str, Any]) -> dict[str, Any]:
    """Return a plan's data without what its orders can no longer obey.

    Parameters
    ----------
    data : dict
        What the plan is to say; what else is wrong with it is left to whoever reads it.
    """
    if _TABLE not in data:
        return data
    try:
        plan_from_data(data)
    except PlanError as error:
        own = [fault.path for fault in error.faults if fault.path[:1] == (_TABLE,)]
        if own:
            asked = _without(data[_TABLE], own)
            rest = {key: value for key, value in data.items() if key != _TABLE}
            return fitted(rest | ({_TABLE: asked} if asked else {}))
    return data


def _without(asked: dict[str, Any], paths: Iterable[Path]) -> dict[str, Any]:
    """Return a table without what these paths lead to; of a list or table its item."""
    gone = {path[1:3] for path in paths}
    if () in gone:
        return {}
    left = {key: value for key, value in asked.items() if (key,) not in gone}
    for key, value in left.items():
        if isinstance(value, dict):
            left[key] = {name: one for name, one in value.items() if (key, name) not in gone}
        elif isinstance(value, list):
            left[key] = [one for at, one in enumerate(value) if (key, at) not in gone]
    return {key: value for key, value in left.items() if value not in ({}, [])}


def orders_renamed(data: dict[str, Any], named: dict[str, str]) -> dict[str, Any]:
    """Return what every order has to obey, its lots by their new names; those gone stay as named.

    Parameters
    ----------
    data : dict
        Of a plan.
    named : dict of str to str
        New names by old ones.
    """
    if _TABLE not in data:
        return {}
    asked = dict(data[_TABLE])
    if "hold" in asked:
        asked["hold"] = {named.get(lot, lot): place for lot, place in asked["hold"].items()}
    for key in ("neighbours", "apart"):
        if key in asked:
            asked[key] = [[named.get(lot, lot) for lot in pair] for pair in asked[key]]
    if "may_leave_out" in asked:
        lots = (named.get(lot, lot) for lot in asked["may_leave_out"])
        asked["may_leave_out"] = list(dict.fromkeys(lots))
    return {_TABLE: asked}
