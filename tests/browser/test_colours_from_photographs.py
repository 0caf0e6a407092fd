"""The bench for photographs under real fingers: mouse, keyboard, touch, files opened, dropped."""

import base64
import io
import shutil
from pathlib import Path

import pytest
from PIL import Image

from tests.helpers.browser import notebook
from tests.helpers.paths import SAMPLE_DATA
from yarncolor import read_plan
from yarncolor.colour.photo.demo import Conditions, demo_photo
from yarncolor.editing.editor import Editor
from yarncolor.widgets.photo.photo_bench import PhotoBench
from yarncolor.widgets.plan_bar import PlanBar

pytestmark = pytest.mark.browser
RUST, ROCK_POOL = (150, 60, 50), (20, 90, 160)
STEPS = [
    "1. Open a picture",
    "2. Say what is white, grey or a target",
    "3. Draw a box on each fibre",
    "4. Name and weigh",
    "5. Take the colours into the plan",
]
CORNERS = ((0.06, 0.08), (0.48, 0.08), (0.48, 0.50), (0.06, 0.50))


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """Return a folder of work with a plan in it, as beside the notebooks."""
    (tmp_path / "notebooks").mkdir()
    shutil.copytree(SAMPLE_DATA, tmp_path / "sample_data")
    monkeypatch.chdir(tmp_path / "notebooks")
    return tmp_path


@pytest.fixture(scope="module")
def example():
    return demo_photo()


@pytest.fixture
def section(bare, folder, example):
    """Return a function that shows the bench on the example, under the bar of its plan."""

    def open_section(photo=example, **options):
        editor = Editor.opened("../sample_data/slack_water.toml")
        photographs = PhotoBench(photo, editor)
        editor.watch(photographs.refresh)
        page = bare(PlanBar(editor, Path("out")), photographs, **options)
        page.wait_for_selector(".yc canvas[aria-label*='900 × 675']")
        return page

    return open_section


@pytest.fixture
def page(section):
    return section(demo_photo(Conditions(illuminant="A", balanced=False, falls_off=0.15)))


@pytest.fixture
def laboratory(opened):
    page = opened(notebook("colours_from_photographs"))
    page.wait_for_selector(".yc.photo", timeout=90_000)
    page.wait_for_selector(".yc canvas[aria-label*='900 × 675']")
    page.get_by_role("heading", name=STEPS[0]).click()  # its cell is the one at work from here on
    return page


@pytest.fixture
def in_the_app(plan, visited, app_address):
    """Return the photographs of the page without code."""
    page = visited(app_address)
    page.wait_for_selector(".yc .chips li", timeout=60_000)
    page.get_by_role("button", name="Photographs", exact=True).click()
    page.wait_for_selector(".yc canvas[aria-label*='900 × 675']", timeout=60_000)
    return page


