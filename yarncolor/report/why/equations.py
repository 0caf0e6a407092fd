"""Every formula that is told, in one line, beside the function that reckons it.

A test reckons the lines as they are written and holds them against these functions. All are in
metric units; the source of each stands where its function is.
"""

from functools import partial
from math import ceil, floor, hypot, sqrt

from yarncolor.colour.optical_mixing import as_wide_as_a_minute_m
from yarncolor.plan import Fabric, Plying
from yarncolor.report.why.equation import Equation
from yarncolor.units import diameter_mm, m_per_100g, wraps_per_inch
from yarncolor.yarn import balance
from yarncolor.yarn.given import finishing_ratio
from yarncolor.yarn.helix import Single, helix_angle_deg, helix_contraction, ply_spacing_mm
from yarncolor.yarn.knitted_shape import Shape
from yarncolor.yarn.knitted_size import ROWS_TO_STITCHES, usual_gauge
from yarncolor.yarn.knitting import KS, USUAL_TIGHTNESS, loop_length_cm, tightness_factor
from yarncolor.yarn.linear_density import DIRECT, INDIRECT, from_tex, resultant_tex
from yarncolor.yarn.regain import mass_at_regain_g
from yarncolor.yarn.twist import retraction, twist_angle_deg
from yarncolor.yarn.wraps import WRAPPING_FACTORS

GRIST = Equation(m_per_100g, "100000 ÷ {linear_density_tex}", "m in 100 g")
RESULTANT = Equation(
    lambda singles_tex, contraction: resultant_tex([singles_tex], contraction),
    "{singles_tex} ÷ (1 − {contraction})",
    "tex",
)
THICKNESS = Equation(
    diameter_mm, "√(4 × {linear_density_tex} ÷ (π × {density_g_per_cm3} × 1000))", "mm"
)
WRAPS = Equation(wraps_per_inch, "25.4 mm ÷ {diameter_mm}")

PLY_ANGLE = Equation(
    lambda radius_mm, ply_twist_tpm: helix_angle_deg(radius_mm, twist_tpm=ply_twist_tpm),
    "arctan(2 × π × {radius_mm} ÷ 1000 × {ply_twist_tpm})",
    "°",
)
FIBRE_ANGLE = Equation(
    lambda diameter_mm, twist_tpm: twist_angle_deg(twist_tpm, diameter_mm),
    "arctan(π × {diameter_mm} ÷ 1000 × {twist_tpm})",
    "°",
)
PITCH = Equation(
    lambda ply_twist_tpm: ply_spacing_mm(ply_twist_tpm, 1), "1000 ÷ {ply_twist_tpm}", "mm"
)
SPACING = Equation(
    lambda plies, ply_twist_tpm: ply_spacing_mm(ply_twist_tpm, plies),
    "1000 ÷ {ply_twist_tpm} ÷ {plies}",
    "mm",
)
DRAFT = Equation(
    lambda drive_ratio, twist_tpm: drive_ratio / twist_tpm * 100,
    "{drive_ratio} ÷ {twist_tpm} × 100",
    "cm",
)
HELIX = Equation(helix_contraction, "1 − cos({angle_deg})", "%")


def _untwisting(angle_deg: float, angle_before_deg: float, angle_after_deg: float) -> float:
    kept = (1 - retraction(angle_after_deg)) / (1 - retraction(angle_before_deg))
    return 1 - (1 - helix_contraction(angle_deg)) * kept


UNTWISTING = Equation(
    _untwisting,
    "1 − cos({angle_deg}) × (1 − tan²({angle_after_deg} ÷ 2)) ÷ (1 − tan²({angle_before_deg} ÷ 2))",
    "%",
)
UNLIKE = Equation(
    lambda singles_tex, drawn_tex: 1 - singles_tex / drawn_tex,
    "1 − {singles_tex} ÷ {drawn_tex}",
    "%",
)

