"""The form of every option under real fingers: what is typed stays, faults stand beside it."""

from operator import attrgetter

import pytest

from tests.helpers.browser import DARK
from tests.helpers.paths import SAMPLE_DATA
from yarncolor import plan_from_data
from yarncolor.editing.editor import Editor
from yarncolor.widgets.options.options_bench import OptionsBench

pytestmark = pytest.mark.browser


@pytest.fixture
def new_page(bare):
    """Return the form of a plan of one lot, as one begins."""
    lots = [{"name": "Kelp", "colour": "#345", "mass_g": 100}]
    editor = Editor(plan_from_data({"lots": lots}))
    form = OptionsBench(editor)
    editor.watch(form.refresh)
    page = bare(form)
    page.editor = editor
    return page


def test_treadles_are_typed_before_their_ratio(new_page):
    part = new_page.locator("fieldset.part", has_text="How fast do you spin?").last
    field = part.get_by_label("treadles a minute", exact=True)
    field.fill("60")
    field.press("Tab")
    asked = part.locator(".needed")
    asked.wait_for()
    assert asked.inner_text() == "still needed: turns of the flyer for a treadle"
    assert new_page.locator(".yc .fault:visible").count() == 0
    assert field.input_value() == "60"
    ratio = part.get_by_label("turns of the flyer for a treadle", exact=True)
    ratio.fill("10:1")
    ratio.press("Tab")
    asked.wait_for(state="hidden")
    assert new_page.editor.plan.spinning.treadles_per_min == 60
    assert new_page.editor.plan.spinning.drive_ratio == 10
    assert new_page.problems == []


def test_what_waits_is_put_back_by_itself(new_page):
    part = new_page.locator("fieldset.part", has_text="How fast do you spin?").last
    treadles = part.get_by_label("treadles a minute", exact=True)
    treadles.fill("60")
    treadles.press("Tab")
    back = part.get_by_role("button", name="put back: treadles a minute", exact=True)
    back.click()
    new_page.wait_for_function("at => at.value === ''", arg=treadles.element_handle())
    assert new_page.locator(".yc .needed:visible").count() == 0
    back.wait_for(state="hidden")
    assert not new_page.editor.has_pending
    assert new_page.problems == []


@pytest.mark.parametrize("turned", [False, True])
def test_a_shawl_is_typed_in_any_order_by_its_width(new_page, turned):
    fields = {"how wide, cm; of a triangle its wingspan": "150 cm wide", "rows or rounds": "300"}
    for words, text in reversed(fields.items()) if turned else fields.items():
        field = new_page.get_by_label(words, exact=True)
        field.fill(text)
        field.press("Tab")
        new_page.wait_for_timeout(200)
        assert new_page.locator(".yc .fault:visible").count() == 0
    assert new_page.locator(".yc .needed:visible").count() == 0
    fabric = new_page.editor.plan.fabric
    assert (fabric.width_cm, fabric.rows) == (150, 300)
    gauge = new_page.get_by_label("stitches in 10 cm", exact=True)
    assert "a guess by the yarn’s thickness" in gauge.get_attribute("placeholder")
    new_page.get_by_text("What is assumed where nothing is said").click()
    assert "a guess until you knit a swatch" in new_page.inner_text(".yc details")
    assert new_page.problems == []


@pytest.fixture
def page(bare):
    editor = Editor.opened(SAMPLE_DATA / "slack_water.toml")
    form = OptionsBench(editor)
    editor.watch(form.refresh)
    return bare(form)


def test_an_option_is_typed_and_nonsense_stays_beside_its_words(page):
    field = page.get_by_label("unevenness between portions, %", exact=True)
    field.fill("much")
    field.press("Tab")
    page.wait_for_selector(".yc .fault:has-text('give per cent from 0 to 100')")
    assert field.input_value() == "much"
    field.fill("5,5 %")
    field.press("Tab")
    page.wait_for_function("at => at.value === '5.5'", arg=field.element_handle())
    assert page.locator(".yc .fault:visible").count() == 0


def test_what_is_half_typed_stays_when_the_form_gets_other_fields(page):
    field = page.get_by_label("a bobbin holds, g", exact=True)
    winding = page.get_by_label("winding before plying", exact=True)
    winding.select_option(label="ply by ply")
    field.fill("85")
    page.get_by_label("times wound off, for each ply: 0, 1, 2", exact=True).wait_for()
    assert field.input_value() == "85"
    winding = page.get_by_label("times wound off, for each ply: 0, 1, 2", exact=True)
    assert winding.input_value() == "0, 0, 0"
    assert page.problems == []


