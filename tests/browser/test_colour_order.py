"""The order bench under real fingers: mouse, keyboard, files, and how long a drag takes."""

import re
import statistics
import sys

import pytest

from tests.browser.conftest import write_notebook
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
  const image = document.querySelector('.widget-image');
  window.painted = [];
  let pressed = null;
  document.addEventListener('keydown', () => { pressed = performance.now(); }, true);
  image.addEventListener('load', () => {
    const began = pressed;
    if (began === null) return;
    pressed = null;
    const done = () => window.painted.push(performance.now() - began);
    requestAnimationFrame(() => setTimeout(done, 0));
  });
}
"""


def handles(page):
    return page.locator(".widget-hslider .noUi-handle")


def readouts(page):
    return [int(text) for text in page.locator(".widget-hslider .widget-readout").all_inner_texts()]


def ready(page):
    page.wait_for_selector(".widget-hslider", timeout=60_000)
    page.wait_for_function("document.querySelector('.widget-image').naturalWidth > 0")
    return page


@pytest.fixture
def bench(opened):
    return ready(opened("02_colour_order.ipynb"))


def test_the_keyboard_moves_a_lot_and_everything_follows(bench):
    before = bench.locator(".widget-image").get_attribute("src")
    handles(bench).first.focus()
    bench.keyboard.press("ArrowRight")
    bench.wait_for_function(
        "before => document.querySelector('.widget-image').src !== before", arg=before
    )
    bench.wait_for_function(
        "document.querySelectorAll('.widget-hslider .widget-readout')[1].innerText === '1'"
    )
    assert readouts(bench) == [2, 1, 3, 4, 5, 6, 7]
    bench.wait_for_selector("ol[aria-label^='order'] li:first-child:text-is('1 Foam')")
    assert bench.locator("ol[aria-label^='order'] li").first.inner_text() == "1 Foam"
    bench.click("button:text-is('Undo')")
    bench.wait_for_function(
        "document.querySelector('.widget-hslider .widget-readout').innerText === '1'"
    )
    assert bench.problems == []


def test_the_mouse_drags_a_lot_over_several_places_without_moving_the_page(bench):
    image = bench.locator(".widget-image")
    image.scroll_into_view_if_needed()
    place = image.bounding_box()
    handle, track = handles(bench).nth(1).bounding_box(), bench.locator(".noUi-target").nth(1)
    end = track.bounding_box()
    y = handle["y"] + handle["height"] / 2
    bench.mouse.move(handle["x"] + handle["width"] / 2, y)
    bench.mouse.down()
    bench.mouse.move(end["x"] + end["width"], y, steps=20)
    bench.mouse.up()
    bench.wait_for_function(
        "document.querySelectorAll('.widget-hslider .widget-readout')[1].innerText === '7'"
    )
    bench.wait_for_function(
        "[...document.querySelectorAll('.widget-hslider .widget-readout')]"
        ".map(each => each.innerText).join() === '1,7,2,3,4,5,6'"
    )
    bench.wait_for_selector("ol[aria-label^='order'] li:last-child:text-is('7 Foam')")
    assert image.bounding_box() == place


def test_the_plan_is_saved_and_the_path_is_shown(bench, lab):
    _, folder = lab
    plan = folder / "sample_data" / "tideline.toml"
    before = plan.read_text(encoding="utf-8")
    handles(bench).nth(2).focus()
    bench.keyboard.press("ArrowRight")
    bench.wait_for_function(
        "document.querySelectorAll('.widget-hslider .widget-readout')[2].innerText === '4'"
    )
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


def test_how_long_a_drag_takes_is_told_beside_a_trivial_picture(bench, opened, lab, capsys):
    _, folder = lab
    write_notebook(folder / "notebooks", "trivial.ipynb", TRIVIAL)
    trivial = ready(opened("trivial.ipynb"))
    told = {"bench": painted_ms(bench), "trivial picture": painted_ms(trivial)}
    lines = [
        f"\nkey to painted, {name}: median {statistics.median(times):.0f} ms, "
        f"95th percentile {statistics.quantiles(times, n=20)[-1]:.0f} ms over {len(times)}"
        for name, times in told.items()
    ]
    with capsys.disabled():
        sys.stdout.writelines(lines)
    assert all(len(times) >= 40 for times in told.values())


def painted_ms(page) -> list[float]:
    page.bring_to_front()
    page.evaluate(WATCH)
    handles(page).first.focus()
    for press in range(48):
        page.keyboard.press("ArrowRight" if press % 12 < 6 else "ArrowLeft")
        page.wait_for_timeout(220)
    return page.evaluate("window.painted")
