"""What a bobbin weighs on the way, as the card says it: with the bobbin where that is known."""

from dataclasses import dataclass

from yarncolor.answers.answer import Answer
from yarncolor.answers.bobbins import Bobbin


@dataclass(frozen=True)
class Weight:
    """A weight to meet: of which bobbin, spun on it, and with the bobbin ("" if not known)."""

    bobbin: int
    net: str
    gross: str
    within: bool = False


def bobbins_of(answer: Answer, k: int) -> list[Bobbin]:
    """Return the bobbins that the first strand of a ply fills, in spinning order.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    k : int
        The ply, from 0.
    """
    return [bobbin for bobbin in answer.bobbins if bobbin.ply == k and bobbin.strand == 0]


def weight_after(answer: Answer, portion: int) -> Weight:
    """Return what the bobbin in use weighs when a portion is spun.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    portion : int
        Index into the plan's portions.
    """
    spun = answer.on_bobbins
    return _weight(answer, spun.in_use[portion], float(spun.after_each_g[portion]))


def full_bobbins(answer: Answer, k: int) -> dict[int, list[Weight]]:
    """Return the bobbins that are full after or within a portion, before the ply ends.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    k : int
        The ply, from 0.
    """
    full: dict[int, list[Weight]] = {}
    for bobbin in bobbins_of(answer, k)[:-1]:
        net_g = answer.on_bobbins.at_g(bobbin, bobbin.end_m)
        weight = _weight(answer, bobbin, net_g, within=not bobbin.ends_with_portion)
        full.setdefault(bobbin.last, []).append(weight)
    return full


def _weight(answer: Answer, bobbin: Bobbin, net_g: float, within: bool = False) -> Weight:
    shown = answer.say.on_scale(net_g, answer.resolved.step_g)
    gross = "" if bobbin.tare_g is None else answer.say.gross(shown, bobbin.tare_g)
    return Weight(bobbin.number, shown, gross, within)
