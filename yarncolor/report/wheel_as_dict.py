"""What was spun, as plain data: what ``plan.json`` adds to singles and portions, and progress."""

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.progress import PlyProgress, progress
from yarncolor.answers.weigh_out import SPUN, TO_SPIN
from yarncolor.answers.where import where
from yarncolor.layout.portions import row_numbers
from yarncolor.report.yarn_as_dict import Json

_OF_SINGLE = ("measured_tex", "spin_loss_found", "spun_g", "spun_m")
_OF_PORTION = ("row", "state", "planned_mass_g", "linear_density_tex")


def of_single(answer: Answer, ply: int) -> Json:
    """Return what is known of a spun single; all None, nothing left out, where nothing is said.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    ply : int
        From 0.
    """
    wheel = answer.layout.wheel
    if wheel is None:
        return {**dict.fromkeys(_OF_SINGLE), "left_out": []}
    grist, spun = wheel.grist[ply], wheel.spun_at(ply)
    planned, left_out = wheel.planned, wheel.left_out & (wheel.planned.ply == ply)
    return {
        "measured_tex": grist.measured_tex,
        "spin_loss_found": grist.spin_loss_found,
        "spun_g": float(wheel.pieces.mass_g[spun].sum()),
        "spun_m": float(wheel.pieces.length_m[spun].sum()),
        "left_out": [
            {
                "row": int(row_numbers(planned)[at]),
                "lot": answer.plan.names[planned.lot[at]],
                "mass_g": float(planned.mass_g[at]),
            }
            for at in np.flatnonzero(left_out)
        ],
    }


def of_portion(answer: Answer, at: int) -> Json:
    """Return what is known of a portion as it lies there; all None where nothing is said.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    at : int
        Index into the plan's portions.
    """
    wheel = answer.layout.wheel
    if wheel is None:
        return dict.fromkeys(_OF_PORTION)
    planned_g = float(wheel.planned_mass_g[at])
    return {
        "row": int(wheel.row[at]) or None,
        "state": SPUN if wheel.spun[at] else TO_SPIN,
        "planned_mass_g": None if np.isnan(planned_g) else planned_g,
        "linear_density_tex": float(wheel.pieces.tex[at]),
    }


def progress_dict(answer: Answer) -> Json | None:
    """Return how far the spinning has come; None where nothing is said of it."""
    far = progress(answer)
    if far is None:
        return None
    return {
        "share": far.share,
        "hours_left": far.left_h,
        "plies": [_ply(answer, one) for one in far.plies],
    }


def _ply(answer: Answer, one: PlyProgress) -> Json:
    portions, at = answer.layout.portions, one.next_at
    weigh_g = np.nan if at is None else float(portions.weigh_g[at])
    return {
        "ply": one.ply + 1,
        "pieces": one.pieces,
        "spun_g": one.spun_g,
        "spun_m": one.spun_m,
        "next_row": None if at is None else int(answer.layout.row[at]),
        "next_lot": None if at is None else answer.plan.names[portions.lot[at]],
        "next_weigh_g": None if np.isnan(weigh_g) else weigh_g,
        "next_gross_g": one.next_gross_g,
    }


def where_dict(answer: Answer) -> Json | None:
    """Return where in the yarn the plying is; None where nothing is said of it."""
    place, names = where(answer), answer.plan.names
    if place is None:
        return None
    change = place.next_change
    return {
        "yarn_m": place.yarn_m,
        "lots": [names[lot] for lot in place.lots],
        "next_change": change
        and {
            "yarn_m": change.yarn_m,
            "ply": change.ply + 1,
            "from": names[change.before],
            "to": names[change.after],
        },
        "left_m": place.left_m,
        "skein": place.skein,
        "turn": place.turn,
    }
