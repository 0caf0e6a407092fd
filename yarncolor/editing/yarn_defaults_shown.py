"""What a plan uses of grist, twist, densities and plying where they are left empty."""

from collections.abc import Callable

import numpy as np

from yarncolor.layout.resolved import ResolvedPlan
from yarncolor.phrases import MODEL_WORDS
from yarncolor.plan import Plan
from yarncolor.units import m_per_100g, tpi
from yarncolor.yarn.given import GRIST_WAYS, TWIST_WAYS, ply_twists
from yarncolor.yarn.structure import YarnStructure
from yarncolor.yarn.twist import twist_factor

_Words = Callable[[ResolvedPlan], str]
USUAL, NOT_KNOWN = "(usual)", "not known"
_SAMPLE_M = 10.0
_FROM_GRIST = {
    "single_tex": "from the tex you gave",
    "single_m_per_g": "from your m in a gram",
    "sample": "from your weighed {length_m:g} m",
    "yarn_m_per_100g": "from the finished yarn's m",
    "single_wpi": "from the single's wraps",
    "yarn_wpi": "from the finished yarn's wraps",
}
_FROM_TWIST = {
    "twist_tpm": "from the turns in a metre",
    "twist_tpi": "from the turns in an inch",
    "twist_angle_deg": "from the angle",
    "twist_factor": "from the twist factor",
}


def near(value: float) -> str:
    """Return a number as a spinner needs it: a tenth from one up, whole from a hundred up."""
    size = abs(value)
    if size < 1:
        return f"{value:.2g}"
    return f"{value:.0f}" if size >= 100 else f"{value:.1f}".removesuffix(".0")


def _each(values: np.ndarray) -> str:
    """Return one number for plies that are alike, else the least and the most."""
    low, high = near(float(np.min(values))), near(float(np.max(values)))
    return low if low == high else f"{low} to {high}"


def _grist(value: Callable[[YarnStructure], np.ndarray | float]) -> _Words:
    return lambda filled: f"{_each(value(filled.yarn))} {_from_grist(filled.plan)}"


def _from_grist(plan: Plan) -> str:
    way = next((key for key in GRIST_WAYS if getattr(plan.spinning, key) is not None), None)
    if way is None:
        return USUAL
    sample = plan.spinning.sample
    return _FROM_GRIST[way].format(length_m=sample.length_m if sample else 0)


def _sample(filled: ResolvedPlan) -> str:
    mass_g = near(float(filled.yarn.strand_tex.mean()) * _SAMPLE_M / 1000)
    return f"{near(_SAMPLE_M)}, {mass_g} {_from_grist(filled.plan)}"


def _twist(value: Callable[[YarnStructure], np.ndarray]) -> _Words:
    def told(filled: ResolvedPlan) -> str:
        if filled.yarn.twist_tpm is None:
            return NOT_KNOWN
        spinning = filled.plan.spinning
        way = next(key for key in TWIST_WAYS if getattr(spinning, key) is not None)
        return f"{_each(value(filled.yarn))} {_FROM_TWIST[way]}"

    return told


def _ply_twist(value: Callable[[float], float]) -> _Words:
    def told(filled: ResolvedPlan) -> str:
        if filled.yarn.ply_twist_tpm is None:
            return NOT_KNOWN
        way = next(iter(ply_twists(filled.plan.plying)), None)
        by = _FROM_TWIST[way] if way else "for a balanced yarn"
        return f"{near(value(filled.yarn.ply_twist_tpm))} {by}"

    return told


def _balance(filled: ResolvedPlan) -> str:
    return "none: the turns count" if ply_twists(filled.plan.plying) else "none"


def _skein(filled: ResolvedPlan) -> str:
    yarn = filled.yarn
    by = _loosely(yarn).replace(USUAL, "at the usual density")
    return f"{near(yarn.wpi(yarn.yarn_tex))}, {near(m_per_100g(yarn.yarn_tex))} {by}"


def _loosely(yarn: YarnStructure) -> str:
    return {
        "assumed": USUAL,
        "given": "from the density",
        "measured": "from your wrapped skein",
    }[yarn.provenance["relaxed_density_g_per_cm3"]]


def _relaxed(filled: ResolvedPlan) -> str:
    yarn = filled.yarn
    return f"{near(yarn.relaxed_density_g_per_cm3)} {_loosely(yarn)}"


def _direction(filled: ResolvedPlan) -> str:
    why = "(against the plying)" if filled.plan.plying.direction else USUAL
    return f"{filled.yarn.directions[0]} {why}"


def _contraction(filled: ResolvedPlan) -> str:
    yarn, asked = filled.yarn, filled.plan.plying.contraction_model
    told = near(yarn.contraction * 100)
    if yarn.provenance["contraction"] == "assumed":
        return f"{told} {'as you chose' if asked else USUAL}"
    return f"{told} from the twist{'s' if yarn.model == 'untwisting' else ' of the plies'}"


def _model(filled: ResolvedPlan) -> str:
    model = filled.yarn.model
    return "not asked: it is measured" if model == "measured" else f"{MODEL_WORDS[model]} {USUAL}"


YARN: dict[tuple[str, str], _Words] = {
    ("spinning", "single_m_per_g"): _grist(lambda yarn: 1000 / yarn.strand_tex),
    ("spinning", "single_tex"): _grist(lambda yarn: yarn.strand_tex),
    ("spinning", "single_wpi"): _grist(
        lambda yarn: np.array([yarn.wpi(tex) for tex in yarn.strand_tex.tolist()])
    ),
    ("spinning", "sample"): _sample,
    ("spinning", "yarn_m_per_100g"): _grist(lambda yarn: m_per_100g(yarn.finished_tex)),
    ("spinning", "yarn_wpi"): _grist(lambda yarn: yarn.wpi(yarn.finished_tex)),
    ("spinning", "twist_tpi"): _twist(lambda yarn: tpi(yarn.twist_tpm)),
    ("spinning", "twist_tpm"): _twist(lambda yarn: yarn.twist_tpm),
    ("spinning", "twist_angle_deg"): _twist(lambda yarn: yarn.surface_angles_deg),
    ("spinning", "twist_factor"): _twist(
        lambda yarn: np.array(
            [twist_factor(*pair) for pair in zip(yarn.twist_tpm, yarn.strand_tex, strict=True)]
        )
    ),
    ("spinning", "wrapped_skein"): _skein,
    ("spinning", "relaxed_density_g_per_cm3"): _relaxed,
    ("spinning", "packed_density_g_per_cm3"): (
        lambda filled: f"{near(filled.yarn.packed_density_g_per_cm3)} {USUAL}"
    ),
    ("spinning", "direction"): _direction,
    ("plying", "twist_tpi"): _ply_twist(tpi),
    ("plying", "twist_tpm"): _ply_twist(lambda twist_tpm: twist_tpm),
    ("plying", "balance"): _balance,
    ("plying", "contraction"): _contraction,
    ("plying", "contraction_model"): _model,
    ("plying", "direction"): (lambda filled: f"{filled.yarn.ply_direction} (against the singles)"),
    ("plying", "strands"): lambda filled: f"{_each(filled.yarn.strands)} {USUAL}",
}
"""By table and key; each says it of a plan that leaves the key empty."""
