"""The curve of sRGB between coded values and linear light, for arrays (IEC 61966-2-1)."""

from functools import cache

import numpy as np

from yarncolor.colour.science import srgb_from_hex


def linear(srgb: np.ndarray) -> np.ndarray:
    """Return linear light of sRGB, both 0 to 1.

    Parameters
    ----------
    srgb : array
        0 to 1.
    """
    srgb = np.asarray(srgb, dtype=float)
    return np.where(srgb <= 0.04045, srgb / 12.92, ((srgb + 0.055) / 1.055) ** 2.4)


def coded(light: np.ndarray) -> np.ndarray:
    """Return sRGB of linear light, both 0 to 1; below 0 as it lies on the straight part.

    Parameters
    ----------
    light : array
        0 to 1.
    """
    light = np.asarray(light, dtype=float)
    curved = 1.055 * np.maximum(light, 1e-12) ** (1 / 2.4) - 0.055
    return np.where(light <= 0.0031308, light * 12.92, curved)


@cache
def linear_of_bytes() -> np.ndarray:
    """Return linear light of each sRGB byte: (256,) float32."""
    return linear(np.arange(256) / 255).astype(np.float32)


def label_ink(srgb_hex: str) -> str:
    """Return black or white, whichever reads better on a ground: WCAG AA on every colour."""
    linear = [
        level / 12.92 if level <= 0.04045 else ((level + 0.055) / 1.055) ** 2.4
        for level in srgb_from_hex([srgb_hex])[0]
    ]
    luminance = 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
    return "#000000" if (luminance + 0.05) ** 2 > 0.05 * 1.05 else "#ffffff"
