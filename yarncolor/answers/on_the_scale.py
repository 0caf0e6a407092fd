"""Grams of pieces as they leave the scale: of rows as planned, or as they were spun."""

from dataclasses import replace
from typing import NamedTuple

import numpy as np

from yarncolor.answers.braid_strips import braid_strips, strip_of_each
from yarncolor.answers.decided_scale import decided_on_scale
from yarncolor.layout.layout import Layout
from yarncolor.layout.portions import Portions
from yarncolor.layout.weighing import WeighGroups, weighed


class OnScale(NamedTuple):
    """A plan laid out, with what goes on the scale; fields as in `WeighOut`.

    Heaps are those of the rows as planned, whatever was spun of them.
    """

    layout: Layout
    groups: WeighGroups
    rest_g: np.ndarray


def on_scale(laid: Layout) -> OnScale:
    """Return a plan with its grams to weigh: rows to spin have theirs as planned, others none."""
    resolved = laid.resolved
    planned, groups, rest_g = _weighed(laid)
    if laid.wheel is None:
        return OnScale(replace(laid, portions=planned), groups, rest_g)
    weigh_g = np.where(laid.wheel.spun, np.nan, planned.weigh_g[laid.wheel.of_planned])
    pieces = replace(laid.wheel.pieces, weigh_g=weigh_g)
    wheel = replace(laid.wheel, planned=planned, pieces=pieces)
    if wheel.asked is not None:
        wheel, groups = decided_on_scale(wheel, groups, len(resolved.plan.lots), resolved.step_g)
        pieces = wheel.pieces
    return OnScale(replace(laid, portions=pieces, wheel=wheel), groups, rest_g)


def _weighed(laid: Layout) -> tuple[Portions, WeighGroups, np.ndarray]:
    """Return rows with their grams; those on strips of a braid have theirs without a scale."""
    resolved = laid.resolved
    planned, groups, rest_g = weighed(laid.planned, len(resolved.plan.lots), resolved.step_g)
    strips = braid_strips(laid)
    if not strips:
        return planned, groups, rest_g
    on_strip = np.array([one is not None for one in strip_of_each(strips, len(planned))])
    planned = replace(planned, weigh_g=np.where(on_strip, planned.mass_g, planned.weigh_g))
    on_braid = np.array([lot.on_braid for lot in resolved.plan.lots])
    return planned, _without(groups, on_braid), np.where(on_braid, 0.0, rest_g)


def _without(groups: WeighGroups, on_braid: np.ndarray) -> WeighGroups:
    """Return heaps without those of lots that lie on a braid."""
    stays = ~on_braid[groups.lot]
    number = np.append(np.where(stays, np.cumsum(stays) - 1, -1), -1)
    return WeighGroups(
        groups.ply[stays], groups.lot[stays], groups.weigh_g[stays], number[groups.group]
    )


def heap_of_each(laid: Layout, groups: WeighGroups) -> np.ndarray:
    """Return the heap of each piece, -1 where it is weighed singly or was spun: (N,).

    Parameters
    ----------
    laid : Layout
        The plan laid out and weighed.
    groups : WeighGroups
        What is weighed together.
    """
    if laid.wheel is None:
        return groups.group
    is_none = laid.wheel.spun | laid.wheel.is_extra
    return np.where(is_none, -1, groups.group[laid.wheel.of_planned])


def put_g(laid: Layout, groups: WeighGroups) -> np.ndarray:
    """Return grams of each portion as they leave the scale; of a heap, its piece: (N,).

    Parameters
    ----------
    laid : Layout
        The plan laid out and weighed.
    groups : WeighGroups
        What is weighed together.
    """
    planned = laid.planned
    put, heaped = planned.weigh_g.copy(), groups.group >= 0
    of = groups.group[heaped]
    whole = np.bincount(of, planned.mass_g[heaped], len(groups.ply))
    put[heaped] = planned.mass_g[heaped] / whole[of] * groups.weigh_g[of]
    return _of_pieces(laid, put)


def on_scale_g(laid: Layout, groups: WeighGroups) -> np.ndarray:
    """Return what goes on the scale with each portion, unrounded: itself or its heap, (N,).

    Parameters
    ----------
    laid : Layout
        The plan laid out and weighed.
    groups : WeighGroups
        What is weighed together.
    """
    mass, group = laid.planned.mass_g, groups.group
    heaped = group >= 0
    together = mass.copy()
    together[heaped] = np.bincount(group[heaped], mass[heaped])[group[heaped]]
    return _of_pieces(laid, together)


def singly_g(laid: Layout) -> np.ndarray:
    """Return grams of each portion that is weighed singly, 0 for a piece of a heap: (N,)."""
    return _of_pieces(laid, np.nan_to_num(laid.planned.weigh_g))


def net_g(laid: Layout, put_g: np.ndarray) -> np.ndarray:
    """Return grams of single that come onto the bobbin with each piece, of all strands: (N,).

    Parameters
    ----------
    laid : Layout
        The plan laid out and weighed.
    put_g : (N,) array
        Grams of each portion as they leave the scale.
    """
    by_loss = put_g * (1 - laid.resolved.spin_loss)
    if laid.wheel is None:
        return by_loss
    return np.where(np.isnan(laid.wheel.net_g), by_loss, laid.wheel.net_g)


def _of_pieces(laid: Layout, of_rows: np.ndarray) -> np.ndarray:
    """Return grams of rows for the pieces that are as planned; of others, their own grams."""
    wheel = laid.wheel
    if wheel is None:
        return of_rows
    return np.where(wheel.as_planned, of_rows[wheel.of_planned], wheel.pieces.mass_g)
