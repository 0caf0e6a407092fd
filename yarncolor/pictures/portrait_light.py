"""Light on fibres: what each gives back in its own colour, and what it gleams of the light's.

Diffuse light and the gleam along a fibre after J. T. Kajiya and T. L. Kay, Rendering fur with three
dimensional textures, Proceedings of SIGGRAPH 1989, 271-280; two gleams, the first of the light's
colour and tilted to the root, the second, through the fibre, of its own, after S. R. Marschner,
H. W. Jensen, M. Cammarano, S. Worley and P. Hanrahan, Light scattering from human hair fibers, ACM
Transactions on Graphics 22(3), 2003, 780-791. Both from memory; strengths and widths by eye.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import uniform_filter

from yarncolor.pictures.portrait_fibres import Floats
from yarncolor.pictures.relief import TO_LIGHT

_FIRST_TILT, _FIRST_WIDTH, _FIRST = -0.10, 26.0, 0.085
_SECOND_TILT, _SECOND_WIDTH, _SECOND = 0.16, 12.0, 0.30
_ROUND_FIBRE, _ROUND_PLY, _DEEP = 0.5, 0.6, 0.6
_SHOULDER = 0.62
"""From where on light is bent, so that white fibre keeps its relief."""

_NEAR, _DARKEST, _SHADOW = 0.5, 0.16, 2.0
"""Shadow looks round so far, of a ply's radius; how dark it gets; how fast."""

_PASSES, _WINDOW = 2, 2.45
"""Two means over a window so many standard deviations wide are nearly a bell."""


class Lit(NamedTuple):
    """Light of places.

    Parameters
    ----------
    own : array
        By what a place's own colour is multiplied.
    gleam : array
        What is added to it, of the light's colour.
    """

    own: Floats
    gleam: Floats


def on_fibres(slope: Floats, lean: Floats, across: Floats) -> Lit:
    """Return the light on fibres, wherever they lie.

    Parameters
    ----------
    slope, lean : arrays
        dy/dx and dz/dx of each.
    across : array
        Where on the fibre: -1 at its upper edge to 1 at its lower.
    """
    size = np.sqrt(1 + slope**2 + lean**2)
    x, y, z = TO_LIGHT
    with_light = (x + slope * y + lean * z) / size
    with_eye = lean / size
    faces = np.clip(np.sqrt(np.maximum(1 - across**2, 0)) * z + across * y, 0, None)
    diffuse = np.sqrt(np.maximum(1 - with_light**2, 0)) * (1 - _ROUND_FIBRE + _ROUND_FIBRE * faces)
    first = _gleam(with_light, with_eye, _FIRST_TILT, _FIRST_WIDTH)
    second = _gleam(with_light, with_eye, _SECOND_TILT, _SECOND_WIDTH)
    return Lit(diffuse + _SECOND * second * faces, _FIRST * first * faces)


def _gleam(with_light: Floats, with_eye: Floats, tilt: float, width: float) -> Floats:
    """Return a gleam: whole where light and eye make one angle with the fibre, but for a tilt."""
    light, eye = (np.arcsin(np.clip(each, -1, 1)) for each in (with_light, with_eye))
    found: Floats = np.cos(np.clip(light + eye + 2 * tilt, -np.pi / 2, np.pi / 2)) ** width
    return found


def within_white(light: Floats) -> Floats:
    """Return linear light of which what would be lighter than white comes near to it, not over.

    Parameters
    ----------
    light : array
        Linear, 1 for white.
    """
    over = 1 - _SHOULDER
    bent = _SHOULDER + over * (1 - np.exp(-np.maximum(light - _SHOULDER, 0) / over))
    found: Floats = np.where(light < _SHOULDER, light, bent)
    return found


def round_ply(face_y: Floats, face_z: Floats, depth: Floats) -> Floats:
    """Return how light a ply is by which way its surface faces, and by how deep a fibre lies in it.

    Parameters
    ----------
    face_y, face_z : arrays
        Down and towards the eye, of length 1.
    depth : array
        0 at the surface to 1.
    """
    _, y, z = TO_LIGHT
    faces = np.clip(face_y * y + face_z * z, 0, None)
    found: Floats = (1 - _ROUND_PLY + _ROUND_PLY * faces) * (1 - _DEEP * depth)
    return found


def shadow(
    z_mm: Floats, body: NDArray[np.bool_], radius_mm: float, px_per_mm: tuple[float, float]
) -> Floats:
    """Return how much light comes where nearer things stand round: 1 for all.

    Parameters
    ----------
    z_mm : (rows, columns) array
        How near each place is.
    body : bool array
        Where the yarn is.
    radius_mm : float
        Of a ply.
    px_per_mm : (float, float)
        Down and along.
    """
    far = float(z_mm[body].min()) if body.any() else 0.0
    size = [max(round(_WINDOW * _NEAR * radius_mm * each), 1) for each in px_per_mm]
    around = np.where(body, z_mm, far)
    for _ in range(_PASSES):
        around = uniform_filter(around, size)
    found: Floats = 1 - _SHADOW * np.clip(around - z_mm, 0, None) / radius_mm
    return np.clip(found, _DARKEST, 1)
