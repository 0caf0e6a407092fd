"""Every scheme on lots small enough to lay out by hand, each as its words say.

Kelp 30 g, Foam 60 g and Wrack 90 g: on two like plies each holds 15, 30 and 45 g.
"""

from hashlib import sha256

import numpy as np
import pytest

import yarncolor as yc
from tests.helpers.strategies import ORDERED, advised, answered, by_hand, laid
from yarncolor.layout.layout import layout
from yarncolor.layout.resolved import resolve
from yarncolor.layout.schemes import SCHEMES
from yarncolor.plan import SCHEME_NAMES

THREE = {"Kelp": 30.0, "Foam": 60.0, "Wrack": 90.0}
IN_ORDER = [("Kelp", 15), ("Foam", 30), ("Wrack", 45)]


def two_plies(scheme: str, **options) -> dict:
    return by_hand(THREE, scheme={"name": scheme, "plies": 2, **options})


def test_matched_lays_the_sequence_once_on_each_ply():
    assert laid(two_plies("matched")) == [IN_ORDER, IN_ORDER]


def test_plies_hold_mass_by_their_linear_density_and_are_equally_long():
    data = two_plies("matched") | {"spinning": {"single_tex": [50.0, 100.0]}}
    thin, thick = laid(data)
    assert thin == [("Kelp", 10), ("Foam", 20), ("Wrack", 30)]
    assert thick == [("Kelp", 20), ("Foam", 40), ("Wrack", 60)]
    assert [single["length_m"] for single in answered(data)["singles"]] == [1200, 1200]


def test_a_lot_that_stands_twice_is_shared_by_parts():
    data = two_plies("matched", sequence=["Kelp", "Foam", "Kelp"], parts=[2, 1, 1])
    assert laid(data)[0] == [("Kelp", 10), ("Foam", 30), ("Kelp", 5)]
    data["scheme"].pop("parts")
    assert laid(data)[0] == [("Kelp", 7.5), ("Foam", 30), ("Kelp", 7.5)]


def test_a_place_of_no_mass_is_left_out_and_said():
    data = two_plies("matched", sequence=["Kelp", "Foam", "Kelp"], parts=[0, 1, 1])
    assert laid(data, "lot", "place", "mass_g")[0] == [("Foam", 2, 30), ("Kelp", 3, 15)]
    assert any("place 1" in said for said in answered(data)["assumptions"])


@pytest.mark.parametrize("scheme", ["matched", "staggered", "fractal"])
def test_a_reversed_ply_is_turned_round_and_keeps_its_places(scheme):
    data = two_plies(scheme, reversed_plies=[2])
    there = two_plies(scheme)
    keys = ("lot", "place", "repeat", "mass_g")
    assert laid(data, *keys)[1] == laid(there, *keys)[1][::-1]
    assert laid(data, *keys)[0] == laid(there, *keys)[0]


@pytest.mark.parametrize("scheme", [s for s in ORDERED if s not in ("fade", "chain")])
def test_reversed_plies_are_a_fault_elsewhere(scheme):
    data = two_plies(scheme, reversed_plies=[2])
    if scheme in ("matched", "staggered", "fractal"):
        yc.plan_from_data(data)
    else:
        with pytest.raises(yc.PlanError, match="reversed_plies"):
            yc.plan_from_data(data)


@pytest.mark.parametrize(
    ("places", "second"),
    [
        (0, [("Kelp", 1, 15), ("Foam", 2, 30), ("Wrack", 3, 45)]),
        (0.5, [("Kelp", 1, 7.5), ("Foam", 2, 30), ("Wrack", 3, 45), ("Kelp", 1, 7.5)]),
        (1, [("Foam", 2, 30), ("Wrack", 3, 45), ("Kelp", 1, 15)]),
        (1.5, [("Foam", 2, 15), ("Wrack", 3, 45), ("Kelp", 1, 15), ("Foam", 2, 15)]),
        (4, [("Foam", 2, 30), ("Wrack", 3, 45), ("Kelp", 1, 15)]),
    ],
)
def test_staggered_starts_so_many_places_on_and_halves_an_entry(places, second):
    first, other = laid(two_plies("staggered", stagger_places=places), "lot", "place", "mass_g")
    assert [(lot, grams) for lot, _, grams in first] == IN_ORDER
    assert other == second


