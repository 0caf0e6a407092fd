"""Checks of a yarn as a body: ways that contradict each other, and physics that cannot be."""

import numpy as np

from yarncolor.defaults import PACKED_DENSITY, RELAXED_DENSITY, plies_of
from yarncolor.plan import Fabric, Plan, Plying, Scheme, Spinning
from yarncolor.plan.limits import FINEST_TEX, THICKEST_TEX
from yarncolor.plan.reference import KEYS as KEYS_OF_PLAN
from yarncolor.plan.spinning import AGREE
from yarncolor.planfile.reading import FaultIterator
from yarncolor.said import Choice, KeyName, lacking, predicate, said
from yarncolor.units import diameter_mm, tpm
from yarncolor.yarn.given import GRIST_WAYS, TWIST_WAYS, agree, densities, ply_twists, twists
from yarncolor.yarn.knitted_size import (
    LEAST_GAUGE,
    MOST_GAUGE,
    gauge_of,
    increases_per_row,
    knitted_size,
    wingspan_cm,
)
from yarncolor.yarn.knitting import stitch_mm
from yarncolor.yarn.solved import grists
from yarncolor.yarn.structure import YarnStructure, yarn_structure_of

STEEPEST_DEG = 60.0
"""Of fibres in a single or plies in a yarn: steeper is no yarn but a spring. Judgement."""

_BY_WRAPS = ("single_wpi", "yarn_wpi")
_DENSITIES = ("wrapped_skein", "relaxed_density_g_per_cm3", "packed_density_g_per_cm3")
_OF_PLYING = (
    *("strands", "twist_tpm", "twist_tpi", "balance", "direction"),
    *("contraction_model", "contraction", "resting_shrinkage"),
)
_SKEIN = KeyName("spinning", "wrapped_skein", example="= { wpi = …, m_per_100g = … }")
_SINGLES_TWIST, _PLIES_TWIST = "the twist of the singles", "the twist of the plying"
_TURNS, _PLY_TURNS = "turns in a metre of single", "turns in a metre of yarn"
KEYS = (
    *(("spinning", key) for key in (*GRIST_WAYS, *TWIST_WAYS, *_DENSITIES, "direction")),
    *(("plying", key) for key in _OF_PLYING),
    ("fabric", "finishing_shrinkage"),
)
"""Keys that the body of a yarn rests on."""


def faults(tables: Plan) -> FaultIterator:
    """Return every fault between the values that make a yarn; each of them is right by itself.

    Parameters
    ----------
    tables : Plan
        Of which its scheme, spinning, plying and fabric count.
    """
    scheme, spinning, plying, fabric = tables.scheme, tables.spinning, tables.plying, tables.fabric
    yield from _pace(spinning, plying)
    told = [*_wanting(scheme, spinning, plying), *_grists_disagree(tables)]
    yield from told
    if told:
        yield from _contradicting(_mean_turns(spinning), "spinning", _TURNS)
        yield from _contradicting(ply_twists(plying), "plying", _PLY_TURNS)
        return
    yarn = yarn_structure_of(scheme, spinning, plying, fabric)
    yield from _twists_disagree(spinning, plying, yarn)
    yield from _too_steep(spinning, plying, yarn)
    yield from _sizes_disagree(fabric, yarn)
    yield from _too_thick(fabric, yarn)


def _wanting(scheme: Scheme, spinning: Spinning, plying: Plying) -> FaultIterator:
    single = any(getattr(spinning, key) is not None for key in TWIST_WAYS)
    ply = bool(ply_twists(plying)) or plying.balance is not None
    plies, model = plies_of(scheme), plying.contraction_model
    if plying.balance is not None and not ply_twists(plying):
        if not single:
            twist = KeyName("spinning", "twist_tpm", with_table=True)
            remedy = lacking(
                _SINGLES_TWIST, "needs a twist of the singles; give {twist}", twist=twist
            )
            yield ("plying", "balance"), remedy
        elif not _all_opposed(spinning, plying):
            remedy = predicate(
                "needs all singles spun one way and plied the other; give {twist} instead",
                twist=KeyName("plying", "twist_tpm"),
            )
            yield ("plying", "balance"), remedy
        elif plying.balance == "self_plied" and plies != 2:
            remedy = said(
                "{criterion} speaks of 2 plies, not of {plies}; give another criterion",
                criterion=Choice("plying", "balance", "self_plied"),
                plies=plies,
            )
            yield ("plying", "balance"), remedy
    if plying.contraction is not None or plies == 1:
        return
    if model == "untwisting" and not (single and ply):
        wanted = (_SINGLES_TWIST * (not single), _PLIES_TWIST * (not ply))
        remedy = lacking(
            " and ".join(filter(None, wanted)),
            "needs twists of singles and ply; give {twist} in spinning and in plying",
            twist=KeyName("spinning", "twist_tpm"),
        )
        yield ("plying", "contraction_model"), remedy
    elif model == "helix" and not ply:
        twist = KeyName("plying", "twist_tpm")
        remedy = lacking(_PLIES_TWIST, "needs a ply twist; give {twist} in plying", twist=twist)
        yield ("plying", "contraction_model"), remedy


