"""The yarn of a plan as a thing: its plies, what plying and washing leave of it, how it is known.

What the spinner measured wins over every model.
"""

from dataclasses import dataclass, fields, replace
from functools import cached_property, lru_cache

import numpy as np
from numpy.typing import NDArray

from yarncolor.plan import Fabric, Plan, Plying, Scheme, Spinning
from yarncolor.units import diameter_mm, wraps_per_inch
from yarncolor.yarn import balance, provenance
from yarncolor.yarn.given import finishing_ratio
from yarncolor.yarn.linear_density import resultant_tex
from yarncolor.yarn.ply_geometry import PlyGeometry
from yarncolor.yarn.provenance import Provenance
from yarncolor.yarn.solved import YarnInputs, length_lost, solved_plies, yarn_inputs


@dataclass(frozen=True)
class YarnStructure(PlyGeometry):
    """A yarn: plies round each other, and what they come to as yarn.

    Parameters
    ----------
    relaxed_density_g_per_cm3 : float
        In g/cm³, as wrapped on a ruler.
    contraction : float
        Share of length lost in plying, in force.
    model : str
        By which: measured, untwisting, helix or none.
    finishing_ratio : float
        What is left of a metre as plied when it has rested and been washed.
    provenance : dict of str to str
        given, derived, assumed or measured, by key; None where a number is not known.
    """

    relaxed_density_g_per_cm3: float
    contraction: float
    model: str
    finishing_ratio: float
    provenance: dict[str, Provenance | None]

    @property
    def yarn_tex(self) -> float:
        """Linear density of the plied yarn: Σ T / (1 - c)."""
        return resultant_tex(self.ply_tex.tolist(), self.contraction)

    @property
    def finished_tex(self) -> float:
        """Linear density of the yarn when it has rested and been washed."""
        return self.yarn_tex / self.finishing_ratio

    @cached_property
    def contraction_band(self) -> tuple[float, float] | None:
        """Between which shares of length lost the true one is to be expected; None where unknown.

        Where two models can be asked and nothing was measured: from the lower, less what it takes
        where a measured yarn had lost none, to the higher.
        """
        shares, single = self.contraction_by_model.values(), self.mean_single
        if self.model not in self.contraction_by_model or len(shares) < 2 or single is None:
            return None
        less = balance.said_too_much(single, self.plies) if single.opposed else 0.0
        return min(shares) - less, max(shares)

    @cached_property
    def contractions(self) -> NDArray[np.float64]:
        """Share of its length that each single loses in plying, in force: (singles,).

        All alike, but where singles that are not alike untwist each on its helix.
        """
        own = self.untwisting_contractions if self.model == "untwisting" else None
        return np.full(len(self.tex), self.contraction) if own is None else own

    @cached_property
    def due(self) -> NDArray[np.float64]:
        """Share of all fibre that each single takes, so that all end together: (singles,)."""
        own = self.tex / (1 - self.contractions) if np.ptp(self.contractions) else self.tex
        return np.asarray(own / own.sum())

    @property
    def relaxed_diameter_mm(self) -> float:
        """How thick the yarn lies when nothing presses on it, as wrapped on a ruler."""
        return diameter_mm(self.yarn_tex, self.relaxed_density_g_per_cm3)

    def with_contraction(self, contraction: float) -> "YarnStructure":
        """Return the yarn with a length lost in plying that was measured."""
        known: dict[str, Provenance | None] = {**self.provenance, "contraction": "measured"}
        return replace(self, contraction=contraction, model="measured", provenance=known)

    def wpi(self, linear_density_tex: float) -> float:
        """Return wraps to the inch of a strand of these tex, wrapped as this yarn is."""
        return wraps_per_inch(diameter_mm(linear_density_tex, self.relaxed_density_g_per_cm3))


def yarn_structure(plan: Plan) -> YarnStructure:
    """Return the yarn of a plan; the plan is one that has been checked."""
    return yarn_structure_of(plan.scheme, plan.spinning, plan.plying, plan.fabric)


def yarn_structure_of(
    scheme: Scheme, spinning: Spinning, plying: Plying, fabric: Fabric
) -> YarnStructure:
    """Return the yarn of a plan's tables; the same again costs nothing.

    Parameters
    ----------
    scheme, spinning, plying, fabric : Scheme, Spinning, Plying, Fabric
        Tables of a plan that has been checked.
    """
    return solved_yarn(yarn_inputs(scheme, spinning, plying, fabric))


@lru_cache(maxsize=64)
def solved_yarn(inputs: YarnInputs) -> YarnStructure:
    """Return the yarn that these inputs make."""
    plies = solved_plies(inputs)
    model, contraction = length_lost(plies, inputs.plying)
    return YarnStructure(
        **{field.name: getattr(plies, field.name) for field in fields(PlyGeometry)},
        relaxed_density_g_per_cm3=inputs.relaxed_density_g_per_cm3,
        contraction=contraction,
        model=model,
        finishing_ratio=finishing_ratio(inputs.plying, inputs.fabric),
        provenance=_provenance(inputs, plies, model),
    )


def _provenance(inputs: YarnInputs, plies: PlyGeometry, model: str) -> dict[str, Provenance | None]:
    spinning, plying = inputs.spinning, inputs.plying
    return {
        "single_tex": provenance.of_grist(spinning),
        "relaxed_density_g_per_cm3": provenance.of_relaxed_density(spinning),
        "packed_density_g_per_cm3": provenance.of_packed_density(spinning),
        "twist_tpm": provenance.of_twist(spinning, known=plies.twist_tpm is not None),
        "ply_twist_tpm": provenance.of_ply_twist(plying, known=plies.ply_twist_tpm is not None),
        "contraction": provenance.of_contraction(model),
    }


def says_direction(plan: Plan) -> bool:
    """Return whether a plan says which way its yarn is twisted, in singles or in plying."""
    return plan.spinning.direction is not None or plan.plying.direction is not None
