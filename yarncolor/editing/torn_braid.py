"""A braid that is torn into its colours: each is a lot like any other, and its order can change."""

from dataclasses import replace

from yarncolor.plan import Plan


def torn(plan: Plan) -> Plan:
    """Return a plan whose braid is torn into its colours, in the order in which it was dyed.

    Parameters
    ----------
    plan : Plan
        As it stands; one without a braid stays as it is.
    """
    if plan.braid is None:
        return plan
    lots = tuple(replace(lot, on_braid=False) for lot in plan.lots)
    return replace(plan, braid=None, lots=lots)
