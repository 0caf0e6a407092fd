"""What lies on the bobbins, worked out by hand: readings, samples, lengths, lots, bobbins."""

from fractions import Fraction

import pytest

from tests.helpers.strategies import answered, by_hand
from yarncolor import plan_from_data
from yarncolor.layout.layout import layout
from yarncolor.layout.resolved import resolve

THREE = {"Kelp": 24.0, "Foam": 24.0, "Dune": 24.0}
TWO_PLIES = by_hand(
    THREE, scheme={"plies": 2}, spinning={"single_tex": 100.0}, bobbins={"tare_g": 60.0}
)
"""On each of two plies 12 g, which is 120 m, of Kelp, Foam and Dune."""


def with_spun(*spun: dict, **tables: dict) -> dict:
    return TWO_PLIES | {"spun": [{"ply": 1} | one for one in spun]} | tables


def pieces(data: dict, *keys: str, ply: int = 1) -> list:
    """Return these keys of each piece of a ply; of one key alone its values."""
    rows = [[row[key] for key in keys] for row in answered(data)["singles"][ply - 1]["portions"]]
    return [row[0] for row in rows] if len(keys) == 1 else rows


def test_entries_are_told_as_they_lie_core_first():
    data = with_spun(
        {"row": 2}, {"row": 1, "lot": "Dune"}, {"lot": "Kelp", "mass_g": 3.0}, scheme={"plies": 2}
    )
    assert pieces(data, "row", "lot", "place", "repeat", "mass_g", "planned_mass_g", "state") == [
        [2, "Foam", 2, 1, 12.0, 12.0, "spun"],
        [1, "Dune", 1, 1, 12.0, 12.0, "spun"],
        [None, "Kelp", None, 1, 3.0, None, "spun"],
        [3, "Dune", 3, 1, 12.0, 12.0, "to_spin"],
    ]


def test_a_piece_too_many_is_of_the_repeat_of_the_piece_before_else_of_the_first():
    data = by_hand(THREE, scheme={"name": "fractal", "divisions": [2, 2], "plies": 2})
    data["spun"] = [
        {"ply": 1, "lot": "Dune", "mass_g": 1.0},
        {"ply": 1, "row": 4},
        {"ply": 1, "lot": "Dune", "mass_g": 1.0},
        {"ply": 1, "lot": "Dune", "mass_g": 1.0},
    ]
    assert pieces(data, "row", "repeat")[:4] == [[None, 1], [4, 2], [None, 2], [None, 2]]


def test_through_names_what_no_entry_named_yet():
    data = with_spun({"row": 2}, {"through": 3})
    assert pieces(data, "row") == [2, 1, 3]
    assert answered(data)["singles"][0]["left_out"] == []


def test_what_no_entry_names_below_the_highest_is_left_out():
    found = answered(with_spun({"row": 3}))
    assert found["singles"][0]["left_out"] == [
        {"row": 1, "lot": "Kelp", "mass_g": 12.0},
        {"row": 2, "lot": "Foam", "mass_g": 12.0},
    ]
    drawer = {row["lot"]: row["mass_g"] for row in found["leftovers"] if row["ply"] is None}
    assert drawer == {"Kelp": 12.0, "Foam": 12.0}
    assert found["yarn"]["length_m"] == 120.0


def test_the_first_piece_on_a_bobbin_is_of_its_own_row_s_repeat():
    data = by_hand(THREE, scheme={"name": "fractal", "divisions": [2, 2], "plies": 2})
    data["spun"] = [{"ply": 1, "row": 4}, {"ply": 1, "lot": "Dune", "mass_g": 1.0}]
    assert pieces(data, "row", "repeat")[:2] == [[4, 2], [None, 2]]


# --- readings --------------------------------------------------------------------------------

LOSS = 0.0625  # a sixteenth: exact in binary


def test_a_reading_is_shared_in_proportion_to_what_was_planned():
    """60 g empty, 90 g now: 30 g of single are 32 g of fibre; 12 to 12 to a mean row of 12."""
    data = with_spun(
        {"row": 1},
        {"row": 2},
        {"lot": "Kelp", "gross_g": 90.0},
        spinning={"single_tex": 100.0, "spin_loss": LOSS},
    )
    shared = pieces(data, "mass_g")[:3]
    assert shared == pytest.approx([float(Fraction(32, 3))] * 3, rel=1e-15)
    assert sum(shared) == pytest.approx(32.0, rel=1e-15)


