"""The order bench without a browser: what a finger does, done by setting values."""

import base64
from pathlib import Path

import pytest

from yarncolor import order_bench, read_plan
from yarncolor.schemes import SCHEMES

TIDELINE = Path(__file__).parent.parent / "sample_data" / "tideline.toml"


@pytest.fixture
def own_file(tmp_path):
    path = tmp_path / "tideline.toml"
    path.write_bytes(TIDELINE.read_bytes())
    return path


@pytest.fixture
def bench(own_file, tmp_path):
    return order_bench(own_file, tmp_path / "out")


def places(bench):
    return [slider.value for slider in bench.sliders]


def said(bench):
    return bench.said.value


def test_it_says_what_it_is_where_widgets_do_not_run(bench):
    assert repr(bench) == "A bench to drag the order of 7 places; it needs a live notebook."


def test_there_is_a_named_slider_for_each_place(bench):
    assert [slider.description for slider in bench.sliders] == [
        "Kelp (1)",
        "Foam",
        "Samphire",
        "Mussel",
        "Sea Thrift",
        "Wet Sand",
        "Kelp (2)",
    ]
    assert places(bench) == [1, 2, 3, 4, 5, 6, 7]


def test_dragging_a_slider_moves_the_lot_and_everything_follows(bench):
    before = bench.strip.value
    bench.sliders[0].value = 4
    assert places(bench) == [4, 1, 2, 3, 5, 6, 7]
    assert bench.editor.names()[3] == "Kelp"
    assert bench.strip.value != before
    assert not bench.buttons["undo"].disabled


def test_every_position_passed_on_the_way_is_a_valid_order(bench):
    for value in (2, 3, 4, 5, 6, 7, 3, 1):
        bench.sliders[2].value = value
        assert sorted(places(bench)) == [1, 2, 3, 4, 5, 6, 7]
    bench.buttons["undo"].click()
    assert places(bench) == [1, 2, 3, 4, 5, 6, 7]


def test_a_held_lot_goes_back_to_its_place_and_says_why(bench):
    bench.holds[1].value = True
    bench.sliders[1].value = 5
    assert places(bench) == [1, 2, 3, 4, 5, 6, 7]
    assert "place 2 (Foam) is held; let it go first" in said(bench)
    bench.holds[1].value = False
    bench.sliders[1].value = 5
    assert places(bench)[1] == 5
    assert "held" not in said(bench)


@pytest.mark.parametrize("name", SCHEMES)
def test_every_scheme_can_be_chosen(bench, name):
    bench.choosers["name"].value = name
    assert bench.choosers["name"].value == name
    assert bench.editor.plan.scheme.name == name


def test_the_number_of_plies_fits_the_divisions(bench):
    bench.choosers["plies"].value = 5
    assert bench.choosers["divisions"].value == "1, 3, 6, 12, 24"


def test_divisions_are_typed_and_nonsense_is_refused_where_the_person_looks(bench):
    bench.choosers["divisions"].value = "1, 2 + 1, 4"
    assert bench.editor.plan.scheme.divisions == (1, (2.0, 1.0), 4)
    bench.choosers["divisions"].value = "once, twice"
    assert "give for each ply a whole number of repeats" in said(bench)
    assert bench.choosers["divisions"].value == "1, 2 + 1, 4"


def test_the_closing_and_the_winding_are_chosen(bench):
    bench.choosers["closing"].value = "tail"
    bench.choosers["wound_off"].value = "wound off once"
    assert bench.editor.plan.scheme.closing == "tail"
    assert bench.editor.plan.plying.wound_off == 1
    assert "spun first" in bench.frame.alt or bench.frame.answer.settled.wound_off.all()


def test_mixed_winding_from_the_file_is_shown_and_kept(own_file):
    text = own_file.read_text().replace("wound_off = 0", "wound_off = [0, 1, 0]")
    own_file.write_text(text)
    bench = order_bench(own_file)
    assert bench.choosers["wound_off"].value == "not all alike, as in the file"
    bench.sliders[0].value = 2
    assert bench.editor.plan.plying.wound_off == (0, 1, 0)


def test_the_buttons_write_picture_card_and_plan_and_show_the_path(bench, own_file, tmp_path):
    bench.sliders[1].value = 3
    bench.buttons["picture"].click()
    assert "strip.png" in said(bench)
    assert (tmp_path / "out" / "strip.png").read_bytes() == bench.strip.value
    bench.buttons["card"].click()
    assert (tmp_path / "out" / "card.html").exists()
    bench.buttons["save"].click()
    assert own_file.as_posix() in said(bench)
    assert read_plan(own_file) == bench.editor.plan


def test_a_plan_that_changed_on_disk_is_told_and_nothing_is_lost(bench, own_file):
    bench.sliders[1].value = 3
    own_file.write_text("# somebody else's\n" + own_file.read_text())
    bench.buttons["save"].click()
    assert "was changed since it was opened" in said(bench)
    bench.buttons["file name"].value = "../mine?"
    bench.buttons["save_as"].click()
    assert "Type a plain file name" in said(bench)
    bench.buttons["file name"].value = "mine"
    bench.buttons["save_as"].click()
    assert read_plan(own_file.with_name("mine.toml")) == bench.editor.plan


def test_an_unwritable_folder_is_told(own_file):
    bench = order_bench(own_file, own_file / "below_a_file")
    bench.buttons["picture"].click()
    assert "choose another folder" in said(bench)


def test_names_are_escaped_wherever_they_are_shown(tmp_path):
    path = tmp_path / "plan.toml"
    path.write_text(
        '[[lots]]\nname = "<b>&"\ncolour = "#123"\nmass_g = 3\n'
        '[[lots]]\nname = "x"\ncolour = "#456"\nmass_g = 3\n'
    )
    bench = order_bench(path)
    shown = bench.frame
    for fragment in (shown.yarn_html, shown.advice_html, shown.weigh_out_html, bench.order.value):
        assert "<b>&" not in fragment.replace("<b>bobbin", "")


def test_one_lot_has_a_slider_that_cannot_be_moved(tmp_path):
    path = tmp_path / "plan.toml"
    path.write_text('[[lots]]\nname = "Kelp"\ncolour = "#123"\nmass_g = 3\n')
    bench = order_bench(path)
    assert [slider.disabled for slider in bench.sliders] == [True]
    assert base64.b64encode(bench.strip.value)
