"""The painter of orders under real fingers: mouse, touch, keyboard; what its canvases show."""

from pathlib import Path

import pytest

from tests.helpers.browser import ORDER, middle, ready
from tests.helpers.paths import SAMPLE_DATA
from tests.helpers.strategies import by_hand
from yarncolor import plan_from_data
from yarncolor.editing.editor import Editor
from yarncolor.widgets.order.order_painter import OrderPainter
from yarncolor.widgets.plan_bar import PlanBar

pytestmark = pytest.mark.browser

PLAN = SAMPLE_DATA / "slack_water.toml"
STRIP_PIXELS = f"{ORDER}.page.canvases.strip.toDataURL()"


@pytest.fixture
def shown(bare):
    """Return a function that shows an order under the bar of its plan."""

    def show(**options):
        editor = Editor.opened(PLAN)
        painter = OrderPainter(editor)
        editor.watch(painter.refresh)
        page = ready(bare(PlanBar(editor, Path("out")), painter, **options))
        page.wait_for_function(f"{ORDER}.tables.ahead.size > 0")
        return page

    return show


@pytest.fixture
def bench(shown):
    return shown()


BROKEN_WORDS = """() => [...document.querySelectorAll('.yc .chips button span')].flatMap((span) =>
  [...span.textContent.matchAll(/\\S+/g)].filter(({ 0: word, index }) => {
    const range = document.createRange();
    range.setStart(span.firstChild, index);
    range.setEnd(span.firstChild, index + word.length);
    return new Set([...range.getClientRects()].map(({ top }) => top)).size > 1;
  }).map(([word]) => word))"""


@pytest.mark.parametrize("width", [360, 390])
def test_on_a_phone_no_name_of_a_chip_breaks_within_a_word(bare, width):
    endless = "Kelp" * 15
    lots = dict.fromkeys(("Harbour Blue", "Rope", "Bladderwrack", "Samphire", endless), 10.0)
    page = ready(bare(OrderPainter(Editor(plan_from_data(by_hand(lots)))), width=width))
    assert page.evaluate(BROKEN_WORDS) == [endless]
    row = page.locator(".yc .chips")
    assert row.evaluate("row => row.scrollWidth <= row.clientWidth")
    for name in ("Bladderwrack", endless):
        assert page.get_by_role("button", name=f"{name}, place").count()


def test_with_one_lot_there_is_no_order_to_turn_round(bare):
    page = ready(bare(OrderPainter(Editor(plan_from_data(by_hand({"Kelp": 40.0}))))))
    for name in ("Reverse the order", "First lot to the end"):
        button = page.get_by_role("button", name=name)
        assert button.is_disabled()
        assert button.get_attribute("title") == "there is only one lot to put in order"


def order(page) -> list[str]:
    return page.locator(".yc .chips button span").all_inner_texts()


def test_a_chip_is_dragged_and_dropped(bench):
    chips = bench.locator(".yc .chips button")
    before = order(bench)
    start, end = middle(chips.nth(1).bounding_box()), middle(chips.nth(4).bounding_box())
    bench.mouse.move(*start)
    bench.mouse.down()
    bench.mouse.move(*end, steps=15)
    bench.mouse.up()
    wanted = [before[0], *before[2:5], before[1], *before[5:]]
    assert order(bench) == wanted
    bench.get_by_role("button", name="Undo").click()
    bench.wait_for_function(
        "name => document.querySelectorAll('.yc .chips button span')[1].innerText === name",
        arg=before[1],
    )
    assert bench.problems == []


def test_a_chip_is_dragged_by_a_finger(shown):
    page = shown(width=700, height=800, has_touch=True)
    before = order(page)
    chips = page.locator(".yc .chips button")
    chips.nth(0).scroll_into_view_if_needed()
    (x, y), (end, _) = middle(chips.nth(0).bounding_box()), middle(chips.nth(2).bounding_box())
    finger = page.context.new_cdp_session(page)
    for kind, share in (
        ("touchStart", 0),
        ("touchMove", 0.4),
        ("touchMove", 1),
        ("touchEnd", None),
    ):
        points = [] if share is None else [{"x": x + share * (end - x), "y": y}]
        finger.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})
    page.wait_for_function(
        "name => document.querySelectorAll('.yc .chips button span')[2].innerText === name",
        arg=before[0],
    )
    assert order(page) == [*before[1:3], before[0], *before[3:]]
    assert page.problems == []


def test_a_chip_is_moved_with_the_keyboard_and_keeps_the_focus(bench):
    before = order(bench)
    bench.locator(".yc .chips button").nth(0).focus()
    bench.keyboard.press("ArrowRight")
    bench.keyboard.press("ArrowRight")
    assert order(bench) == [before[1], before[2], before[0], *before[3:]]
    told = bench.evaluate("document.activeElement.getAttribute('aria-label')")
    assert told == f"{before[0]}, place 3 of 8"
    bench.keyboard.press("Home")
    bench.keyboard.press("End")
    assert order(bench)[-1] == before[0]
    live = bench.locator(".yc.order .sr[aria-live=polite]").inner_text()
    assert live == f"{before[0]}, place 8 of 8"


def test_a_held_lot_stays_while_others_pass_it(bench):
    before = order(bench)
    bench.get_by_role("button", name=f"keep here: {before[1]}").click()
    bench.wait_for_selector(".yc .chips .held")
    bench.locator(".yc .chips button").nth(0).focus()
    bench.keyboard.press("ArrowRight")
    assert order(bench)[:3] == [before[2], before[1], before[0]]
    slider = bench.get_by_label(f"place of {before[1]}")
    assert slider.is_disabled()


def test_a_busy_kernel_is_told_and_the_picture_still_follows(bench):
    before = bench.evaluate(STRIP_PIXELS)
    bench.evaluate(f"{ORDER}.moves.model.send = () => {{}}")  # a kernel that does not answer
    bench.locator(".yc .place input").nth(0).focus()
    bench.keyboard.press("End")
    assert order(bench)[-1] == "Harbour Blue"
    assert bench.evaluate(STRIP_PIXELS) != before
    bench.wait_for_selector("[role=status]:text-is('not yet confirmed')")


def test_leaving_with_what_is_not_saved_is_asked_first(shown):
    asked = []
    for key, state in (("Home", "saved"), ("ArrowRight", "changed, not saved yet")):
        page = shown()
        page.on("dialog", lambda dialog: (asked.append(dialog.type), dialog.accept()))
        page.locator(".yc .chips button").nth(0).focus()
        page.keyboard.press(key)
        page.wait_for_selector(f".yc.bar [role=status]:text-is('{state}')")
        page.reload()
        assert asked == (["beforeunload"] if key == "ArrowRight" else [])
