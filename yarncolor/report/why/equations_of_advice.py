"""Formulas of advice and of what hands do that are told, beside the function that reckons each."""

from math import hypot, sqrt

from yarncolor.report.why.equation import Equation
from yarncolor.yarn.knitting import JAMMED_LOOP_DIAMETERS

TO_BORROW = Equation(
    lambda bobbins_at_once, bobbins_there: bobbins_at_once - bobbins_there,
    "{bobbins_at_once} − {bobbins_there}",
)
RUNS = Equation(lambda end_m, start_m: end_m - start_m, "{end_m} − {start_m}", "m")
TIMES_THE_USUAL = Equation(lambda run_m, usual_m: run_m / usual_m, "{run_m} ÷ {usual_m}")
GIVES = Equation(lambda yarn_m, wanted_m: yarn_m / wanted_m, "{yarn_m} ÷ {wanted_m}", "%")
LACKS_FOR_IT = Equation(
    lambda spun_g, wanted_m, yarn_m, card_loss: (
        spun_g * (wanted_m - yarn_m) / yarn_m / (1 - card_loss)
    ),
    "{spun_g} × ({wanted_m} − {yarn_m}) ÷ {yarn_m} ÷ (1 − {card_loss})",
    "g",
)
LONGER_BY = Equation(
    lambda least_lost, most_lost: (1 - least_lost) / (1 - most_lost) - 1,
    "(1 − {least_lost}) ÷ (1 − {most_lost}) − 1",
    "%",
)
FLYER = Equation(
    lambda treadles_per_min, drive_ratio: treadles_per_min * drive_ratio,
    "{treadles_per_min} × {drive_ratio}",
    "turns a minute",
)
FLYER_BY_GRAMS = Equation(
    lambda linear_density_tex, minutes_per_g, twist_tpm: (
        1000 / linear_density_tex / minutes_per_g * twist_tpm
    ),
    "1000 ÷ {linear_density_tex} ÷ {minutes_per_g} × {twist_tpm}",
    "turns a minute",
)
JAMS = Equation(
    lambda diameter_mm: JAMMED_LOOP_DIAMETERS * diameter_mm,
    f"{JAMMED_LOOP_DIAMETERS} × {{diameter_mm}}",
    "mm",
)
HEAVIER = Equation(lambda found_g, stated_g: found_g - stated_g, "{found_g} − {stated_g}", "g")
THINNEST = Equation(
    lambda mass_g, braid_m, strip_share: mass_g / braid_m * strip_share,
    "{mass_g} ÷ {braid_m} × {strip_share}",
    "g to the metre",
)
MORE = Equation(lambda there_are, named: there_are - named, "{there_are} − {named}")
SURELY = Equation(
    lambda unsure_of_one, unsure_of_other: hypot(unsure_of_other, unsure_of_one),
    "√({unsure_of_one}² + {unsure_of_other}²)",
)
ENOUGH_FOR = Equation(lambda there_g, needed_g: there_g / needed_g, "{there_g} ÷ {needed_g}", "%")
STAPLES = Equation(lambda staple_cm: 2 * staple_cm, "2 × {staple_cm}", "cm")
FULL = Equation(
    lambda capacity_g, linear_density_tex: capacity_g / linear_density_tex * 1000,
    "{capacity_g} ÷ {linear_density_tex} × 1000",
    "m",
)
STAYS_IN_DRAWER = Equation(lambda there_g, taken_g: there_g - taken_g, "{there_g} − {taken_g}", "g")
ROOT_MEAN_SQUARE = Equation(
    lambda squares_m2, pairs, inside_m2: sqrt(squares_m2 / pairs + inside_m2),
    "√({squares_m2} ÷ {pairs} + {inside_m2})",
    "m",
)
EACH_ROLAG = Equation(lambda mass_g, rolags: mass_g / rolags, "{mass_g} ÷ {rolags}", "g")
