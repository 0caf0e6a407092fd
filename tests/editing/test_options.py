"""The form of all options: what is typed becomes the plan, or says why not."""

import tomllib
from itertools import permutations

import pytest

from tests.helpers.heard_form import HeardForm
from tests.helpers.paths import SAMPLES
from tests.helpers.strategies import DIVIDING, bare_scheme
from yarncolor import PlanError, plan_from_data, read_plan
from yarncolor.editing.editor import Editor
from yarncolor.editing.fault_words import in_form_words, words_beside
from yarncolor.editing.option_text import format_option, parse_option
from yarncolor.editing.options import OPTIONS, options_of
from yarncolor.errors import Fault, Place
from yarncolor.plan import to_data
from yarncolor.plan.key import SHARE
from yarncolor.plan.reference import KEYS
from yarncolor.planfile.schema import TABLES, HeadTable
from yarncolor.said import Choice, KeyName, ShareSpan, said
from yarncolor.widgets.made_bench import GROUPS as MADE
from yarncolor.widgets.options.options_bench import GROUPS

BY_NAME = {one.path: one for one in OPTIONS}
ELSEWHERE = {("scheme", "name"), ("scheme", "plies")}
"""These are the order bench's."""


def form_of(text, head=""):
    """Return a form of one lot of 100 g and of what else a plan file says."""
    lots = '[[lots]]\nname = "Kelp"\ncolour = "#345"\nmass_g = 100.0\n'
    return HeardForm(Editor(plan_from_data(tomllib.loads(head + lots + text))))


@pytest.fixture
def form(tmp_path):
    path = tmp_path / "plan.toml"
    path.write_bytes((SAMPLES[0].parent / "slack_water.toml").read_bytes())
    return HeardForm(Editor.opened(path))


def test_every_key_of_a_plan_file_but_the_order_has_a_field():
    keys = {(table, key) for table, model in TABLES.items() for key in model.model_fields}
    keys |= {("", key) for key in HeadTable.model_fields}
    keys = {(table, key) for table, key in keys if table not in ("plied", "orders")}
    assert {(one.table, one.name) for one in OPTIONS} == keys - ELSEWHERE
    assert {one.table for one in OPTIONS} == {*GROUPS, *MADE}


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_what_a_plan_says_can_be_typed_and_is_the_same_plan(path):
    plan = read_plan(path)
    data = to_data(plan)
    for option in options_of(plan):
        table = data if not option.table else data.setdefault(option.table, {})
        value = parse_option(option, format_option(plan, option))
        if value is None:
            table.pop(option.name, None)
        else:
            table[option.name] = value
    data = {key: value for key, value in data.items() if value != {}}
    assert plan_from_data(data) == plan


@pytest.mark.parametrize("name", DIVIDING)
def test_a_scheme_shows_its_own_options(name):
    lots = [{"name": f"Lot {at}", "colour": "#888", "mass_g": 10} for at in range(3)]
    scheme = bare_scheme(name, [lot["name"] for lot in lots])
    shown = options_of(plan_from_data({"lots": lots, "scheme": scheme}))
    for option in OPTIONS:
        assert (option in shown) == (not option.schemes or name in option.schemes)


