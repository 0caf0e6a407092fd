"""What hands do to a plan, in a spinner's words: what ends first, what wanders, what helps."""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.drift import Drift
from yarncolor.answers.drift_helps import FINER, Help, shows_misfit
from yarncolor.answers.guessed_thickness import about
from yarncolor.measures import Measures
from yarncolor.phrases import counted, join_words, percent, plies_words
from yarncolor.said import Figure, Filling, Said, said

_HAND, _HELPS_FROM_M = "a hand's breadth", 0.1
_MOST_NAMED = 3
_MEANT = 0.5
"""From this share of the yarn on, plies that are alike are meant to be."""


class HelpWords(NamedTuple):
    """What hands can do otherwise, what is won by it, its work; whether that is worth telling."""

    what: str
    won: str
    costs: str
    is_won: bool


def drift_lines(answer: Answer, found: Drift | None = None) -> list[str]:
    """Return what hands do to a plan, in sentences; none where nothing varies.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    found : Drift, optional
        What hands do to it, if that is known already.
    """
    found = found or answer.drift_at_hand
    if found is None:
        return []
    return [*map(str, what_happens(answer, found)), *_what_helps(answer, found)]


def what_happens(answer: Answer, found: Drift) -> Iterator[Said]:
    """Yield what becomes of a plan in these hands, its numbers as figures.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    found : Drift
        What hands do to it.
    """
    yield _short(answer, found)
    if len(found.ends_first) > 1:
        yield _ends_first(found)
    if not len(found.changes_m):
        return
    yield _wander(answer, found)
    if found.off_m.any():
        yield _off(answer, found)
    if found.stripes.count and shows_misfit(answer.layout):
        yield _stripes(answer, found)


def _long(answer: Answer, length_m: float, of: str) -> Figure:
    return Figure(answer.say.long(max(float(length_m), 0.0)), of)


def _short(answer: Answer, found: Drift) -> Said:
    half = _long(answer, found.short_by_m[1], "short_half")
    twenty: dict[str, Filling] = {
        "about": about(answer),
        "most": _long(answer, found.short_by_m[2], "short_most"),
    }
    one_in_twenty = "one in twenty is shorter by {about}{most} or more."
    if found.short_by_m[1] < _HELPS_FROM_M:
        long_enough = "Half of all such yarns come out at least as long as planned; "
        return Said(long_enough + one_in_twenty, twenty)
    by_half = "Half of all such yarns come out shorter than planned by {about}{half} or more; "
    return Said(by_half + one_in_twenty, {"half": half, **twenty})


def _ends_first(found: Drift) -> Said:
    first = np.argsort(-found.ends_first, kind="stable")[:_MOST_NAMED].tolist()
    shares = {f"share_{ply}": Figure(percent(found.ends_first[ply]), "ends_first") for ply in first}
    plies = {f"ply_{ply}": plies_words([ply]) for ply in first}
    told = join_words([f"{{ply_{ply}}} in {{share_{ply}}} of them" for ply in first])
    return Said(f"The single that ends first is that of {told}.", {**plies, **shares})


def _wander(answer: Answer, found: Drift) -> Said:
    wide_m = (found.changes_m[:, 1] - found.changes_m[:, 0]) / 2
    least, most = (_long(answer, far_m, "wander") for far_m in (wide_m.min(), wide_m.max()))
    far = "{least}" if least == most else "{least} to {most}"
    return said(
        f"Colour changes wander: nine of ten lie within {{about}}{far} of their place.",
        about=about(answer),
        least=least,
        most=most,
    )


def _off(answer: Answer, found: Drift) -> Said:
    early, half, late = (_long(answer, off_m, "off") for off_m in found.off_m)
    return said(
        "What lies side by side in the plan comes to lie {about}{early} apart after a "
        "tenth of the yarn, {half} half-way and {late} near its end.",
        about=about(answer),
        early=early,
        half=half,
        late=late,
    )


def _stripes(answer: Answer, found: Drift) -> Said:
    off = round(float(found.stripes.off[1]))
    return said(
        f"Of {{count}} {{off}} {'is' if off == 1 else 'are'} off by more than {_HAND}{{matched}}.",
        count=Figure(counted(found.stripes.count, "matched stripe"), "stripes"),
        off=Figure(f"{off}", "stripes"),
        matched=_alike_over(answer, found),
    )


