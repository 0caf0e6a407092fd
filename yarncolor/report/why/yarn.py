"""Why the numbers of the yarn are what they are: thickness, lengths, grist in every system, air."""

from collections.abc import Iterator

import numpy as np

from yarncolor import units
from yarncolor.answers.answer import Answer
from yarncolor.phrases import ply_words
from yarncolor.report.why import equations as by
from yarncolor.report.why import sources
from yarncolor.report.why.equation import Equation, Working
from yarncolor.report.why.hands import portion_strays
from yarncolor.report.why.reason import Reason, Source, Whys, whys_of
from yarncolor.report.why.twist import length_lost, ply_twist_sources
from yarncolor.report.why.wheel import job_hours
from yarncolor.report.yarn_advice import weighed_otherwise
from yarncolor.yarn.structure import YarnStructure


def known_whys(answer: Answer) -> Whys:
    """Return the reasons for the table of what is known."""
    return whys_of(answer, rows={**_thickness(answer), **_geometry(answer), **_lengths(answer)})


def counts_whys(answer: Answer) -> Whys:
    """Return the reasons for grist in every system, and for wraps by every convention."""
    yarn, laid = answer.resolved.yarn, answer.layout
    columns = {
        "single of ply 1": float(yarn.strand_tex[0]),
        "yarn as plied": laid.yarn_tex,
        "yarn washed": laid.finished_tex,
    }
    known = _of_grist(answer, sources.wash(answer))
    rows = {
        system: Reason(
            system, known, tuple(_of_tex(equation, tex, of) for of, tex in columns.items())
        )
        for system, equation in by.COUNTS.items()
    }
    own = tuple(
        Working(by.WRAPS, {"diameter_mm": ruler_mm(yarn, tex)}, of) for of, tex in columns.items()
    )
    as_you = "wraps to the inch, as you wrap"
    rows[as_you] = Reason(as_you, (sources.ruler_density(answer), *known), own)
    for way, equation in by.WRAPPED.items():
        each = tuple(
            Working(equation, {"yd_per_lb": units.yd_per_lb(tex)}, of)
            for of, tex in columns.items()
        )
        rows[f"wraps to the inch, {way} way"] = Reason("wraps to the inch", known, each)
    return whys_of(answer, rows=rows, column=0)


def moisture_whys(answer: Answer, regain_before: float, regain_after: float) -> Whys:
    """Return the reasons for what a yarn weighs in other air.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    regain_before, regain_after : float
        Water over dry mass as weighed out, and in the air that is told of.
    """
    damp, masses = sources.damp(answer), sources.masses(answer)
    air = Source(
        "figures for other air", "assumed", "as standards have them", damp.surer, damp.section
    )
    waters = {"regain_after": regain_after, "regain_before": regain_before}
    weighs = Working(by.MOIST, {"mass_g": answer.layout.yarn_g, **waters}, "in the last air")
    more = Working(by.MOISTER, waters, "in the last air")
    return whys_of(
        answer,
        heads={
            "water beside bone-dry wool": Reason("water", (damp, air), (), _AIR),
            "weighs": Reason("it weighs", (damp, air, masses), (weighs,)),
            "difference": Reason("difference", (damp, air), (more,)),
        },
    )


def other_air_reasons(answer: Answer) -> dict[str, Reason]:
    """Return the reasons for grams of lots that were weighed in other air, by what they are of."""
    off, masses = weighed_otherwise(answer), sources.masses(answer)
    wet = Source("water of each lot as weighed", "given", "", _DRY, sources.LOTS)
    waters = [{"regain_after": one.regain_after, "regain_before": one.regain_before} for one in off]
    each = list(zip(off, waters, strict=True))
    then = tuple(
        Working(by.MOIST, {"mass_g": one.lot.mass_g, **water}, one.lot.name) for one, water in each
    )
    worst = tuple(Working(by.MOISTER, water, one.lot.name) for one, water in each)
    return {
        "was": Reason("as weighed", (masses,)),
        "then": Reason("it would be", (wet, masses), then),
        "worst": Reason("up to", (wet,), worst, "the largest of these, up or down"),
        "lots": Reason("lots that are not named", (wet,), (), "counted of those in other air"),
    }


