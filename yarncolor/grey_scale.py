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

    Chroma and hue count for less the more colourful the pair is. The standard compares a
    specimen with its original; of two plies neither is the original, so that the larger
    difference of the two ways round is taken.
    """
    lab_1, lab_2 = np.asarray(lab_1, dtype=float), np.asarray(lab_2, dtype=float)
    light = lab_2[..., 0] - lab_1[..., 0]
    chroma_1, chroma_2 = (np.hypot(lab[..., 1], lab[..., 2]) for lab in (lab_1, lab_2))
    chroma = np.abs(chroma_2 - chroma_1)
    apart = ((lab_2 - lab_1)[..., 1:] ** 2).sum(axis=-1)
    hue = np.sqrt(np.maximum(apart - chroma**2, 0))
    mean_chroma = (chroma_1 + chroma_2) / 2
    blue = chroma * mean_chroma * np.exp(-_from_blue(lab_1, lab_2)) / 100
    chroma_f = (chroma - blue) / (1 + (20 * mean_chroma / 1000) ** 2)
    hue_f = (hue + blue) / (1 + (10 * mean_chroma / 1000) ** 2)
    return np.sqrt(light**2 + chroma_f**2 + hue_f**2)


def _from_blue(lab_1: np.ndarray, lab_2: np.ndarray) -> np.ndarray:
    """Return x of [2]_: the squared distance of the mean hue angle from 280°, in units of 30°."""
    hue_1, hue_2 = (
        np.degrees(np.arctan2(lab[..., 2], lab[..., 1])) % 360 for lab in (lab_1, lab_2)
    )
    mean = (hue_1 + hue_2) / 2 + np.where(np.abs(hue_1 - hue_2) > 180, 180, 0)
    away = np.abs(mean % 360 - 280)
    return (np.minimum(away, 360 - away) / 30) ** 2


def grade(difference_f: np.ndarray) -> np.ndarray:
    """Return the grey-scale grade of ΔE_F, from 5 (alike) down to 1, not rounded [2]_."""
    difference_f = np.asarray(difference_f, dtype=float)
    large = 5 - np.log2(np.maximum(difference_f, 3.4) / 0.85)
    return np.clip(np.where(difference_f <= 3.4, 5 - difference_f / 1.7, large), 1, 5)