SPUN = Equation(
    lambda spun_g, spin_loss, linear_density_tex: (
        spun_g * (1 - spin_loss) * 1000 / linear_density_tex
    ),
    "{spun_g} × (1 − {spin_loss}) × 1000 ÷ {linear_density_tex}",
    "m",
)
PLIED = Equation(
    lambda single_m, contraction: single_m * (1 - contraction),
    "{single_m} × (1 − {contraction})",
    "m",
)
CHAINED = Equation(
    lambda single_m, contraction, folds: single_m * (1 - contraction) / folds,
    "{single_m} × (1 − {contraction}) ÷ {folds}",
    "m",
)
RESTED = Equation(
    lambda yarn_m, resting_shrinkage: yarn_m * (1 - resting_shrinkage),
    "{yarn_m} × (1 − {resting_shrinkage})",
    "m",
)
LEFT = Equation(
    lambda resting_shrinkage, finishing_shrinkage: finishing_ratio(
        Plying(resting_shrinkage=resting_shrinkage), Fabric(finishing_shrinkage=finishing_shrinkage)
    ),
    "(1 − {resting_shrinkage}) × (1 − {finishing_shrinkage})",
    "%",
)
WASHED = Equation(
    lambda yarn_m, finishing_ratio: yarn_m * finishing_ratio, "{yarn_m} × {finishing_ratio}", "m"
)
WEIGHED = Equation(
    lambda mass_g, yarn_m: mass_g / yarn_m * 1000, "{mass_g} ÷ {yarn_m} × 1000", "tex"
)
WEIGHS = Equation(
    lambda length_m, linear_density_tex: length_m * linear_density_tex / 1000,
    "{length_m} × {linear_density_tex} ÷ 1000",
    "g",
)
WITH_BOBBIN = Equation(lambda mass_g, tare_g: mass_g + tare_g, "{mass_g} + {tare_g}", "g")
BOBBINS = Equation(
    lambda bobbins_full, bobbins_plying: bobbins_full + bobbins_plying,
    "{bobbins_full} + {bobbins_plying}",
)

BY_GRAMS = Equation(
    lambda spun_g, minutes_per_g: spun_g * minutes_per_g / 60,
    "{spun_g} × {minutes_per_g} ÷ 60",
    "h",
)
_TREADLED = "{length_m} × {%s} ÷ ({treadles_per_min} × {drive_ratio}) ÷ 60"
BY_TREADLES = Equation(
    lambda length_m, twist_tpm, treadles_per_min, drive_ratio: (
        length_m * twist_tpm / (treadles_per_min * drive_ratio) / 60
    ),
    _TREADLED % "twist_tpm",
    "h",
)
PLYING_TIME = Equation(
    lambda length_m, ply_twist_tpm, treadles_per_min, drive_ratio: (
        length_m * ply_twist_tpm / (treadles_per_min * drive_ratio) / 60
    ),
    _TREADLED % "ply_twist_tpm",
    "h",
)
JOB = Equation(lambda spinning_h, plying_h: spinning_h + plying_h, "{spinning_h} + {plying_h}", "h")

