"""When a single runs out, against centimetres moved by hand; and laws of every rescue."""

from collections import Counter

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tests.helpers.centimetres import Ball, Bobbin, Centimetre, Wheel
from yarncolor.layout.rescues import Rescue, RunOut, rescues
from yarncolor.layout.rest import Rest
from yarncolor.layout.stretches import stretches

CM = 0.01
LOTS = 5
runs = st.lists(st.tuples(st.integers(0, LOTS - 1), st.integers(1, 9)), min_size=1, max_size=7)
EVEN = 12
"""Singles are made of so many centimetres for each drawn one: halves and thirds are whole."""


@st.composite
def spun(draw, least: int = 2) -> list[list[int]]:
    """Draw, for each ply, the colour of every centimetre, in the order of coming off."""
    plies = draw(st.lists(runs, min_size=least, max_size=4))
    singles = [[lot for lot, count in own for _ in range(count * EVEN)] for own in plies]
    assume(len({len(one) for one in singles}) > 1)
    return singles


def rest_of(single: list[int]) -> Rest:
    """Return centimetres as pieces of one colour each."""
    pieces: list[list[int]] = []
    for lot in single:
        if pieces and pieces[-1][0] == lot:
            pieces[-1][1] += 1
        else:
            pieces.append([lot, 1])
    lots, count = zip(*pieces, strict=True)
    return Rest(np.array(count) * CM, np.array(lots), np.full(len(lots), 100.0))


def run_out(singles: list[list[int]], spare_cm: list[int] = (0,) * LOTS) -> RunOut:
    """Return the singles of 100 tex side by side, and so many centimetres of each lot to spare."""
    return RunOut(
        singles=tuple(rest_of(single) for single in singles),
        spare_g=np.array(spare_cm) * CM * 0.1,
        tex=np.full(len(singles), 100.0),
        loop_m=0.02,
    )


def of_kind(singles: list[list[int]], kind: str, spare_cm=(0,) * LOTS) -> list[Rescue]:
    return [one for one in rescues(run_out(singles, spare_cm)) if one.kind == kind]


def plied_to_the_end(singles: list[list[int]]) -> Wheel:
    """Return a wheel at which all was plied until the first bobbin was empty."""
    wheel = Wheel([Bobbin([(k, lot) for lot in own][::-1]) for k, own in enumerate(singles)])
    wheel.ply()
    return wheel


def centimetres(one: Rescue) -> list[tuple[int, ...]]:
    """Return the colours of every centimetre of a rescued yarn, ply by ply."""
    along = stretches(one.strands, 0.0)
    middles = (np.arange(round(one.single_m / CM)) + 0.5) * CM
    at = np.searchsorted(along.edges_m, middles) - 1
    return [tuple(row) for row in along.lot[at].tolist()]


def colours(yarn: list[tuple[Centimetre, ...]]) -> list[tuple[int, ...]]:
    return [tuple(lot for _, lot in together) for together in yarn]


def over_cm(one: Rescue) -> Counter:
    """Return the centimetres that a rescue leaves, by ply and colour."""
    left: Counter = Counter()
    for ply, rests in one.over.items():
        for rest in rests:
            for lot, length_m in zip(rest.lot.tolist(), rest.length_m.tolist(), strict=True):
                left[ply, lot] += length_m / CM
    return Counter({key: round(count) for key, count in left.items() if round(count)})


def still_there(*places) -> Counter:
    """Return what lies on bobbins and in balls, by ply and colour."""
    left: Counter = Counter()
    for place in places:
        take = place.draw if isinstance(place, Bobbin) else place.from_middle
        for _ in range(len(place)):
            left[take()] += 1
    return left


# --- each kind by hand -----------------------------------------------------------------------


@given(spun(3))
def test_the_others_go_on_until_one_of_them_is_empty(singles):
    wheel = plied_to_the_end(singles)
    going = [one for one in wheel.bobbins if len(one)]
    found = of_kind(singles, "fewer_plies")
    assert bool(found) == (len(going) > 1)
    if found:
        on = Wheel(going)
        on.ply()
        assert centimetres(found[0]) == colours(on.yarn)
        assert over_cm(found[0]) == still_there(*going)


def one_ended(singles: list[list[int]]) -> tuple[Wheel, int, int]:
    """Return the wheel, the bobbin that is empty, and the fullest; only where one is empty."""
    wheel = plied_to_the_end(singles)
    empty = [k for k, one in enumerate(wheel.bobbins) if not len(one)]
    assume(len(empty) == 1)
    return wheel, empty[0], wheel.fullest()


