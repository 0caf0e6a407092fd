"""Does it matter, what can be done, what is best: in a spinner's words."""

import numpy as np

from yarncolor.answers.choice import CARRY_ON, Choice
from yarncolor.answers.choices import WORTH_IT, Replan
from yarncolor.answers.guessed_thickness import metres_told
from yarncolor.answers.matters import Matters
from yarncolor.measures import Measures
from yarncolor.phrases import is_seen, join_words, percent, ply_words
from yarncolor.report.order_words import mixed_up, turned_round
from yarncolor.report.short_words import runs_short, short_sentences
from yarncolor.report.wheel_advice import last_too_many
from yarncolor.report.yarn_advice import wrong_twist

WAY_WORDS: dict[str, str] = {
    "carry_on": "carry on",
    "in_step": "put the next rows right",
    "run_out": "let the plies run out together",
    "pull_off": "draw the outer end off",
    "make_up": "make up what is missing",
    "follow": "follow the finished bobbin",
}
"""What each way to go on is called."""

_ALONE = {"run_out": "come to the planned length"}
"""What those are called that mean several plies, where there is but one."""

_TOLD_GRIST = 0.005
_SAME = 1e-7
_SEEN_M = 0.05


def way_words(found: Replan, choice: Choice) -> str:
    """Return what a way to go on is called.

    Parameters
    ----------
    found : Replan
        Every way to go on.
    choice : Choice
        One of them.
    """
    words = WAY_WORDS[choice.name]
    return words if len(found.choices[0].factors) > 1 else _ALONE.get(choice.name, words)


def _ply(found: Replan, k: int) -> str:
    return ply_words(k, len(found.choices[0].factors))


def matters_text(found: Replan) -> str:
    """Return whether what has strayed matters: what it moves, and what it does not."""
    twist = [one if isinstance(one, str) else one[0] for one in wrong_twist(found.answer)]
    if twist and found.matters.ply is None:
        return " ".join([*twist, "As for colours, nothing has moved."])
    return " ".join([*twist, _strays(found)])


def _strays(found: Replan) -> str:
    one, say = found.matters, found.answer.say
    if one.ply is None:
        return _in_its_place(one, runs_short(found.choices[0].laid), say)
    ply, verdict = _ply(found, one.ply), "It hardly matters"
    if one.as_planned < 1 - WORTH_IT:
        verdict = "It matters"
    if one.is_decided:
        far = _farthest(one, ply, say)
        return f"{verdict}: with what was decided since, {far}. {_stands(one, say)}"
    first = "straight from the bobbin, what was spun last"
    if one.turned:
        first = "wound off, what was spun first"
    what = f"{_surplus(one, say)} on {ply}"
    return f"{verdict}: {first} comes off first, so {what} {_moves(one, say)}. {_stands(one, say)}"


def _in_its_place(one: Matters, short: str, say: Measures) -> str:
    if one.as_planned > 1 - _SAME:
        if short:
            return f"It does not matter yet: every colour lies where it was planned. But {short}."
        return "It does not matter: every colour lies where it was planned."
    return (
        "Every colour change lies where it was planned, but another colour lies between some. "
        f"{_stands(one, say)}"
    )


def _farthest(one: Matters, ply: str, say: Measures) -> str:
    if not one.moved:
        return f"no colour meeting of {ply} is moved, only its end"
    return f"{one.moved} of {one.changes} colour changes of {ply} are moved, {_by(one, say)}"


def _by(one: Matters, say: Measures) -> str:
    way = "later" if one.shift_m > 0 else "sooner"
    return f"by up to {say.long(abs(one.shift_m))}, {way}"


def _surplus(one: Matters, say: Measures) -> str:
    if abs(one.surplus_m) < _SEEN_M:
        return "rows in another order" if one.is_reordered else "rows too long and too short"
    return f"{say.long(abs(one.surplus_m))} too {'many' if one.surplus_m > 0 else 'few'}"


def _moves(one: Matters, say: Measures) -> str:
    if not one.moved:
        return "move no colour meeting, only the end of the yarn"
    if one.is_reordered:
        return f"move {one.moved} of its {one.changes} colour changes {_by(one, say)}"
    before, after = ("after", "before") if one.turned else ("before", "after")
    block = f", those spun {before}," if one.is_block else ""
    rest = f", and none spun {after}" if one.is_block and one.moved < one.changes else ""
    return f"move {one.moved} of its {one.changes} colour changes{block} {_by(one, say)}{rest}"


def _stands(one: Matters, say: Measures) -> str:
    if abs(one.longer_m) < _SEEN_M:
        return f"If you carry on, {percent(one.as_planned)} of the yarn stays as planned."
    than = "more" if one.longer_m > 0 else "less"
    return (
        f"If you carry on, {percent(one.as_planned)} of the yarn stays as planned, and it is "
        f"{say.long(one.yarn_m)}, {say.long(abs(one.longer_m))} {than} than planned."
    )


