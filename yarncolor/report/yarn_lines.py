"""The yarn in sentences: how long, how thick, how twisted, how its plies meet, what it is for."""

from collections.abc import Iterator

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.guessed_thickness import about, if_single_is
from yarncolor.answers.knitted_piece import KnittedPiece
from yarncolor.answers.marl import first_all_different_m, shares_called
from yarncolor.answers.straying import is_by_eye
from yarncolor.layout.layout import in_words
from yarncolor.measures import IMPERIAL
from yarncolor.phrases import direction, hours_text, join_words, percent, turns
from yarncolor.report.assumption_text import model_words
from yarncolor.report.wheel_words import spun_grist
from yarncolor.yarn.structure import YarnStructure

_SIZES = {
    "flat": "{wide} wide, {high} high",
    "round": "{wide} round, {high} high",
    "triangle": "last row {wide}, {high} of rows",
}
_LOUDEST_FIRST = ("loud", "clear", "close", "alike")
_SHAPES = {"flat": "rows", "round": "rounds", "triangle": "rows, each wider than the one before"}


def yarn_lines(answer: Answer) -> Iterator[str]:
    """Return the yarn and how its plies meet, a sentence a line."""
    yield _first(answer)
    yield from _single(answer)
    yield from _surface(answer.resolved.yarn)
    yield from _twist(answer)
    yield from _length_lost(answer)
    yield from _bands(answer)
    yield from _later(answer)
    yield from _side_by_side(answer)
    yield from _hours(answer)
    yield from _knitted(answer)


def _first(answer: Answer) -> str:
    laid, yarn = answer.layout, answer.resolved.yarn
    tex, made = laid.yarn_tex, "plied" if yarn.plies > 1 else "spun"
    hangs_on, say = if_single_is(answer), answer.say
    return (
        f"Yarn: {say.long(laid.stretches.yarn_m)} and {say.mass(laid.yarn_g, 0)} as {made}, "
        f"{hangs_on + ', ' if hangs_on else ''}{in_words(laid)}; "
        f"{_grist(answer, tex)}, about {yarn.wpi(tex):.0f} wraps to the inch, "
        "loosely on a ruler."
    )


def _grist(answer: Answer, tex: float) -> str:
    """Return a yarn's grist; in metres in yards too, by which many patterns are written."""
    grist = answer.say.yarn(tex)
    return grist if answer.say is IMPERIAL else f"{grist} ({IMPERIAL.yarn(tex)})"


def _single(answer: Answer) -> Iterator[str]:
    yarn, spinning = answer.resolved.yarn, answer.plan.spinning
    if yarn.plies == 1:
        return
    each = yarn.strand_tex
    say = answer.say
    fine = dict.fromkeys(f"{say.fineness.number(1000 / tex)} {say.length.unit}" for tex in each)
    about = join_words(list(dict.fromkeys(f"{yarn.wpi(float(tex)):.0f}" for tex in each)))
    draft = ""
    if spinning.drive_ratio is not None and yarn.twist_tpm is not None:
        each_cm = join_words(
            list(
                dict.fromkeys(
                    say.width(float(spinning.drive_ratio / tpm * 100)) for tpm in yarn.twist_tpm
                )
            )
        )
        draft = f"; draft {each_cm} for each treadle"
    measured = spun_grist(answer)
    known = ", a guess" if if_single_is(answer) else ", as planned" if measured else ""
    grist = f"{join_words(list(fine))} {say.to_each}"
    yield f"Single{known}: {grist}, about {about} wraps to the inch{draft}."
    if measured:
        yield f"Single, as measured: {measured}."


def _surface(yarn: YarnStructure) -> Iterator[str]:
    """Yield how much of the surface each ply shows, where plies are unlike."""
    shares = yarn.surface_shares
    if len(yarn.tex) > 1 and np.ptp(shares) > 1e-9:
        shown = join_words([f"ply {k + 1} {share:.0%}" for k, share in enumerate(shares)])
        yield f"Of the yarn's surface {shown} is seen, thick plies more than thin ones."


