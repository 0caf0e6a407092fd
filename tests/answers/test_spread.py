"""How far lengths and shares may stray, against a second opinion: many yarns drawn at random.

Each portion's length is drawn by itself, normal, with CV² = variation² + (q / (√12 m))²; then the
yarns are plied, each as long as its shortest single. Nothing of `yarncolor.answers.spread` is used.
"""

from itertools import pairwise
from math import sqrt

import numpy as np
import pytest

import yarncolor as yc
from tests.helpers.strategies import advised, answered, by_hand
from yarncolor.answers.answer import Answer
from yarncolor.layout.stretches import WHOLE_PPB, sections
from yarncolor.layout.winding import Strands

YARNS = 40_000
SHORTEST_OF = {1: 0.0, 2: 0.5642, 3: 0.8463, 4: 1.0294, 5: 1.1630, 6: 1.2672}
FIVE_PERCENT = 1.6448536
LOTS = {"Kelp": 60.0, "Foam": 60.0, "Wrack": 60.0}


def plan_of(scheme: dict, variation: float = 0.05, masses: dict = LOTS, **tables: dict) -> dict:
    spinning = {"variation": variation} | tables.pop("spinning", {})
    scale = {"step_g": 0.001} | tables.pop("scale", {})
    return by_hand(masses, scheme=scheme, spinning=spinning, scale=scale, **tables)


def answer_to(data: dict) -> Answer:
    return yc.answer(yc.plan_from_data(data))


class Drawn:
    """Many yarns of one plan, their portions drawn at random."""

    def __init__(self, data: dict, seed: int = 4021) -> None:
        found = answered(data)
        rng = np.random.default_rng(seed)
        step_g = data["scale"]["step_g"]
        lengths, lots, starts = [], [], [0]
        for single in found["singles"]:
            rows = single["portions"]
            rows = rows if single["wound_off"] % 2 else rows[::-1]
            planned = np.array([row["end_m"] - row["start_m"] for row in rows])
            grams = np.array([row["mass_g"] for row in rows])
            cv = np.sqrt(data["spinning"]["variation"] ** 2 + step_g**2 / 12 / grams**2)
            lengths.append(planned * (1 + cv * rng.standard_normal((YARNS, len(rows)))))
            lots += [list(LOTS).index(row["lot"]) for row in rows]
            starts.append(len(lots))
        self.kept = 1 - found["yarn"]["contraction"]
        self.lengths, self.lot, self.starts = lengths, np.array(lots), np.array(starts)
        self.single_m = np.stack([of_ply.sum(axis=1) for of_ply in lengths])
        self.yarn_m = self.single_m.min(axis=0) * self.kept

    def matched(self) -> np.ndarray:
        """Return the matched share of each yarn."""
        together = np.concatenate(self.lengths, axis=1)
        ticks, lot = sections(Strands(self.starts, together, self.lot))
        alike = (lot == lot[..., :1]).all(axis=-1)
        return (np.diff(ticks, axis=1, prepend=0) * alike).sum(axis=1) / WHOLE_PPB

    def change_sd_m(self, ply: int) -> list[float]:
        """Return the SD of every place of the yarn where a ply changes, from where plying begins.

        Rows of one lot that follow on one another are one change.
        """
        own = self.lot[self.starts[ply] : self.starts[ply + 1]]
        ends = np.cumsum(self.lengths[ply], axis=1) * self.kept
        return ends.std(axis=0)[:-1][own[1:] != own[:-1]].tolist()


SCHEMES = {
    "matched": {"name": "matched", "plies": 3},
    "matched, two plies": {"name": "matched", "plies": 2},
    "fractal": {"name": "fractal", "divisions": [1, 2, 4]},
    "fractal, two plies": {"name": "fractal", "divisions": [1, 4]},
    "fractal, equal": {"name": "fractal", "divisions": [4, 4]},
    "flipped": {"name": "flipped", "plies": 3},
    "mirrored": {"name": "mirrored", "plies": 3},
    "stepped": {"name": "stepped", "plies": 3},
    "one ply": {"name": "matched", "plies": 1},
}
every_scheme = pytest.mark.parametrize("scheme", SCHEMES.values(), ids=SCHEMES)


# --- length ----------------------------------------------------------------------------------


def assert_lengths_agree(data: dict) -> None:
    yarn, drawn = answered(data)["yarn"], Drawn(data)
    low, high = np.quantile(drawn.yarn_m, (0.05, 0.95))
    near = 0.04 * drawn.yarn_m.std()
    assert yarn["length_expected_m"] == pytest.approx(drawn.yarn_m.mean(), abs=near)
    assert yarn["length_low_m"] == pytest.approx(low, abs=near)
    assert yarn["length_high_m"] == pytest.approx(high, abs=near)


@every_scheme
def test_nine_yarns_of_ten_are_as_long_as_is_said(scheme):
    assert_lengths_agree(plan_of(scheme, plying={"contraction": 0.04}))


