"""A bobbin on the scale while it fills: pieces, what they added, and why a reading cannot be one.

By hand: empty bobbins of 60 g; two strands side by side add twice what one bobbin shows.
"""

import numpy as np
import pytest

from yarncolor.layout.empty_bobbins import EmptyBobbins
from yarncolor.layout.named_pieces import named_pieces
from yarncolor.layout.scale_readings import (
    Misread,
    Reading,
    read_bobbins,
    weighed_by_readings,
)
from yarncolor.plan import Spun


def bobbins(tare_g=60.0, count=(2, 2), strands=(1, 1)) -> EmptyBobbins:
    return EmptyBobbins(tare_g, np.array(count), np.array(strands))


def rows(*gross_g: float | None, ply: int = 1, **more) -> list[Spun]:
    """Return rows of a ply one after the other, each with what the scale showed after it."""
    return [Spun(ply=ply, row=at, gross_g=shown, **more) for at, shown in enumerate(gross_g, 1)]


def read(spun: list[Spun], empty: EmptyBobbins | None = None, spin_loss: float = 0.0) -> tuple:
    return read_bobbins(named_pieces(spun), empty or bobbins(), spin_loss)


def test_each_reading_tells_what_came_on_since_the_one_before():
    good, wrong = read(rows(70.0, None, 95.0, None))
    assert good == (Reading(0, 0, 10.0), Reading(1, 2, 25.0))
    assert wrong == ()
    assert [one.pieces for one in good] == [slice(0, 1), slice(1, 3)]


def test_every_ply_and_every_bobbin_begins_at_its_empty_weight():
    second = [Spun(ply=1, row=3, bobbin=2, gross_g=64.0), Spun(ply=1, row=4, gross_g=65.0)]
    good, wrong = read([*rows(70.0, 90.0), *second, *rows(None, 61.0, ply=2)])
    assert [one.gained_g for one in good] == [10.0, 20.0, 4.0, 1.0, 1.0]
    assert [(one.first, one.last) for one in good] == [(0, 0), (1, 1), (2, 2), (3, 3), (4, 5)]
    assert wrong == ()


def test_each_ply_begins_at_its_own_bobbins_weight():
    empty = bobbins((60.0, 50.0, 40.0), count=(2, 1))
    good, _ = read([*rows(70.0), *rows(70.0, ply=2)], empty)
    assert [one.gained_g for one in good] == [10.0, 30.0]


def test_all_strands_of_a_ply_gain_alike():
    good, _ = read([*rows(70.0), *rows(70.0, 75.0, ply=2)], bobbins(strands=(1, 2)))
    assert [one.gained_g for one in good] == [10.0, 20.0, 10.0]


def test_a_reading_may_show_that_nothing_came_on():
    good, wrong = read(rows(60.0, 60.0, mass_g=1.0))
    assert good == (Reading(0, 0, 0.0), Reading(1, 1, 0.0))
    assert wrong == ()


def test_without_an_empty_weight_no_first_reading_can_be_and_the_next_goes_on_from_it():
    good, wrong = read(rows(None, 70.0, 72.0), bobbins(tare_g=None))
    assert [(one.first, one.piece, one.why) for one in wrong] == [(0, 1, Misread.NO_TARE)]
    assert good == (Reading(2, 2, 2.0),)


def test_below_the_empty_bobbin_and_below_the_reading_before_are_told_apart():
    good, wrong = read(rows(None, 59.0, 80.0, None, 79.5, 81.5))
    assert good == (Reading(2, 2, 21.0), Reading(5, 5, 2.0))
    below = [(one.first, one.piece, one.why, one.than_g) for one in wrong]
    assert below == [(0, 1, Misread.BELOW_TARE, 60.0), (3, 4, Misread.BELOW_BEFORE, 80.0)]
    assert np.isnan([one.since_g for one in wrong]).all()


def stating(*grams_g: float | None, gross_g: float) -> list[Spun]:
    """Return rows that state grams, the last of them on the scale."""
    last = len(grams_g)
    return [
        Spun(ply=1, row=at, mass_g=one, gross_g=gross_g if at == last else None)
        for at, one in enumerate(grams_g, 1)
    ]


