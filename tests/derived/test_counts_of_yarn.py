"""Counts of yarn, derived from the yard, the pound and the tex: exact fractions, and laws."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yarncolor.yarn.linear_density import DIRECT, INDIRECT, SYSTEMS, from_tex, to_tex

YARD_M, POUND_G = Fraction("0.9144"), Fraction("453.59237")
HANKS = [  # system, yards in a pound of its number 1
    ("yd/lb", Fraction(1)),
    ("cotton count", Fraction(840)),
    ("worsted count", Fraction(560)),
    ("woollen run", Fraction(1600)),
    ("Yorkshire skein", Fraction(1536, 6)),
    ("linen lea", Fraction(300)),
]
METRIC = [  # system, exact value of so many tex
    ("tex", lambda tex: tex),
    ("dtex", lambda tex: tex * 10),
    ("denier", lambda tex: tex * 9),
    ("ktex", lambda tex: tex / 1000),
    ("Nm", lambda tex: 1000 / tex),
    ("m/g", lambda tex: 1000 / tex),
    ("m/100 g", lambda tex: 100_000 / tex),
]
linear_densities = st.floats(0.1, 50_000)


def every_grist() -> list[float]:
    """Return tex from a sewing thread to a rope."""
    return [10 ** (exponent / 20) for exponent in range(95)]


def test_a_hundred_grams_of_two_hundred_metres_in_every_system_of_the_table():
    """500 tex = Nm 2 = 992.11 yd/lb = 4500 den; derived, exact but for the yards."""
    assert from_tex(500, "Nm") == 2
    assert from_tex(500, "m/g") == 2
    assert from_tex(500, "m/100 g") == 200
    assert from_tex(500, "denier") == 4500
    assert from_tex(500, "yd/lb") == pytest.approx(992.11, abs=0.005)


def test_worsted_tens_and_cotton_twenties():
    """Derived: 5600 yd/lb = 88.58 tex = 11.289 m/g; Ne 20 = 29.527 tex = 265.74 den."""
    worsted = to_tex(10, "worsted count")
    assert worsted == pytest.approx(88.58, abs=0.005)
    assert from_tex(worsted, "m/g") == pytest.approx(11.289, abs=5e-4)
    assert from_tex(worsted, "yd/lb") == pytest.approx(5600, rel=1e-12)
    cotton = to_tex(20, "cotton count")
    assert cotton == pytest.approx(29.527, abs=5e-4)
    assert from_tex(cotton, "denier") == pytest.approx(265.74, abs=0.005)


def test_denier_times_the_cotton_count_is_always_the_same():
    """5314.87; derived."""
    for tex in every_grist():
        product = from_tex(tex, "denier") * from_tex(tex, "cotton count")
        assert product == pytest.approx(5314.87, abs=0.005)


@pytest.mark.parametrize(
    ("system", "metric"), [("cotton count", 1.693362), ("worsted count", 1.128908)]
)
def test_the_metric_count_of_an_english_count(system, metric):
    """Derived, to the digits given."""
    for count in (1, 5, 8, 10, 20, 60, 200):
        found = from_tex(to_tex(count, system), "Nm")
        assert found == pytest.approx(metric * count, abs=5e-7 * count)


@pytest.mark.parametrize(("system", "yards"), HANKS)
def test_hanks_in_a_pound_agree_with_exact_fractions_from_thread_to_rope(system, yards):
    for tex in every_grist():
        exact = 1000 / Fraction(tex) * POUND_G / YARD_M / yards
        assert from_tex(tex, system) == pytest.approx(float(exact), rel=1e-14)


@pytest.mark.parametrize(("system", "exact"), METRIC)
def test_metric_systems_agree_with_exact_fractions_from_thread_to_rope(system, exact):
    for tex in every_grist():
        assert from_tex(tex, system) == pytest.approx(float(exact(Fraction(tex))), rel=1e-14)


@given(linear_densities, st.sampled_from(SYSTEMS))
def test_there_and_back_is_the_same_yarn(tex, system):
    assert to_tex(from_tex(tex, system), system) == pytest.approx(tex, rel=1e-13)
    assert from_tex(to_tex(tex, system), system) == pytest.approx(tex, rel=1e-13)


@given(linear_densities, st.sampled_from(SYSTEMS), st.sampled_from(SYSTEMS))
def test_by_way_of_another_system_is_the_same_yarn(tex, one, other):
    through = to_tex(from_tex(to_tex(from_tex(tex, one), one), other), other)
    assert through == pytest.approx(tex, rel=1e-12)


@given(linear_densities, st.floats(1.001, 50), st.sampled_from(SYSTEMS))
def test_a_thicker_yarn_has_more_grams_in_a_length_and_less_length_in_a_mass(tex, more, system):
    thin, thick = from_tex(tex, system), from_tex(tex * more, system)
    assert (thick > thin) == (system in DIRECT)
    assert max(thin, thick) / min(thin, thick) == pytest.approx(more, rel=1e-12)


@given(st.floats(0.01, 1e5), st.floats(1.001, 50), st.sampled_from(sorted(INDIRECT)))
def test_a_finer_yarn_never_weighs_more_in_a_metre(count, finer, system):
    assert to_tex(count * finer, system) < to_tex(count, system)


@pytest.mark.parametrize("system", ["worsted", "Tex", "wpi", ""])
def test_a_word_that_is_no_system_is_refused(system):
    """ "Worsted" alone is a count, a preparation and a class of knitting yarn."""
    with pytest.raises(KeyError):
        from_tex(100, system)
    with pytest.raises(KeyError):
        to_tex(100, system)


def test_every_system_is_checked_against_fractions():
    assert {system for system, *_ in METRIC + HANKS} == set(SYSTEMS)
