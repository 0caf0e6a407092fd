"""The app page for every eye, ear and screen: light or dark, names and states, a phone."""

import pytest

from tests.helpers.browser import go_to, ready, still

pytestmark = pytest.mark.browser

LUMINANCE = """() => [document.body, document.querySelector('.yc.bar')].map(element => {
  const [r, g, b] = getComputedStyle(element).backgroundColor.match(/[\\d.]+/g).map(Number);
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
})"""
CHOOSERS = {
    "Colour order": "scheme",
    "Side by side": "A: scheme",
    "Mixtures": "first lot",
    "Grist and twist": "ply twist chosen",
}
CUT = """() => [...document.querySelectorAll('.widget-dropdown select')].filter(select => {
  if (!select.offsetParent) return false;  // within a fold that is closed
  const room = select.getBoundingClientRect();
  const canvas = document.createElement('canvas').getContext('2d');
  canvas.font = getComputedStyle(select).font;
  const widest = Math.max(...[...select.options].map(each => canvas.measureText(each.text).width));
  return room.left < 0 || room.right > innerWidth || widest > room.width - 30;
}).map(select => select.closest('.widget-dropdown').innerText.slice(0, 60))"""


OVER = """() => {
  const rows = [...document.querySelectorAll('.widget-dropdown, .widget-text')]
    .filter(row => row.offsetParent);
  const parts = rows.flatMap(row => [...row.children].filter(each => each.innerText || each.value));
  const boxes = parts.map(each => [each, each.getBoundingClientRect()]);
  return boxes.filter(([each, box]) => boxes.some(([other, its]) => other !== each
    && box.bottom > its.top + 1 && box.top < its.bottom - 1
    && box.right > its.left + 1 && box.left < its.right - 1)).map(([each]) => each.innerText);
}"""
"""Labels and choosers that lie over one another."""
FLAT = """() => [...document.querySelectorAll('.widget-dropdown select')]
  .filter(select => select.offsetParent && select.getBoundingClientRect().height < 24)
  .map(select => select.closest('.widget-dropdown').innerText.slice(0, 60))"""
"""Choosers less high than a finger's 24 pixels (WCAG 2.2, 2.5.8)."""
FOLDED = """() => [...document.querySelectorAll('button.widget-toggle-button')].filter(
  button => button.offsetParent && button.innerText.startsWith('Show '))"""


def test_the_page_is_dark_where_the_system_is_and_follows_it(visited, app_address):
    page = ready(visited(app_address, color_scheme="dark"))
    assert max(page.evaluate(LUMINANCE)) < 60
    assert page.evaluate("document.body.dataset.jpThemeLight") == "false"
    page.emulate_media(color_scheme="light")
    page.wait_for_function("document.body.dataset.jpThemeLight === 'true'")
    assert min(page.evaluate(LUMINANCE)) > 200


def test_sections_say_which_is_pressed_and_sliders_what_they_are_of(app_page):
    go_to(app_page, "Grist and twist")
    app_page.wait_for_selector(".widget-slider .noUi-handle[aria-label]")
    names = app_page.locator(".widget-slider .noUi-handle").evaluate_all(
        "handles => handles.map(handle => handle.getAttribute('aria-label'))"
    )
    assert all(names)
    assert "plies" in names
    pressed = app_page.locator(".widget-toggle-buttons button[aria-pressed=true]")
    assert pressed.all_inner_texts() == ["Grist and twist"]


def test_undo_says_what_it_takes_back(app_page):
    app_page.locator(".yc .chips button").nth(0).focus()
    app_page.keyboard.press("ArrowRight")
    undo = app_page.get_by_role("button", name="Undo")
    app_page.wait_for_selector("button[title='Undo: the order of the lots']")
    undo.click()
    app_page.wait_for_selector(".yc.bar [role=status]:text-is('Undone: the order of the lots.')")


@pytest.mark.parametrize(("section", "chooser"), CHOOSERS.items())
def test_choosers_are_whole_on_a_phone(app_page, section, chooser):
    go_to(app_page, section)
    app_page.wait_for_selector(f".widget-dropdown:visible label:text-is('{chooser}')")
    app_page.evaluate(f"({FOLDED})().forEach(button => button.click())")
    app_page.wait_for_function(f"!({FOLDED})().length")
    for width in (390, 360):
        app_page.set_viewport_size({"width": width, "height": 800})
        app_page.wait_for_function(f"!({CUT})().length")
        app_page.wait_for_function(f"!({OVER})().length")
        app_page.wait_for_function(f"!({FLAT})().length")


def test_the_chooser_of_the_card_is_as_high_as_a_finger(app_page):
    go_to(app_page, "Files")
    app_page.wait_for_selector(".widget-dropdown:visible label:text-is('the card')")
    app_page.wait_for_function(f"!({FLAT})().length")


def test_the_mark_on_the_strip_stands_clear_of_the_title_above_it(app_page):
    """The mark's head is 11 pixels above the mark, as its style says."""
    go_to(app_page, "Colour order")
    app_page.set_viewport_size({"width": 390, "height": 800})
    still(app_page)
    mark = app_page.locator(".yc .strip .looked").bounding_box()
    title = app_page.locator(".yc .strip").evaluate(
        "each => each.previousElementSibling.getBoundingClientRect().bottom"
    )
    assert mark["y"] - 11 >= title - 2
