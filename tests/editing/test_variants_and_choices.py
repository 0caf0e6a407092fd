"""The same stash spun another way, by name and by choosers."""

import pytest

import yarncolor as yc
from tests.helpers.paths import SAMPLES
from tests.helpers.strategies import DIVIDING
from yarncolor.editing.choices import changed, choice_of, chosen, idle, in_few_words
from yarncolor.editing.variants import ORDERS
from yarncolor.phrases import MIXED

each_sample = pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)


def plan_of(scheme: dict | None = None, **tables):
    lots = [
        {"name": "Kelp", "colour": "#303030", "mass_g": 10.0},
        {"name": "Foam", "colour": "#f0f0f0", "mass_g": 10.0},
        {"name": "Rust", "colour": "#a05030", "mass_g": 10.0},
    ]
    return yc.plan_from_data({"lots": lots, "scheme": scheme or {}, **tables})


FRACTAL = {"name": "fractal", "divisions": [1, 3]}


@each_sample
def test_a_variant_without_a_wish_is_the_plan(path):
    plan = yc.read_plan(path)
    assert yc.variant(plan) == plan
    assert chosen(plan, choice_of(plan)) == plan


@each_sample
@pytest.mark.parametrize("scheme", DIVIDING)
@pytest.mark.parametrize("order", ORDERS)
def test_every_scheme_can_be_spun_in_every_order(path, scheme, order):
    plan = yc.read_plan(path)
    if plan.braid is not None and (scheme == "solid" or order != "as in the plan"):
        with pytest.raises(yc.PlanError, match="braid"):
            yc.variant(plan, scheme, order=order)
        return
    plan = yc.variant(plan, scheme, order=order)
    assert plan.scheme.name == scheme
    assert yc.answer(plan).layout.stretches.yarn_m > 0


@pytest.mark.parametrize(
    ("order", "names"),
    [
        ("as in the plan", None),
        ("reversed", ("Rust", "Foam", "Kelp")),
        ("by lightness", ("Foam", "Rust", "Kelp")),
        ("begin one place on", ("Foam", "Rust", "Kelp")),
    ],
)
def test_orders(order, names):
    assert yc.variant(plan_of(), order=order).scheme.sequence == names


def test_the_parts_of_places_go_along_with_them():
    plan = plan_of({"sequence": ["Kelp", "Foam", "Kelp", "Rust"], "parts": [3, 1, 1, 1]})
    scheme = yc.variant(plan, order="reversed").scheme
    assert scheme.sequence == ("Rust", "Kelp", "Foam", "Kelp")
    assert scheme.parts == (1, 1, 1, 3)


def test_an_order_that_there_is_not_is_told_with_those_there_are():
    with pytest.raises(yc.PlanError, match='order = "revers": give one of as in the plan, rev'):
        yc.variant(plan_of(), order="revers")


def test_the_last_winding_named_holds_for_all_that_are_left():
    assert yc.variant(plan_of(), wound_off=[1, 0]).plying.wound_off == (1, 0, 0)
    assert yc.variant(plan_of(), wound_off=1).plying.wound_off == 1
    assert yc.variant(plan_of(), "chain", wound_off=[1, 0]).plying.wound_off == (1,)
    assert yc.variant(plan_of(), plies=5, wound_off=[0, 1]).plying.wound_off == (0, 1, 1, 1, 1)


def test_a_solid_plan_under_another_scheme_spins_the_solid_lot_too():
    solid = plan_of({"name": "solid", "solid_lot": "Foam", "sequence": ["Rust", "Kelp"]})
    found = yc.answer(yc.variant(solid, "matched"))
    assert found.leftovers == ()
    kept = yc.variant(solid, "matched", sequence=["Rust", "Kelp"])
    assert kept.scheme.sequence == ("Rust", "Kelp")


def test_a_gradient_with_carded_steps_becomes_free_without_them():
    gradient = plan_of({"name": "gradient", "plies": 2, "blend_steps": 2})
    portions = yc.variant(gradient, "free").scheme.portions
    assert [(each.ply, each.lot, each.mass_g) for each in portions] == [
        (ply, lot, pytest.approx(5.0)) for ply in (1, 2) for lot in ("Kelp", "Foam", "Rust")
    ]


def test_the_choice_of_a_plan_says_what_choosers_say():
    choice = choice_of(plan_of(FRACTAL, plying={"wound_off": [0, 1]}))
    assert (choice.scheme, choice.plies, choice.divisions) == ("fractal", 2, "1, 3")
    assert (choice.closing, choice.winding, choice.order) == ("keep", MIXED, "as in the plan")


def test_times_through_follow_the_plies():
    plan = plan_of(FRACTAL)
    three = changed(plan, choice_of(plan), "plies", 3)
    assert three.divisions == "1, 3, 6"
    assert changed(plan, three, "plies", 2).divisions == "1, 3"


def test_a_choice_keeps_what_was_chosen_before():
    plan = plan_of(FRACTAL)
    choice = choice_of(plan)
    wishes = (("divisions", "2, 5"), ("closing", "share"), ("winding", "wound off once"))
    for key, value in (*wishes, ("order", "reversed"), ("scheme", "matched")):
        choice = changed(plan, choice, key, value)
    back = changed(plan, choice, "scheme", "fractal")
    assert (back.divisions, back.closing) == ("2, 5", "share")
    made = chosen(plan, back)
    assert made.scheme.divisions == (2, 5)
    assert made.scheme.sequence == ("Rust", "Foam", "Kelp")
    assert made.plying.wound_off == 1


def test_after_a_chain_the_plies_are_the_plans_again():
    plan = plan_of({"name": "matched", "plies": 4})
    chain = changed(plan, choice_of(plan), "scheme", "chain")
    assert chain.plies == 3
    assert changed(plan, chain, "scheme", "matched").plies == 4


def test_a_winding_that_no_word_stands_for_can_be_chosen_again():
    plan = plan_of(FRACTAL, plying={"wound_off": [0, 1]})
    once = changed(plan, choice_of(plan), "winding", "wound off once")
    assert chosen(plan, once).plying.wound_off == 1
    assert chosen(plan, changed(plan, once, "winding", MIXED)).plying.wound_off == (0, 1)


def test_what_cannot_be_spun_is_refused():
    plan = plan_of(FRACTAL)
    with pytest.raises(yc.PlanError, match="whole number of repeats"):
        changed(plan, choice_of(plan), "divisions", "once, twice")


@pytest.mark.parametrize(
    ("scheme", "off"),
    [
        ("fractal", set()),
        ("matched", {"divisions", "closing"}),
        ("chain", {"divisions", "closing", "plies"}),
        ("free", {"divisions", "closing", "plies", "order"}),
    ],
)
def test_choosers_that_say_nothing_are_known(scheme, off):
    assert idle(choice_of(yc.variant(plan_of(), scheme))) == off


def test_a_choice_in_a_few_words():
    plan = plan_of(FRACTAL)
    assert in_few_words(choice_of(plan)) == "fractal, 2 plies"
    once = changed(plan, choice_of(plan, "reversed"), "winding", "wound off once")
    assert in_few_words(once) == "fractal, 2 plies, reversed, wound off once"
    assert in_few_words(choice_of(yc.variant(plan, plies=1))) == "fractal, one single"
