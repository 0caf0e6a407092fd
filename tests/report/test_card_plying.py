"""The card's plying: check points, how many bobbins, how they are wound off."""

from collections import Counter

import numpy as np
import pytest

import yarncolor as yc
from tests.helpers.card_reader import THREE, Node, answered, card, words
from tests.helpers.strategies import DIVIDING, bare_scheme, by_hand
from yarncolor.report.card.points import most_telling, told_apart

# --- plying ----------------------------------------------------------------------------------


def points_on(page: Node) -> list[tuple]:
    """Return metre, ply, from and to of every change; the metre stands once for all of them."""
    told, metre = [], ""
    for row in page.all("tr", "change"):
        cells = row.cells()
        metre = cells[1] if len(cells) > 4 else metre
        told += [(metre, ply, *cells[-2:]) for ply in cells[-3].split(", ")]
    return told


@pytest.mark.parametrize("name", [name for name in DIVIDING if name not in ("chain", "free")])
def test_check_points_are_those_of_the_plan(name):
    data = by_hand(THREE, scheme=bare_scheme(name, [*THREE], 2) | {"plies": 2})
    told = Counter(
        (metre, number, before, after)
        for metre, ply, before, after in points_on(card(data))
        for number in (("1", "2") if ply == "all" else (ply,))
    )
    points = yc.to_dict(answered(data))["check_points"]
    assert told == Counter(
        (f"{at['yarn_m']:.1f} m", str(at["ply"]), at["from"], at["to"]) for at in points
    )
    assert points


def test_check_points_weigh_what_is_plied_so_far():
    data = by_hand({"Kelp": 30.0, "Foam": 30.0}, plying={"contraction": 0.1})
    (row,) = card(data).all("tr", "change")
    assert row.cells() == ["", "90.0 m", "30.0 g", "all", "Foam", "Kelp"]


@pytest.mark.parametrize(
    ("wound_off", "joins"),
    [
        (0, [("30.0 m", "Wrack", "Foam"), ("70.0 m", "Foam", "Kelp")]),
        (1, [("30.0 m", "Kelp", "Foam"), ("70.0 m", "Foam", "Wrack")]),
    ],
)
def test_check_points_of_a_chain_are_its_joins_at_a_third_of_the_single(wound_off, joins):
    data = by_hand({"Kelp": 9.0, "Foam": 12.0, "Wrack": 9.0}, scheme={"name": "chain"})
    page = card(data | {"plying": {"wound_off": wound_off}})
    assert [(row.cells()[1], *row.cells()[3:]) for row in page.all("tr", "change")] == joins


def test_of_too_many_check_points_those_where_most_plies_change_are_kept():
    masses = {f"Lot {number}": 30.0 for number in range(10)}
    lots = [{"name": n, "mass_g": g, "colour": "#56612d"} for n, g in masses.items()]
    data = {"lots": lots, "scheme": {"name": "fractal", "divisions": [1, 5, 10]}}
    page, found = card(data), answered(data)
    changes = (np.diff(found.layout.stretches.lot, axis=0) != 0).sum(axis=1)
    kept = [row for row in page.all("tr", "change") if len(row.cells()) > 4]
    assert len(kept) == 60
    assert f"The 60 where most plies change; {len(changes) - 60} more are left out." in words(page)
    assert len([c for c in changes if c > 1]) <= 60
    singly = [row for row in kept if row.all("td")[0].about["rowspan"] == "1"]
    assert 60 - len(singly) == len([c for c in changes if c > 1])


def test_check_points_that_hands_or_scale_cannot_tell_apart_are_left_out():
    """Two plies that change 3 g, 10 m of yarn apart: a scale of 5 g tells only one of them."""
    portions = [
        *({"ply": 1, "lot": "Kelp", "mass_g": 30.0}, {"ply": 1, "lot": "Foam", "mass_g": 33.0}),
        *({"ply": 2, "lot": "Foam", "mass_g": 31.5}, {"ply": 2, "lot": "Wrack", "mass_g": 31.5}),
    ]
    scheme = {"name": "free", "portions": portions}
    told = {}
    for step_g in (0.1, 5.0):
        data = by_hand(dict.fromkeys(THREE, 99.0), scheme=scheme, scale={"step_g": step_g})
        page = card(data)
        told[step_g] = len(page.all("tr", "change"))
        assert ("1 more are left out" in words(page)) == (step_g == 5.0)
    assert told == {0.1: 2, 5.0: 1}