def test_nonsense_is_put_back_with_the_keyboard(page):
    field = page.get_by_label("unevenness between portions, %", exact=True)
    before = field.input_value()
    field.fill("much")
    field.press("Tab")
    back = page.get_by_role("button", name="put back: unevenness between portions, %")
    back.wait_for()
    field.focus()
    page.keyboard.press("Tab")
    assert back.evaluate("at => at === document.activeElement")
    page.keyboard.press("Enter")
    back.wait_for(state="hidden")
    assert field.input_value() == before
    assert field.evaluate("at => at === document.activeElement")
    assert page.problems == []


@pytest.mark.parametrize(
    ("words", "typed", "shown"),
    [
        ("metres of yarn", "650 yd", "594.36"),
        ("a bobbin holds, g", "0,1 kg", "100"),
        ("a weighed length of single: m, g", "20 m 2,6 g", "20, 2.6"),
    ],
)
def test_a_value_says_its_unit_and_is_taken_at_its_word(page, words, typed, shown):
    field = page.get_by_label(words, exact=True)
    field.fill(typed)
    field.press("Tab")
    page.wait_for_function("([at, text]) => at.value === text", arg=[field.element_handle(), shown])
    assert page.locator(".yc .fault:visible").count() == 0
    assert page.problems == []


def test_a_weighed_length_that_is_half_typed_says_how_it_is_typed(page):
    field = page.get_by_label("a weighed length of single: m, g", exact=True)
    field.fill("20 m")
    field.press("Tab")
    fault = page.locator(".yc .fault:visible")
    fault.wait_for()
    assert fault.locator("span").inner_text() == (
        "give a length and what it weighs, as in “20 m 2.6 g”"
    )
    assert page.get_by_role("status").inner_text() == (
        "Not in the plan, because something there is not right: “a weighed length of single: m, g”."
    )


def test_no_word_of_the_form_is_a_key_or_a_formula(page):
    page.locator(".yc fieldset").first.wait_for()
    said = page.inner_text(".yc .groups")
    for wince in ("√", "_", "helices", "sequence closes", "dry mass", "[fabric]"):
        assert wince not in said, wince


def test_a_length_where_grams_belong_is_told_in_plain_words(page):
    field = page.get_by_label("a bobbin holds, g", exact=True)
    field.fill("650 yd")
    field.press("Tab")
    page.wait_for_selector(".yc .fault:has-text('650 yd is a length; give grams')")
    assert field.input_value() == "650 yd"


CONTRAST = """at => {
  const numbers = (css) => css.match(/[\\d.]+/g).map(Number);
  const ink = numbers(getComputedStyle(at, "::placeholder").color);
  const ground = numbers(getComputedStyle(at).backgroundColor);
  const mixed = ground.slice(0, 3).map((value, n) => value + (ink[n] - value) * (ink[3] ?? 1));
  const light = (colour) => colour.slice(0, 3).map((value) => value / 255)
    .map((value) => (value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4))
    .reduce((sum, value, n) => sum + value * [0.2126, 0.7152, 0.0722][n], 0);
  const [low, high] = [light(mixed), light(ground)].sort((one, other) => one - other);
  return (high + 0.05) / (low + 0.05);
}"""


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_an_empty_field_shows_and_tells_what_is_used(page, theme):
    field = page.get_by_label("single, m in a gram", exact=True)
    field.wait_for()
    if theme == "dark":
        page.evaluate(DARK)
    assert field.get_attribute("placeholder") == "8.7 from your weighed 20 m"
    described = field.evaluate(
        "at => at.getAttribute('aria-describedby').split(' ')"
        ".map((id) => document.getElementById(id).textContent).join('')"
    )
    assert described == "left empty: 8.7 from your weighed 20 m"
    assert field.evaluate(CONTRAST) >= 4.5
    winding = page.get_by_label("winding before plying", exact=True)
    assert winding.evaluate("at => at.selectedOptions[0].textContent") == (
        "straight from the bobbin (usual)"
    )


@pytest.mark.parametrize(
    ("words", "text", "seen", "stored"),
    [
        ("a bobbin holds, g", "4 1/2 oz", "4 1/2 oz", ("bobbins.capacity_g", 4.5 * 28.349523125)),
        ("stitches cast on", "1,200 sts", "1200", ("fabric.stitches", 1200)),
        ("lost in spinning, %", "7½ %", "7.5", ("spinning.spin_loss", 0.075)),
    ],
)
def test_a_unit_is_typed_and_what_was_typed_is_seen(new_page, words, text, seen, stored):
    field = new_page.get_by_label(words, exact=True)
    field.fill(text)
    field.press("Tab")
    new_page.wait_for_function(
        "([at, text]) => at.shown === text", arg=[field.element_handle(), seen]
    )
    assert field.input_value() == seen
    of, value = stored
    assert attrgetter(of)(new_page.editor.plan) == pytest.approx(value, rel=1e-15)
    assert new_page.locator(".yc .fault:visible").count() == 0
    assert new_page.problems == []
