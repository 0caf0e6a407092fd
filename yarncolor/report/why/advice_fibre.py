"""Why it is told so what becomes of the fibre: what runs on, stays over, lacks, is too short."""

from collections.abc import Iterator, Sequence

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.braid_strips import braid_strips
from yarncolor.answers.fibre import missing
from yarncolor.answers.runs import at_fault
from yarncolor.layout.layout import used_g
from yarncolor.report import braid_advice, stripe_advice
from yarncolor.report.scheme_advice import MOST_NAMED as MOST_LOTS
from yarncolor.report.scheme_advice import mostly_left
from yarncolor.report.stripe_advice import MOST_NAMED, STAPLE_M
from yarncolor.report.why import equations as by
from yarncolor.report.why import equations_of_advice as told_by
from yarncolor.report.why import sources
from yarncolor.report.why.advice_colours import more
from yarncolor.report.why.equation import Working
from yarncolor.report.why.plying import left_on_singles
from yarncolor.report.why.reason import Reason, Source
from yarncolor.report.why.stash import left_whys

_WHOLE = 1e-6
_USUAL = "the middle one of all runs of its ply by length"
_CLOSINGS = "the plan laid out anew with each way of closing"
_NEVER = "what there is to divide, less what rows take, was lost or is drawn off"
_STRIPES = "stripe by stripe what its rows take of each lot, until one gives out"
_ROWS = "rows of all stripes, and rows of the piece"
_HEAP = "portions below two steps cannot be weighed one by one as they should be"
_DIVIDES = "each portion has to be a whole number of rolags, or of parts that hands find"
_FIRST_LOT = "the lot of which plies take most gives out first and ends the others"
_STAPLE = Source("length of a staple", "assumed", "as of wool, by common practice")
_THIN = Source("what splits off in one piece", "assumed", "by common practice")


def run_told(answer: Answer) -> Iterator[Reason]:
    """Yield why a lot is told to run on, and what each way of closing costs."""
    wrong, own = np.flatnonzero(at_fault(answer.runs, answer.layout)), answer.runs
    known = (sources.order(answer), sources.masses(answer), sources.grist(answer))
    worst = wrong[np.argmax(own.ratio[wrong])]
    start_m, end_m = float(own.start_m[worst]), float(own.end_m[worst])
    run_m = end_m - start_m
    runs_on = Working(told_by.RUNS, {"end_m": end_m, "start_m": start_m})
    of_ply = (own.end_m - own.start_m)[own.ply == own.ply[worst]]
    usual = {"run_m": run_m, "usual_m": float(np.median(of_ply))}
    yield Reason("how long it runs on", known, (runs_on,))
    yield Reason("times the usual run", known, (Working(told_by.TIMES_THE_USUAL, usual),), _USUAL)
    if answer.closing_costs:
        yield Reason("what each way of closing costs", known, (), _CLOSINGS)


def runs_out_told(answer: Answer) -> Iterator[Reason]:
    """Yield why plies do not run out together."""
    yield left_on_singles(answer)
    yield left_whys(answer).heads["left over"]


def target_told(answer: Answer) -> Iterator[Reason]:
    """Yield why the stash gives no more of the yarn that is wanted, and what lacks."""
    laid = answer.layout
    yarn_m = laid.stretches.yarn_m
    long = {"yarn_m": yarn_m, "wanted_m": yarn_m * laid.target_ratio}
    makes = (sources.masses(answer), sources.grist(answer), sources.length_lost(answer))
    wanted = Source("the yarn that is wanted", "decided")
    yield Reason(
        "share of the yarn that is wanted", (wanted, *makes), (Working(told_by.GIVES, long),)
    )
    planned, card_loss = laid.planned, answer.resolved.card_loss
    own_g = np.bincount(planned.lot, planned.mass_g, len(answer.plan.lots))
    lines = tuple(
        Working(
            told_by.LACKS_FOR_IT,
            {"spun_g": float(own_g[lack.lot]), **long, "card_loss": card_loss},
            answer.plan.names[lack.lot],
        )
        for lack in missing(answer)
    )
    yield Reason("missing", (wanted, *makes, sources.card_loss(answer)), lines)


