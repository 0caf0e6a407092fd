"""Grist, twist and length lost of a yarn, solved from what a plan's tables say.

Where the plan speaks of the finished yarn, the grist of its singles takes the length lost in
plying, and a model takes that from the grist: a fixed point of one function of tex.
"""

from dataclasses import dataclass, replace

import numpy as np

from yarncolor.defaults import (
    CONTRACTION,
    PACKED_DENSITY,
    RELAXED_DENSITY,
    SINGLE_TEX,
    STRANDS,
    plies_of,
    scheme_name,
    singles_of,
)
from yarncolor.plan import STRANDS_OF_A_CHAIN, Fabric, Plying, Scheme, Spinning
from yarncolor.yarn.balance import CRITERIA
from yarncolor.yarn.given import (
    GRIST_WAYS,
    densities,
    finishing_ratio,
    per_ply,
    ply_twists,
    single_grists,
    twists,
    yarn_grists,
)
from yarncolor.yarn.ply_geometry import PlyGeometry
from yarncolor.yarn.twist import opposite

_MOST_ROUNDS = 200
_USUAL_DIRECTION = "Z"


@dataclass(frozen=True)
class YarnInputs:
    """All that a yarn takes from a plan; two that are alike make the same yarn.

    Parameters
    ----------
    singles : int
        Singles that are spun: 1 for a chain.
    plies : int
        Strands of the ring.
    is_chain : bool
        Whether one single is folded in three.
    spinning, plying, fabric : Spinning, Plying, Fabric
        Tables of the plan.
    """

    singles: int
    plies: int
    is_chain: bool
    spinning: Spinning
    plying: Plying
    fabric: Fabric

    @property
    def packed_density_g_per_cm3(self) -> float:
        """Density in the twisted yarn."""
        return self.spinning.packed_density_g_per_cm3 or PACKED_DENSITY

    @property
    def relaxed_density_g_per_cm3(self) -> float:
        """Density as wrapped on a ruler."""
        return next(iter(densities(self.spinning).values()), RELAXED_DENSITY)

    @property
    def strands(self) -> np.ndarray:
        """Strands of single on each ply: (singles,)."""
        return per_ply(self.plying.strands or STRANDS, self.singles).astype(int)

    @property
    def strands_in_yarn(self) -> int:
        """Strands of single side by side in the yarn."""
        return int(self.strands.sum()) * (STRANDS_OF_A_CHAIN if self.is_chain else 1)

    @property
    def directions(self) -> tuple[str, ...]:
        """S or Z of each single: given, against the plying, or the usual."""
        given = self.spinning.direction
        if isinstance(given, tuple):
            return given
        usual = opposite(self.plying.direction) if self.plying.direction else _USUAL_DIRECTION
        return (given or usual,) * self.singles

    @property
    def ply_direction(self) -> str:
        """S or Z of the yarn: given, or against most of its singles."""
        if self.plying.direction is not None:
            return self.plying.direction
        return opposite(max(self.directions, key=self.directions.count))


def yarn_inputs(scheme: Scheme, spinning: Spinning, plying: Plying, fabric: Fabric) -> YarnInputs:
    """Return all that a yarn takes from a plan's tables.

    Parameters
    ----------
    scheme, spinning, plying, fabric : Scheme, Spinning, Plying, Fabric
        Tables of a plan that has been checked.
    """
    is_chain = scheme_name(scheme) == "chain"
    return YarnInputs(singles_of(scheme), plies_of(scheme), is_chain, spinning, plying, fabric)


def grists(
    scheme: Scheme, spinning: Spinning, plying: Plying, fabric: Fabric
) -> dict[str, np.ndarray]:
    """Return tex of one strand of each single by every way that a plan's tables give.

    Parameters
    ----------
    scheme, spinning, plying, fabric : Scheme, Spinning, Plying, Fabric
        Tables of a plan that has been checked.
    """
    return _grists(yarn_inputs(scheme, spinning, plying, fabric))


def solved_plies(inputs: YarnInputs) -> PlyGeometry:
    """Return the plies of a yarn at the grist that counts, the assumed one where none is given."""
    assumed = np.full(inputs.singles, SINGLE_TEX)
    return _plies_at(next(iter(_grists(inputs).values()), assumed), inputs)


def length_lost(plies: PlyGeometry, plying: Plying) -> tuple[str, float]:
    """Return the model in force and the share of length lost in plying; measured beats models.

    Parameters
    ----------
    plies : PlyGeometry
        Whose models are asked.
    plying : Plying
        What the plan says: a measured share, a model by name, or neither.

    Returns
    -------
    (str, float)
        measured, untwisting, helix or none; the share.
    """
    if plying.contraction is not None:
        return "measured", float(plying.contraction)
    by_model = plies.contraction_by_model
    asked = (
        ("untwisting", "helix") if plying.contraction_model is None else (plying.contraction_model,)
    )
    model = next((model for model in asked if model in by_model), "none")
    return model, float(by_model.get(model, CONTRACTION))


def _grists(inputs: YarnInputs) -> dict[str, np.ndarray]:
    density = inputs.relaxed_density_g_per_cm3
    tex = single_grists(inputs.spinning, inputs.singles, density)
    for way, finished_tex in yarn_grists(inputs.spinning, density).items():
        tex[way] = _tex_of_singles(finished_tex, inputs)
    return {way: tex[way] for way in GRIST_WAYS if way in tex}


def _tex_of_singles(finished_tex: float, inputs: YarnInputs) -> np.ndarray:
    """Return tex of equal singles that make a finished yarn of these tex: (singles,).

    T = R (1 - c) / P, with c itself a matter of T where a model gives it: found by repeating.
    """
    ratio = finishing_ratio(inputs.plying, inputs.fabric)
    plied = finished_tex * ratio / inputs.strands_in_yarn
    tex = plied
    for _ in range(_MOST_ROUNDS):
        before = tex
        plies = _plies_at(np.full(inputs.singles, tex), inputs)
        tex = plied * (1 - length_lost(plies, inputs.plying)[1])
        if abs(tex - before) <= 1e-15 * before:
            break
    return np.full(inputs.singles, tex)


def _plies_at(strand_tex: np.ndarray, inputs: YarnInputs) -> PlyGeometry:
    """Return the plies of a yarn whose singles are of these tex: (singles,)."""
    density = inputs.packed_density_g_per_cm3
    plies = PlyGeometry(
        plies=inputs.plies,
        tex=strand_tex * inputs.strands,
        strands=inputs.strands,
        packed_density_g_per_cm3=density,
        twist_tpm=next(iter(twists(inputs.spinning, strand_tex, density).values()), None),
        directions=inputs.directions,
        ply_twist_tpm=next(iter(ply_twists(inputs.plying).values()), None),
        ply_direction=inputs.ply_direction,
    )
    if plies.ply_twist_tpm is None and inputs.plying.balance is not None:
        return replace(plies, ply_twist_tpm=_balancing_tpm(plies, inputs.plying.balance))
    return plies


def _balancing_tpm(plies: PlyGeometry, criterion: str) -> float | None:
    """Return the ply twist that a criterion of balance asks for; None where it says nothing."""
    single = plies.mean_single
    if single is None or plies.plies == 1 or not single.opposed:
        return None
    twist_tpm = CRITERIA[criterion](single, plies.plies)
    return twist_tpm if np.isfinite(twist_tpm) else None
