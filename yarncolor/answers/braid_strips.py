"""Strips of a braid: lengthwise parts of it, each spun from one end to the other.

Common practice, no source: a braid is split along its length into strips, one for each time that
its colours run through, and nothing of it is weighed colour by colour. A strip that starts inside
the braid is parted there; its other part is spun last.
"""

from dataclasses import dataclass

import numpy as np

from yarncolor.layout.layout import Layout
from yarncolor.layout.portions import NO_PLACE

_TOLERANCE = 1e-6
"""Of a strip's mass: by so much a piece may miss what its length asks for."""


@dataclass(frozen=True)
class Strip:
    """One strip of the braid.

    Parameters
    ----------
    ply : int
        From 0.
    number, of : int
        Which strip of its ply, from 1 in spinning order, of how many.
    first, end : int
        Its portions: from the first up to the end, which is no more of it.
    mass_g : float
        What it weighs, less what carding takes.
    share : float
        Of the whole braid.
    begins_at : int
        Place on the braid, from 1, where it is begun.
    is_backwards : bool
        Whether it is spun from the braid's far end to the near one.
    is_parted : bool
        Whether it is begun inside the braid, and not at an end.
    """

    ply: int
    number: int
    of: int
    first: int
    end: int
    mass_g: float
    share: float
    begins_at: int
    is_backwards: bool
    is_parted: bool


def braid_strips(layout: Layout) -> tuple[Strip, ...]:
    """Return the strips that a plan spins of its braid; none where it asks for other pieces.

    Parameters
    ----------
    layout : Layout
        The plan laid out; what was planned is looked at, not what was spun.
    """
    if layout.resolved.plan.braid is None:
        return ()
    plies = range(int(layout.planned.ply[-1]) + 1)
    found = [one for k in plies for one in _of_ply(layout, k)]
    return () if None in found else tuple(one for one in found if one is not None)


def strip_of_each(strips: tuple[Strip, ...], portions: int) -> list[Strip | None]:
    """Return which strip each portion lies on; None for one that lies on none.

    Parameters
    ----------
    strips : tuple of Strip
        Of a plan.
    portions : int
        How many portions it has.
    """
    found: list[Strip | None] = [None] * portions
    for one in strips:
        found[one.first : one.end] = [one] * (one.end - one.first)
    return found


def _of_ply(layout: Layout, k: int) -> list[Strip | None]:
    """Return the strips of a ply; None in place of what is none."""
    braid, portions = layout.resolved.plan.braid, layout.planned
    places = len(braid.parts) if braid is not None else 1
    own = portions.of_ply(k)
    placed = np.flatnonzero(portions.place[own] != NO_PLACE) + own.start
    if len(placed) % places or (np.diff(placed) != 1).any():
        return [None]
    firsts = placed[::places].tolist()
    return [_strip(layout, k, at, first, len(firsts)) for at, first in enumerate(firsts, 1)]


def _strip(layout: Layout, k: int, number: int, first: int, of: int) -> Strip | None:
    """Return a strip that begins with a portion; None where its pieces are no strip."""
    braid, portions = layout.resolved.plan.braid, layout.planned
    if braid is None:
        return None
    cm = np.array(braid.parts)
    end = first + len(cm)
    place, mass_g = portions.place[first:end], portions.mass_g[first:end]
    is_forwards, is_backwards = _ways_along(place, len(cm))
    whole_g = float(mass_g.sum())
    apart_g = np.abs(mass_g - whole_g * cm[place - 1] / cm.sum())
    if not (is_forwards or is_backwards) or apart_g.max() > _TOLERANCE * whole_g:
        return None
    spun_g = braid.mass_g * (1 - layout.resolved.card_loss)
    begins_at, end_place = int(place[0]), 1 if is_forwards else len(cm)
    return Strip(
        k, number, of, first, end, whole_g, whole_g / spun_g, begins_at,
        is_backwards=not is_forwards, is_parted=begins_at != end_place,
    )  # fmt: skip


def _ways_along(place: np.ndarray, places: int) -> tuple[bool, bool]:
    """Return whether pieces follow each other along the braid, and whether against it."""
    steps = np.diff(place) % places
    if places == 2:
        return bool(place[0] == 1), bool(place[0] == 2)
    return bool((steps == 1).all()), bool((steps == places - 1).all())
