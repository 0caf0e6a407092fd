"""Advice on what was spun: left out, too many, another lot, thicker, short, more than was said."""

from collections.abc import Iterator

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.fibre import overdrawn
from yarncolor.layout.bobbin_pieces import BobbinPieces
from yarncolor.phrases import counted, join_first, join_words, metres
from yarncolor.report.wheel_words import MOST_NAMED, left_out_words

DRIFTS = 0.10
"""A single that is so much thicker or finer than planned has drifted."""
_HARDLY_BELIEVED = 3.0


def left_out_rows(answer: Answer) -> Iterator[str]:
    """Yield for each ply the rows that were left out."""
    for _, ply in _plies(answer):
        rows = left_out_words(answer, ply)
        if rows:
            yield (
                f"Left out on ply {ply + 1}: {rows}. That lies in the drawer, and what was spun "
                "on either side follows on one another."
            )


def extra_pieces(answer: Answer) -> Iterator[str]:
    """Yield for each ply the pieces that no row asks for."""
    names = answer.plan.names
    for wheel, ply in _plies(answer):
        pieces = wheel.pieces
        told = [
            f"{pieces.mass_g[at]:.1f} g of {names[pieces.lot[at]]} "
            f"({metres(pieces.length_m[at])} of single) {_after(int(wheel.after_row[at]))}"
            for at in np.flatnonzero(wheel.is_extra & (pieces.ply == ply))
        ]
        if told:
            yield f"Too many on ply {ply + 1}: {join_first(told, MOST_NAMED)}."


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
            yield f"Another lot on ply {ply + 1}: {join_first(told, MOST_NAMED)}."


def grist_drifts(answer: Answer) -> Iterator[str]:
    """Yield for each ply how much thicker or finer it was spun, where that is more than a tenth."""
    yarn = answer.resolved.yarn
    for wheel, ply in _plies(answer):
        grist, planned_tex = wheel.grist[ply], float(yarn.tex[ply])
        if grist.measured_tex is None or not _drifts(grist.measured_tex / planned_tex):
            continue
        now, then = (1000 * yarn.strands[ply] / tex for tex in (grist.measured_tex, planned_tex))
        thick, mend = ("thicker", "finer") if now < then else ("finer", "thicker")
        yield (
            f"Ply {ply + 1} is spun {thick} than planned: {now:.1f} m to the gram, not "
            f"{then:.1f}, by {counted(grist.count, 'measure')}. {_goes_by(grist.holds)}"
            f"{_mends(now / then, mend)}"
        )


def short_lots(answer: Answer) -> Iterator[str]:
    """Yield every lot of which more is spun and to spin than it has."""
    for lot in overdrawn(answer):
        over_g, name = lot.from_reserve_g + lot.missing_g, answer.plan.names[lot.lot]
        parts = []
        if lot.from_reserve_g:
            parts.append(f"{lot.from_reserve_g:.1f} g come out of what was kept back")
        if lot.missing_g:
            parts.append(f"{lot.missing_g:.1f} g are missing")
        yield (
            f"{name} runs short: what is spun and still to spin takes {over_g:.1f} g more than "
            f"there was to divide. Of that {join_words(parts)}."
        )


def more_than_said(answer: Answer) -> Iterator[str]:
    """Yield for each ply where the scale showed more on the bobbin than was weighed out for it."""
    step_g = answer.resolved.step_g
    for wheel, ply in _plies(answer):
        grist = wheel.grist[ply]
        more_g = -(grist.spin_loss_found or 0.0) * grist.compared_g
        if more_g >= step_g:
            yield (
                f"The bobbin of ply {ply + 1} was {more_g:.1f} g heavier than all that was weighed "
                "out for it: look for a piece that was not written down, for an empty bobbin of "
                "another weight, or for damp fibre."
            )


KINDS = {
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


def _drifts(ratio: float) -> bool:
    return abs(ratio - 1) > DRIFTS * (1 + 1e-9)


def _mends(ratio: float, mend: str) -> str:
    if not 1 / _HARDLY_BELIEVED < ratio < _HARDLY_BELIEVED:
        return "That is hardly so: see whether metres and grams changed places."
    return f"Draft a little {mend} to come back to the plan."


def _goes_by(holds: bool) -> str:
    if holds:
        return "What was not measured is reckoned by that. "
    return "From three measures on, all that was not measured is reckoned by them. "


def _after(row: int) -> str:
    return f"after row {row}" if row else "before row 1"
