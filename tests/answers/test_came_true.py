"""Whether advice came true, reckoned by hand: what was said, what was found, and how near is near.

Two plies of 100 g at 100 tex are 1,000 m of single each and 900 m of yarn, 855 m washed.
"""

from copy import deepcopy

import pytest

import yarncolor as yc
from tests.helpers.strategies import by_hand
from yarncolor.answers.came_true import By, came_true
from yarncolor.answers.measured_yarn import measure

LOTS = {"Kelp": 100.0, "Foam": 100.0}
TABLES = {
    "scheme": {"plies": 2, "sequence": ["Kelp", "Foam"]},
    "spinning": {"single_tex": 100.0, "minutes_per_g": 3.0},
    "plying": {"contraction": 0.1},
    "fabric": {"stitches": 30, "finishing_shrinkage": 0.05},
}
DONE = [{"ply": 1, "through": 2}, {"ply": 2, "through": 2}]


def answer_to(lots: dict = LOTS, **tables: object):
    merged = deepcopy(TABLES)
    for name, table in tables.items():
        merged[name] = merged.get(name, {}) | table if isinstance(table, dict) else table
    return yc.answer(yc.plan_from_data(by_hand(lots, **merged)))


def told(kind: str, lots: dict = LOTS, **tables: object) -> tuple | None:
    found = came_true(kind, answer_to(lots, **tables))
    return found and (found.came_true, found.by, found.told, found.found)


def says(is_so: bool, by: By, told: float, found: float) -> tuple:
    return is_so, by, pytest.approx(told), pytest.approx(found)


@pytest.mark.parametrize(
    ("length_m", "left_m", "is_so"), [(900, 300, True), (1170, 30, True), (1195, 5, False)]
)
def test_a_single_that_is_left_over_by_less_than_a_hundredth_of_the_yarn_is_not(
    length_m, left_m, is_so
):
    """80 g on one ply, 120 g on the other: 400 m were to be left of the second."""
    portions = [
        {"ply": 1, "lot": "Kelp", "mass_g": 80.0},
        {"ply": 2, "lot": "Foam", "mass_g": 100.0},
        {"ply": 2, "lot": "Kelp", "mass_g": 20.0},
    ]
    scheme = {"name": "free", "plies": 2, "portions": portions}
    spun = [{"ply": 1, "row": 1, "length_m": float(length_m)}, {"ply": 2, "through": 2}]
    plan = by_hand(LOTS, **(TABLES | {"scheme": scheme, "spun": spun}))
    found = came_true("runs_out", yc.answer(yc.plan_from_data(plan)))
    expected = says(is_so, By.LEFT_ON_BOBBIN, 400, left_m)
    assert (found.came_true, found.by, found.told, found.found) == expected


def test_a_single_that_was_not_to_be_left_over_did_not_come_true():
    """Planned alike: ply 2 came out 100 m too short, of which nobody was warned."""
    spun = [DONE[0], {"ply": 2, "row": 1, "length_m": 400.0}, {"ply": 2, "row": 2}]
    assert told("runs_out", spun=spun) == says(False, By.LEFT_ON_BOBBIN, 0, 100)


def test_less_than_a_metre_left_of_a_short_yarn_is_left_over():
    """A gram to a metre: of 0.8 g and 1.2 g 0.4 m were to be left, and 0.3 m are."""
    portions = [
        {"ply": 1, "lot": "Kelp", "mass_g": 0.8},
        {"ply": 2, "lot": "Foam", "mass_g": 1.0},
        {"ply": 2, "lot": "Kelp", "mass_g": 0.2},
    ]
    plan = TABLES | {"scheme": {"name": "free", "plies": 2, "portions": portions}}
    plan |= {"spinning": {"single_tex": 1000.0}, "scale": {"step_g": 0.01}}
    plan["spun"] = [{"ply": 1, "row": 1, "length_m": 0.9}, {"ply": 2, "through": 2}]
    found = came_true("runs_out", yc.answer(yc.plan_from_data(by_hand(LOTS, **plan))))
    expected = says(True, By.LEFT_ON_BOBBIN, 0.4, 0.3)
    assert (found.came_true, found.by, found.told, found.found) == expected