def test_staggered_turns_each_ply_on_from_the_one_before():
    data = by_hand(THREE, scheme={"name": "staggered", "plies": 3, "stagger_places": 1})
    order = [[lot for lot, _ in ply] for ply in laid(data)]
    assert order[1:] == [["Foam", "Wrack", "Kelp"], ["Wrack", "Kelp", "Foam"]]


def test_fractal_repeats_the_sequence_on_each_ply():
    first, second = laid(two_plies("fractal", divisions=[1, 2]), "lot", "repeat", "mass_g")
    assert first == [("Kelp", 1, 15), ("Foam", 1, 30), ("Wrack", 1, 45)]
    once = [("Kelp", 7.5), ("Foam", 15), ("Wrack", 22.5)]
    assert second == [(lot, repeat, grams) for repeat in (1, 2) for lot, grams in once]


def test_fractal_repeats_may_be_of_different_sizes():
    data = two_plies("fractal", divisions=[1, [4, 1, 1]])
    assert laid(data)[1] == [
        *[("Kelp", 10), ("Foam", 20), ("Wrack", 30)],
        *[("Kelp", 2.5), ("Foam", 5), ("Wrack", 7.5)] * 2,
    ]
    assert [single["divisions"] for single in answered(data)["singles"]] == [1, [4, 1, 1]]


def test_fractal_plies_double_their_repeats_where_nothing_is_said():
    for plies, repeats in ((2, [1, 4]), (3, [1, 2, 4]), (4, [1, 2, 4, 8])):
        found = answered(by_hand(THREE, scheme={"name": "fractal", "plies": plies}))
        assert [single["divisions"] for single in found["singles"]] == repeats
        assert [len(single["portions"]) / 3 for single in found["singles"]] == repeats


def test_flipped_turns_every_second_ply_round():
    data = by_hand(THREE, scheme={"name": "flipped", "plies": 4})
    order = [[lot for lot, _ in ply] for ply in laid(data)]
    assert order == [["Kelp", "Foam", "Wrack"], ["Wrack", "Foam", "Kelp"]] * 2


def test_mirrored_goes_there_and_back_by_halves():
    there = [("Kelp", 1, 1, 7.5), ("Foam", 2, 1, 15), ("Wrack", 3, 1, 22.5)]
    back = [("Wrack", 3, 2, 22.5), ("Foam", 2, 2, 15), ("Kelp", 1, 2, 7.5)]
    data = two_plies("mirrored")
    assert laid(data, "lot", "place", "repeat", "mass_g") == [[*there, *back]] * 2


def test_gradient_without_blends_is_one_slow_pass():
    assert laid(two_plies("gradient", blend_steps=0)) == [IN_ORDER, IN_ORDER]


def test_gradient_cards_blends_between_neighbours_and_each_lot_keeps_what_is_left():
    """Two blends of 30 / 3 = 10 g each, then two of 60 / 3 = 20 g, mixed 2 to 1 and 1 to 2.

    So Kelp gives 10 g, Foam 10 and 20 g, Wrack 20 g; each ply holds half of all that.
    """
    data = two_plies("gradient", blend_steps=2)
    portions = laid(data, "place", "mass_g")[0]
    places = [1, None, None, 2, None, None, 3]
    assert portions == list(
        zip(places, map(pytest.approx, [10, 5, 5, 15, 10, 10, 35]), strict=True)
    )
    lots = answered(data)["lots"]
    assert [lot["made_of"] for lot in lots] == [None] * 3 + ["step"] * 4
    assert [lot["to_card_g"] for lot in lots] == pytest.approx([20, 30, 70, 10, 10, 20, 20])
    assert [lot["used_g"] for lot in lots[:3]] == pytest.approx([30, 60, 90])


