"""Mixtures, yarn and fabric in the app view: keys reach all, and what was chosen stays."""

import pytest

from tests.helpers.browser import go_to, ready

pytestmark = pytest.mark.browser


@pytest.fixture
def page(app_page):
    return app_page


def says(page, words):
    page.wait_for_function("words => document.body.innerText.includes(words)", arg=words)


def mix(page, **parts):
    """Choose two lots and their parts, whatever was chosen on this page before."""
    for which, lot in zip(("first lot", "second lot"), parts, strict=True):
        page.locator(".widget-dropdown", has_text=which).locator("select").select_option(lot)
    for lot, part in parts.items():
        field = page.get_by_label(f"parts of {lot}")
        field.fill(str(part))
        field.press("Tab")
    for unfolded in page.get_by_role("button", name="Hide finer settings").all():
        unfolded.click()


def test_parts_are_typed_and_finer_settings_are_unfolded_by_key(page):
    go_to(page, "Mixtures")
    mix(page, Gull=1, Slate=1)
    says(page, "1 part Gull to 1 part Slate: 50% and 50%")
    parts = page.get_by_label("parts of Gull")
    parts.fill("3")
    parts.press("Tab")
    says(page, "3 parts Gull to 1 part Slate: 75% and 25%")
    page.get_by_text("fibre constant M").wait_for(state="hidden")
    page.get_by_role("button", name="Show finer settings").focus()
    page.keyboard.press("Enter")
    page.get_by_text("fibre constant M").wait_for(state="visible")
    assert page.problems == []


def test_a_bench_follows_the_plan_when_it_is_seen_again_and_keeps_what_was_chosen(page):
    go_to(page, "Yarn and fabric")
    says(page, "24 mm of the yarn")
    choose = page.locator(".widget-dropdown", has_text="picture").locator("select")
    choose.select_option("wraps on a card")
    says(page, "on a card")
    says(page, "Colours: Slate,")
    go_to(page, "Colour order")
    ready(page)
    page.get_by_label("place of Slate").focus()
    page.keyboard.press("Home")
    page.wait_for_function("document.querySelector('.yc .chips button span').innerText === 'Slate'")
    page.wait_for_timeout(500)
    go_to(page, "Yarn and fabric")
    says(page, "on a card")
    says(page, "Colours: Rock Pool,")
    assert choose.input_value() == "wraps on a card"
    assert page.problems == []


def test_a_slider_s_number_is_seen_on_a_phone(page):
    page.set_viewport_size({"width": 360, "height": 740})
    for section, label in (("Mixtures", "one turn of ply twist"), ("Yarn and fabric", "from how")):
        go_to(page, section)
        number = page.locator(".widget-hslider", has_text=label).locator(".widget-readout")
        number.wait_for(state="visible")
        box = number.bounding_box()
        assert box["x"] + box["width"] <= 360