def _pace(spinning: Spinning, plying: Plying) -> FaultIterator:
    pair = ("treadles_per_min", "drive_ratio")
    for table, name in ((spinning, "spinning"), (plying, "plying")):
        given = [key for key in pair if getattr(table, key) is not None]
        elsewhere = name == "plying" and any(getattr(spinning, key) is not None for key in pair)
        if len(given) == 1 and not elsewhere:
            (missing,) = set(pair) - set(given)
            there = KeyName(name, given[0])
            words = KEYS_OF_PLAN[name, missing].words
            remedy = lacking(words, "is missing; {there} says nothing without it", there=there)
            yield (name, missing), remedy


def _all_opposed(spinning: Spinning, plying: Plying) -> bool:
    given = spinning.direction
    own = set(given) if isinstance(given, tuple) else {given} - {None}
    return len(own) <= 1 and (plying.direction is None or plying.direction not in own)


def _grists_disagree(tables: Plan) -> FaultIterator:
    spinning = tables.spinning
    as_wrapped = {key: float(np.mean(value)) for key, value in densities(spinning).items()}
    yield from _contradicting(as_wrapped, "spinning", "g/cm³ as wrapped")
    packed = spinning.packed_density_g_per_cm3 or PACKED_DENSITY
    for key, value in as_wrapped.items():
        if value > packed:
            remedy = predicate(
                "is {value:.3g} g/cm³ on the ruler, more than the {packed:g} in the twist; "
                "wrapped loosely a yarn is never denser",
                value=value,
                packed=packed,
            )
            yield ("spinning", key), remedy
    tex = grists(tables.scheme, spinning, tables.plying, tables.fabric)
    mean = {key: float(np.mean(values)) for key, values in tex.items()}
    for key, value in mean.items():
        if not FINEST_TEX <= value <= THICKEST_TEX:
            shown = f"{value:,.0f}" if value >= 1000 else f"{value:.6f}".rstrip("0").rstrip(".")
            remedy = predicate(
                "comes to {shown} tex of the singles; {finest:g} to {thickest:,.0f} can be planned",
                shown=shown,
                finest=FINEST_TEX,
                thickest=THICKEST_TEX,
            )
            yield ("spinning", key), remedy
            return
    if not densities(spinning):
        yield from _wraps_disagree(mean, spinning)
        by_weight = {key: value for key, value in mean.items() if key not in _BY_WRAPS}
        mean = by_weight or mean
    yield from _contradicting(mean, "spinning", "tex of the singles")


def _twists_disagree(spinning: Spinning, plying: Plying, yarn: YarnStructure) -> FaultIterator:
    density = spinning.packed_density_g_per_cm3 or PACKED_DENSITY
    by_way = twists(spinning, yarn.strand_tex, density)
    mean = {key: float(values.mean()) for key, values in by_way.items()}
    yield from _contradicting(mean, "spinning", _TURNS)
    yield from _contradicting(ply_twists(plying), "plying", _PLY_TURNS)


def _mean_turns(spinning: Spinning) -> dict[str, float]:
    """Return the twists that rest on no grist, in the mean over the plies."""
    turns = {}
    if spinning.twist_tpm is not None:
        turns["twist_tpm"] = float(np.mean(spinning.twist_tpm))
    if spinning.twist_tpi is not None:
        turns["twist_tpi"] = tpm(float(np.mean(spinning.twist_tpi)))
    return turns


def _wraps_disagree(mean: dict[str, float], spinning: Spinning) -> FaultIterator:
    """Tell of wraps that do not go with a weighed grist, since the density is only assumed."""
    weighed = next((key for key in mean if key not in _BY_WRAPS), None)
    for key in _BY_WRAPS:
        if weighed and key in mean and not agree(mean[key], mean[weighed]):
            remedy = said(
                "{wraps:g} wraps mean {m_per_100g:.0f} m of single in 100 g at the {density:g} "
                "g/cm³ that are assumed, but {weighed} says {other:.0f}; if both are right, leave "
                "this out and write the yarn that you wrapped as {skein}",
                wraps=float(np.mean(getattr(spinning, key))),
                m_per_100g=1e5 / mean[key],
                density=RELAXED_DENSITY,
                weighed=KeyName("spinning", weighed),
                other=1e5 / mean[weighed],
                skein=_SKEIN,
            )
            yield ("spinning", key), remedy


