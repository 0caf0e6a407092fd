"""What hands do, on the bench: three singles to choose from, and the yarn that such hands make."""

import pytest

from tests.helpers.asked import unanswered
from tests.helpers.strategies import by_hand
from yarncolor import plan_from_data
from yarncolor.answers.evenness import ASSUMED, EVENNESS, evenness_of, in_some_hands
from yarncolor.editing.editor import Editor
from yarncolor.widgets.drift_bench import DriftBench

LOTS = {"Kelp": 40.0, "Foam": 60.0, "Slate": 50.0}


def bench(**spinning) -> DriftBench:
    data = by_hand(LOTS, scheme={"name": "matched", "plies": 2}, spinning=spinning)
    return DriftBench(Editor(plan_from_data(data)))


def test_of_a_plan_that_says_nothing_it_is_said_what_is_assumed():
    own = bench()
    assert "is assumed" in own.whose.value
    assert f"{ASSUMED.variation:.0%} between portions" in own.whose.value
    assert own.controls["evenness"].value is None
    assert "one in twenty is shorter" in own.told.value
    for said in (own.whose, own.asked, own.said_yarns, own.said_apart):
        assert said.value.startswith('<p role="status"')
        assert unanswered(said.value) == []
        assert "Why these figures?" in said.value
    assert bytes(own.yarns.value).startswith(b"\x89PNG")
    assert own.editor.plan.spinning.variation is None


@pytest.mark.parametrize("hands", EVENNESS, ids=lambda one: one.name)
def test_the_single_that_looks_like_one_s_own_goes_into_the_plan(hands):
    own = bench()
    own.controls["evenness"].value = hands.name
    assert evenness_of(own.editor.plan) == hands
    assert own.controls["variation"].value == pytest.approx(hands.variation * 100)
    assert "As the plan says" in own.whose.value
    own.editor.undo()
    assert own.editor.plan.spinning.variation is None


def test_what_is_slid_goes_into_the_plan_and_is_none_of_the_three():
    own = bench(variation=0.08, variation_within=0.25)
    assert own.controls["evenness"].value == ASSUMED.name
    before = own.told.value
    own.controls["variation"].value = 12.5
    assert own.editor.plan.spinning.variation == pytest.approx(0.125)
    assert own.controls["evenness"].value == "as the plan says"
    assert own.told.value != before


def test_dividing_by_eye_is_chosen_in_words():
    own = bench(variation=0.05)
    own.controls["divided"].value = "eye"
    assert own.editor.plan.spinning.divided == "eye"
    assert "weigh each portion instead" in own.told.value
    own.controls["divided"].value = "scale"
    assert own.editor.plan.spinning.divided is None


def test_the_bench_follows_a_change_made_elsewhere():
    own = bench(variation=0.05)
    own.editor.change_tables({"spinning": {"variation": 0.2}})
    own.refresh()
    assert own.controls["variation"].value == pytest.approx(20)


def test_of_one_single_it_is_said_that_nothing_falls_apart():
    own = bench(variation=0.05)
    own.editor.change_tables({"scheme": {"plies": 1}})
    own.refresh()
    assert "nothing can fall apart" in own.said_apart.value
    assert own.apart.layout.display == "none"


def test_hands_that_are_known_are_not_assumed():
    own = bench(variation=0.0)
    found, assumed = in_some_hands(own.editor.answer)
    assert found is own.editor.answer
    assert not assumed


def test_what_the_plan_says_cannot_be_chosen_where_it_says_nothing():
    own = bench()
    own.controls["evenness"].value = "as the plan says"
    assert own.controls["evenness"].value is None
    assert own.editor.plan.spinning.variation is None
