"""Ways to go on at the wheel: laws over every scheme, and plans small enough to reckon by hand."""

import re
from math import floor

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import yarncolor as yc
from tests.helpers.spun_plans import spun_plans
from tests.helpers.strategies import EVERY_SCHEME, answered, by_hand
from yarncolor.answers.hands import HeapChanged, what_hands_do
from yarncolor.report.hands_words import hands_text
from yarncolor.report.ways_on_text import matters_text, possible_text, reason_text

NEAR = 1e-6
SHARE = 1e-9


def replanned(data: dict):
    return yc.wheel.replan(yc.answer(yc.plan_from_data(data)))


def lots_along(singles: list[dict], data: dict, at_m: np.ndarray) -> np.ndarray:
    """Return the lot of each ply at metres of yarn, looked up portion by portion: (plies, n)."""
    off_m = at_m / (1 - data["plying"]["contraction"])
    if data["scheme"]["name"] != "chain":
        return np.array([looked_up(single, off_m) for single in singles])
    (single,) = singles
    loops = single["length_m"] / (3 * data["scheme"]["loop_m"])
    loops = max(1, round(loops) if abs(loops - round(loops)) < 1e-9 * loops else floor(loops) + 1)
    third_m = single["length_m"] / (3 * loops)
    n = np.floor(off_m / third_m)
    t, begin = off_m - n * third_m, 3 * n * third_m
    return np.array([looked_up(single, begin + at) for at in (t, 2 * third_m - t, 2 * third_m + t)])


def looked_up(single: dict, off_m: np.ndarray) -> np.ndarray:
    spun_m = off_m if single["wound_off"] % 2 else single["length_m"] - off_m
    ends_m = np.array([portion["end_m"] for portion in single["portions"]])
    lots = np.array([portion["lot"] for portion in single["portions"]])
    return lots[np.minimum(np.searchsorted(ends_m, spun_m, "right"), len(lots) - 1)]


def kept_by_look_up(planned: dict, now: dict, data: dict, places: int) -> float:
    """Return the share kept, asked at so many places of the planned yarn."""
    yarn_m, now_m = planned["yarn"]["length_m"], now["yarn"]["length_m"]
    at_m = (np.arange(places) + 0.5) / places * yarn_m
    there = at_m < now_m
    old = lots_along(planned["singles"], data, at_m[there])
    new = lots_along(now["singles"], data, at_m[there])
    return float((old == new).sum() / (places * len(old)))


@pytest.mark.parametrize("scheme", EVERY_SCHEME)
@given(st.data())
def test_what_is_kept_is_what_a_look_up_says(scheme, data):
    drawn = data.draw(spun_plans(scheme))
    found = replanned(drawn)
    planned = answered({key: value for key, value in drawn.items() if key != "spun"})
    now = answered(drawn)
    edges = len(planned["stretches"]) + len(now["stretches"])
    places = 5_000
    expected = kept_by_look_up(planned, now, drawn, places)
    assert found.choices[0].as_planned == pytest.approx(expected, abs=(edges + 4) / places)


@pytest.mark.parametrize("scheme", EVERY_SCHEME)
@given(st.data())
def test_what_is_recommended_can_be_done_and_never_keeps_less(scheme, data):
    found = replanned(data.draw(spun_plans(scheme)))
    now = found.choices[0]
    assert now.name == "carry_on"
    assert now.possible == "grams"
    assert found.recommended.possible
    assert found.recommended.as_planned >= now.as_planned
    if found.recommended is not now:
        assert found.recommended.as_planned > now.as_planned + 0.005
    for choice in found.choices:
        if choice.possible and choice.as_planned > now.as_planned + 0.005:
            assert found.recommended.as_planned >= choice.as_planned - SHARE


