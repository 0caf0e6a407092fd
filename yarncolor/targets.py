"""The same stash otherwise: a miniature, as much yarn as a piece takes, another scheme."""

from dataclasses import replace
from typing import Any

from yarncolor.errors import Fault, PlanError
from yarncolor.fabric import piece
from yarncolor.fitting import changed_data
from yarncolor.layout import layout
from yarncolor.plan import Plan, Target
from yarncolor.planfile import plan_from_data
from yarncolor.settling import settled

MINIATURE_G = 10.0


def miniature(plan: Plan, yarn_g: float = MINIATURE_G) -> Plan:
    """Return the plan of the same yarn from a pinch of each lot, to spin before carding all.

    Parameters
    ----------
    plan : Plan
        Of the whole yarn.
    yarn_g : float
        Grams of yarn to make.
    """
    return replace(plan, target=Target(yarn_g=yarn_g))


def for_the_piece(plan: Plan) -> Plan:
    """Return the plan with as much yarn as its knitted piece takes.

    Raises
    ------
    PlanError
        Where the plan does not say what is to be knitted: stitches, rows and gauge.
    """
    found = piece(layout(settled(replace(plan, target=None))))
    if found is None or found.needs_plied_m is None:
        remedy = "give stitches, rows and gauge_stitches of what is to be knitted"
        raise PlanError([Fault("", "fabric", "", remedy)])
    return replace(plan, target=Target(yarn_m=found.needs_plied_m))


def under_scheme(plan: Plan, name: str, **options: Any) -> Plan:
    """Return the plan of the same stash under another scheme.

    What the new scheme cannot keep is fitted, as when a scheme is chosen on the bench.

    Parameters
    ----------
    plan : Plan
        As it is.
    name : str
        The scheme.
    options : dict
        Keys of the scheme's table: closing, divisions, sequence and so on.

    Raises
    ------
    PlanError
        Where the stash cannot be laid out so.
    """
    data = changed_data(plan, "scheme", {"name": name, **options})
    return plan_from_data(data, f"the scheme {name}")
