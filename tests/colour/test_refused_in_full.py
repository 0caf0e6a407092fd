"""What a formula cannot take is refused by a whole sentence that says what it takes."""

from dataclasses import replace

import numpy as np
import pytest

from tests.helpers.strategies import by_hand
from yarncolor import plan_from_data
from yarncolor.colour.carding import blended_lab, blended_reflectance
from yarncolor.colour.colour_vision import seen_srgb
from yarncolor.colour.dye_depth import fitted_exhaustion, later_baths_lab
from yarncolor.colour.even_steps import even_fractions
from yarncolor.colour.optical_mixing import far_lab, reads_as_one_m
from yarncolor.colour.palette import lots_lab
from yarncolor.colour.science import lab_from_srgb
from yarncolor.colour.words import css_hex

LAB = np.array([[80.0, 0, 0], [20.0, 0, 0]])
GREYS = np.array([[0.6], [0.1]])
IN_A_CIRCLE = tuple(
    replace(lot, colour=None, blend=((other, 1.0),))
    for lot, other in zip(
        plan_from_data(by_hand({"Kelp": 10.0, "Foam": 10.0})).lots, ("Foam", "Kelp"), strict=True
    )
)
DARK, PALE, FIBRE = [20.0, 0, 0], [60.0, 0, 0], [90.0, 0, 0]


@pytest.mark.parametrize(
    ("formula", "given", "told"),
    [
        (lab_from_srgb, ([[2.0, 0, 0]],), "colour values from 0 to 1 are needed"),
        (css_hex, ("blurk",), "'blurk' is no colour"),
        (
            blended_reflectance,
            ([[0, 0]], GREYS),
            "parts of a blend are numbers of 0 or more, not all 0",
        ),
        (
            blended_reflectance,
            ([[1, 1]], GREYS * 2),
            "a reflectance lies above 0 and is at most 1",
        ),
        (
            blended_reflectance,
            ([[1, 1]], GREYS, "friele", 1.5),
            "the constant of a blend lies above 0 and is at most 1",
        ),
        (
            blended_lab,
            ([[1, 1]], LAB, "felted"),
            "there is no model 'felted'; there are stearns-noechel, friele, linear",
        ),
        (
            later_baths_lab,
            (DARK, FIBRE, 1.0, [2]),
            "an exhaustion lies between 0 and 1, and baths count from 1",
        ),
        (
            fitted_exhaustion,
            (PALE, DARK, FIBRE),
            "the second bath must lie between the first and the undyed fibre",
        ),
        (far_lab, ([[0, 0]], LAB), "each share is 0 or more, and not all are 0"),
        (
            reads_as_one_m,
            (LAB, 0.0, 1.5),
            "a period and a width are numbers of millimetres above 0, "
            "laid is one of ('alone', 'wrapped', 'knitted')",
        ),
        (
            seen_srgb,
            ([[0.5, 0.5, 0.5]], "myopia"),
            "give one of protanomaly, deuteranomaly, tritanomaly and a severity of 0 to 1",
        ),
        (even_fractions, (LAB, 0), "give 1 to 20 steps"),
        (lots_lab, (IN_A_CIRCLE,), "lots are made from each other in a circle"),
    ],
)
def test_what_a_formula_takes_is_said_where_it_got_something_else(formula, given, told):
    with pytest.raises(ValueError) as refused:  # noqa: PT011
        formula(*given)
    assert str(refused.value) == told
