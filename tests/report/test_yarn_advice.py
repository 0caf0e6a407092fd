"""Advice on the yarn as a body: for each kind a plan that needs it, word for word, and one not."""

import pytest

from tests.helpers.strategies import advised, by_hand

LOTS = {"Kelp": 30.0, "Foam": 30.0, "Wrack": 30.0}
"""On three plies of 100 tex: 300 m each."""


def plan_of(masses: dict[str, float] = LOTS, **tables: dict) -> dict:
    return by_hand(masses, **tables)


def told(data: dict, kind: str) -> list[str]:
    return [text for own, text in advised(data) if own == kind]


# --- twist -----------------------------------------------------------------------------------

OPENS = (
    "as the yarn is plied, and the others are not. A bobbin spun the other way cannot be plied "
    "in: it winds tight while the rest open. Spin it anew, or keep it for another yarn."
)


@pytest.mark.parametrize(
    ("directions", "plying", "text"),
    [
        (["Z", "S", "Z"], {}, f"Ply 2 is spun anticlockwise (S), {OPENS}"),
        (["S", "S", "Z"], {}, f"Ply 3 is spun clockwise (Z), {OPENS}"),
        (["Z", "S", "S"], {}, f"Ply 1 is spun clockwise (Z), {OPENS}"),
        (
            ["Z", "S", "S"],
            {"direction": "S"},
            f"Ply 2 and ply 3 are spun anticlockwise (S), {OPENS}",
        ),
    ],
)
def test_a_bobbin_spun_the_other_way_cannot_be_plied_in(directions, plying, text):
    """Without a direction of the ply, most of the singles say which one is wrong."""
    data = plan_of(spinning={"direction": directions}, plying=plying)
    assert told(data, "wrong_twist") == [text]


def test_plied_the_way_it_was_spun():
    data = plan_of(spinning={"direction": "Z"}, plying={"direction": "Z"})
    assert told(data, "wrong_twist") == [
        "Singles and yarn are all twisted clockwise (Z): plying adds twist to the singles instead "
        "of taking some out, and the yarn kinks. Ply the other way."
    ]


@pytest.mark.parametrize(
    "tables",
    [
        {},
        {"spinning": {"direction": "S"}},
        {"spinning": {"direction": ["Z", "Z", "Z"]}, "plying": {"direction": "S"}},
        {"plying": {"direction": "Z"}},
        {"scheme": {"plies": 1}, "spinning": {"direction": "Z"}, "plying": {"direction": "Z"}},
    ],
)
def test_twist_that_goes_together_is_not_told(tables):
    assert told(plan_of(**tables), "wrong_twist") == []


def test_twist_steeper_than_the_formulas_hold():
    """Two plies of 1 mm: tan β = π d U, 45° at 318.31 turns a metre."""
    data = plan_of(
        scheme={"plies": 2},
        spinning={"single_tex": 392.69908, "twist_angle_deg": 45.0},
        plying={"twist_tpm": 318.30989},
    )
    assert told(data, "steep_twist") == [
        "The singles' fibres stand at 45°; above 40° the formulas no longer hold and singles "
        "kink. Twist less, or measure a sample.",
        "The plies stand at 45° in the yarn; above 40° the formulas no longer hold. Twist less, "
        "or measure a sample.",
    ]


@pytest.mark.parametrize(
    "spinning", [{}, {"twist_angle_deg": 39.9}, {"twist_angle_deg": [20.0, 39.9, 30.0]}]
)
def test_twist_that_the_formulas_hold_for_is_not_told(spinning):
    data = plan_of(spinning=spinning, plying={"twist_tpm": 250.0})
    assert told(data, "steep_twist") == []


RULES = "these ask for between 3.5 and 5.1 turns to the inch"
"""300 turns a metre, three plies: 300 / (1 + 2/√3) = 139 at least, two thirds of 300 at most."""


def test_too_little_ply_twist_for_any_rule():
    data = plan_of(spinning={"twist_tpm": 300.0}, plying={"twist_tpm": 100.0})
    assert told(data, "balance") == [
        f"Plied with 2.5 turns to the inch, less than any rule for a balanced yarn: {RULES}. The "
        "skein will twist back on itself; good for an energised fabric, else ply tighter."
    ]


