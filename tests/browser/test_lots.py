"""The drawer under real fingers: keyboard, faults beside their fields, files, axe."""

import io
from pathlib import Path

import numpy as np
import pytest
from axe_playwright_python.sync_playwright import Axe
from PIL import Image

from tests.helpers.browser import write_notebook
from yarncolor import read_plan
from yarncolor.editing.editor import Editor
from yarncolor.widgets.lots.lots_bench import LotsBench
from yarncolor.widgets.plan_bar import PlanBar

pytestmark = pytest.mark.browser

DRAWER = """title = "A drawer"

# what the sheep gave
[[lots]]
name = "Kelp"
colour = "#445533"
mass_g = 30.0
note = "dull,\\nnot bright"

[[lots]]
name = "Foam"
lab = [90.0, 0.3, 7.0]
mass_g = 20.0

[[lots]]
name = "Mix"
mass_g = 6.0
blend = { Kelp = 2, Foam = 1 }

[[lots]]
name = "<b>Sand</b>"
colour = "#ccbb99"
mass_g = 12.0

[scheme]
name = "matched"
sequence = ["Foam", "Kelp", "Mix", "<b>Sand</b>"]
"""
CELL = "import yarncolor as yc\nyc.bench.lots('drawer.toml')"
ROW = ".yc .lots li"


