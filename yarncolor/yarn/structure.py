"""The yarn as a body: grist, twist, ply helix, length lost in plying. From a plan's tables alone.

Singles and plied yarn are idealised helices; what the spinner measured wins over every model.
"""

from dataclasses import dataclass
from functools import lru_cache

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
from yarncolor.plan import STRANDS_OF_A_CHAIN, Fabric, Plan, Plying, Scheme, Spinning
from yarncolor.units import diameter_mm, wraps_per_inch
from yarncolor.yarn import balance
from yarncolor.yarn.given import (
    SOURCES,
    GristInputs,
    densities,
    density_source,
    finishing_ratio,
    given_or_assumed,
    grist_candidates,
    per_ply,
    ply_twist_source,
    ply_twists,
    twist_source,
    twists,
)
from yarncolor.yarn.helix import (
    Single,
    helix_angle_deg,
    helix_contraction,
    ply_helix_radius_mm,
    ply_spacing_mm,
    untwisting_contraction,
)
from yarncolor.yarn.linear_density import resultant_tex
from yarncolor.yarn.twist import opposite, surface_angle_deg

Z = "Z"


@dataclass(frozen=True)
class YarnStructure:
    """A yarn as a body.

    Parameters
    ----------
    plies : int
        Strands of the ring: 3 for a chain.
    tex : (singles,) array
        Linear density of each ply, its strands together, as spun.
    strands : (singles,) int array
        Strands of single on each ply.
    packed_density_g_per_cm3, relaxed_density_g_per_cm3 : float
        In g/cm³: in the twisted yarn; as wrapped on a ruler.
    twist_tpm : (singles,) array or None
        Turns in a metre of single.
    directions : tuple of str
        S or Z of each single.
    ply_twist_tpm : float or None
        Turns in a metre of yarn.
    ply_direction : str
        S or Z.
    contraction : float
        Share of length lost in plying, in force.
    model : str
        measured, untwisting, helix or none.
    by_model : dict of str to float
        What each model says that can be asked.
    kept_in_finishing : float
        What is left of a metre as plied when it has rested and been washed.
    source : dict of str to str
        given, derived, assumed or measured, by key.
    """

    plies: int
    tex: np.ndarray
    strands: np.ndarray
    packed_density_g_per_cm3: float
    relaxed_density_g_per_cm3: float
    twist_tpm: np.ndarray | None
    directions: tuple[str, ...]
    ply_twist_tpm: float | None
    ply_direction: str
    contraction: float
    model: str
    by_model: dict[str, float]
    kept_in_finishing: float
    source: dict[str, str]

    @property
    def strand_tex(self) -> np.ndarray:
        """Linear density of one strand of single on each ply, as spun: (singles,)."""
        return self.tex / self.strands

    @property
    def ply_tex(self) -> np.ndarray:
        """Linear density of each strand of the ring: (plies,)."""
        return np.resize(self.tex, self.plies)

    @property
    def yarn_tex(self) -> float:
        """Linear density of the plied yarn: Σ T / (1 - c)."""
        return resultant_tex(self.ply_tex.tolist(), self.contraction)

    @property
    def diameters_mm(self) -> np.ndarray:
        """Packed diameter of each strand of the ring: (plies,)."""
        return _diameters_mm(self.ply_tex, self.packed_density_g_per_cm3)

    @property
    def relaxed_diameter_mm(self) -> float:
        """How thick the yarn lies when nothing presses on it, as wrapped on a ruler."""
        return diameter_mm(self.yarn_tex, self.relaxed_density_g_per_cm3)

    def wpi(self, linear_density_tex: float) -> float:
        """Return wraps to the inch of a strand of these tex, wrapped as this yarn is."""
        return wraps_per_inch(diameter_mm(linear_density_tex, self.relaxed_density_g_per_cm3))

    @property
    def ring_mm(self) -> float:
        """Radius of the ring of plies; 0 for one ply."""
        return ply_helix_radius_mm((self.diameters_mm / 2).tolist())

    @property
    def helix_angle_deg(self) -> float | None:
        """Angle of the plies from the yarn's axis; None where their twist is not known."""
        if self.ply_twist_tpm is None or self.plies == 1:
            return None
        return helix_angle_deg(self.ring_mm, self.ply_twist_tpm)

    @property
    def surface_angles_deg(self) -> np.ndarray | None:
        """Angle of each single's outer fibres from its axis: (singles,)."""
        if self.twist_tpm is None:
            return None
        each_mm = _diameters_mm(self.strand_tex, self.packed_density_g_per_cm3)
        pairs = zip(self.twist_tpm, each_mm, strict=True)
        return np.array([surface_angle_deg(twist, size) for twist, size in pairs])

    @property
    def pitch_mm(self) -> float | None:
        """Length of one turn of the ply twist."""
        turning = self.ply_twist_tpm is not None and self.plies > 1
        return 1000 / self.ply_twist_tpm if turning else None

    @property
    def stripe_mm(self) -> float | None:
        """Distance from one ply to the next along one side of the yarn."""
        return ply_spacing_mm(self.ply_twist_tpm, self.plies) if self.pitch_mm else None

    @property
    def surface_shares(self) -> np.ndarray:
        """Share of the yarn's surface that each ply shows: √T over the sum of √T, (plies,)."""
        wide = np.sqrt(self.ply_tex)
        return wide / wide.sum()

    @property
    def strands_of_plies(self) -> list[Single]:
        """One strand of each single as spun; empty where their twist is not known."""
        if self.twist_tpm is None:
            return []
        thin = _diameters_mm(self.strand_tex, self.packed_density_g_per_cm3)
        opposed = [direction != self.ply_direction for direction in self.directions]
        return [Single(*each_one) for each_one in zip(thin, self.twist_tpm, opposed, strict=True)]

    @property
    def single(self) -> Single | None:
        """The mean single; None where its twist is not known."""
        if self.twist_tpm is None:
            return None
        opposed = self.ply_direction not in self.directions
        return Single(float(self.diameters_mm.mean()), float(self.twist_tpm.mean()), opposed)

    @property
    def balanced_tpm(self) -> dict[str, float]:
        """Ply twist for a balanced yarn by each criterion; empty where nothing can be said."""
        if self.single is None or self.plies == 1:
            return {}
        return balance.balanced_tpm(self.single, self.plies)

    @property
    def finished_tex(self) -> float:
        """Linear density of the yarn when it has rested and been washed."""
        return self.yarn_tex / self.kept_in_finishing


