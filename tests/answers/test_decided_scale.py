"""What goes on the scale once something was decided at the wheel, by hand: rows, heaps, pieces."""

import numpy as np
import pytest

import yarncolor as yc
from tests.helpers.strategies import by_hand

ROWS = [("Kelp", 10.0), ("Foam", 1.5), ("Kelp", 12.0), ("Foam", 1.5), ("Kelp", 8.0), ("Foam", 1.5)]
"""On a scale of 1 g: 4.5 g of Foam are a heap of 4 g, as each piece is below two steps."""
NONE = float("nan")


def decided(*to_spin: dict, lots: dict | None = None, rows: list = ROWS, more: tuple = ()):
    """Two rows are spun, and what more there is."""
    portions = [{"ply": 1, "lot": lot, "mass_g": mass_g} for lot, mass_g in rows]
    tables = {
        "scheme": {"name": "free", "plies": 1, "portions": portions},
        "scale": {"step_g": 1.0},
        "spun": [{"ply": 1, "through": 2}, *more],
        "to_spin": [{"ply": 1} | one for one in to_spin],
    }
    plan = by_hand(lots or {"Kelp": 90.0, "Foam": 20.0, "Slate": 20.0}, **tables)
    return yc.answer(yc.plan_from_data(plan))


def on_scale(found) -> list[float]:
    return found.layout.portions.weigh_g.tolist()


def near(expected: list[float]):
    return pytest.approx(expected, nan_ok=True)


def test_before_anything_is_decided_rows_to_spin_are_weighed_as_planned():
    found = decided()
    assert on_scale(found) == near([NONE, NONE, 12, NONE, 8, NONE])
    assert found.heaps.weigh_g.tolist() == near([4])
    assert found.heaps.group.tolist() == [-1, 0, -1, 0, -1, 0]


def test_rows_still_to_spin_are_weighed_anew_and_those_spun_keep_what_they_took():
    """Of the heap of 4 g a third is spun; the other two pieces of 1.5 g are a heap of 3 g."""
    found = decided({"row": 3, "mass_g": 20.0})
    assert on_scale(found) == near([NONE, NONE, 20, NONE, 8, NONE])
    assert found.layout.wheel.planned.weigh_g.tolist() == near([10, NONE, 20, NONE, 8, NONE])
    assert found.heaps.weigh_g.tolist() == near([4 / 3, 3])
    assert found.heaps.group.tolist() == [-1, 0, -1, 1, -1, 1]
    assert (found.heaps.ply.tolist(), found.heaps.lot.tolist()) == ([0, 0], [1, 1])


def test_a_row_that_grows_leaves_its_heap_for_the_scale():
    """3.5 g and 1.5 g of Foam: 5 whole grams in all, one of the pieces by itself."""
    found = decided({"row": 4, "mass_g": 3.5})
    weighed_g = on_scale(found)
    assert weighed_g[3] in (3.0, 4.0)
    assert weighed_g[3] + found.heaps.weigh_g[1] == pytest.approx(5.0)
    assert found.heaps.group.tolist() == [-1, 0, -1, -1, -1, 1]
    assert found.layout.wheel.planned.weigh_g[3] == weighed_g[3]


def test_a_row_left_of_a_heap_by_itself_stays_a_heap():
    found = decided({"row": 6, "mass_g": 0.0})
    assert on_scale(found) == near([NONE, NONE, 12, NONE, 8])
    assert found.heaps.weigh_g.tolist() == near([4 / 3, 1])
    assert found.heaps.group.tolist() == [-1, 0, -1, 1, -1, -1]


def test_what_was_spun_of_a_heap_took_its_share_by_grams():
    """1 g of a heap of 4 g, although it is one piece of three."""
    rows = [*ROWS[:1], ("Foam", 1.0), ROWS[2], ("Foam", 1.8), ROWS[4], ("Foam", 1.2)]
    found = decided({"row": 3, "mass_g": 20.0}, rows=rows)
    assert found.heaps.weigh_g.tolist() == near([1, 3])


