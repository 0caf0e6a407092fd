"""The section at the plying wheel without a browser: how far, what is next, one that ran out."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.helpers.strategies import by_hand
from yarncolor import plan_from_data
from yarncolor.editing.editor import Editor
from yarncolor.plan import Plied
from yarncolor.widgets.plying.plying_bench import PlyingBench

PLAN = by_hand(
    {"Kelp": 36.0, "Foam": 36.0},
    scheme={"plies": 3},
    spinning={"single_tex": 100.0},
    plying={"contraction": 0.1},
)
"""On each of three plies 120 m of Kelp, then of Foam: 216 m of yarn."""


def bench_of(**tables):
    """Return the section on the plan, and a way to ask it that returns what it then shows."""
    bench = PlyingBench(Editor(plan_from_data(PLAN | tables)))
    bench.send = lambda *_: None
    bench.handle({"do": "ready"}, [])

    def ask(**message):
        bench.handle(message, [])
        return bench.state()

    return bench, ask


def put(ask, name: str, text: str):
    return ask(do="put", name=f"plied.{name}", text=text)


def field(state, name: str) -> dict:
    (found,) = [one for one in state["far"] + state["end"] if one["name"] == f"plied.{name}"]
    return found


def test_before_anything_is_plied_the_first_changes_are_told():
    _, ask = bench_of()
    state = ask(do="ready")
    assert state["where"][0].startswith("Nothing is plied yet.")
    assert state["changes"] == [f"at 108.0 m: ply {ply} from Foam to Kelp" for ply in (1, 2, 3)]
    assert state["plies"] == []


def test_metres_on_the_counter_say_where_the_yarn_is():
    bench, ask = bench_of()
    state = put(ask, "so_far_m", "60 m")
    assert bench.editor.plan.plied == Plied(so_far_m=60.0)
    assert state["where"][0] == (
        "Plied so far: 60.0 m, Foam running; 156 m to come. In 48.0 m ply 1 changes from Foam "
        "to Kelp."
    )


def test_turns_wait_for_their_length_and_then_stand_in_the_place_of_metres():
    bench, ask = bench_of()
    put(ask, "so_far_m", "60")
    state = put(ask, "turns", "50")
    assert field(state, "turns")["waits"]
    assert bench.editor.plan.plied == Plied(so_far_m=60.0)
    state = put(ask, "turn_m", "1.5")
    assert bench.editor.plan.plied == Plied(turns=50.0, turn_m=1.5)
    assert field(state, "so_far_m")["text"] == ""
    assert state["changes"][0] == "at 108.0 m, turn 72: ply 1 from Foam to Kelp"


def test_one_press_says_which_ran_out_and_what_can_be_made_appears():
    bench, ask = bench_of()
    state = put(ask, "so_far_m", "180")
    assert [words for _, words in state["plies"]] == [f"ply {k} ran out here" for k in (1, 2, 3)]
    state = ask(do="ended", ply=2)
    assert bench.editor.plan.plied == Plied(so_far_m=180.0, ended_ply=2, at_m=180.0)
    assert state["ended"]
    left = "Left: 40 m of ply 1 and 40 m of ply 3."
    assert state["stands"] == f"Ply 2 has run out after 180 m of yarn. {left}"
    end = "Plied so far: 180.0 m, Kelp running; that is the end of the yarn."
    assert state["where"][0] == end
    names = [one["name"] for one in state["rescues"]]
    assert names[0] == "fold the rest of ply 1 in two"
    assert all(len(one["hands"]) == 3 for one in state["rescues"])
    assert [bool(one["picture"]) for one in state["rescues"]] == [True] * 5 + [False]
    ask(do="goes_on")
    assert bench.editor.plan.plied == Plied(so_far_m=180.0)


def test_two_numbers_say_it_too_in_either_order():
    bench, ask = bench_of()
    state = put(ask, "at_m", "180")
    assert field(state, "at_m")["waits"]
    put(ask, "ended_ply", "2")
    assert bench.editor.plan.plied == Plied(ended_ply=2, at_m=180.0)


def test_what_cannot_be_stays_beside_its_field():
    bench, ask = bench_of()
    put(ask, "ended_ply", "2")
    state = put(ask, "at_m", "400")
    assert "the longest ends after 216.0 m" in field(state, "at_m")["fault"]
    assert field(state, "at_m")["text"] == "400"
    assert bench.editor.plan.plied is None
    state = ask(do="back", name="plied.at_m")
    assert field(state, "at_m")["text"] == ""


def test_what_is_emptied_is_not_said_any_more():
    bench, ask = bench_of()
    put(ask, "so_far_m", "60")
    put(ask, "so_far_m", "")
    assert bench.editor.plan.plied is None


SAID = st.tuples(
    st.sampled_from(list(Plied.__dataclass_fields__)),
    st.sampled_from(["", "1", "2", "90", "180", "much", "1.5 m"]),
)


@given(st.lists(SAID, max_size=6))
def test_whatever_is_typed_undo_brings_all_back(said):
    bench, ask = bench_of(bobbins={"plying_tare_g": 50.0})
    before = bench.editor.plan
    for name, text in said:
        state = put(ask, name, text)
        assert state["kind"] == "plying"
    while bench.editor.can_undo:
        bench.editor.undo()
    assert bench.editor.plan == before


def test_a_chain_is_asked_for_no_ply():
    _, ask = bench_of(scheme={"name": "chain"})
    state = put(ask, "so_far_m", "100")
    assert state["stands"] == ""
    assert state["rescues"] == []


@pytest.mark.parametrize(
    ("seen", "told"),
    [
        ({"bumps": "45"}, "it is under-plied"),
        ({"bumps": "45,0"}, "it is under-plied"),
        ({"bumps": "many"}, "Give the bumps you counted"),
        ({"bumps": "45", "over_cm": ""}, "Give the bumps you counted"),
        ({"loop": "against"}, "the yarn is over-plied"),
        ({"catches": True}, "Where the yarn catches"),
    ],
)
def test_twist_that_is_looked_at_has_its_remedy_and_the_wheel_s_caution(seen, told):
    bench, _ = bench_of(plying={"twist_tpm": 200.0})
    said = []
    bench.send = lambda content, *_: said.append(content)
    nothing = {"bumps": "", "over_cm": "10", "loop": "", "catches": False}
    bench.handle({"do": "look", **nothing, **seen}, [])
    assert told in " ".join(said[-1]["lines"])
    assert "stop the wheel" in said[-1]["lines"][-1]
    bench.handle({"do": "look", **nothing}, [])
    assert said[-1]["lines"] == []


@pytest.mark.parametrize("name", ["scheme.plies", "plied.nothing", ""])
def test_a_field_that_is_none_changes_nothing(name):
    bench, ask = bench_of()
    before = bench.editor.plan
    ask(do="put", name=name, text="3")
    assert bench.editor.plan == before
