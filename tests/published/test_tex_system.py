"""Linear density: ISO 1144, Universal system for designating linear density (Tex System), and
the international yard and pound of 1959 (1 yd = 0.9144 m, 1 lb = 0.453 592 37 kg).

tex is grams in 1000 m; the constants of the older counts follow from it and are printed, to
the digits given, in ISO 2947 and ASTM D2260 (scopes as read) and in textbooks: 590.5 of cotton,
885.8 of worsted and 1653.5 of linen, as a public handbook of natural fibres prints them.
"""

import pytest

from yarncolor.units import m_per_100g, yd_per_lb

TEX_TIMES_YD_PER_LB = 496_054.65
HANKS = [  # count, tex times count, yards of one hank; a pound holds as many hanks as the count
    ("cotton", 590.5412, 840),
    ("worsted", 885.8119, 560),
    ("woollen run", 310.0342, 1600),
    ("linen lea", 1653.515, 300),
]


def test_a_hundred_grams_of_two_hundred_metres_is_five_hundred_tex():
    assert m_per_100g(500) == 200
    assert yd_per_lb(500) == pytest.approx(992.11, abs=0.005)


@pytest.mark.parametrize("tex", [1, 7.6, 100, 310, 496.0546, 5000])
def test_tex_times_yards_in_a_pound_is_always_the_same(tex):
    assert tex * yd_per_lb(tex) == pytest.approx(TEX_TIMES_YD_PER_LB, abs=0.005)


def test_a_thousand_yards_in_a_pound_is_four_hundred_and_ninety_six_tex():
    assert yd_per_lb(496.05465) == pytest.approx(1000, abs=1e-3)
    assert m_per_100g(496.05465) == pytest.approx(201.59, abs=0.005)


@pytest.mark.parametrize(("name", "constant", "hank_yd"), HANKS, ids=[row[0] for row in HANKS])
def test_a_count_of_hanks_in_a_pound_is_met(name, constant, hank_yd):
    for count in (1, 2, 8, 10, 20, 60):
        assert yd_per_lb(constant / count) == pytest.approx(count * hank_yd, rel=1e-6)


def test_worsted_tens_run_eleven_metres_in_a_gram():
    """5600 yd/lb = 88.58 tex = 11.289 m/g."""
    assert m_per_100g(885.8119 / 10) / 100 == pytest.approx(11.289, abs=0.0005)
    assert yd_per_lb(885.8119 / 10) == pytest.approx(5600, abs=0.01)
