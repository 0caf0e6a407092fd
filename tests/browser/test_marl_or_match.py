"""Plans side by side in a real JupyterLab: one column changes, picture and sentence follow."""

import re

import pytest

from tests.helpers.browser import notebook

pytestmark = pytest.mark.browser


@pytest.fixture
def page(opened):
    page = opened(notebook("marl_or_match"))
    page.wait_for_selector(".widget-dropdown", timeout=90_000)
    page.wait_for_function(
        "[...document.querySelectorAll('.widget-image')].filter(i => i.naturalWidth > 300)"
        ".length === 3"
    )
    return page


def bench_says(page, words: str) -> None:
    page.wait_for_selector(f".widget-html li:has-text('{words}')")


def sources(page) -> list[str]:
    return page.evaluate("[...document.querySelectorAll('.widget-image')].map(i => i.src)")


def test_a_scheme_is_chosen_in_one_column_and_picture_and_sentence_follow(page):
    errors = []
    page.on("console", lambda said: errors.append(said.text) if said.type == "error" else None)
    bench_says(page, "A is matched over 5% of its length, B all along, C nowhere.")
    before = sources(page)
    tops = page.evaluate(
        "[...document.querySelectorAll('.widget-image')].map(i => i.getBoundingClientRect().top)"
    )
    assert max(tops) - min(tops) < 2
    page.get_by_label("A: scheme").select_option("matched")
    bench_says(page, "A and B are matched all along, C nowhere.")
    page.wait_for_function(
        "src => document.querySelector('.widget-image').src !== src", arg=before[0]
    )
    assert page.get_by_label("A: times through").is_disabled()
    assert page.problems == []
    assert errors == []


def test_the_sheet_is_written_beside_the_notebook(page, lab):
    _, folder = lab
    page.click("button:text-is('Write the comparison sheet')")
    page.wait_for_selector("[role=status]:has-text('Written: ')")
    assert (folder / "notebooks" / "out" / "marl_or_match" / "comparison.pdf").exists()


def test_two_columns_leave_two_pictures(page):
    page.click("button:text-is('two columns')")
    bench_says(page, "A is matched over 5% of its length, B all along.")
    page.wait_for_function(
        "[...document.querySelectorAll('.widget-image')].filter(i => i.offsetWidth > 0)"
        ".length === 2"
    )


def test_links_lead_from_page_to_page(page):
    page.locator("a:text-is('Blends, baths and distance')").last.click()
    page.wait_for_selector(".lm-TabBar-tabLabel:text-is('04_blends_baths_and_distance.ipynb')")
    assert not [
        url for url in page.asked if not re.match(r"(http://127\.0\.0\.1|data:|blob:)", url)
    ]
