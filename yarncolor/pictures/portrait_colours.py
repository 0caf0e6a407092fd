"""What colour each fibre has along a portrait: its lot's, or in a blend that of the fibre it is.

At a join each fibre goes over to the next lot where its own staple does. Of a blend each fibre is
of one of the lots that were carded; of lots drafted side by side, of the one that lies there. All
together have the mean that the plain pictures show.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from yarncolor.answers.answer import Answer
from yarncolor.colour.science import srgb_from_hex
from yarncolor.colour.srgb import linear
from yarncolor.pictures.appearance import JOIN_STEPS, MOTTLES, ColourAt, colour_at
from yarncolor.pictures.painting import Paint
from yarncolor.pictures.portrait_fibres import Floats
from yarncolor.plan import Lot

COMBED = {"top": 0.95, "roving": 0.7, "locks": 0.4, "batt": 0.15, "rolag": 0.05}
"""How parallel the fibres of a preparation lie, 1 to 0: by eye."""

USUALLY_COMBED = 0.5
"""Where it is not said how a lot is prepared."""

_UNEVEN, _MOST_CHANGED = 0.15, 3.0
"""How far fibres stray in lightness; how far parts are lit to meet their mean."""


@dataclass(frozen=True)
class Fleece:
    """Colours of fibres: those of the lots, then those of the parts of made lots.

    Parameters
    ----------
    light : (colours, 3) array
        Linear light.
    made : dict of int to Parts
        Of each lot that is made of others.
    """

    light: Floats
    made: dict[int, "Parts"]


@dataclass(frozen=True)
class Parts:
    """What the fibres of a made lot are.

    Parameters
    ----------
    side_by_side : bool
        Whether its colours lie beside each other, and not all through.
    up_to : (parts,) array
        Running sum of their shares.
    colour : (parts,) int array
        Which colour of the fleece each has.
    """

    side_by_side: bool
    up_to: NDArray[np.float64]
    colour: NDArray[np.int64]


def fleece_of(answer: Answer) -> Fleece:
    """Return the colours of a plan's fibres; parts of a lot have its colour on the mean."""
    lots = answer.plan.lots
    light = linear(srgb_from_hex(list(answer.palette.srgb)))
    every, made = [light], dict[int, Parts]()
    for number, (side_by_side, shares) in _recipes(lots).items():
        own, share = light[[*shares]], np.array([*shares.values()])
        change = light[number] / np.maximum(share @ own, 1e-6)
        every.append(own * np.clip(change, 1 / _MOST_CHANGED, _MOST_CHANGED))
        first = sum(map(len, every[:-1]))
        made[number] = Parts(side_by_side, np.cumsum(share), first + np.arange(len(share)))
    return Fleece(np.concatenate(every).astype(np.float32), made)


def light_of_fibres(
    answer: Answer, ply: NDArray[np.int64], around: Floats, metre: Floats, paint: Paint
) -> Floats:
    """Return the linear light of each fibre's colour at every column: (fibres, columns, 3).

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    ply : (fibres,) int array
        Which each belongs to.
    around : (fibres,) array
        Where in its ply it begins, as part of a turn.
    metre : (columns,) array
        Along the yarn.
    paint : Paint
        Unevenness, joins, seed.
    """
    plies = np.arange(int(ply.max(initial=0)) + 1)
    shown = _shown(answer, np.repeat(plies, len(metre)), np.tile(metre, len(plies)), paint)
    at = ply[:, None] * len(metre) + np.arange(len(metre))
    return _light(answer, shown, at, around, paint)


def light_of_hairs(answer: Answer, ply: NDArray[np.int64], metre: Floats, paint: Paint) -> Floats:
    """Return the linear light of each hair's colour: (hairs, 3).

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    ply : (hairs,) int array
        In which each is rooted.
    metre : (hairs,) array
        Where along the yarn.
    paint : Paint
        Unevenness, joins, seed.
    """
    around = np.random.default_rng((paint.seed, 2)).random(len(ply)).astype(np.float32)
    shown = _shown(answer, ply, metre, paint)
    return _light(answer, shown, np.arange(len(ply))[:, None], around, paint)[:, 0]


def _shown(answer: Answer, ply: NDArray[np.int64], metre: Floats, paint: Paint) -> ColourAt:
    return colour_at(
        answer.layout.stretches,
        ply,
        metre,
        staple_m=paint.staple_m,
        seed=paint.seed,
    )


def _light(
    answer: Answer, shown: ColourAt, at: NDArray[np.int64], around: Floats, paint: Paint
) -> Floats:
    """Return the light of fibres at places of which is known what is shown there."""
    rng, fleece = np.random.default_rng((paint.seed, 1)), fleece_of(answer)
    fibres = len(at)
    goes_over = (rng.random(fibres) * JOIN_STEPS)[:, None] < shown.mix[at]
    lot = np.where(goes_over, shown.other[at], shown.one[at])
    dice, colour = rng.random(fibres), lot
    for made, parts in fleece.made.items():
        turn = around if parts.side_by_side else dice
        part = np.searchsorted(parts.up_to, turn).clip(max=len(parts.colour) - 1)
        colour = np.where(lot == made, parts.colour[part][:, None], colour)
    patch = 1 + paint.mottle * (2 * shown.mottle[at] / (MOTTLES - 1) - 1)
    dyed = (patch * _own_dye(fibres, paint.mottle > 0, rng)).astype(np.float32)
    light: Floats = fleece.light[colour] * dyed[..., None]
    return light


def combed_of(answer: Answer, metre: Floats) -> Floats:
    """Return how parallel the fibres of each ply lie: (plies,), 1 to 0.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    metre : (columns,) array
        Along the yarn, where it is looked at.
    """
    along = answer.layout.stretches
    at = np.searchsorted(along.edges_m[1:-1], metre, side="right")
    of_lot = [COMBED.get(lot.preparation or "", USUALLY_COMBED) for lot in answer.plan.lots]
    found: Floats = np.array(of_lot, np.float32)[along.lot[at]].mean(axis=0)
    return found


def _own_dye(fibres: int, is_uneven: bool, rng: np.random.Generator) -> NDArray[np.float64]:
    """Return how much light each fibre gives, beside its lot's: (fibres, 1), 1 on the mean."""
    if not is_uneven:
        return np.ones((fibres, 1))
    return np.exp(_UNEVEN * rng.standard_normal((fibres, 1)) - _UNEVEN**2 / 2)


@lru_cache(maxsize=8)
def _recipes(lots: tuple[Lot, ...]) -> dict[int, tuple[bool, dict[int, float]]]:
    """Return of each lot made of others whether it is drafted, and its shares of those."""
    at = {lot.name: number for number, lot in enumerate(lots)}
    return {
        number: (lot.drafted is not None, _shares(lot, at, lots))
        for number, lot in enumerate(lots)
        if lot.recipe
    }


def _shares(lot: Lot, at: dict[str, int], lots: tuple[Lot, ...]) -> dict[int, float]:
    if not lot.recipe:
        return {at[lot.name]: 1.0}
    whole, found = sum(part for _, part in lot.recipe), dict[int, float]()
    for source, part in lot.recipe:
        for number, share in _shares(lots[at[source]], at, lots).items():
            found[number] = found.get(number, 0.0) + share * part / whole
    return found
