"""What the phone reckons with when a single runs out: metres of single, what can be spun, words."""

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from yarncolor.answers.answer import Answer
from yarncolor.answers.guessed_thickness import about
from yarncolor.layout.layout import Layout, layout, left_g, used_g
from yarncolor.layout.named_pieces import named_pieces
from yarncolor.layout.pieces_changed import tex_to_spin
from yarncolor.layout.portions import Portions, spun_m
from yarncolor.layout.resolved import resolve
from yarncolor.plan import Plan
from yarncolor.planfile.plied_checks import MISFITS
from yarncolor.report.phone.decided import decided_beside
from yarncolor.report.plying_words import ended_words
from yarncolor.report.rescue_phrases import CAUTIONS, HANDS, NAMES, words_in
from yarncolor.report.yarn_as_dict import Json

_OfPiece = float | list[float]
"""Metres of single of a piece; and its tex, where that is not its ply's."""


def ran_out_facts(answer: Answer) -> Json | None:
    """Return what every single has, as if none had ended yet; None for one single alone.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    """
    laid = _none_ended(answer)
    resolved, yarn = laid.resolved, laid.resolved.yarn
    plies = len(resolved.tex)
    if plies == 1:
        return None
    return {
        "singles": [_single(laid, k) for k in range(plies)],
        "contraction": resolved.contraction,
        "contractions": yarn.contractions.tolist(),
        "has_g": (left_g(laid) + used_g(laid)).tolist(),
        "loop_m": resolved.scheme.loop_m,
        "tex": yarn.tex.tolist(),
        "density": yarn.packed_density_g_per_cm3,
        "ply_twist_tpm": yarn.ply_twist_tpm,
        "step_g": resolved.step_g,
        "less": answer.say.seen(0.0, resolved.step_g),
        "about": about(answer),
        "names": NAMES,
        "hands": HANDS,
        "words": words_in(answer.say),
        "ended": ended_words(answer.say),
        "misfits": {why.name.lower(): words for why, words in MISFITS.items()},
        "cautions": CAUTIONS,
    }


def tex_on_plies(answer: Answer) -> list[float]:
    """Return how thick each ply is spun from now on: as measured where that holds."""
    each: list[float] = _tex(_none_ended(answer)).tolist()
    return each


def _none_ended(answer: Answer) -> Layout:
    """Return the plan laid out as if no single had come to its end."""
    return answer.layout if answer.layout.ended is None else layout(resolve(_goes_on(answer)))


def _goes_on(answer: Answer) -> Plan:
    plied = answer.plan.plied
    return replace(answer.plan.without_steps, plied=plied and replace(plied, ended_ply=None))


def _tex(laid: Layout) -> NDArray[np.float64]:
    return laid.resolved.tex if laid.wheel is None else tex_to_spin(laid.wheel)


def _single(laid: Layout, k: int) -> Json:
    """Return metres of single of what lies on a bobbin, of its page's rows, of pieces beside them.

    A row that lies there already is as long as it would be if it were still to spin.
    """
    plan, own, tex = laid.resolved.plan, laid.portions.of_ply(k), float(_tex(laid)[k])
    count = int((named_pieces(plan.spun).ply == k).sum())
    wanted_g = (laid.planned.mass_g if laid.wheel is None else laid.wheel.wanted_g)[
        laid.planned.of_ply(k)
    ]
    loss, portions, row = laid.resolved.spin_loss, laid.portions, laid.row
    every = list(range(own.start, own.stop))
    rows: list[_OfPiece] = spun_m(wanted_g, np.full(len(wanted_g), tex), loss).tolist()
    for at in every[count:]:
        if row[at]:
            rows[row[at] - 1] = _metres(portions, at, tex)
    is_measured = np.zeros(len(portions)) if laid.wheel is None else laid.wheel.is_measured
    return {
        "turned": bool(laid.resolved.wound_off[k] % 2),
        "rows": rows,
        "lies": [[_metres(portions, at, tex), bool(is_measured[at])] for at in every[:count]],
        "beside": [
            one.length_m or float((one.mass_g or 0.0) * (1 - loss) * 1000 / tex)
            for _, one in decided_beside(plan, k)
        ],
    }


def _metres(portions: Portions, at: int, tex: float) -> _OfPiece:
    length_m, own_tex = float(portions.length_m[at]), float(portions.tex[at])
    return length_m if own_tex == tex else [length_m, own_tex]
