"""Lots as rows of typed text: what is right becomes the plan, what is wrong is told and kept."""

from dataclasses import fields as dataclass_fields
from dataclasses import replace
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.helpers.paths import SAMPLES
from tests.helpers.strategies import plan_data
from yarncolor import PlanError, plan_from_data, read_plan
from yarncolor.colour.palette import display_colours
from yarncolor.colour.photo.correction import uncorrected
from yarncolor.colour.photo.demo import demo_photo, heap_box
from yarncolor.colour.photo.lots import lot_from, read_boxes, with_lot
from yarncolor.colour.photo.sampling import Box
from yarncolor.defaults import left_g
from yarncolor.editing.editor import Editor
from yarncolor.editing.lot_fields import LOT_FIELDS
from yarncolor.editing.lot_rows import Row, needed_words, plan_with_rows, rows_of
from yarncolor.editing.row_faults import faults_by_field
from yarncolor.layout.schemes import SCHEMES
from yarncolor.planfile.schema import LotTable
from yarncolor.widgets.lots.lots_bench import LotsBench

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


def test_a_fault_of_a_whole_lot_marks_its_row(plan):
    rows = rows_of(plan)
    rows[2] = replace(rows[2], mass_g="60")
    told = {
        (0, "name"): "blends take 40 g, but there are 30 g",
        (1, "name"): "blends take 20 g, but there are 18 g",
    }
    assert faults(plan, rows) == (told, [])


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
        "second bath of Kelp on Foam",
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


def test_what_others_are_made_from_is_said_with_who_needs_it(plan):
    rows = rows_of(plan)
    assert needed_words(plan, rows) == ""
    assert needed_words(plan, rows[1:]) == (
        "Kelp stays: Mix and Pale are made from it; change those first."
    )
    assert needed_words(plan, rows[:1] + rows[2:3]) == (
        "Foam stays: Mix is made from it; change that first."
    )


def test_a_lot_may_go_with_those_made_from_it_or_once_they_are_made_otherwise(plan):
    rows = rows_of(plan)
    assert needed_words(plan, rows[1:2]) == ""
    otherwise = [rows[1], replace(rows[2], colour="#888888")]
    assert needed_words(plan, otherwise) == ""
    assert plan_with_rows(plan, otherwise).scheme.sequence == ("Foam", "Mix")


@pytest.mark.parametrize("name", ["", "   ", "x" * 61, "x" * 100_000, "a\nb", "\x00"])
def test_a_name_that_cannot_be_is_told_there_and_not_where_it_is_named(plan, name):
    fields, rest = faults(plan, [replace(rows_of(plan)[0], name=name), *rows_of(plan)[1:]])
    assert list(fields) == [(0, "name")]
    assert fields[0, "name"].startswith("give a name of 1 to 60 characters")
    assert rest == []


@pytest.mark.parametrize("name", ["<b>Kelp</b>", "Kelp: (dark): mass_g", "2 Foam + 1 Kelp", "&"])
def test_a_name_may_hold_signs_and_is_kept_as_typed(plan, name):
    found = changed(plan, 0, name=f" {name} ")
    assert found.names[0] == name
    assert found.scheme.sequence.count(name) == 2


@pytest.mark.parametrize(
    "typed", ["nan", "inf", "1e400", "9" * 5000, "-1", "0", "", "5 m", "1.2,3"]
)
def test_grams_that_are_no_weight_are_told_in_their_field(plan, typed):
    fields, _ = faults(plan, [replace(rows_of(plan)[0], mass_g=typed), *rows_of(plan)[1:]])
    assert fields == {(0, "mass_g"): "give grams, 0.001 to 100,000"}


def test_a_comma_is_a_decimal_point(plan):
    assert changed(plan, 0, mass_g="27,5", reserve_g="1,25").lots[0].mass_g == 27.5
    assert changed(plan, 0, mass_g="27,5", reserve_g="1,25").lots[0].reserve_g == 1.25
    assert changed(plan, 1, colour="90,5 0 -7,25").lots[1].lab == (90.5, 0, -7.25)


@pytest.mark.parametrize("typed", ["", "see grun", "#12g", "x" * 100_000, "<script>", "#12"])
def test_a_colour_that_is_none_is_told_in_its_field(plan, typed):
    fields, _ = faults(plan, [replace(rows_of(plan)[0], colour=typed), *rows_of(plan)[1:]])
    asked = "give a colour in words, as “dark brick red” or “madder, pale”, or pick one"
    assert fields[0, "colour"].startswith(asked)


