"""The section that looks for the best order, under real fingers."""

import pytest

from tests.helpers.browser import go_to

pytestmark = pytest.mark.browser


def test_aims_are_slid_an_order_is_looked_for_and_taken(app_page):
    page = app_page
    go_to(page, "Which order")
    page.get_by_role("button", name="Look for the best order").wait_for()
    slider = page.get_by_role("slider", name="a quiet yarn: plies alike side by side")
    slider.press("ArrowRight")
    page.get_by_role("button", name="Look for the best order").click()
    page.get_by_role("button", name="Spin order 1").wait_for(timeout=60_000)
    page.get_by_text("More of one, less of the other").wait_for(timeout=60_000)
    walk = page.get_by_role("slider", name="walk along the line")
    walk.press("ArrowRight")
    page.get_by_role("button", name="Spin order 1").click()
    page.get_by_text("Undo brings back what was.").first.wait_for()
    assert page.problems == []


def test_it_fits_a_narrow_screen(app_page):
    page = app_page
    page.set_viewport_size({"width": 390, "height": 800})
    try:
        go_to(page, "Which order")
        page.get_by_role("button", name="Look for the best order").wait_for()
        wide = page.evaluate("document.documentElement.scrollWidth")
        assert wide <= 390
    finally:
        page.set_viewport_size({"width": 1300, "height": 900})
