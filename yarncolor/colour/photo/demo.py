"""Photographs that the package makes itself: invented lots, a target, paper, a bad light.

Published camera sensitivities, illuminants and target reflectances; lots' reflectances are
recovered from their colours. Noise, falling-off light and a wrong white balance on request.
"""

from dataclasses import dataclass

import numpy as np

from yarncolor.colour.photo.image import Photo
from yarncolor.colour.science import (
    camera_and_light,
    linear_from_srgb,
    mallett_basis,
    srgb_from_hex,
    target_reflectances,
)
from yarncolor.colour.srgb import coded

DEMO_LOTS = {
    "Harbour Blue": "#2f5873",
    "Rope": "#b99a6b",
    "Bladderwrack": "#5d5a2c",
    "Rust": "#9c4a2b",
    "Anemone": "#8e2f4a",
}
TARGET_CORNERS = [(0.06, 0.08), (0.48, 0.08), (0.48, 0.50), (0.06, 0.50)]
WHITE_LEFT, WHITE_TOP, WHITE_SIZE = 0.60, 0.14, 0.30
_PAPER_REFLECTS, _FLUFF, _BRIGHTEST = 0.85, 0.12, 0.9
_GREY = 0.18
"""What a grey card reflects, as photographers' cards do: common practice, no source."""


@dataclass(frozen=True)
class Conditions:
    """How a demo photograph is taken.

    Parameters
    ----------
    illuminant : str
        D65, A, FL2 or another that the library knows.
    balanced : bool
        Whether the camera's white balance fits the light; else it takes it for daylight.
    falls_off : float
        Share of light lost from the middle to the corners.
    noise : float
        SD in linear light.
    exposure : float
        1 puts the paper at its reflectance.
    seed : int
        Of noise and fluff.
    has_target : bool
        Whether a target lies beside the paper; else a grey card does, which everybody has.
    """

    illuminant: str = "D65"
    balanced: bool = True
    falls_off: float = 0.0
    noise: float = 0.004
    exposure: float = 1.0
    seed: int = 1
    has_target: bool = True


def demo_photo(
    conditions: Conditions = Conditions(),
    size_px: tuple[int, int] = (900, 675),
) -> Photo:
    """Return a demo photograph: a 24-patch target or a grey card, paper, five heaps of fibre.

    Parameters
    ----------
    conditions : Conditions
        Light, camera and noise.
    size_px : (int, int)
        Width and height.
    """
    wide, high = size_px
    rng = np.random.default_rng(conditions.seed)
    camera, lamp = camera_and_light(conditions.illuminant)
    spectra, index, shade = _scene(wide, high, rng, conditions.has_target)
    raw = (spectra * lamp) @ camera
    _, daylight = camera_and_light("D65")
    balance = lamp if conditions.balanced else daylight
    white = balance @ camera / (balance.sum() / lamp.sum())
    flat = raw / white
    flat *= min(1.0, _BRIGHTEST / flat[1].max())
    light = flat[index] * shade[..., None] * conditions.exposure
    y, x = np.mgrid[0:high, 0:wide]
    away = np.hypot((x / wide - 0.5), (y / high - 0.5)) / np.hypot(0.5, 0.5)
    light *= (1 - conditions.falls_off * away**2)[..., None]
    light += rng.normal(0, conditions.noise, light.shape)
    return Photo(np.rint(np.clip(coded(light), 0, 1) * 255).astype(np.uint8), is_example=True)


def heap_box(number: int) -> tuple[float, float, float, float]:
    """Return left, top, width and height of the middle of a heap of fibre, counted from 0."""
    left = 0.05 + 0.19 * number
    return left + 0.03, 0.66, 0.10, 0.20


def example_photo() -> Photo:
    """Return the photograph that a bench begins with: paper, a grey card, five heaps of fibre."""
    return demo_photo(Conditions(has_target=False))


def _scene(
    wide: int, high: int, rng: np.random.Generator, has_target: bool
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return spectra, which of them each pixel shows, and how shaded it is."""
    lots = linear_from_srgb(srgb_from_hex(list(DEMO_LOTS.values()))) @ mallett_basis().T
    paper = np.full((1, lots.shape[1]), _PAPER_REFLECTS)
    table = np.full((1, lots.shape[1]), 0.12)
    known = target_reflectances() if has_target else np.full_like(target_reflectances(), _GREY)
    spectra = np.concatenate([table, paper, known, lots])
    index = np.zeros((high, wide), np.intp)
    shade = np.ones((high, wide))
    index[round(0.02 * high) : round(0.56 * high), round(0.54 * wide) : round(0.97 * wide)] = 1
    (left, top), (right, _), (_, bottom), _ = TARGET_CORNERS
    gaps = (0.06, 0.94) if has_target else (0.0, 1.0)
    for patch in range(24):
        row, column = divmod(patch, 6)
        x0, x1 = (left + (right - left) * (column + share) / 6 for share in gaps)
        y0, y1 = (top + (bottom - top) * (row + share) / 4 for share in gaps)
        index[round(y0 * high) : round(y1 * high), round(x0 * wide) : round(x1 * wide)] = 2 + patch
    for number in range(len(DEMO_LOTS)):
        x0, x1 = round((0.05 + 0.19 * number) * wide), round((0.21 + 0.19 * number) * wide)
        y0, y1 = round(0.60 * high), round(0.94 * high)
        index[y0:y1, x0:x1] = 26 + number
        fluff = rng.normal(0, 1, (y1 - y0, x1 - x0))
        fluff = (fluff + np.roll(fluff, 1, 1) + np.roll(fluff, 2, 1)) / np.sqrt(3)
        shade[y0:y1, x0:x1] = np.clip(1 + _FLUFF * fluff, 0.5, 1.4)
    return spectra, index, shade
