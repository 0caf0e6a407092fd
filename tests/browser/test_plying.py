"""The section at the plying wheel under real fingers: how far, one that ran out, the rules."""

import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.helpers.browser import DARK
from tests.helpers.paths import SAMPLE_DATA
from yarncolor.editing.editor import Editor
from yarncolor.widgets.plying.plying_bench import PlyingBench

pytestmark = pytest.mark.browser


@pytest.fixture
def page(bare):
    editor = Editor.opened(SAMPLE_DATA / "tideline.toml")
    page = bare(PlyingBench(editor))
    page.editor = editor
    page.get_by_text("How far am I?").wait_for()
    return page


def settle(page, what) -> None:
    for _ in range(60):
        if what(page.editor.plan):
            return
        page.wait_for_timeout(50)
    assert what(page.editor.plan)


def far(page, metres: str) -> None:
    page.get_by_role("textbox", name="metres of yarn plied so far").fill(metres)
    page.keyboard.press("Tab")
    settle(page, lambda plan: plan.plied and plan.plied.so_far_m == float(metres))


def test_one_that_ran_out_is_said_in_a_number_and_a_press(page):
    far(page, "505")
    page.get_by_role("button", name="ply 3 ran out here").click()
    settle(page, lambda plan: plan.plied.ended_ply == 3)
    page.get_by_role("heading", name="fold the rest of ply 1 in two").wait_for()
    assert page.locator(".rescues img").count() >= 5
    assert page.locator(".rescues .hands").first.locator("li").count() == 3
    page.get_by_role("button", name="none has run out after all").click()
    settle(page, lambda plan: plan.plied.ended_ply is None)
    assert page.problems == []


def test_nonsense_stays_beside_its_field_until_it_is_put_back(page):
    field = page.get_by_role("textbox", name="metres of yarn plied so far")
    field.fill("plenty")
    page.keyboard.press("Tab")
    page.locator(".cell .fault", has_text="give").wait_for()
    assert field.input_value() == "plenty"
    page.get_by_role("button", name="put back: metres of yarn").click()
    page.wait_for_function("document.querySelector('.cell input').value === ''")


def test_what_is_typed_while_the_kernel_is_at_work_stays(page):
    page.get_by_role("textbox", name="metres of yarn plied so far").fill("505")
    page.keyboard.press("Tab")
    turns = page.get_by_role("textbox", name="turns plied so far")
    turns.press_sequentially("12")
    page.kernel.widgets[0].on_ready({"do": "ready"})
    page.kernel.tell()
    assert turns.input_value() == "12"


def test_twist_is_looked_at(page):
    page.get_by_text("How does the twist look?").click()
    page.get_by_label("a loop of fresh yarn").select_option("with")
    page.get_by_text("the yarn is under-plied").wait_for()
    page.get_by_label("the yarn catches on the hooks").check()
    page.get_by_text("twist runs up in front of it").wait_for()
    assert page.problems == []


def test_the_rules_of_accessibility_hold_in_light_and_dark(page):
    far(page, "505")
    page.get_by_role("button", name="ply 3 ran out here").click()
    page.locator(".rescues img").first.wait_for()
    for dark in (False, True):
        if dark:
            page.evaluate(DARK)
        found = Axe().run(page, ".yc").response["violations"]
        assert [(each["id"], each["nodes"][0]["html"][:120]) for each in found] == []


def test_a_phone_s_width_is_enough(page):
    page.set_viewport_size({"width": 360, "height": 740})
    far(page, "505")
    page.get_by_role("button", name="ply 3 ran out here").click()
    page.locator(".rescues img").first.wait_for()
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
