"""The pages of a record in a real browser: nothing is loaded, all is seen, on desk and phone."""

import pytest
from axe_playwright_python.sync_playwright import Axe

import yarncolor as yc
from tests.helpers.paths import TIDELINE

pytestmark = pytest.mark.browser
MADE = """
[made]
length_m = 520.0
mass_g = 180.0
washed_m = 490.0
note = "soft"
"""


@pytest.fixture(scope="module")
def pages(tmp_path_factory):
    """Return the folder of the record of two yarns."""
    folder = tmp_path_factory.mktemp("record")
    text = TIDELINE.read_text(encoding="utf-8") + MADE
    (folder / "first.toml").write_text(text, encoding="utf-8")
    (folder / "second.toml").write_text(text.replace("Tideline", "Neap tide"), encoding="utf-8")
    yarns = yc.record.yarns([folder / "first.toml", folder / "second.toml"])
    yc.record.write(yarns, folder / "out")
    return folder / "out"


@pytest.mark.parametrize("width_px", [1300, 390])
@pytest.mark.parametrize("name", ["first.html", "all-yarns.html"])
def test_a_page_opens_by_itself_and_keeps_to_its_screen(name, width_px, pages, chromium):
    page = chromium.new_page(viewport={"width": width_px, "height": 900})
    asked, told = [], []
    page.on("request", lambda request: asked.append(request.url))
    page.on("console", lambda message: told.append(message.text))
    page.goto((pages / name).as_uri())
    assert [url for url in asked if not url.startswith("data:")] == [(pages / name).as_uri()]
    assert told == []
    pictures = page.locator("img")
    assert pictures.count() >= 1
    assert page.evaluate("[...document.images].every((one) => one.naturalWidth > 100)")
    assert page.evaluate("document.documentElement.scrollWidth") <= width_px
    assert page.locator("h1").is_visible()
    found = Axe().run(page).response["violations"]
    assert [(each["id"], each["nodes"][0]["html"][:120]) for each in found] == []
    page.close()


def test_a_chip_has_its_lots_colour_and_a_name_opens_its_yarn(pages, chromium):
    page = chromium.new_page()
    page.goto((pages / "all-yarns.html").as_uri())
    page.get_by_role("link", name="Neap tide").click()
    assert page.locator("h1").inner_text() == "Neap tide"
    colour = page.locator(".chip").first.evaluate("(one) => getComputedStyle(one).backgroundColor")
    assert colour == "rgb(78, 91, 49)"
    page.close()
