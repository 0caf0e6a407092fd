"""The sequence of a plan, in which an order stands: its names, and the plan in another order."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any, TypeVar

from yarncolor.defaults import scheme_name, sequence_of, to_divide_g
from yarncolor.errors import fail
from yarncolor.plan import Plan

Item = TypeVar("Item")


def names_of_places(plan: Plan) -> tuple[str, ...]:
    """Return the lot of each place of a plan's sequence, where it has one that can be changed.

    None for a scheme that has none, and for a braid, which was dyed in its order.
    """
    if plan.braid is not None:
        return ()
    return sequence_of(plan.scheme, plan.names, to_divide_g(plan))


def reordered(plan: Plan, sources: Sequence[int]) -> Plan:
    """Return a plan in another order; parts go with their places.

    Parameters
    ----------
    plan : Plan
        As it stands.
    sources : sequence of int
        The place from which each place has what stands there.

    Raises
    ------
    PlanError
        Where a lot would stand on both sides of a fade.
    """
    scheme = plan.scheme.in_order(names_of_places(plan), sources)
    both = set(scheme.from_ or ()) & set(scheme.to or ())
    if both:
        fail("order", f"{min(both)} would stand on both sides of the fade")
    return replace(plan, scheme=scheme)


def is_closed(names: Sequence[str]) -> bool:
    """Return whether a sequence of two or more places ends on the lot it began with."""
    return len(names) > 1 and names[0] == names[-1]


def with_new_lots(names: Sequence[str], new: Sequence[str]) -> list[str]:
    """Return a sequence with new lots last in it; before the closing lot where it has one.

    Parameters
    ----------
    names : sequence of str
        The lot of each place.
    new : sequence of str
        Lots that are in none.
    """
    return _before_closing(names, names, new)


def with_new_parts(names: Sequence[str], parts: Sequence[float], new: Sequence[str]) -> list[float]:
    """Return the parts of the places of `with_new_lots`; a new lot has one.

    Parameters
    ----------
    names : sequence of str
        The lot of each place, without the new ones.
    parts : sequence of float
        One for each place.
    new : sequence of str
        Lots that are in none.
    """
    return _before_closing(names, parts, [1.0] * len(new))


def _before_closing(names: Sequence[str], items: Sequence[Item], new: Sequence[Item]) -> list[Item]:
    end = len(items) - is_closed(names)
    return [*items[:end], *new, *items[end:]]


def own_lots(scheme: dict[str, Any], named: dict[str, str]) -> dict[str, Any]:
    """Return a fade's sides and a mixed scheme's plies with lots renamed, those gone left out.

    Parameters
    ----------
    scheme : dict
        The table, as the file has it.
    named : dict of str to str
        New names by old ones, of every lot that stays.
    """
    own: dict[str, Any] = {
        side: [named[name] for name in scheme[side] if name in named]
        for side in ("from", "to")
        if side in scheme
    }
    if "ply" in scheme:
        plies = [_own_ply(ply, named) for ply in scheme["ply"]]
        own["ply"] = [ply for ply in plies if ply["sequence"]]
    return own


def _own_ply(ply: dict[str, Any], named: dict[str, str]) -> dict[str, Any]:
    places = [at for at, name in enumerate(ply["sequence"]) if name in named]
    own = {**ply, "sequence": [named[ply["sequence"][at]] for at in places]}
    return own | ({"parts": [ply["parts"][at] for at in places]} if "parts" in ply else {})


def closed_keys(plan: Plan) -> dict[str, Any]:
    """Return the keys of a scheme that ends on the lot it began with; where it does, no more.

    Raises
    ------
    PlanError
        Where the scheme has no sequence.
    """
    names, parts = names_of_places(plan), plan.scheme.parts
    if not names and plan.braid is not None:
        fail("order", "a braid was dyed in its order")
    if not names:
        what = {"free": "portions", "stripes": "stripes"}.get(
            scheme_name(plan.scheme), "an order for each ply"
        )
        fail("order", f"a {plan.scheme.name} scheme has {what} in the place of an order")
    if plan.scheme.name == "fade":
        fail("order", "a fade never ends on the lots it began with")
    if is_closed(names):
        return {"sequence": [*names[:-1]], "parts": [*parts[:-1]] if parts else None}
    return {"sequence": [*names, names[0]], "parts": [*parts, 1.0] if parts else None}
