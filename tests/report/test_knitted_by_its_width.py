"""A piece that is said by its width: what was guessed is called a guess wherever it is read."""

import pytest

import yarncolor as yc

LOTS = [{"name": "Kelp", "colour": "#345", "mass_g": 100}]


def told(**fabric):
    """Return the summary and the table of the fabric of a plan of one lot."""
    data = {"lots": LOTS, "fabric": fabric, "spinning": {"single_m_per_g": 10}}
    answer = yc.answer(yc.plan_from_data(data))
    return " ".join(yc.summary_text(answer).split()), str(yc.show.fabric(answer))


def test_a_guessed_gauge_is_called_a_guess():
    summary, table = told(width_cm=150, rows=20)
    assert "150 cm wide" in summary
    assert "give or take 25% by a guess at the gauge" in summary
    assert "a guess until you knit a swatch: 26 stitches in 10 cm" in summary
    assert "26, a guess by the yarn’s thickness until you knit a swatch" in table


@pytest.mark.parametrize(
    "counted", [{"gauge_stitches": 20}, {"swatch": {"stitches": 20, "rows": 20, "mass_g": 3.0}}]
)
def test_a_gauge_that_was_counted_or_follows_from_a_swatch_is_none(counted):
    summary, table = told(width_cm=150, rows=20, **counted)
    assert "guess" not in summary + table
    assert "150 cm wide" in summary


def test_a_triangle_is_as_wide_from_tip_to_tip_as_was_said():
    summary, _ = told(kind="triangle", width_cm=150, gauge_stitches=20)
    assert "150 cm from tip to tip, last row" in summary


def test_without_a_width_the_page_asks_for_it_in_words():
    _, table = told()
    assert "how wide it is to be" in table
    assert "[" not in table
    assert "_" not in table
