"""Advice on the yarn as a body: its twist, its bobbins and skeins, its hours, its fabric."""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.hours import FASTEST_RPM
from yarncolor.answers.knitted_piece import to_card_g
from yarncolor.layout.layout import used_g
from yarncolor.phrases import capital, direction, hours_text, join_words, plies_words, turns
from yarncolor.plan import Lot
from yarncolor.report.ways import Change, Told, Way
from yarncolor.said import Figure, Said, said
from yarncolor.units import diameter_mm
from yarncolor.yarn.balance import WORDS as RULE_WORDS
from yarncolor.yarn.knitting import JAMMED_LOOP_DIAMETERS, LOOSEST, TIGHTEST, loop_length_cm
from yarncolor.yarn.regain import mass_at_regain_g
from yarncolor.yarn.twist import STEEPEST_VALID_DEG

_SHORT = 1 - 1e-9
_ALIKE = 1e-9
MOST_NAMED = 6
_WORTH_SAYING_M = 1.0
_JAMMED, _SWATCH_AGREES = 0.8, 0.25
_FEWEST_ROWS, _MOST_ROWS = 0.9, 2.2


def wrong_twist(answer: Answer) -> Iterator[str | Told]:
    """Yield what is said where a single's twist does not go with the others or with the ply."""
    yarn = answer.resolved.yarn
    if yarn.plies == 1:
        return
    same = [k for k, one in enumerate(yarn.directions) if one == yarn.ply_direction]
    if not same:
        return
    wheel = direction(yarn.ply_direction)
    if len(same) == len(yarn.directions):
        told = (
            f"Singles and yarn are all twisted {wheel}: plying adds twist to the singles instead "
            "of taking some out, and the yarn kinks. Ply the other way."
        )
        yield told, (), (Way("ply the other way", change=(("plying", "direction", None),)),)
        return
    yield (
        f"{capital(plies_words(same))} {'is' if len(same) == 1 else 'are'} spun {wheel}, as the "
        "yarn is plied, and the others are not. A bobbin spun the other way cannot be plied in: it "
        "winds tight while the rest open. Spin it anew, or keep it for another yarn."
    )


def steep_twist(answer: Answer) -> Iterator[str]:
    """Yield where twist is beyond what the formulas describe."""
    yarn = answer.resolved.yarn
    angles = yarn.surface_angles_deg
    if angles is not None and angles.max() > STEEPEST_VALID_DEG:
        yield (
            f"The singles' fibres stand at {angles.max():.0f}°; above {STEEPEST_VALID_DEG:.0f}° "
            "the formulas no longer hold and singles kink. Twist less, or measure a sample."
        )
    if yarn.helix_angle_deg is not None and yarn.helix_angle_deg > STEEPEST_VALID_DEG:
        yield (
            f"The plies stand at {yarn.helix_angle_deg:.0f}° in the yarn; above "
            f"{STEEPEST_VALID_DEG:.0f}° the formulas no longer hold. Twist less, or measure a "
            "sample."
        )


def out_of_balance(answer: Answer) -> Iterator[Told]:
    """Yield what is said where the ply twist lies outside every criterion of balance."""
    yarn = answer.resolved.yarn
    balanced, single = yarn.balanced_tpm.values(), yarn.mean_single
    if not balanced or yarn.ply_twist_tpm is None or single is None or not single.opposed:
        return
    low, high = min(balanced), max(balanced)
    between = f"{turns(low).split()[0]} and {turns(high)}"
    if yarn.ply_twist_tpm < low:
        told = (
            f"Plied with {turns(yarn.ply_twist_tpm)}, less than any rule for a balanced yarn: "
            f"these ask for between {between}. The skein will twist back on itself; good for an "
            "energised fabric, else ply tighter."
        )
        yield told, (), (_plied_by(answer, "ply tighter", low),)
    elif yarn.ply_twist_tpm > high:
        told = (
            f"Plied with {turns(yarn.ply_twist_tpm)}, more than any rule for a balanced yarn: "
            f"these ask for between {between}. Firm and lively; if that is not meant, ply looser "
            "or spin the singles tighter."
        )
        yield told, (), (_plied_by(answer, "ply looser", high),)


