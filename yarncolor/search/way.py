"""One way to leave lots out: the places that are put in order, and what is known of their yarn."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from yarncolor.defaults import place_masses_g, sequence_of, to_divide_g
from yarncolor.layout.many_orders import plied_strands, scheme_inputs
from yarncolor.layout.resolved import ResolvedPlan, resolve
from yarncolor.layout.scheme_input import SchemeInput, repeat_shares
from yarncolor.layout.schemes import ply_pieces
from yarncolor.plan import STRANDS_OF_A_CHAIN, Plan

MOST_EXACT, MOST_OF_MANY_PLIES, MOST_BY_NEIGHBOURS = 10, 9, 8
"""Places up to which every order is valued: usually, of more than three plies, and where edges
depend on who stands beside whom."""

_FEW_PLIES = 3
_BY_GRAMS = ("matched", "fractal", "flipped", "gradient", "mirrored", "solid", "chain")
"""Schemes in which a ply's place in the sequence, by grams, is the same function in all orders."""

_SAME_REVERSED = ("matched", "flipped", "gradient", "chain", "shuffled")
_CLOSINGS_SAME_REVERSED = ("keep", "share", "halve")


@dataclass(frozen=True, eq=False)
class Way:
    """A plan whose places are put in order; those of 0 g stay at the end.

    Parameters
    ----------
    plan : Plan
        The plan, its sequence written out, without the lots that are left out.
    resolved : ResolvedPlan
        The same with every default filled in.
    left_out : tuple of str
        Lots that are not spun.
    lot : (E,) int array
        Lot of each place that has grams, in today's order.
    mass_g : (E,) array
        Its grams.
    """

    plan: Plan
    resolved: ResolvedPlan
    left_out: tuple[str, ...]
    lot: NDArray[np.int64]
    mass_g: NDArray[np.float64]

    @property
    def places(self) -> int:
        """How many there are to be put in order."""
        return len(self.lot)

    @property
    def plies(self) -> int:
        """Strands in the yarn."""
        return STRANDS_OF_A_CHAIN if self.resolved.is_chain else len(self.resolved.tex)

    @cached_property
    def today(self) -> SchemeInput:
        """What the scheme works on in today's order, with a leading axis."""
        ((_, given),) = self.scheme_inputs(np.arange(self.places)[None])
        return given

    def scheme_inputs(self, orders: NDArray[np.int64]) -> Iterator[tuple[list[int], SchemeInput]]:
        """Yield which orders are alike, and what the scheme works on in them.

        Parameters
        ----------
        orders : (V, E) int array
            For each order, the place from which each place has what stands there.
        """
        idle = np.arange(self.places, len(self.plan.scheme.sequence or ()))
        sources = np.concatenate([orders, np.tile(idle, (len(orders), 1))], axis=1)
        return scheme_inputs(self.plan, self.resolved, sources)

    @cached_property
    def follows(self) -> NDArray[np.int64]:
        """How often place j follows place i on a ply, all plies together: (E, E)."""
        count = np.zeros((self.places, self.places), dtype=np.int64)
        for ply in ply_pieces(self.today):
            place = ply.place[ply.place > 0] - 1
            np.add.at(count, (place[:-1], place[1:]), 1)
        return count + count.T

    @cached_property
    def pairs(self) -> int:
        """How many portions follow another on a ply, all plies together."""
        return sum(ply.mass_g.shape[-1] - 1 for ply in ply_pieces(self.today))

    @cached_property
    def edges(self) -> int:
        """Pieces along all strands of one yarn, at which something may change."""
        return int(plied_strands(self.resolved, ply_pieces(self.today)).starts[-1])

    @property
    def cost(self) -> float:
        """What it takes to value one order, in edges of a yarn of three plies."""
        pairs = self.plies * (self.plies - 1) / 2
        return self.edges * (self.plies + pairs) / 6

    @property
    def goes_round(self) -> bool:
        """Whether the last place lies beside the first somewhere on a ply."""
        return self.places > 2 and bool(self.follows[0, -1])

    @cached_property
    def alike(self) -> NDArray[np.int64]:
        """For each place the first that has the same lot and grams, itself at the latest: (E,)."""
        same = (self.lot[:, None] == self.lot) & np.isclose(self.mass_g[:, None], self.mass_g)
        return np.asarray(same.argmax(axis=1))

    def by_grams(self, closes: bool) -> bool:
        """Return whether edges depend on what stands before them alone, not on its order.

        Parameters
        ----------
        closes : bool
            Whether the orders end on the lot that they begin with.
        """
        scheme = self.resolved.scheme
        return (
            scheme.name in _BY_GRAMS
            and not scheme.is_carded
            and not self._closes_specially(closes)
            and self.plies <= _FEW_PLIES
        )

    def _closes_specially(self, closes: bool) -> bool:
        scheme = self.resolved.scheme
        return closes and scheme.name == "fractal" and scheme.closing != "keep"

    def most_exact(self, closes: bool) -> int:
        """Return up to how many places every order is valued.

        Parameters
        ----------
        closes : bool
            Whether the orders end on the lot that they begin with.
        """
        scheme = self.resolved.scheme
        shared = self._closes_specially(closes) and scheme.closing == "share"
        if scheme.name in ("staggered", "stepped") or scheme.is_carded or shared:
            return MOST_BY_NEIGHBOURS
        return MOST_EXACT if self.plies <= _FEW_PLIES else MOST_OF_MANY_PLIES

    def same_reversed(self, closes: bool) -> bool:
        """Return whether an order and its reverse make the same yarn, from its other end.

        Parameters
        ----------
        closes : bool
            Whether the orders end on the lot that they begin with.
        """
        resolved, scheme = self.resolved, self.resolved.scheme
        if resolved.as_in_the_yarn is not None:
            return False
        if scheme.name == "stepped":
            return not np.ptp(resolved.tex) and not np.ptp(resolved.wound_off % 2)
        if scheme.name == "fractal":
            equal = all(not np.ptp(repeat_shares(one)) for one in scheme.divisions)
            return equal and (not closes or scheme.closing in _CLOSINGS_SAME_REVERSED)
        return scheme.name in _SAME_REVERSED

    def in_order(self, order: NDArray[np.int64]) -> Plan:
        """Return the plan in another order.

        Parameters
        ----------
        order : (E,) int array
            The place from which each place has what stands there.
        """
        names, parts = self.plan.scheme.sequence or (), self.plan.scheme.parts
        at = [*order.tolist(), *range(self.places, len(names))]
        scheme = replace(
            self.plan.scheme,
            sequence=tuple(names[place] for place in at),
            parts=parts and tuple(parts[place] for place in at),
        )
        return replace(self.plan, scheme=scheme)

    def names_in(self, order: NDArray[np.int64]) -> tuple[str, ...]:
        """Return the lots of an order, places of 0 g left out.

        Parameters
        ----------
        order : (E,) int array
            The place from which each place has what stands there.
        """
        return tuple(self.plan.names[lot] for lot in self.lot[order].tolist())