@pytest.mark.parametrize("variation", [0.01, 0.15])
@pytest.mark.parametrize("step_g", [0.1, 5.0])
def test_the_scale_makes_lengths_stray_too(variation, step_g):
    """Portions of 20 g: at 5 g a CV of 7.2 %."""
    assert_lengths_agree(plan_of(SCHEMES["matched"], variation, scale={"step_g": step_g}))


UNEQUAL = {
    "name": "free",
    "portions": [
        {"ply": 1, "lot": "Kelp", "mass_g": 30.0},
        {"ply": 1, "lot": "Foam", "mass_g": 30.0},
        {"ply": 2, "lot": "Wrack", "mass_g": 58.0},
        {"ply": 3, "lot": "Foam", "mass_g": 27.0},
        {"ply": 3, "lot": "Kelp", "mass_g": 28.0},
    ],
}


@pytest.mark.parametrize("tex", [100.0, [100.0, 110.0, 95.0]])
def test_of_singles_that_differ_the_shortest_counts(tex):
    assert_lengths_agree(plan_of(UNEQUAL, spinning={"single_tex": tex}))


@pytest.mark.parametrize("plies", SHORTEST_OF)
def test_the_shortest_of_equal_plies_is_so_many_sd_short(plies):
    """60 g of one lot: a CV of 5 % on each of so many singles."""
    scheme = {"name": "matched", "plies": plies}
    yarn = answered(plan_of(scheme, masses={"Kelp": 60.0}))["yarn"]
    short = 1 - yarn["length_expected_m"] / yarn["length_m"]
    assert short == pytest.approx(0.05 * SHORTEST_OF[plies], abs=2e-5)


def test_three_plies_of_5_percent_leave_4_23_of_each():
    """3 / (2 √π) = 0.8463 of the spread, as the shortest of three normal lengths lies."""
    scheme = {"name": "matched", "plies": 3}
    yarn = answered(plan_of(scheme, masses={"Kelp": 60.0}))["yarn"]
    assert 1 - yarn["length_expected_m"] / yarn["length_m"] == pytest.approx(0.0423, abs=5e-5)


@pytest.mark.parametrize("pieces", [1, 4, 9, 25, 64])
def test_so_many_equal_pieces_stray_less_by_their_root(pieces):
    """One ply of one lot in equal pieces: ± 1.645 · 8 % / √m."""
    scheme = {"name": "fractal", "divisions": [pieces]}
    yarn = answered(plan_of(scheme, 0.08, masses={"Kelp": 64.0}))["yarn"]
    band = FIVE_PERCENT * 0.08 / sqrt(pieces)
    length = yarn["length_m"]
    assert yarn["length_low_m"] / length == pytest.approx(1 - band, abs=1e-5)
    assert yarn["length_high_m"] / length == pytest.approx(1 + band, abs=1e-5)
    assert yarn["length_expected_m"] == pytest.approx(length, rel=1e-6)


def test_a_step_of_1_g_on_10_g_is_2_89_percent():
    """A step q is a spread of q / √12, by its even distribution; the spinner spins evenly."""
    scheme = {"name": "matched", "plies": 1}
    data = plan_of(scheme, 0.0, masses={"Kelp": 10.0}, scale={"step_g": 1.0})
    yarn = answered(data)["yarn"]
    assert 1 - yarn["length_low_m"] / yarn["length_m"] == pytest.approx(
        FIVE_PERCENT * 0.0289, abs=1e-4
    )


def test_pieces_of_a_heap_have_the_reading_of_the_whole_heap():
    """8 g in 8 pieces on a scale of 1 g: each ± 1 g / √12 / 8 g of itself, joined by √8."""
    scheme = {"name": "fractal", "divisions": [8]}
    data = plan_of(scheme, 0.0, masses={"Kelp": 8.0}, scale={"step_g": 1.0})
    found = answered(data)
    assert found["heaps"]
    low = 1 - found["yarn"]["length_low_m"] / found["yarn"]["length_m"]
    assert low == pytest.approx(FIVE_PERCENT / sqrt(12) / 8 / sqrt(8), abs=1e-5)


def test_even_spinning_on_a_fine_scale_leaves_no_band_to_speak_of():
    yarn = answered(plan_of(SCHEMES["matched"], 0.0))["yarn"]
    for key in ("length_low_m", "length_expected_m", "length_high_m"):
        assert yarn[key] == pytest.approx(yarn["length_m"], rel=1e-3)


@pytest.mark.parametrize("wound_off", [0, 1])
def test_a_chain_strays_as_its_one_single_does(wound_off):
    """Three lots of 60 g: the single of 1800 m ± 5 % / √3; a third of it is yarn."""
    data = plan_of({"name": "chain"}, plying={"wound_off": wound_off, "contraction": 0.1})
    found = answered(data)
    yarn, sd = found["yarn"], 0.05 / sqrt(3)
    assert yarn["length_m"] == pytest.approx(540)
    assert yarn["length_low_m"] == pytest.approx(540 * (1 - FIVE_PERCENT * sd), rel=1e-5)
    assert yarn["length_high_m"] == pytest.approx(540 * (1 + FIVE_PERCENT * sd), rel=1e-5)
    assert found["shares"]["matched_low"] is None
    assert found["shares"]["matched_high"] is None