@pytest.fixture
def drawer(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    path = tmp_path / "drawer.toml"
    path.write_text(DRAWER, encoding="utf-8")
    return path


def lots_of(editor):
    lots = LotsBench(editor)
    editor.watch(lots.refresh)
    return lots


def shown(bare, *widgets):
    page = bare(*widgets)
    page.wait_for_selector(ROW)
    return page


@pytest.fixture
def bench(bare, drawer):
    """Return a page with one bench; what the console complains of is kept."""
    editor = Editor.opened("drawer.toml")
    return shown(bare, PlanBar(editor, Path("out")), lots_of(editor))


def field(page, row, name):
    return page.locator(ROW).nth(row).locator(f":is(input, textarea, select).{name}")


def fault(page, row, name):
    return page.locator(ROW).nth(row).locator(f".cell.{name} .fault")


def button(page, words):
    return page.locator(f".yc button:text-is('{words}')")


def more(page):
    page.locator(".yc.bar summary").click()


def total(page, words):
    page.wait_for_selector(f".yc .row strong:text-is('{words}')")


def said(page, words):
    page.wait_for_selector(f".yc [role=status]:visible:has-text('{words}')")


def chip(page, row, words):
    page.wait_for_function(
        "([at, words]) => document.querySelectorAll('.yc .lots .chip')[at]?.textContent === words",
        arg=[row, words],
    )


def test_a_name_is_changed_nonsense_is_told_lots_come_and_go_and_the_file_says_so(bench, drawer):
    field(bench, 0, "name").fill("Weed")
    chip(bench, 0, "Weed")
    field(bench, 1, "mass_g").fill("plenty")
    said(bench, "1 field is not right yet. The plan is as it was.")
    assert fault(bench, 1, "mass_g").inner_text() == "give grams, 0.001 to 100,000"
    grams = field(bench, 1, "mass_g")
    assert grams.get_attribute("aria-invalid") == "true"
    told_by = bench.locator(f"#{grams.get_attribute('aria-describedby').split()[0]}")
    assert told_by.inner_text() == "give grams, 0.001 to 100,000"
    assert [field(bench, at, "mass_g").input_value() for at in (0, 1)] == ["30", "plenty"]
    grams.fill("21,5")
    total(bench, "4 lots, 63.5 g")
    assert grams.get_attribute("aria-invalid") == "false"
    button(bench, "Add a lot").click()
    total(bench, "5 lots, 73.5 g")
    bench.keyboard.type("Plum")
    chip(bench, 4, "Plum")
    bench.locator(ROW).nth(3).locator("button").click()
    total(bench, "4 lots, 61.5 g")
    button(bench, "Undo").click()
    total(bench, "5 lots, 73.5 g")
    button(bench, "Save the plan").click()
    said(bench, "Written: drawer.toml")
    saved = read_plan(drawer)
    assert saved.names == ("Weed", "Foam", "Mix", "<b>Sand</b>", "Plum")
    assert saved.scheme.sequence == ("Foam", "Weed", "Mix", "<b>Sand</b>", "Plum")
    assert saved.lots[0].note == "dull,\nnot bright"
    assert saved.lots[1].mass_g == 21.5
    assert dict(saved.lots[2].blend) == {"Weed": 2, "Foam": 1}
    assert "# what the sheep gave" in drawer.read_text(encoding="utf-8")
    assert bench.problems == []


def test_a_new_lot_does_not_open_a_closed_order(bare, drawer):
    closed = DRAWER.replace('"<b>Sand</b>"]', '"<b>Sand</b>", "Foam"]')
    drawer.write_text(closed, encoding="utf-8")
    editor = Editor.opened("drawer.toml")
    page = shown(bare, lots_of(editor))
    button(page, "Add a lot").click()
    total(page, "5 lots, 72.0 g")
    assert editor.names() == ("Foam", "Kelp", "Mix", "<b>Sand</b>", "Lot 5", "Foam")
    assert editor.is_closed


def test_a_lot_that_others_are_made_from_stays_where_it_was(bench):
    bench.locator(ROW).first.locator("button").click()
    said(bench, "Kelp stays: Mix is made from it; change that first.")
    assert field(bench, 0, "name").input_value() == "Kelp"
    assert bench.locator(ROW).count() == 4


def test_lots_removed_quickly_one_after_the_other_are_those_that_go(bench):
    bench.evaluate(
        "() => { for (const name of ['Mix', 'Foam'])"
        " document.querySelector(`.yc .lots button[aria-label='remove ${name}']`).click(); }"
    )
    total(bench, "2 lots, 42.0 g")
    assert [field(bench, at, "name").input_value() for at in (0, 1)] == ["Kelp", "<b>Sand</b>"]
    field(bench, 1, "mass_g").fill("13")
    total(bench, "2 lots, 43.0 g")


def test_all_of_it_is_done_from_the_keyboard_though_the_laboratory_has_shortcuts(opened, lab):
    _, folder = lab
    (folder / "notebooks" / "drawer.toml").write_text(DRAWER, encoding="utf-8")
    write_notebook(folder / "notebooks", "drawer.ipynb", CELL)
    bench = opened("drawer.ipynb")
    bench.wait_for_selector(ROW, timeout=60_000)
    button(bench, "Add a lot").focus()
    bench.keyboard.press("Enter")
    total(bench, "5 lots, 72.0 g")
    bench.keyboard.type("Dusk")
    chip(bench, 4, "Dusk")
    for _ in range(5):
        bench.keyboard.press("Tab")
    assert bench.evaluate("document.activeElement.className") == "mass_g"
    bench.keyboard.type("14")
    total(bench, "5 lots, 76.0 g")
    for _ in range(3):
        bench.keyboard.press("Tab")
    assert bench.evaluate("document.activeElement.ariaLabel") == "remove Dusk"
    bench.keyboard.press("Space")
    total(bench, "4 lots, 62.0 g")
    button(bench, "Undo").focus()
    bench.keyboard.press("Enter")
    total(bench, "5 lots, 76.0 g")


def test_undo_puts_back_what_is_wrong_before_it_takes_a_step_back(bench):
    field(bench, 0, "mass_g").fill("33")
    total(bench, "4 lots, 65.0 g")
    field(bench, 1, "colour").fill("sky")
    said(bench, "1 field is not right yet.")
    button(bench, "Undo").click()
    said(bench, "What was typed and not right is gone")
    assert field(bench, 1, "colour").input_value() == "90 0.3 7"
    assert field(bench, 0, "mass_g").input_value() == "33"
    button(bench, "Undo").click()
    total(bench, "4 lots, 62.0 g")


def test_the_plan_is_downloaded_as_it_would_be_saved(bench):
    field(bench, 0, "mass_g").fill("33")
    total(bench, "4 lots, 65.0 g")
    more(bench)
    with bench.expect_download() as coming:
        button(bench, "Download the plan").click()
    assert coming.value.suggested_filename == "drawer.toml"
    assert read_plan(coming.value.path()).lots[0].mass_g == 33


def test_another_plan_is_opened_or_its_faults_are_told_one_a_line(bench):
    more(bench)
    chooser = bench.locator(".yc.bar input[type=file]")
    wrong = b'[[lots]]\nname = "Rust"\ncolour = "xyzzy"\nmass_g = -1\n'
    chooser.set_input_files({"name": "rust.toml", "mimeType": "text/plain", "buffer": wrong})
    said(bench, "Not opened.")
    lines = bench.locator(".yc.bar .said[role=status]").inner_text().splitlines()
    assert ["colour" in lines[0], "mass_g" in lines[1]] == [True, True]
    total(bench, "4 lots, 62.0 g")
    large = {"name": "large.toml", "mimeType": "text/plain", "buffer": b"#" * (1024 * 1024 + 1)}
    chooser.set_input_files(large)
    said(bench, "larger than 1 MB")
    right = wrong.replace(b'"xyzzy"', b'"#8a4b2a"').replace(b"-1", b"9.0")
    chooser.set_input_files({"name": "rust.toml", "mimeType": "text/plain", "buffer": right})
    total(bench, "1 lot, 9.0 g")
    assert button(bench, "Save the plan").is_disabled()
    bench.locator(".yc label:text-is('new name') + input").fill("rust")
    button(bench, "Save the plan as").click()
    said(bench, "Written: ")
    assert button(bench, "Save the plan").is_enabled()


DROP = """([root, name, text]) => {
  const carried = new DataTransfer();
  carried.items.add(new File([text], name, { type: 'application/toml' }));
  const told = { dataTransfer: carried, bubbles: true, cancelable: true, composed: true };
  const over = new DragEvent('dragover', told);
  root.querySelector('.row').dispatchEvent(over);
  root.querySelector('.row').dispatchEvent(new DragEvent('drop', told));
  return over.defaultPrevented;
}"""


def test_a_plan_file_is_dropped_on_the_bench(bench):
    root = bench.locator(".yc.bar").element_handle()
    right = '[[lots]]\nname = "Rust"\ncolour = "#8a4b2a"\nmass_g = 9\n'
    assert bench.evaluate(DROP, [root, "rust.toml", right])
    total(bench, "1 lot, 9.0 g")
    said(bench, "Opened: rust.toml")
    bench.evaluate(DROP, [root, "wrong.toml", right.replace("9", "-9")])
    said(bench, "Not opened. wrong.toml")
    total(bench, "1 lot, 9.0 g")
    assert field(bench, 0, "name").input_value() == "Rust"
    assert bench.problems == []


def test_more_about_a_lot_is_told_from_the_keyboard(bench, drawer):
    more = bench.locator(f"{ROW} >> nth=1 >> details.more")
    field(bench, 1, "dye").wait_for(state="hidden")
    more.locator("summary").focus()
    bench.keyboard.press("Enter")
    typed = ("wool", "t", "8", "2,5", "16", "3", "the shore", "acid", "", "2", "2026-03-01")
    for text in typed:
        bench.keyboard.press("Tab")
        bench.keyboard.type(text)
    total(bench, "4 lots, 62.0 g")
    bench.keyboard.press("Tab")
    bench.wait_for_function(
        "() => document.querySelectorAll('.yc .lots .brief')[1].textContent ==="
        " ': wool, top, 8 rolags, 2.5 g each, 16 % water, colour ± 3, from the shore,"
        " dyed with acid, bath 2, dyed on 2026-03-01'"
    )
    assert bench.locator("p.quiet", has_text="makers' data sheets").is_visible()
    button(bench, "Save the plan").click()
    said(bench, "Written: drawer.toml")
    lot = read_plan(drawer).lots[1]
    assert (lot.rolags, lot.rolag_g, lot.mass_g) == (8, 2.5, 20)
    assert (lot.fibre, lot.preparation, lot.regain, lot.colour_unsure) == ("wool", "top", 0.16, 3)
    assert (lot.source, lot.dye, lot.mordant) == ("the shore", "acid", "")
    assert (lot.bath_number, lot.dyed_on) == ("2", "2026-03-01")
    assert lot.lab == (90, 0.3, 7)
    assert bench.problems == []


def test_grams_follow_rolags_until_those_are_cleared(bench):
    bench.locator(f"{ROW} >> nth=1 >> .more > summary").click()
    grams, rolags, each = (field(bench, 1, name) for name in ("mass_g", "rolags", "rolag_g"))
    rolags.fill("12")
    assert "waits for its rolags" in bench.locator(ROW).nth(1).inner_text()
    said(bench, "1 field is not right yet.")
    assert fault(bench, 1, "rolag_g").inner_text() == "give grams of one rolag, 0.001 to 1,000"
    each.fill("0,7")
    assert grams.input_value() == "8.4"
    total(bench, "4 lots, 50.4 g")
    assert not grams.is_editable()
    words = [
        bench.locator(f"#{name}").inner_text()
        for name in grams.get_attribute("aria-describedby").split()
    ]
    assert "from its rolags" in words
    rolags.fill("")
    assert grams.is_editable()
    grams.fill("9")
    total(bench, "4 lots, 51.0 g")
    button(bench, "Undo").click()
    total(bench, "4 lots, 50.4 g")


def test_the_grams_of_a_rolag_leave_those_of_a_lot_and_tell_how_many_it_makes(bench, drawer):
    bench.locator(f"{ROW} >> nth=0 >> .more > summary").click()
    grams, each = (field(bench, 0, name) for name in ("mass_g", "rolag_g"))
    grams.fill("46")
    total(bench, "4 lots, 78.0 g")
    each.fill("3")
    words = "15⅓ rolags: make 15 (3.07 g each) or 18 (2.56 g each), as many for each ply"
    bench.wait_for_selector(f".yc .counted:text-is('{words}')")
    assert (grams.input_value(), grams.is_editable()) == ("46", True)
    grams.fill("45")
    bench.wait_for_selector(".yc .counted:text-is('15 rolags: 5 for each ply')")
    button(bench, "Save the plan").click()
    said(bench, "Written: drawer.toml")
    lot = read_plan(drawer).lots[0]
    assert (lot.mass_g, lot.rolag_g, lot.rolags) == (45, 3, None)
    assert bench.problems == []


def test_one_field_gives_all_lots_the_grams_of_a_rolag(bench):
    every = bench.locator(".yc input.every")
    bench.locator(f"{ROW} >> nth=1 >> .more > summary").click()
    field(bench, 1, "rolags").fill("8")
    field(bench, 1, "rolag_g").fill("2.5")
    bench.wait_for_selector(".yc .brief:text-is(': 8 rolags, 2.5 g each')")
    bench.locator(".yc [role=status]", has_text="not right yet").wait_for(state="hidden")
    assert every.input_value() == ""
    bench.get_by_label("grams of one rolag, for all lots").fill("3")
    words = "10 rolags: make 9 (3.33 g each) or 12 (2.5 g each), as many for each ply"
    bench.wait_for_selector(f".yc .counted:text-is('{words}')")
    assert [field(bench, at, "mass_g").input_value() for at in range(4)] == ["30", "20", "6", "12"]
    assert [field(bench, at, "rolag_g").input_value() for at in range(4)] == ["3"] * 4
    every.fill("plenty")
    said(bench, "1 field is not right yet.")
    told = bench.locator(f"#{every.get_attribute('aria-describedby')}")
    assert told.inner_text() == "give grams of one rolag, 0.001 to 1,000"
    assert bench.locator(".yc .lots .fault:not(:empty)").count() == 0
    button(bench, "Undo").click()
    bench.wait_for_function("() => document.querySelector('.yc input.every').value === '3'")
    button(bench, "Undo").click()
    assert bench.problems == []


def test_a_fault_in_what_is_folded_away_unfolds_it(bench):
    more = bench.locator(f"{ROW} >> nth=2 >> details.more")
    more.locator("summary").click()
    field(bench, 2, "regain").evaluate(
        "field => { field.value = '200'; field.dispatchEvent(new Event('input'));"
        " field.closest('details').open = false; }"
    )
    said(bench, "1 field is not right yet.")
    told = fault(bench, 2, "regain")
    told.wait_for(state="visible")
    assert told.inner_text() == "give water beside bone-dry fibre in per cent, 0 to 60"
    assert "not right yet" in more.locator("summary").inner_text()
    assert field(bench, 2, "regain").input_value() == "200"
    field(bench, 2, "regain").fill("20")
    bench.wait_for_function(
        "() => document.querySelectorAll('.yc .lots .brief')[2].textContent === ': 20 % water'"
    )
    bench.wait_for_function(
        "() => [...document.querySelectorAll('.yc .lots .fault')].every(each => !each.textContent)"
    )


def test_how_a_colour_is_typed_is_said_with_lots_of_the_plan(bench):
    bench.locator("summary:text-is('How to type a colour')").click()
    assert bench.locator(".yc .hint code").all_inner_texts()[2:4] == [
        "2 Kelp + 1 Foam", "second bath of Kelp on Foam",
    ]  # fmt: skip
    field(bench, 1, "name").fill("<i>Spume</i>")
    bench.wait_for_selector(".yc .hint code:text-is('2 Kelp + 1 <i>Spume</i>')")


def test_a_colour_is_typed_in_words_and_nonsense_is_told_without_codes(bench, drawer):
    field(bench, 0, "colour").fill("brick red")
    bench.wait_for_function(
        "() => document.querySelector('.yc .lots .chip').style.background === 'rgb(159, 66, 54)'"
    )
    field(bench, 1, "colour").fill("brik red")
    said(bench, "1 field is not right yet.")
    told = fault(bench, 1, "colour").inner_text()
    assert told.endswith("did you mean “brick red”?")
    assert "#" not in told
    field(bench, 1, "colour").fill("pale reddish")
    field(bench, 1, "colour").fill("pale rust")
    bench.wait_for_function(
        "() => !document.querySelectorAll('.yc .lots .cell.colour .fault')[1].textContent"
    )
    button(bench, "Save the plan").click()
    said(bench, "Written: drawer.toml")
    assert read_plan(drawer).lots[0].colour == "brick red"
    assert bench.problems == []


@pytest.mark.parametrize("words", ["dark reddish brown", "very dark brick red", "pale grey-blue"])
def test_words_that_were_typed_are_seen_again(bench, drawer, words):
    field(bench, 0, "colour").fill(words)
    field(bench, 0, "colour").blur()
    bench.wait_for_function(
        "() => document.querySelector('.yc .lots .chip').style.background !== 'rgb(68, 85, 51)'"
    )
    assert field(bench, 0, "colour").input_value() == words
    assert fault(bench, 0, "colour").inner_text() == ""
    button(bench, "Save the plan").click()
    said(bench, "Written: drawer.toml")
    assert read_plan(drawer).lots[0].colour == words
    assert bench.problems == []


def test_ounces_are_seen_again_and_weigh_what_they_are(bench, drawer):
    field(bench, 0, "mass_g").fill("1 1/2 oz")
    field(bench, 0, "mass_g").blur()
    total(bench, "4 lots, 74.5 g")
    assert field(bench, 0, "mass_g").input_value() == "1 1/2 oz"
    field(bench, 0, "rolags").evaluate("at => { at.closest('details').open = true; }")
    field(bench, 0, "rolag_g").fill("¼ oz")
    field(bench, 0, "rolags").fill("6")
    field(bench, 0, "rolags").blur()
    bench.wait_for_selector(".yc .lots .counted:text-is('from its rolags')")
    button(bench, "Save the plan").click()
    said(bench, "Written: drawer.toml")
    assert read_plan(drawer).lots[0].mass_g == pytest.approx(1.5 * 28.349523125, rel=1e-15)
    assert bench.problems == []


def test_a_dyed_colour_to_begin_with_is_chosen_and_marked_as_a_guess(bench, drawer):
    chooser = bench.get_by_label("a dyed colour to begin with for Foam")
    chooser.select_option("madder, pale")
    bench.wait_for_selector(".yc .cell.colour .counted:text-is('a guess, photograph it')")
    assert field(bench, 1, "colour").input_value() == "madder, pale"
    assert chooser.input_value() == ""
    found = Axe().run(bench, context=".yc .lots").response["violations"]
    assert [each["id"] for each in found] == []
    button(bench, "Undo").click()
    bench.wait_for_function(
        "() => document.querySelectorAll('.yc .cell.colour input.colour')[1].value === '90 0.3 7'"
    )
    assert bench.problems == []


def test_a_bath_is_typed_as_one_says_it_and_its_fibre_is_counted_once(bench, drawer):
    field(bench, 3, "colour").fill("Second bath of Kelp on Foam")
    bench.wait_for_function(
        "() => document.querySelectorAll('.yc .lots .chip')[3].style.background"
        " !== 'rgb(204, 187, 153)'"
    )
    field(bench, 3, "colour").fill("2nd bath of Kelp on Foam, 60% taken, out of its grams")
    total(bench, "4 lots, 50.0 g")
    button(bench, "Save the plan").click()
    said(bench, "Written: drawer.toml")
    lot = read_plan(drawer).lots[3]
    assert (lot.bath.number, lot.bath.exhaustion, lot.bath.takes_from) == (2, 0.6, "Foam")
    button(bench, "Undo").click()
    total(bench, "4 lots, 62.0 g")
    assert field(bench, 3, "colour").input_value() == "second bath of Kelp on Foam"
    assert bench.problems == []


def rust_on_paper() -> bytes:
    """Return a picture of rust wool in warm light, a strip of white paper at its left."""
    pixels = np.full((300, 400, 3), (150, 84, 40), np.uint8)
    pixels[:, :80] = (250, 235, 200)
    noise = np.random.default_rng(1).integers(-2, 3, pixels.shape)
    stream = io.BytesIO()
    Image.fromarray((pixels + noise).clip(0, 255).astype(np.uint8)).save(stream, "PNG")
    return stream.getvalue()


def drag(page, canvas, start, end):
    seen = canvas.bounding_box()
    for at, (x, y) in enumerate((start, end)):
        page.mouse.move(seen["x"] + x * seen["width"], seen["y"] + y * seen["height"], steps=4)
        (page.mouse.down, page.mouse.up)[at]()


def test_a_photograph_of_one_lot_beside_its_row_gives_it_its_colour(bench, drawer):
    photo = bench.locator(f"{ROW} >> nth=1 >> div.photo")
    chooser = bench.get_by_label("a photograph of Foam")
    chooser.set_input_files({"name": "a.png", "mimeType": "image/png", "buffer": b"no picture"})
    photo.locator("p:has-text('cannot open that as a picture')").wait_for()
    picture = {"name": "b.png", "mimeType": "image/png", "buffer": rust_on_paper()}
    chooser.set_input_files(picture)
    photo.locator("p:has-text('as the picture has it')").wait_for()
    warm = photo.locator(".swatch").get_attribute("style")
    photo.locator("button:text-is('Box on white')").click()
    canvas = photo.locator("canvas")
    canvas.scroll_into_view_if_needed()
    drag(bench, canvas, (0.03, 0.1), (0.17, 0.9))
    photo.locator("p:has-text('put right by the white')").wait_for()
    assert photo.locator(".swatch").get_attribute("style") != warm
    photo.locator("summary:text-is('Why these figures?')").press("Enter")
    photo.get_by_text("gain of red = it reflects 85% ÷ seen").wait_for()
    photo.locator("button:text-is('Take this colour')").click()
    photo.locator("p:has-text('Foam has this colour now. Undo takes it back.')").wait_for()
    button(bench, "Save the plan").click()
    said(bench, "Written: drawer.toml")
    foam = read_plan(drawer).lots[1]
    assert foam.source.startswith("a photograph, corrected by something white")
    assert foam.lab[0] < 60
    assert (foam.mass_g, foam.colour_unsure) == (20, 6)
    assert [
        each["id"] for each in Axe().run(bench, context=".yc .lots").response["violations"]
    ] == []
    button(bench, "Undo").click()
    bench.wait_for_function(
        "() => document.querySelectorAll('.yc .cell.colour input.colour')[1].value === '90 0.3 7'"
    )
    assert bench.problems == []


@pytest.fixture
def two_benches(bare, drawer):
    """Return a page with two benches on one plan, the bar between them."""
    editor = Editor.opened("drawer.toml")
    page = shown(bare, lots_of(editor), PlanBar(editor, Path("out")), lots_of(editor))
    page.wait_for_function("document.querySelectorAll('.yc .lots li').length === 8")
    return page


def totals(page, at, words):
    page.wait_for_function(
        "([at, words]) => document.querySelectorAll('.yc .total')[at].textContent === words",
        arg=[at, words],
    )


def second_says(page, words):
    page.wait_for_selector(f".yc >> nth=2 >> [role=status]:has-text('{words}')")


def test_what_two_benches_change_at_once_is_kept_of_both(two_benches):
    page = two_benches
    field(page, 4, "name").fill("")
    second_says(page, "not right yet")
    field(page, 4, "note").fill("first pot")
    page.locator(f"{ROW} >> nth=3 >> button").click()
    totals(page, 0, "3 lots, 50.0 g")
    page.locator(".yc").first.locator("button:text-is('Add a lot')").click()
    totals(page, 0, "4 lots, 60.0 g")
    field(page, 4, "name").fill("Wrack")
    second_says(page, "both changes are in the plan")
    totals(page, 1, "4 lots, 60.0 g")
    names = [field(page, at, "name").input_value() for at in range(8)]
    assert names == ["Wrack", "Foam", "Mix", "Lot 4"] * 2
    assert [field(page, at, "note").input_value() for at in (0, 4)] == ["first pot"] * 2
    field(page, 7, "mass_g").fill("11")
    totals(page, 0, "4 lots, 61.0 g")
    assert page.problems == []


def test_benches_on_one_plan_follow_each_other_but_not_over_what_is_typed(two_benches):
    page = two_benches
    field(page, 0, "mass_g").fill("35")
    totals(page, 1, "4 lots, 67.0 g")
    field(page, 4, "name").fill("")
    second_says(page, "not right yet")
    field(page, 1, "mass_g").fill("25")
    totals(page, 0, "4 lots, 72.0 g")
    field(page, 0, "name").fill("Weed")
    chip(page, 0, "Weed")
    assert field(page, 4, "name").input_value() == ""
    field(page, 4, "name").fill("Wrack")
    second_says(page, "changed elsewhere meanwhile")
    assert field(page, 4, "name").input_value() == "Wrack"
    assert fault(page, 4, "name").inner_text() == "changed elsewhere too: Weed"
    button(page, "Undo").click()
    totals(page, 1, "4 lots, 72.0 g")
    assert field(page, 5, "mass_g").input_value() == "25"
    assert field(page, 4, "name").input_value() == "Weed"
    ids = page.evaluate("[...document.querySelectorAll('.yc [id]')].map(each => each.id)")
    assert len(set(ids)) == len(ids)


def test_nobody_is_kept_out(bench):
    """Names, roles, contrast and states hold, when all is right and when something is wrong."""
    assert kept_out(bench) == []
    for summary in bench.locator(".yc summary:visible").all():
        summary.click()
    field(bench, 1, "rolags").fill("3")
    field(bench, 1, "rolag_g").fill("4")
    total(bench, "4 lots, 54.0 g")
    assert kept_out(bench) == []
    field(bench, 0, "name").fill("")
    field(bench, 0, "regain").fill("much")
    said(bench, "2 fields are not right yet.")
    assert kept_out(bench) == []


def kept_out(page) -> list[str]:
    found = Axe().run(page, context=".yc").response
    assert {"label", "color-contrast"} <= {each["id"] for each in found["passes"]}
    return [f"{each['id']}: {each['nodes'][0]['html']}" for each in found["violations"]]


def test_in_a_narrow_window_every_row_is_a_card_and_nothing_is_cut_off(bench):
    bench.evaluate(
        "() => { for (const each of document.querySelectorAll('.yc')) each.style.width = '320px';"
        " for (const each of document.querySelectorAll('.yc details')) each.open = true; }"
    )
    over = bench.evaluate(
        "() => { const root = document.querySelector('.yc').getBoundingClientRect();"
        " return [...document.querySelectorAll('.yc *')].filter(each =>"
        " each.getBoundingClientRect().right > root.right + 1).map(each => each.outerHTML); }"
    )
    assert over == []


SEVERAL = "Rust\t9,5\tbrick red\nDusk; 8 g; #223344\nSea Foam 1 oz\nEbb 3"


def test_several_lots_are_pasted_told_line_by_line_and_taken_out_as_one(bench, drawer):
    bench.locator("summary:text-is('Several lots at once')").click()
    pasted = bench.get_by_label("One lot a line")
    pasted.fill(SEVERAL)
    button(bench, "Add these lots").click()
    said(bench, "No lot is added until this line is right.")
    (line,) = bench.locator(".yc .several .fault li").all_inner_texts()
    assert line.startswith("Line 4: 3 of what?")
    assert pasted.get_attribute("aria-invalid") == "true"
    assert pasted.input_value() == SEVERAL
    assert bench.locator(ROW).count() == 4
    found = Axe().run(bench, context=".yc .several").response["violations"]
    assert [each["id"] for each in found] == []
    pasted.fill(f"{SEVERAL} g slate")
    button(bench, "Add these lots").click()
    total(bench, "8 lots, 110.8 g")
    said(bench, "4 lots added, 48.8 g. Undo takes them out again.")
    assert pasted.input_value() == ""
    chip(bench, 6, "Sea Foam")
    button(bench, "Undo").click()
    total(bench, "4 lots, 62.0 g")
    assert drawer.read_text(encoding="utf-8") == DRAWER
    assert bench.problems == []


def test_lots_that_are_pasted_while_a_row_is_wrong_are_shown_when_it_is_right(bench):
    field(bench, 1, "mass_g").fill("plenty")
    said(bench, "1 field is not right yet.")
    bench.locator("summary:text-is('Several lots at once')").click()
    bench.get_by_label("One lot a line").fill("Rust 9 g brick red")
    button(bench, "Add these lots").click()
    said(bench, "They are shown as soon as what is marked here is right.")
    assert field(bench, 1, "mass_g").input_value() == "plenty"
    field(bench, 1, "mass_g").fill("21")
    total(bench, "5 lots, 72.0 g")
    chip(bench, 4, "Rust")
    assert bench.problems == []
