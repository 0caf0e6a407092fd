"""Units are chosen in the plan's bar: every section follows, and what is typed is in them."""

from pathlib import Path

import pytest

from tests.helpers.metric_words import metric_words
from yarncolor import plan_from_data
from yarncolor.editing.editor import Editor
from yarncolor.widgets.lots.lots_bench import LotsBench
from yarncolor.widgets.options.options_bench import OptionsBench
from yarncolor.widgets.plan_bar import PlanBar
from yarncolor.widgets.spinning.spinning_bench import SpinningBench

pytestmark = pytest.mark.browser
OUNCE_G = 28.349523125
DATA = {
    "lots": [
        {"name": "Kelp", "colour": "#56612d", "mass_g": 50.0, "rolag_g": 7.0},
        {"name": "Foam & <b>Spray</b>", "colour": "#e8e4d8", "mass_g": 40.0},
    ],
    "scheme": {"name": "fractal", "divisions": [1, 2]},
    "bobbins": {"tare_g": 31.5, "capacity_g": 95.0},
}
SEEN = """() => [...document.querySelectorAll('*')]
    .filter(one => one.checkVisibility()).flatMap(one => [
    ...(['STYLE', 'SCRIPT'].includes(one.tagName) ? [] : [...one.childNodes])
        .filter(node => node.nodeType === 3).map(node => node.textContent),
    ...['placeholder', 'aria-label', 'title'].map(name => one.getAttribute(name) ?? ''),
])"""
QUOTED = ("grams and metres", "out of its grams", "whose grams are counted once")
"""What is chosen for the other units, and what is typed of a bath."""


def test_a_plan_is_turned_to_ounces_in_its_bar_and_back_by_undo(bare):
    editor = Editor(plan_from_data(DATA))
    benches = [LotsBench(editor), OptionsBench(editor), SpinningBench(editor)]
    for bench in benches:
        editor.watch(bench.refresh)
    page = bare(PlanBar(editor, Path()), *benches)
    page.get_by_text("More for this plan").click()
    grams = page.get_by_label("grams", exact=True).first
    assert grams.input_value() == "50"
    page.get_by_label("everything is said in").select_option("imperial")
    ounces = page.get_by_label("ounces", exact=True).first
    page.wait_for_function("input => input.value === '1.764'", arg=ounces.element_handle())
    seen = [text for text in page.evaluate(SEEN) if not any(one in text for one in QUOTED)]
    assert [text for text in seen if metric_words(text)] == []
    ounces.fill("1.25")
    ounces.blur()
    page.get_by_text("2 lots, 2.66 oz").wait_for()
    assert editor.plan.lots[0].mass_g == 1.25 * OUNCE_G
    assert editor.plan.lots[1].mass_g == 40.0
    for _ in range(2):
        page.get_by_role("button", name="Undo", exact=True).click()
    page.wait_for_function("input => input.value === '50'", arg=grams.element_handle())
    assert editor.plan == plan_from_data(DATA)


def test_what_is_not_right_yet_is_typed_again_in_the_other_units(bare):
    editor = Editor(plan_from_data(DATA))
    benches = [LotsBench(editor), OptionsBench(editor)]
    for bench in benches:
        editor.watch(bench.refresh)
    page = bare(PlanBar(editor, Path()), *benches)
    page.get_by_text("More for this plan").click()
    kept = page.get_by_label("kept back, g", exact=True).nth(1)
    holds = page.get_by_role("textbox", name="a bobbin holds, g")
    kept.fill("60")
    page.get_by_text("give at most 40 g, the lot's mass").wait_for()
    holds.fill("20000")
    holds.blur()
    page.get_by_label("everything is said in").select_option("imperial")
    page.get_by_text("give at most 1.41 oz, the lot's mass").wait_for()
    ounces = page.get_by_label("kept back, oz", exact=True).nth(1)
    assert (ounces.input_value(), ounces.get_attribute("aria-invalid")) == ("60 g", "true")
    assert page.get_by_role("textbox", name="a bobbin holds, oz").input_value() == "20000 g"
    ounces.fill("2 g")
    ounces.blur()
    page.wait_for_function("input => input.ariaInvalid === 'false'", arg=ounces.element_handle())
    assert [(lot.mass_g, lot.reserve_g) for lot in editor.plan.lots] == [(50.0, 0.0), (40.0, 2.0)]
    assert page.problems == []