def test_pieces_that_state_their_grams_keep_them_and_the_others_share_the_rest():
    data = with_spun({"row": 1, "mass_g": 20.0}, {"row": 2}, {"row": 3, "gross_g": 90.0})
    assert pieces(data, "mass_g") == [20.0, 5.0, 5.0]


def test_each_reading_tells_of_what_came_since_the_one_before():
    data = with_spun({"row": 1, "gross_g": 73.5}, {"row": 2}, {"row": 3, "gross_g": 95.0})
    assert pieces(data, "mass_g") == [13.5, 10.75, 10.75]


def test_rows_as_planned_by_the_run_are_weighed_by_a_later_reading():
    data = with_spun({"through": 2}, {"row": 3, "gross_g": 90.0})
    assert pieces(data, "mass_g") == [10.0, 10.0, 10.0]


def test_where_all_state_their_grams_a_reading_changes_none_and_tells_what_was_lost():
    stated = [{"row": 1, "mass_g": 10.0}, {"row": 2, "mass_g": 6.0, "gross_g": 75.0}]
    found = answered(with_spun(*stated))
    single = found["singles"][0]
    assert [row["mass_g"] for row in single["portions"]] == [10.0, 6.0, 12.0]
    assert single["spin_loss_found"] == 1 / 16
    assert found["singles"][1]["spin_loss_found"] is None


def test_expected_weights_go_on_from_what_was_read():
    """15 g of single of 16 g stated; then 12 g, of which nothing is planned to be lost."""
    stated = [{"row": 1, "mass_g": 10.0}, {"row": 2, "mass_g": 6.0, "gross_g": 75.0}]
    assert pieces(with_spun(*stated), "on_bobbin_g")[1:] == [15.0, 27.0]


def test_what_is_said_of_a_piece_comes_onto_the_bobbin_less_what_is_lost():
    """16 g less a sixteenth are 15 g; 50 m of 100 tex are 5 g of single; 12 g come to 11.25 g."""
    spinning = {"single_tex": 100.0, "spin_loss": LOSS}
    data = with_spun({"row": 1, "mass_g": 16.0}, {"row": 2, "length_m": 50.0}, spinning=spinning)
    assert pieces(data, "on_bobbin_g") == pytest.approx([15.0, 20.0, 31.25])


def test_a_piece_with_a_length_is_weighed_by_a_later_reading():
    data = with_spun({"row": 1, "length_m": 50.0}, {"row": 2, "gross_g": 76.0})
    assert pieces(data, "mass_g", "linear_density_tex")[:2] == [[8.0, 160.0], [8.0, 100.0]]
    assert pieces(data, "end_m")[:2] == [50.0, 130.0]


def test_a_piece_with_a_length_and_no_reading_weighs_by_its_grist():
    """50 m of 100 g in 1,000 m are 5 g of single, 16/15 of that of fibre."""
    spinning = {"single_tex": 100.0, "spin_loss": LOSS}
    data = with_spun({"row": 1, "length_m": 50.0}, spinning=spinning)
    assert pieces(data, "mass_g")[0] == pytest.approx(5 * 16 / 15, rel=1e-15)
    assert pieces(data, "linear_density_tex")[0] == pytest.approx(100.0, rel=1e-15)


def test_a_scale_of_whole_grams_may_show_twice_the_same():
    data = with_spun(
        {"row": 1, "mass_g": 0.3, "gross_g": 60.0}, {"row": 2, "mass_g": 0.4, "gross_g": 61.0}
    )
    assert pieces(data, "mass_g")[:2] == [0.3, 0.4]


def test_several_bobbins_of_a_ply_are_read_each_from_its_own_empty_weight():
    data = with_spun(
        {"row": 1, "gross_g": 70.0},
        {"row": 2, "bobbin": 2},
        {"row": 3, "gross_g": 91.0},
        bobbins={"tare_g": [60.0, 61.0, 62.0, 63.0], "capacity_g": 20.0, "count": 4},
    )
    assert pieces(data, "mass_g") == [10.0, 15.0, 15.0]
    found = answered(data)
    first, second = found["bobbins"][:2]
    assert (first["end_m"], first["net_g"], first["gross_g"]) == (100.0, 10.0, 70.0)
    assert (second["start_m"], second["net_g"], second["gross_g"]) == (100.0, 30.0, 91.0)
    assert [one["tare_g"] for one in found["bobbins"][2:]] == [62.0, 63.0]


