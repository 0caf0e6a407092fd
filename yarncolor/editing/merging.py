"""Lots that pass for one: a plan in which they are one, or lie apart in the order."""

from collections.abc import Sequence
from typing import Any

from yarncolor.editing.fitted_orders import fitted, orders_renamed
from yarncolor.editing.lot_rows import at_the_wheel_renamed, with_lots
from yarncolor.editing.order import Order
from yarncolor.editing.sequence import is_closed, own_lots
from yarncolor.editing.spun_stays import stated
from yarncolor.plan import Plan, to_data
from yarncolor.planfile.read import plan_from_data

_DIGITS = 6


def merged(plan: Plan, kept: str, gone: str) -> Plan:
    """Return a plan in which one lot has the fibre and the places of another, which is gone.

    Places that are alike by then and lie side by side are one; each place keeps its grams.

    Parameters
    ----------
    plan : Plan
        As it stands; no other lot is made from the one that goes.
    kept, gone : str
        Names of two lots; the first keeps its colour.

    Raises
    ------
    PlanError
        Where the plan would not be right.
    """
    data = to_data(stated(plan))
    lots = {lot["name"]: lot for lot in data["lots"]}
    masses_g = {name: plan.lots[plan.names.index(name)].mass_g for name in (kept, gone)}
    lots[kept] = _pooled(lots[kept], lots[gone], sum(masses_g.values()))
    data["lots"] = [lots[name] for name in plan.names if name != gone]
    if "scheme" in data:
        named = {name: name for name in plan.names} | {gone: kept}
        scheme = _scheme(data["scheme"], kept, gone, masses_g)
        data["scheme"] = scheme | own_lots(scheme, named)
    named = {gone: kept}
    wheel, asked = at_the_wheel_renamed(data, named), orders_renamed(data, named)
    return plan_from_data(fitted({**data, **wheel, **asked}), "this change")


def _pooled(lot: dict[str, Any], other: dict[str, Any], mass_g: float) -> dict[str, Any]:
    """Return a lot with the fibre of another; how many rolags that is has to be counted anew."""
    own = {key: value for key, value in lot.items() if key not in ("rolags", "rolag_g")}
    reserve_g = lot.get("reserve_g", 0) + other.get("reserve_g", 0)
    return {**own, "mass_g": mass_g} | ({"reserve_g": reserve_g} if reserve_g else {})


def _scheme(
    scheme: dict[str, Any], kept: str, gone: str, masses_g: dict[str, float]
) -> dict[str, Any]:
    scheme = dict(scheme)
    if "sequence" in scheme:
        names, parts = scheme["sequence"], scheme.get("parts")
        grams = _by_grams(names, parts or [1] * len(names), masses_g)
        places = _joined([(kept if name == gone else name, part) for name, part in grams], names)
        scheme["sequence"] = [name for name, _ in places]
        scheme.pop("parts", None)
        if parts or scheme["sequence"].count(kept) > 1:
            scheme["parts"] = [part for _, part in places]
    if scheme.get("solid_lot") == gone:
        scheme["solid_lot"] = kept
    if "portions" in scheme:
        scheme["portions"] = [
            {**portion, "lot": kept if portion["lot"] == gone else portion["lot"]}
            for portion in scheme["portions"]
        ]
    if "stripes" in scheme:
        scheme["stripes"] = [with_lots(stripe, {gone: kept}) for stripe in scheme["stripes"]]
    return scheme


def _by_grams(
    names: Sequence[str], parts: Sequence[float], masses_g: dict[str, float]
) -> list[tuple[str, float]]:
    """Return each place's lot and its parts: of lots that are merged its grams."""
    shared = dict.fromkeys(masses_g, 0.0)
    for name, part in zip(names, parts, strict=True):
        shared[name] = shared.get(name, 0.0) + part
    return [
        (name, round(masses_g[name] * part / shared[name], _DIGITS) if name in masses_g else part)
        for name, part in zip(names, parts, strict=True)
    ]


def _joined(places: list[tuple[str, float]], before: Sequence[str]) -> list[tuple[str, float]]:
    """Return places with those that are alike and side by side as one, round the end as well.

    Parameters
    ----------
    places : list of (str, float)
        Lot and parts.
    before : sequence of str
        The lots of the places before: what closed then, closes still.
    """
    joined = places[:1]
    for name, part in places[1:]:
        if name == joined[-1][0]:
            joined[-1] = (name, joined[-1][1] + part)
        else:
            joined.append((name, part))
    if len(joined) > 1 and joined[0][0] == joined[-1][0] and not is_closed(before):
        name, part = joined.pop()
        joined[0] = (name, joined[0][1] + part)
    return joined


def parting_move(names: Sequence[str], order: Order, one: str, other: str) -> tuple[int, int]:
    """Return the shortest move after which two lots nowhere lie side by side.

    Where there is none, the places are the same: nothing is moved.

    Parameters
    ----------
    names : sequence of str
        The lot of each place.
    order : Order
        Which of them are held.
    one, other : str
        Two of the lots.
    """
    loose = order.unlocked
    moves = sorted(((i, j) for i in loose for j in loose if i != j), key=_length)
    for i, j in moves:
        sources = order.moved(i, j).sources(order)
        if names[i] in (one, other) and not are_side_by_side(
            [names[source] for source in sources], one, other
        ):
            return i, j
    return 0, 0


def _length(move: tuple[int, int]) -> int:
    return abs(move[0] - move[1])


def are_side_by_side(names: Sequence[str], one: str, other: str) -> bool:
    """Return whether two lots lie side by side anywhere in an order, which goes round.

    Parameters
    ----------
    names : sequence of str
        The lot of each place; none of a free scheme.
    one, other : str
        Two of the lots.
    """
    return any({a, b} == {one, other} for a, b in zip(names, [*names[1:], *names[:1]], strict=True))