def way_without(plan: Plan, left_out: tuple[str, ...]) -> Way | None:
    """Return a plan's places without those of some lots; None where none would be left.

    Parameters
    ----------
    plan : Plan
        Of a scheme with a sequence.
    left_out : tuple of str
        Names of lots.
    """
    to_divide = to_divide_g(plan)
    names = sequence_of(plan.scheme, plan.names, to_divide)
    kept = [at for at, name in enumerate(names) if name not in left_out]
    own = _with_places(plan, names, kept)
    mass_g = _masses_g(own, to_divide)
    kept = [kept[at] for at in np.argsort(mass_g <= 0, kind="stable")]
    used = int((mass_g > 0).sum())
    if not used:
        return None
    own = _with_places(plan, names, kept)
    lot = np.array([plan.names.index(names[at]) for at in kept[:used]], dtype=np.int64)
    return Way(own, resolve(own), left_out, lot, _masses_g(own, to_divide)[:used])


def _with_places(plan: Plan, names: tuple[str, ...], places: list[int]) -> Plan:
    parts = plan.scheme.parts and tuple(plan.scheme.parts[at] for at in places)
    sequence = tuple(names[at] for at in places)
    return replace(plan, scheme=replace(plan.scheme, sequence=sequence, parts=parts))


def _masses_g(plan: Plan, to_divide: NDArray[np.float64]) -> NDArray[np.float64]:
    sequence = plan.scheme.sequence or ()
    lot = np.array([plan.names.index(name) for name in sequence], dtype=np.int64)
    return place_masses_g(plan.scheme, lot, to_divide)
