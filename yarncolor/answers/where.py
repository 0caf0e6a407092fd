"""Where in plying: how much yarn there is, which colours run, what changes next."""

from dataclasses import dataclass

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.marl import PlyChange, ply_changes
from yarncolor.defaults import plying_tare_g
from yarncolor.plan import Plied

_TOLERANCE = 1e-9


@dataclass(frozen=True)
class Where:
    """A place of the yarn while it is plied.

    Parameters
    ----------
    yarn_m : float
        Yarn on the plying bobbin.
    lots : tuple of int
        Lot of each ply there.
    next_change : PlyChange or None
        The next place where a ply changes; None where none does any more.
    left_m : float
        Yarn that is still to come.
    skein : int
        Which skein, from 1.
    turn : float or None
        How many turns that is; None where a turn's length is not said.
    """

    yarn_m: float
    lots: tuple[int, ...]
    next_change: PlyChange | None
    left_m: float
    skein: int
    turn: float | None


def where(answer: Answer) -> Where | None:
    """Return where in the yarn the plying is; None where nothing is said of it."""
    plied = answer.plan.plied
    if plied is None:
        return None
    along, yarn_m = answer.layout.stretches, plied_m(answer, plied)
    near = yarn_m + _TOLERANCE * along.yarn_m
    at = int(np.searchsorted(along.edges_m[1:-1], near, side="right"))
    ends_m = [skein.end_m for skein in answer.skeins[:-1]]
    return Where(
        yarn_m=yarn_m,
        lots=tuple(along.lot[at].tolist()),
        next_change=next((one for one in ply_changes(answer) if one.yarn_m > near), None),
        left_m=max(along.yarn_m - yarn_m, 0.0),
        skein=int(np.searchsorted(ends_m, near, side="right")) + 1,
        turn=None if plied.turn_m is None else yarn_m / plied.turn_m,
    )


def plied_m(answer: Answer, plied: Plied) -> float:
    """Return metres of yarn on the plying bobbin: as said, by turns, or by weight and grist.

    Where only a single's end is told, it is as far as that.

    Parameters
    ----------
    answer : Answer
        What follows from the plan.
    plied : Plied
        Its table.
    """
    if plied.so_far_m is not None:
        return plied.so_far_m
    if plied.turns is not None and plied.turn_m is not None:
        return plied.turns * plied.turn_m
    if plied.gross_g is None:
        return answer.layout.stretches.yarn_m
    return (plied.gross_g - (plying_tare_g(answer.plan) or 0.0)) / answer.layout.yarn_tex * 1000
