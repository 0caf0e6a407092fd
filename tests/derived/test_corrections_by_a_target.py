"""What a correction by a 24-patch target is worth, computed apart: simulated, and on real ones.

Published sensitivities of a camera over the published reflectances of ISO 17321-1, 400 to 700 nm
by 10, no noise, wanted colours from the same reflectances under D65; and the averaged swatches of
real targets that a detection library (BSD-3) keeps in one of its example notebooks.
"""

import base64
import importlib.util
import io
import json
from functools import cache
from pathlib import Path

import colour
import numpy as np
import pytest
from PIL import Image

from yarncolor.colour.photo.target import fit_target
from yarncolor.colour.science import target_linear, target_reflectances

AFTER, BEFORE = "newer values", "older values"
SIMULATED = [  # light, degree, fit mean, leave-one-out mean, leave-one-out max
    ("D65", 1, 0.99, 1.13, 3.1),
    ("D65", 2, 0.70, 0.99, 3.0),
    ("A", 1, 2.56, 2.93, 7.8),
    ("A", 2, 1.64, 2.30, 7.0),
    ("FL2", 1, 1.94, 2.21, 7.0),
    ("FL2", 2, 1.24, 1.75, 5.4),
]
GREY_ONLY = [("D65", 6.8), ("A", 6.8), ("FL2", 6.9)]
REAL = [  # number of the figure, degree, fit mean, leave-one-out mean, leave-one-out max
    (3, 1, 2.26, 2.59, 5.4),
    (3, 2, 1.92, 2.62, 6.0),
    (7, 1, 2.51, 2.84, 6.6),
    (7, 2, 2.33, 3.19, 7.8),
    (19, 1, 4.28, 4.92, 13.8),
    (19, 2, 4.13, 5.71, 14.3),
]
REAL_GREY = [(3, 4.2), (7, 4.3), (19, 6.1)]
MID_GREY = 21


@cache
def simulated(illuminant: str) -> tuple[np.ndarray, np.ndarray]:
    """Return linear light of the patches as a camera has it, and as it is under D65."""
    shape = colour.SpectralShape(400, 700, 10)
    patches = colour.SDS_COLOURCHECKERS["ISO 17321-1"].values()
    reflect = np.array([patch.copy().align(shape).values for patch in patches])
    camera = next(iter(colour.MSDS_CAMERA_SENSITIVITIES.values())).copy().align(shape).values
    observer = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].copy().align(shape).values
    light, day = (
        colour.SDS_ILLUMINANTS[name].copy().align(shape).values for name in (illuminant, "D65")
    )
    xyz = (reflect * day) @ observer / (day @ observer[:, 1])
    return (reflect * light) @ camera / (light @ camera), colour.XYZ_to_sRGB(
        xyz, apply_cctf_encoding=False
    )


@cache
def figures() -> list[np.ndarray]:
    """Return the figures of the library's notebook as pixels; the library is not imported."""
    spec = importlib.util.find_spec("colour_checker_detection")
    (folder,) = spec.submodule_search_locations
    notebook = Path(folder, "examples", "examples_detection_segmentation.ipynb")
    cells = json.loads(notebook.read_text())["cells"]
    outputs = [output.get("data", {}) for cell in cells for output in cell.get("outputs", ())]
    pngs = [base64.b64decode(data["image/png"]) for data in outputs if "image/png" in data]
    return [np.asarray(Image.open(io.BytesIO(png)).convert("RGB")) for png in pngs]


def swatches(number: int) -> np.ndarray:
    """Return linear light (24, 3) of a figure's swatches, each one plain colour."""
    pixels = figures()[number]
    drawn = np.argwhere((pixels < 250).any(axis=2))
    (top, left), (bottom, right) = drawn.min(axis=0), drawn.max(axis=0) + 1
    found = []
    for row in range(4):
        for column in range(6):
            y = top + (row + 0.5) * (bottom - top) / 4
            x = left + (column + 0.5) * (right - left) / 6
            swatch = pixels[int(y) - 40 : int(y) + 40, int(x) - 40 : int(x) + 40].reshape(-1, 3)
            assert np.ptp(swatch, axis=0).max() == 0
            found.append(swatch[0])
    return colour.cctf_decoding(np.array(found) / 255, function="sRGB")


