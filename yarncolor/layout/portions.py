"""Portions: what was put where and how long it is, as one flat struct of arrays."""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, fields, replace

import numpy as np

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

    ply: np.ndarray
    place: np.ndarray
    repeat: np.ndarray
    lot: np.ndarray
    mass_g: np.ndarray
    tex: np.ndarray
    length_m: np.ndarray
    weigh_g: np.ndarray

    def __post_init__(self) -> None:
        sizes = {item.name: np.shape(getattr(self, item.name)) for item in fields(self)}
        if len(set(sizes.values())) != 1:
            raise ValueError(f"arrays of one length are needed, not {sizes}")

    def __len__(self) -> int:
        return len(self.ply)

    @property
    def starts(self) -> np.ndarray:
        """Index of each ply's first portion, and N at the end: (plies + 1,)."""
        plies = int(self.ply[-1]) + 1
        return np.searchsorted(self.ply, np.arange(plies + 1))

    def of_ply(self, k: int) -> slice:
        """Return the slice of the portions of ply k, counted from 0."""
        first, end = np.searchsorted(self.ply, (k, k + 1))
        return slice(int(first), int(end))

    @property
    def ends_m(self) -> np.ndarray:
        """Running length along each single, from the start of spinning: (N,)."""
        return along_plies(self.length_m, self.starts)

    @property
    def single_m(self) -> np.ndarray:
        """Length of each single: (plies,)."""
        return self.ends_m[self.starts[1:] - 1]


@dataclass(frozen=True)
class PlyPieces:
    """What a scheme puts on one ply, in spinning order; fields as in `Portions`.

    Leading axes of lots and masses hold orders of the same places.
    """

    lot: np.ndarray
    place: np.ndarray
    repeat: np.ndarray
    mass_g: np.ndarray

    def reversed(self) -> "PlyPieces":
        """Return the ply turned round; places and repeats keep their names."""
        return PlyPieces(*(getattr(self, item.name)[..., ::-1] for item in fields(self)))


def stacked(plies: Sequence[PlyPieces]) -> Portions:
    """Return the portions of several plies as one flat struct, not yet spun or weighed."""
    sizes = [len(spun.lot) for spun in plies]
    columns = {
        item.name: np.concatenate([getattr(spun, item.name) for spun in plies])
        for item in fields(PlyPieces)
    }
    empty = np.zeros(sum(sizes))
    return Portions(
        ply=np.repeat(np.arange(len(plies)), sizes),
        tex=empty,
        length_m=empty,
        weigh_g=np.full(sum(sizes), np.nan),
        **columns,
    )


def along_plies(amount: np.ndarray, starts: np.ndarray) -> np.ndarray:
    """Return running totals of (..., N) amounts that begin anew at each ply's start."""
    total = np.empty(amount.shape)
    for first, end in itertools.pairwise(starts):
        np.cumsum(amount[..., first:end], axis=-1, out=total[..., first:end])
    return total


def with_lengths(portions: Portions, tex: np.ndarray, spin_loss: float) -> Portions:
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
    density = np.asarray(tex, dtype=float)[portions.ply]
    return replace(portions, tex=density, length_m=spun_m(portions.mass_g, density, spin_loss))


def spun_m(mass_g: np.ndarray, tex: np.ndarray, spin_loss: float) -> np.ndarray:
    """Return metres of single from masses as weighed out, of arrays that fit one another."""
    return mass_g * (1 - spin_loss) * 1000 / tex
