"""A single that came to its end while plying: lengths in line with it, reckoned by hand."""

from dataclasses import replace
from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

import yarncolor as yc
from tests.helpers.strategies import answered, by_hand
from yarncolor.layout.ended import InLine, Misfit, WrongEnd
from yarncolor.layout.layout import in_line, layout
from yarncolor.layout.resolved import resolve
from yarncolor.plan import Plied

PLAN = by_hand(
    {"Kelp": 36.0, "Foam": 36.0},
    scheme={"plies": 3},
    spinning={"single_tex": 100.0},
    plying={"contraction": 0.1},
    bobbins={"plying_tare_g": 90.0},
)
"""On each of three plies 12 g of Kelp and of Foam, 120 m each: 240 m of single, 216 m of yarn."""


def ended(at_m: float, *spun: dict, ply: int = 2, **tables: dict):
    plied = {"ended_ply": ply, "at_m": at_m}
    return yc.answer(yc.plan_from_data(PLAN | {"plied": plied, "spun": [*spun]} | tables))


def lengths_m(found, ply: int = 2) -> list[float]:
    own = found.layout.portions.of_ply(ply - 1)
    return found.layout.portions.length_m[own].tolist()


@given(st.floats(20.0, 216.0))
def test_the_single_is_as_long_as_the_yarn_before_plying(at_m):
    found = ended(at_m)
    assert sum(lengths_m(found)) == pytest.approx(at_m / 0.9)
    assert found.layout.stretches.yarn_m == pytest.approx(at_m)
    assert lengths_m(found, 1) == pytest.approx([120, 120])
    assert lengths_m(found)[0] == pytest.approx(lengths_m(found)[1])


def test_measured_pieces_keep_their_metres():
    """180 m of yarn took 200 m of single, of which 130 m of Kelp were measured."""
    found = ended(180.0, {"ply": 2, "row": 1, "length_m": 130.0})
    assert lengths_m(found) == pytest.approx([130, 70])


def test_grams_stay_where_metres_change():
    found = ended(180.0)
    own = found.layout.portions.of_ply(1)
    assert found.layout.portions.mass_g[own] == pytest.approx([12, 12])
    assert found.layout.portions.tex[own] == pytest.approx([120, 120])
    assert found.layout.yarn_tex == pytest.approx(24 / 180 * 1000 + 2 * 20 / 180 * 1000)


def test_where_all_are_measured_the_length_lost_is_found():
    """115 m and 125 m measured made 204 m of yarn: 15 of 100 were lost."""
    measured = ({"ply": 2, "row": at + 1, "length_m": m} for at, m in enumerate((115.0, 125.0)))
    found = ended(204.0, *measured)
    assert lengths_m(found) == [115, 125]
    assert found.resolved.contraction == pytest.approx(0.15)
    assert found.layout.stretches.yarn_m == pytest.approx(204.0)
    assert found.resolved.yarn.provenance["contraction"] == "measured"


def test_another_ply_that_was_reckoned_shorter_is_as_long():
    """Of ply 3 the Foam was left out: 120 m. Ply 2 ran for 180 m of yarn, so ply 3 did too."""
    found = ended(180.0, {"ply": 3, "row": 2}, {"ply": 3, "lot": "Kelp", "mass_g": 1.0})
    assert found.layout.ended.also == (2,)
    assert sum(lengths_m(found, 3)) == pytest.approx(200)
    assert lengths_m(found, 1) == pytest.approx([120, 120])


def test_of_a_chain_the_single_is_three_times_as_long():
    tables = {"scheme": {"name": "chain"}}
    found = ended(210.0, ply=1, **tables)
    assert sum(lengths_m(found, 1)) == pytest.approx(3 * 210 / 0.9)
    assert found.layout.stretches.yarn_m == pytest.approx(210.0)


def test_by_weight_the_yarn_s_grist_says_after_how_much():
    """300 tex of single less a tenth of the length: 333 g in 1,000 m, so 60 g are 180 m."""
    plied = {"ended_ply": 2, "at_gross_g": 150.0}
    found = yc.answer(yc.plan_from_data(PLAN | {"plied": plied}))
    assert found.layout.stretches.yarn_m == pytest.approx(180.0)