def test_too_much_ply_twist_for_any_rule():
    data = plan_of(spinning={"twist_tpm": 300.0}, plying={"twist_tpm": 260.0})
    assert told(data, "balance") == [
        f"Plied with 6.6 turns to the inch, more than any rule for a balanced yarn: {RULES}. Firm "
        "and lively; if that is not meant, ply looser or spin the singles tighter."
    ]


@pytest.mark.parametrize(
    ("spinning", "plying"),
    [
        ({"twist_tpm": 300.0}, {"twist_tpm": 140.0}),
        ({"twist_tpm": 300.0}, {"twist_tpm": 199.0}),
        ({"twist_tpm": 300.0}, {}),
        ({}, {"twist_tpm": 100.0}),
        ({"twist_tpm": 300.0, "direction": "Z"}, {"twist_tpm": 100.0, "direction": "Z"}),
        *(
            ({"twist_tpm": 300.0}, {"balance": rule})
            for rule in ("two_thirds", "equal_factor", "parallel_fibres", "equal_length")
        ),
    ],
)
def test_twist_between_the_rules_or_unknown_is_not_told(spinning, plying):
    assert told(plan_of(spinning=spinning, plying=plying), "balance") == []


# --- bobbins ---------------------------------------------------------------------------------


WAYS_OUT = (
    "Either (1) wind every single off once, on balls or other bobbins: the yarn then begins with "
    "what was spun first; or (2) borrow 1 more; or (3) wind one single off "
    "twice, or spin it in reverse order. A single wound off just once, alone, runs backwards "
    "against the rest."
)


@pytest.mark.parametrize(
    ("bobbins", "said"),
    [
        ({"count": 3}, "4 bobbins are needed, 3 full and 1 to ply on; 3 fit the wheel."),
        ({"count": 2, "plying_count": 1}, "3 bobbins are needed, 3 full; 2 fit the wheel."),
    ],
)
def test_one_bobbin_too_few(bobbins, said):
    text = f"To ply straight from them {said} {WAYS_OUT}"
    assert told(plan_of(bobbins=bobbins), "few_bobbins") == [text]


def test_where_two_bobbins_are_missing_winding_one_single_off_is_not_enough():
    (text,) = told(plan_of(bobbins={"count": 1, "plying_count": 1}), "few_bobbins")
    assert "3 bobbins are needed, 3 full; 1 fits the wheel." in text
    assert "borrow 2 more" in text
    assert "wind one single off twice" not in text


def test_a_yarn_of_one_ply_on_more_bobbins_than_there_are():
    data = plan_of(scheme={"plies": 1}, bobbins={"count": 2, "capacity_g": 30.0})
    assert told(data, "few_bobbins") == [
        "The single fills 3 bobbins; 2 fit the wheel. Wind each full bobbin off into a skein "
        "before you spin the next."
    ]


def test_one_bobbin_for_a_chain():
    data = plan_of(scheme={"name": "chain"}, bobbins={"count": 1})
    assert told(data, "few_bobbins") == [
        "To ply straight from them 2 bobbins are needed, 1 full and 1 to ply on; 1 fits the wheel. "
        "Wind the single off on something else: once turns its colours round, twice brings them "
        "back."
    ]


@pytest.mark.parametrize(
    "tables",
    [
        {},
        {"bobbins": {"count": 4}},
        {"bobbins": {"count": 3, "plying_count": 1}},
        {"bobbins": {"count": 1}, "plying": {"wound_off": 1}},
        {"bobbins": {"count": 1}, "plying": {"wound_off": 2}},
        {"bobbins": {"count": 2}, "plying": {"wound_off": [0, 2, 2]}},
        {"bobbins": {"count": 1}, "scheme": {"plies": 1}},
        {"bobbins": {"count": 2}, "scheme": {"name": "chain"}},
    ],
)
def test_bobbins_enough_or_wound_off_are_not_told(tables):
    assert told(plan_of(**tables), "few_bobbins") == []


def test_a_single_on_several_bobbins():
    """Ply 1 holds 10 + 10 + 10 g: 10 g fit a bobbin."""
    data = plan_of(scheme={"plies": 3}, bobbins={"capacity_g": 10.0})
    changes = "change after row 1, Kelp; after row 2, Foam"
    assert told(data, "full_bobbin") == [
        f"Ply 1 ({changes}), ply 2 ({changes}) and ply 3 ({changes}) fill several bobbins of 10 g. "
        "In plying, the bobbin filled last comes off first, then the one before."
    ]


