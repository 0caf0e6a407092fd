"""When a single runs out: what can still be made, and what the hands do, in a spinner's words."""

from collections.abc import Callable, Iterable

from yarncolor.answers.answer import Answer
from yarncolor.answers.rescues import OnPly, RescuedYarn
from yarncolor.phrases import counted, grams, join_words, metres, turns
from yarncolor.units import m_per_100g

_WORDS = {
    "fewer_plies": "go on with fewer plies",
    "fold": "fold the rest of ply {} in two",
    "halves": "halve the rest of ply {}",
    "both_ends": "ply {} alone, from both its ends",
    "chain": "ply {} alone, as a chain",
    "keep": "keep the rest for mending",
}
_TOGETHER = 1e-4
_NUMBERS = {1: "single", 2: "two-ply", 3: "three-ply", 4: "four-ply", 5: "five-ply", 6: "six-ply"}
CAUTIONS = (
    "Stop the wheel and let it stand before you cut, splice or wind. Do not shuffle several "
    "storage bobbins to use everything up: that mixes up the order of the colours."
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
    first = join_words([f"ply {k + 1}" for k in out.ended])
    left = join_words([f"ply {k + 1} {metres(yarns[0].left_m[k])}" for k in out.going])
    after = metres(answer.layout.stretches.yarn_m)
    if ended is None:
        many = "run" if len(out.ended) > 1 else "runs"
        return f"As it is now, {first} {many} out first, after {after} of yarn. Left then: {left}."
    many = "have" if len(out.ended) > 1 else "has"
    return f"{_capital(first)} {many} run out after {after} of yarn. Left: {left}."


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
    about = "" if one.is_as_many else "about "
    parts = [f"{about}{metres(one.extra_m)} more, {_NUMBERS.get(one.plies, f'{one.plies}-ply')}"]
    if one.rescue.joined:
        agree = "the colours agree" if one.rescue.same_at_splice else "the colours do not agree"
        parts.append(f"{counted(len(one.rescue.joined), 'splice')}, where {agree}")
    return "; ".join([*parts, _over(answer, one)])


def _over(answer: Answer, one: RescuedYarn) -> str:
    step_g, names = answer.resolved.step_g, answer.plan.names
    seen_g = by_lot_g(part for part in one.over if part.mass_g >= step_g / 2)
    if not seen_g:
        return "hardly anything stays over"
    told = [f"{grams(mass_g, step_g)} g of {names[lot]}" for lot, mass_g in seen_g.items()]
    return f"{join_words(told)} {'stay' if len(told) > 1 else 'stays'} over"


def by_lot_g(parts: Iterable[OnPly]) -> dict[int, float]:
    """Return grams by lot, of all plies together, in the order in which lots are met."""
    whole_g: dict[int, float] = {}
    for part in parts:
        whole_g[part.lot] = whole_g.get(part.lot, 0.0) + part.mass_g
    return whole_g


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
    ended = join_words([f"ply {k + 1}" for k in out.ended])
    return (
        f"Go on with plies {going} as they run, and let the end of {ended} thin out between them.",
        f"Ply the same way as before, until {_runs_out(one)}.",
        twist_text(answer, one),
    )


def _fold(answer: Answer, one: RescuedYarn) -> _Lines:
    full, ended = one.out.fullest, one.out.ended[0]
    return (
        f"Wind all that ply {full + 1} has left, {metres(one.left_m[full])}, into a ball, "
        "beginning at the yarn: the end that goes to the yarn comes out of its middle, the far "
        "end lies outside.",
        f"Splice the outer end of the ball to the end of ply {ended + 1}: {_meets(answer, one)}.",
        f"Ply on the same way: the middle of the ball as ply {full + 1}, its outside as ply "
        f"{ended + 1}. {_TURNS_NOTHING}",
    )


def _halves(answer: Answer, one: RescuedYarn) -> _Lines:
    full, ended = one.out.fullest, one.out.ended[0]
    return (
        f"Wind half of what ply {full + 1} has left, {metres(one.left_m[full] / 2)}, into a "
        "ball, beginning at the yarn, and break it off: the end that goes to the yarn comes out "
        "of the middle of the ball.",
        f"Splice the end that is now outermost on its bobbin to the end of ply {ended + 1}: "
        f"{_meets(answer, one)}.",
        f"Ply on the same way: the middle of the ball as ply {full + 1}, the bobbin as ply "
        f"{ended + 1}. {_TURNS_NOTHING}",
    )


def _both_ends(answer: Answer, one: RescuedYarn) -> _Lines:
    full = one.out.fullest
    return (
        f"Break the yarn off. Wind all that ply {full + 1} has left, "
        f"{metres(one.left_m[full])}, into a ball: the end that went to the yarn comes out of "
        "its middle, the far end lies outside.",
        f"Ply these two ends the same way as before; they begin with {_begins(answer, one)}. "
        f"{_TURNS_NOTHING}",
        twist_text(answer, one),
    )


def _chain(answer: Answer, one: RescuedYarn) -> _Lines:
    full = one.out.fullest
    lot = answer.plan.names[one.out.left[full].lot[0]]
    return (
        f"Break the yarn off, and take ply {full + 1} straight from its bobbin by the end that "
        f"went to the yarn, {lot}.",
        f"Draw loop through loop, each at most {metres(one.out.loop_m)} long, and ply the same "
        "way as before: three strands of one single.",
        twist_text(answer, one),
    )


def _top_up(answer: Answer, one: RescuedYarn) -> _Lines:
    step_g, names, out = answer.resolved.step_g, answer.plan.names, one.out
    spun = [
        f"{grams(need.mass_g, step_g)} g of {names[need.lot]} for ply {need.ply + 1}"
        for need in one.needs
    ]
    ended = join_words([f"ply {k + 1}" for k in out.ended])
    enough = one.rescue.single_m >= min(out.left_m[out.going]) * (1 - _TOGETHER)
    end = _runs_out(one) if enough else "that is used up; there is no more of it"
    return (
        f"Spin {join_words(spun)}, {metres(one.rescue.single_m)} of single, the same way and as "
        "thick as before.",
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
    first = [f"ply {k + 1}" for k in going if left_m[k] <= least_m * (1 + _TOGETHER)]
    return f"{join_words(first)} {'run' if len(first) > 1 else 'runs'} out"


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


def twist_text(answer: Answer, one: RescuedYarn) -> str:
    """Return how another number of plies changes the yarn: its grist, its twist, what it loses.

    Parameters
    ----------
    answer : Answer
        To the plan that it is of.
    one : RescuedYarn
        Of which something is plied.
    """
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


def _capital(text: str) -> str:
    return f"{text[0].upper()}{text[1:]}"