def test_where_in_plying_is_at_that_end_where_nothing_else_is_said():
    place = answered(PLAN | {"plied": {"ended_ply": 2, "at_m": 180.0, "turn_m": 1.5}})["where"]
    assert (place["yarn_m"], place["left_m"], place["turn"]) == (pytest.approx(180), 0, 120)


def test_an_end_is_told_in_words():
    told = yc.summary_text(ended(180.0))
    assert (
        "Ply 2 ran out after 180 m of yarn. So its single was 200 m, not 240 m: what was not "
        "measured of it is reckoned shorter, with the same grams."
    ) in told


MEASURED = ({"ply": 2, "row": 1, "length_m": 70.0}, {"ply": 2, "row": 2, "length_m": 90.0})


def in_line_of(at_m: float, *spun: dict) -> InLine | WrongEnd:
    """Return what is made of an end of ply 2, before any reader of files has looked at it."""
    plan = yc.plan_from_data(PLAN | {"spun": [{"ply": 1, "row": 1}, *spun]})
    ends = replace(plan, plied=Plied(ended_ply=2, at_m=at_m))
    return in_line(replace(layout(resolve(plan)), resolved=resolve(ends)))


@pytest.mark.parametrize(
    ("at_m", "spun", "why", "least_m", "most_m"),
    [
        (50.0, MEASURED[:1], Misfit.MEASURED, 70 * 0.9, inf),
        (50.0, MEASURED, Misfit.LOST, 160 * 0.4, 160 * 1.2),
        (400.0, MEASURED, Misfit.LOST, 160 * 0.4, 160 * 1.2),
        (400.0, (), Misfit.BEYOND, 0.0, 216.0),
    ],
    ids=["measured in part", "too much lost", "too much won", "beyond the others"],
)
def test_what_is_told_as_right_is_right_and_what_lies_beyond_is_not(
    at_m, spun, why, least_m, most_m
):
    wrong = in_line_of(at_m, *spun)
    assert wrong.why is why
    assert (wrong.least_m, wrong.most_m) == (pytest.approx(least_m), pytest.approx(most_m))
    for end_m, beyond in ((wrong.least_m, 1 - 1e-6), (wrong.most_m, 1 + 1e-6)):
        if 0 < end_m < inf:
            assert isinstance(in_line_of(end_m, *spun), InLine)
            assert isinstance(in_line_of(end_m * beyond, *spun), WrongEnd)


def test_what_was_not_measured_is_never_left_without_metres():
    """Ended where the measured 70 m do, there would be no metre of the Foam."""
    assert isinstance(in_line_of(70 * 0.9, *MEASURED[:1]), WrongEnd)


def test_of_a_chain_a_third_of_what_was_measured_is_yarn():
    """240 m measured are 80 m of chain: from 32 m to 96 m where 0.6 to -0.2 of it are lost."""
    spun = [{"ply": 1, "row": row, "length_m": 120.0} for row in (1, 2)]
    plan = PLAN | {"scheme": {"name": "chain"}, "spun": spun}
    with pytest.raises(yc.PlanError, match=r"give 32\.0 m to 96\.0 m of yarn"):
        yc.plan_from_data(plan | {"plied": {"ended_ply": 1, "at_m": 97.0}})


def test_an_end_says_nothing_where_a_plan_is_tried_with_fewer_plies_than_were_spun():
    spun = [{"ply": 3, "row": 1}]
    plan = yc.plan_from_data(PLAN | {"plied": {"ended_ply": 1, "at_m": 180.0}, "spun": spun})
    tried = layout(resolve(replace(plan, scheme=replace(plan.scheme, plies=2))))
    assert tried.wheel is None
    assert tried.ended is None
    assert in_line(tried) is None


def test_an_end_of_a_ply_that_a_plan_is_tried_without_says_nothing():
    plan = yc.plan_from_data(PLAN | {"plied": {"ended_ply": 3, "at_m": 180.0}})
    tried = layout(resolve(replace(plan, scheme=replace(plan.scheme, plies=2))))
    assert tried.wheel is not None
    assert in_line(tried) is None
    last = replace(plan, scheme=replace(plan.scheme, plies=3))
    assert in_line(layout(resolve(last))) is not None


def test_a_single_may_end_after_half_a_metre():
    assert isinstance(in_line_of(0.5), InLine)
    assert in_line_of(0.0) is None