def _plied_by(answer: Answer, choice: str, twist_tpm: float) -> Way:
    """Return plying by the rule that asks for so much twist, without what was measured before."""
    rules = answer.resolved.yarn.balanced_tpm
    rule = next(name for name, asked in rules.items() if asked == twist_tpm)
    change: Change = (
        ("plying", "twist_tpm", None),
        ("plying", "twist_tpi", None),
        ("plying", "balance", rule),
    )
    measured = []
    if answer.plan.plying.contraction is not None:
        measured.append("the length lost in plying")
        change += (("plying", "contraction", None),)
    if answer.plan.fabric.swatch is not None:
        measured.append("the swatch")
        change += (("fabric", "swatch", None),)
    cost = f"left out, as measured on another yarn: {join_words(measured)}" if measured else ""
    return Way(f"{choice}, {turns(twist_tpm)}: {RULE_WORDS[rule]}", cost=cost, change=change)


def implausible_hours(answer: Answer) -> Iterator[str]:
    """Yield where the pace is more than a flyer gives, or two ways to the hours disagree."""
    takes = answer.hours
    if takes.is_implausible:
        yield (
            f"At this pace the flyer would turn {takes.flyer_rpm:,.0f} times a minute; above "
            f"{FASTEST_RPM:,.0f} is implausible on a wheel driven by foot; a motor may give more. "
            "Check minutes, treadling, ratio and twist."
        )
    if takes.two_stories_h is not None:
        by_gram, by_treadling = map(hours_text, takes.two_stories_h)
        yield (
            f"Two ways to the hours disagree: {by_gram} by {answer.say.pace.name}, "
            f"{by_treadling} by treadling, ratio and twist. The first is "
            f"counted; time a few {answer.say.mass.plural} to see which is right."
        )


def uneven(answer: Answer) -> Iterator[str]:
    """Yield what to expect on the bobbins when the first single has run out."""
    bands = answer.spread
    if bands is None or len(bands.left_m) == 1:
        return
    short_m = answer.layout.stretches.yarn_m - bands.expected_m
    if short_m < _WORTH_SAYING_M:
        return
    yield (
        "Spun as unevenly as you say, one single runs out early: expect the yarn "
        f"{answer.say.long(short_m)} shorter than planned, and about "
        f"{answer.say.long(bands.left_m.mean())} of single on each bobbin in the mean. Keep to the "
        "stop-and-weigh points to do better."
    )


def moisture(answer: Answer) -> Iterator[str]:
    """Yield how much it matters that lots were weighed on days of different air."""
    yield from map(str, moisture_told(answer))


def moisture_told(answer: Answer) -> Iterator[Said]:
    """Yield the same, its numbers as figures."""
    off = weighed_otherwise(answer)
    if not off:
        return
    changed = {f"at_{at}": _would_be(answer, one) for at, one in enumerate(off[:MOST_NAMED])}
    left = len(off) - MOST_NAMED
    more = Figure(f"{left} more", "lots") if left > 0 else None
    worst = max(abs(one.then_g / one.lot.mass_g - 1) for one in off)
    yield said(
        "Lots were weighed in different air: {on}, {changed}{more}. Up to {worst} of mass, and no "
        "{length}: shares and grist are out by so much. Weigh everything anew at one sitting.",
        on=_day(answer),
        changed=Said(join_words([f"{{{name}}}" for name in changed]), changed),
        more="" if more is None else said(", and {left} lots", left=more),
        worst=Figure(f"{worst:.1%}", "worst"),
        length=answer.say.length.name,
    )


class OtherAir(NamedTuple):
    """A lot that was weighed in other air: its water then, and its grams on the day of the rest."""

    lot: Lot
    regain_before: float
    regain_after: float
    then_g: float


def weighed_otherwise(answer: Answer) -> list[OtherAir]:
    """Return the lots that were weighed in other air than that of the day which counts.

    That is the day of weighing out; where nothing is said of it, the day of the first lot.
    """
    told = [(lot, lot.regain) for lot in answer.plan.lots if lot.regain is not None]
    day = answer.plan.scale.regain
    base = told[0][1] if told and day is None else day
    return [
        OtherAir(lot, regain, base, mass_at_regain_g(lot.mass_g, regain, base))
        for lot, regain in told
        if base is not None and abs(regain - base) > _ALIKE
    ]


