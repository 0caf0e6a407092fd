"""The app view under real fingers: one page, no code, every section, files, saving."""

import json
import re
import time

import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.helpers.browser import DARK, go_to, ready, still
from tests.helpers.sections import SECTIONS
from yarncolor import read_plan

pytestmark = pytest.mark.browser


@pytest.fixture
def page(app_page):
    return app_page


@pytest.fixture
def own_page(plan, visited, app_address):
    """Return a page of the test's own: it saves, or does not leave the page as it was."""
    return ready(visited(app_address))


def order(page) -> list[str]:
    return page.locator(".yc .chips button span").all_inner_texts()


CANVASES = """() => [...document.querySelectorAll('.yc canvas, .yc .place')].map(each => {
  const at = each.getBoundingClientRect();
  return [at.left, at.top + window.scrollY, at.width, at.height];
})"""


def test_dragging_shifts_nothing_on_the_page(page):
    page.get_by_label("place of Rust").focus()
    places = [page.evaluate(CANVASES)]
    for key in ("ArrowRight", "ArrowRight", "ArrowLeft"):
        page.keyboard.press(key)
        places.append(page.evaluate(CANVASES))
    page.wait_for_timeout(400)
    assert all(place == places[0] for place in [*places, page.evaluate(CANVASES)])


def test_the_picture_says_in_words_what_it_shows(page):
    label = page.locator(".yc .strip canvas[role=img]").first
    before = label.get_attribute("aria-label")
    assert re.match(r"Fractal, 3 plies, 579 m of yarn in 8 colours; matched", before)
    page.get_by_label("scheme", exact=True).select_option(label="matched")
    page.wait_for_function(
        "document.querySelector('.yc .strip canvas').getAttribute('aria-label')"
        ".startsWith('Matched')"
    )


def test_a_lot_is_edited_and_nonsense_is_told_beside_its_field(page):
    go_to(page, "Lots")
    grams = page.locator(".yc .lots input.mass_g").nth(1)
    grams.fill("plenty")
    fault = page.locator(".yc .lots .cell.mass_g .fault").nth(1)
    page.wait_for_function(
        "at => at.innerText.startsWith('give grams')", arg=fault.element_handle()
    )
    assert grams.get_attribute("aria-invalid") == "true"
    page.locator(".yc .lots textarea.note").nth(0).fill("half typed")
    page.wait_for_timeout(600)
    assert grams.input_value() == "plenty"
    assert page.locator(".yc .lots textarea.note").nth(0).input_value() == "half typed"
    grams.fill("30,5")
    page.locator(".yc .lots input.name").nth(0).fill("Deep Water")
    page.wait_for_function("document.querySelector('.yc .lots .chip').innerText === 'Deep Water'")
    go_to(page, "Colour order")
    ready(page)
    assert order(page)[0] == "Deep Water"
    assert page.problems == []


def test_lots_are_added_and_removed_with_the_keyboard(page):
    go_to(page, "Lots")
    page.wait_for_selector(".yc .lots li")
    page.get_by_role("button", name="Add a lot").focus()
    page.keyboard.press("Enter")
    page.keyboard.type("Sand")
    page.wait_for_function(
        "[...document.querySelectorAll('.yc .lots .chip')].at(-1).innerText === 'Sand'"
    )
    page.get_by_role("button", name="remove Sand").focus()
    page.keyboard.press("Enter")
    page.wait_for_function("document.querySelectorAll('.yc .lots li').length === 8")
    page.wait_for_function("document.querySelector('.yc .total').innerText.startsWith('8 lots')")


CORNERS_AGREE = """() => {
  const corner = (canvas, y) => [...canvas.getContext("2d").getImageData(3, y, 1, 1).data].join();
  const band = document.querySelector(".yc.band .whole");
  const strip = document.querySelector(".yc.order .strip canvas");
  return corner(band, 3) === corner(strip, 20);
}"""


def test_the_band_above_follows_fingers_on_the_order(page):
    for key in ("End", "Home"):
        page.get_by_label(f"place of {order(page)[0]}").focus()
        page.keyboard.press(key)
        page.wait_for_function(CORNERS_AGREE)


def keep_up(page):
    """Return what says that the file is kept up to date, unfolded where it is not yet."""
    if not page.locator(".yc.bar details[open]").count():
        page.locator(".yc.bar summary").click()
    return page.get_by_label("keep the plan file up to date")


def test_what_is_kept_up_to_date_is_found_again_after_a_reload(own_page, plan):
    keep_up(own_page).check()
    before = order(own_page)
    own_page.get_by_label(f"place of {before[0]}").focus()
    own_page.keyboard.press("End")
    own_page.wait_for_selector(".yc.bar [role=status]:text-is('saved')")
    wait_until(lambda: (read_plan(plan).scheme.sequence or ("",))[-1] == before[0])
    own_page.reload()
    ready(own_page)
    assert order(own_page) == [*before[1:], before[0]]
    wait_until(lambda: keep_up(own_page).is_checked())


def test_an_order_is_closed_and_opened_again_by_its_button(page):
    before = order(page)
    page.get_by_role("button", name="End on the first lot too").click()
    page.wait_for_function("document.querySelectorAll('.yc .chips li').length === 9")
    assert order(page) == [*before, before[0]]
    assert page.get_by_label("when it ends as it began").is_enabled()
    page.get_by_role("button", name="Do not end on the first lot").click()
    page.wait_for_function("document.querySelectorAll('.yc .chips li').length === 8")
    assert order(page) == before
    assert page.get_by_label("when it ends as it began").is_disabled()
    assert page.problems == []


