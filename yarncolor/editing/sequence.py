"""The sequence of a plan, in which an order stands: its names, and the plan in another order."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from yarncolor.defaults import sequence_of, to_divide_g
from yarncolor.errors import fail
from yarncolor.plan import Plan


def names_of_places(plan: Plan) -> tuple[str, ...]:
    """Return the lot of each place of a plan's sequence; none for a free scheme."""
    return sequence_of(plan.scheme, plan.names, to_divide_g(plan))


def reordered(plan: Plan, sources: Sequence[int]) -> Plan:
    """Return a plan in another order; parts go with their places.

    Parameters
    ----------
    plan : Plan
        As it stands.
    sources : sequence of int
        The place from which each place has what stands there.
    """
    scheme, names = plan.scheme, names_of_places(plan)
    parts = scheme.parts and tuple(scheme.parts[source] for source in sources)
    sequence = tuple(names[source] for source in sources)
    return replace(plan, scheme=replace(scheme, sequence=sequence, parts=parts))


def is_closed(names: Sequence[str]) -> bool:
    """Return whether a sequence of two or more places ends on the lot it began with."""
    return len(names) > 1 and names[0] == names[-1]


def closed_keys(plan: Plan) -> dict[str, Any]:
    """Return the keys of a scheme that ends on the lot it began with; where it does, no more.

    Raises
    ------
    PlanError
        Where the scheme has no sequence.
    """
    names, parts = names_of_places(plan), plan.scheme.parts
    if not names:
        fail("order", "a free scheme has portions in the place of an order")
    if is_closed(names):
        return {"sequence": [*names[:-1]], "parts": [*parts[:-1]] if parts else None}
    return {"sequence": [*names, names[0]], "parts": [*parts, 1.0] if parts else None}
