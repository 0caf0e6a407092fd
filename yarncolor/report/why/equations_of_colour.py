"""Formulas of mixed colours that are told, in one line, beside the function that reckons each."""

from math import hypot

from yarncolor.colour.carding import stearns_noechel_inverse
from yarncolor.colour.dye_depth import from_k_over_s, k_over_s
from yarncolor.report.why.equation import Equation

IN_PARTS = Equation(lambda part, parts: part / parts, "{part} ÷ {parts}", "%")
ADDED = Equation(
    lambda share_of_one, f_of_one, share_of_other, f_of_other: (
        share_of_one * f_of_one + share_of_other * f_of_other
    ),
    "{share_of_one} × {f_of_one} + {share_of_other} × {f_of_other}",
)
ADDS = Equation(lambda share, f_of_lot: share * f_of_lot, "{share} × {f_of_lot}")
REFLECTS = Equation(
    lambda f_of_batt, m: float(stearns_noechel_inverse(f_of_batt, m)),
    "(1 − 0.01 × {f_of_batt} × (1 − {m})) ÷ (1 + {m} × {f_of_batt})",
    "%",
)
DOUBT = Equation(
    lambda farthest, of_trials: hypot(of_trials, farthest), "√({of_trials}² + {farthest}²)"
)
LEFT = Equation(lambda exhaustion: 1 - exhaustion, "1 − {exhaustion}", "%")
LEFT_AFTER = Equation(
    lambda exhaustion, baths_before: (1 - exhaustion) ** baths_before,
    "(1 − {exhaustion})^({baths_before})",
    "%",
)
DEPTH = Equation(
    lambda reflectance: float(k_over_s(reflectance)),
    "(1 − {reflectance}) × (1 − {reflectance}) ÷ (2 × {reflectance})",
)
OF_BATH = Equation(
    lambda k_of_fibre, k_of_dyed, left: k_of_fibre + max(k_of_dyed - k_of_fibre, 0.0) * left,
    "{k_of_fibre} + ({k_of_dyed} − {k_of_fibre}) × {left}",
)
OF_DEPTH = Equation(
    lambda k_of_bath: float(from_k_over_s(k_of_bath)),
    "1 + {k_of_bath} − √({k_of_bath}² + 2 × {k_of_bath})",
    "%",
)
RATIO = Equation(lambda largest, smallest: largest / smallest, "{largest} ÷ {smallest}")