def test_a_portion_larger_than_a_bobbin():
    data = plan_of(
        {"Kelp": 25.0}, scheme={"plies": 1}, plying={"wound_off": 1}, bobbins={"capacity_g": 10.5}
    )
    assert told(data, "full_bobbin") == [
        "The single (change within row 1, Kelp; within row 1, Kelp) fills several bobbins of 10.5 "
        "g."
    ]


def test_bobbins_of_plies_that_were_wound_unlike():
    data = plan_of(
        {"Kelp": 30.0, "Foam": 30.0},
        scheme={"plies": 2},
        plying={"wound_off": [1, 0]},
        bobbins={"capacity_g": 20.0},
    )
    assert told(data, "full_bobbin") == [
        "Ply 1 (change after row 1, Kelp) and ply 2 (change after row 1, Kelp) fill several "
        "bobbins of 20 g. In plying, the bobbin of ply 2 filled last comes off first, then the one "
        "before. In plying, the bobbin of ply 1 filled first comes off first, then the next."
    ]


@pytest.mark.parametrize("bobbins", [{}, {"capacity_g": 30.0}, {"count": 1}])
def test_a_single_that_fits_its_bobbin_is_not_told(bobbins):
    assert told(plan_of(bobbins=bobbins), "full_bobbin") == []


# --- skeins ----------------------------------------------------------------------------------

TAG = "Tag both ends; knit on from the far end of one skein into the near end of the next."


@pytest.mark.parametrize(
    ("tables", "capacity", "said"),
    [
        (
            {},
            40.0,
            "3 times: break it at about 100.0 m, where all plies change; at about 200.0 m, "
            "where all plies change.",
        ),
        ({"scheme": {"plies": 1}}, 60.0, "2 times: break it at about {} m, where one ply changes."),
        (
            {"scheme": {"name": "solid", "plies": 3}},
            80.0,
            "2 times: break it at about 150.0 m, where 2 plies change.",
        ),
        (
            {"scheme": {"plies": 2, "sequence": ["Kelp"]}},
            20.0,
            "2 times: break it at about 75.0 m, where no ply changes.",
        ),
    ],
)
def test_a_yarn_too_much_for_the_plying_bobbin(tables, capacity, said):
    data = plan_of(**tables, bobbins={"plying_capacity_g": capacity})
    found = told(data, "skeins")
    either = [said.format(metre) for metre in ("300.0", "600.0")]
    assert found in [[f"The yarn fills the plying bobbin {text} {TAG}"] for text in either]


@pytest.mark.parametrize("bobbins", [{}, {"plying_capacity_g": 90.0}, {"capacity_g": 10.0}])
def test_a_yarn_that_fits_the_plying_bobbin_is_not_told(bobbins):
    assert told(plan_of(bobbins=bobbins), "skeins") == []


# --- hours -----------------------------------------------------------------------------------


def test_a_pace_that_no_flyer_keeps():
    data = plan_of(spinning={"treadles_per_min": 151.0, "drive_ratio": 10.0})
    assert told(data, "hours") == [
        "At this pace the flyer would turn 1,510 times a minute; above 1,500 is implausible "
        "on a wheel driven by foot; a motor may give more. Check minutes, treadling, ratio and "
        "twist."
    ]


def test_two_ways_to_the_hours():
    """90 g at half a minute: 45 minutes; 900 m of 200 turns at 600 a minute: 5 hours."""
    spinning = {"minutes_per_g": 0.5, "treadles_per_min": 60.0, "drive_ratio": 10.0}
    data = plan_of(spinning=spinning | {"twist_tpm": 60.0})
    assert told(data, "hours") == [
        "Two ways to the hours disagree: 45 min by minutes for a gram, 1.5 h by treadling, ratio "
        "and twist. The first is counted; time a few grams to see which is right."
    ]


def test_hours_that_can_be_are_not_told():
    spinning = {"minutes_per_g": 3.0, "treadles_per_min": 60.0, "drive_ratio": 10.0}
    assert told(plan_of(spinning=spinning | {"twist_tpm": 200.0}), "hours") == []
    assert told(plan_of(), "hours") == []


# --- unevenness ------------------------------------------------------------------------------


