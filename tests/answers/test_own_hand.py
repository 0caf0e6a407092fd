"""What records say of hands: each figure by hand, on simulated spins, and from how few pieces."""

import tomllib
from dataclasses import replace

import numpy as np
import pytest
from scipy import stats

import yarncolor as yc
from yarncolor.answers.own_hand import mean_of, own_hand, spread_of
from yarncolor.layout.assumptions import Why
from yarncolor.layout.layout import layout
from yarncolor.layout.resolved import resolve
from yarncolor.plan import Bobbins, Made, Plan, Sample, Spun

ROWS, PLIES, EMPTY_G = 6, 2, 60.0
TEXT = """\
[[lots]]
name = "Kelp"
colour = "#4e5b31"
mass_g = 60.0
[[lots]]
name = "Foam"
colour = "#e9e2d5"
mass_g = 60.0
[scheme]
name = "fractal"
divisions = [3, 3]
[spinning]
single_tex = 100.0
[bobbins]
tare_g = 60.0
"""
PLAN = yc.plan_from_data(tomllib.loads(TEXT))
"""Two plies of six rows of 10 g."""


def hands_of(*plans: Plan):
    return own_hand([layout(resolve(plan)) for plan in plans])


# --- by hand -------------------------------------------------------------------------------------


def test_unevenness_is_pooled_over_plies_about_each_own_mean():
    """Tex 90, 100, 110 about 100 and 45, 50, 55 about 50: in each 2 of 10 %, squared; four free."""
    found = spread_of([np.array([90.0, 100.0, 110.0]), np.array([45.0, 50.0, 55.0])])
    assert found.value == pytest.approx(0.1)
    assert found.rests_on == 6
    squares = 0.04
    assert found.low == pytest.approx(np.sqrt(squares / stats.chi2.ppf(0.95, 4)))
    assert found.high == pytest.approx(np.sqrt(squares / stats.chi2.ppf(0.05, 4)))


def test_an_interval_of_a_mean_is_students():
    found = mean_of([0.03, 0.05, 0.04, 0.04], "contraction")
    low, high = stats.t.interval(0.9, 3, loc=0.04, scale=stats.sem([0.03, 0.05, 0.04, 0.04]))
    assert (found.value, found.rests_on) == (pytest.approx(0.04), 4)
    assert (found.low, found.high) == (pytest.approx(low), pytest.approx(high))


@pytest.mark.parametrize(
    ("plies", "told"),
    [
        ([4], False),
        ([5], True),
        ([2, 2], False),
        ([3, 2], True),
        ([4, 1], False),
        ([1] * 9, False),
        ([], False),
    ],
)
def test_unevenness_is_told_from_five_pieces_on_that_have_a_neighbour(plies, told):
    tex = [np.linspace(90, 110, count) for count in plies]
    assert (spread_of(tex) is not None) == told


def test_a_figure_of_one_has_no_interval_and_of_none_there_is_none():
    one = mean_of([0.03], "contraction")
    assert (one.value, one.rests_on, one.low, one.high) == (0.03, 1, None, None)
    assert mean_of([], "contraction") is None


def test_no_figure_is_outside_of_what_a_plan_can_be_given():
    """A scale that shows more than was weighed out loses nothing."""
    found = mean_of([-0.02, -0.01], "spin_loss")
    assert (found.value, found.low) == (0.0, 0.0)


def test_every_figure_of_one_yarn_by_hand():
    """120 g in 6 h; 1,200 m of single twice less 30 m, 550 m plied, 500 m washed."""
    rows = (
        Spun(1, row=1, mass_g=10.0, length_m=100.0, gross_g=69.8),
        Spun(1, row=2, mass_g=10.0, length_m=90.0),
        Spun(1, row=3, mass_g=10.0, length_m=110.0, sample=Sample(2.0, 0.2)),
        Spun(1, row=4, mass_g=10.0, gross_g=99.0),
        Spun(1, through=6),
        Spun(2, row=1, mass_g=10.0, length_m=100.0),
        Spun(2, through=6),
    )
    made = Made(turns=275.0, turn_m=2.0, washed_m=500.0, hours_spinning=6.0)
    found = hands_of(replace(PLAN, spun=rows, made=made))
    tex = np.array([100.0, 1000 / 9, 1000 / 11, 100.0])
    assert found.variation is None  # four pieces of the first ply, one of the second
    assert found.spin_loss.value == pytest.approx(1 - 39.0 / 40.0)
    assert found.spin_loss.rests_on == 1
    assert found.minutes_per_g.value == pytest.approx(6 * 60 / 120)
    assert found.finishing_shrinkage.value == pytest.approx(1 - 500 / 550)
    longest_of_the_shorter_m = min(layout(resolve(replace(PLAN, spun=rows))).portions.single_m)
    assert found.contraction.value == pytest.approx(1 - 550 / longest_of_the_shorter_m)
    fifth = (*rows, Spun(1, lot="Kelp", mass_g=1.0, length_m=10.0))
    five = np.append(tex, 100.0)
    more = hands_of(replace(PLAN, spun=fifth)).variation
    assert more.value == pytest.approx(np.std(five, ddof=1) / five.mean())
    assert more.rests_on == 5


