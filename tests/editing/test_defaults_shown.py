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
PIECE = {"stitches": 40, "gauge_stitches": 20, "rows": 30}
ASKED_FOR = {
    "fade": {"from": ["Kelp"], "to": ["Foam"]},
    "stripes": {"stripes": [{"rows": 2, "lot": "Kelp"}, {"rows": 2, "lot": "Foam"}]},
}
"""What a scheme cannot do without."""


@pytest.mark.parametrize("option", WITH_DEFAULT, ids=lambda option: option.path)
def test_the_form_says_of_every_default_that_it_is_usual(option):
    scheme, tables = {}, {"spinning": {}, "plying": {}, "scale": {}}
    if option.schemes:
        name = option.schemes[0]
        scheme = {"name": name, **ASKED_FOR.get(name, {})}
        tables |= {"fabric": PIECE} if name == "stripes" else {}
    data = by_hand({"Kelp": 30.0, "Foam": 60.0}, scheme=scheme, **tables)
    used = value_in_use(layout(resolve(yc.plan_from_data(data))), option)
    assert used.endswith(" (usual)")
    assert used != NOT_KNOWN