@pytest.mark.parametrize("scheme", EVERY_SCHEME)
@given(st.data())
def test_the_rows_of_every_choice_are_rounded_as_the_whole_plan_is(scheme, data):
    """Each row up or down, each running total within a step, each lot's total exact."""
    drawn = data.draw(spun_plans(scheme))
    step_g, found = drawn["scale"]["step_g"], replanned(drawn)
    for choice in found.choices:
        rows = choice.rows.portions
        steps, weigh = rows.mass_g / step_g, rows.weigh_g / step_g
        heaps = choice.rows.heaps
        for lot in set(rows.lot.tolist()):
            own = rows.lot == lot
            total, whole = steps[own].sum(), floor(steps[own].sum() * (1 + 1e-9) + 1e-9)
            heaped = heaps.weigh_g[heaps.lot == lot].sum() / step_g
            assert np.nansum(weigh[own]) + heaped == pytest.approx(whole, abs=NEAR * (1 + whole))
            steps[own] *= whole / total
        for ply in set(rows.ply.tolist()):
            own = (rows.ply == ply) & ~np.isnan(weigh)
            away = np.cumsum(weigh[own]) - np.cumsum(steps[own])
            assert (np.abs(away) < 1 + NEAR).all()


def grams_by_lot(choice, lots: int) -> np.ndarray:
    """Return grams of each lot that are still to spin, added row by row."""
    total = np.zeros(lots)
    for lot, mass_g in zip(choice.rows.portions.lot, choice.rows.portions.mass_g, strict=True):
        total[lot] += mass_g
    return total


@pytest.mark.parametrize("scheme", EVERY_SCHEME)
@given(st.data())
def test_what_it_takes_more_is_there_or_missing(scheme, data):
    drawn = data.draw(spun_plans(scheme))
    found = replanned(drawn)
    lots = found.answer.plan.lots
    has_g = np.array([lot.mass_g for lot in lots])
    for lot in lots:
        parts = dict(lot.blend or ())
        for name, part in parts.items():
            at = [one.name for one in lots].index(name)
            has_g[at] -= lot.mass_g * part / sum(parts.values())
    has_g *= 1 - drawn["spinning"]["card_loss"]
    used_g = np.zeros(len(lots))
    for portion in (p for single in answered(drawn)["singles"] for p in single["portions"]):
        used_g[[one.name for one in lots].index(portion["lot"])] += portion["mass_g"]
    now_g = grams_by_lot(found.choices[0], len(lots))
    for choice in found.choices:
        more_g = grams_by_lot(choice, len(lots)) - now_g
        assert choice.more_g == pytest.approx(more_g, abs=1e-6)
        lacks_g = np.maximum(more_g - np.maximum(has_g - used_g, 0), 0)
        assert choice.missing_g == pytest.approx(lacks_g, abs=1e-6)
        if lacks_g.max() > 1e-6:
            assert choice.possible != "grams"


@pytest.mark.parametrize("scheme", EVERY_SCHEME)
@given(st.data())
def test_the_plan_that_a_choice_makes_gives_its_yarn_and_its_weights(scheme, data):
    drawn = data.draw(spun_plans(scheme))
    found = replanned(drawn)
    choice = data.draw(st.sampled_from(found.choices))
    plan = yc.plan_from_data(to_file(yc.wheel.taken(found.answer, choice)))
    again = yc.answer(plan)
    assert again.layout.stretches.yarn_m == pytest.approx(choice.yarn_m, rel=1e-6)
    spun = [portion["mass_g"] for portion in portions_of(drawn) if portion["state"] == "spun"]
    if choice.name != "pull_off":
        stay = yc.to_dict(again)["singles"]
        assert [
            portion["mass_g"]
            for single in stay
            for portion in single["portions"]
            if portion["state"] == "spun"
        ] == pytest.approx(spun)
    if choice.possible:
        assert yc.wheel.replan(again).choices[0].as_planned == pytest.approx(
            choice.as_planned, abs=1e-6
        )
    if choice.possible == "grams" and choice.name != "carry_on":
        wheel = again.layout.wheel
        own = wheel.pieces.weigh_g[~wheel.spun]
        singly = ~np.isnan(choice.rows.portions.weigh_g)
        assert own[singly] == pytest.approx(choice.rows.portions.weigh_g[singly])


