"""In which order rows came onto a bobbin, where that is not the order of its page."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from yarncolor.layout.bobbin_pieces import BobbinPieces
from yarncolor.layout.turned_round import is_in_reverse

_SAME = 1e-6


@dataclass(frozen=True)
class SpunOrder:
    """Rows of a ply that lie in another order than its page has them.

    Parameters
    ----------
    ply : int
        From 0.
    rows : tuple of int
        From 1, in the order spun.
    last : int
        The last row of its page.
    is_equal : bool
        Of two rows that changed places, whether both came out as long.
    is_reverse : bool
        Whether they were spun from the last of the page on.
    """

    ply: int
    rows: tuple[int, ...]
    last: int
    is_equal: bool
    is_reverse: bool

    @property
    def is_finished(self) -> bool:
        """Whether every row of the page lies there."""
        return len(self.rows) == self.last

    @property
    def swapped(self) -> tuple[int, int] | None:
        """The two rows that changed places, where nothing else is in another order."""
        pairs = zip(self.rows, sorted(self.rows), strict=True)
        off = [row for row, in_order in pairs if row != in_order]
        return (min(off), max(off)) if len(off) == 2 else None


def spun_orders(wheel: BobbinPieces) -> Iterator[SpunOrder]:
    """Yield every ply of which rows lie in another order that an eye can tell.

    Parameters
    ----------
    wheel : BobbinPieces
        What lies on the bobbins.
    """
    for k in range(len(wheel.grist)):
        at = wheel.spun_at(k)
        at = at[wheel.row[at] > 0]
        row, lot, length_m = wheel.row[at], wheel.pieces.lot[at], wheel.pieces.length_m[at]
        order = np.argsort(row)
        same_m = np.abs(length_m - length_m[order]) <= _SAME * length_m.sum()
        if (lot == lot[order]).all() and same_m.all():
            continue
        rows = wheel.planned.of_ply(k)
        yield SpunOrder(
            ply=k,
            rows=tuple(row.tolist()),
            last=rows.stop - rows.start,
            is_equal=bool(same_m.all()),
            is_reverse=is_in_reverse(wheel, k),
        )
