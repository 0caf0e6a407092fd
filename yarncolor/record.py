"""What came out: yarns that were made beside their plans, and what is remembered of them.

Yarns

- `came_out`: from a plan to the plan that says what came out
- `yarns`: yarns from their plan files, with the photographs that these name
- `write`: a page for each, of several one table and one picture, and ``record.json``
- `read`: the yarns that a ``record.json`` holds

One yarn, for a notebook

- `measures`: planned, spun and made side by side, differences with their signs
- `picture`: the yarn as planned, as spun and as it came out, on one scale
- `notes`: how each lot was dyed
- `advice`: what the advice had said, and whether it came true
- `summary`: all of it in words
- `numbers`: yarns as data, the keys of ``record.json``

Several yarns, for a notebook

- `table`: one row each
- `side_by_side`: all of them in one picture, on one scale

Your own hands

- `hand`: what plan files say of the hands that spun them; `hand_lines` says it in words
- `write_hand`: the same into a file, from which other plans take

Examples
--------
>>> import yarncolor as yc
>>> (tideline,) = yc.record.yarns(["sample_data/tideline.toml"])
>>> tideline.record.measures[0].name
'length_m'
"""

from yarncolor.editing.came_out import came_out
from yarncolor.report.record.command import write_record as write
from yarncolor.report.record.hand import hand_file as write_hand
from yarncolor.report.record.hand import hand_lines
from yarncolor.report.record.hand import read_hand as hand
from yarncolor.report.record.read import read_record as read
from yarncolor.report.record.words import yarn_text as summary
from yarncolor.report.record.yarns import read_yarns as yarns
from yarncolor.report.record.yarns import yarns_data as numbers
from yarncolor.report.show.record import show_advice as advice
from yarncolor.report.show.record import show_measures as measures
from yarncolor.report.show.record import show_notes as notes
from yarncolor.report.show.record import show_side_by_side as side_by_side
from yarncolor.report.show.record import show_yarn as picture
from yarncolor.report.show.record import show_yarns as table

__all__ = [
    "advice",
    "came_out",
    "hand",
    "hand_lines",
    "measures",
    "notes",
    "numbers",
    "picture",
    "read",
    "side_by_side",
    "summary",
    "table",
    "write",
    "write_hand",
    "yarns",
]