@pytest.mark.parametrize(
    ("name", "text", "value"),
    [
        ("spinning.variation", "8", 0.08),
        ("spinning.variation", " 7.5 ", 0.075),
        ("spinning.variation", "2,3 %", 0.023),
        ("spinning.variation", "2%", 0.02),
        ("spinning.variation", "", None),
        ("plying.contraction", "-1.4", -0.014),
        ("spinning.direction", "Z", "Z"),
        ("spinning.direction", "Z, S,Z", ["Z", "S", "Z"]),
        ("plying.wound_off", "1", 1),
        ("plying.wound_off", "0, 1, 0", [0, 1, 0]),
        ("spinning.single_tex", "100", 100),
        ("spinning.single_tex", "100, 110,120", [100, 110, 120]),
        ("spinning.single_tex", "100,5; 110", [100.5, 110]),
        ("spinning.single_tex", "100 110", [100, 110]),
        ("spinning.sample", "10; 1,2", {"length_m": 10, "mass_g": 1.2}),
        ("scheme.divisions", "1, 2+ 1, 4", [1, [2, 1], 4]),
        ("scheme.reversed_plies", "2", [2]),
        ("scheme.sequence", "Kelp\n Wet, Sand \n\nKelp", ["Kelp", "Wet, Sand", "Kelp"]),
        ("scheme.portions", "1, Kelp, 3.5\n\n2, Wet, Sand, 2",
         [{"ply": 1, "lot": "Kelp", "mass_g": 3.5}, {"ply": 2, "lot": "Wet, Sand", "mass_g": 2}]),
        ("scheme.from", "Kelp\nWet, Sand", ["Kelp", "Wet, Sand"]),
        ("scheme.times", "2", 2),
        ("scheme.times", "1, 2, 4", [1, 2, 4]),
        ("scheme.ply", "Kelp, Foam, Kelp\n\nFoam; parts 2; 3 times; reversed; start at 0.5",
         [{"sequence": ["Kelp", "Foam", "Kelp"]},
          {"sequence": ["Foam"], "parts": [2], "times": 3, "reversed": True, "start_at": 0.5}]),
        ("scheme.ply", '"Wet, Sand", Kelp ; times 2+1; parts 1,5 2',
         [{"sequence": ["Wet, Sand", "Kelp"], "times": [2, 1], "parts": [1.5, 2]}]),
        ("plying.balance", "at rest", "at rest"),
        ("spinning.variation", "a lot", "a lot"),
    ],
)  # fmt: skip
def test_what_is_typed_is_read(name, text, value):
    assert parse_option(BY_NAME[name], text) == value


@pytest.mark.parametrize("text", ["10", "1 2 3", "x"])
def test_a_pair_of_numbers_has_two(text):
    with pytest.raises(PlanError, match=r"give a length and what it weighs, as in “20 m 2\.6 g”"):
        parse_option(BY_NAME["spinning.sample"], text)


def test_a_number_becomes_the_plan_and_can_be_undone(form):
    assert form.put("spinning.variation", "5,5 %")["text"] == "5.5"
    assert form.editor.plan.spinning.variation == 0.055
    form.editor.undo()
    assert form.field("spinning.variation")["text"] == "8"


def test_undo_first_puts_back_what_is_wrong(form):
    form.put("spinning.variation", "5")
    form.put("bobbins.capacity_g", "roomy")
    form.editor.undo()
    assert form.field("bobbins.capacity_g")["fault"] == ""
    assert form.editor.plan.spinning.variation == 0.05
    form.editor.undo()
    assert form.field("spinning.variation")["text"] == "8"


@pytest.mark.parametrize(
    ("name", "text", "told"),
    [
        ("spinning.variation", "a lot", "give per cent from 0 to 100"),
        ("spinning.variation", "200", "give per cent from 0 to 100"),
        ("spinning.variation", "nan", "give per cent from 0 to 100"),
        ("spinning.variation", "9" * 400, "give per cent from 0 to 100"),
        ("spinning.card_loss", "95 %", "give per cent from 0 to 90"),
        ("plying.contraction", "-30", "give per cent from -20 to 60"),
        ("scale.regain", "90", "give water beside bone-dry fibre, per cent from 0 to 60"),
        ("bobbins.count", "2.5", "how many bobbins fit the wheel"),
        ("scheme.divisions", "1, two", "whole number of repeats"),
        ("", "", None),
    ],
)
def test_what_cannot_be_says_why_beside_its_field_and_stays_typed(form, name, text, told):
    before = form.editor.plan
    if told is None:
        form.handle({"do": "put", "name": "nonsense", "text": "1"}, [])
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
    told = "“a weighed length of single: m, g” says 115 tex of the singles, but"
    assert field["fault"].startswith(f"{told} “single, tex (g in 1,000 m)” says 900")


