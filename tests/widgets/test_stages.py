"""Sections in the stages of the work: one is pressed in all rows, and said as one value."""

import pytest
import traitlets

from yarncolor.widgets.stages import Stages
from yarncolor.widgets.whole_bench import _SECTIONS, _STAGES

TWO = {"1 First": ("Lots", "Photographs"), "2 Then": ("Colour order",)}


@pytest.fixture
def stages():
    return Stages(TWO, "Lots")


def test_every_section_of_the_bench_stands_in_one_stage():
    assert [name for names in _STAGES.values() for name in names] == list(_SECTIONS)


def test_pressing_in_one_row_lifts_what_was_pressed_in_another(stages):
    seen = []
    stages.observe(lambda change: seen.append(change["new"]), "value")
    stages.rows[1].value = "Colour order"
    assert [row.value for row in stages.rows] == [None, "Colour order"]
    stages.rows[0].value = "Photographs"
    assert [row.value for row in stages.rows] == ["Photographs", None]
    assert seen == ["Colour order", "Photographs"]


def test_it_is_pressed_by_its_value_as_well(stages):
    stages.value = "Colour order"
    assert [row.value for row in stages.rows] == [None, "Colour order"]


def test_a_section_that_there_is_not_is_refused(stages):
    with pytest.raises(traitlets.TraitError, match="no section is called Kelp"):
        stages.value = "Kelp"
    assert stages.value == "Lots"


def test_each_row_is_headed_by_its_stage(stages):
    assert [row.description for row in stages.rows] == list(TWO)