def test_what_rested_is_not_counted_as_washed_out():
    rested = replace(PLAN, plying=replace(PLAN.plying, resting_shrinkage=0.1))
    made = Made(length_m=500.0, washed_m=405.0)
    found = hands_of(replace(rested, made=made))
    assert found.finishing_shrinkage.value == pytest.approx(0.1)


def test_a_plan_of_which_nothing_is_measured_tells_nothing():
    assert list(hands_of(PLAN).figures()) == []


# --- on simulated spins --------------------------------------------------------------------------

SIMULATIONS, YARNS = 1000, 3
TRUTH = {
    "variation": 0.08,
    "spin_loss": 0.04,
    "contraction": 0.05,
    "finishing_shrinkage": 0.06,
    "minutes_per_g": 4.0,
}
STRAYS = {"spin_loss": 0.006, "contraction": 0.01, "finishing_shrinkage": 0.01}
ALLOWED = 3.5 * np.sqrt(SIMULATIONS * 0.9 * 0.1)
"""Of 1,000 intervals 900 hold the truth, give or take 3.5 standard deviations: 867 to 933."""


def spin(rng: np.random.Generator) -> Plan:
    """Return a plan that was spun and made by hands that do as `TRUTH` says, normally astray.

    Every row is weighed out as 10 g and measured; each bobbin is weighed when it is full.
    """
    tex = 100.0 * (1 + TRUTH["variation"] * rng.standard_normal((PLIES, ROWS)))
    losses = TRUTH["spin_loss"] + STRAYS["spin_loss"] * rng.standard_normal(PLIES)
    length_m = 10.0 * 1000 / tex
    spun = [
        Spun(
            ply + 1,
            row=row + 1,
            mass_g=10.0,
            length_m=float(length_m[ply, row]),
            gross_g=EMPTY_G + ROWS * 10.0 * (1 - losses[ply]) if row == ROWS - 1 else None,
        )
        for ply in range(PLIES)
        for row in range(ROWS)
    ]
    lost, washed = (
        TRUTH[key] + STRAYS[key] * rng.standard_normal()
        for key in ("contraction", "finishing_shrinkage")
    )
    plied_m = float(length_m.sum(axis=1).min() * (1 - lost))
    hours = PLIES * ROWS * 10.0 * (TRUTH["minutes_per_g"] + 0.5 * rng.standard_normal()) / 60
    made = Made(length_m=plied_m, washed_m=plied_m * (1 - washed), hours_spinning=float(hours))
    return replace(PLAN, spun=tuple(spun), made=made, bobbins=Bobbins(tare_g=EMPTY_G))


def test_nine_times_in_ten_the_truth_lies_in_the_interval():
    rng = np.random.default_rng(18)
    held = dict.fromkeys(TRUTH, 0)
    for _ in range(SIMULATIONS):
        found = dict(hands_of(*(spin(rng) for _ in range(YARNS))).figures())
        for key, truth in TRUTH.items():
            held[key] += found[key].low <= truth <= found[key].high
    assert {key: abs(count - 0.9 * SIMULATIONS) <= ALLOWED for key, count in held.items()} == (
        dict.fromkeys(TRUTH, True)
    ), held


# --- in a plan -----------------------------------------------------------------------------------

HAND = """\
kind = "yarncolor hand"
format = 1
yarns = ["Tide", "Ebb"]
[variation]
value = 0.07
rests_on = 24
low = 0.06
high = 0.09
[spin_loss]
value = 0.02
rests_on = 4
[contraction]
value = 0.04
rests_on = 2
[finishing_shrinkage]
value = 0.05
rests_on = 2
[minutes_per_g]
value = 3.0
rests_on = 2
"""


@pytest.fixture
def with_hand(tmp_path):
    """Return a function that answers a plan beside which the hand's file lies."""
    (tmp_path / "hand.toml").write_text(HAND, encoding="utf-8")

    def answered(text: str = TEXT):
        path = tmp_path / "plan.toml"
        path.write_text('hand = "hand.toml"\n' + text, encoding="utf-8")
        return yc.answer(yc.read_plan(path))

    return answered


def test_a_plan_takes_from_its_hands_what_it_does_not_say(with_hand):
    """As if the plan said it itself."""
    found = yc.to_dict(with_hand())
    said = TEXT.replace(
        "single_tex = 100.0",
        "single_tex = 100.0\nvariation = 0.07\nspin_loss = 0.02\nminutes_per_g = 3.0",
    )
    said += "[plying]\ncontraction = 0.04\n[fabric]\nfinishing_shrinkage = 0.05\n"
    wanted = yc.to_dict(yc.answer(yc.plan_from_data(tomllib.loads(said))))
    for key in ("singles", "yarn", "stretches", "leftovers", "bobbins"):
        assert found[key] == wanted[key], key


