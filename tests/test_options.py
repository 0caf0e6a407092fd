"""The form of all options: what is typed becomes the plan, or says why not."""

from pathlib import Path

import pytest

from yarncolor import PlanError, plan_from_data, read_plan
from yarncolor.editor import Editor
from yarncolor.options import OPTIONS, options_of, text_of, value_of
from yarncolor.options_form import GROUPS, OptionsBench
from yarncolor.plan import to_data
from yarncolor.schema import TABLES, HeadTable
from yarncolor.schemes import SCHEMES

SAMPLES = sorted((Path(__file__).parent.parent / "sample_data").glob("*.toml"))
BY_NAME = {f"{one.table}.{one.key}": one for one in OPTIONS}
ELSEWHERE = {("scheme", "name"), ("scheme", "plies"), ("scheme", "sequence")}
"""These are the order bench's."""


class Heard(OptionsBench):
    def __init__(self, editor):
        self.sent = []
        super().__init__(editor)
        self.answer_to({"do": "ready"}, [])

    def send(self, content, *_):
        self.sent.append(content)

    def put(self, name, text):
        self.answer_to({"do": "put", "name": name, "text": text}, [])
        return self.field(name)

    def field(self, name):
        fields = [each for group in self.sent[-1]["groups"] for each in group["fields"]]
        return next(each for each in fields if each["name"] == name)


@pytest.fixture
def form(tmp_path):
    path = tmp_path / "plan.toml"
    path.write_bytes((SAMPLES[0].parent / "slack_water.toml").read_bytes())
    return Heard(Editor.opened(path))


def test_every_key_of_a_plan_file_but_the_order_has_a_field():
    keys = {(table, key) for table, model in TABLES.items() for key in model.model_fields}
    keys |= {("", key) for key in HeadTable.model_fields}
    assert {(one.table, one.key) for one in OPTIONS} == keys - ELSEWHERE
    assert {one.table for one in OPTIONS} == set(GROUPS)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_what_a_plan_says_can_be_typed_and_is_the_same_plan(path):
    plan = read_plan(path)
    data = to_data(plan)
    for option in options_of(plan):
        table = data if not option.table else data.setdefault(option.table, {})
        value = value_of(option, text_of(plan, option))
        if value is None:
            table.pop(option.key, None)
        else:
            table[option.key] = value
    data = {key: value for key, value in data.items() if value != {}}
    assert plan_from_data(data) == plan


@pytest.mark.parametrize("name", SCHEMES)
def test_a_scheme_shows_its_own_options(name):
    lots = [{"name": f"Lot {at}", "colour": "#888", "mass_g": 10} for at in range(3)]
    scheme = {"name": name}
    if name == "free":
        scheme["portions"] = [{"ply": 1, "lot": "Lot 0", "mass_g": 5}]
    shown = options_of(plan_from_data({"lots": lots, "scheme": scheme}))
    for option in OPTIONS:
        assert (option in shown) == (not option.schemes or name in option.schemes)


@pytest.mark.parametrize(
    ("name", "text", "value"),
    [
        ("spinning.variation", "0,08", 0.08),
        ("spinning.variation", " 0.08 ", 0.08),
        ("spinning.variation", "", None),
        ("spinning.single_tex", "100", 100),
        ("spinning.single_tex", "100, 110,120", [100, 110, 120]),
        ("spinning.single_tex", "100,5; 110", [100.5, 110]),
        ("spinning.single_tex", "100 110", [100, 110]),
        ("spinning.sample", "10; 1,2", {"length_m": 10, "mass_g": 1.2}),
        ("scheme.divisions", "1, 2+ 1, 4", [1, [2, 1], 4]),
        ("scheme.reversed_plies", "2", [2]),
        ("scheme.portions", "1, Kelp, 3.5\n\n2, Wet, Sand, 2",
         [{"ply": 1, "lot": "Kelp", "mass_g": 3.5}, {"ply": 2, "lot": "Wet, Sand", "mass_g": 2}]),
        ("plying.balance", "at rest", "at rest"),
        ("spinning.variation", "a lot", "a lot"),
    ],
)  # fmt: skip
def test_what_is_typed_is_read(name, text, value):
    assert value_of(BY_NAME[name], text) == value


@pytest.mark.parametrize("text", ["10", "1 2 3", "x"])
def test_a_pair_of_numbers_has_two(text):
    with pytest.raises(PlanError, match="give 2 numbers, one after the other"):
        value_of(BY_NAME["spinning.sample"], text)


def test_a_number_becomes_the_plan_and_can_be_undone(form):
    assert form.put("spinning.variation", "0,05")["text"] == "0.05"
    assert form.editor.plan.spinning.variation == 0.05
    form.editor.undo()
    assert form.field("spinning.variation")["text"] == "0.08"


def test_undo_first_puts_back_what_is_wrong(form):
    form.put("spinning.variation", "0.05")
    form.put("bobbins.capacity_g", "roomy")
    form.editor.undo()
    assert form.field("bobbins.capacity_g")["fault"] == ""
    assert form.editor.plan.spinning.variation == 0.05
    form.editor.undo()
    assert form.field("spinning.variation")["text"] == "0.08"


@pytest.mark.parametrize(
    ("name", "text", "told"),
    [
        ("spinning.variation", "a lot", "give a share from 0 to 1"),
        ("spinning.variation", "2", "give a share from 0 to 1"),
        ("spinning.variation", "nan", "give a share from 0 to 1"),
        ("bobbins.count", "2.5", "how many bobbins fit the wheel"),
        ("scheme.divisions", "1, two", "whole number of repeats"),
        ("", "", None),
    ],
)
def test_what_cannot_be_says_why_beside_its_field_and_stays_typed(form, name, text, told):
    before = form.editor.plan
    if told is None:
        form.answer_to({"do": "put", "name": "nonsense", "text": "1"}, [])
        assert form.editor.plan == before
        return
    field = form.put(name, text)
    assert told in field["fault"]
    assert field["text"] == text
    assert form.editor.plan == before
    form.put("bobbins.capacity_g", "95")
    assert form.field(name)["text"] == text
    assert form.put(name, "")["fault"] == ""


def test_a_fault_that_another_field_causes_says_where(form):
    field = form.put("spinning.single_tex", "900")
    assert "single_tex" in field["fault"] or "sample" in field["fault"]


def test_the_title_is_changed_and_a_title_of_two_lines_is_refused(form):
    form.put(".title", "Ebb")
    assert form.editor.plan.title == "Ebb"
    assert "give one line" in form.put(".title", "x" * 500)["fault"]


def test_a_change_by_another_bench_is_followed(form):
    form.editor.change("bobbins", capacity_g=80)
    assert form.field("bobbins.capacity_g")["text"] == "80"
