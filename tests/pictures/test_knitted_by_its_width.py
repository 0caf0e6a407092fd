"""A piece that is said by its width is drawn as it will be knitted, its gauge called usual."""

import pytest

import yarncolor as yc
from yarncolor.pictures.as_knitted import knit_of

LOTS = [{"name": "Kelp", "colour": "#345", "mass_g": 100}]


@pytest.mark.parametrize(
    ("fabric", "stitches", "is_given"),
    [
        ({"width_cm": 30}, 78, False),  # 10 · √(21.6 / 1.3) / (√300 / 11) = 25.89 in 10 cm
        ({"width_cm": 30, "gauge_stitches": 20}, 60, True),
        ({"kind": "triangle", "width_cm": 60}, 3, False),
    ],
)
def test_stitches_are_those_of_the_width(fabric, stitches, is_given):
    answer = yc.answer(yc.plan_from_data({"lots": LOTS, "fabric": fabric}))
    knit = knit_of(answer)
    assert (knit.fabric.cast_on, knit.gauge_is_given) == (stitches, is_given)
    if fabric.get("kind") == "triangle":
        assert knit.fabric.rows == answer.piece.rows