def test_a_carded_blend_is_not_mistaken_for_a_lot_of_the_same_name():
    name = answered(two_plies("gradient", blend_steps=1))["lots"][3]["name"]
    scheme = {"name": "gradient", "blend_steps": 1, "sequence": ["Kelp", "Foam"]}
    own, *made = answered(by_hand({"Kelp": 30.0, "Foam": 60.0, name: 9.0}, scheme=scheme))["lots"][
        2:
    ]
    assert (own["used_g"], own["to_card_g"]) == (0, 9)
    assert [lot["used_g"] for lot in made] == pytest.approx([15])
    assert name not in [lot["name"] for lot in made]


def test_stepped_holds_two_lots_by_a_half_a_third_and_a_sixth():
    data = by_hand({"Kelp": 36.0, "Foam": 36.0}, scheme={"name": "stepped", "plies": 3})
    grams = [[mass for _, mass in ply] for ply in laid(data)]
    assert grams == [pytest.approx(ply) for ply in ([6, 18], [12, 12], [18, 6])]
    found = answered(data)
    ends = [row["end_m"] / found["yarn"]["length_m"] for row in found["stretches"]]
    assert ends == pytest.approx([0.25, 0.5, 0.75, 1])
    assert {tuple(sorted(row["lots"])).count("Kelp") for row in found["stretches"]} == {0, 1, 2, 3}


def test_stepped_moves_each_change_by_the_smaller_allowance_of_its_neighbours():
    """Entries of 1/6, 1/3, 1/2 and k̄ = 3/2: h = min(1/9, 1/6) and min(1/6, 1/3).

    Ply 1 changes at 1/6 - 1/18 = 1/9 and 1/2 - 1/12 = 5/12 of its 90 g, ply 2 at 2/9 and 7/12.
    """
    one, two = ([mass for _, mass in ply] for ply in laid(two_plies("stepped")))
    assert one == pytest.approx([10, 27.5, 52.5])
    assert two == pytest.approx([20, 32.5, 37.5])


def test_stepped_allows_for_a_small_last_lot_as_for_a_small_first_one():
    """The same turned round: Wrack, Foam, Kelp change at 5/12 and 7/9, and at 7/12 and 8/9."""
    data = two_plies("stepped", sequence=["Wrack", "Foam", "Kelp"])
    one, two = ([mass for _, mass in ply] for ply in laid(data))
    assert one == pytest.approx([37.5, 32.5, 20])
    assert two == pytest.approx([52.5, 27.5, 10])


def test_stepped_plies_of_unequal_grist_use_every_lot_up():
    """Of 1/4 and 3/4 of the mass, k̄ = 7/4; two equal lots: h = min(2/7, 2/5) = 2/7.

    The changes lie at 1/2 - 3/14 = 2/7 and 1/2 + 1/14 = 4/7 of 24 g and 72 g.
    """
    data = by_hand(
        {"Kelp": 48.0, "Foam": 48.0},
        scheme={"name": "stepped", "plies": 2},
        spinning={"single_tex": [100.0, 300.0]},
    )
    one, two = ([mass for _, mass in ply] for ply in laid(data))
    assert one == pytest.approx([24 * 2 / 7, 24 * 5 / 7])
    assert two == pytest.approx([72 * 4 / 7, 72 * 3 / 7])


def test_chain_puts_all_mass_on_one_single():
    data = by_hand(THREE, scheme={"name": "chain"}, plying={"contraction": 0.1})
    found = answered(data)
    assert laid(data) == [[("Kelp", 30), ("Foam", 60), ("Wrack", 90)]]
    assert found["plies"] == 3
    assert found["yarn"]["length_m"] == pytest.approx(1800 / 3 * 0.9)
    assert found["yarn"]["linear_density_tex"] == pytest.approx(300 / 0.9)
    assert {len(row["lots"]) for row in found["stretches"]} == {3}


def test_solid_is_scaled_to_the_shorter_side():
    """Wrack: 90 g for a third of the mass; Kelp and Foam: 90 g for two thirds, so 45 g a ply."""
    data = by_hand(THREE, scheme={"name": "solid", "plies": 3})
    others = [("Kelp", 1, 15), ("Foam", 2, 30)]
    plies = laid(data, "lot", "place", "mass_g")
    assert plies[0] == [("Wrack", None, 45)]
    assert plies[1:] == [[(lot, at, pytest.approx(g)) for lot, at, g in others]] * 2
    assert [(row["lot"], row["mass_g"]) for row in answered(data)["leftovers"]] == [("Wrack", 45)]


