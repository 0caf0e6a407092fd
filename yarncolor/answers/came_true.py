"""Whether what advice said came true, as far as what was spun and measured tells.

Of most advice no measure tells: then nothing is said of it. What lies on the bobbins is told once
every row is said to be spun; what the yarn is, once it was measured.
"""

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum

import numpy as np
from numpy.typing import NDArray

from yarncolor.answers.answer import Answer
from yarncolor.answers.fibre import used_of_lots_g
from yarncolor.answers.hours import AGREE as HOURS_AGREE
from yarncolor.answers.leftovers import left_on_bobbins_m
from yarncolor.answers.measured_yarn import all_spun, measure
from yarncolor.answers.runs import at_fault

_HARDLY = 0.01
"""Of the yarn's length, or of its grist: a difference that nobody measures."""


class By(Enum):
    """By what it is known whether advice came true."""

    LEFT_ON_BOBBIN = "metres of single left on a bobbin"
    RUN_DOUBLE = "a run that is too long"
    IN_DRAWER = "grams never spun"
    LENGTH = "metres of yarn"
    MASS = "grams of yarn"
    HOURS = "hours of spinning"
    SKEINS = "skeins"
    GRIST = "metres in 100 g"
    EXPECTED = "metres of yarn that were to be expected"
    AS_SPUN = "what lies on the bobbins"
    SCALE = "what the scale showed"


@dataclass(frozen=True)
class Verdict:
    """Whether advice came true, by what that is known, what was said and what was found.

    Parameters
    ----------
    came_true : bool
        Or not.
    by : By
        What was looked at.
    told, found : float or None
        Its value as advice had it, and as it was.
    """

    came_true: bool
    by: By
    told: float | None = None
    found: float | None = None


_AS_SPUN = Verdict(came_true=True, by=By.AS_SPUN)


def came_true(kind: str, answer: Answer) -> Verdict | None:
    """Return whether advice came true; None where nothing that was measured tells.

    Parameters
    ----------
    kind : str
        What the advice is about.
    answer : Answer
        What follows from a plan, from what was spun of it and what was made.
    """
    tell = _TELLS.get(kind)
    return _ALWAYS.get(kind) if tell is None else tell(answer)


def _runs_out(answer: Answer) -> Verdict | None:
    if not all_spun(answer):
        return None
    told_m, found_m = (left_on_bobbins_m(one.layout) for one in (answer.as_planned, answer))
    there = (told_m > 0) & (found_m > _HARDLY * answer.layout.single_used_m)
    worst = int(np.argmax(told_m))
    by = By.LEFT_ON_BOBBIN
    return Verdict(bool(there.any()), by, float(told_m[worst]), float(found_m[worst]))


def _doubled_run(answer: Answer) -> Verdict | None:
    if not all_spun(answer):
        return None
    told, found = (_longest_run_m(one) for one in (answer.as_planned, answer))
    return Verdict(found > 0, By.RUN_DOUBLE, told, found)


def _longest_run_m(answer: Answer) -> float:
    """Return the longest run that is too long; 0 where none is."""
    wrong = at_fault(answer.runs, answer.layout)
    return float((answer.runs.end_m - answer.runs.start_m)[wrong].max(initial=0.0))


def _left_over(answer: Answer) -> Verdict | None:
    if not all_spun(answer):
        return None
    told_g, found_g = (_in_drawer_g(one) for one in (answer.as_planned, answer))
    return Verdict(found_g >= answer.resolved.step_g, By.IN_DRAWER, told_g, found_g)


def _in_drawer_g(answer: Answer, of: NDArray[np.bool_] | None = None) -> float:
    """Return what is never spun of all lots, or of some: (lots,)."""
    never = (left for left in answer.leftovers if left.on_bobbin is None)
    return sum(left.mass_g for left in never if of is None or of[left.lot])


def _short_of_target(answer: Answer) -> Verdict | None:
    target = answer.plan.target
    if target is None:
        return None
    name, by = ("length_m", By.LENGTH) if target.yarn_m is not None else ("mass_g", By.MASS)
    wanted = target.yarn_m if target.yarn_m is not None else target.yarn_g
    made = measure(name, answer).made
    if made is None or wanted is None:
        return None
    return Verdict(made < wanted * (1 - _HARDLY), by, wanted, made)


def _hours(answer: Answer) -> Verdict | None:
    took = measure("hours_spinning", answer)
    if took.made is None or took.planned is None:
        return None
    off = max(took.made, took.planned) / min(took.made, took.planned)
    return Verdict(off > HOURS_AGREE, By.HOURS, took.planned, took.made)


def _skeins(answer: Answer) -> Verdict | None:
    parts = measure("skeins", answer)
    if parts.made is None:
        return None
    return Verdict(parts.made > 1, By.SKEINS, parts.planned, parts.made)


def _grist_drifts(answer: Answer) -> Verdict:
    """Return whether the yarn is as much off its plan's grist, and to that side, as its singles.

    Before it is made that they are is all there is to say.
    """
    grist = measure("m_per_100g", answer)
    if grist.made is None or grist.spun is None or grist.planned is None:
        return _AS_SPUN
    told, found = grist.spun / grist.planned - 1, grist.made / grist.planned - 1
    same_side = told * found > 0 and abs(found) > _HARDLY
    return Verdict(same_side, By.GRIST, grist.spun, grist.made)


def _short_of_piece(answer: Answer) -> Verdict | None:
    knit, made = answer.as_planned.piece, measure("finished_length_m", answer).made
    if knit is None or knit.needs_m is None or made is None:
        return None
    return Verdict(made < knit.needs_m * (1 - _HARDLY), By.LENGTH, knit.needs_m, made)


def _unused_lot(answer: Answer) -> Verdict | None:
    if not all_spun(answer):
        return None
    unused = used_of_lots_g(answer.as_planned) == 0
    told_g, found_g = (_in_drawer_g(one, unused) for one in (answer.as_planned, answer))
    is_used = bool((used_of_lots_g(answer)[unused] > 0).all())
    return Verdict(not is_used, By.IN_DRAWER, told_g, found_g)


def _uneven(answer: Answer) -> Verdict | None:
    bands, length = answer.as_planned.spread, measure("length_m", answer)
    if bands is None or length.made is None or length.planned is None:
        return None
    is_short = length.made < length.planned * (1 - _HARDLY)
    return Verdict(is_short, By.EXPECTED, bands.expected_m, length.made)


def _short_lot(answer: Answer) -> Verdict | None:
    """Return that it took more than there was; None while its rows may be spun otherwise."""
    is_done = all_spun(answer) or answer.plan.made is not None
    return _AS_SPUN if is_done else None


_TELLS: dict[str, Callable[[Answer], Verdict | None]] = {
    "runs_out": _runs_out,
    "doubled_run": _doubled_run,
    "left_over": _left_over,
    "short_of_target": _short_of_target,
    "hours": _hours,
    "skeins": _skeins,
    "grist_drifts": _grist_drifts,
    "short_of_piece": _short_of_piece,
    "unused_lot": _unused_lot,
    "uneven": _uneven,
    "short_lot": _short_lot,
}
"""Of which advice something that is measured tells."""

_ALWAYS = {
    "other_order": _AS_SPUN,
    "left_out_row": _AS_SPUN,
    "extra_piece": _AS_SPUN,
    "other_lot": _AS_SPUN,
    "more_than_said": Verdict(came_true=True, by=By.SCALE),
}
"""Such advice is only given where it lies so on a bobbin, or where the scale showed it."""
