"""The stash as a whole: what blends take of each lot."""

from collections.abc import Sequence

import numpy as np

Blend = Sequence[tuple[str, float]] | None


def taken_g(names: Sequence[str], mass_g: Sequence[float], blends: Sequence[Blend]) -> np.ndarray:
    """Return grams that the blends take of each lot, by their parts: (lots,).

    Parameters
    ----------
    names : sequence of str
        Of all lots.
    mass_g : sequence of float
        Of all lots; that of a blend is taken from its sources, by mass.
    blends : sequence
        For each lot its sources and their parts, None where it is no blend.
    """
    at = {name: number for number, name in enumerate(names)}
    takes = np.zeros(len(names))
    for mass, blend in zip(mass_g, blends, strict=True):
        parts = blend or ()
        for name, part in parts:
            takes[at[name]] += mass * part / sum(each for _, each in parts)
    return takes