def test_every_portion_of_a_solid_plan_is_of_the_first_repeat():
    """Each ply is spun once through, the plain one too."""
    data = by_hand(THREE, scheme={"name": "solid", "plies": 3})
    assert laid(data, "repeat") == [[(1,)], [(1,)] * 2, [(1,)] * 2]


def test_solid_plies_and_lot_are_the_user_s_and_the_rest_is_never_spun():
    """Kelp: 30 g on a third, so 30 g a ply, of which Foam is 60 in 150 and Wrack 90 in 150."""
    data = by_hand(
        THREE, scheme={"name": "solid", "plies": 3, "solid_lot": "Kelp", "solid_plies": [2]}
    )
    others = [("Foam", pytest.approx(12)), ("Wrack", pytest.approx(18))]
    assert laid(data) == [others, [("Kelp", pytest.approx(30))], others]
    left = {row["lot"]: row["mass_g"] for row in answered(data)["leftovers"]}
    assert left == {"Foam": pytest.approx(36), "Wrack": pytest.approx(54)}


def test_shuffled_sorts_the_pieces_by_their_digests():
    data = two_plies("shuffled", pieces=3, random_seed=7)
    for k, ply in enumerate(laid(data), start=1):
        bag = [
            (sha256(f"7/{k}/{name}/{piece}".encode()).hexdigest(), name)
            for name in THREE
            for piece in (1, 2, 3)
        ]
        assert ply == [(name, pytest.approx(THREE[name] / 6)) for _, name in sorted(bag)]


def test_shuffled_names_the_first_place_of_a_lot_and_no_repeat():
    data = two_plies("shuffled", sequence=["Foam", "Foam", "Kelp"], pieces=1)
    found = sorted(laid(data, "lot", "place", "repeat", "mass_g")[0])
    assert found == [("Foam", 1, 1, 30), ("Kelp", 3, 1, 15)]


def test_free_holds_the_user_s_own_portions_and_no_places():
    portions = [
        {"ply": 2, "lot": "Foam", "mass_g": 4.0},
        {"ply": 1, "lot": "Kelp", "mass_g": 3.0},
        {"ply": 2, "lot": "Kelp", "mass_g": 5.0},
    ]
    data = by_hand(THREE, scheme={"name": "free", "portions": portions})
    one, two = laid(data, "lot", "place", "repeat", "mass_g")
    assert one == [("Kelp", None, 1, 3)]
    assert two == [("Foam", None, 1, 4), ("Kelp", None, 1, 5)]


def test_the_table_of_schemes_has_those_that_a_plan_may_name():
    assert tuple(SCHEMES) == SCHEME_NAMES


def test_portions_are_taken_by_their_indices():
    portions = layout(resolve(yc.plan_from_data(two_plies("matched")))).portions
    some = portions.take(np.array([4, 0]))
    assert (some.lot.tolist(), some.ply.tolist()) == ([1, 0], [1, 0])
    assert some.mass_g.tolist() == [30, 15]


def mixed(*plies: dict, masses: dict = THREE, **tables) -> dict:
    return by_hand(masses, scheme={"name": "mixed", "ply": [*plies]}, **tables)


def test_mixed_with_equal_tables_is_matched():
    own = {"sequence": ["Kelp", "Foam", "Wrack"]}
    assert laid(mixed(own, own)) == [IN_ORDER, IN_ORDER]
    found = answered(mixed(own, own))
    assert found["sequence"] == []
    assert {portion["place"] for one in found["singles"] for portion in one["portions"]} == {None}
    assert found["shares"]["matched"] == 1