def _twist(answer: Answer) -> Iterator[str]:
    yarn, parts, mm = answer.resolved.yarn, list[str](), answer.say.thickness
    twists = _singles_twist(yarn)
    if twists:
        alike = len(set(twists)) == 1
        each = twists[:1] if alike else [f"ply {k + 1}: {text}" for k, text in enumerate(twists)]
        parts.append(f"{'singles with ' if alike else ''}{', '.join(each)}")
    if yarn.helix_angle_deg is not None and yarn.ply_twist_tpm is not None:
        parts.append(
            f"plied with {turns(yarn.ply_twist_tpm)}, {direction(yarn.ply_direction)}, the plies "
            f"at {yarn.helix_angle_deg:.0f}°: once round in {mm(yarn.pitch_mm or 0.0)}, the next "
            f"ply every {mm(yarn.ply_spacing_mm or 0.0)} along one side"
        )
    if parts:
        text = "; ".join(parts)
        by = ", by the single as planned" if spun_grist(answer) else ""
        yield f"Twist{by}: {text}."


def _singles_twist(yarn: YarnStructure) -> list[str]:
    """Return the twist of each single, in words; nothing where it is not known."""
    if yarn.twist_tpm is None or yarn.surface_angles_deg is None:
        return []
    each = zip(yarn.twist_tpm, yarn.directions, yarn.surface_angles_deg, strict=True)
    return [
        f"{turns(float(twist))}, {direction(way)}, outer fibres at {angle:.0f}°"
        for twist, way, angle in each
    ]


def _length_lost(answer: Answer) -> Iterator[str]:
    yarn = answer.resolved.yarn
    if not yarn.contraction and not yarn.contraction_by_model:
        return
    how = "as measured" if yarn.model == "measured" else f"by {model_words(yarn, yarn.model)}"
    others = [
        f"{_lost(share)} by {model_words(yarn, model)}"
        for model, share in yarn.contraction_by_model.items()
        if model != yarn.model
    ]
    rest = f" ({'; '.join(others)})" if others else ""
    ask = "" if yarn.model == "measured" else " A plied sample, measured, settles it."
    yield f"Length in plying: {_lost(yarn.contraction)}, {how}{rest}.{_between(answer)}{ask}"


def _between(answer: Answer) -> str:
    """Return between which lengths lost, and metres, the true ones are to be expected."""
    yarn, between = answer.resolved.yarn, answer.lengths.plied_between_m
    if yarn.contraction_band is None or between is None:
        is_most = yarn.model == "helix" and all(yarn.opposed)
        return " That is the most: singles that untwist lose less." if is_most else ""
    low, high = map(_lost, yarn.contraction_band)
    least, most = map(answer.say.long, between)
    why = ", as these ways differ and a measured yarn lost less than either" * all(yarn.opposed)
    return f" Expect between {low} and {high}, so {least} to {most}{why}."


def _lost(share: float) -> str:
    """Return a share of length lost, or won, in words."""
    if abs(share) < 0.0005:
        return "nothing lost"
    return f"{abs(share):.1%} {'lost' if share > 0 else 'won'}"


def _bands(answer: Answer) -> Iterator[str]:
    bands, long = answer.spread, answer.say.long
    if bands is None:
        return
    yield (
        f"As unevenly as you spin ({unevenness(answer)}), expect {long(bands.expected_m)}: nine "
        f"yarns of ten are between {long(bands.low_m)} and {long(bands.high_m)}"
        f"{_rests_on(answer)}."
        + (" What is plied first has strayed least." if answer.resolved.yarn.plies > 1 else "")
    )


def unevenness(answer: Answer) -> str:
    """Return how unevenly the spinner spins, as far as the plan says."""
    hands = answer.plan.spinning
    told = {
        "{}": hands.variation,
        "{} along a portion": hands.variation_within,
        "{} from bobbin to bobbin": hands.variation_bobbins,
    }
    each = [text.format(f"{cv:.0%}") for text, cv in told.items() if cv is not None]
    return join_words(["divided by eye"] * is_by_eye(answer.layout) + each)


