"""Does it matter, what can be done, what is best: in a spinner's words."""

from collections.abc import Iterator

import numpy as np

from yarncolor.answers.choices import CARRY_ON, GRIST, WORTH_IT, Choice, Replan, RowsToSpin
from yarncolor.answers.matters import Matters
from yarncolor.phrases import grams, join_words, metres, percent
from yarncolor.units import m_per_100g

WAY_WORDS: dict[str, str] = {
    "carry_on": "carry on",
    "in_step": "put the next rows right",
    "run_out": "let the plies run out together",
    "pull_off": "draw the outer end off",
    "make_up": "make up what is missing",
    "follow": "follow the finished bobbin",
}
"""What each way to go on is called."""

_MOST_ROWS = 4
_SAME = 1e-7
_SEEN_M = 0.05


def matters_text(found: Replan) -> str:
    """Return whether what has strayed matters: what it moves, and what it does not."""
    one = found.matters
    if one.ply is None:
        return _in_its_place(one)
    ply, verdict = _ply(found, one.ply), "It hardly matters"
    if one.as_planned < 1 - WORTH_IT:
        verdict = "It matters"
    if one.is_decided:
        return f"{verdict}: with what was decided since, {_farthest(one, ply)}. {_stands(one)}"
    first = "straight from the bobbin, what was spun last"
    if one.turned:
        first = "wound off, what was spun first"
    what = f"{_surplus(one)} on {ply}"
    return f"{verdict}: {first} comes off first, so {what} {_moves(one)}. {_stands(one)}"


def _in_its_place(one: Matters) -> str:
    if one.as_planned > 1 - _SAME:
        return "It does not matter: every colour lies where it was planned."
    return (
        "Every colour change lies where it was planned, but another colour lies between some. "
        f"{_stands(one)}"
    )


def _farthest(one: Matters, ply: str) -> str:
    if not one.moved:
        return f"no colour meeting of {ply} is moved, only its end"
    return f"{one.moved} of {one.changes} colour changes of {ply} are moved, {_by(one)}"


def _by(one: Matters) -> str:
    way = "later" if one.shift_m > 0 else "sooner"
    return f"by up to {metres(abs(one.shift_m))}, {way}"


def _surplus(one: Matters) -> str:
    if abs(one.surplus_m) < _SEEN_M:
        return "rows in another order" if one.is_reordered else "rows too long and too short"
    return f"{metres(abs(one.surplus_m))} too {'many' if one.surplus_m > 0 else 'few'}"


def _moves(one: Matters) -> str:
    if not one.moved:
        return "move no colour meeting, only the end of the yarn"
    before, after = ("after", "before") if one.turned else ("before", "after")
    block = f", those spun {before}," if one.is_block else ""
    rest = f", and none spun {after}" if one.is_block and one.moved < one.changes else ""
    return f"move {one.moved} of its {one.changes} colour changes{block} {_by(one)}{rest}"


