"""CIEDE2000: G. Sharma, W. Wu and E. N. Dalal, The CIEDE2000 color-difference formula,
Color Research & Application 30(1), 2005, 21-30, Table 1 (34 pairs).

The table is read at test time from the tests that colour-science ships; those leave out pair
14, which sits on the 180° jump of the hue difference. What stands here beside it was compared
number by number with a copy of the authors' own file of 34 pairs in published code.
"""

import ast
from importlib.util import find_spec
from pathlib import Path

import numpy as np
import pytest
from coloraide import Color

from yarncolor.colour.science import ciede2000

PRINTED = 0.5e-4 * 1.01
"""Half of the last printed digit, and a hundredth of it for the arithmetic of floats."""
AS_READ = [
    ((50, 2.6772, -79.7751), (50, 0, -82.7485), 2.0425),  # pair 1
    ((50, 2.49, -0.001), (50, -2.49, 0.0010), 7.1792),  # pair 10, before the jump of hue
    ((50, 2.49, -0.001), (50, -2.49, 0.0011), 7.2195),  # pair 11, after it
    ((50, 2.5, 0), (73, 25, -18), 27.1492),  # pair 17
    ((2.0776, 0.0795, -1.1350), (0.9033, -0.0636, -0.5514), 0.9082),  # pair 34
]
"""Sharma, Wu & Dalal 2005, Table 1, by the authors' file."""
PAIR_14 = ((50, -0.001, 2.49), (50, 0.0010, -2.49))
EITHER_SIDE_OF_THE_JUMP = (4.8045, 4.7461)
"""Sharma, Wu & Dalal 2005, Table 1: pair 14 as printed, and pair 15, on the other side of the
jump."""


def shipped_table() -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return the pairs and differences that colour-science's tests hold, not imported but read."""
    package = Path(find_spec("colour").submodule_search_locations[0])
    source = (package / "difference" / "tests" / "test_delta_e.py").read_text(encoding="utf-8")
    (case,) = (
        node
        for node in ast.walk(ast.parse(source))
        if isinstance(node, ast.FunctionDef) and node.name == "test_delta_E_CIE2000_Sharma2004"
    )
    columns = {
        node.targets[0].id: np.array(ast.literal_eval(node.value.args[0]))
        for node in case.body
        if isinstance(node, ast.Assign) and isinstance(node.value, ast.Call)
    }
    return columns["Lab_1"], columns["Lab_2"], columns["d_E"]


def second_opinion(lab_1, lab_2) -> float:
    one, other = (Color("lab-d65", list(lab)) for lab in (lab_1, lab_2))
    return one.delta_e(other, method="2000", space="lab-d65")


def any_colours(count: int, seed: int) -> np.ndarray:
    drawn = np.random.default_rng(seed).random((count, 3))
    return drawn * [100, 256, 256] - [0, 128, 128]


def test_every_pair_of_the_table_but_the_fourteenth_is_met_as_printed():
    lab_1, lab_2, printed = shipped_table()
    assert lab_1.shape == lab_2.shape == (33, 3)
    assert printed.shape == (33,)
    np.testing.assert_allclose(ciede2000(lab_1, lab_2), printed, rtol=0, atol=PRINTED)


@pytest.mark.oracle
def test_a_second_library_reads_the_same_table_the_same_way():
    for lab_1, lab_2, printed in zip(*shipped_table(), strict=True):
        assert second_opinion(lab_1, lab_2) == pytest.approx(printed, abs=PRINTED)


@pytest.mark.parametrize(("lab_1", "lab_2", "printed"), AS_READ)
def test_pairs_written_down_without_that_library_are_met(lab_1, lab_2, printed):
    assert ciede2000(np.array(lab_1), np.array(lab_2)) == pytest.approx(printed, abs=PRINTED)


def test_pair_fourteen_lies_on_one_side_of_the_jump_or_on_the_other():
    found = ciede2000(*map(np.array, PAIR_14))
    assert min(abs(found - side) for side in EITHER_SIDE_OF_THE_JUMP) <= PRINTED


def test_two_thousand_random_pairs_agree_with_a_second_library():
    lab_1, lab_2 = any_colours(2000, 1), any_colours(2000, 2)
    other = [second_opinion(one, two) for one, two in zip(lab_1, lab_2, strict=True)]
    np.testing.assert_allclose(ciede2000(lab_1, lab_2), other, rtol=0, atol=1e-6)


def test_close_pairs_such_as_two_dips_of_one_dye_agree_with_a_second_library():
    lab_1 = any_colours(1000, 3) * [0.96, 0.9, 0.9] + [2, 0, 0]
    lab_2 = lab_1 + np.random.default_rng(4).normal(0, 1, lab_1.shape).clip(-2, 2)
    other = [second_opinion(one, two) for one, two in zip(lab_1, lab_2, strict=True)]
    np.testing.assert_allclose(ciede2000(lab_1, lab_2), other, rtol=0, atol=1e-6)


def test_two_greys_differ_by_their_lightness_over_its_weight():
    """Sharma, Wu & Dalal 2005, Eq. 15: S_L = 1 + 0.015 (L̄ - 50)² / √(20 + (L̄ - 50)²)."""
    light = np.linspace(0, 100, 201)
    one, two = (part.ravel() for part in np.meshgrid(light, light))
    from_middle = ((one + two) / 2 - 50) ** 2
    expected = np.abs(one - two) / (1 + 0.015 * from_middle / np.sqrt(20 + from_middle))
    nothing = np.zeros_like(one)
    found = ciede2000(
        np.column_stack([one, nothing, nothing]), np.column_stack([two, nothing, nothing])
    )
    np.testing.assert_allclose(found, expected, rtol=0, atol=1e-9)
