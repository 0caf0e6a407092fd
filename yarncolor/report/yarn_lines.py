"""The yarn in sentences: how long, how thick, how twisted, how its plies meet, what it is for.

Each number is a figure, so that its reason is found.
"""

from collections.abc import Iterable, Iterator

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
from yarncolor.said import Figure, Filling, Said, said
from yarncolor.yarn.structure import YarnStructure

_SIZES = {
    "flat": "{wide} wide, {high} high",
    "round": "{wide} round, {high} high",
    "triangle": "last row {wide}, {high} of rows",
}
LOUDEST_FIRST = ("loud", "clear", "close", "alike")
_SHAPES = {"flat": "rows", "round": "rounds", "triangle": "rows, each wider than the one before"}


def yarn_lines(answer: Answer) -> Iterator[str]:
    """Return the yarn and how its plies meet, a sentence a line."""
    yield from map(str, yarn_told(answer))


def yarn_told(answer: Answer) -> Iterator[Said]:
    """Yield the same, its numbers as figures."""
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


def _first(answer: Answer) -> Said:
    laid, yarn, say = answer.layout, answer.resolved.yarn, answer.say
    tex, hangs_on = laid.yarn_tex, if_single_is(answer)
    return said(
        "Yarn: {length} and {mass} as {made}, {hangs}{plied}; {grist}, about {wraps} wraps to the "
        "inch, loosely on a ruler.",
        length=Figure(say.long(laid.stretches.yarn_m), "length"),
        mass=Figure(say.mass(laid.yarn_g, 0), "mass"),
        made="plied" if yarn.plies > 1 else "spun",
        hangs=said("{single}, ", single=Figure(hangs_on, "single")) if hangs_on else "",
        plied=Figure(in_words(laid), "plied"),
        grist=Figure(_grist(answer, tex), "grist"),
        wraps=Figure(f"{yarn.wpi(tex):.0f}", "wraps"),
    )


def _grist(answer: Answer, tex: float) -> str:
    """Return a yarn's grist; in metres in yards too, by which many patterns are written."""
    grist = answer.say.yarn(tex)
    return grist if answer.say is IMPERIAL else f"{grist} ({IMPERIAL.yarn(tex)})"


def _in_a_row(each: Iterable[Filling]) -> Said:
    """Return what is told in a row: a, b and c."""
    slots = {f"at_{at}": one for at, one in enumerate(each)}
    return Said(join_words([f"{{{name}}}" for name in slots]), slots)


def _figures(texts: Iterable[str], of: str) -> Said:
    """Return figures of one kind in a row, each once."""
    return _in_a_row(Figure(text, of) for text in dict.fromkeys(texts))


def _single(answer: Answer) -> Iterator[Said]:
    yarn, say = answer.resolved.yarn, answer.say
    if yarn.plies == 1:
        return
    each, measured = yarn.strand_tex, spun_grist(answer)
    yield said(
        "Single{known}: {fine} {to_each}, about {wraps} wraps to the inch{draft}.",
        known=", a guess" if if_single_is(answer) else ", as planned" if measured else "",
        fine=_figures(
            (f"{say.fineness.number(1000 / tex)} {say.length.unit}" for tex in each), "fine"
        ),
        to_each=say.to_each,
        wraps=_figures((f"{yarn.wpi(float(tex)):.0f}" for tex in each), "single_wraps"),
        draft=_draft(answer),
    )
    if measured:
        yield said("Single, as measured: {grist}.", grist=Figure(measured, "single_measured"))


def _draft(answer: Answer) -> Filling:
    """Return how much is drafted for each treadle; nothing where that is not known."""
    ratio, twist_tpm = answer.plan.spinning.drive_ratio, answer.resolved.yarn.twist_tpm
    if ratio is None or twist_tpm is None:
        return ""
    each_cm = (answer.say.width(float(ratio / tpm * 100)) for tpm in twist_tpm)
    return said("; draft {each} for each treadle", each=_figures(each_cm, "draft"))


def _surface(yarn: YarnStructure) -> Iterator[Said]:
    """Yield how much of the surface each ply shows, where plies are unlike."""
    shares = yarn.surface_shares
    if len(yarn.tex) > 1 and np.ptp(shares) > 1e-9:
        shown = _in_a_row(
            said("ply {ply} {share}", ply=k + 1, share=Figure(f"{share:.0%}", "surface"))
            for k, share in enumerate(shares)
        )
        yield said(
            "Of the yarn's surface {shown} is seen, thick plies more than thin ones.", shown=shown
        )


def _twist(answer: Answer) -> Iterator[Said]:
    yarn = answer.resolved.yarn
    parts = [*_of_singles(yarn), *_of_plies(answer)]
    if parts:
        yield said(
            "Twist{by}: {parts}.",
            by=", by the single as planned" if spun_grist(answer) else "",
            parts=_parted(parts, "; "),
        )


def _parted(parts: Iterable[Filling], by: str) -> Said:
    slots = {f"part_{at}": one for at, one in enumerate(parts)}
    return Said(by.join(f"{{{name}}}" for name in slots), slots)


