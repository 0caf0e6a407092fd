"""What is left: on the bobbins when the first ply runs out, and in the drawer."""

from dataclasses import dataclass

import numpy as np

from yarncolor.answers.runs import Runs
from yarncolor.layout.along_single import keeps_grist, net_g_at
from yarncolor.layout.layout import Layout, lost_g, used_g

_NOTHING = 1e-9


@dataclass(frozen=True)
class BobbinEnd:
    """What stays on a bobbin: of which ply, from 0, and where along its single, from its start.

    ``first_spun`` says which end of the single it is.
    """

    ply: int
    start_m: float
    end_m: float
    first_spun: bool


@dataclass(frozen=True)
class Leftover:
    """Fibre of one lot that does not become yarn; not on a bobbin where it is never spun."""

    lot: int
    mass_g: float
    on_bobbin: BobbinEnd | None = None


def leftovers(layout: Layout, runs: Runs) -> list[Leftover]:
    """Return what stays on each bobbin, a run at a time, then what is never spun.

    Parameters
    ----------
    layout : Layout
        The plan laid out.
    runs : Runs
        Of that layout.
    """
    return [*_on_bobbins(layout, runs), *_never_spun(layout)]


def left_on_bobbins_m(layout: Layout) -> np.ndarray:
    """Return metres of each single that find no partner: (singles,)."""
    single = layout.portions.single_m
    left = single - layout.single_used_m
    return np.where(left > _NOTHING * single, left, 0.0)


def _on_bobbins(layout: Layout, runs: Runs) -> list[Leftover]:
    settled = layout.resolved
    left_m, single_m = left_on_bobbins_m(layout), layout.portions.single_m
    first_spun = settled.wound_off % 2 == 0
    low = np.where(first_spun, 0.0, single_m - left_m)[runs.ply]
    high = np.where(first_spun, left_m, single_m)[runs.ply]
    start, end = np.maximum(runs.start_m, low), np.minimum(runs.end_m, high)
    mass_g = _weighed_out_g(layout, runs.ply, start, end)
    return [
        Leftover(
            lot=int(runs.lot[at]),
            mass_g=float(mass_g[at]),
            on_bobbin=BobbinEnd(
                ply=int(runs.ply[at]),
                start_m=float(start[at]),
                end_m=float(end[at]),
                first_spun=bool(first_spun[runs.ply[at]]),
            ),
        )
        for at in np.flatnonzero(end - start > _NOTHING * single_m[runs.ply])
    ]


def _weighed_out_g(
    layout: Layout, ply: np.ndarray, start_m: np.ndarray, end_m: np.ndarray
) -> np.ndarray:
    """Return grams of single between two places of its ply, as they were weighed out."""
    settled = layout.resolved
    grams_per_m = settled.tex / 1000 / (1 - settled.spin_loss)
    mass_g = (end_m - start_m) * grams_per_m[ply]
    for k, tex in enumerate(settled.tex.tolist()):
        if not keeps_grist(layout.portions, k, tex):
            own = ply == k
            places_m = np.stack([start_m[own], end_m[own]])
            net_g = np.diff(net_g_at(layout.portions, k, places_m), axis=0)[0]
            mass_g[own] = net_g / (1 - settled.spin_loss)
    return np.asarray(mass_g)


def _never_spun(layout: Layout) -> list[Leftover]:
    to_divide = layout.resolved.to_divide_g
    rest = to_divide - lost_g(layout) - used_g(layout)
    return [
        Leftover(lot=int(lot), mass_g=float(rest[lot]))
        for lot in np.flatnonzero(rest > _NOTHING * to_divide)
    ]
