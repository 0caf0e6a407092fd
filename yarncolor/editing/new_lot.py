"""Another lot for a plan that is there: a batt, or a paler bath, as it was tried out."""

from dataclasses import replace

from yarncolor.editing.lot_rows import plan_with_rows, rows_of
from yarncolor.plan import Lot, Plan
from yarncolor.plan.limits import LONGEST_NAME


def with_lot(plan: Plan, lot: Lot) -> Plan:
    """Return a plan with one more lot, which goes into the order as one typed on the bench would.

    Parameters
    ----------
    plan : Plan
        As it stands.
    lot : Lot
        Of a name that is not taken.

    Raises
    ------
    PlanError
        Where the plan would not be right.
    """
    (row,) = rows_of(replace(plan, lots=(lot,)))
    row = replace(row, key=None, mass_g=f"{lot.mass_g!r} g")
    return plan_with_rows(plan, [*rows_of(plan), row])


def free_name(plan: Plan, name: str) -> str:
    """Return a name that no lot of a plan has yet: the same, or with a number behind.

    Parameters
    ----------
    plan : Plan
        As it stands.
    name : str
        What the lot would be called.
    """
    name, number = name[: LONGEST_NAME - 4], 1
    while (free := name if number == 1 else f"{name} {number}") in plan.names:
        number += 1
    return free