def test_a_colour_is_typed_in_words_and_shown_in_them(plan):
    there = changed(plan, 0, colour="Dark brick-red")
    assert there.lots[0].colour == "Dark brick-red"
    assert rows_of(there)[0].colour == "Dark brick-red"
    assert display_colours(there.lots).srgb[0] == "#5f2820"
    assert plan_with_rows(there, rows_of(there)) == there


def test_a_colour_by_its_dye_says_that_it_is_a_guess_until_another_is_given(plan):
    there = changed(plan, 1, colour="pale madder")
    assert rows_of(there)[1].colour == "pale madder"
    assert there.lots[1].source == "a guess, photograph it: madder on alum, from memory"
    assert changed(there, 1, colour="weld, dark").lots[1].source.startswith("a guess, photograph")
    assert changed(there, 1, colour="52 10 20").lots[1].source == ""
    fair = changed(changed(plan, 1, source="from the fair"), 1, colour="weld")
    assert fair.lots[1].source == "from the fair"


@pytest.mark.parametrize(
    ("typed", "number", "exhaustion", "takes_from"),
    [
        ("second bath of Kelp on Foam", 2, 0.7, None),
        ("Third bath of Kelp on Foam", 3, 0.7, None),
        ("2nd bath of Kelp on Foam, 60 % taken", 2, 0.6, None),
        ("bath 4 of Kelp on Foam, 0.5 taken", 4, 0.5, None),
        ("12th bath of Kelp on Foam, out of its grams", 12, 0.7, "Foam"),
    ],
)
def test_baths_are_typed_as_one_says_them(plan, typed, number, exhaustion, takes_from):
    there = changed(plan, 3, colour=typed)
    bath = there.lots[3].bath
    assert (bath.number, bath.exhaustion, bath.takes_from) == (number, exhaustion, takes_from)
    assert (bath.of, bath.undyed) == ("Kelp", "Foam")
    assert plan_with_rows(there, rows_of(there)) == there
    again = changed(plan, 3, colour=rows_of(there)[3].colour)
    assert again.lots[3].bath == bath


def test_a_bath_out_of_the_undyed_lot_leaves_that_so_much_less(plan):
    there = changed(plan, 3, colour="second bath of Kelp on Foam, out of its grams")
    left = [left_g(each.lots, 0.1)[1] for each in (there, plan)]
    assert left[0] == pytest.approx(left[1] - 5)
    rows = rows_of(there)
    rows[3] = replace(rows[3], mass_g="40")
    told = {(1, "name"): "blends and baths take 42 g, but there are 18 g"}
    assert faults(there, rows) == (told, [])


def test_a_share_of_dye_that_cannot_be_is_told_in_per_cent(plan):
    rows = rows_of(plan)
    rows[3] = replace(rows[3], colour="second bath of Kelp on Foam, 170 % taken")
    words = "give how much of its dye a bath takes, above 0 and below 100 %"
    assert faults(plan, rows) == ({(3, "colour"): words}, [])


def test_words_that_mean_no_colour_are_told_with_the_one_that_was_likely_meant(plan):
    rows = rows_of(plan)
    rows[0] = replace(rows[0], colour="dark brik red")
    with pytest.raises(PlanError) as told:
        plan_with_rows(plan, rows)
    fields, _ = faults_by_field(told.value, rows)
    assert fields[0, "colour"].endswith("; did you mean “dark brick red”?")


def test_grams_say_their_unit_and_what_is_none_of_weight_is_told(plan):
    assert changed(plan, 0, mass_g="1 oz", reserve_g="2 g").lots[0].mass_g == pytest.approx(28.3495)
    assert changed(plan, 0, rolag_g="3 g").lots[0].rolag_g == 3
    rows = rows_of(plan)
    rows[0] = replace(rows[0], mass_g="20 m")
    with pytest.raises(PlanError) as told:
        plan_with_rows(plan, rows)
    fields, _ = faults_by_field(told.value, rows)
    assert fields == {(0, "mass_g"): "20 m is a length; give grams, 0.001 to 100,000"}


