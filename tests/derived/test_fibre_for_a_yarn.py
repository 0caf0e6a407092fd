"""From finished metres back to fibre, derived: mass is length times linear density."""

import pytest

from yarncolor import answer, plan_from_data, to_dict


def yarn_of(**tables) -> dict:
    lots = [{"name": "Fleece", "colour": "#eae6da", "mass_g": 400.0}]
    return to_dict(answer(plan_from_data({"lots": lots, **tables})))


def test_four_hundred_finished_metres_need_forty_three_grams_for_each_ply():
    """400 m of R 300 tex/3; 8 % lost in finishing, 2 % in plying, 7 % in spinning; derived."""
    found = yarn_of(
        scheme={"plies": 3},
        spinning={"single_tex": 300 / 3 * 0.92 * 0.98, "spin_loss": 0.07},
        plying={"contraction": 0.02},
        target={"yarn_m": 400 / 0.92},
    )
    for single in found["singles"]:
        assert single["linear_density_tex"] == pytest.approx(90.16, abs=0.005)
        assert single["length_m"] == pytest.approx(443.66, abs=0.005)
        assert single["mass_g"] == pytest.approx(43.01, abs=0.005)
    assert found["yarn"]["length_m"] == pytest.approx(434.78, abs=0.005)
    assert found["yarn"]["mass_g"] == pytest.approx(120.00, abs=0.005)
    assert found["yarn"]["linear_density_tex"] / 0.92 == pytest.approx(300, rel=1e-9)


@pytest.mark.parametrize("plies", range(1, 13))
@pytest.mark.parametrize("contraction", [-0.2, -0.01, 0.0, 0.05, 0.3, 0.6])
def test_no_fibre_is_won_or_lost_in_plying(plies, contraction):
    """Mass is length times linear density, before plying and after it."""
    found = yarn_of(
        scheme={"plies": plies},
        spinning={"single_tex": 80.0, "spin_loss": 0.1},
        plying={"contraction": contraction},
    )
    singles = sum(single["mass_g"] for single in found["singles"])
    yarn = found["yarn"]
    assert yarn["length_m"] * yarn["linear_density_tex"] / 1000 == pytest.approx(singles * 0.9)
    assert yarn["mass_g"] == pytest.approx(singles * 0.9)
    assert yarn["m_per_100g"] == pytest.approx(100 * yarn["length_m"] / yarn["mass_g"])
