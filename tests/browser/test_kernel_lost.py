"""A page that has lost its kernel says so, keeps what was not saved, and starts again by itself."""

import json
import os
import signal
import time
import urllib.error
import urllib.request
from contextlib import contextmanager, suppress
from pathlib import Path

import pytest

from tests.helpers.browser import go_to, ready, write_notebook
from tests.helpers.page_server import PAGE, part_of
from tests.helpers.paths import SAMPLE_DATA
from yarncolor import read_plan
from yarncolor.editing.editor import Editor
from yarncolor.widgets.plan_bar import PlanBar

pytestmark = pytest.mark.browser


@pytest.fixture
def page(plan, visited, app_address):
    return ready(visited(app_address))


def order(page) -> list[str]:
    return page.locator(".yc .chips button span").all_inner_texts()


def kernel(page) -> str:
    config = page.locator("#jupyter-config-data").text_content()
    return json.loads(config)["kernelId"]


def process_of(kernel_id: str) -> int:
    """Return the number of the process that works for a kernel: its command names it."""
    for path in Path("/proc").glob("[0-9]*/cmdline"):
        try:
            if kernel_id.encode() in path.read_bytes():
                return int(path.parent.name)
        except OSError:
            continue
    return pytest.skip("processes are not told here")


def is_there(address: str, kernel_id: str) -> bool:
    try:
        urllib.request.urlopen(part_of(address, f"api/kernels/{kernel_id}"), timeout=5)  # noqa: S310
    except urllib.error.HTTPError:
        return False
    return True


def undo_to(page, names):
    steps_to(page, "Undo", names)


def redo_to(page, names):
    steps_to(page, "Redo", names)


def steps_to(page, button, names):
    """Press until the order is this one, and there is nothing more to press for."""
    press = page.get_by_role("button", name=button)
    while press.is_enabled():
        words = press.get_attribute("title")
        press.click()
        page.wait_for_function(
            "([name, words]) => [...document.querySelectorAll('.yc.bar button')]"
            ".find(each => each.innerText === name).title !== words",
            arg=[button, words],
        )
    page.wait_for_function(
        "names => JSON.stringify([...document.querySelectorAll('.yc .chips button span')]"
        ".map(each => each.innerText)) === JSON.stringify(names)",
        arg=names,
    )


KEPT = """words => Object.entries(sessionStorage).some(([key, kept]) =>
  key.startsWith("yarncolor draft") && JSON.parse(kept).steps.length > 1
  && words.every(word => kept.includes(word)))"""
"""What a page keeps is asked for when the fingers rest: here a step of theirs, and these words."""


def test_a_page_whose_kernel_is_killed_says_so_and_gives_the_plan_back(page, plan):
    before = order(page)
    page.get_by_label(f"place of {before[0]}").focus()
    page.keyboard.press("End")
    moved = [*before[1:], before[0]]
    page.wait_for_selector(".yc.bar [role=status]:text-is('changed, not saved yet')")
    go_to(page, "Lots")
    page.locator(".yc .lots input.name").nth(1).fill("Deep Water")
    page.locator(".yc .lots input.mass_g").nth(2).fill("plenty")
    page.wait_for_selector(".yc .lots .cell.mass_g .fault:not(:empty)")
    page.wait_for_function(KEPT, arg=["Deep Water", "plenty"])
    lost = kernel(page)
    os.kill(process_of(lost), signal.SIGKILL)
    page.wait_for_selector(".yc.bar [role=alert]:has-text('your plan is kept')", timeout=20_000)
    page.wait_for_function(
        "lost => !document.getElementById('jupyter-config-data')?.textContent.includes(lost)",
        arg=lost,
        timeout=30_000,
    )
    page.wait_for_selector("[role=status]:has-text('the plan is as it was')", timeout=60_000)
    page.wait_for_function(
        "[...document.querySelectorAll('.yc .lots input.mass_g')][2]?.value === 'plenty'"
    )
    assert page.locator(".yc .lots input.name").nth(1).input_value() == "Deep Water"
    page.locator(".yc .lots input.mass_g").nth(2).fill("30,5")
    page.wait_for_function(
        "[...document.querySelectorAll('.yc .lots .chip')][1].innerText === 'Deep Water'"
    )
    go_to(page, "Colour order")
    ready(page)
    renamed = ["Deep Water" if each == before[1] else each for each in moved]
    assert order(page) == renamed
    undo_to(page, before)
    redo_to(page, renamed)
    page.get_by_role("button", name="Save the plan", exact=True).click()
    page.wait_for_selector(".yc.bar [role=status]:text-is('saved')")
    assert "Deep Water" in read_plan(plan).names


def test_a_page_whose_kernel_was_ended_while_it_slept_starts_again_when_it_wakes(page, app_address):
    lost = kernel(page)
    page.get_by_label(f"place of {order(page)[0]}").focus()
    page.keyboard.press("ArrowRight")
    moved = order(page)
    page.wait_for_function(KEPT, arg=[])
    page.context.set_offline(True)
    page.wait_for_selector(".yc.bar [role=alert]:has-text('cannot be reached')", timeout=30_000)
    page.evaluate("() => document.title")  # the page is there still, and says what to do
    os.kill(process_of(lost), signal.SIGKILL)
    page.context.set_offline(False)
    page.wait_for_selector("[role=status]:has-text('the plan is as it was')", timeout=60_000)
    ready(page)
    assert order(page) == moved


