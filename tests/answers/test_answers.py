"""The answer as plain data: its keys, its units, and the questions that it answers."""

import json
import subprocess
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

import yarncolor as yc
from tests.helpers.strategies import EVERY_SCHEME, advised, answered, by_hand, plan_data
from yarncolor.answers.answer import answer_of, preview

YARN = (
    "length_m mass_g linear_density_tex contraction contraction_model single_diameter_mm "
    "single_wpi helix_angle_deg pitch_mm stripe_mm ply_twist_tpm ply_direction diameter_mm wpi "
    "m_per_100g designation designation_in_full length_low_m length_high_m length_expected_m "
    "rested_length_m finished_length_m hours hours_spinning hours_plying"
)
NUMBERS = YARN.replace("contraction_model ", "").replace("ply_direction ", "")
KEYS = {
    "": "format yarncolor title scheme plies sequence closing assumptions lots singles heaps yarn "
    "stretches shares longest first_all_different_m doubled_runs remedies leftovers bobbins "
    "weigh_points check_points missing fabric progress where drift",
    "lots": "name mass_g reserve_g to_card_g used_g weigh_rest_g srgb lab in_gamut made_of "
    "regain colour_unsure",
    "singles": "ply divisions linear_density_tex length_m mass_g wound_off comes_off strands "
    "twist_tpm direction surface_angle_deg surface_share hours measured_tex spin_loss_found "
    "spun_g spun_m left_out portions",
    "left_out": "row lot mass_g",
    "portions": "lot place repeat copy mass_g weigh_g on_bobbin_g start_m end_m words minutes row "
    "state planned_mass_g linear_density_tex",
    "heaps": "ply lot weigh_g pieces words",
    "yarn": f"{YARN} contraction_by_model contraction_low contraction_high balanced_tpm "
    "wraps_by_convention weight_class skeins source",
    "contraction_by_model": "helix untwisting",
    "wraps_by_convention": "packed weavers' knitters'",
    "weight_class": "name agreed by",
    "skeins": "skein start_m end_m mass_g gross_g near_end far_end plies_changing",
    "source": f"{NUMBERS} single_tex relaxed_density_g_per_cm3 packed_density_g_per_cm3 twist_tpm",
    "stretches": "start_m end_m lots contrast",
    "contrast": "ciede2000 lightness_range grey_scale hyab",
    "shares": "matched marled by_colours matched_low matched_high",
    "longest": "matched marled",
    "doubled_runs": "ply lot start_m end_m ratio meant",
    "remedies": "closing longest_run_ratio matched left_over_g shifted_m hands",
    "leftovers": "ply lot mass_g length_m start_m end_m end",
    "bobbins": "bobbin ply strand order of comes_off start_m end_m net_g tare_g gross_g",
    "weigh_points": "ply bobbin row repeat at_m net_g gross_g on_bobbin_g",
    "check_points": "yarn_m ply from to spread_m",
    "missing": "lot mass_g why",
    "progress": "share hours_left plies",
    "plies": "ply pieces spun_g spun_m next_row next_lot next_weigh_g next_gross_g",
    "where": "yarn_m lots next_change left_m skein turn",
    "next_change": "yarn_m ply from to",
    "fabric": "kind stitches rows gauge_stitches gauge_rows loop_length_mm loop_source band "
    "tightness_factor row_m width_cm height_cm needs_m needs_plied_m has_m rows_possible lots",
    "drift": "ends_first short_by_m changes off_m matched helps",
    "changes": "ply yarn_m low_m high_m",
    "helps": "what short_by_m off_m",
    "advice": "kind text",
}
RICH = by_hand(
    {"Kelp": 60.0, "Foam": 30.0, "Dune": 9.0},
    title="Tideline",
    scheme={"name": "fractal", "divisions": [1, 2, 60], "sequence": ["Kelp", "Foam", "Kelp"]},
    spinning={"twist_tpm": 300.0, "variation": 0.05, "minutes_per_g": 3.0},
    plying={"twist_tpm": 180.0},
    bobbins={"capacity_g": 20.0, "tare_g": 60.0, "plying_capacity_g": 40.0},
    fabric={"stitches": 60, "rows": 100, "gauge_stitches": 20.0},
    target={"yarn_m": 1e4},
)
"""Has heaps, doubled runs, remedies, a leftover, more wanted than there is, and a body."""
SPUN = RICH | {
    "scheme": RICH["scheme"] | {"closing": "drop"},
    "spun": [{"ply": 2, "row": 2, "gross_g": 70.0}, {"ply": 1, "lot": "Foam", "mass_g": 30.0}],
    "plied": {"so_far_m": 3.0},
}
"""Has a row left out, a piece too many, a lot that runs short, and a place in plying."""