def test_the_title_is_changed_and_a_title_of_two_lines_is_refused(form):
    form.put(".title", "Ebb")
    assert form.editor.plan.title == "Ebb"
    assert "give one line" in form.put(".title", "x" * 500)["fault"]


def test_ounces_and_yards_are_chosen_and_taken_back(form):
    assert form.field(".units")["used"] == "grams and metres (usual)"
    form.put(".units", "imperial")
    assert form.editor.plan.units == "imperial"
    assert form.field(".units")["used"] == "grams and metres (usual)"
    assert form.put(".units", "")["fault"] == ""
    assert form.editor.plan.units is None


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("bobbins.capacity_g", "4"),
        ("bobbins.capacity_g", "3.25"),
        ("target.yarn_m", "650"),
        ("fabric.width_cm", "23.5"),
        ("scale.step_g", "0.125"),
        ("spinning.yarn_m_per_100g", "1100"),
        ("bobbins.count", "4"),
    ],
)
def test_what_was_typed_in_ounces_and_yards_is_shown_so_when_the_plan_is_opened_again(name, text):
    form = form_of("", 'units = "imperial"\n')
    assert form.put(name, text)["fault"] == ""
    again = HeardForm(Editor(plan_from_data(to_data(form.editor.plan))))
    assert again.field(name)["text"] == text
    again.put(name, again.field(name)["text"])
    assert again.editor.plan == form.editor.plan


def test_grams_that_few_ounces_say_are_rounded_and_the_usual_scale_shows_ounces():
    form = form_of("[bobbins]\ncapacity_g = 95.0", 'units = "imperial"\n')
    assert form.field("bobbins.capacity_g")["text"] == "3.351"
    form.put("bobbins.capacity_g", "3.351")
    assert form.editor.plan.bobbins.capacity_g == 95
    assert form.field("scale.step_g")["used"] == "0.01 oz (usual)"


def test_a_change_by_another_bench_is_followed(form):
    form.editor.change("bobbins", capacity_g=80)
    assert form.field("bobbins.capacity_g")["text"] == "80"


def test_every_share_of_the_plan_file_is_typed_in_per_cent():
    shares = {at for at, key in KEYS.items() if at[0] != "lots" and "a share" in str(key.remedy)}
    assert {(one.table, one.name) for one in OPTIONS if one.kind == SHARE} == shares
    assert shares >= {("spinning", "spin_loss"), ("plying", "contraction"), ("scale", "regain")}
    assert all("%" in one.words for one in OPTIONS if one.kind == SHARE)


def test_put_back_brings_the_plans_own_text(form):
    assert form.put("spinning.variation", "a lot")["fault"]
    form.put("bobbins.count", "many")
    form.handle({"do": "back", "name": "spinning.variation"}, [])
    field = form.field("spinning.variation")
    assert (field["text"], field["fault"]) == ("8", "")
    assert form.field("bobbins.count")["text"] == "many"
    form.handle({"do": "back", "name": "nonsense"}, [])
    assert form.editor.has_pending
    form.handle({"do": "back", "name": "bobbins.count"}, [])
    assert not form.editor.can_undo


# --- what is used where nothing is said ------------------------------------------------------


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_empty_field_says_what_is_used(path):
    form = HeardForm(Editor.opened(path))
    empty = [each for each in form.fields().values() if not each["text"]]
    assert len(empty) > 20
    assert [each["name"] for each in empty if not each["used"]] == []
    assert [each["name"] for each in form.fields().values() if each["text"] and each["used"]] == [
        each["name"] for each in form.fields().values() if each["text"] and each["choices"]
    ]


