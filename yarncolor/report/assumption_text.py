"""What was taken for granted in an answer, in sentences: the words for the facts of a plan."""

from collections.abc import Callable, Iterable, Iterator
from itertools import groupby
from typing import Any

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.closing_costs import shifted_m
from yarncolor.layout.assumptions import Assumption, Why
from yarncolor.layout.resolved import ResolvedPlan
from yarncolor.measures import METRIC, Measures
from yarncolor.phrases import counted, direction, turns
from yarncolor.plan.hands import FIGURES, RESTS_ON
from yarncolor.plan.hands import WORDS as WORDS_OF_HANDS
from yarncolor.plan.key import SHARE
from yarncolor.plan.reference import KEYS
from yarncolor.yarn.balance import WORDS
from yarncolor.yarn.structure import YarnStructure

_MAY_BE_IDLE = sorted(key for table, key in KEYS if table == "scheme" and key != "closing")
_Words = Callable[[list[Assumption], ResolvedPlan], Iterable[str]]
_WAYS = {
    "single_tex": "the tex of the singles",
    "single_m_per_g": "the singles' metres in a gram",
    "sample": "the weighed sample",
    "yarn_m_per_100g": "the finished yarn's metres in 100 g",
    "single_wpi": "the singles' wraps",
    "yarn_wpi": "the finished yarn's wraps",
    "twist_tpm": "turns in a metre",
    "twist_tpi": "turns in an inch",
    "twist_angle_deg": "the angle",
    "twist_factor": "the mill's count of twist",
}
_IN_YARDS = {
    "single_m_per_g": "the singles' yards in a pound",
    "yarn_m_per_100g": "the finished yarn's yards in a pound",
}

_COUNTED = {
    "width_cm": "width and stitches",
    "gauge_rows": "the rows {unit}",
    "swatch": "the weighed swatch",
}
"""What a gauge follows from where its stitches were not counted."""


def assumption_sentences(answer: Answer) -> tuple[str, ...]:
    """Return what was filled in, what a shared closing does, which colours no screen shows."""
    moved_m = shifted_m(answer.layout)
    moved = answer.say.length(moved_m)
    shared = f"shared out, repeats no longer fill exactly their share: up to {moved} off"
    beyond = [
        f"no screen shows {answer.plan.names[at]}: less of its chroma stands for it"
        for at in np.flatnonzero(~answer.palette.in_gamut)
    ]
    return (*plan_sentences(answer.resolved), *([shared] if moved_m else []), *beyond)


def plan_sentences(resolved: ResolvedPlan) -> tuple[str, ...]:
    """Return what is assumed of a plan, one sentence for each thing to know, in their own order."""
    told = sorted((one for one in resolved.assumptions if one.worth_saying), key=_rank)
    topics = groupby(told, key=lambda one: _SENTENCES[_topic(one)])
    return tuple(text for words, own in topics for text in words(list(own), resolved))


def model_words(yarn: YarnStructure, model: str) -> str:
    """Return by what a model finds the length lost in plying.

    Parameters
    ----------
    yarn : YarnStructure
        How the yarn is built.
    model : str
        helix or untwisting.
    """
    if model == "helix":
        return "the plies' helices alone"
    ways = {one != yarn.ply_direction for one in yarn.directions}
    turn = "untwist or twist up" if len(ways) > 1 else "untwist" if True in ways else "twist up"
    return f"helices whose singles {turn} as they are plied"


def ways_said(say: Measures) -> dict[str, str]:
    """Return what each way to grist or twist is called in a sentence, by its key."""
    return _WAYS if say is METRIC else _WAYS | _IN_YARDS


def _topic(one: Assumption) -> tuple[str, str, Why]:
    return one.table, one.key, one.why


def _rank(one: Assumption) -> int:
    return list(_SENTENCES).index(_topic(one))


def _each(words: Callable[[Assumption], str]) -> _Words:
    return lambda own, _: map(words, own)


def _plain(text: str) -> _Words:
    return _each(lambda one: text.format(_value(one.value)))


def _value(value: Any) -> Any:
    if not isinstance(value, tuple):
        return value
    sizes = [
        f"({', '.join(f'{one:g}' for one in each)})" if isinstance(each, tuple) else each
        for each in value
    ]
    return ", ".join(map(str, sizes))


