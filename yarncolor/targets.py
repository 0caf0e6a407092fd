"""The same yarn in another amount: a miniature to spin first, or as much as a piece takes."""

from dataclasses import replace

from yarncolor.errors import Fault, PlanError
from yarncolor.fabric import piece
from yarncolor.layout import layout
from yarncolor.plan import Plan, Target
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
