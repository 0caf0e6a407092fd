"""Stripes of a knitted piece: how much of each lot every ply takes for its rows.

A stripe takes the finished yarn of its rows; over what is left of a metre in finishing and in
plying that is single. The first stripe also holds the cast-on, the last the bind-off. Nothing is
scaled: where a lot gives out, the piece ends after the last whole stripe for which all suffice.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from yarncolor.defaults import plies_of, scheme_name
from yarncolor.layout.portions import PlyPieces
from yarncolor.plan import Plan, Stripe
from yarncolor.yarn.knitted_shape import shape_of
from yarncolor.yarn.knitted_size import knitted_size
from yarncolor.yarn.structure import YarnStructure

_ENOUGH = 1e-9


@dataclass(frozen=True, eq=False)
class Striped:
    """The S stripes of a whole piece from the cast-on on, and how many of them can be spun.

    Parameters
    ----------
    rows : (S,) int array
        Rows or rounds of each.
    listed : (S,) int array
        Which of the stripes as listed each is, from 0.
    lot : (S, plies) int array
        Lot of each ply.
    mass_g : (S, plies) array
        What each takes of every ply, edges not counted, of all copies together.
    edge_g : (2, S, plies) array
        What the cast-on takes beside, of the first; what the bind-off would take, of each.
    has_g : (lots,) array
        What there is of each lot to divide.
    count : int
        How many can be spun, bound off.
    """

    rows: NDArray[np.int64]
    listed: NDArray[np.int64]
    lot: NDArray[np.int64]
    mass_g: NDArray[np.float64]
    edge_g: NDArray[np.float64]
    has_g: NDArray[np.float64]
    count: int

    @property
    def rows_in_all(self) -> int:
        """Rows of the whole piece."""
        return int(self.rows.sum())

    @property
    def rows_spun(self) -> int:
        """Rows of those stripes that can be spun."""
        return int(self.rows[: self.count].sum())

    @property
    def lacks_g(self) -> NDArray[np.float64]:
        """Grams, as they are divided, that each lot lacks for the whole piece: (lots,)."""
        takes_g = _taken_g(self, len(self.rows))
        lacks_g: NDArray[np.float64] = np.maximum(takes_g - self.has_g, 0.0)
        return np.where(lacks_g > _ENOUGH * takes_g, lacks_g, 0.0)

    @property
    def first_takes_g(self) -> NDArray[np.float64]:
        """Grams of each lot that the first stripe takes, bound off: (lots,)."""
        return _taken_g(self, 1)

    @property
    def first_lacks(self) -> int | None:
        """The lot that lacks most even for the first stripe, bound off; None where none does."""
        lacks_g = self.first_takes_g - self.has_g * (1 + _ENOUGH)
        return int(lacks_g.argmax()) if lacks_g.max() > 0 else None

    def of_ply(self, k: int, *, turned: bool) -> PlyPieces:
        """Return what lies on a ply, in spinning order.

        Parameters
        ----------
        k : int
            Which ply, counted from 0.
        turned : bool
            Whether what is spun first comes off first: then stripes are spun as they are knitted.
        """
        mass_g = self.mass_g[: self.count, k].copy()
        mass_g[0] += self.edge_g[0, 0, k]
        mass_g[-1] += self.edge_g[1, self.count - 1, k]
        number = np.arange(self.count)
        begins = np.append(False, np.diff(self.listed[: self.count]) <= 0)
        knitted = PlyPieces(self.lot[: self.count, k], number + 1, np.cumsum(begins) + 1, mass_g)
        return knitted if turned else knitted.reversed()


def striped(plan: Plan, yarn: YarnStructure, to_divide_g: NDArray[np.float64]) -> Striped | None:
    """Return the stripes of a plan; None of another scheme, or without a piece to knit.

    Parameters
    ----------
    plan : Plan
        One that has been checked.
    yarn : YarnStructure
        Its yarn.
    to_divide_g : (lots,) array
        What each lot has to divide.
    """
    size = knitted_size(plan.fabric, yarn.finished_tex)
    if scheme_name(plan.scheme) != "stripes" or size is None or not plan.scheme.stripes:
        return None
    shape, copies = shape_of(plan.fabric, size), plan.scheme.copies or 1
    rows, listed = whole_piece(plan.scheme.stripes, size.rows if plan.scheme.repeat else None)
    ends = np.cumsum(rows)
    plied_m = np.stack([np.diff(shape.rows_m(ends), prepend=0.0), shape.bind_off_m(ends)])
    cast_on_m = np.full(len(rows), shape.cast_on_m)
    each_m = np.stack([*plied_m, cast_on_m]) / yarn.finishing_ratio
    g_per_m = yarn.tex / 1000 / (1 - yarn.contractions) / (1 - (plan.spinning.spin_loss or 0.0))
    rows_g, bind_off_g, cast_on_g = each_m[..., None] * g_per_m * copies
    own = [one.of_plies(plies_of(plan.scheme)) for one in plan.scheme.stripes]
    lot = np.array([[plan.names.index(name) for name in names] for names in own])[listed]
    whole = Striped(rows, listed, lot, rows_g, np.stack([cast_on_g, bind_off_g]), to_divide_g, 0)
    return _as_far_as_lots_suffice(whole)


def whole_piece(
    stripes: tuple[Stripe, ...], rows: int | None
) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """Return rows of each stripe of a piece, and which of the listed ones each is, from 0.

    Parameters
    ----------
    stripes : tuple of Stripe
        As listed.
    rows : int or None
        Of the piece, where they go round until it is full; the last is as high as is left.
    """
    own = np.array([one.rows for one in stripes], dtype=np.int64)
    if rows is None:
        return own, np.arange(len(own))
    rounds = -(-rows // int(own.sum()))
    listed = np.tile(np.arange(len(own)), rounds)
    ends = np.minimum(np.cumsum(own[listed]), rows)
    heights = np.diff(ends, prepend=0)
    return heights[heights > 0], listed[heights > 0]


def _as_far_as_lots_suffice(whole: Striped) -> Striped:
    """Return the stripes with how many of them can be spun: the most for which all lots suffice."""
    lots = len(whole.has_g)
    each_g = np.zeros((len(whole.rows), lots))
    bound_off_g = np.zeros_like(each_g)
    at = np.arange(len(whole.rows))[:, None]
    np.add.at(each_g, (at, whole.lot), whole.mass_g)
    np.add.at(each_g[:1], (at[:1], whole.lot[:1]), whole.edge_g[0, :1])
    np.add.at(bound_off_g, (at, whole.lot), whole.edge_g[1])
    takes_g = np.cumsum(each_g, axis=0) + bound_off_g
    suffices = (takes_g <= whole.has_g * (1 + _ENOUGH)).all(axis=1)
    count = int(np.flatnonzero(suffices)[-1]) + 1 if suffices.any() else 0
    return Striped(**{**vars(whole), "count": count})


def _taken_g(whole: Striped, count: int) -> NDArray[np.float64]:
    """Return grams of each lot that so many stripes take, bound off: (lots,)."""
    mass_g = whole.mass_g[:count].copy()
    mass_g[0] += whole.edge_g[0, 0]
    mass_g[-1] += whole.edge_g[1, count - 1]
    lots = len(whole.has_g)
    return np.bincount(whole.lot[:count].ravel(), mass_g.ravel(), lots).astype(np.float64)
