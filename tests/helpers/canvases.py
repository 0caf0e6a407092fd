"""What the painter's canvases show, and what the package's own pictures say they should."""

from dataclasses import replace

import numpy as np

from tests.helpers.browser import ORDER
from yarncolor import answer
from yarncolor.answers.answer import Answer
from yarncolor.pictures.painting import painted, rgb
from yarncolor.pictures.strip import raster
from yarncolor.pictures.strip_layout import LEFT_PX, YARN_PX, strip_layout
from yarncolor.widgets.order.order_frames import STRIP_PX, scenes_of

_PLACES = 200
_PIXELS = """([name, xs, ys]) => {
  const canvas = document.querySelector('.yc.order').order.page.canvases[name];
  const all = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height).data;
  return [canvas.width, canvas.height,
    xs.map((x, at) => [...all.slice(4 * (ys[at] * canvas.width + x)).slice(0, 4)])];
}"""


def strip_pixels(found: Answer) -> np.ndarray:
    """Return the bands of the package's strip without names and axis: (height, width, 3)."""
    layout = strip_layout(found.layout, found.palette, *STRIP_PX)
    index, colours = raster(replace(layout, texts=()))
    top = round(layout.bands[0].top_px)
    bottom = round(layout.yarn_top_px) + YARN_PX
    return colours[index][top:bottom, LEFT_PX : LEFT_PX + layout.inner_px]


def assert_as_the_pictures(page, plan, names=("strip", "yarn", "fabric")):
    """Assert that canvases show a plan as the package's pictures do, at 200 places of each.

    Parameters
    ----------
    page : Page
        With a painter of orders on it.
    plan : Plan
        What it should show.
    names : sequence of str
        Which canvases.
    """
    found = answer(plan)
    from_m = page.evaluate(f"{ORDER}.frame.from_m")
    knits_part = page.evaluate(f"{ORDER}.page.part.checked")
    scenes = scenes_of(found, from_m, from_m if knits_part else None)
    wanted = {
        "strip": lambda: strip_pixels(found),
        "yarn": lambda: rgb(painted(scenes.yarn, found)),
        "fabric": lambda: rgb(painted(scenes.fabric, found)),
    }
    for name in names:
        picture = wanted[name]()
        high, wide, _ = picture.shape
        rng = np.random.default_rng(1)
        y, x = rng.integers(0, high, _PLACES), rng.integers(0, wide, _PLACES)
        *size, seen = page.evaluate(_PIXELS, [name, x.tolist(), y.tolist()])
        assert size == [wide, high]
        opaque = np.full((_PLACES, 1), 255)
        np.testing.assert_allclose(seen, np.append(picture[y, x], opaque, axis=1), atol=1)
