"""Orders valued the plain way: every permutation its own plan, laid out and looked along."""

from dataclasses import replace
from itertools import combinations, pairwise, permutations
from math import sqrt

from yarncolor.colour.palette import palette
from yarncolor.defaults import sequence_of, to_divide_g
from yarncolor.layout.layout import layout
from yarncolor.layout.resolved import resolve
from yarncolor.plan import Plan


def values_of(plan: Plan) -> dict[str, float]:
    """Return what a plan's order is worth by every measure, from its portions and stretches."""
    laid = layout(resolve(plan))
    lots = laid.resolved.plan.lots
    apart = palette(lots).between.ciede2000.tolist()
    portions = laid.portions
    steps = []
    for k in range(int(portions.ply[-1]) + 1):
        own = portions.lot[portions.of_ply(k)].tolist()
        steps += [apart[one][other] for one, other in pairwise(own)]
    mean = square = matched = twins = 0.0
    edges = laid.stretches.edges_ppb.tolist()
    for start, end, side in zip(edges[:-1], edges[1:], laid.stretches.lot.tolist(), strict=True):
        share = (end - start) / edges[-1]
        pairs = [apart[one][other] for one, other in combinations(side, 2)]
        by = sum(pairs) / len(pairs) if pairs else 0.0
        mean, square = mean + share * by, square + share * by * by
        matched += share * (len(set(side)) == 1)
        near = [apart[one][other] < 5 for one, other in combinations(side, 2) if one != other]
        twins += share * any(near)
    return {
        "smooth": sum(steps) / len(steps) if steps else 0.0,
        "contrast": mean,
        "even": sqrt(max(0.0, square - mean * mean)),
        "matched": matched,
        "twins": twins,
    }


def every_plan(plan: Plan) -> list[Plan]:
    """Return a plan in every order of its places; parts go with them."""
    names = sequence_of(plan.scheme, plan.names, to_divide_g(plan))
    parts = plan.scheme.parts
    return [
        replace(
            plan,
            scheme=replace(
                plan.scheme,
                sequence=tuple(names[at] for at in order),
                parts=parts and tuple(parts[at] for at in order),
            ),
        )
        for order in permutations(range(len(names)))
    ]
