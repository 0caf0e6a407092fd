"""Lots as rows of typed text: what is right becomes the plan, what is wrong is told and kept."""

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.strategies import plan_data
from yarncolor import PlanError, plan_from_data, read_plan
from yarncolor.editor import Editor
from yarncolor.lot_rows import Row, faults_by_field, plan_with_rows, rows_of
from yarncolor.lots_editor import LotsBench
from yarncolor.schemes import SCHEMES

SAMPLES = sorted((Path(__file__).parent.parent / "sample_data").glob("*.toml"))
NAMED = {
    "lots": [
        {"name": "Kelp", "colour": "#445533", "mass_g": 30.0, "dye": "weld",
         "source": "a photograph", "colour_unsure": 6.0},
        {"name": "Foam", "lab": [90.0, 0.3, 7.0], "mass_g": 20.0, "reserve_g": 2.0},
        {"name": "Mix", "blend": {"Kelp": 2, "Foam": 1}, "mass_g": 6.0},
        {"name": "Pale", "bath": {"of": "Kelp", "number": 2, "exhaustion": 0.7, "undyed": "Foam"},
         "mass_g": 5.0},
    ],
    "scheme": {"name": "matched", "sequence": ["Foam", "Kelp", "Mix", "Kelp", "Pale"],
               "parts": [1, 2, 3, 4, 5]},
}  # fmt: skip


@pytest.fixture
def plan():
    return plan_from_data(NAMED)


def changed(plan, at, **fields):
    rows = rows_of(plan)
    rows[at] = replace(rows[at], **fields)
    return plan_with_rows(plan, rows)


def faults(plan, rows):
    with pytest.raises(PlanError) as told:
        plan_with_rows(plan, rows)
    return faults_by_field(told.value)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_rows_put_back_untouched_are_the_same_plan(path):
    plan = read_plan(path)
    assert plan_with_rows(plan, rows_of(plan)) == plan


@given(st.sampled_from(sorted(SCHEMES)).flatmap(plan_data))
def test_rows_of_any_plan_put_back_untouched_are_that_plan(data):
    plan = plan_from_data(data)
    assert plan_with_rows(plan, rows_of(plan)) == plan


def test_every_kind_of_colour_is_shown_as_it_is_typed(plan):
    assert [row.colour for row in rows_of(plan)] == [
        "#445533",
        "90 0.3 7",
        "2 Kelp + 1 Foam",
        "bath 2 of Kelp on Foam, 0.7 taken",
    ]


@pytest.mark.parametrize("at", range(4))
def test_every_kind_of_colour_typed_anew_is_that_colour(plan, at):
    rows = rows_of(plan)
    fresh = [*rows, Row(None, "Copy", rows[at].colour, "3")]
    lot = plan_with_rows(plan, fresh).lots[-1]
    same = plan.lots[at]
    assert (lot.colour, lot.lab, lot.blend, lot.bath) == (
        same.colour, same.lab, same.blend, same.bath,
    )  # fmt: skip


def test_a_new_name_goes_wherever_the_old_one_stood(plan):
    found = changed(plan, 0, name="Weed")
    assert found.scheme.sequence == ("Foam", "Weed", "Mix", "Weed", "Pale")
    assert dict(found.lots[2].blend) == {"Weed": 2, "Foam": 1}
    assert found.lots[3].bath.of == "Weed"
    assert found.lots[0].dye == "weld"
    assert found.lots[0].source == "a photograph"


def test_two_names_can_change_places(plan):
    rows = rows_of(plan)
    rows[0], rows[1] = replace(rows[0], name="Foam"), replace(rows[1], name="Kelp")
    found = plan_with_rows(plan, rows)
    assert found.scheme.sequence == ("Kelp", "Foam", "Mix", "Foam", "Pale")
    assert dict(found.lots[2].blend) == {"Foam": 2, "Kelp": 1}


def test_names_of_solid_lots_and_free_portions_follow():
    lots = [{"name": name, "colour": "#888", "mass_g": 9.0} for name in ("Kelp", "Foam")]
    solid = plan_from_data({"lots": lots, "scheme": {"name": "solid", "solid_lot": "Kelp"}})
    assert changed(solid, 0, name="Weed").scheme.solid_lot == "Weed"
    portions = [{"ply": ply, "lot": "Kelp", "mass_g": 2.0} for ply in (1, 2)]
    free = plan_from_data({"lots": lots, "scheme": {"name": "free", "portions": portions}})
    assert {each.lot for each in changed(free, 0, name="Weed").scheme.portions} == {"Weed"}


def test_a_lot_that_is_gone_leaves_the_sequence_with_its_parts(plan):
    found = plan_with_rows(plan, rows_of(plan)[:3])
    assert found.scheme.sequence == ("Foam", "Kelp", "Mix", "Kelp")
    assert found.scheme.parts == (1, 2, 3, 4)


def test_a_lot_that_others_are_made_of_cannot_go(plan):
    fields, _ = faults(plan, rows_of(plan)[1:])
    assert fields[1, "colour"] == 'no lot is named "Kelp"'


def test_a_new_lot_comes_last_in_the_sequence(plan):
    found = plan_with_rows(plan, [*rows_of(plan), Row(None, "Sand", "#cba", "12,5")])
    assert found.lots[-1].mass_g == 12.5
    assert found.scheme.sequence[-1] == "Sand"
    assert found.scheme.parts[-1] == 1


def test_another_colour_drops_what_the_photograph_said_and_keeps_the_rest(plan):
    lot = changed(plan, 0, colour="#112233").lots[0]
    assert (lot.colour, lot.source, lot.colour_unsure, lot.dye) == ("#112233", "", None, "weld")


