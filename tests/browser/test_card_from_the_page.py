"""The card from the page: one click prints the card itself, another hands it over by its name."""

import pytest

from tests.helpers.browser import go_to
from tests.helpers.paths import SAMPLE_DATA
from yarncolor.editing.editor import Editor
from yarncolor.widgets.card_printer import CardPrinter

pytestmark = pytest.mark.browser

# A card runs no script, so the page around it stands in for the dialog of the card's own window.
INSTEAD_OF_THE_DIALOG = """() => {
  window.printed = [];
  document.addEventListener("load", ({ target }) => {
    if (target.tagName !== "IFRAME") return;
    const sheet = target.contentWindow, card = target.contentDocument;
    sheet.print = () => {
      window.printed.push({
        title: card.title, heading: card.querySelector("h1").innerText, page: document.title,
        rows: card.querySelectorAll("tr.portion").length, keeps: !!card.querySelector(".keep"),
      });
      sheet.dispatchEvent(new Event("afterprint"));
    };
  }, true);
}"""

TELL_WHEN_IT_BEGINS = """() => document.addEventListener("load", ({ target }) => {
  if (target.tagName !== "IFRAME") return;
  target.contentWindow.addEventListener("beforeprint", () => {
    window.began = { sheet: target.contentWindow, title: target.contentDocument.title };
  });
}, true)"""


@pytest.fixture
def files(app_page):
    go_to(app_page, "Files")
    app_page.get_by_role("button", name="Print the card").wait_for()
    return app_page


def printed(page) -> dict:
    """Print the card and return what the dialog was opened on."""
    before = page.evaluate("window.printed.length")
    page.get_by_role("button", name="Print the card").click()
    page.wait_for_function(f"window.printed.length === {before + 1}")
    return page.evaluate("window.printed").pop()


def test_one_click_opens_the_print_dialog_of_the_card(files):
    before = files.title()
    files.evaluate(INSTEAD_OF_THE_DIALOG)
    short = printed(files)
    assert short == {
        "title": "Slack Water card",
        "heading": "Slack Water",
        "page": "Slack Water card",
        "rows": 56,
        "keeps": False,
    }
    files.get_by_label("the card", exact=True).select_option(
        label="long: a page for each bobbin, and one to keep"
    )
    assert printed(files) == short | {"keeps": True}
    assert files.title() == before
    assert files.problems == []
    files.get_by_label("the card", exact=True).select_option(index=0)


def test_a_download_bears_the_plans_name(files):
    with files.expect_download() as handed:
        files.get_by_role("button", name="Download the card").click()
    assert handed.value.suggested_filename == "Slack Water card.html"
    card = handed.value.path().read_text("utf-8")
    assert "<title>Slack Water card</title>" in card


def test_the_browser_itself_begins_to_print_and_the_page_keeps_its_name(bare):
    """Without a screen no dialog opens, but the browser tells what it prints that it begins."""
    editor = Editor.opened(SAMPLE_DATA / "ebb.toml")
    page = bare(CardPrinter(editor, lambda: "short"))
    page.evaluate(TELL_WHEN_IT_BEGINS)
    for _ in range(2):
        page.get_by_role("button", name="Print the card").click()
        page.wait_for_function("window.began?.title === 'Ebb card'")
        assert page.locator("iframe").count() == 1
        page.evaluate("window.began.sheet.dispatchEvent(new Event('afterprint'))")
        assert page.title() == "Bare"
        page.evaluate("window.began = undefined")