def yarn_structure(plan: Plan) -> YarnStructure:
    """Return the yarn of a plan as a body; the plan is one that has been checked."""
    return yarn_structure_of(plan.scheme, plan.spinning, plan.plying, plan.fabric)


def yarn_structure_of(
    scheme: Scheme, spinning: Spinning, plying: Plying, fabric: Fabric
) -> YarnStructure:
    """Return the yarn of a plan's tables as a body; the same again costs nothing."""
    return _physics(_ring(scheme), spinning, plying, fabric)


def says_direction(plan: Plan) -> bool:
    """Return whether a plan says which way its yarn is twisted, in singles or in plying."""
    return plan.spinning.direction is not None or plan.plying.direction is not None


def grists(
    scheme: Scheme, spinning: Spinning, plying: Plying, fabric: Fabric
) -> dict[str, np.ndarray]:
    """Return tex of one strand of each single by every way that a plan's tables give."""
    return _grists(_Asked(_ring(scheme), spinning, plying), fabric)


def _grists(asked: "_Asked", fabric: Fabric) -> dict[str, np.ndarray]:
    return grist_candidates(asked.known(fabric))


def _ring(scheme: Scheme) -> "_Ring":
    return _Ring(singles_of(scheme), plies_of(scheme), scheme_name(scheme) == "chain")


@dataclass(frozen=True)
class _Ring:
    """All that the body of a yarn takes from its scheme."""

    singles: int
    plies: int
    is_chain: bool


@lru_cache(maxsize=64)
def _physics(ring: _Ring, spinning: Spinning, plying: Plying, fabric: Fabric) -> YarnStructure:
    asked = _Asked(ring, spinning, plying)
    found = _grists(asked, fabric)
    strand_tex = next(iter(found.values()), np.full(asked.singles, SINGLE_TEX))
    twist, ply_twist = asked.twist_tpm(strand_tex), asked.ply_twist_tpm(strand_tex)
    by_model = asked.by_model(strand_tex)
    model = asked.model(by_model)
    measured = {"measured": plying.contraction, "none": CONTRACTION}
    return YarnStructure(
        plies=asked.plies,
        tex=strand_tex * asked.strands,
        strands=asked.strands,
        packed_density_g_per_cm3=asked.packed_density_g_per_cm3,
        relaxed_density_g_per_cm3=asked.relaxed_density_g_per_cm3,
        twist_tpm=twist,
        directions=asked.directions,
        ply_twist_tpm=ply_twist,
        ply_direction=asked.ply_direction,
        contraction=float((measured | by_model)[model]),
        model=model,
        by_model=by_model,
        kept_in_finishing=finishing_ratio(plying, fabric),
        source={
            "single_tex": SOURCES[next(iter(found))] if found else "assumed",
            "relaxed_density_g_per_cm3": density_source(spinning),
            "packed_density_g_per_cm3": given_or_assumed(spinning.packed_density_g_per_cm3),
            "twist_tpm": twist_source(spinning, twist),
            "ply_twist_tpm": ply_twist_source(plying, ply_twist),
            "contraction": {"measured": "measured", "none": "assumed"}.get(model, "derived"),
        },
    )