@pytest.mark.parametrize("gross_g", [68.0, 69.0])
def test_pieces_of_no_stated_grams_must_be_left_some(gross_g):
    """Of 8 g of single 10 g were weighed out where a fifth is lost; 9 g are 11.25 g."""
    stated_g = (gross_g - 60) / 0.8
    (good, wrong) = read(stating(stated_g - 4, 4.0, None, gross_g=gross_g), spin_loss=0.2)
    assert good == ()
    (found,) = wrong
    assert (found.first, found.piece, found.why) == (0, 2, Misread.NOTHING_LEFT)
    assert (found.than_g, found.since_g) == (pytest.approx(stated_g), pytest.approx(stated_g))


def test_a_little_that_is_left_is_enough():
    good, wrong = read(stating(6.0, 3.9, None, gross_g=68.0), spin_loss=0.2)
    assert good == (Reading(0, 2, 8.0),)
    assert wrong == ()


@pytest.mark.parametrize(("left_g", "is_nothing"), [(5e-7, True), (5e-6, False)])
def test_a_billionth_of_what_was_weighed_is_nothing(left_g, is_nothing):
    good, wrong = read(stating(300.0, 700.0 - left_g, None, gross_g=1060.0))
    assert (len(good), len(wrong)) == (not is_nothing, is_nothing)


def test_where_all_state_their_grams_the_scale_may_say_less():
    good, wrong = read(stating(6.0, 40.0, gross_g=68.0))
    assert good == (Reading(0, 1, 8.0),)
    assert wrong == ()


def weighed(spun: list[Spun], share_g: list[float], spin_loss: float, **empty):
    named = named_pieces(spun)
    good, _ = read_bobbins(named, bobbins(**empty), spin_loss)
    return weighed_by_readings(named, np.array(share_g), good, spin_loss)


def test_what_pieces_do_not_state_is_shared_by_what_their_rows_ask():
    """24 g of single are 30 g weighed out; 6 are stated, 24 are shared 1 : 2 by 5 and 10 g."""
    spun = [*stating(6.0, None, None, gross_g=84.0), Spun(ply=1, row=4)]
    found = weighed(spun, [7.0, 5.0, 10.0, 9.0], 0.2)
    assert found.mass_g == pytest.approx([6.0, 8.0, 16.0, np.nan], nan_ok=True)
    assert found.net_g == pytest.approx([4.8, 6.4, 12.8, np.nan], nan_ok=True)
    assert found.compared_g == {}
    assert found.readings == (Reading(0, 2, 24.0),)


def test_stated_grams_stay_and_tell_what_spinning_lost_over_all_readings_of_a_ply():
    """9 of 10 g, then 17 of 20 g: 26 of 30 g in all; the other ply's 5 of 5 g stand apart."""
    one = [Spun(ply=1, row=1, mass_g=4.0), Spun(ply=1, row=2, mass_g=6.0, gross_g=69.0)]
    more = [Spun(ply=1, row=3, mass_g=20.0, gross_g=86.0)]
    other = [Spun(ply=2, row=1, mass_g=5.0, gross_g=65.0)]
    found = weighed([*one, *more, *other], [1.0] * 4, 0.3)
    assert found.mass_g == pytest.approx([4.0, 6.0, 20.0, 5.0])
    assert found.net_g == pytest.approx([3.6, 5.4, 17.0, 5.0])
    assert found.compared_g == {0: (26.0, 30.0), 1: (5.0, 5.0)}


@pytest.mark.parametrize(
    ("ply", "order", "strand", "weighs_g"),
    [
        (0, 1, 0, 61.0),
        (0, 2, 0, 62.0),
        (1, 1, 0, 63.0),
        (1, 1, 1, 64.0),
        (2, 1, 0, 65.0),
        (2, 2, 0, None),
        (0, 3, 0, None),
        (3, 1, 0, None),
    ],
)
def test_a_number_keeps_meaning_the_same_bobbin(ply, order, strand, weighs_g):
    """Two bobbins, then one for each of two strands, then one; of the last no weight is known."""
    empty = bobbins((61.0, 62.0, 63.0, 64.0, 65.0), count=(2, 1, 1, 1), strands=(1, 2, 1, 1))
    assert empty.mass_g(ply, order, strand) == weighs_g


def test_one_weight_is_that_of_every_bobbin():
    assert bobbins(60.0).mass_g(1, 9) == 60.0
    assert bobbins(None).mass_g(0, 1) is None