def _contradicting(values: dict[str, float], table: str, what: str) -> FaultIterator:
    if not values:
        return
    first = next(iter(values))
    for key, value in values.items():
        if not agree(value, values[first]):
            remedy = predicate(
                "says {value:.4g} {what}, but {first} says {other:.4g}; "
                "give one, or two within {near:.0%}",
                value=value,
                what=what,
                first=KeyName(table, first),
                other=values[first],
                near=AGREE,
            )
            yield (table, key), remedy


def _too_steep(spinning: Spinning, plying: Plying, yarn: YarnStructure) -> FaultIterator:
    singles, twist_tpm = yarn.surface_angles_deg, yarn.twist_tpm
    if singles is not None and twist_tpm is not None and singles.max() > STEEPEST_DEG:
        at = int(singles.argmax())
        key = next(key for key in TWIST_WAYS if getattr(spinning, key) is not None)
        told = (
            f"at {twist_tpm[at]:,.0f} turns a metre the fibres of a single of "
            f"{yarn.strand_tex[at]:.4g} tex stand at {singles[at]:.0f}°"
        )
        yield ("spinning", key), f"{told}; no yarn holds more than {STEEPEST_DEG:.0f}°"
    key = "balance" if not ply_twists(plying) else next(iter(ply_twists(plying)))
    if yarn.helix_angle_deg is not None and yarn.helix_angle_deg > STEEPEST_DEG:
        told = (
            f"at {yarn.ply_twist_tpm:,.0f} turns a metre the plies of a yarn of "
            f"{yarn.yarn_tex:.4g} tex stand at {yarn.helix_angle_deg:.0f}°"
        )
        yield ("plying", key), f"{told}; no yarn holds more than {STEEPEST_DEG:.0f}°"


def _sizes_disagree(fabric: Fabric, yarn: YarnStructure) -> FaultIterator:
    """Tell of a width that stitches, gauge or rows contradict."""
    size = knitted_size(fabric, yarn.finished_tex)
    if size is None or fabric.width_cm is None:
        return
    gauge = size.gauge
    wide_cm, what = size.stitches / gauge.stitches_per_10cm * 10, f"{size.stitches} stitches"
    if fabric.kind == "triangle" and size.rows is not None:
        last = round(size.stitches + increases_per_row(fabric) * (size.rows - 1))
        wide_cm, what = wingspan_cm(last, size.rows, gauge), f"{size.rows} rows"
    given = fabric.rows if fabric.kind == "triangle" else fabric.stitches
    if given is not None and not agree(fabric.width_cm, wide_cm):
        remedy = predicate(
            "says {width:g} cm, but {what} at {gauge:.3g} stitches in 10 cm are {wide:.0f} cm "
            "wide; leave one out",
            width=fabric.width_cm,
            what=what,
            gauge=gauge.stitches_per_10cm,
            wide=wide_cm,
        )
        yield ("fabric", "width_cm"), remedy
    elif not LEAST_GAUGE <= gauge.stitches_per_10cm <= MOST_GAUGE:
        remedy = predicate(
            "comes to {gauge:.3g} stitches in 10 cm; {least:g} to {most:g} can be knitted",
            gauge=gauge.stitches_per_10cm,
            least=LEAST_GAUGE,
            most=MOST_GAUGE,
        )
        yield ("fabric", "width_cm"), remedy


def _too_thick(fabric: Fabric, yarn: YarnStructure) -> FaultIterator:
    gauge = gauge_of(fabric, yarn.finished_tex)
    if gauge.by not in ("gauge_stitches", "width_cm"):
        return
    legs_mm = 2 * diameter_mm(yarn.finished_tex, yarn.packed_density_g_per_cm3)
    wide_mm = stitch_mm(gauge.stitches_per_10cm)
    if legs_mm > wide_mm:
        told = f"a stitch is {wide_mm:.2f} mm wide, and the two legs of this yarn in it need"
        remedy = f"{told} {legs_mm:.2f} mm even pressed together; give a looser gauge or spin finer"
        yield ("fabric", gauge.by), remedy
