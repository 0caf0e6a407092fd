"""Carded steps between the neighbours of a gradient: batts that lead from one lot to the next."""

from dataclasses import replace
from math import gcd

import numpy as np

from yarncolor.layout.portions import NO_PLACE
from yarncolor.layout.schemes import SchemeInput
from yarncolor.plan import Lot


def with_carded_steps(draft: SchemeInput, card_loss: float) -> tuple[SchemeInput, tuple[Lot, ...]]:
    """Return a gradient's draft with s blends between neighbours, and the lots so made.

    Between the places e and e + 1 stand s blends, each of mass b = min(m_e, m_e+1) / (s + 1),
    mixed (s + 1 - j) : j for j = 1..s; each lot keeps what is left. Neighbours of one lot need
    none.

    Parameters
    ----------
    draft : Draft
        Of a gradient; ``options.blend_steps`` is s, 1 or more.
    card_loss : float
        Share of a lot's mass lost in carding: a made lot's own mass is raw, like any lot's.
    """
    steps, places = draft.options.blend_steps, len(draft.lot)
    unlike = draft.lot[:-1] != draft.lot[1:]
    each = np.minimum(draft.mass_g[:-1], draft.mass_g[1:]) / (steps + 1) * unlike
    given = np.zeros(places)
    given[:-1] += each * steps / 2
    given[1:] += each * steps / 2
    made: dict[tuple, Lot] = {}
    lot, place, mass = [], [], []
    for at in range(places):
        lot.append(int(draft.lot[at]))
        place.append(int(draft.place[at]))
        mass.append(draft.mass_g[at] - given[at])
        for j in range(1, steps + 1) if at < places - 1 and unlike[at] else ():
            key = _mix(draft.lot[at], draft.lot[at + 1], steps + 1 - j, j)
            known = made.get(key) or _made(key, draft.names)
            made[key] = replace(known, mass_g=known.mass_g + each[at] / (1 - card_loss))
            lot.append(len(draft.names) + list(made).index(key))
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
            names=(*draft.names, *(step.name for step in lots)),
            to_divide_g=np.append(to_divide, blended),
        ),
        lots,
    )


def _mix(one: int, other: int, *parts: int) -> tuple[int, int, int, int]:
    """Return two lots and their parts in the smallest whole numbers."""
    least = gcd(*parts)
    return int(one), int(other), parts[0] // least, parts[1] // least


def _made(mix: tuple[int, int, int, int], names: tuple[str, ...]) -> Lot:
    """Return the lot of a mix, without mass yet, under a name that no other lot bears."""
    one, other, part_one, part_other = mix
    name = f"{names[one]} {part_one}:{part_other} {names[other]}"
    while name in names:
        name += ", carded"
    blend = ((names[one], float(part_one)), (names[other], float(part_other)))
    return Lot(name, 0.0, blend=blend, preparation="batt", is_step=True)
