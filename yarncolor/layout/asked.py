"""What was decided for the rows still to spin, put onto what lies on the bobbins."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.bobbin_pieces import Asked, BobbinPieces
from yarncolor.layout.named_pieces import named_pieces
from yarncolor.layout.pieces_changed import ExtraPiece, ends_drawn_off, with_extra, without
from yarncolor.layout.portions import spun_m
from yarncolor.plan import Plan, ToSpin


def as_asked(wheel: BobbinPieces, plan: Plan, spin_loss: float) -> BobbinPieces:
    """Return the pieces as they were decided on: rows of other grams, ends off, pieces to spin.

    An end is drawn off before anything is spun onto it.

    Parameters
    ----------
    wheel : BobbinPieces
        What lies on the bobbins and, as planned, is to be spun.
    plan : Plan
        Says what was decided.
    spin_loss : float
        Share of mass lost in spinning.
    """
    if not (plan.to_spin or plan.pull_off):
        return wheel
    of_rows = _of_rows(wheel, plan)
    asked = replace(wheel, asked=_asked(wheel, plan, of_rows))
    asked = _rows_as_asked(asked, of_rows, spin_loss)
    extra = [_extra(plan, plan.to_spin[number]) for number in pending(asked, plan)]
    left = _pulled_off(asked, plan)
    lying = np.minimum(_lying(asked, plan), np.diff(left.pieces.starts))
    return with_extra(left, extra, lying, spin_loss, spun=plan.plied is not None)


def _extra(plan: Plan, one: ToSpin) -> ExtraPiece:
    lot = plan.names.index(one.lot or "")
    return ExtraPiece(one.ply - 1, lot, one.mass_g or 0.0, one.length_m)


def _lying(wheel: BobbinPieces, plan: Plan) -> NDArray[np.int64]:
    """Return how many pieces the plan's entries name on each ply: (plies,)."""
    return np.bincount(named_pieces(plan.spun).ply, minlength=len(wheel.grist))


def _fits(wheel: BobbinPieces, one: ToSpin) -> bool:
    plies = len(wheel.planned.starts) - 1
    if one.ply > plies:
        return False
    rows = wheel.planned.of_ply(one.ply - 1)
    return bool((one.row or 0) <= rows.stop - rows.start)


@dataclass(frozen=True, eq=False)
class _OfRows:
    """What was decided for each of the R planned rows: whether anything, grams and metres.

    NaN stands where nothing is said of them.
    """

    is_said: NDArray[np.bool_]
    mass_g: NDArray[np.float64]
    length_m: NDArray[np.float64]


def _of_rows(wheel: BobbinPieces, plan: Plan) -> _OfRows:
    first, rows = wheel.planned.starts, len(wheel.planned)
    said = {
        first[one.ply - 1] + one.row - 1: one
        for one in plan.to_spin
        if one.row is not None and _fits(wheel, one)
    }
    found = _OfRows(np.zeros(rows, dtype=np.bool_), np.full(rows, np.nan), np.full(rows, np.nan))
    at = np.fromiter(said, dtype=np.int64)
    found.is_said[at] = True
    for values, key in ((found.mass_g, "mass_g"), (found.length_m, "length_m")):
        values[at] = [getattr(one, key) for one in said.values()]
    return found


def _asked(wheel: BobbinPieces, plan: Plan, of_rows: _OfRows) -> Asked:
    extra_g = np.zeros((len(wheel.planned.starts) - 1, len(plan.lots)))
    for one in plan.to_spin:
        if one.row is None and one.lot in plan.names and _fits(wheel, one):
            extra_g[one.ply - 1, plan.names.index(one.lot)] += one.mass_g or 0.0
    mass_g = np.where(np.isnan(of_rows.mass_g), wheel.planned.mass_g, of_rows.mass_g)
    return Asked(mass_g, extra_g)


