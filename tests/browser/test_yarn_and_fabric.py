"""The bench of pictures in a real JupyterLab: a key slides along the yarn, the picture follows."""

import pytest

from tests.helpers.browser import write_notebook

pytestmark = pytest.mark.browser
BENCH = "import yarncolor as yc\nyc.bench.picture('../sample_data/slack_water.toml', 'out')"


@pytest.fixture
def page(opened, lab):
    _, folder = lab
    write_notebook(folder / "notebooks", "pictures.ipynb", BENCH)
    page = opened("pictures.ipynb")
    page.wait_for_selector(".widget-hslider", timeout=60_000)
    page.wait_for_function("document.querySelector('.widget-image').naturalWidth > 900")
    return page


def shown(page):
    return page.locator(".widget-image").first.get_attribute("src")


def test_a_key_slides_along_the_yarn(page):
    before = shown(page)
    assert "24 mm of the yarn from 45.54 m on" in page.inner_text("body")
    page.locator(".widget-hslider", has_text="looked at from").locator(".noUi-handle").focus()
    for _ in range(5):
        page.keyboard.press("PageUp")
    page.wait_for_function("src => document.querySelector('.widget-image').src !== src", arg=before)
    page.wait_for_function("!document.body.innerText.includes('24 mm of the yarn from 45.54 m on')")
    assert page.problems == []


def test_another_picture_brings_its_own_controls(page):
    page.locator(".widget-hslider", has_text="stitches cast on").wait_for(state="hidden")
    page.locator(".widget-dropdown", has_text="picture").locator("select").select_option("knitted")
    page.wait_for_function("document.body.innerText.includes('knitted from the top down')")
    page.locator(".widget-hslider", has_text="stitches cast on").wait_for(state="visible")
    page.locator(".widget-hslider", has_text="length seen").wait_for(state="hidden")
    assert page.problems == []
