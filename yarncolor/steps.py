"""Carded steps between the neighbours of a gradient: batts that lead from one lot to the next."""

from dataclasses import replace
from math import gcd

import numpy as np

from yarncolor.plan import Lot
from yarncolor.portions import NO_PLACE
from yarncolor.schemes import Draft


def with_steps(draft: Draft, card_loss: float) -> tuple[Draft, tuple[Lot, ...]]:
    """Return a gradient's draft with s blends between neighbours, and the lots so made.

    Between the places e and e + 1 stand s blends, each of mass b = min(m_e, m_e+1) / (s + 1),
    mixed (s + 1 - j) : j for j = 1..s; each lot keeps what is left.

    Parameters
    ----------
    draft : Draft
        Of a gradient; ``options.blend_steps`` is s, 1 or more.
    card_loss : float
        Share of a lot's mass lost in carding: a made lot's own mass is raw, like any lot's.
    """
    steps, places = draft.options.blend_steps, len(draft.lot)
    each = np.minimum(draft.mass_g[:-1], draft.mass_g[1:]) / (steps + 1)
    given = np.zeros(places)
    given[:-1] += each * steps / 2
    given[1:] += each * steps / 2
    names, made = list(draft.names), {}
    lot, place, mass = [], [], []
    for at in range(places):
        lot.append(int(draft.lot[at]))
        place.append(int(draft.place[at]))
        mass.append(draft.mass_g[at] - given[at])
        for j in range(1, steps + 1) if at < places - 1 else ():
            pair = tuple(draft.names[draft.lot[k]] for k in (at, at + 1))
            step = _made(pair, (steps + 1 - j, j), each[at] / (1 - card_loss))
            known = made.get(step.name)
            made[step.name] = replace(known, mass_g=known.mass_g + step.mass_g) if known else step
            if not known:
                names.append(step.name)
            lot.append(names.index(step.name))
            place.append(NO_PLACE)
            mass.append(each[at])
    lots = tuple(made.values())
    to_divide = draft.to_divide_g - np.bincount(draft.lot, given, len(draft.to_divide_g))
    blended = [step.mass_g * (1 - card_loss) for step in lots]
    return (
        replace(
            draft,
            lot=np.array(lot),
            place=np.array(place),
            mass_g=np.array(mass),
            names=tuple(names),
            to_divide_g=np.append(to_divide, blended),
        ),
        lots,
    )


def _made(pair: tuple[str, str], parts: tuple[int, int], mass_g: float) -> Lot:
    least = gcd(*parts)
    one, other = (part // least for part in parts)
    blend = tuple(zip(pair, map(float, parts), strict=True))
    return Lot(
        f"{pair[0]} {one}:{other} {pair[1]}",
        float(mass_g),
        blend=blend,
        preparation="batt",
        is_step=True,
    )
