"""What was taken for granted of a yarn as a body, in words."""

from collections.abc import Iterator

from yarncolor.plan import Plan
from yarncolor.yarn.balance import WORDS
from yarncolor.yarn.given import densities, ply_twists
from yarncolor.yarn.structure import YarnStructure, says_direction

_GRISTS = {
    "single_tex": "the tex of the singles",
    "single_m_per_g": "the singles' metres in a gram",
    "sample": "the weighed sample",
    "yarn_m_per_100g": "the finished yarn's metres in 100 g",
    "single_wpi": "the singles' wraps",
    "yarn_wpi": "the finished yarn's wraps",
}
_TWISTS = {
    "twist_tpm": "turns in a metre",
    "twist_tpi": "turns in an inch",
    "twist_angle_deg": "the angle",
    "twist_factor": "the twist factor",
}


def assumed_of_yarn(plan: Plan, yarn: YarnStructure) -> Iterator[str]:
    """Return what a plan does not say of its yarn, and what stood in for it."""
    yield from _grist(plan, yarn)
    yield from _twist(plan, yarn)
    yield from _length_lost(plan, yarn)
    yield from _densities(plan, yarn)
    if plan.fabric.increases_per_row is not None and plan.fabric.kind != "triangle":
        yield "increases_per_row says nothing: only a triangle grows"


def _grist(plan: Plan, yarn: YarnStructure) -> Iterator[str]:
    given = [key for key in _GRISTS if getattr(plan.spinning, key) is not None]
    if not given:
        yield f"grist of the singles: {1e5 / yarn.strand_tex[0]:.0f} m in 100 g"
    elif len(given) > 1:
        others = " and ".join(_GRISTS[key] for key in given[1:])
        yield f"grist by {_GRISTS[given[0]]}; {others} would give the same, near enough"


def _twist(plan: Plan, yarn: YarnStructure) -> Iterator[str]:
    spinning, plying = plan.spinning, plan.plying
    given = [key for key in _TWISTS if getattr(spinning, key) is not None]
    if len(given) > 1:
        others = " and ".join(_TWISTS[key] for key in given[1:])
        near = f"{others} would give the same, near enough"
        yield f"twist of the singles by {_TWISTS[given[0]]}; {near}"
    if plying.balance is not None and yarn.plies == 1:
        yield "balance says nothing to a single"
    elif plying.balance is not None and yarn.ply_twist_tpm is not None:
        if ply_twists(plying):
            yield "the ply twist is given, so balance says nothing"
        else:
            yield (
                f"ply twist: {yarn.ply_twist_tpm:.0f} turns in a metre, {WORDS[plying.balance]}; "
                "a fresh self-plied test is the better way"
            )
    known = yarn.twist_tpm is not None or yarn.ply_twist_tpm is not None
    if known and not says_direction(plan):
        yield "singles spun clockwise (Z), plied anticlockwise (S)"


def _length_lost(plan: Plan, yarn: YarnStructure) -> Iterator[str]:
    if yarn.model == "measured":
        if plan.plying.contraction_model is not None:
            yield "the length lost in plying is measured, so no model is asked"
    elif yarn.model == "none":
        asked = plan.plying.contraction_model == "none"
        why = "" if asked else ", for want of a twist or a measured value"
        if yarn.plies > 1:
            yield f"no length lost in plying{why}"
    elif plan.plying.contraction_model is None:
        yield f"length lost in plying by {model_words(yarn, yarn.model)}"


def model_words(yarn: YarnStructure, model: str) -> str:
    """Return by what a model finds the length lost in plying."""
    if model == "helix":
        return "the plies' helices alone"
    ways = {one != yarn.ply_direction for one in yarn.directions}
    turn = "untwist or twist up" if len(ways) > 1 else "untwist" if True in ways else "twist up"
    return f"helices whose singles {turn} as they are plied"


def _densities(plan: Plan, yarn: YarnStructure) -> Iterator[str]:
    packed = f"{yarn.packed_density_g_per_cm3:g} g/cm³ in the twist"
    relaxed = f"{yarn.relaxed_density_g_per_cm3:g} g/cm³ as wrapped on a ruler"
    own = [
        text
        for text, key in ((packed, "packed"), (relaxed, "relaxed"))
        if yarn.provenance[f"{key}_density_g_per_cm3"] == "assumed"
    ]
    if own:
        yield f"density of wool yarn: {', '.join(own)}"
    found = densities(plan.spinning)
    if len(found) > 1:
        yield "density on the ruler by the wrapped skein; the number given agrees well enough"