def to_file(plan) -> dict:
    """Return a plan's data as its file would have it."""
    from yarncolor.plan import to_data

    return to_data(plan)


def portions_of(data: dict) -> list[dict]:
    return [portion for single in answered(data)["singles"] for portion in single["portions"]]


@pytest.mark.parametrize("scheme", EVERY_SCHEME)
@given(st.data())
def test_what_was_put_right_is_not_put_right_again(scheme, data):
    drawn = data.draw(spun_plans(scheme))
    found = replanned(drawn)
    for name in ("in_step", "pull_off", "make_up"):
        choice = found.named(name)
        if choice is not None and choice.possible == "grams":
            again = yc.wheel.replan(yc.answer(yc.wheel.taken(found.answer, choice)))
            assert again.named(name) is None


THREE = {"Kelp": 30.0, "Foam": 30.0, "Rust": 30.0}
"""Matched on two plies of 100 tex: rows of 15 g, 150 m each."""


def two_plies(spun: list[dict], **tables: dict) -> dict:
    scheme = {"name": "matched", "plies": 2}
    plying = {"contraction": 0.0} | tables.pop("plying", {})
    return by_hand(THREE, scheme=scheme, plying=plying, spun=spun, **tables)


def test_of_a_late_slip_that_comes_straight_off_the_next_row_is_told():
    """Row 2 came out at 17 g, 170 m. Straight off it moves the one meeting before it: as many as
    stay. Two of three moved are more: with row 3 of four rows the next row is 20 m shorter."""
    four = {"Kelp": 30.0, "Foam": 30.0, "Rust": 30.0, "Dune": 30.0}
    spun = [
        {"ply": 1, "through": 2},
        {"ply": 1, "row": 3, "mass_g": 17.0},
        {"ply": 2, "through": 4},
    ]
    data = by_hand(
        four, scheme={"name": "matched", "plies": 2}, plying={"contraction": 0.0}, spun=spun
    )
    found = replanned(data)
    choice = found.named("in_step")
    assert found.recommended is choice
    (row,) = choice.rows.portions.mass_g.tolist()
    assert (row, choice.rows.row.tolist()) == (pytest.approx(13.0), [4])
    assert choice.as_planned == pytest.approx((1200 - 20) / 1200)
    assert found.choices[0].as_planned == pytest.approx((1200 - 20 * 2) / 1200)
    assert choice.more_g.tolist() == pytest.approx([0, 0, 0, -2.0])
    assert choice.factors.tolist() == pytest.approx([13 / 15, np.nan], nan_ok=True)


def test_fibre_that_is_not_there_is_spun_finer_or_is_missing():
    """Wound off, row 1 lacks 20 m: 2 g of Foam more on row 2 than there is. The 300 m of rows 2
    and 3 become 320 m: 1.07 times, and their meetings lie 20 m and 10 m off. With 80 m lacking it
    is 1.27 times, which no hand spins."""
    wound = {"plying": {"wound_off": 1}}
    spun = [{"ply": 1, "row": 1, "mass_g": 13.0}, {"ply": 2, "through": 3}]
    choice = replanned(two_plies(spun, **wound)).named("in_step")
    assert choice.possible == "grist"
    assert choice.factors[0] == pytest.approx(320 / 300)
    assert choice.as_planned == pytest.approx((900 - 20 - 10) / 900)
    assert choice.yarn_m == pytest.approx(450)
    assert 1e5 / choice.grist_instead_tex[0] == pytest.approx(1000 * 320 / 300)
    assert choice.missing_g.tolist() == pytest.approx([0, 2.0, 0])
    spun[0]["mass_g"] = 7.0
    choice = replanned(two_plies(spun, **wound)).named("in_step")
    assert choice.possible is None
    assert choice.missing_g.tolist() == pytest.approx([0, 8.0, 0])