def test_a_file_changed_underneath_is_never_overwritten(own_page, plan):
    keep_up(own_page).check()
    other = "# another hand\n" + plan.read_text(encoding="utf-8")
    plan.write_text(other, encoding="utf-8")
    own_page.locator(".yc .chips button").nth(0).focus()
    own_page.keyboard.press("ArrowRight")
    own_page.wait_for_selector("[role=status]:has-text('was changed since it was opened')")
    assert plan.read_text(encoding="utf-8") == other
    assert not keep_up(own_page).is_checked()


def test_every_file_is_written_and_can_be_stopped(own_page, plan):
    go_to(own_page, "Files")
    own_page.get_by_role("button", name="Write everything").click()
    own_page.get_by_role("button", name="Stop").click()
    own_page.wait_for_selector("[role=status]:has-text('Stopped; nothing was written.')")
    assert not (plan.parent / "out").exists()
    own_page.get_by_role("button", name="Write everything").click()
    own_page.wait_for_selector("[role=status]:has-text('Written: ')", timeout=60_000)
    out = plan.parent / "out"
    assert json.loads((out / "plan.json").read_text(encoding="utf-8"))
    assert read_plan(out / "plan.toml").names
    assert (out / "card.html").read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
    assert (out / "swatch.pdf").read_bytes().startswith(b"%PDF")
    assert (out / "knitted.svg").read_bytes().startswith(b"<?xml")
    assert (out / "yarn.png").read_bytes().startswith(b"\x89PNG")
    assert (out / "weigh-out.csv").read_text(encoding="utf-8-sig").startswith("ply")


OUR_OWN = {
    "Colour order": ".yc.order .chips",
    "Lots": ".yc .lots",
    "At the wheel": ".yc.wheel .pieces",
    "At the plying wheel": ".yc.plying .cells",
    "What came out": ".yc .groups",
    "Every option": ".yc .groups",
    "Photographs": ".yc.photo",
}


def test_our_own_controls_pass_the_accessibility_rules_in_light_and_dark(page):
    for theme in ("light", "dark"):
        if theme == "dark":
            page.evaluate(DARK)
        for section, shown in OUR_OWN.items():
            go_to(page, section)
            page.wait_for_selector(shown)
            still(page)
            found = Axe().run(page, ".yc").response["violations"]
            told = [(each["id"], [node["html"][:120] for node in each["nodes"]]) for each in found]
            assert told == [], f"{section}, {theme}"


def unfolded(page, words):
    """Return what the browser tells a screen reader of a fold: whether it is open."""
    tree = page.context.new_cdp_session(page).send("Accessibility.getFullAXTree")["nodes"]
    told = [
        each["value"]["value"]
        for node in tree
        if node.get("name", {}).get("value", "").endswith(words)
        for each in node.get("properties", [])
        if each["name"] == "expanded"
    ]
    return told[0] if told else None


@pytest.mark.parametrize(
    ("section", "words", "opens"),
    [
        ("Mixtures", "finer settings", "button"),
        ("Yarn and fabric", "finer settings", "button"),
        ("Lots", "Several lots at once", "summary"),
        ("Lots", "More for this plan", "summary"),
        ("Every option", "What is assumed where nothing is said", "summary"),
    ],
)
def test_every_fold_says_whether_it_is_open(page, section, words, opens):
    go_to(page, section)
    fold = page.locator(opens, has_text=words).locator("visible=true").last
    fold.wait_for()
    still(page)
    before = unfolded(page, words)
    fold.click()
    page.wait_for_timeout(100)
    after = unfolded(page, words)
    assert (before, after) == (False, True)
    if opens == "button":
        assert fold.get_attribute("aria-pressed") is None
    fold.click()


def test_nothing_is_wider_than_the_screen_and_no_request_leaves_the_machine(page):
    for section in SECTIONS:
        go_to(page, section)
        for width in (1024, 360):
            page.set_viewport_size({"width": width, "height": 740})
            still(page)
            wide = page.evaluate("document.documentElement.scrollWidth")
            assert wide <= width, section
    outside = [url for url in page.asked if not re.match(r"(http://127\.0\.0\.1|data:|blob:)", url)]
    assert outside == []
    assert page.problems == []


def test_a_plan_with_faults_says_them_without_a_traceback(visited, app, app_plan, tmp_path):
    path = tmp_path / "broken.toml"
    path.write_bytes(app_plan.read_bytes())
    address = app(path)
    path.write_text('[[lots]]\nname = "<b>Kelp"\ncolour = "bleu"\nmass_g = -1\n', encoding="utf-8")
    page = visited(address)
    page.wait_for_selector("[role=alert]", timeout=30_000)
    told = page.locator("[role=alert]").inner_text()
    assert "give a colour in words" in told
    assert 'did you mean "blue"?' in told
    assert "mass_g = -1" in told
    assert "Traceback" not in page.content()


def wait_until(true, seconds=30.0):
    ends = time.monotonic() + seconds
    while not true():
        assert time.monotonic() < ends
        time.sleep(0.05)
