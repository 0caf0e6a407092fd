"""Portions: what was put where and how long it is, as one flat struct of arrays."""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

NO_PLACE = 0


@dataclass(frozen=True)
class Portions:
    """Fibre of one lot for one place on one ply, ply after ply, each in spinning order.

    Parameters
    ----------
    ply : (N,) int array
        Strand, counted from 0, never falling.
    place : (N,) int array
        Place in the sequence, counted from 1; 0 where the portion has none.
    repeat : (N,) int array
        Pass through the sequence, counted from 1.
    copy : (N,) int array
        Which of several alike it belongs to, counted from 1 in spinning order.
    lot : (N,) int array
        Index of the lot in the stash.
    mass_g : (N,) array
        As weighed out, unrounded.
    tex : (N,) array
        Linear density of the single.
    length_m : (N,) array
        Metres of single; zeros until spun.
    weigh_g : (N,) array
        What goes on the scale; NaN where the portion belongs to a heap or is not weighed yet.
    """

    ply: NDArray[np.int64]
    place: NDArray[np.int64]
    repeat: NDArray[np.int64]
    copy: NDArray[np.int64]
    lot: NDArray[np.int64]
    mass_g: NDArray[np.float64]
    tex: NDArray[np.float64]
    length_m: NDArray[np.float64]
    weigh_g: NDArray[np.float64]

    def __post_init__(self) -> None:
        sizes = {item.name: np.shape(getattr(self, item.name)) for item in fields(self)}
        if len(set(sizes.values())) != 1:
            raise ValueError(f"arrays of one length are needed, not {sizes}")

    def __len__(self) -> int:
        return len(self.ply)

    def take(self, index: NDArray[np.int64]) -> "Portions":
        """Return some of the portions.

        Parameters
        ----------
        index : (M,) int array
            Which, in the order in which they are returned.
        """
        return Portions(*(getattr(self, item.name)[index] for item in fields(self)))

    def scaled(self, share: float) -> "Portions":
        """Return so much of every portion, not weighed yet."""
        return replace(self, mass_g=self.mass_g * share, length_m=self.length_m * share)

    @property
    def starts(self) -> NDArray[np.int64]:
        """Index of each ply's first portion, and N at the end: (plies + 1,)."""
        plies = int(self.ply[-1]) + 1
        return np.searchsorted(self.ply, np.arange(plies + 1))

    @property
    def begins_pass(self) -> NDArray[np.bool_]:
        """Which begin a pass through the sequence: another repeat, copy or ply than before."""
        begins = np.ones(len(self), dtype=np.bool_)
        before = (np.diff(each) != 0 for each in (self.ply, self.copy, self.repeat))
        begins[1:] = np.logical_or.reduce(list(before))
        return begins

    def of_ply(self, k: int) -> slice:
        """Return the slice of the portions of ply k, counted from 0."""
        first, end = np.searchsorted(self.ply, (k, k + 1))
        return slice(int(first), int(end))

    def by_lot_g(self, lots: int) -> NDArray[np.float64]:
        """Return grams of each of so many lots, as weighed out: (lots,)."""
        return np.bincount(self.lot, self.mass_g, lots).astype(np.float64)

    @property
    def ends_m(self) -> NDArray[np.float64]:
        """Running length along each single, from the start of spinning: (N,)."""
        return along_plies(self.length_m, self.starts)

    @cached_property
    def single_m(self) -> NDArray[np.float64]:
        """Length of each single, to the last bit where its last portion ends: (plies,)."""
        length_m: NDArray[np.float64] = self.ends_m[self.starts[1:] - 1]
        return length_m


def joined(one: Portions, other: Portions) -> Portions:
    """Return portions followed by others, in no order of plies yet.

    Parameters
    ----------
    one, other : Portions
        Of the same single or of others.
    """
    pairs = ((getattr(one, item.name), getattr(other, item.name)) for item in fields(Portions))
    return Portions(*(np.concatenate(pair) for pair in pairs))


