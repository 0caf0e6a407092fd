"""How thick a ply was spun, by what was measured of it."""

from collections.abc import Iterator

import numpy as np

from yarncolor.layout.bobbin_pieces import MeasuredGrist
from yarncolor.layout.named_pieces import NamedPieces
from yarncolor.layout.scale_readings import Weighed

ENOUGH = 3
"""So many measures, and their grist stands for what was not measured."""


def measured_grist(
    named: NamedPieces, weighed: Weighed, strands: np.ndarray, spin_loss: float
) -> tuple[MeasuredGrist, ...]:
    """Return the grist of each ply as measured, in grams of single over metres.

    What counts: pieces with a length that state their grams; readings all of whose pieces have
    a length, as one; samples.

    Parameters
    ----------
    named : NamedPieces
        What is said of each piece.
    weighed : Weighed
        Their grams.
    strands : (plies,) int array
        Strands that lie side by side in each ply.
    spin_loss : float
        Share of mass lost in spinning.
    """
    net_g: list[list[float]] = [[] for _ in strands]
    length_m: list[list[float]] = [[] for _ in strands]
    for ply, grams, metres in _measures(named, weighed, strands, spin_loss):
        net_g[ply].append(grams)
        length_m[ply].append(metres)
    return tuple(
        MeasuredGrist(
            measured_tex=1000 * sum(grams) / sum(metres) if metres else None,
            count=len(metres),
            spin_loss_found=_loss(*weighed.compared_g.get(ply, (0.0, 0.0))),
            holds=len(metres) >= ENOUGH,
            compared_g=weighed.compared_g.get(ply, (0.0, 0.0))[1],
        )
        for ply, (grams, metres) in enumerate(zip(net_g, length_m, strict=True))
    )


def _loss(net_g: float, stated_g: float) -> float | None:
    return 1 - net_g / stated_g if stated_g else None


def _measures(
    named: NamedPieces, weighed: Weighed, strands: np.ndarray, spin_loss: float
) -> Iterator[tuple[int, float, float]]:
    """Yield ply, grams of single and metres of each measure."""
    alone = ~np.isnan(named.mass_g) & ~np.isnan(named.length_m)
    for read in weighed.readings:
        own = read.pieces
        by_reading = np.isnan(named.mass_g[own]).any()
        if by_reading and not np.isnan(named.length_m[own]).any():
            alone[own] = False
            yield int(named.ply[read.last]), read.gained_g, float(named.length_m[own].sum())
    for at in np.flatnonzero(alone).tolist():
        grams = float(named.mass_g[at] * (1 - spin_loss))
        yield int(named.ply[at]), grams, float(named.length_m[at])
    for at in np.flatnonzero(~np.isnan(named.sample_m)).tolist():
        ply = int(named.ply[at])
        yield ply, float(named.sample_g[at] * strands[ply]), float(named.sample_m[at])