def test_a_note_of_several_lines_is_kept_whatever_line_ends_a_browser_has():
    note = "first\r\nsecond\n\nlast"
    lots = [{"name": "Kelp", "colour": "#445533", "mass_g": 30.0, "note": note}]
    plan = plan_from_data({"lots": lots})
    assert changed(plan, 0, note=note.replace("\r\n", "\n")) == plan
    assert changed(plan, 0, note="first\nlast").lots[0].note == "first\nlast"
    assert changed(plan, 0, note="").lots[0].note == ""


def test_grams_that_are_typed_take_the_place_of_counted_rolags():
    lots = [{"name": "Kelp", "colour": "#445533", "rolags": 12.0, "rolag_g": 2.0}]
    plan = plan_from_data({"lots": lots})
    assert changed(plan, 0, name="Weed").lots[0].rolags == 12
    lot = changed(plan, 0, mass_g="26", rolags="", rolag_g=" ").lots[0]
    assert (lot.mass_g, lot.rolags, lot.rolag_g) == (26, None, None)


def test_counted_rolags_take_the_place_of_grams_that_are_typed(plan):
    lot = changed(plan, 0, rolags="12", rolag_g="2,5").lots[0]
    assert (lot.mass_g, lot.rolags, lot.rolag_g) == (30, 12, 2.5)
    fields, _ = faults(plan, [replace(rows_of(plan)[0], rolags="12"), *rows_of(plan)[1:]])
    assert fields == {(0, "rolag_g"): "give grams of one rolag, 0.001 to 1,000"}
    lot = changed(plan, 0, rolag_g="2").lots[0]
    assert (lot.mass_g, lot.rolags, lot.rolag_g) == (30, None, 2)


RECORDS = {"preparation": "locks", "fibre": "wool and silk", "dye": "acid", "mordant": "alum",
           "bath_number": "2", "dyed_on": "2026-03-01", "source": "from the shore"}  # fmt: skip


@pytest.mark.parametrize("key", RECORDS)
def test_what_is_kept_for_the_record_is_typed_and_cleared(plan, key):
    there = changed(plan, 1, **{key: RECORDS[key]})
    assert getattr(there.lots[1], key) == RECORDS[key]
    assert rows_of(there)[1] == replace(rows_of(plan)[1], **{key: RECORDS[key]})
    assert changed(there, 1, **{key: " "}) == plan


def test_every_key_of_a_lot_in_the_file_is_a_field_of_its_row():
    assert set(LOT_FIELDS) == set(LotTable.model_fields) - {"lab", "blend", "drafted", "bath"}
    assert set(LOT_FIELDS) == {one.name for one in dataclass_fields(Row)} - {"key"}
    assert set(LOT_FIELDS["preparation"].choice_words) == set(
        get_args(LotTable.model_fields["preparation"].annotation)
    )


@pytest.mark.parametrize(
    ("typed", "share"), [("16", 0.16), ("13,6", 0.136), ("7", 0.07), ("0", 0.0), ("60", 0.6)]
)
def test_water_is_typed_in_per_cent_and_kept_as_a_share(plan, typed, share):
    there = changed(plan, 0, regain=typed)
    assert there.lots[0].regain == share
    assert float(rows_of(there)[0].regain) == float(typed.replace(",", "."))
    assert changed(there, 0, regain="").lots[0].regain is None


@pytest.mark.parametrize("typed", ["-1", "60.1", "much", "nan", "inf", "9" * 5000])
def test_water_that_cannot_be_is_told_in_per_cent(plan, typed):
    fields, _ = faults(plan, [replace(rows_of(plan)[0], regain=typed), *rows_of(plan)[1:]])
    assert fields == {(0, "regain"): "give water beside bone-dry fibre in per cent, 0 to 60"}


def test_a_record_that_is_too_long_is_told_in_its_field(plan):
    fields, _ = faults(plan, [replace(rows_of(plan)[0], dye="x" * 2001), *rows_of(plan)[1:]])
    assert list(fields) == [(0, "dye")]
    assert fields[0, "dye"].startswith("give text of at most 2,000 characters")


def test_a_new_lot_comes_last_in_the_sequence(plan):
    found = plan_with_rows(plan, [*rows_of(plan), Row(None, "Sand", "#cba", "12,5")])
    assert found.lots[-1].mass_g == 12.5
    assert found.scheme.sequence[-1] == "Sand"
    assert found.scheme.parts[-1] == 1


