"""From a plan's entries of spinning to what lies on its bobbins and what is still to spin."""

from dataclasses import dataclass, fields, replace

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.bobbin_pieces import BobbinPieces, MeasuredGrist
from yarncolor.layout.empty_bobbins import empty_bobbins
from yarncolor.layout.measured_grist import measured_grist
from yarncolor.layout.named_pieces import NamedPieces, named_pieces
from yarncolor.layout.portions import NO_PLACE, Portions, joined, row_numbers, spun_m
from yarncolor.layout.resolved import ResolvedPlan
from yarncolor.layout.scale_readings import Reading, Weighed, read_bobbins, weighed_by_readings


def lying(resolved: ResolvedPlan, planned: Portions) -> BobbinPieces | None:
    """Return what lies on the bobbins and what is to spin; None where nothing is said of it.

    Entries that do not fit, as where a plan is tried out with another scheme, say nothing.

    Parameters
    ----------
    resolved : ResolvedPlan
        Its plan holds what was spun.
    planned : Portions
        The rows as planned, their lengths set.
    """
    plan = resolved.plan
    if not plan.spun and plan.plied is None:
        return None
    named = named_pieces(plan.spun)
    if not fits(named, planned) or not {one.lot for one in plan.spun} <= {None, *plan.names}:
        return None
    readings, wrong = read_bobbins(named, empty_bobbins(resolved, planned), resolved.spin_loss)
    return None if wrong else _Named(resolved, planned, named).lying(readings)


def fits(named: NamedPieces, planned: Portions) -> bool:
    """Return whether a plan has the plies and the rows that pieces name.

    Parameters
    ----------
    named : NamedPieces
        As the plan's entries name them.
    planned : Portions
        The rows as planned.
    """
    rows = np.diff(planned.starts)
    if named.ply.max(initial=0) >= len(rows):
        return False
    return bool((named.row <= rows[named.ply]).all())


def shares_of_rest_g(named: NamedPieces, planned: Portions) -> NDArray[np.float64]:
    """Return in proportion to what pieces share grams that none of them states: (n,).

    That is the grams of their rows as planned, of a piece too many its ply's mean row.

    Parameters
    ----------
    named : NamedPieces
        n of them, all of rows and plies that the plan has.
    planned : Portions
        The rows as planned.
    """
    own_g = planned.mass_g[_of_planned(named, planned)]
    mean_g = np.bincount(planned.ply, planned.mass_g) / np.bincount(planned.ply)
    return np.where(named.row > 0, own_g, mean_g[named.ply])


def _of_planned(named: NamedPieces, planned: Portions) -> NDArray[np.int64]:
    """Return each piece's row as an index into the planned rows; any for a piece too many."""
    at: NDArray[np.int64] = planned.starts[named.ply] + np.maximum(named.row, 1) - 1
    return at


@dataclass(frozen=True, eq=False)
class _Columns:
    """Some pieces, with what is told of each; fields as in `BobbinPieces`."""

    pieces: Portions
    row: NDArray[np.int64]
    spun: NDArray[np.bool_]
    planned_mass_g: NDArray[np.float64]
    as_planned: NDArray[np.bool_]
    is_measured: NDArray[np.bool_]
    net_g: NDArray[np.float64]
    bobbin: NDArray[np.int64]

    def take(self, index: NDArray[np.int64]) -> "_Columns":
        """Return some of them, in this order."""
        others = {name: getattr(self, name)[index] for name in _OF_PIECES}
        return _Columns(pieces=self.pieces.take(index), **others)


_OF_PIECES = tuple(item.name for item in fields(_Columns) if item.name != "pieces")


def _ply_after_ply(spun: _Columns, to_spin: _Columns) -> _Columns:
    """Return what was spun and what is to spin, ply after ply, each in that order."""
    columns = {
        name: np.concatenate([getattr(spun, name), getattr(to_spin, name)]) for name in _OF_PIECES
    }
    both = _Columns(pieces=joined(spun.pieces, to_spin.pieces), **columns)
    return both.take(np.argsort(both.pieces.ply, kind="stable"))


