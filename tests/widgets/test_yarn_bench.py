"""The yarn bench without a browser: what a finger does, done by setting values."""

import io
import shutil
from pathlib import Path

import pytest
from PIL import Image

from tests.helpers.paths import SAMPLE_DATA as SAMPLES
from yarncolor import answer, read_plan
from yarncolor.widgets.yarn_bench import yarn_bench


@pytest.fixture
def path(tmp_path):
    return Path(shutil.copy(SAMPLES / "slack_water.toml", tmp_path / "mine.toml"))


@pytest.fixture
def bench(path):
    return yarn_bench(path).bench


def body(bench):
    return answer(bench.editor.plan).resolved.yarn


def test_it_says_what_it_is_where_widgets_do_not_run(bench):
    assert repr(bench) == "A bench for grist, twist and plies of a yarn; it needs a live notebook."


@pytest.mark.parametrize("sample", sorted(SAMPLES.glob("*.toml")), ids=lambda path: path.stem)
def test_looking_at_a_plan_changes_nothing(sample):
    bench = yarn_bench(sample).bench
    for control in bench.controls.values():
        if hasattr(control, "step") and hasattr(control, "readout_format"):
            steps = (control.value - control.min) / control.step
            assert steps == pytest.approx(round(steps), abs=1e-6)
    assert bench.editor.plan == read_plan(sample)
    assert not bench.editor.can_undo


def test_every_control_says_what_it_is(bench):
    said = [control.description for control in bench.controls.values()]
    assert all(said)
    assert len(set(said)) == len(said)


def test_a_finer_single_is_a_longer_yarn_and_another_picture(bench):
    before, picture = answer(bench.editor.plan).layout.stretches.yarn_m, bench.drawing.value
    bench.controls["m_per_100g"].value = 1740
    assert answer(bench.editor.plan).layout.stretches.yarn_m > 1.9 * before
    assert bench.drawing.value != picture
    assert Image.open(io.BytesIO(bench.drawing.value)).size[0] > 900


def test_each_slider_writes_its_own_key(bench):
    for key, value in (("single_tpi", 9.0), ("ply_tpi", 6.0), ("variation", 20)):
        bench.controls[key].value = value
    plan = bench.editor.plan
    assert (plan.spinning.twist_tpi, plan.plying.twist_tpi) == (9.0, 6.0)
    assert plan.spinning.variation == 0.2


def test_a_criterion_of_balance_takes_the_place_of_the_slider_and_gives_it_back(bench):
    bench.controls["balance"].value = "two_thirds"
    assert body(bench).ply_twist_tpm == pytest.approx(body(bench).twist_tpm[0] * 2 / 3)
    bench.controls["balance"].value = "by the slider"
    assert bench.editor.plan.plying.twist_tpi == pytest.approx(8.0 * 2 / 3, abs=0.05)


def test_moving_the_ply_twist_leaves_the_criterion(bench):
    bench.controls["balance"].value = "equal_factor"
    bench.controls["ply_tpi"].value = 5.5
    assert bench.controls["balance"].value == "by the slider"
    assert bench.editor.plan.plying.balance is None
    assert bench.editor.plan.plying.twist_tpi == 5.5


def test_a_measured_loss_gives_way_to_a_model_and_comes_back(tmp_path):
    bench = yarn_bench(shutil.copy(SAMPLES / "tideline.toml", tmp_path / "mine.toml")).bench
    assert bench.controls["model"].value == "measured"
    bench.controls["single_tpi"].value, bench.controls["ply_tpi"].value = 8.0, 5.0
    bench.controls["model"].value = "helix"
    assert body(bench).model == "helix"
    bench.controls["model"].value = "measured"
    assert body(bench).contraction == 0.03


def test_what_cannot_be_is_said_and_leaves_the_plan(bench):
    bench.controls["balance"].value = "self_plied"
    assert "2 plies, not of 3" in bench.said.value
    assert "Left as it was" in bench.said.value
    assert bench.editor.plan.plying.balance is None
    assert bench.controls["balance"].value == "by the slider"
    bench.controls["balance"].value = "two_thirds"
    assert ">\n</p>" not in bench.said.value
    assert "plies" not in bench.said.value


