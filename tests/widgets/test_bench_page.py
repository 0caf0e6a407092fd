"""The bench as a page: there is nothing before a browser is there, then all of it, once."""

import asyncio
import subprocess
import sys

import pytest

from tests.helpers.paths import SAMPLE_DATA
from yarncolor.widgets.bench_page import bench_page
from yarncolor.widgets.whole_bench import Bench

RING = {"do": "ready"}
LOADED = "import sys, yarncolor.widgets.bench_page; print('pydantic' in sys.modules)"


@pytest.fixture
def page(monkeypatch, tmp_path):
    monkeypatch.setenv("YARNCOLOR_PLAN", str(SAMPLE_DATA / "slack_water.toml"))
    monkeypatch.setenv("YARNCOLOR_OUT", str(tmp_path))
    return bench_page


def test_the_bench_is_made_when_a_browser_is_there_and_only_once(page):
    shown = page()
    assert shown.children == (shown.doorbell,)
    shown.doorbell.handle(RING, [])
    _, made = shown.children
    assert isinstance(made, Bench)
    shown.doorbell.handle(RING, [])
    assert shown.children == (shown.doorbell, made)


def test_all_that_takes_time_is_done_while_the_browser_loads(page):
    async def opened():
        shown = page()
        before = "made" in vars(shown)
        await asyncio.sleep(0.1)
        return before, "made" in vars(shown), shown.children == (shown.doorbell,)

    assert asyncio.run(opened()) == (False, True, True)


def test_the_page_is_handed_over_before_the_slow_modules_are_loaded():
    told = subprocess.run(
        [sys.executable, "-c", LOADED], check=True, capture_output=True, text=True
    )
    assert told.stdout.strip() == "False"


def test_a_plan_that_cannot_be_opened_is_told(monkeypatch, tmp_path):
    monkeypatch.setenv("YARNCOLOR_PLAN", str(tmp_path / "<none>.toml"))
    shown = bench_page()
    shown.doorbell.handle(RING, [])
    told = shown.children[1].value
    assert "there is no such file" in told
    assert 'role="alert"' in told
    assert "<none>" not in told
