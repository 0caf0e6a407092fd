"""Keys that follow one another: pictures follow each, whatever the kernel is busy with."""

import statistics
import sys

import pytest

from tests.helpers.browser import AT_REST, ORDER, ready
from tests.helpers.canvases import assert_as_the_pictures
from tests.helpers.paths import SAMPLE_DATA
from yarncolor.editing.editor import Editor
from yarncolor.widgets.order.order_painter import OrderPainter

pytestmark = pytest.mark.browser

PLAN = SAMPLE_DATA / "slack_water.toml"
LONG_S = 10.0

KEYS = f"""async ([every, presses]) => {{
  const order = {ORDER};
  const ranges = document.querySelectorAll('.yc .place input');
  const waiting = [], took = [];
  order.root.addEventListener('painted', () => {{
    const begun = waiting.splice(0);
    requestAnimationFrame(() => setTimeout(() => {{
      const now = performance.now();
      took.push(...begun.map((began) => now - began));
    }}, 0));
  }});
  const last = ranges.length, first = performance.now();
  for (let press = 0; press < presses; press += 1) {{
    waiting.push(performance.now());
    const at = press % (2 * last - 2);
    ranges[0].value = at < last ? at + 1 : 2 * last - 1 - at;
    ranges[0].dispatchEvent(new Event('input', {{ bubbles: true }}));
    const next = first + (press + 1) * every;
    await new Promise((done) => setTimeout(done, Math.max(0, next - performance.now())));
  }}
  await new Promise((done) => setTimeout(done, 500));
  return took;
}}"""


@pytest.fixture
def page(bare):
    editor = Editor.opened(PLAN)
    painter = OrderPainter(editor)
    editor.watch(painter.refresh)
    page = ready(bare(painter))
    page.wait_for_function(f"{ORDER}.tables.ahead.size > 0")
    page.wait_for_function(AT_REST)
    page.editor = editor
    return page


def press(page, nth: int, key: str) -> None:
    page.locator(".yc .place input").nth(nth).focus()
    page.keyboard.press(key)


def moved(nth: int, place: int) -> Editor:
    editor = Editor.opened(PLAN)
    editor.move(editor.place_of(nth), place)
    return editor


def test_the_lot_that_moved_last_is_painted_on_before_anything_new_was_sent_ahead(page):
    page.evaluate(f"{ORDER}.on_ahead = () => {{}}")
    press(page, 0, "ArrowRight")
    page.wait_for_function(AT_REST)
    page.wait_for_function(f"{ORDER}.frame.entries[1] === 0")
    page.evaluate(f"{ORDER}.moves.model.send = () => {{}}")  # a kernel that does not answer
    press(page, 0, "End")
    assert_as_the_pictures(page, moved(0, len(page.editor.order) - 1).plan)


def test_of_two_lots_that_move_at_once_none_is_painted_where_it_is_not(page):
    """What was sent ahead of the second was laid out before the first had moved."""
    page.evaluate(f"{ORDER}.on_ahead = () => {{}}")
    page.evaluate(f"{ORDER}.moves.rest = () => {{}}")
    press(page, 0, "End")
    press(page, 1, "End")
    page.wait_for_function(f"!{ORDER}.moves.queue.length && {ORDER}.frame.entries.at(-1) === 1")
    assert page.evaluate(f"[...{ORDER}.tables.ahead.keys()].every((key) => key.startsWith('1 '))")
    wanted = moved(0, len(page.editor.order) - 1)
    wanted.move(wanted.place_of(1), len(wanted.order) - 1)
    assert page.evaluate(f"{ORDER}.tables.ahead.size") == 0
    assert_as_the_pictures(page, wanted.plan)


@pytest.mark.thorough
@pytest.mark.parametrize("every_ms", [30, 75, 110])
def test_how_soon_keys_that_repeat_are_painted_is_told(page, every_ms, capsys):
    presses = int(LONG_S * 1000 / every_ms)
    took = page.evaluate(KEYS, [every_ms, presses])
    with capsys.disabled():
        sys.stdout.write(
            f"\na key every {every_ms} ms: median {statistics.median(took):.0f} ms, "
            f"95th percentile {statistics.quantiles(took, n=20)[-1]:.0f} ms over {len(took)}"
        )
    assert len(took) > 0.9 * presses
    assert page.problems == []
