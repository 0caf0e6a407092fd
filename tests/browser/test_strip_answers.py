"""The strip answers mouse, finger and keyboard: what lies there, where the close-up looks."""

from dataclasses import replace

import pytest

from tests.helpers.browser import ORDER, ready
from tests.helpers.canvases import assert_as_the_pictures
from tests.helpers.paths import SAMPLE_DATA
from yarncolor import read_plan
from yarncolor.editing.editor import Editor
from yarncolor.widgets.order.order_painter import OrderPainter

pytestmark = pytest.mark.browser

EBB = SAMPLE_DATA / "ebb.toml"
MARK = "where on the strip the close-up looks"


@pytest.fixture
def shown(bare):
    """Return a function that shows the order of Ebb."""

    def show(**options):
        editor = Editor.opened(EBB)
        painter = OrderPainter(editor)
        editor.watch(painter.refresh)
        return ready(bare(painter, **options))

    return show


def along() -> tuple[float, float, float]:
    """Return the yarn's length, and where Kelp begins and ends on ply 2."""
    found = Editor.opened(EBB).answer
    stretches = found.layout.stretches
    at = stretches.lot[:, 1].tolist().index(found.plan.names.index("Kelp"))
    return stretches.yarn_m, *stretches.edges_m[at : at + 2].tolist()


def place_on_ply_2(page, metre: float) -> tuple[float, float]:
    box = page.locator(".yc .strip canvas").first.bounding_box()
    strip = page.evaluate(f"{ORDER}.frame.strip")
    down = sum(strip["bands"][1]) / 2 / strip["height"] * box["height"]
    return box["x"] + metre / along()[0] * box["width"], box["y"] + down


def kelp_g() -> float:
    """Return grams of Kelp as they are weighed out for ply 2."""
    found = Editor.opened(EBB).answer
    own = found.layout.portions.take(found.layout.portions.ply == 1)
    return float(own.mass_g[own.lot == found.plan.names.index("Kelp")].sum())


def looked_share(page) -> float:
    return page.evaluate("parseFloat(document.querySelector('.yc .looked').style.left) / 100")


def test_pointing_says_lot_ply_metre_and_grams(shown):
    page = shown()
    _, begin_m, end_m = along()
    middle_m = (begin_m + end_m) / 2
    page.mouse.move(*place_on_ply_2(page, middle_m))
    told = page.locator(".yc .pointed").inner_text()
    metres = f"from {begin_m:.1f} to {end_m:.1f} m"
    assert f"Kelp on ply 2, {kelp_g():.1f} g {metres}" in told
    assert told.startswith("at 2")
    assert page.problems == []


def test_pointing_says_ounces_and_yards_where_the_plan_does(bare):
    editor = Editor(replace(read_plan(EBB), units="imperial"))
    page = ready(bare(OrderPainter(editor)))
    _, begins_m, ends_m = along()
    page.mouse.move(*place_on_ply_2(page, (begins_m + ends_m) / 2))
    told = page.locator(".yc .pointed").inner_text()
    grams, yards = kelp_g() / 28.349523125, (begins_m / 0.9144, ends_m / 0.9144)
    assert f"{grams:.2f} oz from {yards[0]:.1f} to {yards[1]:.1f} yd" in told
    slider = page.get_by_role("slider", name="place along the yarn, in yards")
    assert slider.get_attribute("aria-valuetext").endswith(" yd")


