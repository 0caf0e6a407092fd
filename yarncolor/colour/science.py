"""The only door to colour-science: arrays in documented scales, imported on first use.

Scales: sRGB is 0 to 1, gamma-encoded; CIELAB is D65, 2° observer, L* 0 to 100.
"""

import threading
import warnings
from collections.abc import Sequence
from functools import cache
from types import ModuleType

import numpy as np
from numpy.typing import ArrayLike

_LOCK = threading.Lock()
_IN_GAMUT = 1e-3
"""Outside sRGB by less than a quarter of an eight-bit step is inside."""


@cache
def _colour() -> ModuleType:
    """Return colour-science, imported so that the process stays as it was.

    The import sets numpy's print options and adds filters of warnings for the whole process;
    both are put back.
    """
    with _LOCK:
        options = np.get_printoptions()
        try:
            with warnings.catch_warnings():
                import colour
        finally:
            np.set_printoptions(**options)
    return colour


def srgb_from_hex(colours: Sequence[str]) -> np.ndarray:
    """Return sRGB (n, 3) of CSS hex colours of 3 or 6 digits."""
    digits = [c[1:] if len(c) == 7 else "".join(2 * digit for digit in c[1:]) for c in colours]
    return np.frombuffer(bytes.fromhex("".join(digits)), np.uint8).reshape(-1, 3) / 255


def hex_from_srgb(srgb: np.ndarray) -> list[str]:
    """Return CSS hex colours of sRGB (n, 3), clipped to 0 to 1.

    Parameters
    ----------
    srgb : (n, 3) array
        0 to 1.
    """
    levels = np.rint(np.clip(srgb, 0, 1) * 255).astype(np.uint8)
    return [f"#{bytes(row).hex()}" for row in levels]


def lab_from_srgb(srgb: ArrayLike) -> np.ndarray:
    """Return CIELAB (n, 3) of sRGB (n, 3) (IEC 61966-2-1; CIE 15).

    Parameters
    ----------
    srgb : (n, 3) array
        0 to 1, gamma-encoded.
    """
    colour = _colour()
    lab: np.ndarray = colour.XYZ_to_Lab(colour.sRGB_to_XYZ(_within(srgb, 0, 1)), _white())
    return lab


def srgb_from_lab(lab: ArrayLike) -> np.ndarray:
    """Return sRGB (n, 3) of CIELAB (n, 3), beyond 0 to 1 where a screen cannot show it.

    Parameters
    ----------
    lab : (n, 3) array
        CIELAB D65, 2° observer, a* and b* within ±200.
    """
    colour = _colour()
    srgb: np.ndarray = colour.XYZ_to_sRGB(colour.Lab_to_XYZ(_within(lab, -200, 200), _white()))
    return srgb