@pytest.mark.parametrize(
    ("text", "name", "used"),
    [
        # a single of 110 tex: 1000 / 110 m in a gram; wraps by 25.4 / d, d² = 4 T / (π 0.16 1000)
        ("[spinning]\nsingle_tex = 110", "spinning.single_m_per_g", "9.1 from the tex you gave"),
        ("[spinning]\nsingle_tex = 110", "spinning.single_wpi", "27.1 from the tex you gave"),
        ("[spinning]\nsingle_tex = 110", "spinning.sample", "10, 1.1 from the tex you gave"),
        # three plies and nothing lost in plying: 100 g hold 1e5 / 330 m
        ("[spinning]\nsingle_tex = 110", "spinning.yarn_m_per_100g", "303 from the tex you gave"),
        ("[spinning]\nsingle_tex = [100, 100, 200]", "spinning.single_m_per_g",
         "5 to 10 from the tex you gave"),
        ("[spinning]\nsample = { length_m = 20, mass_g = 2.3 }", "spinning.single_m_per_g",
         "8.7 from your weighed 20 m"),
        ("[spinning]\nsingle_m_per_g = 8", "spinning.single_tex", "125 from your m in a gram"),
        ("[spinning]\nyarn_m_per_100g = 250", "spinning.single_tex",
         "133 from the finished yarn's m"),
        ("", "spinning.single_m_per_g", "10 (usual)"),
        ("", "spinning.relaxed_density_g_per_cm3", "0.16 (usual)"),
        ("", "spinning.packed_density_g_per_cm3", "0.5 (usual)"),
        ("[spinning]\nrelaxed_density_g_per_cm3 = 0.2\nsingle_tex = 100",
         "spinning.wrapped_skein", "18.4, 333 from the density"),
        # 1 / 39.37 of 400 turns a metre; √100 times it; no twist without a way to it
        ("[spinning]\ntwist_tpm = 400", "spinning.twist_tpi", "10.2 from the turns in a metre"),
        ("[spinning]\ntwist_tpm = 400", "spinning.twist_factor",
         "4000 from the turns in a metre"),
        ("[spinning]\ntwist_factor = 3000", "spinning.twist_tpm",
         "300 from the mill's count of twist"),
        ("", "spinning.twist_tpm", "not known"),
        ("[spinning]\ntwist_tpm = 300\n[plying]\nbalance = \"two_thirds\"", "plying.twist_tpm",
         "200 for a balanced yarn"),
        ("[plying]\ntwist_tpi = 5", "plying.twist_tpm", "197 from the turns in an inch"),
        ("[plying]\ntwist_tpi = 5", "plying.balance", "none: the turns count"),
        ("", "plying.balance", "none"),
        ("", "spinning.direction", "Z (usual)"),
        ("", "plying.direction", "S (against the singles)"),
        ("[plying]\ndirection = \"Z\"", "spinning.direction", "S (against the plying)"),
        ("[plying]\ndirection = \"Z\"", "plying.direction", "S (against the singles)"),
        ("", "plying.contraction", "0 (usual)"),
        ("[plying]\ncontraction_model = \"none\"", "plying.contraction", "0 as you chose"),
        ("[plying]\ncontraction = 0.03", "plying.contraction_model", "not asked: it is measured"),
        ("", "plying.contraction_model", "nothing is lost (usual)"),
        ("", "plying.wound_off", "straight from the bobbin (usual)"),
        ("[plying]\nwound_off = 1", "plying.wound_off", "straight from the bobbin (usual)"),
        ("", "spinning.spin_loss", "0 (usual)"),
        ("", "spinning.variation", "not known"),
        # 100 g at 10 m and 300 turns a metre are 300,000 turns; 600 a minute: 5 minutes a gram
        ("[spinning]\ntwist_tpm = 300\ntreadles_per_min = 60\ndrive_ratio = 10",
         "spinning.minutes_per_g", "5 from treadles and twist"),
        ("[spinning]\ntreadles_per_min = 60\ndrive_ratio = 10", "plying.drive_ratio",
         "10 as in spinning"),
        ("", "plying.drive_ratio", "not known"),
        ("[scheme]\nname = \"fractal\"", "scheme.divisions", "1, 2, 4 (usual)"),
        ("[scheme]\nname = \"fractal\"\nplies = 2", "scheme.divisions", "1, 4 (usual)"),
        ("[scheme]\nname = \"fractal\"\nclosing = \"tail\"", "scheme.closing",
         "keep both pieces (usual)"),
        ("[scheme]\nname = \"shuffled\"", "scheme.pieces", "4 (usual)"),
        ("", "scheme.copies", "1 (usual)"),
        ("[scheme]\nname = \"chain\"", "scheme.loop_m", "0.3 (usual)"),
        ("", "scale.step_g", "0.1 (usual)"),
        ("", "target.yarn_m", "no target"),
        # 300 tex, nothing lost: 60 g are 200 m
        ("[target]\nyarn_g = 60", "target.yarn_m", "200 from the grams wanted"),
        ("[target]\nyarn_m = 200", "target.yarn_g", "60 from the metres wanted"),
        ("", "fabric.kind", "nothing is knitted"),
        ("[fabric]\nstitches = 60\ngauge_stitches = 20", "fabric.kind",
         "flat, to and fro (usual)"),
        ("[fabric]\nstitches = 60\ngauge_stitches = 20", "fabric.gauge_rows",
         "26 from the stitches"),
        ("[fabric]\nstitches = 6\ngauge_stitches = 20\nkind = \"triangle\"",
         "fabric.increases_per_row", "2 (usual)"),
        ("", "bobbins.capacity_g", "no limit"),
        ("", "bobbins.count", "not known"),
    ],
)  # fmt: skip
def test_what_is_used_is_said_with_where_it_comes_from(text, name, used):
    assert form_of(text).field(name)["used"] == used


