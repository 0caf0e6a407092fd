"""The card's skeins: their tags, their weights, what is planned after rest and wash."""

import pytest

import yarncolor as yc
from tests.helpers.card_reader import THREE, Node, answered, card, every_scheme, tag, words
from tests.helpers.strategies import by_hand


def skeins_on(page: Node) -> list[list[str]]:
    """Return number, metre, weight and both tags of every skein."""
    return [row.cells()[1:] for table in page.all("table", "skeins") for row in table.all("tr")[1:]]


def test_skeins_have_their_metre_weight_and_tags():
    """Straight from the bobbins: 80 m each of Wrack, Foam, Kelp."""
    page = card(by_hand(THREE, bobbins={"plying_capacity_g": 30.0}))
    assert skeins_on(page) == [
        ["1 of 3", "80.0 m", "24.0 g", *(f"1, {end}: Wrack" for end in ENDS)],
        ["2 of 3", "160.0 m", "24.0 g", *(f"2, {end}: Foam" for end in ENDS)],
        ["3 of 3", "240.0 m", "24.0 g", *(f"3, {end}: Kelp" for end in ENDS)],
    ]
    assert "knit on from the far end of one skein into the near end of the next" in words(page)


ENDS = ("near", "far")


def test_a_skein_weighs_more_on_its_bobbin():
    bobbins = {"plying_capacity_g": 30.0, "plying_tare_g": 85.5}
    page = card(by_hand(THREE, bobbins=bobbins))
    assert [row[2] for row in skeins_on(page)] == ["24.0 g on it 109.5 g"] * 3


def test_check_points_begin_anew_with_each_skein():
    """240 m in skeins of 120 m, 36 g: changes at 80 m, and at 40 m of the second."""
    data = by_hand(
        THREE,
        scheme={"name": "free", "portions": APART},
        bobbins={"plying_capacity_g": 36.0, "plying_tare_g": 85.5},
    )
    (points,) = card(data).all("table", "points")
    rows = [row.cells()[1:] for row in points.all("tr")[2:]]
    assert rows == [
        ["80.0 m", "24.0 g on it 109.5 g", "all", "Wrack", "Foam"],
        [
            *("120.0 m", "36.0 g on it 121.5 g"),
            "Skein 1 ends: break, tag both ends, wind it off, go on from 0 g",
        ],
        ["160.0 m", "12.0 g on it 97.5 g", "all", "Foam", "Kelp"],
    ]


APART = [
    {"ply": ply, "lot": lot, "mass_g": 8.0}
    for ply in (1, 2, 3)
    for lot in ("Kelp", "Foam", "Wrack")
]


def test_each_skein_is_measured_when_it_is_finished():
    page = card(by_hand(THREE, bobbins={"plying_capacity_g": 30.0}))
    (finishing,) = page.all("section", "finishing")
    for number in (1, 2, 3):
        assert f"Skein {number}: planned 80 m, 24.0 g; found" in finishing.text


@pytest.mark.parametrize("bobbins", [{}, {"plying_capacity_g": 72.0}])
def test_a_yarn_in_one_skein_has_no_table_of_them(bobbins):
    assert skeins_on(card(by_hand(THREE, bobbins=bobbins))) == []


@every_scheme
def test_skeins_on_the_card_are_those_of_the_plan(tables):
    data = by_hand(THREE, **tables) | {"bobbins": {"plying_capacity_g": 7.0}}
    found = yc.to_dict(answered(data))["yarn"]["skeins"]
    assert skeins_on(card(data)) == [
        [
            f"{one['skein']} of {len(found)}",
            f"{one['end_m']:.1f} m",
            f"{one['mass_g']:.1f} g",
            f"{one['skein']}, near: {tag(one['near_end'])}",
            f"{one['skein']}, far: {tag(one['far_end'])}",
        ]
        for one in found
    ]


def test_what_is_left_after_rest_and_wash_is_planned():
    shrinks = {"plying": {"resting_shrinkage": 0.05}, "fabric": {"finishing_shrinkage": 0.1}}
    data = by_hand(THREE, spinning={"single_tex": 100.0}, **shrinks)
    (finishing,) = card(data).all("section", "finishing")
    rows = {row.cells()[0]: row.cells() for row in finishing.all("tr")[1:]}
    assert rows["metres"][1] == "240 m rested 228 m, washed 205 m"
