"""Every reason of a plan, by what it is about."""

from collections.abc import Callable, Iterable

from yarncolor.answers.answer import Answer
from yarncolor.answers.fibre import batts
from yarncolor.report.strip_words import strips_told
from yarncolor.report.weigh_out_words import lost_on_the_way
from yarncolor.report.why.colours import pairs_whys
from yarncolor.report.why.fabric import fabric_whys, fibre_whys, stripes_whys
from yarncolor.report.why.hands import all_of_hands, matched_reason
from yarncolor.report.why.made import made_whys
from yarncolor.report.why.plying import where_reasons
from yarncolor.report.why.reason import NOT_ASKED, Reason, Whys, whys_of
from yarncolor.report.why.stash import batts_whys, left_whys, stash_whys
from yarncolor.report.why.twist import balance_whys
from yarncolor.report.why.weighing import weighing_reasons
from yarncolor.report.why.wheel import bobbins_whys, hours_whys, skeins_whys, weigh_out_whys
from yarncolor.report.why.yarn import counts_whys, known_whys
from yarncolor.report.why.yarn_seen import all_different
from yarncolor.said import figures_in


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


def _hands(answer: Answer) -> Whys:
    found = answer.drift_at_hand
    return NOT_ASKED if found is None else all_of_hands(answer, found)


_ABOUT: dict[str, Callable[[Answer], Whys]] = {
    "the yarn": known_whys,
    "ply twist for a balanced yarn": balance_whys,
    "the stash": stash_whys,
    "what is carded": _carded,
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
    "grist and wraps in every system": counts_whys,
}
