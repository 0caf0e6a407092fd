"""How near the colours of carded fibre may be expected: in summary, notebook, card and mixtures."""

import numpy as np

import yarncolor as yc
from tests.helpers.card_reader import answered, card, short_card, words
from tests.helpers.strategies import by_hand
from yarncolor.colour.mixtures import Pair, Recipe
from yarncolor.report.mixture_words import carded_words, plied_words
from yarncolor.report.show.plan import show_batts
from yarncolor.report.weigh_out_words import reckoned_words

LOTS = by_hand({"Kelp": 24.0, "Foam": 24.0}, scheme={"name": "matched"})
CARDED = {**LOTS, "lots": [*LOTS["lots"], {"name": "Wrack", "blend": {"Kelp": 2, "Foam": 1},
                                           "mass_g": 18.0}]}  # fmt: skip
PAIR = Pair(("Kelp", "Foam"), np.array([[35.0, -10, 20], [88, 0, 5]]))


def test_beside_each_batt_and_once_what_the_number_is():
    summary = yc.summary_text(answered(CARDED))
    (batt,) = [line for line in summary.splitlines() if line.startswith("  Wrack: 12.0 g of Kelp")]
    near = batt.partition("; its colour within about ")[2]
    assert 1 <= int(near) < 20
    assert str(reckoned_words("what is carded", float(near))) in summary
    told = show_batts(answered(CARDED))
    assert f"within about {near}" in told.text
    assert str(reckoned_words("what is carded", float(near))) in told.html


def test_on_paper_without_a_number():
    for page in (card(CARDED), short_card(CARDED)):
        assert "Carded colours are reckoned, and may come out a shade off" in words(page)


def test_nothing_of_it_where_nothing_is_carded():
    found = answered(LOTS)
    assert "reckoned" not in yc.summary_text(found) + words(card(LOTS))
    assert show_batts(found).text == ""


def test_beside_a_batt_and_a_marl_on_the_bench():
    assert "expect the batt within about" in str(carded_words(PAIR, Recipe()))
    assert "expect" not in str(carded_words(PAIR, Recipe(parts=(1, 0))))
    assert "in measured cloths of two colours it lies 4 away" in str(plied_words(PAIR, Recipe()))