def _rows_as_asked(wheel: BobbinPieces, of_rows: _OfRows, spin_loss: float) -> BobbinPieces:
    """Return the pieces with the grams and metres asked for, where nothing else is said of them."""
    pieces, at, spun = wheel.pieces, wheel.of_planned, wheel.spun
    wanted_g, wanted_m = of_rows.mass_g[at], of_rows.length_m[at]
    is_asked = wheel.as_planned & (wheel.row > 0) & of_rows.is_said[at]
    is_none = is_asked & (wanted_g == 0)
    is_other = is_asked & ~is_none
    mass_g = np.where(is_other & ~np.isnan(wanted_g), wanted_g, pieces.mass_g)
    usual_m = np.where(is_other, spun_m(mass_g, pieces.tex, spin_loss), pieces.length_m)
    holds = np.array([one.holds for one in wheel.grist])[pieces.ply]
    by_length = is_other & ~np.isnan(wanted_m) & ~(spun & holds)
    length_m = np.where(by_length, wanted_m, usual_m)
    tex = np.where(by_length, mass_g * (1 - spin_loss) * 1000 / length_m, pieces.tex)
    said = np.where(is_other, ~spun, wheel.as_planned)
    net_g = np.where(spun & wheel.as_planned & ~said, mass_g * (1 - spin_loss), wheel.net_g)
    changed = replace(pieces, mass_g=mass_g, length_m=length_m, tex=tex)
    whole = replace(wheel, pieces=changed, as_planned=said, net_g=net_g)
    return without(whole, is_none & ~spun)


def pending(wheel: BobbinPieces, plan: Plan) -> list[int]:
    """Return which of a plan's decisions are pieces that no row asks for, still to be spun.

    One that was spun since is a piece too many, of its lot; where a row was spun in its place, it
    was passed over.

    Parameters
    ----------
    wheel : BobbinPieces
        What lies on the bobbins.
    plan : Plan
        Says what was decided.
    """
    return [number for number, at in _decided_pieces(wheel, plan) if at is None]


def asked_for(wheel: BobbinPieces, plan: Plan) -> list[int]:
    """Return which pieces lie on the bobbins that no row asks for but a decision does.

    Parameters
    ----------
    wheel : BobbinPieces
        What lies on the bobbins.
    plan : Plan
        Says what was decided.
    """
    return [at for _, at in _decided_pieces(wheel, plan) if at is not None]


def _decided_pieces(wheel: BobbinPieces, plan: Plan) -> Iterator[tuple[int, int | None]]:
    """Yield decisions on pieces beside the rows, each with the piece that was spun by it."""
    for ply, lying in enumerate(_lying(wheel, plan).tolist()):
        first = wheel.pieces.of_ply(ply).start
        for number, at in _of_ply(wheel, plan, ply, lying):
            yield number, None if at is None else first + at


def _of_ply(
    wheel: BobbinPieces, plan: Plan, ply: int, lying: int
) -> Iterator[tuple[int, int | None]]:
    first = wheel.pieces.of_ply(ply).start
    own = slice(first, first + lying)
    since = list(zip(wheel.row[own].tolist(), wheel.pieces.lot[own].tolist(), strict=True))
    for number, one in enumerate(plan.to_spin):
        if one.row is not None or one.ply != ply + 1 or one.lot not in plan.names:
            continue
        after, lot = one.after_pieces or 0, plan.names.index(one.lot)
        done = [at for at, piece in enumerate(since) if at >= after and piece == (0, lot)]
        if done:
            since[done[0]] = (0, -1)
            yield number, done[0]
        elif one.mass_g and not any(row for row, _ in since[after:]):
            yield number, None


def _pulled_off(wheel: BobbinPieces, plan: Plan) -> BobbinPieces:
    drawn_m = np.zeros(len(wheel.planned.starts) - 1)
    for one in plan.pull_off:
        if one.ply <= len(drawn_m):
            drawn_m[one.ply - 1] += one.length_m
    whole_m = np.bincount(wheel.pieces.ply, wheel.pieces.length_m, len(drawn_m))
    return ends_drawn_off(wheel, np.where(drawn_m < whole_m, drawn_m, 0.0))
