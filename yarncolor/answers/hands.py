"""What hands do otherwise under a choice than if they carry on, as far as that can be seen."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from yarncolor.answers.choice import Choice, RowsToSpin

_TOLD_M = 0.05
"""Less single than this is not drawn off."""

_TOLD_GRIST = 0.005
"""A grist that differs by less is the same to any hand."""

_SAME = 1e-7


@dataclass(frozen=True)
class Finer:
    """The grams of a ply are spun otherwise: metres over those that they come to now."""

    ply: int
    factor: float
    tex: float


@dataclass(frozen=True)
class DrawOff:
    """Metres are drawn off a ply's outer end."""

    ply: int
    length_m: float


@dataclass(frozen=True)
class SpinNext:
    """A piece that no row asks for is spun next; grams as the scale shows them."""

    ply: int
    lot: int
    mass_g: float


@dataclass(frozen=True)
class RowChanged:
    """A row takes other grams, as the scale shows them; none of them where it is not spun."""

    ply: int
    row: int
    lot: int
    before_g: float
    after_g: float | None


@dataclass(frozen=True)
class HeapChanged:
    """What is weighed together of a lot takes other grams, as the scale shows them."""

    ply: int
    lot: int
    before_g: float
    after_g: float


Deed = Finer | DrawOff | SpinNext | RowChanged | HeapChanged


def what_hands_do(now: Choice, then: Choice) -> list[Deed]:
    """Return what is done otherwise; nothing where neither scale nor hand can show it.

    Parameters
    ----------
    now : Choice
        To carry on.
    then : Choice
        One of the ways to go on.
    """
    if then.is_by_grist:
        return list(_finer(then))
    step_g, plies = then.laid.resolved.step_g, range(len(then.factors))
    drawn = [DrawOff(k, float(then.pull_off_m[k])) for k in plies if then.pull_off_m[k] >= _TOLD_M]
    weighed = (_Weighed(now.rows, then.rows, k, step_g) for k in plies)
    return [*drawn, *(deed for one in weighed for deed in one.deeds())]


def _finer(then: Choice) -> Iterator[Finer]:
    tex = then.grist_instead_tex
    for k in np.flatnonzero(~np.isnan(tex) & (np.abs(then.factors - 1) >= _TOLD_GRIST)).tolist():
        yield Finer(k, float(then.factors[k]), float(tex[k]))


@dataclass(frozen=True)
class _Weighed:
    """What goes on a scale of some step for one ply, now and then."""

    now: RowsToSpin
    then: RowsToSpin
    ply: int
    step_g: float

    def deeds(self) -> Iterator[Deed]:
        """Yield what is spun next, then the rows and the heaps that change."""
        yield from self._spun_next()
        now, then = self.now.of_ply(self.ply), self.then.of_ply(self.ply)
        more_g = {row: self._more_g(now[row], then.get(row)) for row in now}
        if sum(map(abs, more_g.values())) <= self.step_g / 2:
            return
        rows = [row for row, grams in more_g.items() if grams]
        yield from self._rows(rows, now, then)
        yield from self._heaps({int(self.now.portions.lot[now[row]]) for row in rows})

    def _more_g(self, now: int, then: int | None) -> float:
        """Return how much more a row takes than now; 0 where it is the same to any scale."""
        was_g = float(self.now.portions.mass_g[now])
        more_g = (0.0 if then is None else float(self.then.portions.mass_g[then])) - was_g
        return more_g if abs(more_g) > _SAME * was_g else 0.0

    def _spun_next(self) -> Iterator[SpinNext]:
        """Yield the pieces beside the rows that are not asked for yet; pinches are none."""
        beside = self.then.beside(self.ply)
        for at in beside[: len(beside) - len(self.now.beside(self.ply))]:
            if self.then.portions.mass_g[at] >= self.step_g * (1 - _SAME):
                lot = int(self.then.portions.lot[at])
                yield SpinNext(self.ply, lot, self._shown_g(self.then, at))

    def _rows(
        self, rows: list[int], now: dict[int, int], then: dict[int, int]
    ) -> Iterator[RowChanged]:
        for row in rows:
            at, lot = then.get(row), int(self.now.portions.lot[now[row]])
            before_g = self._shown_g(self.now, now[row])
            after_g = None if at is None else self._shown_g(self.then, at)
            in_heaps = at is not None and self._in_heaps(now[row], at)
            if after_g is None or (not in_heaps and self._are_apart(before_g, after_g)):
                yield RowChanged(self.ply, row, lot, before_g, after_g)

    def _in_heaps(self, now: int, then: int) -> bool:
        return bool(self.now.heaps.group[now] >= 0 and self.then.heaps.group[then] >= 0)

    def _heaps(self, lots: set[int]) -> Iterator[HeapChanged]:
        for lot in sorted(lots):
            before_g, after_g = (one.heap_g(self.ply, lot) for one in (self.now, self.then))
            if before_g and after_g and self._are_apart(before_g, after_g):
                yield HeapChanged(self.ply, lot, before_g, after_g)

    def _are_apart(self, one_g: float, other_g: float) -> bool:
        return abs(one_g - other_g) > self.step_g / 2

    def _shown_g(self, rows: RowsToSpin, at: int) -> float:
        """Return what goes on the scale for a piece; of a heap, its own grams in whole steps."""
        weigh_g = float(rows.portions.weigh_g[at])
        if np.isnan(weigh_g):
            return round(float(rows.portions.mass_g[at]) / self.step_g) * self.step_g
        return weigh_g