def test_the_next_ply_s_bobbins_keep_their_empty_weights_where_a_ply_fills_one_more():
    tares = {"tare_g": [60.0, 61.0], "count": 2}
    data = with_spun({"row": 1}, {"row": 2, "bobbin": 2}, bobbins=tares)
    told = [(one["ply"], one["order"], one["tare_g"]) for one in answered(data)["bobbins"]]
    assert told == [(1, 1, 60.0), (1, 2, None), (2, 1, 61.0)]


def test_one_of_two_strands_is_on_the_scale():
    data = with_spun({"row": 1, "gross_g": 66.0}, plying={"strands": 2})
    assert pieces(data, "mass_g", "on_bobbin_g")[0] == [12.0, 6.0]


# --- grist -----------------------------------------------------------------------------------


def grist(data: dict, ply: int = 1) -> float | None:
    return answered(data)["singles"][ply - 1]["measured_tex"]


SAMPLE = {"length_m": 2.0, "mass_g": 0.25}


def test_the_grist_of_a_single_is_told_from_the_first_measure_on():
    data = with_spun({"row": 1, "sample": SAMPLE})
    assert (grist(data), grist(data, 2)) == (125.0, None)
    assert pieces(data, "linear_density_tex") == [100.0] * 3


def test_two_measures_hold_for_nothing_and_three_for_all_that_was_not_measured():
    """12 g over 80 m twice and 0.25 g over 2 m: 24.25 g over 162 m."""
    two = [
        {"row": 1, "mass_g": 12.0, "length_m": 80.0},
        {"row": 2, "mass_g": 12.0, "length_m": 80.0},
    ]
    assert pieces(with_spun(*two), "linear_density_tex") == [150.0, 150.0, 100.0]
    three = with_spun(*two, {"row": 3, "sample": SAMPLE})
    tex = 1000 * 24.25 / 162
    assert grist(three) == pytest.approx(tex, rel=1e-15)
    assert pieces(three, "linear_density_tex") == pytest.approx([150.0, 150.0, tex], rel=1e-15)
    assert pieces(three, "end_m")[2] == pytest.approx(160 + 12 / tex * 1000)
    assert pieces(three, "linear_density_tex", ply=2) == [100.0] * 3


def test_what_is_lost_in_spinning_is_no_single():
    spinning = {"single_tex": 100.0, "spin_loss": LOSS}
    data = with_spun({"row": 1, "mass_g": 16.0, "length_m": 100.0}, spinning=spinning)
    assert grist(data) == 150.0


def test_a_reading_whose_pieces_all_have_a_length_is_one_measure():
    """20 g over 160 m, as one; not the stated piece of it once more."""
    data = with_spun(
        {"row": 1, "mass_g": 12.0, "length_m": 60.0},
        {"row": 2, "length_m": 100.0, "gross_g": 80.0},
        {"row": 3, "sample": SAMPLE},
    )
    assert grist(data) == pytest.approx(1000 * 20.25 / 162, rel=1e-15)
    (first, _) = layout(resolve(plan_from_data(data))).wheel.grist
    assert (first.count, first.holds) == (2, False)


def test_a_reading_of_pieces_one_of_which_has_no_length_is_none():
    data = with_spun({"row": 1, "length_m": 60.0}, {"row": 2, "gross_g": 80.0})
    assert grist(data) is None


def test_rows_shares_and_contraction_keep_the_grist_as_planned():
    spun = [
        {"row": 1, "mass_g": 12.0, "length_m": 80.0, "sample": SAMPLE},
        {"row": 2, "sample": SAMPLE},
    ]
    found = answered(with_spun(*spun))
    assert [single["linear_density_tex"] for single in found["singles"]] == [100.0, 100.0]
    assert [row["planned_mass_g"] for row in found["singles"][0]["portions"]] == [12.0] * 3
    assert found["singles"][0]["portions"][2]["weigh_g"] == 12.0


