"""What was decided for the rows still to spin, put onto what lies on the bobbins."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.bobbin_pieces import Asked, BobbinPieces
from yarncolor.layout.named_pieces import named_pieces
from yarncolor.layout.pieces_changed import ExtraPiece, drawn_off, relaid, with_extra, without
from yarncolor.layout.portions import spun_m
from yarncolor.plan import Plan, ToSpin


def as_asked(wheel: BobbinPieces, plan: Plan, spin_loss: float) -> BobbinPieces:
    """Return the pieces as they were decided on: rows of other grams, pieces to spin, ends off.

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
    asked = _rows_as_asked(replace(wheel, asked=_asked(wheel, plan)), plan, spin_loss)
    extra = [_extra(plan, plan.to_spin[number]) for number in pending(asked, plan)]
    spun = plan.plied is not None
    return _pulled_off(with_extra(asked, extra, _lying(asked, plan), spin_loss, spun=spun), plan)


def _extra(plan: Plan, one: ToSpin) -> ExtraPiece:
    return ExtraPiece(one.ply - 1, plan.names.index(one.lot or ""), one.mass_g or 0.0)


def _lying(wheel: BobbinPieces, plan: Plan) -> NDArray[np.int64]:
    """Return how many pieces the plan's entries name on each ply: (plies,)."""
    return np.bincount(named_pieces(plan.spun).ply, minlength=len(wheel.grist))


def _fits(wheel: BobbinPieces, one: ToSpin) -> bool:
    plies = len(wheel.planned.starts) - 1
    if one.ply > plies:
        return False
    rows = wheel.planned.of_ply(one.ply - 1)
    return bool((one.row or 0) <= rows.stop - rows.start)


def _asked(wheel: BobbinPieces, plan: Plan) -> Asked:
    mass_g = wheel.planned.mass_g.copy()
    extra_g = np.zeros((len(wheel.planned.starts) - 1, len(plan.lots)))
    for one in plan.to_spin:
        if one.mass_g is None or not _fits(wheel, one):
            continue
        if one.row is not None:
            mass_g[wheel.planned.starts[one.ply - 1] + one.row - 1] = one.mass_g
        elif one.lot in plan.names:
            extra_g[one.ply - 1, plan.names.index(one.lot)] += one.mass_g
    return Asked(mass_g, extra_g)


def _rows_as_asked(wheel: BobbinPieces, plan: Plan, spin_loss: float) -> BobbinPieces:
    """Return the pieces with the grams and metres asked for, where nothing else is said of them."""
    rows = {(one.ply - 1, one.row): one for one in plan.to_spin if one.row is not None}
    pieces = wheel.pieces
    mass_g, length_m, tex = pieces.mass_g.copy(), pieces.length_m.copy(), pieces.tex.copy()
    said, gone = wheel.as_planned.copy(), np.zeros(len(pieces), dtype=np.bool_)
    for at in np.flatnonzero(wheel.as_planned):
        one = rows.get((int(pieces.ply[at]), int(wheel.row[at])))
        if one is None:
            continue
        if one.mass_g == 0:
            gone[at] = not wheel.spun[at]
            continue
        said[at] = not wheel.spun[at]
        mass_g[at] = mass_g[at] if one.mass_g is None else one.mass_g
        length_m[at] = spun_m(mass_g[at], tex[at], spin_loss)
        holds = wheel.spun[at] and wheel.grist[pieces.ply[at]].holds
        if one.length_m is not None and not holds:
            length_m[at] = one.length_m
            tex[at] = mass_g[at] * (1 - spin_loss) * 1000 / one.length_m
    net_g = np.where(wheel.spun & wheel.as_planned & ~said, mass_g * (1 - spin_loss), wheel.net_g)
    changed = replace(pieces, mass_g=mass_g, length_m=length_m, tex=tex)
    return without(replace(wheel, pieces=changed, as_planned=said, net_g=net_g), gone)


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
    counts = enumerate(_lying(wheel, plan).tolist())
    return [number for ply, count in counts for number in _of_ply(wheel, plan, ply, count)]


def _of_ply(wheel: BobbinPieces, plan: Plan, ply: int, lying: int) -> Iterator[int]:
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
        elif one.mass_g and not any(row for row, _ in since[after:]):
            yield number


def _pulled_off(wheel: BobbinPieces, plan: Plan) -> BobbinPieces:
    length_m = wheel.pieces.length_m.copy()
    for one in plan.pull_off:
        if one.ply < len(wheel.planned.starts):
            own = wheel.pieces.of_ply(one.ply - 1)
            if one.length_m < np.cumsum(length_m[own])[-1]:
                length_m[own] = drawn_off(length_m[own], one.length_m)
    return relaid(wheel, length_m)
