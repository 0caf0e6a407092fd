"""How a colour looks to an eye with a colour-vision deficiency, or by its lightness alone.

A simulation shows which contrast is lost; it is not what any person sees.

References
----------
.. [1] G. M. Machado, M. M. Oliveira and L. A. F. Fernandes, A physiologically-based model for
   simulation of color vision deficiency, IEEE Transactions on Visualization and Computer
   Graphics 15(6), 2009, 1291-1298: matrices on linear light. Those for tritanomaly are the
   weakest part of the model.
"""

import numpy as np

from yarncolor.colour.science import (
    cvd_matrix,
    lab_from_srgb,
    linear_from_srgb,
    shown_srgb,
    srgb_from_linear,
)

DEFICIENCIES = ("protanomaly", "deuteranomaly", "tritanomaly")


def seen_srgb(srgb: np.ndarray, deficiency: str, severity: float = 1.0) -> np.ndarray:
    """Return sRGB (n, 3) as an eye with a deficiency tells colours apart [1]_.

    Parameters
    ----------
    srgb : (n, 3) array
        0 to 1.
    deficiency : str
        protanomaly, deuteranomaly or tritanomaly.
    severity : float
        0 (none) to 1 (protanopia, deuteranopia, tritanopia).

    Raises
    ------
    ValueError
        For another deficiency or a severity outside 0 to 1.
    """
    if deficiency not in DEFICIENCIES or not 0 <= severity <= 1:
        raise ValueError(f"give one of {', '.join(DEFICIENCIES)} and a severity of 0 to 1")
    linear = linear_from_srgb(srgb) @ cvd_matrix(deficiency, severity).T
    return srgb_from_linear(np.clip(linear, 0, 1))


def seen_lab(lab: np.ndarray, deficiency: str, severity: float = 1.0) -> np.ndarray:
    """Return CIELAB (n, 3) as an eye with a deficiency tells colours apart; see `seen_srgb`.

    Parameters
    ----------
    lab : (n, 3) array
        CIELAB D65, 2° observer.
    deficiency : str
        protanomaly, deuteranomaly or tritanomaly.
    severity : float
        0 to 1.
    """
    srgb, _ = shown_srgb(np.asarray(lab))
    return lab_from_srgb(seen_srgb(srgb, deficiency, severity))


def lightness_srgb(lab: np.ndarray) -> np.ndarray:
    """Return the grey (n, 3) that is as light as each colour: same L*, no chroma.

    Parameters
    ----------
    lab : (n, 3) array
        CIELAB D65, 2° observer.
    """
    greys = np.asarray(lab) * [1, 0, 0]
    srgb, _ = shown_srgb(greys)
    return np.repeat(srgb.mean(axis=1, keepdims=True), 3, axis=1)
