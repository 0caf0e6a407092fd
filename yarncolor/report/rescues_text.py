"""When a single runs out: what can still be made, in a spinner's words."""

from collections.abc import Iterable

from yarncolor.answers.answer import Answer
from yarncolor.answers.guessed_thickness import about, metres_told
from yarncolor.answers.rescues import OnPly, RescuedYarn
from yarncolor.cautions import CUTTING
from yarncolor.phrases import capital, counted, grams_seen, is_seen, join_words, metres, plies_words
from yarncolor.report.rescue_hands import hands_lines

_WORDS = {
    "fewer_plies": "go on with fewer plies",
    "fold": "fold the rest of ply {} in two",
    "halves": "halve the rest of ply {}",
    "both_ends": "ply {} alone, from both its ends",
    "chain": "ply {} alone, as a chain",
    "keep": "keep the rest for mending",
}
_NUMBERS = {1: "single", 2: "two-ply", 3: "three-ply", 4: "four-ply", 5: "five-ply", 6: "six-ply"}
CAUTIONS = (
    f"{CUTTING} Do not shuffle several storage bobbins to use everything up: that mixes up the "
    "order of the colours."
)
"""What holds for all of them; common practice, no source."""


def rescue_words(answer: Answer, one: RescuedYarn) -> str:
    """Return what a rescue is called.

    Parameters
    ----------
    answer : Answer
        To the plan that it is of.
    one : RescuedYarn
        One of them.
    """
    if one.kind != "top_up":
        return _WORDS[one.kind].format(one.out.fullest + 1)
    lots = dict.fromkeys(answer.plan.names[need.lot] for need in one.needs)
    return f"spin more {join_words(list(lots))}"


def stands_text(answer: Answer, yarns: tuple[RescuedYarn, ...]) -> str:
    """Return what runs out first, after how much yarn, and what the others then have.

    Parameters
    ----------
    answer : Answer
        To the plan.
    yarns : tuple of RescuedYarn
        What can still be made.
    """
    if not yarns:
        return "The plies run out together: hardly anything stays on a bobbin."
    out, ended = yarns[0].out, answer.layout.ended
    first = plies_words(out.ended)
    left_m, yarn_m = yarns[0].left_m, answer.layout.stretches.yarn_m
    left = join_words([f"{metres_told(answer, left_m[k])} of ply {k + 1}" for k in out.going])
    if ended is None:
        many = "run" if len(out.ended) > 1 else "runs"
        runs_out = f"{first} {many} out first, after {metres_told(answer, yarn_m)} of yarn"
        return f"As it is now, {runs_out}. Left then: {left}."
    many = "have" if len(out.ended) > 1 else "has"
    return f"{capital(first)} {many} run out after {metres(yarn_m)} of yarn. Left: {left}."


def worth_text(answer: Answer, one: RescuedYarn) -> str:
    """Return what a rescue comes to: metres, plies, splices, colours there, what stays over.

    Parameters
    ----------
    answer : Answer
        To the plan that it is of.
    one : RescuedYarn
        One of them.
    """
    if not one.plies:
        return f"no more yarn; {_over(answer, one)}"
    guess = about(answer) if one.is_as_many else "about "
    parts = [f"{guess}{metres(one.extra_m)} more, {_NUMBERS.get(one.plies, f'{one.plies}-ply')}"]
    if one.rescue.joined:
        agree = "the colours agree" if one.rescue.same_at_splice else "the colours do not agree"
        parts.append(f"{counted(len(one.rescue.joined), 'splice')}, where {agree}")
    return "; ".join([*parts, _over(answer, one)])


def _over(answer: Answer, one: RescuedYarn) -> str:
    step_g, names = answer.resolved.step_g, answer.plan.names
    seen_g = by_lot_g(part for part in one.over if is_seen(part.mass_g, step_g))
    if not seen_g:
        return "hardly anything stays over"
    told = [f"{grams_seen(mass_g, step_g)} of {names[lot]}" for lot, mass_g in seen_g.items()]
    return f"{join_words(told)} {'stay' if len(told) > 1 else 'stays'} over"


def by_lot_g(parts: Iterable[OnPly]) -> dict[int, float]:
    """Return grams by lot, of all plies together, in the order in which lots are met."""
    whole_g: dict[int, float] = {}
    for part in parts:
        whole_g[part.lot] = whole_g.get(part.lot, 0.0) + part.mass_g
    return whole_g


def rescues_text(answer: Answer, yarns: tuple[RescuedYarn, ...]) -> str:
    """Return every rescue for a terminal: what it comes to, and what the hands do.

    Parameters
    ----------
    answer : Answer
        To the plan.
    yarns : tuple of RescuedYarn
        What can still be made.
    """
    blocks = [f"When a ply runs out\n{stands_text(answer, yarns)}"]
    for one in yarns:
        lines = (worth_text(answer, one), *hands_lines(answer, one))
        told = "\n".join(f"    {line}" for line in lines)
        blocks.append(f"{rescue_words(answer, one)} ({one.kind})\n{told}")
    return "\n\n".join([*blocks, CAUTIONS]) + "\n"
