"""The overview strip and an order changed under a finger, against matplotlib drawing the same."""

import io
from dataclasses import replace

import numpy as np
from PIL import Image

from tests.benchmarks.baselines import strip_by_matplotlib
from tests.helpers.sized_plans import EIGHT_LOTS, answered, fractal_of
from yarncolor import answer, plan_from_data
from yarncolor.pictures.strip import raster, strip_png
from yarncolor.pictures.strip_layout import LEFT_PX, RIGHT_PX, strip_layout
from yarncolor.report.csv_json import plan_json

SIZE = (1200, 360)


def pixels(png: bytes) -> np.ndarray:
    return np.asarray(Image.open(io.BytesIO(png)).convert("RGB")).astype(int)


def strip_of(data: dict):
    found = answered(data)
    return found, strip_layout(found.layout, found.palette, *SIZE)


def alike(one: np.ndarray, other: np.ndarray, drawn) -> float:
    """Return the share of sampled columns in which both pictures show every band alike."""
    columns = np.arange(LEFT_PX + 2, SIZE[0] - RIGHT_PX - 2)
    clear = np.ones(len(columns), dtype=bool)
    same = np.ones(len(columns), dtype=bool)
    for band in drawn.bands:
        for edge in band.edges_px:
            clear &= np.abs(columns + 0.5 - edge) > 2
        row = round(band.top_px) + 2
        same &= np.abs(one[row, columns] - other[row, columns]).max(axis=1) <= 1
    assert clear.sum() > 300
    return float(same[clear].mean())


def test_the_strip_as_pixels(benchmark):
    benchmark.group = "strip of 8 lots x (1, 2, 4) as PNG"
    benchmark.extra_info["against"] = "ours"
    found, drawn = strip_of(fractal_of())
    png = benchmark(strip_png, found)
    index, colours = raster(drawn)
    np.testing.assert_array_equal(pixels(png), colours[index])


def test_the_strip_by_matplotlib(benchmark):
    benchmark.group = "strip of 8 lots x (1, 2, 4) as PNG"
    benchmark.extra_info["against"] = "matplotlib (Agg)"
    found, drawn = strip_of(fractal_of())
    other = pixels(benchmark(strip_by_matplotlib, drawn))
    ours = pixels(strip_png(found))
    assert other.shape == ours.shape
    assert alike(ours, other, drawn) == 1
    top = round(drawn.yarn_top_px)
    inside = np.s_[top + 2 : top + 60, LEFT_PX + 2 : -RIGHT_PX - 2]
    assert np.abs(ours[inside].mean(axis=(0, 1)) - other[inside].mean(axis=(0, 1))).max() < 2


CHANGED = "order of 8 lots x (1, 2, 4) changed, weighed and drawn to PNG"


def test_an_order_changed_weighed_and_drawn(benchmark):
    benchmark.group = CHANGED
    benchmark.extra_info["against"] = "ours"
    plan = plan_from_data(fractal_of())
    orders = iter_orders()

    def changed():
        scheme = replace(plan.scheme, sequence=next(orders))
        found = answer(replace(plan, scheme=scheme))
        return found, strip_png(found)

    found, png = benchmark(changed)
    data = fractal_of()
    data["scheme"]["sequence"] = list(found.resolved.scheme.sequence)
    anew = answered(data)
    assert sorted(found.resolved.scheme.sequence) == sorted(EIGHT_LOTS)
    assert plan_json(found) == plan_json(anew)
    assert png == strip_png(anew)


def test_an_order_changed_weighed_and_drawn_by_matplotlib(benchmark):
    benchmark.group = CHANGED
    benchmark.extra_info["against"] = "the same, drawn by matplotlib (Agg)"
    plan = plan_from_data(fractal_of())
    orders = iter_orders()

    def changed():
        scheme = replace(plan.scheme, sequence=next(orders))
        found = answer(replace(plan, scheme=scheme))
        drawn = strip_layout(found.layout, found.palette, *SIZE)
        return found, drawn, strip_by_matplotlib(drawn)

    found, drawn, png = benchmark(changed)
    assert alike(pixels(strip_png(found)), pixels(png), drawn) == 1


def iter_orders():
    """Return moves of one lot to another place, one after the other, without end."""
    order, rng = list(EIGHT_LOTS), np.random.default_rng(8)
    while True:
        order.insert(int(rng.integers(8)), order.pop(int(rng.integers(8))))
        yield tuple(order)
