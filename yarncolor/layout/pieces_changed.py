"""Pieces on the bobbins made longer, shorter, fewer or more: from pieces to pieces."""

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.bobbin_pieces import BobbinPieces
from yarncolor.layout.portions import NO_PLACE, Portions, joined, spun_m

_SAME = 1e-8
"""Parts of all that lies there by which a piece is no other."""

_NOTHING = 1e-9
"""Parts of a piece that are nothing."""


@dataclass(frozen=True)
class ExtraPiece:
    """A piece to spin next that no row asks for; ply and lot counted from 0.

    ``length_m`` is None where it is spun as the rest of its ply.
    """

    ply: int
    lot: int
    mass_g: float
    length_m: float | None = None


def relaid(wheel: BobbinPieces, length_m: NDArray[np.float64]) -> BobbinPieces:
    """Return the pieces with other lengths, their grams in proportion; without those of none.

    Where nothing would be left of a ply all stay as they are.

    Parameters
    ----------
    wheel : BobbinPieces
        N pieces.
    length_m : (N,) array
        Metres of single, 0 for what falls away.
    """
    before_m = wheel.pieces.length_m
    if np.abs(length_m - before_m).max() <= _SAME * before_m.sum():
        return wheel
    left_m = np.bincount(wheel.pieces.ply, length_m)
    if (left_m <= _NOTHING * before_m.sum()).any():
        return wheel
    share = length_m / before_m
    pieces = replace(wheel.pieces, mass_g=wheel.pieces.mass_g * share, length_m=length_m)
    return without(replace(wheel, pieces=pieces), share <= _NOTHING)


def ends_drawn_off(wheel: BobbinPieces, drawn_m: NDArray[np.float64]) -> BobbinPieces:
    """Return the pieces without what is drawn off the outer ends, which is kept in mind.

    Parameters
    ----------
    wheel : BobbinPieces
        N pieces.
    drawn_m : (plies,) array
        Metres of single to draw off each ply; 0 for none.
    """
    pieces, length_m = wheel.pieces, wheel.pieces.length_m.copy()
    for k in np.flatnonzero(drawn_m):
        own = pieces.of_ply(int(k))
        length_m[own] = drawn_off(length_m[own], float(drawn_m[k]))
    left = relaid(wheel, length_m)
    if left is wheel:
        return wheel
    gone_g, gone_m = pieces.mass_g * (1 - length_m / pieces.length_m), pieces.length_m - length_m
    is_drawn = np.flatnonzero(gone_m > _NOTHING * pieces.length_m)
    gone = replace(pieces, mass_g=gone_g, length_m=gone_m).take(is_drawn)
    before = wheel.drawn_off
    return replace(left, drawn_off=gone if before is None else joined(before, gone))


def drawn_off(length_m: NDArray[np.float64], drawn_m: float) -> NDArray[np.float64]:
    """Return a single's pieces when metres are drawn off its outer end: what was spun last.

    Parameters
    ----------
    length_m : (n,) array
        Of its pieces, in the order spun.
    drawn_m : float
        Less than all of them.
    """
    ends_m = np.cumsum(length_m)
    return np.diff(np.minimum(ends_m, ends_m[-1] - drawn_m), prepend=0.0)


def spun_otherwise(wheel: BobbinPieces, factors: NDArray[np.float64]) -> BobbinPieces:
    """Return the pieces with the grams to spin drawn out finer, or less fine.

    Parameters
    ----------
    wheel : BobbinPieces
        N pieces.
    factors : (plies,) array
        Metres to spin over those they come to now; NaN for a ply that is left as it is.
    """
    factor = np.where(wheel.spun, 1.0, np.nan_to_num(factors, nan=1.0)[wheel.pieces.ply])
    pieces = wheel.pieces
    finer = replace(pieces, length_m=pieces.length_m * factor, tex=pieces.tex / factor)
    return replace(wheel, pieces=finer)


def without(wheel: BobbinPieces, gone: NDArray[np.bool_]) -> BobbinPieces:
    """Return the pieces without some of them.

    Parameters
    ----------
    wheel : BobbinPieces
        N pieces.
    gone : (N,) bool array
        Which fall away.
    """
    stays = np.flatnonzero(~gone)
    columns: dict[str, Any] = {name: getattr(wheel, name)[stays] for name in _OF_EACH}
    return replace(wheel, pieces=wheel.pieces.take(stays), **columns)


def with_extra(
    wheel: BobbinPieces,
    extra: Sequence[ExtraPiece],
    lying: NDArray[np.int64],
    spin_loss: float,
    *,
    spun: bool = False,
) -> BobbinPieces:
    """Return the pieces with others between what lies on each bobbin and what is to be spun.

    Parameters
    ----------
    wheel : BobbinPieces
        N pieces.
    extra : sequence of ExtraPiece
        M of them, ply after ply, each in the order to spin.
    lying : (plies,) int array
        How many pieces lie on each bobbin.
    spin_loss : float
        Share of mass lost in spinning.
    spun : bool
        Whether they count as spun.
    """
    if not extra:
        return wheel
    ply, lot = (np.array([getattr(one, name) for one in extra]) for name in ("ply", "lot"))
    at = wheel.pieces.starts[ply] + lying[ply]
    before, is_first = np.maximum(at - 1, 0), lying[ply] == 0
    mass_g = np.array([one.mass_g for one in extra], dtype=np.float64)
    unknown, none = np.full(len(extra), np.nan), np.zeros(len(extra), dtype=np.int64)
    usual_m = spun_m(mass_g, tex_to_spin(wheel)[ply], spin_loss)
    said_m = np.array([one.length_m for one in extra], dtype=np.float64)
    length_m = np.where(np.isnan(said_m), usual_m, said_m)
    pieces = Portions(
        ply=ply,
        place=none + NO_PLACE,
        repeat=np.where(is_first, 1, wheel.pieces.repeat[before]),
        copy=np.where(is_first, 1, wheel.pieces.copy[before]),
        lot=lot,
        mass_g=mass_g,
        tex=tex_to_spin(wheel)[ply] * usual_m / length_m,
        length_m=length_m,
        weigh_g=unknown,
    )
    columns = {
        "row": none,
        "spun": np.full(len(extra), spun),
        "planned_mass_g": unknown,
        "after_row": np.where(is_first, 0, wheel.after_row[before]),
        "as_planned": none.astype(np.bool_),
        "is_measured": none.astype(np.bool_),
        "net_g": mass_g * (1 - spin_loss) if spun else unknown,
        "bobbin": none,
    }
    names = [item.name for item in fields(Portions)]
    both = (np.insert(getattr(wheel.pieces, name), at, getattr(pieces, name)) for name in names)
    inserted: dict[str, Any] = {
        name: np.insert(getattr(wheel, name), at, columns[name]) for name in _OF_EACH
    }
    return replace(wheel, pieces=Portions(*both), **inserted)


def tex_to_spin(wheel: BobbinPieces) -> NDArray[np.float64]:
    """Return how thick each ply is spun: as measured where that holds, else as planned."""
    planned = wheel.planned.tex[wheel.planned.starts[:-1]]
    measured = [one.measured_tex if one.holds else None for one in wheel.grist]
    return np.array([a or b for a, b in zip(measured, planned, strict=True)], dtype=np.float64)


_OF_EACH = tuple(
    item.name
    for item in fields(BobbinPieces)
    if item.name not in ("planned", "pieces", "left_out", "grist", "asked", "drawn_off")
)
"""What is told of each piece beside the portions."""
