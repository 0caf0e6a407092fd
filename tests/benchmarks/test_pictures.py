"""Pictures redrawn under a finger: against matplotlib drawing the same, and against bare numpy."""

from dataclasses import replace
from functools import cache
from itertools import count, cycle

import numpy as np
import pytest

from tests.benchmarks.picture_baselines import (
    knitted_by_matplotlib,
    wraps_by_matplotlib,
    yarn_by_matplotlib,
)
from tests.helpers.sized_plans import EIGHT_LOTS, fractal_of
from yarncolor import answer, plan_from_data
from yarncolor.pictures.as_knitted import knit_of
from yarncolor.pictures.captions import captioned_png
from yarncolor.pictures.fabric_pictures import knitted_piece
from yarncolor.pictures.knit_scenes import KnitFabric, knitted
from yarncolor.pictures.painting import Paint, colour_table, painted, rgb
from yarncolor.pictures.scene import NO_EDGES
from yarncolor.pictures.yarn_pictures import wraps, yarn_at
from yarncolor.pictures.yarn_scenes import PictureScale

YARN, SWATCH, CARD = (1200, 300), (1600, 1200), 1200
FROM_M, LENGTH_MM = 60.0, 24.0


def plan():
    data = fractal_of()
    data["spinning"] = {"single_tex": 110.0, "twist_tpm": 300.0}
    data["plying"] = {"twist_tpm": 180.0}
    return plan_from_data(data)


def orders():
    """Return answers of four orders of the lots, one after the other, without end."""
    first = plan()
    turned = [EIGHT_LOTS[at:] + EIGHT_LOTS[:at] for at in range(4)]
    return cycle(
        [answer(replace(first, scheme=replace(first.scheme, sequence=each))) for each in turned]
    )


def measured(benchmark, group: str, against: str) -> None:
    benchmark.group, benchmark.extra_info["against"] = group, against


def often(benchmark, draw, rounds: int = 100):
    """Measure a picture that is drawn again and again, its scene kept; return the last."""
    return benchmark.pedantic(draw, rounds=rounds, warmup_rounds=8)


def alike(one: np.ndarray, other: np.ndarray, most: float) -> None:
    """Make sure that two drawings of one thing have one size and about one mean colour."""
    assert one.shape == other.shape
    away = np.abs(one.mean(axis=(0, 1)) - other.mean(axis=(0, 1)))
    assert away.max() < most


ORDER = "yarn at true scale, 1200 x 300, another order"


def test_another_order_of_the_yarn(benchmark):
    measured(benchmark, ORDER, "ours")
    each = orders()
    drawn = often(benchmark, lambda: yarn_at(next(each), FROM_M, LENGTH_MM, YARN))
    assert drawn.pixels.shape == (300, 1200, 3)


def test_another_order_of_the_yarn_by_matplotlib(benchmark):
    measured(benchmark, ORDER, "matplotlib (Agg)")
    each = orders()
    drawn = benchmark(lambda: yarn_by_matplotlib(next(each), FROM_M, LENGTH_MM, YARN))
    found = answer(plan())
    alike(
        yarn_by_matplotlib(found, FROM_M, LENGTH_MM, YARN),
        yarn_at(found, FROM_M, LENGTH_MM, YARN).pixels,
        25,
    )
    assert drawn.shape == (300, 1200, 3)


ALONG = "yarn at true scale, 1200 x 300, moved along"


def test_moved_along_the_yarn(benchmark):
    measured(benchmark, ALONG, "ours")
    found, steps = answer(plan()), count()
    often(benchmark, lambda: yarn_at(found, 10 + next(steps) * 0.0123 % 300, LENGTH_MM, YARN))
    one, other = (yarn_at(found, metre, LENGTH_MM, YARN).pixels for metre in (10.0, 10.0123))
    assert (one != other).any()


def test_moved_along_the_yarn_by_matplotlib(benchmark):
    measured(benchmark, ALONG, "matplotlib (Agg)")
    found, steps = answer(plan()), count()
    drawn = benchmark(
        lambda: yarn_by_matplotlib(found, 10 + next(steps) * 0.0123 % 300, LENGTH_MM, YARN)
    )
    assert drawn.shape == (300, 1200, 3)


