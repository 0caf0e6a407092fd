"""Carded blends: the colour of fibres mixed before spinning.

Fibres shade one another, so a blend is darker than the mean of its lots. Each model turns a
reflectance R into a number f(R) that adds up by mass fraction, and back.

References
----------
.. [1] E. I. Stearns and F. Noechel, Spectrophotometric prediction of color of wool blends,
   American Dyestuff Reporter 33(9), 1944, 177-180: M = 0.15 for worsted wool (citation and wool
   from memory, no open copy found; formula as quoted in later work).
.. [2] L. F. C. Friele, The application of colour measurement in relation to fibre-blending,
   Journal of the Textile Institute 43, 1952, P604 (from memory, no open copy found, as is
   s = 0.26 for wool).
"""

from collections.abc import Callable

import numpy as np
from numpy.typing import ArrayLike

from yarncolor.colour.reflectance import lab_from_reflectance, reflectance_from_lab

_Function = Callable[..., np.ndarray]

STEARNS_NOECHEL_M = 0.15
FRIELE_S = 0.26
_ROWS_AT_ONCE = 8192


def stearns_noechel(reflectance: np.ndarray, m: float = STEARNS_NOECHEL_M) -> np.ndarray:
    """Return f(R) = (1 - R) / (M (R - 0.01) + 0.01), which adds up in a blend [1]_.

    Parameters
    ----------
    reflectance : array
        0 to 1.
    m : float
        The fibre's constant, above 0 and at most 1.
    """
    return (1 - reflectance) / (m * (reflectance - 0.01) + 0.01)


def stearns_noechel_inverse(f: np.ndarray, m: float = STEARNS_NOECHEL_M) -> np.ndarray:
    """Return R = (1 - 0.01 f (1 - M)) / (1 + M f), the inverse of `stearns_noechel`.

    Parameters
    ----------
    f : array
        Of `stearns_noechel`.
    m : float
        The fibre's constant, above 0 and at most 1.
    """
    return (1 - 0.01 * f * (1 - m)) / (1 + m * f)


def friele(reflectance: np.ndarray, s: float = FRIELE_S) -> np.ndarray:
    """Return f(R) = exp(-s (1 - R)² / (2 R)) [2]_.

    Parameters
    ----------
    reflectance : array
        Above 0 and at most 1.
    s : float
        The fibre's constant, above 0.
    """
    added: np.ndarray = np.exp(-s * (1 - reflectance) ** 2 / (2 * reflectance))
    return added


def friele_inverse(f: np.ndarray, s: float = FRIELE_S) -> np.ndarray:
    """Return the R of 0 to 1 whose `friele` is f: K/S = -ln(f) / s, and back from K/S.

    Parameters
    ----------
    f : array
        Of `friele`, above 0 and at most 1.
    s : float
        The fibre's constant, above 0.
    """
    k = -np.log(f) / s
    reflectance: np.ndarray = 1 + k - np.sqrt(k**2 + 2 * k)
    return reflectance


def _same(values: np.ndarray, _: float = 1.0) -> np.ndarray:
    return values


MODELS: dict[str, tuple[_Function, _Function]] = {
    "stearns-noechel": (stearns_noechel, stearns_noechel_inverse),
    "friele": (friele, friele_inverse),
    "linear": (_same, _same),
}


def blended_reflectance(
    parts: ArrayLike,
    reflectance: ArrayLike,
    model: str = "stearns-noechel",
    constant: float | None = None,
) -> np.ndarray:
    """Return the reflectance (k, bands) of k blends of n lots.

    Parameters
    ----------
    parts : (k, n) array
        Parts by mass, 0 or more; each row is made to sum to 1.
    reflectance : (n, bands) array
        Of each lot, above 0 and at most 1.
    model : str
        stearns-noechel, friele or linear.
    constant : float, optional
        M of Stearns and Noechel or s of Friele; theirs for wool where none is given.

    Raises
    ------
    ValueError
        For parts below 0, rows that sum to nothing, an unknown model, or a reflectance or
        constant outside its range.
    """
    there, back = MODELS[model] if model in MODELS else _unknown(model)
    share, bands = np.atleast_2d(np.asarray(parts, float)), np.asarray(reflectance, float)
    total = share.sum(axis=1, keepdims=True)
    if not (np.isfinite(share).all() and (share >= 0).all() and (total > 0).all()):
        raise ValueError("parts of a blend are numbers of 0 or more, not all 0")
    if not ((bands > 0) & (bands <= 1)).all():
        raise ValueError("a reflectance lies above 0 and is at most 1")
    if constant is not None and not 0 < constant <= 1:
        raise ValueError("the constant of a blend lies above 0 and is at most 1")
    known = () if constant is None else (constant,)
    blend: np.ndarray = back(share / total @ there(bands, *known), *known)
    return blend


def blended_lab(
    parts: ArrayLike,
    lab: ArrayLike,
    model: str = "stearns-noechel",
    constant: float | None = None,
) -> np.ndarray:
    """Return CIELAB (k, 3) of k carded blends of n lots: of their `blended_reflectance`.

    Stearns and Noechel [1]_: f(R) of the blend is the mean of those of its lots by mass, with
    f(R) = (1 - R) / (M (R - 0.01) + 0.01), band by band of the recovered reflectances. Fibres of
    one kind, evenly carded; a felted or coarse blend strays from it.

    Parameters
    ----------
    parts : (k, n) array
        Parts by mass.
    lab : (n, 3) array
        CIELAB of each lot.
    model : str
        stearns-noechel, friele or linear.
    constant : float, optional
        M or s; theirs for wool where none is given.

    Raises
    ------
    ValueError
        As `blended_reflectance`.
    """
    spectra, share = reflectance_from_lab(lab), np.atleast_2d(np.asarray(parts, dtype=float))
    rows = range(0, len(share), _ROWS_AT_ONCE)
    blends = (
        blended_reflectance(share[at : at + _ROWS_AT_ONCE], spectra, model, constant) for at in rows
    )
    return np.concatenate([lab_from_reflectance(blend) for blend in blends])


def _unknown(model: str) -> tuple[_Function, _Function]:
    raise ValueError(f"there is no model {model!r}; there are {', '.join(MODELS)}")