@given(spun())
def test_a_fold_is_plied_from_both_ends_of_a_ball(singles):
    wheel, ended, fullest = one_ended(singles)
    ball = Ball()
    for centimetre in wheel.bobbins[fullest].all_off():
        ball.wind_on(centimetre)
    yarn, splice = [], None
    others = {k: one for k, one in enumerate(wheel.bobbins) if k not in (ended, fullest)}
    while len(ball) > 1 and all(len(one) for one in others.values()):
        ends = {fullest: ball.from_middle(), ended: ball.from_outside()}
        ends |= {k: one.draw() for k, one in others.items()}
        splice = splice or (wheel.last[ended][1], ends[ended][1])
        yarn.append(tuple(ends[k] for k in sorted(ends)))
    (found,) = of_kind(singles, "fold")
    assert centimetres(found) == colours(yarn)
    assert over_cm(found) == still_there(ball, *others.values())
    assert (found.joined, found.same_at_splice) == ((splice,), splice[0] == splice[1])


@given(spun())
def test_halves_are_a_ball_from_its_middle_and_what_stays_on_the_bobbin(singles):
    wheel, ended, fullest = one_ended(singles)
    bobbin, ball = wheel.bobbins[fullest], Ball()
    for _ in range(len(bobbin) // 2):
        ball.wind_on(bobbin.draw())
    others = {k: one for k, one in enumerate(wheel.bobbins) if k not in (ended, fullest)}
    yarn, splice = [], None
    while len(ball) and len(bobbin) and all(len(one) for one in others.values()):
        ends = {fullest: ball.from_middle(), ended: bobbin.draw()}
        ends |= {k: one.draw() for k, one in others.items()}
        splice = splice or (wheel.last[ended][1], ends[ended][1])
        yarn.append(tuple(ends[k] for k in sorted(ends)))
    (found,) = of_kind(singles, "halves")
    assert centimetres(found) == colours(yarn)
    assert over_cm(found) == still_there(ball, bobbin, *others.values())
    assert (found.joined, found.same_at_splice) == ((splice,), splice[0] == splice[1])


@given(spun())
def test_both_ends_of_the_fullest_alone(singles):
    wheel = plied_to_the_end(singles)
    fullest, ball = wheel.fullest(), Ball()
    for centimetre in wheel.bobbins[fullest].all_off():
        ball.wind_on(centimetre)
    yarn = [(ball.from_middle(), ball.from_outside()) for _ in range(len(ball) // 2)]
    (found,) = of_kind(singles, "both_ends")
    assert centimetres(found) == colours(yarn)
    assert over_cm(found) == still_there(*wheel.bobbins)
    assert found.joined == ()


@given(spun())
def test_a_chain_of_the_fullest_loops_it_to_and_fro(singles):
    """Loops of three times two centimetres: out, back, and out again."""
    wheel = plied_to_the_end(singles)
    single = [lot for _, lot in wheel.bobbins[wheel.fullest()].all_off()]
    assume(len(single) % 6 == 0)
    yarn = []
    for first in range(0, len(single), 6):
        loop = single[first : first + 6]
        there, back, again = loop[:2], loop[2:4][::-1], loop[4:]
        yarn += list(zip(there, back, again, strict=True))
    (found,) = of_kind(singles, "chain")
    assert centimetres(found) == yarn
    assert over_cm(found) == still_there(*wheel.bobbins)


@given(spun(), st.lists(st.integers(0, 80), min_size=LOTS, max_size=LOTS))
def test_more_is_spun_of_the_lot_it_ended_on_and_of_that_with_most_to_spare(singles, spare_cm):
    wheel, ended, _ = one_ended(singles)
    ended_on, most = wheel.last[ended][1], spare_cm.index(max(spare_cm))
    found = {one.joined[0][1]: one for one in of_kind(singles, "top_up", spare_cm)}
    assert set(found) == {lot for lot in (ended_on, most) if spare_cm[lot]}
    for lot, one in found.items():
        again = plied_to_the_end(singles)
        again.bobbins[ended] = Bobbin([(ended, lot)] * spare_cm[lot])
        on = Wheel(again.bobbins)
        on.ply()
        assert centimetres(one) == colours(on.yarn)
        del again.bobbins[ended]
        assert over_cm(one) == still_there(*again.bobbins)
        assert one.spins_m == {(ended, lot): pytest.approx(len(on.yarn) * CM)}
        assert one.same_at_splice == (lot == ended_on)


def test_two_that_ended_on_one_lot_share_what_there_is_of_it():
    """Plies 2 and 3 end on lot 1, of which there are 40 cm: 20 cm for each."""
    (found,) = of_kind([[0] * 100, [1] * 40, [1] * 40], "top_up", [0, 40, 0, 0, 0])
    assert found.single_m == pytest.approx(0.2)
    assert found.spins_m == {(1, 1): pytest.approx(0.2), (2, 1): pytest.approx(0.2)}
    assert len(found.joined) == 2


# --- laws ------------------------------------------------------------------------------------


@given(spun(), st.lists(st.integers(0, 80), min_size=LOTS, max_size=LOTS))
def test_all_single_is_accounted_for(singles, spare_cm):
    out = run_out(singles, spare_cm)
    there_m = sum(out.left_m)
    for one in rescues(out):
        over_m = sum(rest.single_m for rests in one.over.values() for rest in rests)
        in_yarn_m = len(one.plies) * one.single_m
        assert in_yarn_m + over_m == pytest.approx(there_m + sum(one.spins_m.values()))
        assert in_yarn_m <= there_m + sum(one.spins_m.values()) + 1e-9


@given(spun())
def test_fold_and_halves_are_equally_long(singles):
    one_ended(singles)
    (fold,), (halves,) = of_kind(singles, "fold"), of_kind(singles, "halves")
    assert fold.single_m == pytest.approx(halves.single_m)


@given(runs, st.integers(1, 40))
def test_a_fold_of_a_single_that_is_the_same_both_ways_has_no_jog(half, whole_cm):
    """Its both ends meet in one colour, and it splices to the colour that it begins with."""
    there = [lot for lot, count in half for _ in range(count)]
    mirrored = there + there[::-1]
    short = [mirrored[0]] * whole_cm
    (fold,) = of_kind([[9 % LOTS] * whole_cm + mirrored, short], "fold")
    assert fold.same_at_splice
    assert all(one == other for one, other in centimetres(fold))


@given(spun(), st.lists(st.integers(0, 80), min_size=LOTS, max_size=LOTS))
def test_as_many_plies_come_first_then_the_longest_and_keeping_last(singles, spare_cm):
    out = run_out(singles, spare_cm)
    found = rescues(out)
    assert (found[-1].kind, found[-1].single_m, found[-1].plies) == ("keep", 0.0, ())
    order = [(len(one.plies) != len(singles), -round(one.single_m, 6)) for one in found[:-1]]
    assert order == sorted(order)
    assert all(one.single_m > 0 for one in found[:-1])


def test_where_two_have_run_out_none_is_folded_into_their_place():
    kinds = [one.kind for one in rescues(run_out([[0] * 90, [1] * 30, [2] * 30]))]
    assert kinds == ["chain", "both_ends", "keep"]


def told(rest: Rest) -> list[tuple]:
    """Return lot, metres and tex of each piece."""
    each = (rest.lot, rest.length_m, rest.tex)
    return list(zip(*(column.tolist() for column in each), strict=True))


def test_what_is_left_is_cut_turned_and_stretched_piece_by_piece():
    """10 m of 100 tex, 20 m of 50 tex and 30 m of 200 tex are 1 g, 1 g and 6 g."""
    rest = Rest(np.array([10.0, 20.0, 30.0]), np.array([0, 1, 2]), np.array([100.0, 50.0, 200.0]))
    assert told(rest.turned()) == [(2, 30, 200), (1, 20, 50), (0, 10, 100)]
    assert told(rest.between(5.0, 35.0)) == [(0, 5, 100), (1, 20, 50), (2, 5, 200)]
    assert told(rest.between(10.0, 30.0)) == [(1, 20, 50)]
    assert told(rest.scaled(2.0)) == [(0, 20, 50), (1, 40, 25), (2, 60, 100)]
    assert rest.by_lot_g(4).tolist() == rest.turned().by_lot_g(4).tolist() == [1, 1, 6, 0]
    assert rest.scaled(0.5).by_lot_g(3).tolist() == [1, 1, 6]
    assert told(rest.between(40.0, 30.0)) == []


def test_no_yarn_is_made_of_what_is_only_the_rounding_of_a_long_one():
    """Beside 1000 m a hundredth of a millimetre is nothing; a centimetre of a lot is spun."""
    singles = tuple(
        Rest(np.array([metres]), np.array([0]), np.full(1, 100.0)) for metres in (1e3, 1.2e3)
    )
    for spare_m, is_made in ((5e-6, False), (1e-2, True)):
        out = RunOut(singles, np.array([spare_m * 0.1]), np.full(2, 100.0), 0.02)
        assert any(one.kind == "top_up" for one in rescues(out)) is is_made
