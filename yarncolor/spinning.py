"""Grams to metres of single."""

from dataclasses import replace

import numpy as np

from yarncolor.portions import Portions


def spun(portions: Portions, tex: np.ndarray, spin_loss: float) -> Portions:
    """Return the portions with their linear density and length.

    A portion of m grams is m · (1 - spin_loss) · 1000 / tex metres of single: tex are grams
    in 1000 metres (ISO 1144), and what is lost in spinning is no yarn.

    Parameters
    ----------
    portions : Portions
        With masses as weighed out.
    tex : (plies,) array
        Linear density of each single.
    spin_loss : float
        Share of a portion's mass lost while spinning, 0 to less than 1.
    """
    density = np.asarray(tex, dtype=float)[portions.ply]
    return replace(
        portions, tex=density, length_m=portions.mass_g * (1 - spin_loss) * 1000 / density
    )
