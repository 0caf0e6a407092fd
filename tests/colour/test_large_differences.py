"""HyAB, for large differences: S. Abasi, M. Amani Tehran and M. D. Fairchild, Distance metrics for
very large color differences, Color Research and Application 45(2), 2020, 208-223.

Read were formula and citation in the documentation of colour-science, `delta_E_HyAB`, with the
example that it prints; coloraide is a second witness. The values are the formula's arithmetic done
by hand: |ΔL*| + √(Δa*² + Δb*²).
"""

import numpy as np
import pytest
from coloraide import Color
from hypothesis import given
from hypothesis import strategies as st

from yarncolor import answer, plan_from_data, to_dict
from yarncolor.colour.difference import hyab

PAIRS = [
    ((85, 1, 10), (20, 0, 0), 75.05),
    ((45, 50, 30), (45, -40, 25), 90.14),
    ((60, 35, 60), (35, 5, -35), 124.62),
    ((45, 40, 30), (35, -2, -25), 79.20),
    ((35, 10, 15), (85, 1, 10), 60.30),
    ((50, 10, 10), (53, 12, 12), 5.83),
]
any_lab = st.tuples(st.floats(0, 100), st.floats(-128, 128), st.floats(-128, 128))


@pytest.mark.parametrize(("one", "other", "expected"), PAIRS)
def test_lightness_and_colour_are_added(one, other, expected):
    assert hyab(one, other) == pytest.approx(expected, abs=0.005)
    assert hyab(other, one) == hyab(one, other)


def test_the_example_that_is_printed():
    one, other = (39.91531343, 51.16658481, 146.12933781), (53.12207516, -39.92365056, 249.54831278)
    assert hyab(one, other) == pytest.approx(151.0215481, abs=1e-7)


@given(any_lab, any_lab)
def test_another_library_finds_the_same(one, other):
    seen, beside = (Color("lab-d65", list(lab)) for lab in (one, other))
    assert hyab(one, other) == pytest.approx(
        seen.delta_e(beside, method="hyab", space="lab-d65"), abs=1e-9
    )


@pytest.mark.parametrize(("one", "other", "expected"), PAIRS)
def test_a_plan_says_it_of_the_plies_that_lie_side_by_side(one, other, expected):
    lots = [
        {"name": name, "lab": list(map(float, lab)), "mass_g": 10.0}
        for name, lab in {"Kelp": one, "Foam": other}.items()
    ]
    portions = [{"ply": ply, "lot": lot, "mass_g": 5.0} for ply, lot in ((1, "Kelp"), (2, "Foam"))]
    scheme = {"name": "free", "portions": portions}
    (stretch,) = to_dict(answer(plan_from_data({"lots": lots, "scheme": scheme})))["stretches"]
    assert stretch["contrast"]["hyab"] == pytest.approx(expected, abs=0.005)


def test_of_many_pairs_each_has_its_own():
    one, other, expected = (np.array(column, float) for column in zip(*PAIRS, strict=True))
    np.testing.assert_allclose(hyab(one, other), expected, atol=0.005)