def test_of_places_too_near_the_one_where_more_plies_change_is_kept():
    at_m, changes, start = np.array([0.05, 3.0, 3.05, 5.0]), np.array([3, 1, 2, 1]), np.zeros(1)
    assert told_apart(at_m, changes, start, 0.1).tolist() == [2, 3]
    assert told_apart(at_m, changes, start, 0.01).tolist() == [0, 1, 2, 3]


def test_the_most_telling_places_are_kept_evenly():
    assert most_telling(np.array([1, 3, 1, 2, 1]), 9).tolist() == [0, 1, 2, 3, 4]
    assert most_telling(np.array([1, 3, 1, 2, 1, 1, 1]), 4).tolist() == [0, 1, 3, 6]
    assert most_telling(np.ones(101, dtype=int), 5).tolist() == [0, 25, 50, 75, 100]
    assert most_telling(np.array([], dtype=int), 60).tolist() == []


@pytest.mark.parametrize(
    ("scheme", "needed"),
    [
        ({"plies": 2}, "Bobbins needed: 3, 2 full and 1 for plying."),
        ({"plies": 4}, "Bobbins needed: 5, 4 full and 1 for plying."),
        ({"name": "chain"}, "Bobbins needed: 2, 1 full and 1 for the chain."),
    ],
)
def test_bobbins_needed(scheme, needed):
    assert needed in words(card(by_hand(THREE, scheme=scheme)))


def test_a_single_is_not_plied():
    text = words(card(by_hand(THREE, scheme={"plies": 1})))
    assert "Nothing to ply: the single is the yarn." in text
    assert "Bobbins needed" not in text
    assert "If one runs out" not in text


ALONE = "All or none: a bobbin wound off alone runs backwards against the rest."


EACH = "Wind each bobbin off as often as it says below, no more and no less: all run the same way"


@pytest.mark.parametrize(
    ("wound_off", "said", "warned"),
    [(0, ALONE, False), (1, EACH, False), ([0, 2, 0], EACH, False), ([0, 1, 0], None, True)],
)
def test_winding_off_is_for_all_or_none(wound_off, said, warned):
    data = by_hand(THREE, plying={"wound_off": wound_off})
    (plying,) = card(data).all("section", "plying")
    assert [text for text in (ALONE, EACH) if text in plying.text] == ([said] if said else [])
    told = {item.kind: item.text for item in yc.advice_on(answered(data))}
    assert [node.text for node in plying.all("p", "warning")] == (
        [told["mixed_winding"]] if warned else []
    )


def test_what_to_do_if_one_runs_out_is_three_lines_and_names_what_was_kept_back():
    data = by_hand(THREE)
    data["lots"][1]["reserve_g"] = 2.0
    (plying,) = card(data).all("section", "plying")
    assert [line.text for line in plying.all("ol")[0].all("li")] == [
        "Ply on with what is left of one single: from a plying bracelet, or as a chain ply.",
        "Or spin a small top-up of the colour that ran out, from what was kept back (Foam).",
        "Or end the yarn there, and keep the rest for mending.",
    ]
    ran_out = "Or spin a small top-up of the colour that ran out, if any of its fibre is left."
    assert ran_out in words(card(by_hand(THREE)))


def test_check_points_say_how_far_they_may_stray():
    """Portions of 80 m ± 5 %: 4.0 m, then 4.0 · √2 m; 0.01 g on 8 g is nothing."""
    data = by_hand(THREE, spinning={"variation": 0.05}, scale={"step_g": 0.01})
    metres = [row.cells()[1] for row in card(data).all("tr", "change")]
    assert metres == ["80.0 m ± 4.0", "160.0 m ± 5.7"]
