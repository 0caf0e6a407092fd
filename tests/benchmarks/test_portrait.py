"""A portrait, fibre by fibre: against as many lines drawn by matplotlib, and by its size."""

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.collections import LineCollection
from matplotlib.figure import Figure

from tests.helpers.sized_plans import fractal_of
from yarncolor import answer, plan_from_data
from yarncolor.pictures.portrait_fibres import fibres_of
from yarncolor.pictures.portrait_pictures import portrait
from yarncolor.pictures.yarn_geometry import yarn_geometry_of

GROUP, SIZE, LENGTH_MM = "portrait, 1200 x 300", (1200, 300), 12.0


@pytest.fixture(scope="module")
def found():
    data = fractal_of()
    data["spinning"] = {"single_tex": 110.0, "twist_tpm": 300.0}
    data["plying"] = {"twist_tpm": 180.0}
    return answer(plan_from_data(data))


def measured(benchmark, against: str) -> None:
    benchmark.group, benchmark.extra_info["against"] = GROUP, against


def test_a_portrait(benchmark, found):
    measured(benchmark, "ours")
    drawn = benchmark.pedantic(lambda: portrait(found, 1.0, LENGTH_MM, SIZE), rounds=8)
    assert drawn.pixels.shape == (300, 1200, 3)


def test_as_many_lines_by_matplotlib(benchmark, found):
    """Without light, hairs or what hides what: lines alone, as thick."""
    measured(benchmark, "matplotlib")
    wide, high = SIZE
    x = ((np.arange(wide) + 0.5) / wide * LENGTH_MM).astype(np.float32)
    rope = yarn_geometry_of(found.resolved.yarn)
    even, combed = np.ones(wide, np.float32), np.full(3, 0.5, np.float32)
    fibres = fibres_of(rope, x, even, combed, np.random.default_rng(1))

    def draw() -> np.ndarray:
        figure = Figure(figsize=(wide / 100, high / 100), dpi=100)
        canvas = FigureCanvasAgg(figure)
        axes = figure.add_axes((0, 0, 1, 1))
        axes.set(xlim=(0, LENGTH_MM), ylim=(-1.5, 1.5))
        rows = [np.column_stack([x, y]) for y in fibres.y_mm]
        axes.add_collection(LineCollection(rows, linewidths=1.8))
        canvas.draw()
        return np.asarray(canvas.buffer_rgba())

    assert benchmark.pedantic(draw, rounds=4).shape == (300, 1200, 4)