SHARE_OF_LOT = Equation(
    lambda lot_g, share_of_lot: lot_g * share_of_lot, "{lot_g} × {share_of_lot}", "g"
)
IN_STEPS = Equation(lambda steps, step_g: steps * step_g, "{steps} × {step_g}", "g")
REST = Equation(
    lambda lot_g, steps, step_g: lot_g - steps * step_g, "{lot_g} − {steps} × {step_g}", "g"
)
BEFORE_CARDING = Equation(
    lambda mass_g, card_loss: mass_g / (1 - card_loss), "{mass_g} ÷ (1 − {card_loss})", "g"
)
ONTO_BOBBINS = Equation(
    lambda mass_g, spin_loss: mass_g * (1 - spin_loss), "{mass_g} × (1 − {spin_loss})", "g"
)
STAYS = Equation(
    lambda own_single_m, yarn_m, folds, contraction, linear_density_tex, spin_loss: (
        (own_single_m - yarn_m * folds / (1 - contraction))
        * linear_density_tex
        / 1000
        / (1 - spin_loss)
    ),
    "({own_single_m} − {yarn_m} × {folds} ÷ (1 − {contraction})) "
    "× {linear_density_tex} ÷ 1000 ÷ (1 − {spin_loss})",
    "g",
)
_NEARLY_WHOLE = 1e-9
SKEINS = Equation(
    lambda yarn_m, linear_density_tex, capacity_g: ceil(
        yarn_m * linear_density_tex / 1000 / capacity_g * (1 - _NEARLY_WHOLE)
    ),
    "rounded up: {yarn_m} × {linear_density_tex} ÷ 1000 ÷ {capacity_g}",
)

USED = Equation(
    lambda spun_g, card_loss, blends_g: spun_g / (1 - card_loss) + blends_g,
    "{spun_g} ÷ (1 − {card_loss}) + {blends_g}",
    "g",
)
PART = Equation(
    lambda mass_g, part, parts: mass_g * part / parts, "{mass_g} × {part} ÷ {parts}", "g"
)


STRAYS = Equation(
    lambda length_m, variation, variation_within, left_along, step_g, mass_g, variation_bobbins: (
        length_m
        * hypot(
            *(variation, variation_within * left_along),
            *(step_g / mass_g / sqrt(12), variation_bobbins),
        )
    ),
    "{length_m} × √(({variation})² + ({variation_within} × {left_along})² "
    "+ ({step_g} ÷ {mass_g})² ÷ 12 + ({variation_bobbins})²)",
    "m",
)
SHORT = Equation(lambda planned_m, spun_m: planned_m - spun_m, "{planned_m} − {spun_m}", "m")
OF_ALL = Equation(lambda such_spins, spins: such_spins / spins, "{such_spins} ÷ {spins}", "%")
WANDERS = Equation(
    lambda early_m, late_m: (late_m - early_m) / 2, "({late_m} − {early_m}) ÷ 2", "m"
)
NEARER = Equation(
    lambda now_10_m, now_50_m, now_90_m, then_10_m, then_50_m, then_90_m: (
        (now_10_m + now_50_m + now_90_m - then_10_m - then_50_m - then_90_m) / 3
    ),
    "({now_10_m} + {now_50_m} + {now_90_m} − {then_10_m} − {then_50_m} − {then_90_m}) ÷ 3",
    "m",
)
LESS_SHORT = Equation(
    lambda short_m, then_short_m: short_m - then_short_m, "{short_m} − {then_short_m}", "m"
)
COSTS_YARN = Equation(
    lambda short_m, then_short_m: then_short_m - short_m, "{then_short_m} − {short_m}", "m"
)
MATCHED = Equation(lambda matched_m, yarn_m: matched_m / yarn_m, "{matched_m} ÷ {yarn_m}", "%")

POINTS = Equation(
    lambda weight, value, best, worst: 100 * weight * (value - best) / (worst - best),
    "100 × {weight} × ({value} − {best}) ÷ ({worst} − {best})",
)
POINTS_OF_SHARES = Equation(
    lambda weight, value_share, best_share, worst_share: (
        100 * weight * (value_share - best_share) / (worst_share - best_share)
    ),
    "100 × {weight} × ({value_share} − {best_share}) ÷ ({worst_share} − {best_share})",
)

LOST_IN_PLYING = Equation(
    lambda plied_m, single_m: 1 - plied_m / single_m, "1 − {plied_m} ÷ {single_m}", "%"
)
LOST_IN_WASH = Equation(
    lambda washed_m, plied_m: 1 - washed_m / plied_m, "1 − {washed_m} ÷ {plied_m}", "%"
)
OF_MADE = Equation(
    lambda plied_m, mass_g: plied_m / mass_g * 100, "{plied_m} ÷ {mass_g} × 100", "m in 100 g"
)

