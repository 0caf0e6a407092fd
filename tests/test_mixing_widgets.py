"""The bench of mixtures without a browser: what a finger does, done by setting values."""

from pathlib import Path

import pytest

from yarncolor import mixing_bench

TIDELINE = Path(__file__).parent.parent / "sample_data" / "tideline.toml"

BATHS = """
[[lots]]
name = "First <bath>"
lab = [42.0, 38.0, 28.0]
mass_g = 10.0
[[lots]]
name = "Fleece"
lab = [85.0, 1.0, 10.0]
mass_g = 10.0
[[lots]]
name = "Second bath"
bath = { of = "First <bath>", number = 2, exhaustion = 0.6, undyed = "Fleece" }
mass_g = 10.0
"""


@pytest.fixture
def bench():
    return mixing_bench(TIDELINE)


@pytest.fixture
def baths(tmp_path):
    path = tmp_path / "baths.toml"
    path.write_text(BATHS)
    return mixing_bench(path)


def test_it_says_what_it_is_where_widgets_do_not_run(bench):
    assert repr(bench).startswith("A bench to mix two lots by carding, plying and dyeing")


def test_it_begins_with_the_lightest_and_the_darkest_lot(bench):
    assert bench.controls["one"].value == "Foam"
    assert bench.controls["other"].value == "Mussel"


@pytest.mark.parametrize(
    ("name", "value"),
    [("share", 0.2), ("m", 0.3), ("exhaustion", 0.3), ("other", "Kelp"), ("model", "friele")],
)
def test_each_control_of_a_mixture_changes_the_swatches(bench, name, value):
    before = bench.swatches.value
    bench.controls[name].value = value
    assert bench.swatches.value != before


@pytest.mark.parametrize(("name", "value"), [("distance", 4.0), ("period", 12.0)])
def test_distance_and_twist_change_the_picture_of_the_marl(bench, name, value):
    before = bench.marl.value
    bench.controls[name].value = value
    assert bench.marl.value != before


def test_the_constant_belongs_to_one_model_alone(bench):
    bench.controls["model"].value = "linear"
    assert bench.controls["m"].disabled


def test_the_exhaustion_is_fitted_from_a_second_bath_of_one_s_own(baths):
    baths.controls["own_bath"].value = "Second bath"
    assert baths.controls["exhaustion"].value == pytest.approx(0.6, abs=0.02)


def test_a_lot_that_is_no_second_bath_is_told_so(baths):
    before = baths.controls["exhaustion"].value
    baths.controls["own_bath"].value = "Fleece"
    assert "Fleece fits no bath of this pair" in baths.words.value
    assert baths.controls["exhaustion"].value == before


def test_names_are_escaped(baths):
    assert "<bath>" not in baths.swatches.value + baths.words.value + baths.steps.value
