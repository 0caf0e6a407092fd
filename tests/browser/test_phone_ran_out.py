"""On the phone: a ply ran out, noted in one press and taken home; what hands can do meanwhile."""

import pytest

import yarncolor as yc
from tests.helpers.phone import plan_of
from yarncolor.plan import Plied, to_data
from yarncolor.planfile.taken_home import brought_home

pytestmark = pytest.mark.browser

TWO = plan_of("Kelp", "Foam", "Dune", "Gorse")


def test_a_ply_that_ran_out_is_noted_in_one_press_and_taken_home(phone):
    one = phone(TWO).go("Ply")
    assert "Say first how much is plied so far." in one.text
    one.fill("Plied so far", "200").tap("The single of bobbin 2 ran out here")
    assert "The single of bobbin 2 ran out at 200.0 m." in one.text
    assert "Wind all that is left on the fullest bobbin into a ball" in one.text
    assert "Go on with fewer plies" not in one.text
    one.again()
    home = brought_home(one.taken_home, yc.plan_from_data(TWO)).plan
    assert home.plied == Plied(so_far_m=200.0, ended_ply=2, at_m=200.0)
    one.kill().load(to_data(home)).go("Ply")
    assert "The single of bobbin 2 ran out at 200.0 m." in one.text
    assert "[plied]" not in one.taken_home


def test_it_did_not_run_out_after_all(phone):
    one = phone(plan_of("Kelp", "Foam", plies=3)).go("Ply").fill("Plied so far", "40")
    one.tap("The single of bobbin 3 ran out here").tap("It did not run out")
    assert "ran out at" not in one.text
    assert "ended_ply" not in one.taken_home


def test_one_single_has_no_other_that_runs_out(phone):
    one = phone(plan_of("Kelp", "Foam", plies=1)).go("Ply")
    assert "One ran out" not in one.text