def _would_be(answer: Answer, one: OtherAir) -> Said:
    mass = answer.say.mass
    return said(
        "{lot} {was} would be {then}",
        lot=one.lot.name,
        was=Figure(mass(one.lot.mass_g), "was"),
        then=Figure(mass(one.then_g), "then"),
    )


def _day(answer: Answer) -> str:
    """Return in what air grams are told of lots that were weighed in other air."""
    if answer.plan.scale.regain is not None:
        return "on the day of weighing out"
    first = next(lot for lot in answer.plan.lots if lot.regain is not None)
    return f"on the day of {first.name}"


def short_of_piece(answer: Answer) -> Iterator[str]:
    """Yield what is missing for the piece that is to be knitted."""
    knit = answer.piece
    if knit is None or knit.needs_m is None or knit.all_plied_m is None:
        return
    if answer.resolved.scheme_input.striped is not None:
        return
    if knit.has_m >= knit.needs_m * _SHORT:
        return
    needed, laid = to_card_g(answer.layout, knit.all_plied_m), answer.layout
    have = to_card_g(laid, laid.stretches.yarn_m)
    short = [(at, needed[at] - have[at]) for at in np.flatnonzero(needed > have)]
    lots = join_words(
        [f"{answer.say.mass(mass)} of {answer.plan.names[at]}" for at, mass in short[:MOST_NAMED]]
    )
    more = f", and of {len(short) - MOST_NAMED} more lots" if len(short) > MOST_NAMED else ""
    drawer = (laid.resolved.to_divide_g - used_g(laid)) / (1 - laid.resolved.card_loss)
    rest = f"For the rest, card {lots} more{more}."
    if any(mass > drawer[at] * (1 + 1e-9) for at, mass in short):
        rest = (
            f"The stash does not hold the rest: it would take {lots} more{more}. Knit what it "
            "gives, cast on fewer stitches, or spin finer."
        )
    each, own = ("Each of them", " for it") if knit.copies > 1 else ("The piece", "")
    yield (
        f"{each} takes {answer.say.long(knit.needs_m)} of washed yarn and this plan makes "
        f"{answer.say.long(knit.has_m)}{own}: {knit.rows_possible} of {knit.rows} "
        f"{'rounds' if knit.kind == 'round' else 'rows'}. {rest}"
    )


def gauge(answer: Answer) -> Iterator[str]:
    """Yield where a gauge asks for an unusual fabric, or a swatch says another stitch than it."""
    knit = answer.piece
    if knit is None:
        return
    yarn = answer.resolved.yarn
    mm, rate = answer.say.thickness, answer.say.gauge
    at_gauge = f"At {rate.short(knit.gauge_stitches)} stitches {rate.unit}"
    jammed_mm = JAMMED_LOOP_DIAMETERS * diameter_mm(
        answer.layout.finished_tex, yarn.packed_density_g_per_cm3
    )
    usual = (
        f"how much yarn there is for its stitches: {knit.tightness:.1f} in numbers, "
        f"{LOOSEST:.0f} to {TIGHTEST:.0f} is usual"
    )
    if knit.tightness > TIGHTEST:
        yield f"{at_gauge} the fabric is board-like ({usual}). Knit a swatch."
    elif knit.loop_cm * 10 < _JAMMED * jammed_mm:
        yield (
            f"{at_gauge} a stitch holds {mm(knit.loop_cm * 10, 0)} of yarn; one of this thickness "
            f"jams at about {mm(jammed_mm, 0)}. Knit a swatch."
        )
    elif knit.tightness < LOOSEST:
        yield f"{at_gauge} the fabric is open ({usual}). Knit a swatch."
    if not _FEWEST_ROWS < knit.gauge_rows / knit.gauge_stitches < _MOST_ROWS:
        yield (
            f"{rate.short(knit.gauge_stitches)} stitches and {rate.short(knit.gauge_rows)} rows "
            f"{rate.unit} are no plain "
            "knitting, which has 1.2 to 1.5 rows for a stitch. Count both once more."
        )
    by_gauge = loop_length_cm(knit.gauge_stitches, knit.gauge_rows)
    if not 1 - _SWATCH_AGREES < knit.loop_cm / by_gauge < 1 + _SWATCH_AGREES:
        yield (
            f"The swatch says {mm(knit.loop_cm * 10)} of yarn in a stitch, the gauge "
            f"{mm(by_gauge * 10)}: one of them is not of this fabric. The swatch is counted."
        )
