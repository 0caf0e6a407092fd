"""Every reason of a plan, by what it is about."""

from collections.abc import Callable, Iterable

from yarncolor.answers.answer import Answer
from yarncolor.answers.fibre import batts
from yarncolor.errors import PlanError
from yarncolor.plan.orders import Orders
from yarncolor.report.advice import advice_on
from yarncolor.report.orders_words import sure_told
from yarncolor.report.strip_words import strips_told
from yarncolor.report.weigh_out_words import lost_on_the_way
from yarncolor.report.why.advice import advice_seen
from yarncolor.report.why.colours import pairs_whys
from yarncolor.report.why.compared import compared_whys
from yarncolor.report.why.fabric import fabric_whys, fibre_whys, stripes_whys
from yarncolor.report.why.hands import all_of_hands, matched_reason
from yarncolor.report.why.made import made_whys
from yarncolor.report.why.orders import order_reasons, search_reasons
from yarncolor.report.why.pictures import picture_reasons
from yarncolor.report.why.plying import where_reasons
from yarncolor.report.why.reason import NOT_ASKED, Reason, Whys, whys_of
from yarncolor.report.why.reckoned_colours import reckoned_seen
from yarncolor.report.why.stash import batts_whys, left_whys, stash_whys
from yarncolor.report.why.twist import balance_whys
from yarncolor.report.why.weighing import weighing_reasons
from yarncolor.report.why.wheel import bobbins_whys, hours_whys, skeins_whys, weigh_out_whys
from yarncolor.report.why.yarn import counts_whys, known_whys, other_air_reasons
from yarncolor.report.why.yarn_seen import all_different
from yarncolor.report.why.yarn_sentences import yarn_seen
from yarncolor.report.yarn_advice import weighed_otherwise
from yarncolor.report.yarn_lines import yarn_told
from yarncolor.said import figures_in
from yarncolor.search.looking import looked

_LITTLE = 3_000_000
"""Edges of yarns to value where not every order can be: points are told, no order is looked for."""


def every_reason(answer: Answer) -> dict[str, dict[str, Reason]]:
    """Return every reason of a plan, by what it is about and by what its figure is called."""
    each = {about: _told(of(answer)) for about, of in _ABOUT.items()}
    return {about: reasons for about, reasons in each.items() if reasons}


def _told(whys: Whys) -> dict[str, Reason]:
    """Return reasons by their figures, one that two figures share but once."""
    named = {**whys.rows, **whys.heads}
    first = {id(reason): words for words, reason in reversed(named.items())}
    return {words: reason for words, reason in named.items() if first[id(reason)] == words}


def _piece(answer: Answer) -> Whys:
    return NOT_ASKED if answer.piece is None else fabric_whys(answer, answer.piece)


def _fibre(answer: Answer) -> Whys:
    knit = answer.piece
    return NOT_ASKED if knit is None or knit.all_plied_m is None else fibre_whys(answer, knit)


def _carded(answer: Answer) -> Whys:
    is_carded = any(not one.is_drafted for one in batts(answer))
    return batts_whys(answer, drafted=False) if is_carded else NOT_ASKED


def _reckoned(answer: Answer) -> Whys:
    return whys_of(answer, rows={one.words: one.reason for one in reckoned_seen(answer)})


def _hours(answer: Answer) -> Whys:
    return NOT_ASKED if answer.hours.portion_h is None else hours_whys(answer)


def _by_figure(answer: Answer, reasons: Iterable[Reason]) -> Whys:
    """Return reasons of sentences, each by what its figure is called."""
    return whys_of(answer, rows={reason.figure: reason for reason in reasons})


def _on_the_way(answer: Answer) -> Whys:
    told = (*strips_told(answer), *lost_on_the_way(answer))
    said = {figure.of for sentence in told for figure in figures_in(sentence)}
    reasons = weighing_reasons(answer).items()
    return _by_figure(answer, (reason for of, reason in reasons if of in said))


def _plies_meet(answer: Answer) -> Whys:
    return _by_figure(answer, (matched_reason(answer), all_different(answer)))


def _plied(answer: Answer) -> Whys:
    return _by_figure(answer, where_reasons(answer).values())


def _came_out(answer: Answer) -> Whys:
    rows = made_whys(answer).rows if answer.plan.made is not None else {}
    return whys_of(answer, rows={f"{words}, planned and made": why for words, why in rows.items()})


def _sentences(answer: Answer) -> Whys:
    """Return what sentences about the yarn say beside what tables do."""
    tables = (known_whys, _hours, _piece, _plies_meet)
    known = {reason.figure for of in tables for reason in of(answer)}
    seen = yarn_seen(answer, yarn_told(answer))
    return _by_figure(answer, (one.reason for one in seen if one.reason.figure not in known))


def _orders(answer: Answer) -> Whys:
    """Return why the order as it stands has its points, where the plan says what it looks for."""
    if answer.plan.orders == Orders():
        return NOT_ASKED
    try:
        found = looked(answer.plan, _LITTLE)
    except PlanError:
        return NOT_ASKED
    said = {figure.of for figure in figures_in(sure_told(found))}
    sure = {of: one for of, one in search_reasons(answer).items() if of in said}
    reasons = {**order_reasons(found, found.now, answer), **sure}
    return _by_figure(answer, reasons.values())


def _captions(answer: Answer) -> Whys:
    return _by_figure(answer, picture_reasons(answer).values())


def _side_by_side(answer: Answer) -> Whys:
    return compared_whys({"": answer}, answer.layout.stretches.lot.shape[1])


def _otherwise_weighed(answer: Answer) -> Whys:
    told = other_air_reasons(answer).values() if weighed_otherwise(answer) else ()
    return _by_figure(answer, told)


def _to_know(answer: Answer) -> Whys:
    """Return why each thing to know is told; what several of them say, by the first."""
    seen = advice_seen(answer, advice_on(answer))
    return whys_of(answer, rows={one.heading: one.reason for one in seen})


def _hands(answer: Answer) -> Whys:
    found = answer.drift_at_hand
    return NOT_ASKED if found is None else all_of_hands(answer, found)


_ABOUT: dict[str, Callable[[Answer], Whys]] = {
    "the yarn": known_whys,
    "ply twist for a balanced yarn": balance_whys,
    "sentences about the yarn": _sentences,
    "lots weighed in different air": _otherwise_weighed,
    "the stash": stash_whys,
    "what is carded": _carded,
    "reckoned colours": _reckoned,
    "weighing": weigh_out_whys,
    "bobbins": bobbins_whys,
    "skeins": skeins_whys,
    "hours": _hours,
    "what is left": left_whys,
    "the knitted piece": _piece,
    "fibre for it": _fibre,
    "rows of each section": stripes_whys,
    "what is lost or stays over": _on_the_way,
    "how plies meet": _plies_meet,
    "what hands do": _hands,
    "what is plied": _plied,
    "what came out": _came_out,
    "marls": pairs_whys,
    "which order": _orders,
    "side by side with others": _side_by_side,
    "captions of pictures": _captions,
    "what to know": _to_know,
    "grist and wraps in every system": counts_whys,
}
