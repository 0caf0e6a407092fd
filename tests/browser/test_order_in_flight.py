"""A lot is moved while the kernel's news of another bench are on their way and not yet heard."""

import pytest

from tests.helpers.browser import AT_REST, ORDER, ready
from tests.helpers.canvases import assert_as_the_pictures
from tests.helpers.paths import SAMPLE_DATA
from yarncolor.editing.editor import Editor
from yarncolor.editing.lot_rows import plan_with_rows, rows_of
from yarncolor.widgets.order.order_painter import OrderPainter

pytestmark = pytest.mark.browser

PLAN = SAMPLE_DATA / "slack_water.toml"


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


def put_the_first_lot_last(page):
    """Move it before anything is heard, and wait until the kernel has answered."""
    assert page.kernel.said
    page.locator(".yc .place input").nth(0).focus()
    page.keyboard.press("End")
    page.wait_for_function(AT_REST)


def names(page) -> list[str]:
    return page.locator(".yc .chips button span").all_inner_texts()


def test_a_move_is_done_in_an_order_that_another_bench_turned_meanwhile(page):
    moved = names(page)[0]
    page.editor.reverse()
    put_the_first_lot_last(page)
    assert page.editor.names()[-1] == moved
    assert names(page) == list(page.editor.names())
    assert_as_the_pictures(page, page.editor.plan)
    assert page.problems == []


def test_a_move_is_done_under_a_scheme_that_another_bench_chose_meanwhile(page):
    page.editor.change(name="staggered")
    put_the_first_lot_last(page)
    assert names(page) == list(page.editor.names())
    assert_as_the_pictures(page, page.editor.plan)
    assert page.problems == []


def test_no_lot_is_moved_for_one_that_is_gone_meanwhile(page):
    rows = rows_of(page.editor.plan)
    page.editor.replace_plan(plan_with_rows(page.editor.plan, rows[1:]))
    stands = page.editor.names()
    put_the_first_lot_last(page)
    assert page.editor.names() == stands
    assert names(page) == list(stands)
    page.wait_for_selector("[role=status]:has-text('The lots of the order changed meanwhile')")
    page.locator(".yc .place input").nth(0).focus()
    page.keyboard.press("End")
    page.wait_for_function(AT_REST)
    assert names(page) == list(page.editor.names()) == [*stands[1:], stands[0]]
    assert page.problems == []
