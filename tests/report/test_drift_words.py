"""What hands do to a plan in words and pictures: a plan that needs advice, and some that do not."""

import io

import numpy as np
import pytest
from PIL import Image

import yarncolor as yc
from tests.helpers.strategies import advised, by_hand
from yarncolor.answers.drift_helps import HELPS
from yarncolor.answers.spins import spins_of
from yarncolor.pictures.drifting import misfit, yarns_in_hand
from yarncolor.report.drift_words import _WHAT, drift_lines

LOTS = {"Kelp": 40.0, "Foam": 60.0, "Slate": 50.0}


def plan_of(scheme: str = "matched", masses: dict = LOTS, **tables: dict) -> dict:
    tables = {"spinning": {"variation": 0.08, "single_tex": 100.0}} | tables
    return by_hand(masses, scheme={"name": scheme, "plies": 2}, **tables)


def answer_to(data: dict):
    return yc.answer(yc.plan_from_data(data))


def test_every_help_has_words():
    assert set(_WHAT) == set(HELPS)


def test_a_plan_is_told_what_ends_first_what_wanders_and_what_helps():
    told = " ".join(drift_lines(answer_to(plan_of())))
    for part in ("one in twenty is shorter by", "ends first is that of ply", "changes wander",
                 "half-way", "Of 3 matched stripes 3 are off by more than a hand's breadth",
                 "What helps, most first: (1) ",
                 "It brings plies no nearer together: a finer scale"):  # fmt: skip
        assert part in told


def test_nothing_is_told_of_hands_that_nobody_knows():
    silent = answer_to(plan_of(spinning={}))
    assert drift_lines(silent) == []
    assert "does not say how even your hands are" in str(yc.show.drift(silent))
    assert "What hands do" not in yc.summary_text(silent)


def test_what_hands_do_stands_in_the_summary():
    assert "What hands do to it\n" in yc.summary_text(answer_to(plan_of()))


def test_stripes_that_are_meant_to_match_and_will_not_are_advised_on():
    (told,) = [text for kind, text in advised(plan_of()) if kind == "drift"]
    assert told.startswith("Of 3 matched stripes 3 are off by more than a hand's breadth")
    assert "What helps most: " in told


@pytest.mark.parametrize(
    "data",
    [
        plan_of(spinning={}),
        plan_of("flipped"),
        plan_of(masses={"Kelp": 60.0}),
        plan_of(spinning={"variation": 1e-5}, scale={"step_g": 0.001}),
        plan_of() | {"scheme": {"name": "chain"}},
    ],
    ids=["nothing said", "marled", "one lot", "even hands", "chain"],
)
def test_no_advice_where_nothing_is_to_match_or_nothing_strays(data):
    assert "drift" not in dict(advised(data))


def test_who_divides_by_eye_is_called_that():
    told = yc.summary_text(answer_to(plan_of(spinning={"divided": "eye"})))
    assert "As unevenly as you spin (divided by eye)" in told


def test_a_table_says_what_would_help_with_its_work():
    told = yc.show.drift(answer_to(plan_of(spinning={"variation": 0.05, "divided": "eye"})))
    assert "it costs 6 weighings" in told.text
    assert "<td" in told.html


def test_a_lot_s_name_is_text_in_what_is_shown():
    name = "<b>Kelp"
    told = yc.show.drift(answer_to(plan_of(masses={name: 30.0, "Foam": 30.0})))
    assert "<b>Kelp" not in told.html


# --- pictures --------------------------------------------------------------------------------


@pytest.mark.parametrize("scheme", ["matched", "flipped", "chain"])
def test_the_bands_are_as_long_as_the_yarns_they_show(scheme):
    data = plan_of(scheme)
    if scheme == "chain":
        data["scheme"] = {"name": "chain"}
    found = answer_to(data)
    spun = spins_of(found.layout, found.on_scale_g)
    shown = np.asarray(yarns_in_hand(found, spun, 800))
    longest = max(found.layout.stretches.yarn_m, *(spun.along(at).yarn_m for at in range(20)))
    last = spun.along(19)
    row = shown[26 + 101 + 8 + 26 + 19 * 18 + 7]
    coloured = np.flatnonzero((row != 255).any(axis=1))
    assert coloured[-1] - coloured[0] + 1 == pytest.approx(last.yarn_m / longest * 784, abs=2)


def test_a_yarn_that_does_not_stray_is_drawn_as_planned():
    found = answer_to(plan_of("matched", spinning={"variation": 0.0}, scale={"step_g": 0.001}))
    spun = spins_of(found.layout, found.on_scale_g)
    first, planned = spun.along(0), found.layout.stretches
    assert first.yarn_m == pytest.approx(planned.yarn_m, rel=1e-4)


def test_the_misfit_rises_from_nothing_at_the_left():
    found = answer_to(plan_of())
    shown = np.asarray(misfit(found, spins_of(found.layout, found.on_scale_g), 800))
    filled = (shown[26:216] == (0xD8, 0xD2, 0xC4)).all(axis=2).sum(axis=0)
    assert filled[62] < 12
    assert filled[780] > 150


@pytest.mark.parametrize("masses", [{"Kelp": 60.0}, {f"Lot {n}": 5.0 + n for n in range(8)},
                                    {"משי ים": 40.0, "昆布": 30.0}])  # fmt: skip
def test_pictures_of_any_plan_have_words(masses):
    found = answer_to(plan_of(masses=masses))
    for shown in (yc.show.drift(found, "yarns"), yc.show.drift(found, "apart")):
        assert Image.open(io.BytesIO(shown.png)).width == 1000
        assert shown.alt.endswith(".")


def test_of_one_single_nothing_can_fall_apart():
    found = answer_to(plan_of() | {"scheme": {"name": "matched", "plies": 1}})
    assert "nothing can fall apart" in str(yc.show.drift(found, "apart"))


def test_what_is_not_shown_is_told_with_what_is():
    with pytest.raises(yc.PlanError, match="words, yarns, apart"):
        yc.show.drift(answer_to(plan_of()), "sounds")
