"""Why hands come to what they come to: how portions stray, what ends first, what would help."""

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.drift import Drift
from yarncolor.answers.drift_helps import Help, shows_misfit
from yarncolor.answers.evenness import ASSUMED
from yarncolor.answers.straying import BY_EYE, is_by_eye, left_along, reach_m
from yarncolor.phrases import join_words, ply_words
from yarncolor.report.drift_words import HelpWords, help_words
from yarncolor.report.why import equations as by
from yarncolor.report.why import equations_of_advice as told_by
from yarncolor.report.why import sources
from yarncolor.report.why.equation import Working
from yarncolor.report.why.reason import Reason, Source, Whys, whys_of

_SPUN = "from one seed, each portion longer or shorter as the line of one portion says"
_BY_EYE = (
    f"divided by eye, its weight strays by {BY_EYE:.0%} of its share besides, while the portions "
    "of a lot together hold what it had"
)
_SHORTER = "the planned length, and that which {share} such yarns reach"
_ENDS = "counted of those yarns; where several singles end together, each has its part of one"
_WANDERS = (
    "of the change that strays least and of the one that strays most, between the places that "
    "5 and 95 of 100 such yarns have it before"
)
_OFF = (
    "the root mean square, over all pairs of plies and all yarns, of how far apart places lie that "
    "the plan has together"
)
_ALIKE = "the share over which all plies are alike, that 5 and 95 of 100 such yarns stay below"
_MISSED = (
    "stretches over which all plies are alike, and in how many of them half of all such yarns "
    "have plies more than a hand’s breadth, {ten_cm}, apart at the middle"
)
_WORK = "counted from the plan: portions, passes through the sequence, places where all change"
_SPUN_SO = "the plan is spun as often in that way, from the same seed"
_YARNS = "the shortest and the longest of those that are drawn, from the same seed each time"


def hands_reasons(answer: Answer, found: Drift, assumed: bool = False) -> dict[str, Reason]:
    """Return the reasons for what hands do to a plan, by what a figure of its sentences is of.

    Parameters
    ----------
    answer : Answer
        What follows from the plan, in hands that stray.
    found : Drift
        What they do to it.
    assumed : bool
        Whether the plan does not say how they stray.
    """
    rests_on = (_spins(answer, found), *straying_sources(answer, assumed))
    strays = portion_strays(answer)
    own = {
        "short_half": _short(answer, found, 1),
        "short_most": _short(answer, found, 2),
        "ends_first": _ends(answer, found),
        "wander": _wanders(found),
        "off": _off(answer, found),
    }
    reasons = {
        of: Reason(figure, rests_on, strays + own.get(of, ()), how + _ranks(of, found))
        for of, (figure, method) in _FIGURES.items()
        for how in [sources.in_units(answer, method)]
    }
    return {**reasons, "matched_planned": matched_reason(answer)}


_FIGURES = {
    "short_half": ("short, of half of such yarns", _SHORTER.format(share="half of all")),
    "short_most": ("short, of one in twenty", _SHORTER.format(share="all but 5 of 100")),
    "ends_first": ("ends first", _ENDS),
    "wander": ("how far a change wanders", _WANDERS),
    "off": ("how far apart", _OFF),
    "stripes": ("stripes that are missed", _MISSED),
    "matched": ("the share that is alike", _ALIKE),
    "yarns": ("length of such a yarn", _YARNS),
}
"""What each figure is, and how it is found, by what a figure of the sentences is of."""


def matched_reason(answer: Answer) -> Reason:
    """Return why so much of the yarn is matched, as planned."""
    along = answer.layout.stretches
    alike = (along.lot == along.lot[:, :1]).all(axis=1)
    matched_m = float(np.diff(along.edges_m)[alike].sum())
    share = Working(by.MATCHED, {"matched_m": matched_m, "yarn_m": along.yarn_m})
    rests_on = (sources.order(answer), sources.masses(answer), sources.grist(answer))
    return Reason("matched as planned", rests_on, (share,))


def helps_whys(answer: Answer, found: Drift, assumed: bool = False) -> Whys:
    """Return the reasons for what is won by what hands can do otherwise, and for its work.

    Parameters
    ----------
    answer : Answer
        What follows from the plan, in hands that stray.
    found : Drift
        What they do to it.
    assumed : bool
        Whether the plan does not say how they stray.
    """
    rests_on = (_spins(answer, found), *straying_sources(answer, assumed))
    named = [(help_words(answer, one, found), one) for one in found.helps]
    won = tuple(_gain(answer, words, one, found) for words, one in named)
    costs = tuple(_costs(words, one, found) for words, one in named)
    off = Reason("apart with it", rests_on, portion_strays(answer), f"{_SPUN_SO}; {_OFF}")
    return whys_of(
        answer,
        heads={
            "won": Reason("won", rests_on, won, _SPUN_SO),
            "work": Reason("yarn that it costs", rests_on, costs, _WORK),
            "apart at 10 / 50 / 90 %": off,
        },
    )


def all_of_hands(answer: Answer, found: Drift) -> Whys:
    """Return every reason for what hands do to a plan that says how they stray.

    Parameters
    ----------
    answer : Answer
        What follows from the plan.
    found : Drift
        What hands do to it.
    """
    rows = {reason.figure: reason for reason in hands_reasons(answer, found).values()}
    return whys_of(answer, helps_whys(answer, found).heads if found.helps else {}, rows)