def shown_srgb(lab: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Return the sRGB to show CIELAB (n, 3) by, and whether each is inside sRGB.

    A colour outside keeps its lightness and hue and gives up chroma until a screen can
    show it: lightness carries the pattern of a yarn.

    Parameters
    ----------
    lab : (n, 3) array
        CIELAB D65, 2° observer, a* and b* within ±200.
    """
    srgb = srgb_from_lab(lab)
    inside = _inside(srgb)
    if not inside.all():
        srgb[~inside] = _less_chroma(lab[~inside])
    return np.clip(srgb, 0, 1), inside


def ciede2000(lab_1: ArrayLike, lab_2: ArrayLike) -> np.ndarray:
    """Return CIEDE2000 differences of CIELAB (..., 3) arrays (CIE 142; ISO/CIE 11664-6).

    Made for small differences: beyond about 10 it is no measure of how loud a contrast is.

    Parameters
    ----------
    lab_1, lab_2 : (..., 3) arrays
        CIELAB D65, 2° observer.
    """
    difference: np.ndarray = _colour().delta_E(
        _within(lab_1, -200, 200), _within(lab_2, -200, 200), method="CIE 2000"
    )
    return difference


def lab_from_xyz(xyz: ArrayLike, white_xyz: np.ndarray) -> np.ndarray:
    """Return CIELAB (n, 3) of XYZ (n, 3) seen beside a white (CIE 15).

    Y of white is 1; the bluest colour that CIELAB can write has a Z of almost 5.

    Parameters
    ----------
    xyz : (n, 3) array
        -0.2 to 6.
    white_xyz : (3,) array
        Of the white that it is seen beside.
    """
    colour = _colour()
    lab: np.ndarray = colour.XYZ_to_Lab(_within(xyz, -0.2, 6), colour.XYZ_to_xy(white_xyz))
    return lab


def linear_from_srgb(srgb: ArrayLike) -> np.ndarray:
    """Return linear light (n, 3) of sRGB (n, 3) (IEC 61966-2-1).

    Parameters
    ----------
    srgb : (n, 3) array
        0 to 1, gamma-encoded.
    """
    linear: np.ndarray = _colour().models.eotf_sRGB(_within(srgb, 0, 1))
    return linear


def srgb_from_linear(linear: ArrayLike) -> np.ndarray:
    """Return sRGB (n, 3) of linear light (n, 3), 0 to 1 (IEC 61966-2-1).

    Parameters
    ----------
    linear : (n, 3) array
        0 to 1.
    """
    srgb: np.ndarray = _colour().models.eotf_inverse_sRGB(_within(linear, 0, 1))
    return srgb


def xyz_from_lab(lab: ArrayLike) -> np.ndarray:
    """Return XYZ (n, 3), Y of white 1, of CIELAB (n, 3).

    Parameters
    ----------
    lab : (n, 3) array
        CIELAB D65, 2° observer, a* and b* within ±200.
    """
    xyz: np.ndarray = _colour().Lab_to_XYZ(_within(lab, -200, 200), _white())
    return xyz


def white_xyz() -> np.ndarray:
    """Return XYZ (3,) of D65 for the 2° observer, Y being 1."""
    white: np.ndarray = _colour().xy_to_XYZ(_white())
    return white


def cvd_matrix(deficiency: str, severity: float) -> np.ndarray:
    """Return the matrix (3, 3) on linear sRGB of Machado, Oliveira and Fernandes (2009).

    Published for severities in tenths; between them each entry is interpolated.

    Parameters
    ----------
    deficiency : str
        protanomaly, deuteranomaly or tritanomaly.
    severity : float
        0 to 1.
    """
    known = _colour().CVD_MATRICES_MACHADO2010[deficiency.capitalize()]
    tenths = sorted(known)
    at = min(int(np.searchsorted(tenths, severity, side="right")), len(tenths) - 1)
    low, high = tenths[at - 1], tenths[at]
    part = (severity - low) / (high - low)
    matrix: np.ndarray = (1 - part) * np.asarray(known[low]) + part * np.asarray(known[high])
    return matrix


@cache
def mallett_basis() -> np.ndarray:
    """Return the basis spectra (81, 3) of Mallett and Yuksel (2019), 380 to 780 nm by 5."""
    basis: np.ndarray = _colour().recovery.MSDS_BASIS_FUNCTIONS_sRGB_MALLETT2019.values
    return basis


def basis_of_measured(xyz: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Return how measured reflectances vary about each colour: Otsu and others (2018).

    Three spectra (n, 3, 81) and their mean (n, 81), 380 to 780 nm by 5; beyond 730 nm they go on
    as they end.

    Parameters
    ----------
    xyz : (n, 3) array
        Y of white 1.
    """
    recovery = _colour().recovery
    source, shape = recovery.otsu2018.DATASET_REFERENCE_OTSU2018, recovery.SPECTRAL_SHAPE_OTSU2018
    to = recovery.MSDS_BASIS_FUNCTIONS_sRGB_MALLETT2019.shape.wavelengths
    each = [source.cluster(xy) for xy in _colour().XYZ_to_xy(xyz)]
    spectra = np.array([[*basis, mean] for basis, mean in each]).reshape(-1, len(shape.wavelengths))
    bands = np.array([np.interp(to, shape.wavelengths, spectrum) for spectrum in spectra])
    bands = bands.reshape(len(xyz), 4, len(to))
    return bands[:, :3], bands[:, 3]


@cache
def tristimulus_weights() -> np.ndarray:
    """Return what each band of a reflectance adds to XYZ: (81, 3); D65, 2° observer, white Y 1."""
    colour = _colour()
    shape = colour.recovery.MSDS_BASIS_FUNCTIONS_sRGB_MALLETT2019.shape
    observer = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].copy().align(shape).values
    light = colour.SDS_ILLUMINANTS["D65"].copy().align(shape).values
    weights = observer * light[:, None]
    of_white_1: np.ndarray = weights / weights[:, 1].sum()
    return of_white_1


def _white() -> np.ndarray:
    white: np.ndarray = _colour().CCS_ILLUMINANTS["CIE 1931 2 Degree Standard Observer"]["D65"]
    return white


def _inside(srgb: np.ndarray) -> np.ndarray:
    return np.asarray(((srgb >= -_IN_GAMUT) & (srgb <= 1 + _IN_GAMUT)).all(axis=-1))


def _less_chroma(lab: np.ndarray) -> np.ndarray:
    low, high = np.zeros(len(lab)), np.ones(len(lab))
    for _ in range(16):
        middle = (low + high) / 2
        fits = _inside(srgb_from_lab(_scaled_chroma(lab, middle)))
        low, high = np.where(fits, middle, low), np.where(fits, high, middle)
    return srgb_from_lab(_scaled_chroma(lab, low))


def _scaled_chroma(lab: np.ndarray, scale: np.ndarray) -> np.ndarray:
    return np.column_stack([lab[:, 0], lab[:, 1:] * scale[:, None]])


def _within(values: ArrayLike, low: float, high: float) -> np.ndarray:
    inside = np.asarray(values, dtype=float)
    if not ((inside >= low) & (inside <= high)).all():
        raise ValueError(f"colour values from {low} to {high} are needed")
    return inside


_EDITIONS = {"newer values": "After", "older values": "Before"}
EDITIONS = tuple(_EDITIONS)
"""Of the 24-patch reference target: both that were published."""


