"""What a bobbin weighs on the way, as the card says it: with the bobbin where that is known."""

from dataclasses import dataclass

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.bobbins import Bobbin
from yarncolor.phrases import grams, with_tare


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


class Weights:
    """Weights along one ply, from what goes on the scale.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    k : int
        Ply, from 0.
    """

    def __init__(self, answer: Answer, k: int) -> None:
        portions, yarn = answer.layout.portions, answer.resolved.yarn
        own = portions.of_ply(k)
        self._start, self._step_g = own.start, answer.resolved.step_g
        self._ends_m = portions.ends_m[own]
        self._spun_g = (
            np.cumsum(answer.put_g[own]) * (1 - answer.resolved.spin_loss) / yarn.strands[k]
        )
        self._bobbins = bobbins_of(answer, k)

    def after(self, row: int) -> Weight:
        """Return what the bobbin in use weighs after a row, counted from 0."""
        return self._at(self._ends_m[row], self._in_use(row))

    def full(self) -> dict[int, list[Weight]]:
        """Return the bobbins that are full after or within a row, before the ply ends."""
        full: dict[int, list[Weight]] = {}
        for bobbin in self._bobbins[:-1]:
            weight = self._at(bobbin.end_m, bobbin, within=not bobbin.ends_with_portion)
            full.setdefault(bobbin.last - self._start, []).append(weight)
        return full

    def _in_use(self, row: int) -> Bobbin:
        at_m = self._ends_m[row] * (1 - 1e-9)
        return next(bobbin for bobbin in self._bobbins if at_m <= bobbin.end_m)

    def _at(self, at_m: float, bobbin: Bobbin, within: bool = False) -> Weight:
        ends = np.append(0.0, self._ends_m)
        spun = np.append(0.0, self._spun_g)
        net = float(np.interp(at_m, ends, spun) - np.interp(bobbin.start_m, ends, spun))
        shown = grams(net, self._step_g)
        gross = "" if bobbin.tare_g is None else with_tare(shown, bobbin.tare_g)
        return Weight(bobbin.number, shown, gross, within)
