"""What would help against drift: each is spun as often as the plan, from the same seed.

`HELPS` is the table. What is told of each is what the plan's own drift tells: how much yarn is
short, and how far apart places lie that the plan has together.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from yarncolor.answers.spins import SEED, Spins, of_shares
from yarncolor.answers.straying import (
    SpunAs,
    Straying,
    drawn_shares,
    is_by_eye,
    ply_by_ply,
    straying,
)
from yarncolor.layout.layout import Layout
from yarncolor.layout.portions import Portions, row_numbers
from yarncolor.plan import STRANDS_OF_A_CHAIN

BAND = (0.05, 0.5, 0.95)
"""Nine yarns of ten lie between the outer two, half of all below the middle one."""

OFF_AT = np.array([0.1, 0.5, 0.9])
"""Shares of the yarn at which it is told how far apart places lie."""

FINER = 10
"""How much finer the finer scale is."""

_LEAST_STEPS = 2
"""What a scale shows in fewer steps is weighed together with its like."""


class Told(NamedTuple):
    """How much yarn is short, at 5, 50 and 95 %, and how far apart places lie: (3,) arrays.

    ``work`` is how often hands do what helps.
    """

    short_by_m: NDArray[np.float64]
    off_m: NDArray[np.float64]
    work: int = 0


@dataclass(frozen=True)
class Help:
    """Something that hands can do otherwise, and what they would come to then.

    Parameters
    ----------
    what : str
        A key of `HELPS`.
    short_by_m : (3,) array
        Planned yarn less the spin's, at 5, 50 and 95 %.
    off_m : (3,) array
        How far apart places lie that the plan has together at 10, 50 and 90 % of the yarn.
    work : int
        How often hands do it: portions weighed, bobbins changed, stops, joins; 0 where that is no
        number.
    gain_m : float
        By how much nearer they lie in the mean of the three; where that is not seen, by how much
        less is short in one yarn of twenty.
    """

    what: str
    short_by_m: NDArray[np.float64]
    off_m: NDArray[np.float64]
    work: int
    gain_m: float


class Hands(NamedTuple):
    """A plan spun many times, how its portions stray, and each length over its plan: (V, N)."""

    spun: Spins
    strays: Straying
    share: NDArray[np.float64]

    @property
    def laid(self) -> Layout:
        """The plan laid out."""
        return self.spun.laid

    @property
    def times(self) -> int:
        """How often it was spun."""
        return len(self.share)


def told(spun: Spins, work: int = 0) -> Told:
    """Return what is told of a plan spun many times.

    Parameters
    ----------
    spun : Spins
        The plan, spun many times.
    work : int
        How often hands do what helps.
    """
    yarn_m = spun.laid.stretches.yarn_m
    return Told(short_by_m(spun.yarn_m, yarn_m), spun.off_m(OFF_AT * yarn_m), work)


def short_by_m(found_m: NDArray[np.float64], yarn_m: float) -> NDArray[np.float64]:
    """Return how much shorter yarns are than planned, at 5, 50 and 95 %: (3,).

    Parameters
    ----------
    found_m : (V,) array
        Their lengths.
    yarn_m : float
        As planned.
    """
    return np.asarray(np.quantile(yarn_m - found_m, BAND))


def helps(spun: Spins, strays: Straying, as_it_is: Told) -> tuple[Help, ...]:
    """Return what hands could do otherwise, what helps most first.

    Parameters
    ----------
    spun : Spins
        The plan, spun many times.
    strays : Straying
        How its portions stray.
    as_it_is : Told
        What it comes to without help.
    """
    laid = spun.laid
    as_spun = np.empty_like(spun.length_m)
    as_spun[:, spun.order] = spun.length_m
    planned_m = np.where(laid.portions.length_m > 0, laid.portions.length_m, 1.0)
    hands = Hands(spun, strays, as_spun / planned_m)
    found = ((what, helped(hands)) for what, helped in HELPS.items())
    is_seen = shows_misfit(laid)
    each = [_help(what, then, as_it_is, is_seen) for what, then in found if then is not None]
    return tuple(sorted(each, key=lambda one: -one.gain_m))


def shows_misfit(laid: Layout) -> bool:
    """Return whether it is seen where plies fall apart: there are several, of several colours."""
    return len(laid.portions.starts) > 2 and len(laid.stretches.lot) > 1


def _help(what: str, then: Told, now: Told, is_seen: bool) -> Help:
    gain_m = float((now.off_m - then.off_m).mean())
    if not is_seen:
        gain_m = float(now.short_by_m[-1] - then.short_by_m[-1])
    return Help(what, *then, gain_m)


def _weigh(hands: Hands) -> Told | None:
    """Weigh portions instead of dividing by eye."""
    if not is_by_eye(hands.laid) or hands.laid.wheel is not None:
        return None
    return _spun_again(hands, replace(hands.strays, reading_m=_reading_m(hands.laid, 1)))


def _finer_scale(hands: Hands) -> Told | None:
    """Weigh on a finer scale."""
    if is_by_eye(hands.laid) or hands.laid.wheel is not None:
        return None
    return _spun_again(hands, replace(hands.strays, reading_m=_reading_m(hands.laid, FINER)))


def _reading_m(laid: Layout, finer: int) -> NDArray[np.float64]:
    """Return how far lengths stray by a scale so much finer, as SD: (N,)."""
    step_g = laid.resolved.step_g / finer
    on_scale_g = np.maximum(laid.portions.mass_g, _LEAST_STEPS * step_g)
    return np.asarray(laid.portions.length_m * step_g / np.sqrt(12) / on_scale_g)


def _spun_again(hands: Hands, strays: Straying) -> Told:
    as_planned = ply_by_ply(hands.laid.portions.starts)
    share = drawn_shares(hands.laid, strays, hands.times, as_planned, SEED)
    return told(of_shares(hands.laid, share), len(hands.laid.portions))


def _in_turn(hands: Hands) -> Told | None:
    """Spin one repeat on each bobbin in turn: what strays with the day strays on all plies."""
    portions, strays = hands.laid.portions, hands.strays
    rounds = _rounds(portions)
    if (rounds[portions.starts[1:] - 1] > 0).sum() < 2 or hands.laid.wheel is not None:
        return None
    if not strays.bobbin_m.any() and not (strays.drift and strays.drifting_m.any()):
        return None
    in_turn = np.lexsort((row_numbers(portions), portions.ply, rounds))
    spun_as = SpunAs([in_turn], rounds, is_by_eye(hands.laid))
    share = drawn_shares(hands.laid, strays, hands.times, spun_as, SEED)
    changes = int((np.diff(portions.ply[in_turn]) != 0).sum())
    return told(of_shares(hands.laid, share), changes)


def _rounds(portions: Portions) -> NDArray[np.int64]:
    """Return in which pass through the sequence each portion is, on its ply, from 0: (N,)."""
    passes = np.cumsum(portions.begins_pass)
    return np.asarray(passes - passes[portions.starts[portions.ply]])


def _stop_and_weigh(hands: Hands) -> Told | None:
    """Weigh the bobbin after each repeat, and spin the rest so that the single ends as planned."""
    laid = hands.laid
    ends = [_repeat_ends(laid, k) for k in range(len(hands.spun.kept))]
    if all(len(own) <= 2 for own in ends):
        return None
    share = hands.share.copy()
    for own in ends:
        _put_right(share, laid, own)
    return told(of_shares(laid, share), sum(len(own) - 2 for own in ends))


def _repeat_ends(laid: Layout, ply: int) -> NDArray[np.int64]:
    """Return where the repeats of a ply begin among all portions, and where its last one ends."""
    own = laid.portions.of_ply(ply)
    return np.append(own.start + np.flatnonzero(laid.portions.begins_pass[own]), own.stop)


def _put_right(share: NDArray[np.float64], laid: Layout, ends: NDArray[np.int64]) -> None:
    """Scale what is still to spin of a ply, after each repeat, so that it ends as planned."""
    planned_m, to_spin = laid.portions.length_m, laid.to_spin
    lacks_m = np.full(len(share), planned_m[ends[0] : ends[-1]].sum())
    for first, end in pairwise(ends.tolist()):
        rest_m = planned_m[first : ends[-1]] @ np.where(to_spin[first : ends[-1]], 1.0, 0.0)
        fixed_m = planned_m[first : ends[-1]].sum() - rest_m
        factor = np.maximum((lacks_m - fixed_m) / rest_m, 0.0) if rest_m else np.ones(len(share))
        share[:, first:end] *= np.where(to_spin[first:end], factor[:, None], 1.0)
        lacks_m -= share[:, first:end] @ planned_m[first:end]


def _mend(hands: Hands) -> Told | None:
    """Break off what is too long wherever all plies change, so that they change together again."""
    spun, along = hands.spun, hands.laid.stretches
    all_change = (along.lot[1:] != along.lot[:-1]).all(axis=1)
    if len(spun.kept) == 1 or not all_change.any():
        return None
    mended_m = along.edges_m[1:-1][all_change]
    least_m = np.full((len(spun.length_m), len(mended_m) + 1), np.inf)
    for single in range(len(spun.kept)):
        lies_m = spun.lies_at_m(single, mended_m)
        whole_m = np.column_stack([lies_m, spun.plied_m[:, single]])
        np.minimum(least_m, np.diff(whole_m, axis=1, prepend=0.0), out=least_m)
    at_m = OFF_AT * along.yarn_m
    since_m = np.append(0.0, mended_m)[np.searchsorted(mended_m, at_m)]
    joins = len(mended_m) * (len(spun.kept) - 1)
    return Told(short_by_m(least_m.sum(axis=1), along.yarn_m), spun.off_m(at_m, since_m), joins)


def _chain(hands: Hands) -> Told | None:
    """Spin all portions of a place at once onto one single, and chain ply it."""
    laid, portions = hands.laid, hands.laid.portions
    plies = len(hands.spun.kept)
    alike = plies > 1 and (np.diff(portions.starts) == portions.starts[1]).all()
    if not alike or laid.wheel is not None:
        return None
    lot = portions.lot.reshape(plies, -1)
    if (lot != lot[0]).any():
        return None
    mass_g, length_m = (
        one.reshape(plies, -1).sum(axis=0) for one in (portions.mass_g, portions.length_m)
    )
    single = replace(portions.take(np.arange(len(mass_g))), mass_g=mass_g, length_m=length_m)
    alone = replace(laid, portions=single)
    strays = straying(alone, mass_g)
    if strays is None:
        return None
    spun_as = ply_by_ply(single.starts, by_eye=is_by_eye(laid))
    share = drawn_shares(alone, strays, hands.times, spun_as, SEED)
    yarn_m = share @ length_m * (1 - laid.resolved.contraction) / STRANDS_OF_A_CHAIN
    return Told(short_by_m(yarn_m, laid.stretches.yarn_m), np.zeros(len(OFF_AT)))


HELPS: dict[str, Callable[[Hands], Told | None]] = {
    "weigh": _weigh,
    "finer_scale": _finer_scale,
    "in_turn": _in_turn,
    "stop_and_weigh": _stop_and_weigh,
    "mend": _mend,
    "chain": _chain,
}
