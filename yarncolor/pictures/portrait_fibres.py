"""Fibres of a plied yarn, each on its own way: where they are at every column of a picture.

After S. Zhao, F. Luan and K. Bala, Fitting procedural yarn models for realistic cloth rendering,
ACM Transactions on Graphics 35(4), 2016, article 51 (abstract read): plies are helices round the
yarn's axis; in a ply fibres wind round its own centre, and each migrates, moving out and in again
as R(θ) = R_min + (R_max - R_min) (cos(s θ + θ₀) + 1) / 2. Only fibres that come to the surface are
drawn, before a core that shows between them. How they stray is by eye.
"""

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from yarncolor.pictures.yarn_geometry import YarnGeometry

Floats = NDArray[np.floating[Any]]

_MOST, _OF_A_PLY = 450, (40, 260)
"""Fibres that are drawn in all, and the fewest and most of a ply."""

_WIDTH_MM, _COVERS = 0.024, 2.5
"""Of a fibre of wool, common practice, no source; how often all together cover their ply."""

_INNERMOST, _CORE, _CORE_BACK = 0.6, 0.92, 0.35
_MIGRATES = (0.25, 0.9)
"""How often a fibre goes in and out for each turn round its ply, least and most."""

_WAVES_MM, _STRAYS, _TURNS_ASIDE = (1.3, 8.0), 0.09, 0.07
"""Lengths of the waves in which a fibre strays, how far of its ply's radius, and of a turn."""


@dataclass(frozen=True)
class Fibres:
    """Fibres at every column: (fibres, columns) arrays but for the first three.

    Parameters
    ----------
    ply : (fibres,) int array
        Which each belongs to.
    width_mm : (fibres,) array
        How thick it is.
    around : (fibres,) array
        Where in its ply it begins, as part of a turn.
    y_mm, z_mm : float arrays
        Down from the yarn's axis, and towards the eye.
    slope, lean : float arrays
        Down, and towards the eye, for each along: dy/dx and dz/dx.
    face_y, face_z : float arrays
        Which way its ply's surface faces there, down and towards the eye.
    depth : float array
        How far inside its ply, 0 at the surface to 1.
    """

    ply: NDArray[np.int64]
    width_mm: Floats
    around: Floats
    y_mm: Floats
    z_mm: Floats
    slope: Floats
    lean: Floats
    face_y: Floats
    face_z: Floats
    depth: Floats