BY_TURNS = Equation(lambda turns, turn_m: turns * turn_m, "{turns} × {turn_m}", "m")
BY_WEIGHT = Equation(
    lambda gross_g, tare_g, linear_density_tex: (gross_g - tare_g) / linear_density_tex * 1000,
    "({gross_g} − {tare_g}) ÷ {linear_density_tex} × 1000",
    "m",
)
TO_COME = Equation(lambda yarn_m, so_far_m: yarn_m - so_far_m, "{yarn_m} − {so_far_m}", "m")
TO_CHANGE = Equation(lambda change_m, so_far_m: change_m - so_far_m, "{change_m} − {so_far_m}", "m")
TURN = Equation(lambda change_m, turn_m: change_m / turn_m, "{change_m} ÷ {turn_m}")
LEFT_ON_SINGLE = Equation(
    lambda own_single_m, yarn_m, folds, contraction: (
        own_single_m - yarn_m * folds / (1 - contraction)
    ),
    "{own_single_m} − {yarn_m} × {folds} ÷ (1 − {contraction})",
    "m",
)
OF_STRANDS = Equation(
    lambda strand_m, contraction: strand_m * (1 - contraction),
    "{strand_m} × (1 − {contraction})",
    "m",
)
KEPT = Equation(lambda kept_m, yarn_m: kept_m / yarn_m, "{kept_m} ÷ {yarn_m}", "%")
OF_THE_GRAMS = Equation(lambda spun_g, all_g: spun_g / all_g, "{spun_g} ÷ {all_g}", "%")

LONGER = Equation(
    lambda longest_m, shorter_m: longest_m - shorter_m, "{longest_m} − {shorter_m}", "m"
)
SHOWS = Equation(lambda shows_m, yarn_m: shows_m / yarn_m, "{shows_m} ÷ {yarn_m}", "%")

COUNTS = {
    **{
        name: Equation(partial(from_tex, system=name), f"{{linear_density_tex}} × {factor:.10g}")
        for name, factor in DIRECT.items()
    },
    **{
        name: Equation(partial(from_tex, system=name), f"{over:.10g} ÷ {{linear_density_tex}}")
        for name, over in INDIRECT.items()
    },
}
"""Grist in each system of the trade."""

WRAPPED = {
    way: Equation(
        partial(lambda yd_per_lb, k: k * sqrt(yd_per_lb), k=factor),
        f"{factor:g} × √({{yd_per_lb}})",
    )
    for way, factor in WRAPPING_FACTORS.items()
}
"""Wraps to the inch by each way of wrapping."""

BALANCED = {
    "two_thirds": Equation(
        lambda twist_tpm: balance.two_thirds(Single(1.0, twist_tpm), 2),
        "{twist_tpm} × 2 ÷ 3",
        "turns in a metre",
    ),
    "equal_factor": Equation(
        lambda twist_tpm, plies: balance.equal_factor(Single(1.0, twist_tpm), plies),
        "{twist_tpm} ÷ √({plies})",
        "turns in a metre",
    ),
    "parallel_fibres": Equation(
        lambda twist_tpm, plies: balance.parallel_fibres(Single(1.0, twist_tpm), plies),
        "{twist_tpm} ÷ (1 + 1 ÷ sin(π ÷ {plies}))",
        "turns in a metre",
    ),
}
"""Ply twist by those criteria of balance that are solved in one line."""