def _stands(one: Matters) -> str:
    if abs(one.longer_m) < _SEEN_M:
        return f"If you carry on, {percent(one.as_planned)} of the yarn stays as planned."
    than = "more" if one.longer_m > 0 else "less"
    return (
        f"If you carry on, {percent(one.as_planned)} of the yarn stays as planned, and it is "
        f"{metres(one.yarn_m)}, {metres(abs(one.longer_m))} {than} than planned."
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
    return f"{percent(choice.as_planned)} as planned, {metres(choice.yarn_m)} of yarn{first}"


def hands_text(found: Replan, choice: Choice) -> str:
    """Return what the hands do: which rows change, what is spun beside, what is drawn off.

    Parameters
    ----------
    found : Replan
        Every way to go on.
    choice : Choice
        One of them.
    """
    told = [*_drawn(found, choice), *_rows(found, choice)]
    return "; ".join(told) if told else "change nothing"


def _drawn(found: Replan, choice: Choice) -> Iterator[str]:
    for k in np.flatnonzero(choice.pull_off_m):
        yield (
            f"draw {metres(choice.pull_off_m[k])} off the outer end of {_ply(found, int(k))} "
            "before plying"
        )


def _rows(found: Replan, choice: Choice) -> Iterator[str]:
    """Yield, ply by ply, what is spun beside the rows, and which rows change."""
    now, then = found.choices[0].rows, choice.rows
    for k in range(len(choice.factors)):
        ply = _ply(found, k)
        extra = _beside(then, k)[: len(_beside(then, k)) - len(_beside(now, k))]
        if extra:
            pieces = [f"{_grams(choice, at)} of {_lot(choice, at)}" for at in extra]
            yield f"spin next on {ply}: {join_words(pieces)}"
        before, after = now.of_ply(k), then.of_ply(k)
        changed = [row for row in before if row not in after or _differ(found, choice, row, k)]
        if len(changed) > _MOST_ROWS:
            more = "longer" if choice.factors[k] > 1 else "shorter"
            by = percent(abs(choice.factors[k] - 1))
            yield f"{ply}: {len(changed)} rows from row {changed[0]} on, {by} {more} in all"
        elif changed:
            yield f"{ply}: {join_words([_row(found, choice, row, k) for row in changed])}"


def _beside(rows: RowsToSpin, k: int) -> list[int]:
    """Return the pieces of a ply that no row asks for."""
    return np.flatnonzero((rows.portions.ply == k) & (rows.row == 0)).tolist()


def _differ(found: Replan, choice: Choice, row: int, k: int) -> bool:
    now, then = found.choices[0].rows, choice.rows
    before, after = now.of_ply(k)[row], then.of_ply(k)[row]
    return bool(abs(then.portions.mass_g[after] / now.portions.mass_g[before] - 1) > _SAME)


def _row(found: Replan, choice: Choice, row: int, k: int) -> str:
    now, then = found.choices[0], choice.rows.of_ply(k)
    if row not in then:
        return f"row {row} is not spun"
    before = _grams(now, now.rows.of_ply(k)[row])
    return f"row {row} takes {_grams(choice, then[row])} of {_lot(choice, then[row])}, not {before}"


def _grams(choice: Choice, at: int) -> str:
    """Return what goes on the scale for a row; for a piece of a heap, its own grams."""
    portions, step_g = choice.rows.portions, choice.laid.resolved.step_g
    weigh_g = float(portions.weigh_g[at])
    return f"{grams(float(portions.mass_g[at]) if np.isnan(weigh_g) else weigh_g, step_g)} g"


def _lot(choice: Choice, at: int) -> str:
    return choice.laid.resolved.plan.names[int(choice.rows.portions.lot[at])]


def possible_text(found: Replan, choice: Choice) -> str:
    """Return whether there is fibre for it; the other way by grist; what is missing.

    Parameters
    ----------
    found : Replan
        Every way to go on.
    choice : Choice
        One of them.
    """
    if choice.possible is None:
        return f"not possible: {_lots(choice, choice.missing_g)} more than there is"
    grist = _by_grist(found, choice)
    if choice.possible == GRIST:
        return f"only by grist, with the grams as they are: {grist}"
    more, less = (_lots(choice, sign * choice.more_g) for sign in (1, -1))
    took = [f"{more} more"] * bool(more) + [f"{less} less"] * bool(less)
    instead = f"; or the same grams spun otherwise: {grist}" if grist else ""
    return f"takes {join_words(took)}{instead}" if took else "takes what is there"


def _by_grist(found: Replan, choice: Choice) -> str:
    """Return how each ply is spun where the grams stay as they are; empty where that is no way."""
    tex = choice.grist_instead_tex
    told = [
        f"{_ply(found, int(k))} at {m_per_100g(tex[k]):.0f} m in 100 g"
        for k in np.flatnonzero(~np.isnan(tex))
    ]
    return join_words(told) if told else ""


def reason_text(found: Replan) -> str:
    """Return what is recommended, and why, in a sentence."""
    best, now = found.recommended, found.choices[0]
    others = [one for one in found.choices if one.name != CARRY_ON]
    if best is not now:
        return (
            f"Best: {WAY_WORDS[best.name]}. It keeps {_kept(best, now)} of the yarn as planned, "
            f"{_kept(now, best)} if you carry on."
        )
    beyond = [one for one in others if one.as_planned > now.as_planned + WORTH_IT]
    if not others and now.as_planned < 1 - WORTH_IT:
        return "Carry on: nothing that is spun from here on mends it."
    if not others:
        return "Carry on: there is nothing to mend."
    if beyond:
        most = max(beyond, key=lambda one: one.as_planned)
        lacks = _lots(most, most.missing_g)
        return (
            f"Carry on: to {WAY_WORDS[most.name]} would keep more of the yarn as planned, but "
            f"{lacks} are missing."
        )
    return "Carry on: nothing else keeps more of the yarn as planned."


def _kept(one: Choice, other: Choice) -> str:
    whole = percent(one.as_planned)
    return whole if whole != percent(other.as_planned) else f"{one.as_planned:.1%}"


def _lots(choice: Choice, mass_g: np.ndarray) -> str:
    """Return grams above 0 by lot; what no scale shows is said so."""
    step_g, names = choice.laid.resolved.step_g, choice.laid.resolved.plan.names
    told = [
        f"{grams(mass_g[lot], step_g)} g of {names[lot]}"
        for lot in np.flatnonzero(mass_g >= step_g / 2)
    ]
    if not told and (mass_g > 0).any():
        return f"less than {step_g:g} g of {names[int(np.argmax(mass_g))]}"
    return join_words(told) if told else ""


def _ply(found: Replan, k: int) -> str:
    return f"ply {k + 1}" if len(found.choices[0].factors) > 1 else "the single"