def _said(words: Callable[[Assumption, Measures], str]) -> _Words:
    return lambda own, resolved: (words(one, resolved.say) for one in own)


def _idle(own: list[Assumption], _: ResolvedPlan) -> Iterator[str]:
    for one in own:
        words = KEYS[one.table, one.key].words
        yield f"“{words}” changes nothing: the scheme is {one.by[0]}"


def _idle_closing(one: Assumption) -> str:
    if one.by:
        return "the last two pieces change places in orders of four places or more; both are spun"
    return "nothing closes here: only a fractal that ends on the lot it began with does"


def _empty(own: list[Assumption], resolved: ResolvedPlan) -> Iterator[str]:
    none = f"0 {resolved.say.mass.unit}"
    for place in own[0].value:
        name = resolved.scheme.sequence[place - 1]
        yield f"place {place} of the sequence ({name}) has {none} and is left out"


def _agree(of: str) -> _Words:
    def words(one: Assumption, say: Measures) -> str:
        ways = ways_said(say)
        first, *others = (ways[key] for key in one.by)
        return f"{of} by {first}; {' and '.join(others)} would give the same, near enough"

    return _said(words)


def _times(one: Assumption) -> str:
    return f"times through the lots of each side: {one.value[0]}"


def _grist(one: Assumption, say: Measures) -> str:
    return f"grist of the singles: {say.grist(1e5 / one.value[0], 0)}"


def _gauge(one: Assumption, say: Measures) -> str:
    gauge, by = say.gauge, _COUNTED[one.by[0]].format(unit=say.gauge.unit)
    return f"{gauge.number(one.value)} stitches {gauge.unit}, by {by}"


def _guessed_gauge(one: Assumption, say: Measures) -> str:
    return (
        f"a guess until you knit a swatch: {say.gauge.number(one.value, 0)} stitches "
        f"{say.gauge.unit}, as hands usually knit so thick a yarn"
    )


def _loop(one: Assumption, say: Measures) -> str:
    return f"longest third of a chain-ply loop: {say.short.given(one.value)}"


def _step(one: Assumption, say: Measures) -> str:
    return f"the scale shows {say.step(one.value)}"


def _idle_balance(one: Assumption) -> str:
    if one.by == ("plies",):
        return "a single is not plied, so it is not balanced"
    return "the turns of the plying are given, so they count, not the balance"


def _balanced(one: Assumption, say: Measures) -> str:
    twist = f"{one.value:.0f} turns in a metre" if say is METRIC else turns(one.value)
    return f"ply twist: {twist}, {WORDS[one.by[0]]}; a fresh self-plied test is the better way"


def _direction(_: list[Assumption], resolved: ResolvedPlan) -> Iterator[str]:
    yarn = resolved.yarn
    spun, plied = direction(yarn.directions[0]), direction(yarn.ply_direction)
    yield f"singles spun {spun}, plied {plied}"


def _nothing_lost(one: Assumption) -> str:
    why = "" if one.by == ("none",) else ", for want of a twist or a measured value"
    return f"no length lost in plying{why}"


def _model(own: list[Assumption], resolved: ResolvedPlan) -> Iterator[str]:
    yield f"length lost in plying by {model_words(resolved.yarn, own[0].value)}"


def _densities(own: list[Assumption], _: ResolvedPlan) -> Iterator[str]:
    where = {
        "packed_density_g_per_cm3": "in the twist",
        "relaxed_density_g_per_cm3": "as wrapped on a ruler",
    }
    yield "density of wool yarn: " + ", ".join(
        f"{one.value:g} g/cm³ {where[one.key]}" for one in own
    )


def _by_hand(one: Assumption, say: Measures) -> str:
    key, figure = KEYS[one.table, one.key], one.value
    name = WORDS_OF_HANDS[one.key]
    value = f"{figure.value * 100:.1f}%"
    if key.kind != SHARE:
        name, value = say.pace.name, f"{say.pace.number(figure.value)} {key.unit}"
    on = counted(figure.rests_on, RESTS_ON.get(one.key, "yarn"))
    return f"{name}: {value}, from your hand, by {on}"


