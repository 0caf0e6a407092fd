"""A photograph on which something was moved: only what rests on that is read anew."""

from collections import Counter
from dataclasses import replace

import numpy as np
import pytest

import yarncolor as yc
from yarncolor.colour.photo import lots, readings, target
from yarncolor.colour.photo.annotations import read_annotations
from yarncolor.colour.photo.readings import said_of, seen_on

CORNERS = [[0.06, 0.08], [0.48, 0.08], [0.48, 0.50], [0.06, 0.50]]
PLACES = [[0.0, 0.0, 0.02, 0.03], [0.975, 0.0, 0.02, 0.03], [0.5, 0.56, 0.02, 0.03]]
KELP, FOAM, MOVED = [0.1, 0.7, 0.05, 0.05], [0.4, 0.7, 0.05, 0.05], [0.41, 0.7, 0.05, 0.05]


@pytest.fixture(scope="module")
def photo():
    return yc.photo.demo_photo(yc.photo.Conditions(illuminant="A", balanced=False), (600, 450))


@pytest.fixture
def work(monkeypatch):
    """Count boxes read, fits of a target and of the light."""
    done = Counter()

    def counted(module, name):
        plain = getattr(module, name)

        def call(*arguments, **more):
            done[name] += 1
            return plain(*arguments, **more)

        monkeypatch.setattr(module, name, call)

    counted(lots, "fibre_colour")
    counted(target, "colour_correction")
    counted(target, "_patches_linear")
    counted(readings, "light_by_white")
    counted(readings, "by_white")
    return done


def drawn(kelp=KELP, foam=FOAM, *, names=("Kelp", "Foam"), places=PLACES, **more):
    boxes = [
        {"key": key, "kind": "fibre", "box": box, "name": name, "mass_g": grams}
        for key, box, name, grams in zip("12", (kelp, foam), names, (20, 30), strict=True)
    ]
    boxes += [{"key": f"p{at}", "kind": "place", "box": box} for at, box in enumerate(places)]
    asked = {"corners": CORNERS, "way": "target", "edition": "newer values", "degree": 1}
    return read_annotations({"boxes": boxes, "even": True, **asked, **more})


def test_a_box_that_was_moved_is_the_only_one_that_is_read(photo, work):
    before = seen_on(photo, drawn())
    assert work == {
        "fibre_colour": 2,
        "colour_correction": 25,
        "_patches_linear": 2,
        "light_by_white": 1,
    }
    work.clear()
    seen_on(photo, drawn(foam=MOVED), before)
    assert work == {"fibre_colour": 1}


@pytest.mark.parametrize("more", [{}, {"names": ("Rust", "Moss")}])
def test_names_are_read_again_for_nothing(photo, work, more):
    before = seen_on(photo, drawn())
    work.clear()
    after = seen_on(photo, drawn(**more), before)
    assert work == {}
    assert after.correction is before.correction
    assert after.readings == before.readings


@pytest.mark.parametrize(
    "more",
    [
        {"foam": MOVED},
        {"degree": 2},
        {"edition": "older values"},
        {"way": "nothing"},
        {"even": False},
        {"places": [*PLACES, [0.3, 0.56, 0.02, 0.03]]},
        {"corners": [*CORNERS[1:], CORNERS[0]]},
        {"corners": CORNERS[:3]},
    ],
)
def test_whatever_was_changed_the_readings_are_those_of_a_fresh_look(photo, more):
    before = seen_on(photo, drawn())
    after, fresh = seen_on(photo, drawn(**more), before), seen_on(photo, drawn(**more))
    assert said_of(after, photo.size_px) == said_of(fresh, photo.size_px)
    for key, reading in fresh.readings.items():
        np.testing.assert_array_equal(after.readings[key].lab, reading.lab)


def test_another_picture_is_read_from_the_start(photo, work):
    before = seen_on(photo, drawn())
    work.clear()
    darker = replace(photo, srgb=photo.srgb // 2 * 2)
    seen_on(darker, drawn(), before)
    assert (work["fibre_colour"], work["colour_correction"]) == (2, 25)