def test_assumptions_say_that_it_is_your_hand_and_on_how_much_it_rests(with_hand):
    found = with_hand()
    assumed = yc.to_dict(found)["assumptions"]
    for line in (
        "unevenness between portions: 7.0%, from your hand, by 24 pieces",
        "lost in spinning: 2.0%, from your hand, by 4 bobbins",
        "length lost in plying: 4.0%, from your hand, by 2 yarns",
        "shrinks in the wash: 5.0%, from your hand, by 2 yarns",
        "minutes for a gram: 3.0 minutes, from your hand, by 2 yarns",
    ):
        assert line in assumed
    assert "nothing lost in spinning" not in assumed
    from_hand = [one.by for one in found.resolved.assumptions if one.why is Why.HAND]
    assert from_hand == [("hand",)] * 5


def test_what_a_plan_says_itself_stays(with_hand):
    text = TEXT.replace("single_tex = 100.0", "single_tex = 100.0\nspin_loss = 0.1")
    answer = with_hand(text + "[plying]\ncontraction_model = 'none'\n")
    assert answer.resolved.spin_loss == 0.1
    assert answer.resolved.contraction == 0.0
    assert not any("lost in spinning" in line for line in yc.to_dict(answer)["assumptions"])


def test_a_pace_that_is_said_in_treadles_stays(with_hand):
    pace = "single_tex = 100.0\ntwist_tpm = 300.0\ntreadles_per_min = 60.0\ndrive_ratio = 8.0"
    assert with_hand(TEXT.replace("single_tex = 100.0", pace)).hours.source == "derived"


def test_a_hand_that_is_not_there_is_said_and_changes_nothing(tmp_path):
    path = tmp_path / "plan.toml"
    path.write_text('hand = "gone.toml"\n' + TEXT, encoding="utf-8")
    found = yc.to_dict(yc.answer(yc.read_plan(path)))
    assert "gone.toml is not there, so nothing is taken from it" in found["assumptions"]
    assert found["yarn"] == yc.to_dict(yc.answer(PLAN))["yarn"]


def test_saving_writes_no_figure_of_the_hands_into_the_plan(with_hand, tmp_path):
    answer = with_hand()
    spun = yc.wheel.spun_through(answer.plan, 1, 2)
    yc.save_plan(spun, tmp_path / "plan.toml")
    text = (tmp_path / "plan.toml").read_text(encoding="utf-8")
    assert text.startswith('hand = "hand.toml"\n' + TEXT)
    assert not any(key in text for key in ("spin_loss", "variation", "contraction", "minutes"))


def test_hands_stay_with_a_plan_that_is_changed_without_an_editor(with_hand):
    plan = with_hand().plan
    for changed in (
        yc.wheel.spun_through(plan, 1, 2),
        yc.variant(plan, "matched", wound_off=1, order="reversed"),
        yc.record.came_out(plan, length_m=500.0),
    ):
        assert yc.answer(changed).resolved.spin_loss == 0.02
        assert changed.kept_as == "plan"


def test_the_form_says_where_an_empty_field_has_its_value_from(with_hand):
    from yarncolor.editing.defaults_shown import value_in_use
    from yarncolor.plan.reference import KEYS

    laid = with_hand().layout
    assert value_in_use(laid, KEYS["spinning", "spin_loss"]) == "2 from your hand"


def test_hands_stay_through_every_step_of_an_editor(with_hand, tmp_path):
    from yarncolor.editing.editor import Editor

    with_hand()
    editor = Editor.opened(tmp_path / "plan.toml")
    editor.change("scheme", divisions=[1, 2])
    assert editor.answer.resolved.spin_loss == 0.02
    editor.change("spinning", spin_loss=0.3)
    assert editor.answer.resolved.spin_loss == 0.3
    editor.undo()
    assert editor.answer.resolved.spin_loss == 0.02
    editor.replace_plan(replace(editor.plan, hand=""))
    assert editor.answer.resolved.spin_loss == 0.0
    editor.replace_plan(replace(editor.plan, hand="hand.toml"))
    assert editor.answer.resolved.spin_loss == 0.02


def test_what_a_plan_says_itself_stays_its_own_though_hands_say_the_same(with_hand, tmp_path):
    """What the hands' file says may change; what was written into the plan is the plan's."""
    from yarncolor.editing.editor import Editor

    own = "single_tex = 100.0\nspin_loss = 0.02   # counted"
    answer = with_hand(TEXT.replace("single_tex = 100.0", own))
    assert not any("lost in spinning" in line for line in yc.to_dict(answer)["assumptions"])
    editor = Editor.opened(tmp_path / "plan.toml")
    editor.change("scheme", divisions=[1, 2])
    editor.save()
    assert own in (tmp_path / "plan.toml").read_text(encoding="utf-8")
    yc.save_plan(yc.wheel.spun_through(answer.plan, 1, 2), tmp_path / "plan.toml")
    text = (tmp_path / "plan.toml").read_text(encoding="utf-8")
    assert own in text
    assert not any(key in text for key in ("variation", "contraction", "minutes"))
