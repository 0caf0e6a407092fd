"""Laws that hold for every scheme of the table, so that a new one is tested by being registered."""

from collections import Counter
from itertools import pairwise
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.helpers.strategies import DIVIDING, EVERY_SCHEME, answered, plan_data

UNEQUAL = ("free",)
EQUAL = [name for name in EVERY_SCHEME if name not in UNEQUAL]
every_scheme = pytest.mark.parametrize("scheme", EVERY_SCHEME)
every_equal_scheme = pytest.mark.parametrize("scheme", EQUAL)


def nearly(value, of):
    """Return an approximation within 1e-9 of a whole."""
    return pytest.approx(value, abs=1e-9 * of, rel=1e-9)


def grams_by_lot(rows: list[dict]) -> Counter:
    grams = Counter()
    for row in rows:
        grams[row["lot"]] += row["mass_g"]
    return grams


def portions_of(found: dict) -> list[dict]:
    return [portion for single in found["singles"] for portion in single["portions"]]


def table_of(found: dict) -> list[tuple[float, float, list[str]]]:
    """Return the stretches with their ends as shares of the yarn."""
    length = found["yarn"]["length_m"]
    return [
        (row["start_m"] / length, row["end_m"] / length, row["lots"]) for row in found["stretches"]
    ]


@every_scheme
@given(st.data())
def test_every_gram_of_a_lot_is_used_or_a_named_leftover(scheme, data):
    """What carded blends took of a lot is its mass less its reserve and what is left to card."""
    drawn = data.draw(plan_data(scheme))
    found = answered(drawn)
    kept = 1 - drawn["spinning"]["card_loss"]
    portions = grams_by_lot(portions_of(found))
    never_spun = grams_by_lot([row for row in found["leftovers"] if row["ply"] is None])
    for lot in found["lots"]:
        name, whole = lot["name"], lot["mass_g"] - lot["reserve_g"]
        took = whole - lot["to_card_g"]
        assert portions[name] + never_spun[name] == nearly(lot["to_card_g"] * kept, whole)
        assert lot["used_g"] == nearly(portions[name] / kept + took, whole)
        assert took == nearly(0, whole) or drawn["scheme"].get("blend_steps")
    raw = sum(lot["mass_g"] - lot["reserve_g"] for lot in drawn["lots"])
    assert portions.total() + never_spun.total() == nearly(raw * kept, raw)


@every_scheme
@given(st.data())
def test_what_is_spun_lies_in_the_stretches_or_stays_on_a_bobbin(scheme, data):
    drawn = data.draw(plan_data(scheme))
    found = answered(drawn)
    spun = 1 - drawn["spinning"]["spin_loss"]
    tex = [single["linear_density_tex"] for single in found["singles"]]
    grams_per_m = [t / 1000 / (1 - drawn["plying"]["contraction"]) for t in tex]
    grams_per_m *= 3 if scheme == "chain" else 1
    in_yarn = Counter()
    for row in found["stretches"]:
        for lot, per_m in zip(row["lots"], grams_per_m, strict=True):
            in_yarn[lot] += (row["end_m"] - row["start_m"]) * per_m
    on_bobbins = grams_by_lot([row for row in found["leftovers"] if row["ply"] is not None])
    rounding = 1e-9 * len(found["stretches"]) * found["yarn"]["mass_g"]
    for lot, grams in grams_by_lot(portions_of(found)).items():
        expected = (grams - on_bobbins[lot]) * spun
        assert in_yarn[lot] == pytest.approx(expected, rel=1e-9, abs=rounding)
    assert found["yarn"]["mass_g"] == pytest.approx(in_yarn.total(), rel=1e-9)


@every_equal_scheme
@given(st.data())
def test_all_plies_are_equally_long_and_nothing_stays_on_a_bobbin(scheme, data):
    found = answered(data.draw(plan_data(scheme)))
    lengths = [single["length_m"] for single in found["singles"]]
    assert min(lengths) == pytest.approx(max(lengths), rel=1e-12)
    assert not [row for row in found["leftovers"] if row["ply"] is not None]


@every_scheme
@given(st.data())
def test_stretches_follow_on_one_another_and_neighbours_differ(scheme, data):
    found = answered(data.draw(plan_data(scheme)))
    rows = found["stretches"]
    assert rows[0]["start_m"] == 0
    assert all(row["start_m"] < row["end_m"] for row in rows)
    for row, after in pairwise(rows):
        assert row["end_m"] == after["start_m"]
        assert row["lots"] != after["lots"]


@every_scheme
@given(st.data())
def test_shares_sum_to_one_and_count_the_names_side_by_side(scheme, data):
    found = answered(data.draw(plan_data(scheme)))
    counted = {str(count): 0.0 for count in range(1, found["plies"] + 1)}
    for start, end, lots in table_of(found):
        counted[str(len(set(lots)))] += end - start
    shares = found["shares"]
    assert shares["by_colours"] == pytest.approx(counted, abs=1e-12)
    assert sum(shares["by_colours"].values()) == pytest.approx(1, abs=1e-15)
    assert shares["matched"] == shares["by_colours"]["1"]
    assert shares["matched"] + shares["marled"] == pytest.approx(1, abs=1e-12)


