"""What notebooks show of a plan's answer: each returns something that Jupyter displays.

TODO
"""

from yarncolor.report.show.colours import show_mixtures as mixtures
from yarncolor.report.show.colours import show_pairs as pairs
from yarncolor.report.show.colours import show_steps as steps
from yarncolor.report.show.colours import show_twins as twins
from yarncolor.report.show.comparison import show_differences as differences
from yarncolor.report.show.comparison import show_side_by_side as side_by_side
from yarncolor.report.show.html import show_advice as advice
from yarncolor.report.show.html import show_stash as stash
from yarncolor.report.show.html import show_strip as strip
from yarncolor.report.show.html import show_weigh_out as weigh_out
from yarncolor.report.show.html import show_yarn as yarn
from yarncolor.report.show.photos import show_photo as photo
from yarncolor.report.show.photos import show_proposals as proposals
from yarncolor.report.show.photos import show_readings as readings
from yarncolor.report.show.pictures import show_comparison as comparison
from yarncolor.report.show.pictures import show_picture as picture
from yarncolor.report.show.pictures import show_sheet as sheet
from yarncolor.report.show.pictures import show_stripes as stripes
from yarncolor.report.show.yarn_tables import show_bobbins as bobbins
from yarncolor.report.show.yarn_tables import show_counts as counts
from yarncolor.report.show.yarn_tables import show_drawing as drawing
from yarncolor.report.show.yarn_tables import show_fabric as fabric
from yarncolor.report.show.yarn_tables import show_hours as hours
from yarncolor.report.show.yarn_tables import show_known as known
from yarncolor.report.show.yarn_tables import show_moisture as moisture
from yarncolor.report.show.yarn_tables import show_skeins as skeins
from yarncolor.report.show.yarn_tables import show_twist as twist
from yarncolor.report.show.yarn_tables import show_weigh_points as weigh_points

__all__ = [
    "advice",
    "bobbins",
    "comparison",
    "counts",
    "differences",
    "drawing",
    "fabric",
    "hours",
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
    "yarn",
]
