"""Other eyes: Machado, Oliveira and Fernandes, IEEE TVCG 15(6), 2009, 1291-1298.

The matrices were read in colour-science, which carries the published tables.
"""

import numpy as np
import pytest
from coloraide.everything import ColorAll

from yarncolor.colour.colour_vision import DEFICIENCIES, seen_srgb
from yarncolor.colour.science import cvd_matrix

PRINTED = {
    ("protanomaly", 1.0): [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216],
                           [-0.003882, -0.048116, 1.051998]],
    ("deuteranomaly", 1.0): [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413],
                             [-0.011820, 0.042940, 0.968881]],
    ("tritanomaly", 1.0): [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602],
                           [0.004733, 0.691367, 0.303900]],
    ("deuteranomaly", 0.5): [[0.547494, 0.607765, -0.155259], [0.181692, 0.781742, 0.036566],
                             [-0.010410, 0.027275, 0.983136]],
}  # fmt: skip


@pytest.mark.parametrize(("eyes", "severity"), PRINTED)
def test_the_published_matrices(eyes, severity):
    expected = PRINTED[eyes, severity]
    np.testing.assert_allclose(cvd_matrix(eyes, severity), expected, atol=1e-6)


SHORT = {"protanomaly": "protan", "deuteranomaly": "deutan", "tritanomaly": "tritan"}


@pytest.mark.parametrize("eyes", DEFICIENCIES)
@pytest.mark.parametrize("severity", [0.1, 0.33, 0.55, 0.7, 0.98, 1.0])
def test_another_library_sees_the_same_between_tenths_too(eyes, severity):
    colours = np.random.default_rng(2009).random((40, 3))
    expected = [
        ColorAll("srgb", row)
        .filter(SHORT[eyes], severity, method="machado", space="srgb-linear")
        .convert("srgb")
        .coords()
        for row in colours
    ]
    found = seen_srgb(colours, eyes, severity)
    np.testing.assert_allclose(found, np.clip(expected, 0, 1), atol=1e-4)
