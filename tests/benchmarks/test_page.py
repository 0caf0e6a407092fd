"""How soon the app page is drawn: the whole bench beside a page with nothing but one slider."""

import shutil
import statistics
import sys
import time
from concurrent.futures import ThreadPoolExecutor

import pytest

from tests.helpers.browser import write_notebook
from tests.helpers.chromium import browser_path, launched
from tests.helpers.page_server import served, served_alone
from tests.helpers.paths import SAMPLE_DATA

ONE_SLIDER = """
import ipywidgets as w
w.IntSlider(description="one slider")
"""
_ROUNDS = 8
"""Pages drawn in turn; the first of each finds nothing in the browser's cache or the disk's."""


def drawn_s(browser, address: str, sign: str) -> float:
    """Return seconds until a page that is opened anew shows a sign."""
    context = browser.new_context(viewport={"width": 1300, "height": 900})
    page = context.new_page()
    began = time.monotonic()
    page.goto(address, wait_until="commit")
    page.wait_for_selector(sign, timeout=60_000)
    took = time.monotonic() - began
    context.close()
    return took


def timed_pairs(one: str, whole: str) -> list[tuple[float, float]]:
    """Return seconds until slider and bench are drawn, in turn, after one of each untimed."""
    with launched() as with_it:
        for address, sign in ((one, ".noUi-handle"), (whole, ".yc .chips li")):
            drawn_s(with_it, address, sign)
        return [
            (drawn_s(with_it, one, ".noUi-handle"), drawn_s(with_it, whole, ".yc .chips li"))
            for _ in range(_ROUNDS - 1)
        ]


@pytest.mark.browser
@pytest.mark.thorough
def test_the_bench_is_drawn_about_as_soon_as_one_slider(tmp_path, capsys):
    browser_path()
    plan = tmp_path / "plan.toml"
    shutil.copy(SAMPLE_DATA / "slack_water.toml", plan)
    write_notebook(tmp_path, "slider.ipynb", ONE_SLIDER)
    slider_page = served_alone(tmp_path / "slider.ipynb")
    with slider_page as one, served(plan) as whole, ThreadPoolExecutor(1) as alone:
        # in a thread of its own: another browser may run in this one
        pairs = alone.submit(timed_pairs, one, whole).result()
    slider, bench = zip(*pairs, strict=True)
    ratios = [each / other for other, each in pairs]
    with capsys.disabled():
        for name, of in (("fastest", min), ("median", statistics.median)):
            sys.stdout.write(f"\ndrawn, {name} of {len(pairs)}: one slider {of(slider):.2f} s, ")
            sys.stdout.write(f"the bench {of(bench):.2f} s: {of(bench) / of(slider):.2f} times")
        sys.stdout.write(f"\npair by pair, median: {statistics.median(ratios):.2f} times as long")
