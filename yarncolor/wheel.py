"""At the wheel: how to go on from what lies on the bobbins, and slips said in a word.

What was spun

- `spun_through`: every row of a ply's page up to one, as planned
- `measured`: a row that was found to be otherwise than planned
- `progress`: how far each bobbin has come, and what is next, for a notebook

Going on

- `replan`: from an answer, every way to go on, what each keeps of the plan, and the best of them
- `choices`: whether what has strayed matters, and the ways in a table, for a notebook
- `picture`: the yarn as planned, as it stands and under each way, on one scale
- `summary`: all of it in words
- `numbers`: all of it as data, the keys of ``replan.json``
- `write`: numbers, picture and the card of what is to spin into a folder
- `taken`: the plan that one of the ways makes

When a ply runs out

- `plied`: a plan of which so much yarn is plied; `progress` says what changes next
- `ran_out`: a plan of which a single ran out after so much yarn
- `rescues`: from an answer, every yarn that can still be made of what the others have left
- `rescue_choices`: what ran out, and these in a table with what the hands do, for a notebook
- `rescue_picture`: each of them beside the yarn that it goes on from, on one scale
- `care`: twist counted on the yarn, how a loop hangs, yarn that catches on hooks: what to do

Slips: from a plan to the plan that says what happened; plies and rows count from 1

- `left_out`: a row was left out
- `too_many`: a piece was spun that no row asks for
- `swapped`: two rows lie in each other's place
- `another_lot`: another lot went in
- `in_reverse`: a ply was spun from its last row to its first; `wound_once_more` puts it right
- `closed_once_from_here`: the closing colour ran double, and should not from here on
- `swapped_from_here`: the same, the last two pieces changing places at every meeting from here on
- `other_twist`: a single was spun the other way round

Examples
--------
>>> import yarncolor as yc
>>> plan = yc.wheel.left_out(yc.read_plan("sample_data/tideline.toml"), 1, 3)
>>> yc.wheel.replan(yc.answer(plan)).recommended.name
'make_up'
"""

from yarncolor.answers.choices import replan
from yarncolor.answers.rescues import rescued_yarns as rescues
from yarncolor.answers.taking import taken
from yarncolor.editing.at_plying import plied, ran_out
from yarncolor.editing.at_the_wheel import measured, spun_through
from yarncolor.editing.slips import (
    another_lot,
    closed_once_from_here,
    in_reverse,
    left_out,
    other_twist,
    swapped,
    swapped_from_here,
    too_many,
    wound_once_more,
)
from yarncolor.report.show.care import show_care as care
from yarncolor.report.show.rescues import show_rescued_yarns as rescue_picture
from yarncolor.report.show.rescues import show_rescues as rescue_choices
from yarncolor.report.show.ways_on import show_ways_on as choices
from yarncolor.report.show.ways_on import show_yarns_on as picture
from yarncolor.report.show.wheel import show_progress as progress
from yarncolor.report.ways_on import replan_dict as numbers
from yarncolor.report.ways_on import replan_text as summary
from yarncolor.report.ways_on import write_replan as write

__all__ = [
    "another_lot",
    "care",
    "choices",
    "closed_once_from_here",
    "in_reverse",
    "left_out",
    "measured",
    "numbers",
    "other_twist",
    "picture",
    "plied",
    "progress",
    "ran_out",
    "replan",
    "rescue_choices",
    "rescue_picture",
    "rescues",
    "spun_through",
    "summary",
    "swapped",
    "swapped_from_here",
    "taken",
    "too_many",
    "wound_once_more",
    "write",
]
