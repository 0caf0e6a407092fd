"""What is compared of a yarn: its numbers, each as it is said in words."""

from dataclasses import dataclass
from itertools import combinations

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.guessed_thickness import about
from yarncolor.answers.marl import contrast_words, shares_called
from yarncolor.measures import Measures
from yarncolor.phrases import join_words

_WORDS = ("alike", "close", "clear", "loud")
_MOST_NAMED = 3
LEAST_G = 0.05
"""Grams below which nothing is left over: a tenth on the scale would show none."""


@dataclass(frozen=True)
class Comparison:
    """The numbers by which one yarn is put beside another.

    Parameters
    ----------
    length_m, mass_g : float
        Of the yarn as plied.
    about : str
        What stands before its metres, where they hang on a guess.
    shares : tuple of float
        Share of the length that shows 1, 2, … colours.
    loud_share : float
        Share of the length that marls loudly.
    loudest : str
        Alike, close, clear or loud; empty where nothing marls.
    loudest_lots : tuple of str
        The two lots of the loudest marl.
    changes : int
        How often a ply changes colour along the yarn.
    left_g : dict of str to float
        Grams of each lot that do not become yarn, most first.
    wpi : float
        Wraps to the inch.
    called : str
        What charts call the yarn.
    begins, ends : tuple of str
        Lots side by side where plying begins, and where the yarn ends.
    say : Measures
        What its masses and lengths are said in.
    """

    length_m: float
    mass_g: float
    about: str
    shares: tuple[float, ...]
    loud_share: float
    loudest: str
    loudest_lots: tuple[str, ...]
    changes: int
    left_g: dict[str, float]
    wpi: float
    called: str
    begins: tuple[str, ...]
    ends: tuple[str, ...]
    say: Measures

    def share_of(self, colours: int) -> float:
        """Return the share of the length that shows so many colours; 0 for more than plies."""
        return self.shares[colours - 1] if colours <= len(self.shares) else 0.0

    @property
    def most_colours(self) -> int:
        """The most colours that lie side by side anywhere."""
        return max(count for count, share in enumerate(self.shares, 1) if share)


def comparison(answer: Answer) -> Comparison:
    """Return the numbers of a plan by which it is compared."""
    laid = answer.layout
    along, names = laid.stretches, answer.plan.names
    words = contrast_words(answer)
    return Comparison(
        length_m=float(along.yarn_m),
        mass_g=float(laid.yarn_g),
        about=about(answer),
        shares=tuple(answer.shares.tolist()),
        loud_share=shares_called(answer).get("loud", 0.0),
        loudest=max(words, key=_WORDS.index, default="") if answer.shares[0] < 1 else "",
        loudest_lots=_loudest_lots(answer, words),
        changes=int(np.count_nonzero((along.lot[1:] != along.lot[:-1]).any(axis=1))),
        left_g=_left_g(answer),
        wpi=float(answer.resolved.yarn.wpi(laid.yarn_tex)),
        called=answer.weight_class.name,
        begins=tuple(dict.fromkeys(names[lot] for lot in along.lot[0])),
        ends=tuple(dict.fromkeys(names[lot] for lot in along.lot[-1])),
        say=answer.say,
    )


def left_words(yarn: Comparison) -> str:
    """Return what is left over in words: each lot by name, many by their count."""
    left_g, mass = yarn.left_g, yarn.say.mass
    each = [f"{mass(left)} of {name}" for name, left in left_g.items()]
    if not each:
        return "nothing"
    if len(each) <= _MOST_NAMED:
        return join_words(each)
    return f"{mass(sum(left_g.values()))} of {len(each)} lots"


def lots_words(names: tuple[str, ...]) -> str:
    """Return lots that lie side by side in words: ``Kelp with Foam``, ``Kelp with 4 others``."""
    first, *others = names
    many = len(others) >= _MOST_NAMED
    beside = [f"{len(others)} others"] if many else others
    return f"{first} with {join_words(beside)}" if others else first


def _loudest_lots(answer: Answer, words: list[str]) -> tuple[str, ...]:
    """Return the two lots that are farthest apart in the loudest stretch, in the stash's order."""
    rank = [
        (_WORDS.index(word), far) for word, far in zip(words, answer.contrast.hyab, strict=True)
    ]
    lots = sorted(set(answer.layout.stretches.lot[rank.index(max(rank))].tolist()))
    pairs = list(combinations(lots, 2))
    if not pairs:
        return ()
    pair = max(pairs, key=lambda pair: answer.palette.between.hyab[pair])
    return tuple(answer.plan.names[lot] for lot in pair)


def _left_g(answer: Answer) -> dict[str, float]:
    left = np.zeros(len(answer.plan.lots))
    for each in answer.leftovers:
        left[each.lot] += each.mass_g
    order = np.argsort(-left, kind="stable")
    return {answer.plan.names[at]: float(left[at]) for at in order if left[at] >= LEAST_G}
