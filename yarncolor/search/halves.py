"""Every order valued at once, from halves: fourteen thousand orders share one cutting of the yarn.

An order is a set S of places, arranged, and then the rest, arranged. Where edges depend by grams
alone on what stands before them, every edge of every such order is a subset sum of S, or all of S
and a subset sum of the rest. So one sequence of all those sums, laid out and merged once, cuts
the yarn of all of them into cells. In a cell each ply lies in an interval between two sums; which
place is spun there depends on the arrangement of that interval's half alone.

A cell that lies in one half is a vector over its arrangements. In a mixed cell of two or three
plies one lies alone in its half: what the cell adds is reckoned for each arrangement of the other
half and each place that may be spun in the lone interval, and one matrix product with the
arrangements of the lone half, as ones and zeros, sums them up.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import combinations, permutations, product

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.many_orders import plied_strands
from yarncolor.layout.schemes import ply_pieces
from yarncolor.layout.stretches import WHOLE_PPB, sections
from yarncolor.search.aims import CONTRAST, EVEN, MATCHED, SMOOTH, TWINS
from yarncolor.search.between import Between
from yarncolor.search.valued import side_by_side
from yarncolor.search.way import Way

_SQUARE = "square"
"""The mean of the squared difference: with the mean itself it gives the spread."""

_SETS_AT_ONCE = 32


@dataclass(frozen=True, eq=False)
class _Half:
    """All arrangements of so many places.

    Parameters
    ----------
    places : int
        How many.
    """

    places: int

    @cached_property
    def orders(self) -> NDArray[np.int8]:
        """Every arrangement of 0 … places - 1: (A, places)."""
        return np.array(list(permutations(range(self.places))), dtype=np.int8)

    @cached_property
    def _begun(self) -> NDArray[np.int64]:
        """Which places stand among the first 1, 2, … of each arrangement, as bits: (A, places)."""
        return np.cumsum(1 << self.orders.astype(np.int64), axis=1)

    def sums(self, mass: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.int64]]:
        """Return every subset sum of (V, places) masses, rising, and the rank of each subset."""
        subsets = (np.arange(1 << self.places)[:, None] >> np.arange(self.places)) & 1
        sums = mass @ subsets.T
        order = np.argsort(sums, axis=1, kind="stable")
        rank = np.empty_like(order)
        np.put_along_axis(rank, order, np.arange(sums.shape[1])[None], axis=1)
        return np.take_along_axis(sums, order, axis=1), rank

    def spun_in(self, rank: NDArray[np.int64]) -> NDArray[np.int64]:
        """Return which place each arrangement spins between two sums: (A, intervals).

        Parameters
        ----------
        rank : (2 ** places,) int array
            Of each subset's sum.
        """
        ends = rank[self._begun]
        intervals = np.arange(len(rank) - 1)
        turn = (intervals >= ends[:, :-1, None]).sum(axis=1)
        return np.take_along_axis(self.orders.astype(np.int64), turn, axis=1)


@dataclass(frozen=True, eq=False)
class _Cut:
    """The cells into which one set of first places cuts the yarn.

    Parameters
    ----------
    share : (C,) array
        Of the yarn's length.
    interval : (C, plies) int array
        In which interval of its half each ply lies; the last one stands for a plain ply.
    later : (C, plies) int array
        0 where that is the first half, 1 where it is the second.
    """

    share: NDArray[np.float64]
    interval: NDArray[np.int64]
    later: NDArray[np.int64]

    def of(self, own: NDArray[np.bool_]) -> "_Cut":
        """Return some of the cells."""
        return _Cut(self.share[own], self.interval[own], self.later[own])


class Halves:
    """Every order of a way, valued set by set.

    Parameters
    ----------
    way : Way
        Whose edges depend by grams alone on what stands before them.
    between : Between
        How far its lots are apart.
    measures : tuple of str
        Of `MEASURES`.
    """

    def __init__(self, way: Way, between: Between, measures: tuple[str, ...]) -> None:
        self._way, self._measures = way, measures
        self._first, self._second = _Half(way.places // 2), _Half(way.places - way.places // 2)
        self._spun = {CONTRAST, _SQUARE} if EVEN in measures else {CONTRAST} & set(measures)
        self._spun |= {MATCHED, TWINS} & set(measures)
        self._terms = tuple(sorted(self._spun))
        self._table = self._terms_of_places(between)
        lots = way.lot
        self._apart = between.of(lots[:, None], lots[None, :])

    def sets(self, only_with_first: bool) -> list[tuple[int, ...]]:
        """Return every set of first places, in order.

        Parameters
        ----------
        only_with_first : bool
            Those alone in which today's first place is, where both halves are equally large: the
            others are these reversed.
        """
        every = list(combinations(range(self._way.places), self._first.places))
        if only_with_first and self._way.places % 2 == 0:
            return [one for one in every if 0 in one]
        return every

    def orders_of(self, chosen: tuple[int, ...]) -> NDArray[np.int8]:
        """Return every order that begins with a set of places: (A · B, E)."""
        one, other = np.array(chosen, dtype=np.int8), self._rest(chosen).astype(np.int8)
        first, second = one[self._first.orders], other[self._second.orders]
        return np.concatenate(
            [np.repeat(first, len(second), axis=0), np.tile(second, (len(first), 1))], axis=1
        )

    def valued(
        self, sets: list[tuple[int, ...]]
    ) -> Iterator[tuple[tuple[int, ...], NDArray[np.float64]]]:
        """Yield each set of first places and the measures of its orders: (measures, A · B).

        Parameters
        ----------
        sets : list of tuple of int
            Of `sets`.
        """
        for at in range(0, len(sets), _SETS_AT_ONCE):
            some = sets[at : at + _SETS_AT_ONCE]
            cuts, ranks = self._cuts(some)
            for chosen, cut, (rank, other_rank) in zip(some, cuts, ranks, strict=True):
                yield chosen, self._of_set(chosen, cut, rank, other_rank)

    def _rest(self, chosen: tuple[int, ...]) -> NDArray[np.int64]:
        return np.setdiff1d(np.arange(self._way.places), chosen)

    def _terms_of_places(self, between: Between) -> NDArray[np.float64]:
        """Return each term of places side by side, a plain ply's the last: (terms, (E + 1)^P)."""
        way, plies = self._way, self._way.plies
        scheme = way.resolved.scheme
        plain = way.plan.names.index(scheme.solid_lot) if scheme.name == "solid" else way.lot[0]
        lot = np.append(way.lot, plain)
        side = np.array(list(product(range(len(lot)), repeat=plies)))
        found = side_by_side(np.ones((len(side), 1)), lot[side][:, None], between, self._terms)
        if _SQUARE in self._spun:
            found[_SQUARE] = found[CONTRAST] ** 2
        terms = [found[term] for term in self._terms]
        return np.array(terms).reshape(len(terms), len(side))

    def _cuts(
        self, sets: list[tuple[int, ...]]
    ) -> tuple[list[_Cut], list[tuple[NDArray[np.int64], NDArray[np.int64]]]]:
        way = self._way
        rest = np.array([self._rest(one) for one in sets])
        sums, rank = self._first.sums(way.mass_g[np.array(sets)])
        other_sums, other_rank = self._second.sums(way.mass_g[rest])
        mass_g = np.concatenate([np.diff(sums, axis=1), np.diff(other_sums, axis=1)], axis=1)
        return self._merged(mass_g, len(rank[0]) - 1), list(zip(rank, other_rank, strict=True))

    def _merged(self, mass_g: NDArray[np.float64], first: int) -> list[_Cut]:
        """Return the cells of sequences of (V, M) intervals, so many of them of the first half."""
        given, lots = self._way.today, len(self._way.plan.names)
        at = np.arange(mass_g.shape[1])
        lot = np.broadcast_to(lots + at, mass_g.shape)
        refined = replace(given, lot=lot, place=at + 1, mass_g=mass_g)
        end_ppb, spun = sections(plied_strands(self._way.resolved, ply_pieces(refined)))
        share = np.diff(end_ppb, axis=-1, prepend=0) / WHOLE_PPB
        cuts = []
        for own_share, own in zip(share, spun, strict=True):
            has_length = own_share > 0
            interval = own[has_length] - lots
            cuts.append(_cut(own_share[has_length], interval, first, mass_g.shape[1] - first))
        return cuts

    def _of_set(
        self,
        chosen: tuple[int, ...],
        cut: _Cut,
        rank: NDArray[np.int64],
        other_rank: NDArray[np.int64],
    ) -> NDArray[np.float64]:
        one = _Side(np.array(chosen), self._first.spun_in(rank), self._way.places)
        other = _Side(self._rest(chosen), self._second.spun_in(other_rank), self._way.places)
        found: dict[str, NDArray[np.float64]] = {}
        if self._terms:
            sums = self._summed(cut, one, other)
            found = dict(zip(self._terms, sums, strict=True))
        if EVEN in self._measures:
            found[EVEN] = np.sqrt(np.maximum(found[_SQUARE] - found[CONTRAST] ** 2, 0.0))
        if SMOOTH in self._measures:
            found[SMOOTH] = self._smooth(one.places[self._first.orders], other)
        return np.stack([found[measure].ravel() for measure in self._measures])

    def _summed(self, cut: _Cut, one: "_Side", other: "_Side") -> NDArray[np.float64]:
        """Return the sum of each term over all cells: (terms, A, B)."""
        places, plies = self._way.places + 1, self._way.plies
        many_later = cut.later.sum(axis=1)
        total = self._pure(cut, many_later == 0, one)[:, :, None]
        total = total + self._pure(cut, many_later == plies, other)[:, None, :]
        table = self._table.reshape(len(self._terms), -1, places)
        if plies > 1:
            some = cut.of(many_later == 1)
            total += _mixed(some, some.later == 1, table, one, other)
        if plies > 2:
            some = cut.of(many_later == plies - 1)
            total += _mixed(some, some.later == 0, table, other, one).swapaxes(1, 2)
        return total

    def _pure(self, cut: _Cut, own: NDArray[np.bool_], side: "_Side") -> NDArray[np.float64]:
        """Return what cells add in which all plies lie in one half: (terms, arrangements)."""
        at = side.at(cut.interval[own])
        index = np.ravel_multi_index(tuple(at), (self._way.places + 1,) * len(at))
        return np.asarray(self._table[:, index] @ cut.share[own])

    def _smooth(self, first: NDArray[np.int64], other: "_Side") -> NDArray[np.float64]:
        """Return the mean difference along the plies: (A, B)."""
        second, follows, apart = other.places[self._second.orders], self._way.follows, self._apart
        half = first.shape[1]
        beside = np.diagonal(follows, 1)
        own = [
            apart[one[:, :-1], one[:, 1:]] @ beside[start : start + one.shape[1] - 1]
            for one, start in ((first, 0), (second, half))
        ]
        total = own[0][:, None] + own[1]
        if half:
            total = total + follows[half - 1, half] * apart[first[:, -1:], second[:, 0]]
        if self._way.goes_round:
            total = total + follows[-1, 0] * apart[first[:, :1], second[:, -1]]
        return np.asarray(total / max(self._way.pairs, 1))


