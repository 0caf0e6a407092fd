"""A bobbin on the scale while it fills: what was weighed out since the reading before."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import Enum

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.empty_bobbins import EmptyBobbins
from yarncolor.layout.named_pieces import NamedPieces

_NOTHING = 1e-9


class Misread(Enum):
    """Why a reading cannot be one."""

    NO_TARE = "what the empty bobbin weighs is not known"
    BELOW_TARE = "it is below the empty bobbin"
    BELOW_BEFORE = "it is below the reading before"
    NOTHING_LEFT = "nothing is left for pieces that state no grams"


@dataclass(frozen=True)
class Reading:
    """Pieces that came onto one bobbin between two readings.

    Parameters
    ----------
    first, last : int
        The pieces, from 0, both counted; the last was on the scale.
    gained_g : float
        Grams of single that they added, of all strands of their ply.
    """

    first: int
    last: int
    gained_g: float

    @property
    def pieces(self) -> slice:
        """Its pieces."""
        return slice(self.first, self.last + 1)


@dataclass(frozen=True)
class WrongReading:
    """A reading that cannot be one.

    Parameters
    ----------
    first, piece : int
        The first piece since the reading before, and the piece after which it was read.
    why : Misread
        What is wrong.
    than_g : float
        What it is below; of one that leaves nothing, the grams that are stated of other pieces.
    since_g : float
        Of one that leaves nothing, the grams weighed out since the reading before.
    """

    first: int
    piece: int
    why: Misread
    than_g: float = np.nan
    since_g: float = np.nan


@dataclass(frozen=True, eq=False)
class Weighed:
    """Grams of pieces as readings tell them.

    Parameters
    ----------
    mass_g : (n,) array
        As weighed out, said or by a reading; NaN where neither tells.
    net_g : (n,) array
        Grams of single that came onto the bobbin, by a reading; NaN where none was taken.
    compared_g : dict of int to pair of float
        By ply, of readings all of whose pieces state their grams: what the bobbin gained, and
        what they state.
    readings : tuple of Reading
        In the order of the pieces.
    """

    mass_g: NDArray[np.float64]
    net_g: NDArray[np.float64]
    compared_g: dict[int, tuple[float, float]]
    readings: tuple[Reading, ...]


def read_bobbins(
    named: NamedPieces, empty: EmptyBobbins, spin_loss: float
) -> tuple[tuple[Reading, ...], tuple[WrongReading, ...]]:
    """Return the readings of all bobbins in the order of the pieces, and those that cannot be.

    Parameters
    ----------
    named : NamedPieces
        With what the scale showed.
    empty : EmptyBobbins
        What the empty bobbins weigh.
    spin_loss : float
        Share of mass lost in spinning.
    """
    read = [_checked(one, named, spin_loss) for one in _each(named, empty)]
    good = tuple(one for one in read if isinstance(one, Reading))
    return good, tuple(one for one in read if isinstance(one, WrongReading))


def _each(named: NamedPieces, empty: EmptyBobbins) -> Iterator[Reading | WrongReading]:
    begun = np.diff(named.ply, prepend=-1) != 0
    begun |= np.diff(named.bobbin, prepend=0) != 0
    first, before_g = 0, None
    for at in np.flatnonzero(begun | ~np.isnan(named.gross_g)).tolist():
        if begun[at]:
            first, before_g = at, None
        gross_g, ply = float(named.gross_g[at]), int(named.ply[at])
        if np.isnan(gross_g):
            continue
        why = Misread.BELOW_TARE if before_g is None else Misread.BELOW_BEFORE
        if before_g is None:
            before_g = empty.mass_g(ply, int(named.bobbin[at]))
        if before_g is None:
            yield WrongReading(first, at, Misread.NO_TARE)
        elif gross_g < before_g:
            yield WrongReading(first, at, why, before_g)
        else:
            yield Reading(first, at, (gross_g - before_g) * int(empty.strands[ply]))
        first, before_g = at + 1, gross_g


def _checked(
    read: Reading | WrongReading, named: NamedPieces, spin_loss: float
) -> Reading | WrongReading:
    """Return a reading; one that leaves nothing for pieces that state no grams is wrong."""
    if isinstance(read, WrongReading):
        return read
    stated_g = named.mass_g[read.pieces]
    says = ~np.isnan(stated_g)
    in_all_g, since_g = float(stated_g[says].sum()), read.gained_g / (1 - spin_loss)
    if not says.all() and since_g - in_all_g <= _NOTHING * max(since_g, in_all_g):
        return WrongReading(read.first, read.last, Misread.NOTHING_LEFT, in_all_g, since_g)
    return read


def weighed_by_readings(
    named: NamedPieces,
    share_g: NDArray[np.float64],
    readings: Sequence[Reading],
    spin_loss: float,
) -> Weighed:
    """Return grams of pieces as readings tell them.

    What was weighed out since the reading before is what the bobbin gained, over what spinning
    leaves of it. Pieces that state their grams keep them; the others share the rest. Where all
    state theirs, the reading changes none, and tells what spinning lost.

    Parameters
    ----------
    named : NamedPieces
        n of them.
    share_g : (n,) array
        In proportion to what pieces share a rest: the grams of their rows as planned.
    readings : sequence of Reading
        Of their bobbins, none of them wrong.
    spin_loss : float
        Share of mass lost in spinning.
    """
    mass_g, net_g = named.mass_g.copy(), np.full(len(named), np.nan)
    compared_g: dict[int, tuple[float, float]] = {}
    for read in readings:
        own, stated_g = read.pieces, named.mass_g[read.pieces]
        others = np.isnan(stated_g)
        in_all_g = float(stated_g[~others].sum())
        if others.any():
            rest_g = read.gained_g / (1 - spin_loss) - in_all_g
            weight_g = np.where(others, share_g[own], 0.0)
            shared_g = rest_g * weight_g / weight_g.sum()
            mass_g[own] = np.where(others, shared_g, stated_g)
            net_g[own] = mass_g[own] * (1 - spin_loss)
        else:
            net_g[own] = stated_g * (read.gained_g / in_all_g)
            gained_g, before_g = compared_g.get(int(named.ply[read.last]), (0.0, 0.0))
            both = (gained_g + read.gained_g, before_g + in_all_g)
            compared_g[int(named.ply[read.last])] = both
    return Weighed(mass_g, net_g, compared_g, tuple(readings))