def fibres_of(
    rope: YarnGeometry, x_mm: Floats, thick: Floats, combed: Floats, rng: np.random.Generator
) -> Fibres:
    """Return the fibres of a rope that are seen somewhere along a picture; cores come last.

    Parameters
    ----------
    rope : YarnGeometry
        Plies on helices, and how fibres wind in each.
    x_mm : (columns,) array
        Along the yarn, evenly spaced, two or more.
    thick : (columns,) array
        How thick the yarn is there, over its mean.
    combed : (plies,) array
        How parallel the fibres lie: 1 as combed, 0 as carded.
    rng : Generator
        Seeded.
    """
    plies = len(rope.radii_mm)
    each = int(np.clip(_MOST // plies, *_OF_A_PLY))
    ply = np.repeat(np.arange(plies), each)
    radius = np.array(rope.radii_mm, np.float32)[ply][:, None]
    around = rng.random(len(ply)).astype(np.float32)
    turns = _turns_per_mm(rope)[ply][:, None] * x_mm
    reach = _migrating(turns, rng)
    unruly = (1.3 - combed)[ply][:, None].astype(np.float32)
    aside = _TURNS_ASIDE * unruly * _waves(x_mm, len(ply), rng)
    turn = 2 * np.pi * (around[:, None] + turns + aside)
    out = radius * (reach + _STRAYS * unruly * _waves(x_mm, len(ply), rng))
    face_y, face_z = np.sin(turn), np.cos(turn)
    centre_y, centre_z = centres_mm(rope, x_mm)
    climb = np.float32(2 * np.pi * rope.turns_per_mm)
    y = centre_y[ply] + out * face_y * np.hypot(1, climb * centre_z[ply])
    z = centre_z[ply] + out * face_z * np.hypot(1, climb * centre_y[ply])
    radii = np.array(rope.radii_mm, np.float32)
    flat = np.zeros_like(centre_y)
    width = np.maximum(_COVERS * 2 * np.pi * radii / each, min(_WIDTH_MM, float(radii.min())))
    every_y = np.concatenate([y, centre_y]) * thick
    every_z = np.concatenate([z, centre_z - _CORE_BACK * radii[:, None]]) * thick
    step = x_mm[1] - x_mm[0]
    return Fibres(
        ply=np.append(ply, np.arange(plies)),
        width_mm=np.append(width[ply], 2 * _CORE * radii).astype(np.float32),
        around=np.append(around, np.zeros(plies, np.float32)),
        y_mm=every_y,
        z_mm=every_z,
        slope=np.gradient(every_y, step, axis=1),
        lean=np.gradient(every_z, step, axis=1),
        face_y=np.concatenate([face_y, flat]),
        face_z=np.concatenate([face_z, flat + 1]),
        depth=np.concatenate([1 - reach, flat + 1]),
    )


def centres_mm(rope: YarnGeometry, x_mm: Floats) -> tuple[Floats, Floats]:
    """Return where the middle of each ply runs, down and towards the eye: (plies, columns) twice.

    Parameters
    ----------
    rope : YarnGeometry
        Plies on helices; without twist they lie beside each other.
    x_mm : (columns,) array
        Along the yarn.
    """
    begun = np.arange(len(rope.radii_mm))[:, None] / len(rope.radii_mm) + rope.phase
    ring = (2 * np.pi * (rope.turns_per_mm * x_mm + begun)).astype(np.float32)
    if not rope.turns_per_mm:
        wide = 2 * np.array(rope.radii_mm, np.float32)
        middle = (np.cumsum(wide) - wide / 2 - wide.sum() / 2)[:, None]
        return np.broadcast_to(middle, ring.shape), np.zeros_like(ring)
    radius = np.float32(rope.ply_helix_radius_mm)
    return radius * np.sin(ring), radius * np.cos(ring)


def _turns_per_mm(rope: YarnGeometry) -> Floats:
    """Return turns of the fibres in each ply; where no twist is known they lie along the yarn.

    So they do in a yarn that hangs straight: common practice, no source.
    """
    turns = np.array(rope.fibre_turns_per_mm, np.float32)
    if turns.any():
        return turns * np.float32(np.hypot(1, _climb(rope)))
    radii = np.array(rope.radii_mm, np.float32)
    return -np.float32(rope.turns_per_mm * rope.ply_helix_radius_mm) / radii


def _climb(rope: YarnGeometry) -> float:
    return 2 * np.pi * rope.turns_per_mm * rope.ply_helix_radius_mm


def _migrating(turns: Floats, rng: np.random.Generator) -> Floats:
    """Return how far out each fibre lies, of its ply's radius: (fibres, columns)."""
    fibres = len(turns)
    often = rng.uniform(*_MIGRATES, (fibres, 1)).astype(np.float32)
    begun = rng.random((fibres, 1)).astype(np.float32)
    outer = 1 - (1 - _INNERMOST) / 2 * rng.random((fibres, 1)).astype(np.float32) ** 2
    inner = _INNERMOST + (outer - _INNERMOST) * rng.random((fibres, 1)).astype(np.float32)
    wave = (np.cos(2 * np.pi * (often * turns + begun)) + 1) / 2
    found: Floats = (inner + (outer - inner) * wave).astype(np.float32)
    return found


def _waves(x_mm: Floats, fibres: int, rng: np.random.Generator) -> Floats:
    """Return how each fibre strays along the yarn, -1 to 1: (fibres, columns)."""
    short, long = _WAVES_MM
    found = np.zeros((fibres, len(x_mm)), np.float32)
    for _ in range(2):
        wave = rng.uniform(1 / long, 1 / short, (fibres, 1)).astype(np.float32)
        begun = rng.random((fibres, 1)).astype(np.float32)
        found += 0.5 * np.sin(2 * np.pi * (wave * x_mm + begun))
    return found
