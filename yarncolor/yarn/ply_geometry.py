"""Plies of one grist and one twist as they lie round each other, and what plying takes from them.

Singles and plied yarn are idealised helices; see `yarncolor.yarn.helix` for the formulas.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from yarncolor.units import diameter_mm
from yarncolor.yarn import balance
from yarncolor.yarn.helix import (
    Single,
    helix_angle_deg,
    helix_contraction,
    ply_helix_radius_mm,
    ply_spacing_mm,
    untwisting_contraction,
)
from yarncolor.yarn.twist import twist_angle_deg


@dataclass(frozen=True)
class PlyGeometry:
    """Plies round each other.

    Parameters
    ----------
    plies : int
        Strands of the ring: 3 for a chain.
    tex : (singles,) array
        Linear density of each ply, its strands together, as spun.
    strands : (singles,) int array
        Strands of single on each ply.
    packed_density_g_per_cm3 : float
        In g/cm³, in the twisted yarn.
    twist_tpm : (singles,) array or None
        Turns in a metre of single.
    directions : tuple of str
        S or Z of each single.
    ply_twist_tpm : float or None
        Turns in a metre of yarn.
    ply_direction : str
        S or Z.
    """

    plies: int
    tex: NDArray[np.float64]
    strands: NDArray[np.int64]
    packed_density_g_per_cm3: float
    twist_tpm: NDArray[np.float64] | None
    directions: tuple[str, ...]
    ply_twist_tpm: float | None
    ply_direction: str

    @property
    def strand_tex(self) -> NDArray[np.float64]:
        """Linear density of one strand of single on each ply, as spun: (singles,)."""
        return self.tex / self.strands

    @property
    def ply_tex(self) -> NDArray[np.float64]:
        """Linear density of each strand of the ring: (plies,)."""
        return np.resize(self.tex, self.plies)

    @property
    def diameters_mm(self) -> NDArray[np.float64]:
        """Packed diameter of each strand of the ring: (plies,)."""
        return self._diameters_mm(self.ply_tex)

    @property
    def strand_diameters_mm(self) -> NDArray[np.float64]:
        """Packed diameter of one strand of each single: (singles,)."""
        return self._diameters_mm(self.strand_tex)

    def _diameters_mm(self, tex: NDArray[np.float64]) -> NDArray[np.float64]:
        return np.array([diameter_mm(one, self.packed_density_g_per_cm3) for one in tex.tolist()])

    @cached_property
    def ply_helix_radius_mm(self) -> float:
        """Radius of the ring of plies; 0 for one ply."""
        return ply_helix_radius_mm((self.diameters_mm / 2).tolist())

    @property
    def helix_angle_deg(self) -> float | None:
        """Angle of the plies from the yarn's axis; None where their twist is not known."""
        if self.ply_twist_tpm is None or self.plies == 1:
            return None
        return helix_angle_deg(self.ply_helix_radius_mm, self.ply_twist_tpm)

    @property
    def surface_angles_deg(self) -> NDArray[np.float64] | None:
        """Angle of each single's outer fibres from its axis: (singles,)."""
        if self.twist_tpm is None:
            return None
        pairs = zip(self.twist_tpm, self.strand_diameters_mm, strict=True)
        return np.array([twist_angle_deg(twist, size) for twist, size in pairs])

    @property
    def pitch_mm(self) -> float | None:
        """Length of one turn of the ply twist."""
        if self.ply_twist_tpm is None or self.plies == 1:
            return None
        return 1000 / self.ply_twist_tpm

    @property
    def ply_spacing_mm(self) -> float | None:
        """Distance from one ply to the next along one side of the yarn."""
        if self.ply_twist_tpm is None or self.plies == 1:
            return None
        return ply_spacing_mm(self.ply_twist_tpm, self.plies)

    @property
    def surface_shares(self) -> NDArray[np.float64]:
        """Share of the yarn's surface that each ply shows: √T over the sum of √T, (plies,)."""
        wide: NDArray[np.float64] = np.sqrt(self.ply_tex)
        return wide / float(wide.sum())

    @property
    def opposed(self) -> list[bool]:
        """Whether each single is plied the other way than it was spun, as usual."""
        return [direction != self.ply_direction for direction in self.directions]

    @property
    def each_single(self) -> list[Single]:
        """One strand of each single as spun; empty where their twist is not known."""
        if self.twist_tpm is None:
            return []
        each = zip(self.strand_diameters_mm, self.twist_tpm, self.opposed, strict=True)
        return [Single(*one) for one in each]

    @property
    def mean_single(self) -> Single | None:
        """The mean single; None where its twist is not known."""
        if self.twist_tpm is None:
            return None
        mean_mm, mean_tpm = float(self.diameters_mm.mean()), float(self.twist_tpm.mean())
        return Single(mean_mm, mean_tpm, all(self.opposed))

    @cached_property
    def balanced_tpm(self) -> dict[str, float]:
        """Ply twist for a balanced yarn by each criterion; empty where nothing can be said."""
        single = self.mean_single
        return {} if single is None else balance.balanced_tpm(single, self.plies)

    @cached_property
    def contraction_by_model(self) -> dict[str, float]:
        """Share of length lost in plying by each model that can be asked."""
        angle_deg, twist_tpm = self.helix_angle_deg, self.ply_twist_tpm
        if angle_deg is None or twist_tpm is None:
            return {}
        shares = {"helix": helix_contraction(angle_deg)}
        if self.twist_tpm is not None:
            shares["untwisting"] = self._untwisting_contraction(angle_deg, twist_tpm)
        return shares

    def _untwisting_contraction(self, angle_deg: float, twist_tpm: float) -> float:
        """Return the share of length lost by unlike singles, each untwisting on its helix.

        1 / (1 - c) is the mean of 1 / (1 - c_k) by linear density, so that R = Σ T_k / (1 - c_k).
        """
        lost = self._untwisting_contractions(angle_deg, twist_tpm)
        return float(1 - self.tex.sum() / (self.tex / (1 - lost)).sum())

    def _untwisting_contractions(self, angle_deg: float, twist_tpm: float) -> NDArray[np.float64]:
        each = self.each_single
        return np.array([untwisting_contraction(one, angle_deg, twist_tpm) for one in each])

    @cached_property
    def untwisting_contractions(self) -> NDArray[np.float64] | None:
        """Share of its length that each single loses as it untwists on its helix: (singles,).

        None where twists are not known, and where all lose the same.
        """
        if self.helix_angle_deg is None or self.ply_twist_tpm is None or self.twist_tpm is None:
            return None
        lost = self._untwisting_contractions(self.helix_angle_deg, self.ply_twist_tpm)
        return lost if np.ptp(lost) > 0 else None
