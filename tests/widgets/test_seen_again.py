"""What was typed with its unit is seen again, stored exactly, and rounded sensibly later.

Ounce and yard by their exact definitions, NIST SP 811 (2008), appendix B.
"""

import pytest

from tests.helpers.heard_form import HeardForm
from yarncolor.editing.editor import Editor
from yarncolor.editing.lot_rows import rows_of
from yarncolor.plan import to_data
from yarncolor.planfile.read import plan_from_data
from yarncolor.widgets.lots.lots_bench import LotsBench

OUNCE_G = 28.349523125
LOTS = [
    {"name": "Kelp", "colour": "dark olive", "mass_g": 30.0},
    {"name": "Foam", "colour": "#ddeeee", "mass_g": 20.0},
]


@pytest.fixture
def editor():
    return Editor(plan_from_data({"lots": LOTS, "scheme": {"name": "chain"}}))


class Rows(LotsBench):
    """Lots whose messages are kept; what is typed goes into the rows as they were last shown."""

    def __init__(self, editor):
        self.sent = []
        super().__init__(editor)
        editor.watch(self.refresh)
        self.handle({"do": "ready"}, [])

    def send(self, content, *_):
        self.sent.append(content)

    def rows(self):
        return next(told for told in reversed(self.sent) if told["kind"] == "rows")

    def type(self, at, **fields):
        told = self.rows()
        rows = [{"key": key, **row} for key, row in enumerate(map(dict, told["rows"]))]
        rows[at] |= fields
        self.handle({"do": "rows", "serial": 1, "version": told["version"], "rows": rows}, [])
        return self.rows()["rows"][at]


@pytest.mark.parametrize(
    ("name", "text", "given", "plain"),
    [
        ("bobbins.capacity_g", "4 oz", 4 * OUNCE_G, "113.4"),
        ("bobbins.tare_g", "1 oz, 1 1/8 oz", [OUNCE_G, 1.125 * OUNCE_G], "28.35, 31.893"),
        ("spinning.twist_tpm", "8 tpi", 8 / 0.0254, "314.96"),
        (
            "spinning.sample",
            "10 yd, 1/8 oz",
            {"length_m": 9.144, "mass_g": OUNCE_G / 8},
            "9.144, 3.5437",
        ),
        ("fabric.finishing_shrinkage", "1/3 %", 1 / 300, "0.33333"),
    ],
)
def test_a_field_shows_what_was_typed_and_later_a_plain_number(editor, name, text, given, plain):
    table, key = name.split(".")
    form = HeardForm(editor)
    assert form.put(name, text)["text"] == text
    stored = to_data(editor.plan)[table][key]
    assert stored == given if isinstance(stored, list | dict) else stored == pytest.approx(given)
    assert form.field(name)["text"] == text
    assert HeardForm(editor).field(name)["text"] == plain


@pytest.mark.parametrize(
    ("name", "text", "shown"),
    [
        ("target.yarn_m", "650 yd", "594.36"),
        ("target.yarn_m", "1,000 yd", "914.4"),
        ("target.yarn_g", "27,5 g", "27.5"),
        ("fabric.stitches", "24 sts", "24"),
        ("scheme.loop_m", "12 in", "0.3048"),
    ],
)
def test_what_a_plain_number_says_exactly_is_shown_so(editor, name, text, shown):
    assert HeardForm(editor).put(name, text)["text"] == shown


def test_what_was_typed_goes_when_the_plan_has_another_value(editor):
    form = HeardForm(editor)
    form.put("bobbins.capacity_g", "4 oz")
    editor.change("bobbins", capacity_g=120.0)
    assert form.field("bobbins.capacity_g")["text"] == "120"
    editor.undo()
    assert form.field("bobbins.capacity_g")["text"] == "4 oz"


def test_what_waited_for_another_field_is_seen_again_as_well(editor):
    form = HeardForm(editor)
    form.put("spinning.treadles_per_min", "2/3 per second")
    form.put("spinning.drive_ratio", "10 2/3:1")
    assert form.field("spinning.drive_ratio")["text"] == "10 2/3:1"
    assert editor.plan.spinning.drive_ratio == pytest.approx(32 / 3)
    assert editor.plan.spinning.treadles_per_min == 40


def test_a_gauge_is_said_in_stitches(editor):
    form = HeardForm(editor)
    for name, text in {
        "stitches": "120 sts",
        "rows": "300 rows",
        "gauge_stitches": "24 sts",
    }.items():
        form.put(f"fabric.{name}", text)
    fabric = editor.plan.fabric
    assert (fabric.stitches, fabric.rows, fabric.gauge_stitches) == (120, 300, 24)


def test_a_lots_ounces_are_seen_again_and_kept_to_the_last_digit(editor):
    bench = Rows(editor)
    assert bench.type(0, mass_g="1 oz")["mass_g"] == "1 oz"
    assert editor.plan.lots[0].mass_g == OUNCE_G
    row = bench.type(0, note="from the rocks", name="Weed")
    assert (row["mass_g"], row["name"]) == ("1 oz", "Weed")
    assert bench.type(1, mass_g="¾ oz")["mass_g"] == "¾ oz"
    assert bench.rows()["rows"][0]["mass_g"] == "1 oz"
    assert Rows(editor).rows()["rows"][0]["mass_g"] == "28.35"


def test_what_is_typed_anew_of_the_same_value_is_seen_again(editor):
    Rows(editor).type(0, mass_g="1 oz")
    bench = Rows(editor)
    assert bench.type(0, mass_g="1/16 lb")["mass_g"] == "1/16 lb"
    assert editor.plan.lots[0].mass_g == OUNCE_G


def test_what_a_rolag_weighs_leaves_the_mass_as_it_is(editor):
    bench = Rows(editor)
    bench.type(0, mass_g="1 oz")
    anew = Rows(editor)
    anew.type(0, rolag_g="1/10 oz")
    lot = editor.plan.lots[0]
    assert (lot.mass_g, lot.rolag_g) == (OUNCE_G, pytest.approx(OUNCE_G / 10))
    assert rows_of(editor.plan)[0].mass_g == "28.35"


def test_two_changes_at_once_do_not_clash_over_what_nobody_touched(editor):
    bench, other = Rows(editor), Rows(editor)
    bench.type(0, mass_g="1 oz")
    before = bench.rows()
    other.type(0, note="from the rocks")
    rows = [{"key": key, **row} for key, row in enumerate(map(dict, before["rows"]))]
    rows[1]["note"] = "pale"
    bench.handle({"do": "rows", "serial": 2, "version": before["version"], "rows": rows}, [])
    assert [lot.note for lot in editor.plan.lots] == ["from the rocks", "pale"]
    assert editor.plan.lots[0].mass_g == OUNCE_G