def test_a_reserve_is_drawn_on():
    data = two_plies([{"ply": 1, "row": 1, "mass_g": 13.0}], plying={"wound_off": 1})
    data["lots"][1] |= {"mass_g": 31.0, "reserve_g": 1.0}
    assert replanned(data).named("in_step").missing_g[1] == pytest.approx(1.0)
    data["lots"][1] |= {"mass_g": 32.0, "reserve_g": 2.0}
    assert replanned(data).named("in_step").possible == "grams"


def test_fibre_that_was_lost_cannot_be_made_up():
    spun = [{"ply": 1, "row": 1, "mass_g": 13.0}]
    assert replanned(two_plies(spun)).named("make_up").possible == "grams"
    lost = [{"lot": "Kelp", "mass_g": 1.5}]
    choice = replanned(two_plies(spun, lost=lost)).named("make_up")
    assert (choice.possible, choice.missing_g[0]) == (None, pytest.approx(1.5))


def test_once_plying_has_begun_nothing_is_left_but_to_carry_on():
    spun = [
        {"ply": 1, "through": 2},
        {"ply": 1, "row": 3, "mass_g": 19.0},
        {"ply": 2, "through": 3},
    ]
    assert replanned(two_plies(spun)).named("pull_off") is not None
    plied = replanned(two_plies(spun, plied={"so_far_m": 12.0}))
    assert [choice.name for choice in plied.choices] == ["carry_on"]


def test_a_plan_of_which_nothing_is_spun_says_what_is_missing():
    data = two_plies([])
    with pytest.raises(yc.PlanError, match=r"^spun: is missing; say in \[\[spun\]\] tables"):
        replanned(data)


def test_a_piece_made_up_is_the_one_that_was_asked_for():
    """Row 2 was left out: 15 g of Foam are asked for after row 3 and, once spun, no more."""
    spun = [{"ply": 1, "row": 1}, {"ply": 1, "row": 3}]
    found = replanned(two_plies(spun, plying={"wound_off": 0}))
    asked = to_file(yc.wheel.taken(found.answer, found.named("make_up")))
    assert asked["to_spin"] == [{"ply": 1, "after_pieces": 2, "lot": "Foam", "mass_g": 15.0}]
    done = asked | {"spun": [*spun, {"ply": 1, "lot": "Foam", "mass_g": 15.0}]}
    again = replanned(done)
    assert again.named("make_up") is None
    assert len(again.choices[0].rows.row) == 3