def test_grist_is_called_measured_where_every_ply_was():
    """Three pieces of each ply; of one ply alone, or of one piece, it is derived."""
    both = [
        {"ply": ply, "row": row, "mass_g": 12.0, "length_m": 80.0}
        for ply in (1, 2)
        for row in (1, 2, 3)
    ]
    for spun, how in ((both, "measured"), (both[:3], "derived"), (both[:1], "derived")):
        assert answered(TWO_PLIES | {"spun": spun})["yarn"]["source"]["m_per_100g"] == how


def test_the_yarn_weighs_what_its_singles_weigh():
    """Ply 1: 36 g over 240 m; ply 2: 24 of its 36 g, as its last 120 m stay on the bobbin."""
    rows = [{"row": row, "mass_g": 12.0, "length_m": 80.0} for row in (1, 2, 3)]
    yarn = answered(with_spun(*rows))["yarn"]
    assert yarn["mass_g"] == pytest.approx(60.0)
    assert yarn["linear_density_tex"] == pytest.approx(250.0)
    assert yarn["m_per_100g"] == pytest.approx(400.0)
    assert yarn["source"]["m_per_100g"] == "derived"
    assert answered(TWO_PLIES)["yarn"]["source"]["m_per_100g"] == "derived"


def test_what_stays_on_a_bobbin_weighs_by_its_own_grist():
    """Kelp, spun first, is 12 g over 240 m: the 120 m that stay are 6 g."""
    found = answered(with_spun({"row": 1, "mass_g": 12.0, "length_m": 240.0}))
    (left,) = [row for row in found["leftovers"] if row["ply"] == 1]
    assert (left["lot"], left["length_m"], left["mass_g"]) == ("Kelp", 120.0, pytest.approx(6.0))


# --- what stays as planned -------------------------------------------------------------------


def test_rows_to_spin_are_weighed_as_without_and_spun_ones_not():
    data = by_hand({"Kelp": 10.0, "Foam": 10.05}, scheme={"name": "fractal", "divisions": [4, 4]})
    before = pieces(data, "weigh_g")
    data["spun"] = [{"ply": 1, "through": 2}, {"ply": 1, "lot": "Kelp", "mass_g": 5.0}]
    assert pieces(data, "weigh_g") == [None, None, None, *before[2:]]


def test_a_heap_stands_while_a_row_of_it_is_to_spin():
    data = by_hand({"Kelp": 24.0, "Foam": 0.6}, scheme={"name": "fractal", "divisions": [4, 4]})
    before = answered(data)["heaps"]
    assert [(heap["ply"], heap["pieces"]) for heap in before] == [(1, 4), (2, 4)]
    data["spun"] = [{"ply": 1, "through": 7}, {"ply": 2, "through": 8}]
    assert answered(data)["heaps"] == before[:1]
    data["spun"] = [{"ply": 1, "through": 8}]
    assert answered(data)["heaps"] == before[1:]


CLOSES = by_hand(
    {"Kelp": 48.0, "Foam": 24.0, "Dune": 24.0},
    scheme={"name": "fractal", "divisions": [1, 2], "sequence": ["Kelp", "Foam", "Dune", "Kelp"]},
)


@pytest.mark.parametrize(("row", "offered"), [(4, True), (5, False)])
def test_ways_of_closing_are_offered_until_an_inner_meeting_is_spun(row, offered):
    found = answered(CLOSES | {"spun": [{"ply": 2, "through": row}]})
    assert bool(found["remedies"]) == offered


def test_a_target_keeps_the_factor_of_the_plan():
    data = TWO_PLIES | {"target": {"yarn_m": 180.0}}
    assert pieces(data, "mass_g") == [6.0, 6.0, 6.0]
    data["spun"] = [{"ply": 1, "row": 1, "mass_g": 1.0}]
    assert pieces(data, "mass_g") == [1.0, 6.0, 6.0]
    assert answered(data)["yarn"]["length_m"] == pytest.approx(130.0)


# --- lots ------------------------------------------------------------------------------------