def by_one_grey_patch(seen: np.ndarray, wanted: np.ndarray) -> float:
    """Return the mean error where a grey card, here the one of about 19 %, is all there is."""
    light = seen * wanted[MID_GREY] / seen[MID_GREY]
    lab, right = (colour.XYZ_to_Lab(colour.RGB_to_XYZ(each, "sRGB")) for each in (light, wanted))
    return float(colour.delta_E(lab, right, method="CIE 2000").mean())


def test_the_reflectances_are_those_of_the_target():
    """Under D50 they give the published values of the elder edition, nearly."""
    _, wanted = simulated("D65")
    labs = [
        colour.XYZ_to_Lab(colour.RGB_to_XYZ(light, "sRGB"))
        for light in (wanted, target_linear(BEFORE))
    ]
    assert colour.delta_E(*labs, method="CIE 2000").mean() < 1.5
    assert target_reflectances().shape == (24, 81)


@pytest.mark.parametrize(("illuminant", "degree", "fit", "mean", "most"), SIMULATED)
def test_a_simulated_camera_within_the_table(illuminant, degree, fit, mean, most):
    found = fit_target(*simulated(illuminant), degree)
    assert found.fit_mean == pytest.approx(fit, abs=0.011)
    assert found.left_out_mean == pytest.approx(mean, abs=0.011)
    assert found.left_out_max == pytest.approx(most, abs=0.06)


@pytest.mark.parametrize(("illuminant", "grey"), GREY_ONLY)
def test_a_simulated_camera_with_the_grey_patches_alone(illuminant, grey):
    seen, wanted = simulated(illuminant)
    assert fit_target(seen, wanted).by_grey_mean == pytest.approx(grey, abs=0.06)
    assert by_one_grey_patch(seen, wanted) == pytest.approx(grey, abs=0.06)


@pytest.mark.parametrize("illuminant", ["D65", "A", "FL2"])
def test_half_the_exposure_changes_nothing_in_the_table(illuminant):
    seen, wanted = simulated(illuminant)
    for degree in (1, 2):
        whole, half = fit_target(seen, wanted, degree), fit_target(seen / 2, wanted, degree)
        assert half.left_out_mean == pytest.approx(whole.left_out_mean, rel=1e-6)
        assert half.by_grey_mean == pytest.approx(whole.by_grey_mean, rel=1e-6)


@pytest.mark.parametrize(("figure", "degree", "fit", "mean", "most"), REAL)
def test_a_real_target_is_met_as_in_the_table(figure, degree, fit, mean, most):
    found = fit_target(swatches(figure), target_linear(AFTER), degree)
    assert found.fit_mean == pytest.approx(fit, abs=0.02)
    assert found.left_out_mean == pytest.approx(mean, abs=0.02)
    assert found.left_out_max == pytest.approx(most, abs=0.06)


@pytest.mark.parametrize(("figure", "grey"), REAL_GREY)
def test_a_real_target_by_its_grey_patches_alone(figure, grey):
    """By one mid-grey patch here; the package's is a middle of six, a clipped white no harm."""
    seen, wanted = swatches(figure), target_linear(AFTER)
    assert by_one_grey_patch(seen, wanted) == pytest.approx(grey, abs=0.06)
    assert fit_target(seen, wanted).by_grey_mean == pytest.approx(grey, abs=0.15)


@pytest.mark.parametrize("edition", [AFTER, BEFORE])
@pytest.mark.parametrize("figure", [3, 7, 19])
def test_a_real_target_is_met_to_five_and_better_than_by_grey_alone(figure, edition):
    seen, wanted = swatches(figure), target_linear(edition)
    found = fit_target(seen, wanted)
    assert found.left_out_mean <= 5
    assert found.left_out_mean <= min(found.by_grey_mean, by_one_grey_patch(seen, wanted))
    assert found.left_out_mean > found.fit_mean
    assert found.correction.words == "corrected by a 24-patch target, 3 × 3"
    assert found.correction.unsure == max(3.0, found.left_out_mean)
