"""What hands divide without a scale: common practice, no source."""

import pytest

from tests.helpers.strategies import laid


@pytest.mark.parametrize(
    ("how", "words"),
    [
        ({"mass_g": 27.0}, ["⅓ of the lot", "½ of ⅓ of the lot", "¼ of ⅓ of the lot"]),
        (
            {"mass_g": 27.0, "preparation": "batt"},
            ["1 of 3 strips", "1 of 6 strips", "1 of 12 strips"],
        ),
        (
            {"mass_g": 27.0, "preparation": "top"},
            ["1 of 3 lengths", "1 of 6 lengths", "1 of 12 lengths"],
        ),
        ({"rolags": 9, "rolag_g": 3.0}, ["3 rolags", "1½ rolags", "¾ of a rolag"]),
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
