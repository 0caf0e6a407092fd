"""Orders of entries: whatever is done, a permutation in which held entries stay."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yarncolor.editing.order import Order

PLACES = 6
held = st.frozensets(st.integers(0, PLACES - 1))
orders = st.builds(
    lambda entries, held: Order(tuple(entries), held), st.permutations(range(6)), held
)


@given(orders, st.data())
def test_whatever_is_done_is_a_permutation_and_held_entries_stay(order, data):
    tasks = [order.reversed(), order.turned(data.draw(st.integers(-9, 9)))]
    if order.unlocked:
        places = st.sampled_from(order.unlocked)
        tasks.append(order.moved(data.draw(places), data.draw(places)))
    for after in tasks:
        assert sorted(after.entries) == list(range(PLACES))
        assert after.held == order.held
        assert all(after.place_of(entry) == order.place_of(entry) for entry in order.held)


@given(orders)
def test_sources_say_from_which_place_each_entry_came(order):
    after = order.reversed()
    assert tuple(order.entries[place] for place in after.sources(order)) == after.entries


@given(orders)
def test_every_move_that_there_is_changes_the_order(order):
    moves = order.moves(range(PLACES))
    free = len(order.unlocked)
    assert len(moves) == len(set(moves)) == free * (free - 1)
    for entry, place in moves:
        after = order.moved(order.place_of(entry), place)
        assert after.place_of(entry) == place
        assert after != order


@pytest.mark.parametrize("entry", [0, 3])
def test_what_is_held_has_no_moves_and_is_let_go_again(entry):
    order = Order.of_places(4).holding(entry, True)
    assert order.moves([entry]) == []
    assert order.holding(entry, False) == Order.of_places(4)
