"""How many rolags a lot's grams make, by hand."""

import pytest

from yarncolor import plan_from_data, read_plan, save_plan
from yarncolor.editing.rolags import rolags_words
from yarncolor.measures import METRIC
from yarncolor.phrases import in_fractions


@pytest.mark.parametrize(
    ("mass_g", "singles", "words"),
    [
        (46, 3, "15⅓ rolags: make 15 (3.07 g each) or 18 (2.56 g each), as many for each ply"),
        (45, 3, "15 rolags: 5 for each ply"),
        (46, 1, "15⅓ rolags: make 15 (3.07 g each) or 16 (2.88 g each)"),
        (4, 3, "1⅓ rolags: make 3 (1.33 g each), as many for each ply"),
        (31.7, 1, "about 10⅝ rolags: make 10 (3.17 g each) or 11 (2.88 g each)"),
        (3, 1, "1 rolag"),
        (1.5, 1, "½ of a rolag: make 1 (1.5 g each)"),
    ],
)  # fmt: skip
def test_rolags_follow_from_grams(mass_g, singles, words):
    lot = {"name": "Kelp", "colour": "#445533", "mass_g": mass_g, "rolag_g": 3}
    assert rolags_words(plan_from_data({"lots": [lot]}).lots[0], singles, METRIC) == words


def test_rolags_that_are_counted_are_not_reckoned():
    lot = {"name": "Kelp", "colour": "#445533", "rolags": 7, "rolag_g": 3}
    assert rolags_words(plan_from_data({"lots": [lot]}).lots[0], 3, METRIC) == ""
    lot = {"name": "Kelp", "colour": "#445533", "mass_g": 7}
    assert rolags_words(plan_from_data({"lots": [lot]}).lots[0], 3, METRIC) == ""


def test_grams_beside_those_of_a_rolag_are_the_mass_and_come_back_from_the_file(tmp_path):
    lot = {"name": "Kelp", "colour": "#445533", "mass_g": 46, "rolag_g": 3}
    plan = plan_from_data({"lots": [lot]})
    assert (plan.lots[0].mass_g, plan.lots[0].rolags) == (46, None)
    assert read_plan(save_plan(plan, tmp_path / "plan.toml")) == plan


@pytest.mark.parametrize(
    ("number", "words"),
    [(10.5556, "about 10½"), (15 + 1 / 3, "15⅓"), (0.5, "½"), (3.999, "4"), (0.04, "about 0"),
     (1200, "1,200"), (2.667, "2⅔")],
)  # fmt: skip
def test_numbers_as_hands_count(number, words):
    assert in_fractions(number) == words
