"""Which pieces entries name, and how thick a ply was spun by what was measured of it: by hand."""

import numpy as np
import pytest

from yarncolor.layout.empty_bobbins import EmptyBobbins
from yarncolor.layout.measured_grist import measured_grist
from yarncolor.layout.named_pieces import NamedPieces, named_pieces
from yarncolor.layout.scale_readings import read_bobbins, weighed_by_readings
from yarncolor.plan import Sample, Spun


def columns(named: NamedPieces) -> list[tuple[int, int, int, int]]:
    """Return entry, ply, row and bobbin of each piece."""
    each = (named.entry, named.ply, named.row, named.bobbin)
    return [*zip(*(one.tolist() for one in each), strict=True)]


def test_rows_as_planned_are_named_one_by_one_but_those_that_were():
    """Row 2 was spun first; up to 3 are 1 and 3 then, and up to 5 are 4 and 5."""
    spun = [Spun(ply=1, row=2), Spun(ply=1, through=3), Spun(ply=1, through=5)]
    assert columns(named_pieces(spun)) == [
        *((0, 0, 2, 1), (1, 0, 1, 1), (1, 0, 3, 1)),
        *((2, 0, 4, 1), (2, 0, 5, 1)),
    ]


def test_a_row_further_on_is_not_named_again_and_one_passed_over_is_not_taken_up():
    spun = [Spun(ply=1, through=2), Spun(ply=1, row=4), Spun(ply=1, through=1)]
    spun.append(Spun(ply=1, through=5))
    rows = [row for _, _, row, _ in columns(named_pieces(spun))]
    assert rows == [1, 2, 4, 3, 5]


def test_plies_stand_one_after_the_other_and_a_bobbin_lasts_until_the_next_is_named():
    spun = [
        *(Spun(ply=2, row=1), Spun(ply=1, row=1), Spun(ply=2, row=2, bobbin=3)),
        *(Spun(ply=1, lot="Foam"), Spun(ply=2, through=3), Spun(ply=1, row=2, bobbin=2)),
    ]
    assert columns(named_pieces(spun)) == [
        *((1, 0, 1, 1), (3, 0, 0, 1), (5, 0, 2, 2)),
        *((0, 1, 1, 1), (2, 1, 2, 3), (4, 1, 3, 3)),
    ]


def test_what_is_said_of_a_piece_stays_with_it():
    sample = Sample(length_m=2.0, mass_g=0.3)
    first = Spun(ply=1, row=1, mass_g=4.0, length_m=40.0, gross_g=64.0, sample=sample)
    named = named_pieces([Spun(ply=2, row=1), first])
    found = (named.mass_g, named.length_m, named.gross_g, named.sample_m, named.sample_g)
    assert [one[0] for one in found] == [4.0, 40.0, 64.0, 2.0, 0.3]
    assert np.isnan([one[1] for one in found]).all()
    assert len(named) == 2
    assert len(named_pieces([])) == 0


def grists(spun: list[Spun], spin_loss: float = 0.0, strands: tuple[int, ...] = (1, 1)):
    """Return the grists of two plies whose bobbins weigh 60 g empty."""
    named, of_each = named_pieces(spun), np.array(strands)
    empty = EmptyBobbins(60.0, np.ones(len(strands), dtype=int), of_each)
    good, _ = read_bobbins(named, empty, spin_loss)
    weighed = weighed_by_readings(named, np.ones(len(named)), good, spin_loss)
    return measured_grist(named, weighed, of_each, spin_loss)


def test_pieces_of_stated_grams_and_length_make_the_grist_of_their_ply():
    """10 and 20 g, of which a tenth is lost, on 90 and 210 m: 27 g on 300 m are 90 tex."""
    spun = [Spun(ply=2, row=1, mass_g=10.0, length_m=90.0)]
    spun += [Spun(ply=2, row=2, mass_g=20.0, length_m=210.0), Spun(ply=2, row=3, mass_g=5.0)]
    none, found = grists(spun, spin_loss=0.1)
    assert (found.measured_tex, found.count, found.holds) == (pytest.approx(90.0), 2, False)
    assert (none.measured_tex, none.count, none.holds) == (None, 0, False)
    assert found.spin_loss_found is none.spin_loss_found is None


@pytest.mark.parametrize(("many", "holds"), [(2, False), (3, True), (4, True)])
def test_three_measures_stand_for_the_rest(many, holds):
    spun = [Spun(ply=1, row=at, mass_g=1.0, length_m=10.0) for at in range(1, many + 1)]
    found, _ = grists(spun)
    assert (found.count, found.holds, found.measured_tex) == (many, holds, pytest.approx(100.0))


def test_a_reading_over_pieces_of_known_length_counts_as_one_measure():
    """12 g came on, over 50 and 70 m: 100 tex; the grams that one piece states count once."""
    spun = [Spun(ply=1, row=1, length_m=50.0, mass_g=3.0)]
    spun.append(Spun(ply=1, row=2, length_m=70.0, gross_g=72.0))
    found, _ = grists(spun, spin_loss=0.25)
    assert (found.measured_tex, found.count) == (pytest.approx(100.0), 1)


def test_a_reading_over_a_piece_of_no_length_tells_no_grist():
    spun = [Spun(ply=1, row=1, length_m=50.0), Spun(ply=1, row=2, gross_g=72.0)]
    found, _ = grists(spun)
    assert (found.measured_tex, found.count) == (None, 0)


def test_what_all_state_and_the_scale_shows_tells_what_spinning_lost():
    """Of 10 g stated 9 g came on: a tenth is lost."""
    spun = [Spun(ply=2, row=1, mass_g=4.0), Spun(ply=2, row=2, mass_g=6.0, gross_g=69.0)]
    none, found = grists(spun)
    assert found.spin_loss_found == pytest.approx(0.1)
    assert found.compared_g == 10.0
    assert (none.spin_loss_found, none.compared_g) == (None, 0.0)


def test_a_sample_counts_as_a_measure_of_its_own():
    """0.3 g on 2 m are 150 tex; with a piece of 10 g on 100 m they are 10.3 g on 102 m."""
    sample = Sample(length_m=2.0, mass_g=0.3)
    alone, other = grists([Spun(ply=1, row=1, sample=sample)])
    assert (alone.measured_tex, alone.count) == (pytest.approx(150.0), 1)
    assert other.count == 0
    both, _ = grists([Spun(ply=1, row=1, mass_g=10.0, length_m=100.0, sample=sample)])
    assert (both.measured_tex, both.count) == (pytest.approx(10_300 / 102), 2)


def test_a_sample_is_of_one_strand_and_tells_of_all_of_its_ply():
    sample = Sample(length_m=2.0, mass_g=0.3)
    _, found = grists([Spun(ply=2, row=1, sample=sample)], strands=(1, 2))
    assert found.measured_tex == pytest.approx(300.0)
