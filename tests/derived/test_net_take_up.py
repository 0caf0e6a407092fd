"""Net take-up of singles that untwist while they are plied, derived a second way: from fibres that
keep their length: c = 1 - cos β (1 - k') / (1 - k), k = tan²(α/2), touching plies. The mean of
cosines beside it is the other mean, of Journal of the Textile Machinery Society of Japan 14, 1961.
"""

from math import cos, log, pi, radians, sin, sqrt, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import brentq

from yarncolor.yarn.balance import equal_length
from yarncolor.yarn.helix import (
    Single,
    helix_angle_deg,
    helix_contraction,
    left_in_single_tpm,
    ply_helix_radius_mm,
    untwisting_contraction,
)
from yarncolor.yarn.twist import retraction

MEAN_COSINES = [  # degrees, per cent; the abstract's formula, arithmetic derived
    (5, 0.1905),
    (10, 0.7635),
    (15, 1.7234),
    (20, 3.0779),
    (25, 4.8382),
    (30, 7.0197),
    (40, 12.7345),
]
RATIOS = (1 / 3, 1 / 2, 2 / 3, 3 / 4, 1.0)
TAKE_UP = [  # plies, degrees of the single, per cent at each ratio of ply twist to singles' twist
    (2, 10, (-0.25, -0.18, +0.01, +0.15, +0.76)),
    (2, 20, (-0.97, -0.66, +0.15, +0.73, +3.06)),
    (2, 30, (-2.02, -1.12, +0.89, +2.23, +7.18)),
    (3, 20, (-0.72, -0.11, +1.09, +1.89, +4.92)),
    (4, 20, (-0.23, +0.96, +2.90, +4.10, +8.37)),
]
ZEROS = [(2, 0.6667), (3, 0.5455), (4, 0.4)]  # plies, ratio at which nothing is lost; derived

DIAMETER_MM = 0.8


def single_at(angle_deg: float, diameter_mm: float = DIAMETER_MM, *, opposed=True) -> Single:
    turns = tan(radians(angle_deg)) / (pi * diameter_mm / 1000)
    return Single(diameter_mm, turns, opposed)


def take_up(single: Single, plies: int, ratio: float) -> float:
    """Return the package's net take-up at this ratio of ply twist to singles' twist."""
    twist = ratio * single.twist_tpm
    ring = ply_helix_radius_mm((single.diameter_mm / 2,) * plies)
    return untwisting_contraction(single, helix_angle_deg(ring, twist), twist)


def length_of_mean_fibre(angle_deg: float, ratio: float, plies: int) -> float:
    """Return the take-up from fibre lengths alone, by integration over the single's section.

    The fibres of a metre of single are as long before as after; the single untwists by
    U cos² β and stretches until that is so, and then lies in a helix of the ring.
    """

    def fibre_in_a_metre(slope: float) -> float:
        fibres = quad(lambda r: 2 * r / sqrt(1 + (r * slope) ** 2), 0, 1)[0]
        return 1 / fibres

    before = tan(radians(angle_deg))
    helix = ratio * before / sin(pi / plies)
    flat = 1 / sqrt(1 + helix**2)
    after = before * (1 - ratio * flat**2)
    longer = fibre_in_a_metre(before) / fibre_in_a_metre(after)
    return 1 - longer * flat


def retraction_of_mean_cosine(degrees: float) -> float:
    """Return the abstract's other mean, k = 1 + cos α ln(cos α) / (1 - cos α)."""
    c = cos(radians(degrees))
    return 1 + c * log(c) / (1 - c)


@pytest.mark.oracle
@pytest.mark.parametrize(("angle", "per_cent"), MEAN_COSINES)
def test_the_mean_of_cosines_at_an_angle(angle, per_cent):
    assert 100 * retraction_of_mean_cosine(angle) == pytest.approx(per_cent, abs=1e-4)


def test_both_means_agree_to_within_two_per_cent_and_a_quarter_up_to_thirty_degrees():
    """7.1797 against 7.0197 at 30°; the mean of cosines is never the larger."""
    for tenths in range(5, 301, 5):
        ratio = retraction_of_mean_cosine(tenths / 10) / retraction(tenths / 10)
        assert 0.9775 < ratio < 1
    at_thirty = retraction_of_mean_cosine(30) / retraction(30)
    assert at_thirty == pytest.approx(7.0197 / 7.1797, abs=2e-5)
    assert retraction(0) == 0


@pytest.mark.parametrize(("plies", "angle", "per_cent"), TAKE_UP)
def test_the_net_take_up_of_the_table(plies, angle, per_cent):
    single = single_at(angle)
    found = [100 * take_up(single, plies, ratio) for ratio in RATIOS]
    assert found == pytest.approx(per_cent, abs=0.005001)


