"""Fractal spinning as it is taught: common practice, no source."""

import pytest

from tests.helpers.strategies import NAMES, answered, by_hand

LOTS = [3, 4, 5, 8]


def equal_lots(count: int, **scheme) -> dict:
    """Return lots of 12 g, in a three-ply fractal of one, two and four equal repeats."""
    masses = dict.fromkeys(NAMES[:count], 12.0)
    return by_hand(masses, scheme={"name": "fractal", "plies": 3, "divisions": [1, 2, 4]} | scheme)


@pytest.mark.parametrize("count", LOTS)
@pytest.mark.parametrize("wound_off", [0, 1])
def test_three_colours_first_meet_at_half_of_a_whole_portion_of_the_first_ply(count, wound_off):
    # common practice, no source
    found = answered(equal_lots(count) | {"plying": {"wound_off": wound_off}})
    whole = found["singles"][0]["portions"][0]
    half_m = (whole["end_m"] - whole["start_m"]) / 2
    three = next(row for row in found["stretches"] if len(set(row["lots"])) == 3)
    assert three["start_m"] == pytest.approx(half_m)
    assert found["first_all_different_m"] == pytest.approx(half_m)


@pytest.mark.parametrize("others", [2, 3, 5])
def test_a_closing_colour_of_two_lots_mass_runs_as_long_as_a_whole_portion(others):
    # common practice, no source
    masses = {NAMES[0]: 24.0} | dict.fromkeys(NAMES[1 : others + 1], 12.0)
    scheme = {"name": "fractal", "divisions": [1, 2, 4], "sequence": [*masses, NAMES[0]]}
    found = answered(by_hand(masses, scheme=scheme))
    whole = found["singles"][0]["portions"][0]
    (run,) = [run for run in found["doubled_runs"] if run["ply"] == 2]
    assert run["lot"] == whole["lot"] == NAMES[0]
    assert run["end_m"] - run["start_m"] == pytest.approx(whole["end_m"] - whole["start_m"])
