"""The textile trade's own words for a difference of colour: grades of the grey scale.

References
----------
.. [1] ISO 105-A02, Textiles. Tests for colour fastness. Grey scale for assessing change in
   colour: grades 5 to 1 at CIELAB differences 0, 0.8, 1.7, 2.5, 3.4, 4.8, 6.8, 9.6, 13.6.
.. [2] ISO 105-A05, Instrumental assessment of change in colour for determination of grey
   scale rating. The formula is given here from memory; it meets [1]_ within 0.03 grade.
"""

import numpy as np


def difference_f(lab_1: np.ndarray, lab_2: np.ndarray) -> np.ndarray:
    """Return the grey-scale difference ΔE_F of CIELAB (..., 3) arrays [2]_.

    Chroma and hue count for less the more colourful the pair is; D ties the two together near
    blue. The hue difference bears the sign of the turn, as CIE 15 defines it, so that it does
    not matter which of the two is the original.
    """
    lab_1, lab_2 = np.asarray(lab_1, dtype=float), np.asarray(lab_2, dtype=float)
    light = lab_2[..., 0] - lab_1[..., 0]
    chroma_1, chroma_2 = (np.hypot(lab[..., 1], lab[..., 2]) for lab in (lab_1, lab_2))
    hue_1, hue_2 = (np.degrees(np.arctan2(lab[..., 2], lab[..., 1])) for lab in (lab_1, lab_2))
    turn = (hue_2 - hue_1 + 180) % 360 - 180
    chroma, mean_chroma = chroma_2 - chroma_1, (chroma_1 + chroma_2) / 2
    hue = 2 * np.sqrt(chroma_1 * chroma_2) * np.sin(np.radians(turn / 2))
    d = chroma * mean_chroma * np.exp(-_from_blue(hue_1 + turn / 2)) / 100
    chroma_f = (chroma - d) / (1 + (20 * mean_chroma / 1000) ** 2)
    hue_f = (hue - d) / (1 + (10 * mean_chroma / 1000) ** 2)
    return np.sqrt(light**2 + chroma_f**2 + hue_f**2)


def _from_blue(hue_deg: np.ndarray) -> np.ndarray:
    """Return x of [2]_: the squared distance of a hue angle from 280°, in units of 30°."""
    away = np.abs(hue_deg % 360 - 280)
    return (np.minimum(away, 360 - away) / 30) ** 2


def grade(difference_f: np.ndarray) -> np.ndarray:
    """Return the grey-scale grade of ΔE_F, from 5 (alike) down to 1, not rounded [2]_."""
    difference_f = np.asarray(difference_f, dtype=float)
    large = 5 - np.log2(np.maximum(difference_f, 3.4) / 0.85)
    return np.clip(np.where(difference_f <= 3.4, 5 - difference_f / 1.7, large), 1, 5)
