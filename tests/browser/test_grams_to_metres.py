"""The yarn bench in a real JupyterLab: looking changes nothing, a key press moves the yarn."""

import pytest

from tests.helpers.browser import write_notebook

pytestmark = pytest.mark.browser
BENCH = "import yarncolor as yc\nbench = yc.bench.yarn('../sample_data/slack_water.toml')\nbench"
ASK = "bench.bench.editor.can_undo"


@pytest.fixture
def page(opened, lab):
    _, folder = lab
    write_notebook(folder / "notebooks", "bench.ipynb", BENCH, ASK)
    page = opened("bench.ipynb")
    page.wait_for_selector(".widget-hslider", timeout=60_000)
    page.wait_for_function("document.querySelector('.widget-image').naturalWidth > 900")
    return page


def said(page):
    return page.locator(".yc-says-picture", has_text="as plied").inner_text()


def ask(page):
    """Run the second cell again and return what it says."""
    page.locator(".jp-CodeCell").nth(1).click()
    page.keyboard.press("Control+Enter")
    page.wait_for_timeout(1000)
    return page.locator(".jp-CodeCell").nth(1).locator(".jp-OutputArea-output").inner_text()


def test_looking_at_the_bench_changes_nothing(page):
    """A browser snaps a slider to its step, and may tell of that as of a move."""
    page.wait_for_timeout(1500)
    assert ask(page) == "False"
    assert page.problems == []


def test_a_key_press_moves_the_yarn_its_picture_and_its_words(page):
    image = page.locator(".widget-image").first
    before, told = image.get_attribute("src"), said(page)
    slider = page.locator(".widget-hslider", has_text="twist of the singles")
    slider.locator(".noUi-handle").focus()
    for _ in range(10):
        page.keyboard.press("ArrowRight")
    page.wait_for_function("src => document.querySelector('.widget-image').src !== src", arg=before)
    page.wait_for_function("document.body.innerText.includes('singles with 9.0 turns')")
    assert said(page) != told
    assert ask(page) == "True"
    assert page.problems == []


def test_every_control_has_its_name_beside_it(page):
    labels = page.locator(".widget-hslider label, .widget-dropdown label").all_inner_texts()
    assert len(labels) == 9
    assert all(label.strip() for label in labels)
    assert len(set(labels)) == len(labels)
