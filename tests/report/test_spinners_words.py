"""Sentences that a spinner would not say stand on no page."""

import re

import yarncolor as yc
from tests.helpers.card_reader import answered, card, words
from tests.helpers.strategies import by_hand
from yarncolor.report.comparison_text import difference_sentences
from yarncolor.report.csv_json import weigh_out_csv

NOT_SAID = re.compile(
    r"[Cc]harts|do not agree|growing triangle|first differ|and so on|say it in the plan|other air"
    r"|called between|over dry"
)
PLAN = by_hand(
    dict.fromkeys(("Kelp", "Foam", "Wrack"), 20.0),
    scheme={"name": "fractal", "divisions": [1, 2, 40]},
    scale={"regain": 0.14},
    bobbins={"count": 1, "capacity_g": 5.0, "plying_capacity_g": 6.0},
    fabric={
        "kind": "triangle",
        "stitches": 7,
        "rows": 400,
        "increases_per_row": 1.0,
        "gauge_stitches": 20.0,
        "gauge_rows": 28.0,
    },
)


def test_no_page_says_what_made_a_spinner_wince():
    found, thin = answered(PLAN), PLAN | {"spinning": {"single_tex": 30.0}}
    for text in (
        yc.summary_text(found),
        words(card(PLAN)),
        yc.show.advice(found).text,
        yc.show.yarn(found).text,
        yc.show.fabric(found).text,
        yc.show.moisture(found).text,
        *difference_sentences({"A": found, "B": answered(thin)}),
    ):
        assert not NOT_SAID.search(text), NOT_SAID.findall(text)


def test_every_page_calls_halves_that_the_scale_shows_unlike_about_halves():
    """46 g on whole grams, a third halved: 7 and 8 g, so neither is half of a third."""
    scheme = {"name": "fractal", "divisions": [1, 2, 4]}
    data = by_hand({"Kelp": 46.0}, scheme=scheme, scale={"step_g": 1.0})
    found = answered(data)
    for text in (
        yc.summary_text(found),
        yc.show.weigh_out(found).text,
        weigh_out_csv(found).decode(),
        words(card(data)),
    ):
        assert text.count("½ of ⅓ of the lot") == text.count("about ½ of ⅓ of the lot") == 2
        assert "about ¼ of ⅓" not in text
    assert "about ⅓ of the lot for each ply" in words(card(data))
