"""What a plan keeps when one of its choices changes."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from yarncolor.answers.knitted_piece import piece
from yarncolor.defaults import (
    plies_of,
    scheme_name,
    singles_of,
    solid_lot_of,
    to_divide_g,
)
from yarncolor.layout.layout import layout
from yarncolor.layout.resolved import resolve
from yarncolor.plan import REVERSIBLE, FreePortion, OwnPly, Plan, Scheme, Stripe, to_data
from yarncolor.plan.key import attribute_of
from yarncolor.plan.limits import MOST_REPEATS
from yarncolor.plan.reference import PER_PLY
from yarncolor.plan.scheme import OWN_SEQUENCE

Divisions = tuple[int | tuple[float, ...], ...]

UNORDERED = ("solid", *OWN_SEQUENCE)
"""Schemes whose sequence does not hold every lot, or that have none of their own."""


_FOR_EDGES = 1
"""Rows that a stripe is lower than its share of the fibre: some of it goes into the edges."""


@dataclass(frozen=True)
class _Before:
    """What a change starts from; ``ordered`` is the last scheme that had every lot in order."""

    plan: Plan
    ordered: Scheme | None

    @property
    def scheme(self) -> Scheme:
        return self.plan.scheme


def changed_data(
    plan: Plan, table: str, keys: dict[str, Any], ordered: Scheme | None = None
) -> dict[str, Any]:
    """Return the data of a plan with keys of one table changed; None takes a key away.

    What a new scheme or number of plies cannot keep is fitted: lists of one number a ply are
    cut or filled up, a solid lot leaves the sequence and comes back to it, a free scheme
    begins with the portions as they lie and a mixed one with the plies, without the steps that a
    gradient cards; a fade begins with half of the order on each side, stripes with one for each
    place of the order.

    Parameters
    ----------
    plan : Plan
        As it stands.
    table : str
        scheme, braid, spinning, plying, scale, target or made.
    keys : dict
        Keys of that table with their new values.
    ordered : Scheme, optional
        The scheme whose order comes back when a solid or free scheme is left.
    """
    if table == "scheme":
        return _scheme_changed(_Before(plan, ordered), keys)
    return _table_changed(plan, table, keys)


def _table_changed(plan: Plan, table: str, keys: dict[str, Any]) -> dict[str, Any]:
    data = to_data(plan)
    data[table] = {
        key: value for key, value in ({**data.get(table, {}), **keys}).items() if value is not None
    }
    if table in ("target", "made", "braid") and not data[table]:
        del data[table]
    if table == "braid" and plan.braid is None:
        data["scheme"] = {
            key: value
            for key, value in data.get("scheme", {}).items()
            if key not in ("sequence", "parts")
        }
    return data


def _scheme_changed(before: _Before, keys: dict[str, Any]) -> dict[str, Any]:
    scheme = replace(
        before.scheme, **{attribute_of(key): _tupled(value) for key, value in keys.items()}
    )
    for fit in _FITS:
        scheme = fit(scheme, before)
    return _fit_each_ply(to_data(replace(before.plan, scheme=scheme)), singles_of(scheme))


def _fit_each_ply(data: dict[str, Any], singles: int) -> dict[str, Any]:
    """Return the data with lists of one for each single as long as there are singles."""
    for key in PER_PLY:
        listed = data.get(key.table, {}).get(key.name)
        if isinstance(listed, list):
            data[key.table][key.name] = each_of(listed, singles)
    return data


def each_of(listed: Sequence[Any], count: int) -> list[Any]:
    """Return a list cut to so many, or filled up with its last.

    Parameters
    ----------
    listed : sequence
        One or more.
    count : int
        How many are wanted.
    """
    return [*listed, *[listed[-1]] * count][:count]


def _fit_plies(scheme: Scheme, before: _Before) -> Scheme:
    if scheme_name(scheme) == "chain":
        return replace(scheme, plies=None)
    if scheme_name(scheme) == "mixed" and scheme.ply:
        return replace(scheme, plies=len(scheme.ply))
    plies = scheme.plies or plies_of(before.scheme)
    divisions = scheme.divisions and _doubled_on(scheme.divisions, plies)
    solid = scheme.solid_plies and tuple(ply for ply in scheme.solid_plies if ply < max(plies, 2))
    return replace(scheme, plies=plies, divisions=divisions, solid_plies=solid or None)


def _doubled_on(divisions: Divisions, plies: int) -> Divisions:
    """Return the divisions of the first plies; further plies run twice as often as the last."""
    filled = [*divisions[:plies]]
    while len(filled) < plies:
        last = filled[-1] if isinstance(filled[-1], int) else len(filled[-1])
        filled.append(min(2 * last, MOST_REPEATS))
    return tuple(filled)


def _fit_reversed(scheme: Scheme, before: _Before) -> Scheme:
    plies = plies_of(scheme) if scheme_name(scheme) in REVERSIBLE else 0
    kept = tuple(ply for ply in scheme.reversed_plies if ply <= plies)
    return replace(scheme, reversed_plies=kept)


def _fit_order(scheme: Scheme, before: _Before) -> Scheme:
    """Return the scheme without its solid lot in the sequence, or with the order as it was."""
    name, old = scheme_name(scheme), scheme_name(before.scheme)
    if name == "solid" and scheme.sequence:
        return _without(scheme, solid_lot_of(scheme, before.plan.names, to_divide_g(before.plan)))
    if old in UNORDERED and name not in UNORDERED and before.ordered:
        return replace(scheme, sequence=before.ordered.sequence, parts=before.ordered.parts)
    return scheme


def _without(scheme: Scheme, lot: str) -> Scheme:
    named = scheme.sequence or ()
    kept = [at for at, name in enumerate(named) if name != lot]
    parts = scheme.parts and tuple(scheme.parts[at] for at in kept)
    sequence = tuple(named[at] for at in kept)
    return replace(scheme, sequence=sequence or None, parts=parts or None)


def _fit_free(scheme: Scheme, before: _Before) -> Scheme:
    if scheme_name(scheme) != "free":
        return replace(scheme, portions=())
    if scheme.portions:
        return scheme
    uncarded = replace(before.scheme, blend_steps=None)
    laid = layout(resolve(replace(before.plan, scheme=uncarded, target=None))).planned
    one = laid.take(np.flatnonzero(laid.copy == 1))
    rows = zip(one.ply, one.lot, one.mass_g * laid.copy.max(), strict=True)
    names = before.plan.names
    own = tuple(FreePortion(int(ply) + 1, names[lot], float(mass)) for ply, lot, mass in rows)
    return replace(scheme, portions=own, plies=int(laid.ply[-1]) + 1)


def _fit_mixed(scheme: Scheme, before: _Before) -> Scheme:
    """Return the scheme with a table for each ply as it lay, where it becomes a mixed one."""
    if scheme_name(scheme) != "mixed":
        return replace(scheme, ply=())
    own = scheme.ply or _as_it_lay(before)
    return replace(scheme, ply=own, plies=len(own), sequence=None, parts=None)


def _as_it_lay(before: _Before) -> tuple[OwnPly, ...]:
    """Return what each ply held, once through, or as often as it ran through the sequence."""
    uncarded = replace(before.scheme, blend_steps=None)
    resolved = resolve(replace(before.plan, scheme=uncarded, target=None))
    laid, names = layout(resolved).planned, before.plan.names
    if resolved.scheme_input.closing == "keep" and scheme_name(before.scheme) == "fractal":
        once = resolved.scheme_input
        lots = tuple(names[lot] for lot in once.lot)
        return tuple(
            OwnPly(lots, tuple(once.mass_g.tolist()), times, ply + 1 in once.scheme.reversed_plies)
            for ply, times in enumerate(once.scheme.divisions)
        )
    plies = [laid.of_ply(ply) for ply in range(int(laid.ply[-1]) + 1)]
    return tuple(
        OwnPly(tuple(names[lot] for lot in laid.lot[own]), tuple(laid.mass_g[own].tolist()))
        for own in plies
    )


def _fit_fade(scheme: Scheme, before: _Before) -> Scheme:
    """Return the scheme with the lots on two sides, where it becomes a fade: half of the order."""
    if scheme_name(scheme) != "fade":
        return replace(scheme, from_=None, to=None)
    if scheme.from_ or scheme.to:
        return scheme
    names = tuple(dict.fromkeys(before.scheme.sequence or before.plan.names))
    half = (len(names) + 1) // 2
    to = names[half:]
    return replace(scheme, from_=names[:half], to=to, sequence=None, parts=None)


def _fit_stripes(scheme: Scheme, before: _Before) -> Scheme:
    """Return the scheme with the lots as stripes, where it becomes one, as high as they suffice."""
    if scheme_name(scheme) != "stripes":
        return replace(scheme, stripes=(), repeat=None)
    plies = plies_of(scheme)
    if scheme.stripes is not before.scheme.stripes:
        return scheme
    if scheme.stripes:
        fitted = (
            replace(one, lots=one.lots and tuple(each_of(one.lots, plies)))
            for one in scheme.stripes
        )
        return replace(scheme, stripes=tuple(fitted))
    return replace(scheme, stripes=_as_stripes(before), sequence=None, parts=None)


def _as_stripes(before: _Before) -> tuple[Stripe, ...]:
    """Return a stripe for each place of the order, or each lot, by its share of the fibre."""
    uncarded = replace(before.scheme, blend_steps=None)
    laid = layout(resolve(replace(before.plan, scheme=uncarded, target=None)))
    draft, knit = laid.resolved.scheme_input, piece(laid)
    lot, mass_g = draft.lot, draft.mass_g
    if not len(lot):
        mass_g = laid.planned.by_lot_g(len(before.plan.lots))
        lot = np.flatnonzero(mass_g)
        mass_g = mass_g[lot]
    rows = len(lot) if knit is None else min(knit.rows_possible, knit.rows or knit.rows_possible)
    heights = np.maximum(np.floor(rows * mass_g / mass_g.sum()) - _FOR_EDGES, 1).astype(int)
    names = before.plan.names
    return tuple(Stripe(high, names[at]) for high, at in zip(heights.tolist(), lot, strict=True))


_FITS: tuple[Callable[[Scheme, _Before], Scheme], ...] = (
    *(_fit_plies, _fit_reversed, _fit_order, _fit_free),
    *(_fit_mixed, _fit_fade, _fit_stripes),
)
"""In the order in which a scheme is fitted."""


def _tupled(value: Any) -> Any:
    return tuple(map(_tupled, value)) if isinstance(value, list | tuple) else value