@pytest.mark.parametrize("plies", range(2, 7))
@pytest.mark.parametrize("angle", [1, 5, 10, 15, 20, 25, 30, 35, 40])
def test_the_net_take_up_is_that_of_fibres_that_keep_their_length(plies, angle):
    single = single_at(angle)
    for hundredths in range(5, 151, 5):
        expected = length_of_mean_fibre(angle, hundredths / 100, plies)
        assert take_up(single, plies, hundredths / 100) == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize(("plies", "ratio"), ZEROS)
def test_nothing_is_lost_at_a_ratio_of_its_own_while_angles_are_small(plies, ratio):
    """x = 2 / (1 + 2 (R/r)²), derived."""
    single = single_at(0.2)
    assert equal_length(single, plies) / single.twist_tpm == pytest.approx(ratio, abs=5e-5)
    assert 2 / (1 + 2 / sin(pi / plies) ** 2) == pytest.approx(ratio, abs=5e-5)


@pytest.mark.parametrize("plies", range(2, 9))
def test_the_twist_that_loses_nothing_is_found_by_another_search_too(plies):
    for angle in range(2, 40, 2):
        single = single_at(angle)
        root = brentq(lambda x, at=angle: length_of_mean_fibre(at, x, plies), 1e-3, 1.0)
        assert equal_length(single, plies) / single.twist_tpm == pytest.approx(root, rel=1e-7)


@given(st.integers(2, 8), st.floats(1, 40), st.floats(0.1, 3))
def test_less_ply_twist_than_that_gives_more_yarn_than_singles_and_more_gives_less(
    plies, angle, diameter
):
    single = single_at(angle, diameter)
    ratio = equal_length(single, plies) / single.twist_tpm
    assert 0 < ratio < 2 / (1 + 2 / sin(pi / plies) ** 2) + 1e-9
    assert take_up(single, plies, ratio * 0.9) < 0 < take_up(single, plies, ratio * 1.1)


@given(st.integers(2, 6), st.floats(1, 40), st.floats(0.01, 1.5))
def test_a_single_that_untwists_never_takes_up_more_than_its_bare_helix(plies, angle, ratio):
    """As long as it has not come round the other way to more turns than it had."""
    single = single_at(angle)
    twist = ratio * single.twist_tpm
    beta = helix_angle_deg(ply_helix_radius_mm((DIAMETER_MM / 2,) * plies), twist)
    assert abs(left_in_single_tpm(single, beta, twist)) < single.twist_tpm
    assert untwisting_contraction(single, beta, twist) < helix_contraction(beta)


@given(st.integers(2, 6), st.floats(1, 30), st.floats(0.01, 1.0))
def test_plied_the_way_it_was_spun_a_single_takes_up_more_than_its_bare_helix(plies, angle, ratio):
    single = single_at(angle, opposed=False)
    beta = helix_angle_deg(
        ply_helix_radius_mm((DIAMETER_MM / 2,) * plies), twist := ratio * single.twist_tpm
    )
    assert left_in_single_tpm(single, beta, twist) > single.twist_tpm
    assert untwisting_contraction(single, beta, twist) > helix_contraction(beta)


@given(st.integers(2, 6), st.floats(1, 40), st.floats(0.05, 1.5), st.floats(0.1, 20))
def test_yarns_of_one_shape_lose_one_share_whatever_their_size(plies, angle, ratio, larger):
    small, large = single_at(angle), single_at(angle, DIAMETER_MM * larger)
    expected = take_up(small, plies, ratio)
    assert take_up(large, plies, ratio) == pytest.approx(expected, abs=1e-12)


def test_no_ply_twist_takes_nothing():
    for angle in (1, 10, 20, 30, 40):
        assert take_up(single_at(angle), 2, 0.0) == 0


def test_a_single_without_twist_has_nothing_to_untwist():
    """It takes the ply's own turns on, and its fibres shorten it beyond its bare helix."""
    single = Single(DIAMETER_MM, 0.0)
    for twist in (50, 100, 200, 400):
        beta = radians(helix_angle_deg(DIAMETER_MM / 2, twist))
        slope = tan(beta) * cos(beta) ** 2
        fibres = quad(lambda r, at=slope: 2 * r / sqrt(1 + (r * at) ** 2), 0, 1)[0]
        found = untwisting_contraction(single, helix_angle_deg(DIAMETER_MM / 2, twist), twist)
        assert found == pytest.approx(1 - cos(beta) * fibres, abs=1e-9)
        assert found > 1 - cos(beta)
