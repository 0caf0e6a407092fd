"""What becomes of the fibre: how much of each lot is used, what is carded together, what lacks."""

from dataclasses import dataclass, replace

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.defaults import taken_by_blends_g
from yarncolor.layout.layout import used_g

_ENOUGH = 1e-9


@dataclass(frozen=True)
class LotMass:
    """Grams of a lot, by its index in the stash."""

    lot: int
    mass_g: float


@dataclass(frozen=True)
class Batt:
    """A lot to be carded from others, or drafted with them side by side, with grams of each."""

    lot: int
    parts: tuple[LotMass, ...]
    is_drafted: bool = False


def used_of_lots_g(answer: Answer) -> np.ndarray:
    """Return grams of each lot's own fibre that are used, in blends as well, before carding."""
    spun_g = used_g(answer.layout) / (1 - answer.resolved.card_loss)
    return np.asarray(spun_g + taken_by_blends_g(answer.plan))


def batts(answer: Answer) -> list[Batt]:
    """Return every lot that is to be carded or drafted from others, and what goes into it."""
    names = answer.plan.names
    carded = []
    for at, lot in enumerate(answer.plan.lots):
        parts = lot.recipe
        whole = sum(part for _, part in parts)
        each = [LotMass(names.index(name), lot.mass_g * part / whole) for name, part in parts]
        carded += [Batt(at, tuple(each), lot.drafted is not None)] if each else []
    return carded


def missing(answer: Answer) -> list[LotMass]:
    """Return grams of each lot, to card, that the stash lacks for the target."""
    laid = answer.layout
    short = laid.target_ratio - 1
    if short <= _ENOUGH:
        return []
    planned_g = used_g(replace(laid, portions=laid.planned))
    lacks_g = planned_g * short / (1 - answer.resolved.card_loss)
    return [LotMass(int(lot), float(lacks_g[lot])) for lot in np.flatnonzero(lacks_g > 0)]


def missing_for_stripes(answer: Answer) -> list[LotMass]:
    """Return grams of each lot, to card, that the stash lacks for all stripes of the piece."""
    laid = answer.resolved.scheme_input.striped
    if laid is None:
        return []
    lacks_g = laid.lacks_g / (1 - answer.resolved.card_loss)
    return [LotMass(int(lot), float(lacks_g[lot])) for lot in np.flatnonzero(lacks_g)]
