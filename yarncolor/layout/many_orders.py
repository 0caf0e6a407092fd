"""One plan in many orders at once: the stretches that each would lead to, from few merges."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from yarncolor.defaults import shared_by_parts_g, to_divide_g
from yarncolor.layout.carded_steps import (
    Mix,
    carded_by_pair,
    carded_places,
    unlike_neighbours,
)
from yarncolor.layout.layout import layout, target_ratio
from yarncolor.layout.portions import PlyPieces, copy_of_each, spun_m
from yarncolor.layout.resolved import ResolvedPlan, resolve
from yarncolor.layout.scheme_input import SchemeInput
from yarncolor.layout.schemes import ply_pieces
from yarncolor.layout.stretches import Stretches, stretches_of_many, yarn_length_m
from yarncolor.layout.winding import Strands, as_in_the_yarn, folded_in_three, off_order
from yarncolor.plan import Plan


def stretches_of_orders(plan: Plan, resolved: ResolvedPlan, sources: np.ndarray) -> list[Stretches]:
    """Return the stretches of a plan in each of many orders, as `layout` would of each.

    Orders of one kind are laid out, wound off and merged together.

    Parameters
    ----------
    plan : Plan
        As it stands.
    resolved : ResolvedPlan
        The same with every default filled in.
    sources : (V, E) int array
        For each order, the place from which each of the E places has what stands there.
    """
    if plan.spun or plan.plied is not None:
        return [_with_what_was_spun(plan, resolved, order) for order in sources]
    found: dict[int, Stretches] = {}
    for orders, draft in _uncarded_inputs(plan, resolved, sources):
        given = _carded(draft) if resolved.scheme.is_carded else draft
        strands = plied_strands(resolved, ply_pieces(given))
        found |= zip(orders, stretches_of_many(strands, resolved.contraction), strict=True)
    return [found[order] for order in range(len(sources))]


def _with_what_was_spun(plan: Plan, resolved: ResolvedPlan, order: np.ndarray) -> Stretches:
    turned = plan.scheme.in_order(resolved.scheme.sequence, order.tolist())
    return layout(resolve(replace(plan, scheme=turned))).stretches


def mixes_of_orders(
    plan: Plan, resolved: ResolvedPlan, sources: np.ndarray
) -> list[tuple[Mix, ...]]:
    """Return what is carded in each of many orders, by the numbers that its lots have there.

    Those numbers go on after the lots of the plan, so the same mix has another in another order.

    Parameters
    ----------
    plan : Plan
        As it stands.
    resolved : ResolvedPlan
        The same with every default filled in.
    sources : (V, E) int array
        For each order, the place from which each of the E places has what stands there.
    """
    if not resolved.scheme.is_carded:
        return [()] * len(sources)
    found: dict[int, tuple[Mix, ...]] = {}
    for orders, draft in _uncarded_inputs(plan, resolved, sources):
        found |= zip(orders, map(tuple, carded_places(draft).mixes), strict=True)
    return [found[order] for order in range(len(sources))]


def scheme_inputs(
    plan: Plan, resolved: ResolvedPlan, sources: np.ndarray
) -> Iterator[tuple[list[int], SchemeInput]]:
    """Yield which orders are alike, and what the scheme works on in them, kind by kind.

    What is carded has the same number in every order, as `carded_by_pair` gives it.

    Parameters
    ----------
    plan : Plan
        As it stands.
    resolved : ResolvedPlan
        The same with every default filled in.
    sources : (V, E) int array
        For each order, the place from which each of the E places has what stands there.
    """
    for orders, draft in _uncarded_inputs(plan, resolved, sources):
        yield orders, carded_by_pair(draft) if resolved.scheme.is_carded else draft


def _uncarded_inputs(
    plan: Plan, resolved: ResolvedPlan, sources: np.ndarray
) -> Iterator[tuple[list[int], SchemeInput]]:
    """Return the same before anything is carded.

    Orders that close on their first lot are of one kind and all others of another; with carded
    steps, those are of one kind that have neighbours of one lot, which need none, at the same
    places. Of a fade, those are alike that leave out the same places.
    """
    scheme, to_divide = resolved.scheme, to_divide_g(plan)
    lot = np.array([plan.names.index(name) for name in scheme.sequence], dtype=int)[sources]
    is_fade = scheme.name == "fade"
    given = None if is_fade else plan.scheme.parts
    parts = np.array(given or np.ones(len(scheme.sequence)), dtype=float)[sources]
    mass = shared_by_parts_g(parts, lot, to_divide)
    used = mass > 0
    lot, mass = lot[used].reshape(len(sources), -1), mass[used].reshape(len(sources), -1)
    now = replace(resolved.scheme_input, names=plan.names, to_divide_g=to_divide)
    kind = unlike_neighbours(lot) if scheme.is_carded else lot[:, :1] == lot[:, -1:]
    for alike in _alike(used if is_fade else kind):
        place = np.flatnonzero(used[alike[0]]) + 1 if is_fade else np.arange(1, lot.shape[-1] + 1)
        yield alike, replace(now, place=place, lot=lot[alike], mass_g=mass[alike])


def _alike(kinds: np.ndarray) -> list[list[int]]:
    """Return which of (V, K) orders are of one kind, kind by kind."""
    _, kind, count = np.unique(kinds, axis=0, return_inverse=True, return_counts=True)
    by_kind = np.split(np.argsort(kind.ravel(), kind="stable"), np.cumsum(count)[:-1])
    return [orders.tolist() for orders in by_kind]


def _carded(draft: SchemeInput) -> SchemeInput:
    """Return what a gradient works on with its carded steps."""
    places = carded_places(draft)
    return replace(draft, lot=places.lot, place=places.place, mass_g=places.mass_g)


def plied_strands(resolved: ResolvedPlan, plies: list[PlyPieces]) -> Strands:
    """Return what comes off the bobbins in each of V orders: arrays of (V, N).

    No longer than what is wanted; of a chain its three strands.

    Parameters
    ----------
    resolved : ResolvedPlan
        The plan.
    plies : list of PlyPieces
        What its scheme puts on each ply in those orders.
    """
    sizes = [ply.mass_g.shape[-1] for ply in plies]
    starts = np.append(0, np.cumsum(sizes))
    lot = np.concatenate([ply.lot for ply in plies], axis=-1)
    mass_g = np.concatenate([ply.mass_g for ply in plies], axis=-1)
    length_m = spun_m(mass_g, np.repeat(resolved.tex, sizes), resolved.spin_loss)
    off = off_order(starts, resolved.wound_off)
    copies = resolved.scheme.copies
    copy = copy_of_each(sizes, copies)[off] if copies > 1 else None
    strands = Strands(starts, length_m[:, off], lot[:, off], copy)
    singles = as_in_the_yarn(strands, resolved.as_in_the_yarn)
    return _folded(resolved, _for_the_target(resolved, singles))


def _folded(resolved: ResolvedPlan, singles: Strands) -> Strands:
    return folded_in_three(singles, resolved.scheme.loop_m) if resolved.is_chain else singles


def _for_the_target(resolved: ResolvedPlan, singles: Strands) -> Strands:
    """Return singles no longer than what is wanted."""
    target = resolved.plan.target
    if target is None:
        return singles
    yarn_m = yarn_length_m(_folded(resolved, singles), resolved.contraction)
    used = np.minimum(target_ratio(target, yarn_m, resolved.yarn.yarn_tex), 1.0)
    return replace(singles, length_m=singles.length_m * used[:, None])
