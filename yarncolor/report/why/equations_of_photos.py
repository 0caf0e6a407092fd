"""Formulas of colours on a photograph that are told, beside the function that reckons each."""

from math import hypot, sqrt

from yarncolor.colour.srgb import coded
from yarncolor.report.why.equation import Equation

GAIN = Equation(lambda reflects, seen_light: reflects / seen_light, "{reflects} ÷ {seen_light}")
EVENED = Equation(
    lambda seen_light, light_there: seen_light / light_there, "{seen_light} ÷ {light_there}", "%"
)
PUT_RIGHT = Equation(lambda seen_light, gain: seen_light * gain, "{seen_light} × {gain}", "%")
BY_MATRIX = Equation(
    lambda of_red, red, of_green, green, of_blue, blue: (
        of_red * red + of_green * green + of_blue * blue
    ),
    "{of_red} × {red} + {of_green} × {green} + {of_blue} × {blue}",
    "%",
)

BY_ROOTS = Equation(
    lambda of_red_green, of_green_blue, of_blue_red, red, green, blue, **plain: (
        BY_MATRIX.of(red=red, green=green, blue=blue, **plain)
        + of_red_green * sqrt(red * green)
        + of_green_blue * sqrt(green * blue)
        + of_blue_red * sqrt(blue * red)
    ),
    f"{BY_MATRIX.text} + {{of_red_green}} × √({{red}} × {{green}}) "
    "+ {of_green_blue} × √({green} × {blue}) + {of_blue_red} × √({blue} × {red})",
    "%",
)
SHOWN = Equation(
    lambda light: float(255 * coded(light)), "255 × (1.055 × ({light})^(1 ÷ 2.4) − 0.055)"
)
MEAN_OF_PIXELS = Equation(lambda apart, looked_at: apart / looked_at, "{apart} ÷ {looked_at}")
MEAN_OF_PATCHES = Equation(
    lambda patches_apart, patches: patches_apart / patches, "{patches_apart} ÷ {patches}"
)
LARGER = Equation(lambda least, nearer: max(nearer, least), "the larger of {least} and {nearer}")
OUT_BY = Equation(
    lambda of_correction, of_reading: hypot(of_reading, of_correction),
    "√({of_correction}² + {of_reading}²)",
)
FALLS = Equation(
    lambda darkest, brightest: 1 - darkest / brightest, "1 − {darkest} ÷ {brightest}", "%"
)
STRAYS = Equation(
    lambda seen_light, fitted_light: seen_light / fitted_light - 1,
    "{seen_light} ÷ {fitted_light} − 1",
    "%",
)