def worth_text(found: Replan, choice: Choice) -> str:
    """Return what a way is worth: how much stays as planned, how long the yarn is, what ends it.

    Parameters
    ----------
    found : Replan
        Every way to go on.
    choice : Choice
        One of them.
    """
    first = ", all plies end together"
    if not choice.ends_together:
        first = f", {_ply(found, choice.ends_first)} ends first"
    first = first if len(choice.factors) > 1 else ""
    long = metres_told(choice.laid, choice.yarn_m)
    return f"{percent(choice.as_planned)} as planned, {long} of yarn{first}"


def possible_text(found: Replan, choice: Choice) -> str:
    """Return whether there is fibre for it; the other way by grist; what is missing.

    Parameters
    ----------
    found : Replan
        Every way to go on.
    choice : Choice
        One of them.
    """
    lacks = _lots(choice, _lacks_g(found, choice))
    if choice.possible is None:
        return f"not possible: {lacks} more than there is"
    if choice.is_by_grist:
        grams = choice.laid.say.mass.plural
        return f"by grist alone: other {grams} would take {lacks} more than there is"
    told = [_takes(found, choice), runs_short(choice.laid)]
    return ", but ".join(filter(None, told)) or "takes what is there"


def _lacks_g(found: Replan, choice: Choice) -> np.ndarray:
    """Return how much more of each lot that is missing it takes than there is."""
    lacks_g = choice.missing_g.copy()
    for short in found.choices[0].short:
        lacks_g[short.lot] += short.missing_g if lacks_g[short.lot] else 0.0
    return lacks_g


def _takes(found: Replan, choice: Choice) -> str:
    least_g = choice.laid.resolved.step_g / 2
    told = [
        f"{_lots(choice, sign * choice.more_g)} {word}"
        for sign, word in ((1, "more"), (-1, "less"))
        if (sign * choice.more_g >= least_g).any()
    ]
    if not told:
        return ""
    return f"takes {join_words(told)}{_or_by_grist(found, choice)}"


def _or_by_grist(found: Replan, choice: Choice) -> str:
    """Return how each ply is spun where the grams stay as they are; empty where that is no way."""
    tex, is_told = choice.grist_instead_tex, np.abs(choice.factors - 1) >= _TOLD_GRIST
    told = [
        f"{_ply(found, int(k))} at {found.answer.say.yarn(float(tex[k]))}"
        for k in np.flatnonzero(~np.isnan(tex) & is_told)
    ]
    if not told:
        return ""
    worth = percent(choice.as_planned_by_grist)
    same = f"the same {choice.laid.say.mass.plural}"
    return f"; or {same} spun otherwise, {join_words(told)} ({worth} as planned)"


def reason_text(found: Replan) -> str:
    """Return what is recommended, and why; what helps where a lot runs short, or lies turned."""
    best, now = found.recommended, found.choices[0]
    told = _carry_on(found)
    if best is not now:
        told = (
            f"Best: {way_words(found, best)}. It keeps {_kept(best, now)} of the yarn as planned, "
            f"{_kept(now, best)} if you carry on."
        )
    first = [*turned_round(found.answer), *last_too_many(found.answer)]
    if first:
        told = f"If you do not, {told[0].lower()}{told[1:]}"
    return " ".join([*first, told, *mixed_up(found.answer), *short_sentences(best.laid)])


def _carry_on(found: Replan) -> str:
    now = found.choices[0]
    others = [one for one in found.choices if one.name != CARRY_ON]
    beyond = [one for one in others if one.as_planned > now.as_planned + WORTH_IT]
    if beyond:
        most = max(beyond, key=lambda one: one.as_planned)
        lacks = _lots(most, _lacks_g(found, most))
        return (
            f"Carry on: to {way_words(found, most)} would keep more of the yarn as planned, but "
            f"it takes {lacks} more than there is."
        )
    if others:
        return "Carry on: nothing else keeps more of the yarn as planned."
    if any(one.as_planned > now.as_planned + WORTH_IT for one in found.unseen):
        return "Carry on: what would mend it is less than your scale can show."
    if now.as_planned < 1 - WORTH_IT:
        return "Carry on: nothing that is spun from here on mends it."
    if any(wrong_twist(found.answer)):
        return "With the others carry on: there is nothing else to mend."
    return f"Carry on: there is nothing to mend{' on the bobbins' if now.short else ''}."


def _kept(one: Choice, other: Choice) -> str:
    whole = percent(one.as_planned)
    return whole if whole != percent(other.as_planned) else f"{one.as_planned:.1%}"


def _lots(choice: Choice, mass_g: np.ndarray) -> str:
    """Return grams above 0 by lot; what no scale shows is said so."""
    step_g, names = choice.laid.resolved.step_g, choice.laid.resolved.plan.names
    told = [
        f"{choice.laid.say.seen(each_g, step_g)} of {names[lot]}"
        for lot, each_g in enumerate(mass_g.tolist())
        if is_seen(each_g, step_g)
    ]
    if not told and (mass_g > 0).any():
        most = int(np.argmax(mass_g))
        return f"{choice.laid.say.seen(mass_g[most], step_g)} of {names[most]}"
    return join_words(told) if told else ""