def test_a_short_run_that_was_spun_double_is_one():
    """A gram to a metre: of 1 g of Kelp a ply a quarter each time, twice 0.25 m."""
    scheme = {"name": "fractal", "divisions": [1, 2], "sequence": ["Kelp", "Foam", "Kelp"]}
    spun = [{"ply": 1, "through": 3}, {"ply": 2, "through": 6}]
    lots = {"Kelp": 2.0, "Foam": 1.0}
    thick = {"single_tex": 1000.0}
    found = told("doubled_run", lots, scheme=scheme, spun=spun, spinning=thick)
    assert found == says(True, By.RUN_DOUBLE, 0.5, 0.5)


@pytest.mark.parametrize(("row_3", "found_m"), [(250.0, 500), (300.0, 550)])
def test_a_run_that_was_spun_double_is_as_long_as_its_two_pieces(row_3, found_m):
    """Of 100 g of Kelp a ply a quarter each time, 250 m: its end and its beginning are 500 m."""
    scheme = {"name": "fractal", "divisions": [1, 2], "sequence": ["Kelp", "Foam", "Kelp"]}
    spun = [
        {"ply": 1, "through": 3},
        {"ply": 2, "through": 2},
        {"ply": 2, "row": 3, "length_m": row_3},
        {"ply": 2, "through": 6},
    ]
    lots = LOTS | {"Kelp": 200.0}
    found = told("doubled_run", lots, scheme=scheme, spun=spun)
    assert found == says(True, By.RUN_DOUBLE, 500, found_m)
    assert told("doubled_run", lots, scheme=scheme, spun=spun[:3]) is None


@pytest.mark.parametrize(("length_m", "left_g", "is_so"), [(480, 2.0, True), (499.5, 0.05, False)])
def test_what_is_never_spun_is_left_over_where_the_scale_shows_it(length_m, left_g, is_so):
    """50 g of Foam, a tenth of a gram a metre; what is on a bobbin does not count."""
    spun = [
        {"ply": 1, "row": 1, "length_m": 500.0},
        {"ply": 1, "row": 2, "length_m": float(length_m)},
        {"ply": 2, "through": 2},
    ]
    assert told("left_over", spun=spun) == says(is_so, By.IN_DRAWER, 0, left_g)
    assert told("left_over", spun=spun[:2]) is None


def test_one_step_of_the_scale_is_left_over():
    """2 g, on a scale of 2 g."""
    spun = [{"ply": 1, "row": 1}, {"ply": 1, "row": 2, "length_m": 480.0}, DONE[1]]
    found = told("left_over", spun=spun, scale={"step_g": 2.0})
    assert found == says(True, By.IN_DRAWER, 0, 2)


@pytest.mark.parametrize(
    ("target", "made", "by", "values"),
    [
        ({"yarn_m": 1000.0}, {"length_m": 989.0}, By.LENGTH, (True, 1000, 989)),
        ({"yarn_m": 1000.0}, {"length_m": 990.0}, By.LENGTH, (False, 1000, 990)),
        ({"yarn_m": 1000.0}, {"length_m": 991.0}, By.LENGTH, (False, 1000, 991)),
        ({"yarn_g": 195.0}, {"mass_g": 193.0}, By.MASS, (True, 195, 193)),
        ({"yarn_g": 195.0}, {"mass_g": 193.1}, By.MASS, (False, 195, 193.1)),
    ],
)
def test_a_target_is_missed_by_more_than_a_hundredth_of_it(target, made, by, values):
    is_so, wanted, found = values
    assert told("short_of_target", target=target, made=made) == says(is_so, by, wanted, found)


def test_a_target_that_was_not_measured_or_not_set_tells_nothing():
    assert told("short_of_target", target={"yarn_m": 1000.0}, made={"mass_g": 190.0}) is None
    assert told("short_of_target", target={"yarn_g": 100.0}, made={"length_m": 800.0}) is None
    assert told("short_of_target", made={"length_m": 800.0}) is None


@pytest.mark.parametrize(
    ("took_h", "is_so"),
    [(12.4, False), (12.5, False), (12.6, True), (8.1, False), (8.0, False), (7.9, True)],
)
def test_hours_are_off_where_they_are_a_quarter_more_or_as_much_less(took_h, is_so):
    """200 g at 3 minutes are 10 hours."""
    found = told("hours", made={"hours_spinning": took_h})
    assert found == says(is_so, By.HOURS, 10, took_h)
    assert told("hours", made={"skeins": 2}) is None