@cache
def target_linear(edition: str) -> np.ndarray:
    """Return linear sRGB (24, 3) of the 24-patch reference target, row by row.

    Published chromaticities for D50, adapted to D65 (Bradford); one patch lies outside sRGB.
    """
    colour = _colour()
    when = f" - {_EDITIONS[edition]} "
    (name,) = [name for name in colour.CCS_COLOURCHECKERS if "24" in name and when in name]
    target = colour.CCS_COLOURCHECKERS[name]
    xyz = colour.xyY_to_XYZ(np.array(list(target.data.values())))
    patches: np.ndarray = colour.XYZ_to_sRGB(
        xyz, target.illuminant, chromatic_adaptation_transform="Bradford", apply_cctf_encoding=False
    )
    return patches


def linear_from_measured_lab(lab: np.ndarray, light: str) -> np.ndarray:
    """Return linear sRGB (n, 3) of CIELAB values for a light, adapted to D65 (Bradford).

    Parameters
    ----------
    lab : (n, 3) array
        CIELAB, 2 degree observer.
    light : str
        D50 or D65.
    """
    colour = _colour()
    white = colour.CCS_ILLUMINANTS["CIE 1931 2 Degree Standard Observer"][light]
    linear: np.ndarray = colour.XYZ_to_sRGB(
        colour.Lab_to_XYZ(lab, white),
        white,
        chromatic_adaptation_transform="Bradford",
        apply_cctf_encoding=False,
    )
    return linear


@cache
def target_reflectances() -> np.ndarray:
    """Return reflectances (24, 81) of the 24-patch target (ISO 17321-1), in the basis' bands."""
    colour = _colour()
    shape = colour.recovery.MSDS_BASIS_FUNCTIONS_sRGB_MALLETT2019.shape
    patches = colour.SDS_COLOURCHECKERS["ISO 17321-1"].values()
    return np.array([patch.copy().align(shape).values for patch in patches])


@cache
def camera_and_light(illuminant: str) -> tuple[np.ndarray, np.ndarray]:
    """Return published sensitivities (81, 3) of a camera and the power (81,) of a light.

    Of the cameras that were measured, the one whose channels overlap least: a mosaic of filters,
    as nearly every camera and phone has; the other's channels lie in layers.

    References
    ----------
    .. [1] Darrodi, Finlayson, Goodman & Mackiewicz 2015, "Reference data set for camera spectral
       sensitivity estimation", J. Opt. Soc. Am. A 32, 381.
    """
    colour = _colour()
    shape = colour.recovery.MSDS_BASIS_FUNCTIONS_sRGB_MALLETT2019.shape
    measured = colour.MSDS_CAMERA_SENSITIVITIES.values()
    camera = min(measured, key=lambda one: _overlap(one.values)).copy().align(shape).values
    return camera, colour.SDS_ILLUMINANTS[illuminant].copy().align(shape).values


def _overlap(sensitivities: np.ndarray) -> float:
    """Return how much three channels (n, 3) see the same light: 3 (nothing) to 9 (all)."""
    channels = sensitivities / np.linalg.norm(sensitivities, axis=0)
    return float((channels.T @ channels).sum())


_CHEUNG = {"method": "Cheung 2004", "terms": 3}
_FINLAYSON = {"method": "Finlayson 2015", "degree": 2}


def colour_correction(seen: np.ndarray, wanted: np.ndarray, degree: int) -> np.ndarray:
    """Return the matrix that turns linear light as seen into linear light as wanted.

    Parameters
    ----------
    seen, wanted : (n, 3) arrays
        Linear light of the same patches.
    degree : int
        1: 3 × 3 (Cheung et al. 2004, three terms); 2: root polynomial (Finlayson et al. 2015).
    """
    matrix = _colour().characterisation.matrix_colour_correction
    method = _CHEUNG if degree == 1 else _FINLAYSON
    fitted: np.ndarray = matrix(seen, wanted, **method)
    return fitted


def corrected(linear: np.ndarray, matrix: np.ndarray) -> np.ndarray:
    """Return linear light (n, 3) put right by a matrix of `colour_correction`.

    Parameters
    ----------
    linear : (n, 3) array
        As seen.
    matrix : (3, m) array
        m is 3, or 6 for a root polynomial.
    """
    apply = _colour().characterisation.apply_matrix_colour_correction
    method = _CHEUNG if matrix.shape[1] == 3 else _FINLAYSON
    right: np.ndarray = apply(linear, matrix, **method)
    return right


def lab_from_linear(linear: ArrayLike) -> np.ndarray:
    """Return CIELAB (n, 3) of linear sRGB (n, 3), beyond 0 to 1 too.

    Parameters
    ----------
    linear : (n, 3) array
        -2 to 8, white being 1.
    """
    colour = _colour()
    xyz = colour.sRGB_to_XYZ(_within(linear, -2, 8), apply_cctf_decoding=False)
    lab: np.ndarray = colour.XYZ_to_Lab(xyz, _white())
    return lab
