"""What colour a lot has and how far two are apart: from numbers, mixtures, baths, a photograph.

Arrays in, arrays out, one colour a row: CIELAB is D65, 2° observer, L* 0 to 100; sRGB is 0 to 1,
as a screen takes it. Sources and validity stand with each function.

Numbers of a colour

- `css_hex`: a colour in words, as "dark brick red", as CSS hex
- `srgb_from_hex`, `hex_from_srgb`: between "#56612d" and sRGB
- `lab_from_srgb`, `srgb_from_lab`: between sRGB and CIELAB
- `shown_srgb`: the nearest colour that a screen can show, and whether it had to be moved
- `reflectance_from_lab`, `lab_from_reflectance`: between CIELAB and a spectrum that has it

How far apart

- `ciede2000`: for "do these match": made for small differences
- `hyab`: for "how loud": made for large ones
- `grey_scale_difference`, `grey_scale_grade`: the textile trade's own measure, 5 down to 1
- `contrast_word`: alike, close, clear or loud

Mixed before spinning, dyed again

- `blended_lab`: lots carded together, by Stearns and Noechel unless you say otherwise
- `blend_doubt`: how near a batt may be expected to the colour reckoned for it
- `stearns_noechel`, `friele`: what adds up in a blend of fibres
- `even_fractions`, `step_sizes`: carded steps that look alike, and how large steps are
- `k_over_s`: what adds up in a dyebath, by Kubelka and Munk
- `later_baths_lab`: later, paler baths of one dye
- `fitted_exhaustion`: how much dye your bath takes, from two baths of your own

Plied, and seen from afar

- `far_lab`: what a marl becomes when its stripes run together
- `contrast_left`: what an eye passes on of a fine pattern
- `reads_as_one_m`: from how far a marl reads as one colour: alone, wrapped or knitted

Other eyes

- `seen_lab`, `seen_srgb`: as an eye with a colour-vision deficiency tells colours apart
- `lightness_srgb`: the grey that is as light

Examples
--------
>>> import yarncolor as yc
>>> lots = yc.colour.lab_from_srgb(yc.colour.srgb_from_hex(["#56612d", "#e9e2d5"]))
>>> f"L* of the batt: {yc.colour.blended_lab([1, 1], lots)[0, 0]:.0f}"
'L* of the batt: 54'
"""

from yarncolor.colour.blend_doubt import blend_doubt
from yarncolor.colour.carding import blended_lab, friele, stearns_noechel
from yarncolor.colour.colour_vision import lightness_srgb, seen_lab, seen_srgb
from yarncolor.colour.difference import (
    contrast_word,
    grey_scale_difference,
    grey_scale_grade,
    hyab,
)
from yarncolor.colour.dye_depth import fitted_exhaustion, k_over_s, later_baths_lab
from yarncolor.colour.even_steps import even_fractions, step_sizes
from yarncolor.colour.optical_mixing import contrast_left, far_lab, reads_as_one_m
from yarncolor.colour.reflectance import lab_from_reflectance, reflectance_from_lab
from yarncolor.colour.science import (
    ciede2000,
    hex_from_srgb,
    lab_from_srgb,
    shown_srgb,
    srgb_from_hex,
    srgb_from_lab,
)
from yarncolor.colour.words import css_hex

__all__ = [
    "blend_doubt",
    "blended_lab",
    "ciede2000",
    "contrast_left",
    "contrast_word",
    "css_hex",
    "even_fractions",
    "far_lab",
    "fitted_exhaustion",
    "friele",
    "grey_scale_difference",
    "grey_scale_grade",
    "hex_from_srgb",
    "hyab",
    "k_over_s",
    "lab_from_reflectance",
    "lab_from_srgb",
    "later_baths_lab",
    "lightness_srgb",
    "reads_as_one_m",
    "reflectance_from_lab",
    "seen_lab",
    "seen_srgb",
    "shown_srgb",
    "srgb_from_hex",
    "srgb_from_lab",
    "stearns_noechel",
    "step_sizes",
]
