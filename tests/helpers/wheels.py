"""Bobbins made by hand: rows as planned, pieces that lie there, rows that are to be spun."""

from dataclasses import dataclass

import numpy as np
from hypothesis import strategies as st

from yarncolor.layout.bobbin_pieces import BobbinPieces, MeasuredGrist
from yarncolor.layout.going_on import AtWheel
from yarncolor.layout.portions import PlyPieces, Portions, stacked, with_lengths

TEX = 100.0
"""A metre weighs a tenth of a gram."""


@dataclass(frozen=True)
class Bobbin:
    """One ply: rows of lot and metres, what was spun as row, lot and metres (row 0: too many)."""

    planned: list[tuple[int, float]]
    spun: list[tuple[int, int, float]]

    @property
    def highest(self) -> int:
        return max((row for row, _, _ in self.spun), default=0)

    @property
    def pieces(self) -> list[tuple[int, int, float, bool]]:
        to_spin = list(enumerate(self.planned, 1))[self.highest :]
        lying = [(row, lot, metres, True) for row, lot, metres in self.spun]
        return lying + [(row, lot, metres, False) for row, (lot, metres) in to_spin]


def as_planned(planned: list[tuple[int, float]], rows: int, **other: float) -> Bobbin:
    """Return a ply of which so many rows are spun as planned but for the metres of some.

    Parameters
    ----------
    planned : list of (lot, metres)
        Its rows.
    rows : int
        How many are spun.
    other : dict of str to float
        ``row_3=5.0``: row 3 came out at 5 m.
    """
    spun = [
        (row, lot, other.get(f"row_{row}", metres))
        for row, (lot, metres) in enumerate(planned[:rows], 1)
    ]
    return Bobbin(planned, spun)


def portions(plies: list[list[tuple[int, float]]]) -> Portions:
    """Return portions of (lot, metres), ply by ply."""
    pieces = [
        PlyPieces(
            lot=np.array([lot for lot, _ in ply], dtype=int),
            place=np.arange(1, len(ply) + 1),
            repeat=np.ones(len(ply), dtype=int),
            mass_g=np.array([metres * TEX / 1000 for _, metres in ply]),
        )
        for ply in plies
    ]
    return with_lengths(stacked(pieces), np.full(len(plies), TEX), 0.0)


def after(rows: list[int]) -> list[int]:
    """Return each piece's row; of a piece too many, that of the piece before it."""
    found = []
    for row in rows:
        found.append(row or (found[-1] if found else 0))
    return found


def at_wheel(bobbins: list[Bobbin], wound_off: int | list[int] = 0) -> AtWheel:
    """Return what a way to go on starts from."""
    planned = portions([bobbin.planned for bobbin in bobbins])
    flat = [piece for bobbin in bobbins for piece in bobbin.pieces]
    row = np.array([piece[0] for piece in flat])
    mass = {
        (ply, at): metres * TEX / 1000
        for ply, bobbin in enumerate(bobbins)
        for at, (_, metres) in enumerate(bobbin.planned, 1)
    }
    pieces = portions([[(lot, metres) for _, lot, metres, _ in one.pieces] for one in bobbins])
    named = [{row for row, _, _ in bobbin.spun} for bobbin in bobbins]
    left_out = [
        at <= bobbin.highest and at not in rows
        for bobbin, rows in zip(bobbins, named, strict=True)
        for at in range(1, len(bobbin.planned) + 1)
    ]
    wheel = BobbinPieces(
        planned=planned,
        pieces=pieces,
        row=row,
        spun=np.array([piece[3] for piece in flat]),
        planned_mass_g=np.array(
            [mass.get((ply, at), np.nan) for ply, at in zip(pieces.ply.tolist(), row, strict=True)]
        ),
        after_row=np.array([a for one in bobbins for a in after([p[0] for p in one.pieces])]),
        left_out=np.array(left_out),
        grist=tuple(MeasuredGrist(None, 0, None, holds=False, compared_g=0.0) for _ in bobbins),
        as_planned=np.zeros(len(flat), dtype=bool),
        is_measured=np.ones(len(flat), dtype=bool),
        net_g=np.full(len(flat), np.nan),
        bobbin=np.zeros(len(flat), dtype=int),
    )
    windings = np.broadcast_to(np.asarray(wound_off), len(bobbins)).astype(int)
    return AtWheel(wheel, windings, 0.0)


def lengths_m(wheel: BobbinPieces, ply: int = 0) -> list[float]:
    """Return the metres of a ply's pieces, in spinning order."""
    return wheel.pieces.length_m[wheel.pieces.of_ply(ply)].tolist()


metres = st.integers(1, 400).map(lambda tenths: tenths / 10)
row_lots = st.integers(0, 3)


@st.composite
def bobbins(draw, rows: int = 9) -> Bobbin:
    """Draw a ply of which some rows are spun: swapped, left out, too long, too many."""
    planned = draw(st.lists(st.tuples(row_lots, metres), min_size=1, max_size=rows))
    order = draw(st.permutations(range(1, len(planned) + 1)))
    spun = []
    for row in order[: draw(st.integers(0, len(order)))]:
        lot, planned_m = planned[row - 1]
        strays = draw(st.booleans())
        spun.append((row, draw(row_lots), draw(metres)) if strays else (row, lot, planned_m))
    for _ in range(draw(st.integers(0, 2))):
        at = draw(st.integers(0, len(spun)))
        spun.insert(at, (0, draw(row_lots), draw(metres)))
    return Bobbin(planned, spun)
