"""The yarn in sentences: how long, how thick, how twisted, how its plies meet, what it is for."""

from collections.abc import Iterator

import numpy as np

from yarncolor import units
from yarncolor.answers import Answer, first_all_different_m
from yarncolor.fabric import Piece, piece
from yarncolor.finishing import class_of, lengths
from yarncolor.hours import hours
from yarncolor.numbers_said import direction, in_hours, turns
from yarncolor.physics import Physics
from yarncolor.strip_layout import in_words, metres
from yarncolor.strips import percent
from yarncolor.yarn_words import MODELS

_SHAPES = {"flat": "rows", "round": "rounds", "triangle": "rows of a growing triangle"}


def yarn_lines(found: Answer) -> Iterator[str]:
    """Return the yarn and how its plies meet, a sentence a line."""
    yield _first(found)
    yield from _twist(found.settled.physics)
    yield from _length_lost(found.settled.physics)
    yield from _bands(found)
    yield from _later(found)
    yield from _side_by_side(found)
    yield from _hours(found)
    yield from _knitted(found)


def _first(found: Answer) -> str:
    laid, yarn = found.layout, found.settled.physics
    tex = laid.yarn_tex
    wpi = units.wraps_per_inch(units.diameter_mm(tex, yarn.relaxed_density_g_per_cm3))
    return (
        f"Yarn: {metres(laid.stretches.yarn_m)} and {laid.yarn_g:.0f} g as plied, "
        f"{in_words(laid)}; {units.m_per_100g(tex):.0f} m in 100 g "
        f"({units.yd_per_lb(tex):.0f} yd/lb), about {wpi:.0f} wraps to the inch."
    )


def _twist(yarn: Physics) -> Iterator[str]:
    parts = []
    if yarn.twist_tpm is not None:
        low, high = yarn.twist_tpm.min(), yarn.twist_tpm.max()
        angles = yarn.surface_angles_deg
        each = turns(low) if high - low < 1 else f"{turns(low)} to {turns(high).split()[0]}"
        parts.append(
            f"singles with {each}, {direction(yarn.directions[0])}, their outer fibres at "
            f"{_range(angles)}°"
        )
    if yarn.helix_angle_deg is not None:
        parts.append(
            f"plied with {turns(yarn.ply_twist_tpm)}, {direction(yarn.ply_direction)}, the plies "
            f"at {yarn.helix_angle_deg:.0f}°: once round in {yarn.pitch_mm:.1f} mm, the next ply "
            f"every {yarn.stripe_mm:.1f} mm along one side"
        )
    if parts:
        text = "; ".join(parts)
        yield f"Twist: {text}."


def _range(angles: np.ndarray) -> str:
    low, high = f"{angles.min():.0f}", f"{angles.max():.0f}"
    return low if low == high else f"{low} to {high}"


def _length_lost(yarn: Physics) -> Iterator[str]:
    if not yarn.contraction and not yarn.by_model:
        return
    turn = "lost" if yarn.contraction >= 0 else "won"
    how = "as measured" if yarn.model == "measured" else f"by {MODELS[yarn.model]}"
    others = [
        f"{_lost(share)} by {MODELS[model]}"
        for model, share in yarn.by_model.items()
        if model != yarn.model
    ]
    rest = f" ({'; '.join(others)})" if others else ""
    ask = "" if yarn.model == "measured" else " A plied sample, measured, settles it."
    yield f"In plying {abs(yarn.contraction):.1%} of the length is {turn}, {how}{rest}.{ask}"


def _lost(share: float) -> str:
    return f"{share:.1%}" if share >= 0 else f"{-share:.1%} won"


def _bands(found: Answer) -> Iterator[str]:
    bands = found.spread
    if bands is None:
        return
    variation = found.plan.spinning.variation
    yield (
        f"As unevenly as you spin ({variation:.0%}), expect {metres(bands.expected_m)}: nine yarns "
        f"of ten are between {metres(bands.low_m)} and {metres(bands.high_m)}. What is plied first "
        "has strayed least."
    )


def _later(found: Answer) -> Iterator[str]:
    later, called = lengths(found.layout), class_of(found.layout)
    if later.rested_m is not None:
        yield f"Rested off the bobbin, measured relaxed: {metres(later.rested_m)}."
    if later.finished_m is not None:
        share = _lost(found.plan.fabric.finishing_shrinkage)
        finished_tex = found.settled.physics.finished_tex
        yield (
            f"Washed: {metres(later.finished_m)}, {share} of the length lost; "
            f"then {units.m_per_100g(finished_tex):.0f} m in 100 g."
        )
    yield f"Charts call such a yarn {called.name}{'' if called.agreed else '; they do not agree'}."


def _side_by_side(found: Answer) -> Iterator[str]:
    shares = found.shares
    if len(shares) == 1:
        return
    by = ", ".join(
        f"{count} colours {percent(share)}" for count, share in enumerate(shares[1:], 2) if share
    )
    yield f"Side by side: matched {percent(shares[0])}{', ' + by if by else ''}."
    first = first_all_different_m(found)
    if first is not None:
        yield f"All plies first differ {first:.1f} m from where plying begins."
    elif shares[0] < 1:
        yield "Nowhere do all plies differ at once."


def _hours(found: Answer) -> Iterator[str]:
    takes = hours(found.layout)
    if takes.spinning_h is None:
        return
    plying = ", without plying" if found.settled.physics.plies > 1 else ""
    if takes.plying_h is not None:
        plying = f", and {in_hours(takes.plying_h)} plying"
    yield f"At the wheel: about {in_hours(takes.spinning_h)} spinning{plying}."


def _knitted(found: Answer) -> Iterator[str]:
    knit = piece(found.layout)
    if knit is None:
        return
    how = "by your weighed swatch" if knit.source == "measured" else "by gauge alone"
    if knit.needs_m is not None:
        size = f"{knit.width_cm:.0f} × {knit.height_cm:.0f} cm"
        yield (
            f"To knit {knit.rows} {_SHAPES[knit.kind]} ({size}): {metres(knit.needs_m)} of washed "
            f"yarn, {metres(knit.needs_plied_m)} as plied, give or take {knit.band:.0%} {how}."
        )
    yield f"From this yarn: about {_possible(knit)} on {knit.stitches} stitches cast on, {how}."


def _possible(knit: Piece) -> str:
    return f"{knit.rows_possible} {_SHAPES[knit.kind]}"