def test_the_plain_lot_that_would_be_taken_is_the_heaviest():
    lots = [
        {"name": name, "colour": "#888", "mass_g": mass}
        for name, mass in (("Kelp", 10), ("Foam", 30), ("Wrack", 20))
    ]
    scheme = {"name": "solid", "solid_lot": "Kelp", "sequence": ["Wrack", "Foam"]}
    form = HeardForm(Editor(plan_from_data({"lots": lots, "scheme": scheme})))
    assert form.field("scheme.solid_lot")["used"] == "Foam (the most grams)"
    assert form.field("scheme.solid_lot")["choices"] == [(lot["name"],) * 2 for lot in lots]


def test_one_alternative_filled_in_another_emptied_follow_each_other(form):
    thick = "How thick is the single? Fill in one; two must agree within 10 %"
    names = [each["name"] for each in form.under(thick)]
    assert names == [
        f"spinning.{key}"
        for key in (
            *("single_m_per_g", "single_tex", "single_wpi"),
            *("sample", "yarn_m_per_100g", "yarn_wpi"),
        )
    ]
    assert form.field("spinning.single_tex")["used"] == "115 from your weighed 20 m"
    form.put("spinning.sample", "")
    form.put("spinning.single_m_per_g", "10")
    assert form.field("spinning.single_tex")["used"] == "100 from your m in a gram"
    assert form.field("spinning.single_m_per_g")["used"] == ""


def test_alternatives_stand_under_one_heading(form):
    twist = [each["name"] for each in form.under("How much twist have the singles?")]
    assert twist == [
        f"spinning.{key}" for key in ("twist_tpi", "twist_tpm", "twist_angle_deg", "twist_factor")
    ]
    assert [each["name"] for each in form.under("How much yarn?")] == [
        "target.yarn_m",
        "target.yarn_g",
    ]
    headings = [one.heading for one in OPTIONS]
    runs = [a for a, b in zip(headings, [None, *headings], strict=False) if a != b and a]
    assert len(runs) == len(set(runs))


# --- one draft, complete in any order --------------------------------------------------------

GARMENT = {"fabric.kind": "triangle", "fabric.stitches": "7 sts", "fabric.gauge_stitches": "20"}
SHAWL = {"fabric.width_cm": "150 cm", "fabric.rows": "300", "fabric.gauge_stitches": "20"}
TREADLES = {"spinning.treadles_per_min": "60", "spinning.drive_ratio": "10:1"}
PLYING = {"plying.drive_ratio": "8", "plying.treadles_per_min": "50"}
BALANCED = {"plying.balance": "two_thirds", "spinning.twist_tpi": "8 tpi"}


