"""The plan that a choice makes: what was spun stays as it is said, what is to spin is decided."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.choices import GRIST, Choice, wheel_of
from yarncolor.layout.asked import pending
from yarncolor.layout.bobbin_pieces import BobbinPieces
from yarncolor.plan import Plan, PullOff, ToSpin

_DECIMALS = 12
_SAME = 1e-7


def taken(answer: Answer, choice: Choice) -> Plan:
    """Return the plan that a choice makes; all rows stand, so that what was spun keeps its sense.

    Parameters
    ----------
    answer : Answer
        To a plan of which something is spun.
    choice : Choice
        One of its ways to go on.
    """
    plan, now = answer.plan.without_steps, wheel_of(answer.layout)
    anew = {*pending(now, plan), *_rows_to_spin(plan, now)}
    kept = [one for number, one in enumerate(plan.to_spin) if number not in anew]
    decided = [one for k in range(len(now.grist)) for one in _decided(choice, now, k)]
    drawn = dict(enumerate(choice.pull_off_m.tolist(), 1))
    for one in plan.pull_off:
        drawn[one.ply] = drawn.get(one.ply, 0.0) + one.length_m
    pull_off = tuple(PullOff(ply, round(m, _DECIMALS)) for ply, m in drawn.items() if m)
    return replace(plan, to_spin=(*kept, *decided), pull_off=pull_off)


def _rows_to_spin(plan: Plan, now: BobbinPieces) -> Iterator[int]:
    """Yield which decisions are for rows that are still to be spun."""
    for number, one in enumerate(plan.to_spin):
        if one.row is not None and one.row > now.highest_row(one.ply - 1):
            yield number


def _decided(choice: Choice, now: BobbinPieces, k: int) -> Iterator[ToSpin]:
    """Yield what is decided for the pieces and rows of a ply that are to be spun."""
    by_grist = choice.possible == GRIST and bool(abs(choice.factors[k] - 1) > _SAME)
    wheel = now if by_grist else choice.wheel
    own, first = wheel.pieces.of_ply(k), wheel.planned.of_ply(k).start
    names, lying = choice.laid.resolved.plan.names, now.spun_at(k)
    rows = set(range(now.highest_row(k) + 1, wheel.planned.of_ply(k).stop - first + 1))
    for at in (own.start + np.flatnonzero(~wheel.spun[own])).tolist():
        row, lot = int(wheel.row[at]) or None, names[wheel.pieces.lot[at]]
        mass_g = round(float(wheel.pieces.mass_g[at]), _DECIMALS)
        length_m = float(wheel.pieces.length_m[at] * choice.factors[k]) if by_grist else None
        rows.discard(row or 0)
        if row is None:
            yield ToSpin(k + 1, None, len(lying), lot, mass_g, length_m)
        elif by_grist or abs(mass_g / wheel.planned.mass_g[first + row - 1] - 1) > _SAME:
            yield ToSpin(k + 1, row, mass_g=mass_g, length_m=length_m)
    for row in sorted(rows):
        yield ToSpin(k + 1, row, mass_g=0.0)
