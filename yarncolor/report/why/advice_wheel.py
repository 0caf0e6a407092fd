"""Why it is told so what was spun otherwise than planned."""

from collections.abc import Iterator

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.short_lots import short_lots
from yarncolor.phrases import ply_words
from yarncolor.report.why import equations as by
from yarncolor.report.why import equations_of_advice as told_by
from yarncolor.report.why import sources
from yarncolor.report.why.at_the_wheel import written_down
from yarncolor.report.why.equation import Working
from yarncolor.report.why.reason import Reason
from yarncolor.report.why.wheel import weigh_out_whys

_ROWS = "rows of the bobbin’s page beside what you wrote down, one after the other"
_PIECES = (
    "as you wrote them down; lengths that you did not measure go by the thickness known so far"
)
_SHORT = (
    "what is spun of a lot, as you wrote it down, and what its rows to spin take, against what "
    "there is of it; what you kept back is named"
)
_SAME = 1e-6
_MEASURED = "the weight of all that was measured on the ply, over its length"


def rows_told(answer: Answer) -> Iterator[Reason]:
    """Yield why rows are told to be left out, in another order, or of another lot."""
    yield Reason("which rows", (written_down(answer), sources.order(answer)), (), _ROWS)
    yield weigh_out_whys(answer).heads["weigh"]


def pieces_told(answer: Answer) -> Iterator[Reason]:
    """Yield why pieces are told to be too many, and how long they are."""
    known = (written_down(answer), sources.grist(answer), sources.spin_loss(answer))
    yield Reason("pieces too many", known, tuple(_extra(answer)), _PIECES)


def _extra(answer: Answer) -> Iterator[Working]:
    """Yield how long pieces are that no row asks for, where they are as thick as planned."""
    wheel, resolved = answer.layout.wheel, answer.resolved
    if wheel is None:
        return
    pieces = wheel.pieces
    for at in np.flatnonzero(wheel.is_extra):
        values = {
            "spun_g": float(pieces.mass_g[at]),
            "spin_loss": resolved.spin_loss,
            "linear_density_tex": float(resolved.tex[pieces.ply[at]]),
        }
        line = Working(by.SPUN, values, answer.plan.names[pieces.lot[at]])
        if abs(line.result - pieces.length_m[at]) < _SAME * line.result:
            yield line


def short_told(answer: Answer) -> Iterator[Reason]:
    """Yield why a lot runs short."""
    lines = tuple(
        Working(
            by.LACKS,
            {"needed_g": one.to_spin_g, "there_g": one.left_g},
            answer.plan.names[one.lot],
            "short",
        )
        for one in short_lots(answer.layout)
        if one.short_g
    )
    known = (written_down(answer), sources.masses(answer))
    yield Reason("how much of the lot", known, lines, _SHORT)
    enough = tuple(
        Working(
            told_by.ENOUGH_FOR,
            {"there_g": one.left_g, "needed_g": one.to_spin_g},
            answer.plan.names[one.lot],
        )
        for one in short_lots(answer.layout)
        if one.to_spin_g and one.short_g
    )
    yield Reason("enough for", known, enough)


def more_told(answer: Answer) -> Iterator[Reason]:
    """Yield why a bobbin is told to be heavier than what was weighed out for it."""
    wheel = answer.layout.wheel
    lines = tuple(
        Working(
            told_by.HEAVIER,
            {"found_g": one.compared_g * (1 - one.spin_loss_found), "stated_g": one.compared_g},
            ply_words(ply, len(answer.resolved.tex)),
        )
        for ply, one in enumerate(wheel.grist if wheel is not None else ())
        if one.spin_loss_found is not None and one.spin_loss_found < 0
    )
    yield Reason("how much heavier", (written_down(answer), sources.tare(answer)), lines)


def drifts_told(answer: Answer) -> Iterator[Reason]:
    """Yield why a single is told to be thicker or finer than planned."""
    wheel, yarn = answer.layout.wheel, answer.resolved.yarn
    lines = tuple(
        Working(by.GRIST, {"linear_density_tex": tex / yarn.strands[ply]}, f"{of}, {when}")
        for ply, one in enumerate(wheel.grist if wheel is not None else ())
        if one.measured_tex is not None
        for of in [ply_words(ply, len(yarn.tex))]
        for when, tex in (("measured", one.measured_tex), ("planned", float(yarn.tex[ply])))
    )
    yield Reason("how thick it is", (written_down(answer), sources.grist(answer)), lines, _MEASURED)
