"""Every reason of a plan, by what it is about."""

from collections.abc import Callable

from yarncolor.answers.answer import Answer
from yarncolor.answers.fibre import batts
from yarncolor.report.why.colours import pairs_whys
from yarncolor.report.why.fabric import fabric_whys, fibre_whys, stripes_whys
from yarncolor.report.why.hands import all_of_hands
from yarncolor.report.why.reason import NOT_ASKED, Reason, Whys
from yarncolor.report.why.stash import batts_whys, left_whys, stash_whys
from yarncolor.report.why.twist import balance_whys
from yarncolor.report.why.wheel import bobbins_whys, hours_whys, skeins_whys, weigh_out_whys
from yarncolor.report.why.yarn import counts_whys, known_whys


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
    "what hands do": _hands,
    "marls": pairs_whys,
    "grist and wraps in every system": counts_whys,
}
