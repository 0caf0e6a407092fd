"""The drawer under real fingers: keyboard, faults beside their fields, files, axe."""

import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.browser.conftest import write_notebook
from yarncolor import read_plan

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
SHARED = """
from pathlib import Path
from yarncolor.editor import Editor
from yarncolor.lots_editor import LotsBench
from yarncolor.plan_bar import Kept
editor = Editor.opened("drawer.toml")
here = LotsBench(editor)
editor.watch(here.follow)
display(here, Kept(LotsBench(editor), editor, Path("out")))
"""
ROW = ".yc .lots li"


@pytest.fixture
def drawer(lab):
    _, folder = lab
    path = folder / "notebooks" / "drawer.toml"
    path.write_text(DRAWER, encoding="utf-8")
    return path


@pytest.fixture
def bench(opened, lab, drawer):
    """Return a page with one bench; what the console complains of is kept."""
    return shown(
        opened, lab, "drawer.ipynb", 'import yarncolor as yc\nyc.lots_bench("drawer.toml")'
    )


def shown(opened, lab, name, cell):
    _, folder = lab
    write_notebook(folder / "notebooks", name, cell)
    page = opened(name)
    page.wait_for_selector(ROW, timeout=60_000)
    page.complaints = []
    page.on("console", lambda said: said.type == "error" and page.complaints.append(said.text))
    return page


def field(page, row, name):
    return page.locator(ROW).nth(row).locator(f"input.{name}, textarea.{name}")


def fault(page, row, name):
    return page.locator(ROW).nth(row).locator(f".cell.{name} .fault")


def button(page, words):
    return page.locator(f".yc button:text-is('{words}')")


def more(page):
    page.locator(".yc.bar summary").click()


def total(page, words):
    page.wait_for_selector(f".yc .row strong:text-is('{words}')")


def said(page, words):
    page.wait_for_selector(f".yc [role=status]:has-text('{words}')")


def chip(page, row, words):
    page.wait_for_function(
        "([at, words]) => document.querySelectorAll('.yc .lots .chip')[at]?.textContent === words",
        arg=[row, words],
    )


def test_a_name_is_changed_nonsense_is_told_lots_come_and_go_and_the_file_says_so(bench, drawer):
    field(bench, 0, "name").fill("Weed")
    chip(bench, 0, "Weed")
    field(bench, 1, "mass_g").fill("plenty")
    said(bench, "1 field cannot stay as typed. The plan is as it was.")
    assert fault(bench, 1, "mass_g").inner_text() == "give grams, 0.001 to 100,000"
    grams = field(bench, 1, "mass_g")
    assert grams.get_attribute("aria-invalid") == "true"
    told_by = bench.locator(f"#{grams.get_attribute('aria-describedby')}")
    assert told_by.inner_text() == "give grams, 0.001 to 100,000"
    assert [field(bench, at, "mass_g").input_value() for at in (0, 1)] == ["30", "plenty"]
    grams.fill("21,5")
    total(bench, "4 lots, 69.5 g")
    assert grams.get_attribute("aria-invalid") == "false"
    button(bench, "Add a lot").click()
    total(bench, "5 lots, 79.5 g")
    bench.keyboard.type("Plum")
    chip(bench, 4, "Plum")
    bench.locator(ROW).nth(3).locator("button").click()
    total(bench, "4 lots, 67.5 g")
    button(bench, "Undo").click()
    total(bench, "5 lots, 79.5 g")
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
    assert bench.complaints == []


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


def test_all_of_it_is_done_from_the_keyboard(bench):
    button(bench, "Add a lot").focus()
    bench.keyboard.press("Enter")
    total(bench, "5 lots, 78.0 g")
    bench.keyboard.type("Dusk")
    chip(bench, 4, "Dusk")
    for _ in range(2):
        bench.keyboard.press("Tab")
    bench.keyboard.press("Tab")
    assert bench.evaluate("document.activeElement.className") == "mass_g"
    bench.keyboard.type("14")
    total(bench, "5 lots, 82.0 g")
    for _ in range(3):
        bench.keyboard.press("Tab")
    assert bench.evaluate("document.activeElement.ariaLabel") == "remove Dusk"
    bench.keyboard.press("Space")
    total(bench, "4 lots, 68.0 g")
    button(bench, "Undo").focus()
    bench.keyboard.press("Enter")
    total(bench, "5 lots, 82.0 g")


