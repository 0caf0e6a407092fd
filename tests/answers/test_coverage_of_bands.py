"""Whether nine yarns of ten lie where that is said: spinners of several kinds, spun apart.

Each spins the plan some thousand times, by grist: a portion of so many grams is longer where it is
spun finer. Nothing of the program's own reckoning of spread is used.
"""

from itertools import pairwise

import numpy as np
import pytest

from tests.helpers.strategies import advised, answered, by_hand
from yarncolor import answer, plan_from_data
from yarncolor.report.yarn_lines import yarn_lines

YARNS = 20_000
LOTS = {"Kelp": 40.0, "Foam": 60.0, "Wrack": 50.0}
SCHEMES = [
    {"name": "matched", "plies": 3},
    {"name": "fractal", "divisions": [1, 4]},
    {"name": "fractal", "divisions": [2, 4, 8]},
]


def drifting(rng, planned_m: np.ndarray, cv: float, alike: float) -> np.ndarray:
    """Return grist over planned, a portion like the one before it by so much."""
    stray = np.empty((YARNS, len(planned_m)))
    stray[:, 0] = rng.standard_normal(YARNS)
    for at in range(1, len(planned_m)):
        new = rng.standard_normal(YARNS) * np.sqrt(1 - alike**2)
        stray[:, at] = alike * stray[:, at - 1] + new
    return 1 + cv * stray


def biased(rng, planned_m: np.ndarray, cv: float, of_bobbins: float) -> np.ndarray:
    """Return grist over planned of one who spins each bobbin finer or thicker as a whole."""
    bobbin = 1 + of_bobbins * rng.standard_normal((YARNS, 1))
    return bobbin * (1 + cv * rng.standard_normal((YARNS, len(planned_m))))


def uneven_along(rng, planned_m: np.ndarray, cv: float, reach_m: float) -> np.ndarray:
    """Return grist over planned where thick and thin follow on one another, ten in a reach."""
    means = []
    for metres in planned_m:
        steps = max(int(10 * metres / reach_m), 1)
        alike = np.exp(-metres / steps / reach_m)
        stray = rng.standard_normal(YARNS)
        total = np.zeros(YARNS)
        for _ in range(steps):
            total += stray
            stray = alike * stray + np.sqrt(1 - alike**2) * rng.standard_normal(YARNS)
        means.append(total / steps)
    return 1 + cv * np.stack(means, axis=1)


SPINNERS = {
    "each portion by itself": (drifting, (0.08, 0.0), {"variation": 0.08}),
    "drifting": (drifting, (0.08, 0.7), {"variation": 0.08, "variation_drift": 0.7}),
    "drifting far": (drifting, (0.06, 0.95), {"variation": 0.06, "variation_drift": 0.95}),
    "biased": (biased, (0.04, 0.06), {"variation": 0.04, "variation_bobbins": 0.06}),
    "biased alone": (biased, (0.0, 0.08), {"variation_bobbins": 0.08}),
    "along": (
        uneven_along,
        (0.2, 20.0),
        {"variation_within": 0.2, "variation_reach_m": 20.0},
    ),
}
every_spinner = pytest.mark.parametrize("spinner", SPINNERS.values(), ids=SPINNERS)


def plan_of(scheme: dict, said: dict) -> dict:
    tables = {"plying": {"wound_off": 1, "contraction": 0.04}, "scale": {"step_g": 0.001}}
    return by_hand(LOTS, scheme=scheme, spinning={"single_tex": 300.0} | said, **tables)


class Spun:
    """Many yarns of a plan as a spinner spins them, on the whole as thick as said: where each
    portion ends in the yarn, and how long the yarn is.
    """

    def __init__(self, found: dict, spinner, numbers) -> None:
        rng = np.random.default_rng(88)
        self.ends_m = []
        for single in found["singles"]:
            planned = np.array([row["end_m"] - row["start_m"] for row in single["portions"]])
            longer = 1 / np.maximum(spinner(rng, planned, *numbers), 0.2)
            self.ends_m.append(0.96 * np.cumsum(planned * longer / longer.mean(), axis=1))
        self.yarn_m = np.min([ends[:, -1] for ends in self.ends_m], axis=0)