def test_the_mark_goes_where_the_strip_is_clicked_and_arrow_keys_move_it(shown):
    page = shown()
    yarn_m, begin_m, end_m = along()
    shows = f"{ORDER}.frame.from_m"
    assert looked_share(page) == pytest.approx(page.evaluate(shows) / yarn_m, abs=1e-3)
    middle_m = (begin_m + end_m) / 2
    page.mouse.click(*place_on_ply_2(page, middle_m))
    page.wait_for_function(f"Math.abs({shows} - {middle_m}) < 1")
    assert looked_share(page) == pytest.approx(middle_m / yarn_m, abs=2e-3)
    assert page.evaluate("document.activeElement.getAttribute('aria-label')") == MARK
    before = page.evaluate(shows)
    page.keyboard.press("ArrowRight")
    page.wait_for_function(f"Math.abs({shows} - {before} - {yarn_m} / 200) < 0.1")
    page.keyboard.press("PageUp")
    page.wait_for_function(f"Math.abs({shows} - {end_m}) < 0.1")
    page.keyboard.press("Home")
    page.wait_for_function(f"{shows} === 0")
    page.keyboard.press("Tab")
    mark = page.get_by_label(MARK)
    assert mark.get_attribute("aria-valuetext").startswith("at 0.0 m: Foam on ply 1, ")
    assert page.get_by_label("place along the yarn").get_attribute("aria-valuetext") == "0.0 m"
    assert page.problems == []


def test_the_fabric_is_knitted_from_the_mark_on_where_that_is_ticked(shown):
    page = shown()
    _, begin_m, end_m = along()
    caption = page.locator(".yc.order figcaption").nth(1)
    caption.filter(has_text="the whole yarn in small").wait_for()
    page.get_by_label("knit from the mark on the strip").check()
    caption.filter(has_text="bottom up: from ").wait_for()
    page.evaluate("scrollTo(0, 0)")
    middle_m = (begin_m + end_m) / 2
    page.mouse.click(*place_on_ply_2(page, middle_m))
    page.wait_for_function(f"Math.abs({ORDER}.frame.from_m - {middle_m}) < 1")
    from_m = page.evaluate(f"{ORDER}.frame.from_m")
    caption.filter(has_text=f": from {round(from_m, 1):g} m to ").wait_for()
    assert_as_the_pictures(page, Editor.opened(EBB).plan, ["yarn", "fabric"])
    page.get_by_label("knit from the mark on the strip").uncheck()
    caption.filter(has_text="the whole yarn in small").wait_for()
    assert_as_the_pictures(page, Editor.opened(EBB).plan, ["yarn", "fabric"])
    assert page.problems == []


def test_a_finger_on_the_strip_is_answered(shown):
    page = shown(width=700, height=900, has_touch=True)
    _, begin_m, end_m = along()
    page.locator(".yc .pointed").scroll_into_view_if_needed()
    page.touchscreen.tap(*place_on_ply_2(page, (begin_m + end_m) / 2))
    page.wait_for_selector(".yc .pointed:has-text('Kelp on ply 2, ')")
    page.wait_for_function(f"Math.abs({ORDER}.frame.from_m - {(begin_m + end_m) / 2}) < 2")
    assert page.problems == []


def test_the_mark_follows_a_finger_along_the_strip(shown):
    page = shown(width=700, height=900, has_touch=True)
    yarn_m, begin_m, end_m = along()
    page.locator(".yc .pointed").scroll_into_view_if_needed()
    touch = page.context.new_cdp_session(page)
    for kind, metre in (("Start", 0.2 * yarn_m), ("Move", begin_m), ("Move", end_m - 1)):
        x, y = place_on_ply_2(page, metre)
        points = [{"x": x, "y": y}]
        touch.send("Input.dispatchTouchEvent", {"type": f"touch{kind}", "touchPoints": points})
    touch.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    page.wait_for_selector(".yc .pointed:has-text('Kelp on ply 2, ')")
    page.wait_for_function(f"Math.abs({ORDER}.frame.from_m - {end_m - 1}) < 2")
    assert looked_share(page) == pytest.approx((end_m - 1) / yarn_m, abs=4e-3)
    assert page.problems == []


def test_how_the_strip_runs_against_the_order_above_is_said(shown):
    page = shown()
    assert "begins with what is spun last" in page.locator(".yc .turning").inner_text()


def test_each_slider_of_the_order_says_its_lot_and_its_place(shown):
    page = shown()
    slider = page.get_by_label("place of Kelp")
    assert slider.get_attribute("aria-valuetext") == "place 3 of 5"
    slider.focus()
    page.keyboard.press("ArrowRight")
    assert slider.get_attribute("aria-valuetext") == "place 4 of 5"
