"""Why the numbers of the sentences about a yarn are what they are, each by what it is of."""

from collections.abc import Callable, Iterable
from functools import partial

from yarncolor.answers.answer import Answer
from yarncolor.report.why import equations as by
from yarncolor.report.why import sources
from yarncolor.report.why.compared import class_reason, many_reason, marl_reason
from yarncolor.report.why.equation import Working
from yarncolor.report.why.fabric import piece_reasons
from yarncolor.report.why.hands import matched_reason
from yarncolor.report.why.reason import Reason
from yarncolor.report.why.seen import Seen, seen_in
from yarncolor.report.why.twist import length_lost, lost_otherwise
from yarncolor.report.why.wheel import plying_hours, spinning_hours
from yarncolor.report.why.yarn import (
    each_ply,
    known_whys,
    length_reason,
    ruler_mm,
    thickness_reason,
    washed_reason,
)
from yarncolor.report.yarn_lines import LOUDEST_FIRST
from yarncolor.said import Said, figures_in

_WEIGHED = (
    "each measured length by its weight, and of several the mean, each counting by its length"
)
_WIDE = "each ply is as wide as the root of its tex, and shows as much as it is wide"
_FIRST = "the first place, from where plying begins, at which no two plies are of one lot"
_HALF = "the mean of the shortest single of many yarns that are spun so, as plied"

_Why = Callable[[Answer], Reason]


def yarn_seen(answer: Answer, told: Iterable[Said]) -> tuple[Seen, ...]:
    """Return the figures of sentences about a yarn with their reasons.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    told : iterable of Said
        Sentences of `yarncolor.report.yarn_lines.yarn_told`, or of its drawing.
    """
    sentences = list(told)
    asked = dict.fromkeys(figure.of for one in sentences for figure in figures_in(one))
    found = _by_figure(answer)
    return seen_in(sentences, {of: found[of](answer) for of in asked})


def _by_figure(answer: Answer) -> dict[str, _Why]:
    """Return what gives each reason, by what a figure is of; none is looked for yet."""
    counts = range(2, answer.layout.stretches.lot.shape[1] + 1)
    many = {f"{count}_colours": partial(many_reason, count=count) for count in counts}
    marls = {word: partial(marl_reason, word=word) for word in LOUDEST_FIRST}
    known = {of: partial(_known, words=words) for of, words in _KNOWN.items()}
    piece = {of: partial(_of_piece, of=of) for of in _PIECE}
    return {**_OWN, **known, **piece, **many, **marls}


def _known(answer: Answer, words: str) -> Reason:
    return known_whys(answer).rows[words]


def _of_piece(answer: Answer, of: str) -> Reason:
    if answer.piece is None:
        raise KeyError(of)
    return piece_reasons(answer, answer.piece)[of]


def _mass(answer: Answer) -> Reason:
    along = answer.layout
    values = {"length_m": along.stretches.yarn_m, "linear_density_tex": along.yarn_tex}
    return Reason("weight", length_reason(answer).rests_on, (Working(by.WEIGHS, values),))


def _single_wraps(answer: Answer) -> Reason:
    yarn = answer.resolved.yarn
    each = tuple(
        Working(by.WRAPS, {"diameter_mm": ruler_mm(yarn, float(yarn.strand_tex[ply]))}, of)
        for ply, of in each_ply(yarn)
    )
    rests_on = (sources.ruler_density(answer), sources.grist(answer))
    return Reason("wraps to the inch of a single", rests_on, each)


def _draft(answer: Answer) -> Reason:
    yarn, ratio = answer.resolved.yarn, answer.plan.spinning.drive_ratio
    wheel = sources.of_key(answer, "spinning", "drive_ratio", "the wheel’s ratio")
    if yarn.twist_tpm is None or ratio is None:
        return Reason("draft", (wheel,))
    each = dict.fromkeys(float(tpm) for tpm in yarn.twist_tpm)
    lines = tuple(Working(by.DRAFT, {"drive_ratio": ratio, "twist_tpm": tpm}) for tpm in each)
    return Reason("draft", (wheel, sources.single_twist(answer)), lines)


