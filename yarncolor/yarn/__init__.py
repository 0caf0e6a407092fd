"""What a yarn is as a thing: its formulas, and the yarn that the tables of a plan make.

Numbers in, numbers out, units in the names: tex is grams in 1,000 m, tpm turns in a metre, angles
are degrees from the axis. Sources and validity stand with each function.

Grist

- `to_tex`, `from_tex`: between tex and any count of the trades, such as "worsted count"
- `resultant_tex`: of a plied yarn, from its singles and the length lost in plying
- `diameter_mm`: how thick a round strand is, packed or relaxed
- `wraps_per_inch`, `tex_from_wraps`: from thickness to wraps, and from wraps to grist
- `wraps_by_convention`: one yarn wrapped loosely, the weavers' way, packed
- `relaxed_density`: your own density on the ruler, from a skein that you wrapped
- `weight_class`: what charts call a yarn, and whether they agree

Twist of a single

- `tpi`, `tpm`: turns to the inch and to the metre
- `twist_factor`, `twist_from_factor`: twist that is alike in thick and thin yarn, both ways
- `twist_angle_deg`, `twist_from_angle`: how steep the outer fibres lie, both ways
- `retraction`: what a strand loses of its length when twisted

Plying

- `Single`: one single before plying, as the formulas below take it
- `contraction`: the length that equal singles lose in plying, at one go; step by step:
- `ply_helix_radius_mm`: of the circle on which the centres of touching plies lie
- `helix_angle_deg`: how steep the plies lie
- `ply_spacing_mm`: from one ply to the next along the yarn: the width of a marl's stripe
- `helix_contraction`: length lost in plying by the helix alone
- `left_in_single_tpm`, `untwisting_contraction`: what plying leaves of the singles' twist, and
  the length lost when they untwist
- `balanced_tpm`: ply twist for a yarn that hangs straight, by every criterion in use

Fabric and air

- `loop_length_cm`, `loop_from_swatch_cm`: yarn in a stitch, by gauge or by a weighed swatch
- `tightness_factor`: how full of yarn a fabric is
- `mass_at_regain_g`: what fibre weighs when it has taken up water

The whole yarn

- `yarn_structure`: all of it for a plan, what was measured before what was reckoned

Examples
--------
>>> import yarncolor as yc
>>> single = yc.yarn.Single(diameter_mm=0.54, twist_tpm=315)
>>> f"{yc.yarn.contraction(single, plies=3, twist_tpm=190):.1%} of the length is lost in plying"
'1.5% of the length is lost in plying'
"""

from yarncolor.units import diameter_mm, tpi, tpm, wraps_per_inch
from yarncolor.yarn.balance import balanced_tpm
from yarncolor.yarn.helix import (
    Single,
    contraction,
    helix_angle_deg,
    helix_contraction,
    left_in_single_tpm,
    ply_helix_radius_mm,
    ply_spacing_mm,
    untwisting_contraction,
)
from yarncolor.yarn.knitting import loop_from_swatch_cm, loop_length_cm, tightness_factor
from yarncolor.yarn.linear_density import from_tex, resultant_tex, to_tex
from yarncolor.yarn.regain import mass_at_regain_g
from yarncolor.yarn.structure import yarn_structure
from yarncolor.yarn.twist import (
    retraction,
    twist_angle_deg,
    twist_factor,
    twist_from_angle,
    twist_from_factor,
)
from yarncolor.yarn.weight_classes import weight_class
from yarncolor.yarn.wraps import relaxed_density, tex_from_wraps, wraps_by_convention

__all__ = [
    "Single",
    "balanced_tpm",
    "contraction",
    "diameter_mm",
    "from_tex",
    "helix_angle_deg",
    "helix_contraction",
    "left_in_single_tpm",
    "loop_from_swatch_cm",
    "loop_length_cm",
    "mass_at_regain_g",
    "ply_helix_radius_mm",
    "ply_spacing_mm",
    "relaxed_density",
    "resultant_tex",
    "retraction",
    "tex_from_wraps",
    "tightness_factor",
    "to_tex",
    "tpi",
    "tpm",
    "twist_angle_deg",
    "twist_factor",
    "twist_from_angle",
    "twist_from_factor",
    "untwisting_contraction",
    "weight_class",
    "wraps_by_convention",
    "wraps_per_inch",
    "yarn_structure",
]