def test_mixed_takes_as_much_as_every_lot_can_give():
    """Kelp is the whole of one ply and a third of the other: 30 g of it make 22.5 and 22.5."""
    first, other = {"sequence": ["Kelp"]}, {"sequence": ["Foam", "Kelp"], "parts": [2, 1]}
    data = mixed(first, other, masses={"Kelp": 30.0, "Foam": 60.0})
    assert laid(data) == [[("Kelp", 22.5)], [("Foam", 15.0), ("Kelp", pytest.approx(7.5))]]
    left = [(row["lot"], row["mass_g"]) for row in answered(data)["leftovers"]]
    assert left == [("Foam", pytest.approx(45.0))]
    (kind, text), _ = advised(data)
    assert kind == "mostly_unspun"
    assert text.startswith("Most is left of Foam, 25% of it spun: Kelp gives out first.")


def test_mixed_runs_through_a_ply_so_often_from_so_far_on_and_in_reverse():
    plain = {"sequence": ["Kelp", "Foam", "Wrack"], "parts": [1, 1, 1]}
    data = mixed(plain, plain | {"times": [2, 1], "start_at": 1.5, "reversed": True})
    once, other = laid(data, "lot", "repeat", "mass_g")
    assert once == [(lot, 1, pytest.approx(15)) for lot in ("Kelp", "Foam", "Wrack")]
    forward = [("Foam", 2.5), ("Wrack", 5), ("Kelp", 5), ("Foam", 2.5)]
    there = [(lot, 1, pytest.approx(2 * g)) for lot, g in forward]
    assert other == [*there, *((lot, 2, pytest.approx(g)) for lot, g in forward)][::-1]


def test_mixed_plies_of_unlike_thickness_are_equally_long():
    own = {"sequence": ["Kelp", "Foam", "Wrack"]}
    data = mixed(own, own, spinning={"single_tex": [50.0, 100.0]})
    assert [single["length_m"] for single in answered(data)["singles"]] == [1200, 1200]


def fade(masses: dict, **scheme) -> dict:
    return by_hand(masses, scheme={"name": "fade", **scheme})


def test_fade_changes_ply_by_ply_a_quarter_on_each_of_three():
    """Kelp is a quarter, a half and three quarters of its ply, and so is Foam: all is spun."""
    data = fade({"Kelp": 60.0, "Foam": 60.0}, **{"from": ["Kelp"], "to": ["Foam"]})
    assert laid(data) == [
        [("Kelp", 10), ("Foam", 30)],
        [("Kelp", 20), ("Foam", 20)],
        [("Kelp", 30), ("Foam", 10)],
    ]
    found = answered(data)
    assert found["sequence"] == ["Kelp", "Foam"]
    assert [row["lots"] for row in found["stretches"]] == [
        ["Foam", "Foam", "Foam"],
        ["Foam", "Foam", "Kelp"],
        ["Foam", "Kelp", "Kelp"],
        ["Kelp", "Kelp", "Kelp"],
    ]


def test_fade_is_as_long_as_the_scanter_side_and_runs_through_each_side():
    data = fade(
        {"Kelp": 10.0, "Foam": 20.0, "Wrack": 90.0},
        **{"plies": 2, "from": ["Kelp", "Foam"], "to": ["Wrack"], "times": [1, 2]},
    )
    first, other = laid(data, "lot", "place", "repeat", "mass_g")
    near = pytest.approx
    assert first == [
        ("Kelp", 1, 1, near(10 / 3)), ("Foam", 2, 1, near(20 / 3)), ("Wrack", 3, 1, near(20))
    ]  # fmt: skip
    sides = [("Kelp", 1, 10 / 3), ("Foam", 2, 20 / 3)]
    assert other == [
        *((lot, place, turn, near(g)) for turn in (1, 2) for lot, place, g in sides),
        *(("Wrack", 3, turn, near(5)) for turn in (1, 2)),
    ]


def test_a_fade_straight_from_the_bobbin_runs_the_other_way_and_says_so():
    data = fade({"Kelp": 60.0, "Foam": 60.0}, **{"from": ["Kelp"], "to": ["Foam"]})
    (text,) = [text for kind, text in advised(data) if kind == "fades_backwards"]
    assert "begins with Foam and ends with Kelp" in text
    assert not [
        kind
        for kind, _ in advised(data | {"plying": {"wound_off": 1}})
        if kind == "fades_backwards"
    ]