class _Side:
    """One half in all its arrangements.

    Parameters
    ----------
    places : (n,) int array
        Its places.
    spun : (A, intervals) int array
        Which of them, from 0, each arrangement spins in each interval.
    plain : int
        What stands for a plain ply, in an interval after the last.
    """

    def __init__(self, places: NDArray[np.int64], spun: NDArray[np.int64], plain: int) -> None:
        self.places, self.spun = places, spun
        own = np.append(places, plain)
        self._with_plain = own[np.pad(spun, ((0, 0), (0, 1)), constant_values=len(places))]

    def at(self, interval: NDArray[np.int64]) -> NDArray[np.int64]:
        """Return the place that each ply spins: (plies, A, cells), of (cells, plies) intervals."""
        return np.moveaxis(self._with_plain[:, interval], -1, 0)

    def one_hot(self, intervals: NDArray[np.int64]) -> NDArray[np.float64]:
        """Return ones where an arrangement spins a place in an interval: (intervals · n, A)."""
        spun = self.spun[:, intervals]
        hot: NDArray[np.float64] = (spun.T[:, None] == np.arange(len(self.places))[:, None]) * 1.0
        return hot.reshape(-1, len(spun))


def _cut(share: NDArray[np.float64], interval: NDArray[np.int64], first: int, second: int) -> _Cut:
    """Return cells whose plies lie in intervals of both halves; a plain ply's is below 0.

    A plain ply goes with the first of the others.
    """
    later = (interval >= first).astype(np.int64)
    plain = interval < 0
    if plain.any():
        with_them = np.take_along_axis(later, (~plain).argmax(axis=1)[:, None], axis=1)
        later = np.where(plain, with_them, later)
    own = np.where(plain, np.where(later, second, first), interval - later * first)
    return _Cut(share, own, later)


