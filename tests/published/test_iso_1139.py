"""Plied yarns: ISO 1139, Textiles. Designation of yarns. A resultant linear density is that of
the singles over what is left of their length: R = Σ T / (1 - c).

Both examples are from memory: open previews of the editions of 1973 and 2025 end before their
examples, and no other copy was found. Beside them stands the balance of mass: all that the singles
weigh is in the yarn.
"""

import pytest

from yarncolor import answer, plan_from_data, to_dict


def yarn_of(**tables) -> dict:
    lots = [{"name": "Fleece", "colour": "#eae6da", "mass_g": 400.0}]
    return to_dict(answer(plan_from_data({"lots": lots, **tables})))


def test_two_singles_of_thirty_four_tex_make_a_yarn_of_sixty_nine():
    """ISO 1139: 34 tex S 600 x 2 Z 400; R 69,3 tex; from memory. So c = 1.876 %."""
    yarn = yarn_of(
        scheme={"plies": 2}, spinning={"single_tex": 34.0}, plying={"contraction": 0.01876}
    )["yarn"]
    assert yarn["linear_density_tex"] == pytest.approx(69.3, abs=0.05)


@pytest.mark.parametrize("contraction", [0.0, 0.01876, 0.1, -0.02])
def test_what_the_singles_weigh_is_in_the_yarn(contraction):
    """10 km of each single make 10 (1 - c) km of yarn, and no gram is lost."""
    yarn = yarn_of(
        scheme={"plies": 2}, spinning={"single_tex": 34.0}, plying={"contraction": contraction}
    )["yarn"]
    made_km = 10 * (1 - contraction)
    assert yarn["linear_density_tex"] * made_km == pytest.approx(2 * 34.0 * 10, rel=1e-12)


def test_without_contraction_the_tex_of_the_plies_add_up():
    """ISO 1139, short form R 60 tex/3: about 20 tex each; from memory."""
    yarn = yarn_of(scheme={"plies": 3}, spinning={"single_tex": 20.0}, plying={"contraction": 0.0})
    assert yarn["yarn"]["linear_density_tex"] == pytest.approx(60, rel=1e-12)
