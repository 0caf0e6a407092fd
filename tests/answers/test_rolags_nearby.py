"""How many rolags to card so that hands can divide them, where so many cannot be divided."""

from fractions import Fraction

import numpy as np
import pytest

from yarncolor.answers.by_hand import nearest_rolags

THIRDS, FIFTHS = (1 / 3, 1 / 3, 1 / 3), (1 / 5, 4 / 5)


@pytest.mark.parametrize(
    ("there", "shares", "nearest"),
    [
        (9.0, THIRDS, 9),
        (10.0, THIRDS, 10),
        (9.0, FIFTHS, 10),
        (7.4, FIFTHS, 5),
        (7.6, FIFTHS, 10),
        (7.5, FIFTHS, 10),
        (6.5, (1.0,), 7),
        (0.9, (1.0,), 1),
        (0.2, FIFTHS, 5),
        (4.0, (1 / 7, 2 / 7, 4 / 7), 7),
        (9.0, (1 / 6, 1 / 2, 1 / 3), 9),
        (3.0, (1 / 12, 11 / 12), 3),
        (5.0, (1 / 12, 11 / 12), 6),
    ],
)
def test_the_nearest_number_that_hands_divide_and_of_two_the_larger(there, shares, nearest):
    """Thirds of 10 are 3⅓ each; fifths want fives; a twelfth of 3 is a quarter, of 5 none."""
    assert nearest_rolags(there, np.array(shares)) == nearest


def test_every_number_on_the_way_leaves_a_part_that_no_hand_tears():
    """Halves, thirds, quarters and eighths are torn: told again in whole fractions."""
    for whole in range(2, 20):
        share = Fraction(1, whole)
        torn = [n for n in range(1, 93) if (share * n % 1).denominator in (1, 2, 3, 4, 8)]
        apart = min(abs(n - 20) for n in torn)
        nearest = max(n for n in torn if abs(n - 20) == apart)
        assert nearest_rolags(20.0, np.array([float(share)])) == nearest


@pytest.mark.parametrize(("there", "nearest"), [(1.25, 17), (1.0, None), (0.75, None), (1.5, 17)])
def test_it_is_looked_for_up_to_four_times_as_many_and_a_dozen(there, nearest):
    """A seventeenth is torn of 17 rolags and of no fewer: four times 1.25 and 12 are 17."""
    assert nearest_rolags(there, np.array([1 / 17])) == nearest