@given(st.data())
def test_a_matched_plan_is_matched_all_along(data):
    found = answered(data.draw(plan_data("matched", in_order=True, alike=True)))
    assert found["shares"]["matched"] == 1


@pytest.mark.parametrize("parts", [[1, 1023], [512, 511, 1], [3, 7 * 13, 179], [91, 39, 21, 122]])
@pytest.mark.parametrize("tex", [100.0, [110.0, 70.0, 13.0], [1024.0, 273.0, 1.0]])
@pytest.mark.parametrize("wound_off", [0, 1])
def test_a_matched_plan_is_matched_where_edges_fall_between_two_billionths(parts, tex, wound_off):
    """The 1024th part of a yarn is 976,562.5 billionths; the 273rd never ends."""
    lots = [
        {"name": f"Lot {mass}", "mass_g": mass * 0.1, "colour": "#234567"} for mass in sorted(parts)
    ]
    data = {
        "lots": lots,
        "spinning": {"single_tex": tex, "spin_loss": 0.07},
        "plying": {"wound_off": wound_off, "contraction": 0.04},
    }
    found = answered(data)
    assert found["shares"]["matched"] == 1
    assert len(found["stretches"]) == len(parts)


@pytest.mark.parametrize("scheme", [name for name in EVERY_SCHEME if name not in ("solid", "fade")])
@given(st.data())
def test_one_lot_is_matched_all_along_in_a_single_stretch(scheme, data):
    found = answered(data.draw(plan_data(scheme, lots=1)))
    assert found["shares"]["matched"] == 1
    assert len(found["stretches"]) == 1


@every_scheme
@given(st.data())
def test_mass_length_and_size_of_the_yarn_agree(scheme, data):
    """Tex are grams in 1000 m; diameter and wpi are those of a solid of 0.16 g/cm³."""
    drawn = data.draw(plan_data(scheme))
    found = answered(drawn)
    yarn, singles = found["yarn"], found["singles"]
    folds = 3 if scheme == "chain" else 1
    tex = sum(single["linear_density_tex"] for single in singles) * folds
    assert yarn["linear_density_tex"] == pytest.approx(tex / (1 - drawn["plying"]["contraction"]))
    assert yarn["mass_g"] == pytest.approx(yarn["length_m"] * yarn["linear_density_tex"] / 1000)
    assert yarn["m_per_100g"] == pytest.approx(100 * yarn["length_m"] / yarn["mass_g"])
    assert yarn["wpi"] * yarn["diameter_mm"] == pytest.approx(25.4)
    grams_per_m = pi / 4 * yarn["diameter_mm"] ** 2 * 0.16
    assert grams_per_m * 1000 == pytest.approx(yarn["linear_density_tex"])
    for single in singles:
        spun_g = single["mass_g"] * (1 - drawn["spinning"]["spin_loss"])
        assert single["length_m"] * single["linear_density_tex"] / 1000 == pytest.approx(spun_g)
        assert single["portions"][0]["start_m"] == 0
        assert single["portions"][-1]["end_m"] == pytest.approx(single["length_m"])


@every_scheme
@given(st.data())
def test_every_lot_weighs_out_to_what_its_portions_are_but_for_the_rest(scheme, data):
    found = answered(data.draw(plan_data(scheme)))
    weighed = Counter()
    for row in [*portions_of(found), *found["heaps"]]:
        weighed[row["lot"]] += row["weigh_g"] or 0.0
    grams = grams_by_lot(portions_of(found))
    for lot in found["lots"]:
        whole = grams[lot["name"]]
        assert weighed[lot["name"]] + lot["weigh_rest_g"] == nearly(whole, max(whole, 1))


def times(factor: float, value: object, key: str = "") -> object:
    """Return an answer with all its grams and metres so many times as large."""
    if isinstance(value, dict):
        return {name: times(factor, item, name) for name, item in value.items()}
    if isinstance(value, list):
        return [times(factor, item, key) for item in value]
    is_amount = key.endswith(("_g", "_m")) and isinstance(value, float)
    return value * factor if is_amount else value


@pytest.mark.parametrize("scheme", DIVIDING)
@given(st.data(), st.sampled_from((2.0, 4.0)))
def test_more_of_everything_makes_all_lengths_longer_and_changes_nothing_else(scheme, data, factor):
    """The scale, the loops of a chain and the target are grams and metres too.

    Assumptions are sentences, some of them with metres inside.
    """
    drawn = data.draw(plan_data(scheme))
    found, more = answered(drawn), answered(times(factor, drawn))
    assert more | {"assumptions": []} == times(factor, found) | {"assumptions": []}