@pytest.mark.parametrize("scheme", EVERY_SCHEME)
@given(st.data())
def test_what_is_told_of_a_way_holds_however_much_was_decided_before(scheme, data):
    """By grist, then by grams, and beside one another: what lies there is what was told."""
    drawn = data.draw(spun_plans(scheme))
    drawn["spun"] = drawn["spun"][: max(1, len(drawn["spun"]) * 2 // 3)]
    answer = yc.answer(yc.plan_from_data(drawn))
    for _ in range(2):
        found = yc.wheel.replan(answer)
        choice = data.draw(st.sampled_from([one for one in found.choices if one.possible]))
        answer = yc.answer(yc.plan_from_data(to_file(yc.wheel.taken(answer, choice))))
        again = yc.wheel.replan(answer).choices[0]
        assert again.as_planned == pytest.approx(choice.as_planned, abs=1e-6)
        assert again.yarn_m == pytest.approx(choice.yarn_m, rel=1e-6)


def test_what_was_decided_by_grist_outlasts_a_way_by_grams():
    """Row 2 of ply 1 is to come to 160 m of 15 g; then ply 2 lets its surplus go."""
    spun = [{"ply": 1, "through": 1}, {"ply": 2, "row": 1}, {"ply": 2, "row": 2, "mass_g": 16.0}]
    asked = [{"ply": 1, "row": 2, "mass_g": 15.0, "length_m": 160.0}]
    found = replanned(two_plies(spun, plying={"wound_off": 1}, to_spin=asked))
    choice = found.named("in_step")
    kept = to_file(yc.wheel.taken(found.answer, choice))["to_spin"]
    assert next(one for one in kept if one["ply"] == 1 and one["row"] == 2) == {
        "ply": 1,
        "row": 2,
        "mass_g": pytest.approx(15.0 * 150 / 160),
        "length_m": pytest.approx(150.0),
    }


def test_a_piece_that_was_decided_by_grist_stays_so_whatever_is_chosen_next():
    """Foam for row 2 that was left out: 15 g that are to come to 160 m, in place of 150 m."""
    spun = [{"ply": 1, "row": 1}, {"ply": 1, "row": 3}]
    piece = {"ply": 1, "after_pieces": 2, "lot": "Foam", "mass_g": 15.0, "length_m": 160.0}
    found = replanned(two_plies(spun, plying={"wound_off": 0}, to_spin=[piece]))
    kept = to_file(yc.wheel.taken(found.answer, found.named("carry_on")))["to_spin"]
    assert kept == [piece | {"length_m": pytest.approx(160.0)}]


WITHOUT_STEPS = [name for name in EVERY_SCHEME if name != "gradient"]
"""Schemes that card no lots of their own."""


@pytest.mark.parametrize("scheme", WITHOUT_STEPS)
@given(st.data())
def test_plan_and_ways_to_go_on_lack_the_same_grams(scheme, data):
    """What lots had, less what was lost, less what lies spun, against what rows to spin take."""
    drawn = data.draw(spun_plans(scheme))
    names = [lot["name"] for lot in drawn["lots"]]
    lost = data.draw(st.lists(st.sampled_from(names), max_size=3, unique=True))
    mass_g = {lot["name"]: lot["mass_g"] for lot in drawn["lots"]}
    drawn["lost"] = [{"lot": name, "mass_g": round(mass_g[name] * 0.3, 3)} for name in lost]
    kept = 1 - drawn["spinning"]["card_loss"]
    left_g = {name: mass_g[name] * kept for name in names}
    for one in drawn["lost"]:
        left_g[one["lot"]] -= one["mass_g"] * kept
    told = answered(drawn)
    for portion in (portion for single in told["singles"] for portion in single["portions"]):
        if portion["lot"] in left_g:
            left_g[portion["lot"]] -= portion["mass_g"]
    expected = {name: -grams for name, grams in left_g.items() if -grams > 1e-6}
    found = replanned(drawn)
    now = {names[one.lot]: one.missing_g for one in found.choices[0].short if one.missing_g}
    step_g = drawn["scale"]["step_g"] * kept
    for name, grams in expected.items():
        if grams > step_g:
            assert now[name] == pytest.approx(grams, rel=1e-6)
    assert set(now) <= set(expected)
    missing = {one["lot"]: one["mass_g"] for one in told["missing"] if one["why"] == "spun"}
    assert missing == pytest.approx({name: grams / kept for name, grams in now.items()})


REPEATED = re.compile(r"takes ([\d.]+) g(?:(?!takes)[^,;])*, not \1 g|(?<![\d.])0(\.0+)? g\b")
"""The same grams before and after, or none."""


@pytest.mark.parametrize("scheme", EVERY_SCHEME)
@given(st.data())
def test_no_way_is_told_that_scale_and_hand_cannot_show(scheme, data):
    found = replanned(data.draw(spun_plans(scheme)))
    told = [hands_text(found, choice) for choice in found.choices]
    others = [matters_text(found), reason_text(found)]
    others += [possible_text(found, choice) for choice in found.choices]
    for line in (*told, *others):
        assert not REPEATED.search(line), line
    assert told.count("change nothing") == 1
    rows = yc.wheel.numbers(found)["choices"]
    for one in rows[1:]:
        assert one["possible"] == "grist" or one["rows"] != rows[0]["rows"] or one["pull_off"]


def test_what_is_made_up_after_an_end_was_drawn_off_is_spun_onto_what_is_left():
    """The end goes first: told is what comes of it, whichever was decided before."""
    lots = [{"name": name, "colour": "#56612d", "mass_g": 20.0} for name in "ABCD"]
    tables = {"scheme": {"name": "matched", "plies": 2}, "spinning": {"single_tex": 100.0}}
    spun = [{"ply": 1, "row": 1}, {"ply": 1, "row": 3}, {"ply": 1, "row": 4, "mass_g": 12.0}]
    spun += [{"ply": 2, "row": row} for row in (1, 2, 3, 4)]
    found = yc.answer(yc.plan_from_data({"lots": lots, **tables, "spun": spun}))
    for name in ("pull_off", "make_up"):
        choice = yc.wheel.replan(found).named(name)
        found = yc.answer(yc.plan_from_data(to_file(yc.wheel.taken(found, choice))))
        assert yc.wheel.replan(found).choices[0].as_planned == pytest.approx(choice.as_planned)
    own = found.layout.wheel.pieces
    assert own.lot[own.of_ply(0)].tolist() == [0, 2, 3, 1]
    assert own.length_m[own.of_ply(0)].tolist() == pytest.approx([100, 100, 100, 100])


def test_rows_to_spin_are_found_by_their_numbers():
    """Nothing of ply 1, and row 1 of ply 2 is spun."""
    data = by_hand({"Kelp": 20.0, "Foam": 20.0}, scheme={"plies": 2}, spun=[{"ply": 2, "row": 1}])
    rows = replanned(data).choices[0].rows
    assert (rows.of_ply(0), rows.of_ply(1)) == ({1: 0, 2: 1}, {2: 2})


def test_a_way_that_is_taken_decides_only_rows_that_change():
    """14 g in place of 10 g of 65 g: to run out, rows of 55 g share 51 g; to carry on, none do."""
    rows = [("Kelp", 10.0), ("Foam", 20.0), ("Slate", 30.0), ("Kelp", 5.0)]
    portions = [{"ply": 1, "lot": lot, "mass_g": mass_g} for lot, mass_g in rows]
    data = by_hand(
        {"Kelp": 60.0, "Foam": 60.0, "Slate": 60.0},
        scheme={"name": "free", "plies": 1, "portions": portions},
        spinning={"single_tex": 1000.0},
        spun=[{"ply": 1, "row": 1, "length_m": 14.0, "mass_g": 14.0}],
    )
    found = replanned(data)
    on, out = (
        yc.wheel.taken(found.answer, found.named(name)).to_spin for name in ("carry_on", "run_out")
    )
    assert on == ()
    assert [one.row for one in out] == [2, 3, 4]
    assert [one.mass_g for one in out] == pytest.approx([20 * 51 / 55, 30 * 51 / 55, 5 * 51 / 55])


def test_what_stays_in_a_heap_is_told_by_its_heap_alone():
    """To run out, pieces of 0.75 g would take 0.6 g; on half grams their heap of 3 g is weighed."""
    data = by_hand(
        {"Kelp": 60.0, "Foam": 6.0},
        scheme={"name": "fractal", "divisions": [4, 4]},
        scale={"step_g": 0.5},
        spinning={"single_tex": 100.0},
        spun=[{"ply": 1, "row": 1, "mass_g": 12.0, "length_m": 120.0}],
    )
    found = replanned(data)
    deeds = what_hands_do(found.choices[0], found.named("run_out"))
    assert [(one.row, one.lot) for one in deeds[:-1]] == [(3, 0), (5, 0), (7, 0)]
    assert deeds[-1] == HeapChanged(0, 1, 3.0, 2.5)


def test_a_grist_in_place_of_fibre_goes_by_what_spinning_leaves():
    """Tex are grams of single: with a tenth of them lost they are 100 over the same factor."""
    spun = [{"ply": 1, "row": 1, "mass_g": 13.0}, {"ply": 2, "through": 3}]
    lossy = {"single_tex": 100.0, "spin_loss": 0.1}
    data = two_plies(spun, plying={"wound_off": 1}, spinning=lossy)
    choice = replanned(data).named("in_step")
    assert choice.possible == "grist"
    assert choice.grist_instead_tex[0] == pytest.approx(100 / choice.factors[0])