@pytest.mark.parametrize("typed", [
    *(dict(order) for wanted in (GARMENT, SHAWL, TREADLES, PLYING, BALANCED)
      for order in permutations(wanted.items())),
])  # fmt: skip
def test_what_belongs_together_is_typed_in_any_order(typed):
    form = form_of("")
    before = form.editor.plan
    for at, (name, text) in enumerate(typed.items(), 1):
        form.put(name, text)
        assert [each["fault"] for each in form.fields().values() if each["fault"]] == []
        if form.needed(name):
            assert form.field(name)["text"] == text
            assert form.field(name)["waits"]
            assert at < len(typed)
    assert not form.editor.has_pending
    assert not any(form.needed(name) for name in typed)
    data = to_data(form.editor.plan)
    tables = [name.split(".") for name in typed]
    assert all(data[table][key] is not None for table, key in tables)
    while form.editor.can_undo:
        form.editor.undo()
    assert form.editor.plan == before


def test_what_is_missing_is_asked_for_under_its_heading(form):
    form.editor.change_tables({"fabric": dict.fromkeys(to_data(form.editor.plan)["fabric"])})
    form.put("fabric.rows", "80")
    told = "how wide it is, or how many stitches are cast on"
    assert form.needed("fabric.kind") == told
    form.put("spinning.minutes_per_g", "")
    form.put("spinning.drive_ratio", "")
    form.put("spinning.treadles_per_min", "60")
    assert form.needed("spinning.minutes_per_g") == "turns of the flyer for a treadle"
    assert form.needed("plying.twist_tpm") == ""


def test_nonsense_in_one_field_keeps_no_other_waiting():
    form = form_of("")
    form.put("spinning.treadles_per_min", "60")
    assert "give turns" in form.put("spinning.drive_ratio", "fast")["fault"]
    assert form.field("spinning.treadles_per_min")["fault"] == ""
    form.put("bobbins.capacity_g", "95")
    assert form.editor.plan.bobbins.capacity_g == 95
    assert form.field("spinning.treadles_per_min")["text"] == "60"
    form.put("spinning.drive_ratio", "10")
    assert form.editor.plan.spinning.treadles_per_min == 60


def test_undo_puts_back_what_waits():
    form = form_of("")
    form.put("spinning.treadles_per_min", "60")
    form.editor.undo()
    assert form.field("spinning.treadles_per_min")["text"] == ""
    assert form.needed("spinning.treadles_per_min") == ""


def test_a_shawl_is_said_by_its_width_and_the_gauge_is_a_guess_until_a_swatch(form):
    form = form_of("")
    form.put("fabric.kind", "flat")
    form.put("fabric.width_cm", "1.5 m")
    assert form.editor.plan.fabric.width_cm == 150
    # three plies of 100 tex: loops of √300 / 11 cm; 10 · √(21.6 / 1.3) / loop stitches in 10 cm
    guess = "25.9 a guess by the yarn’s thickness; knit a swatch"
    assert form.field("fabric.gauge_stitches")["used"] == guess
    assert form.field("fabric.stitches")["used"] == "388 from the width"
    assert any("a guess until you knit a swatch" in text for text in form.sent[-1]["assumed"])
    form.put("fabric.gauge_stitches", "20")
    assert form.field("fabric.stitches")["used"] == "300 from the width"
    assert not any("guess" in text for text in form.sent[-1]["assumed"])


# --- choices in words ------------------------------------------------------------------------


def test_choices_say_words_not_keys(form):
    for each in form.fields().values():
        for _, words in each["choices"]:
            assert "_" not in words
    assert ("tail", "close once, at the end") in form.field("scheme.closing")["choices"]
    assert ("equal_length", "no length lost in plying") in form.field("plying.balance")["choices"]
    assert form.choose("plying.direction", "anticlockwise (S)")["text"] == "S"
    assert form.editor.plan.plying.direction == "S"