KNITTED = "knitted swatch, 1600 x 1200, another order"


@cache
def swatch() -> tuple[KnitFabric, float]:
    """Return a piece that fills the picture: 60 stitches, 58 rows."""
    knit, aspect, _ = knit_of(answer(plan()), "flat", 60, 58)
    return knit, aspect


def scene_of(found):
    knit, aspect = swatch()
    return knitted(
        knit, 3, PictureScale(*SWATCH, 5.0), (0.0, found.layout.stretches.yarn_m), aspect
    )


def test_another_order_of_a_knitted_swatch(benchmark):
    measured(benchmark, KNITTED, "ours")
    each = orders()

    def redrawn():
        found = next(each)
        return painted(scene_of(found), found)

    pixels = often(benchmark, redrawn)
    assert pixels.shape == (1200, 1600)
    assert ((pixels & 0xFFFFFF) != 0xFFFFFF).mean() > 0.9


def test_a_bare_gather_of_that_size(benchmark):
    measured(benchmark, KNITTED, "a bare np.take of a uint32 palette")
    found = answer(plan())
    scene = replace(scene_of(found), edges=NO_EDGES)
    table = colour_table(scene, found, Paint())
    assert (table.dtype, scene.index.dtype) == (np.uint32, np.intp)
    pixels = often(benchmark, lambda: np.take(table, scene.index))
    np.testing.assert_array_equal(pixels, painted(scene, found))


def test_another_order_of_it_with_hard_edges(benchmark):
    measured(benchmark, KNITTED, "ours, no pixel shared")
    each = orders()

    def redrawn():
        found = next(each)
        return painted(replace(scene_of(found), edges=NO_EDGES), found)

    hard = often(benchmark, redrawn)
    assert (hard != painted(scene_of(answer(plan())), answer(plan()))).mean() > 0.05


def test_another_order_of_a_knitted_picture_with_its_words(benchmark):
    measured(benchmark, KNITTED, "ours, with caption and text alternative")
    each = orders()
    drawn = often(benchmark, lambda: knitted_piece(next(each), "flat", 60, 58, size_px=SWATCH))
    assert drawn.pixels.shape[1] > 1500


def test_another_order_of_a_knitted_swatch_by_matplotlib(benchmark):
    measured(benchmark, KNITTED, "matplotlib (Agg)")
    each, (knit, aspect) = orders(), swatch()
    benchmark.pedantic(
        lambda: knitted_by_matplotlib(next(each), knit, aspect, SWATCH), rounds=5, warmup_rounds=1
    )
    found = answer(plan())
    ours = rgb(painted(scene_of(found), found))
    alike(knitted_by_matplotlib(found, knit, aspect, SWATCH), ours, 60)


WRAPS = "wrap card, 1200 x 1200, another order"


def test_another_order_of_a_wrap_card(benchmark):
    measured(benchmark, WRAPS, "ours")
    each = orders()
    drawn = often(benchmark, lambda: wraps(next(each), (50.0, 50.0), None, CARD))
    assert drawn.pixels.shape == (1200, 1200, 3)


def test_another_order_of_a_wrap_card_by_matplotlib(benchmark):
    measured(benchmark, WRAPS, "matplotlib (Agg)")
    each = orders()
    benchmark.pedantic(
        lambda: wraps_by_matplotlib(next(each), 50.0, CARD), rounds=5, warmup_rounds=1
    )
    found = answer(plan())
    alike(wraps_by_matplotlib(found, 50.0, CARD), wraps(found, (50.0, 50.0), None, CARD).pixels, 25)


@pytest.mark.parametrize("picture", [yarn_at, wraps, knitted_piece], ids=lambda draw: draw.__name__)
def test_encoding_as_png_with_its_frame(benchmark, picture):
    measured(benchmark, f"frame and PNG of {picture.__name__}", "ours")
    found = answer(plan())
    drawn = picture(found)
    assert benchmark(captioned_png, found, drawn).startswith(b"\x89PNG")