def test_hours_of_which_the_plan_knows_nothing_are_not_off():
    spinning = {"single_tex": 100.0}
    plan = by_hand(LOTS, **(TABLES | {"spinning": spinning, "made": {"hours_spinning": 3.0}}))
    assert came_true("hours", yc.answer(yc.plan_from_data(plan))) is None


@pytest.mark.parametrize(("skeins", "is_so"), [(1, False), (2, True)])
def test_more_than_one_skein_is_several(skeins, is_so):
    assert told("skeins", made={"skeins": skeins}) == says(is_so, By.SKEINS, 1, skeins)
    assert told("skeins", made={"mass_g": 190.0}) is None


THICK = [
    *({"ply": 1, "row": row, "length_m": 400.0, "mass_g": 50.0} for row in (1, 2)),
    {"ply": 2, "through": 2},
]
"""Ply 1 came to 800 m of 100 g: 720 m of yarn of 180 g, 400 m in 100 g in place of 450 m."""


@pytest.mark.parametrize(
    ("m_per_100g", "is_so"), [(389.0, True), (444.0, True), (447.0, False), (460.0, False)]
)
def test_a_grist_drifted_where_the_yarn_is_off_to_the_same_side(m_per_100g, is_so):
    made = {"length_m": 2 * m_per_100g, "mass_g": 200.0}
    found = told("grist_drifts", spun=THICK, made=made)
    assert found == says(is_so, By.GRIST, 400, m_per_100g)


@pytest.mark.parametrize(("m_per_100g", "is_so"), [(500.0, True), (450.0, False), (440.0, False)])
def test_a_grist_that_was_spun_finer_drifted_where_the_yarn_is_finer(m_per_100g, is_so):
    """Both plies came to 1,200 m of 100 g: 540 m in 100 g in place of 450 m."""
    fine = [{"ply": k, "row": row, "length_m": 600.0, "mass_g": 50.0} for k in (1, 2)
            for row in (1, 2)]  # fmt: skip
    made = {"length_m": 2 * m_per_100g, "mass_g": 200.0}
    found = told("grist_drifts", spun=fine, made=made)
    assert found == says(is_so, By.GRIST, 540, m_per_100g)


def test_of_a_grist_of_which_nothing_was_spun_nothing_else_can_be_said():
    made = {"length_m": 900.0, "mass_g": 200.0}
    assert told("grist_drifts", made=made) == (True, By.AS_SPUN, None, None)


@pytest.mark.parametrize("made", [None, {"length_m": 700.0}])
def test_a_grist_that_nobody_measured_in_the_yarn_is_as_it_was_spun(made):
    more = {} if made is None else {"made": made}
    assert told("grist_drifts", spun=THICK, **more) == (True, By.AS_SPUN, None, None)


@pytest.mark.parametrize(("share", "is_so"), [(0.985, True), (0.995, False)])
def test_a_yarn_is_short_of_its_piece_by_more_than_a_hundredth(share, is_so):
    rows = {"rows": 300}
    needs_m = answer_to(fabric=rows).piece.needs_m
    made = {"length_m": 130.0, "washed_m": round(share * needs_m, 3)}
    found = told("short_of_piece", fabric=rows, made=made)
    assert found == says(is_so, By.LENGTH, needs_m, made["washed_m"])
    assert told("short_of_piece", fabric=rows, made={"length_m": 800.0}) is None
    assert told("short_of_piece", made=made) is None


def test_a_lot_that_was_spun_after_all_was_not_left_unused():
    """9 g of Dune in no order: they lie there, or 5 g of them, or none."""
    lots = LOTS | {"Dune": 9.0}
    assert told("unused_lot", lots) is None
    assert told("unused_lot", lots, spun=DONE) == says(True, By.IN_DRAWER, 9, 9)
    some = [*DONE, {"ply": 1, "lot": "Dune", "mass_g": 5.0}]
    assert told("unused_lot", lots, spun=some) == says(False, By.IN_DRAWER, 9, 4)
    few = [*DONE, {"ply": 1, "lot": "Dune", "mass_g": 0.5}]
    assert told("unused_lot", lots, spun=few) == says(False, By.IN_DRAWER, 9, 8.5)


