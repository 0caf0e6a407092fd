"""The section at the wheel without a browser: what its pages show, and what they never forget."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.helpers.paths import SAMPLES
from tests.helpers.phone import plan_of
from tests.helpers.taken import spun, text_of
from yarncolor import plan_from_data
from yarncolor.editing.at_the_wheel_pieces import PieceKey, pieces_on
from yarncolor.editing.editor import Editor
from yarncolor.report.advice import advice_on
from yarncolor.widgets.plan_bar import WithPlanBar
from yarncolor.widgets.spinning.ply_pages import LEFT_OUT, NEXT, SPUN, TO_SPIN
from yarncolor.widgets.spinning.spinning_bench import SpinningBench

LOTS = [
    {"name": name, "colour": colour, "mass_g": 24.0}
    for name, colour in (("Kelp", "#56612d"), ("Foam", "#e8e4d8"), ("Rust", "#9a4a2a"))
]
DATA = {"lots": LOTS, "scheme": {"name": "fractal", "divisions": [1, 2]}}


def bench_of(editor):
    """Return the section, and all that it says."""
    bench, said = SpinningBench(editor), []
    bench.send = lambda content, *_: said.append(content)
    bench.handle({"do": "ready"}, [])
    return bench, said


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_row_of_every_plan_is_shown_once_before_and_after_it_is_spun(path):
    editor = Editor.opened(path)
    bench, _ = bench_of(editor)
    for page in bench.state()["plies"]:
        shown = [row["row"] for row in page["rows"]]
        assert shown == list(range(1, len(shown) + 1))
        bench.handle({"do": "up_to", "piece": page["rows"][-1]["piece"]}, [])
        (now,) = [one for one in bench.state()["plies"] if one["ply"] == page["ply"]]
        assert [row["row"] for row in now["rows"]] == shown
        assert {row["state"] for row in now["rows"]} == {SPUN}
    bench.handle({"do": "rest"}, [])
    assert bench.ways()["matters"].startswith("It does not matter")


KEY = st.builds(PieceKey, st.integers(1, 2), st.integers(1, 3)).map(str)
ASK = st.one_of(
    st.builds(lambda piece, on: {"do": "tick", "piece": piece, "on": on}, KEY, st.booleans()),
    st.builds(lambda piece: {"do": "up_to", "piece": piece}, KEY),
    st.builds(lambda piece: {"do": "extra", "piece": piece}, KEY),
    st.builds(
        lambda piece, by: {"do": "shift", "piece": piece, "by": by}, KEY, st.sampled_from([-1, 1])
    ),
    st.builds(
        lambda slip, piece: {"do": "slip", "slip": slip, "ply": int(piece[0]), "piece": piece},
        st.sampled_from(["left_out", "swapped", "in_reverse", "other_twist", "not_spun"]),
        KEY,
    ),
    st.builds(
        lambda piece, text: {"do": "put", "name": f"{piece}.mass_g", "text": text},
        KEY,
        st.sampled_from(["3", "much", ""]),
    ),
    st.sampled_from([{"do": "take", "way": way} for way in ("in_step", "run_out", "make_up")]),
)


@given(st.lists(ASK, max_size=7))
def test_whatever_is_done_the_page_shows_what_lies_there_and_undo_brings_all_back(asks):
    editor = Editor(plan_from_data(DATA))
    before = editor.plan
    bench, said = bench_of(editor)
    for ask in asks:
        bench.handle(ask, [])
        check(bench.state(), editor.plan)
    assert said[-1]["kind"] in ("wheel", "ways")
    while editor.can_undo:
        editor.undo()
    assert editor.plan == before
    assert not bench.draft


def check(state, plan):
    for page in state["plies"]:
        rows = page["rows"]
        lying = [row["row"] or None for row in rows if row["state"] == SPUN]
        assert lying == [one.row for one in pieces_on(plan, page["ply"])]
        numbers = sorted(row["row"] for row in rows if row["row"])
        assert numbers == list(range(1, len(numbers) + 1))
        assert len({row["piece"] for row in rows}) == len(rows)
        to_spin = [row["state"] for row in rows if row["state"] in (NEXT, TO_SPIN)]
        assert to_spin == [NEXT, *[TO_SPIN] * (len(to_spin) - 1)][: len(to_spin)]
        assert all(row["found"] for row in rows if row["state"] in (SPUN, LEFT_OUT))


def test_a_piece_that_is_taken_away_takes_what_was_typed_of_it_along():
    editor = Editor(plan_from_data(DATA))
    bench, _ = bench_of(editor)
    bench.handle({"do": "extra", "piece": "1r1"}, [])
    bench.handle({"do": "put", "name": "1x1.mass_g", "text": "much"}, [])
    assert bench.draft.typed == {"1x1.mass_g": "much"}
    assert editor.has_pending
    bench.handle({"do": "tick", "piece": "1x1", "on": False}, [])
    assert not bench.draft
    assert not editor.has_pending


def test_a_way_that_is_not_there_and_a_piece_that_is_none_change_nothing():
    editor = Editor(plan_from_data(DATA))
    bench, _ = bench_of(editor)
    before = editor.revision
    bench.handle({"do": "take", "way": "in_step"}, [])
    bench.handle({"do": "tick", "piece": "nonsense", "on": True}, [])
    bench.handle({"do": "tick", "piece": "1x4", "on": True}, [])
    bench.handle({"do": "up_to", "piece": "9r1"}, [])
    bench.handle({"do": "slip", "slip": "nonsense", "ply": 1, "piece": ""}, [])
    assert editor.revision is before


def test_what_the_phone_took_home_is_one_step_and_a_cut_text_gets_its_faults():
    shore = plan_of("Kelp", "Foam", "Dune", "Gorse")
    text = text_of(shore, spun(1, "through = 2"), spun(2, "row = 1"))
    editor = Editor(plan_from_data(shore))
    bench, said = bench_of(editor)
    bench.handle({"do": "bring", "text": text[:-70]}, [])
    (told,) = [one for one in said if one["kind"] == "brought"]
    assert not told["brought"]
    assert all(line.startswith("the text") for line in told["wrong"])
    assert told["wrong"]
    assert editor.plan.spun == ()
    bench.handle({"do": "bring", "text": text}, [])
    assert said[-2]["said"] == "Brought home: 3 pieces spun."
    assert [(one.ply, one.row, one.through) for one in editor.plan.spun] == [
        (1, None, 2),
        (2, 1, None),
    ]
    editor.undo()
    assert editor.plan.spun == ()


def test_a_row_of_another_lot_says_in_whose_place_it_lies():
    bench, _ = bench_of(Editor(plan_from_data(DATA)))
    bench.handle({"do": "put", "name": "1r1.lot", "text": "Rust"}, [])
    (first, *_) = bench.state()["plies"][0]["rows"]
    assert first["found"] == "in place of Kelp"


def test_what_stays_beside_an_order_that_is_dragged_is_said_in_its_section_else_in_the_bar():
    editor = Editor(plan_from_data(DATA))
    bench, _ = bench_of(editor)
    bar = WithPlanBar(bench, editor, Path()).bar
    bench.handle({"do": "up_to", "piece": "1r2"}, [])
    editor.move(0, 2)
    stays = "What is spun stays as it went in; its rows ask for something else now: ply 1, "
    assert (bench.state()["said"], bar.state()["said"]) == (f"{stays}rows 1 and 2.", "")
    rows = bench.state()["plies"][0]["rows"]
    assert [row["found"] for row in rows[:2]] == ["in place of Foam", "in place of Rust"]
    editor.undo()
    assert bench.state()["said"] == ""
    editor.reverse()
    assert (bench.state()["said"], bar.state()["said"]) == ("", f"{stays}row 1.")


def test_what_runs_short_is_said_once_with_the_best_way_to_go_on():
    editor = Editor(plan_from_data(DATA))
    bench, _ = bench_of(editor)
    bench.handle({"do": "put", "name": "1r1.mass_g", "text": "15"}, [])
    (short,) = [one.text for one in advice_on(editor.answer) if one.kind == "short_lot"]
    assert short in bench.ways()["reason"]
    assert short not in bench.state()["strayed"]