def two_halves(size=(400, 300)) -> bytes:
    """Return a picture, rust on the left and rock pool on the right."""
    image = Image.new("RGB", size, RUST)
    image.paste(ROCK_POOL, (size[0] // 2, 0, *size))
    stream = io.BytesIO()
    image.save(stream, "PNG")
    return stream.getvalue()


def bench(page):
    return page.locator(".yc.photo")


def draw(page, left, top, width, height):
    """Drag across the picture, in shares of it."""
    canvas = page.locator(".yc.photo canvas")
    canvas.scroll_into_view_if_needed()
    seen = canvas.bounding_box()
    x, y = seen["x"] + left * seen["width"], seen["y"] + top * seen["height"]
    page.mouse.move(x, y)
    page.mouse.down()
    for share in (0.4, 1.0):
        page.mouse.move(x + share * width * seen["width"], y + share * height * seen["height"])
    page.mouse.up()


def press(page, words):
    bench(page).get_by_role("button", name=words).click()


def lot_row(page, number):
    return bench(page).locator("tbody tr").nth(number)


def wait_said(page, words):
    bench(page).locator(".said", has_text=words).wait_for()


def test_a_picture_is_opened_drawn_on_taken_and_saved(page, folder, tmp_path):
    draw(page, 0.10, 0.68, 0.05, 0.15)
    lot_row(page, 0).get_by_text("fibre 1").wait_for()
    bench(page).get_by_label("white", exact=True).check()
    draw(page, 0.62, 0.18, 0.25, 0.25)
    bench(page).get_by_text("The picture was corrected by something white").wait_for()
    bench(page).get_by_role("group", name="white", exact=True).get_by_role("button").click()

    Image.new("RGB", (2000, 1500), RUST).save(tmp_path / "mine.png")
    bench(page).locator("input[accept='image/*']").set_input_files(tmp_path / "mine.png")
    bench(page).get_by_text("mine.png: 1600 × 1200 pixels; shrunk from 2000 × 1500").wait_for()
    wait_said(page, "Opened. Boxes stayed where they were.")
    bench(page).get_by_label("put right by").select_option("nothing")
    lot_row(page, 0).get_by_text("#963c32").wait_for()

    bench(page).get_by_label("name", exact=True).fill("<b>Bilberry")
    bench(page).get_by_label("grams").fill("")
    press(page, "Take the colours")
    bench(page).locator(".marks .fault", has_text="grams: give grams, 0.001 to").wait_for()
    bench(page).get_by_label("grams").fill("31.5")
    press(page, "Take the colours")
    wait_said(page, "Taken into the plan: <b>Bilberry (31.5 g).")
    bar = page.locator(".yc.bar")
    bar.locator("summary").click()
    bar.get_by_label("new name").fill("bilberry")
    bar.get_by_role("button", name="Save the plan as").click()
    bar.locator(".said", has_text="Written: ../sample_data/bilberry.toml").wait_for()
    written = folder / "sample_data" / "bilberry.toml"
    lot = read_plan(written).lots[-1]
    assert (lot.name, lot.mass_g) == ("<b>Bilberry", 31.5)
    bench(page).get_by_text("In the plan: 9 lots").wait_for()
    bar.get_by_role("button", name="Undo").click()
    bench(page).get_by_text("In the plan: 8 lots").wait_for()
    assert page.problems == []


def test_a_box_is_moved_and_sized_by_the_mouse(page):
    draw(page, 0.40, 0.60, 0.20, 0.30)
    draw(page, 0.50, 0.75, -0.10, -0.10)
    draw(page, 0.50, 0.80, 0.10, 0.10)
    fields = bench(page).locator(".marks input[type=number]").all()[1:]
    shares = [float(field.input_value()) for field in fields]
    assert shares == pytest.approx([30, 50, 30, 40], abs=0.5)


def test_what_is_no_picture_is_said_and_what_is_drawn_stays(page, tmp_path):
    draw(page, 0.10, 0.68, 0.05, 0.15)
    (tmp_path / "letter.jpg").write_text("Dear diary", encoding="utf-8")
    bench(page).locator("input[accept='image/*']").set_input_files(tmp_path / "letter.jpg")
    bench(page).get_by_text("letter.jpg: the browser cannot open it as a picture").wait_for()
    lot_row(page, 0).get_by_text("fibre 1").wait_for()


def test_everything_is_done_from_the_keyboard_though_the_laboratory_has_shortcuts(laboratory):
    page = laboratory
    keys = page.keyboard
    bench(page).get_by_label("fibre", exact=True).focus()
    keys.press("Tab")
    keys.press("Enter")  # put one in the middle; its name has the focus
    keys.type("Bilberry")
    for typed in ("12", None, "8", "66", "10", "20"):  # grams, Remove, where it lies
        keys.press("Tab")
        if typed:
            keys.press("Control+a")
            keys.type(typed)
    lot_row(page, 0).get_by_text("Bilberry").wait_for()
    alt = "Bilberry at 8 %, 66 %"
    page.wait_for_selector(f".yc canvas[aria-label*='{alt}']")
    bench(page).get_by_role("button", name="Take the colours").focus()
    keys.press("Enter")
    wait_said(page, "Taken into the plan: Bilberry (12 g).")
    bench(page).get_by_role("button", name="Remove Bilberry").focus()
    keys.press("Enter")
    bench(page).get_by_text("Nothing to name yet: first do step 3.").wait_for()
    assert page.evaluate("document.activeElement.textContent") == "Put one in the middle"


def test_proposals_are_kept_or_left(page):
    press(page, "Find lots")
    wait_said(page, "Proposed: 6.")
    bench(page).get_by_role("button", name="Keep as fibre: proposal 3").click()
    lot_row(page, 0).get_by_text("fibre 1").wait_for()
    press(page, "Leave the proposals")
    assert bench(page).locator(".proposed .mark").count() == 0
    assert bench(page).locator(".mark").count() == 1


def test_a_target_and_even_light(page):
    bench(page).get_by_label("even light").check()
    for left, top in ((0.0, 0.0), (0.97, 0.0), (0.5, 0.56)):
        draw(page, left, top, 0.02, 0.03)
    bench(page).get_by_text("The light falls off by").wait_for()
    bench(page).get_by_label("target's corners").check()
    for left, top in CORNERS:
        draw(page, left, top, 0.0, 0.0)
    bench(page).get_by_text("Patches left out one by one are met to").wait_for()
    assert bench(page).get_by_label("put right by").input_value() == "target"


def test_it_fits_a_phone_and_passes_axe(page):
    from axe_playwright_python.sync_playwright import Axe

    draw(page, 0.10, 0.68, 0.05, 0.15)
    press(page, "Find lots")
    wait_said(page, "Proposed: 6.")
    found = Axe().run(page, context=".yc.photo")
    assert found.violations_count == 0, found.generate_report()
    width = "root => { root.style.width = '340px'; return root.scrollWidth; }"
    assert bench(page).evaluate(width) <= 340
    assert page.problems == []


def test_figures_say_why_by_keyboard_and_follow_what_is_drawn(page):
    from axe_playwright_python.sync_playwright import Axe

    draw(page, 0.10, 0.68, 0.05, 0.15)
    asked = bench(page).get_by_text("Why these figures?")
    asked.focus()
    page.keyboard.press("Enter")
    told = bench(page).locator(".why[open] > div")
    told.get_by_text("assumed, to be as they come").first.wait_for()
    bench(page).get_by_label("white", exact=True).check()
    draw(page, 0.62, 0.18, 0.25, 0.25)
    told.get_by_text("gain of red = it reflects 85% ÷ seen").wait_for()
    assert told.get_by_text("red, put right = seen").count() == 1
    bench(page).get_by_label("fibre", exact=True).check()
    draw(page, 0.27, 0.68, 0.05, 0.15)
    told.get_by_text("fibre 2: #").wait_for()
    assert told.get_by_text("red, put right = seen").count() == 2
    page.set_viewport_size({"width": 390, "height": 800})
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    found = Axe().run(page, context=".yc.photo")
    assert found.violations_count == 0, found.generate_report()
    assert page.problems == []


def drop(page, name, data, kind="image/png"):
    """Drop a file on the picture, as a hand does that brings one from a folder."""
    given = [base64.b64encode(data).decode(), name, kind]
    carried = page.evaluate_handle(
        """([text, name, type]) => {
            const bytes = Uint8Array.from(atob(text), (one) => one.charCodeAt(0));
            const carried = new DataTransfer();
            carried.items.add(new File([bytes], name, { type }));
            return carried;
        }""",
        given,
    )
    for event in ("dragenter", "dragover", "drop"):
        page.dispatch_event(".yc.photo canvas", event, {"dataTransfer": carried})


def painted(page, left, top):
    """Return red, green and blue of the picture as it is painted, at shares of it."""
    return page.locator(".yc.photo canvas").evaluate(
        """(canvas, [left, top]) => {
            const at = [Math.round(left * canvas.width), Math.round(top * canvas.height)];
            return [...canvas.getContext("2d").getImageData(...at, 1, 1).data].slice(0, 3);
        }""",
        [left, top],
    )


def test_what_is_dropped_takes_the_place_of_the_example_where_it_is_a_picture(section):
    page = section()
    example = bench(page).get_by_text("This is an example, invented")
    before = painted(page, 0.75, 0.3)
    drop(page, "letter.txt", b"Dear diary", "text/plain")
    bench(page).get_by_text("letter.txt: the browser cannot open it as a picture").wait_for()
    example.wait_for(state="visible")
    assert painted(page, 0.75, 0.3) == before
    drop(page, "mine.png", two_halves())
    bench(page).get_by_text("mine.png: 400 × 300 pixels").wait_for()
    example.wait_for(state="hidden")
    assert painted(page, 0.25, 0.9) == pytest.approx(RUST, abs=4)
    assert painted(page, 0.75, 0.9) == pytest.approx(ROCK_POOL, abs=4)
    draw(page, 0.1, 0.2, 0.2, 0.4)
    lot_row(page, 0).get_by_text("#963c32").wait_for()
    assert page.problems == []


FEEL = """() => {
    window.felt = new Set();
    const canvas = document.querySelector(".yc.photo canvas");
    canvas.addEventListener("pointerdown", (event) => window.felt.add(event.pointerType));
}"""


def touch(page, left, top, width, height):
    """Draw a finger across the picture, in shares of it."""
    canvas = page.locator(".yc.photo canvas")
    canvas.scroll_into_view_if_needed()
    seen = canvas.bounding_box()
    fingers = page.context.new_cdp_session(page)
    for kind, share in (("touchStart", 0), ("touchMove", 0.4), ("touchMove", 1)):
        x = seen["x"] + (left + share * width) * seen["width"]
        y = seen["y"] + (top + share * height) * seen["height"]
        point = {"x": x, "y": y}
        fingers.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": [point]})
    fingers.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})


