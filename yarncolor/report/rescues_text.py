"""When a single runs out: what can still be made, in a spinner's words."""

from collections.abc import Iterable

from yarncolor.answers.answer import Answer
from yarncolor.answers.guessed_thickness import about, metres_told
from yarncolor.answers.rescues import OnPly, RescuedYarn
from yarncolor.phrases import capital, is_seen, join_words, plies_words
from yarncolor.report.rescue_hands import hands_lines, rescue_words
from yarncolor.report.rescue_phrases import CAUTIONS, WORDS


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
        return WORDS["together"]
    out, ended = yarns[0].out, answer.layout.ended
    left_m, yarn_m = yarns[0].left_m, answer.layout.stretches.yarn_m
    left = join_words(
        [
            WORDS["of_ply"].format(metres=metres_told(answer, left_m[k]), ply=plies_words([k]))
            for k in out.going
        ]
    )
    first, many = plies_words(out.ended), len(out.ended) > 1
    if ended is None:
        runs = WORDS["outs" if many else "out"]
        told = metres_told(answer, yarn_m)
        return WORDS["first"].format(plies=first, out=runs, metres=told, left=left)
    has = WORDS["have" if many else "has"]
    return has.format(plies=capital(first), metres=answer.say.long(yarn_m), left=left)


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
        return f"{WORDS['nothing']}; {_over(answer, one)}"
    guess = about(answer) if one.is_as_many else "about "
    plied = WORDS.get(f"plied{one.plies}", WORDS["plied"]).format(plies=one.plies)
    parts = [WORDS["comes_to"].format(metres=f"{guess}{answer.say.long(one.extra_m)}", plied=plied)]
    if count := len(one.rescue.joined):
        agree = WORDS["agree" if one.rescue.same_at_splice else "disagree"]
        parts.append(WORDS["splices" if count > 1 else "splice"].format(count=count, agree=agree))
    return "; ".join([*parts, _over(answer, one)])


def _over(answer: Answer, one: RescuedYarn) -> str:
    step_g, names = answer.resolved.step_g, answer.plan.names
    seen_g = by_lot_g(part for part in one.over if is_seen(part.mass_g, step_g))
    if not seen_g:
        return WORDS["hardly_over"]
    told = [
        WORDS["over"].format(mass=answer.say.seen(mass_g, step_g), lot=names[lot])
        for lot, mass_g in seen_g.items()
    ]
    return WORDS["stay" if len(told) > 1 else "stays"].format(over=join_words(told))


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