_DRY = "dry a weighed sample of each in a warm oven and weigh it again, or weigh all on one day"
_AIR = "what is given for the day of weighing, and for other air what standards and trade agree on"


def _of_tex(equation: Equation, linear_density_tex: float, of: str = "") -> Working:
    return Working(equation, {"linear_density_tex": linear_density_tex}, of)


def ruler_mm(yarn: YarnStructure, linear_density_tex: float) -> float:
    """Return how thick a strand lies when nothing presses on it.

    Parameters
    ----------
    yarn : YarnStructure
        How loosely it is wrapped.
    linear_density_tex : float
        Of the strand.
    """
    return units.diameter_mm(linear_density_tex, yarn.relaxed_density_g_per_cm3)


def _of_grist(answer: Answer, *more: Source) -> tuple[Source, ...]:
    """Return what the thickness of the plied yarn rests on."""
    lost = () if answer.resolved.yarn.plies == 1 else (sources.length_lost(answer),)
    return (sources.grist(answer), *lost, *more)


def each_ply(yarn: YarnStructure) -> Iterator[tuple[int, str]]:
    """Yield one single of each thickness, and what it is called among several."""
    _, first = np.unique(yarn.strand_tex, return_index=True)
    for ply in sorted(first.tolist()):
        yield ply, ply_words(ply, len(yarn.tex)) if len(first) > 1 else ""


def thickness_reason(answer: Answer, words: str) -> Reason:
    """Return why a yarn is so thick, as the table of what is known calls it.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    words : str
        wraps to the inch, grist of the yarn, …
    """
    return _thickness(answer)[words]


def washed_reason(answer: Answer) -> Reason:
    """Return why the yarn is so long when it is washed."""
    lengths = {
        "yarn_m": answer.lengths.plied_m,
        "finishing_ratio": answer.resolved.yarn.finishing_ratio,
    }
    rests_on = (sources.wash(answer), sources.rest(answer), *length_reason(answer).rests_on)
    return Reason("washed", rests_on, (Working(by.WASHED, lengths),))


def _thickness(answer: Answer) -> dict[str, Reason]:
    yarn, tex = answer.resolved.yarn, answer.layout.yarn_tex
    grist, ruler, packed = (
        of(answer) for of in (sources.grist, sources.ruler_density, sources.packed_density)
    )
    on_ruler = {"linear_density_tex": tex, "density_g_per_cm3": yarn.relaxed_density_g_per_cm3}
    each = tuple(_of_tex(by.GRIST, float(yarn.strand_tex[k]), of) for k, of in each_ply(yarn))
    plied = _of_grist(answer)
    wraps = Working(by.WRAPS, {"diameter_mm": ruler_mm(yarn, tex)})
    designation = "as mills write it"
    return {
        "grist of the singles": Reason("grist of the singles", (grist,), each),
        designation: Reason("the yarn’s tex", plied, _resultant(answer), _WRITTEN),
        f"{designation}, with its twists": Reason(
            "the yarn’s tex",
            (*plied, *ply_twist_sources(answer)),
            _resultant(answer),
            _WRITTEN,
        ),
        "grist of the yarn": Reason("grist of the yarn", plied, (_of_tex(by.GRIST, tex),)),
        "wraps to the inch": Reason("wraps to the inch", (ruler, *plied), (wraps,)),
        "thickness on a ruler": Reason(
            "thickness on a ruler", (ruler, *plied), (Working(by.THICKNESS, on_ruler),)
        ),
        "thickness of a single in the twist": Reason(
            "thickness of a single", (packed, grist), tuple(_packed(yarn))
        ),
        "density in the twist": Reason("density in the twist", (packed,)),
        "density as wrapped on a ruler": Reason("density on a ruler", (ruler,)),
    }


def _packed(yarn: YarnStructure) -> Iterator[Working]:
    """Yield the thickness in the twist of each unlike ply."""
    for ply, of in each_ply(yarn):
        values = {
            "linear_density_tex": float(yarn.tex[ply]),
            "density_g_per_cm3": yarn.packed_density_g_per_cm3,
        }
        yield Working(by.THICKNESS, values, of)


