"""Every section of the app page, as a screen reader is told of it: names, states, reasons."""

import pytest

from tests.helpers.browser import go_to

pytestmark = pytest.mark.browser

SECTIONS = (
    "Lots",
    "Colour order",
    "Weigh-out",
    "At the wheel",
    "At the plying wheel",
    "Every option",
    "Grist and twist",
    "Yarn and fabric",
    "In numbers",
    "Side by side",
    "Mixtures",
    "Photographs",
    "Files",
)
HANDLED = {
    *("button", "checkbox", "radio", "slider", "spinbutton", "switch", "tab"),
    *("textbox", "searchbox", "combobox", "listbox", "ColorWell", "DisclosureTriangle"),
    *("link", "image", "img", "region"),
}
"""Roles of what is pressed, typed into, chosen, dragged or looked at."""
UNFOLD = """() => {
  document.querySelectorAll('details').forEach(each => { each.open = true; });
  [...document.querySelectorAll('.yc-fold')]
    .filter(each => each.offsetParent && !each.classList.contains('mod-active'))
    .forEach(each => each.click());
}"""
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


def settled(page) -> list[dict]:
    """Return what is told as soon as nothing is lacking; names come a moment after controls."""
    for _ in range(40):
        told = told_of(page)
        if len(told) > 15 and not lacking(told):
            break
        page.wait_for_timeout(250)
    return told


@pytest.mark.parametrize("section", SECTIONS)
def test_every_control_has_a_name_and_every_greyed_one_a_reason(app_page, section):
    go_to(app_page, section)
    app_page.evaluate(UNFOLD)
    app_page.wait_for_function(f"!({STATELESS})().length")
    app_page.wait_for_function(f"!({PRESSED})().length")
    told = settled(app_page)
    assert len(told) > 15
    assert lacking(told) == []
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
        sections = app_page.locator(".widget-toggle-buttons button").evaluate_all(
            f"all => all.map(each => [each.classList.contains('mod-active'), ({GROUND})(each)])"
        )
        (pressed,) = {ground for is_pressed, ground in sections if is_pressed}
        assert pressed not in {ground for is_pressed, ground in sections if not is_pressed}
    finally:
        app_page.emulate_media(forced_colors="none")
