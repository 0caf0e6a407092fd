"""A piece in the round as it is worn: what its pixels show, against the geometry of a cylinder."""

from math import asin, pi

import numpy as np
import pytest

from tests.helpers.drawn import HARD
from yarncolor import PlanError, answer, plan_from_data
from yarncolor.pictures.fabric_pictures import knitted_piece
from yarncolor.pictures.tube_scene import Tube
from yarncolor.pictures.worn import Worn

COLOURS = {"Kelp": (40, 90, 40), "Rust": (170, 70, 40)}
SOCK, HAT, COWL = (64, 70, (28.0, 38.0)), (100, 54, (18.0, 26.0)), (120, 60, (16.0, 22.0))


def two_lots(scheme="matched", plies=2):
    lots = [
        {"name": name, "colour": "#" + bytes(rgb).hex(), "mass_g": 60.0}
        for name, rgb in COLOURS.items()
    ]
    return answer(plan_from_data({"lots": lots, "scheme": {"name": scheme, "plies": plies}}))


def worn(found, piece, **more):
    stitches, rows, gauge = piece
    asked = {"size_px": (420, 420)} | more
    return knitted_piece(found, "worn", stitches, rows, gauge, **asked)


def seen(drawn):
    """Return where there is fabric."""
    return (drawn.pixels.astype(int).min(axis=2) < 250) | (np.ptp(drawn.pixels, axis=2) > 8)


@pytest.mark.parametrize(
    ("piece", "words"),
    [
        (SOCK, "A sock's leg: 22.9 cm round, 18.4 cm high."),
        (HAT, "A hat, gathered at the top: 55.6 cm round, 20.8 cm high."),
        (COWL, "A tube: 75.0 cm round, 27.3 cm high."),
    ],
)
def test_what_it_is_follows_from_its_size(piece, words):
    """Round: stitches by ten over the gauge; high: rows by ten over theirs."""
    drawn = worn(two_lots(), piece)
    assert drawn.caption.startswith(words)
    assert drawn.alt.startswith(words.split(":")[0])


@pytest.mark.parametrize("piece", [SOCK, HAT, COWL], ids=["sock", "hat", "cowl"])
def test_it_is_as_wide_as_a_tube_of_so_many_stitches(piece):
    """A tube of C round is C / pi wide, at the scale that the picture says."""
    drawn = worn(two_lots(), piece)
    columns = np.flatnonzero(seen(drawn).any(axis=0))
    wide_mm = (columns[-1] - columns[0] + 1) * drawn.mm_per_px
    stitches, _, (gauge, _) = piece
    assert wide_mm == pytest.approx(stitches * 100 / gauge / pi, rel=0.03)


def test_stitches_narrow_towards_the_sides_as_on_a_cylinder():
    """Columns of stitches: the one n from the front lies at R sin(2 pi n / N)."""
    tube = Tube(stitches=36, rows=20, aspect=0.75, is_gathered=False)
    middle = [tube.radius * np.sin(2 * pi * n / tube.stitches) for n in range(-8, 9)]
    assert asin(middle[-1] / tube.radius) == pytest.approx(2 * pi * 8 / 36)
    widths = np.diff(middle)
    assert widths[7] == pytest.approx(1, rel=0.02)
    assert widths[-1] < 0.35


def test_its_colours_come_in_the_order_in_which_it_is_worked():
    """Matched plies, begun at the bottom: the lot that is plied first lies there."""
    found = two_lots()
    first = found.plan.names[found.layout.stretches.lot[0, 0]]
    yarn_m = found.layout.stretches.yarn_m
    drawn = worn(found, (64, 70, (28.0, 38.0)), times=max(1, int(yarn_m / 60)))
    column = drawn.pixels[:, drawn.pixels.shape[1] // 2].astype(float)
    there = np.flatnonzero(seen(drawn)[:, drawn.pixels.shape[1] // 2])
    low, high = column[there[-30:]].mean(axis=0), column[there[30:60]].mean(axis=0)
    other = next(name for name in COLOURS if name != first)
    for rgb, name, wrong in ((low, first, other), (high, other, first)):
        near, far = (np.abs(rgb / rgb.sum() - _share(each)).sum() for each in (name, wrong))
        assert near < far


def _share(name):
    return np.array(COLOURS[name]) / sum(COLOURS[name])


def test_one_looks_into_an_open_tube_and_not_into_a_gathered_one():
    """Over the rim the inside is seen, darker than what faces the eye below it."""
    for piece, is_open in ((COWL, True), (HAT, False)):
        drawn = worn(two_lots("staggered"), piece)
        middle = drawn.pixels[:, drawn.pixels.shape[1] // 2].mean(axis=1)
        there = np.flatnonzero(seen(drawn)[:, drawn.pixels.shape[1] // 2])
        top, below = middle[there[:12]].mean(), middle[there[len(there) // 2 :][:40]].mean()
        assert (top < 0.8 * below) == is_open


@pytest.mark.parametrize("plies", [1, 12])
def test_few_and_many_plies_are_drawn(plies):
    assert seen(worn(two_lots("staggered" if plies > 1 else "matched", plies), HAT)).mean() > 0.3


def test_hostile_names_are_only_names():
    lots = [{"name": name, "colour": "#445566", "mass_g": 20.0} for name in HARD[:3]]
    assert worn(answer(plan_from_data({"lots": lots})), SOCK).alt


@pytest.mark.parametrize(("stitches", "rows"), [(601, 40), (40, 601), (0, 10)])
def test_what_is_too_large_to_be_seen_so_is_refused_in_words(stitches, rows):
    with pytest.raises(PlanError, match=r"stitches|rows"):
        worn(two_lots(), (stitches, rows, (20.0, 28.0)))


@pytest.mark.parametrize(("stitches", "rows"), [(1, 1), (600, 1), (3, 600), (600, 600)])
def test_every_size_that_is_allowed_is_drawn(stitches, rows):
    drawn = worn(two_lots(), (stitches, rows, (20.0, 28.0)), size_px=(120, 90))
    assert drawn.pixels.shape[0] <= 90
    assert drawn.pixels.shape[1] <= 120


@pytest.mark.parametrize("rows", range(1, 130, 3))
def test_a_hat_has_sides_below_its_crown_and_a_lower_piece_is_a_band(rows):
    found = Worn(stitches=100, rows=rows, aspect=0.7, stitch_cm=0.55)
    if found.is_hat:
        assert 0.2 * rows * 0.7 <= found.tube().straight < rows * 0.7
    else:
        assert found.tube().straight == pytest.approx(rows * 0.7)
