"""Advice on a braid: colours too short to be spun apart, strips too thin to be split off."""

from collections.abc import Callable, Iterator

from yarncolor.answers.answer import Answer
from yarncolor.answers.braid_strips import braid_strips
from yarncolor.measures import Measures
from yarncolor.phrases import join_first, join_words, ply_words
from yarncolor.plan import Braid, Segment
from yarncolor.report.stripe_advice import STAPLE_M

_THINNEST_G_PER_M = 1.0
"""Of a strip of top that hands split off in one piece; common practice, no source."""
_CM_IN_M = 100
MOST_NAMED = 6


def short_colours(answer: Answer) -> Iterator[str]:
    """Yield which colours of a braid are shorter than two staples."""
    braid = answer.plan.braid
    if braid is None:
        return
    short = too_short(braid)
    if not short:
        return
    named = [f"{one.name}, {answer.say.width.given(one.length_cm)}" for one in short]
    yield (
        f"Shorter on the braid than two staples, {answer.say.width(2 * STAPLE_M * _CM_IN_M, 0)}: "
        f"{join_first(named, MOST_NAMED)}. Fibre of one colour reaches through into the next "
        "while it is drafted: the yarn has little of it alone. Draft short there, or spin it from "
        "the fold."
    )


def too_short(braid: Braid) -> list[Segment]:
    """Return the colours of a braid that are shorter than two staples."""
    return [one for one in braid.segments if one.length_cm < 2 * STAPLE_M * _CM_IN_M]


def thin_strips(answer: Answer) -> Iterator[str]:
    """Yield which plies have strips of a braid too thin to be split off in one piece."""
    braid = answer.plan.braid
    if braid is None:
        return
    g_per_m = braid.mass_g / braid.length_cm * _CM_IN_M
    strips = braid_strips(answer.layout)
    thin = [one for one in strips if one.share * g_per_m < _THINNEST_G_PER_M]
    if not thin:
        return
    singles = len(answer.resolved.tex)
    plies = join_words([ply_words(k, singles) for k in dict.fromkeys(one.ply for one in thin)])
    say, least = answer.say, min(one.share * g_per_m for one in thin)
    thinnest = _in_length(say, _THINNEST_G_PER_M)
    yield (
        f"Thin strips for {plies}: {_in_length(say, least)} {say.mass.unit} to the "
        f"{say.length.name}, where {thinnest} {say.mass.unit} is "
        "about the least that splits off in one piece. Weigh each strip whole, join what tears in "
        "order, or run that ply through its colours less often."
    )


def _in_length(say: Measures, g_per_m: float) -> str:
    return f"{say.mass.of(g_per_m) * say.length.size:.2g}"


KINDS: dict[str, Callable[[Answer], Iterator[str]]] = {
    "short_colours": short_colours,
    "thin_strips": thin_strips,
}
"""In the order in which they are told."""
