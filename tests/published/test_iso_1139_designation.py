"""How a plied yarn is written and counted: ISO 1139, Textiles. Designation of yarns.

The two notations are from memory, titles of the 2025 edition's clauses as read; open previews end
before the examples. A point stands here where the standard prints a comma.
"""

import pytest

from yarncolor.yarn.linear_density import (
    from_tex,
    long_designation,
    resultant_tex,
    short_designation,
    to_tex,
)


def test_the_example_of_the_standard_from_fold_to_single():
    """R 69,3 tex Z 400 / 2 S 600; 34 tex: from memory."""
    written = long_designation(69.3, 2, 34.0, (("Z", 400.0), ("S", 600.0)))
    assert written == "R 69.3 tex Z 400 / 2 S 600; 34 tex"


def test_the_short_form_says_the_resultant_and_the_folds():
    """R 60 tex/3, from memory; three of about 20 tex before contraction."""
    assert short_designation(resultant_tex((20.0,) * 3, 0.0), 3).replace(" / ", "/") == "R 60 tex/3"


def test_a_single_has_no_resultant():
    assert short_designation(110.0, 1) == "110 tex"


def test_cotton_eight_two_is_a_count_of_four():
    """Two plies of Ne 8 make Ne 4 = 3360 yd/lb, as read; without contraction."""
    yarn = resultant_tex((to_tex(8, "cotton count"),) * 2, 0.0)
    assert from_tex(yarn, "cotton count") == pytest.approx(4, rel=1e-12)
    assert from_tex(yarn, "yd/lb") == pytest.approx(3360, rel=1e-12)