_SENTENCES: dict[tuple[str, str, Why], _Words] = {
    ("", "hand", Why.NO_HAND): _plain("{} is not there, so nothing is taken from it"),
    **{(table, key, Why.HAND): _said(_by_hand) for key, table in FIGURES.items()},
    ("scheme", "name", Why.USUAL): _plain("scheme: {}"),
    ("scheme", "plies", Why.USUAL): _plain("plies: {}"),
    ("scheme", "plies", Why.DERIVED): _plain("plies: {}"),
    ("scheme", "divisions", Why.USUAL): _plain("times through the sequence on each ply: {}"),
    ("scheme", "sequence", Why.USUAL): _plain("order of the lots: {}"),
    ("scheme", "stagger_places", Why.USUAL): _plain(
        "each ply starts {:g} place on from the one before"
    ),
    ("scheme", "blend_steps", Why.USUAL): _plain("carded blends between neighbours: {}"),
    ("scheme", "solid_plies", Why.USUAL): _plain("the solid ply: {}"),
    ("scheme", "solid_lot", Why.DERIVED): _plain("the lot of the solid ply: {}"),
    ("scheme", "times", Why.USUAL): _each(_times),
    ("scheme", "random_seed", Why.USUAL): _plain("number of the draw: {}"),
    ("scheme", "pieces", Why.USUAL): _plain("pieces of each lot on each ply: {}"),
    ("scheme", "repeat", Why.USUAL): _plain("the stripes are knitted once"),
    ("scheme", "loop_m", Why.USUAL): _said(_loop),
    **{("scheme", key, Why.IDLE): _idle for key in _MAY_BE_IDLE},
    ("scheme", "sequence", Why.EMPTY): _empty,
    ("scheme", "closing", Why.USUAL): _plain(
        "the order ends on the lot it began with: both pieces are spun"
    ),
    ("scheme", "closing", Why.IDLE): _each(_idle_closing),
    ("target", "yarn_m", Why.IDLE): _plain(
        "stripes make as much yarn as their rows take, so what is wanted of it changes nothing"
    ),
    ("spinning", "card_loss", Why.USUAL): _plain("nothing lost in carding"),
    ("plying", "wound_off", Why.USUAL): _plain("plied straight from the bobbins"),
    ("spinning", "spin_loss", Why.USUAL): _plain("nothing lost in spinning"),
    ("scale", "step_g", Why.USUAL): _said(_step),
    ("spinning", "single_tex", Why.USUAL): _said(_grist),
    ("spinning", "single_tex", Why.DERIVED): _agree("grist"),
    ("spinning", "twist_tpm", Why.DERIVED): _agree("twist of the singles"),
    ("plying", "balance", Why.IDLE): _each(_idle_balance),
    ("plying", "twist_tpm", Why.DERIVED): _said(_balanced),
    ("spinning", "direction", Why.USUAL): _direction,
    ("plying", "contraction_model", Why.IDLE): _plain(
        "the length lost in plying is measured, so no model is asked"
    ),
    ("plying", "contraction", Why.USUAL): _each(_nothing_lost),
    ("plying", "contraction_model", Why.USUAL): _model,
    ("spinning", "packed_density_g_per_cm3", Why.USUAL): _densities,
    ("spinning", "relaxed_density_g_per_cm3", Why.USUAL): _densities,
    ("spinning", "relaxed_density_g_per_cm3", Why.DERIVED): _plain(
        "density on the ruler by the wrapped skein; the number given agrees well enough"
    ),
    ("fabric", "gauge_stitches", Why.USUAL): _said(_guessed_gauge),
    ("fabric", "gauge_stitches", Why.DERIVED): _said(_gauge),
    ("fabric", "stitches", Why.USUAL): _plain("{} stitches cast on, as such a triangle begins"),
    ("fabric", "stitches", Why.DERIVED): _plain("{} stitches cast on, by the width"),
    ("fabric", "rows", Why.DERIVED): _plain("{} rows, by the wingspan"),
    ("fabric", "increases_per_row", Why.IDLE): _plain(
        "only a triangle grows, so its increases change nothing"
    ),
}
"""Of each fact that is worth saying, in the order in which they are said."""
