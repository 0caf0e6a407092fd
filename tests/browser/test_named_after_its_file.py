"""A plan saved under a name on the page bears that name from then on, wherever a title stands."""

import pytest

from tests.helpers.browser import go_to, ready

pytestmark = pytest.mark.browser

KEEP_THE_SHEET = """() => document.addEventListener("load", ({ target }) => {
  if (target.tagName !== "IFRAME") return;
  target.contentWindow.print = () => { window.printed = target.contentDocument.body.innerText; };
}, true)"""
"""Without a screen no dialog opens: the sheet that would be printed is looked at in its place."""


def printed(page) -> str:
    """Return the card as it would be printed, and forget it."""
    page.get_by_role("button", name="Print the card").click()
    page.wait_for_function("window.printed")
    return page.evaluate(
        "() => { const card = window.printed; delete window.printed; return card; }"
    )


def test_the_card_is_called_after_the_file_once_there_is_one(visited, app, tmp_path):
    first = tmp_path / "first_tide.toml"
    first.write_text('[[lots]]\nname = "Kelp"\ncolour = "dark moss green"\nmass_g = 30\n', "utf-8")
    page = ready(visited(app(first)))
    page.evaluate(KEEP_THE_SHEET)
    go_to(page, "Files")
    assert "First tide" in printed(page)
    page.get_by_text("More for this plan").click()
    page.get_by_label("new name").fill("north-shore shawl")
    page.get_by_role("button", name="Save the plan as").click()
    page.wait_for_selector("[role=status]:has-text('Written: ')")
    card = printed(page)
    assert "North shore shawl" in card
    assert "First tide" not in card
    go_to(page, "Colour order")
    assert page.get_by_text("Untitled plan").count() == 0
    assert page.problems == []
