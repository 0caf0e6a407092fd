"""Bobbins: what each holds, when to change, which comes off when, what it weighs on the way."""

from dataclasses import dataclass

import numpy as np

from yarncolor.answers.bobbin_changes import bobbin_edges_m
from yarncolor.layout.along_single import keeps_grist, net_g_at
from yarncolor.layout.empty_bobbins import empty_bobbins
from yarncolor.layout.layout import Layout
from yarncolor.layout.portions import Portions

_TOLERANCE = 1e-9


@dataclass(frozen=True)
class Bobbin:
    """One bobbin filled with single.

    Parameters
    ----------
    number : int
        Of all bobbins, from 1, in spinning order.
    ply, strand : int
        Whose single it holds, from 0.
    order, of : int
        The how-manieth of so many that this strand fills, from 1, in spinning order.
    first, last : int
        Portions at its start and its end, indices into the plan's portions.
    start_m, end_m : float
        Place along the single, from the start of spinning.
    mass_g : float
        Spun, without the bobbin.
    tare_g : float or None
        The empty bobbin.
    comes_off : int
        The how-manieth of its strand to come off in plying, from 1.
    ends_with_portion : bool
        Whether it is full where a portion ends, not within one.
    """

    number: int
    ply: int
    strand: int
    order: int
    of: int
    first: int
    last: int
    start_m: float
    end_m: float
    mass_g: float
    tare_g: float | None
    comes_off: int
    ends_with_portion: bool

    @property
    def gross_g(self) -> float | None:
        """Full weight with the bobbin; None where the empty one is not known."""
        return None if self.tare_g is None else self.tare_g + self.mass_g


@dataclass(frozen=True)
class WeighPoint:
    """What a bobbin should weigh after a portion: at the end of a repeat, or when it is full.

    ``portion`` is an index into the plan's portions, ``net_g`` without the bobbin.
    """

    bobbin: Bobbin
    portion: int
    repeat: int
    at_m: float
    net_g: float

    @property
    def gross_g(self) -> float | None:
        """Weight with the bobbin; None where the empty one is not known."""
        return None if self.bobbin.tare_g is None else self.bobbin.tare_g + self.net_g


def filled_bobbins(laid: Layout) -> tuple[Bobbin, ...]:
    """Return every bobbin that the singles of a plan fill, in spinning order.

    A ply that does not fit its bobbin fills as few as can be, broken where portions end; where
    that would take one more, within a portion. Straight from the bobbins, what was
    filled last comes off first; wound off an odd number of times, what was filled first.

    Parameters
    ----------
    laid : Layout
        The plan laid out; its table of bobbins says what they hold and weigh.
    """
    filled: list[Bobbin] = []
    for ply, strands in enumerate(laid.resolved.yarn.strands.tolist()):
        edges = bobbin_edges_m(laid, ply)
        for strand in range(strands):
            filled += [
                _filled(laid, (ply, strand), (order, edges), len(filled) + order)
                for order in range(1, len(edges))
            ]
    return tuple(filled)


def _filled(
    laid: Layout, of: tuple[int, int], part: tuple[int, list[float]], number: int
) -> Bobbin:
    (ply, strand), (order, edges) = of, part
    start, end, count = edges[order - 1], edges[order], len(edges) - 1
    own = laid.portions.of_ply(ply)
    ends = laid.portions.ends_m[own]
    near = _TOLERANCE * ends[-1]
    first = own.start + int(np.searchsorted(ends, start + near, side="right"))
    last = min(own.start + int(np.searchsorted(ends, end - near)), own.stop - 1)
    turned = laid.resolved.wound_off[ply] % 2
    empty = empty_bobbins(laid.resolved, laid.planned)
    return Bobbin(
        number=number,
        ply=ply,
        strand=strand,
        order=order,
        of=count,
        first=first,
        last=last,
        start_m=start,
        end_m=end,
        mass_g=_net_g(laid, ply, start, end),
        tare_g=empty.mass_g(ply, order, strand),
        comes_off=order if turned else count + 1 - order,
        ends_with_portion=bool(abs(ends[last - own.start] - end) <= near),
    )


def _net_g(laid: Layout, ply: int, start_m: float, end_m: float) -> float:
    """Return grams of one strand of a ply between two places of its single."""
    if keeps_grist(laid.portions, ply, laid.resolved.tex[ply]):
        return float((end_m - start_m) * laid.resolved.yarn.strand_tex[ply] / 1000)
    between_g = np.diff(net_g_at(laid.portions, ply, np.array([start_m, end_m])))
    return float(between_g[0] / laid.resolved.yarn.strands[ply])


def _up_to_g(laid: Layout, bobbin: Bobbin, at_m: float) -> float:
    """Return grams on a bobbin when its single is spun up to a place."""
    if keeps_grist(laid.portions, bobbin.ply, laid.resolved.tex[bobbin.ply]):
        g_per_m = laid.resolved.yarn.strand_tex[bobbin.ply] / 1000
        return float((at_m - bobbin.start_m) * g_per_m)
    return _net_g(laid, bobbin.ply, bobbin.start_m, at_m)


def weigh_points(laid: Layout, filled: tuple[Bobbin, ...]) -> tuple[WeighPoint, ...]:
    """Return what each bobbin should weigh after each repeat, and when it is full.

    Strands of one ply are alike: points are those of each ply's first strand.

    Parameters
    ----------
    laid : Layout
        The plan laid out.
    filled : tuple of Bobbin
        What it fills.
    """
    portions = laid.portions
    return tuple(
        point
        for bobbin in filled
        if bobbin.strand == 0
        for point in _points_of(bobbin, portions, laid)
    )


def _points_of(bobbin: Bobbin, portions: Portions, laid: Layout) -> list[WeighPoint]:
    repeat, ends, begins = portions.repeat, portions.ends_m, portions.begins_pass
    stops = [
        at
        for at in range(bobbin.first, bobbin.last)
        if begins[at + 1] and ends[at] > bobbin.start_m
    ]
    return [
        WeighPoint(
            bobbin=bobbin,
            portion=at,
            repeat=int(repeat[at]),
            at_m=at_m,
            net_g=_up_to_g(laid, bobbin, at_m),
        )
        for at, at_m in [
            *((at, float(ends[at])) for at in stops),
            (bobbin.last, bobbin.end_m),
        ]
    ]


@dataclass(frozen=True)
class Need:
    """How many bobbins are needed at once, and how many there are.

    ``full`` hold singles that are not wound off on something else; one more is plied on, unless
    plying has bobbins of its own. ``count`` is None where the plan does not say.
    """

    full: int
    plying: int
    count: int | None

    @property
    def at_once(self) -> int:
        """Bobbins of the spinning wheel in use at once, while spinning or while plying."""
        return max(self.full + self.plying, 1)

    @property
    def is_short(self) -> bool:
        """Whether there are too few."""
        return self.count is not None and self.at_once > self.count


def bobbins_needed(laid: Layout, filled: tuple[Bobbin, ...]) -> Need:
    """Return how many bobbins the plan needs at once: the full ones and one to ply on.

    Parameters
    ----------
    laid : Layout
        The plan laid out.
    filled : tuple of Bobbin
        What it fills.
    """
    table, plies = laid.resolved.plan.bobbins, laid.resolved.yarn.plies
    apart = table.plying_count is not None
    on_wheel = laid.resolved.wound_off == 0
    full = sum(bool(on_wheel[bobbin.ply]) for bobbin in filled)
    return Need(full, 0 if apart or plies == 1 else 1, table.count)
