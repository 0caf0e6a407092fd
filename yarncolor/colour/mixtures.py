"""Three mixtures of the same two lots that must not be confused: carded, plied, dyed paler."""

from dataclasses import dataclass

import numpy as np

from yarncolor.colour.carding import blended_lab
from yarncolor.colour.dye_depth import later_baths_lab
from yarncolor.colour.optical_mixing import far_lab


@dataclass(frozen=True)
class Pair:
    """Two lots: their names and their CIELAB, (2, 3)."""

    names: tuple[str, str]
    lab: np.ndarray

    @property
    def by_lightness(self) -> np.ndarray:
        """Index of the darker lot, then of the lighter."""
        return np.argsort(self.lab[:, 0], kind="stable")

    @property
    def is_one_lot(self) -> bool:
        """Whether both are the same lot, so that there is nothing to mix."""
        return self.names[0] == self.names[1]


@dataclass(frozen=True)
class Model:
    """How a blend is reckoned: stearns-noechel, friele or linear, and its constant."""

    name: str = "stearns-noechel"
    constant: float | None = None


WOOL = Model()
"""Stearns and Noechel with their constant for worsted wool."""


@dataclass(frozen=True)
class Recipe:
    """How two lots are mixed, and how the marl is looked at.

    Parameters
    ----------
    parts : (float, float)
        Parts of the first and of the second lot in the batt, 0 or more, not both 0.
    exhaustion : float
        Share of the dye that a bath takes up, above 0 and below 1.
    turn_mm : float
        One turn of the ply twist, above 0: the length over which both plies show once.
    width_mm : float
        How thick the yarn lies, above 0.
    distance_m : float
        From the eye to the marl; 0 shows the stripes as they are.
    model : Model
        Of the carded blend.
    """

    parts: tuple[float, float] = (1.0, 1.0)
    exhaustion: float = 0.7
    turn_mm: float = 6.0
    width_mm: float = 1.5
    distance_m: float = 0.5
    model: Model = WOOL

    @property
    def shares(self) -> tuple[float, float]:
        """Share of each lot in the batt."""
        one, other = self.parts
        return one / (one + other), other / (one + other)


@dataclass(frozen=True)
class Mixtures:
    """What becomes of two lots: (3,) CIELAB each.

    Parameters
    ----------
    carded : array
        Fibres mixed before spinning.
    afar : array
        Plied, one ply of each, and seen from so far that the stripes run together.
    bath : array or None
        A second bath of the darker lot on the lighter one's fibre; None where neither is lighter.
    """

    carded: np.ndarray
    afar: np.ndarray
    bath: np.ndarray | None


def mixtures(pair: Pair, recipe: Recipe) -> Mixtures:
    """Return the three mixtures of two lots.

    Parameters
    ----------
    pair : Pair
        The lots.
    recipe : Recipe
        How they are mixed; the plies are one of each, whatever is carded.
    """
    dark, light = pair.lab[pair.by_lightness]
    has_bath, model = dark[0] < light[0], recipe.model
    return Mixtures(
        carded=blended_lab([recipe.parts], pair.lab, model.name, model.constant)[0],
        afar=far_lab([[0.5, 0.5]], pair.lab)[0],
        bath=later_baths_lab(dark, light, recipe.exhaustion, [2])[0] if has_bath else None,
    )
