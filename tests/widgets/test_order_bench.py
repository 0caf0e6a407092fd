"""The order bench without a browser: what a finger does, done by setting values."""

import pytest

from tests.helpers.paths import TIDELINE
from tests.helpers.strategies import DIVIDING
from yarncolor import answer
from yarncolor.pictures.strip import strip_png
from yarncolor.widgets.order.order_bench import order_bench


@pytest.fixture
def own_file(tmp_path):
    path = tmp_path / "tideline.toml"
    path.write_bytes(TIDELINE.read_bytes())
    return path


@pytest.fixture
def bench(own_file, tmp_path):
    return order_bench(own_file, tmp_path / "out").bench


def said(bench):
    return bench.painter.said


def drag(bench, entry, place):
    bench.painter.handle({"do": "move", "moves": [[entry, place]], "serial": 1, "turn": 1}, [])


def test_it_says_what_it_is_where_widgets_do_not_run(bench):
    assert repr(bench) == "A bench to drag the order of 7 places; it needs a live notebook."


@pytest.mark.parametrize("name", DIVIDING)
def test_every_scheme_can_be_chosen(bench, name):
    bench.choosers["scheme"].value = name
    assert bench.choosers["scheme"].value == name
    assert bench.editor.plan.scheme.name == name


def test_the_number_of_plies_fits_the_divisions(bench):
    bench.choosers["plies"].value = 5
    assert bench.choosers["divisions"].value == "1, 3, 6, 12, 24"


def test_divisions_are_typed_and_nonsense_is_refused_where_the_person_looks(bench):
    bench.choosers["divisions"].value = "1, 2 + 1, 4"
    assert bench.editor.plan.scheme.divisions == (1, (2.0, 1.0), 4)
    bench.choosers["divisions"].value = "once, twice"
    assert said(bench).startswith("times through: give for each ply a whole number of repeats")
    assert "this change" not in said(bench)
    assert bench.choosers["divisions"].value == "once, twice"
    assert bench.editor.plan.scheme.divisions == (1, (2.0, 1.0), 4)
    bench.choosers["divisions"].value = "1, 2, 5"
    assert bench.editor.plan.scheme.divisions == (1, 2, 5)


def test_the_closing_and_the_winding_are_chosen(bench):
    bench.choosers["closing"].value = "tail"
    bench.choosers["winding"].value = "wound off once"
    assert bench.editor.plan.scheme.closing == "tail"
    assert bench.editor.plan.plying.wound_off == 1


def test_mixed_winding_from_the_file_is_shown_and_kept(own_file):
    text = own_file.read_text().replace("wound_off = 0", "wound_off = [0, 1, 0]")
    own_file.write_text(text)
    bench = order_bench(own_file).bench
    assert bench.choosers["winding"].value == "not all alike, as in the file"
    drag(bench, 0, 1)
    assert bench.editor.plan.plying.wound_off == (0, 1, 0)


def test_the_buttons_write_picture_and_card_and_show_the_path(bench, tmp_path):
    drag(bench, 1, 2)
    bench.buttons["picture"].click()
    assert "strip.png" in bench.written.value
    written = (tmp_path / "out" / "strip.png").read_bytes()
    assert written == strip_png(answer(bench.editor.plan))
    bench.buttons["card"].click()
    assert (tmp_path / "out" / "card.html").exists()


def test_an_unwritable_folder_is_told(own_file):
    bench = order_bench(own_file, own_file / "below_a_file").bench
    bench.buttons["picture"].click()
    assert "choose another folder" in bench.written.value
