"""How evenly a yarn can be spun at best, and how unevenness averages out along it.

J. G. Martindale, Journal of the Textile Institute 36, 1945, T35: fibres that lie at random leave
a coefficient of variation of 100/√n per cent, n the fibres in a cross-section: the limit to which
the index of irregularity compares a yarn. M. W. H. Townsend and D. R. Cox, Journal of the Textile
Institute 42, 1951, P107: the variance between lengths L follows from the correlogram r as
B(L) = 2 B(0) ∫ (L - t) r(t) dt / L², the integral from 0 to L; after J. L. Spencer-Smith and
H. A. C. Todd, Supplement to the Journal of the Royal Statistical Society 7, 1941, 131. Of fibres of
one length l laid at random r falls evenly to 0 at l. These citations are from memory.

Read were: the limit, as an examination reckons with it (graduate aptitude test in textile
engineering and fibre science, 2014, question 48: 121 fibres, 9.09 %; 2021, question 53: 100 fibres,
10 %); and the integral, with its closed form and its two limits for a correlation that falls
exponentially, after E. H. Vanmarcke, Random Fields: Analysis and Synthesis, 1984, chapter 5, as the
published source of a program of random fields quotes them. His scale of fluctuation is two reaches.
"""

from math import exp, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from yarncolor.answers.straying import along_m2

metres = st.floats(0.01, 500)


def between_lengths(length_m: float, correlogram) -> float:
    """Return B(L) / B(0) by Townsend and Cox."""
    whole, _ = quad(lambda t: (length_m - t) * correlogram(t), 0, length_m, limit=400,
                    points=[min(1.0, length_m)])  # fmt: skip
    return 2 * whole / length_m**2


@given(metres, st.floats(0.05, 100))
def test_lengths_vary_as_their_correlogram_has_it(length_m, reach_m):
    found = float(along_m2(np.array([length_m]), reach_m)[0]) / length_m**2
    expected = between_lengths(length_m, lambda t: exp(-t / reach_m))
    assert found == pytest.approx(expected, rel=2e-4)


@pytest.mark.parametrize("reach_m", [0.05, 2.0, 100.0])
def test_short_and_long_lengths_meet_the_printed_limits(reach_m):
    """1 - 2 T / (3 θ) where θ is far longer than T, (θ / T) (1 - θ / (2 T)) where far shorter."""
    scale = 2 * reach_m
    short, long = scale / 1000, scale * 1000
    found = along_m2(np.array([short, long]), reach_m) / np.array([short, long]) ** 2
    limits = [1 - 2 * short / (3 * scale), scale / long * (1 - scale / (2 * long))]
    np.testing.assert_allclose(found, limits, rtol=1e-6)


@pytest.mark.parametrize("staples", [20, 100, 1000])
def test_over_many_staples_a_reach_of_half_a_staple_is_the_ideal_yarn(staples):
    """Both lose B(0) · l / L; by a third and a half of a staple they differ."""
    staple_m = 0.08
    length_m = staples * staple_m
    ideal = between_lengths(length_m, lambda t: max(0.0, 1 - t / staple_m))
    ours = float(along_m2(np.array([length_m]), staple_m / 2)[0]) / length_m**2
    assert ideal == pytest.approx((1 - 1 / (3 * staples)) / staples, rel=1e-3)
    assert ours == pytest.approx(ideal, rel=1 / staples)


@pytest.mark.parametrize("fibres", [25, 100, 121])
def test_fibres_laid_at_random_stray_as_far_as_is_said_from_portion_to_portion(fibres):
    """A yarn of fibres drawn one by one, cut in lengths: CV 100/√n in a cut, less in a length."""
    rng, staple, cells = np.random.default_rng(1945), 20, 400_000
    begins = rng.poisson(fibres / staple, cells + staple)
    thick = np.convolve(begins, np.ones(staple), "valid")
    assert thick.std() / thick.mean() == pytest.approx(1 / sqrt(fibres), rel=0.03)
    for length in (200, 1000):
        lengths = thick[: cells // length * length].reshape(-1, length).mean(axis=1)
        left = float(along_m2(np.array([length]), staple / 2)[0]) / length**2
        expected = sqrt(left / fibres)
        assert lengths.std() / lengths.mean() == pytest.approx(expected, rel=0.1)
