"""Where a measured two-ply began to be shorter than its singles: Textile Research Journal 2024,
doi 10.1177/00405175241246269, abstract as read: above a ratio of twist coefficients of about 1.2.
"""

from math import pi, radians, sqrt, tan

import pytest

from yarncolor.yarn.balance import MEASURED_LATER, equal_length, said_too_much
from yarncolor.yarn.helix import Single, contraction

COEFFICIENTS = sqrt(2)  # of resultant tex over single tex, under the root
MM = 0.8


@pytest.mark.parametrize("angle", [1, 10, 20, 30])
def test_it_began_later_than_the_model_says(angle):
    """The model says 0.94 and less: sources disagree, and the model is on the early side."""
    single = Single(MM, tan(radians(angle)) / (pi * MM / 1000))
    says = equal_length(single, 2) / single.twist_tpm * COEFFICIENTS
    assert says < 0.9429
    at_measured = contraction(single, 2, 1.2 / COEFFICIENTS * single.twist_tpm)
    assert at_measured > 0
    assert said_too_much(single, 2) == pytest.approx(at_measured, rel=0.5)


def test_by_small_angles_it_began_at_a_quarter_more_twist():
    assert pytest.approx(1.2 / (2 / 3 * COEFFICIENTS), rel=1e-12) == MEASURED_LATER