def test_how_much_shorter_an_uneven_yarn_is():
    """One lot: 300 m ± 8 % on three plies, 0.8463 · 24 m = 20.3 m."""
    data = plan_of({"Kelp": 90.0}, spinning={"variation": 0.08}, scale={"step_g": 0.001})
    assert told(data, "uneven") == [
        "Spun as unevenly as you say, one single runs out early: expect the yarn 20 m shorter than "
        "planned, and about 20 m of single on each bobbin in the mean. Keep to the stop-and-weigh "
        "points to do better."
    ]


@pytest.mark.parametrize(
    "tables",
    [
        {},
        {"spinning": {"variation": 0.001}},
        {"spinning": {"variation": 0.08}, "scheme": {"plies": 1}},
        {"spinning": {"variation": 0.08}, "scheme": {"name": "chain"}},
        {"spinning": {"variation": 0.08}, "target": {"yarn_m": 5.0}},
    ],
)
def test_less_than_a_metre_is_not_told(tables):
    assert told(plan_of(**tables), "uneven") == []


# --- moisture --------------------------------------------------------------------------------


def damp(*regains: float | None, **tables: dict) -> dict:
    data = plan_of({"Kelp": 27.0, "Foam": 27.0}, **tables)
    for lot, regain in zip(data["lots"], regains, strict=True):
        if regain is not None:
            lot["regain"] = regain
    return data


SITTING = (
    "of mass, and no metre: shares and grist are out by so much. Weigh everything anew at one "
    "sitting."
)


def test_lots_weighed_in_different_air():
    """27 · 1.16 / 1.10 = 28.47 g."""
    assert told(damp(0.16, 0.10), "moisture") == [
        "Lots were weighed in different air: on the day of Kelp, Foam 27.0 g would be 28.5 g. Up "
        f"to 5.5% {SITTING}"
    ]


def test_lots_weighed_in_another_air_than_that_of_the_day():
    """27 · 1.14 / 1.16 = 26.53 g and 27 · 1.14 / 1.10 = 27.98 g."""
    assert told(damp(0.16, 0.10, scale={"regain": 0.14}), "moisture") == [
        "Lots were weighed in different air: on the day of weighing out, Kelp 27.0 g would be "
        f"26.5 g and Foam 27.0 g would be 28.0 g. Up to 3.6% {SITTING}"
    ]


@pytest.mark.parametrize(
    ("regains", "scale"),
    [
        ((None, None), {}),
        ((0.16, None), {}),
        ((0.16, 0.16), {}),
        ((0.16, 0.16), {"regain": 0.16}),
        ((None, None), {"regain": 0.16}),
    ],
)
def test_lots_weighed_in_the_same_air_are_not_told(regains, scale):
    assert told(damp(*regains, scale=scale), "moisture") == []


# --- what is knitted -------------------------------------------------------------------------

HAND = {"stitches": 100, "rows": 200, "gauge_stitches": 20.0, "gauge_rows": 28.0}


def test_a_piece_that_takes_more_than_there_is():
    """20,000 stitches of 1.964 cm and 3 m of edges are 395.8 m; (300 - 3) / 1.964 = 151.2 rows.

    Each lot gives 30 g of 300 m: 9.58 g more of each for the other 95.8 m.
    """
    assert told(plan_of(fabric=HAND), "short_of_piece") == [
        "The piece takes 396 m of washed yarn and this plan makes 300 m: 151 of 200 rows. The "
        "stash does not hold the rest: it would take 9.6 g of Kelp, 9.6 g of Foam and 9.6 g of "
        "Wrack more. Knit what it gives, cast on fewer stitches, or spin finer."
    ]


def test_what_still_lies_in_the_drawer_is_carded_for_the_rest():
    """Only 200 of the 300 m that there are fibre for are made; the piece takes 297.6 m."""
    data = plan_of(fabric=HAND | {"rows": 150}, target={"yarn_m": 200.0})
    (text,) = told(data, "short_of_piece")
    assert text.endswith("For the rest, card 9.8 g of Kelp, 9.8 g of Foam and 9.8 g of Wrack more.")


@pytest.mark.parametrize(
    "fabric",
    [{}, HAND | {"rows": 151}, {key: HAND[key] for key in ("stitches", "gauge_stitches")}],
)
def test_a_piece_that_there_is_enough_for_is_not_told(fabric):
    assert told(plan_of(fabric=fabric), "short_of_piece") == []