def test_what_a_closed_browser_left_unsaved_is_offered_by_the_next(
    page, visited, app_address, plan
):
    before = order(page)
    page.get_by_label(f"place of {before[0]}").focus()
    page.keyboard.press("End")
    moved = [*before[1:], before[0]]
    ends = time.monotonic() + 20
    while not (kept := list(plan.parent.glob("* versions/not saved*.toml"))):
        assert time.monotonic() < ends
        time.sleep(0.2)
    page.context.close()
    again = ready(visited(app_address))
    offer = again.locator(
        ".yc.bar [role=status]", has_text="and never saved: the order of the lots"
    )
    offer.wait_for()
    assert order(again) == before
    again.get_by_role("button", name="Bring it back").click()
    again.wait_for_selector(".yc.bar [role=status]:has-text('as it was then, and not saved yet')")
    assert order(again) == moved
    assert not offer.is_visible()
    again.get_by_role("button", name="Undo").click()
    again.wait_for_selector(".yc.bar [role=status]:text-is('saved')")
    ends = time.monotonic() + 20
    while any(file.exists() for file in kept):
        assert time.monotonic() < ends
        time.sleep(0.2)
    assert again.problems == []


def test_a_page_that_is_closed_ends_its_kernel(page, app_address):
    kernel_id = kernel(page)
    assert is_there(app_address, kernel_id)
    page.close()
    ends = time.monotonic() + 10
    while is_there(app_address, kernel_id):
        assert time.monotonic() < ends
        time.sleep(0.2)


def test_an_open_page_is_not_ended_by_the_clock():
    told = json.loads((PAGE / "voila.json").read_text(encoding="utf-8"))
    assert told["MappingKernelManager"]["cull_idle_timeout"] >= 7 * 24 * 3600


def test_a_page_is_told_that_its_kernel_has_ended_and_does_not_wait_to_find_out(page):
    page.evaluate("clearInterval(document.querySelector('.yc.bar').bar.watch.timer)")
    page.evaluate("sessionStorage.clear()")
    os.kill(process_of(kernel(page)), signal.SIGKILL)
    page.wait_for_selector(".yc.bar [role=alert]:has-text('This page starts again by itself')")
    told = json.loads((PAGE / "voila.json").read_text(encoding="utf-8"))
    assert told["KernelRestarter"]["time_to_dead"] <= 0.5


@contextmanager
def held_up(page):
    """Hold up a page's kernel for longer than the page is patient, as a busy machine does."""
    number = process_of(kernel(page))
    os.kill(number, signal.SIGSTOP)
    try:
        page.wait_for_selector(".yc.bar [role=alert]:has-text('still at work')", timeout=20_000)
        page.wait_for_timeout(3000)
        yield
    finally:
        with suppress(ProcessLookupError):
            os.kill(number, signal.SIGCONT)


def is_as_it_was(page):
    page.wait_for_function("document.querySelector('.yc.bar [role=alert]').innerText === ''")
    assert page.evaluate("window.isThisPage")
    assert page.problems == []


def test_a_slow_machine_is_waited_for(page):
    page.evaluate("window.isThisPage = true")
    with held_up(page):
        page.get_by_label(f"place of {order(page)[0]}").focus()
        page.keyboard.press("End")
    page.wait_for_selector(".yc.bar [role=status]:text-is('changed, not saved yet')")
    is_as_it_was(page)


def test_a_bench_at_work_on_a_slow_machine_is_waited_for(page, plan):
    page.evaluate("window.isThisPage = true")
    go_to(page, "Files")
    page.get_by_role("button", name="Write everything").click()
    page.wait_for_selector("[role=status]:has-text(' made, ')")
    with held_up(page):
        assert not (plan.parent / "out").exists()
    page.wait_for_selector("[role=status]:has-text('Written: ')", timeout=120_000)
    is_as_it_was(page)


def test_in_a_notebook_it_is_told_as_well(bare, tmp_path):
    shown = bare(PlanBar(Editor.opened(SAMPLE_DATA / "slack_water.toml"), tmp_path))
    shown.get_by_role("button", name="Undo").wait_for()
    shown.evaluate("window.connection.statusChanged.emit('busy')")
    assert shown.locator(".yc.bar [role=alert]").inner_text() == ""
    shown.evaluate("window.connection.statusChanged.emit('restarting')")
    assert "Run the notebook again" in shown.locator(".yc.bar [role=alert]").inner_text()
    assert shown.problems == []


BENCH = """
import yarncolor as yc
yc.bench.lots("../sample_data/slack_water.toml", "out")
"""
START_ANEW = "window.jupyterapp.shell.currentWidget.sessionContext.session.kernel.restart()"


def test_a_notebook_whose_kernel_is_started_anew_says_so(opened, lab):
    write_notebook(lab[1] / "notebooks", "lost.ipynb", BENCH)
    page = opened("lost.ipynb")
    page.wait_for_selector(".yc.bar button:text-is('Undo')", timeout=60_000)
    page.evaluate(START_ANEW)
    page.wait_for_selector(".yc.bar [role=alert]:has-text('Run the notebook again')")
