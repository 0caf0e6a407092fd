"""The band that shows the yarn whatever is worked on: what a page is told, and when."""

import asyncio

import numpy as np
import pytest

from tests.helpers.asked import numbers_without
from tests.helpers.paths import SAMPLES
from yarncolor import answer, plan_from_data
from yarncolor.editing.editor import Editor
from yarncolor.plan.limits import MOST_PLIES
from yarncolor.widgets.order import yarn_band
from yarncolor.widgets.order.yarn_band import HAND_MM, YarnBand, band_frame, caption_told


def editor_of(plies=3, mass_g=20.0, **scheme) -> Editor:
    lots = [{"name": name, "colour": "#345", "mass_g": mass_g} for name in ("Kelp", "Foam")]
    return Editor(plan_from_data({"lots": lots, "scheme": {"plies": plies, **scheme}}))


def shown(editor) -> tuple[YarnBand, list]:
    band, said = YarnBand(editor), []
    band.send = lambda content, *_: said.append(content)
    return band, said


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_plan_is_shown_whole_and_in_part(path):
    found = Editor.opened(path).preview
    frame, buffers = band_frame(found)
    ticks, lots = np.frombuffer(buffers[0], np.uint32), np.frombuffer(buffers[1], np.uint16)
    assert (ticks[0], ticks[-1]) == (0, 10**9)
    assert lots.max() < len(frame["colours"])
    assert len(frame["strip"]["bands"]) == frame["table"]["plies"]
    assert (
        f"{HAND_MM:.0f} mm of it" in frame["caption"] or "of it, its beginning" in frame["caption"]
    )


@pytest.mark.parametrize("plies", range(1, MOST_PLIES + 1))
def test_no_band_lies_over_another(plies):
    frame, _ = band_frame(editor_of(plies).preview)
    strip = frame["strip"]
    edges = np.ravel([*strip["bands"], strip["yarn"]])
    assert (np.diff(edges) > 0).all()
    assert edges[-1] == strip["height"]


def test_a_yarn_that_is_shorter_than_a_hand_begins_at_its_beginning():
    found = editor_of(mass_g=0.002).preview
    assert answer(found.plan).layout.stretches.yarn_m < HAND_MM / 1000
    assert "its beginning" in band_frame(found)[0]["caption"]


def test_the_part_is_seen_from_where_one_looks():
    found = editor_of().preview
    assert "from about 7.0 m on" in band_frame(found, 7.0)[0]["caption"]
    yarn_m = found.layout.stretches.yarn_m
    assert f"{yarn_m - HAND_MM / 1000:.1f} m on" in band_frame(found, 1e6)[0]["caption"]


@pytest.mark.parametrize("units", [{}, {"units": "imperial"}])
@pytest.mark.parametrize("mark_m", [None, 7.0, 0.0])
def test_no_figure_of_its_caption_is_without_an_answer(units, mark_m):
    lots = [{"name": name, "colour": "#345", "mass_g": 20.0} for name in ("Kelp", "Foam")]
    editor = Editor(plan_from_data({"lots": lots, "scheme": {"plies": 3}, **units}))
    editor.mark_m = mark_m
    band, said = shown(editor)
    band.handle({"do": "ready"}, [])
    band.handle({"do": "why"}, [])
    frame, told = said
    headings = "\n".join(heading for heading, _ in told["why"])
    assert told["kind"] == "why"
    assert numbers_without(frame["caption"], headings) == []
    assert all(lines for _, lines in told["why"])


def test_the_caption_is_the_same_where_it_is_asked_for():
    found = editor_of().preview
    for mark_m in (None, 0.0, 7.0):
        assert str(caption_told(found, mark_m)) == band_frame(found, mark_m)[0]["caption"]


def test_nothing_is_said_before_a_page_is_there():
    editor = editor_of()
    band, said = shown(editor)
    editor.move(0, 1)
    assert said == []
    band.handle({"do": "ready"}, [])
    assert len(said) == 1


def test_it_follows_once_when_many_changes_come_to_rest(monkeypatch):
    monkeypatch.setattr(yarn_band, "_REST_S", 0.5)  # a busy machine is slow between two moves

    async def moved():
        editor = editor_of()
        band, said = shown(editor)
        band.handle({"do": "ready"}, [])
        at_once = len(said)
        await asyncio.sleep(0.8)
        first = len(said)
        for _ in range(5):
            editor.move(0, 1)
            await asyncio.sleep(0.01)
        before = len(said)
        await asyncio.sleep(0.8)
        return at_once, first, before, len(said)

    assert asyncio.run(moved()) == (0, 1, 1, 2)