def test_just_as_much_as_it_takes_is_enough():
    """27 rows of 100 stitches and the edges, of a yarn made to that length."""
    needs_m = 27 * 100 * (21.6 / 5.6) ** 0.5 / 100 + 3
    data = plan_of(fabric=HAND | {"rows": 27}, target={"yarn_m": needs_m})
    assert told(data, "short_of_piece") == []


def test_rows_of_a_round_are_rounds():
    (text,) = told(plan_of(fabric=HAND | {"kind": "round"}), "short_of_piece")
    assert "151 of 200 rounds" in text


def test_a_gauge_looser_than_usual():
    """√300 / 1.964 = 8.82."""
    assert told(plan_of(fabric=HAND), "gauge") == [
        "At 20 stitches in 10 cm the fabric is open (how much yarn there is for its stitches: "
        "8.8 in numbers, 9 to 19 is usual). Knit a swatch."
    ]


def test_a_gauge_tighter_than_is_knitted():
    """√1500 / 1.964 = 19.72."""
    data = plan_of(fabric=HAND, spinning={"single_tex": 500.0})
    assert told(data, "gauge") == [
        "At 20 stitches in 10 cm the fabric is board-like (how much yarn there is for its "
        "stitches: 19.7 in numbers, 9 to 19 is usual). Knit a swatch."
    ]


def test_a_stitch_that_holds_too_little_of_a_thick_yarn():
    """900 tex: 1.514 mm thick, 16.67 of that are 25 mm; 19.6 mm are below 0.8 of it."""
    data = plan_of(fabric=HAND, spinning={"single_tex": 300.0})
    assert told(data, "gauge") == [
        "At 20 stitches in 10 cm a stitch holds 20 mm of yarn; one of this thickness jams at about "
        "25 mm. Knit a swatch."
    ]


def swatch(mass_g: float) -> dict:
    """Return a plan whose swatch of 1200 stitches of 300 tex weighs so much."""
    return plan_of(fabric=HAND | {"swatch": {"stitches": 30, "rows": 40, "mass_g": mass_g}})


def test_a_swatch_that_the_gauge_contradicts():
    """4.5 g of 300 tex are 15 m, 12.5 mm in each stitch; the gauge says 19.6 mm."""
    assert told(swatch(4.5), "gauge") == [
        "The swatch says 12.5 mm of yarn in a stitch, the gauge 19.6 mm: one of them is not of "
        "this fabric. The swatch is counted."
    ]


@pytest.mark.parametrize(("rows", "tex"), [(18.0, 200.0), (44.0, 130.0)])
def test_a_gauge_of_no_plain_knitting(rows, tex):
    """0.9 to 2.2 rows for a stitch are let pass."""
    data = plan_of(fabric=HAND | {"gauge_rows": rows, "rows": 20}, spinning={"single_tex": tex})
    assert told(data, "gauge") == [
        f"20 stitches and {rows:g} rows in 10 cm are no plain knitting, which has 1.2 to 1.5 rows "
        "for a stitch. Count both once more."
    ]


@pytest.mark.parametrize("mass_g", [5.5, 6.0, 6.5])
def test_a_swatch_that_goes_with_the_gauge_is_not_told(mass_g):
    assert told(swatch(mass_g), "gauge") == []


@pytest.mark.parametrize("tex", [110.0, 150.0, 200.0])
def test_a_usual_gauge_is_not_told(tex):
    data = plan_of(fabric=HAND, spinning={"single_tex": tex})
    assert told(data, "gauge") == []


# --- order -----------------------------------------------------------------------------------


def test_what_spoils_the_yarn_stands_first():
    data = plan_of(
        scheme={"plies": 3},
        spinning={"direction": ["Z", "S", "Z"], "variation": 0.1, "twist_angle_deg": 45.0},
        plying={"wound_off": [0, 1, 0], "twist_tpm": 60.0},
        bobbins={"count": 2, "capacity_g": 15.0, "plying_capacity_g": 50.0},
        fabric=HAND | {"rows": 2000},
    )
    kinds = list(dict.fromkeys(kind for kind, _ in advised(data)))
    assert kinds[:3] == ["mixed_winding", "wrong_twist", "few_bobbins"]
    assert kinds[3:] == [
        *(
            "short_of_piece",
            "steep_twist",
            "unlike_plies",
            "full_bobbin",
            "skeins",
            "uneven",
            "gauge",
        ),
    ]