def tables_in(value: object, key: str = "") -> list[tuple[str, dict]]:
    """Return every table of an answer with the key that it stands under."""
    if isinstance(value, list):
        return [found for item in value for found in tables_in(item, key)]
    if not isinstance(value, dict):
        return []
    inside = [found for name, item in value.items() for found in tables_in(item, name)]
    return [(key, value), *inside]


def test_the_answer_has_every_key_that_other_programs_read():
    found = [json.loads(yc.draw.plan_json(yc.answer(yc.plan_from_data(d)))) for d in (RICH, SPUN)]
    tables = [(key, table) for key, table in tables_in(found) if key in KEYS]
    assert {key for key, _ in tables} == set(KEYS)
    for key, table in tables:
        if key == "lots" and "name" not in table:
            assert set(table) == {"lot", "to_card_g"}  # those of the fabric
            continue
        expected = KEYS[key] + (" advice" if key == "" else "")
        assert set(table) == set(expected.split())


@pytest.mark.parametrize("scheme", EVERY_SCHEME)
@given(data=st.data())
def test_a_plan_that_is_laid_out_already_gives_the_same_answer(scheme, data):
    plan = yc.plan_from_data(data.draw(plan_data(scheme)))
    laid = preview(plan).layout
    assert answer_of(laid).layout.stretches is laid.stretches
    assert yc.draw.plan_json(answer_of(laid)) == yc.draw.plan_json(yc.answer(plan))


def test_the_answer_without_its_advice_is_that_of_the_file():
    found = yc.answer(yc.plan_from_data(RICH))
    told = json.loads(yc.draw.plan_json(found))
    assert told.pop("advice")
    assert told == json.loads(json.dumps(yc.to_dict(found)))


@pytest.mark.parametrize("scheme", EVERY_SCHEME)
@given(st.data())
def test_the_file_is_json_without_nan_and_the_same_bytes_again(scheme, data):
    drawn = data.draw(plan_data(scheme))
    written = yc.draw.plan_json(yc.answer(yc.plan_from_data(drawn)))
    assert written == yc.draw.plan_json(yc.answer(yc.plan_from_data(drawn)))
    found = json.loads(written.decode("utf-8"), parse_constant=pytest.fail)
    assert found["format"] == 1


def test_another_process_writes_the_same_bytes():
    """Where an order hung on the hash of a text it would differ here."""
    code = (
        "import json, sys, yarncolor as yc; "
        "sys.stdout.buffer.write(yc.draw.plan_json(yc.answer(yc.plan_from_data(json.load(sys.stdin)))))"
    )
    other = subprocess.run(
        [sys.executable, "-c", code],
        input=json.dumps(RICH).encode(),
        capture_output=True,
        check=True,
    )
    assert other.stdout == yc.draw.plan_json(yc.answer(yc.plan_from_data(RICH)))


def three_lots(**tables) -> dict:
    """Return 27 g each of three lots, matched on three plies: 270 m of 300 tex."""
    return by_hand({"Kelp": 27.0, "Foam": 27.0, "Dune": 27.0}, **tables)


@pytest.mark.parametrize(
    ("given_values", "word"),
    [
        ({"spinning": {"single_tex": 110.0}}, "1000 m in 100 g"),
        ({"scale": {"step_g": 1.0}}, "0.1 g"),
        ({"plying": {"wound_off": 0}}, "straight from the bobbin"),
        ({"plying": {"contraction": 0.0}}, "length lost in plying"),
        ({"scheme": {"name": "matched", "plies": 3}}, "matched"),
    ],
)
def test_a_default_is_named_where_it_was_used_and_only_there(given_values, word):
    assert any(word in said for said in answered(three_lots())["assumptions"])
    assert not any(word in said for said in answered(three_lots(**given_values))["assumptions"])


def test_a_contraction_that_is_given_is_measured():
    measured = answered(three_lots(plying={"contraction": 0.04}))["yarn"]
    assert measured["contraction_model"] == measured["source"]["contraction"] == "measured"
    assumed = answered(three_lots())["yarn"]
    assert (assumed["contraction"], assumed["source"]["contraction"]) == (0, "assumed")


