"""From a page without a plan to a first yarn of one's own: the ways to it, counted.

What a hand does is counted: a click, one typing into a field, a file that is chosen.
"""

import re

import pytest
from axe_playwright_python.sync_playwright import Axe
from PIL import Image

from tests.helpers.browser import go_to, ready, still
from tests.helpers.hand import Hand
from tests.helpers.page_server import served_without_a_plan
from tests.helpers.sections import SECTIONS
from yarncolor.colour.photo.demo import demo_photo

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("from nothing")]

MOST_ACTIONS = 8
MOST_SHIFT = 0.02
LOTS = "Kelp 27,5 g dark olive green\nFoam 24 g off white\nRust 18 g rust"
NAMES = ["Kelp", "Foam", "Rust"]
FIELD = ".yc-first textarea"
ORDER = "[...document.querySelectorAll('.yc .chips button span')].map((name) => name.innerText)"
DRAWN = """() => [...document.querySelectorAll(".yc.band canvas")].every((canvas) => {
  const { data } = canvas.getContext("2d").getImageData(0, 0, canvas.width, canvas.height);
  return new Set(new Uint32Array(data.buffer)).size > 3;
})"""
SHIFTS = """() => {
  window.shifts = [];
  const own = (list) => list.getEntries().filter((entry) => !entry.hadRecentInput);
  const keep = (list) => window.shifts.push(...own(list).map((entry) => entry.value));
  new PerformanceObserver(keep).observe({ type: "layout-shift" });
}"""
PRESSED = """name => [...document.querySelectorAll(".yc-stage button.mod-active")]
  .some((button) => button.innerText === name)"""
WIDTH = "document.scrollingElement.scrollWidth"
SOME = ("Lots", "Every option", "Yarn and fabric", "Weigh-out", "At the wheel", "Files")


@pytest.fixture(scope="module")
def address(tmp_path_factory, chromium_path):
    with served_without_a_plan(tmp_path_factory.mktemp("nothing")) as there:
        yield there


@pytest.fixture
def page(visited, address):
    page = visited(address)
    page.wait_for_selector(FIELD, timeout=60_000)
    return page


def drawn(page, names):
    ready(page)
    assert page.evaluate(ORDER) == names
    page.wait_for_function(DRAWN)
    assert page.problems == []


def test_no_plan_is_shown_that_nobody_asked_for(page):
    assert page.locator(".yc-bench").count() == 0
    ways = page.locator(".yc-first h2").all_inner_texts()
    assert ways[:3] == ["My lots", "A photograph of them", "An example"]


def test_three_lots_are_typed_and_drawn(page):
    hand = Hand(page)
    hand.type_into(FIELD, LOTS)
    hand.click("Draw the yarn")
    drawn(page, NAMES)
    assert len(hand.actions) <= MOST_ACTIONS


def test_what_is_wrong_with_a_line_is_said_beside_it(page):
    hand = Hand(page)
    hand.type_into(FIELD, "Kelp 27 g\nFoam")
    hand.click("Draw the yarn")
    page.wait_for_selector("[role=status]:has-text('Line 2: give a name')")
    assert page.locator(FIELD).input_value() == "Kelp 27 g\nFoam"


def test_lots_are_typed_and_drawn_by_keys_alone(page):
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.matches('.yc-first textarea')")
    page.keyboard.type(LOTS)
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    drawn(page, NAMES)


def test_lots_are_typed_and_drawn_by_touch_on_a_phone(visited, address):
    phone = visited(address, width=390, height=844, has_touch=True, is_mobile=True)
    phone.wait_for_selector(FIELD, timeout=60_000)
    phone.locator(FIELD).tap()
    phone.keyboard.insert_text(LOTS)
    phone.get_by_role("button", name="Draw the yarn").tap()
    drawn(phone, NAMES)
    assert phone.evaluate("document.documentElement.scrollWidth") <= 390
    phone.get_by_role("button", name="Weigh-out", exact=True).tap()
    phone.wait_for_selector("table:has-text('Rust')")
    still(phone)
    phone.evaluate("window.scrollTo(0, document.body.scrollHeight)")
    still(phone)
    assert phone.locator(".yc.band .whole").bounding_box()["y"] >= 0


@pytest.mark.parametrize(
    "looks",
    [{}, {"color_scheme": "dark"}, {"forced_colors": "active"}],
    ids=["light", "dark", "forced colours"],
)
def test_nothing_sticks_out_at_twice_the_size_and_all_is_named(looks, visited, address):
    """WCAG 2.2, 1.4.10: at 320 pixels, which is 1,280 at four times the size, one rolls one way."""
    page = visited(address, width=320, height=640, **looks)
    page.wait_for_selector(FIELD, timeout=60_000)
    found = Axe().run(page, ".yc-first").response["violations"]
    assert [(each["id"], each["nodes"][0]["html"][:120]) for each in found] == []
    assert page.evaluate(WIDTH) <= 320
    page.locator(FIELD).fill(LOTS)
    page.get_by_role("button", name="Draw the yarn").click()
    ready(page)
    wide = []
    for section in SECTIONS:
        go_to(page, section)
        page.wait_for_function(PRESSED, arg=section)
        still(page)
        if page.evaluate(WIDTH) > 320:
            wide.append(section)
    found = Axe().run(page, ".yc-kept, .yc-stages").response["violations"]
    assert [(each["id"], each["nodes"][0]["html"][:120]) for each in found] == []
    assert wide == []
    assert page.problems == []


def test_a_photograph_of_the_drawer_becomes_a_yarn(page, tmp_path):
    Image.fromarray(demo_photo().srgb).save(tmp_path / "drawer.png")
    hand = Hand(page)
    hand.click("From a photograph")
    hand.choose_file(".yc.photo input[accept='image/*']", tmp_path / "drawer.png")
    page.wait_for_selector(".yc.photo .said:has-text('Opened.')")
    hand.click("Find lots")
    hand.click("Keep all proposed")
    page.wait_for_function("!document.querySelector('.yc.photo button[aria-describedby]').disabled")
    hand.click("Take the colours")
    page.wait_for_selector(".yc.photo .said:has-text('Taken into the plan')")
    hand.click("Colour order")
    drawn(page, [f"Fibre {number}" for number in range(1, 7)])
    assert len(hand.actions) <= MOST_ACTIONS


def test_the_yarn_is_in_sight_in_every_section_and_nothing_jumps(page):
    page.get_by_role("button", name="Look at an example").click()
    ready(page)
    page.wait_for_function(DRAWN)
    page.evaluate(SHIFTS)
    for section in SOME:
        go_to(page, section)
        page.wait_for_function(PRESSED, arg=section)
        still(page)
        page.evaluate("window.shifts.length = 0")  # what was asked for has come, however slowly
        page.mouse.wheel(0, 2000)
        page.wait_for_timeout(100)
        seen = page.locator(".yc.band .whole").bounding_box()
        assert 0 <= seen["y"] < 120, section
        page.mouse.wheel(0, -4000)
        page.wait_for_timeout(900)
        assert sum(page.evaluate("window.shifts")) <= MOST_SHIFT, section


def test_the_band_says_what_it_shows(page):
    page.get_by_role("button", name="Look at an example").click()
    ready(page)
    band = page.locator(".yc.band")
    page.wait_for_function(DRAWN)
    assert band.locator(".whole").get_attribute("aria-label").startswith("The whole yarn: ")
    assert re.fullmatch(
        r"The whole yarn, \d+ m, and 100 mm of it.*", band.locator("p").inner_text()
    )