_WRITTEN = (
    "R is the tex of the yarn to three figures, then how many plies; with twists, S or Z and turns "
    "in a metre from yarn to single (ISO 1139)"
)


def _resultant(answer: Answer) -> tuple[Working, ...]:
    yarn = answer.resolved.yarn
    if answer.layout.has_own_grist:
        return (
            Working(by.WEIGHED, {"mass_g": answer.layout.yarn_g, "yarn_m": answer.lengths.plied_m}),
        )
    values = {"singles_tex": float(yarn.ply_tex.sum()), "contraction": yarn.contraction}
    return (Working(by.RESULTANT, values),)


def _geometry(answer: Answer) -> dict[str, Reason]:
    yarn, reasons = answer.resolved.yarn, dict[str, Reason]()
    lost, between = length_lost(answer)
    reasons["length lost in plying"] = lost
    if yarn.contraction_band is not None:
        reasons["length lost in plying, between"] = between
    if yarn.ply_twist_tpm is None or yarn.plies == 1:
        return reasons
    twist, packed = sources.ply_twist(answer), sources.packed_density(answer)
    ring = {"radius_mm": yarn.ply_helix_radius_mm, "ply_twist_tpm": yarn.ply_twist_tpm}
    turn = {"ply_twist_tpm": yarn.ply_twist_tpm}
    reasons["angle of the plies"] = Reason(
        "angle", (twist, packed, sources.grist(answer)), (Working(by.PLY_ANGLE, ring),)
    )
    reasons["one turn of the ply twist"] = Reason("one turn", (twist,), (Working(by.PITCH, turn),))
    return reasons


def _lengths(answer: Answer) -> dict[str, Reason]:
    later = answer.lengths
    lost, rest = (of(answer) for of in (sources.length_lost, sources.rest))
    makes = (sources.masses(answer), sources.grist(answer), lost, sources.spin_loss(answer))
    shrinks = {"resting_shrinkage": answer.plan.plying.resting_shrinkage or 0.0}
    strays = () if answer.spread is None else portion_strays(answer)
    spread = Reason("this length", (sources.evenness(answer), *makes), strays, _SPREAD)
    matched = (sources.evenness(answer), sources.order(answer))
    reasons = {
        "length as plied": length_reason(answer),
        "nine yarns of ten are between": spread,
        "and": spread,
        "length when rested": Reason(
            "rested", (rest, *makes), (Working(by.RESTED, {"yarn_m": later.plied_m, **shrinks}),)
        ),
        "length when washed": washed_reason(answer),
        "hours at the wheel": job_hours(answer),
        "matched, nine of ten": Reason("this share", matched, strays, _SPREAD_SHARE),
    }
    known = {
        "nine yarns of ten are between": answer.spread,
        "and": answer.spread,
        "length when rested": later.rested_m,
        "length when washed": later.finished_m,
        "hours at the wheel": answer.hours.job_h,
        "matched, nine of ten": answer.matched_band,
    }
    return {words: one for words, one in reasons.items() if known.get(words, one) is not None}


def length_reason(answer: Answer) -> Reason:
    """Return why the yarn is as long as it is, as plied."""
    makes = (
        *(sources.masses(answer), sources.grist(answer)),
        *(sources.length_lost(answer), sources.spin_loss(answer)),
    )
    return Reason("length as plied", makes, (_plied(answer),), _SHORTEST)


_SHORTEST = "the single that ends first ends the yarn"
_SPREAD = (
    "each single strays as its portions do, and the shortest of them ends the yarn: 5 yarns in 100 "
    "are shorter than the first number, 5 longer than the second"
)
_SPREAD_SHARE = (
    "the plan is spun many times, each portion longer or shorter as your hands stray, and plies "
    "lie side by side anew: 5 yarns in 100 match less than the first number, 5 more than the second"
)


def _plied(answer: Answer) -> Working:
    laid = answer.layout
    shortest = int(np.argmin(laid.plied_m))
    values = {
        "single_m": float(laid.portions.single_m[shortest]),
        "contraction": float(answer.resolved.yarn.contractions[shortest]),
    }
    if answer.resolved.is_chain:
        return Working(by.CHAINED, {**values, "folds": laid.folds})
    return Working(by.PLIED, values)
