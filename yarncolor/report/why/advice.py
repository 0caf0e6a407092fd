"""Why it is told what to know: each kind of it, with the lines of its numbers."""

from collections.abc import Callable, Iterable, Iterator

from yarncolor.answers.answer import Answer
from yarncolor.report.advice import MOST_PAIRS, Advice
from yarncolor.report.why import advice_colours as colours
from yarncolor.report.why import advice_fibre as fibre
from yarncolor.report.why import advice_wheel as wheel
from yarncolor.report.why import advice_yarn as yarn
from yarncolor.report.why.reason import Reason, Source
from yarncolor.report.why.seen import Seen

_LEFT_OUT = "what has no width and no place in a line of text"


def advice_seen(answer: Answer, advice: Iterable[Advice]) -> tuple[Seen, ...]:
    """Return why each thing to know is told, kind by kind.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    advice : iterable of Advice
        What is told of it.
    """
    kinds = dict.fromkeys(item.kind for item in advice)
    return tuple(
        Seen(about, reason)
        for about, of in (REASONS[kind] for kind in kinds)
        for reason in of(answer)
    )


def _unseen(answer: Answer) -> Iterator[Reason]:
    typed = Source("what you typed", "given")
    counted = colours.more(len(answer.plan.unseen), MOST_PAIRS, "texts")
    yield Reason("characters that cannot be seen", (typed,), counted, _LEFT_OUT)


REASONS: dict[str, tuple[str, Callable[[Answer], Iterator[Reason]]]] = {
    "mixed_winding": ("Bobbins wound off unlike", yarn.winding_told),
    "wrong_twist": ("The way of twist", yarn.way_told),
    "few_bobbins": ("Too few bobbins", yarn.few_told),
    "other_order": ("Rows in another order", wheel.rows_told),
    "left_out_row": ("Rows left out", wheel.rows_told),
    "extra_piece": ("Pieces too many", wheel.pieces_told),
    "other_lot": ("Another lot", wheel.rows_told),
    "short_lot": ("A lot that runs short", wheel.short_told),
    "more_than_said": ("A bobbin heavier than its fibre", wheel.more_told),
    "grist_drifts": ("Spun thicker or finer", wheel.drifts_told),
    "doubled_run": ("A lot that runs on", fibre.run_told),
    "runs_out": ("Plies that do not end together", fibre.runs_out_told),
    "short_of_target": ("Less yarn than is wanted", fibre.target_told),
    "short_of_stripes": ("Stripes the fibre does not give", fibre.stripes_told),
    "rows_of_stripes": ("Rows of the stripes", fibre.rows_told),
    "short_stripes": ("Short stripes", fibre.staples_told),
    "short_colours": ("Short colours", fibre.staples_told),
    "thin_strips": ("Thin strips", fibre.thin_told),
    "short_of_piece": ("Less yarn than the piece takes", yarn.piece_told),
    "steep_twist": ("Steep twist", yarn.steep_told),
    "unlike_plies": ("Plies that are not alike", yarn.unlike_told),
    "hours": ("Hours", yarn.hours_told),
    "full_bobbin": ("Full bobbins", yarn.full_told),
    "skeins": ("Several skeins", yarn.skeins_told),
    "balance": ("Balance", yarn.balance_told),
    "uneven": ("Uneven singles", yarn.uneven_told),
    "drift": ("Stripes that drift", yarn.drift_told),
    "moisture": ("Lots weighed in other air", yarn.air_told),
    "gauge": ("The gauge", yarn.gauge_told),
    "mostly_unspun": ("Lots mostly left", fibre.unspun_told),
    "fades_backwards": ("A fade that runs backwards", yarn.fade_told),
    "left_over": ("Never spun", fibre.never_told),
    "heap": ("Heaps", fibre.heap_told),
    "rolags": ("Rolags", fibre.rolags_told),
    "unused_lot": ("Lots never used", fibre.never_told),
    "near_twins": ("Lots alike", colours.twins_told),
    "unsure": ("Colours that are not sure", colours.unsure_told),
    "lost_stripe": ("Stripes lost to some eyes", colours.lost_told),
    "unseen": ("Left-out characters", _unseen),
}
"""What each kind of advice is headed by, and what it rests on."""