def test_more_than_there_is_comes_out_of_the_reserve_first_and_then_is_missing():
    """24 g of Kelp less 2 g kept back are 11 g on each ply; one row took 16 g."""
    data = with_spun({"row": 1, "mass_g": 16.0})
    data["lots"] = [data["lots"][0] | {"reserve_g": 2.0}, *data["lots"][1:]]
    (lack,) = answered(data)["missing"]
    assert lack == {"lot": "Kelp", "mass_g": pytest.approx(3.0), "why": "spun"}
    data["spun"] = [{"ply": 1, "row": 1, "mass_g": 12.5}]
    assert answered(data)["missing"] == []


def test_less_than_a_step_of_the_scale_is_missing_to_nobody():
    assert answered(with_spun({"row": 1, "mass_g": 12.09}))["missing"] == []
    (lack,) = answered(with_spun({"row": 1, "mass_g": 12.1}))["missing"]
    assert lack["mass_g"] == pytest.approx(0.1)


def test_lost_fibre_is_missing_where_rows_still_ask_for_it():
    lost = [{"lot": "Dune", "mass_g": 2.5}]
    assert answered(TWO_PLIES | {"lost": lost})["missing"] == [
        {"lot": "Dune", "mass_g": 2.5, "why": "spun"}
    ]
    left_out = with_spun({"row": 1}, {"row": 2}, {"lot": "Foam", "mass_g": 1.0}, lost=lost)
    left_out["spun"][2] = {"ply": 2, "row": 3}
    rest = {row["lot"]: row["mass_g"] for row in answered(left_out)["leftovers"] if not row["ply"]}
    assert rest == {"Kelp": 12.0, "Foam": 12.0}


def test_a_blend_that_a_gradient_cards_can_be_named():
    data = by_hand(
        {"Kelp": 20.0, "Foam": 20.0},
        scheme={"name": "gradient", "blend_steps": 1, "plies": 1},
        spun=[{"ply": 1, "row": 1, "lot": "Kelp 1:1 Foam"}],
    )
    assert pieces(data, "lot") == ["Kelp 1:1 Foam", "Kelp 1:1 Foam", "Foam"]


def test_a_chain_has_one_single_to_spin():
    data = by_hand({"Kelp": 9.0, "Foam": 9.0}, scheme={"name": "chain", "loop_m": 100.0})
    data["spun"] = [{"ply": 1, "row": 1, "length_m": 30.0}, {"ply": 1, "row": 2, "length_m": 60.0}]
    found = answered(data)
    assert found["yarn"]["length_m"] == pytest.approx(30.0)
    assert [row["lots"] for row in found["stretches"]] == [["Foam", "Foam", "Kelp"]]


def test_with_a_place_in_plying_every_row_not_left_out_counts_as_spun():
    data = with_spun({"row": 2}, plied={"so_far_m": 10.0})
    assert pieces(data, "row", "state", "weigh_g") == [[2, "spun", None], [3, "spun", None]]
    assert pieces(data, "state", ply=2) == ["spun"] * 3


def test_what_lies_on_a_bobbin_that_was_filled_too_full_stays_there():
    """25 g on a bobbin for 20 g, then two rows of 12 g: one bobbin each."""
    data = with_spun(
        {"row": 1, "mass_g": 25.0, "bobbin": 1}, bobbins={"tare_g": 60.0, "capacity_g": 20.0}
    )
    told = [one["end_m"] for one in answered(data)["bobbins"] if one["ply"] == 1]
    assert told == pytest.approx([250.0, 370.0, 490.0])


def test_a_piece_lies_on_the_bobbin_that_was_named_and_on_none_where_none_was():
    """A ply of which an entry names a bobbin goes on from there; of the other none is known."""
    spun = [{"row": 1}, {"row": 2, "bobbin": 2}, {"ply": 2, "row": 1}, {"ply": 2, "row": 2}]
    wheel = layout(resolve(plan_from_data(with_spun(*spun)))).wheel
    assert wheel.bobbin.tolist() == [1, 2, 0, 0, 0, 0]
    named = [{"row": 1, "bobbin": 1}, {"row": 2, "bobbin": 2}]
    wheel = layout(resolve(plan_from_data(with_spun(*named)))).wheel
    assert wheel.bobbin.tolist() == [1, 2, 0, 0, 0, 0]