def test_what_else_is_left_in_the_drawer_is_no_unused_lot():
    """5 g of Kelp were not spun; Dune was not to be, and was not."""
    spun = [{"ply": 1, "row": 1, "mass_g": 45.0}, {"ply": 1, "row": 2}, DONE[1]]
    found = told("unused_lot", LOTS | {"Dune": 9.0}, spun=spun)
    assert found == says(True, By.IN_DRAWER, 9, 9)


@pytest.mark.parametrize(("made_m", "is_so"), [(890.0, True), (891.0, False), (892.0, False)])
def test_an_uneven_hand_shows_in_a_yarn_a_hundredth_shorter_than_planned(made_m, is_so):
    """Two portions of 500 m that stray by 8 %, twice: the shortest of two lacks 0.5642 of an SD."""
    found = told("uneven", spinning={"variation": 0.08}, made={"length_m": made_m})
    expected_m = 900 - 0.5641896 * 0.08 * 450 * 2**0.5
    is_told, by, said_m, found_m = found
    assert (is_told, by, found_m) == (is_so, By.EXPECTED, made_m)
    assert said_m == pytest.approx(expected_m, rel=1e-3)
    assert told("uneven", made={"length_m": made_m}) is None
    assert told("uneven", spinning={"variation": 0.08}, made={"mass_g": 190.0}) is None


def test_a_lot_was_too_short_once_all_is_spun_or_the_yarn_is_made():
    as_spun = (True, By.AS_SPUN, None, None)
    assert told("short_lot", spun=DONE[:1]) is None
    assert told("short_lot", spun=DONE) == as_spun
    assert told("short_lot", spun=DONE[:1], made={"mass_g": 190.0}) == as_spun


def test_of_what_was_spun_nothing_else_can_be_said():
    for kind in ("other_order", "left_out_row", "extra_piece", "other_lot"):
        assert told(kind, spun=DONE) == (True, By.AS_SPUN, None, None)
    assert told("more_than_said", spun=DONE) == (True, By.SCALE, None, None)
    assert told("near_twins", spun=DONE) is None


# --- measures of a yarn --------------------------------------------------------------------------


def test_every_measure_of_a_yarn_that_came_out():
    """880 m of 190 g, 800 m washed, from 1,000 m of single."""
    made = {"length_m": 880.0, "mass_g": 190.0, "washed_m": 800.0, "wpi": 14.0}
    made |= {"skeins": 3, "hours_spinning": 11.0, "hours_plying": 4.5}
    found = answer_to(made=made)
    expected = {
        "length_m": 880,
        "finished_length_m": 800,
        "mass_g": 190,
        "m_per_100g": 880 / 1.9,
        "wpi": 14,
        "skeins": 3,
        "hours_spinning": 11,
        "hours_plying": 4.5,
        "lost_in_plying": 0.12,
        "lost_in_wash": 1 - 800 / 880,
    }
    for name, value in expected.items():
        assert measure(name, found).made == pytest.approx(value), name
    assert measure("matched", found).made is None


def test_every_measure_of_a_yarn_as_planned():
    """A wash that takes a twentieth leaves 855 m, and 20/19 of the grams to a metre."""
    found = answer_to()
    expected = {
        "length_m": 900,
        "finished_length_m": 855,
        "mass_g": 200,
        "m_per_100g": 450,
        "skeins": 1,
        "hours_spinning": 10,
        "lost_in_plying": 0.1,
        "lost_in_wash": 0.05,
        "matched": 1,
    }
    for name, value in expected.items():
        assert measure(name, found).planned == pytest.approx(value), name
        assert measure(name, found).spun is None
    assert measure("hours_plying", found).planned is None
    wraps = found.resolved.yarn.wpi(1000 * 200 / 855)
    assert measure("wpi", found).planned == pytest.approx(float(wraps))
    plain = by_hand(LOTS, scheme=TABLES["scheme"])
    assert measure("lost_in_wash", yc.answer(yc.plan_from_data(plain))).planned is None
