"""What follows from a plan is reckoned once, however many files show it."""

from collections import Counter
from functools import wraps

import pytest

import yarncolor as yc
from yarncolor.answers import answer as answers
from yarncolor.report import csv_json, exports

PLAN = {
    "lots": [
        {"name": "Kelp", "mass_g": 40.0, "colour": "#224433"},
        {"name": "Foam", "mass_g": 35.0, "colour": "#dde8e4"},
    ],
    "scheme": {"plies": 2},
    "spinning": {"variation": 0.1, "minutes_per_g": 4.0, "twist_tpm": 300.0},
    "fabric": {"stitches": 60, "rows": 80, "gauge_stitches": 22.0},
    "bobbins": {"capacity_g": 20.0, "plying_capacity_g": 30.0},
}
PARTS = (
    *("bobbins_needed", "class_of", "filled_bobbins", "hours", "lengths", "matched_band"),
    *("on_scale_g", "piece", "put_g", "skeins", "spread", "weigh_out", "weigh_points"),
)


@pytest.fixture
def calls(monkeypatch) -> Counter:
    """Return how often each part of an answer is reckoned from now on."""
    count = Counter()

    def counted(name, reckon):
        @wraps(reckon)
        def counting(*args):
            count[name] += 1
            return reckon(*args)

        return counting

    for name in PARTS:
        monkeypatch.setattr(answers, name, counted(name, getattr(answers, name)))
    monkeypatch.setattr(csv_json, "to_dict", counted("to_dict", csv_json.to_dict))
    return count


def test_all_files_of_a_plan_take_each_part_of_its_answer_once(calls, tmp_path):
    answer = yc.answer(yc.plan_from_data(PLAN))
    exports.write_answer(answer, tmp_path)
    yc.summary_text(answer)
    assert calls == dict.fromkeys([*PARTS, "to_dict"], 1)


def test_the_weigh_out_alone_takes_neither_hours_nor_bands(calls):
    answer = yc.answer(yc.plan_from_data(PLAN))
    csv_json.weigh_out_csv(answer)
    assert calls == {"weigh_out": 1, "put_g": 1, "filled_bobbins": 1}
