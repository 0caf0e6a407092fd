"""How even one is, chosen with keys alone; rules of accessibility and a narrow screen."""

import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.helpers.browser import go_to, still

pytestmark = pytest.mark.browser


@pytest.fixture
def page(app_page):
    go_to(app_page, "What hands do")
    app_page.get_by_text("How even are you?").first.wait_for()
    still(app_page)
    return app_page


def test_the_single_that_looks_like_one_s_own_is_chosen_by_keys(page):
    even = page.get_by_label("very even")
    even.focus()
    page.keyboard.press("Space")
    page.get_by_text("3.0").first.wait_for()
    page.keyboard.press("ArrowDown")
    page.get_by_text("8.0").first.wait_for()
    assert page.get_by_label("fairly even").is_checked()
    assert page.problems == []


def test_the_section_passes_the_rules_of_accessibility(page):
    found = Axe().run(page, ".jupyter-widgets").response["violations"]
    told = [(each["id"], [node["html"][:120] for node in each["nodes"]]) for each in found]
    assert [one for one in told if one[0] not in ("region", "page-has-heading-one")] == []


def test_on_a_narrow_screen_nothing_stands_out(page):
    before = page.viewport_size
    page.set_viewport_size({"width": 360, "height": 800})
    try:
        still(page)
        wide = page.evaluate("document.documentElement.scrollWidth")
        assert wide <= 360
    finally:
        page.set_viewport_size(before)