# --- what is left on the bobbins -------------------------------------------------------------


@pytest.mark.parametrize(
    "scheme",
    [SCHEMES["matched"], SCHEMES["fractal"], SCHEMES["fractal, two plies"], UNEQUAL],
    ids=["matched", "fractal", "two plies", "unequal"],
)
def test_what_is_left_on_each_bobbin_is_what_the_shortest_leaves(scheme):
    data = plan_of(scheme)
    drawn = Drawn(data)
    left = (drawn.single_m - drawn.single_m.min(axis=0)).mean(axis=1)
    near = 0.04 * drawn.single_m.std(axis=1).max()
    assert answer_to(data).spread.left_m == pytest.approx(left, abs=near)


# --- where colours change --------------------------------------------------------------------


@pytest.mark.parametrize("wound_off", [0, 1])
@every_scheme
def test_each_change_strays_as_the_portions_before_it_do(scheme, wound_off):
    data = plan_of(scheme, plying={"wound_off": wound_off, "contraction": 0.04})
    drawn, points = Drawn(data), answered(data)["check_points"]
    for ply in range(len(drawn.starts) - 1):
        said = [point["spread_m"] for point in points if point["ply"] == ply + 1]
        assert said == pytest.approx(drawn.change_sd_m(ply), rel=0.025)


@pytest.mark.parametrize("wound_off", [0, 1])
@pytest.mark.parametrize("scheme", [*SCHEMES.values(), {"name": "chain"}])
def test_what_is_plied_first_has_strayed_least(scheme, wound_off):
    found = answered(plan_of(scheme, plying={"wound_off": wound_off}))
    points = found["check_points"]
    for ply in range(1, found["plies"] + 1):
        own = [point["spread_m"] for point in points if point["ply"] == ply]
        assert all(before <= after for before, after in pairwise(own))
        assert min(own, default=1) > 0


def test_the_first_change_strays_by_one_portion():
    """20 g of 100 tex are 200 m ± 5 %, of which 4 % are lost in plying."""
    found = answered(plan_of(SCHEMES["matched"], plying={"contraction": 0.04}))["check_points"]
    assert [point["spread_m"] for point in found[:3]] == pytest.approx([9.6] * 3, rel=1e-4)
    assert [point["spread_m"] for point in found[3:]] == pytest.approx(
        [9.6 * sqrt(2)] * 3, rel=1e-4
    )


# --- how much is matched ---------------------------------------------------------------------

BAND_NEAR = 0.03
"""Of the yarn: the program lays out some hundred yarns, these tests some ten thousand."""


@every_scheme
@pytest.mark.parametrize("variation", [0.02, 0.05, 0.08])
def test_the_band_of_the_matched_share_holds_nine_yarns_of_ten(scheme, variation):
    data = plan_of(scheme, variation)
    many, shares = Drawn(data).matched(), answered(data)["shares"]
    low, high = np.quantile(many, (0.05, 0.95))
    assert shares["matched_low"] == pytest.approx(low, abs=BAND_NEAR)
    assert shares["matched_high"] == pytest.approx(high, abs=BAND_NEAR)
    assert 0 <= shares["matched_low"] <= shares["matched_high"] <= 1


def test_nothing_matched_stays_so():
    shares = answered(plan_of({"name": "staggered", "plies": 3}))["shares"]
    assert shares["matched"] == 0
    assert shares["matched_low"] == 0
    assert shares["matched_high"] == pytest.approx(0, abs=0.02)


def test_one_lot_is_matched_however_it_is_spun():
    shares = answered(plan_of(SCHEMES["matched"], 0.2, masses={"Kelp": 60.0}))["shares"]
    assert (shares["matched_low"], shares["matched_high"]) == (1, 1)


def test_a_chain_whose_grist_drifts_strays_by_all_that_its_one_single_was_spun_before():
    """Portions of 600 m ± 30 m, neighbours alike by 0.8: 30 m, then 30 √(2 + 1.6), three-fold."""
    data = plan_of({"name": "chain"}, spinning={"variation_drift": 0.8})
    points = answered(data)["check_points"]
    expected = {"Wrack": 10.0, "Foam": 10.0 * sqrt(3.6)}
    assert len(points) == 3 * len(expected)
    for point in points:
        assert point["spread_m"] == pytest.approx(expected[point["from"]], rel=0.04)


# --- where the spinner does not say ----------------------------------------------------------


@pytest.mark.parametrize("scheme", [{"name": "chain"}, *SCHEMES.values()])
def test_without_a_spread_of_the_spinner_there_are_no_bands(scheme):
    data = by_hand(LOTS, scheme=scheme)
    found = answered(data)
    keys = ("length_low_m", "length_high_m", "length_expected_m")
    assert [found["yarn"][key] for key in keys] == [None] * 3
    assert [found["yarn"]["source"][key] for key in keys] == [None] * 3
    assert found["shares"]["matched_low"] is found["shares"]["matched_high"] is None
    assert {point["spread_m"] for point in found["check_points"]} <= {None}
    assert answer_to(data).spread is None
    assert "uneven" not in dict(advised(data))
