"""What a plan file says, as frozen dataclasses whose fields are the file's keys.

Every field is annotated with its `Key`: meaning, range, default, words. None stands for a key
that was not given; `yarncolor.defaults` settles those.
"""

from yarncolor.plan.asked import PullOff, ToSpin
from yarncolor.plan.braid import Braid, Segment
from yarncolor.plan.fabric import Fabric, Swatch, Target
from yarncolor.plan.lots import WAYS_TO_A_COLOUR, Bath, Lot
from yarncolor.plan.made import Made
from yarncolor.plan.orders import AIM_NAMES, Aims, Orders
from yarncolor.plan.own_ply import FreePortion, OwnPly
from yarncolor.plan.plan import Plan, to_data
from yarncolor.plan.plied import Plied
from yarncolor.plan.plying import Plying
from yarncolor.plan.scheme import REVERSIBLE, SCHEME_NAMES, STRANDS_OF_A_CHAIN, Scheme
from yarncolor.plan.spinning import PerPly, Sample, Spinning, WrappedSkein
from yarncolor.plan.spun import Lost, Spun
from yarncolor.plan.stripe import Stripe
from yarncolor.plan.tools import Bobbins, Scale

__all__ = [
    "AIM_NAMES",
    "REVERSIBLE",
    "SCHEME_NAMES",
    "STRANDS_OF_A_CHAIN",
    "WAYS_TO_A_COLOUR",
    "Aims",
    "Bath",
    "Bobbins",
    "Braid",
    "Fabric",
    "FreePortion",
    "Lost",
    "Lot",
    "Made",
    "Orders",
    "OwnPly",
    "PerPly",
    "Plan",
    "Plied",
    "Plying",
    "PullOff",
    "Sample",
    "Scale",
    "Scheme",
    "Segment",
    "Spinning",
    "Spun",
    "Stripe",
    "Swatch",
    "Target",
    "ToSpin",
    "WrappedSkein",
    "to_data",
]
