"""When a single runs out: what can still be made of what the others have left.

`KINDS` is the table; each is a function from what is left to yarns. Lengths are metres of single,
from where the first one ran out; ℓ is what a single has left, f the fullest.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.rest import Rest, side_by_side
from yarncolor.layout.winding import Strands, folded_in_three
from yarncolor.plan import STRANDS_OF_A_CHAIN

_SAME = 1e-8
"""Parts of the yarn by which a single that has run out may seem longer, and two are equal."""


@dataclass(frozen=True, eq=False)
class RunOut:
    """What every single has left where the first of them has run out.

    Parameters
    ----------
    singles : tuple of Rest
        Each whole, in the order of coming off.
    spare_g : (lots,) array
        Grams of single that could be spun of each lot.
    tex : (plies,) array
        Linear density at which each ply is spun.
    loop_m : float
        Longest third of a loop of a chain.
    """

    singles: tuple[Rest, ...]
    spare_g: NDArray[np.float64]
    tex: NDArray[np.float64]
    loop_m: float

    @cached_property
    def used_m(self) -> float:
        """Metres of each single in the yarn so far."""
        return min(single.single_m for single in self.singles)

    @cached_property
    def left(self) -> tuple[Rest, ...]:
        """What each single has left."""
        return tuple(one.between(self.used_m, one.single_m) for one in self.singles)

    @cached_property
    def left_m(self) -> NDArray[np.float64]:
        """Its metres; 0 for one that has run out: (plies,)."""
        left_m = np.array([one.single_m for one in self.left])
        return np.where(left_m <= _SAME * self.used_m, 0.0, left_m)

    @property
    def ended(self) -> list[int]:
        """The plies that have run out, from 0."""
        ended: list[int] = np.flatnonzero(self.left_m == 0).tolist()
        return ended

    @property
    def going(self) -> list[int]:
        """The plies that have something left, from 0."""
        going: list[int] = np.flatnonzero(self.left_m).tolist()
        return going

    @property
    def fullest(self) -> int:
        """The ply that has most left; of equals the first."""
        return int(np.argmax(self.left_m >= self.left_m.max() - _SAME * self.used_m))

    def ended_on(self, ply: int) -> int:
        """Return the lot on which a ply ended."""
        return int(self.singles[ply].between(0.0, self.used_m).lot[-1])

    def beyond(self, used_m: float) -> "dict[int, tuple[Rest, ...]]":
        """Return what each going ply still has left after so many metres more."""
        return {k: (self.left[k].between(used_m, self.left[k].single_m),) for k in self.going}


@dataclass(frozen=True, eq=False)
class Rescue:
    """One yarn that can still be made.

    Parameters
    ----------
    kind : str
        As `KINDS` has it.
    single_m : float
        Metres of each strand that go into it.
    strands : Strands or None
        What is plied, from its beginning on; None where nothing is.
    plies : tuple of int
        The ply that each strand comes from, from 0; what is newly spun counts to its own.
    over : dict of int to tuple of Rest
        What is left of each ply afterwards.
    spins_m : dict of (int, int) to float
        Metres that are spun for a ply, of a lot.
    joined : tuple of (int, int)
        At each splice: the lot on which a ply ended, and that which is spliced to it.
    """

    kind: str
    single_m: float
    strands: Strands | None
    plies: tuple[int, ...]
    over: dict[int, tuple[Rest, ...]]
    spins_m: dict[tuple[int, int], float]
    joined: tuple[tuple[int, int], ...]

    @property
    def same_at_splice(self) -> bool | None:
        """Whether all that are spliced to one another are of one lot; None without a splice."""
        return all(one == other for one, other in self.joined) if self.joined else None


def rescues(out: RunOut) -> tuple[Rescue, ...]:
    """Return every yarn that can still be made: as many plies first, the longest first of those."""
    found = [one for make in KINDS.values() for one in make(out)]
    found = [one for one in found if one.single_m > _SAME * out.used_m or one.strands is None]
    return tuple(sorted(found, key=lambda one: _rank(out, one)))


def _rank(out: RunOut, one: Rescue) -> tuple[bool, bool, float]:
    as_many = len(one.plies) == len(out.singles)
    return one.strands is None, not as_many, -round(one.single_m / out.used_m, 9)


def _plied(kind: str, single_m: float, rests: dict[int, Rest], out: RunOut) -> Rescue:
    """Return a yarn of one strand for each of some plies."""
    strands = side_by_side([rests[k].between(0.0, single_m) for k in sorted(rests)])
    return Rescue(kind, single_m, strands, tuple(sorted(rests)), out.beyond(single_m), {}, ())


def fewer_plies(out: RunOut) -> Iterator[Rescue]:
    """Yield the others plied on: min ℓ."""
    if len(out.going) > 1:
        shortest_m = float(out.left_m[out.going].min())
        yield _plied("fewer_plies", shortest_m, {k: out.left[k] for k in out.going}, out)


def fold(out: RunOut) -> Iterator[Rescue]:
    """Yield the fullest from both its ends, the far one spliced on: min(ℓ_f / 2, ℓ)."""
    rest, single_m = out.left[out.fullest], _doubled_m(out)
    if len(out.ended) == 1:
        over = rest.between(single_m, rest.single_m - single_m)
        yield _spliced("fold", single_m, rest.turned(), (over,), out)


def halves(out: RunOut) -> Iterator[Rescue]:
    """Yield the fullest from its near end and from its middle: min(ℓ_f / 2, ℓ)."""
    rest, single_m = out.left[out.fullest], _doubled_m(out)
    half_m = rest.single_m / 2
    if len(out.ended) == 1:
        far = rest.between(half_m, rest.single_m)
        over = (rest.between(single_m, half_m), far.between(single_m, half_m))
        yield _spliced("halves", single_m, far, over, out)


def _doubled_m(out: RunOut) -> float:
    """Return how far all going plies reach when the fullest goes twice into the yarn."""
    others_m = (float(out.left_m[k]) for k in out.going)
    return min(out.left[out.fullest].single_m / 2, *others_m)


def _spliced(kind: str, single_m: float, far: Rest, over: tuple[Rest, ...], out: RunOut) -> Rescue:
    """Return a yarn in which part of the fullest single goes on where another ended."""
    (ended,) = out.ended
    rests = {k: out.left[k] for k in out.going} | {ended: far}
    return replace(
        _plied(kind, single_m, rests, out),
        over=out.beyond(single_m) | {out.fullest: over},
        joined=((out.ended_on(ended), int(far.lot[0])),),
    )


def both_ends(out: RunOut) -> Iterator[Rescue]:
    """Yield both ends of the fullest alone: ℓ_f / 2."""
    fullest = out.fullest
    rest = out.left[fullest]
    half_m = rest.single_m / 2
    strands = side_by_side([rest.between(0.0, half_m), rest.turned().between(0.0, half_m)])
    yield Rescue("both_ends", half_m, strands, (fullest,) * 2, _without(out, fullest), {}, ())


def chain(out: RunOut) -> Iterator[Rescue]:
    """Yield the fullest alone, folded in three: ℓ_f / 3."""
    fullest = out.fullest
    strands = folded_in_three(side_by_side([out.left[fullest]]), out.loop_m)
    plies = (fullest,) * STRANDS_OF_A_CHAIN
    single_m = float(out.left_m[fullest]) / STRANDS_OF_A_CHAIN
    yield Rescue("chain", single_m, strands, plies, _without(out, fullest), {}, ())


def _without(out: RunOut, ply: int) -> dict[int, tuple[Rest, ...]]:
    return {k: rests for k, rests in out.beyond(0.0).items() if k != ply}


def top_up(out: RunOut) -> Iterator[Rescue]:
    """Yield more spun for what ended: of the lot it ended on; of the lot with most to spare."""
    ways = [{k: out.ended_on(k) for k in out.ended}]
    ways += [dict.fromkeys(out.ended, int(np.argmax(out.spare_g)))]
    for lots in ways if ways[0] != ways[1] else ways[:1]:
        yield _topped_up(out, lots)


def _topped_up(out: RunOut, lots: dict[int, int]) -> Rescue:
    takes_g_per_m = np.zeros(len(out.spare_g))
    for ply, lot in lots.items():
        takes_g_per_m[lot] += out.tex[ply] / 1000
    used = takes_g_per_m > 0
    spare_m = out.spare_g[used].clip(0.0) / takes_g_per_m[used]
    single_m = float(min(out.left_m[out.going].min(), spare_m.min()))
    spun = {ply: _new(single_m, lot, out.tex[ply]) for ply, lot in lots.items()}
    return replace(
        _plied("top_up", single_m, {k: out.left[k] for k in out.going} | spun, out),
        spins_m=dict.fromkeys(lots.items(), single_m),
        joined=tuple((out.ended_on(ply), lot) for ply, lot in lots.items()),
    )


def _new(single_m: float, lot: int, tex: float) -> Rest:
    return Rest(np.array([single_m]), np.array([lot]), np.array([tex]))


def keep(out: RunOut) -> Iterator[Rescue]:
    """Yield nothing more: what is left is for mending."""
    yield Rescue("keep", 0.0, None, (), out.beyond(0.0), {}, ())


KINDS: dict[str, Callable[[RunOut], Iterator[Rescue]]] = {
    "fewer_plies": fewer_plies,
    "fold": fold,
    "halves": halves,
    "both_ends": both_ends,
    "chain": chain,
    "top_up": top_up,
    "keep": keep,
}
