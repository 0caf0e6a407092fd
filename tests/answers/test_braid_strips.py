"""Strips of a braid: which there are, of what width, and begun at which end. Counted by hand."""

import numpy as np
import pytest

import yarncolor as yc
from yarncolor.answers.answer import Answer
from yarncolor.answers.braid_strips import braid_strips
from yarncolor.answers.by_hand import OnStrip
from yarncolor.report.strip_words import strip_lines

SEGMENTS = [
    {"name": "Ebb", "colour": "#1f4a63", "length_cm": 40.0},
    {"name": "Sand", "colour": "#b89f7b", "length_cm": 25.0},
    {"name": "Thrift", "colour": "#c87f97", "length_cm": 35.0},
]


def answered(scheme: dict, **tables) -> Answer:
    braid = {"mass_g": 120.0, "segments": SEGMENTS, **tables.pop("braid", {})}
    return yc.answer(yc.plan_from_data({"braid": braid, "scheme": scheme, **tables}))


def shapes(answer: Answer) -> list[tuple]:
    return [
        (one.ply, one.number, one.of, round(one.share, 6), one.begins_at, one.is_backwards)
        for one in braid_strips(answer.layout)
    ]


def test_a_fractal_splits_each_third_into_as_many_as_it_runs_through():
    found = shapes(answered({"name": "fractal", "divisions": [1, 2, 4]}))
    sizes = [(k, n, of, round(1 / 3 / of, 6), 1, False) for k, of in enumerate((1, 2, 4))
             for n in range(1, of + 1)]  # fmt: skip
    assert found == sizes


def test_repeats_of_unlike_size_are_strips_of_unlike_width():
    found = answered({"name": "fractal", "divisions": [1, [1, 3]]})
    assert [one.share for one in braid_strips(found.layout)] == pytest.approx([0.5, 0.125, 0.375])


def test_a_ply_in_reverse_begins_at_the_other_end():
    found = shapes(answered({"name": "matched", "plies": 2, "reversed_plies": [2]}))
    assert found == [(0, 1, 1, 0.5, 1, False), (1, 1, 1, 0.5, 3, True)]


def test_there_and_back_takes_a_strip_from_each_end():
    found = shapes(answered({"name": "mirrored", "plies": 1}))
    assert found == [(0, 1, 2, 0.5, 1, False), (0, 2, 2, 0.5, 3, True)]


def test_a_braid_of_two_colours_knows_its_ends():
    two = {"segments": SEGMENTS[:2]}
    found = shapes(answered({"name": "flipped", "plies": 2}, braid=two))
    assert [one[4:] for one in found] == [(1, False), (2, True)]


def test_a_staggered_ply_is_parted_where_it_begins():
    strips = braid_strips(answered({"name": "staggered", "plies": 3}).layout)
    assert [(one.begins_at, one.is_parted) for one in strips] == [(1, False), (2, True), (3, True)]


@pytest.mark.parametrize(
    "scheme",
    [
        {"name": "stepped"},
        {"name": "shuffled"},
        {"name": "staggered", "stagger_places": 0.5},
        {"name": "gradient", "blend_steps": 2},
        {"name": "mixed", "ply": [{"sequence": ["Ebb"]}, {"sequence": ["Sand", "Thrift"]}]},
    ],
)
def test_where_pieces_are_other_than_strips_each_is_divided_as_any_top(scheme):
    found = answered(scheme)
    assert braid_strips(found.layout) == ()
    assert not any(isinstance(one, OnStrip) for one in found.by_hand)
    assert list(strip_lines(found)) == []


def test_nothing_on_a_strip_goes_onto_the_scale():
    found = answered({"name": "fractal", "divisions": [1, 2, 64]}, scale={"step_g": 1.0})
    assert all(isinstance(one, OnStrip) for one in found.by_hand)
    assert len(found.heaps.ply) == 0
    assert (found.weigh_rest_g == 0).all()
    np.testing.assert_array_equal(found.layout.portions.weigh_g, found.layout.portions.mass_g)


def test_a_plain_lot_beside_it_is_weighed():
    gull = {"name": "Gull", "colour": "#eee", "mass_g": 90.0}
    scheme = {"name": "solid", "solid_lot": "Gull", "plies": 3}
    found = answered(scheme, lots=[gull], scale={"step_g": 1.0})
    strips = braid_strips(found.layout)
    assert [one.ply for one in strips] == [1, 2]
    assert found.layout.portions.weigh_g[0] == round(found.layout.portions.mass_g[0])
    assert "of the braid is not spun" not in " ".join(strip_lines(found))


def test_words_tell_the_number_the_size_and_the_end():
    lines = list(strip_lines(answered({"name": "fractal", "divisions": [1, 2]})))
    assert lines == [
        "The braid is split lengthwise into 3 strips; nothing of it is weighed colour by "
        "colour, and its grams are by length. Tie a thread round its Ebb end before you split it.",
        "Ply 1: 1 strip, ½ of the braid, 60.0 g, begun at its Ebb end.",
        "Ply 2: 2 strips, each ¼ of the braid, 30.0 g, each begun at its Ebb end.",
    ]


def test_words_of_both_ends_and_of_a_parted_strip():
    (_, there, *_) = strip_lines(answered({"name": "mirrored", "plies": 1}))
    assert there.endswith("the first begun at its Ebb end, the next begun at its Thrift end.")
    (*_, parted) = strip_lines(answered({"name": "staggered", "plies": 2}))
    assert parted == (
        "Ply 2: 1 strip, ½ of the braid, 60.0 g, parted before Sand: spun from there to its end, "
        "then what was before it."
    )


def test_what_is_left_of_the_braid_is_said():
    lines = list(strip_lines(answered({"name": "matched"}, target={"yarn_g": 60.0})))
    assert lines[1] == "50% of the braid is not spun."


def advised(answer: Answer, kind: str) -> list[str]:
    return [one.text for one in yc.advice_on(answer) if one.kind == kind]


def test_short_colours_and_thin_strips_are_told():
    """Two staples of 10 cm, and a gram to the metre: common practice, no source."""
    short = answered({"name": "matched"}, braid={"segments": [*SEGMENTS, {
        "name": "Gorse", "colour": "gold", "length_cm": 12.0}]})  # fmt: skip
    (told,) = advised(short, "short_colours")
    assert "Gorse, 12 cm" in told
    assert advised(answered({"name": "matched"}), "short_colours") == []
    (thin,) = advised(answered({"name": "fractal", "divisions": [1, 1, 64]}), "thin_strips")
    assert thin.startswith("Thin strips for ply 3: 0.62 g to the metre")
    assert advised(answered({"name": "fractal", "divisions": [1, 2, 4]}), "thin_strips") == []
