"""How the plies of a yarn meet: what its marl is called, where all differ, every change."""

from dataclasses import dataclass

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.colour.difference import contrast_word
from yarncolor.layout.stretches import colours_side_by_side


@dataclass(frozen=True)
class PlyChange:
    """A place of the yarn where a ply changes colour.

    Parameters
    ----------
    yarn_m : float
        Metres of yarn from where plying begins.
    ply : int
        From 0.
    before, after : int
        Lot that ends there, and lot that begins.
    spread_m : float or None
        SD of the place; None where no variation is given.
    """

    yarn_m: float
    ply: int
    before: int
    after: int
    spread_m: float | None


def contrast_words(answer: Answer) -> list[str]:
    """Return what the marl of each stretch is called: alike, close, clear or loud."""
    far = answer.contrast
    return [contrast_word(*pair) for pair in zip(far.ciede2000, far.hyab, strict=True)]


def shares_called(answer: Answer) -> dict[str, float]:
    """Return the share of the yarn's length by what its marl is called; only what there is."""
    edges_ppb = answer.layout.stretches.edges_ppb
    called: dict[str, int] = {}
    for word, long in zip(contrast_words(answer), np.diff(edges_ppb).tolist(), strict=True):
        called[word] = called.get(word, 0) + long
    return {word: long / int(edges_ppb[-1]) for word, long in called.items()}


def first_all_different_m(answer: Answer) -> float | None:
    """Return where all plies first differ, in metres of yarn; None if nowhere or with one ply."""
    along = answer.layout.stretches
    plies = along.lot.shape[1]
    all_differ = np.flatnonzero(colours_side_by_side(along.lot) == plies)
    return float(along.edges_m[all_differ[0]]) if plies > 1 and len(all_differ) else None


def ply_changes(answer: Answer) -> list[PlyChange]:
    """Return every place of the yarn where a ply changes colour, to what, and how surely there."""
    along, bands = answer.layout.stretches, answer.spread
    stretch, ply = np.nonzero(along.lot[1:] != along.lot[:-1])
    return [
        PlyChange(
            yarn_m=float(along.edges_m[at + 1]),
            ply=int(k),
            before=int(along.lot[at, k]),
            after=int(along.lot[at + 1, k]),
            spread_m=None if bands is None else float(bands.point_sd_m[at, k]),
        )
        for at, k in zip(stretch, ply, strict=True)
    ]
