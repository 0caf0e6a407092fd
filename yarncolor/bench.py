"""Benches: what is dragged, chosen and typed, in a notebook or on a page.

Each takes a plan file and returns a widget. What is changed stays on the bench until *Save the
plan* is pressed; comments in the file stay; undo takes a step back.

The plan itself

- `lots`: what is in the drawer, a row for each lot
- `order`: drag the colours; strip, yarn and fabric follow under the finger
- `orders`: which order is best, of all or of as many as can be tried
- `yarn`: grist, twist and plies by sliders, the yarn drawn large beside them
- `photo`: colours of lots by drawing boxes on a photograph

To look, and to decide

- `hands`: how even you are, and what such hands make of the plan
- `picture`: slide along the yarn, knit it, weave it, step back from it
- `comparison`: two or three ways of spinning the stash side by side
- `mixing`: two lots carded, plied and dyed again

At the wheel

- `spinning`: bobbin by bobbin what was spun, whether it matters, and how to go on
- `plying`: how far the yarn is, what changes next, and what can be made when a single runs out
- `made`: what came out, beside its plan, and its record

All at once

- `whole`: every bench, every option and all files round one plan, with undo

Examples
--------
>>> import yarncolor as yc
>>> bench = yc.bench.order("sample_data/tideline.toml", "out")
"""

from yarncolor.widgets.comparison_bench import comparison_bench as comparison
from yarncolor.widgets.drift_bench import drift_bench as hands
from yarncolor.widgets.lots.lots_bench import lots_bench as lots
from yarncolor.widgets.made_bench import made_bench as made
from yarncolor.widgets.mixing_bench import mixing_bench as mixing
from yarncolor.widgets.order.order_bench import order_bench as order
from yarncolor.widgets.orders_bench import orders_bench as orders
from yarncolor.widgets.photo.photo_bench import photo_bench as photo
from yarncolor.widgets.picture_bench import picture_bench as picture
from yarncolor.widgets.plying.plying_bench import plying_bench as plying
from yarncolor.widgets.spinning.spinning_bench import spinning_bench as spinning
from yarncolor.widgets.whole_bench import bench as whole
from yarncolor.widgets.yarn_bench import yarn_bench as yarn

__all__ = [
    "comparison",
    "hands",
    "lots",
    "made",
    "mixing",
    "order",
    "orders",
    "photo",
    "picture",
    "plying",
    "spinning",
    "whole",
    "yarn",
]