def test_what_is_wrong_is_told_by_row_and_field(plan):
    rows = [
        Row(0, "", "#zz", "nan"),
        Row(1, "Foam", "90 0.3 700", "20", "30"),
        Row(None, "Foam", "#123", "lots"),
        Row(None, "x" * 100, "2 Nothing + 1 Foam", "-1", "", "note"),
    ]
    fields, _ = faults(plan, rows)
    for at, field, words in [
        (0, "name", "give a name of 1 to 60 characters"),
        (0, "colour", "give sRGB"),
        (0, "mass_g", "give grams"),
        (1, "colour", "give [L, a, b]"),
        (1, "reserve_g", "give at most 20 g"),
        (2, "name", "lot 2 has that name already"),
        (2, "mass_g", "give grams"),
        (3, "name", "give a name"),
        (3, "mass_g", "give grams"),
    ]:
        assert words in fields[at, field]


def test_a_plan_keeps_a_lot(plan):
    _, rest = faults(plan, [])
    assert rest == ["lots: a plan needs a lot; add one"]


# --- messages -----------------------------------------------------------------------------------


class Heard(LotsBench):
    def __init__(self, editor, folder):
        self.sent = []
        super().__init__(editor, folder)
        self.answer_to({"do": "ready"}, [])

    def send(self, content, *_):
        self.sent.append(content)

    def ask(self, do, buffers=(), **more):
        self.sent.clear()
        self.answer_to({"do": do, "serial": 3, **more}, list(buffers))
        return self.sent[-1]

    def typed(self, at=None, **fields):
        rows = self.rows()
        if at is not None:
            rows[at] |= fields
        return self.ask("rows", rows=rows)

    def rows(self):
        return [dict(vars(row)) for row in rows_of(self.editor.plan)]


@pytest.fixture
def bench(tmp_path):
    path = tmp_path / "plan.toml"
    path.write_bytes((SAMPLES[0].parent / "slack_water.toml").read_bytes())
    return Heard(Editor.opened(path), tmp_path / "out")


def test_rows_come_when_a_browser_asks(bench):
    (told,) = bench.sent
    assert told["kind"] == "rows"
    assert told["total"] == "8 lots, 206.9 g"
    assert len(told["colours"]) == len(told["rows"]) == 8


def test_a_right_change_is_one_step(bench):
    assert bench.typed(0, name="Deep")["rows"][0]["name"] == "Deep"
    assert bench.editor.plan.names[0] == "Deep"
    assert bench.ask("undo")["rows"][0]["name"] == "Harbour Blue"
    assert bench.ask("redo")["rows"][0]["name"] == "Deep"


def test_a_wrong_change_is_told_and_nothing_changes(bench):
    before = bench.editor.plan
    told = bench.typed(2, mass_g="plenty")
    assert told["kind"] == "faults"
    assert told["faults"][0]["row"] == 2
    assert told["faults"][0]["field"] == "mass_g"
    assert bench.editor.plan is before
    assert not bench.editor.can_undo


def test_another_bench_is_followed_but_never_over_what_is_half_typed(bench):
    bench.sent.clear()
    bench.editor.change(name="staggered")
    assert bench.sent[-1]["kind"] == "rows"
    bench.typed(2, mass_g="plenty")
    bench.sent.clear()
    bench.editor.change(name="matched")
    assert bench.sent == []


def test_it_is_saved_copied_and_saved_as(bench, tmp_path):
    bench.typed(0, mass_g="31.5")
    assert "Written: " in bench.ask("save")["said"]
    assert read_plan(tmp_path / "plan.toml").lots[0].mass_g == 31.5
    assert "out/plan.toml" in bench.ask("copy")["said"]
    assert read_plan(tmp_path / "out" / "plan.toml") == bench.editor.plan
    assert "Type a plain file name" in bench.ask("save_as", name="../x")["said"]
    assert "other.toml" in bench.ask("save_as", name="other")["said"]
    assert "file of that name already" in bench.ask("save_as", name="other")["said"]


def test_a_file_that_changed_underneath_is_not_overwritten(bench, tmp_path):
    bench.typed(0, mass_g="31.5")
    other = "# another's\n" + (tmp_path / "plan.toml").read_text()
    (tmp_path / "plan.toml").write_text(other)
    assert "was changed since it was opened" in bench.ask("save")["said"]
    assert (tmp_path / "plan.toml").read_text() == other


def test_another_plan_is_opened_and_has_no_file_here_yet(bench, tmp_path):
    text = (SAMPLES[0].parent / "tideline.toml").read_bytes()
    told = bench.ask("open", [text], name="tideline.toml")
    assert "Opened: tideline.toml" in told["said"]
    assert not told["saves"]
    assert "has no file yet" in bench.ask("save")["said"]
    bench.ask("save_as", name="mine")
    assert "# " in (tmp_path / "out" / "mine.toml").read_text()
    assert bench.ask("undo")["rows"][0]["name"] == "Harbour Blue"


@pytest.mark.parametrize(
    ("content", "told"),
    [(b"\xff\xfe", "not UTF-8"), (b"x" * 400_000, "larger than 256 KiB"), (b"lots = 3", "lots"),
     (b"= =", "not TOML")],
)  # fmt: skip
def test_what_is_no_plan_is_not_opened(bench, content, told):
    before, path = bench.editor.plan, bench.editor.path
    said = bench.ask("open", [content], name="x.toml")["said"]
    assert said.startswith("Not opened. ")
    assert told in said
    assert (bench.editor.plan, bench.editor.path) == (before, path)