@dataclass(frozen=True)
class _Asked:
    """What a plan asks of its yarn, before the grist is known."""

    ring: _Ring
    spinning: Spinning
    plying: Plying

    @property
    def singles(self) -> int:
        return self.ring.singles

    @property
    def plies(self) -> int:
        return self.ring.plies

    @property
    def packed_density_g_per_cm3(self) -> float:
        return self.spinning.packed_density_g_per_cm3 or PACKED_DENSITY

    @property
    def relaxed_density_g_per_cm3(self) -> float:
        return next(iter(densities(self.spinning).values()), RELAXED_DENSITY)

    @property
    def strands(self) -> np.ndarray:
        return per_ply(self.plying.strands or STRANDS, self.singles).astype(int)

    @property
    def directions(self) -> tuple[str, ...]:
        given = self.spinning.direction
        if isinstance(given, tuple):
            return given
        usual = opposite(self.plying.direction) if self.plying.direction else Z
        return (given or usual,) * self.singles

    @property
    def ply_direction(self) -> str:
        if self.plying.direction is not None:
            return self.plying.direction
        majority = max(self.directions, key=self.directions.count)
        return opposite(majority)

    def known(self, fabric: Fabric) -> GristInputs:
        in_ring = self.strands * (STRANDS_OF_A_CHAIN if self.ring.is_chain else 1)
        return GristInputs(
            spinning=self.spinning,
            plying=self.plying,
            fabric=fabric,
            strands=in_ring,
            relaxed_density_g_per_cm3=self.relaxed_density_g_per_cm3,
            contraction=self._contraction,
        )

    def twist_tpm(self, strand_tex: np.ndarray) -> np.ndarray | None:
        """Return turns a metre of each single, by the first way that is given."""
        return next(
            iter(twists(self.spinning, strand_tex, self.packed_density_g_per_cm3).values()), None
        )

    def ply_twist_tpm(self, strand_tex: np.ndarray) -> float | None:
        """Return turns a metre of the yarn: given, or by the criterion that is named."""
        given = ply_twists(self.plying)
        if given:
            return next(iter(given.values()))
        twist = self.twist_tpm(strand_tex)
        if self.plying.balance is None or twist is None or self.plies == 1:
            return None
        if not all(self._opposed):
            return None
        size = float(_diameters_mm(strand_tex * self.strands, self.packed_density_g_per_cm3).mean())
        single = Single(size, float(twist.mean()))
        found = balance.CRITERIA[self.plying.balance](single, self.plies)
        return found if np.isfinite(found) else None

    def by_model(self, strand_tex: np.ndarray) -> dict[str, float]:
        """Return what each model says of the length lost in plying, where it can be asked."""
        ply_twist = self.ply_twist_tpm(strand_tex)
        if self.plies == 1 or ply_twist is None:
            return {}
        wide = _diameters_mm(strand_tex * self.strands, self.packed_density_g_per_cm3)
        ring = ply_helix_radius_mm(np.resize(wide / 2, self.plies).tolist())
        angle = helix_angle_deg(ring, ply_twist)
        found = {"helix": helix_contraction(angle)}
        twist = self.twist_tpm(strand_tex)
        if twist is not None:
            thin = _diameters_mm(strand_tex, self.packed_density_g_per_cm3)
            singles = [
                Single(size, turns, opposed)
                for size, turns, opposed in zip(thin, twist, self._opposed, strict=True)
            ]
            tex = strand_tex * self.strands
            found["untwisting"] = untwisting_of(singles, tex, (angle, ply_twist))
        return found

    def model(self, by_model: dict[str, float]) -> str:
        """Return which model is in force; a measured value wins over all."""
        if self.plying.contraction is not None:
            return "measured"
        wanted = self.plying.contraction_model
        if wanted is not None:
            return wanted if wanted in by_model else "none"
        return next((model for model in ("untwisting", "helix") if model in by_model), "none")

    def _contraction(self, strand_tex: np.ndarray) -> float:
        if self.plying.contraction is not None:
            return self.plying.contraction
        by_model = self.by_model(strand_tex)
        return by_model.get(self.model(by_model), CONTRACTION)

    @property
    def _opposed(self) -> list[bool]:
        return [direction != self.ply_direction for direction in self.directions]


def untwisting_of(singles: list[Single], tex: np.ndarray, plied: tuple[float, float]) -> float:
    """Return the share of length lost by a yarn of unlike singles, each untwisting on its helix.

    1 / (1 - c) is the mean of 1 / (1 - c_k) by linear density, so that R = Σ T_k / (1 - c_k).

    Parameters
    ----------
    singles : list of Single
        One strand of each ply.
    tex : (singles,) array
        Linear density of each ply.
    plied : (float, float)
        Helix angle in degrees, and turns in a metre of yarn.
    """
    kept = np.array([1 - untwisting_contraction(single, *plied) for single in singles])
    return float(1 - tex.sum() / (tex / kept).sum())


def _diameters_mm(tex: np.ndarray, density: float) -> np.ndarray:
    return np.array([diameter_mm(one, density) for one in tex.tolist()])
