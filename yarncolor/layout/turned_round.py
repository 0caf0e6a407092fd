"""Plies that were spun from the last row of their page to the first, and those put right since."""

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.bobbin_pieces import BobbinPieces

_TWO = 2


def is_in_reverse(wheel: BobbinPieces, k: int) -> bool:
    """Return whether a ply was spun from its last row on, each before the one that it follows.

    Of a ply of two rows no one says so: they changed places.

    Parameters
    ----------
    wheel : BobbinPieces
        What lies on the bobbins.
    k : int
        The ply, from 0.
    """
    row, rows = _spun_rows(wheel, k)
    if len(row) < _TWO or rows == _TWO:
        return False
    return bool((row == np.arange(rows, rows - len(row), -1)).all())


def put_right_by_winding(wheel: BobbinPieces, wound_off: NDArray[np.int64]) -> list[int]:
    """Return the plies, from 0, spun whole in reverse that come off as planned all the same.

    They are wound off once more, or once less, than all others.

    Parameters
    ----------
    wheel : BobbinPieces
        What lies on the bobbins.
    wound_off : (singles,) int array
        How often each single is wound off before plying.
    """
    turned = wound_off % 2
    return [
        k
        for k in range(len(wound_off))
        if len(turned) > 1
        and (np.delete(turned, k) != turned[k]).all()
        and is_in_reverse(wheel, k)
        and len(_spun_rows(wheel, k)[0]) == _spun_rows(wheel, k)[1]
    ]


def _spun_rows(wheel: BobbinPieces, k: int) -> tuple[NDArray[np.int64], int]:
    """Return the rows of a ply in the order spun, and how many its page has."""
    row, page = wheel.row[wheel.spun_at(k)], wheel.planned.of_ply(k)
    return row[row > 0], page.stop - page.start
