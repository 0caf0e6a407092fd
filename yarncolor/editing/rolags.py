"""How many rolags a lot's grams make, and a lot carded into another number of them."""

from math import ceil, floor

from yarncolor.measures import Measures
from yarncolor.phrases import in_fractions
from yarncolor.plan import Lot, Plan, to_data
from yarncolor.planfile.read import plan_from_data

_TOLERANCE = 1e-6


def rolags_words(lot: Lot, singles: int, say: Measures) -> str:
    """Return how many rolags a lot makes, and how many would go evenly over the singles.

    Nothing where its rolags are counted, or where it is not known what one weighs.

    Parameters
    ----------
    lot : Lot
        Of the stash.
    singles : int
        How many singles share it.
    say : Measures
        What the plan is said in.
    """
    if lot.rolags is not None or lot.rolag_g is None:
        return ""
    each = lot.mass_g / lot.rolag_g / singles
    if abs(each - round(each)) < _TOLERANCE and round(each):
        return _counted(round(each) * singles) + _shared(f": {round(each)}", singles)
    few, many = floor(each) * singles, ceil(each) * singles
    each_g = ((made, lot.mass_g / made) for made in (few, many) if made)
    make = " or ".join(f"{made} ({_each(mass_g, say)} each)" for made, mass_g in each_g)
    return f"{_counted(lot.mass_g / lot.rolag_g)}: make {make}{_shared(', as many', singles)}"


def _each(mass_g: float, say: Measures) -> str:
    return f"{say.mass.of(mass_g):.3g} {say.mass.unit}"


def _counted(rolags: float) -> str:
    if rolags < 1:
        return f"{in_fractions(rolags)} of a rolag"
    return f"{in_fractions(rolags)} rolag{'s' * (rolags != 1)}"


def _shared(how: str, singles: int) -> str:
    return f"{how} for each ply" if singles > 1 else ""


def recounted(plan: Plan, name: str, rolags: int) -> Plan:
    """Return a plan in which a lot is carded into another number of rolags, of the same grams.

    Parameters
    ----------
    plan : Plan
        As it stands.
    name : str
        Of a lot.
    rolags : int
        How many there are to be.

    Raises
    ------
    PlanError
        Where the plan would not be right.
    """
    data, mass_g = to_data(plan), plan.lots[plan.names.index(name)].mass_g
    for lot in data["lots"]:
        if lot["name"] == name:
            lot.pop("mass_g", None)
            lot |= {"rolags": rolags, "rolag_g": mass_g / rolags}
    return plan_from_data(data, "this change")
