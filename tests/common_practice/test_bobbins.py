"""What is left on a bobbin, as every spinner has seen it: common practice, no source."""

import pytest

from tests.helpers.strategies import answered, by_hand


@pytest.mark.parametrize(("more_g", "left"), [(0.5, ["Kelp"]), (4.0, ["Kelp", "Foam"])])
def test_straight_from_the_bobbins_the_remainder_is_the_colour_spun_first(more_g, left):
    # common practice, no source
    portions = [("Kelp", 1, 3.0), ("Foam", 1, 6.0), ("Kelp", 2, 3.0), ("Foam", 2, 6.0 + more_g)]
    scheme = {
        "name": "free",
        "portions": [{"lot": lot, "ply": ply, "mass_g": mass} for lot, ply, mass in portions],
    }
    found = answered(by_hand({"Kelp": 6.0, "Foam": 16.0}, scheme=scheme))
    on_bobbins = [row for row in found["leftovers"] if row["ply"] is not None]
    assert [row["lot"] for row in on_bobbins] == left
    assert {(row["ply"], row["end"]) for row in on_bobbins} == {(2, "first spun")}
    assert sum(row["mass_g"] for row in on_bobbins) == pytest.approx(more_g)
    assert on_bobbins[0]["start_m"] == 0


def test_the_yarn_begins_with_the_colour_spun_last():
    # common practice, no source
    found = answered(by_hand({"Kelp": 9.0, "Foam": 9.0, "Wrack": 9.0}))
    assert [row["lots"][0] for row in found["stretches"]] == ["Wrack", "Foam", "Kelp"]