def test_a_new_lot_goes_before_the_lot_that_closes_the_order(plan):
    closed = {**NAMED["scheme"], "sequence": ["Foam", "Kelp", "Mix", "Pale", "Foam"]}
    rows = [*rows_of(plan), Row(None, "Sand", "#cba", "12"), Row(None, "Rust", "#a53", "9")]
    found = plan_with_rows(plan_from_data({**NAMED, "scheme": closed}), rows)
    assert found.scheme.sequence == ("Foam", "Kelp", "Mix", "Pale", "Sand", "Rust", "Foam")
    assert found.scheme.parts == (1, 2, 3, 4, 1, 1, 5)


def test_another_colour_drops_what_the_photograph_said_and_keeps_the_rest(plan):
    lot = changed(plan, 0, colour="#112233").lots[0]
    assert (lot.colour, lot.source, lot.colour_unsure, lot.dye) == ("#112233", "", None, "weld")


def test_another_colour_keeps_where_the_fibre_came_from_and_what_is_typed_with_it(plan):
    there = changed(plan, 1, source="from the fair", colour_unsure="3")
    lot = changed(there, 1, colour="#eeeeee").lots[1]
    assert (lot.source, lot.colour_unsure) == ("from the fair", None)
    lot = changed(plan, 0, colour="#112233", source="a photograph, anew", colour_unsure="2").lots[0]
    assert (lot.source, lot.colour_unsure) == ("a photograph, anew", 2)


def test_a_colour_from_a_photograph_is_known_by_its_source():
    photo, as_it_is = demo_photo(), uncorrected()
    reading = read_boxes(photo, {"Foam": Box(*heap_box(0))}, as_it_is)["Foam"]
    plan = plan_from_data({"lots": NAMED["lots"][:2]})
    there = with_lot(plan, lot_from("Foam", 20.0, reading, as_it_is))
    assert there.lots[1].source
    assert changed(there, 1, colour="#eeeeee").lots[1].source == ""


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
        (0, "colour", "give a colour in words"),
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
    def __init__(self, editor):
        self.sent = []
        super().__init__(editor)
        editor.watch(self.refresh)
        self.handle({"do": "ready"}, [])

    def send(self, content, *_):
        self.sent.append(content)

    def ask(self, do, buffers=(), **more):
        self.sent.clear()
        self.handle({"do": do, "serial": 3, **more}, list(buffers))
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
    return Heard(Editor.opened(path))


def test_rows_come_when_a_browser_asks(bench):
    (told,) = bench.sent
    assert told["kind"] == "rows"
    assert told["total"] == "8 lots, 206.9 g"
    assert len(told["colours"]) == len(told["rows"]) == 8


def test_what_is_carded_from_other_lots_is_not_counted_twice(plan):
    assert Heard(Editor(plan)).sent[0]["total"] == "4 lots, 55.0 g"


def test_a_right_change_is_one_step(bench):
    assert bench.typed(0, name="Deep")["rows"][0]["name"] == "Deep"
    assert bench.editor.plan.names[0] == "Deep"
    bench.editor.undo()
    assert bench.sent[-1]["rows"][0]["name"] == "Harbour Blue"
    bench.editor.redo()
    assert bench.sent[-1]["rows"][0]["name"] == "Deep"


def test_a_wrong_change_is_told_and_nothing_changes(bench):
    before = bench.editor.plan
    told = bench.typed(2, mass_g="plenty")
    assert told["kind"] == "faults"
    assert told["faults"][0]["row"] == 2
    assert told["faults"][0]["field"] == "mass_g"
    assert bench.editor.plan is before
    assert bench.editor.has_pending
    bench.typed()
    assert not bench.editor.has_pending
    assert not bench.editor.can_undo


def test_another_bench_is_followed_but_never_over_what_is_half_typed(bench):
    bench.sent.clear()
    bench.editor.change(name="staggered")
    assert bench.sent[-1]["kind"] == "rows"
    bench.typed(2, mass_g="plenty")
    bench.sent.clear()
    bench.editor.change(name="matched")
    assert bench.sent == []


def test_a_lot_that_is_needed_is_refused_by_name_and_nothing_else_happens(plan, tmp_path):
    bench = Heard(Editor(plan))
    told = bench.ask("rows", rows=bench.rows()[1:])
    assert (told["kind"], told["serial"]) == ("refused", 3)
    assert "Kelp stays" in told["said"]
    assert bench.editor.plan is plan