def _of_singles(yarn: YarnStructure) -> Iterator[Said]:
    """Yield the twist of each single, once where all are alike; nothing where it is not known."""
    twists = _singles_twist(yarn)
    if len({str(one) for one in twists}) == 1:
        yield said("singles with {twist}", twist=twists[0])
    elif twists:
        each = (said("ply {ply}: {twist}", ply=k, twist=one) for k, one in enumerate(twists, 1))
        yield _parted(each, ", ")


def _of_plies(answer: Answer) -> Iterator[Said]:
    yarn, mm = answer.resolved.yarn, answer.say.thickness
    if yarn.helix_angle_deg is None or yarn.ply_twist_tpm is None:
        return
    yield said(
        "plied with {twist}, {way}, the plies at {angle}: once round in {turn}, the next ply every "
        "{spacing} along one side",
        twist=Figure(turns(yarn.ply_twist_tpm), "ply_twist"),
        way=direction(yarn.ply_direction),
        angle=Figure(f"{yarn.helix_angle_deg:.0f}°", "angle"),
        turn=Figure(mm(yarn.pitch_mm or 0.0), "turn"),
        spacing=Figure(mm(yarn.ply_spacing_mm or 0.0), "spacing"),
    )


def _singles_twist(yarn: YarnStructure) -> list[Said]:
    """Return the twist of each single; nothing where it is not known."""
    if yarn.twist_tpm is None or yarn.surface_angles_deg is None:
        return []
    each = zip(yarn.twist_tpm, yarn.directions, yarn.surface_angles_deg, strict=True)
    return [
        said(
            "{twist}, {way}, outer fibres at {angle}",
            twist=Figure(turns(float(twist)), "twist"),
            way=direction(way),
            angle=Figure(f"{angle:.0f}°", "fibre_angle"),
        )
        for twist, way, angle in each
    ]


def _length_lost(answer: Answer) -> Iterator[Said]:
    yarn = answer.resolved.yarn
    if not yarn.contraction and not yarn.contraction_by_model:
        return
    is_measured = yarn.model == "measured"
    others = [
        said(
            "{lost} by {way}", lost=Figure(_lost(share), "lost_else"), way=model_words(yarn, model)
        )
        for model, share in yarn.contraction_by_model.items()
        if model != yarn.model
    ]
    yield said(
        "Length in plying: {lost}, {how}{rest}.{between}{ask}",
        lost=Figure(_lost(yarn.contraction), "lost"),
        how="as measured" if is_measured else f"by {model_words(yarn, yarn.model)}",
        rest=said(" ({others})", others=_parted(others, "; ")) if others else "",
        between=_between(answer),
        ask="" if is_measured else " A plied sample, measured, settles it.",
    )


def _between(answer: Answer) -> Filling:
    """Return between which lengths lost, and metres, the true ones are to be expected."""
    yarn, between = answer.resolved.yarn, answer.lengths.plied_between_m
    if yarn.contraction_band is None or between is None:
        is_most = yarn.model == "helix" and all(yarn.opposed)
        return " That is the most: singles that untwist lose less." if is_most else ""
    low, high = (Figure(_lost(share), "lost_between") for share in yarn.contraction_band)
    least, most = (Figure(answer.say.long(length_m), "length_between") for length_m in between)
    return said(
        " Expect between {low} and {high}, so {least} to {most}{why}.",
        low=low,
        high=high,
        least=least,
        most=most,
        why=", as these ways differ and a measured yarn lost less than either" * all(yarn.opposed),
    )


def _lost(share: float) -> str:
    """Return a share of length lost, or won, in words."""
    if abs(share) < 0.0005:
        return "nothing lost"
    return f"{abs(share):.1%} {'lost' if share > 0 else 'won'}"


