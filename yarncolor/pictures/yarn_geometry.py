"""A yarn seen from the side and end on, as maps: which ply, how light, at each pixel.

The maps hold no colour: a change of colours is one gather. Plies are round strands on helices;
at each pixel the nearest surface is seen. Fibres lie on each strand at the angle that its own
twist leaves it after plying.
"""

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from yarncolor.yarn.structure import YarnStructure

GROUND = -1
_USUAL_DEG = 18.0
_DARKEST, _FARTHEST, _FIBRES, _FIBRE_DEPTH = 0.42, 0.72, 9, 0.16


@dataclass(frozen=True)
class Projection:
    """What is seen: (height, width) maps.

    Parameters
    ----------
    ply : int8 array
        Ply at each pixel, from 0; `GROUND` where there is none.
    shade : float array
        How light, 0 to 1.
    """

    ply: np.ndarray
    shade: np.ndarray


@dataclass(frozen=True)
class YarnGeometry:
    """Round strands on helices: all that a picture takes from the physics of a yarn.

    Parameters
    ----------
    radii_mm : tuple of float
        Of each strand.
    ply_helix_radius_mm : float
        Radius of the ring of their centres; 0 for one strand.
    turns_per_mm : float
        Of the strands round the axis; above 0 for S.
    fibre_turns_per_mm : tuple of float
        Of the fibres in each strand round its own centre.
    phase : float
        Turns already made at the left edge of a picture.
    """

    radii_mm: tuple[float, ...]
    ply_helix_radius_mm: float
    turns_per_mm: float
    fibre_turns_per_mm: tuple[float, ...]
    phase: float = 0.0

    @property
    def envelope_mm(self) -> float:
        """Diameter of the circle round all strands; without twist they lie beside each other."""
        if not self.turns_per_mm:
            return 2 * sum(self.radii_mm)
        return 2 * (self.ply_helix_radius_mm + max(self.radii_mm))

    @property
    def pitch_mm(self) -> float:
        """Length of one turn; infinite without twist."""
        return 1 / abs(self.turns_per_mm) if self.turns_per_mm else float("inf")

    def as_thick_as(self, envelope_mm: float) -> "YarnGeometry":
        """Return the same rope swollen or pressed to another diameter, its pitch as it is."""
        size = envelope_mm / self.envelope_mm
        radii = tuple(radius * size for radius in self.radii_mm)
        return replace(self, radii_mm=radii, ply_helix_radius_mm=self.ply_helix_radius_mm * size)


def yarn_geometry_of(yarn: YarnStructure, *, usual_twist: bool = False) -> YarnGeometry:
    """Return the plied yarn as a rope, packed as in the twist.

    Parameters
    ----------
    yarn : YarnStructure
        The yarn as a body.
    usual_twist : bool
        Whether a yarn whose twist is not known is drawn as yarns usually are, plies at 18°;
        else they lie beside each other.
    """
    tpm = usual_twist_tpm(yarn) if usual_twist else yarn.ply_twist_tpm or 0.0
    turns = tpm / 1000 * _hand(yarn.ply_direction)
    radii = tuple((yarn.diameters_mm / 2).tolist())
    return YarnGeometry(
        radii, yarn.ply_helix_radius_mm, turns, tuple(_left_turns_per_mm(yarn).tolist())
    )


def usual_twist_tpm(yarn: YarnStructure) -> float:
    """Return the ply twist, or where it is not known that of plies at a usual angle."""
    if yarn.ply_twist_tpm is not None or yarn.plies == 1:
        return yarn.ply_twist_tpm or 0.0
    return float(np.tan(np.radians(_USUAL_DEG)) / (2 * np.pi * yarn.ply_helix_radius_mm) * 1000)


def single_of(yarn: YarnStructure) -> YarnGeometry:
    """Return the first single as a rope of one strand, before plying."""
    twist = 0.0 if yarn.twist_tpm is None else float(yarn.twist_tpm[0]) / 1000
    radius = float(yarn.diameters_mm[0] / 2)
    return YarnGeometry((radius,), 0.0, 0.0, (twist * _hand(yarn.directions[0]),))


