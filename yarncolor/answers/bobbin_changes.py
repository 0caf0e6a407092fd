"""Where a single goes from one bobbin to the next: where the spinner did, then where it is best."""

import numpy as np

from yarncolor.answers.breaks import best_breaks_m
from yarncolor.layout.along_single import keeps_grist, net_g_at, place_m_of
from yarncolor.layout.layout import Layout

_TOLERANCE = 1e-9


def bobbin_edges_m(laid: Layout, ply: int) -> list[float]:
    """Return where the bobbins of a single begin, and where it ends, from the start of spinning.

    Bobbins that were named keep what was spun on them. What is still to spin, and all of a ply
    of which no bobbin was named, fills as few as can be, changed where portions end.

    Parameters
    ----------
    laid : Layout
        The plan laid out; its table of bobbins says what they hold.
    ply : int
        From 0.
    """
    own = laid.portions.of_ply(ply)
    ends_m = laid.portions.ends_m[own]
    named = np.zeros(0, dtype=int) if laid.wheel is None else laid.wheel.bobbin[own]
    named = named[named > 0]
    if not len(named):
        return _filled_m(laid, ply, 0.0, ends_m)
    changes = np.flatnonzero(np.diff(named))
    begins_m, spun_m = [0.0, *ends_m[changes].tolist()], float(ends_m[len(named) - 1])
    if laid.resolved.plan.bobbins.capacity_g is None or len(named) == len(ends_m):
        return [*begins_m, float(ends_m[-1])]
    return [*begins_m, *_filled_on_m(laid, ply, (begins_m[-1], spun_m), ends_m)]


def _filled_on_m(
    laid: Layout, ply: int, in_use: tuple[float, float], ends_m: np.ndarray
) -> list[float]:
    """Return where the bobbin in use is full, and those after it; what lies on it stays whole."""
    from_m, spun_m = in_use
    after = _filled_m(laid, ply, from_m, ends_m[ends_m >= spun_m])[1:]
    if after[0] >= spun_m * (1 - _TOLERANCE):
        return after
    return _filled_m(laid, ply, spun_m, ends_m[ends_m > spun_m])


def _filled_m(laid: Layout, ply: int, from_m: float, ends_m: np.ndarray) -> list[float]:
    """Return where bobbins begin from a place on, and where the single ends."""
    capacity_g = laid.resolved.plan.bobbins.capacity_g
    if capacity_g is None:
        return [from_m, float(ends_m[-1])]
    yarn, places = laid.resolved.yarn, ends_m[:-1]
    worth = np.ones(len(places))
    if keeps_grist(laid.portions, ply, laid.resolved.tex[ply]):
        room_m = capacity_g / yarn.strand_tex[ply] * 1000
        length_m = float(ends_m[-1]) - from_m
        return [*(best_breaks_m(places - from_m, worth, length_m, room_m) + from_m).tolist()]
    net_g = net_g_at(laid.portions, ply, np.append(from_m, ends_m))
    room_g, rest_g = capacity_g * float(yarn.strands[ply]), net_g[1:] - net_g[0]
    breaks_g = best_breaks_m(rest_g[:-1], worth, float(rest_g[-1]), room_g)
    return [*place_m_of(laid.portions, ply, breaks_g + net_g[0]).tolist()]