def _rests_on(answer: Answer) -> str:
    """Return on what a band rests: how portions go together, and bobbins."""
    hands = answer.plan.spinning
    if hands.variation_drift:
        alike = f"where neighbouring portions are {hands.variation_drift:.0%} alike in grist"
    else:
        alike = "if each portion strays by itself"
    if hands.variation_drift or hands.variation_bobbins:
        return f", {alike}"
    return f", {alike}; fewer are where grist drifts or bobbins differ, until you say so"


def _later(answer: Answer) -> Iterator[str]:
    later, called = answer.lengths, answer.weight_class
    if later.rested_m is not None:
        yield f"Rested off the bobbin, measured relaxed: {answer.say.long(later.rested_m)}."
    shrinkage = answer.plan.fabric.finishing_shrinkage
    if later.finished_m is not None and shrinkage is not None:
        share = _lost(shrinkage)
        finished_tex = answer.layout.finished_tex
        yield (
            f"Washed: {answer.say.long(later.finished_m)}, {share}; "
            f"then {answer.say.yarn(finished_tex)}."
        )
    gauge = answer.plan.fabric.gauge_stitches
    own = f" Your gauge says {join_words(list(called.by['gauge']))}." if gauge else ""
    sold = f"be sold as {called.name}" if called.agreed else f"lie {called.name}, as labels differ"
    then = "then " if if_single_is(answer) else ""
    yield f"In a shop it would {then}{sold}.{own}"


def _side_by_side(answer: Answer) -> Iterator[str]:
    shares = answer.shares
    if len(shares) == 1:
        return
    by = ", ".join(
        f"{count} colours {percent(share)}" for count, share in enumerate(shares[1:], 2) if share
    )
    yield f"Side by side: matched {percent(shares[0])}{', ' + by if by else ''}."
    if shares[0] < 1:
        called = shares_called(answer)
        marls = [
            f"{word} over {percent(called[word])}" for word in _LOUDEST_FIRST if word in called
        ]
        yield f"The marl to the eye: {', '.join(marls)} of the yarn."
    first = first_all_different_m(answer)
    if first is not None:
        where = f"{about(answer)}{answer.say.length(first)} from where plying begins"
        yield f"You first see every ply in its own colour {where}."
    elif shares[0] < 1:
        yield "Nowhere are all plies of different colours at once."


def _hours(answer: Answer) -> Iterator[str]:
    takes = answer.hours
    if takes.spinning_h is None:
        return
    plying = ", without plying" if answer.resolved.yarn.plies > 1 else ""
    if takes.plying_h is not None:
        plying = f", and {hours_text(takes.plying_h)} plying"
    yield f"At the wheel: about {hours_text(takes.spinning_h)} spinning{plying}."


def _knitted(answer: Answer) -> Iterator[str]:
    knit, say = answer.piece, answer.say
    if knit is None:
        return
    alone = "by a guess at the gauge" if knit.gauge_is_guess else "by gauge alone"
    how = "by your weighed swatch" if knit.source == "measured" else alone
    each = f", each of {knit.copies}" if knit.copies > 1 else ""
    if knit.needs_m is not None and knit.needs_plied_m is not None:
        size = _SIZES[knit.kind].format(
            wide=say.width(knit.width_cm or 0.0, 0), high=say.width(knit.height_cm or 0.0, 0)
        )
        if knit.wingspan_cm is not None and answer.plan.fabric.width_cm is not None:
            size = f"{say.width(knit.wingspan_cm, 0)} from tip to tip, {size}"
        yield (
            f"To knit {knit.rows} {_SHAPES[knit.kind]} ({size}){each}: {say.long(knit.needs_m)} of "
            f"washed yarn, {say.long(knit.needs_plied_m)} as plied, give or take {knit.band:.0%} "
            f"{how}."
        )
    on = f"on {knit.stitches} stitches cast on{each}, {how}"
    yield f"From this yarn: about {_possible(knit)} {on}."


def _possible(knit: KnittedPiece) -> str:
    return f"{knit.rows_possible} {_SHAPES[knit.kind]}"