def fibre_angle(answer: Answer) -> Reason:
    """Return why the outer fibres of the singles stand at their angle."""
    known = (sources.single_twist(answer), sources.packed_density(answer), sources.grist(answer))
    singles = answer.resolved.yarn.each_single
    each = dict.fromkeys((one.diameter_mm, one.twist_tpm) for one in singles)
    lines = tuple(
        Working(by.FIBRE_ANGLE, {"diameter_mm": mm, "twist_tpm": tpm}) for mm, tpm in each
    )
    return Reason("angle of the outer fibres", known, lines)


def _spacing(answer: Answer) -> Reason:
    yarn = answer.resolved.yarn
    values = {"ply_twist_tpm": yarn.ply_twist_tpm or 0.0, "plies": yarn.plies}
    line = Working(by.SPACING, values)
    return Reason("from one ply to the next", (sources.ply_twist(answer),), (line,))


def _length_between(answer: Answer) -> Reason:
    yarn, lost = answer.resolved.yarn, length_lost(answer)[1]
    single_m = answer.lengths.plied_m / (1 - yarn.contraction)
    lines = tuple(
        Working(by.PLIED, {"single_m": single_m, "contraction": share})
        for share in yarn.contraction_band or ()
    )
    return Reason("length to be expected", lost.rests_on, lines)


def _washed_grist(answer: Answer) -> Reason:
    line = Working(by.GRIST, {"linear_density_tex": answer.layout.finished_tex})
    known = (sources.grist(answer), sources.length_lost(answer), sources.wash(answer))
    return Reason("grist of the washed yarn", known, (line,))


def _expected(answer: Answer) -> Reason:
    spread = _known(answer, "nine yarns of ten are between")
    return Reason("length to be expected", spread.rests_on, spread.workings, _HALF)


def _first_seen(answer: Answer) -> Reason:
    rests_on = (sources.order(answer), *length_reason(answer).rests_on)
    return Reason("first seen", rests_on, (), _FIRST)


_KNOWN = {
    "fine": "grist of the singles",
    "single_size": "thickness of a single in the twist",
    "angle": "angle of the plies",
    "turn": "one turn of the ply twist",
    "nine_of_ten": "nine yarns of ten are between",
    "rested": "length when rested",
}
"""What the table of what is known calls figures of sentences."""

_PIECE = (
    *("rows", "stitches", "wide", "high", "tip_to_tip"),
    *("needs", "needs_plied", "give_or_take", "rows_possible"),
)

_OWN: dict[str, _Why] = {
    "length": length_reason,
    "mass": _mass,
    "single": lambda answer: Reason("how thick the single is", (sources.grist(answer),)),
    "plied": lambda answer: Reason("how it is plied", (sources.order(answer),)),
    "grist": partial(thickness_reason, words="grist of the yarn"),
    "wraps": partial(thickness_reason, words="wraps to the inch"),
    "single_wraps": _single_wraps,
    "draft": _draft,
    "single_measured": lambda answer: Reason("as measured", (sources.grist(answer),), (), _WEIGHED),
    "surface": lambda answer: Reason("of the surface", (sources.grist(answer),), (), _WIDE),
    "twist": lambda answer: Reason("twist of the singles", (sources.single_twist(answer),)),
    "fibre_angle": fibre_angle,
    "ply_twist": lambda answer: Reason("ply twist", (sources.ply_twist(answer),)),
    "spacing": _spacing,
    "lost": lambda answer: length_lost(answer)[0],
    "lost_between": lambda answer: length_lost(answer)[1],
    "lost_else": lost_otherwise,
    "length_between": _length_between,
    "uneven": lambda answer: Reason("how unevenly you spin", (sources.evenness(answer),)),
    "expected": _expected,
    "washed": washed_reason,
    "shrinks": lambda answer: Reason("lost in the wash", (sources.wash(answer),)),
    "washed_grist": _washed_grist,
    "class": class_reason,
    "matched": matched_reason,
    "first_seen": _first_seen,
    "spinning_hours": spinning_hours,
    "plying_hours": plying_hours,
}
