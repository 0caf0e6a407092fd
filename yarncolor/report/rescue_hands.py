"""When a single runs out: what the hands do, in three lines; which end, which way."""

from collections.abc import Callable

from yarncolor.answers.answer import Answer
from yarncolor.answers.guessed_thickness import metres_told
from yarncolor.answers.rescues import RescuedYarn
from yarncolor.phrases import grams_seen, join_words, metres, plies_words, turns
from yarncolor.units import m_per_100g

_TOGETHER = 1e-4


def hands_lines(answer: Answer, one: RescuedYarn) -> tuple[str, str, str]:
    """Return three lines of what the hands do: which end, which way.

    Parameters
    ----------
    answer : Answer
        To the plan that it is of.
    one : RescuedYarn
        One of them.
    """
    return _HANDS[one.kind](answer, one)


_Lines = tuple[str, str, str]
_TURNS_NOTHING = "Winding off never turns the twist round."


def _fewer_plies(answer: Answer, one: RescuedYarn) -> _Lines:
    out = one.out
    going = join_words([str(k + 1) for k in out.going])
    ended = plies_words(out.ended)
    return (
        f"Go on with plies {going} as they run, and let the end of {ended} thin out between them.",
        f"Ply the same way as before, until {_runs_out(one)}.",
        _twist(answer, one),
    )


def _fold(answer: Answer, one: RescuedYarn) -> _Lines:
    full, ended = one.out.fullest, one.out.ended[0]
    return (
        f"Wind all that ply {full + 1} has left, {metres_told(answer, one.left_m[full])}, "
        "into a ball, beginning at the yarn: the end that goes to the yarn comes out of its "
        "middle, the far end lies outside.",
        f"Splice the outer end of the ball to the end of ply {ended + 1}: {_meets(answer, one)}.",
        f"Ply on the same way: the middle of the ball as ply {full + 1}, its outside as ply "
        f"{ended + 1}. {_TURNS_NOTHING}",
    )


def _halves(answer: Answer, one: RescuedYarn) -> _Lines:
    full, ended = one.out.fullest, one.out.ended[0]
    return (
        f"Wind half of what ply {full + 1} has left, {metres_told(answer, one.left_m[full] / 2)}, "
        "into a ball, beginning at the yarn, and break it off: the end that goes to the yarn "
        "comes out of the middle of the ball.",
        f"Splice the end that is now outermost on its bobbin to the end of ply {ended + 1}: "
        f"{_meets(answer, one)}.",
        f"Ply on the same way: the middle of the ball as ply {full + 1}, the bobbin as ply "
        f"{ended + 1}. {_TURNS_NOTHING}",
    )


def _both_ends(answer: Answer, one: RescuedYarn) -> _Lines:
    full = one.out.fullest
    return (
        f"Break the yarn off. Wind all that ply {full + 1} has left, "
        f"{metres_told(answer, one.left_m[full])}, into a ball: the end that went to the yarn "
        "comes out of its middle, the far end lies outside.",
        f"Ply these two ends the same way as before; they begin with {_begins(answer, one)}. "
        f"{_TURNS_NOTHING}",
        _twist(answer, one),
    )


def _chain(answer: Answer, one: RescuedYarn) -> _Lines:
    full = one.out.fullest
    lot = answer.plan.names[one.out.left[full].lot[0]]
    return (
        f"Break the yarn off, and take ply {full + 1} straight from its bobbin by the end that "
        f"went to the yarn, {lot}.",
        f"Draw loop through loop, each at most {metres(one.out.loop_m)} long, and ply the same "
        "way as before: three strands of one single.",
        _twist(answer, one),
    )


def _top_up(answer: Answer, one: RescuedYarn) -> _Lines:
    step_g, names, out = answer.resolved.step_g, answer.plan.names, one.out
    spun = [
        f"{grams_seen(need.mass_g, step_g)} of {names[need.lot]} for ply {need.ply + 1}"
        for need in one.needs
    ]
    ended = plies_words(out.ended)
    enough = one.rescue.single_m >= min(out.left_m[out.going]) * (1 - _TOGETHER)
    end = _runs_out(one) if enough else "that is used up; there is no more of it"
    return (
        f"Spin {join_words(spun)}, {metres_told(answer, one.rescue.single_m)} of single, "
        "the same way and as thick as before.",
        f"Splice its outer end to the end of {ended}: {_meets(answer, one)}.",
        f"Ply on with all plies, the same way, until {end}.",
    )


def _keep(answer: Answer, one: RescuedYarn) -> _Lines:  # noqa: ARG001
    return (
        "Break the yarn off, and let its end be tied.",
        "Wind each rest onto a card of its own, and write its lot, its ply and its twist on it.",
        "It mends and sews up what is made of this yarn.",
    )


_HANDS: dict[str, Callable[[Answer, RescuedYarn], _Lines]] = {
    "fewer_plies": _fewer_plies,
    "fold": _fold,
    "halves": _halves,
    "both_ends": _both_ends,
    "chain": _chain,
    "top_up": _top_up,
    "keep": _keep,
}


def _runs_out(one: RescuedYarn) -> str:
    """Return which of the plies that go on run out first, all of those that do."""
    left_m, going = one.out.left_m, one.out.going
    least_m = float(left_m[going].min())
    first = [k for k in going if left_m[k] <= least_m * (1 + _TOGETHER)]
    return f"{plies_words(first)} {'run' if len(first) > 1 else 'runs'} out"


def _meets(answer: Answer, one: RescuedYarn) -> str:
    names = answer.plan.names
    met = [
        f"{names[left]} meets {names[right]}" if left != right else f"both are {names[left]}"
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
        return "It is as thick as before, and takes as much twist."
    before = answer.resolved.yarn
    now_m, then_m = m_per_100g(one.yarn.yarn_tex), m_per_100g(before.yarn_tex)
    thick = "thinner" if now_m > then_m else "thicker"
    told = f"This yarn is {thick}: about {now_m:.0f} m in 100 g, not {then_m:.0f}"
    if one.yarn.ply_twist_tpm is not None and before.ply_twist_tpm is not None:
        wants = turns(one.yarn.ply_twist_tpm)
        told += f", and at the same angle wants {wants}, not {turns(before.ply_twist_tpm)}"
    less = "less" if one.plies < before.plies else "more"
    return f"{told}. It loses a little {less} in plying than is reckoned here."
