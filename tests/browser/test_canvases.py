"""What the painter paints under a finger is what the package's own pictures show, made lots too."""

import pytest

from tests.helpers.browser import ORDER, ready
from tests.helpers.canvases import assert_as_the_pictures
from tests.helpers.paths import SAMPLE_DATA
from tests.helpers.strategies import ORDERED
from yarncolor.editing.editor import Editor
from yarncolor.widgets.order.order_painter import OrderPainter

pytestmark = pytest.mark.browser

EBB = SAMPLE_DATA / "ebb.toml"  # a blend, a later bath, and a gradient with carded steps
SLACK_WATER = SAMPLE_DATA / "slack_water.toml"


@pytest.fixture
def shown(bare):
    """Return a function that shows an editor's order."""

    def show(editor, **options):
        painter = OrderPainter(editor)
        editor.watch(painter.refresh)
        page = ready(bare(painter, **options))
        page.wait_for_function(f"{ORDER}.tables.ahead.size > 0")
        return page

    return show


def of_scheme(name: str) -> Editor:
    """Return Ebb spun in another way; a gradient keeps its carded steps."""
    editor = Editor.opened(EBB)
    if name != "gradient":
        editor.change(name=name)
    return editor


def with_its_first_lot_last(editor: Editor) -> Editor:
    editor.move(editor.place_of(0), len(editor.order) - 1)
    return editor


def put_the_first_lot_last(page) -> None:
    page.locator(".yc .place input").nth(0).focus()
    page.keyboard.press("End")


def wait_for_a_frame_of_it(page, turn: int) -> None:
    page.wait_for_function(f"{ORDER}.frame.turn > {turn} && {ORDER}.frame.entries.at(-1) === 0")


@pytest.mark.parametrize("name", ORDERED)
def test_blends_baths_and_carded_steps_are_painted_in_every_scheme(shown, name):
    page = shown(of_scheme(name))
    assert_as_the_pictures(page, of_scheme(name).plan)
    turn = page.evaluate(f"{ORDER}.frame.turn")
    put_the_first_lot_last(page)
    wait_for_a_frame_of_it(page, turn)
    assert_as_the_pictures(page, with_its_first_lot_last(of_scheme(name)).plan)
    assert page.problems == []


@pytest.mark.parametrize("name", ["gradient", "chain"])
def test_what_a_move_would_card_is_painted_before_the_kernel_answers(shown, name):
    page = shown(of_scheme(name))
    page.evaluate(f"{ORDER}.moves.model.send = () => {{}}")  # a kernel that does not answer
    put_the_first_lot_last(page)
    assert_as_the_pictures(page, with_its_first_lot_last(of_scheme(name)).plan, ["strip"])


def test_a_confirmed_move_is_painted_before_the_fingers_rest(shown):
    page = shown(of_scheme("gradient"))
    page.evaluate(f"{ORDER}.moves.rest = () => {{}}")  # numbers and words are not asked for yet
    page.evaluate(f"{ORDER}.tables.after = () => null")  # and nothing was sent ahead
    put_the_first_lot_last(page)
    page.wait_for_function(f"{ORDER}.frame.entries.at(-1) === 0 && !{ORDER}.moves.queue.length")
    assert_as_the_pictures(page, with_its_first_lot_last(of_scheme("gradient")).plan, ["strip"])


def test_lots_of_an_srgb_plan_are_painted_as_they_are(shown):
    page = shown(Editor.opened(SLACK_WATER))
    turn = page.evaluate(f"{ORDER}.frame.turn")
    put_the_first_lot_last(page)
    wait_for_a_frame_of_it(page, turn)
    assert_as_the_pictures(page, with_its_first_lot_last(Editor.opened(SLACK_WATER)).plan)


def test_the_fabric_under_the_order_shows_every_lot_of_a_gradient(shown):
    page = shown(of_scheme("gradient"))
    caption = page.locator(".yc.order figcaption").nth(1)
    caption.filter(has_text="the whole yarn in small, each row for ").wait_for()
    levels = page.evaluate(
        f"""() => {{
          const canvas = {ORDER}.page.canvases.fabric, pen = canvas.getContext('2d');
          const middle = canvas.width / 2;
          const [low, high] = [0.1, 0.9].map((share) => pen.getImageData(
            middle - 20, Math.round(canvas.height * (1 - share)) - 6, 40, 12).data);
          const mean = (data, c) => data.filter((_, at) => at % 4 === c)
            .reduce((sum, each) => sum + each, 0) / (data.length / 4);
          return [low, high].map((data) => [0, 1, 2].map((c) => mean(data, c)));
        }}"""
    )
    (red, _, blue), (later_red, _, later_blue) = levels
    assert red > blue  # Foam, where plying begins
    assert later_blue > 1.5 * later_red  # Deep Water, where it ends


def test_portions_of_ones_own_are_painted_as_the_pictures_show_them(bare):
    editor = of_scheme("fractal")
    editor.change(name="free")
    page = bare(OrderPainter(editor))
    page.wait_for_function(f"{ORDER}?.frame")
    assert_as_the_pictures(page, editor.plan)
    assert page.problems == []


def test_lots_that_are_drafted_together_are_painted_side_by_side(shown):
    editor = Editor.opened(SAMPLE_DATA / "headland.toml")
    editor.change(name="matched", plies=3)
    assert_as_the_pictures(shown(editor), editor.plan)