def test_winding_is_chosen_in_words_and_ply_by_ply_where_plies_differ(form):
    assert form.choose("plying.wound_off", "wound off once")["text"] == "1"
    assert form.editor.plan.plying.wound_off == 1
    field = form.choose("plying.wound_off", "ply by ply")
    assert (field["text"], field["choices"]) == ("1, 1, 1", [])
    assert field["words"] == "times wound off, for each ply: 0, 1, 2"
    form.put("plying.wound_off", "0, 2, 0")
    assert form.editor.plan.plying.wound_off == (0, 2, 0)
    field = form.put("plying.wound_off", "")
    assert field["words"] == "winding before plying"
    assert field["choices"]


def test_the_way_each_single_is_spun_is_typed_ply_by_ply():
    form = form_of('[plying]\ndirection = "S"')
    assert form.choose("spinning.direction", "ply by ply")["text"] == "Z, Z, Z"
    assert form.put("spinning.direction", "Z, Z, S")["fault"] == ""
    assert form.editor.plan.spinning.direction == ("Z", "Z", "S")
    assert "or one for each ply" in form.put("spinning.direction", "left")["fault"]


def test_one_single_has_no_ply_by_ply():
    choices = form_of("[scheme]\nplies = 1").field("plying.wound_off")["choices"]
    assert [said for _, said in choices] == [
        "straight from the bobbin",
        "wound off once",
        "wound off twice",
    ]


# --- faults in the words of the form ---------------------------------------------------------


@pytest.mark.parametrize(
    ("remedy", "told"),
    [
        (said("give {span}", span=ShareSpan(0, 0.9)), "give per cent from 0 to 90"),
        (said("give {span}", span=ShareSpan(-0.2, 0.6)), "give per cent from -20 to 60"),
        (said("needs a twist of the singles; give {twist}",
              twist=KeyName("spinning", "twist_tpm", with_table=True)),
         "needs a twist of the singles; give “turns in a metre” in spinning"),
        (said("give {m} or {g}, one of the two",
              m=KeyName("target", "yarn_m"), g=KeyName("target", "yarn_g")),
         "give “metres of yarn” or “grams of yarn”, one of the two"),
        (said("{criterion} speaks of 2 plies", criterion=Choice("plying", "balance", "self_plied")),
         "as a single plies itself speaks of 2 plies"),
        (said("write the yarn that you wrapped as {skein}",
              skein=KeyName("spinning", "wrapped_skein", example="= { wpi = …, m_per_100g = … }")),
         "write the yarn that you wrapped as “a wrapped skein: wraps to the inch, m in 100 g”"),
        ('no lot has that name; did you mean "sea_foam"?',
         'no lot has that name; did you mean "sea_foam"?'),
    ],
)  # fmt: skip
def test_a_remedy_speaks_of_fields_and_per_cent(remedy, told):
    assert in_form_words(remedy) == told


@pytest.mark.parametrize("name", ["wound_off", "self_plied", "a share from 0 to 0.9"])
def test_a_lot_called_like_a_key_keeps_its_name(name):
    form = form_of(f'[[lots]]\nname = "{name}"\ncolour = "#345"\nmass_g = 9.0')
    told = form.put("scheme.sequence", name[:-1])["fault"]
    assert told == f'no lot has that name; did you mean "{name}"?'


@pytest.mark.parametrize(
    ("place", "told"),
    [
        (Place(("plying", "twist_tpm")), "too much"),
        (Place(("plying", "twist_tpm", 1)), "too much"),
        (Place(("plying",)), "too much"),
        ("", "too much"),
        (Place(("plying", "balance")), "“for a balanced yarn”: too much"),
        (Place(("lots", 1, "mass_g"), ("", "Foam")), "lots 2 (Foam): mass_g: too much"),
    ],
)
def test_a_fault_says_where_it_lies_unless_it_is_here(place, told):
    assert words_beside(Fault("", place, "", "too much"), BY_NAME["plying.twist_tpm"]) == told


def test_both_targets_are_refused_in_the_words_of_their_fields():
    form = form_of("[target]\nyarn_m = 100")
    told = "give “metres of yarn” or “grams of yarn”, one of the two"
    assert form.put("target.yarn_g", "20")["fault"] == told
