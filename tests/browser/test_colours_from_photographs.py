"""The bench for photographs under real fingers: drawn with the mouse, typed, opened, saved."""

import pytest
from PIL import Image

from yarncolor import read_plan

pytestmark = pytest.mark.browser
RUST = (150, 60, 50)


@pytest.fixture
def page(opened):
    page = opened("09_colours_from_photographs.ipynb")
    page.on("console", lambda said: said.type == "error" and page.problems.append(said.text))
    page.wait_for_selector(".yc.photo", timeout=90_000)
    page.wait_for_selector(".yc canvas[aria-label*='900 × 675']")
    page.locator(".yc canvas").scroll_into_view_if_needed()
    return page


def bench(page):
    return page.locator(".yc.photo")


def draw(page, left, top, width, height):
    """Drag across the picture, in shares of it."""
    canvas = page.locator(".yc canvas")
    canvas.scroll_into_view_if_needed()
    seen = canvas.bounding_box()
    x, y = seen["x"] + left * seen["width"], seen["y"] + top * seen["height"]
    page.mouse.move(x, y)
    page.mouse.down()
    for share in (0.4, 1.0):
        page.mouse.move(x + share * width * seen["width"], y + share * height * seen["height"])
    page.mouse.up()


def press(page, words):
    bench(page).get_by_role("button", name=words).click()


def lot_row(page, number):
    return bench(page).locator("tbody tr").nth(number)


def wait_said(page, words):
    bench(page).locator(".said", has_text=words).wait_for()


def test_a_picture_is_opened_drawn_on_taken_and_saved(page, lab, tmp_path):
    draw(page, 0.10, 0.68, 0.05, 0.15)
    lot_row(page, 0).get_by_text("fibre 1").wait_for()
    bench(page).get_by_label("white", exact=True).check()
    draw(page, 0.62, 0.18, 0.25, 0.25)
    bench(page).get_by_text("The picture was corrected by something white").wait_for()
    bench(page).get_by_role("group", name="white", exact=True).get_by_role("button").click()

    Image.new("RGB", (2000, 1500), RUST).save(tmp_path / "mine.png")
    bench(page).locator("input[type=file]").set_input_files(tmp_path / "mine.png")
    bench(page).get_by_text("mine.png: 1600 × 1200 pixels; shrunk from 2000 × 1500").wait_for()
    wait_said(page, "Opened. Boxes stayed where they were.")
    bench(page).get_by_label("put right by").select_option("nothing")
    lot_row(page, 0).get_by_text("#963c32").wait_for()

    press(page, "Take the colours")
    bench(page).locator(".marks .fault", has_text="name: give a name of 1 to 60").wait_for()
    bench(page).get_by_label("name of the lot").fill("<b>Bilberry")
    bench(page).get_by_label("grams").fill("31.5")
    press(page, "Take the colours")
    wait_said(page, "Taken into the plan: <b>Bilberry (31.5 g).")
    press(page, "Save as a new plan")
    wait_said(page, "Written: out/photographs/slack_water_with_photographs.toml")
    _, folder = lab
    (written,) = folder.glob("notebooks/out/photographs/*.toml")
    lot = read_plan(written).lots[-1]
    assert (lot.name, lot.mass_g) == ("<b>Bilberry", 31.5)
    press(page, "Undo")
    wait_said(page, "Undone.")
    assert page.problems == []


def test_a_box_is_moved_and_sized_by_the_mouse(page):
    draw(page, 0.40, 0.60, 0.20, 0.30)
    draw(page, 0.50, 0.75, -0.10, -0.10)
    draw(page, 0.50, 0.80, 0.10, 0.10)
    fields = bench(page).locator(".marks input[type=number]").all()[1:]
    shares = [float(field.input_value()) for field in fields]
    assert shares == pytest.approx([30, 50, 30, 40], abs=0.5)


def test_what_is_no_picture_is_said_and_what_is_drawn_stays(page, tmp_path):
    draw(page, 0.10, 0.68, 0.05, 0.15)
    (tmp_path / "letter.jpg").write_text("Dear diary", encoding="utf-8")
    bench(page).locator("input[type=file]").set_input_files(tmp_path / "letter.jpg")
    bench(page).get_by_text("letter.jpg: the browser cannot open it as a picture").wait_for()
    lot_row(page, 0).get_by_text("fibre 1").wait_for()


def test_everything_is_done_from_the_keyboard_alone(page):
    keys = page.keyboard
    bench(page).get_by_label("fibre", exact=True).focus()
    keys.press("Tab")
    keys.press("Enter")  # put one in the middle; its name has the focus
    keys.type("Bilberry")
    for typed in ("12", None, "8", "66", "10", "20"):
        keys.press("Tab")
        if typed:
            keys.press("Control+a")
            keys.type(typed)
    lot_row(page, 0).get_by_text("Bilberry").wait_for()
    alt = "Bilberry at 8 %, 66 %"
    page.wait_for_selector(f".yc canvas[aria-label*='{alt}']")
    bench(page).get_by_role("button", name="Take the colours").focus()
    keys.press("Enter")
    wait_said(page, "Taken into the plan: Bilberry (12 g).")
    bench(page).get_by_role("button", name="Remove Bilberry").focus()
    keys.press("Enter")
    bench(page).get_by_text("Nothing is drawn yet.").wait_for()
    assert page.evaluate("document.activeElement.textContent") == "Put one in the middle"


def test_proposals_are_kept_or_left(page):
    press(page, "Find lots")
    wait_said(page, "Proposed: 6.")
    bench(page).get_by_role("button", name="Keep as fibre: proposal 3").click()
    lot_row(page, 0).get_by_text("fibre 1").wait_for()
    press(page, "Leave the proposals")
    assert bench(page).locator(".proposed").count() == 0
    assert bench(page).locator(".marks fieldset").count() == 1


def test_a_target_and_even_light(page):
    bench(page).get_by_label("white places for the light").check()
    for left, top in ((0.0, 0.0), (0.97, 0.0), (0.5, 0.56)):
        draw(page, left, top, 0.02, 0.03)
    bench(page).get_by_text("The light falls off by").wait_for()
    bench(page).get_by_label("corners of a target").check()
    for left, top in ((0.06, 0.08), (0.48, 0.08), (0.48, 0.50), (0.06, 0.50)):
        draw(page, left, top, 0.0, 0.0)
    bench(page).get_by_text("Patches left out one by one are met to").wait_for()
    assert bench(page).get_by_label("put right by").input_value() == "target"


def test_it_fits_a_screen_and_a_phone_and_passes_axe(page):
    from axe_playwright_python.sync_playwright import Axe

    draw(page, 0.10, 0.68, 0.05, 0.15)
    press(page, "Find lots")
    wait_said(page, "Proposed: 6.")
    found = Axe().run(page, context=".yc.photo")
    assert found.violations_count == 0, found.generate_report()
    page.set_viewport_size({"width": 1440, "height": 900})
    assert bench(page).bounding_box()["height"] < 780
    width = "root => { root.style.width = '340px'; return root.scrollWidth; }"
    assert bench(page).evaluate(width) <= 340
    assert page.problems == []
