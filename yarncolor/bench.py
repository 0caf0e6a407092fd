"""Benches: what is dragged, chosen and typed, in a notebook or on a page.

TODO
"""

from yarncolor.widgets.comparison_bench import comparison_bench as comparison
from yarncolor.widgets.lots.lots_bench import lots_bench as lots
from yarncolor.widgets.mixing_bench import mixing_bench as mixing
from yarncolor.widgets.order.order_bench import order_bench as order
from yarncolor.widgets.photo.photo_bench import photo_bench as photo
from yarncolor.widgets.picture_bench import picture_bench as picture
from yarncolor.widgets.whole_bench import bench as whole
from yarncolor.widgets.yarn_bench import yarn_bench as yarn

__all__ = [
    "comparison",
    "lots",
    "mixing",
    "order",
    "photo",
    "picture",
    "whole",
    "yarn",
]
