"""When a single runs out: what the hands do, in three lines; which end, which way."""

from collections.abc import Callable
from string import Formatter

from yarncolor.answers.answer import Answer
from yarncolor.answers.guessed_thickness import metres_told
from yarncolor.answers.rescues import RescuedYarn
from yarncolor.phrases import join_words, plies_words, turns
from yarncolor.report.rescue_phrases import HANDS, NAMES, WORDS, words_in
from yarncolor.units import m_per_100g

_TOGETHER = 1e-4


def rescue_words(answer: Answer, one: RescuedYarn) -> str:
    """Return what a rescue is called.

    Parameters
    ----------
    answer : Answer
        To the plan that it is of.
    one : RescuedYarn
        One of them.
    """
    return _filled(NAMES[one.kind], answer, one)


def hands_lines(answer: Answer, one: RescuedYarn) -> tuple[str, str, str]:
    """Return three lines of what the hands do: which end, which way.

    Parameters
    ----------
    answer : Answer
        To the plan that it is of.
    one : RescuedYarn
        One of them.
    """
    first, second, third = (_filled(line, answer, one) for line in HANDS[one.kind])
    return first, second, third


def _filled(sentence: str, answer: Answer, one: RescuedYarn) -> str:
    slots = [slot for _, slot, _, _ in Formatter().parse(sentence) if slot]
    return sentence.format(**{slot: _SLOTS[slot](answer, one) for slot in slots})


def _full(answer: Answer, one: RescuedYarn) -> str:  # noqa: ARG001
    return plies_words([one.out.fullest])


def _ended(answer: Answer, one: RescuedYarn) -> str:  # noqa: ARG001
    return plies_words(one.out.ended)


def _going(answer: Answer, one: RescuedYarn) -> str:  # noqa: ARG001
    return join_words([str(k + 1) for k in one.out.going])


def _left(answer: Answer, one: RescuedYarn) -> str:
    return metres_told(answer, one.left_m[one.out.fullest])


def _half(answer: Answer, one: RescuedYarn) -> str:
    return metres_told(answer, one.left_m[one.out.fullest] / 2)


def _loop(answer: Answer, one: RescuedYarn) -> str:
    return answer.say.long(one.out.loop_m)


def _single(answer: Answer, one: RescuedYarn) -> str:
    return metres_told(answer, one.rescue.single_m)


def _comes_first(answer: Answer, one: RescuedYarn) -> str:
    return answer.plan.names[int(one.out.left[one.out.fullest].lot[0])]


def _spun(answer: Answer, one: RescuedYarn) -> str:
    return join_words(list(dict.fromkeys(answer.plan.names[need.lot] for need in one.needs)))


def _needs(answer: Answer, one: RescuedYarn) -> str:
    step_g, names = answer.resolved.step_g, answer.plan.names
    each = [
        WORDS["need"].format(
            mass=answer.say.seen(need.mass_g, step_g),
            lot=names[need.lot],
            ply=plies_words([need.ply]),
        )
        for need in one.needs
    ]
    return join_words(each)


def _runs_out(answer: Answer, one: RescuedYarn) -> str:  # noqa: ARG001
    """Return which of the plies that go on run out first, all of those that do."""
    left_m, going = one.out.left_m, one.out.going
    least_m = float(left_m[going].min())
    first = [k for k in going if left_m[k] <= least_m * (1 + _TOGETHER)]
    return WORDS["run_out" if len(first) > 1 else "runs_out"].format(plies=plies_words(first))


def _used_up(answer: Answer, one: RescuedYarn) -> str:
    out = one.out
    enough = one.rescue.single_m >= min(out.left_m[out.going]) * (1 - _TOGETHER)
    return _runs_out(answer, one) if enough else WORDS["used_up"]


def _meets(answer: Answer, one: RescuedYarn) -> str:
    names = answer.plan.names
    met = [
        WORDS["both_are" if left == right else "meets"].format(left=names[left], right=names[right])
        for left, right in dict.fromkeys(one.rescue.joined)
    ]
    return join_words(met)


def _begins(answer: Answer, one: RescuedYarn) -> str:
    along = one.along
    lots = [] if along is None else list(dict.fromkeys(along.lot[0].tolist()))
    return join_words([answer.plan.names[lot] for lot in lots])


def _twist(answer: Answer, one: RescuedYarn) -> str:
    """Return how another number of plies changes the yarn: its grist, its twist, what it loses."""
    if one.is_as_many:
        return WORDS["as_thick"]
    before = answer.resolved.yarn
    now_m, then_m = m_per_100g(one.yarn.yarn_tex), m_per_100g(before.yarn_tex)
    grist = answer.say.grist
    wants = ""
    if one.yarn.ply_twist_tpm is not None and before.ply_twist_tpm is not None:
        now, had = turns(one.yarn.ply_twist_tpm), turns(before.ply_twist_tpm)
        wants = WORDS["wants"].format(now=now, had=had)
    return words_in(answer.say)["other"].format(
        thick=WORDS["thinner" if now_m > then_m else "thicker"],
        now=grist.number(now_m, 0),
        had=grist.number(then_m, 0),
        wants=wants,
        less=WORDS["less" if one.plies < before.plies else "more"],
    )


_SLOTS: dict[str, Callable[[Answer, RescuedYarn], str]] = {
    "full": _full,
    "ended": _ended,
    "going": _going,
    "left": _left,
    "half": _half,
    "loop": _loop,
    "single": _single,
    "comes_first": _comes_first,
    "spun": _spun,
    "needs": _needs,
    "runs_out": _runs_out,
    "used_up": _used_up,
    "meets": _meets,
    "begins": _begins,
    "twist": _twist,
}
