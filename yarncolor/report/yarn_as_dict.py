"""The yarn as a body, its bobbins, skeins and fabric as plain data: keys of ``plan.json``."""

from typing import Any

import numpy as np

from yarncolor import units
from yarncolor.answers.answer import Answer
from yarncolor.answers.bobbins import Bobbin, WeighPoint
from yarncolor.answers.knitted_piece import to_card_g
from yarncolor.answers.skeins import Skein
from yarncolor.yarn.linear_density import long_designation, short_designation
from yarncolor.yarn.structure import YarnStructure
from yarncolor.yarn.weight_classes import WeightClass
from yarncolor.yarn.wraps import wraps_by_convention

Json = dict[str, Any]
"""A table of ``plan.json``: keys, and numbers, texts, lists or tables."""


def yarn_dict(answer: Answer) -> Json:
    """Return the yarn; what is not known is None, and ``source`` says how the rest is known."""
    laid, yarn, bands = answer.layout, answer.resolved.yarn, answer.spread
    takes, later, lost_band = answer.hours, answer.lengths, yarn.contraction_band
    known = {
        "length_m": later.plied_m,
        "mass_g": float(laid.yarn_g),
        "linear_density_tex": laid.yarn_tex,
        "contraction": yarn.contraction,
        "contraction_model": yarn.model,
        "single_diameter_mm": _if_alike(yarn.diameters_mm),
        "single_wpi": _single_wpi(yarn),
        "helix_angle_deg": yarn.helix_angle_deg,
        "pitch_mm": yarn.pitch_mm,
        "stripe_mm": yarn.ply_spacing_mm,
        "ply_twist_tpm": yarn.ply_twist_tpm,
        "ply_direction": yarn.ply_direction,
        "diameter_mm": units.diameter_mm(laid.yarn_tex, yarn.relaxed_density_g_per_cm3),
        "wpi": yarn.wpi(laid.yarn_tex),
        "m_per_100g": units.m_per_100g(laid.yarn_tex),
        "designation": short_designation(laid.yarn_tex, yarn.plies),
        "designation_in_full": _in_full(yarn),
        "length_low_m": None if bands is None else bands.low_m,
        "length_high_m": None if bands is None else bands.high_m,
        "length_expected_m": None if bands is None else bands.expected_m,
        "rested_length_m": later.rested_m,
        "finished_length_m": later.finished_m,
        "hours": takes.job_h,
        "hours_spinning": takes.spinning_h,
        "hours_plying": takes.plying_h,
    }
    return {
        **known,
        "contraction_by_model": dict(yarn.contraction_by_model),
        "contraction_low": None if lost_band is None else lost_band[0],
        "contraction_high": None if lost_band is None else lost_band[1],
        "balanced_tpm": yarn.balanced_tpm,
        "wraps_by_convention": wraps_by_convention(laid.yarn_tex),
        "weight_class": _weight_class(answer.weight_class),
        "skeins": [_skein(skein, answer.plan.names) for skein in answer.skeins],
        "source": _source(known, answer),
    }


def bobbin_dict(bobbin: Bobbin) -> Json:
    """Return one filled bobbin; plies, strands, rows and numbers count from 1."""
    return {
        "bobbin": bobbin.number,
        "ply": bobbin.ply + 1,
        "strand": bobbin.strand + 1,
        "order": bobbin.order,
        "of": bobbin.of,
        "comes_off": bobbin.comes_off,
        "start_m": bobbin.start_m,
        "end_m": bobbin.end_m,
        "net_g": bobbin.mass_g,
        "tare_g": bobbin.tare_g,
        "gross_g": bobbin.gross_g,
    }


def weigh_point_dict(point: WeighPoint, answer: Answer) -> Json:
    """Return what a bobbin should weigh at one point; ``row`` is that of the ply's page, from 1.

    Parameters
    ----------
    point : WeighPoint
        Where to stop and weigh.
    answer : Answer
        What follows from the plan.
    """
    return {
        "ply": point.bobbin.ply + 1,
        "bobbin": point.bobbin.number,
        "row": int(answer.layout.row[point.portion]) or None,
        "repeat": point.repeat,
        "at_m": point.at_m,
        "net_g": point.net_g,
        "gross_g": point.gross_g,
        "on_bobbin_g": answer.on_bobbins.at_g(point.bobbin, point.at_m),
    }