def stripes_told(answer: Answer) -> Iterator[Reason]:
    """Yield after which stripe the fibre gives out."""
    stitch = (sources.stitch(answer), sources.gauge(answer))
    known = (sources.order(answer), *stitch, sources.masses(answer), sources.grist(answer))
    yield Reason("stripes that it gives", known, (), _STRIPES)
    laid, card_loss = answer.resolved.scheme_input.striped, answer.resolved.card_loss
    lacks_g = () if laid is None else laid.lacks_g.tolist()
    lines = tuple(
        Working(by.BEFORE_CARDING, {"mass_g": mass_g, "card_loss": card_loss}, name)
        for name, mass_g in zip(answer.plan.names, lacks_g, strict=False)
        if mass_g
    )
    yield Reason("missing, before carding", (*known, sources.card_loss(answer)), lines)


def rows_told(answer: Answer) -> Iterator[Reason]:
    """Yield why stripes come to other rows than the piece."""
    rows = sources.size(answer, "rows", "rows of the piece")
    yield Reason("rows", (sources.order(answer), rows), (), _ROWS)


def staples_told(answer: Answer) -> Iterator[Reason]:
    """Yield why what is shorter than two staples is told."""
    staples = Working(told_by.STAPLES, {"staple_cm": STAPLE_M * 100})
    counted = more(len(_short(answer)), MOST_NAMED, "of them")
    known = (_STAPLE, sources.grist(answer), sources.order(answer))
    yield Reason("two staples", known, (staples, *counted))


def _short(answer: Answer) -> Sequence[object]:
    """Return the stripes, or the colours of a braid, that are shorter than two staples."""
    braid = answer.plan.braid
    return stripe_advice.too_short(answer) if braid is None else braid_advice.too_short(braid)


def thin_told(answer: Answer) -> Iterator[Reason]:
    """Yield why strips of a braid are told to be thin."""
    braid = answer.plan.braid
    if braid is None:
        return
    least = min(one.share for one in braid_strips(answer.layout))
    values = {"mass_g": braid.mass_g, "braid_m": braid.length_cm / 100, "strip_share": least}
    length = Source("length and weight of the braid", "given", "", "measure it", sources.OPTIONS)
    thinnest = (Working(told_by.THINNEST, values),)
    yield Reason("thinnest strip", (length, sources.order(answer), _THIN), thinnest)


def unspun_told(answer: Answer) -> Iterator[Reason]:
    """Yield why most of some lots is left where plies take other shares than there is."""
    used = used_g(answer.layout)
    has_g = answer.resolved.to_divide_g * min(answer.layout.target_ratio, 1.0)
    lines = tuple(
        Working(
            by.OF_THE_GRAMS,
            {"spun_g": float(used[at]), "all_g": float(has_g[at])},
            answer.plan.names[at],
        )
        for at in np.flatnonzero(used)
    )
    known = (sources.order(answer), sources.masses(answer))
    counted = more(len(mostly_left(answer)), MOST_LOTS, "lots")
    yield Reason("spun", known, (*lines, *counted), _FIRST_LOT)


def never_told(answer: Answer) -> Iterator[Reason]:
    """Yield why fibre is left that no row takes."""
    taken_g, there_g = used_g(answer.layout), answer.resolved.to_divide_g
    lines = tuple(
        Working(told_by.STAYS_IN_DRAWER, {"there_g": has, "taken_g": taken}, name)
        for name, has, taken in zip(
            answer.plan.names, there_g.tolist(), taken_g.tolist(), strict=True
        )
        if taken and has - taken > _WHOLE
    )
    is_whole = not answer.plan.lost and answer.layout.wheel is None
    known = (sources.masses(answer), sources.order(answer))
    yield Reason("never spun", known, lines if is_whole else (), _NEVER)


def heap_told(answer: Answer) -> Iterator[Reason]:
    """Yield why portions are weighed in a heap."""
    known = (sources.step(answer), sources.masses(answer), sources.order(answer))
    yield Reason("a heap", known, (), _HEAP)
    yield Reason("a step", (sources.step(answer),))


def rolags_told(answer: Answer) -> Iterator[Reason]:
    """Yield why rolags do not divide, and what each weighs."""
    known = (sources.masses(answer), sources.order(answer))
    lines = tuple(
        Working(told_by.EACH_ROLAG, {"mass_g": lot.mass_g, "rolags": float(lot.rolags)}, lot.name)
        for lot in answer.plan.lots
        if lot.rolags
    )
    yield Reason("each of them as they are", known, lines)
    yield Reason("how many would", known, (), _DIVIDES)