DRAWN_IN = Equation(
    lambda angle_got_deg, angle_planned_deg: (
        (1 - retraction(angle_got_deg)) / (1 - retraction(angle_planned_deg)) - 1
    ),
    "(1 − tan²({angle_got_deg} ÷ 2)) ÷ (1 − tan²({angle_planned_deg} ÷ 2)) − 1",
    "%",
)
YARN_DRAWN_IN = Equation(
    lambda drawn_in, contraction, contraction_planned: (
        drawn_in * (1 - contraction) / (1 - contraction_planned) - 1
    ),
    "{drawn_in} × (1 − {contraction}) ÷ (1 − {contraction_planned}) − 1",
    "%",
)
MOIST = Equation(
    lambda mass_g, regain_after, regain_before: mass_at_regain_g(
        mass_g, regain_before, regain_after
    ),
    "{mass_g} × (1 + {regain_after}) ÷ (1 + {regain_before})",
    "g",
)
MOISTER = Equation(
    lambda regain_after, regain_before: mass_at_regain_g(1, regain_before, regain_after) - 1,
    "(1 + {regain_after}) ÷ (1 + {regain_before}) − 1",
    "%",
)

LOOP = Equation(
    loop_length_cm, f"√({KS:g} ÷ ({{stitches_per_10cm}} × {{rows_per_10cm}} ÷ 100))", "cm"
)
LOOP_OF_SWATCH = Equation(
    lambda mass_g, linear_density_tex, stitches: mass_g / linear_density_tex * 1e5 / stitches,
    "{mass_g} ÷ {linear_density_tex} × 100000 ÷ {stitches}",
    "cm",
)
USUAL_GAUGE = Equation(
    usual_gauge,
    f"10 × √({KS:g} ÷ {ROWS_TO_STITCHES:g}) × {USUAL_TIGHTNESS:g} ÷ √({{finished_tex}})",
    "in 10 cm",
)
ROW = Equation(
    lambda stitches, loop_cm: stitches * loop_cm / 100, "{stitches} × {loop_cm} ÷ 100", "m"
)
TIGHTNESS = Equation(
    tightness_factor,
    "√({linear_density_tex}) ÷ {loop_length_cm}",
    "√tex/cm",
)
AS_PLIED = Equation(
    lambda needs_m, finishing_ratio: needs_m / finishing_ratio, "{needs_m} ÷ {finishing_ratio}", "m"
)
NEEDS = Equation(
    lambda rows, row_m, stitches, edge_m: rows * row_m + 2 * stitches * edge_m,
    "{rows} × {row_m} + 2 × {stitches} × {edge_m}",
    "m",
)
NEEDS_GROWING = Equation(
    lambda rows, stitches, growth, loop_cm, edge_m: Shape(
        stitches, growth, loop_cm / 100, edge_m
    ).needs_m(rows),
    "({stitches} × {rows} + {growth} × {rows} × ({rows} − 1) ÷ 2) × {loop_cm} ÷ 100 "
    "+ (2 × {stitches} + {growth} × ({rows} − 1)) × {edge_m}",
    "m",
)
ROWS = Equation(
    lambda has_m, stitches, edge_m, row_m: floor((has_m - 2 * stitches * edge_m) / row_m),
    "whole rows of ({has_m} − 2 × {stitches} × {edge_m}) ÷ {row_m}",
)
WIDE = Equation(
    lambda stitches, stitches_per_10cm: stitches / stitches_per_10cm * 10,
    "{stitches} ÷ {stitches_per_10cm} × 10",
    "cm",
)
HIGH = Equation(
    lambda rows, rows_per_10cm: rows / rows_per_10cm * 10, "{rows} ÷ {rows_per_10cm} × 10", "cm"
)
FIBRE = Equation(
    lambda needs_plied_m, yarn_m, used_g, card_loss: (
        needs_plied_m / yarn_m * used_g / (1 - card_loss)
    ),
    "{needs_plied_m} ÷ {yarn_m} × {used_g} ÷ (1 − {card_loss})",
    "g",
)
LACKS = Equation(lambda needed_g, there_g: needed_g - there_g, "{needed_g} − {there_g}", "g")
A_MINUTE = Equation(
    as_wide_as_a_minute_m,
    "{width_mm} ÷ 1000 ÷ tan(1° ÷ 60)",
    "m",
)