def inside(found: dict, spun: Spun) -> float:
    yarn = found["yarn"]
    within = (yarn["length_low_m"] <= spun.yarn_m) & (spun.yarn_m <= yarn["length_high_m"])
    return float(within.mean())


@every_spinner
@pytest.mark.parametrize("scheme", SCHEMES, ids=["matched", "two plies", "many pieces"])
def test_at_least_88_yarns_of_100_are_as_long_as_is_said(scheme, spinner):
    """And not many more: a band that holds all says nothing."""
    spins, numbers, said = spinner
    found = answered(plan_of(scheme, said))
    assert 0.88 <= inside(found, Spun(found, spins, numbers)) <= 0.95


@every_spinner
def test_at_least_88_changes_of_100_are_where_is_said(spinner):
    """1.645 spreads to either side, at each place where a ply changes."""
    spins, numbers, said = spinner
    found = answered(plan_of(SCHEMES[0], said))
    spun = Spun(found, spins, numbers)
    points = found["check_points"]
    assert len(points) == 3 * (len(LOTS) - 1)
    for point in points:
        planned = [row["end_m"] for row in found["singles"][point["ply"] - 1]["portions"]]
        at = int(np.argmin(np.abs(0.96 * np.array(planned) - point["yarn_m"])))
        away = np.abs(spun.ends_m[point["ply"] - 1][:, at] - point["yarn_m"])
        assert (away <= 1.645 * point["spread_m"]).mean() >= 0.88


@pytest.mark.parametrize("alike", [0.7, 0.95])
def test_who_drifts_and_does_not_say_so_is_told_on_what_the_band_rests(alike):
    """Then fewer than nine of ten are inside, and the sentence has said that it may be so."""
    data = plan_of(SCHEMES[2], {"variation": 0.08})
    found = answered(data)
    assert inside(found, Spun(found, drifting, (0.08, alike))) < 0.8
    told = sentence(data)
    assert "if each portion strays by itself" in told
    assert "fewer are where grist drifts or bobbins differ, until you say so" in told


def test_what_the_band_rests_on_is_said_where_the_plan_says_it():
    said = {"variation": 0.08, "variation_drift": 0.7, "variation_within": 0.2}
    told = sentence(plan_of(SCHEMES[0], said | {"variation_bobbins": 0.05}))
    assert "8%, 20% along a portion and 5% from bobbin to bobbin" in told
    assert "where neighbouring portions are 70% alike in grist" in told
    assert "strays by itself" not in told


def sentence(data: dict) -> str:
    (told,) = [line for line in yarn_lines(answer(plan_from_data(data))) if "nine yarns" in line]
    return told


@every_spinner
def test_the_more_a_spinner_says_the_wider_the_band(spinner):
    said = spinner[2]
    widths = []
    for more in ({}, {"variation_bobbins": 0.1}, {"variation_bobbins": 0.1, "variation": 0.1}):
        yarn = answered(plan_of(SCHEMES[1], said | more))["yarn"]
        widths.append(yarn["length_high_m"] - yarn["length_low_m"])
    assert all(before <= after * (1 + 1e-9) for before, after in pairwise(widths))


@pytest.mark.parametrize(
    "nothing", [{"variation_drift": 0.0}, {"variation_within": 0.0}, {"variation_bobbins": 0.0},
                {"variation_reach_m": 2.0}],
)  # fmt: skip
def test_a_key_that_says_nothing_changes_nothing(nothing):
    plain, same = (answered(plan_of(SCHEMES[1], {"variation": 0.08} | more))
                   for more in ({}, nothing))  # fmt: skip
    assert plain == same


@pytest.mark.parametrize("said", [{"variation_drift": 0.5}, {"variation_reach_m": 3.0}, {}])
def test_without_an_unevenness_there_is_no_band(said):
    data = plan_of(SCHEMES[0], said)
    assert answered(data)["yarn"]["length_low_m"] is None
    assert "uneven" not in dict(advised(data))


def test_the_matched_share_strays_more_where_portions_drift():
    """Plies that drift fall farther apart than plies whose portions make up for one another."""
    low = [
        answered(plan_of(SCHEMES[2] | {"divisions": [4, 4, 4]}, {"variation": 0.08} | more))
        for more in ({}, {"variation_drift": 0.9})
    ]
    assert low[1]["shares"]["matched_low"] < low[0]["shares"]["matched_low"]
