"""What the form says is used where a field is left empty."""

import pytest

import yarncolor as yc
from tests.helpers.strategies import by_hand
from yarncolor.editing.defaults_shown import NOT_KNOWN, value_in_use
from yarncolor.editing.options import OPTIONS
from yarncolor.layout.layout import layout
from yarncolor.layout.resolved import resolve

WITH_DEFAULT = [
    option for option in OPTIONS if option.default is not None and option.table != "fabric"
]


@pytest.mark.parametrize("option", WITH_DEFAULT, ids=lambda option: option.path)
def test_the_form_says_of_every_default_that_it_is_usual(option):
    scheme = {"name": option.schemes[0]} if option.schemes else {}
    data = by_hand({"Kelp": 30.0, "Foam": 60.0}, scheme=scheme, spinning={}, plying={}, scale={})
    used = value_in_use(layout(resolve(yc.plan_from_data(data))), option)
    assert used.endswith(" (usual)")
    assert used != NOT_KNOWN
