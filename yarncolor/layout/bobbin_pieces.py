"""What lies on the bobbins and what is still to spin, as one flat struct of arrays."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.portions import Portions


@dataclass(frozen=True)
class MeasuredGrist:
    """How thick one ply was spun, as far as it was measured.

    Parameters
    ----------
    measured_tex : float or None
        Grams in 1,000 m of all that was measured, of the whole ply; None where nothing was.
    count : int
        Pieces, readings and samples that it rests on.
    spin_loss_found : float or None
        Share lost in spinning, by readings of pieces that all state their grams; else None.
    holds : bool
        Whether it stands for what was not measured.
    compared_g : float
        Grams that pieces of such readings state, as weighed out.
    """

    measured_tex: float | None
    count: int
    spin_loss_found: float | None
    holds: bool
    compared_g: float


@dataclass(frozen=True, eq=False)
class Asked:
    """What was decided at the wheel, in place of the plan's own grams.

    Parameters
    ----------
    mass_g : (R,) array
        Grams of each row as planned, or as decided since.
    extra_g : (plies, lots) array
        Grams asked for of pieces that are no row.
    """

    mass_g: NDArray[np.float64]
    extra_g: NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class BobbinPieces:
    """What lies on the bobbins and what is still to spin, ply after ply, each in the order spun.

    Parameters
    ----------
    planned : Portions
        The R rows as planned, their lengths set; weighed or not, in the same order.
    pieces : Portions
        (N,) What really lies there, then the rows to spin: own grams, own metres, own tex.
    row : (N,) int array
        Row of its ply's page, from 1; 0 for a piece too many.
    spun : (N,) bool array
        Whether it lies on the bobbin.
    planned_mass_g : (N,) array
        Grams of its row as planned; NaN for a piece too many.
    after_row : (N,) int array
        Its row; of a piece too many the row of the piece before it, 0 before the first.
    left_out : (R,) bool array
        Which of the planned rows were left out.
    grist : tuple of MeasuredGrist
        Of each ply.
    as_planned : (N,) bool array
        Whether its grams are those of its row because nothing else was said.
    is_measured : (N,) bool array
        Whether its length was measured.
    net_g : (N,) array
        Grams of single that came onto the bobbin with it, where that was weighed or said; NaN
        where it is what goes on the scale for its row.
    bobbin : (N,) int array
        Which bobbin of its ply, from 1, as named; 0 of a row to spin, and of all pieces of a ply
        that names no bobbin.
    asked : Asked or None
        What was decided at the wheel; None where the plan stands.
    drawn_off : Portions or None
        Single that is drawn off outer ends before plying: fibre that is gone; None for none.
    """

    planned: Portions
    pieces: Portions
    row: NDArray[np.int64]
    spun: NDArray[np.bool_]
    planned_mass_g: NDArray[np.float64]
    after_row: NDArray[np.int64]
    left_out: NDArray[np.bool_]
    grist: tuple[MeasuredGrist, ...]
    as_planned: NDArray[np.bool_]
    is_measured: NDArray[np.bool_]
    net_g: NDArray[np.float64]
    bobbin: NDArray[np.int64]
    asked: Asked | None = None
    drawn_off: Portions | None = None

    @property
    def wanted_g(self) -> NDArray[np.float64]:
        """Grams of each row, as planned or as decided since: (R,)."""
        return self.planned.mass_g if self.asked is None else self.asked.mass_g

    @property
    def of_planned(self) -> NDArray[np.int64]:
        """For each piece its row as an index into the planned rows; -1 for a piece too many."""
        at = self.planned.starts[self.pieces.ply] + self.row - 1
        return np.where(self.row > 0, at, -1)

    @property
    def is_extra(self) -> NDArray[np.bool_]:
        """Which pieces were spun that no row asks for: (N,)."""
        is_extra: NDArray[np.bool_] = self.row == 0
        return is_extra

    def spun_at(self, ply: int) -> NDArray[np.int64]:
        """Return the pieces of a ply, counted from 0, that lie on its bobbin, in the order spun."""
        own = self.pieces.of_ply(ply)
        return np.asarray(own.start + np.flatnonzero(self.spun[own]))

    def highest_row(self, ply: int) -> int:
        """Return the highest row of a ply, counted from 0, that lies on its bobbin; 0 for none."""
        return int(self.row[self.spun_at(ply)].max(initial=0))

    def next_at(self, ply: int) -> int | None:
        """Return the piece that is to be spun next on a ply, counted from 0; None where none."""
        own = self.pieces.of_ply(ply)
        to_spin = np.flatnonzero(~self.spun[own])
        return int(own.start + to_spin[0]) if len(to_spin) else None