@pytest.mark.parametrize("target", [{"yarn_m": 90.0}, {"yarn_g": 27.0}])
def test_a_target_scales_every_portion_alike_and_leaves_the_rest_in_the_drawer(target):
    found = answered(three_lots(target=target))
    assert found["yarn"]["length_m"] == pytest.approx(90)
    assert found["yarn"]["mass_g"] == pytest.approx(27)
    grams = [row["mass_g"] for single in found["singles"] for row in single["portions"]]
    assert grams == pytest.approx([3] * 9)
    left = [(row["ply"], row["lot"], row["end"]) for row in found["leftovers"]]
    assert left == [(None, name, None) for name in ("Kelp", "Foam", "Dune")]
    assert [row["mass_g"] for row in found["leftovers"]] == pytest.approx([18] * 3)
    assert found["missing"] == []


def test_a_target_beyond_the_stash_uses_everything_and_names_what_is_missing():
    """324 m of 243 m: a third more of each lot, a tenth of which is lost in carding."""
    data = three_lots(target={"yarn_m": 324.0}, spinning={"card_loss": 0.1})
    found = answered(data)
    assert found["yarn"]["length_m"] == pytest.approx(243)
    assert found["leftovers"] == []
    assert [row["lot"] for row in found["missing"]] == ["Kelp", "Foam", "Dune"]
    assert [row["mass_g"] for row in found["missing"]] == pytest.approx([9] * 3)
    text = dict(advised(data))["short_of_target"]
    assert "75%" in text
    assert "9.0 g of Kelp" in text


def test_check_points_are_every_change_of_every_ply():
    """Ply 1 changes at 150 m, ply 2 at 75, 150 and 225 m."""
    scheme = {"name": "fractal", "divisions": [1, 2]}
    data = by_hand({"Kelp": 30.0, "Foam": 30.0}, scheme=scheme, plying={"wound_off": 1})
    found = answered(data)["check_points"]
    assert [(row["ply"], row["from"], row["to"]) for row in found] == [
        (2, "Kelp", "Foam"),
        (1, "Kelp", "Foam"),
        (2, "Foam", "Kelp"),
        (2, "Kelp", "Foam"),
    ]
    assert [row["yarn_m"] for row in found] == pytest.approx([75, 150, 150, 225])


def test_longest_is_the_first_of_equal_stretches():
    """Three stretches of 90 m each, whatever billionths their edges are rounded to."""
    found = answered(three_lots())["longest"]
    assert found["marled"] is None
    assert found["matched"] == pytest.approx({"start_m": 0, "end_m": 90}, abs=1e-6)


def test_longest_is_a_single_stretch_of_each_kind():
    """Kelp 20 g, Foam 40 g, and the same turned round: 20 m marled, 20 m alike, 20 m marled."""
    scheme = {"name": "flipped", "plies": 2}
    found = answered(by_hand({"Kelp": 4.0, "Foam": 8.0}, scheme=scheme, plying={"wound_off": 1}))
    assert found["longest"]["matched"] == pytest.approx({"start_m": 20, "end_m": 40})
    assert found["longest"]["marled"] == pytest.approx({"start_m": 0, "end_m": 20})


def test_longest_is_of_its_own_kind_even_where_that_is_a_hair_long():
    """Ply 2 changes 0.01 mm before ply 1: one billionth of 10 km, the only place that matches."""
    hair_g = 1e-6
    portions = [("Kelp", 1, 500), ("Foam", 1, 500), ("Foam", 2, 500 - hair_g)]
    portions.append(("Kelp", 2, 500))
    scheme = {
        "name": "free",
        "portions": [{"lot": lot, "ply": ply, "mass_g": float(g)} for lot, ply, g in portions],
    }
    plying = {"wound_off": 1}
    found = answered(by_hand({"Kelp": 1000.0, "Foam": 1000.0}, scheme=scheme, plying=plying))
    (hair,) = (row for row in found["stretches"] if len(set(row["lots"])) == 1)
    assert found["longest"]["matched"] == {"start_m": hair["start_m"], "end_m": hair["end_m"]}


