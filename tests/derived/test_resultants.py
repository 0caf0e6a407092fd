"""Linear density of plied yarns, derived: mass stays, length is lost."""

from decimal import ROUND_HALF_EVEN, Context, Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yarncolor.yarn.linear_density import (
    INDIRECT,
    from_tex,
    long_designation,
    resultant_tex,
    short_designation,
    to_tex,
)

THREE_FIGURES = Context(prec=3, rounding=ROUND_HALF_EVEN)
singles = st.lists(st.floats(1, 5000), min_size=1, max_size=12).map(tuple)


def test_two_singles_of_thirty_four_tex_contract_by_less_than_two_per_cent():
    """68 / 69.3: c = 1.876 %, derived."""
    assert resultant_tex((34.0, 34.0), 0.01876) == pytest.approx(69.3, abs=5e-4)
    assert 1 - 68 / resultant_tex((34.0, 34.0), 0.01876) == pytest.approx(0.01876, abs=1e-12)


def test_a_heavy_yarn_is_written_out_and_not_in_powers_of_ten():
    """A yarn of 100 m in 100 g is 1000 tex."""
    assert short_designation(1234.0, 3) == "R 1230 tex / 3"
    written = long_designation(1234.0, 3, 1020.0, (("S", 60.0), ("Z", 90.0)))
    assert written == "R 1230 tex S 60 / 3 Z 90; 1020 tex"


def test_from_thread_to_rope_the_short_form_is_the_yarn_to_three_figures():
    for exponent in range(-20, 95):
        tex = 10 ** (exponent / 20)
        for plies in (1, 2, 7):
            words = short_designation(tex, plies).split()
            number = words[0] if plies == 1 else words[1]
            assert "e" not in number
            assert Decimal(number) == THREE_FIGURES.create_decimal_from_float(tex)
            assert (words[0] == "R") == (plies > 1)
            assert plies == 1 or words[-1] == str(plies)


def test_four_hundred_metres_of_three_hundred_tex_back_to_the_single():
    """R 300 tex/3, 8 % lost in finishing, 2 % in plying: singles of 90.16 tex; derived."""
    plied = resultant_tex((90.16,) * 3, 0.02)
    assert plied == pytest.approx(120_000 / 434.78, abs=0.02)
    assert resultant_tex((plied,), 0.08) == pytest.approx(300, abs=0.02)


@given(st.lists(st.integers(1, 400), min_size=1, max_size=8), st.sampled_from(sorted(INDIRECT)))
def test_counts_of_length_in_a_mass_add_up_as_reciprocals(counts, system):
    """1/N = Σ 1/N_i without contraction; derived, in exact fractions."""
    plied = resultant_tex(tuple(to_tex(count, system) for count in counts), 0.0)
    exact = 1 / sum(Fraction(1, count) for count in counts)
    assert from_tex(plied, system) == pytest.approx(float(exact), rel=1e-12)


@given(singles, st.floats(-0.3, 0.9))
def test_mass_is_the_same_before_plying_and_after(linear_densities, contraction):
    """A metre of singles becomes 1 - c metres of yarn and weighs what it weighed."""
    yarn = resultant_tex(linear_densities, contraction)
    assert yarn * (1 - contraction) == pytest.approx(sum(linear_densities), rel=1e-12)


@given(singles, st.floats(-0.3, 0.8), st.floats(0.001, 0.1))
def test_a_yarn_that_contracts_more_is_heavier(linear_densities, contraction, more):
    less = resultant_tex(linear_densities, contraction)
    assert resultant_tex(linear_densities, contraction + more) > less
    assert (less > sum(linear_densities)) == (contraction > 0) or abs(contraction) < 1e-12


@given(singles, st.randoms(use_true_random=False), st.floats(-0.3, 0.9))
def test_the_order_of_the_plies_does_not_matter(linear_densities, random, contraction):
    shuffled = random.sample(linear_densities, len(linear_densities))
    expected = resultant_tex(linear_densities, contraction)
    assert resultant_tex(tuple(shuffled), contraction) == pytest.approx(expected, rel=1e-12)
