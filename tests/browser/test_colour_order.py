"""The order bench under real fingers: mouse, keyboard, files, and how long a drag takes."""

import re
import statistics
import sys

import pytest

from tests.helpers.browser import ORDER, notebook, ready, write_notebook
from yarncolor import read_plan

pytestmark = pytest.mark.browser

TRIVIAL = """
import ipywidgets as w
import struct, zlib
def chunk(kind, data):
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
def dot(level):
    head = chunk(b"IHDR", struct.pack(">2I5B", 1, 1, 8, 0, 0, 0, 0))
    body = chunk(b"IDAT", zlib.compress(bytes([0, level]))) + chunk(b"IEND", b"")
    return bytes([137]) + b"PNG\\r\\n" + bytes([26]) + b"\\n" + head + body
image = w.Image(format="png", value=dot(0))
slider = w.IntSlider(min=1, max=7, description="trivial")
slider.observe(lambda change: setattr(image, "value", dot(change["new"])), "value")
w.VBox([slider, image])
"""

WATCH = """
() => {
  window.painted = [];
  let pressed = null;
  document.addEventListener('keydown', () => { pressed = performance.now(); }, true);
  const told = () => {
    if (pressed === null) return;
    const began = pressed;
    pressed = null;
    const done = () => window.painted.push(performance.now() - began);
    requestAnimationFrame(() => setTimeout(done, 0));
  };
  document.querySelector('.yc.order')?.addEventListener('painted', told);
  document.querySelector('.widget-image')?.addEventListener('load', told);
}
"""
BURST = """
async () => {
  const order = document.querySelector('.yc.order').order;
  const range = document.querySelectorAll('.yc .place input')[0];
  const put = (place) => {
    range.value = place;
    range.dispatchEvent(new Event('input', { bubbles: true }));
  };
  for (let at = 0; at < 200; at += 1) {
    put(1 + (at * 5) % 7);
    await new Promise((next) => setTimeout(next, 10));
  }
  put(6);
  const ended = performance.now();
  const shown = order.order().indexOf(0);
  while (!order.moves.isAtRest) {
    await new Promise((next) => setTimeout(next, 2));
  }
  return [shown, order.frame.entries.indexOf(0), performance.now() - ended];
}
"""


@pytest.fixture
def bench(opened):
    page = ready(opened(notebook("colour_order")))
    page.wait_for_function(f"{ORDER}.tables.ahead.size > 0")
    return page


def names(page):
    return page.locator(".yc .chips button span").all_inner_texts()


def places(page):
    return [int(text) for text in page.locator(".yc .place output").all_inner_texts()]


def test_a_slider_is_dragged_over_several_places(bench):
    slider = bench.locator(".yc .place input").nth(1)
    slider.scroll_into_view_if_needed()
    box = slider.bounding_box()
    y = box["y"] + box["height"] / 2
    bench.mouse.move(box["x"] + 8 + (box["width"] - 16) / 6, y)
    bench.mouse.down()
    bench.mouse.move(box["x"] + box["width"] - 2, y, steps=20)
    bench.mouse.up()
    assert places(bench) == [1, 7, 2, 3, 4, 5, 6]
    bench.wait_for_function(f"{ORDER}.frame.entries.at(-1) === 1")
    assert names(bench)[-1] == "Foam"
    assert bench.problems == []


def test_the_plan_is_saved_and_the_path_is_shown(bench, lab):
    _, folder = lab
    plan = folder / "sample_data" / "tideline.toml"
    before = plan.read_text(encoding="utf-8")
    bench.locator(".yc .place input").nth(2).focus()
    bench.keyboard.press("ArrowRight")
    bench.wait_for_function(f"{ORDER}.frame.entries[3] === 2")
    bench.click("button:text-is('Save the plan')")
    bench.wait_for_selector("[role=status]:has-text('Written: ../sample_data/tideline.toml')")
    assert read_plan(plan).scheme.sequence[2:4] == ("Mussel", "Samphire")
    bench.click("button:text-is('Write the card')")
    bench.wait_for_selector("[role=status]:has-text('card.html')")
    assert (folder / "notebooks" / "out" / "colour_order" / "card.html").exists()
    plan.write_text(before, encoding="utf-8")


def test_no_request_leaves_the_machine(bench):
    outside = [
        url for url in bench.asked if not re.match(r"(http://127\.0\.0\.1|data:|blob:)", url)
    ]
    assert outside == []


def test_two_hundred_events_in_two_seconds_end_in_the_right_order(bench, capsys):
    shown, confirmed, settled_ms = bench.evaluate(BURST)
    assert (shown, confirmed) == (5, 5)
    with capsys.disabled():
        sys.stdout.write(f"\nconfirmed {settled_ms:.0f} ms after the last of 200 events")
    assert bench.problems == []


@pytest.mark.thorough
def test_how_long_a_drag_takes_is_told_beside_a_trivial_picture(bench, opened, lab, capsys):
    _, folder = lab
    write_notebook(folder / "notebooks", "trivial.ipynb", TRIVIAL)
    told = {"bench": painted_ms(bench, bench.locator(".yc .place input").first)}
    trivial = opened("trivial.ipynb")
    trivial.wait_for_selector(".widget-hslider", timeout=60_000)
    trivial.wait_for_function("document.querySelector('.widget-image').naturalWidth > 0")
    told["trivial picture"] = painted_ms(trivial, trivial.locator(".noUi-handle").first)
    lines = [
        f"\nkey to painted, {name}: median {statistics.median(times):.0f} ms, "
        f"95th percentile {statistics.quantiles(times, n=20)[-1]:.0f} ms over {len(times)}"
        for name, times in told.items()
    ]
    with capsys.disabled():
        sys.stdout.writelines(lines)
    assert all(len(times) >= 40 for times in told.values())


def painted_ms(page, slider) -> list[float]:
    page.bring_to_front()
    page.evaluate(WATCH)
    slider.focus()
    for press in range(48):
        page.keyboard.press("ArrowRight" if press % 12 < 6 else "ArrowLeft")
        page.wait_for_timeout(220)
    return page.evaluate("window.painted")