def test_undo_first_puts_back_what_is_wrong(bench):
    bench.typed(0, mass_g="31.5")
    bench.typed(0, mass_g="plenty")
    bench.editor.undo()
    assert bench.sent[-1]["rows"][0]["mass_g"] == "31.5"
    assert bench.sent[-1]["anew"]
    bench.editor.undo()
    assert bench.sent[-1]["rows"][0]["mass_g"] != "31.5"


def test_rows_of_lots_that_were_others_by_then_are_not_taken_for_these(bench):
    version, rows = bench.sent[0]["version"], bench.rows()
    bench.editor.change(name="staggered")
    assert bench.ask("rows", rows=rows, version=version)["kind"] == "rows"
    plan = bench.editor.plan
    bench.editor.replace_plan(plan_with_rows(plan, rows_of(plan)[1:]))
    rows[0]["note"] = "to keep"
    told = bench.ask("rows", rows=rows, version=version)
    assert told["faults"] == [{"row": 0, "field": "name", "words": "taken out elsewhere meanwhile"}]
    assert "changed elsewhere meanwhile" in told["said"]
    assert bench.editor.plan.names == plan.names[1:]
    bench.editor.undo()
    assert bench.sent[-1]["version"] > version


@pytest.mark.parametrize("version", [-1, 99, None, True, "0", 0.0])
def test_rows_of_lots_that_never_were_are_not_taken(bench, version):
    told = bench.ask("rows", rows=bench.rows(), version=version)
    assert "changed elsewhere meanwhile" in told["said"]


def test_changes_from_two_benches_are_both_kept(bench):
    other = Heard(bench.editor)
    version, rows = bench.sent[-1]["version"], bench.rows()
    other.typed(3, mass_g="12")
    there = other.rows()
    other.ask("rows", rows=[*there[:1], *there[2:]])
    rows[3]["note"] = "dull"
    new = {"key": None, "name": "Plum", "colour": "#5b2a4f", "mass_g": "9"}
    told = bench.ask("rows", rows=[*rows, new], version=version)
    assert "changed elsewhere" in told["said"]
    assert told["places"] == [0, None, 1, 2, 3, 4, 5, 6, 7]
    lots = bench.editor.plan.lots
    assert [lot.name for lot in lots] == [
        *(row["name"] for row in there[:1] + there[2:]), "Plum",
    ]  # fmt: skip
    assert (lots[2].mass_g, lots[2].note) == (12, "dull")
    bench.editor.undo()
    assert bench.sent[-1]["rows"][2]["note"] == ""


def test_a_field_that_two_benches_changed_is_told_there_and_what_is_typed_stays(bench):
    other = Heard(bench.editor)
    version, rows = bench.sent[-1]["version"], bench.rows()
    other.typed(3, mass_g="12")
    plan = bench.editor.plan
    rows[3]["mass_g"] = "13"
    told = bench.ask("rows", rows=rows, version=version)
    (fault,) = told["faults"]
    assert (fault["row"], fault["field"], fault["words"]) == (
        3, "mass_g", "changed elsewhere too: 12",
    )  # fmt: skip
    assert bench.editor.plan is plan
    rows[3]["mass_g"] = "12"
    assert bench.ask("rows", rows=rows, version=version)["kind"] == "rows"


def test_what_is_wrong_after_both_changes_is_told_at_the_rows_as_they_were_typed(bench):
    other = Heard(bench.editor)
    version, rows = bench.sent[-1]["version"], bench.rows()
    other.ask("rows", rows=bench.rows()[1:])
    other.ask("rows", rows=[*bench.rows(),
        {"key": None, "name": "Plum", "colour": "#5b2a4f", "mass_g": "9"}])  # fmt: skip
    rows[2]["mass_g"] = "plenty"
    fresh = {"key": None, "name": "Plum", "colour": "#123", "mass_g": "9"}
    told = bench.ask("rows", rows=[*rows, fresh], version=version)
    assert {(each["row"], each["field"]) for each in told["faults"]} == {(2, "mass_g"), (8, "name")}


@pytest.mark.parametrize("key", [-1, 99, True, "0", 0.0, None, [0]])
def test_a_key_that_no_lot_has_is_that_of_a_new_one(bench, key):
    new = {"key": key, "name": "Plum", "colour": "#5b2a4f", "mass_g": "9"}
    told = bench.ask("rows", rows=[*bench.rows(), new])
    assert told["rows"][-1]["name"] == "Plum"