def _alike_over(answer: Answer, found: Drift) -> Said | str:
    if found.matched is None:
        return ""
    low, high = (Figure(percent(float(found.matched[at])), "matched") for at in (0, -1))
    between = "{low}" if low == high else "{low} to {high}"
    return said(
        f"; plies are alike over {between} of the yarn, in the plan over {{planned}}",
        low=low,
        high=high,
        planned=Figure(percent(float(answer.shares[0])), "matched_planned"),
    )


def _what_helps(answer: Answer, found: Drift) -> Iterator[str]:
    helpful = [one for one in found.helps if one.gain_m >= _HELPS_FROM_M]
    told = [help_words(answer, one, found) for one in helpful]
    if told:
        first = "What helps, most first" if len(told) > 1 else "What helps"
        each = (
            f"{f'({number}) ' * (len(told) > 1)}{one.what}: {one.won}; {one.costs}"
            for number, one in enumerate(told, 1)
        )
        yield f"{first}: {'. '.join(each)}."
    idle = [_WHAT[one.what] for one in found.helps if one.gain_m < _HELPS_FROM_M]
    if idle:
        so = "Of no help here"
        if shows_misfit(answer.layout):  # it may still help singles to end together
            so = "It brings plies no nearer together"
        yield f"{so}: {'; '.join(what.format(finer='') for what in idle)}."


def help_words(answer: Answer, one: Help, found: Drift) -> HelpWords:
    """Return what helps, what is won by it and what it costs.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    one : Help
        What hands can do otherwise.
    found : Drift
        What they come to without.
    """
    finer = f" (one that shows {answer.say.step(answer.resolved.step_g / FINER)})"
    gain = f"{about(answer)}{answer.say.long(one.gain_m)}"
    won, is_won = f"{gain} less may be short", one.gain_m >= _HELPS_FROM_M
    if shows_misfit(answer.layout):
        won = f"plies lie {gain} nearer together"
    return HelpWords(
        _WHAT[one.what].format(finer=finer), won, _costs(one, found, answer.say), is_won
    )


_WHAT = {
    "weigh": "weigh each portion instead of dividing by eye",
    "finer_scale": "a finer scale{finer}",
    "in_turn": "spin one time through on each bobbin in turn",
    "stop_and_weigh": "weigh the bobbin after each time through, and spin the rest to its length",
    "mend": "while plying, break off what is too long wherever all plies change, and join anew",
    "chain": "spin all of it onto one single and chain ply that",
}


def _costs(one: Help, found: Drift, say: Measures) -> str:
    """Return the work, and the yarn, that a help costs."""
    shorter_m = float(one.short_by_m[1] - found.short_by_m[1])
    cost = {
        "weigh": f"it costs {counted(one.work, 'weighing')}",
        "finer_scale": f"it costs a better scale and {counted(one.work, 'weighing')} on it",
        "in_turn": f"it costs {counted(one.work, 'change')} of bobbin",
        "stop_and_weigh": f"it costs {counted(one.work, 'stop')} to weigh and to reckon",
        "mend": f"it costs {counted(one.work, 'join')}",
        "chain": "it makes a three-ply, and costs the hands that chain plying takes",
    }[one.what]
    if shorter_m >= _HELPS_FROM_M:
        return f"{cost} and {say.long(shorter_m)} of yarn"
    return cost


def drift_advice(answer: Answer) -> Iterator[str]:
    """Yield how many matched stripes hands will miss, and what helps most."""
    found = answer.drift_at_hand
    if found is None or not shows_misfit(answer.layout) or answer.shares[0] < _MEANT:
        return
    off = round(float(found.stripes.off[1]))
    if not off:
        return
    best = next((one for one in found.helps if one.gain_m >= _HELPS_FROM_M), None)
    told = str(_stripes(answer, found))
    if best is not None:
        words = help_words(answer, best, found)
        told += f" What helps most: {words.what}; {words.won}, {words.costs}."
    yield told
