"""Pieces that a plan's entries of spinning name: what is said of each, in the order spun."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from yarncolor.plan import Spun


@dataclass(frozen=True, eq=False)
class NamedPieces:
    """What is said of each piece on the bobbins, ply after ply, each in the order spun.

    Parameters
    ----------
    entry : (n,) int array
        Which of the plan's entries names it, from 0.
    ply : (n,) int array
        From 0.
    row : (n,) int array
        Row of its ply's page, from 1; 0 for a piece too many.
    bobbin : (n,) int array
        Which bobbin of its ply, from 1.
    mass_g, length_m, gross_g, sample_m, sample_g : (n,) arrays
        As said; NaN where nothing is.
    """

    entry: NDArray[np.int64]
    ply: NDArray[np.int64]
    row: NDArray[np.int64]
    bobbin: NDArray[np.int64]
    mass_g: NDArray[np.float64]
    length_m: NDArray[np.float64]
    gross_g: NDArray[np.float64]
    sample_m: NDArray[np.float64]
    sample_g: NDArray[np.float64]

    def __len__(self) -> int:
        return len(self.entry)


def named_pieces(spun: Sequence[Spun]) -> NamedPieces:
    """Return the pieces that entries name; rows as planned one by one.

    Parameters
    ----------
    spun : sequence of Spun
        As the plan has them, of all plies.
    """
    every = [piece for ply in sorted({one.ply for one in spun}) for piece in _of_ply(spun, ply)]
    entry, row, bobbin = np.array(every, dtype=np.int64).reshape(-1, 3).T
    own = [spun[at] for at in entry]
    return NamedPieces(
        entry=entry,
        ply=np.array([one.ply - 1 for one in own], dtype=np.int64),
        row=row,
        bobbin=bobbin,
        mass_g=_known([one.mass_g for one in own]),
        length_m=_known([one.length_m for one in own]),
        gross_g=_known([one.gross_g for one in own]),
        sample_m=_known([one.sample and one.sample.length_m for one in own]),
        sample_g=_known([one.sample and one.sample.mass_g for one in own]),
    )


def _of_ply(spun: Sequence[Spun], ply: int) -> Iterator[tuple[int, int, int]]:
    """Yield entry, row and bobbin of each piece of a ply, counted from 1."""
    named, reached, bobbin = set[int](), 0, 1
    for at, one in enumerate(spun):
        if one.ply != ply:
            continue
        bobbin = one.bobbin or bobbin
        if one.through is None:
            named.add(one.row or 0)
            yield at, one.row or 0, bobbin
            continue
        for row in range(reached + 1, one.through + 1):
            if row not in named:
                yield at, row, bobbin
        reached = max(reached, one.through)


def _known(values: Sequence[float | None]) -> NDArray[np.float64]:
    return np.array(values, dtype=np.float64)  # None is NaN there