def _bands(answer: Answer) -> Iterator[Said]:
    bands, long = answer.spread, answer.say.long
    if bands is None:
        return
    first = " What is plied first has strayed least." if answer.resolved.yarn.plies > 1 else ""
    yield said(
        "As unevenly as you spin ({uneven}), expect {expected}: nine yarns of ten are between "
        "{low} and {high}{rests_on}.{first}",
        uneven=Figure(unevenness(answer), "uneven"),
        expected=Figure(long(bands.expected_m), "expected"),
        low=Figure(long(bands.low_m), "nine_of_ten"),
        high=Figure(long(bands.high_m), "nine_of_ten"),
        rests_on=_rests_on(answer),
        first=first,
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


def _rests_on(answer: Answer) -> Filling:
    """Return on what a band rests: how portions go together, and bobbins."""
    hands = answer.plan.spinning
    alike: Filling = "if each portion strays by itself"
    if hands.variation_drift:
        drift = Figure(f"{hands.variation_drift:.0%}", "uneven")
        alike = said("where neighbouring portions are {drift} alike in grist", drift=drift)
    if hands.variation_drift or hands.variation_bobbins:
        return said(", {alike}", alike=alike)
    more = "; fewer are where grist drifts or bobbins differ, until you say so"
    return said(", {alike}{more}", alike=alike, more=more)


def _later(answer: Answer) -> Iterator[Said]:
    later, called, say = answer.lengths, answer.weight_class, answer.say
    if later.rested_m is not None:
        rested = Figure(say.long(later.rested_m), "rested")
        yield said("Rested off the bobbin, measured relaxed: {rested}.", rested=rested)
    shrinkage = answer.plan.fabric.finishing_shrinkage
    if later.finished_m is not None and shrinkage is not None:
        yield said(
            "Washed: {washed}, {shrinks}; then {grist}.",
            washed=Figure(say.long(later.finished_m), "washed"),
            shrinks=Figure(_lost(shrinkage), "shrinks"),
            grist=Figure(say.yarn(answer.layout.finished_tex), "washed_grist"),
        )
    gauge = answer.plan.fabric.gauge_stitches
    own = _figures(called.by["gauge"], "class") if gauge else ""
    yield said(
        "In a shop it would {then}{be} {called}{unlike}.{own}",
        then="then " if if_single_is(answer) else "",
        be="be sold as" if called.agreed else "lie",
        called=Figure(called.name, "class"),
        unlike="" if called.agreed else ", as labels differ",
        own=said(" Your gauge says {own}.", own=own) if gauge else "",
    )


def _side_by_side(answer: Answer) -> Iterator[Said]:
    shares = answer.shares
    if len(shares) == 1:
        return
    by = [
        said("{share}", share=Figure(f"{count} colours {percent(share)}", f"{count}_colours"))
        for count, share in enumerate(shares[1:], 2)
        if share
    ]
    matched = said("matched {share}", share=Figure(percent(shares[0]), "matched"))
    yield said("Side by side: {shares}.", shares=_parted([matched, *by], ", "))
    if shares[0] < 1:
        called = shares_called(answer)
        marls = [
            said("{word} over {share}", word=word, share=Figure(percent(called[word]), word))
            for word in LOUDEST_FIRST
            if word in called
        ]
        yield said("The marl to the eye: {marls} of the yarn.", marls=_parted(marls, ", "))
    first = first_all_different_m(answer)
    if first is not None:
        at = Figure(f"{about(answer)}{answer.say.length(first)}", "first_seen")
        yield said(
            "You first see every ply in its own colour {at} from where plying begins.", at=at
        )
    elif shares[0] < 1:
        yield said("Nowhere are all plies of different colours at once.")


def _hours(answer: Answer) -> Iterator[Said]:
    takes = answer.hours
    if takes.spinning_h is None:
        return
    plying: Filling = ", without plying" if answer.resolved.yarn.plies > 1 else ""
    if takes.plying_h is not None:
        hours = Figure(hours_text(takes.plying_h), "plying_hours")
        plying = said(", and {hours} plying", hours=hours)
    yield said(
        "At the wheel: about {hours} spinning{plying}.",
        hours=Figure(hours_text(takes.spinning_h), "spinning_hours"),
        plying=plying,
    )


def _knitted(answer: Answer) -> Iterator[Said]:
    knit, say = answer.piece, answer.say
    if knit is None:
        return
    alone = "by a guess at the gauge" if knit.gauge_is_guess else "by gauge alone"
    how = "by your weighed swatch" if knit.source == "measured" else alone
    each: Filling = ""
    if knit.copies > 1:
        each = said(", each of {copies}", copies=Figure(f"{knit.copies}", "plied"))
    if knit.needs_m is not None and knit.needs_plied_m is not None:
        yield said(
            "To knit {rows} ({size}){each}: {needs} of washed yarn, {plied} as plied, give or take "
            "{band} {how}.",
            rows=Figure(f"{knit.rows} {_SHAPES[knit.kind]}", "rows"),
            size=_size(answer, knit),
            each=each,
            needs=Figure(say.long(knit.needs_m), "needs"),
            plied=Figure(say.long(knit.needs_plied_m), "needs_plied"),
            band=Figure(f"{knit.band:.0%}", "give_or_take"),
            how=how,
        )
    yield said(
        "From this yarn: about {possible} on {stitches} stitches cast on{each}, {how}.",
        possible=Figure(f"{knit.rows_possible} {_SHAPES[knit.kind]}", "rows_possible"),
        stitches=Figure(f"{knit.stitches}", "stitches"),
        each=each,
        how=how,
    )


def _size(answer: Answer, knit: KnittedPiece) -> Said:
    """Return how large a piece is; of a triangle that is to be so wide, from tip to tip too."""
    width = answer.say.width
    size = said(
        _SIZES[knit.kind],
        wide=Figure(width(knit.width_cm or 0.0, 0), "wide"),
        high=Figure(width(knit.height_cm or 0.0, 0), "high"),
    )
    if knit.wingspan_cm is None or answer.plan.fabric.width_cm is None:
        return size
    span = Figure(width(knit.wingspan_cm, 0), "tip_to_tip")
    return said("{span} from tip to tip, {size}", span=span, size=size)