@pytest.mark.parametrize("scheme", EVERY_SCHEME)
@given(st.data())
def test_no_stretch_of_its_kind_is_longer_than_the_longest(scheme, data):
    found = answered(data.draw(plan_data(scheme)))
    for kind, longest in found["longest"].items():
        own = [s for s in found["stretches"] if (len(set(s["lots"])) == 1) == (kind == "matched")]
        lengths = {(row["start_m"], row["end_m"]): row["end_m"] - row["start_m"] for row in own}
        assert (longest is None) == (not own)
        if longest:
            length = lengths[longest["start_m"], longest["end_m"]]
            assert length >= max(lengths.values()) - 3e-9 * found["yarn"]["length_m"]


@pytest.mark.parametrize(
    ("scheme", "first_m"),
    [
        ({"name": "matched", "plies": 1}, None),
        ({"name": "matched"}, None),
        ({"name": "staggered"}, 0),
        ({"name": "fractal"}, 45),
    ],
)
def test_all_plies_first_differ_where_it_is_by_hand(scheme, first_m):
    """Fractal of 1, 2 and 4 repeats on 270 m: whole portions of 90 m, first all three at 45 m."""
    found = answered(three_lots(scheme=scheme))["first_all_different_m"]
    assert found == (first_m if first_m is None else pytest.approx(first_m))


def test_one_ply_has_no_contrast():
    found = answered(three_lots(scheme={"plies": 1}))
    nothing = {"ciede2000": 0, "lightness_range": 0, "grey_scale": 5, "hyab": 0}
    assert [row["contrast"] for row in found["stretches"]] == [nothing] * 3
    assert found["shares"]["by_colours"] == {"1": 1.0}


def contrast_of(*labs: list[float]) -> dict:
    """Return the contrast of one stretch, each ply all of one lot."""
    lots = [{"name": f"Lot {k}", "mass_g": 5.0, "lab": lab} for k, lab in enumerate(labs, 1)]
    portions = [{"ply": k, "lot": f"Lot {k}", "mass_g": 5.0} for k in range(1, len(labs) + 1)]
    (stretch,) = answered({"lots": lots, "scheme": {"name": "free", "portions": portions}})[
        "stretches"
    ]
    return stretch["contrast"]


def test_contrast_is_that_of_the_farthest_pair():
    """Black and white: mean lightness 50, so that CIEDE2000 is the difference of 100 itself."""
    found = contrast_of([0, 0, 0], [40, 0, 0], [100, 0, 0])
    assert found == pytest.approx(
        {"ciede2000": 100, "lightness_range": 100, "grey_scale": 1, "hyab": 100}
    )


@pytest.mark.parametrize(("apart", "grade"), [(0, 5), (0.85, 4.5), (1.7, 4), (3.4, 3), (6.8, 2)])
def test_greys_apart_are_graded_as_on_the_grey_scale(apart, grade):
    assert contrast_of([50, 0, 0], [50 + apart, 0, 0])["grey_scale"] == pytest.approx(grade)


def test_a_colour_beyond_the_screen_is_said_and_kept_for_contrast():
    lab = [50.0, -120.0, 60.0]
    lots = [
        {"name": "Weed", "mass_g": 5.0, "lab": lab},
        {"name": "Stone", "mass_g": 5.0, "lab": [50.0, 0.0, 0.0]},
    ]
    weed, stone = answered({"lots": lots})["lots"]
    assert (weed["in_gamut"], stone["in_gamut"]) == (False, True)
    assert weed["lab"] == lab
    assert stone["srgb"] == "#777777"
    dull = [50.0, *(item * 0.99 for item in lab[1:])]
    grey = [50.0, 0.0, 0.0]
    assert contrast_of(lab, grey)["ciede2000"] > contrast_of(dull, grey)["ciede2000"]


@pytest.mark.parametrize("washed", [None, 0.1])
@pytest.mark.parametrize("rested", [None, 0.05])
def test_a_length_is_told_after_each_loss_that_the_plan_says(rested, washed):
    plying = {} if rested is None else {"resting_shrinkage": rested}
    fabric = {} if washed is None else {"finishing_shrinkage": washed}
    data = by_hand({"Kelp": 60.0}, plying=plying, fabric=fabric)
    found = yc.answer(yc.plan_from_data(data)).lengths
    kept = 1 - (rested or 0.0)
    expected = found.plied_m * kept * (1 - (washed or 0.0))
    assert found.rested_m == (None if rested is None else pytest.approx(found.plied_m * kept))
    assert found.finished_m == (None if washed is None else pytest.approx(expected))
