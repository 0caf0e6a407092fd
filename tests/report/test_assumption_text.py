"""What was taken for granted: facts of a resolved plan, and the sentences made of them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

import yarncolor as yc
from tests.helpers.strategies import EVERY_SCHEME, by_hand, plan_data
from yarncolor.layout.assumptions import Why
from yarncolor.layout.resolved import ResolvedPlan, resolve
from yarncolor.report.assumption_text import plan_sentences


def resolved(**tables) -> ResolvedPlan:
    return resolve(yc.plan_from_data(by_hand({"Kelp": 30.0, "Foam": 60.0}, **tables)))


@pytest.mark.parametrize("scheme", EVERY_SCHEME)
@given(st.data())
def test_sentences_do_not_depend_on_the_order_of_what_is_assumed(scheme, data):
    plan = resolve(yc.plan_from_data(data.draw(plan_data(scheme))))
    said = plan_sentences(plan)
    vars(plan)["assumptions"] = data.draw(st.permutations(plan.assumptions))
    assert plan_sentences(plan) == said


def test_a_default_is_known_by_table_key_value_and_why():
    loss = resolved(spinning={"single_tex": 100.0}).assumed("spinning", "card_loss")
    assert (loss.value, loss.why, loss.by) == (0.0, Why.USUAL, ())
    assert resolved(spinning={"card_loss": 0.1}).assumed("spinning", "card_loss") is None


@pytest.mark.parametrize(
    ("tables", "table", "key", "by"),
    [
        ({"scheme": {"divisions": [1, 4]}}, "scheme", "plies", ("divisions",)),
        ({"scheme": {"name": "solid"}}, "scheme", "solid_lot", ("mass_g",)),
        ({"spinning": {"single_wpi": 28.0}}, "spinning", "single_tex", ("single_wpi",)),
        ({"spinning": {"twist_tpi": 8.0}}, "spinning", "twist_tpm", ("twist_tpi",)),
        ({"plying": {"direction": "S"}}, "spinning", "direction", ("direction",)),
        (
            {"spinning": {"wrapped_skein": {"wpi": 14.0, "m_per_100g": 300.0}}},
            *("spinning", "relaxed_density_g_per_cm3", ("wrapped_skein",)),
        ),
        (
            {"spinning": {"twist_tpm": 300.0}, "plying": {"balance": "two_thirds"}},
            *("plying", "twist_tpm", ("two_thirds",)),
        ),
    ],
)
def test_what_follows_from_other_keys_says_from_which(tables, table, key, by):
    without = {"spinning": {}, "plying": {}, "scheme": {}}
    fact = resolved(**without | tables).assumed(table, key)
    assert (fact.why, fact.by) == (Why.DERIVED, by)


def test_what_is_given_in_vain_is_known_with_the_reason():
    plan = resolved(scheme={"name": "matched", "pieces": 3})
    (idle,) = [fact for fact in plan.assumptions if fact.why is Why.IDLE]
    assert (idle.table, idle.key, idle.value, idle.by) == ("scheme", "pieces", 3, ("matched",))
    assert "“pieces of each lot” changes nothing: the scheme is matched" in plan_sentences(plan)


def test_nothing_is_said_of_what_could_not_be_otherwise():
    of_two = resolved(scheme={"name": "matched"})
    assert "order of the lots: Kelp, Foam" in plan_sentences(of_two)
    of_one = resolve(yc.plan_from_data(by_hand({"Kelp": 30.0}, scheme={"name": "matched"})))
    assert not any("order of the lots" in text for text in plan_sentences(of_one))
