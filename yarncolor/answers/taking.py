"""The plan that a choice makes: what was spun stays as it is said, what is to spin is decided."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.choice import Choice, wheel_of
from yarncolor.layout.asked import pending
from yarncolor.layout.bobbin_pieces import BobbinPieces
from yarncolor.layout.pieces_changed import tex_to_spin
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
    anew = {*pending(now, answer.plan), *_rows_to_spin(plan, now)}
    kept = [one for number, one in enumerate(plan.to_spin) if number not in anew]
    decided = [one for k in range(len(now.grist)) for one in _decided(choice, now, k)]
    drawn = dict(enumerate(choice.pull_off_m.tolist(), 1))
    for one in plan.pull_off:
        drawn[one.ply] += one.length_m
    pull_off = tuple(PullOff(ply, round(m, _DECIMALS)) for ply, m in drawn.items() if m)
    return replace(plan, to_spin=(*kept, *decided), pull_off=pull_off)


def _rows_to_spin(plan: Plan, now: BobbinPieces) -> Iterator[int]:
    """Yield which decisions are for rows that are still to be spun."""
    for number, one in enumerate(plan.to_spin):
        if one.row is not None and one.row > now.highest_row(one.ply - 1):
            yield number


def _decided(choice: Choice, now: BobbinPieces, k: int) -> Iterator[ToSpin]:
    """Yield what is decided for the pieces and rows of a ply that are to be spun."""
    wheel, names, lying = choice.wheel, choice.laid.resolved.plan.names, now.spun_at(k)
    own, rows = wheel.pieces.of_ply(k), wheel.planned.of_ply(k)
    usual_tex = tex_to_spin(now)[k]
    missing = set(range(now.highest_row(k) + 1, rows.stop - rows.start + 1))
    for at in (own.start + np.flatnonzero(~wheel.spun[own])).tolist():
        row, lot = int(wheel.row[at]), names[wheel.pieces.lot[at]]
        mass_g = round(float(wheel.pieces.mass_g[at]), _DECIMALS)
        is_usual = abs(wheel.pieces.tex[at] / usual_tex - 1) <= _SAME
        length_m = None if is_usual else float(wheel.pieces.length_m[at])
        missing.discard(row)
        if not row:
            yield ToSpin(k + 1, None, len(lying), lot, mass_g, length_m)
        elif not is_usual or not _is_near(mass_g, wheel.planned.mass_g[rows.start + row - 1]):
            yield ToSpin(k + 1, row, mass_g=mass_g, length_m=length_m)
    for row in sorted(missing):
        yield ToSpin(k + 1, row, mass_g=0.0)


def _is_near(mass_g: float, planned_g: float) -> bool:
    return abs(mass_g / planned_g - 1) <= _SAME
