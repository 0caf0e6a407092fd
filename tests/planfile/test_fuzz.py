"""Whatever stands in a plan file: it is a plan that can be answered, or a `PlanError`."""

import copy
import datetime
import json
import math

import pytest
from hypothesis import event, given
from hypothesis import strategies as st

import yarncolor as yc
from tests.helpers.examples import times
from tests.helpers.strategies import CLOSINGS
from yarncolor.layout.schemes import SCHEMES
from yarncolor.planfile.schema import ROWS, TABLES, HeadTable, LotTable

_PLAN = {
    "title": "Tideline",
    "lots": [
        {"name": "Kelp", "colour": "#56612d", "mass_g": 40.0, "reserve_g": 1.0},
        {"name": "Foam", "lab": [86.0, 0.5, 8.0], "rolags": 9, "rolag_g": 3.0},
        {"name": "Wrack", "colour": "#311", "mass_g": 12.5, "preparation": "batt"},
    ],
    "scheme": {"name": "fractal", "plies": 3, "divisions": [1, [1, 2], 4], "parts": [1, 2, 1]},
    "spinning": {"single_tex": [100.0, 90.0, 120.0], "spin_loss": 0.02},
    "plying": {"wound_off": [0, 1, 0], "contraction": 0.04},
    "scale": {"step_g": 0.1},
    "target": {"yarn_m": 100.0},
    "bobbins": {"tare_g": 60.0, "plying_tare_g": 90.0},
    "spun": [
        {"ply": 1, "through": 2},
        {"ply": 2, "row": 2, "mass_g": 3.0, "length_m": 31.0, "gross_g": 63.0, "bobbin": 1},
        {"ply": 3, "row": 1, "sample": {"length_m": 2.0, "mass_g": 0.21}, "note": "soft"},
        {"ply": 3, "lot": "Foam", "gross_g": 70.0, "on": datetime.date(2026, 3, 1)},
    ],
    "lost": [{"lot": "Kelp", "mass_g": 1.0}],
    "plied": {"gross_g": 100.0, "turn_m": 1.5},
    "made": {"turns": 300.0, "turn_m": 1.5, "washed_m": 430.0, "picture": "shore.jpg"},
}
_PLAN["scheme"]["sequence"] = ["Kelp", "Foam", "Kelp"]
_KEYS = sorted(
    {
        key
        for model in (HeadTable, LotTable, *TABLES.values(), *ROWS.values())
        for key in model.model_fields
    }
)
_WORDS = ("Kelp", "Foam", "Wrack", *CLOSINGS, "batt", *SCHEMES)

edges = st.sampled_from(
    (0, 1, 2, 3, 12, 64, 0.5, 1.0, 1e-9, 1e-300, 5e-324, 0.001, 0.1, 0.6, 0.9, 100, 1e5, 1e6, 5e4)
)
numbers = st.one_of(edges, st.integers(-3, 70), st.integers(), st.floats(), st.floats(0, 1))
texts = st.one_of(st.sampled_from(_WORDS), st.text(max_size=70), st.just("#abc"))
dates = st.sampled_from((datetime.date(2024, 2, 29), datetime.time(7), datetime.datetime(1, 1, 1)))
portions = st.fixed_dictionaries(
    {"ply": st.integers(1, 3), "lot": st.sampled_from(_WORDS[:3]), "mass_g": numbers}
)
anything = st.recursive(
    st.one_of(numbers, texts, st.booleans(), dates, portions),
    lambda inside: st.one_of(
        st.lists(inside, max_size=6),
        st.dictionaries(st.one_of(st.sampled_from(_KEYS), st.text(max_size=5)), inside, max_size=3),
    ),
    max_leaves=8,
)


def _tables(data: dict) -> list:
    """Return every table and list of a plan's data."""
    found, inside = [], [data]
    while inside:
        item = inside.pop()
        if isinstance(item, dict | list):
            found.append(item)
            inside += item.values() if isinstance(item, dict) else item
    return found


@st.composite
def spoilt(draw) -> dict:
    """Draw a plan's data with anything put in, in place of something, or taken out."""
    data = copy.deepcopy(_PLAN)
    data["scheme"]["name"] = draw(st.sampled_from(tuple(SCHEMES)))
    for _ in range(draw(st.integers(1, 4))):
        table = draw(st.sampled_from(_tables(data)))
        if isinstance(table, list):
            table[draw(st.integers(0, len(table))) :] = [copy.deepcopy(draw(anything))]
        elif table and draw(st.integers(0, 4)) == 0:
            del table[draw(st.sampled_from(list(table)))]
        else:
            key = draw(st.sampled_from(sorted({*table, *_KEYS})))
            table[key] = copy.deepcopy(draw(anything))
    return data


def _within(*ends: float) -> st.SearchStrategy[float]:
    """Draw numbers of a range, its ends and what is nearest to them more often than others."""
    low, high = min(ends), max(ends)
    near = (low, high, math.nextafter(low, high), math.nextafter(high, low), *ends)
    return st.one_of(st.sampled_from(near), st.floats(low, high))


