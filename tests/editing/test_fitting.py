"""What a plan keeps when the number of its plies changes: lists of one for each are fitted."""

import pytest

from yarncolor import answer, plan_from_data
from yarncolor.editing.editor import Editor
from yarncolor.plan.reference import KEYS, PER_PLY

LISTS = {
    "scheme.times": (1, 2, 3),
    "spinning.single_tex": (100.0, 110.0, 120.0),
    "spinning.single_m_per_g": (10.0, 9.0, 8.0),
    "spinning.single_wpi": (27.0, 28.0, 29.0),
    "spinning.twist_tpm": (300.0, 310.0, 320.0),
    "spinning.twist_tpi": (8.0, 8.5, 9.0),
    "spinning.twist_angle_deg": (20.0, 21.0, 22.0),
    "spinning.twist_factor": (3000.0, 3100.0, 3200.0),
    "spinning.direction": ("Z", "S", "Z"),
    "plying.wound_off": (0, 1, 2),
    "plying.strands": (1, 2, 3),
}
"""For keys that may list one for each ply, a list for three that a yarn can have."""


def for_three(key):
    middle = (key.low * key.high) ** 0.5 if key.low else 0.0
    return LISTS.get(key.path, (middle, middle * 1.1, middle * 1.2))


def editor_with(key):
    lots = [{"name": name, "colour": "#345", "mass_g": 50.0} for name in ("Kelp", "Foam")]
    return Editor(plan_from_data({"lots": lots, key.table: {key.name: list(for_three(key))}}))


def listed(editor, key):
    return getattr(getattr(editor.plan, key.table), key.name)


def test_what_is_listed_is_of_keys_that_may_list_one_for_each_ply():
    assert {key.path for key in PER_PLY} >= set(LISTS)


@pytest.mark.parametrize("key", PER_PLY, ids=lambda key: key.path)
def test_a_list_is_cut_and_filled_up_as_plies_are_chosen(key):
    first, second, third = for_three(key)
    editor = editor_with(key)
    for choice, there in (
        ({"plies": 2}, (first, second)),
        ({"plies": 4}, (first, second, second, second)),
        ({"plies": 3}, (first, second, second)),
        ({"name": "chain"}, (first,)),
        ({"name": "matched", "plies": 3}, (first, first, first)),
    ):
        editor.change(**choice)
        assert listed(editor, key) == there
        assert answer(editor.plan).layout.stretches.yarn_m > 0
    for _ in range(5):
        editor.undo()
    assert listed(editor, key) == (first, second, third)


def test_what_is_listed_for_each_bobbin_stays():
    assert KEYS["bobbins", "tare_g"].each == "bobbin"
    lots = [{"name": "Kelp", "colour": "#345", "mass_g": 50.0}]
    editor = Editor(plan_from_data({"lots": lots, "bobbins": {"tare_g": [60.0, 61.0, 62.0]}}))
    editor.change(plies=2)
    assert editor.plan.bobbins.tare_g == (60.0, 61.0, 62.0)
