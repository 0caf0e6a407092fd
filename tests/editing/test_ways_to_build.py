"""Plies with an order of their own, and a fade, as they are chosen, changed, renamed and saved."""

from dataclasses import replace

import pytest

import yarncolor as yc
from tests.helpers.paths import SAMPLE_DATA
from tests.helpers.strategies import by_hand
from yarncolor.editing.editor import Editor
from yarncolor.editing.lot_rows import plan_with_rows, rows_of
from yarncolor.editing.merging import merged
from yarncolor.layout.layout import layout
from yarncolor.layout.resolved import resolve
from yarncolor.plan import to_data

HEADLAND, LOW_LIGHT = SAMPLE_DATA / "headland.toml", SAMPLE_DATA / "low_light.toml"
FOUR = {"Kelp": 30.0, "Foam": 60.0, "Wrack": 90.0, "Dune": 20.0}


def rows(plan) -> list[tuple[int, int, float]]:
    laid = layout(resolve(plan)).planned
    return [(int(ply), int(lot), round(float(mass), 6)) for ply, lot, mass in zip(
        laid.ply, laid.lot, laid.mass_g, strict=True
    )]  # fmt: skip


@pytest.mark.parametrize(
    "scheme",
    [
        {"name": "matched", "plies": 2},
        {"name": "staggered", "plies": 3},
        {"name": "fractal", "divisions": [1, 2, [4, 2, 1]]},
        {"name": "fractal", "divisions": [1, 3], "reversed_plies": [2]},
        {"name": "flipped", "plies": 2},
        {"name": "mirrored", "plies": 2},
        {"name": "solid", "plies": 3},
        {"name": "shuffled", "plies": 2, "pieces": 2},
    ],
    ids=lambda scheme: scheme["name"],
)
def test_what_becomes_mixed_lies_as_it_lay(scheme):
    editor = Editor(yc.plan_from_data(by_hand(FOUR, scheme=scheme)))
    before = rows(editor.plan)
    editor.change(name="mixed")
    assert rows(editor.plan) == before
    assert editor.names() == ()
    editor.change(name="matched")
    assert editor.plan.scheme.ply == ()
    assert editor.names() == tuple(FOUR)


def test_what_becomes_a_fade_has_half_of_its_order_on_each_side():
    editor = Editor(yc.plan_from_data(by_hand(FOUR, scheme={"sequence": ["Dune", *FOUR]})))
    editor.change(name="fade")
    assert editor.plan.scheme.from_ == ("Dune", "Kelp")
    assert editor.plan.scheme.to == ("Foam", "Wrack")
    editor.change(name="staggered")
    assert editor.names() == ("Dune", *FOUR)


def test_a_lot_is_dragged_from_one_side_of_a_fade_to_the_other():
    editor = Editor.opened(LOW_LIGHT)
    editor.move(0, 3)
    assert editor.plan.scheme.from_ == ("Samphire", "Driftwood")
    assert editor.plan.scheme.to == ("Mussel", "Foam")
    assert yc.plan_from_data(to_data(editor.plan)) == editor.plan
    editor.undo()
    assert editor.is_saved


def test_a_lot_that_stands_twice_is_not_dragged_onto_both_sides():
    scheme = {"name": "fade", "from": ["Kelp", "Foam", "Kelp"], "to": ["Wrack"]}
    editor = Editor(yc.plan_from_data(by_hand(FOUR, scheme=scheme)))
    with pytest.raises(yc.PlanError, match="Kelp would stand on both sides of the fade"):
        editor.move(0, 3)
    assert editor.plan.scheme.from_ == ("Kelp", "Foam", "Kelp")


def test_lots_are_renamed_taken_out_and_added_wherever_a_ply_or_a_side_has_them():
    plan = yc.read_plan(HEADLAND)
    typed = rows_of(plan)
    typed[0] = replace(typed[0], name="Herring gull")
    made = plan_with_rows(plan, [*typed[:3], typed[4]])
    assert dict(made.lots[3].drafted) == {"Herring gull": 2.0, "Slate": 1.0}
    plies = made.scheme.ply
    assert [own.sequence for own in plies] == [
        ("Herring gull", "Slate"),
        ("Herring gull", "Heather", "Slate"),
        ("Rust", "Slate", "Herring gull"),
    ]
    assert plies[2].parts == (3.0, 2.0, 2.0)
    fade = yc.read_plan(LOW_LIGHT)
    typed = rows_of(fade)
    new = replace(typed[0], key=None, name="Dune")
    scheme = plan_with_rows(fade, [*typed[1:], new]).scheme
    assert (scheme.from_, scheme.to) == (("Samphire",), ("Driftwood", "Mussel", "Dune"))


def test_two_lots_of_a_ply_become_one():
    plies = merged(yc.read_plan(HEADLAND), "Rust", "Anemone").scheme.ply
    assert plies[2].sequence == ("Rust", "Slate", "Rust", "Gull")


@pytest.mark.parametrize("path", [HEADLAND, LOW_LIGHT], ids=lambda path: path.stem)
def test_what_is_changed_is_saved_with_its_comments(path, tmp_path):
    editor = Editor.opened(path)
    if path is HEADLAND:
        plies = to_data(editor.plan)["scheme"]["ply"]
        editor.change(ply=[*plies[:2], {**plies[2], "times": [2, 1], "reversed": True}])
    else:
        editor.change(to=["Mussel"], times=2)
    kept = editor.save_as(tmp_path / path.name)
    assert yc.read_plan(kept) == editor.plan
    comments = [line for line in path.read_text().splitlines() if line.startswith("#")]
    assert kept.read_text().splitlines()[: len(comments)] == comments


def test_a_fade_chosen_beside_other_schemes_stays_what_it_is():
    plan = yc.read_plan(LOW_LIGHT)
    assert yc.variant(plan, "matched").scheme.sequence is None
    turned = yc.variant(plan, order="reversed").scheme
    assert (turned.from_, turned.to) == (("Mussel", "Driftwood"), ("Samphire", "Foam"))