def row_numbers(portions: Portions) -> NDArray[np.int64]:
    """Return which row of its ply's page each portion is, from 1: (N,)."""
    number: NDArray[np.int64] = np.arange(len(portions)) - portions.starts[portions.ply] + 1
    return number


@dataclass(frozen=True)
class PlyPieces:
    """What a scheme puts on one ply, in spinning order; fields as in `Portions`.

    Leading axes of lots and masses hold orders of the same places.
    """

    lot: NDArray[np.int64]
    place: NDArray[np.int64]
    repeat: NDArray[np.int64]
    mass_g: NDArray[np.float64]

    def reversed(self) -> "PlyPieces":
        """Return the ply turned round; places and repeats keep their names."""
        return PlyPieces(*(getattr(self, item.name)[..., ::-1] for item in fields(self)))

    def times(self, copies: int) -> "PlyPieces":
        """Return the ply so many times over, each portion divided by it."""
        columns = (getattr(self, item.name) for item in fields(self))
        lot, place, repeat, mass_g = (np.concatenate([one] * copies, axis=-1) for one in columns)
        return PlyPieces(lot, place, repeat, mass_g / copies)


def copy_of_each(sizes: Sequence[int], copies: int) -> NDArray[np.int64]:
    """Return which copy each piece of several plies belongs to, from 1: (N,).

    Parameters
    ----------
    sizes : sequence of int
        Pieces of each ply, all its copies together.
    copies : int
        Of as many pieces each.
    """
    each = (np.repeat(np.arange(copies) + 1, size // copies) for size in sizes)
    return np.concatenate(list(each))


def stacked(plies: Sequence[PlyPieces], copies: int = 1) -> Portions:
    """Return the portions of several plies as one flat struct, not yet spun or weighed.

    Parameters
    ----------
    plies : sequence of PlyPieces
        Each with all its copies.
    copies : int
        How many they are, of as many portions each.
    """
    sizes = [len(spun.lot) for spun in plies]
    columns = {
        item.name: np.concatenate([getattr(spun, item.name) for spun in plies])
        for item in fields(PlyPieces)
    }
    empty = np.zeros(sum(sizes))
    return Portions(
        ply=np.repeat(np.arange(len(plies)), sizes),
        copy=copy_of_each(sizes, copies),
        tex=empty,
        length_m=empty,
        weigh_g=np.full(sum(sizes), np.nan),
        **columns,
    )


def along_plies(amount: NDArray[np.float64], starts: NDArray[np.int64]) -> NDArray[np.float64]:
    """Return running totals that begin anew at each ply's start.

    Parameters
    ----------
    amount : (..., N) array
        Of each portion, ply after ply; leading axes hold variants.
    starts : (plies + 1,) int array
        Index of each ply's first portion, and N at the end.
    """
    total = np.empty(amount.shape)
    for first, end in itertools.pairwise(starts):
        np.cumsum(amount[..., first:end], axis=-1, out=total[..., first:end])
    return total


def with_lengths(portions: Portions, tex: NDArray[np.float64], spin_loss: float) -> Portions:
    """Return the portions with their linear density and length.

    A portion of m grams is m · (1 - spin_loss) · 1000 / tex metres of single: tex are grams
    in 1000 metres (ISO 1144), and what is lost in spinning is no yarn.

    Parameters
    ----------
    portions : Portions
        With masses as weighed out.
    tex : (plies,) array
        Linear density of each single.
    spin_loss : float
        Share of a portion's mass lost while spinning, 0 to less than 1.
    """
    density = tex[portions.ply]
    return replace(portions, tex=density, length_m=spun_m(portions.mass_g, density, spin_loss))


def spun_m(
    mass_g: NDArray[np.float64], tex: NDArray[np.float64], spin_loss: float
) -> NDArray[np.float64]:
    """Return metres of single from masses as weighed out, of arrays that fit one another.

    Parameters
    ----------
    mass_g : (..., N) array
        What is weighed out.
    tex : (N,) array
        Linear density of the single.
    spin_loss : float
        Share of mass lost while spinning, 0 to less than 1.
    """
    length_m: NDArray[np.float64] = mass_g * (1 - spin_loss) * 1000 / tex
    return length_m
