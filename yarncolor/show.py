"""What notebooks show: pictures and tables that Jupyter displays and a script can print.

The first six groups take what `yarncolor.answer` returns.

The plan

- `stash`: the lots with their grams, what is kept back and what is used
- `strip`: every ply over the whole length and the plied yarn, in colour
- `weigh_out`: what to weigh for each bobbin, in spinning order
- `advice`: what to mend before you start, the worst first

The yarn

- `yarn`: how long, how thick, how it marls
- `known`: its numbers, each with how it is known
- `drawing`: a cut, a side and a single, drawn large
- `counts`: its grist in every system, its wraps by every convention
- `twist`: what balances, and what too much twist does
- `moisture`: what it weighs in other air

At the wheel and after

- `bobbins`: what each holds, what it weighs full, when it comes off
- `weigh_points`: where to stop and weigh on the way
- `skeins`: where the yarn is broken, with tags for both ends
- `hours`: how long it takes
- `fabric`: what a knitted piece takes of each lot

What hands do to it

- `drift`: what ends first, what wanders, what would help most; with "yarns" twenty yarns as these
  hands would make them, with "apart" how far plies fall apart

Pictures

- `picture`: yarn, whole, wraps, skein, ball, knitted or woven
- `stripes`: how many rows each section is high in the knitting
- `sheet`: the swatch sheet; with "to share" the one for others to look at

Colours

- `mixtures`: lightest and darkest lot carded, plied and dyed paler
- `steps`: carded steps between the two, plain and even
- `pairs`: how each pair marls, and from where it reads as one
- `twins`: pairs hardly told apart, by every eye or by some

Several answers, each under what it is called

- `side_by_side`: strip, yarn and swatch of each, on one scale
- `differences`: what differs, in sentences and numbers
- `comparison`: the sheet that compares them

The numbers

- `why`: of each figure its formula with its numbers, where it comes from, what would be surer

A plan file

- `keys`: every key of one of its tables, with unit, range and default

Photographs

- `photo`: a photograph with boxes and corners drawn on it
- `proposals`: the lots that it may show, numbered
- `readings`: what was read in each box, and how far to trust it

Examples
--------
>>> import yarncolor as yc
>>> yc.show.strip(yc.answer(yc.read_plan("sample_data/tideline.toml"))).alt[:44]
'Fractal, 3 plies, 537 m of yarn in 6 colours'
"""

from yarncolor.report.show.colours import show_mixtures as mixtures
from yarncolor.report.show.colours import show_pairs as pairs
from yarncolor.report.show.colours import show_steps as steps
from yarncolor.report.show.colours import show_twins as twins
from yarncolor.report.show.comparison import show_differences as differences
from yarncolor.report.show.comparison import show_side_by_side as side_by_side
from yarncolor.report.show.drift import show_drift as drift
from yarncolor.report.show.fabric import show_fabric as fabric
from yarncolor.report.show.photos import show_photo as photo
from yarncolor.report.show.photos import show_proposals as proposals
from yarncolor.report.show.photos import show_readings as readings
from yarncolor.report.show.pictures import show_comparison as comparison
from yarncolor.report.show.pictures import show_picture as picture
from yarncolor.report.show.pictures import show_sheet as sheet
from yarncolor.report.show.pictures import show_stripes as stripes
from yarncolor.report.show.plan import show_advice as advice
from yarncolor.report.show.plan import show_stash as stash
from yarncolor.report.show.plan import show_strip as strip
from yarncolor.report.show.plan import show_weigh_out as weigh_out
from yarncolor.report.show.plan import show_yarn as yarn
from yarncolor.report.show.reference import show_keys as keys
from yarncolor.report.show.wheel import show_bobbins as bobbins
from yarncolor.report.show.wheel import show_hours as hours
from yarncolor.report.show.wheel import show_skeins as skeins
from yarncolor.report.show.wheel import show_weigh_points as weigh_points
from yarncolor.report.show.why import show_why as why
from yarncolor.report.show.yarn import show_counts as counts
from yarncolor.report.show.yarn import show_drawing as drawing
from yarncolor.report.show.yarn import show_known as known
from yarncolor.report.show.yarn import show_moisture as moisture
from yarncolor.report.show.yarn import show_twist as twist

__all__ = [
    "advice",
    "bobbins",
    "comparison",
    "counts",
    "differences",
    "drawing",
    "drift",
    "fabric",
    "hours",
    "keys",
    "known",
    "mixtures",
    "moisture",
    "pairs",
    "photo",
    "picture",
    "proposals",
    "readings",
    "sheet",
    "side_by_side",
    "skeins",
    "stash",
    "steps",
    "strip",
    "stripes",
    "twins",
    "twist",
    "weigh_out",
    "weigh_points",
    "why",
    "yarn",
]