def _mixed(
    cells: _Cut,
    is_lone: NDArray[np.bool_],
    table: NDArray[np.float64],
    others: _Side,
    lone: _Side,
) -> NDArray[np.float64]:
    """Return what cells add in which one ply lies alone in its half: (terms, others, lone).

    Parameters
    ----------
    cells : _Cut
        Such cells.
    is_lone : (C, plies) bool array
        Which ply is the lone one.
    table : (terms, places of the others, places of the lone) array
        What each term is.
    others, lone : _Side
        Both halves.
    """
    if not len(cells.share):
        return np.zeros((len(table), len(others.spun), len(lone.spun)))
    alone = cells.interval[is_lone]
    order = np.argsort(alone, kind="stable")
    alone = alone[order]
    with_it = cells.interval[~is_lone].reshape(len(order), -1)[order]
    begins = np.flatnonzero(np.diff(alone, prepend=-1))
    at = others.at(with_it)
    index = np.ravel_multi_index(tuple(at), (table.shape[-1],) * len(at))
    adds = table[:, :, lone.places][:, index] * cells.share[order][:, None]
    by_lone = np.add.reduceat(adds, begins, axis=2)
    flat = by_lone.reshape(-1, by_lone.shape[2] * by_lone.shape[3])
    summed = flat @ lone.one_hot(alone[begins])
    return summed.reshape(len(table), len(others.spun), len(lone.spun))
