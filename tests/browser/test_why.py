"""Figures that answer why, under real fingers: by keyboard, whole on a small screen, readable."""

import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.helpers.browser import DARK, go_to, ready, still

pytestmark = pytest.mark.browser

ROOM = """() => {
  const told = document.querySelector('.why[open] > div');
  told.scrollIntoView({ block: 'nearest' });
  const at = told.getBoundingClientRect();
  const seen = document.elementFromPoint(at.left + 20, at.bottom - 8);
  return [at.left, innerWidth - at.right, innerHeight - at.bottom, told.contains(seen) - 1];
}"""
"""How much room there is beside what is told and below it; -1 at last where its end is covered."""


@pytest.fixture
def page(app_page):
    return ready(app_page)


def test_a_figure_answers_by_keyboard_and_another_takes_its_place(page):
    go_to(page, "In numbers")
    first = page.locator(".why summary[aria-label='why 579 m?']")
    first.focus()
    page.keyboard.press("Enter")
    told = page.locator(".why[open] > div")
    assert "length as plied = shortest single " in told.inner_text()
    assert " = 578.9 m" in told.inner_text()
    assert "Surer: " in told.inner_text()
    page.keyboard.press("Tab")
    page.keyboard.press("Space")
    assert page.locator(".why[open]").count() == 1
    assert "5 yarns in 100" in told.inner_text()
    assert page.problems == []


AS_OPENED = """() => new Promise(told => requestAnimationFrame(() => requestAnimationFrame(
  () => told(document.querySelector('.yc.band').offsetHeight))))"""
"""Its height once it has been drawn open; what is told comes later, into room that is there."""


def test_the_yarn_in_sight_says_why_when_it_is_asked_in_room_that_is_there(page):
    band = page.locator(".yc.band")
    page.wait_for_function("document.querySelector('.yc.band .foot').innerText.includes('579 m')")
    still(page)
    closed = band.bounding_box()["height"]
    band.locator("summary").press("Enter")
    high = page.evaluate(AS_OPENED)
    told = band.locator(".why[open] > div")
    told.get_by_text("length as plied = shortest single ").wait_for()
    assert "Where from: " in told.inner_text()
    assert closed < band.bounding_box()["height"] == high
    for wide in (1440, 360):
        page.set_viewport_size({"width": wide, "height": 800})
        still(page)
        assert min(page.evaluate(ROOM)) > -1
        assert page.evaluate("document.documentElement.scrollWidth") == wide
        found = Axe().run(page, ".yc.band").response["violations"]
        assert [(each["id"], each["nodes"][0]["html"][:120]) for each in found] == [], wide
    page.keyboard.press("Enter")
    assert page.problems == []


@pytest.mark.parametrize("section", ["Weigh-out", "In numbers", "Grist and twist"])
def test_what_is_told_is_whole_on_a_small_screen_and_readable(page, section):
    go_to(page, section)
    page.set_viewport_size({"width": 360, "height": 800})
    page.wait_for_selector("th .why, td .why")
    still(page)
    page.locator(".why summary").last.focus()
    page.keyboard.press("Enter")
    still(page)
    assert min(page.evaluate(ROOM)) > -1  # browsers round
    assert page.evaluate("document.documentElement.scrollWidth") == 360
    for theme in ("light", "dark"):
        if theme == "dark":
            page.evaluate(DARK)
        found = Axe().run(page, ".why").response["violations"]
        assert [(each["id"], each["nodes"][0]["html"][:120]) for each in found] == [], theme


@pytest.mark.parametrize("section", ["What hands do", "At the plying wheel"])
def test_sentences_answer_once_at_their_end_by_keyboard_and_readable(page, section):
    go_to(page, section)
    asked = page.get_by_text("Why these figures?").and_(page.locator("summary:visible")).first
    asked.wait_for()
    still(page)
    asked.focus()
    page.keyboard.press("Enter")
    told = page.locator(".why.these[open] > div")
    assert "Where from: " in told.inner_text()
    assert "Surer: " in told.inner_text()
    page.set_viewport_size({"width": 360, "height": 800})
    still(page)
    assert page.evaluate("document.documentElement.scrollWidth") == 360
    for theme in ("light", "dark"):
        if theme == "dark":
            page.evaluate(DARK)
        found = Axe().run(page, ".why").response["violations"]
        assert [(each["id"], each["nodes"][0]["html"][:120]) for each in found] == [], theme
    assert page.problems == []
