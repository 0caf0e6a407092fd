"""The order bench under real fingers: mouse, keyboard, files, and how long a drag takes."""

import re
import statistics
import sys
from dataclasses import replace

import numpy as np
import pytest

from tests.browser.conftest import ROOT, write_notebook
from yarncolor import answer, read_plan
from yarncolor.editing.editor import Editor
from yarncolor.pictures.painting import painted, rgb
from yarncolor.pictures.strip import raster
from yarncolor.pictures.strip_layout import LEFT_PX, YARN_PX, strip_layout
from yarncolor.widgets.order.order_frames import STRIP_PX, scenes_of

pytestmark = pytest.mark.browser

TIDELINE = ROOT / "sample_data" / "tideline.toml"
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
ORDER = "document.querySelector('.yc.order').order"
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
  while (order.queue.length || order.inFlight !== null || order.wantsRest) {
    await new Promise((next) => setTimeout(next, 2));
  }
  return [shown, order.frame.entries.indexOf(0), performance.now() - ended];
}
"""


def ready(page):
    page.wait_for_selector(".yc .chips li", timeout=60_000)
    page.wait_for_selector(".yc table")
    page.wait_for_function(f"{ORDER}.ahead.size > 0")
    return page


@pytest.fixture
def bench(opened):
    return ready(opened("02_colour_order.ipynb"))


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


def test_the_canvases_show_what_the_pictures_of_the_package_show(bench):
    """At 200 places of strip, yarn and fabric, after a move that the browser painted by itself."""
    bench.locator(".yc .place input").nth(0).focus()
    bench.keyboard.press("ArrowRight")
    bench.keyboard.press("ArrowRight")
    bench.wait_for_function(f"{ORDER}.frame.entries[2] === 0 && {ORDER}.text === ''")
    editor = Editor.opened(TIDELINE)
    editor.move(0, 2)
    found = answer(editor.plan)
    scenes = scenes_of(found, bench.evaluate(f"{ORDER}.frame.from_m"))
    layout = strip_layout(found.layout, found.palette, *STRIP_PX)
    index, colours = raster(replace(layout, texts=()))
    top, inner = round(layout.bands[0].top_px), layout.inner_px
    strip = colours[index][top : round(layout.yarn_top_px) + YARN_PX, LEFT_PX : LEFT_PX + inner]
    wanted = {
        "strip": strip,
        "yarn": rgb(painted(scenes.yarn, found)),
        "fabric": rgb(painted(scenes.fabric, found)),
    }
    rng = np.random.default_rng(1)
    for name, picture in wanted.items():
        high, wide, _ = picture.shape
        y, x = rng.integers(0, high, 200), rng.integers(0, wide, 200)
        seen = bench.evaluate(
            """([name, xs, ys]) => {
              const canvas = document.querySelector('.yc.order').order.canvas[name];
              const pen = canvas.getContext('2d');
              const all = pen.getImageData(0, 0, canvas.width, canvas.height).data;
              return [canvas.width, canvas.height,
                xs.map((x, at) => [...all.slice(4 * (ys[at] * canvas.width + x)).slice(0, 3)])];
            }""",
            [name, x.tolist(), y.tolist()],
        )
        assert seen[:2] == [wide, high]
        np.testing.assert_allclose(seen[2], picture[y, x], atol=1)


def test_two_hundred_events_in_two_seconds_end_in_the_right_order(bench, capsys):
    shown, confirmed, settled_ms = bench.evaluate(BURST)
    assert (shown, confirmed) == (5, 5)
    with capsys.disabled():
        sys.stdout.write(f"\nconfirmed {settled_ms:.0f} ms after the last of 200 events")
    assert bench.problems == []


def test_a_busy_kernel_is_told_and_the_picture_still_follows(bench):
    before = bench.evaluate(STRIP_PIXELS)
    bench.evaluate(f"{ORDER}.model.send = () => {{}}")  # a kernel that does not answer
    bench.locator(".yc .place input").nth(0).focus()
    bench.keyboard.press("End")
    assert names(bench)[-1] == "Kelp"
    assert bench.evaluate(STRIP_PIXELS) != before
    bench.wait_for_selector("[role=status]:text-is('not yet confirmed')")


STRIP_PIXELS = "document.querySelector('.yc.order').order.canvas.strip.toDataURL()"


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