def test_a_refused_slider_goes_back(bench):
    before = bench.controls["ply_tpi"].value
    bench.controls["ply_tpi"].value = 19.0
    bench.controls["m_per_100g"].value = 60
    assert "Left as it was" in bench.said.value
    assert bench.controls["m_per_100g"].value != 60
    assert bench.controls["ply_tpi"].value == pytest.approx(19.0)
    assert before < 19


def test_the_ply_slider_follows_the_criterion(bench):
    bench.controls["balance"].value = "two_thirds"
    assert bench.controls["ply_tpi"].value == pytest.approx(8.0 * 2 / 3, abs=0.05)


def test_what_was_measured_on_the_yarn_of_the_file_is_not_carried_to_another(tmp_path):
    text = (SAMPLES / "slack_water.toml").read_text()
    text = text.replace("[plying]", "[plying]\ncontraction = 0.03")
    text += "\n[fabric.swatch]\nstitches = 30\nrows = 40\nmass_g = 8.0\n"
    path = tmp_path / "mine.toml"
    path.write_text(text)
    bench = yarn_bench(path).bench
    bench.controls["m_per_100g"].value = 1200
    plan = bench.editor.plan
    assert (plan.plying.contraction, plan.fabric.swatch) == (None, None)
    assert plan.spinning.minutes_per_g is None
    told = "the length lost in plying, the swatch, the minutes for a gram and the weighed sample"
    assert told in bench.said.value


def test_unlike_plies_are_left_to_the_file(tmp_path):
    path = tmp_path / "unlike.toml"
    path.write_text(
        '[[lots]]\nname = "Kelp"\ncolour = "#345"\nmass_g = 20.0\n'
        "[spinning]\nsingle_tex = [100, 200, 300]\ntwist_tpi = [8, 6, 4]\n"
    )
    bench = yarn_bench(path).bench
    assert [key for key, control in bench.controls.items() if control.disabled] == [
        "plies",
        "m_per_100g",
        "single_tpi",
    ]


def test_saving_writes_the_plan_and_keeps_its_comments(bench, path):
    bench.controls["single_tpi"].value = 9.5
    bench.editor.save()
    assert read_plan(path).spinning.twist_tpi == 9.5
    assert "# Invented for the examples" in path.read_text()


def test_a_drag_is_one_step_back_and_the_bench_follows(path):
    kept = yarn_bench(path)
    bench, before = kept.bench, kept.bench.editor.plan
    drawing, at = bench.drawing.value, bench.controls["m_per_100g"].value
    for value in (1200, 1300, 1400):
        bench.controls["m_per_100g"].value = value
    assert bench.drawing.value != drawing
    bench.editor.undo()
    assert bench.editor.plan == before
    assert bench.controls["m_per_100g"].value == pytest.approx(at, abs=5)
    assert bench.drawing.value == drawing
    assert not bench.editor.can_undo


def test_names_are_only_names(tmp_path):
    path = tmp_path / "hostile.toml"
    path.write_text('[[lots]]\nname = "<b>Kelp"\ncolour = "#345"\nmass_g = 20.0\n')
    bench = yarn_bench(path).bench
    assert "<b>Kelp" not in bench.words.value
    assert "&lt;b&gt;Kelp" in bench.words.value


def test_unevenness_is_shown_in_per_cent(bench):
    assert bench.controls["variation"].value == 8
    assert bench.controls["variation"].description.endswith("%")


def test_advice_that_is_read_here_is_taken_here(path):
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("twist_tpi = 4.8", "twist_tpi = 1.8"), encoding="utf-8")
    bench = yarn_bench(path).bench
    tighter = [each for each in offered(bench) if each.description.startswith("Ply tighter, ")]
    tighter[0].click()
    bench.refresh()
    assert "less than any rule" not in bench.words.value
    assert not {*tighter} & {*offered(bench)}


def offered(bench):
    return bench.remedies.buttons.children
