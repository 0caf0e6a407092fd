"""One plan in many orders at once: the stretches that each would lead to, from few merges."""

from collections.abc import Hashable, Iterable, Iterator
from dataclasses import replace

import numpy as np

from yarncolor.defaults import shared_by_parts_g, to_divide_g
from yarncolor.layout.carded_steps import Mix, carded_places, unlike_neighbours
from yarncolor.layout.layout import layout, target_ratio
from yarncolor.layout.portions import PlyPieces, copy_of_each, spun_m
from yarncolor.layout.resolved import ResolvedPlan, resolve
from yarncolor.layout.schemes import SchemeInput, ply_pieces
from yarncolor.layout.stretches import Stretches, stretches_of_many
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
    for orders, draft in _scheme_inputs(plan, resolved, sources):
        singles = _wound_off(resolved, ply_pieces(draft))
        found |= zip(orders, _plied(resolved, _for_the_target(resolved, singles)), strict=True)
    return [found[order] for order in range(len(sources))]


def _with_what_was_spun(plan: Plan, resolved: ResolvedPlan, order: np.ndarray) -> Stretches:
    scheme, sequence = plan.scheme, resolved.scheme.sequence
    parts = scheme.parts and tuple(scheme.parts[at] for at in order)
    turned = replace(scheme, sequence=tuple(sequence[at] for at in order), parts=parts)
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


def _scheme_inputs(
    plan: Plan, resolved: ResolvedPlan, sources: np.ndarray
) -> Iterator[tuple[list[int], SchemeInput]]:
    """Return which orders are alike, and what the scheme works on in them, kind by kind."""
    for orders, draft in _uncarded_inputs(plan, resolved, sources):
        yield orders, _carded(draft) if resolved.scheme.is_carded else draft


def _uncarded_inputs(
    plan: Plan, resolved: ResolvedPlan, sources: np.ndarray
) -> Iterator[tuple[list[int], SchemeInput]]:
    """Return the same before anything is carded.

    Orders that close on their first lot are of one kind and all others of another; with carded
    steps, those are of one kind that have neighbours of one lot, which need none, at the same
    places.
    """
    scheme, to_divide = resolved.scheme, to_divide_g(plan)
    lot = np.array([plan.names.index(name) for name in scheme.sequence], dtype=int)[sources]
    parts = np.array(plan.scheme.parts or np.ones(len(scheme.sequence)), dtype=float)[sources]
    mass = shared_by_parts_g(parts, lot, to_divide)
    used = mass > 0
    lot, mass = lot[used].reshape(len(sources), -1), mass[used].reshape(len(sources), -1)
    now = replace(
        resolved.scheme_input,
        names=plan.names,
        place=np.arange(1, lot.shape[-1] + 1),
        to_divide_g=to_divide,
    )
    kind = unlike_neighbours(lot).tolist() if scheme.is_carded else lot[:, :1] == lot[:, -1:]
    for alike in _alike(map(tuple, kind)):
        yield alike, replace(now, lot=lot[alike], mass_g=mass[alike])


def _alike(kinds: Iterable[Hashable]) -> list[list[int]]:
    """Return which orders are of one kind, kind by kind."""
    orders: dict[Hashable, list[int]] = {}
    for order, kind in enumerate(kinds):
        orders.setdefault(kind, []).append(order)
    return [*orders.values()]


def _carded(draft: SchemeInput) -> SchemeInput:
    """Return what a gradient works on with its carded steps."""
    places = carded_places(draft)
    return replace(draft, lot=places.lot, place=places.place, mass_g=places.mass_g)


def _wound_off(resolved: ResolvedPlan, plies: list[PlyPieces]) -> Strands:
    """Return what comes off the bobbins in each of V orders: arrays of (V, N)."""
    sizes = [ply.mass_g.shape[-1] for ply in plies]
    starts = np.append(0, np.cumsum(sizes))
    lot = np.concatenate([ply.lot for ply in plies], axis=-1)
    mass_g = np.concatenate([ply.mass_g for ply in plies], axis=-1)
    length_m = spun_m(mass_g, np.repeat(resolved.tex, sizes), resolved.spin_loss)
    off = off_order(starts, resolved.wound_off)
    copies = resolved.scheme.copies
    copy = copy_of_each(sizes, copies)[off] if copies > 1 else None
    strands = Strands(starts, length_m[:, off], lot[:, off], copy)
    return as_in_the_yarn(strands, resolved.as_in_the_yarn)


def _for_the_target(resolved: ResolvedPlan, singles: Strands) -> Strands:
    """Return singles no longer than what is wanted."""
    target = resolved.plan.target
    if target is None:
        return singles
    yarn_m = np.array([one.yarn_m for one in _plied(resolved, singles)])
    used = np.minimum(target_ratio(target, yarn_m, resolved.yarn.yarn_tex), 1.0)
    return replace(singles, length_m=singles.length_m * used[:, None])


def _plied(resolved: ResolvedPlan, singles: Strands) -> list[Stretches]:
    """Return the stretches of each yarn; a chain is folded first, loop by loop."""
    if not resolved.is_chain:
        return stretches_of_many(singles, resolved.contraction)
    folded = [
        folded_in_three(replace(singles, length_m=length_m, lot=lot), resolved.scheme.loop_m)
        for length_m, lot in zip(singles.length_m, singles.lot, strict=True)
    ]
    found: dict[int, Stretches] = {}
    for alike in _alike(len(strands.lot) for strands in folded):
        many = _together([folded[order] for order in alike])
        found |= zip(alike, stretches_of_many(many, resolved.contraction), strict=True)
    return [found[order] for order in range(len(folded))]


def _together(strands: list[Strands]) -> Strands:
    """Return strands of as many pieces each as one, with a leading axis."""
    length_m, lot = ([getattr(each, key) for each in strands] for key in ("length_m", "lot"))
    return replace(strands[0], length_m=np.stack(length_m), lot=np.stack(lot))