@dataclass(frozen=True, eq=False)
class _Named:
    """A plan's rows beside the pieces that its entries name."""

    resolved: ResolvedPlan
    planned: Portions
    named: NamedPieces

    def lying(self, readings: tuple[Reading, ...]) -> BobbinPieces:
        """Return what lies on the bobbins, then the rows to spin, by these readings."""
        named, planned, loss = self.named, self.planned, self.resolved.spin_loss
        share_g = shares_of_rest_g(named, planned)
        weighed = weighed_by_readings(named, share_g, readings, loss)
        grist = measured_grist(named, weighed, self.resolved.yarn.strands, loss)
        tex = _in_force(grist, self.resolved.tex)
        left_out, to_spin = self._rows()
        lies = _ply_after_ply(self._spun(weighed, tex), self._to_spin(to_spin, tex))
        before = _row_before(lies)
        repeat, copy = (
            np.where(before < 0, 1, each[before]) for each in (lies.pieces.repeat, lies.pieces.copy)
        )
        others = {name: getattr(lies, name) for name in _OF_PIECES}
        return BobbinPieces(
            planned=planned,
            pieces=replace(lies.pieces, repeat=repeat, copy=copy),
            after_row=np.where(before < 0, 0, lies.row[before]),
            left_out=left_out,
            grist=grist,
            **others,
        )

    def _rows(self) -> tuple[NDArray[np.bool_], NDArray[np.int64]]:
        """Return which rows were left out, (R,), and the rows to spin."""
        named, planned = self.named, self.planned
        highest = np.zeros(len(planned.starts) - 1, dtype=np.int64)
        np.maximum.at(highest, named.ply, named.row)
        is_named = np.zeros(len(planned), dtype=np.bool_)
        is_named[_of_planned(named, planned)[named.row > 0]] = True
        below = row_numbers(planned) <= highest[planned.ply]
        return below & ~is_named, np.flatnonzero(~below)

    def _spun(self, weighed: Weighed, tex: NDArray[np.float64]) -> _Columns:
        named, planned, loss = self.named, self.planned, self.resolved.spin_loss
        is_row, at, own_tex = named.row > 0, _of_planned(named, planned), tex[named.ply]
        by_length_g = named.length_m * own_tex / 1000 / (1 - loss)
        as_planned = np.isnan(weighed.mass_g) & np.isnan(by_length_g)
        said_g = np.where(np.isnan(weighed.mass_g), by_length_g, weighed.mass_g)
        mass_g = np.where(as_planned, planned.mass_g[at], said_g)
        is_measured = ~np.isnan(named.length_m)
        length_m = np.where(is_measured, named.length_m, spun_m(mass_g, own_tex, loss))
        is_usual = as_planned & (own_tex == self.resolved.tex[named.ply])
        return _Columns(
            pieces=Portions(
                ply=named.ply,
                place=np.where(is_row, planned.place[at], NO_PLACE),
                repeat=planned.repeat[at],
                copy=planned.copy[at],
                lot=self._lots(at),
                mass_g=mass_g,
                tex=np.where(is_measured, mass_g * (1 - loss) * 1000 / length_m, own_tex),
                length_m=np.where(is_usual, planned.length_m[at], length_m),
                weigh_g=np.full(len(at), np.nan),
            ),
            row=named.row,
            spun=np.ones(len(at), dtype=np.bool_),
            planned_mass_g=np.where(is_row, planned.mass_g[at], np.nan),
            as_planned=as_planned,
            is_measured=is_measured,
            net_g=_net_g(weighed, mass_g * (1 - loss), as_planned),
            bobbin=self._bobbins(),
        )

    def _to_spin(self, at: NDArray[np.int64], tex: NDArray[np.float64]) -> _Columns:
        rows, loss = self.planned.take(at), self.resolved.spin_loss
        own_tex = tex[rows.ply]
        is_usual = own_tex == self.resolved.tex[rows.ply]
        by_grist_m = spun_m(rows.mass_g, own_tex, loss)
        length_m = np.where(is_usual, rows.length_m, by_grist_m)
        return _Columns(
            pieces=replace(rows, tex=own_tex, length_m=length_m),
            row=row_numbers(self.planned)[at],
            spun=np.full(len(at), self.resolved.plan.plied is not None),
            planned_mass_g=rows.mass_g,
            as_planned=np.ones(len(at), dtype=np.bool_),
            is_measured=np.zeros(len(at), dtype=np.bool_),
            net_g=np.full(len(at), np.nan),
            bobbin=np.zeros(len(at), dtype=np.int64),
        )

    def _lots(self, at: NDArray[np.int64]) -> NDArray[np.int64]:
        plan = self.resolved.plan
        number = {name: lot for lot, name in enumerate(plan.names)}
        named = (plan.spun[entry].lot for entry in self.named.entry)
        said = np.array([-1 if lot is None else number[lot] for lot in named], dtype=np.int64)
        return np.where(said < 0, self.planned.lot[at], said)

    def _bobbins(self) -> NDArray[np.int64]:
        """Return which bobbin each piece lies on; 0 on a ply of which no entry names one."""
        says = {one.ply - 1 for one in self.resolved.plan.spun if one.bobbin is not None}
        return np.where(np.isin(self.named.ply, list(says)), self.named.bobbin, 0)


def _in_force(
    grist: tuple[MeasuredGrist, ...], planned_tex: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Return the tex of what was not measured: (plies,)."""
    measured = [np.nan if not one.holds else one.measured_tex for one in grist]
    tex = np.array(measured, dtype=np.float64)
    return np.where(np.isnan(tex), planned_tex, tex)


def _net_g(
    weighed: Weighed, net_g: NDArray[np.float64], as_planned: NDArray[np.bool_]
) -> NDArray[np.float64]:
    by_reading = ~np.isnan(weighed.net_g)
    return np.where(by_reading, weighed.net_g, np.where(as_planned, np.nan, net_g))


def _row_before(lies: _Columns) -> NDArray[np.int64]:
    """Return for each piece itself, or the last before it that is a row; -1 where none is."""
    own = np.where(lies.row > 0, np.arange(len(lies.row)), -1)
    before = np.maximum.accumulate(own)
    return np.where(before < lies.pieces.starts[lies.pieces.ply], -1, before)
