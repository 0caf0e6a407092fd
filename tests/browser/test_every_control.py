"""Every section of the app page, as a screen reader is told of it: names, states, reasons."""

import pytest

from tests.helpers.browser import go_to
from tests.helpers.sections import SECTIONS

pytestmark = pytest.mark.browser

HANDLED = {
    *("button", "checkbox", "radio", "slider", "spinbutton", "switch", "tab"),
    *("textbox", "searchbox", "combobox", "listbox", "ColorWell", "DisclosureTriangle"),
    *("link", "image", "img", "region"),
}
"""Roles of what is pressed, typed into, chosen, dragged or looked at."""
STANDS = "document.querySelector('.yc-stage').parentElement.nextElementSibling.firstElementChild"
"""The section that is seen."""
UNFOLD = """() => {
  document.querySelectorAll('details').forEach(each => { each.open = true; });
  [...document.querySelectorAll('.yc-fold')]
    .filter(each => each.offsetParent && !each.classList.contains('mod-active'))
    .filter(each => !('unfolded' in each.dataset))
    .forEach(each => { each.dataset.unfolded = ''; each.click(); });
}"""
"""Opens what is folded: once, however late its program answers."""
STATELESS = """() => [...document.querySelectorAll(
  '.widget-toggle-button, .widget-toggle-buttons button, .yc .place button')]
  .filter(each => each.offsetParent && !['true', 'false'].includes(
    each.getAttribute('aria-pressed') ?? each.getAttribute('aria-expanded')))
  .map(each => each.innerText)"""
PRESSED = """() => [...document.querySelectorAll('.widget-toggle-buttons button')]
  .filter(each => each.classList.contains('mod-active') !==
    (each.getAttribute('aria-pressed') === 'true'))
  .map(each => each.innerText)"""


def told_of(page) -> list[dict]:
    """Return what the browser tells of each control: role, name, and what is said of its state."""
    tree = page.context.new_cdp_session(page).send("Accessibility.getFullAXTree")["nodes"]
    return [
        {
            "role": node["role"]["value"],
            "name": node.get("name", {}).get("value", "").strip(),
            "says": node.get("description", {}).get("value", "").strip(),
            **{each["name"]: each["value"].get("value") for each in node.get("properties", [])},
        }
        for node in tree
        if not node.get("ignored") and node.get("role", {}).get("value") in HANDLED
    ]


def lacking(told) -> list[dict]:
    """Return what has no name, and what is greyed and does not say why."""
    return [
        each for each in told if not each["name"] or (each.get("disabled") and not each["says"])
    ]


def see(page, section) -> None:
    """Go to a section and wait until it stands where another one stood."""
    if page.locator(".widget-toggle-buttons .mod-active").first.inner_text() != section:
        page.evaluate(f"({STANDS}).dataset.before = ''")
        go_to(page, section)
        page.wait_for_function(f"({STANDS}) && ({STANDS}).dataset.before === undefined")


def settled(page) -> list[dict]:
    """Return what is told as soon as it stays and nothing is lacking; names come after controls."""
    before = None
    for _ in range(60):
        page.evaluate(UNFOLD)
        told = told_of(page)
        if told == before and not lacking(told):
            break
        before = told
        page.wait_for_timeout(250)
    return told


def test_no_section_is_forgotten_here(app_page):
    shown = app_page.locator(".widget-toggle-buttons button").all_inner_texts()
    assert tuple(shown[: len(SECTIONS)]) == SECTIONS


@pytest.mark.parametrize("section", SECTIONS)
def test_every_control_has_a_name_and_every_greyed_one_a_reason(app_page, section):
    see(app_page, section)
    told = settled(app_page)
    assert len(told) > 15
    assert lacking(told) == []
    app_page.wait_for_function(f"!({STATELESS})().length")
    app_page.wait_for_function(f"!({PRESSED})().length")
    folds = [each for each in told if each["role"] == "DisclosureTriangle"]
    assert all(each.get("expanded") in (True, False) for each in folds)
    assert app_page.problems == []


GROUND = "each => getComputedStyle(each).backgroundColor"


def test_colours_of_lots_stay_where_the_system_forces_its_own(app_page):
    chip = app_page.locator(".yc .chips button").first
    before = chip.evaluate(GROUND)
    app_page.emulate_media(forced_colors="active")
    try:
        assert chip.evaluate(GROUND) == before
        write = app_page.get_by_role("button", name="Write the card")
        assert write.evaluate("each => getComputedStyle(each).borderTopWidth") == "1px"
        sections = app_page.locator(".widget-toggle-buttons button").evaluate_all(
            f"all => all.map(each => [each.classList.contains('mod-active'), ({GROUND})(each)])"
        )
        (pressed,) = {ground for is_pressed, ground in sections if is_pressed}
        assert pressed not in {ground for is_pressed, ground in sections if not is_pressed}
    finally:
        app_page.emulate_media(forced_colors="none")