def test_the_first_row_of_a_heap_took_its_share_as_any_other():
    rows = [ROWS[1], ROWS[0], *ROWS[2:]]
    found = decided({"row": 3, "mass_g": 20.0}, rows=rows)
    assert found.heaps.weigh_g.tolist() == near([4 / 3, 3])
    assert found.heaps.group.tolist() == [0, -1, -1, 1, -1, 1]


def test_a_piece_too_many_on_the_bobbin_took_nothing_of_a_heap():
    slate = {"ply": 1, "lot": "Slate", "mass_g": 3.0}
    found = decided({"row": 3, "mass_g": 20.0}, more=(slate,))
    assert found.heaps.weigh_g.tolist() == near([4 / 3, 3])


def test_the_very_first_row_is_weighed_anew_where_its_ply_is_not_begun():
    """Ply 2 is spun; row 1 of ply 1 takes 12 g in place of 10 g."""
    portions = [
        {"ply": 1, "lot": "Kelp", "mass_g": 10.0},
        {"ply": 1, "lot": "Foam", "mass_g": 8.0},
        {"ply": 2, "lot": "Foam", "mass_g": 18.0},
    ]
    tables = {
        "scheme": {"name": "free", "plies": 2, "portions": portions},
        "scale": {"step_g": 1.0},
        "spun": [{"ply": 2, "row": 1}],
        "to_spin": [{"ply": 1, "row": 1, "mass_g": 12.0}],
    }
    plan = by_hand({"Kelp": 30.0, "Foam": 30.0}, **tables)
    found = yc.answer(yc.plan_from_data(plan))
    assert on_scale(found) == near([12, 8, NONE])
    assert found.layout.wheel.planned.weigh_g.tolist() == near([12, 8, 18])


@pytest.mark.parametrize("lots", [{"Kelp": 90.0, "Foam": 20.0, "Slate": 20.0},
                                  {"Slate": 20.0, "Kelp": 90.0, "Foam": 20.0}],
                         ids=["last", "first"])  # fmt: skip
@pytest.mark.parametrize(("mass_g", "weighed_g"), [(5.0, 5.0), (1.5, 1.0), (0.4, NONE)])
def test_a_piece_that_no_row_asks_for_is_weighed_by_itself(lots, mass_g, weighed_g):
    """Wherever its lot stands in the stash; what the scale cannot show has no grams on it."""
    found = decided({"after_pieces": 2, "lot": "Slate", "mass_g": mass_g}, lots=lots)
    piece = np.flatnonzero(found.layout.wheel.of_planned < 0)
    assert found.layout.portions.weigh_g[piece].tolist() == near([weighed_g])
    assert np.delete(on_scale(found), piece).tolist() == near([NONE, NONE, 12, NONE, 8, NONE])
    rows_g = found.layout.wheel.planned.weigh_g
    assert rows_g.tolist() == near([10, NONE, 12, NONE, 8, NONE])


def test_a_piece_in_a_heap_with_rows_has_no_grams_of_its_own():
    """Foam of rows 4 and 6 and of the piece: 4.5 g, of which the scale shows 4 g."""
    found = decided({"after_pieces": 2, "lot": "Foam", "mass_g": 1.5})
    piece = np.flatnonzero(found.layout.wheel.of_planned < 0)
    assert np.isnan(found.layout.portions.weigh_g[piece]).all()
    assert found.heaps.weigh_g.tolist() == near([4 / 3, 4])


def test_what_is_weighed_together_is_on_the_scale_with_each_of_its_pieces():
    """As planned and not rounded: 4.5 g of Foam with each piece of it."""
    portions = [{"ply": 1, "lot": lot, "mass_g": mass_g} for lot, mass_g in ROWS]
    scheme = {"name": "free", "plies": 1, "portions": portions}
    plan = by_hand({"Kelp": 90.0, "Foam": 20.0}, scheme=scheme, scale={"step_g": 1.0})
    found = yc.answer(yc.plan_from_data(plan))
    assert found.on_scale_g.tolist() == pytest.approx([10, 4.5, 12, 4.5, 8, 4.5])


def test_what_lies_at_the_wheel_has_its_grams_on_the_scale_too():
    found = decided().layout
    assert found.wheel.pieces.weigh_g.tolist() == near([NONE, NONE, 12, NONE, 8, NONE])
