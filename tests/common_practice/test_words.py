"""What hands divide without a scale: common practice, no source."""

import pytest

from tests.helpers.strategies import laid


@pytest.mark.parametrize(
    ("how", "words"),
    [
        ({"mass_g": 24.0}, ["⅓ of the lot", "½ of ⅓ of the lot", "¼ of ⅓ of the lot"]),
        (
            {"mass_g": 24.0, "preparation": "batt"},
            ["1 of 3 strips", "1 of 6 strips", "1 of 12 strips"],
        ),
        (
            {"mass_g": 24.0, "preparation": "top"},
            ["1 of 3 lengths", "1 of 6 lengths", "1 of 12 lengths"],
        ),
        ({"rolags": 9, "rolag_g": 4.0}, ["3 rolags", "1½ rolags", "¾ of a rolag"]),
        ({"rolags": 12, "rolag_g": 3.0}, ["4 rolags", "2 rolags", "1 rolag"]),
        ({"rolags": 10, "rolag_g": 3.0}, ["3⅓ rolags", "1⅔ rolags", "needs a scale"]),
    ],
)
def test_words_say_what_hands_can_divide(how, words):
    """A third of the lot on each of three plies, whole, in two and in four."""
    # common practice, no source
    lot = {"name": "Kelp", "colour": "#56612d", **how}
    data = {"lots": [lot], "scheme": {"name": "fractal", "divisions": [1, 2, 4]}}
    assert [ply[0][0] for ply in laid(data, "words")] == words


@pytest.mark.parametrize(
    ("how", "said"),
    [
        ({"mass_g": 46.0}, "about ½ of ⅓ of the lot"),
        ({"mass_g": 46.0, "preparation": "batt"}, "about 1 of 6 strips"),
    ],
)
def test_a_part_is_about_so_much_where_the_scale_shows_its_like_another_weight(how, said):
    """46 g on whole grams: thirds of 15 and 16 g, one in 7 and 8 g, the larger in four of 4 g."""
    lot = {"name": "Kelp", "colour": "#56612d", **how}
    scheme = {"name": "fractal", "divisions": [1, 2, 4]}
    data = {"lots": [lot], "scheme": scheme, "scale": {"step_g": 1.0}}
    ((third, words),), halves, quarters = laid(data, "weigh_g", "words")
    assert third == 15
    assert words.startswith("about ")
    assert sorted(weigh_g for weigh_g, _ in halves) == [7, 8]
    assert {words for _, words in halves} == {said}
    assert {weigh_g for weigh_g, _ in quarters} == {4}
    assert not any("about" in words for _, words in quarters)


def test_a_rolag_that_the_scale_cannot_halve_alike_is_about_half():
    lot = {"name": "Kelp", "colour": "#56612d", "rolags": 3, "rolag_g": 5.0}
    data = {"lots": [lot], "scheme": {"plies": 2}, "scale": {"step_g": 1.0}}
    assert {words for ply in laid(data, "words") for (words,) in ply} == {"about 1½ rolags"}


def test_thirds_are_a_step_apart_at_most_and_about_so_much_where_their_pieces_are_unlike():
    """Two lots on whole grams, once, twice and four times through."""
    lots = [
        {"name": "Kelp", "colour": "#56612d", "mass_g": 46.0},
        {"name": "Foam", "colour": "#dcdad0", "mass_g": 31.0},
    ]
    data = {"lots": lots, "scheme": {"name": "fractal", "divisions": [1, 2, 4]}}
    plies = laid(data | {"scale": {"step_g": 1.0}}, "lot", "weigh_g", "words")
    for name in ("Kelp", "Foam"):
        own = [[row[1:] for row in ply if row[0] == name] for ply in plies]
        thirds = [sum(weigh_g for weigh_g, _ in ply) for ply in own]
        assert max(thirds) - min(thirds) == 1
        for ply in own[1:]:
            unlike = len({weigh_g for weigh_g, _ in ply}) > 1
            assert {words.startswith("about ") for _, words in ply} == {unlike}