@lru_cache(maxsize=2)
def side_view(
    rope: YarnGeometry, width_px: int, height_px: int, px_per_mm: float, down: int = 1
) -> Projection:
    """Return a rope from the side, its axis along the middle of the picture; kept.

    Parameters
    ----------
    rope : YarnGeometry
        What is seen.
    width_px, height_px : int
        Size of the picture.
    px_per_mm : float
        Scale.
    down : int
        Samples down each pixel, each a row of the maps.
    """
    shape = (height_px * down, width_px)
    x = ((np.arange(width_px) + 0.5) / px_per_mm).astype(np.float32)
    rows = (np.arange(shape[0]) + 0.5) / down - height_px / 2
    y = (rows / px_per_mm).astype(np.float32)[:, None]
    plies = len(rope.radii_mm)
    nearest = np.full(shape, -np.inf, np.float32)
    ply, shade = np.full(shape, GROUND, np.int8), np.ones(shape, np.float32)
    for k in range(plies):
        ring, radius = np.float32(rope.ply_helix_radius_mm), np.float32(rope.radii_mm[k])
        turned = rope.turns_per_mm * x + rope.phase + k / plies
        angle = (2 * np.pi * turned).astype(np.float32)
        centre, depth = ring * np.sin(angle), ring * np.cos(angle)
        if not rope.turns_per_mm:
            centre, depth = centre * 0 + _side_by_side(rope)[k], depth * 0
        stretch = np.sqrt(1 + (depth * np.float32(2 * np.pi * rope.turns_per_mm)) ** 2)
        across = (y - centre) / (radius * stretch)
        out = np.sqrt(np.maximum(1 - across**2, 0.0))
        seen = (np.abs(across) <= 1) & (depth + radius * out > nearest)
        length = np.cumsum(stretch, dtype=np.float64) / px_per_mm
        fibre = np.mod(length * rope.fibre_turns_per_mm[k], 1).astype(np.float32)
        near = (depth / ring + 1) / 2 if ring else np.ones_like(x)
        column = np.nonzero(seen)[1]
        lit = _lit(across[seen], out[seen], fibre[column])
        shade[seen] = lit * (_FARTHEST + (1 - _FARTHEST) * near[column])
        nearest[seen], ply[seen] = (depth + radius * out)[seen], k
    return Projection(ply, shade)


def _side_by_side(rope: YarnGeometry) -> np.ndarray:
    """Return where strands without twist lie beside each other, from the axis: (strands,)."""
    wide = 2 * np.array(rope.radii_mm)
    ends = np.cumsum(wide)
    middle: np.ndarray = (ends - wide / 2 - ends[-1] / 2).astype(np.float32)
    return middle


def cross_section(yarn: YarnStructure, size_px: int, px_per_mm: float) -> Projection:
    """Return a cut through the yarn: its plies on their ring, in a square picture.

    Parameters
    ----------
    yarn : YarnStructure
        The plied yarn.
    size_px : int
        Width and height.
    px_per_mm : float
        Scale.
    """
    place = (np.arange(size_px) + 0.5 - size_px / 2) / px_per_mm
    x, y = np.meshgrid(place, -place)
    angles = ring_angles(yarn)
    from_centre = np.hypot(
        x - yarn.ply_helix_radius_mm * np.cos(angles)[:, None, None],
        y - yarn.ply_helix_radius_mm * np.sin(angles)[:, None, None],
    )
    share = from_centre / (yarn.diameters_mm / 2)[:, None, None]
    ply = share.argmin(axis=0)
    nearest = np.take_along_axis(share, ply[None], axis=0)[0]
    inside = nearest <= 1
    shade = np.where(nearest > 1 - 1.2 / px_per_mm / yarn.diameters_mm[ply], 0.55, 0.95)
    return Projection(np.where(inside, ply, GROUND).astype(np.int8), np.where(inside, shade, 1.0))


def ring_angles(yarn: YarnStructure) -> np.ndarray:
    """Return where each ply stands on the ring, in radians from the right: (plies,).

    Neighbours touch: the angle between two of them is that of their chord.
    """
    radii = yarn.diameters_mm / 2
    if yarn.plies == 1:
        return np.zeros(1)
    chords = np.minimum((radii + np.roll(radii, -1)) / (2 * yarn.ply_helix_radius_mm), 1.0)
    steps = 2 * np.arcsin(chords)
    steps *= 2 * np.pi / steps.sum()
    return np.pi / 2 + np.append(0.0, np.cumsum(steps)[:-1])


def _lit(across: np.ndarray, out: np.ndarray, turned: np.ndarray) -> np.ndarray:
    """Return how light a strand's surface is: round, with fibres that wind along it."""
    around = np.arcsin(np.clip(across, -1, 1)) / (2 * np.pi)
    fibre = 0.5 + 0.5 * np.cos(2 * np.pi * _FIBRES * (around - turned))
    lit: np.ndarray = (_DARKEST + (1 - _DARKEST) * out) * (1 - _FIBRE_DEPTH * fibre)
    return lit


def _left_turns_per_mm(yarn: YarnStructure) -> np.ndarray:
    """Return turns that the fibres of each ply make round its own axis once plied: (plies,)."""
    if yarn.twist_tpm is None:
        return np.zeros(yarn.plies)
    hands = np.array([_hand(direction) for direction in yarn.directions], dtype=float)
    own = np.resize(yarn.twist_tpm * hands, yarn.plies)
    if yarn.helix_angle_deg is None:
        return own / 1000
    by_plying = yarn.ply_twist_tpm * np.cos(np.radians(yarn.helix_angle_deg)) ** 2
    left: np.ndarray = (own + by_plying * _hand(yarn.ply_direction)) / 1000
    return left


def _hand(direction: str) -> int:
    """Return the sign of a direction on a picture whose y runs down: Z rises to the right."""
    return -1 if direction == "Z" else 1
