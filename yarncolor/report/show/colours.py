"""Mixtures, contrasts and near-twins of a plan, as a notebook shows them."""

from collections.abc import Iterable

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.near_twins import lost_to_other_eyes, near_twins
from yarncolor.colour.difference import EXPLAINED, contrast_word, grey_scale_grade
from yarncolor.colour.mixtures import Pair, Recipe
from yarncolor.colour.optical_mixing import reads_as_one_m
from yarncolor.colour.plied_stripes import LAID
from yarncolor.layout.layout import used_g
from yarncolor.report.mixture_words import turn_of
from yarncolor.report.show.asked import asked_together, at_heads
from yarncolor.report.show.fragment import Fragment, sentences, with_why
from yarncolor.report.show.markup import Cell, Html, joined, paragraphs, table_html
from yarncolor.report.show.mixtures import mixtures_shown, steps_shown
from yarncolor.report.why.colours import pairs_whys, twins_whys
from yarncolor.report.why.mixtures import mixtures_seen, steps_seen
from yarncolor.report.why.reason import NOT_ASKED, Reason, Source
from yarncolor.report.why.seen import seen_in
from yarncolor.said import Figure, said


def show_mixtures(answer: Answer, explained: bool = False) -> Fragment:
    """Return the lightest and the darkest lot, and what becomes of them in three mixtures.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    explained : bool
        Whether figures answer why.
    """
    pair = _lightest_and_darkest(answer)
    yarn = answer.resolved.yarn
    recipe = Recipe(turn_mm=turn_of(yarn).mm, width_mm=yarn.relaxed_diameter_mm)
    shown = mixtures_shown(pair, recipe, answer.say)
    text = f"{pair.names[0]} and {pair.names[1]}, mixed in three ways."
    told = Fragment(shown.html, text)
    if not explained:
        return told
    return with_why(told, mixtures_seen(answer, pair, recipe, shown.told), "mixtures", answer.say)


def show_steps(answer: Answer, explained: bool = False) -> Fragment:
    """Return carded steps from the lightest lot to the darkest, plain and evenly spaced.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    explained : bool
        Whether figures answer why.
    """
    pair = _lightest_and_darkest(answer)
    text = f"From {pair.names[0]} to {pair.names[1]} in carded steps, plain and even."
    shown = steps_shown(pair)
    told = Fragment(shown.html, text)
    if not explained:
        return told
    return with_why(told, steps_seen(answer, shown.told, shown.gradients), "steps", answer.say)


def show_pairs(
    answer: Answer,
    period_mm: float,
    numbers: bool = False,
    most: int = 66,
    explained: bool = False,
) -> Fragment:
    """Return how each pair of lots marls, and from where it reads as one colour.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    period_mm : float
        Length of yarn over which all plies show once: one turn of the ply twist.
    numbers : bool
        Whether to add CIEDE2000, HyAB, lightness difference and grey-scale grade.
    most : int
        How many pairs at the most, quietest first; 66 are all pairs of twelve lots.
    explained : bool
        Whether figures answer why.
    """
    used = np.flatnonzero(used_g(answer.layout) > 0)
    one, other = (used[side] for side in np.triu_indices(len(used), 1))
    between, names = answer.palette.between, answer.plan.names
    order = np.argsort(between.hyab[one, other], kind="stable")[:most]
    one, other = one[order], other[order]
    width_mm, lab = answer.resolved.yarn.relaxed_diameter_mm, answer.palette.lab
    both = lab[np.stack([one, other], axis=1)]
    afar = np.transpose([reads_as_one_m(both, period_mm, width_mm, laid) for laid in LAID])
    rows = []
    for a, b, metres in zip(one, other, afar, strict=True):
        word = contrast_word(between.ciede2000[a, b], between.hyab[a, b])
        where = [answer.say.length(one_m) if one_m else "anywhere" for one_m in metres]
        row = [names[a], names[b], word, *where]
        if numbers:
            row += [
                f"{between.ciede2000[a, b]:.1f}",
                f"{between.hyab[a, b]:.0f}",
                f"{between.lightness[a, b]:.0f}",
                f"{grey_scale_grade(between.grey_scale_f[a, b]):.1f}",
            ]
        rows.append(row)
    head = ["lot", "beside", "the marl is", *(f"{laid}, reads as one from" for laid in LAID)]
    head += (
        ["small differences, CIEDE2000", "large ones, HyAB", "lightness", "grey scale"]
        if numbers
        else []
    )
    more = len(used) * (len(used) - 1) // 2 - len(rows)
    text = "\n".join("  ".join(row) for row in rows) or "One lot alone makes no marl."
    whys = pairs_whys(answer) if explained else NOT_ASKED
    shown = joined((_table(at_heads(head, whys), rows), paragraphs([EXPLAINED])))
    return Fragment(joined((shown, _left_out(answer, more, explained))), text)


def _left_out(answer: Answer, more: int, explained: bool) -> Html:
    """Return how many pairs are not told of; nothing where all are."""
    if not more:
        return Html("")
    words = said("{more} louder pairs are left out.", more=Figure(f"{more}", "left_out"))
    pairs = Source("pairs that are told", "decided", "as many of the quietest as a page holds")
    seen = seen_in([words], {"left_out": Reason("pairs left out", (pairs,))})
    told = asked_together(seen, "pairs left out", answer.say) if explained else ""
    return joined((paragraphs([str(words)]), told))


def show_twins(answer: Answer, explained: bool = False) -> Fragment:
    """Return the pairs that are hardly told apart, by every eye or by some.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    explained : bool
        Whether figures answer why.
    """
    names = answer.plan.names
    rows = [
        [names[twins.one], names[twins.other], twins.eyes, f"{twins.ciede2000:.1f}"]
        for twins in (*near_twins(answer), *lost_to_other_eyes(answer))
    ]
    if not rows:
        return sentences("No two lots are near-twins.")
    text = "\n".join("  ".join(row) for row in rows)
    head = ["lot", "beside", "hardly told apart by", "in numbers (CIEDE2000)"]
    whys = twins_whys(answer) if explained else NOT_ASKED
    return Fragment(_table(at_heads(head, whys), rows), text)


def _lightest_and_darkest(answer: Answer) -> Pair:
    lab = answer.palette.lab
    light, dark = int(lab[:, 0].argmax()), int(lab[:, 0].argmin())
    return Pair((answer.plan.names[light], answer.plan.names[dark]), lab[[light, dark]])


def _table(head: Iterable[str], rows: list[list[str]]) -> str:
    cells = ([Cell(text, "text-align:left") for text in row] for row in rows)
    return table_html(head, cells, css="")