def test_undo_puts_back_what_is_wrong_before_it_takes_a_step_back(bench):
    field(bench, 0, "mass_g").fill("33")
    total(bench, "4 lots, 71.0 g")
    field(bench, 1, "colour").fill("sky")
    said(bench, "1 field cannot stay as typed.")
    button(bench, "Undo").click()
    said(bench, "What was typed and not right is gone")
    assert field(bench, 1, "colour").input_value() == "90 0.3 7"
    assert field(bench, 0, "mass_g").input_value() == "33"
    button(bench, "Undo").click()
    total(bench, "4 lots, 68.0 g")


def test_the_plan_is_downloaded_as_it_would_be_saved(bench):
    field(bench, 0, "mass_g").fill("33")
    total(bench, "4 lots, 71.0 g")
    more(bench)
    with bench.expect_download() as coming:
        button(bench, "Download the plan").click()
    assert coming.value.suggested_filename == "drawer.toml"
    assert read_plan(coming.value.path()).lots[0].mass_g == 33


def test_another_plan_is_opened_or_its_faults_are_told_one_a_line(bench):
    more(bench)
    chooser = bench.locator(".yc input[type=file]")
    wrong = b'[[lots]]\nname = "Rust"\ncolour = "rust"\nmass_g = -1\n'
    chooser.set_input_files({"name": "rust.toml", "mimeType": "text/plain", "buffer": wrong})
    said(bench, "Not opened.")
    lines = bench.locator(".yc.bar .said").inner_text().splitlines()
    assert ["colour" in lines[0], "mass_g" in lines[1]] == [True, True]
    total(bench, "4 lots, 68.0 g")
    large = {"name": "large.toml", "mimeType": "text/plain", "buffer": b"#" * (1024 * 1024 + 1)}
    chooser.set_input_files(large)
    said(bench, "larger than 1 MB")
    right = wrong.replace(b'"rust"', b'"#8a4b2a"').replace(b"-1", b"9.0")
    chooser.set_input_files({"name": "rust.toml", "mimeType": "text/plain", "buffer": right})
    total(bench, "1 lot, 9.0 g")
    assert button(bench, "Save the plan").is_disabled()
    bench.locator(".yc label:text-is('new name') + input").fill("rust")
    button(bench, "Save the plan as").click()
    said(bench, "Written: ")
    assert button(bench, "Save the plan").is_enabled()


def test_benches_on_one_plan_follow_each_other_but_not_over_what_is_typed(opened, lab, drawer):
    page = shown(opened, lab, "two_drawers.ipynb", SHARED)
    page.wait_for_function("document.querySelectorAll('.yc').length === 3")
    page.wait_for_function("document.querySelectorAll('.yc .lots li').length === 8")
    field(page, 0, "mass_g").fill("35")
    page.wait_for_function(
        "document.querySelectorAll('.yc .total')[1].textContent === '4 lots, 73.0 g'"
    )
    field(page, 4, "name").fill("")
    page.wait_for_selector("[role=status]:has-text('cannot stay')")
    field(page, 1, "mass_g").fill("25")
    page.wait_for_function(
        "document.querySelectorAll('.yc .total')[0].textContent === '4 lots, 78.0 g'"
    )
    assert field(page, 4, "name").input_value() == ""
    field(page, 4, "name").fill("Wrack")
    page.wait_for_selector("[role=status]:has-text('changed elsewhere meanwhile')")
    assert field(page, 4, "name").input_value() == "Wrack"
    button(page, "Undo").click()
    page.wait_for_function(
        "document.querySelectorAll('.yc .total')[1].textContent === '4 lots, 78.0 g'"
    )
    assert field(page, 5, "mass_g").input_value() == "25"
    ids = page.evaluate("[...document.querySelectorAll('.yc [id]')].map(each => each.id)")
    assert len(set(ids)) == len(ids)


def test_nobody_is_kept_out(bench):
    """Names, roles, contrast and states hold, when all is right and when something is wrong."""
    assert kept_out(bench) == []
    field(bench, 0, "name").fill("")
    said(bench, "1 field cannot stay as typed.")
    assert kept_out(bench) == []


def kept_out(page) -> list[str]:
    found = Axe().run(page, context=".yc").response
    assert {"label", "color-contrast"} <= {each["id"] for each in found["passes"]}
    return [f"{each['id']}: {each['nodes'][0]['html']}" for each in found["violations"]]


def test_in_a_narrow_window_every_row_is_a_card_and_nothing_is_cut_off(bench):
    more(bench)
    bench.evaluate(
        "document.querySelectorAll('.yc').forEach(root => { root.style.width = '320px'; })"
    )
    over = bench.evaluate(
        "() => { const root = document.querySelector('.yc').getBoundingClientRect();"
        " return [...document.querySelectorAll('.yc *')].filter(each =>"
        " each.getBoundingClientRect().right > root.right + 1).map(each => each.outerHTML); }"
    )
    assert over == []
