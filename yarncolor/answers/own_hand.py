"""What records say of a spinner's own hands: each figure, on how many it rests, its interval.

Nine times in ten the truth lies in the interval, if what was measured strays as a normal
distribution does: of a mean by Student's t, of a spread by chi-square.

References
----------
IUPAC, Compendium of Chemical Terminology, confidence limits about the mean (Pure and Applied
Chemistry 66, 1994, 595): a mean. Snedecor and Cochran, Statistical Methods, 8th ed. (1989), chapter
5 (chapter from memory): a variance; as statistics packages document it.
"""

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from yarncolor.answers.measured_yarn import found_contraction, found_shrinkage
from yarncolor.layout.layout import Layout
from yarncolor.layout.named_pieces import named_pieces
from yarncolor.phrases import title_of
from yarncolor.plan.hands import FEWEST, FIGURES, Figure, Hands
from yarncolor.plan.reference import KEYS

_OUTSIDE = 0.05
"""On either side of an interval of nine in ten."""


def own_hand(yarns: Sequence[Layout]) -> Hands:
    """Return what yarns say of the hands that made them; None for what nothing tells.

    Parameters
    ----------
    yarns : sequence of Layout
        Plans laid out, with what was spun and what came out.
    """
    return Hands(
        yarns=tuple(title_of(laid.resolved.plan) for laid in yarns),
        variation=spread_of([own for laid in yarns for own in pieces_tex(laid)]),
        spin_loss=mean_of([loss for laid in yarns for loss in _losses(laid)], "spin_loss"),
        contraction=mean_of(_known(map(found_contraction, yarns)), "contraction"),
        finishing_shrinkage=mean_of(_known(map(_washed_out, yarns)), "finishing_shrinkage"),
        minutes_per_g=mean_of(_known(map(_minutes_per_g, yarns)), "minutes_per_g"),
    )


def spread_of(plies: Sequence[NDArray[np.float64]]) -> Figure | None:
    """Return the coefficient of variation of grist, pooled over plies about each ply's own mean.

    Each ply counts n - 1; a ply with one piece says nothing. None from fewer than five pieces.

    Parameters
    ----------
    plies : sequence of (n,) arrays
        Grist of the pieces of each ply, in any unit.
    """
    from scipy.special import chdtri

    counted = [tex for tex in plies if len(tex) > 1]
    pieces = sum(map(len, counted))
    if pieces < FEWEST["variation"]:
        return None
    squares = sum(float(np.sum((tex / tex.mean() - 1) ** 2)) for tex in counted)
    free = pieces - len(counted)
    low, high = (np.sqrt(squares / chdtri(free, tail)) for tail in (_OUTSIDE, 1 - _OUTSIDE))
    return _within("variation", float(np.sqrt(squares / free)), pieces, (float(low), float(high)))


def mean_of(found: Sequence[float], key: str) -> Figure | None:
    """Return the mean of what was found; its interval from two on, None where nothing was found.

    Parameters
    ----------
    found : sequence of float
        One for each bobbin or yarn.
    key : str
        The key of a plan that it stands in for, within whose range it is kept.
    """
    from scipy.special import stdtrit

    count = len(found)
    if not count:
        return None
    mean = float(np.mean(found))
    if count < 2:
        return _within(key, mean, count)
    half = float(stdtrit(count - 1, 1 - _OUTSIDE) * np.std(found, ddof=1) / np.sqrt(count))
    return _within(key, mean, count, (mean - half, mean + half))


def _within(
    key: str, value: float, rests_on: int, interval: tuple[float, float] | None = None
) -> Figure:
    """Return a figure, all of it within what a plan can be given."""
    declared = KEYS[FIGURES[key], key]
    low, high = (None, None) if interval is None else np.clip(interval, declared.low, declared.high)
    return Figure(
        value=float(np.clip(value, declared.low, declared.high)),
        rests_on=rests_on,
        low=None if low is None else float(low),
        high=None if high is None else float(high),
    )


def pieces_tex(laid: Layout) -> Iterator[NDArray[np.float64]]:
    """Yield for each ply the grist of its pieces with grams and metres, and of its samples."""
    named = named_pieces(laid.resolved.plan.spun)
    kept, strands = 1 - laid.resolved.spin_loss, laid.resolved.yarn.strands
    for ply in range(len(strands)):
        own = named.ply == ply
        pieces = named.mass_g[own] * kept / named.length_m[own]
        samples = named.sample_g[own] * strands[ply] / named.sample_m[own]
        both = np.concatenate([pieces, samples])
        yield both[~np.isnan(both)] * 1000


def _losses(laid: Layout) -> list[float]:
    """Return what spinning lost of each ply, by readings of pieces that all state their grams."""
    wheel = laid.wheel
    return [] if wheel is None else _known(one.spin_loss_found for one in wheel.grist)


def _washed_out(laid: Layout) -> float | None:
    """Return the share lost in the wash, of what the yarn was after its rest."""
    lost, rested = found_shrinkage(laid), laid.resolved.plan.plying.resting_shrinkage
    return None if lost is None else 1 - (1 - lost) / (1 - (rested or 0.0))


def _minutes_per_g(laid: Layout) -> float | None:
    made = laid.resolved.plan.made
    if made is None or made.hours_spinning is None:
        return None
    return made.hours_spinning * 60 / float(laid.portions.mass_g.sum())


def _known(found: "Iterator[float | None]") -> list[float]:
    return [one for one in found if one is not None]
