"""On the phone: a ply ran out, noted in one press and taken home; what hands can do meanwhile."""

import re

import pytest

import yarncolor as yc
from tests.helpers.phone import plan_of
from yarncolor.answers.rescues import rescued_yarns
from yarncolor.plan import Plied, to_data
from yarncolor.planfile.taken_home import brought_home
from yarncolor.report.rescue_hands import hands_lines, rescue_words
from yarncolor.report.rescues_text import worth_text

pytestmark = pytest.mark.browser

TWO = plan_of("Kelp", "Foam", "Dune", "Gorse")


def test_a_ply_that_ran_out_is_noted_in_one_press_and_taken_home(phone):
    one = phone(TWO).go("Ply")
    assert "Say first how much is plied so far." in one.text
    one.fill("Plied so far", "200").tap("The single of bobbin 2 ran out here")
    assert "Ply 2 ran out after 200 m of yarn." in one.text
    assert "Fold the rest of ply 1 in two" in one.text
    assert "Wind all that ply 1 has left" in one.text
    one.again()
    home = brought_home(one.taken_home, yc.plan_from_data(TWO)).plan
    assert home.plied == Plied(so_far_m=200.0, ended_ply=2, at_m=200.0)
    one.kill().load(to_data(home)).go("Ply")
    assert "Ply 2 ran out after 200 m of yarn." in one.text
    assert "[plied]" not in one.taken_home


def test_it_did_not_run_out_after_all(phone):
    one = phone(plan_of("Kelp", "Foam", plies=3)).go("Ply").fill("Plied so far", "40")
    one.tap("The single of bobbin 3 ran out here").tap("It did not run out")
    assert "ran out after" not in one.text
    assert "ended_ply" not in one.taken_home


def test_one_single_has_no_other_that_runs_out(phone):
    one = phone(plan_of("Kelp", "Foam", plies=1)).go("Ply")
    assert "One ran out" not in one.text


def offered(one) -> list[list[str]]:
    """Return each way that the page offers: its name, what it comes to, what the hands do."""
    return one.page.locator(".way").evaluate_all(
        "ways => ways.map(way => [...way.querySelectorAll('h4, h4 + p, ol li')]"
        ".map(each => each.textContent))"
    )


def by_the_bench(text: str, data: dict) -> list[list[str]]:
    """Return what the bench offers once this text was brought home."""
    home = yc.answer(brought_home(text, yc.plan_from_data(data)).plan)
    return [
        [name[:1].upper() + name[1:], worth_text(home, yarn), *hands_lines(home, yarn)]
        for yarn in rescued_yarns(home)
        for name in [rescue_words(home, yarn)]
    ]


def test_what_was_ticked_left_out_and_spun_too_much_counts(phone):
    """Grams, a row left out, a piece too many: the phone offers what the bench does at home."""
    one = phone(TWO).go("Rows").tick(1)
    one.page.locator("button.more").nth(2).tap()
    one.page.get_by_role("button", name=re.compile("^Other grams")).tap()
    one.fill("Fibre weighed out", "4.5").tap("Done").tap("It is spun")
    one.tap("A piece too many").fill("Fibre weighed out", "2").tap("It is spun")
    one.page.locator("button.more").nth(1).tap()
    one.page.get_by_role("button", name="It is left out").tap()
    one.go("Ply").fill("Plied so far", "150").tap("The single of bobbin 1 ran out here")
    now = offered(one)
    assert len(now) > 4
    assert now == by_the_bench(one.taken_home, TWO)


def test_before_plying_the_page_says_what_will_be_left(phone):
    one = phone(TWO | {"spun": [{"ply": 1, "row": 4, "mass_g": 12.0}]}).go("Ply")
    assert "As it is now, ply 1 runs out first" in one.text
    assert offered(one)


def test_turns_of_the_niddy_noddy_say_how_far_it_is(phone):
    one = phone(TWO).go("Ply").tap_text("Count turns instead")
    one.fill("Turns so far", "40")
    one.fill("One turn of the niddy-noddy", "1.5").fill("Turns so far", "40")
    assert one.page.get_by_label("Plied so far", exact=True).input_value() == "60"
    next_m, turns = re.search(r"([\d.]+)\s*m\s+or ([\d.]+) turns", one.text).groups()
    assert float(turns) == pytest.approx(float(next_m) / 1.5, abs=0.06)
    assert re.search(r"At [\d.]+ m, turn \d+", one.text)
    home = brought_home(one.taken_home, yc.plan_from_data(TWO)).plan
    assert home.plied == Plied(so_far_m=60.0, turn_m=1.5)


def test_the_plying_bobbin_on_the_scale_says_how_far_it_is(phone):
    """Two singles of 100 tex, nothing known lost in plying: 20 g are 100 m."""
    one = phone(TWO | {"plying": {"contraction": 0.0}}).go("Ply").tap_text("Or weigh the bobbin")
    one.fill("The empty plying bobbin", "80").fill("Plying bobbin with its yarn", "100")
    assert one.page.get_by_label("Plied so far", exact=True).input_value() == "100"
    home = brought_home(one.taken_home, yc.plan_from_data(TWO)).plan
    assert home.plied == Plied(so_far_m=100.0, plying_tare_g=80.0)


def test_an_end_that_cannot_be_says_what_could(phone):
    one = (
        phone(TWO).go("Ply").fill("Plied so far", "100").tap("The single of bobbin 1 ran out here")
    )
    one.fill("The single of bobbin 1 ran out after", "900")
    assert "No other single reaches so far; the longest ends after 240.0 m of yarn" in one.text
    assert offered(one) == []


def test_names_from_the_right_stand_by_themselves(phone):
    one = phone(plan_of("כחול", "أخضر", "Kelp")).go("Ply").fill("Plied so far", "60")
    one.tap("The single of bobbin 2 ran out here")
    inside = one.page.locator(".way").first.evaluate(
        "way => [...way.querySelectorAll('bdi')].map(each => each.textContent)"
    )
    assert {"כחול", "أخضر", "Kelp"} >= set(inside) > set()
