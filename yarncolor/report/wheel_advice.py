"""Advice on what was spun: left out, too many, another lot, thicker, short, more than was said."""

from collections.abc import Iterator

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.layout.asked import asked_for
from yarncolor.layout.bobbin_pieces import BobbinPieces
from yarncolor.measures import Measures
from yarncolor.phrases import capital, counted, join_first, ply_words
from yarncolor.plan import Plan
from yarncolor.report.order_words import other_orders, spun_in_reverse
from yarncolor.report.short_words import short_sentences
from yarncolor.report.wheel_words import MOST_NAMED, left_out_words

DRIFTS = 0.10
"""A single that is so much thicker or finer than planned has drifted."""
_HARDLY_BELIEVED = 3.0


def left_out_rows(answer: Answer) -> Iterator[str]:
    """Yield for each ply the rows that were left out."""
    turned = spun_in_reverse(answer)
    for wheel, ply in _plies(answer):
        rows = left_out_words(answer, ply)
        if rows and ply not in turned:
            yield f"Left out on {_ply(answer, ply)}: {rows}. {_where_left_out(wheel, ply)}"


def _where_left_out(wheel: BobbinPieces, ply: int) -> str:
    """Return where the fibre of left-out rows is, and what lies where they should lie."""
    row, is_left_out = wheel.row[wheel.spun_at(ply)], wheel.left_out[wheel.planned.of_ply(ply)]
    is_within = np.flatnonzero(is_left_out)[-1] + 1 > row[row > 0].min()
    follows = ", and what was spun on either side follows on one another" if is_within else ""
    return f"That lies in the drawer{follows}."


def extra_pieces(answer: Answer) -> Iterator[str]:
    """Yield for each ply the pieces that no row asks for."""
    names = answer.plan.names
    for wheel, ply in _plies(answer):
        pieces = wheel.pieces
        told = [
            f"{answer.say.mass(pieces.mass_g[at])} of {names[pieces.lot[at]]} "
            f"({answer.say.long(pieces.length_m[at])} of single) {_after(int(wheel.after_row[at]))}"
            for at in _too_many(wheel, answer.plan, ply)
        ]
        if told:
            too_many = f"Too many on {_ply(answer, ply)}: {join_first(told, MOST_NAMED)}."
            yield " ".join([too_many, *_last_too_many(answer, wheel, ply)])


def last_too_many(answer: Answer) -> Iterator[str]:
    """Yield for each ply that the last piece on its bobbin is one too many."""
    for wheel, ply in _plies(answer):
        yield from _last_too_many(answer, wheel, ply)


def _last_too_many(answer: Answer, wheel: BobbinPieces, ply: int) -> Iterator[str]:
    too_many = _too_many(wheel, answer.plan, ply)
    if answer.plan.plied is None and too_many and too_many[-1] == wheel.spun_at(ply)[-1]:
        yield (
            f"The last piece on the bobbin of {_ply(answer, ply)} is one too many: draw it off, "
            "take it out of what was spun, and nothing has moved."
        )


def _too_many(wheel: BobbinPieces, plan: Plan, ply: int) -> list[int]:
    """Return the pieces on a bobbin that neither a row nor a decision asks for."""
    spun = wheel.spun_at(ply)
    extra = spun[wheel.is_extra[spun]].tolist()
    return sorted({*extra} - {*asked_for(wheel, plan)})


def other_lots(answer: Answer) -> Iterator[str]:
    """Yield for each ply the rows that were spun of another lot than planned."""
    names = answer.plan.names
    for wheel, ply in _plies(answer):
        pieces, asked = wheel.pieces, wheel.planned.lot[wheel.of_planned]
        other = (pieces.lot != asked) & ~wheel.is_extra & (pieces.ply == ply)
        told = [
            f"row {wheel.row[at]} is {names[pieces.lot[at]]}, not {names[asked[at]]}"
            for at in np.flatnonzero(other)
        ]
        if told:
            yield f"Another lot on {_ply(answer, ply)}: {join_first(told, MOST_NAMED)}."


def grist_drifts(answer: Answer) -> Iterator[str]:
    """Yield for each ply how much thicker or finer it was spun, where that is more than a tenth."""
    yarn = answer.resolved.yarn
    for wheel, ply in _plies(answer):
        grist, planned_tex = wheel.grist[ply], float(yarn.tex[ply])
        if grist.measured_tex is None or not _drifts(grist.measured_tex / planned_tex):
            continue
        now, then = (1000 * yarn.strands[ply] / tex for tex in (grist.measured_tex, planned_tex))
        fine = answer.say.fineness
        thick, mend = ("thicker", "finer") if now < then else ("finer", "thicker")
        yield (
            f"{capital(_ply(answer, ply))} is spun {thick} than planned: "
            f"{answer.say.single(1000 / now)}, not {fine.number(then)}, "
            f"by {counted(grist.count, 'measure')}. {_goes_by(grist.holds)}"
            f"{_mends(now / then, mend, answer.say)}"
        )


def short_lots(answer: Answer) -> Iterator[str]:
    """Yield every lot of which more is spun and to spin than there was to divide."""
    yield from short_sentences(answer.layout)


def more_than_said(answer: Answer) -> Iterator[str]:
    """Yield for each ply where the scale showed more on the bobbin than was weighed out for it."""
    step_g = answer.resolved.step_g
    for wheel, ply in _plies(answer):
        grist = wheel.grist[ply]
        more_g = -(grist.spin_loss_found or 0.0) * grist.compared_g
        if more_g >= step_g:
            more = answer.say.mass(more_g)
            yield (
                f"The bobbin of {_ply(answer, ply)} was {more} heavier than all that was "
                "weighed out for it: look for a piece that was not written down, for an empty "
                "bobbin of another weight, or for damp fibre."
            )


KINDS = {
    "other_order": other_orders,
    "left_out_row": left_out_rows,
    "extra_piece": extra_pieces,
    "other_lot": other_lots,
    "short_lot": short_lots,
    "more_than_said": more_than_said,
    "grist_drifts": grist_drifts,
}
"""Advice on what was spun, by how bad it is."""


def _plies(answer: Answer) -> Iterator[tuple[BobbinPieces, int]]:
    wheel = answer.layout.wheel
    if wheel is not None:
        yield from ((wheel, ply) for ply in range(len(wheel.grist)))


def _ply(answer: Answer, ply: int) -> str:
    return ply_words(ply, len(answer.resolved.tex))


def _drifts(ratio: float) -> bool:
    return abs(ratio - 1) > DRIFTS * (1 + 1e-9)


def _mends(ratio: float, mend: str, say: Measures) -> str:
    if not 1 / _HARDLY_BELIEVED < ratio < _HARDLY_BELIEVED:
        both = f"{say.length.plural} and {say.mass.plural}"
        return f"That is hardly so: see whether {both} changed places."
    return f"Draft a little {mend} to come back to the plan."


def _goes_by(holds: bool) -> str:
    if holds:
        return "What was not measured is reckoned by that. "
    return "From three measures on, all that was not measured is reckoned by them. "


def _after(row: int) -> str:
    return f"after row {row}" if row else "before row 1"