def straying_sources(answer: Answer, assumed: bool = False) -> tuple[Source, ...]:
    """Return what everything rests on that hands do to a plan.

    Parameters
    ----------
    answer : Answer
        What follows from the plan, in hands that stray.
    assumed : bool
        Whether the plan does not say how they stray.
    """
    even = sources.evenness(answer)
    if assumed:
        even = Source(even.words, "assumed", f"to be {ASSUMED.name}", even.surer, even.section)
    makes = (sources.masses(answer), sources.grist(answer), sources.order(answer))
    divided = () if is_by_eye(answer.layout) else (sources.step(answer),)
    return (even, *divided, *makes)


def assumed_hands() -> Reason:
    """Return why a plan that says nothing of its hands is told in such hands."""
    surer = "choose the single that looks like yours; weighed pieces tell more"
    by = "as hands of the middle sort are, by common practice"
    even = Source("how even your hands are", "assumed", by, surer, sources.HANDS)
    return Reason("how hands stray", (even,))


def portion_strays(answer: Answer) -> tuple[Working, ...]:
    """Return how far the longest portion strays that is not measured yet; none where all are."""
    laid, hands = answer.layout, answer.plan.spinning
    length_m = laid.portions.length_m
    if laid.wheel is not None:
        length_m = np.where(laid.wheel.is_measured, 0.0, length_m)
    at = int(length_m.argmax())
    if not length_m[at]:
        return ()
    reaches = laid.portions.length_m[at : at + 1] / reach_m(laid)
    values = {
        "length_m": float(length_m[at]),
        "variation": hands.variation or 0.0,
        "variation_within": hands.variation_within or 0.0,
        "left_along": float(left_along(reaches)[0]),
        "step_g": 0.0 if is_by_eye(laid) else answer.resolved.step_g,
        "mass_g": float(answer.on_scale_g[at]),
        "variation_bobbins": hands.variation_bobbins or 0.0,
    }
    ply = ply_words(int(laid.portions.ply[at]), len(answer.resolved.tex))
    return (Working(by.STRAYS, values, ply, "one portion strays, as a standard deviation"),)


def _spins(answer: Answer, found: Drift) -> Source:
    """Return how often the plan was spun, and how."""
    by = f"{_SPUN}; {_BY_EYE}" if is_by_eye(answer.layout) else _SPUN
    return Source(f"{found.spins:,} spins of the plan", "reckoned", by)


def _short(answer: Answer, found: Drift, at: int) -> tuple[Working, ...]:
    planned_m = answer.layout.stretches.yarn_m
    values = {"planned_m": planned_m, "spun_m": planned_m - float(found.short_by_m[at])}
    return (Working(by.SHORT, values),)


_RANKED = {
    "short_half": (0.5,),
    "short_most": (0.05,),
    "wander": (0.05, 0.95),
    "stripes": (0.5,),
    "matched": (0.05, 0.95),
}
"""At which shares of all yarns in a row, the least first, figures are read."""


def _ranks(of: str, found: Drift) -> str:
    """Return between which yarns in a row a figure lies; nothing where it is no such figure."""
    if of not in _RANKED:
        return ""
    below = [int(share * (found.spins - 1)) + 1 for share in _RANKED[of]]
    between = join_words([f"between numbers {at:,} and {at + 1:,}" for at in below])
    return f"; of {found.spins:,} such yarns in a row, the least first, {between}"


def _off(answer: Answer, found: Drift) -> tuple[Working, ...]:
    """Return how far apart places come to lie, as a root mean square, at each place of the yarn."""
    plies = len(answer.resolved.tex)
    pairs = found.spins * plies * (plies - 1) // 2
    each = zip(_PLACES, *found.squares_m2.tolist(), strict=True)
    return tuple(
        Working(
            told_by.ROOT_MEAN_SQUARE,
            {"squares_m2": apart, "pairs": pairs, "inside_m2": inside},
            where,
        )
        for where, apart, inside in each
        if apart + inside
    )


_PLACES = ("after a tenth", "half-way", "near the end")


def _ends(answer: Answer, found: Drift) -> tuple[Working, ...]:
    return tuple(
        Working(
            by.OF_ALL,
            {"such_spins": share * found.spins, "spins": found.spins},
            ply_words(ply, len(answer.resolved.tex)),
        )
        for ply, share in enumerate(found.ends_first.tolist())
    )


def _wanders(found: Drift) -> tuple[Working, ...]:
    wide_m = np.diff(found.changes_m, axis=1)[:, 0]
    if not len(wide_m):
        return ()
    ends = {"least": found.changes_m[wide_m.argmin()], "most": found.changes_m[wide_m.argmax()]}
    return tuple(
        Working(by.WANDERS, {"early_m": float(each[0]), "late_m": float(each[1])}, of)
        for of, each in ends.items()
    )


def _gain(answer: Answer, words: HelpWords, one: Help, found: Drift) -> Working:
    if not shows_misfit(answer.layout):
        return _less_short(words, one, found, -1)
    now, then = found.off_m.tolist(), one.off_m.tolist()
    values = dict(zip(("now_10_m", "now_50_m", "now_90_m"), now, strict=True))
    values |= dict(zip(("then_10_m", "then_50_m", "then_90_m"), then, strict=True))
    return Working(by.NEARER, values, words.what)


def _less_short(words: HelpWords, one: Help, found: Drift, at: int) -> Working:
    values = {"short_m": float(found.short_by_m[at]), "then_short_m": float(one.short_by_m[at])}
    return Working(by.LESS_SHORT, values, words.what)


def _costs(words: HelpWords, one: Help, found: Drift) -> Working:
    values = {"short_m": float(found.short_by_m[1]), "then_short_m": float(one.short_by_m[1])}
    return Working(by.COSTS_YARN, values, words.what)