_grams = _within(0.001, 1.0, 1e5)
_names = st.lists(st.sampled_from(("Kelp", "Foam", "Wrack")), min_size=1, max_size=5)
_some_plies = st.lists(st.integers(1, 4), max_size=3)
_IN_RANGE = {
    "lots": {
        "mass_g": _grams,
        "rolags": _within(0.01, 1.0, 1e4),
        "rolag_g": _within(0.001, 1.0, 1e3),
        "reserve_g": _within(0.0, 1e-9, 1.0, 1e5),
        "lab": st.tuples(_within(0, 100), _within(-128, 128), _within(-128, 128)).map(list),
    },
    "scheme": {
        "plies": st.integers(1, 12),
        "divisions": st.lists(
            st.one_of(
                st.integers(1, 64),
                st.lists(_within(0.001, 1.0, 1e6), min_size=1, max_size=5),
            ),
            min_size=1,
            max_size=4,
        ),
        "parts": st.lists(_within(0.001, 1.0, 1e6) | st.just(0), min_size=3, max_size=3),
        "sequence": _names,
        "closing": st.sampled_from(CLOSINGS),
        "stagger_places": st.integers(0, 1000).map(lambda halves: halves / 2),
        "solid_plies": _some_plies,
        "reversed_plies": _some_plies,
        "random_seed": st.integers(0, 2**63 - 1),
        "pieces": st.integers(1, 64),
        "loop_m": _within(0.01, 0.3, 100.0),
        "portions": st.lists(portions, min_size=1, max_size=9),
    },
    "spinning": {
        "single_tex": st.one_of(_within(1, 5e4), st.lists(_within(1, 5e4), min_size=3, max_size=3)),
        "card_loss": _within(0, 0.9),
        "spin_loss": _within(0, 0.9),
    },
    "plying": {"wound_off": st.integers(0, 9), "contraction": _within(-0.2, 0.0, 0.6)},
    "scale": {"step_g": _within(0.001, 0.1, 100.0)},
    "target": {
        "yarn_m": _within(0.001, 1.0, 1e6),
        "yarn_g": _grams,
    },
    "spun": {
        "row": st.integers(1, 12),
        "through": st.integers(1, 12),
        "mass_g": _within(1e-6, 1.0, 1e5),
        "length_m": _within(1e-6, 1.0, 1e6),
        "gross_g": _within(1e-6, 60.0, 61.0, 1e6),
        "sample": st.fixed_dictionaries(
            {"length_m": _within(0.01, 1.0, 1e5), "mass_g": _within(0.001, 1.0, 1e5)}
        ),
    },
    "lost": {"mass_g": _within(1e-6, 1.0, 1e5)},
}


@st.composite
def at_the_edge(draw) -> dict:
    """Draw a plan's data with values from all over their ranges, and their very ends."""
    data = copy.deepcopy(_PLAN)
    data["scheme"] = {"name": draw(st.sampled_from(tuple(SCHEMES)))}
    for keys in ({"single_tex"}, {"wound_off"}):
        for table in ("spinning", "plying"):
            data[table] = {key: data[table][key] for key in data[table] if key not in keys}
    for name in draw(st.lists(st.sampled_from(tuple(_IN_RANGE)), min_size=1, max_size=6)):
        table = draw(st.sampled_from(data[name])) if name in ("lots", *ROWS) else data[name]
        key = draw(st.sampled_from(tuple(_IN_RANGE[name])))
        for others in (("colour", "lab"), ("yarn_m", "yarn_g")):
            if key in others:
                for other in others:
                    table.pop(other, None)
        table[key] = draw(_IN_RANGE[name][key])
    return data


def answered(data: dict) -> bool:
    """Return whether data is a plan; one that is must have a whole answer."""
    try:
        plan = yc.plan_from_data(data)
    except yc.PlanError as error:
        return _told(error)
    json.loads(yc.draw.plan_json(yc.answer(plan)), parse_constant=pytest.fail)
    return True


def _told(error: yc.PlanError) -> bool:
    assert error.faults
    assert str(error).count("\n") == len(error.faults) - 1
    return False


@times(10)
@given(spoilt())
def test_anything_in_a_plan_is_answered_or_told(data):
    event(str(answered(data)))


@times(10)
@given(at_the_edge())
def test_a_plan_at_the_edge_of_its_ranges_is_answered_or_told(data):
    event(str(answered(data)))


@times(2.5)
@given(
    st.dictionaries(
        st.one_of(st.sampled_from((*TABLES, *ROWS, "lots")), st.text(max_size=9)), anything
    )
)
def test_anything_at_all_is_answered_or_told(data):
    answered(data)


def test_parts_say_nothing_to_a_free_scheme():
    portions = [{"ply": ply, "lot": "Kelp", "mass_g": 3.0} for ply in (1, 2, 3)]
    scheme = {"name": "free", "portions": portions}
    plan = {key: _PLAN[key] for key in _PLAN if key != "spun"}
    assert answered(plan | {"scheme": scheme})
    assert answered(plan | {"scheme": scheme | {"parts": [1, 2, 3]}})