@pytest.mark.parametrize(
    ("width", "height"), [pytest.param(1300, 900, marks=pytest.mark.thorough), (360, 740)]
)
def test_a_box_is_drawn_and_sized_by_a_finger(section, tmp_path, width, height):
    page = section(width=width, height=height, has_touch=True)
    (tmp_path / "mine.png").write_bytes(two_halves())
    bench(page).locator("input[accept='image/*']").set_input_files(tmp_path / "mine.png")
    bench(page).get_by_text("mine.png: 400 × 300 pixels").wait_for()
    page.evaluate(FEEL)
    touch(page, 0.6, 0.2, 0.3, 0.3)
    lot_row(page, 0).get_by_text("#145aa0").wait_for()
    touch(page, 0.61, 0.21, -0.5, 0.1)  # beside its corner, as near as a finger comes
    touch(page, 0.2, 0.8, 0.2, 0.1)
    lot_row(page, 1).get_by_text("#963c32").wait_for()
    fields = bench(page).locator(".fibres input[type=number]").all()
    shares = [float(field.input_value()) for field in fields]
    assert shares[1:5] == pytest.approx([11, 31, 79, 19], abs=1.5)
    assert shares[6:] == pytest.approx([20, 80, 20, 10], abs=1.5)
    assert page.evaluate("[...window.felt]") == ["touch"]
    assert page.problems == []