def fabric_dict(answer: Answer) -> Json | None:
    """Return the knitted piece, what it takes and what of each lot to card for it; or None."""
    knit = answer.piece
    if knit is None:
        return None
    lots = None
    if knit.all_plied_m is not None:
        lots = _lots_for(answer, knit.all_plied_m)
    return {
        "kind": knit.kind,
        "stitches": knit.stitches,
        "rows": knit.rows,
        "gauge_stitches": knit.gauge_stitches,
        "gauge_rows": knit.gauge_rows,
        "loop_length_mm": knit.loop_cm * 10,
        "loop_source": knit.source,
        "band": knit.band,
        "tightness_factor": knit.tightness,
        "row_m": knit.row_m,
        "width_cm": knit.width_cm,
        "height_cm": knit.height_cm,
        "needs_m": knit.needs_m,
        "needs_plied_m": knit.needs_plied_m,
        "has_m": float(knit.has_m),
        "rows_possible": knit.rows_possible,
        "lots": lots,
    }


def _lots_for(answer: Answer, needs_plied_m: float) -> list[Json]:
    needed = to_card_g(answer.layout, needs_plied_m)
    return [
        {"lot": answer.plan.names[at], "to_card_g": float(needed[at])}
        for at in np.flatnonzero(needed)
    ]


def _if_alike(values: np.ndarray) -> float | None:
    return float(values[0]) if np.ptp(values) == 0 else None


def _single_wpi(yarn: YarnStructure) -> float | None:
    tex = _if_alike(yarn.strand_tex)
    return None if tex is None else yarn.wpi(tex)


def _in_full(yarn: YarnStructure) -> str | None:
    tex, twist = _if_alike(yarn.tex), yarn.twist_tpm
    if tex is None or twist is None or np.ptp(twist) or yarn.ply_twist_tpm is None:
        return None
    if len(set(yarn.directions)) > 1 or yarn.plies == 1:
        return None
    fold = (yarn.ply_direction, yarn.ply_twist_tpm)
    single = (yarn.directions[0], float(twist[0]))
    return long_designation(yarn.yarn_tex, yarn.plies, tex, (fold, single))


def _weight_class(called: WeightClass) -> Json:
    by = {measure: list(names) for measure, names in called.by.items()}
    return {"name": called.name, "agreed": called.agreed, "by": by}


def _skein(skein: Skein, names: tuple[str, ...]) -> Json:
    return {
        "skein": skein.number,
        "start_m": skein.start_m,
        "end_m": skein.end_m,
        "mass_g": skein.mass_g,
        "gross_g": skein.gross_g,
        "near_end": [names[lot] for lot in skein.near],
        "far_end": [names[lot] for lot in skein.far],
        "plies_changing": skein.plies_changing,
    }


def _is_all_measured(answer: Answer) -> bool:
    """Return whether of every ply so much was measured that all of it goes by that."""
    wheel = answer.layout.wheel
    if wheel is None:
        return False
    whole = [wheel.is_measured[wheel.pieces.of_ply(ply)].all() for ply in range(len(wheel.grist))]
    return all(one.holds or is_whole for one, is_whole in zip(wheel.grist, whole, strict=True))


def _source(known: Json, answer: Answer) -> dict[str, str | None]:
    """Return how each number is known: derived where nothing else is said."""
    derived = {key: None if value is None else "derived" for key, value in known.items()}
    del derived["contraction_model"], derived["ply_direction"]
    source = derived | answer.resolved.yarn.provenance
    if answer.layout.has_own_grist:
        how = "measured" if _is_all_measured(answer) else "derived"
        source |= {"linear_density_tex": how, "m_per_100g": how}
    spinning = answer.plan.spinning
    if spinning.single_wpi is not None and source["single_wpi"]:
        source["single_wpi"] = "given"
    if spinning.yarn_wpi is not None and not known["rested_length_m"]:
        source["wpi"] = "given" if not known["finished_length_m"] else "derived"
    return source