def test_the_steps_are_numbered_and_what_cannot_be_done_yet_says_why(section):
    page = section()
    assert bench(page).get_by_role("heading").all_inner_texts() == STEPS
    take = bench(page).get_by_role("button", name="Take the colours")
    why = bench(page).locator(f"[id='{take.get_attribute('aria-describedby')}']")
    assert take.is_disabled()
    assert why.inner_text() == "First draw a box on a fibre: step 3."
    draw(page, 0.10, 0.68, 0.05, 0.15)
    lot_row(page, 0).get_by_text("fibre 1").wait_for()
    assert take.is_disabled()
    assert why.inner_text() == "First give a name: fibre 1."
    bench(page).get_by_label("name", exact=True).fill("Bilberry")
    lot_row(page, 0).get_by_text("Bilberry").wait_for()
    assert take.is_enabled()
    assert why.inner_text() == ""
    made, followed = (bench(page).get_by_label(words) for words in ("target made", "followed"))
    assert [made.is_disabled(), followed.is_disabled()] == [True, True]
    bench(page).get_by_text("for a target only").wait_for(state="visible")
    assert bench(page).get_by_label("make the light even").is_disabled()
    bench(page).get_by_text("needs three white places, 0 drawn").wait_for(state="visible")
    bench(page).get_by_label("put right by").select_option("target")
    lacking = "set the four corners of the target: 0 of 4 are set"
    bench(page).locator(".fault", has_text=lacking).wait_for()
    assert take.is_disabled()
    assert why.inner_text() == "No colour is read: first mend what is marked."
    assert [made.is_enabled(), followed.is_enabled()] == [True, True]
    assert bench(page).get_by_text("for a target only").count() == 0
    assert bench(page).get_by_label("target's corners").is_checked()


def test_with_a_target_lots_and_proposals_it_is_no_taller_than_a_screen(in_the_app, tmp_path):
    page = in_the_app
    Image.fromarray(demo_photo().srgb).save(tmp_path / "target.png")
    bench(page).locator("input[accept='image/*']").set_input_files(tmp_path / "target.png")
    wait_said(page, "Opened.")
    bench(page).get_by_label("put right by").select_option("target")
    for left, top in CORNERS:
        draw(page, left, top, 0.0, 0.0)
    bench(page).get_by_label("fibre", exact=True).check()
    for number in range(3):
        draw(page, 0.08 + 0.19 * number, 0.66, 0.10, 0.20)
    lot_row(page, 2).get_by_text("fibre 3").wait_for()
    press(page, "Find lots")
    wait_said(page, "Proposed: 6.")
    kept = page.locator(".yc-kept").first.bounding_box()
    assert kept["height"] + bench(page).bounding_box()["height"] <= 900
